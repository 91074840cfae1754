"""What happens: anchors and person, standing and at the highest, as bars with their numbers."""

from __future__ import annotations

from collections.abc import Sequence

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL, TEXT, Role
from linelib.figures.word import Word


class Peaks:
    """One bar a force in a box of screen pixels: full bar the highest, notch a value to compare with, hollow dot a guess."""

    def __init__(
        self, canvas: Canvas, box: tuple[float, float, float, float], rows: Sequence[tuple[str, Role]], key: str
    ) -> None:
        r, self.canvas = canvas.roles, canvas
        self.axes, self.width = canvas.axes(*box), box[2]
        self.reach = Reach(10.0)
        self.places = [len(rows) - 1.0 - i for i in range(len(rows))]
        self.axes.set_yticks(self.places, [name for name, _ in rows], fontsize=TEXT, color=r.ink)
        self.axes.tick_params(axis="y", length=0)
        self.axes.set_ylim(-0.6, len(rows) - 0.3)
        self.axes.set_xlabel("force [kN]", fontsize=SMALL, color=r.ink, labelpad=1)
        self.bars = [
            canvas.moving(self.axes.barh(y, 1.0, height=0.52, color=role.colour, hatch=hatch, edgecolor=r.paper)[0])
            for y, (_, role), hatch in zip(self.places, rows, ("", "//", "..", ""), strict=False)
        ]
        self.notches = [canvas.moving(self.axes.plot([], [], color=r.ink, linewidth=2.2)[0]) for _ in rows]
        self.words = [Word(canvas, self.axes, colour=r.ink, up="center") for _ in rows]
        self.guess = canvas.moving(self.axes.plot([], [], **r.guess.dot(hollow=True))[0])
        self.key = self.axes.text(1.0, 1.02, key, transform=self.axes.transAxes, ha="right", va="bottom", fontsize=SMALL)
        self.key.set_color(r.ink)
        self._fit()

    def show(self, *, highest: Sequence[float], standing: Sequence[float | None], guess: float | None) -> None:
        """Forces [kN], one a row; `standing` None where there is none; `guess` [kN] for the first row."""
        if self.reach.take(max([*highest, *(s or 0.0 for s in standing), guess or 0.0]) * 1.25):
            self._fit()
        rows = zip(self.bars, self.notches, self.words, self.places, highest, standing, strict=True)
        for bar, notch, word, y, high, before in rows:
            bar.set_width(high)
            notch.set_visible(before is not None)
            if before is not None:
                notch.set_data([before, before], [y - 0.38, y + 0.38])
            word.put(f"{high:.1f}", self._beside(word, high, before), y)
        self.guess.set_data(*(([], []) if guess is None else ([guess], [self.places[0]])))

    def _beside(self, word: Word, high: float, notch: float | None) -> float:
        """Right of the bar; right of the notch, too, where that would cross the number."""
        pixel = self.reach.value / self.width
        end = high + (word.size(f"{high:.1f}")[0] + 10.0) * pixel
        return (notch if notch is not None and high < notch + 4.0 * pixel and notch < end else high) + 6.0 * pixel

    def _fit(self) -> None:
        self.axes.set_xlim(0.0, self.reach.value)
        self.canvas.still_changed()
