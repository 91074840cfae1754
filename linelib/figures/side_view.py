"""The whole line from the side: nobody on it, with the walker standing, and now; the backup always."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL
from linelib.figures.side_names import Line, SideNames
from linelib.figures.word import Word

Array = NDArray[np.float64]


class SideView:
    """Side view in a box of screen pixels; heights may be drawn larger than lengths, and the picture says how much."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float]) -> None:
        r, self.canvas, self.box = canvas.roles, canvas, box
        self.axes = canvas.axes(*box)
        self.axes.set_ylabel("height [m]", fontsize=SMALL, color=r.ink, labelpad=1)
        self.scale = self.axes.text(0.995, 0.02, "", ha="right", va="bottom", transform=self.axes.transAxes, fontsize=SMALL)
        self.scale.set_color(r.ink)
        self.span, self.below, self.above = Reach(100.0), Reach(10.0), Reach(2.0)
        plot, moving = self.axes.plot, canvas.moving
        self.chord = moving(plot([], [], color=r.faint, linewidth=0.8)[0])
        self.backup = moving(plot([], [], **r.backup.line())[0])
        self.alone = moving(plot([], [], **r.carries_not.line())[0])
        self.standing = moving(plot([], [], **r.other.line(linewidth=2.0))[0])
        self.line_a = moving(plot([], [], **r.side_a.line(linewidth=2.6))[0])
        self.line_b = moving(plot([], [], **r.side_b.line(linewidth=2.6))[0])
        self.soft = moving(plot([], [], color=r.side_a.colour, linewidth=7.0, alpha=0.35, solid_capstyle="butt")[0])
        self.caught = moving(plot([], [], **r.backup.line(linewidth=4.5))[0])
        self.ends = moving(plot([], [], **r.torn.dot(size=9, markeredgecolor=r.ink))[0])
        self.leash = moving(plot([], [], **r.person.line(linewidth=1.8))[0])
        self.tie_in = moving(plot([], [], **r.person.dot(size=7))[0])
        self.anchors = moving(plot([], [], linestyle="none", marker="s", markersize=9, color=r.ink, clip_on=False)[0])
        self.names = {
            "A": Word(canvas, self.axes, colour=r.side_a.colour, bold=True),
            "B": Word(canvas, self.axes, colour=r.side_b.colour, across="right", bold=True),
            "nobody on it": Word(canvas, self.axes, colour=r.ink, across="center"),
            "standing": Word(canvas, self.axes, colour=r.ink, across="center"),
            "backup": Word(canvas, self.axes, colour=r.backup.colour, across="center", up="top"),
            "thick: backup": Word(canvas, self.axes, colour=r.backup.colour, bold=True),
            "soft insert": Word(canvas, self.axes, colour=r.side_a.colour),
        }
        self.places, self.nobody_at = SideNames(self.names), 0.64  # of the span
        self._fit()

    def show(
        self,
        *,
        line: Line,
        ring: int,
        tie_in: tuple[float, float],
        standing: Line | None,
        alone: Line,
        backup: Line,
        soft_until: float,
        parted: tuple[float, float] | None = None,
    ) -> None:
        """Set everything that moves. Lines are x, z [m] from A; `ring` is the node with the leash; from `parted[0]` to
        `parted[1]` the main line has parted and the backup is the line."""
        x, z = line
        low = min(float(z.min()), float(np.nanmin([*backup[1], 0.0])), tie_in[1])
        high = max(float(z.max()), tie_in[1], 0.0)
        fits = [self.span.take(float(x[-1])), self.below.take(-low * 1.3)]
        if any([*fits, self.above.take(max(high * 1.1, 1.9, -0.15 * low, 0.11 * self.below.value))]):  # names of the anchors
            self._fit()
        self.chord.set_data([x[0], x[-1]], [z[0], z[-1]])
        self.backup.set_data(*backup)
        self.alone.set_data(*alone)
        self.standing.set_data(*(standing or ([], [])))
        self.line_a.set_data(x[: ring + 1], z[: ring + 1])
        self.line_b.set_data(x[ring:], z[ring:])
        inside = np.linspace(0.0, soft_until, 9)
        self.soft.set_data(inside, np.interp(inside, x, z))
        self.soft.set_visible(soft_until > 0.0)
        self._part(parted, x, z)
        self.leash.set_data([x[ring], tie_in[0]], [z[ring], tie_in[1]])
        self.tie_in.set_data([tie_in[0]], [tie_in[1]])
        self.anchors.set_data([x[0], x[-1]], [z[0], z[-1]])
        self.places.crowded = parted is not None
        self.places.on("nobody on it", self.nobody_at, (alone, standing or line), (x[[0, -1]], z[[0, -1]]))
        if standing is None:
            self.places.clear("standing")
        else:
            self.places.between("standing", 0.4, (standing,), alone)
        self.places.under("backup", (0.81, 0.19), backup, line, tie_in)
        self._name_ends(x, z, soft_until > 0.0)

    def _name_ends(self, x: Array, z: Array, soft: bool) -> None:
        """The letters of the anchors, and the insert at A."""
        lift = 0.06 * (self.below.value + self.above.value)
        self.names["A"].put("A", float(x[0]), float(z[0]) + lift)
        self.names["B"].put("B", float(x[-1]), float(z[-1]) + lift)
        self.names["soft insert"].put("soft insert" if soft else "", 0.06 * float(x[-1]), float(z[0]) + lift)

    def _part(self, parted: tuple[float, float] | None, x: Array, z: Array) -> None:
        """Draw the bay where the backup has become the line, and crosses where the main line ends."""
        for artist in (self.caught, self.ends, self.names["thick: backup"]):
            artist.set_visible(parted is not None)
        if parted is not None:
            along = np.linspace(*parted, 25)
            self.caught.set_data(along, np.interp(along, x, z))
            self.ends.set_data(parted, np.interp(parted, x, z))
            above = float(z[0]) + 0.05 * (self.below.value + self.above.value)
            self.names["thick: backup"].put("thick: backup", 0.08 * float(x[-1]), above)

    def _fit(self) -> None:
        self.axes.set_xlim(-0.01 * self.span.value, 1.01 * self.span.value)
        self.axes.set_ylim(-self.below.value, self.above.value)
        per_metre_x = self.box[2] / (1.02 * self.span.value)
        per_metre_z = self.box[3] / (self.below.value + self.above.value)
        pixel = (1.0 / per_metre_x, 1.0 / per_metre_z)
        self.places.fit(pixel=pixel, floor=-self.below.value, reach=self.span.value)
        times = per_metre_z / per_metre_x
        self.scale.set_text(f"lengths in m, heights drawn {times:.1f} times as large")
        self.canvas.still_changed()
