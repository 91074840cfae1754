"""Cases, blocks and papers that are not possible are refused by name."""

from __future__ import annotations

import pytest

from linelib.papers import (
    Assumption,
    Cause,
    Change,
    Computed,
    Evidence,
    Form,
    Heading,
    NamedSetup,
    Paper,
    Picture,
    Points,
    Step,
    Table,
    Text,
    bulletin,
    html_of,
    pdf_of,
    report,
    save_case,
)
from linelib.papers.rig_text import rig_text
from linelib.papers.wording import BLAME
from linelib.studies.lesson_rig import lesson_setup
from tests.house.refusals import NO_NUMBER, refused
from tests.invented_case import invented_case, picture


def cause(rank, **more):
    return Cause(**{"rank": rank, "words": "x", "for_it": "x", "against": "x", **more})


def change(**more):
    return Change(**{"words": "a shorter leash", "keeps": "force on the person", "cost": "less room to move", **more})


def assumption(**more):
    return Assumption(**{"name": "x", "low": 1.0, "high": 2.0, "unit": "m", "why": "x", **more})


def paper(*blocks, **more):
    return Paper("title", blocks, **more)


SETUP = NamedSetup(name="one", setup=lesson_setup())
REFUSALS = {
    "an empty heading": ("words = ''", lambda: Heading(" ".strip())),
    "a heading of level 3": ("level = 3", lambda: Heading("x", 3)),
    "a heading of level True": ("level = True", lambda: Heading("x", True)),
    "a text of nothing": ("words = ' '", lambda: Text(" ")),
    "a text of a number": ("words = 3", lambda: Text(3)),
    "a text with a bell": ("words = 'a\\x07'", lambda: Text("a\x07")),
    "half a letter": ("words = '\\ud800'", lambda: Text("\ud800")),
    "a kind of its own": ("kind = 'bold'", lambda: Text("x", "bold")),
    "points in one text": ("words = 'x'", lambda: Points("x")),
    "no points": ("words = ()", lambda: Points(())),
    "a row too short": ("rows[0] = ('x',)", lambda: Table((("x",),), ("a", "b"))),
    "a row that is a text": ("rows[0] = 'xy'", lambda: Table(("xy",), ("a", "b"))),
    "no rows": ("rows = ()", lambda: Table((), ("a",))),
    "a cell of a number": ("rows[0][0] = 3", lambda: Table(((3,),), ("a",))),
    "eleven columns": ("head = (", lambda: Table((("x",) * 11,), ("a",) * 11)),
    "a head too long": ("head = (", lambda: Table((("x",),), ("a" * 61,))),
    "too few shares": ("shares = (1.0,)", lambda: Table((("x", "y"),), ("a", "b"), 0.0, (1.0,))),
    "a column of nothing": ("shares = (1.0, 0.04)", lambda: Table((("x", "y"),), ("a", "b"), 0.0, (1.0, 0.04))),
    "no picture": ("png = b'GIF89a'", lambda: Picture(b"GIF89a", "x")),
    "half a picture": ("png = b", lambda: Picture(picture()[:300], "x")),
    "a picture in words": ("png = 'x'", lambda: Picture("x", "x")),
    "a picture without words": ("words = ''", lambda: Picture(picture(), "")),
    "half a line": ("lines = 0.5", lambda: Form("x", 0.5)),
    "31 lines": ("lines = 31", lambda: Form("x", 31)),
    "boxes in one text": ("boxes = 'yes'", lambda: Form("x", 1, "yes")),
    "a title of two lines": ("title = 'a\\nb'", lambda: Paper("a\nb", ())),
    "blocks of one block": ("blocks = Text", lambda: Paper("a", Text("x"))),
    "a block in words": ("blocks[1] = 'x'", lambda: paper(Text("x"), "x")),
    "another ending": ("path = 'report.doc'", lambda: paper(Text("x")).save("report.doc")),
    "a letter without a shape": (
        "a letter of the text = '漢'",
        lambda: pdf_of(paper(Text("漢"))),
    ),
    "evidence of a kind of its own": ("kind = 'heard'", lambda: Evidence(kind="heard", words="x")),
    "evidence half believed": ("believed = 'maybe'", lambda: Evidence(kind="told", words="x", believed="maybe")),
    "a step of its own": ("sure = 'yes'", lambda: Step(words="x", sure="yes")),
    "a range upside down": ("high = 1.0", lambda: assumption(low=2.0, high=1.0)),
    "a range without a reason": ("why = ''", lambda: assumption(why="")),
    "a rank of 0": ("rank = 0", lambda: cause(0)),
    "nothing said against it": ("against = ''", lambda: cause(1, against="")),
    "a change without a cost": ("cost = ''", lambda: change(cost="")),
    "a change with a blank cost": ("cost = '  '", lambda: change(cost="  ")),
    "a change that keeps nothing": ("keeps = ''", lambda: change(keeps="")),
    "a result in a number": ("words = 7.0", lambda: Computed(title="x", words=7.0)),
    "a setup in words": ("setup = 'rig'", lambda: NamedSetup(name="x", setup="rig")),
    "no evidence": ("evidence = ()", lambda: invented_case(evidence=())),
    "evidence in words": ("evidence[0] = 'x'", lambda: invented_case(evidence=("x",))),
    "everything known": ("not_known = ()", lambda: invented_case(not_known=())),
    "invented by a number": ("invented = 1", lambda: invented_case(invented=1)),
    "ranks from 2": ("causes = [2]", lambda: invented_case(causes=(cause(2),))),
    "a rank left out": ("causes = [1, 3]", lambda: invented_case(causes=(cause(1), cause(3)))),
    "ranks that fall": ("causes = [1, 2, 1]", lambda: invented_case(causes=(cause(1), cause(2), cause(1)))),
    "two rigs of one name": ("setups = ['one', 'one']", lambda: invented_case(setups=(SETUP, SETUP))),
    "a seed of half": ("seed = 0.5", lambda: invented_case(seed=0.5)),
    "a seed under 0": ("seed = -1", lambda: invented_case(seed=-1)),
    "a report on words": ("case = 'x'", lambda: report(case="x")),
    "a bulletin on words": ("case = 'x'", lambda: bulletin(case="x")),
    "words in a case file": ("case = 'x'", lambda: save_case(case="x", path="x")),
    "words in a rig file": ("setup = 'x'", lambda: rig_text("x")),
    "nobody affected": ("affected = ()", lambda: bulletin(case=invented_case(affected=()))),
    "nothing to do": ("do_now = ()", lambda: bulletin(case=invented_case(do_now=()))),
}


@pytest.mark.parametrize("case", REFUSALS)
def test_what_is_refused(case) -> None:
    start, ask = REFUSALS[case]
    head, _ = refused(ask)
    assert head.startswith(start)


@pytest.mark.parametrize("value", [-1.0, 200.1, *NO_NUMBER])
def test_room(value) -> None:
    assert refused(lambda: Table((("x",),), ("a",), value))[0].startswith("room = ")


@pytest.mark.parametrize("value", NO_NUMBER)
def test_ends_of_a_range(value) -> None:
    assert refused(lambda: assumption(low=value))[0].startswith("low = ")
    assert refused(lambda: assumption(high=value))[0].startswith("high = ")


@pytest.mark.parametrize("words", BLAME)
def test_blame(words) -> None:
    sentence = f"The rigger, {words.upper()} someone."
    for ask in (
        lambda: invented_case(title=sentence),
        lambda: bulletin(case=invented_case(do_now=(sentence,))),
        lambda: bulletin(case=invented_case(not_known=(sentence,))),
    ):
        _, allowed = refused(ask)
        assert words.upper() in allowed
    assert sentence in html_of(report(case=invented_case(evidence=(Evidence(kind="told", words=sentence),))))  # said so: kept


def test_no_blame_is_found_where_there_is_none() -> None:
    assert invented_case(title="A slipping lock is a fault, the default offers no blame").title.startswith("A slipping")


@pytest.mark.parametrize("make", [pdf_of, html_of])
def test_a_bulletin_too_long_is_refused_by_how_much(make) -> None:
    long = bulletin(case=invented_case(do_now=("Stop after a noise that nobody can explain.",) * 40))
    with pytest.raises(ValueError, match=r"is \d+ mm too long for its one page, about \d+ lines of text; allowed: 2\d\d mm"):
        make(long)


def test_nothing_is_written_when_it_is_refused(tmp_path) -> None:
    long = paper(*[Text("x")] * 100, one_page=True)
    for name in ("a.pdf", "a.html"):
        with pytest.raises(ValueError, match="too long"):
            long.save(tmp_path / name)
    assert list(tmp_path.iterdir()) == []
