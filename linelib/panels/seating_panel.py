"""The panel of the lesson on seating: webbing sits badly in a lock, and loses more strength than width."""

from __future__ import annotations

from collections.abc import Collection

import ipywidgets
import numpy as np

from linelib.checks import number, one_of
from linelib.figures.kept_figure import HEIGHT, WIDTH
from linelib.figures.left_chart import Left
from linelib.figures.pull_chart import Drawn
from linelib.figures.seating_figure import VIEWS, SeatingFigure
from linelib.models.seated_strips import reseated
from linelib.panels.controls import Value
from linelib.panels.panel import Panel
from linelib.panels.seating_picture import FIBRES, curves_of, in_lock, loading_of, other_fibres
from linelib.panels.seating_settings import (
    VISIBLE,
    SeatingReadings,
    case_of,
    outcomes_of,
    readings_of,
    seating_controls,
)
from linelib.studies.seated_strength import history_text
from linelib.tables import webbings


class SeatingPanel(Panel):
    """Sliders, readings and picture of webbing in a lock; keyword arguments set the sliders (screen units)."""

    refusal = "No strength can be given here."

    def __init__(self, **values: Value) -> None:
        self.table = webbings()
        self.guess: float | None = None
        self.figure = SeatingFigure()
        self._curves_of: object = None
        super().__init__(controls=seating_controls(self.table), visible=VISIBLE, picture=self.figure, size=(WIDTH, HEIGHT))
        self.view = ipywidgets.ToggleButtons(options=VIEWS, layout={"width": "auto", "margin": "2px 0"})
        self.frame.extra.children = (self.view,)
        self.view.observe(lambda _: self._switched(), "value")
        self.set(**values)

    def look_at(self, view: str) -> SeatingPanel:
        """Choose the chart: 'strength left' or 'pull by pull'."""
        self.view.value = one_of("view", view, VIEWS)
        return self

    def predict(self, percent: float) -> SeatingPanel:
        """Put a guess of the strength left [%] into the picture, as a hollow dot."""
        self.guess = number("percent", percent, low=0.0, high=100.0, unit="%")
        self.redraw()
        return self

    def readings(self, **values: Value) -> SeatingReadings:
        """Readings for given slider values (the present ones where not given); nothing on the screen changes.

        Raises: ValueError naming what is not possible.
        """
        case = case_of({**self.values, **values}, self.controls, self.table)
        return readings_of(case, outcomes_of(case))

    def idle(self) -> Collection[str]:
        """Without a fold its width means nothing."""
        return () if float(self.values["fold"]) > 0.0 else ("folded",)

    def history(self, *kilonewtons: float) -> str:
        """Load after load [kN] on webbing seated as it is now, never loaded before, as a table.

        Raises: ValueError naming what is not possible.
        """
        return history_text(seated=self.case.seated, loads=[1e3 * k for k in kilonewtons])

    def compute(self) -> None:
        """Strips for three sharing lengths with both pulls; curves only where what they depend on has changed."""
        self.case = case_of(self.values, self.controls, self.table)
        self.outcomes = outcomes_of(self.case)
        self._readings = readings_of(self.case, self.outcomes)
        if self.view.value == VIEWS[0]:
            reach = self.figure.left.hold(1e3 * float(self.case.seated.difference.max())) / 1e3
            depends = (self.case.range, reach)
            if depends != self._curves_of:
                self.curves = curves_of(self.case, self.outcomes, reach)
                self.others = other_fibres(self.case, self.table, reach)
                self._curves_of = depends

    def draw(self) -> SeatingReadings:
        """Draw the lock and the chosen chart."""
        self.figure.draw(in_lock(self.case, self.outcomes[1]), self._left() if self.view.value == VIEWS[0] else self._drawn())
        return self._readings

    def _switched(self) -> None:
        with self.one_at_a_time:
            self.figure.look_at(self.view.value)
            self.update()

    @property
    def _lengths(self) -> str:
        low, _, high = (100.0 * s.sharing_length for s in self.case.range)
        return f"{low:.0f} cm" if f"{low:.0f}" == f"{high:.0f}" else f"{low:.0f} to {high:.0f} cm"

    def _left(self) -> Left:
        low, middle, high = self.curves
        fibre = next((fibre for fibre, key in FIBRES.items() if key == self.values["material"]), "this one")
        return Left(
            over=1e3 * middle.difference,
            low=100.0 * low.left,
            middle=100.0 * middle.left,
            high=100.0 * high.left,
            carrying=100.0 * middle.carrying,
            others={name: (1e3 * c.difference, 100.0 * c.left) for name, c in self.others.items()},
            name=fibre,
            now=(1e3 * float(self.case.seated.difference.max()), 100.0 * self.outcomes[1].left),
            guess=self.guess,
            lengths=self._lengths,
        )

    def _drawn(self) -> Drawn:
        one, seated = self.outcomes[1], self.case.seated
        flat = np.zeros(len(one.strips.place))
        square = reseated(strips=one.strips, difference=flat, sharing_length=seated.sharing_length)
        held = one.now.held
        given = None
        if held and one.now.torn and one.now.load <= one.first.pull:
            given = (1e3 * one.strips.displacement(pull=one.now.load), 1e3 * one.now.displacement)
        pulls = [o.first.pull / 1e3 for o in self.outcomes]
        return Drawn(
            square=loading_of(square, 0),
            fresh=loading_of(one.strips, 0),
            present=loading_of(one.strips, one.now.torn),
            first=(1e3 * one.first.displacement, one.first.pull / 1e3),
            now=(1e3 * one.now.displacement, one.now.pull / 1e3) if held else None,
            given_up=given,
            first_range=(min(pulls), max(pulls)),
            lengths=self._lengths,
        )
