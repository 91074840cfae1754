"""The report of a case: evidence, assumptions, results, causes by rank, changes with their cost, what is not known, rigs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linelib.cautions import CAUTION, HELD, LEFT_OUT, LIMITS, RETENSION, SLIP
from linelib.checks import instance
from linelib.papers.blocks import Block, Heading, Picture, Points, Table, Text
from linelib.papers.case import CaseFile
from linelib.papers.case_parts import KINDS, Evidence
from linelib.papers.paper import Paper
from linelib.papers.rig_text import rig_text
from linelib.papers.versions import versions

PURPOSE = (
    "This report is written to learn from, and blames nobody. It keeps apart what was seen, what was assumed and what was "
    "computed. A first story that fits is not yet the cause."
)
NOTHING = "Nothing was entered here."
RANKED = (
    "Explanations of the same rank are not told apart by this evidence. The list is not complete: something not on it is "
    "always possible."
)
COSTS = f"{RETENSION} {SLIP} Slip and added sag are no remedy and are not offered as one."


def report(*, case: CaseFile) -> Paper:
    """The report of a case, as long as it needs to be.

    Raises: ValueError when `case` is not a CaseFile.
    """
    instance("case", case, CaseFile)
    parts = (_opening, _evidence, _assumptions, _computed, _causes, _changes, _open_ends, _again)
    blocks = [block for part in parts for block in part(case)]
    return Paper(title=case.title, blocks=tuple(blocks), invented=case.invented)


def _opening(case: CaseFile) -> Iterator[Block]:
    if case.date:
        yield Text(f"Report, {case.date}.")
    if case.invented:
        yield Text("This case is invented: nobody in it exists and nothing in it has happened.", "strong")
    yield Text(PURPOSE)


def _table(head: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> Block:
    return Table(tuple(rows), head) if rows else Text(NOTHING)


def _evidence(case: CaseFile) -> Iterator[Block]:
    yield Heading("1  Evidence")
    in_order = sorted(case.evidence, key=lambda one: KINDS.index(one.kind))
    yield _table(
        ("Kind", "What", "From", "Believed"),
        [(one.kind, one.words, one.source or "not entered", _believed(one)) for one in in_order],
    )
    yield Heading("Order of events", 2)
    rows = [(str(i), one.when or "not known", one.words, one.sure) for i, one in enumerate(case.order, 1)]
    yield _table(("No.", "When", "What", "Its place in the order"), rows)


def _believed(one: Evidence) -> str:
    return "-" if one.kind == "missing" and one.believed == "yes" else one.believed


def _assumptions(case: CaseFile) -> Iterator[Block]:
    yield Heading("2  Assumptions and their ranges")
    yield _table(
        ("What", "From", "To", "Unit", "Why this far"),
        [(one.name, f"{one.low:g}", f"{one.high:g}", one.unit or "-", one.why) for one in case.assumptions],
    )


def _computed(case: CaseFile) -> Iterator[Block]:
    yield Heading("3  What was computed")
    for one in case.computed:
        yield Heading(one.title, 2)
        yield Text(one.words, "figures")
        if one.picture is not None:
            yield Picture(one.picture, f"{one.title}: the picture to the figures above.")
    if not case.computed:
        yield Text(NOTHING)


def _causes(case: CaseFile) -> Iterator[Block]:
    yield Heading("4  Explanations weighed, causes ranked")
    rows = [(str(one.rank), one.words, one.for_it, one.against) for one in case.causes]
    yield _table(("Rank", "Explanation", "For it", "Against it"), rows)
    yield Text(RANKED)


def _changes(case: CaseFile) -> Iterator[Block]:
    yield Heading("5  Changes that keep the margin, and what they cost")
    rows = [(one.words, one.keeps, one.cost) for one in case.changes]
    yield _table(("Change", "Margin it keeps", "What it costs"), rows)
    yield Text(COSTS)


def _open_ends(case: CaseFile) -> Iterator[Block]:
    yield Heading("6  What is not known")
    yield Points(tuple(case.not_known))
    yield Heading("7  Cautions")
    yield Points((CAUTION, HELD, LIMITS, LEFT_OUT))


def _again(case: CaseFile) -> Iterator[Block]:
    yield Heading("8  To compute it again")
    seed = "no random numbers were used" if case.seed is None else str(case.seed)
    yield Table((*versions().items(), ("seed", seed)), ("What", "Version"))
    yield Text("A rig file is a text for linelib.open_rig. Copy it from the HTML form of this report, where no line is broken.")
    for one in case.setups:
        yield Heading(f"Rig file: {one.name}", 2)
        yield Text(rig_text(one.setup), "file")
    if not case.setups:
        yield Text("No rig was entered.")
