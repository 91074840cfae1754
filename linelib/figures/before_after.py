"""The whole line from the side, anchors level: before the first and the last fall of a series, and how deep those went."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL
from linelib.figures.word import Word

Array = NDArray[np.float64]
Line = tuple[Array, Array]


class BeforeAfter:
    """Side view in a box of screen pixels; heights are drawn larger than lengths, and the picture says how much."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float]) -> None:
        r, self.canvas, self.box = canvas.roles, canvas, box
        self.axes = canvas.axes(*box)
        self.axes.set_xticks([])
        self.axes.set_ylabel("height [m]", fontsize=SMALL, color=r.ink, labelpad=1)
        self.axes.set_xlim(-0.01, 1.01)
        self.axes.spines["bottom"].set_visible(False)
        self.below = Reach(12.0)
        plot, moving = self.axes.plot, canvas.moving
        self.chord = moving(plot([0.0, 1.0], [0.0, 0.0], color=r.faint, linewidth=0.8)[0])
        self.backup = moving(plot([], [], **r.backup.line())[0])
        self.first = moving(plot([], [], **r.other.line(linewidth=2.0))[0])
        self.line_a = moving(plot([], [], **r.side_a.line(linewidth=2.6))[0])
        self.line_b = moving(plot([], [], **r.side_b.line(linewidth=2.6))[0])
        self.deep_first = moving(plot([], [], **r.drop.dot(hollow=True, size=8))[0])
        self.deep = moving(plot([], [], **r.drop.dot(size=8))[0])
        self.anchors = moving(
            plot([0.0, 1.0], [0.0, 0.0], linestyle="none", marker="s", markersize=9, color=r.ink, clip_on=False)[0]
        )
        self.names = {
            "A": Word(canvas, self.axes, colour=r.side_a.colour, bold=True),
            "B, lock": Word(canvas, self.axes, colour=r.side_b.colour, across="right", bold=True),
            "scale": Word(canvas, self.axes, colour=r.ink),
            "key": Word(canvas, self.axes, colour=r.ink, across="center"),
            "deep": Word(canvas, self.axes, colour=r.drop.colour, across="center", up="top", bold=True),
            "backup": Word(canvas, self.axes, colour=r.backup.colour, across="center", up="top"),
        }
        self._fit()

    def show(
        self, *, first: Line, last: Line, ring: int, backup: Line, deep: tuple[float, float], count: int, ring_x: float
    ) -> None:
        """Standing lines [m] before the first and the last of `count` falls, ring node, backup; `deep` [m] at `ring_x` : lowest
        tie-ins of both falls below the anchors."""
        span = float(first[0][-1])
        if self.below.take(1.3 * max(-float(backup[1].min()), *deep)):
            self._fit()
        self.first.set_data(first[0] / span, first[1])
        self.line_a.set_data(last[0][: ring + 1] / span, last[1][: ring + 1])
        self.line_b.set_data(last[0][ring:] / span, last[1][ring:])
        self.backup.set_data(backup[0] / span, backup[1])
        self.deep_first.set_data([ring_x / span], [-deep[0]])
        self.deep.set_data([ring_x / span], [-deep[1]])
        lift = 0.03 * self.below.value
        thin = f"standing before fall {count}; thin: before fall 1" if count > 1 else "standing before fall 1"
        self.names["key"].put(thin, 0.5, lift)
        both = f"lowest tie-in: {deep[0]:.1f} m in fall 1" + (f", {deep[1]:.1f} m in fall {count}" if count > 1 else "")
        self.names["deep"].put(both, ring_x / span, -max(deep) - 1.6 * lift)
        near = np.abs(backup[0] / span - 0.86) < 0.08
        self.names["backup"].put("backup", 0.86, float(backup[1][near].min()) - 0.5 * lift)
        times = self.box[3] / (1.16 * self.below.value) / (self.box[2] / (1.02 * span))
        self.names["scale"].put(f"span {span:.0f} m, heights drawn {times:.1f} times as large", 0.0, -self.below.value)

    def _fit(self) -> None:
        self.axes.set_ylim(-self.below.value, 0.16 * self.below.value)
        lift = 0.06 * self.below.value
        self.names["A"].put("A", 0.0, lift)
        self.names["B, lock"].put("B, lock", 1.0, lift)
        self.canvas.still_changed()
