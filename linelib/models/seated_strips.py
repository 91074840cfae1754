"""Webbing cut in thought into strips, seated with path differences: the strips of models/strips.py made."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from linelib.checks import number, refuse
from linelib.models.stretch import Law, law_of
from linelib.models.strip_peaks import Table, strip_peaks
from linelib.models.strips import Strips
from linelib.webbing import Webbing

Array = NDArray[np.float64]
ROWS = 1201  # of the sampled law: strain over tension, joined straight


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
