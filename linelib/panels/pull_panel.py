"""The panel of the lesson on pull: a walker stands on the line, and both anchors feel several times the weight."""

from __future__ import annotations

from dataclasses import replace

import ipywidgets
import numpy as np

from linelib.checks import number, one_of
from linelib.figures.curves import Curve
from linelib.figures.kept_figure import HEIGHT, WIDTH
from linelib.figures.pull_figure import VIEWS, PullFigure, Stand
from linelib.models.backup_shape import backup_shape
from linelib.panels.controls import Value
from linelib.panels.panel import Panel
from linelib.panels.pull_settings import (
    PRETENSION,
    VISIBLE,
    PullReadings,
    Pulls,
    load_of,
    pull_controls,
    pulls_of,
    readings_of,
    setup_of,
    v_pull,
)
from linelib.rigging import Setup
from linelib.tables import webbings

POINTS, FINE = 13, 60
SWEEP = [1e3 * float(p) for p in np.geomspace(*PRETENSION, POINTS)]  # N


class PullPanel(Panel):
    """Sliders, readings and picture of a walker who stands on the line; keyword arguments set the sliders (screen units)."""

    def __init__(self, **values: Value) -> None:
        self.table = webbings()
        self.guess: float | None = None
        self.figure = PullFigure()
        super().__init__(controls=pull_controls(self.table), visible=VISIBLE, picture=self.figure, size=(WIDTH, HEIGHT))
        layout = {"width": "auto", "margin": "2px 0"}
        self.view = ipywidgets.ToggleButtons(options=VIEWS, layout=layout)
        self.frame.extra.children = (self.view,)
        self.view.observe(lambda _: self._switched(), "value")
        self.set(**values)

    def look_at(self, view: str) -> PullPanel:
        """Choose the further view: 'forces at the ring' or 'pull against sag'."""
        self.view.value = one_of("view", view, VIEWS)
        return self

    def predict(self, kilonewton: float) -> PullPanel:
        """Put a guess of the pull at anchor A into the picture, as a hollow dot."""
        self.guess = number("kilonewton", kilonewton, low=0.0, high=50.0, unit="kN")
        self.redraw()
        return self

    def readings(self, **values: Value) -> PullReadings:
        """Readings for given slider values (the present ones where not given); nothing on the screen changes.

        Raises: ValueError naming what is not possible.
        """
        setup = setup_of({**self.values, **values}, self.controls, self.table)
        return readings_of(setup, pulls_of([setup]))

    def compute(self) -> None:
        """The line in balance, and in the view 'pull against sag' also over the whole range of the pretension."""
        self.setup = setup = setup_of(self.values, self.controls, self.table)
        sweep = SWEEP if self.view.value == VIEWS[1] else []
        self.pulls = pulls_of([setup, *(replace(setup, rig=replace(setup.rig, pretension=p)) for p in sweep)])
        self._readings = readings_of(setup, self.pulls)
        self._stand = _stand(setup, self.pulls)

    def draw(self) -> PullReadings:
        """Draw the standing line and the chosen view."""
        if self.view.value == VIEWS[1]:
            self._draw_curve()
        else:
            level, lift_a, lift_b = (float(v[0]) / 1e3 for v in (self.pulls.horizontal, self.pulls.lift_a, self.pulls.lift_b))
            self.figure.triangle.show(horizontal=level, lift_a=lift_a, lift_b=lift_b, guess=self.guess)
        self.figure.draw(self._stand)
        return self._readings

    def _switched(self) -> None:
        with self.one_at_a_time:
            self.figure.look_at(self.view.value)
            self.update()

    def _draw_curve(self) -> None:
        """The exact line over the swept pretension, and the weightless V over the same sags."""
        pulls, ring_x = self.pulls, float(self.pulls.ring_x[0])
        now = float(pulls.sag[0])
        order = 1 + np.argsort(pulls.sag[1:])
        exact = Curve(over=pulls.sag[order], values=pulls.tension_a[order] / 1e3, now=float(pulls.tension_a[0]) / 1e3)
        fine = np.geomspace(exact.over[0], exact.over[-1], FINE)
        over_sag = [v_pull(self.setup, sag=float(s), ring_x=ring_x) / 1e3 for s in (now, *fine)]
        weightless = Curve(over=fine, values=np.array(over_sag[1:]), now=over_sag[0])
        weight = load_of(self.setup) / 1e3
        self.figure.curve.show(exact=exact, weightless=weightless, weight=weight, now=now, guess=self.guess)


def _stand(setup: Setup, pulls: Pulls) -> Stand:
    """What the side view and the close-up need."""
    rig, line, alone = setup.rig, pulls.line, pulls.alone
    x, sag = float(pulls.ring_x[0]), float(pulls.sag[0])
    chord = rig.height_difference * x / rig.span
    backup, insert = rig.backup, rig.segments[0].length if len(rig.segments) > 1 else None
    return Stand(
        line=(line.x, line.z),
        ring=int(np.argmin(np.abs(line.x - x))),
        alone=(alone.x, alone.z),
        tie_in=(x, chord - sag + setup.walker.standing_height),
        backup=backup_shape(backup=backup, line_x=line.x, line_z=line.z) if backup else (line.x[:1], line.z[:1]),
        soft_until=insert or 0.0,
        chord_height=chord,
        sag=sag,
    )
