"""The lock at B from near: the tail behind it, how much of it is gone, and where the fold in it has come to."""

from __future__ import annotations

from typing import Any

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL
from linelib.figures.word import Word


class LockTail:
    """In a box of screen pixels; lengths of the tail to scale, hanging straight down."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float]) -> None:
        r, self.canvas = canvas.roles, canvas
        self.axes = canvas.axes(*box)
        self.axes.set_title("tail behind the lock [m]", fontsize=SMALL, color=r.ink, pad=4, loc="left")
        self.axes.set_xticks([])
        self.axes.set_xlim(0.0, 1.0)
        self.axes.spines["bottom"].set_visible(False)
        self.reach = Reach(1.5)
        plot, moving = self.axes.plot, canvas.moving
        self.line = moving(plot([], [], **r.side_b.line(linewidth=5))[0])
        self.gone = moving(plot([], [], **r.torn.line(marker="", linewidth=4))[0])
        self.tail = moving(plot([], [], **r.carries.line(linewidth=5, solid_capstyle="butt"))[0])
        self.lock = moving(plot([], [], linestyle="none", marker="s", markersize=17, color=r.ink, clip_on=False)[0])
        cross: dict[str, Any] = {"linestyle": "none", "marker": "x", "clip_on": False}
        self.fold_then = moving(plot([], [], **cross, color=r.faint, markersize=9, markeredgewidth=1.6)[0])
        self.fold = moving(plot([], [], **cross, color=r.person.colour, markersize=12, markeredgewidth=3.2)[0])
        self.words = {
            "tail": Word(canvas, self.axes, colour=r.ink, up="center"),
            "fold": Word(canvas, self.axes, colour=r.person.colour, up="center", bold=True),
            "gone": Word(canvas, self.axes, colour=r.ink, up="center"),
        }
        self._fit()

    def show(self, *, tail: float, tail_left: float, fold: float, fold_to_lock: float) -> None:
        """Lengths [m]: the tail and the fold's place before any fall, and now."""
        if self.reach.take(tail):
            self._fit()
        x = 0.14
        self.line.set_data([0.0, x], [0.0, 0.0])
        self.lock.set_data([x], [0.0])
        self.tail.set_data([x, x], [0.0, tail_left])
        self.gone.set_data([x, x], [tail_left, tail])
        self.fold_then.set_data([x], [fold])
        self.fold.set_data([x], [fold_to_lock])
        gap = 0.155 * self.reach.value
        at = max(fold_to_lock, 0.02 * self.reach.value)
        self.words["fold"].put("fold in the lock" if fold_to_lock <= 0.0 else "fold", x + 0.1, at)
        end = max(tail_left, at + gap)
        self.words["tail"].put(f"end, {tail_left:.2f} left", x + 0.1, end)
        text = "" if tail - tail_left < 0.005 else f"{tail - tail_left:.2f} paid out"
        self.words["gone"].put(text, x + 0.1, max(0.5 * (tail + tail_left), end + gap))

    def _fit(self) -> None:
        self.axes.set_ylim(1.16 * self.reach.value, -0.08 * self.reach.value)
        self.canvas.still_changed()
