"""The table of what is commonly said: marked as without a source, no verdict typed in, four numbers always together."""

from __future__ import annotations

import pytest

from linelib.cautions import CAUTION, RETENSION
from linelib.studies import sayings as reader
from linelib.studies.commonly_said import insert_band, length_words, plain_fall, retension, retension_words, table_text
from linelib.studies.plain_rig import plain_setup
from linelib.studies.sayings import sayings
from linelib.studies.soft_insert import implied_words
from linelib.studies.witness import TELLS, Case, Witness, block, trend, verdict
from linelib.tables import DATA

NO_SOURCE = "common practice, no source"
FILE = (DATA / "commonly_said.csv").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def text():
    return table_text()


def one(text):
    """The text on one line."""
    return " ".join(text.split())


def cases(*anchors, group="line", rest=(1e3, 1e3, 5.0)):
    return [Case(group=group, name=str(i), numbers=(peak, *rest)) for i, peak in enumerate(anchors)]


def test_the_table_fits_a_notebook_cell_and_carries_its_cautions(text):
    assert max(map(len, text.splitlines())) <= 100
    assert one(RETENSION) in one(text)
    assert one(text).endswith(one(CAUTION))


def test_every_saying_is_in_the_table_and_marked_as_without_a_source(text):
    said = list(sayings().values())
    assert len(said) == 4
    for saying in said:
        assert saying.source == NO_SOURCE
        assert saying.uncertainty
        assert one(saying.words) in one(text)
    assert one(text).count(NO_SOURCE + "]") == 4


def test_no_number_at_the_anchor_stands_without_the_others(text):
    numbers = [line.split(" | ")[1:] for line in text.splitlines() if " | " in line and any(c.isdigit() for c in line[-6:])]
    assert len(numbers) > 20
    for row in numbers:
        assert [len(cell.split()) for cell in row] == [len(TELLS)] * len(row)
    assert text.count("anchor  over person lowest") == 3 + 2 + 3 + 2  # once a group


def test_a_row_of_numbers_by_hand():
    """In kN and m, in the order of the heading."""
    case = Case(group="line", name="one", numbers=(8.04e3, 2.1e3, 3.4e3, 5.6))
    rows = block(witness=Witness(saying="so", said="no source", model=(case,), words="words")).splitlines()
    assert rows[2].split(" | ")[1].split() == ["anchor", "over", "person", "lowest"]
    assert rows[3].split(" | ")[1].split() == ["8.0", "2.1", "3.4", "5.6"]


def test_the_verdict_follows_the_model():
    saying = sayings()["plain_fall"]
    assert "12 % below to 25 % above what is said. Within 10 % of it: line, 1." in verdict(
        saying=saying, cases=cases(7e3, 8e3, 1e4)
    )
    assert verdict(saying=saying, cases=cases(8e3, 8.5e3)).endswith("Within 10 % of it: all of them.")
    assert verdict(saying=saying, cases=cases(4e3, 5e3)).endswith(
        "50 % below to 38 % below what is said. Within 10 % of it: none."
    )


def test_the_verdict_follows_the_saying(tmp_path, monkeypatch):
    before = plain_fall()
    (tmp_path / "commonly_said.csv").write_text(FILE.replace(",8,100,100,10,", ",20,100,100,10,"), encoding="utf-8")
    monkeypatch.setattr(reader, "DATA", tmp_path)
    after = plain_fall()
    assert (before.said[:6], after.said[:7]) == ("8.0 kN", "20.0 kN")
    assert after.model == before.model
    assert "it: none." in after.words
    assert "it: none." not in before.words


def test_a_softer_insert_agrees_with_what_is_said_of_five_metres():
    assert "Within 10 % of it: 5 m of insert, EA 18 kN" in insert_band(lengths=(5.0,), stiffnesses=(18e3, 100e3, 200e3)).words
    assert "5 m of insert, EA 40 kN" not in insert_band(lengths=(5.0,)).words


@pytest.mark.parametrize(
    "length, peak, words",
    [
        (5.0, 4.5e3, "softer than any polyamide row, even in a slow pull"),
        (10.0, 4.5e3, "a polyamide row in a slow pull, not in a fast one"),
        (10.0, 6.2e3, "a polyamide row in a fast pull"),
        (10.0, 12e3, "no stiffness of 10 m was found: peak = 12000.0 is not possible"),
    ],
)
def test_the_implied_insert_is_judged_by_the_rows_of_the_table(length, peak, words):
    found = implied_words(
        peak=peak, length=length, setup_at=lambda soft: plain_setup(insert_length=length, insert_stiffness=soft)
    )
    assert words in found
    assert found.startswith(f"For {peak / 1e3:.1f} kN")


def test_a_threshold_would_be_called_one():
    spans, lengths = (100.0, 150.0, 200.0, 300.0), (150.0, 200.0)
    smooth = length_words(lengths=lengths, spans=spans, cases=cases(9e3, 8e3, 7.6e3, 7.3e3))
    stepped = length_words(lengths=lengths, spans=spans, cases=cases(9e3, 8.9e3, 6e3, 5.9e3))
    assert "no threshold, a smooth curve" in smooth
    assert "a step" not in smooth
    assert "a step" in stepped
    assert "no threshold" not in stepped
    with pytest.raises(ValueError, match=r"spans = \(100\.0, 150\.0, 200\.0\) is not possible"):
        length_words(lengths=lengths, spans=spans[:3], cases=cases(9e3, 8e3, 7e3))


def test_a_doubling_takes_off_half_where_the_peak_goes_with_one_over_the_span():
    words = length_words(lengths=(150.0, 200.0), spans=(75.0, 150.0, 200.0, 400.0), cases=cases(16e3, 8e3, 6e3, 3e3))
    assert "line 50 %, 50 %, 50 %" in words


def test_retension_says_which_numbers_go_up_and_which_go_down():
    up = retension_words(cases=cases(8e3, 9e3))
    assert "peak at the anchor up; increase over standing hardly moves" in up
    assert "holds for: none; is the wrong way round for: peak at the anchor;" in up
    down = retension_words(cases=cases(9e3, 8e3))
    assert "holds for: peak at the anchor; is the wrong way round for: none;" in down
    both = retension_words(cases=[*cases(8e3, 9e3), *cases(9e3, 8e3, group="other")])
    assert "peak at the anchor up / down;" in both
    assert "undecided for: peak at the anchor," in both


def test_retension_read_the_other_way_round_says_the_opposite():
    """The real model, from tight to loose: what went up goes down."""
    forth, back = retension(pretensions=(300.0, 3e3)), retension(pretensions=(3e3, 300.0))
    assert "peak at the anchor up" in forth.words
    assert "peak at the anchor down" in back.words
    assert "lowest tie-in down" in forth.words
    assert "lowest tie-in up" in back.words


@pytest.mark.parametrize(
    "values, word",
    [
        ((1.0, 1.02, 0.99), "hardly moves"),
        ((1.0, 1.02, 1.04), "up"),
        ((1.04, 1.0), "down"),
        ((1.0, 0.9, 1.0), "down, then up"),
        ((1.0, 1.1, 1.0), "up, then down"),
    ],
)
def test_trend(values, word):
    assert trend(values, 0.035) == word


@pytest.mark.parametrize(
    "old, new, words",
    [
        (",8,100,", ',"8,5",100,', r"row plain_fall, column peak_at_anchor_kN = '8,5'.*with a point, not a comma"),
        (",8,100,", ",nan,100,", "row plain_fall, column peak_at_anchor_kN = 'nan'"),
        (",8,100,", ",-8,100,", "row plain_fall, column peak_at_anchor_kN = '-8'"),
        ("said without a number", "", "row retension, column uncertainty_in_words = ''"),
        ("peak_at_anchor_kN", "peak_at_anchor_N", "columns = .*peak_at_anchor_N"),
    ],
)
def test_a_bad_cell_is_refused_by_its_place(tmp_path, old, new, words):
    assert old in FILE
    path = tmp_path / "commonly_said.csv"
    path.write_text(FILE.replace(old, new), encoding="utf-8")
    with pytest.raises(ValueError, match=words):
        sayings(path=path)


def test_numbers_are_those_of_the_file_in_si():
    """150 to 200 m; 8 and 4.5 kN; 10 % either way."""
    found = sayings()
    assert found["long_enough"].lengths == (150.0, 200.0)
    assert (found["plain_fall"].peak, found["soft_insert"].peak) == (8e3, 4.5e3)
    assert found["soft_insert"].lengths == (5.0, 10.0)
    assert found["plain_fall"].within == pytest.approx(0.1)


def test_empty_cells_name_no_number():
    found = sayings()["retension"]
    assert (found.peak, found.lengths, found.within) == (0.0, (), 0.0)
