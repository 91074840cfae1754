"""A hundred dots for all cases: each stands for one in a hundred, so that shares can be counted; an entered limit as a line."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.limits import round_up
from linelib.figures.roles import SMALL, Role
from linelib.figures.word import Word

Array = NDArray[np.float64]
DOT = 14.0  # screen pixels from dot to dot
BAND = 74.0  # screen pixels above the dots, for the words
PALE = 0.35


class Window:
    """From where to where an axis reaches; `take` returns whether it had to change: in round steps, and seldom."""

    def __init__(self) -> None:
        self.low, self.high = 0.0, 1.0

    def take(self, low: float, high: float) -> bool:
        """Hold `low` to `high`: change when they do not fit, or fill less than a quarter."""
        wide = self.high - self.low
        if self.low <= low and high <= self.high and high - low >= 0.25 * wide:
            return False
        step = round_up(max(high - low, 0.002 * abs(high), 1e-6) / 4.0)
        wanted = math.floor(low / step - 0.5) * step, math.ceil(high / step + 0.5) * step
        changed = wanted != (self.low, self.high)
        self.low, self.high = wanted
        return changed


@dataclass(frozen=True, kw_only=True)
class Dots:
    """What is shown: `values` (100,), rising; `low`, `median`, `high` of all cases; one fall with the middle of every range,
    an entered limit, a guess, each None where there is none; all in `unit`. `share` : beyond the limit, in words."""

    values: Array
    low: float
    median: float
    high: float
    one: float | None
    limit: float | None
    guess: float | None
    unit: str
    share: str


def stacked(pixels: Array, room: float) -> tuple[Array, Array]:
    """Columns one dot wide: the middle of each dot's column and its height above the axis [screen pixels], within `room`."""
    columns = np.floor(pixels / DOT)
    levels = np.array([np.count_nonzero(columns[:i] == columns[i]) for i in range(len(columns))], float)
    apart = min(DOT, (room - DOT) / max(float(levels.max()), 1.0))
    return (columns + 0.5) * DOT, 0.5 * DOT + levels * apart


class QuantileDots:
    """Dots over an axis, in a box of screen pixels; solid above an entered limit, else pale."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float]) -> None:
        r, self.canvas, self.box, self.window = canvas.roles, canvas, box, Window()
        self.axes = canvas.axes(*box)
        self.axes.set_yticks([])
        self.axes.set_ylim(0.0, box[3])
        self.axes.spines["left"].set_visible(False)
        plot, moving = self.axes.plot, canvas.moving
        self.under = moving(plot([], [], linestyle="none", clip_on=False)[0])
        self.above = moving(plot([], [], linestyle="none", clip_on=False)[0])
        self.reach = moving(plot([], [], color=r.ink, linewidth=4.0, solid_capstyle="butt")[0])
        self.median = moving(plot([], [], color=r.ink, linestyle="none", marker="|", markersize=15, markeredgewidth=2.0)[0])
        self.limit = moving(plot([], [], **r.limit.line(linewidth=1.8, linestyle=(0, (6, 2))))[0])
        self.one = moving(plot([], [], **r.now.dot(size=9), clip_on=False, zorder=5)[0])
        self.guess = moving(plot([], [], **r.guess.dot(hollow=True, size=10), clip_on=False, zorder=5)[0])
        self.reach_word = Word(canvas, self.axes, colour=r.ink, across="center")
        self.limit_word = Word(canvas, self.axes, colour=r.ink)
        self.one_word = Word(canvas, self.axes, colour=r.ink)
        self.guess_word = Word(canvas, self.axes, colour=r.ink, across="right")

    def name(self, label: str, role: Role) -> None:
        """What is drawn along the axis, and in which role."""
        self.axes.set_xlabel(label, fontsize=SMALL, color=self.canvas.roles.ink, labelpad=2)
        for dots, alpha in ((self.under, PALE), (self.above, 1.0)):
            dots.set(marker="o", markersize=0.62 * DOT, markeredgecolor=role.colour, markerfacecolor=role.colour)
            dots.set(markeredgewidth=0.8, alpha=alpha)
        self.canvas.still_changed()

    def show(self, dots: Dots) -> None:
        """Set dots, reach, limit, one fall and guess."""
        inside = [v for v in (dots.one, dots.guess) if v is not None]
        if self.window.take(min([float(dots.values[0]), *inside]), max([float(dots.values[-1]), *inside])):
            self.axes.set_xlim(self.window.low, self.window.high)
            self.canvas.still_changed()
        wide = (self.window.high - self.window.low) / self.box[2]
        x, y = stacked((dots.values - self.window.low) / wide, self.box[3] - BAND)
        over = dots.values > (math.inf if dots.limit is None else dots.limit)
        for part, which in ((self.under, ~over), (self.above, over)):
            part.set_data(self.window.low + x[which] * wide, y[which])
        self._reach(dots, wide)
        self._marks(dots, wide)

    def _reach(self, dots: Dots, wide: float) -> None:
        """The bar from 5 to 95 % over the dots, with its words."""
        high = self.box[3] - 42.0
        self.reach.set_data([dots.low, dots.high], [high, high])
        self.median.set_data([dots.median], [high])
        words = f"5 to 95 %: {dots.low:.1f} to {dots.high:.1f} {dots.unit}, half over {dots.median:.1f}"
        half = 0.5 * wide * self.reach_word.size(words)[0]
        middle = min(max(dots.median, self.window.low + half), self.window.high - half)
        self.reach_word.put(words, middle, high + 9.0)

    def _marks(self, dots: Dots, wide: float) -> None:
        for part, value in ((self.one, dots.one), (self.guess, dots.guess)):
            part.set_data(*(([], []) if value is None else ([value], [self.box[3] - 62.0])))
        one = "" if dots.one is None else f"one fall: {dots.one:.1f}"
        self.one_word.put(one, (dots.one or 0.0) + 10 * wide, self.box[3] - 70.0)
        self.guess_word.put("" if dots.guess is None else "guess", (dots.guess or 0.0) - 10 * wide, self.box[3] - 70.0)
        limit, where = dots.limit, ""
        if limit is not None and not self.window.low <= limit <= self.window.high:
            where = ", left of all that is drawn" if limit < self.window.low else ", right of all that is drawn"
        seen = limit is not None and not where
        self.limit.set_data([limit or 0.0] * 2, [0.0, self.box[3] - BAND + 4.0])
        self.limit.set_visible(seen)
        words = "" if limit is None else f"your limit {limit:g} {dots.unit}{where}: {dots.share}"
        self.limit_word.put(words, self.window.high - wide * self.limit_word.size(words)[0], self.box[3] + 6.0)
