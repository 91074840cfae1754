"""The story in a strip, load after load, and how wide the part of the webbing was that carried."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL
from linelib.figures.word import Word

Array = NDArray[np.float64]
Box = tuple[float, float, float, float]
MOST = 5  # events that find room
FLOOR = -0.14  # of the share's axis, where the range lies


@dataclass(frozen=True, kw_only=True)
class Dot:
    """One load [kN] with its standard uncertainty [kN], and a word of what was seen: held, noise, parted or ?."""

    load: float
    give: float
    word: str


class EventStrip:
    """Loads in their order, whiskers of one standard uncertainty, at most MOST of them."""

    def __init__(self, canvas: Canvas, box: Box) -> None:
        r, self.canvas = canvas.roles, canvas
        self.axes, self.reach = canvas.axes(*box), Reach(15.0)
        self.axes.set(xlim=(0.4, MOST + 0.6), xticks=range(1, MOST + 1))
        self.axes.set_title("loads in the lock [kN], fall after fall", fontsize=SMALL, color=r.ink, pad=3, loc="left")
        plot, moving = self.axes.plot, canvas.moving
        self.whiskers = moving(plot([], [], **r.carries.line(linewidth=1.4))[0])
        self.held = moving(plot([], [], **r.carries.dot(hollow=True, size=7, markerfacecolor=r.paper))[0])
        self.noise = moving(plot([], [], **r.carries.dot(size=7))[0])
        self.parted = moving(plot([], [], **r.torn.dot(size=9, markeredgecolor=r.ink))[0])
        self.words = [Word(canvas, self.axes, colour=r.ink, across="center") for _ in range(MOST)]
        self._fit()

    def show(self, dots: Sequence[Dot]) -> None:
        """Set the loads; a noise is a filled dot, a break a cross, all else hollow."""
        if self.reach.take(1.22 * max(dot.load + dot.give for dot in dots)):
            self._fit()
        kinds = {"noise": self.noise, "parted": self.parted}
        for artist in (self.held, self.noise, self.parted):
            found = [(i, dot.load) for i, dot in enumerate(dots, 1) if kinds.get(dot.word, self.held) is artist]
            artist.set_data([i for i, _ in found], [load for _, load in found])
        ends = [(i, y) for i, dot in enumerate(dots, 1) for y in (dot.load - dot.give, dot.load + dot.give, np.nan)]
        self.whiskers.set_data([i for i, _ in ends], [y for _, y in ends])
        for i, word in enumerate(self.words, 1):
            dot = dots[i - 1] if i <= len(dots) else Dot(load=0.0, give=0.0, word="")
            word.put(dot.word, i, dot.load + dot.give + 0.06 * self.reach.value)

    def _fit(self) -> None:
        self.axes.set_ylim(0.0, self.reach.value)
        self.canvas.still_changed()


class CarriedPlot:
    """Chances of the share of the width that carried, as a comb; the range that holds 90 % as a bar under it."""

    def __init__(self, canvas: Canvas, box: Box) -> None:
        r = canvas.roles
        self.axes = canvas.axes(*box)
        self.axes.set(xlim=(-1.0, 101.0), ylim=(1.7 * FLOOR, 1.08), yticks=[])
        self.axes.set_xlabel("share that carried when last whole [%]", fontsize=SMALL, color=r.ink, labelpad=1)
        plot, moving = self.axes.plot, canvas.moving
        self.comb = moving(plot([], [], **r.carries.line(linewidth=4.0, solid_capstyle="butt"))[0])
        self.range = moving(plot([], [], **r.other.line(linewidth=5.0, solid_capstyle="butt"))[0])
        self.range_word = Word(canvas, self.axes, colour=r.ink, up="bottom")
        self.halo = moving(plot([], [], "o", color=r.paper, markersize=14)[0])
        self.guess = moving(plot([], [], **r.guess.dot(hollow=True, markerfacecolor=r.paper))[0])
        self.guess_word = Word(canvas, self.axes, colour=r.ink, up="bottom", across="right")

    def show(self, *, shares: Array, chances: Array, between: tuple[float, float], guess: float | None) -> None:
        """Set chances over the shares [%], any scale, the range of 90 % [%], and a guess [%] or None."""
        height = chances / chances.max()
        x, y = np.repeat(shares, 3), np.column_stack([0.0 * height, height, np.full(len(height), np.nan)]).ravel()
        self.comb.set_data(x, y)
        self.range.set_data(list(between), [FLOOR] * 2)
        self.range_word.put(f"90 % of it: {between[0]:.0f} to {between[1]:.0f} %", -1.0, 1.1)
        for dot in (self.halo, self.guess):
            dot.set_data(*(([], []) if guess is None else ([guess], [0.5])))
        self.guess_word.put("" if guess is None else "○ your guess", 101.0, 1.1)
