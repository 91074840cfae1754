"""Pull against how far the end is drawn out: seated square, seated badly and never loaded, and after what has torn."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL
from linelib.figures.word import Word

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """Displacement [mm] and pull [kN]: seated square; seated so and never loaded; as it is now; the first tear; now (None:
    torn through); two displacements at the pull now between which length was given up (None: none); first tear [kN] over the
    range of the sharing length, and words for that range."""

    square: tuple[Array, Array]
    fresh: tuple[Array, Array]
    present: tuple[Array, Array]
    first: tuple[float, float]
    now: tuple[float, float] | None
    given_up: tuple[float, float] | None
    first_range: tuple[float, float]
    lengths: str


class PullChart:
    """The chart in a box of screen pixels."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float]) -> None:
        r, self.canvas = canvas.roles, canvas
        self.far, self.high = Reach(8.0), Reach(40.0)
        self.axes = canvas.axes(*box)
        self.axes.set_xlabel("drawn out [mm]", fontsize=SMALL, color=r.ink, labelpad=1)
        title = "pull [kN]   thin: square   dashed: never loaded"
        self.axes.text(-0.12, 1.11, title, transform=self.axes.transAxes, fontsize=SMALL, color=r.ink)
        moving, plot = canvas.moving, self.axes.plot
        self.square = moving(plot([], [], **r.other.line())[0])
        self.fresh = moving(plot([], [], **r.carries_not.line(linewidth=1.8))[0])
        self.present = moving(plot([], [], **r.carries.line())[0])
        self.range = moving(plot([], [], color=r.torn.colour, linewidth=7.0, alpha=0.6, solid_capstyle="butt")[0])
        self.first = moving(plot([], [], **r.torn.dot(size=9, markeredgecolor=r.ink))[0])
        self.given = moving(plot([], [], **r.drop.line(linestyle="-", marker="|", markersize=9))[0])
        self.dot = moving(plot([], [], **r.now.dot(clip_on=False))[0])
        self.key = Word(canvas, self.axes, colour=r.ink)
        self.length = Word(canvas, self.axes, colour=r.drop.colour, bold=True, across="right")
        self._fit()

    def show(self, drawn: Drawn) -> None:
        """Set curves, dots and words."""
        far = float(drawn.fresh[0][-1])
        if any([self.far.take(far), self.high.take(float(drawn.square[1].max()))]):
            self._fit()
        for line, data in ((self.square, drawn.square), (self.fresh, drawn.fresh), (self.present, drawn.present)):
            line.set_data(*data)
        self.first.set_data([drawn.first[0]], [drawn.first[1]])
        self.range.set_data([0.012 * self.far.value] * 2, drawn.first_range)
        self.dot.set_data(*(([], []) if drawn.now is None else ([drawn.now[0]], [drawn.now[1]])))
        self.key.put(f"× first tear, bar: {drawn.lengths}", -0.12 * self.far.value, 1.045 * self.high.value)
        if drawn.given_up is None or drawn.now is None:
            self.given.set_data([], [])
            self.length.put("", 0.0, 0.0)
            return
        self.given.set_data(drawn.given_up, [drawn.now[1]] * 2)
        words = f"given up {drawn.given_up[1] - drawn.given_up[0]:.1f} mm"
        self.length.put(words, self.far.value, 1.045 * self.high.value)

    def _fit(self) -> None:
        self.axes.set(xlim=(0.0, self.far.value), ylim=(0.0, self.high.value))
        self.canvas.still_changed()
