"""What is asked of a fall: forces, drop, and at each place the load over the strength that is left there."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from linelib.checks import instance, number, one_of, refuse
from linelib.models.fall_in_time import falls
from linelib.models.margins import Reduction, share_left
from linelib.rigging import Setup

Array = NDArray[np.float64]
Thing = TypeVar("Thing")
ANCHOR_A, ANCHOR_B, PERSON, DROP = "peak at A", "peak at B", "person", "lowest tie-in"
DEMANDS = {ANCHOR_A: "peak_tension_a", ANCHOR_B: "peak_tension_b", PERSON: "peak_leash_force", DROP: "lowest_point"}
WEAKEST = "weakest place"
SIDES = ("A", "B", "either")


@dataclass(frozen=True, kw_only=True)
class Case:
    """A setup, and by place the factor of strength `left` [-] where something sits or is made badly; 1 where not named."""

    setup: Setup
    left: Mapping[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        instance("setup", self.setup, Setup)
        object.__setattr__(self, "left", factors("left", self.left))


@dataclass(frozen=True, kw_only=True)
class Link:
    """A place that carries the pull at `side` A, B, or the higher of both ('either').

    `printed` [N] : strength printed there; None: that of the webbing at A, at B, or of the weakest piece.
    `reductions` : what is taken off however well it is rigged.
    """

    name: str
    side: str
    printed: float | None = None
    reductions: tuple[Reduction, ...] = ()

    def __post_init__(self) -> None:
        if not isinstance(self.name, str) or not self.name.strip() or self.name in (*DEMANDS, WEAKEST):
            raise refuse("name", self.name, "some words that name no other outcome")
        one_of("side", self.side, SIDES)
        if self.printed is not None:
            number("printed", self.printed, low=1.0, high=1e9, unit="N")
        share_left(reductions=self.reductions)

    def strength(self, case: Case) -> float:
        """Strength left here [N]: printed, less the reductions, times the factor of the case."""
        webs = [segment.webbing.breaking_strength for segment in case.setup.rig.segments]
        of_webbing = {"A": webs[0], "B": webs[-1], "either": min(webs)}[self.side]
        printed = of_webbing if self.printed is None else self.printed
        return printed * share_left(reductions=self.reductions) * case.left.get(self.name, 1.0)


def factors(name: str, values: object) -> Mapping[str, float]:
    """`values` as a mapping of places to factors of strength left [-], from 0.01 to 1, that cannot be changed.

    Raises: ValueError naming the place, its value and what is allowed.
    Source: definition.
    """
    if not isinstance(values, Mapping):
        raise refuse(name, values, "places with their factors of strength left")
    return MappingProxyType({str(k): number(f"{name}[{k!r}]", v, low=0.01, high=1.0) for k, v in values.items()})


def outcomes_of(*, cases: Sequence[Case], links: Sequence[Link] = ()) -> dict[str, Array]:
    """Everything asked of the falls of `cases`, computed as one batch.

    load over strength = highest pull at that side / strength left there; weakest place: the highest of them

    Returns: outcome -> array (cases,): the peaks [N] and the lowest tie-in [m] of DEMANDS, then each link's load over strength
    [-], and WEAKEST where there are links.
    Raises: ValueError when a fall has no answer, or a case weakens a place that is no link.
    Leaves out: above 1 the place is gone in the model; the fall goes on as if it had held.
    Source: models/fall_in_time.py; models/margins.py, with the load over the strength and not the strength over the load.
    """
    known = [link.name for link in links]
    if len(set(known)) < len(known):
        raise refuse("links", known, "links of different names")
    for place in sorted({place for case in cases for place in case.left} - set(known)):
        raise refuse("place with a factor of strength left", place, f"one of the links: {', '.join(known) or 'there are none'}")
    found = falls(setups=[case.setup for case in cases])
    asked = {name: np.asarray(getattr(found, where), float) for name, where in DEMANDS.items()}
    pulls = {"A": asked[ANCHOR_A], "B": asked[ANCHOR_B], "either": np.maximum(asked[ANCHOR_A], asked[ANCHOR_B])}
    places = {link.name: pulls[link.side] / np.array([link.strength(case) for case in cases]) for link in links}
    if places:
        places[WEAKEST] = np.max(list(places.values()), axis=0)
    return asked | places


def where_possible(
    *, things: Sequence[Thing], compute: Callable[[Sequence[Thing]], Mapping[str, Array]]
) -> tuple[dict[str, Array], dict[int, str]]:
    """`compute` all `things` in one batch; where it refuses, halves of it, until only what has no answer is left out.

    Returns: name -> array (things,) [as computed], nan where there is no answer, and the reasons by number.
    Source: definition.
    """
    try:
        return dict(compute(things)) if things else {}, {}
    except ValueError as error:
        if len(things) == 1:
            return {}, {0: str(error)}
    half = len(things) // 2
    parts = [where_possible(things=part, compute=compute) for part in (things[:half], things[half:])]
    reasons = {i + begin: why for begin, (_, no) in zip((0, half), parts, strict=True) for i, why in no.items()}
    names = dict.fromkeys(name for values, _ in parts for name in values)
    sizes = (half, len(things) - half)
    joined = {
        name: np.concatenate([values.get(name, np.full(size, np.nan)) for (values, _), size in zip(parts, sizes, strict=True)])
        for name in names
    }
    return joined, reasons
