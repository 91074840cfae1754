"""Falls in a log of a cell at an anchor: when, how high as recorded, and how the line swings afterwards.

Three things make a fall, all with a reason. The line first goes light: the person in the air no longer hangs on it. Then it
is pulled well above its rest: a load that comes on suddenly counts twice, one that falls counts more. And it swings on around
the rest level, each swing smaller than the last. So a new fall begins after a quiet second, or with a peak higher than the one
before. Two falls without rest in between, the second lower, are taken for one.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.signal import find_peaks

from linelib.checks import number
from linelib.studies.log_file import Log
from linelib.studies.log_rest import Rest, rest_of
from linelib.studies.log_swing import Swing, parabola, swing_of

LEAST_RISE = 0.2  # of the rest level: our choice; falls in this model rise by 0.4 and more on usual lines
NOISES = 8.0  # standard deviations a peak and a dip must stand out: chance does not do that in a million samples
LIGHT = 0.1  # share of the rise by which the line must have gone light before: our choice
IN_AIR = 3.0  # [s] from going light to the peak at most: a free fall of 3 s is 44 m
HIGHER = 1.05  # a swing left alone does not grow


@dataclass(frozen=True, kw_only=True)
class LoggedFall:
    """One fall as recorded.

    time [s] of the highest sample, peak [N] that sample; smooth, smooth_error [N] : top of a parabola through the samples
    around it; missed [N] : what sampling and averaging may have missed of a top as round as that one, None where clipped
    release [s] : the force leaves its rest; before, before_error [N] : level there; dip [N] : lowest between release and peak
    clipped : the peak stands at the cell's end, and the true one is higher
    swing : Swing, None where fewer than two turns are recorded
    """

    time: float
    peak: float
    smooth: float
    smooth_error: float
    missed: float | None
    release: float
    before: float
    before_error: float
    dip: float
    clipped: bool
    swing: Swing | None


@dataclass(frozen=True, kw_only=True)
class LoggedFalls:
    """The log, its Rest, its falls in order of time, and what was noticed in looking for them."""

    log: Log
    rest: Rest
    falls: tuple[LoggedFall, ...]
    noticed: tuple[str, ...]


def falls_in_log(
    *, log: Log, least_rise: float = LEAST_RISE, rest: float | None = None, rest_error: float = 0.0
) -> LoggedFalls:
    """Find the falls in a log of a cell at an anchor.

    Parameters: log; least_rise [-] : least rise of a peak over the rest level, as a share of it, and its least prominence;
    rest, rest_error [N] as in `rest_of`.
    Returns: LoggedFalls, forces [N], times [s].
    Raises: ValueError naming what is not possible; also where nothing is quiet and no rest level is given.
    Example: a log that stands at 5 kN, dips to 3 and goes to 9 has one fall; one that goes to 5.9 has none, 18 % is too little.
    Source: `scipy.signal.find_peaks`; thresholds: see the file.
    Valid: a cell at an anchor. In a leash the rest is the body's weight and one catch has several peaks.
    """
    least_rise = number("least_rise", least_rise, low=0.02, high=5.0, unit="of the rest level")
    level = rest_of(log=log, rest=rest, rest_error=rest_error)
    least = max(least_rise * level.level, NOISES * level.noise)
    peaks = find_peaks(log.force, height=level.level + least, prominence=least)[0]
    falls, noticed = [], list(_wanders(level))
    for turns in _events(log, level, [int(p) for p in peaks]):
        if (found := _fall(log, level, turns)) is None:
            at, high = log.time[turns[0]], log.force[turns[0]] / 1e3
            noticed.append(f"a peak of {high:.2f} kN at {at:.2f} s without the line going light before: not taken for a fall")
        else:
            falls.append(found)
    return LoggedFalls(log=log, rest=level, falls=tuple(falls), noticed=tuple(noticed))


def _events(log: Log, level: Rest, peaks: list[int]) -> list[list[int]]:
    """Peaks that belong together: one swing that dies away."""
    events: list[list[int]] = []
    for peak in peaks:
        last = events[-1][-1] if events else None
        if last is None or log.force[peak] > HIGHER * log.force[last] or level.between(log.time[last], log.time[peak]):
            events.append([peak])
        else:
            events[-1].append(peak)
    return events


def _fall(log: Log, level: Rest, turns: list[int]) -> LoggedFall | None:
    """The fall with these peaks, or None where the line did not go light before the first of them."""
    top = turns[0]
    time, peak = float(log.time[top]), float(log.force[top])
    first = int(np.searchsorted(log.time, time - IN_AIR))
    before, error = level.before(time) or (level.level, level.error)
    low = first + int(np.argmin(log.force[first : top + 1]))
    if before - log.force[low] < max(LIGHT * (peak - before), NOISES * level.noise):
        return None
    still = np.flatnonzero(log.force[first : low + 1] >= before - max(4.0 * level.noise, 0.02 * before))
    clipped = bool(log.clipped[top])
    shape = parabola(log, time, max(0.06, 4.0 * log.interval))
    window = log.averaging or 0.0
    return LoggedFall(
        time=time,
        peak=peak,
        smooth=shape.top,
        smooth_error=shape.top_error,
        missed=None if clipped else shape.bend * (0.125 * log.interval**2 + window**2 / 24.0),
        release=float(log.time[first + int(still[-1])]) if len(still) else float(log.time[first]),
        before=before,
        before_error=error,
        dip=float(log.force[low]),
        clipped=clipped,
        swing=swing_of(log=log, turns=turns, level=before, level_error=error),
    )


def _wanders(level: Rest) -> tuple[str, ...]:
    """Words on a level that is not one."""
    if level.drift is None or level.drift_error is None or abs(level.drift) <= 3.0 * level.drift_error:
        return ()
    size = f"{level.drift:+.1f} ± {level.drift_error:.1f} N/s"
    return (f"the level at rest wanders by {size}: the cell's zero, or webbing that settles or slips; a log cannot tell which",)
