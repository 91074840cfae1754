"""What a slow cell misses: the same fall through cells of several rates and windows, and pulses that can be done by hand."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.checks import number, refuse
from linelib.studies.cell import through_cell

Array = NDArray[np.float64]
PHASES = 60  # moments at which the first sample may fall, evenly over one interval; every twentieth is among them


@dataclass(frozen=True, kw_only=True)
class SlowCell:
    """One cell on one force: rate [Hz], averaging [s], true peak [N], lowest, mean and highest recorded peak [N] over all
    moments at which the sampling may begin."""

    rate: float
    averaging: float
    true: float
    lowest: float
    mean: float
    highest: float

    @property
    def missed(self) -> tuple[float, float]:
        """Share of the true peak that is missed [-], at best and at worst."""
        return 1.0 - self.highest / self.true, 1.0 - self.lowest / self.true


def slow_cell(*, time: Array, force: Array, rate: float, averaging: float = 0.0) -> SlowCell:
    """The highest reading of a cell without noise, for every moment at which its sampling may begin.

    Parameters: time [s], rising, force [N], (times,), straight in between; rate [Hz]; averaging [s].
    Returns: SlowCell.
    Raises: ValueError naming what is not possible; also where an interval is longer than half of the force's time.
    Example: a half sine of 0.1 s and 1000 N at 20 Hz: from 707 N (samples at a quarter and three quarters) to 1000 N.
    Source: `through_cell`; the range over the phase is found by trying phases.
    """
    time, force = np.asarray(time, dtype=float), np.asarray(force, dtype=float)
    rate = number("rate", rate, low=1e-3, high=1e6, unit="Hz")
    if 2.0 / rate > time[-1] - time[0]:
        raise refuse("rate", rate, f"at least {2.0 / (time[-1] - time[0]):.3g} Hz, two intervals in the force's time")
    true = float(force.max())
    if true <= 0.0:
        raise refuse("force, highest", true, "a peak above 0 N")
    count = int(np.floor((time[-1] - time[0]) * rate + 1e-9))
    at = time[0] + (np.arange(count) + np.linspace(0.0, 1.0, PHASES, endpoint=False)[:, None]) / rate
    peaks = through_cell(time=time, force=force, at=at, averaging=averaging).max(axis=1)
    low, mean, high = (float(f(peaks)) for f in (np.min, np.mean, np.max))
    return SlowCell(rate=rate, averaging=averaging, true=true, lowest=low, mean=mean, highest=high)


def slow_cells(*, time: Array, force: Array, rates: Sequence[float], averagings: Sequence[float]) -> tuple[SlowCell, ...]:
    """`slow_cell` for every rate [Hz] with every window [s], rates first.

    Raises: ValueError as `slow_cell`.
    Source: `slow_cell`.
    """
    return tuple(slow_cell(time=time, force=force, rate=f, averaging=w) for f in rates for w in averagings)


def half_sine_averaged(*, pulse: float, window: float) -> float:
    """What is left of the peak of a half sine of duration T when it is meant over w.

        sin(x)/x, x = pi w / (2 T), for w <= T;  2 T/(pi w) beyond, when the window holds the whole pulse

    Parameters: pulse [s], T; window [s], w.
    Returns: recorded over true peak [-].
    Raises: ValueError naming what is not possible.
    Example: w = T: 2/pi = 0.637, the mean of a half sine.
    Source: integral of the cosine around its top, by hand.
    """
    pulse = number("pulse", pulse, low=1e-6, high=1e3, unit="s")
    window = number("window", window, low=0.0, high=1e3, unit="s")
    x = math.pi * window / (2.0 * pulse)
    if window >= pulse:
        return 1.0 / x
    return math.sin(x) / x if x > 0.0 else 1.0


def half_sine_sampled(*, pulse: float, rate: float) -> float:
    """The worst that sampling can do to the peak of a half sine: two samples at equal distance from its top.

        cos(pi / (2 f T)) for f T >= 1;  0 below: the pulse may fall between two samples

    Parameters: pulse [s], T; rate [Hz], f.
    Returns: lowest recorded over true peak [-].
    Raises: ValueError naming what is not possible.
    Example: 4 samples in a pulse: cos(pi/8) = 0.924.
    Source: definition of the sine, by hand.
    """
    pulse = number("pulse", pulse, low=1e-6, high=1e3, unit="s")
    rate = number("rate", rate, low=1e-3, high=1e6, unit="Hz")
    return math.cos(math.pi / (2.0 * rate * pulse)) if rate * pulse > 1.0 else 0.0


def rate_needed(*, pulse: float, missed: float) -> float:
    """The sampling rate that misses at most a share of the peak of a half sine, at the worst moment.

        f = pi / (2 T arccos(1 - missed))

    Parameters: pulse [s], T; missed [-], above 0, below 1.
    Returns: rate [Hz].
    Raises: ValueError naming what is not possible.
    Example: T = 0.1 s and 1 %: arccos(0.99) = 0.1415, so 111 Hz, eleven samples in the pulse.
    Source: `half_sine_sampled` solved for the rate.
    """
    pulse = number("pulse", pulse, low=1e-6, high=1e3, unit="s")
    missed = number("missed", missed, low=1e-6, high=0.999999)
    return math.pi / (2.0 * pulse * math.acos(1.0 - missed))


def sudden_load_recorded(*, period: float, window: float) -> float:
    """What a cell says of a load suddenly put on a spring, peak over weight, where the truth is 2.

        1 + sin(x)/x, x = pi w / P

    Parameters: period [s], P, of the free swing; window [s], w.
    Returns: recorded peak over weight [-], first swing, no damping, at the best moment.
    Valid: w up to P, and the window not before the load; else the first swing does not fill it.
    Raises: ValueError naming what is not possible.
    Example: w = P: 1, the cell shows the weight alone and nothing of the doubling.
    Source: mean of W (1 - cos(2 pi t / P)) around its top, by hand; factor 2: see tests/published.
    """
    period = number("period", period, low=1e-6, high=1e3, unit="s")
    window = number("window", window, low=0.0, high=period, unit="s")
    x = math.pi * window / period
    return 1.0 + (math.sin(x) / x if x > 0.0 else 1.0)


def slow_text(cells: Sequence[SlowCell]) -> str:
    """A row a cell: what it records of the true peak, and the share missed at worst; forces in [kN].

    Source: `slow_cell`.
    """
    rows = [f"{'rate [Hz]':>10}{'window [ms]':>13}{'true [kN]':>11}{'recorded [kN]':>18}{'missed at worst':>17}"]
    for c in cells:
        band = f"{c.lowest / 1e3:.2f} to {c.highest / 1e3:.2f}"
        missed = f"{100.0 * c.missed[1]:.1f} %"
        rows.append(f"{c.rate:>10.4g}{1e3 * c.averaging:>13.4g}{c.true / 1e3:>11.2f}{band:>18}{missed:>17}")
    return "\n".join(rows)
