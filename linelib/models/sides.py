"""The webbing on each side of the leash ring: which pieces, and one tension for each side.

Stretch runs along webbing within milliseconds, so a side has one tension. Its pieces pull in series: stretch adds up.
With the standard linear solid (models/stretch.py) a piece under tension T, used to tension s, has the strain

    C(q),   q = (T + (r - 1) s) / r,   C = slow law as strain over tension,   ds/dt = (q - s) / relaxation time.

Arrays are (pieces, 2, falls): side A, side B; an axis of times may stand before.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from linelib.models.hanging_line import Pieces
from linelib.models.law_table import Indices, LawTable

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Sides:
    """Pieces of both sides from the anchor to the ring, arrays (pieces, 2, falls); short sides end in pieces of no length.

    length [m] natural, mass [kg] with what is hung under it, width [m], law (row of table), ratio [-] fast over slow,
    relaxation [s], loss [s], fails (bool): what parts in a failure of the main line.
    """

    table: LawTable
    length: Array
    mass: Array
    width: Array
    law: Indices
    ratio: Array
    relaxation: Array
    loss: Array
    fails: NDArray[np.bool_]

    @cached_property
    def plain(self) -> bool:
        """Straight laws without a fast part everywhere: stretch is then compliance times tension."""
        return self.table.straight and bool(np.all(self.ratio == 1.0))

    def of(self, j: int) -> Sides:
        """The sides of fall number `j`."""
        arrays = {f.name: getattr(self, f.name)[..., j : j + 1] for f in fields(self) if f.name != "table"}
        return Sides(table=self.table, **arrays)

    def grown(self, paid: Array) -> Sides:
        """The same with webbing `paid` out through the locks [m], (2, falls), added to the pieces at the anchors."""
        if not np.any(paid):
            return self
        length = np.repeat(self.length[None], len(paid), axis=0)
        length[:, 0] += paid
        return replace(self, length=length)

    def used(self, tension: Array, used_to: Array) -> Array:
        """q: what each piece's slow law feels [N], (pieces, 2, falls), at side tensions [N], (2, falls)."""
        return (tension[..., None, :, :] + (self.ratio - 1.0) * used_to) / self.ratio

    def stretch(self, tension: Array, used_to: Array) -> tuple[Array, Array]:
        """Stretch of each side [m] and its compliance [m/N], (2, falls)."""
        strain, compliance = self.table.strain(self.law, self.used(tension, used_to))
        return (self.length * strain).sum(-3), (self.length * compliance / self.ratio).sum(-3)

    def loss_time(self, tension: Array, used_to: Array) -> Array:
        """Loss time of each side [s], (2, falls): the mean of its pieces', weighted with their compliance."""
        give = self.length * self.table.strain(self.law, self.used(tension, used_to))[1] / self.ratio
        return np.asarray((give * self.loss).sum(-3) / give.sum(-3))

    def energy(self, tension: Array, used_to: Array) -> Array:
        """Energy stored in each piece [J], (pieces, 2, falls): slow law and the fast part beside it."""
        if self.plain:
            return self.length * self.table.energy(self.law, tension[..., None, :, :])
        q = self.used(tension, used_to)
        gap = self.table.strain(self.law, q)[0] - self.table.strain(self.law, used_to)[0]
        slow, base = self.table.energy(self.law, q), self.table.energy(self.law, used_to)
        return self.length * (slow + (self.ratio - 1.0) * (slow - base - used_to * gap))


def sides_of(pieces: Pieces, ring: Indices, fails: NDArray[np.bool_], gravity: float) -> Sides:
    """Sort the pieces of a batch of lines to both sides of the ring, which hangs at the end of piece `ring`, (falls,).

    Parameters: fails (pieces, falls) as in models/standing.py; gravity [m/s2]. Returns: Sides, lengths in [m], masses in [kg].

    Source: bookkeeping; nothing is approximated.
    """
    count = len(pieces.length)
    deepest = int(max((ring + 1).max(), (count - 1 - ring).max()))
    order = np.arange(deepest)[:, None]
    column = np.arange(len(ring))
    from_a, from_b = order + 0 * column, count - 1 - order + 0 * column
    which = np.stack([from_a, from_b], axis=1)
    present = np.stack([order <= ring, count - 1 - order > ring], axis=1)
    which = np.clip(which, 0, count - 1)
    law = pieces.law[which, column]
    length = pieces.length[which, column] * present
    kinds = pieces.table.webbings

    def of(name: str) -> Array:
        return np.array([getattr(w, name) for w in kinds])[law]

    return Sides(
        table=pieces.table,
        length=length,
        mass=pieces.weight[which, column] / gravity * length,
        width=of("width"),
        law=law,
        ratio=of("fast_ratio"),
        relaxation=of("relaxation_time"),
        loss=of("loss_time"),
        fails=fails[which, column] & present,
    )
