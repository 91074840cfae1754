"""Words that move with a picture: each text is drawn once and kept as a small image, since drawing letters takes long."""

from __future__ import annotations

from typing import Any

import numpy as np
from matplotlib.artist import Artist
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from numpy.typing import NDArray

from linelib.figures.canvas import DPI, Canvas
from linelib.figures.roles import SMALL

KEPT = 64
ACROSS = {"left": 0.0, "center": 0.5, "right": 1.0}
UP = {"bottom": 0.0, "center": 0.5, "top": 1.0}


class Word(Artist):
    """A text at a data position of `axes`, anchored across (left, center, right) and up (bottom, center, top)."""

    def __init__(
        self, canvas: Canvas, axes: Any, *, colour: str, across: str = "left", up: str = "bottom", bold: bool = False
    ) -> None:
        super().__init__()
        self.axes, self.colour, self.weight = axes, colour, "bold" if bold else "normal"
        self.across, self.up = ACROSS[across], UP[up]
        self.text, self.place = "", (0.0, 0.0)
        self._images: dict[str, NDArray[np.uint8]] = {}
        canvas.moving(self)

    def put(self, text: str, x: float, y: float) -> None:
        """Say `text` at (x, y); '' says nothing."""
        self.text, self.place = text, (x, y)

    def draw(self, renderer: Any) -> None:
        """Put the kept image of the text where it belongs."""
        if not self.text or not self.get_visible() or self.axes is None:
            return
        image = self._images.get(self.text)
        if image is None:
            if len(self._images) >= KEPT:
                self._images.clear()
            image = self._images[self.text] = self._render()
        x, y = self.axes.transData.transform(self.place)
        height, width = image.shape[:2]
        pen = renderer.new_gc()
        renderer.draw_image(pen, round(x - self.across * width), round(y - self.up * height), image[::-1])
        pen.restore()

    def _render(self) -> NDArray[np.uint8]:
        """The text as an image, cut to its ink."""
        figure = Figure(figsize=(len(self.text) * 0.16 + 0.4, 0.4), dpi=DPI)
        figure.patch.set_alpha(0.0)
        agg = FigureCanvasAgg(figure)
        figure.text(0.02, 0.35, self.text, fontsize=SMALL, color=self.colour, weight=self.weight)
        agg.draw()
        pixels = np.array(agg.buffer_rgba())
        rows, columns = np.nonzero(pixels[..., 3])
        if not len(rows):
            return pixels[:1, :1]
        return pixels[rows.min() : rows.max() + 1, columns.min() : columns.max() + 1]
