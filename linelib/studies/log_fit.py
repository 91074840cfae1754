"""A fall model fitted to the log of one fall: which stiffness, pretension and damping the recorded force asks for, how surely.

The residuals are (model through the same cell - recorded) / noise. Every setting is fitted as its logarithm, so none becomes
negative, and the moment of stepping off is fitted along. A clipped sample is a bound: it counts only while the model is lower.
Standard uncertainties come from the Jacobian J at the best fit,

    covariance = (J'J)^-1 * scatter^2 * together,

with the scatter of the residuals, not the noise alone, and `together`, 1 for residuals that are independent and more where a
model that is not quite right leaves them in waves: 1 + 2 * sum of their autocorrelations.

Source: Gauss-Newton covariance of nonlinear least squares (any textbook; Seber & Wild 1989, chapter 5, from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import least_squares

from linelib.checks import number, one_of
from linelib.rigging import Setup
from linelib.studies.log_falls import LoggedFall
from linelib.studies.log_file import Log
from linelib.studies.log_fit_results import Estimate, Fit
from linelib.studies.log_model import SETTINGS
from linelib.studies.log_part import part_of
from linelib.studies.log_problem import MOST, Problem, together_of

Array = NDArray[np.float64]
USUAL = ("stiffness", "pretension", "leash_damping")
NINETY = 1.6449  # standard deviations to both sides hold 90 %, normal distribution


def fit_log(
    *,
    log: Log,
    fall: LoggedFall,
    setup: Setup,
    noise: float,
    vary: Sequence[str] = USUAL,
    anchor: str = "a",
    seconds: float = 4.0,
    progress: Callable[[int, int], None] | None = None,
) -> Fit:
    """Fit settings of `setup` to one fall of a log.

    Parameters
    ----------
    log, fall : as `falls_in_log` gives them; noise [N] : standard deviation of one sample, `Rest.noise`
    setup : where the fit begins; what is not in `vary` is believed
    vary : names of SETTINGS; anchor : a or b, where the cell was; seconds [s] : from stepping off on, at most so much is used
    progress : called with the evaluations done and at most allowed

    Returns: Fit.
    Raises: ValueError where the log is too sparse, has a gap in the rise, is clipped for the most part, or the fit fails.
    Valid: a log of an anchor cell, one fall, the first swing or two after it, before anybody moves. An averaging that is not
    stated is taken as none.
    Example: see tests/independent_route/test_log_fit.py; there is none by hand.
    Source: see the file; `scipy.optimize.least_squares`.
    Leaves out: an error of the cell's scale, which stiffness and pretension take up; what the fall model leaves out.
    """
    for name in vary:
        one_of("vary", name, tuple(SETTINGS))
    noise = max(number("noise", noise, low=0.0, high=1e6, unit="N"), 1.0)
    part = part_of(log=log, fall=fall, seconds=number("seconds", seconds, low=0.3, high=15.0, unit="s"))
    problem = Problem(part=part, setup=setup, vary=tuple(dict.fromkeys(vary)), noise=noise, anchor=anchor, progress=progress)
    first = np.append(np.zeros(len(problem.vary)), 0.0)
    found = least_squares(
        problem.residuals,
        first,
        jac=problem.jacobian,
        bounds=(-problem.reach, problem.reach),
        max_nfev=MOST,
        xtol=1e-6,
        ftol=1e-7,
    )
    if not found.success:
        raise ValueError(f"the fit did not settle within {MOST} evaluations: {found.message}")
    return _fit(problem, found.x)


def _fit(problem: Problem, x: Array) -> Fit:
    """Values, uncertainties and what the log cannot tell apart, at the best fit."""
    force = problem.forces([x])
    left, slopes = problem.bounded(force[0]), problem.jacobian(x)
    count = int(np.count_nonzero(~problem.part.clipped | (left < 0.0)))
    scatter = float(np.sqrt(left @ left / max(count - len(x), 1)))
    size = np.linalg.norm(slopes, axis=0)
    flat = size <= 1e-9 * size.max()
    if flat.any():
        names = [*problem.vary, "start"]
        raise ValueError(
            f"the log does not depend on {names[int(np.argmax(flat))]}; allowed: settings that move the recorded force"
        )
    together = together_of(left[~problem.part.clipped])
    inverse = np.linalg.pinv((slopes / size).T @ (slopes / size), rcond=1e-14) / np.outer(size, size)
    spread = inverse * scatter**2 * together
    error = np.sqrt(np.diag(spread))
    peak, by_peak = problem.peak(x)
    return Fit(
        estimates=_estimates(problem, x, error),
        start=problem.part.release + float(x[-1]),
        start_error=float(error[-1]),
        setup=problem.setup_at(x),
        peak=peak,
        peak_error=float(np.sqrt(by_peak @ spread @ by_peak)),
        correlation=spread / np.outer(error, error),
        condition=float(np.linalg.cond(slopes / size)),
        noise=problem.noise,
        scatter=scatter * problem.noise,
        together=together,
        misfit=float(left @ left),
        part=problem.part,
        modelled=force[0],
        anchor=problem.anchor,
    )


def _estimates(problem: Problem, x: Array, error: Array) -> tuple[Estimate, ...]:
    """The settings at the logarithms `x`, with their standard uncertainties."""
    values = problem.base * np.exp(x[:-1])
    width = np.minimum(NINETY * error[:-1], 50.0)
    at_end = np.abs(x) > problem.reach - 1e-3
    return tuple(
        Estimate(name=n, value=float(v), error=float(e), low=float(v * np.exp(-w)), high=float(v * np.exp(w)), at_end=bool(end))
        for n, v, e, w, end in zip(problem.vary, values, error[:-1], width, at_end[:-1], strict=True)
    )
