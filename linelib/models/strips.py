"""Webbing as strips side by side: which of them carry, when the first one tears, and how much strength is left.

A mechanism, not a prediction of strength. All strips end at the same moving line; one that is longer by its path difference
carries nothing until the line has moved by so much. A strip tears at a displacement of its own, whatever the others do: so
the order of tearing is known beforehand, and how far the tearing has gone is one number, `torn`.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.optimize import brentq

from linelib.checks import number
from linelib.models.stretch import Law
from linelib.models.strip_peaks import Table
from linelib.webbing import Webbing

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Strips:
    """Strips of equal width, **in the order in which they tear**; arrays (count,).

    `place` : index of the strip across the width; `difference` [m]; `breaks_at` [N] : tension at which the strip tears;
    `tears_at` [m] : displacement at which it tears; `peak_pull` [N] : pull of all whole strips just before it tears.
    `torn` below : how many have torn, the first so many of this order.
    Source: strips in parallel, Daniels (1945), Proc. R. Soc. Lond. A 183:405, with a start of its own for each strip.
    """

    webbing: Webbing
    sharing_length: float
    stiffening: float
    law: Law
    table: Table
    place: NDArray[np.intp]
    difference: Array
    breaks_at: Array
    tears_at: Array
    peak_pull: Array

    def tensions(self, displacement: ArrayLike, torn: int = 0) -> Array:
        """Tension [N] of each strip at `displacement` [m] (any shape), shape (..., count); torn ones 0."""
        strain = (np.asarray(displacement, float)[..., None] - self.difference) / self.sharing_length
        found = np.interp(strain, *self.table) / len(self.difference)
        found[..., :torn] = 0.0
        return found

    def pull(self, displacement: ArrayLike, torn: int = 0) -> Array:
        """Sum of the tensions [N] at `displacement` [m], any shape, while the next strip is still whole."""
        return np.asarray(self.tensions(displacement, torn).sum(axis=-1))

    def loading(self, displacement: ArrayLike, torn: int = 0) -> Array:
        """Pull [N] while the end is drawn out to `displacement` [m], shape (n,): strips tear on the way."""
        moved = np.asarray(displacement, float)
        broken = np.maximum(np.searchsorted(self.tears_at, moved, side="left"), torn)
        tensions = self.tensions(moved)
        return np.where(np.arange(len(self.difference)) < broken[:, None], 0.0, tensions).sum(axis=-1)

    def displacement(self, *, pull: float, torn: int = 0) -> float:
        """Displacement [m] at which the whole strips carry `pull` [N]; at 0 N the place where the first becomes taut.

        Raises: ValueError when a strip would tear first.
        """
        most = float(self.peak_pull[torn]) if torn < len(self.peak_pull) else 0.0
        number("pull", pull, low=0.0, high=most, unit="N, at which the next strip tears")
        slack = float(self.difference[torn:].min(initial=np.inf if torn < len(self.difference) else 0.0))
        if pull <= 0.0:
            return slack
        end = float(self.tears_at[torn])
        if pull >= most:
            return end
        return float(brentq(lambda u: float(self.pull(u, torn)) - pull, slack, end, xtol=1e-12))

    def strength_left(self, torn: int = 0) -> float:
        """The largest pull [N] that the strips hold from here on, while more of them tear."""
        return float(self.peak_pull[torn:].max(initial=0.0))

    def stored_energy(self, displacement: float, torn: int = 0) -> float:
        """Energy [J] stored in the whole strips at `displacement` [m]: sharing length times that of each strip's law."""
        slow = self.tensions(displacement, torn) * len(self.difference) / self.stiffening
        return self._energy(slow)

    def torn_energy(self, torn: int) -> float:
        """Energy [J] the first `torn` strips had stored when each of them tore: gone into the break, never given back."""
        return self._energy(self.breaks_at[:torn] * len(self.difference) / self.stiffening)

    @property
    def across(self) -> Array:
        """Across the width, shape (count,): breaking strength [N] of a webbing all made of such strips."""
        found = np.empty_like(self.breaks_at)
        found[self.place] = self.breaks_at * len(found)
        return found

    def _energy(self, slow: Array) -> float:
        share = self.stiffening * self.sharing_length / len(self.difference)
        return float(share * self.law.energy(slow).sum())
