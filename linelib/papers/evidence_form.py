"""The evidence form: blank, to print and to write on, before anything is moved and before the story has settled."""

from __future__ import annotations

from collections.abc import Iterator

from linelib.cautions import HELD
from linelib.papers import form_words as say
from linelib.papers.blocks import Block, Form, Heading, Points, Table, Text
from linelib.papers.paper import Paper

ROOM = 11.0  # mm, a row to write in


def evidence_form() -> Paper:
    """The blank form: people first, what to preserve, order of events, evidence by kind, what was measured, who is asked."""
    blocks = [block for part in (_first, _preserve, _order, _evidence, _measured, _asked, _open) for block in part()]
    return Paper(title="Evidence form", blocks=tuple(blocks))


def _first() -> Iterator[Block]:
    yield Text(say.PURPOSE)
    yield Table(tuple((name, "") for name in say.WHO_AND_WHERE), ("About this form", "Written by hand"), 9.0, (2.0, 3.0))
    yield Heading("1  People first, then evidence")
    yield Points(say.FIRST, boxes=True)
    yield Text(HELD)


def _preserve() -> Iterator[Block]:
    yield Heading("2  What to preserve")
    yield Text(say.KEEP)
    yield Points(say.PRESERVE, boxes=True)
    yield Form("Moved or changed already: what, by whom, why, and what it looked like before", lines=3)


def _order() -> Iterator[Block]:
    yield Heading("3  Order of events")
    yield Text(say.ORDER, "lead")
    rows = tuple((str(i), "", "", "", "") for i in range(1, 11))
    yield Table(rows, ("No.", "When", "What happened", "Known from", "Sure?"), ROOM, (0.7, 1.6, 6.0, 2.0, 1.6))


def _evidence() -> Iterator[Block]:
    yield Heading("4  Evidence by kind")
    yield Text(say.EVIDENCE)
    for kind, words in say.KINDS_IN_WORDS.items():
        yield Heading(kind.capitalize(), 2)
        yield Text(words, "lead")
        yield Table((("", "", ""),) * 3, say.EVIDENCE_HEADS[kind], ROOM, (5.0, 3.0, 2.4))


def _measured() -> Iterator[Block]:
    yield Heading("5  The rig in numbers")
    yield Text(say.MEASURED, "lead")
    rows = tuple((name, "", "", "") for name in say.QUANTITIES)
    yield Table(rows, ("What", "Value and unit", "Give or take", "Known from"), 8.5, (5.0, 2.2, 1.9, 2.4))


def _asked() -> Iterator[Block]:
    yield Heading("6  Who is asked what")
    yield Text(say.ASKING)
    for who, questions in say.QUESTIONS.items():
        yield Heading(who, 2)
        yield Form("Asked by, and when", lines=1)
        for question in questions:
            yield Form(question, lines=3)


def _open() -> Iterator[Block]:
    yield Heading("7  What is not known")
    yield Form(say.OPEN, lines=5)
