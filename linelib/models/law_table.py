"""The laws of many webbings in one array, for models that ask for the strain of many pieces at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from linelib.models.stretch import law_of
from linelib.webbing import Webbing

Array = NDArray[np.float64]
Indices = NDArray[np.intp]
KNOTS = 2049  # steps of 5 to 15 N: strain within 1e-6 of the curve, straight laws exact


@dataclass(frozen=True, kw_only=True)
class LawTable:
    """Strain and stored energy over tension, straight between evenly spaced tensions and straight on beyond the last.

    Energy belongs exactly to these straight pieces, so that a model built on the table loses none.
    `laws` (webbings, KNOTS) holds strain; `energies` [J/m] likewise; `steps` (webbings,) the spacing [N].
    """

    webbings: tuple[Webbing, ...]
    steps: Array
    laws: Array
    energies: Array

    @cached_property
    def straight(self) -> bool:
        """Whether every webbing follows a straight law."""
        return all(w.stiffness is not None for w in self.webbings)

    def strain(self, which: Indices, tension: Array) -> tuple[Array, Array]:
        """Strain [-] and compliance [1/N] of webbing number `which` under `tension` >= 0 [N]; shapes broadcast."""
        if self.straight:
            give = self.laws[which, 1] / self.steps[which]
            return give * tension, give
        k, fraction = self._place(which, tension)
        low = self.laws[which, k]
        rise = self.laws[which, k + 1] - low
        return low + fraction * rise, rise / self.steps[which]

    def energy(self, which: Indices, tension: Array) -> Array:
        """Stored energy [J per metre of natural length] under `tension` >= 0 [N]; shapes broadcast."""
        if self.straight:
            return np.asarray(0.5 * self.laws[which, 1] / self.steps[which] * tension * tension)
        k, fraction = self._place(which, tension)
        rise = self.laws[which, k + 1] - self.laws[which, k]
        mean = self.steps[which] * (k + 0.5 * fraction)
        return np.asarray(self.energies[which, k] + mean * fraction * rise)

    def tension(self, which: Indices, strain: Array) -> Array:
        """Tension [N] at `strain` [-], the inverse of `strain`; one dimension."""
        found = np.empty(len(which))
        for law in np.unique(which):
            here = which == law
            knots = self.laws[law]
            k = np.clip(np.searchsorted(knots, strain[here], side="right") - 1, 0, KNOTS - 2)
            found[here] = self.steps[law] * (k + (strain[here] - knots[k]) / (knots[k + 1] - knots[k]))
        return np.maximum(found, 0.0)

    def _place(self, which: Indices, tension: Array) -> tuple[Indices, Array]:
        x = tension / self.steps[which]
        k = np.fmin(x, KNOTS - 2).astype(np.intp)  # fmin: a fall that blew up ends in its own refusal, not here
        return k, x - k


def table_of(webbings: Sequence[Webbing]) -> LawTable:
    """The table of the given webbings, in their order.

    Source: samples of models/stretch.py, itself checked; tests/closed_form/test_law_table.py compares the two.
    """
    steps, laws, energies = [], [], []
    for webbing in webbings:
        law = law_of(webbing)
        step = law.last_tension / (KNOTS - 1)
        tension = step * np.arange(KNOTS)
        strain = law.strain(tension)
        pieces = 0.5 * (tension[1:] + tension[:-1]) * np.diff(strain)
        steps.append(step)
        laws.append(strain)
        energies.append(np.append(0.0, np.cumsum(pieces)))
    return LawTable(webbings=tuple(webbings), steps=np.array(steps), laws=np.array(laws), energies=np.array(energies))
