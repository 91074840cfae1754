"""The picture of what a slow cell misses: the force, the cell's samples of it, and the share missed over the sampling rate."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from matplotlib.ticker import FixedLocator, NullLocator
from numpy.typing import NDArray

from linelib.figures.kept_figure import KeptFigure
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL, Role
from linelib.figures.word import Word
from linelib.studies.slow_cell import SlowCell

Array = NDArray[np.float64]
RATES = (5, 10, 20, 50, 100, 200, 500)  # [Hz] on the axis


@dataclass(frozen=True, kw_only=True)
class Recording:
    """True force over time [s], [kN]; the cell's window on it; samples [s], [kN]; whether the force is that on the person."""

    time: Array
    force: Array
    meant: Array
    at: Array
    read: Array
    person: bool


class SlowCellFigure(KeptFigure):
    """Kept picture: left the recording, right the share missed over the rate."""

    def __init__(self, paper: str = "light") -> None:
        super().__init__(paper=paper)
        self.time, self.force, self.share = Reach(2.0), Reach(10.0), Reach(6.0)
        self._trace()
        self._chart()
        self._fit()
        self.use({"both": (self.axes, self.chart)})

    def draw(self, recording: Recording, over: Sequence[SlowCell], now: tuple[float, float], guess: float | None) -> None:
        """Set the recording; cells over the rate with the window now; `now` : rate [Hz] and share missed now [%], which noise
        can make negative; `guess` [%] of the worst."""
        self.back()
        one = recording
        top = max(float(one.force.max()), float(one.read.max()))
        worst = [100.0 * max(cell.missed) for cell in over]
        wanted = max(*worst, now[1], guess or 0.0, 1.0)
        grown = [self.time.take(float(one.time[-1])), self.force.take(1.13 * top), self.share.take(1.15 * wanted)]
        if any(grown):
            self._fit()
        r = self.canvas.roles
        self._recording(one, r.person if one.person else r.side_a)
        rates = [cell.rate for cell in over]
        best = [100.0 * max(min(cell.missed), 0.0) for cell in over]
        self.worst.set_data(rates, worst)
        self.best.set_data(rates, best)
        shown = max(now[1], -0.06 * self.share.value)
        self.dot.set_data([now[0]], [shown])
        self.guess.set_data(*(([], []) if guess is None else ([now[0]], [guess])))
        lift = 0.03 * self.share.value
        self.names[0].put("worst moment", rates[-1], min(worst[-1] + lift, 0.9 * self.share.value))
        self.names[1].put("best moment", rates[-1], best[-1] - 0.4 * lift)
        self.names[2].put("" if guess is None else "○ your guess of the worst", 5.0, 1.02 * self.share.value)

    def _recording(self, one: Recording, role: Role) -> None:
        """Force, window, samples and both peaks."""
        for line in (self.true, self.top):
            line.set_color(role.colour)
        self.true.set_data(one.time, one.force)
        self.meant.set_data(one.time, one.meant)
        self.samples.set_data(one.at, one.read)
        self.samples.set_markersize(6.0 if len(one.at) < 60 else 3.0)
        peak, high = int(np.argmax(one.force)), int(np.argmax(one.read))
        self.top.set_data([0.0, one.time[peak]], [one.force[peak]] * 2)
        self.read.set_data([0.0, one.at[high]], [one.read[high]] * 2)
        self.mark.set_data([one.at[high]], [one.read[high]])
        lift = 0.012 * self.force.value
        true, read = float(one.force[peak]), float(one.read[high])
        above, below = (self.words[0], self.words[1]) if true >= read else (self.words[1], self.words[0])
        above.up, below.up = 0.0, 1.0
        self.words[0].put(f"true {true:.2f} kN", 0.01 * self.time.value, true + (lift if true >= read else -lift))
        self.words[1].put(f"recorded {read:.2f} kN", 0.01 * self.time.value, read + (lift if read > true else -lift))

    def _trace(self) -> None:
        r, moving = self.canvas.roles, self.canvas.moving
        self.axes = self.canvas.axes(52, 46, 420, 336)
        self.axes.set_xlabel("time since the step off [s]", fontsize=SMALL, color=r.ink, labelpad=1)
        self.axes.set_ylabel("force [kN]", fontsize=SMALL, color=r.ink, labelpad=2)
        plot = self.axes.plot
        self.true = moving(plot([], [], **r.side_a.line())[0])
        self.meant = moving(plot([], [], **r.other.line(linewidth=1.6))[0])
        self.top = moving(plot([], [], **r.side_a.line(linewidth=1.0))[0])
        self.read = moving(plot([], [], color=r.ink, linewidth=1.0, linestyle=(0, (2, 2)))[0])
        self.samples = moving(plot([], [], **r.now.dot(size=6.0))[0])
        self.mark = moving(plot([], [], **r.now.dot(hollow=True, size=13.0))[0])
        self.words = [Word(self.canvas, self.axes, colour=r.ink, bold=True) for _ in range(2)]

    def _chart(self) -> None:
        r, moving = self.canvas.roles, self.canvas.moving
        self.chart = self.canvas.axes(546, 46, 240, 316)
        self.chart.set_xscale("log")
        self.chart.set_xlim(4.6, 540.0)
        self.chart.xaxis.set_major_locator(FixedLocator(RATES))
        self.chart.xaxis.set_minor_locator(NullLocator())
        self.chart.xaxis.set_major_formatter("{x:g}")
        self.chart.set_xlabel("samples a second [Hz]", fontsize=SMALL, color=r.ink, labelpad=1)
        self.chart.set_ylabel("missed of the true peak [%]", fontsize=SMALL, color=r.ink, labelpad=2)
        self.chart.axhline(0.0, color=r.faint, linewidth=0.8)
        plot = self.chart.plot
        self.worst = moving(plot([], [], color=r.ink, linewidth=2.0)[0])
        self.best = moving(plot([], [], color=r.ink, linewidth=1.4, linestyle=(0, (4, 3)))[0])
        self.dot = moving(plot([], [], **r.now.dot(size=10.0))[0])
        self.guess = moving(plot([], [], **r.guess.dot(hollow=True, size=11.0))[0])
        self.names = [
            Word(self.canvas, self.chart, colour=r.ink, across="right"),
            Word(self.canvas, self.chart, colour=r.ink, across="right", up="top"),
            Word(self.canvas, self.chart, colour=r.ink),
        ]

    def _fit(self) -> None:
        self.axes.set_xlim(0.0, self.time.value)
        self.axes.set_ylim(0.0, self.force.value)
        self.chart.set_ylim(-0.08 * self.share.value, self.share.value)
        self.canvas.still_changed()
