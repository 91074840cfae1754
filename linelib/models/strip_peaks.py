"""The order in which strips of a known law tear, and the pull just before each tear."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Table = tuple[Array, Array]  # strain [-] and tension [N] of the whole webbing, both rising, joined straight


def strip_peaks(
    *, table: Table, difference: Array, across: Array, sharing_length: float
) -> tuple[NDArray[np.intp], Array, Array]:
    """When each strip tears, and what all strips still whole carry at that moment.

    Strip i tears at u_i = e_i + l * breaking strain; before it sum over the strips not torn of T((u_i - e_j)/l)/count.
    Parameters: table [-], [N] : the webbing's law; difference [m], shape (..., count), across the width; across [N] : breaking
    strength of a webbing all made of such strips, shape (count,); sharing_length [m].
    Returns: order of tearing, displacements of tearing [m], peak pulls [N], all (..., count) and in the order of tearing.
    Source: strips in parallel, Daniels (1945), Proc. R. Soc. Lond. A 183:405, with a start of its own for each strip.
    """
    tears_at = difference + sharing_length * np.interp(across, table[1], table[0])
    order = np.argsort(tears_at, axis=-1, kind="stable")
    e, tears_at = np.take_along_axis(difference, order, -1), np.take_along_axis(tears_at, order, -1)
    at_tear = np.interp((tears_at[..., :, None] - e[..., None, :]) / sharing_length, *table)  # (..., moment, strip)
    still_whole = np.triu(np.full((e.shape[-1],) * 2, 1.0 / e.shape[-1]))
    return order, tears_at, np.einsum("...ij,ij->...i", at_tear, still_whole)
