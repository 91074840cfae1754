"""The panel about a main line that parts: how far and how hard the backup catches, at every step of a slider."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from linelib.models.fall_in_time import fall
from linelib.models.fall_results import Fall
from linelib.panels.catch_settings import KEY, VISIBLE, CatchReadings, catch_controls, catch_readings, catch_setup
from linelib.panels.controls import Control, Value
from linelib.panels.fall_panel import FallPanel
from linelib.rigging import Setup


class CatchPanel(FallPanel):
    """Sliders, readings and picture of a catch by the backup; keyword arguments set the sliders (screen units)."""

    visible, second, key = VISIBLE, {"": "no other rig", "held": "the main line holds"}, KEY
    curves = ("catch_tension_a", "catch_tension_b", "catch_leash_force")
    _held: tuple[Setup, Fall] | None = None

    def sliders(self) -> tuple[Control, ...]:
        """The controls, from top to bottom."""
        return catch_controls()

    def describe(self, values: Mapping[str, Value]) -> Setup:
        """The setup for screen values. Raises ValueError naming what is not possible."""
        return catch_setup(values, self.controls, self.table)

    def read(self, setup: Setup, found: Fall) -> CatchReadings:
        """What is read off a catch."""
        whole = replace(setup, failure=None)
        if self._held is None or self._held[0] != whole:
            self._held = whole, fall(setup=whole)
        return catch_readings(setup, found, self._held[1], float(self.values["ground"]))

    def second_rigs(self, firsts: list[Setup]) -> list[Setup]:
        """The same rigs with a main line that holds."""
        return [replace(first, failure=None) for first in firsts]
