"""The invented rig of the case lesson: what was planned, and what was rigged on the day; always with its backup."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import partial

from linelib.checks import number
from linelib.models.margins import NO_SOURCE, Reduction
from linelib.rigging import Backup, Leash, Rig, Segment, Setup, Walker
from linelib.studies.knobs import CHANGES, Change, Knob, Listed, knob, with_insert, with_material
from linelib.studies.lesson_rig import BACKUP, INSERT, JOINTS
from linelib.studies.mixes import Choice
from linelib.studies.outcomes import Case, Link
from linelib.tables import webbings
from linelib.webbing import Webbing

SPAN, RISE, MATERIAL, EXTRA = 62.0, 3.0, "hmpe_25mm", 2.1  # [m], [m], a row of data/webbings.csv, [m] a bay: our choice
ANCHOR, END, WEBBING, LOCK = "anchor A", "end at A", "webbing", "lock at B"
SEATING = "seating straight"
LINKS = (
    Link(name=ANCHOR, side="A", printed=40e3),
    Link(name=END, side="A", reductions=(Reduction(name="sewn end", loses=0.15, source=NO_SOURCE),)),
    Link(name=WEBBING, side="either"),
    Link(name=LOCK, side="B", reductions=(Reduction(name="lock, seated straight", loses=0.25, source=NO_SOURCE),)),
)


@dataclass(frozen=True, kw_only=True)
class Numbers:
    """What was chosen: mass [kg], leash length, standing height, insert length [m], pretension [N], and the factor of its
    strength [-] the lock has left for how the webbing sits in it."""

    mass: float
    leash_length: float
    standing_height: float
    pretension: float
    insert_length: float
    lock_left: float

    def __post_init__(self) -> None:
        number("insert_length", self.insert_length, low=0.0, high=50.0, unit="m")
        number("lock_left", self.lock_left, low=0.01, high=1.0, unit="of its strength")


PLANNED = Numbers(mass=75.0, leash_length=1.5, standing_height=1.0, pretension=3000.0, insert_length=8.0, lock_left=1.0)
RIGGED = Numbers(mass=95.0, leash_length=2.2, standing_height=1.4, pretension=2200.0, insert_length=0.0, lock_left=0.55)


def case_rig(*, numbers: Numbers, table: Mapping[str, Webbing] | None = None) -> Case:
    """62 m of HMPE, B 3 m above A, a polyamide insert at A, a polyester backup joined at every eighth of the span.

    The backup's bays are 2.1 m longer than the main line in every version, which no fall here reaches: 12 kN stretch the bay
    with 8 m of insert by less (tests/closed_form/test_case_rig.py).

    Parameters: numbers [as Numbers]; table : rows of data/webbings.csv, for who asks often and has read them once.
    Returns: Case.
    Raises: ValueError naming what is not possible.
    Source: an invented rig; the numbers are our choice.
    """
    table = webbings() if table is None else table
    backup = Backup(webbing=table[BACKUP], joints=JOINTS, extra_length=EXTRA)
    line = Segment(webbing=table[MATERIAL])
    rig = Rig(span=SPAN, height_difference=RISE, segments=(line,), pretension=numbers.pretension, backup=backup)
    setup = Setup(
        rig=rig,
        leash=Leash(length=numbers.leash_length),
        walker=Walker(mass=numbers.mass, standing_height=numbers.standing_height),
    )
    return Case(setup=with_insert(setup, numbers.insert_length, webbing=table[INSERT]), left={LOCK: numbers.lock_left})


def case_choices(
    *, planned: Numbers = PLANNED, rigged: Numbers = RIGGED, table: Mapping[str, Webbing] | None = None
) -> tuple[Choice, ...]:
    """The six choices between what was planned and what was rigged; each sets its own number, at equal pretension as set.

    Parameters: planned, rigged [as Numbers]; table as in `case_rig`.
    Returns: Choices.
    Source: an invented rig; the numbers are our choice.
    """
    soft = (webbings() if table is None else table)[INSERT]
    insert = partial(with_insert, length=rigged.insert_length, webbing=soft)
    factor = {LOCK: rigged.lock_left / planned.lock_left}
    return (
        Choice(name=f"insert {_metres(planned.insert_length)} to {_metres(rigged.insert_length)}", change=insert),
        _choice("tension", "pretension", planned.pretension, rigged.pretension, "kN", 1e3),
        _choice("mass", "walker's mass", planned.mass, rigged.mass, "kg", 1.0),
        _choice("leash", "leash length", planned.leash_length, rigged.leash_length, "m", 1.0),
        _choice("stance", "standing height", planned.standing_height, rigged.standing_height, "m", 1.0),
        Choice(name=f"seating: {100 * rigged.lock_left:.0f} % left", strength=factor),
    )


def case_knobs(*, now: Case, planned: Numbers = PLANNED, table: Mapping[str, Webbing] | None = None) -> tuple[Knob, ...]:
    """What could have been otherwise on the rig `now`, as numbers: leash [m], stance [m], insert [m], mass [kg], span [m],
    and pretension [N] where it has been lost, set again up to what was planned.

    A leash is no shorter than the stance, and the stance no higher than the leash is long: else the walker hangs in it.

    Raises: ValueError naming what is not possible.
    Source: ranges are our choice.
    """
    soft, tight = (webbings() if table is None else table)[INSERT], now.setup.rig.pretension or 0.0
    leash, stance = now.setup.leash.length, now.setup.walker.standing_height
    lows = {"leash length": max(0.6, stance), "standing height": 0.0, "walker's mass": 40.0, "span": 40.0}
    highs = {"leash length": max(3.0, 1.1 * leash), "standing height": min(1.6, leash), "walker's mass": 130.0, "span": 150.0}
    found = [knob(name=name, now=now, low=low, high=highs[name]) for name, low in lows.items()]

    def softened(case: Case, length: float) -> Case:
        return replace(case, setup=with_insert(case.setup, length, webbing=soft))

    found.append(Knob(name="insert length", unit="m", low=0.0, high=15.0, on=softened))
    if planned.pretension > tight:
        found.append(knob(name="pretension", now=now, low=tight, high=planned.pretension))
    return tuple(found)


def case_lists(*, now: Case, table: Mapping[str, Webbing] | None = None) -> tuple[Listed, ...]:
    """Material of the main line, and how the webbing sits in the lock.

    Raises: ValueError for a rig without a pretension.
    Source: data/webbings.csv.
    """
    rows = webbings() if table is None else table
    materials = {web.name: replace(now, setup=with_material(now.setup, web)) for web in rows.values()}
    straight = {"as it sat": now, "straight": replace(now, left={**now.left, LOCK: 1.0})}
    return Listed(name="material", options=materials), Listed(name=SEATING, options=straight)


def _choice(words: str, name: str, before: float, after: float, unit: str, per: float) -> Choice:
    change: Change = CHANGES[name][1]
    numbers = f"{before / per:g} to {after / per:g} {unit}"
    return Choice(name=f"{words} {numbers}", change=lambda setup: change(setup, after))


def _metres(length: float) -> str:
    return f"{length:g} m" if length else "none"
