"""Which choice drove it: from a reference to what was rigged, every mix of the choices, and what each choice adds."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from linelib.checks import instance, one_of, refuse
from linelib.rigging import Setup
from linelib.studies.outcomes import DEMANDS, Case, Link, factors, outcomes_of, where_possible
from linelib.studies.shapley import MOST, interactions, members, shapley

Array = NDArray[np.float64]


def unchanged(setup: Setup) -> Setup:
    """The rig change of a choice that only weakens a place."""
    return setup


@dataclass(frozen=True, kw_only=True)
class Choice:
    """One difference between two rigs: its `name`, its `change` of the setup, and the factors of `strength` it leaves.

    `change` sets a value; it does not look at what another choice sets. `strength` : place -> factor left [-], 0.01 to 1.
    """

    name: str
    change: Callable[[Setup], Setup] = unchanged
    strength: Mapping[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        if not isinstance(self.name, str) or not self.name.strip():
            raise refuse("name", self.name, "some words")
        if not callable(self.change):
            raise refuse("change", self.change, "a function from a Setup to a Setup")
        object.__setattr__(self, "strength", factors("strength", self.strength))


@dataclass(frozen=True, kw_only=True)
class Shares:
    """One outcome: `start` of the reference, `end` with every choice, `each` (choices,) and `together` (choices, choices).

    Demands in [N] and [m]; at a `place` all four are natural logarithms of load over strength [-], so that shares add up where
    the factors multiply.
    """

    outcome: str
    names: tuple[str, ...]
    place: bool
    start: float
    end: float
    each: Array
    together: Array

    @property
    def driver(self) -> int:
        """Number of the choice that adds most; the first of equals."""
        return int(np.argmax(self.each))

    def pairs(self, most: int = 3) -> list[tuple[str, str, float]]:
        """The pairs that do most together beyond their single parts, up or down, [as `each`]; those under 5 % of the largest
        share are left out."""
        i, j = np.triu_indices(len(self.each), 1)
        found = self.together[i, j]
        order = np.argsort(-np.abs(found), kind="stable")[:most]
        least = 0.05 * float(np.abs(self.each).max())
        return [(self.names[i[n]], self.names[j[n]], float(found[n])) for n in order if abs(found[n]) > least]


@dataclass(frozen=True, kw_only=True)
class Attribution:
    """Shares of every outcome, by its name, in the order of `outcomes_of`."""

    shares: Mapping[str, Shares]

    def of(self, outcome: str) -> Shares:
        """The shares of one outcome. Raises: ValueError listing the outcomes."""
        return self.shares[one_of("outcome", outcome, tuple(self.shares))]


def attribute(*, reference: Case, choices: Sequence[Choice], links: Sequence[Link] = ()) -> Attribution:
    """Give each choice its share of the difference between the reference and the rig with every choice in it.

    All 2^k mixes fall in one batch; a share is the Shapley value, a pair's is the Shapley interaction index.

    Parameters: reference; choices, 1 to 10, whose order does not matter; links, the places whose load over strength is asked.
    Returns: Attribution, forces in [N], depth in [m], places as ln(load over strength) [-].
    Raises: ValueError when two choices give different rigs in different orders, or a mix has no answer, which is named.
    Example: a lock that keeps 0.55 of its strength adds ln(1 / 0.55) = 0.598 at the lock, and nothing elsewhere.
    Leaves out: everything between the two rigs that is no choice here. Another reference gives other shares.
    Source: studies/shapley.py; models/fall_in_time.py.
    """
    chosen = tuple(choices)
    mixes = all_mixes(reference=reference, choices=chosen)
    found, reasons = where_possible(things=mixes, compute=lambda part: outcomes_of(cases=part, links=links))
    for mix, why in reasons.items():
        raise ValueError(f"{mix_in_words(mix, chosen)} has no answer: {why}")
    values = np.stack([of if name in DEMANDS else np.log(of) for name, of in found.items()], axis=1)
    each, together = shapley(values=values), interactions(values=values)
    names = tuple(choice.name for choice in chosen)
    shares = {
        name: Shares(
            outcome=name,
            names=names,
            place=name not in DEMANDS,
            start=float(values[0, n]),
            end=float(values[-1, n]),
            each=each[:, n],
            together=together[:, :, n],
        )
        for n, name in enumerate(found)
    }
    return Attribution(shares=shares)


def all_mixes(*, reference: Case, choices: Sequence[Choice]) -> list[Case]:
    """Every mix of the choices, 2^k of them; choice i is in mix m where m >> i & 1.

    Every mix is reached by each of its choices as the last one; where that gives different rigs, the pair is named.

    Raises: ValueError for no choice, more than 10, two of one name, a pair that does not commute, or a mix that cannot be
    rigged.
    Source: by induction over the size of a mix: where no last step matters, no order does.
    """
    instance("reference", reference, Case)
    names = [_name(i, choice) for i, choice in enumerate(choices)]
    if not 1 <= len(names) <= MOST or len(set(names)) < len(names):
        raise refuse("choices", names, f"1 to {MOST} choices of different names")
    setups = [reference.setup]
    for mix in range(1, 1 << len(names)):
        inside = members(mix, len(names))
        reached = [_changed(choices[i], setups[mix - (1 << i)], mix, choices) for i in inside]
        for i, other in zip(inside, reached, strict=True):
            if other != reached[-1]:
                pair = f"{names[i]!r} and {names[inside[-1]]!r}"
                raise ValueError(f"choices = {pair} is not possible; allowed: choices that give one rig in either order")
        setups.append(reached[-1])
    return [Case(setup=setup, left=_left(reference, mix, choices)) for mix, setup in enumerate(setups)]


def mix_in_words(mix: int, choices: Sequence[Choice]) -> str:
    """Which mix it is. Example: the mix with only 'leash' and 'mass'."""
    names = [repr(choice.name) for choice in choices]
    inside = members(mix, len(names))
    if len(inside) in (0, len(names)):
        return "the mix with every choice" if inside else "the reference"
    if 2 * len(inside) <= len(names):
        return "the mix with only " + " and ".join(names[i] for i in inside)
    return "the mix with all but " + " and ".join(name for i, name in enumerate(names) if i not in inside)


def _name(i: int, choice: Choice) -> str:
    instance(f"choices[{i}]", choice, Choice)
    return choice.name


def _changed(choice: Choice, setup: Setup, mix: int, choices: Sequence[Choice]) -> Setup:
    try:
        changed = choice.change(setup)
    except ValueError as error:
        raise ValueError(f"{mix_in_words(mix, choices)} cannot be rigged: {error}") from error
    instance(f"change of {choice.name!r}", changed, Setup)
    return changed


def _left(reference: Case, mix: int, choices: Sequence[Choice]) -> dict[str, float]:
    """Factors of strength left in a mix: those of the reference times those of the choices in it."""
    left = dict(reference.left)
    for i in members(mix, len(choices)):
        for place, factor in choices[i].strength.items():
            left[place] = left.get(place, 1.0) * factor
    return left
