"""The picture of the main panel: side view, close-up, and one further view at a time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.figures.curves import Curve, Curves
from linelib.figures.energy_bars import EnergyBars
from linelib.figures.panel_figure import HEIGHT, WIDTH, PanelFigure
from linelib.figures.peaks import Peaks
from linelib.figures.roles import SMALL
from linelib.figures.traces import Traces

Array = NDArray[np.float64]
VIEWS = ("what happens", "when", "what if")
KEY = "bar: highest   |: standing   ○: your guess"


@dataclass(frozen=True, kw_only=True)
class Frame:
    """One instant of a fall, lengths [m]: the line, its ring node, the tie-in, the backup under it, and from where to where
    along the span the main line has parted and the backup is the line."""

    line: tuple[Array, Array]
    ring: int
    tie_in: tuple[float, float]
    backup: tuple[Array, Array]
    parted: tuple[float, float] | None = None


@dataclass(frozen=True, kw_only=True)
class Scene:
    """What stays while a fall is scrubbed: line alone and standing, tie-in then, where the insert ends, words."""

    alone: tuple[Array, Array]
    standing: tuple[Array, Array]
    standing_tie_in: tuple[float, float]
    standing_height: float
    soft_until: float
    chord_height: float
    lowest: tuple[float, str]


class FallFigure(PanelFigure):
    """Kept picture of one fall; `view` is one of VIEWS."""

    def __init__(self, paper: str = "light", key: str = KEY) -> None:
        super().__init__(paper=paper, side_width=514)
        r = self.canvas.roles
        rows = (("anchor A (static)", r.side_a), ("anchor B (tensioning)", r.side_b), ("person (leash)", r.person))
        self.peaks = Peaks(self.canvas, (172, 42, 390, 140), rows, key)
        self.traces = Traces(self.canvas, (48, 42, 230, 166))
        self.energy = EnergyBars(self.canvas, (440, 42, 138, 166))
        self.curves = Curves(self.canvas, (40, 42, 545, 132))
        self.note = self.canvas.figure.text(40 / WIDTH, 201 / HEIGHT, "", fontsize=SMALL, color=r.ink)
        times = (self.traces.axes, self.energy.axes)
        self.use(dict(zip(VIEWS, ((self.peaks.axes,), times, (*self.curves.axes, self.note)), strict=True)))

    def draw(self, scene: Scene, frame: Frame) -> None:
        """Set line, person and backup."""
        self.back()
        self.side.show(
            line=frame.line,
            ring=frame.ring,
            tie_in=frame.tie_in,
            standing=scene.standing,
            alone=scene.alone,
            backup=frame.backup,
            soft_until=scene.soft_until,
            parted=frame.parted,
        )
        self.close.show(
            line=frame.line,
            ring=frame.ring,
            tie_in=frame.tie_in,
            standing=scene.standing,
            standing_tie_in=scene.standing_tie_in,
            standing_height=scene.standing_height,
            backup=frame.backup,
            chord_height=scene.chord_height,
            lowest=scene.lowest,
            parted=frame.parted,
        )

    def draw_curves(
        self, curves: Sequence[Sequence[Curve]], *, now: float, name: str, ticks: Sequence[str] | None, note: str
    ) -> None:
        """Set the curves of the view 'what if'; `note` says what is held equal and what the thin line is."""
        self.curves.show(curves, now=now, name=name, ticks=ticks)
        if note != self.note.get_text():
            self.note.set_text(note)
            self.canvas.still_changed()
