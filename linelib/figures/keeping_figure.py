"""The picture of what would have kept a limit: every choice alone, or two together."""

from __future__ import annotations

from linelib.figures.boundary_plot import BoundaryPlot
from linelib.figures.cost_curves import CostCurves
from linelib.figures.kept_figure import KeptFigure
from linelib.figures.range_bars import RangeBars

VIEWS = ("each alone", "two together")


class KeepingFigure(KeptFigure):
    """Kept picture; `look_at` one of VIEWS; `rows` choices at most."""

    def __init__(self, rows: int, paper: str = "light") -> None:
        super().__init__(paper=paper)
        self.bars = RangeBars(self.canvas, (4, 4, 792, 392), rows)
        self.curves = CostCurves(self.canvas, (52, 42, 250, 334))
        self.map = BoundaryPlot(self.canvas, (392, 42, 396, 304))
        self.use(dict(zip(VIEWS, ((self.bars.axes,), (*self.curves.axes, self.map.axes)), strict=True)))
