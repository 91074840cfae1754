"""Over one choice: what is asked, with its limit, and below it what it costs; dots for now, thin lines where it is met."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL, Role
from linelib.figures.word import Word

Array = NDArray[np.float64]
Box = tuple[float, float, float, float]


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """One quantity over the choice: `title` with its unit, `values` (points,), nan where there is no answer, and `now`."""

    title: str
    values: Array
    now: float
    role: Role


class CostCurves:
    """Three plots over the same choice, in a box of screen pixels, from the top."""

    def __init__(self, canvas: Canvas, box: Box) -> None:
        r, self.canvas = canvas.roles, canvas
        left, bottom, width, height = box
        each = (height - 2 * 26.0) / 3
        self.axes = [canvas.axes(left, bottom + (2 - i) * (each + 26.0), width, each) for i in range(3)]
        self.reaches, self.name, self.span = [Reach(1.0) for _ in self.axes], "", (0.0, 1.0)
        plots, moving = [axes.plot for axes in self.axes], canvas.moving
        self.titles = [Word(canvas, axes, colour=r.ink) for axes in self.axes]
        self.limit = moving(plots[0]([], [], **r.limit.line(linewidth=1.8))[0])
        self.met = [moving(plot([], [], color=r.faint, linewidth=1.2)[0]) for plot in plots]
        self.lines = [moving(plot([], [])[0]) for plot in plots]
        self.dots = [moving(plot([], [], **r.now.dot(size=8, clip_on=False))[0]) for plot in plots]
        for axes in self.axes[:2]:
            axes.tick_params(labelbottom=False)

    def show(
        self, drawn: Sequence[Drawn], *, over: Array, now: float, name: str, limit: float | None, met: Sequence[float]
    ) -> None:
        """Set the curves over the values `over` of the choice `name`, the `limit` of the first, and where it is `met`."""
        span = (float(over[0]), float(over[-1]))
        changed = (name, span) != (self.name, self.span)
        self.name, self.span = name, span
        for i, (one, reach) in enumerate(zip(drawn, self.reaches, strict=True)):
            known = one.values[np.isfinite(one.values)]
            extra = limit or 0.0 if i == 0 else 0.0
            top = 1.08 * max([one.now, extra, *known.tolist()])
            changed = reach.take(top) or changed
            self.titles[i].put(one.title, span[0] - 0.02 * (span[1] - span[0]), reach.value)
            self.lines[i].set_data(over, one.values)
            self.lines[i].set(color=one.role.colour, linestyle=one.role.style, linewidth=one.role.width)
            self.dots[i].set_data([now], [one.now])
            marks = [(x, y) for value in met for x, y in ((value, 0.0), (value, reach.value), (np.nan, np.nan))]
            self.met[i].set_data(*np.array(marks, float).reshape(-1, 2).T)
        self.limit.set_data(*(([], []) if limit is None else (list(span), [limit, limit])))
        if changed:
            self._fit()

    def _fit(self) -> None:
        pad = 0.02 * (self.span[1] - self.span[0])
        for axes, reach in zip(self.axes, self.reaches, strict=True):
            axes.set_xlim(self.span[0] - pad, self.span[1] + pad)
            axes.set_ylim(0.0, reach.value)
            axes.set_yticks([0.0, 0.5 * reach.value, reach.value])
        self.axes[-1].set_xlabel(self.name, fontsize=SMALL, color=self.canvas.roles.ink, labelpad=1)
        self.canvas.still_changed()
