"""The level at rest in a log: where nothing moves, how strong the noise is, and whether the level wanders.

Quiet are windows of 1 s whose four quarter means agree: within 6 standard errors of noise, or within 0.5 % of the log's range,
whichever is more. A swing at 0.2 to 1 Hz, as after a fall, does not pass that. (Both numbers: our choice.)
Noise is read from third differences, d = F4 - 3 F3 + 3 F2 - F1: slow motion cancels in them, and independent noise of standard
deviation s leaves sqrt(20) s. The median makes it blind to the few samples of a sharp catch.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.checks import number, refuse
from linelib.studies.log_file import Log

Array = NDArray[np.float64]
WINDOW, QUARTERS, FLAT, ERRORS = 1.0, 4, 0.005, 6.0
MEDIAN = 1.4826  # standard deviation over median absolute value, normal distribution
OF_MEDIAN = 1.2533  # standard error of a median over that of a mean, normal distribution: sqrt(pi/2)


@dataclass(frozen=True, kw_only=True)
class Rest:
    """Level at rest, its standard uncertainty, noise of one sample [N]; drift and its uncertainty [N/s], None where quiet
    windows are too few; begin and end [s] and level [N] of every quiet window, (windows, 3)."""

    level: float
    error: float
    noise: float
    drift: float | None
    drift_error: float | None
    quiet: Array

    def before(self, time: float) -> tuple[float, float] | None:
        """Level and standard uncertainty [N] of the last quiet window that ends by `time` [s], None where there is none."""
        ended = self.quiet[self.quiet[:, 1] <= time]
        return (float(ended[-1, 2]), float(ended[-1, 3])) if len(ended) else None

    def between(self, begin: float, end: float) -> bool:
        """Whether a quiet window lies between two times [s]."""
        return bool(np.any((self.quiet[:, 0] >= begin) & (self.quiet[:, 1] <= end)))


def noise_of(force: Array) -> float:
    """Standard deviation [N] of independent noise in evenly sampled forces, from third differences.

    Source: variance of a sum of independent terms, 1 + 9 + 9 + 1 = 20.
    """
    return float(MEDIAN * np.median(np.abs(np.diff(force, 3))) / np.sqrt(20.0))


def rest_of(*, log: Log, rest: float | None = None, rest_error: float = 0.0) -> Rest:
    """Rest level of a log by the median of its quiet windows, or as given.

    Parameters: log; rest [N], a level known from elsewhere, for a log with no quiet second; rest_error [N].
    Returns: Rest.
    Raises: ValueError where nothing in the log is quiet and no level is given.
    Example: 10 s of 5000 N with noise of 20 N at 100 Hz: 5000 N, known to 1.2533 * 20 / sqrt(1000) = 0.8 N.
    Source: standard error of a median, sqrt(pi/2) of that of a mean (any statistics textbook); see the file for what is quiet.
    Leaves out: several levels. A log that begins before the walker mounts has more than one: see `LoggedFall.before`.
    """
    noise = noise_of(log.force[~log.clipped]) if np.count_nonzero(~log.clipped) > 3 else 0.0
    quiet = _quiet(log, noise)
    if rest is not None:
        level = number("rest", rest, low=0.0, high=1e7, unit="N")
        error = number("rest_error", rest_error, low=0.0, high=1e6, unit="N")
    elif not len(quiet):
        allowed = f"at least {WINDOW:g} s in which nothing moves, or a level given as `rest` [N]"
        raise refuse(f"{log.name}, quiet time", 0.0, allowed)
    else:
        level = float(np.median(quiet[:, 2]))
        scatter = float(quiet[:, 2].std(ddof=1)) if len(quiet) > 1 else 0.0
        error = OF_MEDIAN * max(scatter, float(np.median(quiet[:, 3])) / OF_MEDIAN) / np.sqrt(len(quiet))
    drift, drift_error = _drift(quiet)
    return Rest(level=level, error=float(error), noise=noise, drift=drift, drift_error=drift_error, quiet=quiet)


def _quiet(log: Log, noise: float) -> Array:
    """Begin, end [s], median, its standard uncertainty [N] of every quiet window, (windows, 4)."""
    found: list[tuple[float, float, float, float]] = []
    size = float(np.ptp(log.force))
    edges = np.searchsorted(log.time, np.arange(log.time[0], log.time[-1], 0.25 * WINDOW))
    free = 0
    for begin in edges:  # windows slide by a quarter, and do not overlap once one is taken
        end = int(np.searchsorted(log.time, log.time[begin] + WINDOW))
        force = log.force[begin:end]
        whole = log.time[end - 1] - log.time[begin] > WINDOW - 1.6 * log.interval
        if begin < free or len(force) < 2 * QUARTERS or not whole or log.clipped[begin:end].any():
            continue
        parts = [float(part.mean()) for part in np.array_split(force, QUARTERS)]
        allowed = max(ERRORS * noise / np.sqrt(len(force) / QUARTERS), FLAT * size)
        if max(parts) - min(parts) <= allowed:
            error = OF_MEDIAN * float(force.std(ddof=1)) / np.sqrt(len(force))
            found.append((float(log.time[begin]), float(log.time[end - 1]), float(np.median(force)), error))
            free = end
    return np.array(found).reshape(-1, 4)


def _drift(quiet: Array) -> tuple[float | None, float | None]:
    """Slope through the levels of the quiet windows [N/s] and its standard uncertainty: their scatter, at least their noise."""
    if len(quiet) < 3:
        return None, None
    x = 0.5 * (quiet[:, 0] + quiet[:, 1])
    x = x - x.mean()
    slope = float(x @ quiet[:, 2] / (x @ x))
    left = quiet[:, 2] - quiet[:, 2].mean() - slope * x
    scatter = float(np.sqrt(left @ left / (len(x) - 2)))
    return slope, max(scatter, float(np.median(quiet[:, 3]))) / float(np.sqrt(x @ x))
