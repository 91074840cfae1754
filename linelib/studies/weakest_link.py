"""The places of one side of a rig in a fall: anchor legs, end of the webbing, webbing, lock; and what is often done instead."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from linelib.models.anchor_legs import LegForces
from linelib.models.margins import Margins, Place, Reduction, margins, share_left

LEGS, END, WEBBING, LOCK = "legs at A", "end at A", "webbing", "lock at B"


def weakest_link(
    *,
    legs: LegForces,
    pull_a: float,
    pull_b: float,
    leg_strength: float,
    webbing_strength: float,
    at_end: Sequence[Reduction] = (),
    at_lock: Sequence[Reduction] = (),
    everywhere: Sequence[Reduction] = (),
) -> Margins:
    """Margins of four places in a row: the most loaded leg at A, knot or sewn end at A, the webbing between, the lock at B.

    Parameters: legs, sharing the pull at A; pull_a, pull_b [N] at the anchors; leg_strength [N] printed on one leg;
    webbing_strength [N] printed on the webbing, also where it is tied, sewn or held by the lock; Reductions by place.
    Returns: Margins, strengths in [N].
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: 35 kN printed, a quarter lost in the lock, 8 kN of pull: 35 * 0.75 / 8 = 3.3 times there.
    Source: models/margins.py; which places there are is our choice.
    """
    places = (
        Place(name=LEGS, printed=leg_strength, load=max(legs.tensions)),
        Place(name=END, printed=webbing_strength, load=pull_a, reductions=tuple(at_end)),
        Place(name=WEBBING, printed=webbing_strength, load=max(pull_a, pull_b)),
        Place(name=LOCK, printed=webbing_strength, load=pull_b, reductions=tuple(at_lock)),
    )
    return margins(places=places, everywhere=everywhere)


@dataclass(frozen=True, kw_only=True)
class OftenDone:
    """Two ways to be wrong, as strength over load [-]: nothing taken off, and every reduction multiplied with every other."""

    nothing_off: float
    all_multiplied: float


def often_done(found: Margins, *, of: str = WEBBING) -> OftenDone:
    """The printed strength of place `of` over its load [-], as it is and times every reduction of every place.

    Both forget that a chain has places: legs with more load are not seen at all, and the product describes no place.
    Raises: ValueError when there is no place of that name.
    Source: common practice, no source.
    """
    place = next((margin.place for margin in found.each if margin.place.name == of), None)
    if place is None:
        raise ValueError(f"of = {of!r} is not possible; allowed: one of {', '.join(m.place.name for m in found.each)}")
    everything = [r for margin in found.each for r in margin.place.reductions] + list(found.everywhere)
    plain = place.printed / place.load
    return OftenDone(nothing_off=plain, all_multiplied=plain * share_left(reductions=everything))
