"""Lines, columns and pages: nothing is lost, nothing stands outside, what belongs together stays together."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from matplotlib.font_manager import findfont
from PIL import ImageFont

from linelib.papers import Form, Heading, Paper, Picture, Points, Table, Text
from linelib.papers.bands import WIDTH, Band, Placed, Rule, Words, gap
from linelib.papers.fonts import face, width, wrapped
from linelib.papers.pages import FOOT, HEIGHT, LEFT, PAPER, filled_pages, pages_of
from linelib.papers.table_bands import widths
from tests.invented_case import picture

words = st.text(st.sampled_from("abc WMil.,"), max_size=200)


@pytest.mark.parametrize("style", ["plain", "bold", "even"])
@pytest.mark.parametrize("text", ["", "l", "a slipping lock", "MMMM iiii", "0.25 kN, ± 3 %"])
def test_widths_are_those_of_another_reader_of_the_font(style, text) -> None:
    font = ImageFont.truetype(findfont(face(style)), size=1000, layout_engine=ImageFont.Layout.BASIC)
    kerned = font.getlength(text, features=None) / 100.0
    assert width(text, style, 10.0) == pytest.approx(kerned, rel=0.03, abs=1e-9)
    for letter in text:  # one letter has no kerning
        assert width(letter, style, 10.0) == pytest.approx(font.getlength(letter) / 100.0, rel=2e-3)


def test_even_letters_by_hand() -> None:
    assert width("i" * 100, "even", 10.0) == pytest.approx(100 * 10.0 * 1233 / 2048)  # 1233 of 2048 units, the font's own table


@given(text=words, room=st.floats(20.0, 400.0))
def test_lines_fit_and_nothing_is_lost(text, room) -> None:
    rows = wrapped(text, "plain", 9.0, room)
    assert all(width(row, "plain", 9.0) <= room for row in rows)
    assert "".join(rows).replace(" ", "") == text.replace(" ", "")


def test_lines_by_hand() -> None:
    even = 10.0 * 1233 / 2048
    assert wrapped("one two three", "even", 10.0, 7.5 * even) == ["one two", "three"]
    assert wrapped("one two three", "even", 10.0, 6.5 * even) == ["one", "two", "three"]
    assert wrapped("abcdefgh ij", "even", 10.0, 3.5 * even) == ["abc", "def", "gh", "ij"]
    assert wrapped("  two\n\nfour", "even", 10.0, 300.0) == ["  two", "", "four"]


@given(st.lists(st.lists(words, min_size=3, max_size=3), min_size=1, max_size=4))
def test_columns_fill_the_width(rows) -> None:
    wide = widths(Table(tuple(map(tuple, rows)), ("a", "b", "last")))
    assert sum(wide) == pytest.approx(WIDTH)
    assert min(wide) > 10.0


def test_columns_by_shares() -> None:
    assert widths(Table((("x", "y"),), ("a", "b"), 0.0, (1.0, 3.0))) == pytest.approx([WIDTH / 4, 3 * WIDTH / 4])


def test_pages_by_hand() -> None:
    a, b, c = (Band(40.0, (Words(0.0, 0.0, text, "plain", 9.0),)) for text in "abc")
    held = Band(40.0, keep=True)
    assert filled_pages([a, b, c], 100.0) == [[a, b], [c]]
    assert filled_pages([a, held, c], 100.0) == [[a], [held, c]]  # kept together
    assert filled_pages([a, b, gap(30.0), c], 100.0) == [[a, b], [c]]  # no empty space at the ends of a page
    headed = Band(40.0, head=(Band(10.0),))
    assert filled_pages([a, b, headed], 100.0) == [[a, b], [Band(10.0), headed]]
    assert filled_pages([held, held, held, a], 100.0) == [[held, held], [held, a]]  # more than a page is cut all the same


BLOCKS = st.one_of(
    st.builds(Heading, words.filter(str.strip), st.sampled_from([1, 2])),
    st.builds(Text, words.filter(str.strip), st.sampled_from(["plain", "lead", "figures", "file"])),
    st.builds(Points, st.lists(words.filter(str.strip), min_size=1, max_size=4).map(tuple), st.booleans()),
    st.builds(Form, words.filter(str.strip), st.integers(0, 30), st.lists(words.filter(str.strip), max_size=5).map(tuple)),
    st.builds(
        Table, st.lists(st.tuples(words, words), min_size=1, max_size=8).map(tuple), st.just(("a", "b")), st.floats(0, 80)
    ),
    st.builds(lambda w, h: Picture(picture(w, h), "words"), st.sampled_from([1, 300, 2000]), st.sampled_from([1, 200, 1500])),
)


@given(st.lists(BLOCKS, max_size=8))
def test_nothing_stands_outside_its_page(blocks) -> None:
    for page in pages_of(Paper("title", tuple(blocks))):
        for item in page.items:
            ends = item.x
            if isinstance(item, Words):
                ends, bottom = item.x + width(item.text, item.style, item.size), item.y
            elif isinstance(item, Rule):
                ends, bottom = max(item.x, item.to_x), max(item.y, item.to_y)
            else:
                assert isinstance(item, Placed)
                ends, bottom = item.x + item.width, item.y + item.height
            assert LEFT - 1e-6 <= item.x <= ends <= LEFT + WIDTH + 1e-6
            assert 0.0 < bottom <= PAPER[1] - 20.0


@given(st.lists(BLOCKS, max_size=8))
def test_what_is_written_stands_over_the_foot_once(blocks) -> None:
    texts = [block for block in blocks if isinstance(block, Text)]
    pages = pages_of(Paper("title", tuple(texts)))
    over = [item.text for page in pages for item in page.items if isinstance(item, Words) and item.y < PAPER[1] - FOOT + 1.0]
    said = "title" + "".join(block.words for block in texts)
    assert "".join(over).replace(" ", "") == said.replace(" ", "")


def test_one_page_is_one_page_up_to_its_last_line() -> None:
    def long(count):
        return Paper("title", (Text("\n".join("x" * count)),), one_page=True)

    most = max(count for count in range(1, 80) if _fits(long(count)))
    assert 50 < most < 60  # (255 mm less the title) at 9.5 points x 1.36
    with pytest.raises(ValueError, match=r"is \d mm too long for its one page, about 1 line of text; allowed: 255 mm of A4"):
        pages_of(long(most + 1))
    assert pytest.approx(255.0) == HEIGHT * 25.4 / 72.0


def _fits(paper: Paper) -> bool:
    try:
        return len(pages_of(paper)) == 1
    except ValueError:
        return False
