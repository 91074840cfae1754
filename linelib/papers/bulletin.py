"""The bulletin of a case: known, believed, unknown, who is affected, what to do now; one page, no blame."""

from __future__ import annotations

from collections.abc import Iterator

from linelib.cautions import HELD
from linelib.checks import instance
from linelib.papers.blocks import Block, Heading, Points, Text
from linelib.papers.case import CaseFile
from linelib.papers.paper import Paper
from linelib.papers.wording import texts, without_blame

SEEN = ("photographed", "measured")


def bulletin(*, case: CaseFile) -> Paper:
    """One page from a case: what was photographed or measured and is believed counts as known, the rest of what is believed
    as believed; what is doubted, missing or not known as unknown.

    Raises: ValueError when `affected` or `do_now` is empty, when a sentence blames somebody, naming it; when saved, if it is
    too long for one page, saying by how much.
    """
    instance("case", case, CaseFile)
    affected = texts("affected", case.affected, empty=False)
    do_now = texts("do_now", case.do_now, empty=False)
    parts = {
        "Known": known(case),
        "Believed, not shown": believed(case),
        "Not known": unknown(case),
        "Who is affected": affected,
        "What to do now": (*do_now, HELD),
    }
    return Paper(title=case.title, blocks=tuple(_blocks(case, parts)), one_page=True, invented=case.invented)


def known(case: CaseFile) -> tuple[str, ...]:
    """What was photographed or measured and is believed, and what was found to be wrong."""
    seen = [one.words for one in case.evidence if one.kind in SEEN and one.believed == "yes"]
    return (*seen, *(f"Found not to be so: {one.words}" for one in case.evidence if one.believed == "wrong"))


def believed(case: CaseFile) -> tuple[str, ...]:
    """What was told or inferred and is believed, and the explanations of the first rank."""
    told = [one.words for one in case.evidence if one.kind in ("told", "inferred") and one.believed == "yes"]
    first = [one.words for one in case.causes if one.rank == 1]
    word = "Best supported" if len(first) == 1 else "Among the best supported, not told apart"
    return (*told, *(f"{word}: {words}" for words in first))


def unknown(case: CaseFile) -> tuple[str, ...]:
    """What is not known, missing, or doubted."""
    missing = [f"Missing: {one.words}" for one in case.evidence if one.kind == "missing" and one.believed != "wrong"]
    doubted = [f"Doubted: {one.words}" for one in case.evidence if one.kind != "missing" and one.believed == "doubted"]
    return (*case.not_known, *missing, *doubted)


def _blocks(case: CaseFile, parts: dict[str, tuple[str, ...]]) -> Iterator[Block]:
    yield Text("Safety bulletin" + (f", {case.date}" if case.date else "") + ". It is written to learn from and blames nobody.")
    if case.invented:
        yield Text("This case is invented: nobody in it exists and nothing in it has happened.", "strong")
    for name, sentences in parts.items():
        yield Heading(name)
        for i, sentence in enumerate(sentences):
            without_blame(f"{name}[{i}]", sentence)
        yield Points(sentences) if sentences else Text("Nothing so far.")
