"""The panel of the lesson on who pays: anchor, person or drop, over the sag and along the span, above the ground."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, TypeVar

import ipywidgets
import numpy as np
from numpy.typing import NDArray

from linelib.checks import number, one_of
from linelib.figures.curves import Curve
from linelib.figures.kept_figure import HEIGHT, WIDTH
from linelib.figures.valley_plots import Room
from linelib.figures.who_pays_figure import VIEWS, WhoPaysFigure
from linelib.models.clearance import LEAST_MODEL_ALLOWANCE, MODEL_SHARE, Clearance, clearance_left
from linelib.models.fall_in_time import fall
from linelib.models.fall_results import Fall
from linelib.panels.controls import Value
from linelib.panels.fall_scene import frame_of, scene_of
from linelib.panels.panel import Panel
from linelib.panels.who_pays_settings import (
    ON_GROUND,
    VISIBLE,
    WhoPaysReadings,
    ground_of,
    loose_of,
    place_in_words,
    readings_of,
    sag_in_words,
    who_pays_controls,
)
from linelib.rigging import Setup
from linelib.studies.valley import Ground
from linelib.studies.who_pays import Tensions, least_left, over_place, over_sag, tensioned, tensions_of
from linelib.studies.witness import TELLS, trend
from linelib.tables import webbings

Array = NDArray[np.float64]
Kept = TypeVar("Kept")
SIGNS = {
    "up": "↗ up",
    "down": "↘ down",
    "hardly moves": "→ hardly",
    "down, then up": "↘↗ down, up",
    "up, then down": "↗↘ up, down",
}


class WhoPaysPanel(Panel):
    """Sliders, readings and picture of a fall over a valley; keyword arguments set the sliders (screen units)."""

    def __init__(self, **values: Value) -> None:
        self.table = webbings()
        self.guess: float | None = None
        self._kept: dict[str, tuple[object, Any]] = {}
        self.figure = WhoPaysFigure()
        super().__init__(controls=who_pays_controls(self.table), visible=VISIBLE, picture=self.figure, size=(WIDTH, HEIGHT))
        self.view = ipywidgets.ToggleButtons(options=VIEWS, layout={"width": "auto", "margin": "2px 0"})
        self.frame.extra.children = (self.view,)
        self.view.observe(lambda _: self._switched(), "value")
        self.set(**values)

    def look_at(self, view: str) -> WhoPaysPanel:
        """Choose the further view: 'over the sag' or 'along the span'."""
        self.view.value = one_of("view", view, VIEWS)
        return self

    def predict(self, kilonewton: float) -> WhoPaysPanel:
        """Put a guess of the force on the person into the picture, as a hollow dot."""
        self.guess = number("kilonewton", kilonewton, low=0.0, high=50.0, unit="kN")
        self.redraw()
        return self

    def rig(self, **values: Value) -> Setup:
        """The rig of given slider values, tensioned to its sag.

        Raises: ValueError naming what is not possible.
        """
        every = {**self.values, **values}
        loose = loose_of(every, self.controls, self.table)
        return tensioned(loose, self._tensions(every, loose).at(float(every["sag"]) / 100.0))

    def readings(self, **values: Value) -> WhoPaysReadings:
        """Readings for given slider values (the present ones where not given), without the sentence; nothing moves.

        Raises: ValueError naming what is not possible.
        """
        every, setup = {**self.values, **values}, self.rig(**values)
        found = fall(setup=setup)
        return readings_of(setup, found, _left_of(setup, found, ground_of(every)), "")

    def compute(self) -> None:
        """The fall, and the falls over the sag or along the span."""
        values = self.values
        loose = loose_of(values, self.controls, self.table)
        tensions = self._tensions(values, loose)
        self.setup = setup = tensioned(loose, tensions.at(float(values["sag"]) / 100.0))
        self.ground = ground_of(values)
        if self.view.value == VIEWS[0]:
            self.bills = self._keep("over the sag", ("sag",), values, lambda: over_sag(setup=setup, tensions=tensions))
        else:
            self.bills = self._keep("along the span", ("position",), values, lambda: over_place(setup=setup))
        self.fall = self._keep("fall", (), values, lambda: self._fall(setup))
        self.left = _left_of(setup, self.fall, self.ground)
        if self.view.value == VIEWS[0]:
            words = sag_in_words(values, setup, self.fall, self.bills)
        else:
            span, at = setup.rig.span, setup.walker.position * setup.rig.span
            self.least = least_left(bills=self.bills, span=span, ground=self.ground)
            words = place_in_words(self.fall, self.left, self.least, at=at, span=span)
        self._readings = readings_of(setup, self.fall, self.left, words)

    def draw(self) -> WhoPaysReadings:
        """Draw the fall at its lowest point and the chosen view."""
        if self.view.value == VIEWS[0]:
            self._draw_bills()
        else:
            self._draw_valley()
        self.figure.show_fall(scene_of(self.setup, self.fall, ground=self.ground), frame_of(self.setup, self.fall))
        return self._readings

    def _fall(self, setup: Setup) -> Fall:
        """The fall now: it comes with the bills if they were made for this very setup."""
        return self.bills.now if self.bills.now and self.bills.setup == setup else fall(setup=setup)

    def _keep(self, what: str, without: tuple[str, ...], values: Mapping[str, Value], make: Callable[[], Kept]) -> Kept:
        """What `make` gives, kept under `what` until a slider moves that it depends on: any but `without` and the ground's."""
        key = tuple((name, value) for name, value in values.items() if name not in (*without, *ON_GROUND))
        if what not in self._kept or self._kept[what][0] != key:
            self._kept[what] = (key, make())
        kept: Kept = self._kept[what][1]
        return kept

    def _tensions(self, values: Mapping[str, Value], loose: Setup) -> Tensions:
        return self._keep("tensions", ("sag", "position", "leash_length"), values, lambda: tensions_of(setup=loose))

    def _switched(self) -> None:
        with self.one_at_a_time:
            self.figure.look_at(self.view.value)
            self.update()

    def _draw_bills(self) -> None:
        bills, found, over = self.bills, self.fall, 100.0 * self.bills.over
        more = max(found.peak_tension_a - found.standing_tension_a, found.peak_tension_b - found.standing_tension_b)
        standing = max(found.standing_tension_a, found.standing_tension_b)

        def curve(values: Array, now: float, scale: float = 1e3) -> Curve:
            return Curve(over=over, values=values / scale, now=now / scale)

        anchors = (
            curve(bills.peak_tension_a, found.peak_tension_a),
            curve(bills.peak_tension_b, found.peak_tension_b),
            curve(np.maximum(bills.standing_tension_a, bills.standing_tension_b), standing),
        )
        person, drop = curve(bills.peak_leash_force, found.peak_leash_force), curve(bills.lowest_point, found.lowest_point, 1.0)
        rows = (bills.peak, bills.increase, bills.peak_leash_force, bills.lowest_point)
        words = [SIGNS[trend([float(v) for v in row], tell)] for row, tell in zip(rows, TELLS.values(), strict=True)]
        words[-1] = words[-1].replace("up", "deeper")
        curves = (anchors, (curve(bills.increase, more),), (person,), (drop,))
        self.figure.bills.show(curves, now=float(self.values["sag"]), words=words, guess=self.guess)

    def _draw_valley(self) -> None:
        bills, span, found = self.bills, self.setup.rig.span, self.fall
        x, z = np.array(self.ground).T
        over, at = bills.over * span, self.setup.walker.position * span
        taken = self.left.body_below + self.left.model_allowance
        feet = -bills.lowest_point - self.left.body_below - np.maximum(LEAST_MODEL_ALLOWANCE, MODEL_SHARE * bills.lowest_point)
        now = (at, -found.lowest_point, -found.lowest_point - taken, self.left.ground_height)
        words = f"left {self.left.clearance:.1f} m" if self.left.clearance > 0.0 else f"{-self.left.clearance:.1f} m short"
        room = Room(ground=(x, z), tie_in=(over, -bills.lowest_point), feet=(over, feet), now=now, words=words)
        self.figure.heights.show(room)
        curves = [
            Curve(over=over, values=values / 1e3, now=peak / 1e3)
            for values, peak in (
                (bills.peak_tension_a, found.peak_tension_a),
                (bills.peak_tension_b, found.peak_tension_b),
                (bills.peak_leash_force, found.peak_leash_force),
            )
        ]
        self.figure.along.show(curves, now=at, span=span)


def _left_of(setup: Setup, found: Fall, ground: Ground) -> Clearance:
    """What is left of the room below in this fall, caught by the main line."""
    rig, walker = setup.rig, setup.walker
    return clearance_left(
        lowest_point=found.lowest_point,
        position=walker.position,
        span=rig.span,
        height_difference=rig.height_difference,
        ground=ground,
    )
