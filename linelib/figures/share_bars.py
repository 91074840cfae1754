"""Shares of choices as bars beside each other: a row a choice, to the right what adds, to the left what takes off; the sum."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from matplotlib.colors import to_rgb
from matplotlib.patches import Rectangle

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL, Role
from linelib.figures.word import Word

Box = tuple[float, float, float, float]
TALL, SPACE = 0.52, 0.36  # height of a bar, in rows; room at the right for its words, of the axis


@dataclass(frozen=True, kw_only=True)
class Bars:
    """One outcome: `title` with its unit, the `values` of the choices in rows from the top and their `words`, the same of the
    sum, and the row that drives it (None: none does)."""

    title: str
    values: Sequence[float]
    words: Sequence[str]
    total: float
    total_words: str
    driver: int | None


class ShareBars:
    """The bars of one outcome in a box of screen pixels, for `rows` choices."""

    def __init__(self, canvas: Canvas, box: Box, rows: int) -> None:
        r, self.canvas = canvas.roles, canvas
        self.axes = canvas.axes(*box)
        self.axes.set_yticks([])
        self.axes.set_ylim(-0.8, rows + 0.6)
        self.axes.spines["left"].set_visible(False)
        self.places = [rows - float(i) for i in range(rows)] + [0.0]
        self.right, self.left = Reach(1.0), Reach(1.0)
        self.title = Word(canvas, self.axes, colour=r.ink, bold=True)
        self.axes.axhline(0.5, color=r.faint, linewidth=1.0)
        self.parts = [self._part() for _ in self.places]
        self.zero = canvas.moving(self.axes.plot([], [], color=r.ink, linewidth=1.4)[0])
        self.words = [Word(canvas, self.axes, colour=r.ink, up="center") for _ in self.places]
        self.frame = self._part()
        self.frame.set(fill=False, edgecolor=r.ink, linewidth=1.8, clip_on=False)
        self.guess = canvas.moving(self.axes.plot([], [], **r.guess.dot(hollow=True, clip_on=False))[0])

    def show(self, bars: Bars, role: Role, *, guess: int | None) -> None:
        """Set bars in the colour of `role`, and the row of a guess; None: none."""
        values = [*bars.values, bars.total]
        high, low = max(*values, 0.0), -min(*values, 0.0)
        whole = max(high, low, 1e-9)
        if any([self.right.take(max(high, 0.2 * whole)), self.left.take(max(low, 0.08 * whole))]):
            self._fit()
        begin, end = self.axes.get_xlim()
        for i, (part, word, value, y) in enumerate(zip(self.parts, self.words, values, self.places, strict=True)):
            self._look(part, role.colour if i < len(bars.values) else self.canvas.roles.ink, value < 0.0)
            part.set_bounds(min(value, 0.0), y - 0.5 * TALL, abs(value), TALL)
            text = bars.words[i] if i < len(bars.values) else bars.total_words
            word.put(text, max(value, 0.0) + 0.02 * (end - begin), y)
        top = self.axes.get_ylim()[1]
        self.zero.set_data([0.0, 0.0], [-0.5, top - 0.2])
        self.title.put(bars.title, begin, top)
        self.frame.set_visible(bars.driver is not None)
        self.frame.set_bounds(begin, self.places[bars.driver or 0] - 0.46, end - begin, 0.92)
        at = ([], []) if guess is None else ([end - 0.05 * (end - begin)], [self.places[guess]])
        self.guess.set_data(*at)

    def _part(self) -> Rectangle:
        part = Rectangle((0, 0), 1, 1, linewidth=1.2)
        self.axes.add_patch(part)
        return self.canvas.moving(part)

    def _look(self, part: Rectangle, colour: str, less: bool) -> None:
        """What adds is filled, what takes off is hatched on a pale ground."""
        paper = np.array(to_rgb(self.canvas.roles.paper))
        part.set(facecolor=paper if less else colour, edgecolor=colour)
        part.set_hatch("////" if less else "")

    def _fit(self) -> None:
        wide = self.right.value + self.left.value
        self.axes.set_xlim(-self.left.value, self.right.value + SPACE * wide)
        self.axes.tick_params(labelsize=SMALL)
        self.canvas.still_changed()
