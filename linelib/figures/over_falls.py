"""Small plots over the number of the fall: left as it is, re-tensioned, and a lock that holds, side by side."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from matplotlib.axes import Axes
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL, Role
from linelib.figures.word import Word

Array = NDArray[np.float64]
Box = tuple[float, float, float, float]
MOST = 5  # falls on the axis


def small_axes(canvas: Canvas, box: Box, title: str, first: int) -> Axes:
    """Axes with the numbers of the falls from `first` on, and a title on the left."""
    r = canvas.roles
    axes = canvas.axes(*box)
    axes.set_title(title, fontsize=SMALL, color=r.ink, pad=4, loc="left")
    axes.set_xticks(range(first, MOST + 1))
    axes.set_xlabel("fall", fontsize=SMALL, color=r.ink, labelpad=0)
    axes.set_xlim(first - 0.7, MOST + 0.5)
    return axes


class OverFalls:
    """One quantity over the falls. `down`: larger is deeper, so the axis points down."""

    def __init__(self, canvas: Canvas, box: Box, title: str, role: Role, *, down: bool = False) -> None:
        r, self.canvas, self.down = canvas.roles, canvas, down
        self.axes = small_axes(canvas, box, title, 1)
        self.reach = Reach(10.0)
        plot, moving = self.axes.plot, canvas.moving
        self.holds = moving(plot([], [], **r.carries_not.line())[0])
        self.again = moving(plot([], [], **r.other.line(marker="o", markersize=5, markerfacecolor=r.paper))[0])
        self.left = moving(plot([], [], **role.line(marker=role.marker or "o", markersize=7))[0])
        self._fit()

    def show(self, *, left: Array, again: Array, holds: float, top: float = 0.0) -> None:
        """Values (falls,) of the line left as it is and re-tensioned, the level of a lock that holds, and what must fit."""
        highest = max(float(left.max()), float(again.max()), holds, top)
        if self.reach.take(1.03 * highest):
            self._fit()
        self.left.set_data(np.arange(1, len(left) + 1), left)
        self.again.set_data(np.arange(1, len(again) + 1), again)
        self.holds.set_data([0.3, MOST + 0.5], [holds, holds])

    def _fit(self) -> None:
        ends = (self.reach.value, 0.0) if self.down else (0.0, self.reach.value)
        self.axes.set_ylim(*ends)
        self.canvas.still_changed()


class Anchor(OverFalls):
    """Highest tension at the higher anchor; bars down to the standing line: the increase."""

    def __init__(self, canvas: Canvas, box: Box) -> None:
        r = canvas.roles
        super().__init__(canvas, box, "anchor [kN]", r.carries)
        self.bars = [canvas.moving(self.axes.plot([], [], color=r.ink, linewidth=1.4)[0]) for _ in range(MOST)]
        self.ground = canvas.moving(self.axes.plot([], [], color=r.ink, linestyle="none", marker="_", markersize=11)[0])
        self.words = [Word(canvas, self.axes, colour=r.ink, across=side, up="top") for side in ("left", "center")]

    def show_standing(self, *, highest: Array, standing: Array) -> None:
        """Tensions [kN], (falls,): what the increase is counted from."""
        count = len(standing)
        self.ground.set_data(np.arange(1, count + 1), standing)
        for i, bar in enumerate(self.bars):
            bar.set_data(*(([i + 1, i + 1], [standing[i], highest[i]]) if i < count else ([], [])))
        for word, i in zip(self.words, (0, count - 1), strict=True):
            text = f"+{highest[i] - standing[i]:.1f}" if i or word is self.words[0] else ""
            word.put(text, i + 1.0 if i else 0.4, float(standing[i]) - 0.03 * self.reach.value)


class LeftOver:
    """Metres left over the falls, 0 before any: tail, fold to the lock, extra length of the backup."""

    def __init__(self, canvas: Canvas, box: Box) -> None:
        r, self.canvas, self.box = canvas.roles, canvas, box
        self.axes = small_axes(canvas, box, "left over [m]", 0)
        self.axes.set_xlim(-0.35, 9.4)
        self.reach = Reach(1.5)
        self.parts = (r.carries, r.backup, r.torn)
        plot, moving = self.axes.plot, canvas.moving
        self.again = [moving(plot([], [], **r.other.line(linestyle=p.style))[0]) for p in self.parts]
        self.left = [moving(plot([], [], **p.line(marker=p.marker or "o", markersize=7, clip_on=False))[0]) for p in self.parts]
        self.left[2].set(color=r.person.colour, markeredgewidth=2.2)
        colours = (r.ink, r.backup.colour, r.person.colour)
        self.words = [Word(canvas, self.axes, colour=c, up="center", bold=True) for c in colours]
        self.end = Word(canvas, self.axes, colour=r.ink, up="top")
        self.stop = moving(plot([], [], color=r.ink, linewidth=1.2)[0])
        self._fit()

    def show(self, *, left: Sequence[Array], again: Sequence[Array], fold_in: int, end: tuple[int, str]) -> None:
        """Tail, backup, fold [m], (1 + falls,) each; `end` : the fall that is not shown, and why ('' : all are)."""
        if self.reach.take(1.05 * max(float(v.max()) for v in left)):
            self._fit()
        for line, values in zip([*self.left, *self.again], [*left, *again], strict=True):
            line.set_data(np.arange(len(left[0])), values[: len(left[0])])
        gap = 17.0 * self.reach.value / self.box[3]
        names = ("tail", "backup", "fold: in lock" if fold_in else "fold to lock")
        places = spread([float(v[-1]) for v in left], gap)
        number, why = end
        for word, name, y in zip(self.words, names, places, strict=True):
            word.put(name, (number if why else len(left[0]) - 1) + 0.35, y)
        self.stop.set_data(*(([number, number], [0.0, self.reach.value]) if why else ([], [])))
        self.end.put(why, number + 0.15, self.reach.value)

    def _fit(self) -> None:
        self.axes.set_ylim(0.0, self.reach.value)
        self.canvas.still_changed()


def spread(values: Sequence[float], gap: float) -> list[float]:
    """Heights for words: each as near to its value as it can be, at least `gap` from the next and half of it above 0."""
    order = np.argsort(values)
    places = np.array(values, float)
    below = -0.5 * gap
    for i in order:
        places[i] = below = max(places[i], below + gap)
    return [float(p) for p in places]
