"""Roots between ends of many brackets at once: every step asks for one batch, because a batch costs little more than one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.checks import refuse

Array = NDArray[np.float64]
Numbers = NDArray[np.intp]
Batch = Callable[[Array, Numbers], Array]
ROUNDS, CLOSE, NARROW = 30, 1e-4, 1e-6


@dataclass(frozen=True, kw_only=True)
class Roots:
    """One a bracket: `value` and `miss` there (brackets,) [as asked], nan where no answer was found on the way."""

    value: Array
    miss: Array


def close_in(*, miss: Batch, low: Array, high: Array, at_low: Array, at_high: Array, scale: float) -> Roots:
    """Close in on a root in every bracket, by Ridders' method.

    mid = (low + high) / 2;   new = mid + (mid - low) sign(at_low - at_high) at_mid / sqrt(at_mid^2 - at_low at_high)

    Each round asks for all midpoints, then for all new points, as one batch each, and at least halves every bracket. A bracket
    is done when the miss is under a ten-thousandth of `scale`, or when it is under a millionth as wide as at first. Where the
    miss is still large then, the function jumps.

    Parameters
    ----------
    miss : function of values (n,) and of the number of the bracket each belongs to; nan where there is no answer
    low, high (brackets,) : ends; at_low, at_high (brackets,) : miss there, of opposite sign, or 0 at one end
    scale : how large the function is, in its own unit [as miss]

    Returns: Roots [as low and miss].
    Raises: ValueError when the ends of a bracket lie on one side.
    Example: miss = value - 1.5 from 1 to 3: 1.5 in the first round.
    Source: Ridders, A new algorithm for computing a single root of a real continuous function, 1979, from memory; as
    scipy.optimize.ridder, which takes one bracket at a time.
    """
    a, b, fa, fb = (np.array(x, float) for x in (low, high, at_low, at_high))
    if np.any(fa * fb > 0.0) or not np.all(np.isfinite(fa + fb)):
        raise refuse("at_low", at_low, "misses of opposite sign at the two ends of every bracket")
    best, left = np.where(fa == 0.0, a, b), np.where(fa == 0.0, 0.0, fb)
    width = np.abs(b - a)
    for _ in range(ROUNDS):
        open_ = np.flatnonzero((np.abs(left) > CLOSE * scale) & (np.abs(b - a) > NARROW * width))
        if not len(open_):
            break
        x, y = a[open_], b[open_]
        mid = 0.5 * (x + y)
        at_mid = miss(mid, open_)
        root = np.sqrt(np.maximum(at_mid**2 - fa[open_] * fb[open_], 1e-300))
        new = mid + (mid - x) * np.sign(fa[open_] - fb[open_]) * at_mid / root
        new = np.where(np.isfinite(new), new, mid)
        at_new = miss(new, open_)
        _tighten(a, b, fa, fb, open_, mid, at_mid)
        _tighten(a, b, fa, fb, open_, new, at_new)
        nearer = np.abs(fa) < np.abs(fb)
        lost = open_[~np.isfinite(at_mid + at_new)]
        fa[lost] = fb[lost] = a[lost] = b[lost] = np.nan
        best, left = np.where(nearer, a, b), np.where(nearer, fa, fb)
    return Roots(value=best, miss=left)


def _tighten(a: Array, b: Array, fa: Array, fb: Array, which: Numbers, value: Array, found: Array) -> None:
    """Put a point that lies between the ends of its bracket in the place of the end on its side."""
    inside = (value >= np.minimum(a[which], b[which])) & (value <= np.maximum(a[which], b[which])) & np.isfinite(found)
    low_side = np.sign(found) == np.sign(fa[which])
    for ends, misses, mine in ((a, fa, inside & low_side), (b, fb, inside & ~low_side)):
        ends[which[mine]], misses[which[mine]] = value[mine], found[mine]
