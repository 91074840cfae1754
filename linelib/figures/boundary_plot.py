"""Two choices at once: the falls of the grid that keep a limit and those that do not, and the line between them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.roles import SMALL
from linelib.figures.word import Word

Array = NDArray[np.float64]
Box = tuple[float, float, float, float]
Point = tuple[float, float]


@dataclass(frozen=True, kw_only=True)
class Map:
    """Grid points (x, y) (points, 2) `kept` and `not_kept`, the `line` between as pieces with gaps of nan (points, 2), the
    places `now` and `planned`, the names of both choices with their units, their ranges, and the limit in words."""

    kept: Array
    not_kept: Array
    line: Array
    now: Point
    planned: Point
    names: tuple[str, str]
    x: Point
    y: Point
    limit: str


class BoundaryPlot:
    """The map in a box of screen pixels."""

    def __init__(self, canvas: Canvas, box: Box) -> None:
        r, self.canvas, self.box = canvas.roles, canvas, box
        self.axes = canvas.axes(*box)
        plot, moving = self.axes.plot, canvas.moving
        self.kept = moving(plot([], [], color=r.ink, linestyle="none", marker="o", markersize=3.6)[0])
        cross: dict[str, Any] = {"color": r.faint, "linestyle": "none", "marker": "x", "markersize": 4.5}
        self.not_kept = moving(plot([], [], **cross)[0])
        self.line = moving(plot([], [], **r.limit.line(linewidth=2.6))[0])
        self.planned = moving(plot([], [], **r.other.dot(hollow=True, size=10, marker="D", markeredgecolor=r.ink))[0])
        self.now = moving(plot([], [], **r.now.dot(size=10, clip_on=False))[0])
        self.words = [Word(canvas, self.axes, colour=r.ink) for _ in range(2)]
        self.reason = Word(canvas, self.axes, colour=r.ink, across="center", up="center")
        self._said: tuple[object, ...] = ()

    def show(self, found: Map, *, reason: str = "") -> None:
        """Set the map; a `reason` says why there is no line."""
        if self._said != (found.names, found.x, found.y):
            self._said = (found.names, found.x, found.y)
            for side, values in (("x", found.x), ("y", found.y)):
                pad = 0.04 * (values[1] - values[0])
                getattr(self.axes, f"set_{side}lim")(values[0] - pad, values[1] + pad)
            self.axes.set_xlabel(found.names[0], fontsize=SMALL, color=self.canvas.roles.ink, labelpad=2)
            self.axes.set_ylabel(found.names[1], fontsize=SMALL, color=self.canvas.roles.ink, labelpad=2)
            self.canvas.still_changed()
        for drawn, points in ((self.kept, found.kept), (self.not_kept, found.not_kept), (self.line, found.line)):
            drawn.set_data(*np.asarray(points, float).reshape(-1, 2).T)
        self.now.set_data([found.now[0]], [found.now[1]])
        self.planned.set_data([found.planned[0]], [found.planned[1]])
        (left, right), (low, high) = self.axes.get_xlim(), self.axes.get_ylim()
        line = 17.0 / self.box[3] * (high - low)
        self.words[0].put(found.limit, left, high + line)
        self.words[1].put("small dots keep it, × do not; ● now, ◇ planned", left, high)
        self.reason.put(reason, 0.5 * (left + right), 0.5 * (low + high))
