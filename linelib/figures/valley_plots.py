"""Along the span: the ground, where the tie-in gets to, what is left, and what anchors and person get at every place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from matplotlib.patches import Polygon
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.curves import Curve, Plot
from linelib.figures.insert_plots import GAP, apart
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL
from linelib.figures.word import Word

Array = NDArray[np.float64]
Box = tuple[float, float, float, float]
Path = tuple[Array, Array]


@dataclass(frozen=True, kw_only=True)
class Room:
    """Heights over the distance from A, both [m], 0 at the anchors: `ground`; `tie_in`, the lowest at every place; `feet`,
    that less body and model allowance; the fall `now` (distance, tie-in, feet, ground there) and the words beside it."""

    ground: Path
    tie_in: Path
    feet: Path
    now: tuple[float, float, float, float]
    words: str


class Heights:
    """Ground and lowest tie-in along the span, in a box of screen pixels."""

    def __init__(self, canvas: Canvas, box: Box) -> None:
        r, self.canvas, self.box = canvas.roles, canvas, box
        self.axes = canvas.axes(*box)
        keys = (("height [m]:", 0.0, r.ink), ("tie-in", 0.29, r.drop.colour), ("feet, model error", 0.46, r.person.colour))
        for words, x, colour in keys:
            weight = "normal" if colour == r.ink else "bold"
            self.axes.text(x, 1.03, words, fontsize=SMALL, color=colour, weight=weight, transform=self.axes.transAxes)
        self.axes.set_xlabel("distance from A [m]", fontsize=SMALL, color=r.ink, labelpad=1)
        self.span, self.depth = Reach(100.0), Reach(20.0)
        self.ground = Polygon(np.zeros((2, 2)), facecolor=r.faint, alpha=0.35, edgecolor=r.ink, linewidth=1.2)
        self.axes.add_patch(self.ground)
        canvas.moving(self.ground)
        plot, moving = self.axes.plot, canvas.moving
        self.feet = moving(plot([], [], **r.person.line(linewidth=1.4, linestyle=(0, (2, 1))))[0])
        self.tie_in = moving(plot([], [], **r.drop.line())[0])
        self.left = moving(plot([], [], color=r.ink, linewidth=2.6, marker="_", markersize=9, markeredgewidth=2.2)[0])
        self.dot = moving(plot([], [], **r.drop.dot(size=8, markerfacecolor=r.now.colour))[0])
        ends = ("left", "center", "right")
        self.words = [Word(canvas, self.axes, colour=r.ink, bold=True, up="center", across=a) for a in ends]
        self._fit()

    def show(self, room: Room) -> None:
        """Set everything that moves."""
        x, z = room.ground
        if any([self.span.take(float(x[-1])), self.depth.take(1.12 * max(-float(z.min()), -float(room.feet[1].min())))]):
            self._fit()
        low = -self.depth.value
        self.ground.set_xy(np.column_stack([np.concatenate([[0.0], x, x[-1:]]), np.concatenate([[low], z, [low]])]))
        self.tie_in.set_data(*room.tie_in)
        self.feet.set_data(*room.feet)
        at, tie_in, feet, ground = room.now
        self.left.set_data([at, at], [feet, ground])
        self.dot.set_data([at], [tie_in])
        share = at / self.span.value
        for word, low, high in zip(self.words, (-1.0, 0.2, 0.8), (0.2, 0.8, 2.0), strict=True):
            word.put(room.words if low < share <= high else "", at, -0.95 * self.depth.value)

    def _fit(self) -> None:
        self.axes.set_xlim(0.0, self.span.value)
        self.axes.set_ylim(-self.depth.value, 0.0)
        self.canvas.still_changed()


class Along:
    """Peaks at both anchors and on the person [kN] over the distance from A, named at their right ends."""

    def __init__(self, canvas: Canvas, box: Box) -> None:
        r, self.height = canvas.roles, box[3]
        self.plot = Plot(canvas, box, "peak of a fall there [kN]", (r.side_a, r.side_b, r.person))
        self.axes = self.plot.axes
        self.axes.set_xlabel("distance from A [m]", fontsize=SMALL, color=r.ink, labelpad=1)
        parts = (("A", r.side_a), ("B", r.side_b), ("person", r.person))
        self.words = [Word(canvas, self.axes, colour=role.colour, bold=True, up="center") for _, role in parts]
        self.names = [name for name, _ in parts]
        for dot in self.plot.dots:
            dot.set_clip_on(False)
        self.span = Reach(100.0)
        self.axes.set_xticks([0.0, 50.0, 100.0])

    def show(self, curves: Sequence[Curve], *, now: float, span: float) -> None:
        """Curves over the distance from A [m], of A, B and the person [kN]; `now`, `span` [m]."""
        if self.span.take(span):
            self.axes.set_xticks([0.0, 0.5 * self.span.value, self.span.value])
        self.plot.show(curves, now, (0.0, self.span.value), joined=True)
        places = apart([float(c.values[-1]) for c in curves], GAP * self.plot.reach.value / self.height)
        for word, name, place in zip(self.words, self.names, places, strict=True):
            word.put(name, 1.05 * self.span.value, place)
