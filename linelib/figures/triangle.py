"""The forces at the ring as a closed triangle, to scale: the weight down, and one pull along each side."""

from __future__ import annotations

from typing import Any

import numpy as np

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.word import Word

ROOM, ROW, HEAD = 128.0, 24.0, 9.0  # pixels: right of the weight for its words, a row of words, an arrow's head

Point = tuple[float, float]


class Triangle:
    """Three arrows head to tail in a box of screen pixels, one scale both ways.

    The weight stands at x = 0, its foot at -lift of A and its top at lift of B; both pulls meet at (-horizontal, 0) [kN].
    """

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float]) -> None:
        r, self.canvas, self.box = canvas.roles, canvas, box
        self.axes = canvas.axes(*box)
        self.axes.set_axis_off()
        self.reach = Reach(8.0)
        plot, moving = self.axes.plot, canvas.moving
        self.level = moving(plot([], [], color=r.faint, linewidth=0.8)[0])
        self.arrows = [
            (moving(plot([], [], **role.line(linewidth=2.6))[0]), moving(plot([], [], color=role.colour, linewidth=2.6)[0]))
            for role in (r.side_a, r.side_b, r.person)
        ]
        self.ruler = moving(plot([], [], color=r.ink, linewidth=1.4, marker="|", markersize=8)[0])
        self.guess = moving(plot([], [], **r.guess.dot(hollow=True))[0])
        self.words = {
            "A": Word(canvas, self.axes, colour=r.side_a.colour, up="top", across="center", bold=True),
            "B": Word(canvas, self.axes, colour=r.side_b.colour, across="center", bold=True),
            "weight": Word(canvas, self.axes, colour=r.person.colour, up="center", bold=True),
            "side A": Word(canvas, self.axes, colour=r.ink),
            "side B": Word(canvas, self.axes, colour=r.ink, up="top"),
            "ruler": Word(canvas, self.axes, colour=r.ink, across="right"),
            "guess": Word(canvas, self.axes, colour=r.ink, across="right", up="top"),
        }
        self._fit()

    def show(self, *, horizontal: float, lift_a: float, lift_b: float, guess: float | None) -> None:
        """Set the arrows: level part of both pulls, upward part of each [kN]; `guess` [kN] is laid along the pull of A."""
        left = 1.03 * max(horizontal, guess or 0.0)
        tall = max(abs(lift_a), abs(lift_b))
        room = (self.box[2] - ROOM) / (0.5 * self.box[3] - ROW)
        wanted = max(left, tall * room)
        if self.reach.take(wanted) or wanted < 0.5 * self.reach.value:
            self.reach = Reach(wanted)
            self._fit()
        foot, top, meet = (0.0, -lift_a), (0.0, lift_b), (-horizontal, 0.0)
        for (shaft, head), (tail, tip) in zip(self.arrows, ((foot, meet), (meet, top), (top, foot)), strict=True):
            shaft.set_data([tail[0], tip[0]], [tail[1], tip[1]])
            head.set_data(*self._head(tail, tip))
        self.level.set_data([-horizontal, 0.0], [0.0, 0.0])
        along = (guess or 0.0) / float(np.hypot(horizontal, lift_a))
        self.guess.set_data(*(([], []) if guess is None else ([-along * horizontal], [(along - 1.0) * lift_a])))
        self._say(horizontal, lift_a, lift_b, guess)

    def _say(self, horizontal: float, lift_a: float, lift_b: float, guess: float | None) -> None:
        left, right = self.axes.get_xlim()
        low, high = self.axes.get_ylim()
        gap, middle = 5.0 * self.pixel, -0.5 * horizontal
        self.words["A"].put("A", middle, -0.5 * lift_a - gap)
        self.words["B"].put("B", middle, 0.5 * lift_b + gap)
        self.words["weight"].put(f"weight {lift_a + lift_b:.2f} kN", 10.0 * self.pixel, 0.5 * (lift_b - lift_a))
        for name, lift, y in (("A", lift_a, low), ("B", lift_b, high)):
            angle, pull = float(np.degrees(np.arctan2(lift, horizontal))), float(np.hypot(horizontal, lift))
            turn = "rises" if lift >= 0.0 else "falls"
            said = f"side {name} {turn} {abs(angle):.1f}° and pulls {pull:.1f} kN: {lift:+.2f} kN upward".replace("-", "−")
            self.words[f"side {name}"].put(said, left, y)
        self.words["guess"].put("" if guess is None else "○ your guess", right, high)
        unit = 1.0 if self.reach.value > 2.5 else 0.5
        self.ruler.set_data([right - unit, right], [low + 24.0 * self.pixel] * 2)
        self.words["ruler"].put(f"{unit:g} kN", right, low)

    def _head(self, tail: Point, tip: Point) -> Any:
        """Two strokes back from the tip."""
        back = np.array(tail) - np.array(tip)
        back *= HEAD * self.pixel / max(float(np.hypot(*back)), 1e-9)
        across = 0.45 * np.array([-back[1], back[0]])
        return np.array([tip + back + across, tip, tip + back - across]).T

    def _fit(self) -> None:
        self.pixel = self.reach.value / (self.box[2] - ROOM)  # kN a screen pixel
        self.axes.set_xlim(-self.reach.value, ROOM * self.pixel)
        self.axes.set_ylim(-0.5 * self.box[3] * self.pixel, 0.5 * self.box[3] * self.pixel)
        self.canvas.still_changed()
