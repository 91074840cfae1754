"""The line with the walker standing on it, many setups at once: where a fall begins."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.models.hanging_line import Pieces, land, solve_pull
from linelib.models.law_table import Indices
from linelib.models.lines import GRAVITY, Lines, divide, lines_of, place_on_line
from linelib.rigging import Setup

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Standing:
    """Lines at rest under walker and ring, arrays (falls,): `horizontal` [N]; `ring_x`, `ring_z` [m] from A, z up;
    `ring` : the piece at whose end the ring hangs; `lines` : the same hanging alone; `fails` (pieces, falls): what parts
    in a failure of the main line."""

    lines: Lines
    pieces: Pieces
    ring: Indices
    fails: NDArray[np.bool_]
    horizontal: Array
    ring_x: Array
    ring_z: Array

    @property
    def sag(self) -> Array:
        """Depth of the ring below the straight line between the anchors [m], (falls,)."""
        return self.lines.rise * self.ring_x / self.lines.span - self.ring_z


def standing_of(setups: Sequence[Setup]) -> Standing:
    """Stand every walker on the line, in balance.

    Returns: Standing, lengths in [m], forces in [N].
    Raises: ValueError when a rig cannot hang.
    Source: models/hanging_line.py (Irvine 1981).
    """
    lines = lines_of([s.rig for s in setups])
    place = place_on_line(lines, np.array([s.walker.position for s in setups]))
    weight = np.array([s.walker.mass + s.leash.ring_mass for s in setups]) * GRAVITY
    at = np.stack([place, *_bay_ends(lines, setups)])
    pieces, hung_at = divide(lines.pieces, at, np.stack([weight, *(0.0 * at[1:])]))
    number = np.arange(len(pieces.length))[:, None]
    fails = (number > hung_at[1]) & (number <= hung_at[2]) if len(at) > 1 else np.zeros(pieces.length.shape, dtype=bool)
    horizontal, vertical = solve_pull(pieces, span=lines.span, rise=lines.rise)
    landing = land(pieces, horizontal, vertical)
    ring, column = hung_at[0], np.arange(len(setups))
    return Standing(
        lines=lines,
        pieces=pieces,
        ring=ring,
        fails=fails,
        horizontal=horizontal,
        ring_x=landing.x[ring, column],
        ring_z=-landing.y[ring, column],
    )


def _bay_ends(lines: Lines, setups: Sequence[Setup]) -> tuple[Array, ...]:
    """Natural lengths [m] from A at which the bays that part begin and end, (2, falls); nothing where none does."""
    if all(s.failure is None for s in setups):
        return ()
    ends = np.zeros((2, len(setups)))
    for j, setup in enumerate(setups):
        if setup.failure and setup.rig.backup:
            ends[:, j] = (0.0, *setup.rig.backup.joints, 1.0)[setup.failure.bay : setup.failure.bay + 2]
    total = lines.pieces.length.sum(0)
    found = (place_on_line(lines, np.clip(end, 1e-6, 1.0 - 1e-6)) for end in ends)
    return tuple(np.where(end <= 0.0, 0.0, np.where(end >= 1.0, total, at)) for end, at in zip(ends, found, strict=True))
