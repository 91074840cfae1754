"""The picture of the lesson on who pays: side view over the ground, close-up, and the bill over the sag or along the span."""

from __future__ import annotations

import numpy as np
from matplotlib.patches import Polygon

from linelib.figures.bill_plots import FourBills
from linelib.figures.kept_figure import HEIGHT, WIDTH
from linelib.figures.limits import Reach
from linelib.figures.panel_figure import PanelFigure
from linelib.figures.roles import SMALL
from linelib.figures.scene import Frame, Scene
from linelib.figures.valley_plots import Along, Heights, Path
from linelib.figures.word import Word

VIEWS = ("over the sag", "along the span")


class Deep(Reach):
    """A reach that always holds `floor`, too."""

    floor = 0.0

    def take(self, wanted: float) -> bool:
        """Hold `wanted` and the floor; returns whether the reach had to change."""
        return super().take(max(wanted, self.floor))


class WhoPaysFigure(PanelFigure):
    """Kept picture of a fall over a valley; `view` is one of VIEWS."""

    def __init__(self, paper: str = "light") -> None:
        super().__init__(paper=paper, side_width=514)
        canvas, r = self.canvas, self.canvas.roles
        self.side.below = self.deep = Deep(10.0)
        self.rocks = [Polygon(np.zeros((2, 2)), facecolor=r.faint, alpha=0.35, edgecolor=r.ink, linewidth=1.2) for _ in "sc"]
        for rock, axes in zip(self.rocks, (self.side.axes, self.close.axes), strict=True):
            axes.add_patch(rock)
            canvas.moving(rock)
        self.ground = Word(canvas, self.side.axes, colour=r.ink, across="center")
        self.bills = FourBills(canvas, (31, 44, 541, 126))
        self.sag = canvas.figure.text(300 / WIDTH, 8 / HEIGHT, "", fontsize=SMALL, color=r.ink, ha="center")
        self.sag.set_text("standing sag, walker in the middle [% of the span]: saggier to the right")
        self.heights = Heights(canvas, (40, 42, 312, 156))
        self.along = Along(canvas, (404, 42, 122, 156))
        first = (*self.bills.axes, self.sag)
        self.use(dict(zip(VIEWS, (first, (self.heights.axes, self.along.axes)), strict=True)))

    def draw(self, scene: Scene, frame: Frame, ground: Path) -> None:
        """Set line, person, backup and ground, a path x, z [m] from A."""
        self.deep.floor = 1.12 * -float(ground[1].min())
        self.show_fall(scene, frame)
        x, z = ground
        here = float(frame.line[0][frame.ring])
        for rock, shift in zip(self.rocks, (0.0, here), strict=True):
            low = float(z.min()) - 100.0
            rock.set_xy(np.column_stack([np.concatenate([x[:1], x, x[-1:]]) - shift, np.concatenate([[low], z, [low]])]))
        self.ground.put("ground", 0.16 * float(x[-1]), -0.98 * self.side.below.value)
