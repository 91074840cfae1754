"""The picture of the lesson on seating: webbing in the lock, and strength left over the path difference, or pull by pull."""

from __future__ import annotations

from linelib.figures.canvas import Canvas
from linelib.figures.left_chart import Left, LeftChart
from linelib.figures.lock_view import InLock, LockView
from linelib.figures.panel_figure import HEIGHT, WIDTH
from linelib.figures.pull_chart import Drawn, PullChart
from linelib.figures.roles import LARGE, SMALL

VIEWS = ("strength left", "pull by pull")


class SeatingFigure:
    """Kept picture of webbing in a lock; `view` is one of VIEWS."""

    def __init__(self, paper: str = "light") -> None:
        self.canvas = Canvas(width=WIDTH, height=HEIGHT, paper=paper)
        self.lock = LockView(self.canvas, (6, 62, 300, 312), (14, 96))
        self.left = LeftChart(self.canvas, (470, 44, 236, 300))
        self.pulls = PullChart(self.canvas, (470, 44, 314, 300))
        ink = self.canvas.roles.ink
        self.words = [
            self.canvas.figure.text(x / WIDTH, y / HEIGHT, text, fontsize=SMALL, color=ink, weight=weight)
            for x, y, text, weight in (
                (8, 381, "from above, true to scale; 20 of 60 strips", "normal"),
                (8, 34, "━ carries   ╌ carries nothing   ×┈ torn", "normal"),
                (8, 10, "mechanism, not a prediction of strength", "bold"),
            )
        ]
        reason = self.canvas.figure.text(0.5, 0.5, "", fontsize=LARGE, color=ink, ha="center", va="center", wrap=True)
        self.reason = self.canvas.moving(reason)
        self.view = VIEWS[0]
        self._show(self.view)

    def look_at(self, view: str) -> None:
        """Choose the chart."""
        if view != self.view:
            self.view = view
            self._show(view)

    def refuse(self, reason: str) -> None:
        """Show why there is no picture; the next drawing takes the reason away."""
        self.reason.set_text(reason)
        self._show("")

    def draw(self, lock: InLock, chart: Left | Drawn) -> None:
        """Set the drawing and the chart of the present view."""
        if self.reason.get_visible():
            self._show(self.view)
        self.lock.show(lock)
        if isinstance(chart, Left):
            self.left.show(chart)
        else:
            self.pulls.show(chart)

    def png(self) -> bytes:
        """The picture as PNG."""
        return self.canvas.png()

    def _show(self, view: str) -> None:
        """Show the parts of one view, or none at all for ''."""
        for part in (self.lock.axes, self.lock.loads, *self.words):
            part.set_visible(bool(view))
        self.left.axes.set_visible(view == VIEWS[0])
        self.pulls.axes.set_visible(view == VIEWS[1])
        self.reason.set_visible(not view)
        self.canvas.still_changed()
