"""From blocks to bands: strips as wide as the text, that are not cut, with words, lines and pictures placed on them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

from linelib.papers.blocks import Block, Form, Heading, Picture, Points, Table, Text, size_of
from linelib.papers.fonts import width, wrapped

MM = 72.0 / 25.4  # points
WIDTH = 174.0 * MM
LEADING = 1.36
BODY, CELL = 9.5, 8.5
HEADINGS = {0: 17.0, 1: 12.5, 2: 10.5}
TEXTS = {
    "plain": ("plain", BODY),
    "strong": ("bold", BODY),
    "lead": ("plain", BODY),
    "figures": ("even", 7.9),
    "file": ("even", 6.6),
}
INDENT, BOX = 13.0, 8.0
WRITING = 8.0 * MM  # height of a line to write on
TALLEST = 100.0 * MM  # of a picture
DOTS = 72.0 / 96.0  # points for a dot of a picture on the screen


@dataclass(frozen=True)
class Words:
    """A line of text: left end `x` and base line `y` under the top of the band [points]."""

    x: float
    y: float
    text: str
    style: str
    size: float


@dataclass(frozen=True)
class Rule:
    """A straight line from (x, y) to (to_x, to_y) [points]; `strong` ones are black, others grey."""

    x: float
    y: float
    to_x: float
    to_y: float
    strong: bool = False


@dataclass(frozen=True)
class Placed:
    """A picture: its left upper corner and its size [points]."""

    x: float
    y: float
    width: float
    height: float
    png: bytes


@dataclass(frozen=True)
class Band:
    """A strip of `height` [points]. `keep`: on the page of the next one; `gap`: left out at the head of a page.

    `head` : bands that are repeated above this one when it begins a page
    """

    height: float
    items: tuple[Words | Rule | Placed, ...] = ()
    keep: bool = False
    gap: bool = False
    head: tuple[Band, ...] = ()


def gap(height: float, keep: bool = False) -> Band:
    """Empty space."""
    return Band(height, keep=keep, gap=True)


def lines_of(text: str, style: str, size: float, *, x: float = 0.0, room: float = WIDTH) -> list[Band]:
    """A text as one band a line; its first two and its last two lines stay together."""
    rows = wrapped(text, style, size, room)
    high = size * LEADING
    bands = [Band(high, (Words(x, 0.76 * high, row, style, size),) if row else ()) for row in rows]
    return [replace(band, keep=i in (0, len(rows) - 2) and i < len(rows) - 1) for i, band in enumerate(bands)]


def together(bands: list[Band]) -> list[Band]:
    """The bands, all kept on one page if they fit one."""
    return [replace(band, keep=i < len(bands)) for i, band in enumerate(bands, 1)]


def heading_bands(words: str, level: int) -> list[Band]:
    """A heading, kept with what follows; level 0 is the title."""
    bands = [replace(band, keep=True) for band in lines_of(words, "bold", HEADINGS[level])]
    return [gap({0: 0.0, 1: 11.0, 2: 7.0}[level]), *bands, gap(3.0, keep=True)]


def box(x: float, y: float) -> tuple[Rule, ...]:
    """A box to tick, its left lower corner at (x, y)."""
    corners = ((x, y), (x + BOX, y), (x + BOX, y - BOX), (x, y - BOX), (x, y))
    return tuple(Rule(*a, *b, strong=True) for a, b in pairwise(corners))


def _points(block: Points) -> list[Band]:
    bands = []
    for words in block.words:
        first, *rest = lines_of(words, "plain", BODY, x=INDENT, room=WIDTH - INDENT)
        base = 0.76 * BODY * LEADING
        mark = box(0.0, base) if block.boxes else (Words(3.0, base, "•", "plain", BODY),)
        bands += [replace(first, items=mark + first.items), *rest, gap(2.5)]
    return bands


def _form(block: Form) -> list[Band]:
    bands = lines_of(block.words, "plain", BODY)
    if block.boxes:
        bands += _ticks(block.boxes)
    bands += [Band(WRITING, (Rule(0.0, WRITING, WIDTH, WRITING),))] * block.lines
    return [*together(bands), gap(6.0)]


def _ticks(boxes: tuple[str, ...]) -> list[Band]:
    """Boxes side by side, on as many lines as they need."""
    high, x = 1.5 * BODY * LEADING, 0.0
    rows: list[list[Words | Rule | Placed]] = [[]]
    for words in boxes:
        wide = min(width(words, "plain", BODY), WIDTH - INDENT)
        if x and x + INDENT + wide > WIDTH:
            rows.append([])
            x = 0.0
        for i, row in enumerate(wrapped(words, "plain", BODY, WIDTH - INDENT)):
            if i:
                rows.append([])
            rows[-1] += [*(box(x, 0.7 * high) if not i else ()), Words(x + INDENT, 0.7 * high, row, "plain", BODY)]
        x += INDENT + wide + 14.0
    return [Band(high, tuple(row), keep=True) for row in rows]


def _picture(block: Picture) -> list[Band]:
    across, up = (DOTS * side for side in size_of(block.png))
    scale = min(1.0, WIDTH / across, TALLEST / up)
    place = Placed(0.0, 0.0, scale * across, scale * up, block.png)
    return [gap(3.0, keep=True), Band(place.height, (place,), keep=True), *lines_of(block.words, "plain", CELL), gap(6.0)]


def plain_bands(block: Block) -> list[Band]:
    """The bands of every block but a table.

    Raises: ValueError for a letter the font does not have.
    """
    match block:
        case Heading():
            return heading_bands(block.words, block.level)
        case Text():
            bands = [*lines_of(block.words, *TEXTS[block.kind]), gap(5.0)]
            return [replace(band, keep=True) for band in bands] if block.kind == "lead" else bands
        case Points():
            return [*_points(block), gap(2.0)]
        case Form():
            return _form(block)
        case Picture():
            return _picture(block)
        case Table():
            raise TypeError("a table has its own file")
