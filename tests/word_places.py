"""Where a word of a picture stands: what tests of cut and crossed words look at."""

from __future__ import annotations

from linelib.figures.word import Word


def place_of(word: Word) -> tuple[float, float, float, float]:
    """Left, right, bottom and top of a drawn word in pixels of the picture."""
    height, width = word._images[word.text].shape[:2]
    x, y = word.axes.transData.transform(word.place)
    return x - word.across * width, x + (1.0 - word.across) * width, y - word.up * height, y + (1.0 - word.up) * height
