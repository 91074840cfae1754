"""A row a choice: the range that was searched, where it keeps the limit, where it is now, and what the nearest value costs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from linelib.figures.canvas import Canvas
from linelib.figures.word import Word

Box = tuple[float, float, float, float]
NAME, TRACK, LIST, NOTE = 0.0, (196.0, 392.0), 160.0, 444.0  # screen pixels across
COLUMNS = (480.0, 566.0, 652.0, 738.0)


@dataclass(frozen=True, kw_only=True)
class Row:
    """One choice: `name`; places on the track as shares of the range: `within` (from, to), `marks` with `labels`, `now` (None:
    a list, which has no track); the `ends` of the range in words; the `costs` in words, or one `note` in their place."""

    name: str
    within: Sequence[tuple[float, float]] = ()
    marks: Sequence[float] = ()
    labels: Sequence[str] = ()
    now: float | None = None
    ends: tuple[str, str] = ("", "")
    costs: Sequence[str] = ()
    note: str = ""


class RangeBars:
    """Rows in a box of screen pixels, `count` of them, under a row of heads."""

    def __init__(self, canvas: Canvas, box: Box, count: int) -> None:
        r, self.canvas = canvas.roles, canvas
        self.axes = canvas.axes(*box)
        self.axes.set_axis_off()
        self.axes.set_xlim(0.0, box[2])
        self.axes.set_ylim(-0.6, count + 1.3)
        self.places = [count - 1.0 - i for i in range(count)]
        plot, moving, ink = self.axes.plot, canvas.moving, r.ink
        self.axes.axhline(count + 0.1, color=r.faint, linewidth=1.0)
        self.tracks = moving(plot([], [], color=r.faint, linewidth=1.4)[0])
        self.within = moving(plot([], [], color=r.carries.colour, linewidth=6.0, solid_capstyle="butt")[0])
        self.marks = moving(plot([], [], color=ink, linestyle="none", marker="|", markersize=15.0, markeredgewidth=2.2)[0])
        self.now = moving(plot([], [], **r.now.dot(size=9.0, markeredgecolor=r.paper))[0])
        self.names = [Word(canvas, self.axes, colour=ink, up="center") for _ in range(count)]
        self.labels = [Word(canvas, self.axes, colour=ink, across="center", bold=True) for _ in range(3 * count)]
        sides = ("right", "left")
        self.ends = [Word(canvas, self.axes, colour=ink, across=side, up="center") for _ in range(count) for side in sides]
        self.costs = [Word(canvas, self.axes, colour=ink, across="center", up="center") for _ in range(4 * count)]
        self.notes = [Word(canvas, self.axes, colour=ink, up="center") for _ in range(count)]
        self.heads = [Word(canvas, self.axes, colour=ink, across="center", up="center", bold=True) for _ in COLUMNS]
        self.first = [Word(canvas, self.axes, colour=ink, across="center", up="center") for _ in COLUMNS]
        self.title = Word(canvas, self.axes, colour=ink, up="center", bold=True)
        self.key = Word(canvas, self.axes, colour=ink, up="center")
        self.now_word = Word(canvas, self.axes, colour=ink, across="right", up="center")

    def show(self, rows: Sequence[Row], *, title: str, heads: Sequence[str], now: Sequence[str]) -> None:
        """Set all rows; `heads` of the four columns of costs and what they are `now`, with units."""
        top = len(self.places)
        self.title.put(title, NAME, top + 0.95)
        self.key.put("● now, each choice alone; thick: keeps the limit", NAME, top + 0.42)
        self.now_word.put("now", NOTE, top + 0.42)
        for column, head, first, name, value in zip(COLUMNS, self.heads, self.first, heads, now, strict=True):
            head.put(name, column, top + 0.95)
            first.put(value, column, top + 0.42)
        for words in (self.names, self.labels, self.ends, self.costs, self.notes):
            for word in words:
                word.put("", 0.0, 0.0)
        drawn: dict[str, list[tuple[float, float]]] = {"tracks": [], "within": [], "marks": [], "now": []}
        for i, (row, y) in enumerate(zip(rows, self.places, strict=False)):
            self._row(i, row, y, drawn)
        for name, points in drawn.items():
            x, y_ = np.array(points, float).reshape(-1, 2).T
            getattr(self, name).set_data(x, y_)

    def _row(self, i: int, row: Row, y: float, drawn: dict[str, list[tuple[float, float]]]) -> None:
        self.names[i].put(row.name, NAME, y)
        gap = (np.nan, np.nan)
        if row.now is not None:
            drawn["tracks"] += [(TRACK[0], y), (TRACK[1], y), gap]
            drawn["now"].append((_across(row.now), y))
            for word, text, x in zip(self.ends[2 * i :], row.ends, (TRACK[0] - 7.0, TRACK[1] + 7.0), strict=False):
                word.put(text, x, y)
        for low, high in row.within:
            drawn["within"] += [(_across(low), y), (_across(high), y), gap]
        for word, mark, text in zip(self.labels[3 * i : 3 * i + 3], row.marks, row.labels, strict=False):
            drawn["marks"].append((_across(mark), y))
            word.put(text, _across(mark), y + 0.18)
        self.notes[i].put(row.note, NOTE if row.now is not None else LIST, y)
        for word, text, x in zip(self.costs[4 * i : 4 * i + 4], row.costs, COLUMNS, strict=False):
            word.put(text, x, y)


def _across(share: float) -> float:
    return TRACK[0] + share * (TRACK[1] - TRACK[0])
