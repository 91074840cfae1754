"""How webbing sits in a lock, and by how much each strip of its width is longer than the tightest one: geometry only."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.checks import number, refuse

Array = NDArray[np.float64]
STRIPS = 60  # enough for two digits; the closed forms are for infinitely many
MOST_STRIPS = 5000


@dataclass(frozen=True, kw_only=True)
class Seating:
    """What is wrong with webbing in a lock's jaws; all zero: it sits square and flat. Faults add up.

    Across the width y runs from 0 (first strip) to the width w (last strip). Every strip is woven to the same length; what
    differs is how much of it the way to the jaws takes. Differences are to the tightest strip.

    * skewed: the jaws hold it along a slant, not square: e = y tan(skew_angle)
    * an edge rolled over: near y = 0 a strip at s from the roll's line lies at -s in the jaws and, one sharing length l further
      on, at +s: its way is sqrt(l^2 + (2 s)^2), so the rolled edge is tight first and the flat part is longer
    * folded: a pleat of depth d swallows 2 d in the share of the width next to y = w: a step

    Parameters
    ----------
    skew_angle [rad] : between the jaws and square across the webbing, 0 to 0.7
    rolled_width [m] : width of the edge that is rolled over, at most half of the webbing's width
    fold_depth [m] : depth of the pleat, 0 to 0.1
    folded_share [-] : share of the width that is folded, 0 to 1

    Raises
    ------
    ValueError : name, value and allowed range of the first argument that is not possible.
    """

    skew_angle: float = 0.0
    rolled_width: float = 0.0
    fold_depth: float = 0.0
    folded_share: float = 0.0

    def __post_init__(self) -> None:
        number("skew_angle", self.skew_angle, low=0.0, high=0.7, unit="rad")
        number("rolled_width", self.rolled_width, low=0.0, high=0.5, unit="m")
        number("fold_depth", self.fold_depth, low=0.0, high=0.1, unit="m")
        number("folded_share", self.folded_share, low=0.0, high=1.0)


def path_differences(*, seating: Seating, width: float, sharing_length: float, count: int = STRIPS) -> Array:
    """By how much [m] each strip is longer than the tightest, from one edge of the webbing to the other.

    Parameters
    ----------
    seating : what is wrong
    width [m] : of the webbing
    sharing_length [m] : over which a strip has to take up its own difference; it matters for the rolled edge only
    count : number of strips, the first on one edge, the last on the other

    Returns: differences [m], shape (count,), the least of them 0.
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: skewed by 0.1 rad, 25 mm wide: the last strip is longer by 25 mm * tan(0.1) = 2.51 mm.
    Source: plane geometry. Leaves out: layers that lie on each other round a bend, grip that differs along the jaws.
    """
    number("width", width, low=1e-4, high=1.0, unit="m")
    number("sharing_length", sharing_length, low=1e-3, high=100.0, unit="m")
    if isinstance(count, bool) or not isinstance(count, int) or not 2 <= count <= MOST_STRIPS:
        raise refuse("count", count, f"a whole number from 2 to {MOST_STRIPS}")
    if seating.rolled_width > 0.5 * width:
        raise refuse("rolled_width", seating.rolled_width, f"at most half of the webbing's width of {width:g} m")
    y = np.linspace(0.0, width, count)
    skew = y * np.tan(seating.skew_angle)
    rolled = np.maximum(seating.rolled_width - y, 0.0)
    way = np.hypot(sharing_length, 2.0 * rolled) - sharing_length
    folded = np.arange(count) >= count - round(seating.folded_share * count)
    difference = skew - way + 2.0 * seating.fold_depth * folded
    return np.asarray(difference - difference.min())
