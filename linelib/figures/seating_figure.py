"""The picture of the lesson on seating: webbing in the lock, and strength left over the path difference, or pull by pull."""

from __future__ import annotations

from linelib.figures.kept_figure import HEIGHT, WIDTH, KeptFigure
from linelib.figures.left_chart import Left, LeftChart
from linelib.figures.lock_view import InLock, LockView
from linelib.figures.pull_chart import Drawn, PullChart
from linelib.figures.roles import SMALL

VIEWS = ("strength left", "pull by pull")


class SeatingFigure(KeptFigure):
    """Kept picture of webbing in a lock; `view` is one of VIEWS."""

    def __init__(self, paper: str = "light") -> None:
        super().__init__(paper=paper)
        self.lock = LockView(self.canvas, (6, 62, 300, 312), (14, 96))
        self.left = LeftChart(self.canvas, (470, 44, 236, 300))
        self.pulls = PullChart(self.canvas, (470, 44, 314, 300))
        ink = self.canvas.roles.ink
        words = [
            self.canvas.figure.text(x / WIDTH, y / HEIGHT, text, fontsize=SMALL, color=ink, weight=weight)
            for x, y, text, weight in (
                (8, 381, "from above, true to scale; 20 of 60 strips", "normal"),
                (8, 34, "━ carries   ╌ carries nothing   ×┈ torn", "normal"),
                (8, 10, "mechanism, not a prediction of strength", "bold"),
            )
        ]
        charts = dict(zip(VIEWS, ((self.left.axes,), (self.pulls.axes,)), strict=True))
        self.use(charts, always=(self.lock.axes, self.lock.loads, *words))

    def draw(self, lock: InLock, chart: Left | Drawn) -> None:
        """Set the drawing and the chart of the present view."""
        self.back()
        self.lock.show(lock)
        if isinstance(chart, Left):
            self.left.show(chart)
        else:
            self.pulls.show(chart)
