"""A kept picture with the line: side view and close-up, and one further view at a time."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from matplotlib.artist import Artist

from linelib.figures.close_up import CloseUp
from linelib.figures.ground import Ground
from linelib.figures.kept_figure import KeptFigure
from linelib.figures.scene import Frame, Scene
from linelib.figures.side_view import SideView


class PanelFigure(KeptFigure):
    """Side view and close-up stand in every view."""

    def __init__(self, *, paper: str, side_width: float, over_ground: bool = False) -> None:
        super().__init__(paper=paper)
        self.side = SideView(self.canvas, (58, 246, side_width, 142))
        self.close = CloseUp(self.canvas, (652, 10, 142, 366))
        self.ground = Ground(self.canvas, self.side, self.close) if over_ground else None

    def use(self, parts: Mapping[str, Sequence[Artist]], *, always: Sequence[Artist] = ()) -> None:
        """Say which axes and texts belong to which further view; the first one is shown."""
        super().use(parts, always=(self.side.axes, self.close.axes, *always))

    def show_fall(self, scene: Scene, frame: Frame) -> None:
        """Set line, person, backup and ground of a fall, and take a reason away."""
        self.back()
        if self.ground and scene.ground:
            self.ground.reach(scene.ground)
        self.side.show(
            line=frame.line,
            ring=frame.ring,
            tie_in=frame.tie_in,
            standing=scene.standing,
            alone=scene.alone,
            backup=frame.backup,
            soft_until=scene.soft_until,
            parted=frame.parted,
        )
        self.close.show(
            line=frame.line,
            ring=frame.ring,
            tie_in=frame.tie_in,
            standing=scene.standing,
            standing_tie_in=scene.standing_tie_in,
            standing_height=scene.standing_height,
            backup=frame.backup,
            chord_height=scene.chord_height,
            lowest=scene.lowest,
            parted=frame.parted,
        )
        if self.ground and scene.ground:
            self.ground.show(scene.ground, float(frame.line[0][frame.ring]))
