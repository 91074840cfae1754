"""The picture of the lesson on pull: side view, close-up, and the force triangle or the pull against the sag."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.curves import Curve, Plot
from linelib.figures.limits import Reach
from linelib.figures.panel_figure import PanelFigure
from linelib.figures.roles import SMALL
from linelib.figures.triangle import Triangle
from linelib.figures.word import Word

Array = NDArray[np.float64]
VIEWS = ("forces at the ring", "pull against sag")


@dataclass(frozen=True, kw_only=True)
class Stand:
    """A walker standing on the line, lengths [m]: the line with its ring node, nobody on it, tie-in, backup, end of the
    soft insert, height of the anchors' line at the ring, and the sag under it."""

    line: tuple[Array, Array]
    ring: int
    alone: tuple[Array, Array]
    tie_in: tuple[float, float]
    backup: tuple[Array, Array]
    soft_until: float
    chord_height: float
    sag: float


class SagCurve:
    """Pull at anchor A against the sag: the exact line, the weightless V, and the weight that is hung on them."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float]) -> None:
        r, self.span = canvas.roles, Reach(8.0)
        title = "pull at anchor A [kN], when the pretension is varied"
        self.plot = Plot(canvas, box, title, (r.other, r.side_a))
        self.axes = self.plot.axes
        self.axes.set_xlabel("sag under the walker [m]", fontsize=SMALL, color=r.ink, labelpad=1)
        corner = {"fontsize": SMALL, "ha": "right", "va": "top"}
        cost = "more sag: less pull,\nbut a deeper drop, less room below"
        self.axes.text(1.0, 1.0, cost, color=r.ink, transform=self.axes.transAxes).set(**corner, linespacing=1.15)
        self.weight = canvas.moving(self.axes.plot([], [], **r.person.line())[0])
        self.guess = canvas.moving(self.axes.plot([], [], **r.guess.dot(hollow=True))[0])
        for x, name, role in ((0.76, "exact line", r.side_a), (1.0, "weightless V", r.other)):
            self.axes.text(x, 0.64, f"━ {name}", color=role.colour, transform=self.axes.transAxes).set(**corner, weight="bold")
        self.word = Word(canvas, self.axes, colour=r.person.colour, bold=True)

    def show(self, *, exact: Curve, weightless: Curve, weight: float, now: float, guess: float | None) -> None:
        """Set the curves over sag [m], values [kN]; `now` [m]; `guess` [kN]."""
        self.span.take(float(exact.over.max()))
        reach = self.span.value
        self.plot.show([weightless, exact], now, (0.0, reach), joined=True)
        self.weight.set_data([0.0, reach], [weight, weight])
        self.guess.set_data(*(([], []) if guess is None else ([now], [guess])))
        self.word.put("weight", 0.0, weight + 0.02 * self.plot.reach.value)


class PullFigure(PanelFigure):
    """Kept picture of a walker standing on the line; `view` is one of VIEWS."""

    def __init__(self, paper: str = "light") -> None:
        super().__init__(paper=paper, side_width=522)
        r = self.canvas.roles
        self.plate = self.canvas.moving(self.close.axes.plot([], [], color=r.paper, linewidth=13, solid_capstyle="butt")[0])
        self.sag = Word(self.canvas, self.close.axes, colour=r.drop.colour, across="center", up="top", bold=True)
        self.triangle = Triangle(self.canvas, (24, 8, 556, 206))
        self.curve = SagCurve(self.canvas, (48, 42, 532, 150))
        self.use(dict(zip(VIEWS, ((self.triangle.axes,), (self.curve.axes,)), strict=True)))

    def draw(self, stand: Stand) -> None:
        """Set line, person and backup."""
        self.back()
        self.side.show(
            line=stand.line,
            ring=stand.ring,
            tie_in=stand.tie_in,
            standing=None,
            alone=stand.alone,
            backup=stand.backup,
            soft_until=stand.soft_until,
        )
        self.close.show(
            line=stand.line,
            ring=stand.ring,
            tie_in=stand.tie_in,
            standing=None,
            standing_tie_in=None,
            standing_height=0.0,
            backup=stand.backup,
            chord_height=stand.chord_height,
            lowest=(stand.sag, ""),
        )
        self.plate.set_data([-0.95, 0.95], [-stand.sag - 0.68] * 2)
        self.sag.put(f"sag {stand.sag:.1f} m", 0.0, -stand.sag - 0.55)
