"""Answers on one axis of tension: what is true beside what each way of measuring says, each with its band."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL, TEXT, Role
from linelib.figures.word import Word
from linelib.models.tightness import ROUGH, Measured

ROWS = ("true, weight on", "sag says", "true, nobody on it", "pluck, backup counted", "pluck, webbing only")
PLACES = (4.1, 3.1, 1.9, 0.9, -0.1)
BETWEEN = 2.5  # the line with the weight on above, alone below


@dataclass(frozen=True, kw_only=True)
class Answers:
    """Tensions [N]: true with the weight on and alone; what the sag says of the first and the pluck of the second, with the
    hung mass counted and forgotten; which of those two the setting now takes."""

    true_on: float
    true_alone: float
    sag: Measured
    counted: Measured
    forgotten: Measured
    forgets: bool


class AnswerRows:
    """One row a tension in a box of screen pixels: names on the left, numbers on the right."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float]) -> None:
        r, self.canvas = canvas.roles, canvas
        self.axes = canvas.axes(*box)
        self.reach = Reach(8.0)
        self.axes.set_yticks(PLACES, ROWS, fontsize=TEXT, color=r.ink)
        self.axes.tick_params(axis="y", length=0)
        self.axes.set_ylim(-0.7, 4.6)
        self.axes.set_xlabel("tension [kN]; band: reading errors only", fontsize=SMALL, color=r.ink, labelpad=1)
        self.axes.axhline(BETWEEN, color=r.faint, linewidth=0.8)
        plot, moving = self.axes.plot, canvas.moving
        self.truths = [moving(plot([], [], color=r.ink, linewidth=1.4)[0]) for _ in range(2)]
        self.sag, self.other, self.taken = (self._answer(role) for role in (r.drop, r.other, r.side_a))
        self.dots = [moving(plot([], [], **r.now.dot(size=8))[0]) for _ in range(2)]
        self.guess = moving(plot([], [], **r.guess.dot(hollow=True, size=10))[0])
        self.words = [Word(canvas, self.axes, colour=r.ink, up="center") for _ in ROWS]
        self.key = Word(canvas, self.axes, colour=r.ink, up="top")
        self._fit()

    def show(self, answers: Answers, *, guess: float | None) -> None:
        """Set every row; `guess` [kN] of what the pluck says when only the webbing is counted."""
        measured = (answers.sag, answers.counted, answers.forgotten)
        ends = [m.tension + min(m.uncertainty, ROUGH * m.tension) for m in measured]
        if self.reach.take(max(1.04e-3 * max(answers.true_on, *ends), guess or 0.0)):
            self._fit()
        on, sag, alone, counted, forgotten = PLACES
        for line, dot, true, top, bottom in zip(
            self.truths, self.dots, (answers.true_on, answers.true_alone), (on, alone), (sag, forgotten), strict=True
        ):
            line.set_data([1e-3 * true] * 2, [top, bottom - 0.45])
            dot.set_data([1e-3 * true], [top])
        self._put(self.sag, answers.sag, sag)
        self._put(self.other if answers.forgets else self.taken, answers.counted, counted)
        self._put(self.taken if answers.forgets else self.other, answers.forgotten, forgotten)
        first, *rest = (in_words(m) for m in measured)
        said = (f"{1e-3 * answers.true_on:.1f}", first, f"{1e-3 * answers.true_alone:.1f}", *rest)
        for word, text, y in zip(self.words, said, PLACES, strict=True):
            word.put(text, 1.03 * self.reach.value, y)
        self.guess.set_data(*(([], []) if guess is None else ([guess], [forgotten])))
        self.key.put("" if guess is None else "○ your guess", 1.08 * self.reach.value, -0.75)

    def _answer(self, role: Role) -> tuple[Any, Any]:
        """A band and the mark in its middle."""
        band = self.axes.plot([], [], color=role.colour, linewidth=13.0, alpha=0.4, solid_capstyle="butt")[0]
        mark = self.axes.plot([], [], **role.dot(size=6))[0]
        return self.canvas.moving(band), self.canvas.moving(mark)

    def _put(self, answer: tuple[Any, Any], measured: Measured, y: float) -> None:
        band, mark = answer
        low, high = measured.tension - measured.uncertainty, measured.tension + measured.uncertainty
        band.set_data([1e-3 * low, 1e-3 * high], [y, y])
        mark.set_data([1e-3 * measured.tension], [y])

    def _fit(self) -> None:
        self.axes.set_xlim(0.0, self.reach.value)
        self.canvas.still_changed()


def in_words(measured: Measured) -> str:
    """An answer with its uncertainty; only the uncertainty, where that is so large that there is no answer."""
    if measured.rough:
        return f"? ± {100.0 * measured.relative:.0f} %"
    digits = 1 if measured.uncertainty >= 50.0 else 2
    return f"{1e-3 * measured.tension:.{digits}f} ± {1e-3 * measured.uncertainty:.{digits}f}"
