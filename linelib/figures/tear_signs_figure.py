"""The picture of the lesson on what a crew can know: the width that still carries, and every sign over what can be noticed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from matplotlib.patches import Rectangle
from numpy.typing import NDArray

from linelib.figures.kept_figure import KeptFigure
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL, TEXT
from linelib.figures.word import Word

Array = NDArray[np.float64]

NAMES = (
    "length at the lock",
    "sag under the walker",
    "tension, walker on",
    "tension, nobody on",
    "pluck: never on a suspect line",
)
NOISE = "the noise: heard or not, it has no number here"
STRIPS, TALL, UP = 20, 0.34, 0.37  # strips drawn; height of a bar, and of its words above it, in rows
BOX = (262, 52, 520, 312)


@dataclass(frozen=True, kw_only=True)
class Row:
    """One sign: `times` what can be noticed [-], and its numbers in words."""

    times: float
    words: str


class TearSignsFigure(KeptFigure):
    """Kept picture; bars from the top in the order of NAMES, then the noise."""

    def __init__(self, paper: str = "light") -> None:
        super().__init__(paper=paper)
        self.reach = Reach(2.0)
        self._width()
        self._bars()
        self._fit()
        self.use({"both": (self.width, self.axes)})

    def draw(self, *, torn: float, rows: Sequence[Row], guess: float | None) -> None:
        """Set the torn share [-] of the width, a Row for each of NAMES, and a guess [times] of the sag."""
        self.back()
        self._strips(torn)
        if self.reach.take(1.05 * max(2.0 / 1.05, guess or 0.0, *(row.times for row in rows))):
            self._fit()
        for bar, word, row, y in zip(self.bars, self.words, rows, self.places, strict=False):
            bar.set_width(row.times)
            bar.set_hatch("" if row.times >= 1.0 else "////")
            bar.set_facecolor(self.canvas.roles.ink if row.times >= 1.0 else self.canvas.roles.paper)
            word.put(row.words, self.reach.value, y + UP)
        for dot in (self.halo, self.dot):
            dot.set_data(*(([], []) if guess is None else ([guess], [self.places[1]])))
        self.dot_word.put("" if guess is None else "○ your guess of the sag", 0.0, -0.55)

    def _width(self) -> None:
        """The webbing in the lock from above, strip by strip, and the share that carries."""
        r, moving = self.canvas.roles, self.canvas.moving
        self.width = self.canvas.axes(8, 52, 226, 312)
        self.width.set_axis_off()
        self.width.set(xlim=(0, 226), ylim=(0, 312))
        self.width.text(0, 304, "width inside the closed lock", fontsize=TEXT, color=r.ink, weight="bold", va="center")
        self.width.text(0, 14, "nobody outside can see this", fontsize=TEXT, color=r.ink, va="center")
        self.width.add_patch(Rectangle((2, 96), 36, 176, facecolor="none", edgecolor=r.faint, hatch="///"))
        plot = self.width.plot
        self.whole = moving(plot([], [], **r.carries.line())[0])
        self.torn = moving(plot([], [], **r.torn.line(marker=""))[0])
        self.ends = moving(plot([], [], **r.torn.dot(size=5, markeredgecolor=r.ink, markeredgewidth=1.3))[0])
        self.big = moving(self.width.text(0, 62, "", fontsize=26, color=r.ink, weight="bold", va="center"))
        self.side = Word(self.canvas, self.width, colour=r.ink, up="center")

    def _strips(self, torn: float) -> None:
        y = np.linspace(104.0, 264.0, STRIPS)[::-1]
        gone = round(torn * STRIPS)
        gap = np.full(STRIPS, np.nan)

        def lines(left: float, right: float, rows: slice) -> tuple[Array, Array]:
            x = np.column_stack([np.full(STRIPS, left), np.full(STRIPS, right), gap])[rows]
            return x.ravel(), np.column_stack([y, y, gap])[rows].ravel()

        self.whole.set_data(*lines(4.0, 222.0, slice(gone, None)))
        self.torn.set_data(*lines(66.0, 222.0, slice(0, gone)))
        self.ends.set_data([50.0 + 5.0 * ((7 * i) % 5) for i in range(gone)], y[:gone])
        self.big.set_text(f"{100 * (1 - torn):.0f} %")
        self.side.put("still carries", 126.0, 62.0)

    def _bars(self) -> None:
        r, moving = self.canvas.roles, self.canvas.moving
        self.axes = self.canvas.axes(*BOX)
        self.places = [len(NAMES) - float(i) for i in range(len(NAMES) + 1)]
        self.axes.set(ylim=(-0.65, len(NAMES) + 0.95), yticks=[])
        self.axes.set_xlabel(
            "times what can be noticed (thresholds: typical, no source)", fontsize=SMALL, color=r.ink, labelpad=1
        )
        for name, y in zip((*NAMES, NOISE), self.places, strict=True):
            self.axes.annotate(name, (0.0, y + UP), xycoords=("axes fraction", "data"), xytext=(3, 0), color=r.ink,
                               textcoords="offset points", fontsize=TEXT, va="center", weight="bold")  # fmt: skip
        self.bars = [moving(Rectangle((0, y - 0.5 * TALL), 0, TALL, edgecolor=r.ink)) for y in self.places[:-1]]
        for bar in self.bars:
            self.axes.add_patch(bar)
        self.words = [Word(self.canvas, self.axes, colour=r.ink, across="right", up="center") for _ in NAMES]
        self.edge = moving(self.axes.plot([], [], color=r.paper, linewidth=6.5, solid_capstyle="butt")[0])
        self.line = moving(self.axes.plot([], [], **r.limit.line(linewidth=2.4, solid_capstyle="butt"))[0])
        self.question = Word(self.canvas, self.axes, colour=r.ink, up="center")
        self.regions = [Word(self.canvas, self.axes, colour=r.ink, across=side, up="center") for side in ("right", "left")]
        self.halo = moving(self.axes.plot([], [], "o", color=r.paper, markersize=14)[0])
        self.dot = moving(self.axes.plot([], [], **r.guess.dot(hollow=True, markerfacecolor=r.paper))[0])
        self.dot_word = Word(self.canvas, self.axes, colour=r.ink, up="bottom")

    def _fit(self) -> None:
        self.axes.set_xlim(0.0, self.reach.value)
        ends = [y + e for y in self.places[:-1] for e in (-0.5 * TALL - 0.05, 0.5 * TALL, np.nan)]
        for stroke in (self.edge, self.line):  # the edge keeps it apart from a filled bar
            stroke.set_data([1.0] * len(ends), ends)
        pixel = self.reach.value / BOX[2]
        self.question.put("?  wind, distance, talk decide", 3 * pixel, self.places[-1])
        top = len(NAMES) + 0.82
        tight = 1.0 / pixel < 150.0
        self.regions[0].put("" if tight else "cannot be noticed  ", 1.0, top)
        self.regions[1].put("| 1: can be noticed" if tight else "| can be noticed", 1.0, top)
        self.canvas.still_changed()
