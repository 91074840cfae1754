"""Loaded how fast: loops of tension over strain, slow and fast, and what the time of one cycle does to stiffness and loss."""

from __future__ import annotations

import math

import numpy as np
from matplotlib.patches import Polygon
from matplotlib.ticker import MaxNLocator
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach, round_up
from linelib.figures.roles import SMALL
from linelib.figures.word import Word

Array = NDArray[np.float64]
Box = tuple[float, float, float, float]


class Window:
    """Two ends of an axis that stand still while they hold what is shown with some room, and it fills a third of them."""

    def __init__(self, low: float, high: float) -> None:
        self.low, self.high = low, high

    def take(self, low: float, high: float, *, below: float, above: float) -> bool:
        """Hold `low` to `high`, with `below` and `above` of their distance as room; returns whether the ends had to move."""
        size = high - low
        bottom, top = max(low - below * size, 0.0), high + above * size
        if bottom >= self.low and top <= self.high and size > 0.35 * (self.high - self.low):
            return False
        step = round_up(0.2 * (top - bottom))
        self.low = step * math.floor(max(low - 1.3 * below * size, 0.0) / step)
        self.high = step * math.ceil((high + 1.3 * above * size) / step)
        return True


class Loops:
    """Two loops over the slow-pull curve, in a box of screen pixels; the area of a loop is the energy lost."""

    def __init__(self, canvas: Canvas, box: Box) -> None:
        r, self.canvas, self.height = canvas.roles, canvas, box[3]
        self.axes = canvas.axes(*box)
        self.axes.set_title("one load cycle of the insert: pull [kN]", fontsize=SMALL, color=r.ink, pad=4, loc="left")
        self.axes.set_xlabel("strain [%]", fontsize=SMALL, color=r.ink, labelpad=1)
        self.strain, self.force = Window(5.0, 15.0), Window(2.0, 8.0)
        moving, plot = canvas.moving, self.axes.plot
        looks = (r.carries.line(), r.other.line(linewidth=2.4, linestyle=(0, (2, 1))))
        flat = np.zeros((2, 2))
        self.fills = [moving(Polygon(flat, facecolor=look["color"], alpha=0.25, linewidth=0.0)) for look in looks]
        for patch in self.fills:
            self.axes.add_patch(patch)
        self.curve = moving(plot([], [], **r.other.line(linewidth=1.0))[0])
        self.lines = [moving(plot([], [], **look)[0]) for look in looks]
        self.words = [Word(canvas, self.axes, colour=r.ink, up="top") for _ in looks]
        self._fit()

    def show(self, *, slow_curve: tuple[Array, Array], loops: tuple[tuple[Array, Array], ...], words: tuple[str, ...]) -> None:
        """Strain [%] and pull [kN]: of the slow-pull curve from 0 on, of the fast and the slow loop; words for each loop."""
        ends = [(float(v.min()), float(v.max())) for loop in zip(*loops, strict=True) for v in (np.concatenate(loop),)]
        if any([self.strain.take(*ends[0], below=0.1, above=0.1), self.force.take(*ends[1], below=0.1, above=0.45)]):
            self._fit()
        self.curve.set_data(*slow_curve)
        for line, fill, (strain, pull) in zip(self.lines, self.fills, loops, strict=True):
            line.set_data(strain, pull)
            fill.set_xy(np.column_stack([strain, pull]))
        step = (self.force.high - self.force.low) / self.height
        for i, (word, text) in enumerate(zip(self.words, words, strict=True)):
            word.put(text, self.strain.low + 0.02 * (self.strain.high - self.strain.low), self.force.high - 16.0 * i * step)

    def _fit(self) -> None:
        self.axes.set_xlim(self.strain.low, self.strain.high)
        self.axes.set_ylim(self.force.low, self.force.high)
        self.canvas.still_changed()


class Pace:
    """One quantity over the time of one cycle, on a logarithmic axis: a curve, and dots for the fast and the slow loop."""

    def __init__(self, canvas: Canvas, box: Box, title: str, periods: Array, first: float, *, named: bool) -> None:
        r, self.canvas, self.periods = canvas.roles, canvas, periods
        self.axes = canvas.axes(*box)
        self.axes.set_xscale("log")
        self.axes.set_xlim(float(periods[0]), float(periods[-1]))
        self.axes.minorticks_off()
        self.axes.yaxis.set_major_locator(MaxNLocator(2, steps=[1, 2, 5, 10]))
        self.axes.set_xticks([0.1, 1.0, 10.0, 100.0], ["0.1", "1", "10", "100"] if named else [""] * 4)
        self.axes.set_title(title, fontsize=SMALL, color=r.ink, pad=4, loc="left")
        if named:
            self.axes.set_xlabel("time of one cycle [s]", fontsize=SMALL, color=r.ink, labelpad=1)
        self.reach = Reach(first)
        plot, moving = self.axes.plot, canvas.moving
        self.line = moving(plot([], [], **r.other.line(linewidth=1.6))[0])
        self.slow = moving(
            plot([], [], **{**r.now.dot(size=8), "marker": "D", "markerfacecolor": r.paper, "clip_on": False})[0]
        )
        self.fast = moving(plot([], [], **r.carries.dot(size=9), clip_on=False)[0])
        self._fit()

    def show(self, values: Array, *, fast: tuple[float, float], slow: tuple[float, float]) -> None:
        """Values over `periods`; dots (time of one cycle [s], value)."""
        if self.reach.take(1.1 * float(values.max())):
            self._fit()
        self.line.set_data(self.periods, values)
        self.fast.set_data([fast[0]], [fast[1]])
        self.slow.set_data([slow[0]], [slow[1]])

    def _fit(self) -> None:
        self.axes.set_ylim(0.0, self.reach.value)
        self.canvas.still_changed()
