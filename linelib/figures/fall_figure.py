"""The picture of the main panel: side view, close-up, and one further view at a time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.close_up import CloseUp
from linelib.figures.curves import Curve, Curves
from linelib.figures.energy_bars import EnergyBars
from linelib.figures.peaks import Peaks
from linelib.figures.roles import LARGE, SMALL
from linelib.figures.side_view import SideView
from linelib.figures.traces import Traces

Array = NDArray[np.float64]
WIDTH, HEIGHT = 800, 400
VIEWS = ("what happens", "when", "what if")


@dataclass(frozen=True, kw_only=True)
class Frame:
    """One instant of a fall, lengths [m]: the line, its ring node, the tie-in, and the backup under it."""

    line: tuple[Array, Array]
    ring: int
    tie_in: tuple[float, float]
    backup: tuple[Array, Array]


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


class FallFigure:
    """Kept picture of one fall; `view` is one of VIEWS."""

    def __init__(self, paper: str = "light") -> None:
        self.canvas = Canvas(width=WIDTH, height=HEIGHT, paper=paper)
        r = self.canvas.roles
        self.side = SideView(self.canvas, (58, 246, 530, 142))
        self.close = CloseUp(self.canvas, (652, 10, 142, 366))
        rows = (("anchor A (static)", r.side_a), ("anchor B (tensioning)", r.side_b), ("person (leash)", r.person))
        self.peaks = Peaks(self.canvas, (172, 42, 390, 140), rows)
        self.traces = Traces(self.canvas, (48, 42, 230, 166))
        self.energy = EnergyBars(self.canvas, (440, 42, 138, 166))
        self.curves = Curves(self.canvas, (40, 42, 545, 132))
        self.note = self.canvas.figure.text(40 / WIDTH, 201 / HEIGHT, "", fontsize=SMALL, color=r.ink)
        self.reason = self.canvas.moving(
            self.canvas.figure.text(0.5, 0.5, "", fontsize=LARGE, color=r.ink, ha="center", va="center", wrap=True)
        )
        self.view = ""
        self.look_at(VIEWS[0])

    def look_at(self, view: str) -> None:
        """Choose the further view."""
        if view != self.view:
            self.view = view
            self._show_axes(view)

    def _show_axes(self, view: str) -> None:
        """Show the axes of one view, or none for ''."""
        for axes in (self.side.axes, self.close.axes):
            axes.set_visible(bool(view))
        self.peaks.axes.set_visible(view == VIEWS[0])
        for axes in (self.traces.axes, self.energy.axes):
            axes.set_visible(view == VIEWS[1])
        for axes in self.curves.axes:
            axes.set_visible(view == VIEWS[2])
        self.note.set_visible(view == VIEWS[2])
        self.reason.set_visible(not view)
        self.canvas.still_changed()

    def refuse(self, reason: str) -> None:
        """Show why there is no picture; the next `draw` shows pictures again."""
        self.reason.set_text(reason)
        self._show_axes("")

    def draw(self, scene: Scene, frame: Frame) -> None:
        """Set line, person and backup."""
        if self.reason.get_visible():
            self._show_axes(self.view)
        self.side.show(
            line=frame.line,
            ring=frame.ring,
            tie_in=frame.tie_in,
            standing=scene.standing,
            alone=scene.alone,
            backup=frame.backup,
            soft_until=scene.soft_until,
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
        )

    def draw_curves(
        self, curves: Sequence[Sequence[Curve]], *, now: float, name: str, ticks: Sequence[str] | None, note: str
    ) -> None:
        """Set the curves of the view 'what if'; `note` says what is held equal and what the thin line is."""
        self.curves.show(curves, now=now, name=name, ticks=ticks)
        if note != self.note.get_text():
            self.note.set_text(note)
            self.canvas.still_changed()

    def png(self) -> bytes:
        """The picture as PNG."""
        return self.canvas.png()
