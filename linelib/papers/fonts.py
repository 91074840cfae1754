"""Widths of words as the font itself has them, and lines broken by them."""

from __future__ import annotations

import re
from functools import cache

from matplotlib.font_manager import FontProperties, findfont
from matplotlib.ft2font import FT2Font

from linelib.checks import refuse

FACES = {"plain": ("DejaVu Sans", "normal"), "bold": ("DejaVu Sans", "bold"), "even": ("DejaVu Sans Mono", "normal")}
_EM = 1000.0


def face(style: str) -> FontProperties:
    """The font of a style: 'plain', 'bold', or 'even' with letters of one width. It comes with matplotlib."""
    family, weight = FACES[style]
    return FontProperties(family=family, weight=weight)


@cache
def _font(style: str) -> FT2Font:
    font = FT2Font(findfont(face(style)))
    font.set_size(_EM, 72)
    return font


@cache
def _advance(letter: str, style: str) -> float:
    font = _font(style)
    if font.get_char_index(ord(letter)) == 0:
        raise refuse("a letter of the text", letter, "letters that the font of the PDF has; a path that ends in .html has all")
    return font.load_char(ord(letter)).linearHoriAdvance / 65536.0 / _EM


def width(text: str, style: str, size: float) -> float:
    """Width of `text` [points] in letters of `size` [points], without kerning.

    Raises: ValueError for a letter the font does not have.
    """
    return size * sum(_advance(letter, style) for letter in text)


def wrapped(text: str, style: str, size: float, room: float) -> list[str]:
    """The lines of `text`, each at most `room` [points] wide, broken at spaces, or inside a word that is wider than that.

    Raises: ValueError for a letter the font does not have.
    """
    return [row for line in text.expandtabs(4).split("\n") for row in _broken(line.rstrip(), style, size, room)]


def _broken(line: str, style: str, size: float, room: float) -> list[str]:
    rows, row = [], ""
    for word in re.findall(r" *[^ ]+", line):
        if width(row + word, style, size) <= room:
            row += word
            continue
        if row:
            rows.append(row)
            word = word.lstrip()
        while len(word) > 1 and width(word, style, size) > room:
            cut = _longest(word, style, size, room)
            rows.append(word[:cut])
            word = word[cut:]
        row = word
    return [*rows, row]


def _longest(word: str, style: str, size: float, room: float) -> int:
    """How many letters of `word` fit, at least one."""
    used = 0.0
    for i, letter in enumerate(word):
        used += width(letter, style, size)
        if used > room:
            return max(i, 1)
    return len(word)
