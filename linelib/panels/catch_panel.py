"""The panel about a main line that parts: how far and how hard the backup catches, at every step of a slider."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from linelib.models.clearance import clearance_left
from linelib.models.fall_in_time import fall
from linelib.models.fall_results import Fall, Falls
from linelib.panels.catch_readings import KEY, CatchReadings, catch_readings
from linelib.panels.catch_settings import VISIBLE, catch_controls, catch_ground, catch_setup, idle_controls, seating_of
from linelib.panels.controls import Control, Value
from linelib.panels.fall_panel import FallPanel
from linelib.rigging import Setup
from linelib.studies.lesson_catch import strips_in_lock
from linelib.studies.valley import Ground

Array = NDArray[np.float64]


class CatchPanel(FallPanel):
    """Sliders, readings and picture of a catch by the backup; keyword arguments set the sliders (screen units)."""

    visible, second, key, over_ground = VISIBLE, {"": "no other rig", "held": "the main line holds"}, KEY, True
    _held: tuple[Setup, Fall] | None = None

    def sliders(self) -> tuple[Control, ...]:
        """The controls, from top to bottom."""
        return catch_controls()

    def idle(self) -> Collection[str]:
        """The sliders that do not say when and where it parts."""
        return idle_controls(self.values)

    def describe(self, values: Mapping[str, Value]) -> Setup:
        """The setup for screen values. Raises ValueError naming what is not possible."""
        return catch_setup(values, self.controls, self.table)

    def ground(self) -> Ground:
        """The valley under the line."""
        return catch_ground(self.values)

    def highest(self, found: Fall | Falls) -> tuple[Array, Array, Array]:
        """Highest in the catch [N]; where the main line holds, in that fall."""
        caught = (found.catch_tension_a, found.catch_tension_b, found.catch_leash_force)
        parted = np.asarray(found.failure_time) >= 0.0
        a, b, person = (np.where(parted, c, p) for c, p in zip(caught, super().highest(found), strict=True))
        return a, b, person

    def read(self, setup: Setup, found: Fall, values: Mapping[str, Value]) -> CatchReadings:
        """What is read off a catch."""
        whole = replace(setup, failure=None)
        if self._held is None or self._held[0] != whole:
            self._held = whole, fall(setup=whole)
        left = clearance_left(
            lowest_point=found.lowest_point,
            position=setup.walker.position,
            span=setup.rig.span,
            height_difference=setup.rig.height_difference,
            ground=catch_ground(values),
        )
        torn = values["when"] == "strips"
        strips = strips_in_lock(seating=seating_of(values), webbing=setup.rig.segments[-1].webbing) if torn else None
        return catch_readings(setup, found, self._held[1], left, strips)

    def second_rigs(self, firsts: list[Setup]) -> list[Setup]:
        """The same rigs with a main line that holds."""
        return [replace(first, failure=None) for first in firsts]
