"""How much longer than the main line a backup must be, so that it never loads while the main line holds."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from linelib.checks import instance, number, refuse
from linelib.models.lines import lines_of, place_on_line
from linelib.rigging import Rig

Array = NDArray[np.float64]


def least_extra_length(*, rig: Rig, tension: float, slip_a: float = 0.0, slip_b: float = 0.0) -> Array:
    """Least extra length of each bay of the rig's backup, for a highest `tension` of the main line.

    least = sum over the bay of natural length * slow strain(tension), and what the lock beside it has paid out

    Parameters
    ----------
    rig : with a backup
    tension [N] : the highest expected, from the worst fall that is to be held by the main line, more than 0
    slip_a, slip_b [m] : webbing paid out by the locks, which lengthens the main line in the bays at the anchors, from 0 up

    Returns
    -------
    array (bays,) [m]; the largest is the least extra length of a backup that has one for all bays.

    Raises: ValueError without a backup, or naming what is not possible.
    Example: 10 m of stiffness 40 kN at 4.75 kN stretch 1.19 m; the bay they lie in must be longer by more than that.
    Valid: an upper estimate. The slow law stretches more than the fast one, and the joints' straight distance is less than the
    line between them.
    Leaves out: joints that slip, stretch of the backup, wear. More extra length costs drop: look at the catch.
    Source: stretch of pieces in series.
    """
    instance("rig", rig, Rig)
    number("tension", tension, low=1.0, high=1e6, unit="N")
    for name, slip in (("slip_a", slip_a), ("slip_b", slip_b)):
        number(name, slip, low=0.0, high=1000.0, unit="m")
    if rig.backup is None:
        raise refuse("backup", None, "a rig with a backup")
    lines = lines_of([rig])
    joints = [float(place_on_line(lines, np.array([j]))[0]) for j in rig.backup.joints]
    pieces = lines.pieces
    ends = np.cumsum(pieces.length[:, 0])
    strain = pieces.table.strain(pieces.law[:, 0], np.full(len(ends), tension))[0]
    edges = np.array([0.0, *joints, ends[-1]])
    begins = ends - pieces.length[:, 0]
    inside = np.minimum(edges[1:, None], ends) - np.maximum(edges[:-1, None], begins)
    least = (np.maximum(inside, 0.0) * strain).sum(1)
    least[0] += slip_a
    least[-1] += slip_b
    return np.asarray(least)
