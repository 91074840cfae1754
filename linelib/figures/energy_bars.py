"""Where the energy of a fall is now: bars that move along with the time."""

from __future__ import annotations

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL

# words on the screen, colour role, hatch; "the rest": webbing, leash and a lock that slips
ROWS = (
    ("given by the drop", "drop", ""),
    ("walker moves", "person", ""),
    ("line moves", "carries", ""),
    ("webbing stretched", "side_a", ""),
    ("leash stretched", "person", "//"),
    ("taken by the air", "carries_not", ""),
    ("taken by the rest", "carries_not", "//"),
)


class EnergyBars:
    """One bar an account, in a box of screen pixels."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float]) -> None:
        r, self.canvas = canvas.roles, canvas
        self.axes = canvas.axes(*box)
        self.reach = Reach(6.0)
        places = [len(ROWS) - 1.0 - i for i in range(len(ROWS))]
        self.axes.set_yticks(places, [name for name, _, _ in ROWS], fontsize=SMALL, color=r.ink)
        self.axes.tick_params(axis="y", length=0)
        self.axes.set_ylim(-0.6, len(ROWS) - 0.4)
        self.axes.set_xlabel("energy [kJ]", fontsize=SMALL, color=r.ink, labelpad=1)
        self.bars = [
            canvas.moving(self.axes.barh(y, 0.0, height=0.62, color=getattr(r, role).colour, hatch=hatch, edgecolor=r.paper)[0])
            for y, (_, role, hatch) in zip(places, ROWS, strict=True)
        ]
        self._fit()

    def show(self, values: tuple[float, ...], highest: float) -> None:
        """Energies [kJ], one a row; `highest` : the largest over the whole fall, so that the axis stands still in time."""
        if self.reach.take(highest):
            self._fit()
        for bar, value in zip(self.bars, values, strict=True):
            bar.set_width(max(value, 0.0))

    def _fit(self) -> None:
        self.axes.set_xlim(0.0, self.reach.value)
        self.canvas.still_changed()
