"""The shape of one hanging line: points along it, with height and tension."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.models.hanging_line import Pieces, land

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Shape:
    """Points along the line: `x` from A, `z` above A (up) [m], `tension` [N], `length` natural from A [m]; (points,)."""

    x: Array
    z: Array
    tension: Array
    length: Array


def shape_of(pieces: Pieces, h: Array, v: Array, points: int = 16) -> Shape:
    """Points along a line of one column under the pull (h, v) at A [N], each piece cut in `points` parts.

    All points are the ends of one batch of lines cut short. Returns: Shape, lengths in [m], tension in [N].
    Source: models/hanging_line.py.
    """
    ends = np.cumsum(pieces.length[:, 0])
    starts = ends - pieces.length[:, 0]
    steps = np.arange(1, points + 1) / points
    s = np.append(0.0, (starts[:, None] + steps * pieces.length[:, :1]).ravel())
    s = s[np.append(True, np.diff(s) > 0.0)]
    cut = np.clip(s[None] - starts[:, None], 0.0, pieces.length)
    passed = ends[:, None] < s[None] * (1.0 - 1e-12)
    many = Pieces(
        table=pieces.table,
        length=cut,
        weight=np.repeat(pieces.weight, len(s), axis=1),
        law=np.repeat(pieces.law, len(s), axis=1),
        load=pieces.load * passed,
    )
    landing = land(many, np.repeat(h, len(s)), np.repeat(v, len(s)))
    return Shape(x=landing.x[-1], z=-landing.y[-1], tension=np.hypot(h, landing.end[-1]), length=s)
