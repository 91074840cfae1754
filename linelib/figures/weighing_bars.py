"""One bar an explanation: its chance after the events beside that before, and in words when it does not suffice."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from matplotlib.patches import Rectangle

from linelib.figures.canvas import Canvas
from linelib.figures.roles import SMALL, TEXT
from linelib.figures.word import Word

TALL, UP = 0.34, 0.4  # height of a bar, and of its name over it, in rows
NONE = "none of these: always possible, it has no number"


@dataclass(frozen=True, kw_only=True)
class Chance:
    """One explanation: chances `before` and `after` the events [%], and whether it is sufficient."""

    before: float
    after: float
    sufficient: bool

    @property
    def words(self) -> str:
        """Its number, and in words when it does not suffice."""
        number = "under 1 %" if self.after < 1.0 else f"{self.after:.0f} %"
        return number if self.sufficient else f"not sufficient: {number}"


class WeighingBars:
    """Bars in a box of screen pixels, from the top in the order of `names`; then the row of what is not listed."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float], names: Sequence[str]) -> None:
        r = canvas.roles
        self.axes = canvas.axes(*box)
        self.places = [len(names) - float(i) for i in range(len(names) + 1)]
        self.axes.set(xlim=(0.0, 100.0), ylim=(-0.4, len(names) + 0.75), yticks=[])
        self.axes.set_xlabel(
            "chance among those listed [%]; outline: before the events", fontsize=SMALL, color=r.ink, labelpad=1
        )
        rows = [*(f"{i} {name}" for i, name in enumerate(names, 1)), NONE]
        for name, y in zip(rows, self.places, strict=True):
            self.axes.annotate(name, (0.0, y + UP), xycoords=("axes fraction", "data"), xytext=(3, 0), color=r.ink,
                               textcoords="offset points", fontsize=TEXT, va="center", weight="bold")  # fmt: skip
        self.bars = [self._part(canvas, y, TALL, r.ink, 1.0) for y in self.places[:-1]]
        self.before = [self._part(canvas, y, TALL + 0.1, r.ink, 1.3) for y in self.places[:-1]]
        for part in self.before:
            part.set(fill=False, linestyle=(0, (3, 2)))
        self.words = [Word(canvas, self.axes, colour=r.ink, across="right", up="center") for _ in names]
        self.ink, self.paper = r.ink, r.paper

    def show(self, chances: Sequence[Chance]) -> None:
        """Set a Chance for each name."""
        for bar, before, word, one, y in zip(self.bars, self.before, self.words, chances, self.places, strict=False):
            bar.set_width(one.after)
            before.set_width(one.before)
            bar.set(facecolor=self.ink if one.sufficient else self.paper, hatch="" if one.sufficient else "////")
            word.put(one.words, 100.0, y + UP)

    def _part(self, canvas: Canvas, y: float, tall: float, colour: str, width: float) -> Rectangle:
        part = Rectangle((0.0, y - 0.5 * tall), 0.0, tall, edgecolor=colour, linewidth=width)
        self.axes.add_patch(part)
        return canvas.moving(part)
