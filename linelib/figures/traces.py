"""When: tension at both anchors and force on the person against time, with a cursor."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL
from linelib.figures.word import Word

Array = NDArray[np.float64]


class Traces:
    """Three traces in a box of screen pixels."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float]) -> None:
        r, self.canvas = canvas.roles, canvas
        self.axes = canvas.axes(*box)
        self.axes.set_xlabel("time since the step off [s]", fontsize=SMALL, color=r.ink, labelpad=1)
        self.axes.set_ylabel("force [kN]", fontsize=SMALL, color=r.ink, labelpad=2)
        self.time, self.force = Reach(2.0), Reach(10.0)
        parts = (("A", r.side_a), ("B", r.side_b), ("person", r.person))
        self.lines = [canvas.moving(self.axes.plot([], [], **role.line())[0]) for _, role in parts]
        self.dots = [canvas.moving(self.axes.plot([], [], **role.dot(size=7))[0]) for _, role in parts]
        self.words = [
            Word(canvas, self.axes, colour=role.colour, bold=True, across=side)
            for (_, role), side in zip(parts, ("right", "left", "center"), strict=True)
        ]
        self.clock = Word(canvas, self.axes, colour=r.ink, up="top")
        self.cursor = canvas.moving(self.axes.plot([], [], color=r.ink, linewidth=1.0)[0])
        self._fit()

    def show(self, *, time: Array, a: Array, b: Array, person: Array, at: int) -> None:
        """Series [s], [kN], (times,) each; `at` : the time the cursor stands at."""
        top = max(float(a.max()), float(b.max()), float(person.max()))
        if any([self.time.take(float(time[-1])), self.force.take(1.2 * top)]):
            self._fit()
        lift = 0.02 * self.force.value
        parts = zip(self.lines, self.dots, self.words, ("A ", " B", "person"), (a, b, person), strict=True)
        for line, dot, word, name, values in parts:
            line.set_data(time, values)
            dot.set_data([time[at]], [values[at]])
            peak = int(np.argmax(values))
            word.put(name, float(time[peak]), float(values[peak]) + lift)
        self.cursor.set_data([time[at], time[at]], [0.0, self.force.value])
        self.clock.put(f"{time[at]:.2f} s", float(time[at]) + 0.01 * self.time.value, self.force.value)

    def _fit(self) -> None:
        self.axes.set_xlim(0.0, self.time.value)
        self.axes.set_ylim(0.0, self.force.value)
        self.canvas.still_changed()
