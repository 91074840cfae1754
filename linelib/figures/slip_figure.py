"""The picture of the lesson on slip: line and tail, and under them forces and costs over the falls, always together."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from matplotlib.artist import Artist
from numpy.typing import NDArray

from linelib.figures.before_after import BeforeAfter, Line
from linelib.figures.kept_figure import HEIGHT, WIDTH, KeptFigure
from linelib.figures.lock_tail import LockTail
from linelib.figures.over_falls import Anchor, LeftOver, OverFalls
from linelib.figures.roles import SMALL

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Course:
    """A series of falls, arrays (falls,): `anchor`, `standing`, `person` [kN], `lowest` [m];
    `tail`, `backup`, `fold` [m], (1 + falls,): left before any fall, then after each."""

    anchor: Array
    standing: Array
    person: Array
    lowest: Array
    tail: Array
    backup: Array
    fold: Array


@dataclass(frozen=True, kw_only=True)
class SlipPicture:
    """What is drawn: the series `left` as it is and re-tensioned (`again`); `holds` : anchor, person [kN], lowest [m] with
    a lock that holds; lines before the first and last fall [m]; `fold_in`, `end` as in LeftOver."""

    left: Course
    again: Course
    holds: tuple[float, float, float]
    first: Line
    last: Line
    ring: int
    backup: Line
    ring_x: float
    fold_in: int
    end: tuple[int, str]


class SlipFigure(KeptFigure):
    """A kept picture of a series of falls; can also show a reason in its place."""

    def __init__(self, paper: str = "light") -> None:
        super().__init__(paper=paper)
        r = self.canvas.roles
        self.side = BeforeAfter(self.canvas, (58, 238, 500, 154))
        self.tail = LockTail(self.canvas, (608, 238, 188, 136))
        self.anchor = Anchor(self.canvas, (34, 36, 140, 128))
        self.person = OverFalls(self.canvas, (214, 36, 126, 128), "person [kN]", r.person)
        self.drop = OverFalls(self.canvas, (386, 36, 126, 128), "lowest tie-in [m]", r.drop, down=True)
        self.over = LeftOver(self.canvas, (556, 36, 240, 128))
        self.guess = self.canvas.moving(self.drop.axes.plot([], [], **r.guess.dot(hollow=True))[0])
        charts = (self.side, self.tail, self.anchor, self.person, self.drop, self.over)
        self.use({"both": (*(chart.axes for chart in charts), *self._key())})

    def draw(self, picture: SlipPicture, guess: float | None = None) -> None:
        """Set everything that moves; `guess` [m] of the lowest tie-in in the last fall."""
        self.back()
        left, again = picture.left, picture.again
        count = len(left.lowest)
        anchor, person, lowest = picture.holds
        self.anchor.show(left=left.anchor, again=again.anchor, holds=anchor)
        self.anchor.show_standing(highest=left.anchor, standing=left.standing)
        self.person.show(left=left.person, again=again.person, holds=person)
        self.drop.show(left=left.lowest, again=again.lowest, holds=lowest, top=guess or 0.0)
        self.guess.set_data(*(([], []) if guess is None else ([count], [guess])))
        self.over.show(
            left=(left.tail, left.backup, left.fold),
            again=(again.tail, again.backup, again.fold),
            fold_in=picture.fold_in,
            end=picture.end,
        )
        self.tail.show(
            tail=float(left.tail[0]),
            tail_left=float(left.tail[-1]),
            fold=float(left.fold[0]),
            fold_to_lock=float(left.fold[-1]),
        )
        deep = (float(left.lowest[0]), float(left.lowest[-1]))
        self.side.show(
            first=picture.first,
            last=picture.last,
            ring=picture.ring,
            backup=picture.backup,
            deep=deep,
            count=count,
            ring_x=picture.ring_x,
        )

    def _key(self) -> list[Artist]:
        """One line that says which line is which, and the two headings: forces and what they cost."""
        r, figure = self.canvas.roles, self.canvas.figure
        words = (
            (14, 207, "━●  left as the fall before left it", r.ink, "normal"),
            (300, 207, "─○  re-tensioned after each fall", r.ink, "normal"),
            (572, 207, "╌╌  a lock that holds", r.ink, "normal"),
            (14, 187, "forces (+: rise over the standing line)", r.ink, "bold"),
            (366, 187, "and what they cost, in the same falls", r.ink, "bold"),
        )
        return [
            figure.text(x / WIDTH, y / HEIGHT, text, fontsize=SMALL, color=colour, weight=weight)
            for x, y, text, colour, weight in words
        ]
