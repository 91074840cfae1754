"""The same strips in many seatings at once: for curves."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from linelib.checks import number, refuse
from linelib.models.strip_peaks import strip_peaks
from linelib.models.strips import Strips

Array = NDArray[np.float64]


def peaks_of_many(*, strips: Strips, difference: ArrayLike, sharing_length: float) -> tuple[Array, Array]:
    """The same strips in many seatings at once: pull just before each tear, and the width that carries at the first one.

    Parameters: strips; difference [m], shape (seatings, count), across the width, the least of each row 0; sharing_length [m].
    Returns: peak pulls [N], shape (seatings, count), each row in its own order of tearing; carrying shares [-], (seatings,).
    Raises: ValueError naming the argument, its value and what is allowed.
    Source: as `strips_of`.
    """
    number("sharing_length", sharing_length, low=1e-3, high=100.0, unit="m")
    e = np.asarray(difference, float)
    if e.ndim != 2 or e.shape[1] != len(strips.difference) or not np.all(np.isfinite(e)) or np.any(e.min(axis=1) != 0.0):
        raise refuse("difference", difference, f"rows of {len(strips.difference)} lengths in m, the least of each row 0")
    _, tears_at, pulls = strip_peaks(table=strips.table, difference=e, across=strips.across, sharing_length=sharing_length)
    return pulls, (e < tears_at[:, :1]).mean(axis=1)
