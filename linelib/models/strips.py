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

from linelib.checks import number, refuse
from linelib.models.stretch import Law, law_of
from linelib.models.strip_peaks import Table, strip_peaks
from linelib.webbing import Webbing

Array = NDArray[np.float64]
ROWS = 1201  # of the sampled law: strain over tension, joined straight


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


def strips_of(
    *,
    webbing: Webbing,
    difference: ArrayLike,
    sharing_length: float,
    strengths: ArrayLike = 1.0,
    stiffening: float = 1.0,
) -> Strips:
    """Webbing cut in thought into strips: each carries its share of the webbing's law, T_i = T((u - e_i)/l) / count.

    Tables that end below the breaking strength go on straight with their last slope (models/stretch.py): the breaking
    strain is the strain there at the breaking strength. Closed form for a straight law and e growing evenly from 0 to e_max,
    r = e_max/(breaking strain * l): strength left 1 - r/2 for r <= 1, 1/(2 r) for r >= 1.

    Parameters
    ----------
    webbing : its law and breaking strength
    difference [m], shape (count,) : path difference of each strip across the width, the least of them 0
    sharing_length [m], l : over which a strip has to take up its own difference before the weave shares it out;
        not known, centimetres to a few decimetres, **not** the span: use a range
    strengths [-], a number or shape (count,) : strip strengths over the webbing's breaking strength per share of width
    stiffening [-] : 1 for a slow pull; the webbing's fast_ratio for one much faster than its relaxation time

    Returns: Strips; forces in [N], lengths in [m].
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: straight law, breaking strain 3 %, l = 0.1 m, e from 0 to 3 mm (r = 1): half of the strength is left.
    Source: bundle of strips, Daniels (1945); closed forms by integration, checked in tests/closed_form/test_strips.py.
    Leaves out: friction between strips, heat, creep, strips that pull on their neighbours, the longer strip's own stretch.
    """
    number("sharing_length", sharing_length, low=1e-3, high=100.0, unit="m")
    number("stiffening", stiffening, low=1.0, high=20.0)
    e = _checked(difference)
    relative = np.asarray(strengths, float)
    if relative.shape not in ((), e.shape) or not np.all((relative > 0.01) & (relative < 10.0)):
        raise refuse("strengths", strengths, f"numbers above 0.01 and below 10, one or as many as differences, {len(e)}")
    law, strength = law_of(webbing), webbing.breaking_strength
    across = np.broadcast_to(relative * strength, e.shape)
    tension = np.linspace(0.0, float(across.max()), ROWS)
    table = (np.asarray(law.strain(tension / stiffening)), tension)
    return _arranged(webbing, stiffening, law, table, e, across, sharing_length)


def reseated(*, strips: Strips, difference: ArrayLike, sharing_length: float) -> Strips:
    """The same strips, untorn, seated otherwise; arguments, refusals and result as in `strips_of`, several times as fast.

    Parameters: strips; difference [m], shape (count,), across the width; sharing_length [m].
    Returns: Strips; forces in [N], lengths in [m].
    Raises: ValueError naming the argument, its value and what is allowed.
    Source: as `strips_of`.
    """
    number("sharing_length", sharing_length, low=1e-3, high=100.0, unit="m")
    e = _checked(difference)
    if e.shape != strips.difference.shape:
        raise refuse("difference", difference, f"as many lengths as there are strips, {len(strips.difference)}")
    return _arranged(strips.webbing, strips.stiffening, strips.law, strips.table, e, strips.across, sharing_length)


def _checked(difference: ArrayLike) -> Array:
    e = np.asarray(difference, float)
    if e.ndim != 1 or len(e) < 2 or not np.all(np.isfinite(e)) or e.min() != 0.0:
        raise refuse("difference", difference, "at least two lengths in m, the least of them 0")
    return e


def _arranged(
    webbing: Webbing, stiffening: float, law: Law, table: Table, e: Array, across: Array, sharing_length: float
) -> Strips:
    """Strips across the width, put in the order in which they tear; `across` [N] as in `Strips.across`."""
    order, tears_at, peak_pull = strip_peaks(table=table, difference=e, across=across, sharing_length=sharing_length)
    return Strips(
        webbing=webbing,
        sharing_length=sharing_length,
        stiffening=stiffening,
        law=law,
        table=table,
        place=order,
        difference=e[order],
        breaks_at=across[order] / len(e),
        tears_at=tears_at,
        peak_pull=peak_pull,
    )
