"""What a log says of its falls, in words; a cell's number never without its sampling and its averaging."""

from __future__ import annotations

from linelib.cautions import CAUTION, HELD
from linelib.studies.log_falls import LoggedFall, LoggedFalls
from linelib.studies.log_file import Log, window_in_words

NO_PEAK = "A measured peak is the highest of the samples taken, not the peak. What happens between two samples leaves no trace."


def cell_in_words(log: Log) -> str:
    """Sampling [Hz] and averaging [ms] of a log's cell.

    Source: the log.
    """
    return f"{log.rate:.4g} Hz, {window_in_words(log)}"


def falls_text(found: LoggedFalls) -> str:
    """Rest level, then every fall with its peak, what may be missed of it, and its swing; forces [kN], times [s].

    Source: `falls_in_log`.
    """
    rest, log = found.rest, found.log
    lines = [f"at rest     {rest.level / 1e3:.3f} ± {rest.error / 1e3:.3f} kN; noise of one sample {rest.noise:.0f} N"]
    if rest.drift is not None and rest.drift_error is not None:
        lines.append(f"drift       {rest.drift:+.1f} ± {rest.drift_error:.1f} N/s")
    lines.append(f"falls       {len(found.falls)} found; all numbers as recorded with {cell_in_words(log)}")
    for i, fall in enumerate(found.falls, 1):
        lines += _fall_lines(i, fall)
    lines += [f"noticed     {words}" for words in found.noticed]
    if log.noticed:
        lines.append(f"noticed     {len(log.noticed)} more in reading the file: see log_text")
    return "\n".join([*lines, NO_PEAK, HELD, CAUTION])


def _fall_lines(i: int, fall: LoggedFall) -> list[str]:
    """Words on one fall."""
    light = f"light from {fall.release:.2f} s, from {fall.before / 1e3:.2f} down to {fall.dip / 1e3:.2f} kN"
    if fall.clipped:
        first = (
            f"fall {i}      at {fall.time:.2f} s at least {fall.peak / 1e3:.2f} kN: clipped, the true peak is higher; {light}"
        )
    else:
        first = (
            f"fall {i}      at {fall.time:.2f} s highest sample {fall.peak / 1e3:.2f} kN, "
            f"smoothed {fall.smooth / 1e3:.3f} ± {fall.smooth_error / 1e3:.3f} kN; {light}"
        )
    lines = [first]
    if fall.missed is not None:
        lines.append(
            f"            of a top as round as the recorded one the cell may miss {fall.missed:.1f} N, of a sharper one more"
        )
    if fall.swing is None:
        lines.append("            swing: too few tops to read it")
    else:
        s = fall.swing
        lines.append(
            f"            swing: {s.period:.3f} ± {s.period_error:.3f} s ({s.frequency:.2f} Hz), "
            f"decrement {s.decrement:.3f} ± {s.decrement_error:.3f} (damping ratio {s.damping:.3f}), from {s.turns} tops"
        )
    return lines
