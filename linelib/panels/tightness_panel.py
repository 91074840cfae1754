"""The panel of the lesson on tightness: sag under a known weight, a timed pluck, and the true tension beside both."""

from __future__ import annotations

from typing import Any

import numpy as np

from linelib.checks import number
from linelib.figures.kept_figure import HEIGHT, WIDTH
from linelib.figures.tightness_figure import MOST_TRIPS, Scene, TightnessFigure
from linelib.models.backup_shape import backup_shape
from linelib.panels.controls import Value
from linelib.panels.panel import Panel
from linelib.panels.tightness_settings import VISIBLE, Readings, readings_of, tightness_controls
from linelib.tables import webbings


class TightnessPanel(Panel):
    """Sliders, readings and picture of one line measured in two ways; keyword arguments set the sliders (screen units)."""

    refusal = "Nothing can be measured here."

    def __init__(self, **values: Value) -> None:
        self.table = webbings()
        self.guess: float | None = None
        self.figure = TightnessFigure()
        controls = tightness_controls(self.table)
        super().__init__(controls=controls, visible=VISIBLE, picture=self.figure, size=(WIDTH, HEIGHT))
        self.set(**values)

    def predict(self, kilonewton: float) -> TightnessPanel:
        """Put a guess into the picture: what the pluck says when only the webbing is counted, as a hollow dot."""
        self.guess = number("kilonewton", kilonewton, low=0.0, high=50.0, unit="kN")
        self.redraw()
        return self

    def readings(self, **values: Value) -> Readings:
        """Readings for given slider values (the present ones where not given); nothing on the screen changes.

        Raises: ValueError naming what is not possible.
        """
        return readings_of({**self.values, **values}, self.controls, self.table, most_trips=MOST_TRIPS)

    def compute(self) -> None:
        """Hang the weight, pluck the line, and say what a crew would make of it."""
        self._readings = self.readings()
        self._scene = _scene(self._readings)

    def draw(self) -> Readings:
        """Draw all four parts."""
        now = self._readings
        self.figure.draw(self._scene)
        self.figure.trips.show(
            trips=now.trips,
            round_trip=now.alone.round_trip,
            webbing_only=now.alone.webbing_only,
            error=now.watch,
        )
        self.figure.rows.show(now.answers, guess=self.guess)
        self.figure.chart.show(relative=np.array(now.relative), trips=now.trips, needed=now.trips_for_wanted)
        return now


def _scene(now: Readings) -> Scene:
    """What the side view needs."""
    rig, line, alone, x = now.rig, now.state.shape, now.alone.shape, float(now.state.load_x[0])
    backup: Any = rig.backup
    return Scene(
        line=(line.x, line.z),
        ring=int(np.argmin(np.abs(line.x - x))),
        alone=(alone.x, alone.z),
        backup=backup_shape(backup=backup, line_x=line.x, line_z=line.z),
        chord_height=rig.height_difference * x / rig.span,
        sag=now.state.sag,
        weight=f"{now.weight:.0f} kg",
    )
