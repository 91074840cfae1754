"""Strength left over the path difference: one webbing with its range, what is commonly said, other fibres seated the same."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from matplotlib.patches import Polygon
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL
from linelib.figures.word import Word

Array = NDArray[np.float64]
OTHERS, APART, SHORTEST = 3, 6.5, 4.0  # other fibres; words at least so many % apart; shortest axis [mm]


@dataclass(frozen=True, kw_only=True)
class Left:
    """Over the largest path difference [mm]: strength left [%] for the shortest, middle and longest sharing length, and the
    width that carries at the first tear [%]; other fibres by name, `over` and values; `name` of this one; the setting now
    and its strength left; a guess [%]; words for the range of the sharing length."""

    over: Array
    low: Array
    middle: Array
    high: Array
    carrying: Array
    others: dict[str, tuple[Array, Array]]
    name: str
    now: tuple[float, float]
    guess: float | None
    lengths: str


class LeftChart:
    """The chart in a box of screen pixels; names stand right of it."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float]) -> None:
        r, self.canvas, self.reach = canvas.roles, canvas, Reach(8.0)
        self.axes = canvas.axes(*box)
        self.axes.set_xlabel("path difference [mm]", fontsize=SMALL, color=r.ink, labelpad=1)
        self.axes.set(xlim=(0.0, self.reach.value), ylim=(0.0, 104.0))
        rule = "xx commonly said: left = width that carries"
        self.axes.text(-0.12, 1.04, rule, transform=self.axes.transAxes, fontsize=SMALL, color=r.ink)
        moving, plot = canvas.moving, self.axes.plot
        nothing = [[0.0, 0.0]] * 3
        said = Polygon(nothing, facecolor="none", edgecolor=r.said.colour, hatch="xx", linewidth=0.0)
        band = Polygon(nothing, facecolor=r.carries.colour, alpha=0.18, linewidth=0.0)
        for patch in (said, band):
            self.axes.add_patch(moving(patch))
        self.said, self.band = said, band
        self.others = [moving(plot([], [], **r.other.line())[0]) for _ in range(OTHERS)]
        self.rule = moving(plot([], [], color=r.said.colour, linewidth=1.6, linestyle=(0, (1, 1.2)))[0])
        self.middle = moving(plot([], [], **r.carries.line())[0])
        self.dot = moving(plot([], [], **r.now.dot(clip_on=False))[0])
        self.guess = moving(plot([], [], **r.guess.dot(hollow=True, clip_on=False))[0])
        self.names = [Word(canvas, self.axes, colour=r.ink, up="center") for _ in range(OTHERS)]
        self.name = Word(canvas, self.axes, colour=r.ink, up="center", bold=True)
        self.key = Word(canvas, self.axes, colour=r.ink)

    def hold(self, largest: float) -> float:
        """Hold a path difference [mm]; returns how far the axis reaches."""
        self.reach.take(max(1.1 * largest, SHORTEST))
        if self.axes.get_xlim()[1] != self.reach.value:
            self.axes.set_xlim(0.0, self.reach.value)
            self.canvas.still_changed()
        return self.reach.value

    def show(self, left: Left) -> None:
        """Set band, curves, dots and words."""
        x = left.over
        self.band.set_xy(_between(x, left.low, left.high))
        self.said.set_xy(_between(x, left.middle, np.maximum(left.middle, left.carrying)))
        self.rule.set_data(x, left.carrying)
        self.middle.set_data(x, left.middle)
        self.dot.set_data([left.now[0]], [left.now[1]])
        self.guess.set_data(*(([], []) if left.guess is None else ([left.now[0]], [left.guess])))
        for line, word in zip(self.others, self.names, strict=True):
            line.set_data([], [])
            word.put("", 0.0, 0.0)
        names = list(left.others)
        heights = _apart([float(left.others[name][1][-1]) for name in names] + [float(left.middle[-1])])
        at = 1.015 * self.reach.value
        for name, line, word, height in zip(names, self.others, self.names, heights, strict=False):
            line.set_data(*left.others[name])
            word.put(name, at, height)
        self.name.put(left.name, at, heights[-1])
        self.key.put(f"strength left [%]   grey: over {left.lengths}", -0.12 * self.reach.value, 115.5)


def _between(x: Array, one: Array, two: Array) -> Array:
    """The outline of what lies between two curves."""
    return np.column_stack([np.concatenate([x, x[::-1]]), np.concatenate([one, two[::-1]])])


def _apart(heights: list[float]) -> list[float]:
    """The same heights, moved so that words do not touch: from below up, then down from the top."""
    order = np.argsort(heights, kind="stable")
    moved = np.array(heights)[order]
    moved[0] = max(moved[0], 2.0)
    for i in range(1, len(moved)):
        moved[i] = max(moved[i], moved[i - 1] + APART)
    moved[-1] = min(moved[-1], 101.0)
    for i in range(len(moved) - 2, -1, -1):
        moved[i] = min(moved[i], moved[i + 1] - APART)
    back = np.empty(len(moved))
    back[order] = moved
    return back.tolist()
