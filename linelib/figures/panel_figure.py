"""What the pictures of all panels share: side view, close-up, one further view at a time, and a reason in their place."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from matplotlib.artist import Artist

from linelib.figures.canvas import Canvas
from linelib.figures.close_up import CloseUp
from linelib.figures.roles import LARGE
from linelib.figures.side_view import SideView

WIDTH, HEIGHT = 800, 400


class PanelFigure:
    """A kept picture. A figure of its own makes its parts on `canvas`, then tells `use` which of them belong to which view."""

    def __init__(self, *, paper: str, side_width: float) -> None:
        self.canvas = Canvas(width=WIDTH, height=HEIGHT, paper=paper)
        self.side = SideView(self.canvas, (58, 246, side_width, 142))
        self.close = CloseUp(self.canvas, (652, 10, 142, 366))
        ink = self.canvas.roles.ink
        text = self.canvas.figure.text(0.5, 0.5, "", fontsize=LARGE, color=ink, ha="center", va="center", wrap=True)
        self.reason = self.canvas.moving(text)
        self.parts: Mapping[str, Sequence[Artist]] = {}
        self.view = ""

    def use(self, parts: Mapping[str, Sequence[Artist]]) -> None:
        """Say which axes and texts belong to which view; the first one is shown."""
        self.parts = parts
        self.look_at(next(iter(parts)))

    def look_at(self, view: str) -> None:
        """Choose the further view."""
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
        for axes in (self.side.axes, self.close.axes):
            axes.set_visible(bool(view))
        for name, parts in self.parts.items():
            for part in parts:
                part.set_visible(name == view)
        self.reason.set_visible(not view)
        self.canvas.still_changed()
