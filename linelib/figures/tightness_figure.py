"""The picture of the lesson on tightness: line and weight, the pulse over time, the answers, and the trips they need."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.figures.answers import AnswerRows
from linelib.figures.kept_figure import KeptFigure
from linelib.figures.limits import Reach
from linelib.figures.round_trips import AT, RoundTrips, TripsChart
from linelib.figures.side_view import SideView
from linelib.figures.word import Word

Array = NDArray[np.float64]
MOST_TRIPS = 12


@dataclass(frozen=True, kw_only=True)
class Scene:
    """The line with the weight hung on it, lengths [m]: its points and ring node, the line alone, the backup, height of the
    anchors' straight line at the ring, sag under it, and the words for the weight."""

    line: tuple[Array, Array]
    ring: int
    alone: tuple[Array, Array]
    backup: tuple[Array, Array]
    chord_height: float
    sag: float
    weight: str


class FiveMetres(Reach):
    """How far the span's axis reaches: in steps of 5 m, so that the line fills it and words have room."""

    def take(self, wanted: float) -> bool:
        """Hold `wanted` [m]; returns whether the axis had to change."""
        if self.value - 7.0 <= wanted <= self.value:
            return False
        self.value = 5.0 * math.ceil(0.2 * wanted - 1e-9)
        return True


class TightnessFigure(KeptFigure):
    """Kept picture of two ways to measure one line."""

    def __init__(self, paper: str = "light") -> None:
        super().__init__(paper=paper)
        r, moving = self.canvas.roles, self.canvas.moving
        self.side = SideView(self.canvas, (60, 260, 396, 120))
        self.side.span = FiveMetres(100.0)
        self.side.scale.set_position((1.0, -0.2))
        self.side.scale.set_verticalalignment("top")
        plot = self.side.axes.plot
        for part in (self.side.line_a, self.side.line_b):  # blue is the pulse's here
            part.set(color=r.carries.colour, linestyle=r.carries.style)
        self.side.tie_in.set(marker="s", markersize=10)
        self.sag = moving(plot([], [], **r.drop.line(linestyle="-", marker="_", markersize=9))[0])
        self.sag_word = Word(self.canvas, self.side.axes, colour=r.drop.colour, across="right", bold=True)
        self.weight = Word(self.canvas, self.side.axes, colour=r.person.colour, up="center", bold=True)
        self.bump = moving(plot([], [], **r.side_a.line(linewidth=2.6, clip_on=False))[0])
        self.pulse = moving(plot([], [], **r.side_a.dot(size=7, clip_on=False))[0])
        self.trips = RoundTrips(self.canvas, (506, 286, 284, 104))
        self.rows = AnswerRows(self.canvas, (184, 42, 206, 168))
        self.chart = TripsChart(self.canvas, (546, 42, 246, 148), MOST_TRIPS)
        self.use({"both": tuple(part.axes for part in (self.side, self.trips, self.rows, self.chart))})

    def draw(self, scene: Scene) -> None:
        """Set line, weight, sag and pulse; the other parts are set by their own `show`."""
        self.back()
        x, z = scene.line
        ring, span, fall = float(x[scene.ring]), float(x[-1]), float(z[0] - z[-1])
        near = np.abs(scene.backup[0] - ring) < 0.14 * span
        hung = (ring, min(float(scene.backup[1][near].min()), float(z[scene.ring])) - 0.02 * span)
        self.side.show(
            line=scene.line,
            ring=scene.ring,
            tie_in=hung,
            standing=None,
            alone=scene.alone,
            backup=scene.backup,
            soft_until=0.0,
        )
        lift = 0.03 * (self.side.below.value + self.side.above.value)
        self.sag.set_data([ring, ring], [scene.chord_height, scene.chord_height - scene.sag])
        self.sag_word.put(f"sag {scene.sag:.2f} m", ring - 0.01 * span, scene.chord_height + lift + 0.25 * max(fall, 0.0))
        self.weight.put(scene.weight, ring + 0.035 * self.side.span.value, hung[1])
        self._pulse(scene, lift)

    def _pulse(self, scene: Scene, lift: float) -> None:
        """A bump on the line alone, on its way out; drawn far higher than any real one."""
        x, z = scene.alone
        along = np.linspace(0.5 * AT, 1.5 * AT, 25) * x[-1]
        bump = np.interp(along, x, z) + 4.5 * lift * np.cos(np.linspace(-0.5 * np.pi, 0.5 * np.pi, 25)) ** 2
        self.bump.set_data(along, bump)
        self.pulse.set_data([along[12]], [bump[12]])
