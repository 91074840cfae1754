"""The picture of the main panel: side view, close-up, and one further view at a time."""

from __future__ import annotations

from collections.abc import Sequence

from linelib.figures.curves import Curve, Curves
from linelib.figures.energy_bars import EnergyBars
from linelib.figures.kept_figure import HEIGHT, WIDTH
from linelib.figures.panel_figure import PanelFigure
from linelib.figures.peaks import Peaks
from linelib.figures.roles import SMALL
from linelib.figures.traces import Traces

VIEWS = ("what happens", "when", "what if")
KEY = "bar: highest   |: standing   ○: your guess"


class FallFigure(PanelFigure):
    """Kept picture of one fall; `view` is one of VIEWS."""

    def __init__(self, paper: str = "light", key: str = KEY, over_ground: bool = False) -> None:
        super().__init__(paper=paper, side_width=514, over_ground=over_ground)
        r = self.canvas.roles
        rows = (("anchor A (static)", r.side_a), ("anchor B (tensioning)", r.side_b), ("person (leash)", r.person))
        self.peaks = Peaks(self.canvas, (172, 42, 390, 140), rows, key)
        self.traces = Traces(self.canvas, (48, 42, 230, 166))
        self.energy = EnergyBars(self.canvas, (440, 42, 138, 166))
        self.curves = Curves(self.canvas, (40, 42, 545, 132))
        self.note = self.canvas.figure.text(40 / WIDTH, 201 / HEIGHT, "", fontsize=SMALL, color=r.ink)
        times = (self.traces.axes, self.energy.axes)
        self.use(dict(zip(VIEWS, ((self.peaks.axes,), times, (*self.curves.axes, self.note)), strict=True)))

    def draw_curves(
        self, curves: Sequence[Sequence[Curve]], *, now: float, name: str, ticks: Sequence[str] | None, note: str
    ) -> None:
        """Set the curves of the view 'what if'; `note` says what is held equal and what the thin line is."""
        self.curves.show(curves, now=now, name=name, ticks=ticks)
        if note != self.note.get_text():
            self.note.set_text(note)
            self.canvas.still_changed()
