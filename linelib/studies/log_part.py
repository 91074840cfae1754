"""The part of a log that a fit uses: one fall, dense enough, with its clipped samples marked."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.checks import refuse
from linelib.studies.log_falls import LoggedFall
from linelib.studies.log_file import Log

Array = NDArray[np.float64]
EARLIER = 0.5  # [s] of standing before the step off that are used
IN_RISE, GAP = 10, 0.2  # samples from stepping off to the peak, at least; longest gap there, as a share of it: our choice
MOST_CLIPPED = 1.0 / 3.0  # of the samples used: our choice


@dataclass(frozen=True, kw_only=True)
class Part:
    """Times [s], forces [N], which are clipped, (samples,); release [s] as found in the log; averaging [s], 0 if not stated."""

    time: Array
    force: Array
    clipped: NDArray[np.bool_]
    release: float
    averaging: float


def part_of(*, log: Log, fall: LoggedFall, seconds: float) -> Part:
    """The samples from half a second before a fall to `seconds` after it.

    Parameters: log; fall, found in it; seconds [s].
    Returns: Part.
    Raises: ValueError with the reason: too few samples between step off and peak, a gap there, or too much of it clipped.
    Example: a cell of 5 Hz and a rise of 1.4 s: 7 samples, refused; from 8 Hz on there are more than ten.
    Source: by definition.
    """
    rise = (log.time >= fall.release) & (log.time <= fall.time)
    count, length = int(rise.sum()), fall.time - fall.release
    if count < IN_RISE:
        allowed = f"at least {IN_RISE} between stepping off and peak, {length:.2f} s; this log is too sparse to be fitted"
        raise refuse(f"{log.name}, samples in the rise", count, allowed)
    if (gap := float(np.diff(log.time[rise]).max())) > GAP * length:
        allowed = f"at most {GAP * length:.2f} s, a fifth of the time from stepping off to the peak"
        raise refuse(f"{log.name}, gap in the rise [s]", round(gap, 3), allowed)
    used = (log.time >= fall.release - EARLIER) & (log.time <= fall.release + seconds)
    if (share := float(log.clipped[used].mean())) > MOST_CLIPPED:
        raise refuse(f"{log.name}, share clipped", round(share, 2), "at most a third of the samples from step off on")
    return Part(
        time=log.time[used],
        force=log.force[used],
        clipped=log.clipped[used],
        release=fall.release,
        averaging=log.averaging or 0.0,
    )
