"""The picture of the lesson on how sure we are: all cases as dots beside the ranges put in, or the unknowns ranked."""

from __future__ import annotations

from collections.abc import Sequence

from linelib.figures.kept_figure import KeptFigure
from linelib.figures.quantile_dots import Dots, QuantileDots
from linelib.figures.ranking_bars import RankingBars, Row
from linelib.figures.roles import SMALL, Role
from linelib.figures.word import Word

VIEWS = ("how high", "what matters most")
LINES = 13


class HowSureFigure(KeptFigure):
    """Kept picture; `look_at` one of VIEWS."""

    def __init__(self, paper: str = "light") -> None:
        super().__init__(paper=paper)
        canvas, r = self.canvas, self.canvas.roles
        self.dots = QuantileDots(canvas, (20, 48, 510, 318))
        self.bars = RankingBars(canvas, (20, 66, 760, 322))
        self.beside = canvas.axes(552, 10, 244, 380)
        self.beside.set_axis_off()
        self.beside.set_ylim(-LINES, 0.0)
        self.beside.text(0.0, -LINES + 0.2, "each dot: one case in a hundred", fontsize=SMALL, color=r.ink)
        self.words = [Word(canvas, self.beside, colour=r.ink, up="top", bold=i == 0) for i in range(LINES)]
        parts = ((self.dots.axes, self.beside), (self.bars.axes,))
        self.use(dict(zip(VIEWS, parts, strict=True)))
        self.outcome = ""

    def role(self, name: str) -> Role:
        """The role of an outcome: 'anchor', 'person' or 'lowest'."""
        r = self.canvas.roles
        return {"anchor": r.side_a, "person": r.person, "lowest": r.drop}[name]

    def draw_dots(self, outcome: str, label: str, dots: Dots, beside: Sequence[str]) -> None:
        """All cases of an outcome along an axis called `label`; lines of words beside them."""
        self.back()
        if outcome != self.outcome:
            self.outcome = outcome
            self.dots.name(label, self.role(outcome))
        self.dots.show(dots)
        for i, word in enumerate(self.words):
            word.put(beside[i] if i < len(beside) else "", 0.0, -float(i))

    def draw_ranking(self, rows: Sequence[Row], reason: str = "") -> None:
        """The unknowns, most important first; no rows: the reason why."""
        self.back()
        self.bars.show(rows, reason=reason)
