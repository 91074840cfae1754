"""Badly seated webbing in a falling line: what its strips give up at which tension, and at which one it parts."""

from __future__ import annotations

import numpy as np

from linelib.checks import refuse
from linelib.models.strips import Strips
from linelib.rigging import Failure, Tear

SHORTEST = 1e-6  # m
HIGHER = 1.0 + 1e-6  # a peak pull above an earlier one by less than this is the same one, rounded


def torn_in_fall(*, strips: Strips, bay: int, torn: int = 0) -> Failure:
    """The stages in which strips tear under a pull that rises, as a Failure of the main line in the bay beside their lock.

    The pull climbs to that of the next strip, which tears; all tear at once that cannot hold this pull, and the end moves out
    until the rest carries it: a Tear. Where nothing that is left holds more, the line parts.

    Parameters
    ----------
    strips : of models/strips.py; stiffening = the webbing's fast_ratio for a fall
    bay : number of the backup's bay beside the lock
    torn : strips torn before, in an earlier fall

    Returns: Failure with its `tears` [N], [m] and the `tension` [N] at which it parts.
    Raises: ValueError when no strip is left.
    Example: 33 kN, a quarter of the width tight, the rest longer by more than it stretches: a Tear at 8.25 kN; parts at 24.75.
    Valid: the line gives way slowly beside the strips (its own stretch takes up millimetres with little loss of tension).
    Leaves out: the jerk when strips tear, the strips' own give before they tear (it lies in the few centimetres at the lock).
    Source: balance of forces; models/tearing.py takes the same stages load by load.
    """
    stages = _stages(strips, torn)
    tears = tuple(Tear(tension=pull, length=length) for _, pull, length in stages[:-1] if length >= SHORTEST)
    return Failure(bay=bay, tears=tears, tension=stages[-1][1])


def strips_torn(*, strips: Strips, length: float, torn: int = 0) -> int:
    """How many strips have torn in all once the lock has given up a `length` [m] in a fall that it held.

    Parameters: strips, torn : as given to `torn_in_fall`; length [m] : Fall.slip_a or slip_b.
    Returns: a number of strips for `torn` of the next fall.
    Source: as torn_in_fall.
    """
    stages = _stages(strips, torn)
    out = np.cumsum([0.0, *(stage[2] for stage in stages[:-1])])
    return stages[min(int(np.searchsorted(out, length - SHORTEST)), len(stages) - 1)][0]


def _stages(strips: Strips, torn: int) -> list[tuple[int, float, float]]:
    """Strips torn before a stage, the pull [N] that ends it, and the length [m] given up then (0 for the last)."""
    if isinstance(torn, bool) or not isinstance(torn, int) or not 0 <= torn < len(strips.peak_pull):
        raise refuse("torn", torn, f"a whole number from 0 to {len(strips.peak_pull) - 1}")
    peaks = strips.peak_pull[torn:]
    first = (np.flatnonzero(peaks > HIGHER * np.maximum.accumulate(np.append(0.0, peaks[:-1]))) + torn).tolist()
    pulls = [float(strips.peak_pull[k]) for k in first]
    out = [strips.displacement(pull=p, torn=k) for p, k in zip(pulls[:-1], first[1:], strict=True)]
    given = [end - float(strips.tears_at[k]) for end, k in zip(out, first[:-1], strict=True)]
    return list(zip(first, pulls, [*given, 0.0], strict=True))
