"""Who pays, over the standing sag: peak at the anchor, increase over standing, person and drop, side by side."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from matplotlib.patches import Polygon

from linelib.figures.canvas import Canvas
from linelib.figures.curves import Curve, Plot
from linelib.figures.roles import SMALL, Role
from linelib.figures.word import Word

Box = tuple[float, float, float, float]
GAP = 37.0  # px between two plots
FROM, TO = 2.0, 10.0  # % of the span


class FourBills:
    """Four plots in a box of screen pixels, each with a word for where its curve goes as the line gets saggier."""

    def __init__(self, canvas: Canvas, box: Box) -> None:
        r, (left, bottom, width, height) = canvas.roles, box
        self.height = height
        each = (width - 3 * GAP) / 4
        boxes = [(left + i * (each + GAP), bottom, each, height) for i in range(4)]
        standing = replace(r.other, width=1.6)
        increase = Role(colour=r.ink, style=(0, (3, 1.2)), marker="D")
        parts: tuple[tuple[str, tuple[Role, ...]], ...] = (
            ("anchor [kN]", (r.side_a, r.side_b, standing)),
            ("increase [kN]", (increase,)),
            ("person [kN]", (r.person,)),
            ("lowest tie-in [m]", (r.drop,)),
        )
        self.plots = [Plot(canvas, where, title, roles) for where, (title, roles) in zip(boxes, parts, strict=True)]
        for plot, (title, _) in zip(self.plots, parts, strict=True):
            plot.axes.set_title(title, fontsize=SMALL, color=r.ink, pad=18, loc="left")
            plot.axes.set_xticks([FROM, 6.0, TO])
            for dot in plot.dots:
                dot.set_clip_on(False)
        self.fill = Polygon(np.zeros((2, 2)), facecolor=increase.colour, alpha=0.12, linewidth=0.0)
        self.plots[0].axes.add_patch(self.fill)
        canvas.moving(self.fill)
        colours = [r.side_a.colour, r.ink, r.person.colour, r.drop.colour]
        self.words = [
            Word(canvas, plot.axes, colour=colour, bold=True) for plot, colour in zip(self.plots, colours, strict=True)
        ]
        self.standing = Word(canvas, self.plots[0].axes, colour=r.ink, across="right", up="top")
        self.guess = canvas.moving(self.plots[2].axes.plot([], [], **r.guess.dot(hollow=True), clip_on=False)[0])
        self.axes = [plot.axes for plot in self.plots]

    def show(self, curves: Sequence[Sequence[Curve]], *, now: float, words: Sequence[str], guess: float | None) -> None:
        """Curves over the sag [% of the span]: (peak A, peak B, standing pull), increase, person [kN], lowest tie-in [m];
        `words` : where each of the four goes; `guess` of the force on the person [kN]."""
        for plot, group, text, word in zip(self.plots, curves, words, self.words, strict=True):
            plot.show(group, now, (FROM, TO), joined=True)
            word.put(text, FROM, plot.reach.value * (1.0 + 3.0 / self.height))
        high, standing = curves[0][0], curves[0][2]
        self.fill.set_xy(
            np.column_stack([np.append(high.over, high.over[::-1]), np.append(high.values, standing.values[::-1])])
        )
        self.standing.put("standing", float(standing.over[-1]), 0.9 * float(standing.values[-1]))
        self.guess.set_data(*(([], []) if guess is None else ([now], [guess])))
