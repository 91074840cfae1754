"""What if: anchors, person and drop against the slider last moved, side by side, because they disagree."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from matplotlib.ticker import MaxNLocator
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL, Role

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Curve:
    """Values of one quantity over the slider's range and its value now; a second rig's curve where there is one."""

    over: Array
    values: Array
    now: float
    other: Array | None = None


class Plot:
    """One quantity against the slider, in a box of screen pixels."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float], title: str, parts: Sequence[Role]) -> None:
        r, self.canvas = canvas.roles, canvas
        self.axes = canvas.axes(*box)
        self.axes.set_title(title, fontsize=SMALL, color=r.ink, pad=4, loc="left")
        self.reach, self.span = Reach(10.0), (0.0, 1.0)
        self.others = [canvas.moving(self.axes.plot([], [], **r.other.line(linestyle=p.style))[0]) for p in parts]
        self.lines = [canvas.moving(self.axes.plot([], [], **p.line())[0]) for p in parts]
        self.styles = [p.style for p in parts]
        for drawn in (*self.lines, *self.others):
            drawn.set_markersize(12.0)
            drawn.set_markeredgewidth(2.5)
        self.dots = [canvas.moving(self.axes.plot([], [], **p.dot(size=8, markerfacecolor=r.now.colour))[0]) for p in parts]

    def show(self, curves: Sequence[Curve], now: float, span: tuple[float, float], *, joined: bool) -> bool:
        """Set curves; `joined` by lines, or single things; returns whether the limits had to change."""
        tops = [float(c.values.max()) for c in curves] + [float(c.other.max()) for c in curves if c.other is not None]
        changed = self.reach.take(1.05 * max(tops)) or span != self.span
        self.span = span
        for line, other, dot, style, curve in zip(self.lines, self.others, self.dots, self.styles, curves, strict=True):
            for drawn in (line, other):
                drawn.set_marker("" if joined else "_")
                drawn.set_linestyle(style if joined else "none")
            line.set_data(curve.over, curve.values)
            other.set_visible(curve.other is not None)
            if curve.other is not None:
                other.set_data(curve.over, curve.other)
            dot.set_data([now], [curve.now])
        if changed:
            pad = 0.02 * (span[1] - span[0])
            self.axes.set_xlim(span[0] - pad, span[1] + pad)
            self.axes.set_ylim(0.0, self.reach.value)
            self.canvas.still_changed()
        return changed


class Curves:
    """Three plots beside each other: anchors [kN], person [kN], lowest tie-in [m]."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float]) -> None:
        r, self.canvas = canvas.roles, canvas
        left, bottom, width, height = box
        each = (width - 2 * 42) / 3
        boxes = [(left + i * (each + 42), bottom, each, height) for i in range(3)]
        self.plots = [
            Plot(canvas, boxes[0], "anchors A, B [kN]", (r.side_a, r.side_b)),
            Plot(canvas, boxes[1], "person [kN]", (r.person,)),
            Plot(canvas, boxes[2], "lowest tie-in [m]", (r.drop,)),
        ]
        self.axes = [plot.axes for plot in self.plots]
        self._names: tuple[str, ...] = ()

    def show(self, curves: Sequence[Sequence[Curve]], *, now: float, name: str, ticks: Sequence[str] | None) -> None:
        """Set all curves; `name` of the slider with its unit; `ticks` : words for 0, 1, 2, ... where it is a choice."""
        over = curves[0][0].over
        for plot, group in zip(self.plots, curves, strict=True):
            plot.show(group, now, (float(over[0]), float(over[-1])), joined=ticks is None)
        names = (name, *(ticks or ()))
        if names != self._names:
            self._names = names
            for axes in self.axes:
                axes.set_xlabel(name, fontsize=SMALL, color=self.canvas.roles.ink, labelpad=1)
                if ticks is None:
                    axes.xaxis.set_major_locator(MaxNLocator(4))
                    axes.xaxis.set_major_formatter("{x:g}")
                else:
                    axes.set_xticks(range(len(ticks)), ticks)
            self.canvas.still_changed()
