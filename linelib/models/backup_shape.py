"""Where a backup hangs while the main line carries: loops between its joints, for drawing."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from linelib.rigging import Backup

Array = NDArray[np.float64]
POINTS = 13


def backup_shape(*, backup: Backup, line_x: Array, line_z: Array) -> tuple[Array, Array]:
    """Points x, z [m] of the backup's loops under a main line that runs through line_x, line_z [m], (nodes,), rising x.

    Each bay is a parabola whose length exceeds the straight distance of its joints by the extra length:
    sag = sqrt(3 * bay * extra / 8) * bay / level distance of the joints, straight down, for a shallow loop.

    Returns: x, z, (bays * 13,) each.
    Raises: ValueError by Backup for a joint outside the span.
    Example: a bay of 50 m with 1.5 m of extra length hangs sqrt(3 * 50 * 1.5 / 8) = 5.3 m deep.
    Valid: for drawing; loops deeper than a third of their bay are drawn too deep.
    Leaves out: the joint's own place along the stretched line, its weight, wind.
    Source: arc length of a shallow parabola, s = l (1 + 8 (sag cos slope)^2 / (3 l^2)) (any handbook of cables).
    """
    ends_x = np.array([line_x[0], *(line_x[0] + j * (line_x[-1] - line_x[0]) for j in backup.joints), line_x[-1]])
    ends_z = np.interp(ends_x, line_x, line_z)
    share = np.linspace(0.0, 1.0, POINTS)
    bay = np.hypot(np.diff(ends_x), np.diff(ends_z))
    sag = np.sqrt(3.0 * bay * backup.extra_length / 8.0) * bay / np.diff(ends_x)
    x = ends_x[:-1, None] + np.diff(ends_x)[:, None] * share
    z = ends_z[:-1, None] + np.diff(ends_z)[:, None] * share - 4.0 * sag[:, None] * share * (1.0 - share)
    return x.ravel(), z.ravel()
