"""The evidence cards of the case: what was told, photographed, measured, inferred, and what is missing. All of it invented.

Which card is wrong is left to whoever reads them; the readings of the load cell are made from this model's numbers with an
error put on, so that their agreement with it says nothing about the model.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from textwrap import fill

from linelib.checks import one_of
from linelib.models.fall_in_time import falls
from linelib.models.lines import GRAVITY
from linelib.models.signs import TearSigns
from linelib.models.tear_signs import tear_signs
from linelib.models.tearing import remainder
from linelib.studies.case_rig import MATERIAL, PLANNED, RIGGED, RISE, SPAN, case_rig
from linelib.studies.case_story import Morning
from linelib.studies.witness import WIDTH
from linelib.tables import webbings

TOLD, SEEN, MEASURED, INFERRED, MISSING = KINDS = ("told", "photographed", "measured", "inferred", "missing")
CELL, CELL_WITHIN = (8.7e3, 10.1e3, 10.4e3, 13.4e3), 400.0  # N at A: invented readings, and how well the cell is known


@dataclass(frozen=True, kw_only=True)
class Card:
    """One piece of evidence: its `kind` of KINDS, and its `words`. Whether it holds is not on it.

    Raises: ValueError listing the kinds.
    """

    kind: str
    words: str

    def __post_init__(self) -> None:
        one_of("kind", self.kind, KINDS)


def cards(*, told: Morning) -> tuple[Card, ...]:
    """All cards of the case in the order in which they came in.

    Parameters: told : of `morning`; its numbers stand on the cards, in [m], [cm], [kg], [kN].
    Returns: Cards.
    Source: an invented story, studies/case_story.py.
    """
    last = told.falls[-1]
    web = webbings()[MATERIAL].name
    walkers = "; ".join(
        f"{one.setup.walker.mass:.0f} kg, leash {one.setup.leash.length:.1f} m, {one.setup.walker.standing_height:.1f} m above"
        for one in told.falls[:-1]
    )
    cell = ", ".join(f"{n / 1e3:.1f}" for n in CELL)
    made = (
        (TOLD, "The coach was too heavy for the line. That was it."),
        (TOLD, f"The plan: {SPAN:.0f} m of {web}, B {RISE:.0f} m above A, {PLANNED.insert_length:.0f} m of soft insert at A, "
               f"{PLANNED.pretension / 1e3:.1f} kN, a leash of {PLANNED.leash_length:.1f} m, a backup joined all along."),
        (TOLD, f"The log of the morning: 'As planned. Insert in. {PLANNED.pretension / 1e3:.1f} kN.'"),
        (SEEN, "Anchor A before fall 1: the sewn end of the main webbing on the anchor, nothing between them."),
        (TOLD, "At B the webbing was taken out of the lock once and put in again. Then the line was tensioned."),
        (TOLD, f"Falls 1 to 3, one walker each: {walkers} the line. They held. Nothing noticed."),
        (MEASURED, f"Load cell at A, falls 1 to 4: {cell} kN, give or take {CELL_WITHIN / 1e3:.1f}."),
        (MEASURED, f"The mark on the tail at B: {100 * told.crept:.0f} cm further out before fall 4 than before fall 1."),
        (INFERRED, f"Nobody set the tension again: about {RIGGED.pretension / 1e3:.1f} kN before fall 4. Not measured."),
        (TOLD, f"Fall 4, the coach, {RIGGED.mass:.0f} kg, to show a fall: a borrowed leash of {RIGGED.leash_length:.1f} m, "
               f"{RIGGED.standing_height:.1f} m above the line. A dull noise; 'it dropped by a hand, all at once'. It held."),
        (TOLD, "Stopped. Walker in gently, load off with independent tackle, lock opened. No further fall."),
        (SEEN, "The open lock: an edge rolled over to a pleat; the strips of the flat edge torn, about "
               f"{100 * last.torn:.0f} % of the width."),
        (MISSING, "How the webbing lay, and whether all of it was whole, in the closed lock before fall 1: no photograph."),
    )  # fmt: skip
    return tuple(Card(kind=kind, words=words) for kind, words in made)


def cards_text(*, told: Morning) -> str:
    """The cards, numbered, each with its kind.

    Parameters: told : of `morning`; numbers in [m], [kg], [kN]. Returns: text, at most 100 characters wide.
    Source: as `cards`.
    """
    rows = [f"{i:2}  {one.kind.upper()}: {one.words}" for i, one in enumerate(cards(told=told), 1)]
    return "\n".join(fill(row, WIDTH, subsequent_indent="    ") for row in rows)


def cell_text(*, told: Morning) -> str:
    """What the load cell at A says beside the falls as computed without the insert, and with it at the tension planned.

    Parameters: told : of `morning`. Returns: text, forces in [kN].
    Source: models/fall_in_time.py; readings invented.
    """
    planned = case_rig(numbers=PLANNED).setup
    with_it = falls(setups=[replace(one.setup, rig=planned.rig) for one in told.falls]).peak_tension_a
    rows = ["peak at A [kN]    the cell    computed, no insert    computed, insert in"]
    for i, (one, read, soft_peak) in enumerate(zip(told.falls, CELL, with_it, strict=True), 1):
        bare = one.fall.peak_tension_a
        rows.append(f"fall {i}{read / 1e3:20.1f}{bare / 1e3:23.1f}{soft_peak / 1e3:23.1f}")
    return "\n".join([*rows, f"The cell is known to {CELL_WITHIN / 1e3:.1f} kN."])


def morning_text(*, told: Morning) -> str:
    """Fall after fall: tension before, load in the lock beside the load at which the first strips tear, and what tore.

    Parameters: told : of `morning`. Returns: text; forces in [kN], shares in [%].
    Source: studies/case_story.py.
    """
    first = told.strips.peak_pull[0]
    rows = ["fall  who              tension before    load in the lock    first strips tear at    torn after"]
    for i, one in enumerate(told.falls, 1):
        forces = f"{one.pretension / 1e3:11.2f} kN {one.load / 1e3:16.1f} kN {first / 1e3:20.1f} kN"
        rows.append(f"{i:4}  {one.role:14}{forces} {100 * one.torn:11.0f} %")
    left = told.strips.strength_left(round(told.falls[-1].torn * len(told.strips.tears_at)))
    over = 100.0 * (left / told.falls[-1].load - 1.0)
    rows.append(
        f"What was left in the lock could hold {left / 1e3:.1f} kN: {over:.1f} % more than fall 4 asked. "
        "Nobody could know that."
    )
    return "\n".join(rows)


def signs_after(*, told: Morning) -> TearSigns:
    """What the tear of the last fall changed with the coach standing and with nobody on the line, over what can be noticed.

    Parameters: told : of `morning`. Returns: TearSigns, lengths in [m], tensions in [N], times in [s].
    Raises: ValueError where the line has parted.
    Source: models/tear_signs.py, models/tearing.py; thresholds: typical, no source.
    """
    last = told.falls[-1]
    torn = round(last.torn * len(told.strips.tears_at))
    left = remainder(strips=told.strips, torn=torn, tension=last.pretension)
    weight = last.setup.walker.mass * GRAVITY
    return tear_signs(rig=last.setup.rig, length_given_up=left.length_given_up, load=weight, whole_share=left.whole_share)
