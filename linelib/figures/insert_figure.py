"""The picture of the lesson on soft inserts: side view, close-up, and either forces and costs or load cycles."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.figures.insert_plots import Costs, Forces
from linelib.figures.loop_plots import Loops, Pace
from linelib.figures.panel_figure import PanelFigure
from linelib.figures.scene import Frame, Scene
from linelib.figures.word import Word

Array = NDArray[np.float64]
VIEWS = ("compared", "how fast")
PERIODS = np.geomspace(0.1, 100.0, 25)  # s


@dataclass(frozen=True, kw_only=True)
class Softened:
    """Where the insert lies now, from `begin` to `end` [m] along the span, and the lowest tie-in of the plain rig [m]."""

    begin: float
    end: float
    plain_lowest: float


class InsertFigure(PanelFigure):
    """Kept picture of a fall on a line with a soft insert; `view` is one of VIEWS; `said` as in Forces."""

    def __init__(self, said: tuple[float, float, float, float], paper: str = "light") -> None:
        super().__init__(paper=paper, side_width=514)
        canvas, r = self.canvas, self.canvas.roles
        plot, moving = self.side.axes.plot, canvas.moving
        self.soft = moving(plot([], [], color=r.carries.colour, linewidth=8.0, alpha=0.35, solid_capstyle="butt")[0])
        self.names = [
            Word(canvas, self.side.axes, colour=r.ink, across=across, up="top") for across in ("left", "center", "right")
        ]
        self.plain = moving(self.close.axes.plot([], [], **r.other.line())[0])
        self.plain_word = Word(canvas, self.close.axes, colour=r.ink)
        self.forces = Forces(canvas, (34, 42, 256, 128), said)
        self.costs = Costs(canvas, (412, 42, 122, 142))
        self.loops = Loops(canvas, (34, 42, 280, 152))
        self.stiffness = Pace(canvas, (376, 138, 205, 56), "times as stiff as slowly", PERIODS, 2.0, named=False)
        self.loss = Pace(canvas, (376, 42, 205, 56), "lost, % of the energy put in", PERIODS, 20.0, named=True)
        first, second = (self.forces.axes, self.costs.axes), (self.loops.axes, self.stiffness.axes, self.loss.axes)
        self.use(dict(zip(VIEWS, (first, second), strict=True)))

    def draw(self, scene: Scene, frame: Frame, softened: Softened) -> None:
        """Set line, insert, person and backup."""
        middle = 0.5 * (softened.begin + softened.end) / float(frame.line[0][-1])
        self.side.nobody_at = 0.64 if middle < 0.3 else 0.78 if middle < 0.7 else 0.3  # clear of the insert's name
        self.show_fall(scene, frame)
        self._mark(frame, softened, scene.lowest[0] if scene.lowest else 0.0)

    def _mark(self, frame: Frame, softened: Softened, lowest: float) -> None:
        """The insert in the side view, and the plain rig's lowest tie-in in the close-up."""
        x, z = frame.line
        there = softened.end > softened.begin
        inside = np.linspace(softened.begin, softened.end, 9)
        self.soft.set_visible(there)
        self.soft.set_data(inside, np.interp(inside, x, z))
        middle = 0.5 * (softened.begin + softened.end) / float(x[-1])
        at = 0 if middle < 0.3 else 1 if middle < 0.7 else 2
        window = self.side.above.value + self.side.below.value
        room = self.side.above.value > 0.11 * window  # else the word goes below the anchors' line
        for i, word in enumerate(self.names):
            height = self.side.above.value if room else -0.03 * window
            word.put("soft insert" if there and i == at else "", (0.06, 0.5, 0.94)[i] * float(x[-1]), height)
        left, right = self.close.axes.get_xlim()
        self.plain.set_visible(there)
        self.plain.set_data([left, right], [-softened.plain_lowest] * 2)
        clear = lowest - softened.plain_lowest > 0.06 * self.close.tall.value  # of this fall's own: then under the line
        self.plain_word.up = 1.0 if clear else 0.0
        height = -softened.plain_lowest + (-0.006 if clear else 0.012) * self.close.tall.value
        self.plain_word.put(f"plain {softened.plain_lowest:.1f}" if there else "", left, height)
