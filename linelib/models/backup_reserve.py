"""How much longer than the main line a backup must be, so that it never loads while the main line holds."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

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
    least = least_extra_lengths(rigs=[rig], tensions=[tension])[:, 0]
    least[0] += slip_a
    least[-1] += slip_b
    return least


def least_extra_lengths(*, rigs: Sequence[Rig], tensions: ArrayLike) -> Array:
    """`least_extra_length` of many rigs at once, whose backups are joined at the same places; nothing paid out by the locks.

    Parameters: rigs, one or more; tensions [N], shape (rigs,), more than 0.
    Returns: array (bays, rigs) [m].
    Raises: ValueError without a backup, for different joints, or naming what is not possible.
    Source: as least_extra_length; tests compare the two.
    """
    backups = [rig.backup for rig in rigs]
    joints = {backup.joints if backup else None for backup in backups}
    if len(joints) != 1 or None in joints:
        raise refuse("backup", backups, "rigs with backups, all joined at the same places")
    pull = np.array(tensions, float)
    if pull.shape != (len(rigs),) or not np.all((pull >= 1.0) & (pull <= 1e6)):
        raise refuse("tensions", tensions, f"{len(rigs)} numbers from 1 to 1e+06 N, one a rig")
    lines = lines_of(rigs)
    pieces = lines.pieces
    ends = np.cumsum(pieces.length, axis=0)
    strain = pieces.table.strain(pieces.law, np.broadcast_to(pull, pieces.law.shape))[0]
    places = [place_on_line(lines, np.full(len(rigs), joint)) for joint in joints.pop() or ()]
    edges = np.array([np.zeros(len(rigs)), *places, ends[-1]])
    begins = ends - pieces.length
    inside = np.minimum(edges[1:, None], ends) - np.maximum(edges[:-1, None], begins)
    return np.asarray((np.maximum(inside, 0.0) * strain).sum(1))
