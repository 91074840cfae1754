"""A pulse there and back over time, the stopwatch's two presses, and what more round trips make of their errors."""

from __future__ import annotations

import numpy as np
from matplotlib.patches import Rectangle
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL
from linelib.figures.word import Word

Array = NDArray[np.float64]
AT = 0.11  # where along the line the pulse is drawn, share of the span: the same moment in both views
TOP, ROOM = 25.0, 31.0  # highest uncertainty drawn, and end of the axis above it, for words [%]


class RoundTrips:
    """Place of the pulse between A and B against time, in a box of screen pixels."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float]) -> None:
        r, self.canvas = canvas.roles, canvas
        self.axes = canvas.axes(*box)
        self.axes.set_yticks([0.0, 1.0], ["A", "B"])
        self.axes.set_ylim(-0.05, 1.75)
        self.axes.spines["left"].set_bounds(0.0, 1.0)
        self.axes.set_xlabel("time [s]; shaded: error of the watch", fontsize=SMALL, color=r.ink, labelpad=1)
        self.time = Reach(5.0)
        plot, moving = self.axes.plot, canvas.moving
        self.presses = [moving(Rectangle((0.0, 0.0), 0.0, 1.0, color=r.faint, alpha=0.45, linewidth=0)) for _ in range(2)]
        for press in self.presses:
            self.axes.add_patch(press)
        self.webbing = moving(plot([], [], **r.carries_not.line(linewidth=1.8))[0])
        self.path = moving(plot([], [], **r.side_a.line())[0])
        self.pulse = moving(plot([], [], **r.side_a.dot(size=8))[0])
        self.end = moving(plot([], [], **r.now.dot(size=8))[0])
        self.words = Word(canvas, self.axes, colour=r.side_a.colour, up="center", bold=True)
        self.other = Word(canvas, self.axes, colour=r.faint, up="center")
        self._fit()

    def show(self, *, trips: int, round_trip: float, webbing_only: float, error: float) -> None:
        """Round trips and time [s] of one, also as if only the webbing moved; standard error [s] of each press."""
        end = trips * round_trip
        wanted = 1.04 * end + error
        left = wanted > self.time.value or wanted < 0.2 * self.time.value
        if left and self.time.take(1.5 * wanted):  # with room for some more trips: a new axis takes longest to draw
            self._fit()
        self.path.set_data(0.5 * round_trip * np.arange(2 * trips + 1), np.arange(2 * trips + 1) % 2)
        self.webbing.set_data([0.0, 0.5 * webbing_only, webbing_only], [0.0, 1.0, 0.0])
        self.pulse.set_data([0.5 * AT * round_trip], [AT])
        self.end.set_data([end], [0.0])
        for press, at in zip(self.presses, (0.0, end), strict=True):
            press.set_bounds(at - error, 0.0, 2.0 * error, 1.0)
        many = "1 round trip" if trips == 1 else f"{trips} trips {end:.2f} s, each"
        self.words.put(f"━ {many} {round_trip:.2f} s", 0.0, 1.62)
        self.other.put(f"╌ if only the webbing swung {webbing_only:.2f} s", 0.0, 1.28)

    def _fit(self) -> None:
        self.axes.set_xlim(-0.01 * self.time.value, self.time.value)
        self.canvas.still_changed()


class TripsChart:
    """Relative uncertainty of the tension against the number of round trips, in a box of screen pixels."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float], most: int) -> None:
        r = canvas.roles
        self.axes = canvas.axes(*box)
        self.axes.set_title("uncertainty of the pluck [%]", fontsize=SMALL, color=r.ink, pad=4, loc="left")
        self.axes.set_xlabel("round trips timed", fontsize=SMALL, color=r.ink, labelpad=1)
        self.axes.set_xlim(0.5, most + 0.5)
        self.axes.set_ylim(0.0, ROOM)
        self.axes.set_yticks(range(0, 26, 5))
        self.axes.spines["left"].set_bounds(0.0, TOP)
        self.axes.set_xticks([1, *range(2, most + 1, 2)])
        self.axes.axhline(5.0, **r.limit.line())
        plot, moving = self.axes.plot, canvas.moving
        self.curve = moving(plot([], [], **r.side_a.line(marker="o", markersize=4))[0])
        self.dot = moving(plot([], [], **r.now.dot(size=9))[0])
        self.word = Word(canvas, self.axes, colour=r.ink, up="bottom", bold=True)
        self.needed = Word(canvas, self.axes, colour=r.ink, across="right", up="top")
        self.most = most

    def show(self, *, relative: Array, trips: int, needed: int | None) -> None:
        """Relative uncertainty [-] for 1, 2, ... trips; trips that 5 % takes, None where none are enough."""
        percent = 100.0 * relative
        seen = percent <= TOP
        self.curve.set_data(np.flatnonzero(seen) + 1, percent[seen])
        now = float(percent[trips - 1])
        self.dot.set_data([trips], [min(now, TOP)])
        self.dot.set_marker("o" if now <= TOP else "^")
        height = np.clip(now + 1.8, 6.0, TOP - 5.0)  # above the line of 5 %
        self.word.put(f"{now:.0f} %", min(trips + 0.4, self.most - 1.3), float(height))
        text = (
            "no number of trips gives 5 %"
            if needed is None
            else f"5 % takes {needed} trips"
            if needed > 1
            else "1 trip gives 5 %"
        )
        self.needed.put(text, self.most + 0.5, ROOM)
