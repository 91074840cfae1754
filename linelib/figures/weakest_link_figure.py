"""The picture of the lesson on the weakest link: the anchor from above, and one bar a place."""

from __future__ import annotations

from linelib.figures.anchor_plan import AnchorPlan
from linelib.figures.canvas import Canvas
from linelib.figures.panel_figure import HEIGHT, WIDTH
from linelib.figures.place_bars import PlaceBars
from linelib.figures.roles import LARGE, SMALL
from linelib.figures.word import Word

VIEWS = ("all legs hold", "one leg fails")


class WeakestLinkFigure:
    """Kept picture; `look_at` one of VIEWS: they differ in the scale of the anchor."""

    def __init__(self, paper: str = "light") -> None:
        self.canvas = Canvas(width=WIDTH, height=HEIGHT, paper=paper)
        r, box = self.canvas.roles, (6, 52, 314, 304)
        self.plans = {
            VIEWS[0]: AnchorPlan(self.canvas, box, left=-2.77, top=2.05, arrow=48),
            VIEWS[1]: AnchorPlan(self.canvas, box, left=-3.63, top=3.81, arrow=38),
        }
        rows = [("legs at A", r.side_a), ("end at A", r.side_a), ("webbing", r.carries), ("lock at B", r.side_b)]
        self.bars = PlaceBars(self.canvas, (334, 66, 450, 312), rows)
        base = self.canvas.axes(6, 4, 314, 44)
        base.set_axis_off()
        self.base = base
        base.text(0.0, 8.6, "anchor A from above, the pull to the right", fontsize=SMALL, color=r.ink)
        self.fall_words = [Word(self.canvas, base, colour=r.ink, up="center") for _ in range(2)]
        text = self.canvas.figure.text(0.5, 0.5, "", fontsize=LARGE, color=r.ink, ha="center", va="center", wrap=True)
        self.reason = self.canvas.moving(text)
        self.view = VIEWS[0]
        self._show()

    @property
    def plan(self) -> AnchorPlan:
        """The anchor in the chosen view."""
        return self.plans[self.view]

    def look_at(self, view: str) -> None:
        """Choose one of VIEWS."""
        if view != self.view:
            self.view = view
            self._show()

    def say_fall(self, first: str, second: str) -> None:
        """Two lines about the fall, under the anchor; takes a reason away."""
        self.fall_words[0].put(first, 0.0, 0.75)
        self.fall_words[1].put(second, 0.0, 0.25)
        if self.reason.get_visible():
            self._show()

    def refuse(self, reason: str) -> None:
        """Show why there is no picture."""
        self.reason.set_text(reason)
        self._show(reason=True)

    def png(self) -> bytes:
        """The picture as PNG."""
        return self.canvas.png()

    def _show(self, *, reason: bool = False) -> None:
        for name, plan in self.plans.items():
            plan.axes.set_visible(name == self.view and not reason)
        for axes in (self.bars.axes, self.base):
            axes.set_visible(not reason)
        self.reason.set_visible(reason)
        self.canvas.still_changed()
