"""A kept picture with one view at a time, or a reason in their place: the ground under every panel's figure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from matplotlib.artist import Artist

from linelib.figures.canvas import Canvas
from linelib.figures.roles import LARGE

WIDTH, HEIGHT = 800, 400


class KeptFigure:
    """A figure of its own makes its parts on `canvas`, then tells `use` which of them belong to which view.

    Its `draw` begins with `back`, which takes a reason away.
    """

    def __init__(self, *, paper: str) -> None:
        self.canvas = Canvas(width=WIDTH, height=HEIGHT, paper=paper)
        ink = self.canvas.roles.ink
        text = self.canvas.figure.text(0.5, 0.5, "", fontsize=LARGE, color=ink, ha="center", va="center", wrap=True)
        self.reason = self.canvas.moving(text)
        self.always: Sequence[Artist] = ()
        self.parts: Mapping[str, Sequence[Artist]] = {}
        self.view = ""

    def use(self, parts: Mapping[str, Sequence[Artist]], *, always: Sequence[Artist] = ()) -> None:
        """Say which axes and texts belong to which view, and which to all; the first view is shown."""
        self.parts, self.always = parts, always
        self.look_at(next(iter(parts)))

    def look_at(self, view: str) -> None:
        """Choose the view."""
        if view != self.view:
            self.view = view
            self._show(view)

    def refuse(self, reason: str) -> None:
        """Show why there is no picture; after `back` there are pictures again."""
        self.reason.set_text(reason)
        self._show("")

    def back(self) -> None:
        """Take a reason away."""
        if self.reason.get_visible():
            self._show(self.view)

    def png(self) -> bytes:
        """The picture as PNG."""
        return self.canvas.png()

    def _show(self, view: str) -> None:
        """Show the parts of one view, or none at all for ''."""
        for part in self.always:
            part.set_visible(bool(view))
        for name, parts in self.parts.items():
            for part in parts:
                part.set_visible(name == view)
        self.reason.set_visible(not view)
        self.canvas.still_changed()
