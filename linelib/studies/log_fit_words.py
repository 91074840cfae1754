"""A fit in words: each setting with its interval, and plainly what the log cannot tell apart."""

from __future__ import annotations

import math

from linelib.cautions import CAUTION
from linelib.studies.log_file import Log
from linelib.studies.log_fit_results import Estimate, Fit
from linelib.studies.log_model import SETTINGS
from linelib.studies.log_words import cell_in_words

ALIKE, POOR, NEARLY = 0.95, 0.3, 30.0  # correlation; relative uncertainty; condition number of the slopes
# How far fits of 4 s were off on computed falls with stretch waves: tests/independent_route/test_log_fit_bias.py.
MODEL = (
    "the intervals cover noise only; the fall model's own error comes on top: on falls computed with stretch waves it was up "
    "to 1.5 % in pretension, 3 % in stiffness (10 % with polyamide), 1 % in the peak"
)
DAMPING = "damping of the leash: an order of size at most; on those falls it came out up to 4 times too large or too small"
WAVES = 3.0  # scatter over noise from which the misfit is more than noise


def not_told(fit: Fit) -> tuple[str, ...]:
    """What the log cannot tell, one sentence a thing; () where it tells all that was asked.

    Pairs whose correlation [-] is beyond 0.95, settings that are uncertain by more than 30 %, settings that ran to the end of
    what was allowed, a condition number beyond 30, and a misfit that is more than noise.
    Source: definitions in `Fit`; the thresholds are our choice.
    """
    names = [SETTINGS[e.name].words.split(",")[0] for e in fit.estimates] + ["moment of stepping off"]
    said = []
    for i in range(len(names)):
        for j in range(i):
            r = float(fit.correlation[i, j])
            if abs(r) > ALIKE:
                how = "more of one and less of the other" if r < 0.0 else "more of both"
                said.append(f"{names[j]} and {names[i]} cannot be told apart (correlation {r:+.2f}): {how} fits as well")
    said += [
        f"{n} is not told: {100 * e.error:.0f} % uncertain"
        for n, e in zip(names, fit.estimates, strict=False)
        if e.error > POOR
    ]
    said += [
        f"{n} ran to the end of what was allowed: not a result" for n, e in zip(names, fit.estimates, strict=False) if e.at_end
    ]
    if fit.condition > NEARLY:
        said.append(
            f"the questions nearly repeat each other (condition number {fit.condition:.0f}): ask fewer, or record longer"
        )
    if fit.scatter > WAVES * fit.noise:
        times = fit.scatter / fit.noise
        said.append(f"the misfit is {times:.1f} times the noise: the model, or what was believed, is not this fall")
    return tuple(said)


def fit_text(fit: Fit, log: Log) -> str:
    """Fitted settings with 90 % intervals, the true peak the fitted fall has, and what the log cannot tell; [kN], [s].

    Source: `fit_log`.
    """
    count, clipped = len(fit.part.time), int(fit.part.clipped.sum())
    bounds = f", {clipped} of them clipped and used as bounds" if clipped else ""
    lines = [f"used        {count} samples of {log.name}, {cell_in_words(log)}, anchor {fit.anchor.upper()}{bounds}"]
    lines += [f"fitted      {_line(e)}" for e in fit.estimates]
    lines.append(f"step off    at {fit.start:.3f} ± {fit.start_error:.3f} s")
    lines.append(f"misfit      {fit.scatter:.0f} N a sample, noise {fit.noise:.0f} N; condition number {fit.condition:.1f}")
    lines.append(
        f"peak        {fit.peak / 1e3:.2f} ± {max(fit.peak_error / 1e3, 0.01):.2f} kN in the fitted fall, if the model is right"
    )
    said = not_told(fit)
    lines += [f"not told    {words}" for words in said] or [
        "not told    nothing of what was asked; what was believed is not tested"
    ]
    lines.append(f"model       {MODEL}")
    if any(e.name == "leash_damping" for e in fit.estimates):
        lines.append(f"model       {DAMPING}")
    return "\n".join([*lines, CAUTION])


def _line(e: Estimate) -> str:
    """Words, value and interval of one setting."""
    s = SETTINGS[e.name]
    factor, unit = (1e-3, "kN") if s.unit == "N" else (1e3, "ms") if s.unit == "s" else (1.0, s.unit)
    value, low, high = (_three(factor * v) for v in (e.value, e.low, e.high))
    return f"{s.words}: {value}{'' if unit == '-' else ' ' + unit} (90 %: {low} to {high})"


def _three(value: float) -> str:
    """A number with three digits that count: the model's own error leaves no more."""
    digits = 2 - math.floor(math.log10(max(abs(value), 1e-9)))
    return f"{round(value, digits):.{max(digits, 0)}f}"
