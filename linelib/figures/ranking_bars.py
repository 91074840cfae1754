"""Which unknown matters most, as bars: solid what it does by itself, outlined with what it does together with others."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from textwrap import fill
from typing import Any

from matplotlib.patches import Rectangle

from linelib.figures.canvas import Canvas
from linelib.figures.roles import SMALL
from linelib.figures.word import Word

MOST, TALL = 8, 0.34  # rows; height of a bar in rows
KEY = -54.0  # screen pixels: of the key under the axis


@dataclass(frozen=True, kw_only=True)
class Row:
    """One unknown in words with its range; `first` and `total` share of the variance [-], and the interval of the total."""

    name: str
    first: float
    total: float
    interval: tuple[float, float]


class RankingBars:
    """Rows from the top, the most important first, in a box of screen pixels; or words in their place."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float]) -> None:
        r, self.canvas, self.box = canvas.roles, canvas, box
        self.axes = canvas.axes(*box)
        self.axes.set_yticks([])
        self.axes.set_ylim(0.0, MOST)
        self.axes.set_xlim(0.0, 100.0)
        self.axes.set_xlabel("share of the variance, estimated [%]", fontsize=SMALL, color=r.ink, labelpad=1)
        self.solid = [self._bar(True) for _ in range(MOST)]
        self.outline = [self._bar(False) for _ in range(MOST)]
        whisker: dict[str, Any] = {"color": r.ink, "linewidth": 1.4, "marker": "|", "markersize": 7}
        self.whiskers = [canvas.moving(self.axes.plot([], [], **whisker)[0]) for _ in range(MOST)]
        self.names = [Word(canvas, self.axes, colour=r.ink, up="center", bold=i == 0) for i in range(MOST)]
        self.numbers = [Word(canvas, self.axes, colour=r.ink, across="right", up="center") for _ in range(MOST)]
        text = self.axes.text(50.0, 0.5 * MOST, "", fontsize=SMALL, color=r.ink, ha="center", va="center")
        self.reason = canvas.moving(text)
        self._key()

    def show(self, rows: Sequence[Row], *, reason: str = "") -> None:
        """Set the bars; no rows: the reason."""
        self.reason.set_text(fill(reason, 92))
        for i in range(MOST):
            there = i < len(rows)
            for part in (self.solid[i], self.outline[i], self.whiskers[i]):
                part.set_visible(there)
            if there:
                self._row(i, rows[i])
            else:
                self.names[i].put("", 0.0, 0.0)
                self.numbers[i].put("", 0.0, 0.0)

    def _row(self, i: int, row: Row) -> None:
        bottom = MOST - i - 0.86
        for part, value in ((self.solid[i], row.first), (self.outline[i], row.total)):
            part.set_bounds(0.0, bottom, 100.0 * max(value, 0.0), TALL)
        low, high = row.interval
        self.whiskers[i].set_data([100.0 * max(low, 0.0), 100.0 * min(high, 1.0)], [bottom + 0.5 * TALL] * 2)
        self.names[i].put(row.name, 100.0 * 5.0 / self.box[2], bottom + TALL + 0.24)
        self.numbers[i].put(f"alone {in_percent(row.first)}, in all {in_percent(row.total)}", 100.0, bottom + TALL + 0.24)

    def _bar(self, solid: bool) -> Rectangle:
        part = Rectangle((0, 0), 1, 1)
        self._look(part, solid)
        self.axes.add_patch(part)
        return self.canvas.moving(part)

    def _look(self, part: Rectangle, solid: bool) -> None:
        ink, faint = self.canvas.roles.ink, self.canvas.roles.faint
        part.set(facecolor=faint if solid else "none", edgecolor="none" if solid else ink, linewidth=0.0 if solid else 1.6)

    def _key(self) -> None:
        """What solid, outline and whisker mean, under the axis."""
        (wide, tall), ink, x = self.box[2:], self.canvas.roles.ink, 0.0
        for words, solid in (("by itself (first order)", True), ("with what it does together with others (total)", False)):
            swatch = Rectangle((x / wide, KEY / tall), 16 / wide, 11 / tall, transform=self.axes.transAxes, clip_on=False)
            self._look(swatch, solid)
            self.axes.add_patch(swatch)
            text = self.axes.text((x + 22) / wide, (KEY + 5) / tall, words, transform=self.axes.transAxes)
            text.set(fontsize=SMALL, color=ink, va="center")
            x += 22 + 7.4 * len(words) + 14
        text = self.axes.text((x - 4) / wide, (KEY + 5) / tall, "|−| 95 % interval", transform=self.axes.transAxes)
        text.set(fontsize=SMALL, color=ink, va="center")


def in_percent(share: float) -> str:
    """A share of the variance in whole percents; what is under half a percent, or came out below 0, is 'about 0'."""
    return "about 0" if share < 0.005 else f"{100.0 * share:.0f} %"
