"""From a computed fall to what side view and close-up draw of it."""

from __future__ import annotations

import numpy as np

from linelib.figures.scene import Frame, Scene
from linelib.models.backup_shape import backup_shape
from linelib.models.fall_results import Fall
from linelib.rigging import Setup
from linelib.studies.valley import Ground


def scene_of(setup: Setup, found: Fall, soft_until: float = 0.0, ground: Ground = ()) -> Scene:
    """What stays while a fall is scrubbed: a soft insert is marked from A to `soft_until` [m], `ground` is pairs x, z."""
    return Scene(
        alone=(found.alone.x, found.alone.z),
        standing=(found.line_x[0], found.line_z[0]),
        standing_tie_in=(float(found.tie_in_x[0]), float(found.tie_in_z[0])),
        standing_height=setup.walker.standing_height,
        soft_until=soft_until,
        chord_height=setup.rig.height_difference * setup.walker.position,
        lowest=(found.lowest_point, f"{found.lowest_point:.1f} m"),
        ground=(np.array([x for x, _ in ground]), np.array([z for _, z in ground])) if ground else None,
    )


def frame_of(setup: Setup, found: Fall, at: int | None = None) -> Frame:
    """The fall at one of its times, None: at its lowest point."""
    at = int(np.argmin(found.tie_in_z)) if at is None else at
    x, z = found.line_x[at], found.line_z[at]
    ring = int(np.argmin(np.abs(x - found.ring_x[at]) + np.abs(z - found.ring_z[at])))
    backup, parted = setup.rig.backup, None
    loops = backup_shape(backup=backup, line_x=x, line_z=z) if backup else (x[:1], z[:1])
    if backup and setup.failure and 0.0 <= found.failure_time < found.time[at]:
        ends = (0.0, *backup.joints, 1.0)[setup.failure.bay : setup.failure.bay + 2]
        parted = (float(ends[0] * x[-1]), float(ends[1] * x[-1]))
        loops[1].reshape(len(backup.joints) + 1, -1)[setup.failure.bay] = np.nan  # there the backup is the line
    tie_in = (float(found.tie_in_x[at]), float(found.tie_in_z[at]))
    return Frame(line=(x, z), ring=ring, tie_in=tie_in, backup=loops, parted=parted)
