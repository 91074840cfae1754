"""Words that say another thing at every move: drawn straight from the font, which is many times faster than a figure."""

from __future__ import annotations

from typing import Any

import numpy as np
from matplotlib.colors import to_rgb
from matplotlib.font_manager import FontProperties, findfont
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFont

from linelib.figures.canvas import DPI, Canvas
from linelib.figures.roles import SMALL
from linelib.figures.word import Word


class QuickWord(Word):
    """A Word whose letters are drawn from the font file; long texts that change with every move stay cheap."""

    def __init__(self, canvas: Canvas, axes: Any, *, bold: bool = False, **more: Any) -> None:
        super().__init__(canvas, axes, bold=bold, **more)
        path = findfont(FontProperties(family="DejaVu Sans", weight=self.weight))
        self._font = ImageFont.truetype(path, size=SMALL * DPI / 72.0)

    def _render(self) -> NDArray[np.uint8]:
        """The text as an image, cut to its width; its height is that of a line, so that nothing jumps."""
        ascent, descent = self._font.getmetrics()
        width = int(np.ceil(self._font.getlength(self.text))) + 1
        mask = Image.new("L", (width, ascent + descent), 0)
        ImageDraw.Draw(mask).text((0, 0), self.text, font=self._font, fill=255)
        pixels = np.zeros((ascent + descent, width, 4), np.uint8)
        pixels[..., :3] = np.round(255.0 * np.array(to_rgb(self.colour)))
        pixels[..., 3] = np.asarray(mask)
        return pixels
