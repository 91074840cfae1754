"""Every mix of the choices between two rigs; choices whose order would matter, and mixes that cannot be rigged, are named."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from linelib.checks import instance, refuse
from linelib.rigging import Setup
from linelib.studies.outcomes import Case, factors
from linelib.studies.shapley import MOST, members


def unchanged(setup: Setup) -> Setup:
    """The rig change of a choice that only weakens a place, lengths [m] and forces [N] as they are. Source: definition."""
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


def all_mixes(*, reference: Case, choices: Sequence[Choice]) -> list[Case]:
    """Every mix of the choices, 2^k of them; choice i is in mix m where m >> i & 1.

    Every mix is reached by each of its choices as the last one; where that gives different rigs, the pair is named.

    Returns: Cases, lengths in [m], forces in [N].
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
