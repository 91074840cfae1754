"""The picture of the lesson on the weakest link: the anchor from above, and one bar a place."""

from __future__ import annotations

from linelib.figures.anchor_plan import AnchorPlan
from linelib.figures.kept_figure import KeptFigure
from linelib.figures.place_bars import PlaceBars
from linelib.figures.roles import SMALL
from linelib.figures.word import Word

VIEWS = ("all legs hold", "one leg fails")


class WeakestLinkFigure(KeptFigure):
    """Kept picture; `look_at` one of VIEWS: they differ in the scale of the anchor."""

    def __init__(self, paper: str = "light") -> None:
        super().__init__(paper=paper)
        r, box = self.canvas.roles, (6, 52, 314, 304)
        self.plans = {
            VIEWS[0]: AnchorPlan(self.canvas, box, left=-2.77, top=2.05, arrow=48),
            VIEWS[1]: AnchorPlan(self.canvas, box, left=-3.63, top=3.81, arrow=38),
        }
        rows = [("legs at A", r.side_a), ("end at A", r.side_a), ("webbing", r.carries), ("lock at B", r.side_b)]
        self.bars = PlaceBars(self.canvas, (334, 66, 450, 312), rows)
        base = self.canvas.axes(6, 4, 314, 44)
        base.set_axis_off()
        base.text(0.0, 8.6, "anchor A from above, the pull to the right", fontsize=SMALL, color=r.ink)
        self.fall_words = [Word(self.canvas, base, colour=r.ink, up="center") for _ in range(2)]
        self.use({name: (plan.axes,) for name, plan in self.plans.items()}, always=(self.bars.axes, base))

    @property
    def plan(self) -> AnchorPlan:
        """The anchor in the chosen view."""
        return self.plans[self.view]

    def say_fall(self, first: str, second: str) -> None:
        """Two lines about the fall, under the anchor; takes a reason away."""
        self.back()
        self.fall_words[0].put(first, 0.0, 0.75)
        self.fall_words[1].put(second, 0.0, 0.25)
