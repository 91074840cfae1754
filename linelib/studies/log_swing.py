"""The swing after a catch: its period and how fast it dies away, from the tops in a log."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from linelib.studies.log_file import Log

AROUND = 0.08  # of the period on both sides of a top: there a swing is a parabola within 1 %


@dataclass(frozen=True, kw_only=True)
class Top:
    """Top of a parabola through samples: when [s], how high [N], both standard uncertainties, and its bend [N/s2]."""

    time: float
    time_error: float
    top: float
    top_error: float
    bend: float


@dataclass(frozen=True, kw_only=True)
class Swing:
    """Period [s] and logarithmic decrement [-] with standard uncertainties; `turns` : how many tops they were read from."""

    period: float
    period_error: float
    decrement: float
    decrement_error: float
    turns: int

    @property
    def frequency(self) -> float:
        """Swings a second [Hz]."""
        return 1.0 / self.period

    @property
    def damping(self) -> float:
        """Damping ratio z [-] of a free swing with this decrement: decrement / sqrt(4 pi^2 + decrement^2)."""
        return self.decrement / math.hypot(2.0 * math.pi, self.decrement)


def parabola(log: Log, time: float, reach: float) -> Top:
    """The parabola through the samples within `reach` [s] of a top at `time` [s], its top [N] and bend [N/s2].

    Uncertainties from the scatter about the parabola. Where it does not bend down, or has its top elsewhere, the highest
    sample is taken, with the scatter of one sample.
    Source: least squares, propagation of uncertainty by first order (any textbook).
    """
    near = (np.abs(log.time - time) <= reach) & ~log.clipped
    x, y = log.time[near] - time, log.force[near]
    highest = float(np.max(log.force[np.abs(log.time - time) <= reach]))
    if len(x) < 5:
        return Top(time=time, time_error=log.interval, top=highest, top_error=0.0, bend=0.0)
    rows = np.stack([np.ones_like(x), x, x * x], axis=1)
    (c, b, a), *_ = np.linalg.lstsq(rows, y, rcond=None)
    left = y - rows @ [c, b, a]
    scatter = math.sqrt(float(left @ left) / (len(x) - 3))
    if a >= 0.0 or abs(b) > -2.0 * a * reach:
        return Top(time=time, time_error=log.interval, top=highest, top_error=scatter, bend=max(-2.0 * a, 0.0))
    at = -b / (2.0 * a)
    spread = scatter**2 * np.linalg.inv(rows.T @ rows)
    by_top = np.array([1.0, at, at * at])  # the slope there is nought, so the place of the top does not count
    by_time = np.array([0.0, -1.0 / (2.0 * a), b / (2.0 * a * a)])
    return Top(
        time=time + float(at),
        time_error=math.sqrt(float(by_time @ spread @ by_time)),
        top=float(c + 0.5 * b * at),
        top_error=math.sqrt(float(by_top @ spread @ by_top)),
        bend=float(-2.0 * a),
    )


def swing_of(*, log: Log, turns: Sequence[int], level: float, level_error: float) -> Swing | None:
    """Period and logarithmic decrement from the tops of one swing.

        period = (t_n - t_1) / (n - 1),   decrement = ln((F_1 - level) / (F_n - level)) / (n - 1)

    Parameters: log; turns : numbers of the samples at the tops; level, level_error [N].
    Returns: Swing, or None with fewer than two tops below the cell's end, or tops so uneven that it is no swing.
    Valid: a swing that keeps its shape. The force of a line grows faster than its drop, so a large first swing is not quite
    one: its decrement then is that of the force, not of the drop. The first top is left out where it is clipped.
    Example: tops 2000 and 1000 N above the level, 2 s apart: period 2 s, decrement ln 2 = 0.693, damping ratio 0.110.
    Source: logarithmic decrement (any vibrations textbook); uncertainties by first order.
    """
    free = [t for t in turns if not log.clipped[t]]
    if len(free) < 2:
        return None
    gaps = np.diff(log.time[free])
    tops = [parabola(log, float(log.time[t]), max(AROUND * float(gaps.min()), 3.0 * log.interval)) for t in free]
    first, last, count = tops[0], tops[-1], len(tops) - 1
    high, low = first.top - level, last.top - level
    if gaps.max() > 1.5 * gaps.min() or low <= 0.0 or high <= 0.0:
        return None
    scatter = float(np.std(np.diff([t.time for t in tops]), ddof=1)) / math.sqrt(count) if count > 1 else 0.0
    by_level = level_error * (1.0 / low - 1.0 / high)
    return Swing(
        period=(last.time - first.time) / count,
        period_error=max(math.hypot(first.time_error, last.time_error) / count, scatter),
        decrement=math.log(high / low) / count,
        decrement_error=math.hypot(first.top_error / high, last.top_error / low, by_level) / count,
        turns=len(tops),
    )
