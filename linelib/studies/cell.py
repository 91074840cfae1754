"""A load cell as it records: every sample is the mean of the force over a window that ends with it.

    r(t) = (1/w) * integral of F from t - w to t;  w = 0: r = F

The force is straight between given times, so the integral is exact. Real cells filter in other ways too; a window is the
plainest, and its width is what a data sheet can be asked for.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from linelib.checks import number, refuse

Array = NDArray[np.float64]


def through_cell(*, time: Array, force: Array, at: Array, averaging: float) -> Array:
    """What a cell shows at the times `at` of a force that is straight between `time`; before it, as at its first time.

    Parameters: time [s], rising, force [N], (times,); at [s], (samples,), none after the last time; averaging [s], w.
    Returns: recorded forces [N], (samples,).
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: a force that rises from 0 by 100 N a second, w = 0.2 s: at 1 s the cell shows 90 N, the mean of 80 to 100.
    Source: definition of the mean; the integral of a straight piece is a trapezium.
    """
    time, force, at = (np.asarray(values, dtype=float) for values in (time, force, at))
    if time.ndim != 1 or len(time) < 2 or not np.all(np.diff(time) > 0.0) or not np.all(np.isfinite(time)):
        raise refuse("time, samples", time.shape, "one row of at least two times that rise")
    if force.shape != time.shape or not np.all(np.isfinite(force)):
        raise refuse("force, samples", force.shape, f"finite numbers, as many as times, {len(time)}")
    averaging = number("averaging", averaging, low=0.0, high=60.0, unit="s")
    if not np.all(at <= time[-1]):
        raise refuse("at", float(np.max(at)), f"times to {time[-1]:g} s, where the force ends")
    if averaging == 0.0:
        return np.asarray(np.interp(at, time, force))
    until = _integral(time, force)
    return np.asarray((until(at) - until(at - averaging)) / averaging)


def _integral(time: Array, force: Array) -> Callable[[Array], Array]:
    """The integral of the force from its first time to x [N s], exact where the force is straight."""
    step, rise = np.diff(time), np.diff(force)
    sums = np.concatenate([[0.0], np.cumsum(0.5 * step * (force[1:] + force[:-1]))])
    slope = rise / step

    def until(x: Array) -> Array:
        k = np.clip(np.searchsorted(time, x, side="right") - 1, 0, len(slope) - 1)
        part = x - time[k]
        inside = sums[k] + part * (force[k] + 0.5 * part * slope[k])
        return np.asarray(np.where(x < time[0], (x - time[0]) * force[0], inside))

    return until


def sampled(
    *, time: Array, force: Array, rate: float, averaging: float, phase: float = 0.0, noise: float = 0.0, seed: int = 1
) -> tuple[Array, Array]:
    """Times [s] and readings [N] of a cell of `rate` [Hz] whose first sample lies `phase` of an interval after the start.

    Parameters: time [s], force [N], (times,); rate [Hz]; averaging [s]; phase [-], 0 to 1; noise [N], standard deviation of
    one sample, independent from sample to sample; seed of the noise.
    Returns: times [s] and readings [N], (samples,).
    Raises: ValueError as `through_cell`, and where not even two samples fit.
    Example: 1 s at 10 Hz and phase 0.5: ten samples at 0.05, 0.15, ... 0.95 s.
    Source: `through_cell`.
    """
    rate = number("rate", rate, low=1e-3, high=1e6, unit="Hz")
    phase = number("phase", phase, low=0.0, high=1.0, unit="of an interval")
    noise = number("noise", noise, low=0.0, high=1e6, unit="N")
    time = np.asarray(time, dtype=float)
    count = int(np.floor((time[-1] - time[0]) * rate - phase + 1e-9)) + 1
    if count < 2:
        raise refuse("rate", rate, f"at least two samples in {time[-1] - time[0]:g} s")
    at = np.minimum(time[0] + (np.arange(count) + phase) / rate, time[-1])
    read = through_cell(time=time, force=force, at=at, averaging=averaging)
    return at, np.asarray(read + noise * np.random.default_rng(seed).standard_normal(count))
