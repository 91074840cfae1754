"""No word of a panel is cut: labels fit beside their sliders and lists, and the strip's words into their quarter."""

from __future__ import annotations

import importlib
import inspect
import pkgutil

import pytest
from matplotlib.font_manager import FontProperties, findfont
from PIL import ImageFont

import linelib.panels
from linelib.panels.controls import Slider
from linelib.panels.panel import Panel

SIZE, BESIDE_SLIDER, BESIDE_LIST, QUARTER = 14.7, 154.0, 66.0, 197.0  # pixels, as in panels/frame.py and controls.py
FONT = ImageFont.truetype(findfont(FontProperties(family="DejaVu Sans")), size=SIZE)


def panels() -> list[type[Panel]]:
    """Every panel of the package."""
    found = set()
    for module in pkgutil.iter_modules(linelib.panels.__path__):
        members = vars(importlib.import_module(f"linelib.panels.{module.name}")).values()
        found |= {thing for thing in members if inspect.isclass(thing) and issubclass(thing, Panel) and thing is not Panel}
    return sorted(found, key=lambda kind: kind.__name__)


@pytest.mark.parametrize("kind", panels())
def test_words_fit_their_places(kind: type[Panel]) -> None:
    panel = kind()
    wide = []
    for control in panel.controls:
        label = panel.frame.inputs[control.name].description
        if FONT.getlength(label) > (BESIDE_SLIDER if isinstance(control, Slider) else BESIDE_LIST):
            wide.append(label)
    strip = panel.words.splitlines()[0].rstrip(".").split("; ")
    wide += [words for words in (reading.split(": ")[0] for reading in strip) if FONT.getlength(words) > QUARTER]
    assert wide == []


def test_every_panel_is_looked_at() -> None:
    assert len(panels()) >= 2
