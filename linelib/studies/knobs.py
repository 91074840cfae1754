"""Single choices that could have been made otherwise, each a number over a range or a list; and what is never offered."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import partial

from linelib.checks import instance, number, one_of, refuse
from linelib.rigging import Rig, Segment, Setup
from linelib.studies.outcomes import Case
from linelib.webbing import Webbing

NOT_OFFERED = {
    "slip": "a slipping lock is a fault, and no remedy: stop and re-rig",
    "sag": "added sag is no remedy: drop, the person and the backup's reserve pay for it",
    "slack": "a slack line is no remedy: drop, the person and the backup's reserve pay for it",
}
Change = Callable[[Setup, float], Setup]


def _span(setup: Setup, value: float) -> Setup:
    return replace(setup, rig=replace(setup.rig, span=value))


def _pretension(setup: Setup, value: float) -> Setup:
    return replace(setup, rig=replace(setup.rig, pretension=value))


def _leash(setup: Setup, value: float) -> Setup:
    return replace(setup, leash=replace(setup.leash, length=value))


def _height(setup: Setup, value: float) -> Setup:
    return replace(setup, walker=replace(setup.walker, standing_height=value))


def _mass(setup: Setup, value: float) -> Setup:
    return replace(setup, walker=replace(setup.walker, mass=value))


CHANGES: Mapping[str, tuple[str, Change]] = {
    "span": ("m", _span),
    "pretension": ("N", _pretension),
    "leash length": ("m", _leash),
    "standing height": ("m", _height),
    "walker's mass": ("kg", _mass),
}


def with_insert(setup: Setup, length: float, *, webbing: Webbing) -> Setup:
    """`setup` with an insert of `length` [m] of `webbing` between anchor A and the main webbing, at the same pretension.

    0 m : none; what stood there before is taken out. Source: definition.
    """
    soft = (Segment(webbing=webbing, length=length),) if length >= 1e-3 else ()
    return replace(setup, rig=replace(setup.rig, segments=(*soft, main_of(setup.rig))))


def main_of(rig: Rig) -> Segment:
    """The main webbing: the segment whose length [m] is solved from the pretension [N].

    Raises: ValueError for a rig without a pretension.
    Source: definition.
    """
    if rig.pretension is None:
        raise refuse("pretension", None, "a rig with a pretension, at which its choices are compared")
    return next(segment for segment in rig.segments if segment.length is None)


def with_material(setup: Setup, webbing: Webbing) -> Setup:
    """`setup` with another main webbing, at the same pretension [N]. Source: definition."""
    main = main_of(setup.rig)
    segments = tuple(replace(main, webbing=webbing) if s is main else s for s in setup.rig.segments)
    return replace(setup, rig=replace(setup.rig, segments=segments))


@dataclass(frozen=True, kw_only=True)
class Knob:
    """One choice as a number: `name`, `unit`, range from `low` to `high`, and what it sets `on` a case [in that unit]."""

    name: str
    unit: str
    low: float
    high: float
    on: Callable[[Case, float], Case]

    def __post_init__(self) -> None:
        offered(self.name)
        number("low", self.low, low=0.0, high=1e9, unit=self.unit)
        if not self.low < number("high", self.high, low=0.0, high=1e9, unit=self.unit):
            raise refuse("high", self.high, f"more than low, {self.low:g} {self.unit}")


@dataclass(frozen=True, kw_only=True)
class Listed:
    """One choice as a list: `name`, and the case of each entry."""

    name: str
    options: Mapping[str, Case]

    def __post_init__(self) -> None:
        offered(self.name)


def offered(name: str) -> str:
    """Return `name` unless it is one of what is never offered as a remedy.

    Raises: ValueError saying why.
    """
    for word, why in NOT_OFFERED.items():
        if word in str(name).lower():
            raise refuse("name", name, f"what is no slip, sag or slack: {why}")
    return name


def knob(*, name: str, now: Case, low: float, high: float) -> Knob:
    """A choice of CHANGES on the rig `now`, from `low` to `high` [m], [N] or [kg].

    Pretension is only raised or set again to what was planned: `low` is not under what it is now. How high it may go, every
    link has to allow.

    Raises: ValueError for another name, or a pretension lower than now.
    Source: definition.
    """
    offered(name)
    unit, change = CHANGES[one_of("name", name, tuple(CHANGES))]
    now_tight = now.setup.rig.pretension or 0.0
    if name == "pretension" and low < now_tight:
        raise refuse("low", low, f"{now_tight:g} N or more, the pretension now: {NOT_OFFERED['slack']}")
    return Knob(name=name, unit=unit, low=low, high=high, on=partial(_on, change))


def _on(change: Change, case: Case, value: float) -> Case:
    return replace(case, setup=change(case.setup, value))


def no_slack(*, now: Case, case: Case, name: str) -> None:
    """Refuse a `case` that is bought with slip or with less tension than the rig has `now`, whatever its choice is called.

    Raises: ValueError naming the choice.
    """
    instance("case", case, Case)
    old, new = now.setup.rig, case.setup.rig
    if (new.slip_load_a, new.slip_load_b) != (old.slip_load_a, old.slip_load_b):
        raise refuse(name, (new.slip_load_a, new.slip_load_b), f"the slip loads as they are; {NOT_OFFERED['slip']}")
    main_of(new)
    if (new.pretension or 0.0) < (old.pretension or 0.0) * (1.0 - 1e-9):
        allowed = f"no less than now, {old.pretension:g} N: raised, or set again to what was planned; {NOT_OFFERED['slack']}"
        raise refuse(name, new.pretension, allowed)
