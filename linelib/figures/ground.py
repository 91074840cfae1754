"""The ground under a line, in the side view and in the close-up; the side view always reaches down to it."""

from __future__ import annotations

import numpy as np
from matplotlib.patches import Polygon

from linelib.figures.canvas import Canvas
from linelib.figures.close_up import CloseUp
from linelib.figures.limits import Reach
from linelib.figures.scene import Path
from linelib.figures.side_view import SideView
from linelib.figures.word import Word

FAR_BELOW = 100.0  # m: the rock goes on down


class Deep(Reach):
    """A reach that always holds `floor`, too."""

    floor = 0.0

    def take(self, wanted: float) -> bool:
        """Hold `wanted` and the floor; returns whether the reach had to change."""
        return super().take(max(wanted, self.floor))


class Ground:
    """Rock under both views. Call `reach` before the line is shown, `show` after it."""

    def __init__(self, canvas: Canvas, side: SideView, close: CloseUp) -> None:
        ink, self.side = canvas.roles.ink, side
        side.below = self.deep = Deep(10.0)
        faint = canvas.roles.faint
        self.rocks = [Polygon(np.zeros((2, 2)), facecolor=faint, alpha=0.35, edgecolor=ink, linewidth=1.2) for _ in "sc"]
        for rock, axes in zip(self.rocks, (side.axes, close.axes), strict=True):
            axes.add_patch(rock)
            canvas.moving(rock)
        self.word = Word(canvas, side.axes, colour=ink, across="center")

    def reach(self, ground: Path) -> None:
        """Let the side view reach down to the ground, a path x, z [m] from A."""
        self.deep.floor = 1.12 * -float(ground[1].min())

    def show(self, ground: Path, here: float) -> None:
        """Set the rock; the close-up's zero lies `here` [m] from A."""
        x, z = ground
        low = float(z.min()) - FAR_BELOW
        for rock, shift in zip(self.rocks, (0.0, here), strict=True):
            rock.set_xy(np.column_stack([np.concatenate([x[:1], x, x[-1:]]) - shift, np.concatenate([[low], z, [low]])]))
        self.word.put("ground", 0.16 * float(x[-1]), -0.98 * self.side.below.value)
