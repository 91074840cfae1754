"""The picture of which choice drove it: demand and load over strength beside each other, a row a choice, with their sums."""

from __future__ import annotations

from collections.abc import Sequence

from linelib.figures.kept_figure import KeptFigure
from linelib.figures.outcome_roles import role_of
from linelib.figures.share_bars import Bars, ShareBars
from linelib.figures.word import Word


class WhichChoiceFigure(KeptFigure):
    """Kept picture for `rows` choices, at most 10."""

    def __init__(self, rows: int, paper: str = "light") -> None:
        super().__init__(paper=paper)
        ink = self.canvas.roles.ink
        below, tall = 84.0, 286.0
        self.names_axes = self.canvas.axes(4, below, 180, tall)
        self.names_axes.set_axis_off()
        self.demand = ShareBars(self.canvas, (192, below, 278, tall), rows)
        self.place = ShareBars(self.canvas, (500, below, 290, tall), rows)
        self.names_axes.set_ylim(*self.demand.axes.get_ylim())
        self.names = [Word(self.canvas, self.names_axes, colour=ink, up="center") for _ in range(rows)]
        self.sum_name = Word(self.canvas, self.names_axes, colour=ink, up="center", bold=True)
        self.base = self.canvas.axes(4, 4, 786, 50)
        self.base.set_axis_off()
        self.lines = [Word(self.canvas, self.base, colour=ink, up="center") for _ in range(2)]
        axes = (self.names_axes, self.demand.axes, self.place.axes, self.base)
        self.use({"shares": axes})

    def draw(
        self,
        *,
        names: Sequence[str],
        demand: tuple[str, Bars],
        place: tuple[str, Bars],
        lines: Sequence[str],
        guess: int | None,
    ) -> None:
        """Set the names of the choices, the bars of a demand and of a place (outcome, Bars), and two lines under them."""
        self.back()
        for word, name, y in zip(self.names, names, self.demand.places, strict=False):
            word.put(name, 0.0, y)
        self.sum_name.put("sum", 0.0, self.demand.places[-1])
        for chart, (outcome, bars) in ((self.demand, demand), (self.place, place)):
            chart.show(bars, role_of(outcome, self.canvas.roles), guess=guess)
        for word, line, y in zip(self.lines, lines, (0.72, 0.24), strict=False):
            word.put(line, 0.0, y)
