"""The frame all panels share: controls on the left, readings over the picture on the right, a sentence and the caution."""

from __future__ import annotations

import base64
import html
from collections.abc import Collection, Sequence
from typing import Any, NamedTuple

import ipywidgets

from linelib.cautions import CAUTION
from linelib.panels.controls import Control

STYLE = """<style>
.line-panel {display: flex; flex-flow: row wrap; align-items: flex-start; gap: 6px 12px; overflow: visible;
  font-size: 15px; margin: 0}
.line-panel .line-left {flex: 1 1 276px; min-width: 276px; max-width: 804px; display: flex; flex-flow: row wrap;
  align-content: flex-start; overflow: visible}
.line-panel .line-left > * {flex: 1 1 268px; min-width: 260px}
.line-panel .line-right {flex: 0 0 auto; width: %(width)spx; overflow: visible}
.line-panel .widget-label, .line-panel .widget-readout {font-size: 14.7px}
.line-panel .widget-slider .widget-readout {min-width: 40px; width: 40px; margin-left: 6px}
.line-fold .jupyter-widget-Collapse-contents {padding: 2px 0}
.line-panel .widget-toggle-buttons {flex-wrap: nowrap; height: 32px}
.line-panel .widget-toggle-button {font-size: 14.7px; padding: 0 6px; width: auto; flex: 1 1 auto; margin: 0 2px 0 0}
.line-readings {display: grid; grid-template-columns: repeat(4, 1fr); gap: 4px; height: 54px; overflow: hidden}
.line-readings div {line-height: 1.15}
.line-readings b {font-size: 25px; font-weight: 600; display: block; white-space: nowrap}
.line-readings small {font-size: 14.7px; white-space: nowrap}
.line-frame {position: relative; margin: 0; overflow: hidden; background: #fff}
.line-panel img {display: block; margin: 0; max-width: none}
.line-sentence {font-size: 15px; line-height: 1.25; height: 58px; overflow: hidden}
.line-caution {font-size: 14.7px; line-height: 1.2; color: var(--jp-ui-font-color2, #555)}
</style>"""


class Reading(NamedTuple):
    """One number of the strip: the words of what it is of, and the number with its unit."""

    words: str
    number: str


def readings_html(readings: Sequence[Reading]) -> str:
    """The strip of at most four readings."""
    cells = "".join(f"<div><small>{html.escape(w)}</small><b>{html.escape(n)}</b></div>" for w, n in readings)
    return f'<div class="line-readings">{cells}</div>'


class Frame:
    """The widgets of a panel, and how it shows itself; knows nothing of what it shows."""

    def __init__(self, *, controls: Sequence[Control], visible: int, size: tuple[int, int]) -> None:
        self.inputs: dict[str, Any] = {control.name: control.widget() for control in controls}
        for widget in self.inputs.values():
            widget.add_class("line-control")
        every = list(self.inputs.values())
        self.fold = ipywidgets.Accordion(children=[ipywidgets.VBox(every[visible:])], titles=("further sliders",))
        self.fold.add_class("line-fold")
        self.extra = ipywidgets.VBox([])
        self.readings = ipywidgets.HTML()
        width, height = size
        layout = {"width": f"{width}px", "height": f"{height}px", "margin": "0"}
        self.picture = ipywidgets.Image(format="png", layout=layout)
        self.picture.add_class("line-picture")
        self.sentence = ipywidgets.HTML()
        caution = ipywidgets.HTML(f'<div class="line-caution">{html.escape(CAUTION)}</div>')
        left = ipywidgets.VBox([*every[:visible], self.extra, self.fold])
        left.add_class("line-left")
        box = ipywidgets.Box([self.picture], layout={**layout, "overflow": "hidden"})
        box.add_class("line-frame")
        right = ipywidgets.VBox([self.readings, box, self.sentence, caution])
        right.add_class("line-right")
        style = ipywidgets.HTML(STYLE % {"width": width + 4}, layout={"display": "none"})
        self.box = ipywidgets.Box([style, left, right])
        self.box.add_class("line-panel")

    def show(self, *, readings: Sequence[Reading], sentence: str, png: bytes) -> None:
        """Put new readings, sentence and picture in their places."""
        self.picture.value = png  # first: it has the longest way to the screen
        self.readings.value = readings_html(readings)
        self.sentence.value = f'<div class="line-sentence" aria-live="polite">{html.escape(sentence)}</div>'

    def grey(self, names: Collection[str]) -> None:
        """Take these controls out of use, and no others."""
        for name, widget in self.inputs.items():
            if widget.disabled != (name in names):
                widget.disabled = name in names

    def bundle(self, *, png: bytes, words: str) -> dict[str, Any]:
        """What a notebook stores and shows: the live widget, and picture and words where no kernel runs."""
        live = self.box._repr_mimebundle_() or {}
        view = live.get("application/vnd.jupyter.widget-view+json")
        return {
            "application/vnd.jupyter.widget-view+json": view,
            "image/png": base64.b64encode(png).decode("ascii"),
            "text/plain": words,
        }


class Sheet:
    """A still picture with its words, for print."""

    def __init__(self, png: bytes, words: str) -> None:
        self.png, self.words = png, words

    def _repr_mimebundle_(self, **_: Any) -> dict[str, Any]:
        return {"image/png": base64.b64encode(self.png).decode("ascii"), "text/plain": self.words}

    def __repr__(self) -> str:
        return self.words
