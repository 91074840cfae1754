"""Sliders and lists, described once: words, unit, range, and how the screen's unit becomes SI."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import ipywidgets
import numpy as np


@dataclass(frozen=True, kw_only=True)
class Slider:
    """A number on the screen: from `low` to `high` in steps, in `unit`; SI value = screen value * `si`."""

    name: str
    words: str
    unit: str
    low: float
    high: float
    step: float
    start: float
    si: float = 1.0
    digits: int = 1

    def widget(self) -> ipywidgets.Widget:
        """The slider, moving the picture while it is dragged."""
        return ipywidgets.FloatSlider(
            value=self.start,
            min=self.low,
            max=self.high,
            step=self.step,
            description=f"{self.words} [{self.unit}]" if self.unit else self.words,
            readout_format=f".{self.digits}f",
            continuous_update=True,
            style={"description_width": "154px"},
            layout={"width": "auto", "margin": "1px 0"},
        )

    def range(self, count: int) -> list[float]:
        """`count` screen values over the whole range."""
        return [float(v) for v in np.linspace(self.low, self.high, count)]


@dataclass(frozen=True, kw_only=True)
class Choice:
    """One of several things: `options` maps the words on the screen to values."""

    name: str
    words: str
    options: Mapping[str, str]
    start: str

    def widget(self) -> ipywidgets.Widget:
        """The list."""
        return ipywidgets.Dropdown(
            options=list(self.options.items()),
            value=self.start,
            description=self.words,
            style={"description_width": "66px"},
            layout={"width": "auto", "margin": "1px 0"},
        )


Control = Slider | Choice
Value = float | str


def starts(controls: Sequence[Control]) -> dict[str, Value]:
    """The values every control starts with, on the screen's scale."""
    return {control.name: control.start for control in controls}


def corners(controls: Sequence[Control]) -> list[dict[str, Value]]:
    """Every combination of the ends of all sliders and of all entries of all lists."""
    found: list[dict[str, Value]] = [{}]
    for control in controls:
        ends = (control.low, control.high) if isinstance(control, Slider) else tuple(control.options.values())
        found = [{**one, control.name: end} for one in found for end in ends]
    return found
