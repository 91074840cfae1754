"""The main panel: a leash fall, recomputed at every step of a slider."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Self

import ipywidgets
import numpy as np
from numpy.typing import NDArray

from linelib.checks import number, one_of
from linelib.figures.curves import Curve
from linelib.figures.fall_figure import KEY, VIEWS, FallFigure
from linelib.figures.kept_figure import HEIGHT, WIDTH
from linelib.models.fall_in_time import fall
from linelib.models.fall_results import Fall, Falls
from linelib.panels.controls import Control, Slider, Value
from linelib.panels.fall_scene import frame_of, scene_of
from linelib.panels.fall_settings import VISIBLE, FallReadings, fall_controls, readings_of, setup_of
from linelib.panels.panel import Panel
from linelib.rigging import Setup
from linelib.studies.held_equal import HELD, hold_equal
from linelib.studies.valley import Ground
from linelib.studies.what_if import WhatIf, what_if
from linelib.tables import webbings

Array = NDArray[np.float64]
POINTS, FRAMES = 11, 96
COMPARE = {
    "": "no other rig",
    "insert": "8 m of polyamide at A in / out",
    "fibre": "polyamide as the main line",
}


class FallPanel(Panel):
    """Sliders, readings and picture of a leash fall; keyword arguments set the sliders (screen units) before it is shown.

    A panel about another fall fills in `sliders`, `describe`, `read`, `second_rigs`, and names its `second` rigs.
    """

    visible, second, key, over_ground = VISIBLE, COMPARE, KEY, False

    def __init__(self, **values: Value) -> None:
        self.table = webbings()
        self.guess: float | None = None
        self._curve: tuple[object, WhatIf] | None = None
        self.figure = FallFigure(key=self.key, over_ground=self.over_ground)
        super().__init__(controls=self.sliders(), visible=self.visible, picture=self.figure, size=(WIDTH, HEIGHT))
        self._add_extras()
        self.set(**values)

    def sliders(self) -> tuple[Control, ...]:
        """The controls, from top to bottom."""
        return fall_controls(self.table)

    def describe(self, values: Mapping[str, Value]) -> Setup:
        """The setup for screen values. Raises ValueError naming what is not possible."""
        return setup_of(values, self.controls, self.table)

    def read(self, setup: Setup, found: Fall, values: Mapping[str, Value]) -> FallReadings:
        """What is read off a fall at these screen values."""
        return readings_of(setup, found)

    def ground(self) -> Ground:
        """What lies under the line, pairs x, z [m] from A; nothing is drawn where there is none."""
        return ()

    def highest(self, found: Fall | Falls) -> tuple[Array, Array, Array]:
        """What the curves show of a fall, or of many: highest at A, at B, and on the person [N]."""
        return np.asarray(found.peak_tension_a), np.asarray(found.peak_tension_b), np.asarray(found.peak_leash_force)

    def look_at(self, view: str) -> Self:
        """Choose the further view: 'what happens', 'when' or 'what if'."""
        self.view.value = one_of("view", view, VIEWS)
        return self

    def predict(self, kilonewton: float) -> Self:
        """Put a guess of the peak at anchor A into the picture, as a hollow dot."""
        self.guess = number("kilonewton", kilonewton, low=0.0, high=200.0, unit="kN")
        self.redraw()
        return self

    def readings(self, **values: Value) -> FallReadings:
        """Readings for given slider values (the present ones where not given); nothing on the screen changes.

        Raises: ValueError naming what is not possible.
        """
        every = {**self.values, **values}
        setup = self.describe(every)
        return self.read(setup, fall(setup=setup), every)

    def compute(self) -> None:
        """The fall, and in the view 'what if' the falls over the whole range of the slider last moved."""
        self.setup = self.describe(self.values)
        if self.view.value == VIEWS[2]:
            curves = self._what_if()
            self.fall = curves.now
            self._draw_curves(curves)
        else:
            self.fall = fall(setup=self.setup)
        self._readings = self.read(self.setup, self.fall, self.values)
        first, *more = self.setup.rig.segments
        self._scene = scene_of(self.setup, self.fall, (first.length or 0.0) if more else 0.0, self.ground())

    def draw(self) -> FallReadings:
        """Draw the fall at the lowest point, or in the view 'when' where the time slider stands."""
        found, view = self.fall, self.view.value
        at = int(np.argmin(found.tie_in_z))
        if view == VIEWS[1]:
            at = round(self.time.value / (FRAMES - 1) * (len(found.time) - 1))
            self._draw_time(at)
        elif view == VIEWS[0]:
            self.figure.peaks.show(highest=self._readings.forces, standing=self._readings.notches, guess=self.guess)
        self.figure.show_fall(self._scene, frame_of(self.setup, found, at))
        return self._readings

    def _add_extras(self) -> None:
        """The toggle of the views, the time slider, and in the fold the second rig."""
        wide, style = {"width": "auto", "margin": "2px 0"}, {"description_width": "84px"}
        self.view = ipywidgets.ToggleButtons(options=VIEWS, layout=wide)
        self.time = ipywidgets.IntSlider(min=0, max=FRAMES - 1, readout=False, layout={"width": "180px", "margin": "1px 0"})
        self.play = ipywidgets.Play(min=0, max=FRAMES - 1, interval=80, show_repeat=False)
        ipywidgets.jslink((self.play, "value"), (self.time, "value"))
        self.clock = ipywidgets.HBox([self.play, self.time], layout={"visibility": "hidden", "height": "34px"})
        self.compare = ipywidgets.Dropdown(
            options=[(words, key) for key, words in self.second.items()],
            description="second rig",
            style=style,
            layout=wide,
        )
        self.held = ipywidgets.Dropdown(options=HELD, description="held equal", style=style, layout=wide)
        self.frame.extra.children = (self.view, self.clock)
        fold = self.frame.fold.children[0]
        fold.children = (*fold.children, self.compare, self.held)
        self.view.observe(lambda _: self._switched(), "value")
        self.time.observe(lambda _: self.redraw(), "value")
        for widget in (self.compare, self.held):
            widget.observe(lambda _: self.update(), "value")

    def _switched(self) -> None:
        view = self.view.value
        with self.one_at_a_time:
            self.figure.look_at(view)
            self.clock.layout.visibility = "visible" if view == VIEWS[1] else "hidden"
            self.update()
            if view == VIEWS[1] and self._ready:
                lowest = int(np.argmin(self.fall.tie_in_z)) / (len(self.fall.time) - 1)
                self.time.value = round(lowest * (FRAMES - 1))

    def _draw_time(self, at: int) -> None:
        found, book = self.fall, self.fall.ledger
        series = (found.tension_a / 1e3, found.tension_b / 1e3, found.leash_force / 1e3)
        self.figure.traces.show(time=found.time, a=series[0], b=series[1], person=series[2], at=at)
        rows = (
            -book.gravity,
            book.kinetic_walker,
            book.kinetic_line + book.kinetic_ring,
            book.strain_a + book.strain_b,
            book.strain_leash,
            book.lost_air,
            book.lost_webbing + book.lost_leash + book.lost_slip + book.lost_break,
        )
        self.figure.energy.show(tuple(float(row[at]) / 1e3 for row in rows), max(float(row.max()) for row in rows) / 1e3)

    def _what_if(self) -> WhatIf:
        """The fall now and the curve. While the curve's own slider moves, the curve is the same and only the fall is new."""
        others = {name: value for name, value in self.values.items() if name != self.last_moved}
        key = (self.last_moved, tuple(others.items()), self.compare.value, self.held.value)
        if self._curve is not None and self._curve[0] == key:
            found = replace(self._curve[1], now=fall(setup=self.setup))
        else:
            found = self._new_curve()
        self._curve = (key, found)
        return found

    def _new_curve(self) -> WhatIf:
        control = next(c for c in self.controls if c.name == self.last_moved)

        def at(value: float) -> Setup:
            moved = value if isinstance(control, Slider) else list(control.options.values())[int(value)]
            return self.describe({**self.values, control.name: moved})

        over = control.range(POINTS) if isinstance(control, Slider) else range(len(control.options))
        return what_if(now=self.setup, values=over, setup_at=at, compare=self.second_rigs if self.compare.value else None)

    def second_rigs(self, firsts: list[Setup]) -> list[Setup]:
        """The second rig beside each first one: the insert taken in or out, or polyamide as the main line."""
        changed = dict(self.values)
        if self.compare.value == "insert":
            changed["insert_length"] = 0.0 if float(self.values["insert_length"]) > 0.0 else 8.0
        else:
            changed["material"] = "polyamide_25mm"
        other = self.describe(changed).rig
        seconds = [replace(f, rig=replace(other, span=f.rig.span, pretension=f.rig.pretension)) for f in firsts]
        return hold_equal(firsts=firsts, seconds=seconds, held=self.held.value)

    def _draw_curves(self, found: WhatIf) -> None:
        control = next(c for c in self.controls if c.name == self.last_moved)

        def shown(of: Fall | Falls) -> list[Array]:
            return [*(row / 1e3 for row in self.highest(of)), np.asarray(of.lowest_point)]

        others = shown(found.other) if found.other else [None] * 4
        rows = zip(shown(found.falls), shown(found.now), others, strict=True)
        a, b, person, drop = (Curve(over=found.over, values=v, now=float(now), other=o) for v, now, o in rows)
        value, ticks = self.values[control.name], None
        name = f"{control.words} [{control.unit}]" if isinstance(control, Slider) else "number in the list"
        if not isinstance(control, Slider):
            ticks = [str(i + 1) for i in range(len(control.options))]
            value = list(control.options.values()).index(str(value))
        note = f"held equal: {HELD[0]}"
        if found.other is not None:
            note = f"held equal: {self.held.value}; thin line: {self.second[self.compare.value]}"
        self.figure.draw_curves([[a, b], [person], [drop]], now=float(value), name=name, ticks=ticks, note=note)
