"""The picture of the lesson on who pays: side view over the ground, close-up, and the bill over the sag or along the span."""

from __future__ import annotations

from linelib.figures.bill_plots import FourBills
from linelib.figures.kept_figure import HEIGHT, WIDTH
from linelib.figures.panel_figure import PanelFigure
from linelib.figures.roles import SMALL
from linelib.figures.valley_plots import Along, Heights

VIEWS = ("over the sag", "along the span")


class WhoPaysFigure(PanelFigure):
    """Kept picture of a fall over a valley; `view` is one of VIEWS."""

    def __init__(self, paper: str = "light") -> None:
        super().__init__(paper=paper, side_width=514, over_ground=True)
        canvas, r = self.canvas, self.canvas.roles
        self.bills = FourBills(canvas, (31, 44, 541, 126))
        self.sag = canvas.figure.text(300 / WIDTH, 8 / HEIGHT, "", fontsize=SMALL, color=r.ink, ha="center")
        self.sag.set_text("standing sag, walker in the middle [% of the span]: saggier to the right")
        self.heights = Heights(canvas, (40, 42, 312, 156))
        self.along = Along(canvas, (404, 42, 122, 156))
        first = (*self.bills.axes, self.sag)
        self.use(dict(zip(VIEWS, (first, (self.heights.axes, self.along.axes)), strict=True)))
