"""A kept picture: axes and everything still are drawn once, only what moves is drawn again on the restored background."""

from __future__ import annotations

import io
from typing import Any, TypeVar

import numpy as np
from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.colors import to_rgb
from matplotlib.figure import Figure
from matplotlib.ticker import MaxNLocator
from PIL import Image

from linelib.figures.roles import SMALL, Role, Roles, roles

Kind = TypeVar("Kind", bound=Artist)
DPI = 96


class Canvas:
    """A figure of `width` x `height` screen pixels."""

    def __init__(self, *, width: int, height: int, paper: str = "light") -> None:
        self.roles: Roles = roles(paper)
        self.width, self.height = width, height
        self.figure = Figure(figsize=(width / DPI, height / DPI), dpi=DPI, facecolor=self.roles.paper)
        self._agg = FigureCanvasAgg(self.figure)
        self._moving: list[Artist] = []
        self._still: Any = None
        self._palette = _palette(self.roles)

    def axes(self, left: float, bottom: float, width: float, height: float, **more: Any) -> Axes:
        """New axes, placed in screen pixels from the lower left corner, in the common look."""
        box = (left / self.width, bottom / self.height, width / self.width, height / self.height)
        axes = self.figure.add_axes(box, facecolor=self.roles.paper, **more)
        axes.tick_params(labelsize=SMALL, colors=self.roles.ink, length=3)
        for axis in (axes.xaxis, axes.yaxis):
            axis.set_major_locator(MaxNLocator(5, steps=[1, 2, 5, 10]))
            axis.set_major_formatter("{x:g}")
        for edge, spine in axes.spines.items():
            spine.set_visible(edge in ("left", "bottom"))
            spine.set_color(self.roles.faint)
        return axes

    def moving(self, artist: Kind) -> Kind:
        """Register an artist that is drawn anew in every picture."""
        artist.set_animated(True)
        self._moving.append(artist)
        return artist

    def still_changed(self) -> None:
        """Say that something of the background (limits, titles, visible axes) has changed."""
        self._still = None

    def png(self) -> bytes:
        """The picture as it is now, as PNG of the roles' colours and their shades on the paper."""
        if self._still is None:
            self._agg.draw()
            self._still = self._agg.copy_from_bbox(self.figure.bbox)
        self._agg.restore_region(self._still)
        for artist in self._moving:
            if artist.get_visible() and (artist.axes is None or artist.axes.get_visible()):
                self.figure.draw_artist(artist)
        image = Image.frombuffer("RGBA", self._agg.get_width_height(), self._agg.buffer_rgba(), "raw", "RGBA", 0, 1)
        out = io.BytesIO()
        image.convert("RGB").quantize(palette=self._palette, dither=Image.Dither.NONE).save(out, "PNG", compress_level=1)
        return out.getvalue()


def _palette(look: Roles) -> Image.Image:
    """256 colours: the paper, and every colour of the roles in even shades from the paper to itself."""
    colours = sorted({look.ink, look.faint} | {r.colour for r in vars(look).values() if isinstance(r, Role)})
    shades = np.linspace(0.08, 1.0, 255 // len(colours))[:, None]
    paper = np.array(to_rgb(look.paper))
    table = np.concatenate([[paper], *(paper + (np.array(to_rgb(c)) - paper) * shades for c in colours)])
    flat = np.round(255.0 * table).astype(int).ravel().tolist()
    image = Image.new("P", (1, 1))
    image.putpalette(flat + flat[:3] * (256 - len(flat) // 3))
    return image
