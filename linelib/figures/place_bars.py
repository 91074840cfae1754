"""One bar a place: strength left over the load there, what was lost and by what; and two bars of what is often done."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from matplotlib.colors import to_rgb
from matplotlib.patches import Rectangle

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL, TEXT, Role
from linelib.figures.word import Word

TALL, ROW = 0.36, 0.40  # height of a bar and of its line of words, in rows
FILLED, PALE = "filled", "pale"  # beside matplotlib's hatches
LOST = {"angle, uneven legs": "", "lost here": "////", "age, sun, wet": PALE}
NAMES, KEY = 86.0, -61.0  # screen pixels: of a row's name; of the key under the axis


@dataclass(frozen=True, kw_only=True)
class Bar:
    """One place, each value over the load there [times]: strength left, after its own losses, printed, and printed on legs
    that share the pull evenly (elsewhere the same as printed); and its numbers in words."""

    left: float
    here: float
    printed: float
    even: float
    words: str


class PlaceBars:
    """Bars in a box of screen pixels: `rows` of (name, role) from the top, then the two rows of what is often done."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float], rows: Sequence[tuple[str, Role]]) -> None:
        r, self.canvas, self.box = canvas.roles, canvas, box
        self.axes, self.reach = canvas.axes(*box), Reach(8.0)
        names = [*(name for name, _ in rows), "often done: printed strength, nothing taken off", "often done: all multiplied"]
        self.places = [len(names) - 1.0 - i for i in range(len(names))]
        self.axes.set_yticks([])
        self.axes.set_ylim(-0.3, len(names) - 0.1)
        self.axes.spines["left"].set_color(r.ink)
        self.axes.set_xlabel("strength over the load there [times]", fontsize=SMALL, color=r.ink, labelpad=1)
        for name, y in zip(names, self.places, strict=True):
            colour, strong = (r.ink, "bold") if y > 1.5 else (r.ink, "normal")
            self.axes.annotate(name, (0.0, y + ROW), xycoords=("axes fraction", "data"), xytext=(3, 0), color=colour,
                               textcoords="offset points", fontsize=TEXT, va="center", weight=strong)  # fmt: skip
        self.parts = [[self._part(role.colour, hatch) for hatch in (FILLED, *LOST.values())] for _, role in rows]
        self.often = [self._part(r.said.colour, "\\\\\\\\") for _ in range(2)]
        self.edge = canvas.moving(self.axes.plot([], [], color=r.paper, linewidth=4.5, solid_capstyle="butt")[0])
        self.load = canvas.moving(self.axes.plot([], [], color=r.ink, linewidth=2.0)[0])
        self.load_word = Word(canvas, self.axes, colour=r.ink, across="center")
        self.limit = canvas.moving(self.axes.plot([], [], **r.limit.line(linewidth=1.8))[0])
        self.limit_word = Word(canvas, self.axes, colour=r.ink, across="center")
        self.guess = canvas.moving(self.axes.plot([], [], **r.guess.dot(hollow=True, markerfacecolor=r.paper))[0])
        self.guess_word = Word(canvas, self.axes, colour=r.ink, across="right")
        self.words = [Word(canvas, self.axes, colour=r.ink, up="center") for _ in rows]
        self.often_words = [Word(canvas, self.axes, colour=r.ink, across="right", up="center") for _ in range(2)]
        self.frame = self._part(r.ink, "")
        self.frame.set(fill=False, linewidth=1.8)
        self.frame.set_clip_on(False)
        self.weakest = Word(canvas, self.axes, colour=r.ink, across="right", up="center", bold=True)
        self._key()
        self._fit()

    def show(
        self, *, bars: Sequence[Bar], weakest: int, often: Sequence[float], limit: float | None, guess: float | None
    ) -> None:
        """Set bars, the number of the weakest, what is often done, an entered limit and a guess [times]; None: none."""
        wanted = max([*(bar.even for bar in bars), *often, limit or 0.0, guess or 0.0])
        if self.reach.take(1.02 * wanted):
            self._fit()
        for parts, bar, word, y in zip(self.parts, bars, self.words, self.places, strict=False):
            ends = (0.0, bar.left, bar.here, bar.printed, bar.even)
            spans = (ends[0:2], ends[3:5], ends[2:4], ends[1:3])  # solid, uneven, lost here, everywhere: as in LOST
            for part, (start, end) in zip(parts, spans, strict=True):
                part.set_bounds(start, y - 0.5 * TALL, max(end - start, 0.0), TALL)
                part.set_visible(end - start > 1e-9)
            word.put(bar.words, self._across(NAMES), y + ROW)
        for part, value, word, y in zip(self.often, often, self.often_words, self.places[-2:], strict=True):
            part.set_bounds(0.0, y - 0.3 * TALL, value, 0.6 * TALL)
            word.put(f"{value:.1f} times", self._across(self.box[2] - 3.0), y + ROW)
        self._mark(weakest, limit)
        self.guess.set_data(*(([], []) if guess is None else ([guess], [self.places[weakest]])))
        self.guess_word.put("" if guess is None else "○ your guess", self.reach.value, self.axes.get_ylim()[1])

    def _mark(self, weakest: int, limit: float | None) -> None:
        y, left, width = self.places[weakest], self._across(-5.0), self._across(self.box[2] + 9.0)
        self.frame.set_bounds(left, y - 0.5 * TALL - 0.08, width, ROW + TALL + 0.24)
        self.weakest.put("weakest", self._across(self.box[2] - 3.0), y + ROW)
        top = self.axes.get_ylim()[1]
        self.limit.set_data(*(([], []) if limit is None else self._strokes(limit)))
        both = [self._strokes(times) for times in (1.0, limit) if times is not None]
        self.edge.set_data(*(np.concatenate(parts) for parts in zip(*both, strict=True)))
        self.limit_word.put(
            "" if limit is None else f"your limit {limit:g}",
            min(max(limit or 0.0, self._across(110.0)), self._across(self.box[2] - 170.0)),
            top,
        )

    def _part(self, colour: str, filling: str) -> Rectangle:
        part = Rectangle((0, 0), 1, 1)
        self._fill(part, colour, filling)
        self.axes.add_patch(part)
        return self.canvas.moving(part)

    def _fill(self, part: Rectangle, colour: str, filling: str) -> None:
        """Filled, pale, hatched or empty, always with an edge of the colour."""
        shade = {FILLED: 1.0, PALE: 0.35}.get(filling, 0.0)
        mixed = shade * np.array(to_rgb(colour)) + (1.0 - shade) * np.array(to_rgb(self.canvas.roles.paper))
        part.set(facecolor=mixed, edgecolor=colour, linewidth=1.0)
        part.set_hatch("" if filling in (FILLED, PALE) else filling)

    def _key(self) -> None:
        """What the fillings mean, under the axis."""
        ink, (wide, tall), x = self.canvas.roles.ink, self.box[2:], 0.0
        for name, filling in {"left": FILLED, **dict(reversed(LOST.items()))}.items():
            swatch = Rectangle((x / wide, KEY / tall), 16 / wide, 11 / tall, transform=self.axes.transAxes, clip_on=False)
            self._fill(swatch, ink, filling)
            self.axes.add_patch(swatch)
            words = self.axes.text((x + 20) / wide, (KEY + 5) / tall, name, transform=self.axes.transAxes)
            words.set(fontsize=SMALL, color=ink, va="center")
            x += 20 + 7.4 * len(name) + 14

    def _across(self, pixels: float) -> float:
        return pixels / self.box[2] * self.reach.value

    def _strokes(self, times: float) -> tuple[list[float], list[float]]:
        """An upright line through every bar, left out where the words are."""
        ends = [y + end for y in self.places for end in (-0.5 * TALL - 0.05, 0.5 * TALL + 0.02, np.nan)]
        return [times] * len(ends), ends

    def _fit(self) -> None:
        self.axes.set_xlim(0.0, self.reach.value)
        top = self.axes.get_ylim()[1]
        self.load.set_data(*self._strokes(1.0))
        self.load_word.put("load", max(1.0, self._across(16.0)), top)
        self.canvas.still_changed()
