"""What is drawn of a fall: what stays while it is scrubbed, and one of its instants."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Path = tuple[Array, Array]


@dataclass(frozen=True, kw_only=True)
class Frame:
    """One instant of a fall, lengths [m]: the line, its ring node, the tie-in, the backup under it, and from where to where
    along the span the main line has parted and the backup is the line."""

    line: tuple[Array, Array]
    ring: int
    tie_in: tuple[float, float]
    backup: tuple[Array, Array]
    parted: tuple[float, float] | None = None


@dataclass(frozen=True, kw_only=True)
class Scene:
    """What stays while a fall is scrubbed: line alone and standing, tie-in then, where the insert ends, words, and the ground,
    a path x, z [m] from A, where there is one."""

    alone: tuple[Array, Array]
    standing: tuple[Array, Array]
    standing_tie_in: tuple[float, float]
    standing_height: float
    soft_until: float
    chord_height: float
    lowest: tuple[float, str]
    ground: Path | None = None
