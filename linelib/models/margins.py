"""Strength by place: what is left of a printed strength where it is installed, the load there, and the weakest place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeVar

from linelib.checks import instance, number, refuse

Kind = TypeVar("Kind")
NO_SOURCE = "typical, no source"


@dataclass(frozen=True, kw_only=True)
class Reduction:
    """Something that takes a share of a strength: `name`, `loses` [-] from 0 to 0.99, and `source` of the number in words."""

    name: str
    loses: float
    source: str = NO_SOURCE

    def __post_init__(self) -> None:
        _words("name", self.name)
        _words("source", self.source)
        number("loses", self.loses, low=0.0, high=0.99, unit="of the strength")


@dataclass(frozen=True, kw_only=True)
class Place:
    """One link of the chain: `printed` strength [N], `load` [N] at this place, and the `reductions` that act only here."""

    name: str
    printed: float
    load: float
    reductions: tuple[Reduction, ...] = ()

    def __post_init__(self) -> None:
        _words("name", self.name)
        number("printed", self.printed, low=1.0, high=1e9, unit="N")
        number("load", self.load, low=1e-3, high=1e9, unit="N")
        object.__setattr__(self, "reductions", _all_of("reductions", self.reductions, Reduction))


@dataclass(frozen=True, kw_only=True)
class Margin:
    """What is left at one place: `left_here` [N] after its own reductions, `left` [N] after those that act everywhere too."""

    place: Place
    left_here: float
    left: float

    @property
    def times(self) -> float:
        """Strength left over load [-]. A comparison of two numbers of the model, not a permission."""
        return self.left / self.place.load


@dataclass(frozen=True, kw_only=True)
class Margins:
    """The margins of all places, in the order of the places, and what acted everywhere."""

    each: tuple[Margin, ...]
    everywhere: tuple[Reduction, ...]

    @property
    def weakest(self) -> Margin:
        """The place with the least strength over load; the first of equals."""
        least = min(margin.times for margin in self.each)
        return next(margin for margin in self.each if margin.times <= least * (1.0 + 1e-6))

    @property
    def times(self) -> float:
        """Strength over load of the weakest place [-]: the least over the places, never a product of them."""
        return min(margin.times for margin in self.each)


def margins(*, places: Sequence[Place], everywhere: Sequence[Reduction] = ()) -> Margins:
    """Strength left over load at each place.

    left = printed * product of (1 - loses), over the reductions at this place and those that act everywhere
    times = left / load;   the chain has the least of them
    Reductions at different places are never multiplied with each other: a chain breaks at one link. Two at the same place
    are, as if independent; age, sun and wet act everywhere.

    Parameters: places, at least one Place, strengths and loads in [N]; everywhere, Reductions.
    Returns: Margins, strengths in [N], `times` [-].
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: 35 kN printed, a quarter lost in the lock, a tenth everywhere, load 8 kN: 35 * 0.75 * 0.9 = 23.6 kN, 2.95 times.
    Leaves out: the scatter of strengths, wear at an edge, heat, and how often the load comes.
    Source: the least of the links, by definition of a chain; that reductions at one place multiply is our choice.
    """
    found = _all_of("places", places, Place)
    if not found:
        raise refuse("places", found, "at least one Place")
    common = _all_of("everywhere", everywhere, Reduction)
    each = []
    for place in found:
        here = place.printed * share_left(reductions=place.reductions)
        each.append(Margin(place=place, left_here=here, left=here * share_left(reductions=common)))
    return Margins(each=tuple(each), everywhere=common)


def share_left(*, reductions: Sequence[Reduction]) -> float:
    """Product of (1 - loses) [-] of some reductions; 1 for none. Source: definition; independent reductions are our choice."""
    share = 1.0
    for reduction in _all_of("reductions", reductions, Reduction):
        share *= 1.0 - reduction.loses
    return share


def _all_of(name: str, values: object, kind: type[Kind]) -> tuple[Kind, ...]:
    """`values` as a tuple in which everything is a `kind`."""
    if isinstance(values, str | kind) or not hasattr(values, "__iter__"):
        raise refuse(name, values, f"a list of {kind.__name__}s")
    found = tuple(values)
    for i, value in enumerate(found):
        instance(f"{name}[{i}]", value, kind)
    return found


def _words(name: str, value: object) -> None:
    if not isinstance(value, str) or not value.strip():
        raise refuse(name, value, "some words")
