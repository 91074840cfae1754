"""Words that move with a picture: drawn straight from the font, kept as small images; a figure's own texts take far longer."""

from __future__ import annotations

from typing import Any

import numpy as np
from matplotlib.artist import Artist
from matplotlib.colors import to_rgb
from matplotlib.font_manager import FontProperties, findfont
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFont

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
        self.axes, self.colour = axes, colour
        path = findfont(FontProperties(family="DejaVu Sans", weight="bold" if bold else "normal"))
        self._font = ImageFont.truetype(path, size=SMALL * DPI / 72.0)
        self.across, self.up = ACROSS[across], UP[up]
        self.text, self.place = "", (0.0, 0.0)
        self._images: dict[str, NDArray[np.uint8]] = {}
        canvas.moving(self)

    def put(self, text: str, x: float, y: float) -> None:
        """Say `text` at (x, y); '' says nothing."""
        self.text, self.place = text, (x, y)

    def size(self, text: str) -> tuple[int, int]:
        """Width and height of a text [screen pixels]."""
        ascent, descent = self._font.getmetrics()
        return int(np.ceil(self._font.getlength(text))) + 1, ascent + descent

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
        """The text as an image, straight from the font; its height is that of a line, so that nothing jumps."""
        width, height = self.size(self.text)
        mask = Image.new("L", (width, height), 0)
        ImageDraw.Draw(mask).text((0, 0), self.text, font=self._font, fill=255)
        pixels = np.zeros((height, width, 4), np.uint8)
        pixels[..., :3] = np.round(255.0 * np.array(to_rgb(self.colour)))
        pixels[..., 3] = np.asarray(mask)
        return pixels
