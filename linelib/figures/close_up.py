"""Ring, leash and person to true scale, standing and now; its height axis is a ruler of the drop."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL
from linelib.figures.word import Word

Array = NDArray[np.float64]
# A plain figure, 1.75 m tall, drawn from the tie-in at the waist: x sideways, z up [m].
HEAD, HEAD_RADIUS = (0.0, 0.68), 0.11
LIMBS = (
    ((0.0, 0.56), (0.0, -0.05)),
    ((0.0, -0.05), (-0.16, -0.50), (-0.14, -0.95)),
    ((0.0, -0.05), (0.16, -0.50), (0.17, -0.95)),
    ((0.0, 0.48), (-0.28, 0.22), (-0.34, -0.02)),
    ((0.0, 0.48), (0.28, 0.22), (0.34, -0.02)),
)


def _body(x: float, z: float, crouch: float) -> tuple[list[float], list[float]]:
    """One broken line with gaps (nan) for all limbs; `crouch` shortens the legs of somebody who stands lower."""
    xs: list[float] = []
    zs: list[float] = []
    for limb in LIMBS:
        for dx, dz in limb:
            xs.append(x + dx)
            zs.append(z + (dz * crouch if dz < -0.05 else dz))
        xs.append(np.nan)
        zs.append(np.nan)
    turn = np.linspace(0.0, 2.0 * np.pi, 17)
    xs += list(x + HEAD[0] + HEAD_RADIUS * np.cos(turn))
    zs += list(z + HEAD[1] + HEAD_RADIUS * np.sin(turn))
    return xs, zs


class CloseUp:
    """Close-up in a box of screen pixels; equal scales."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float]) -> None:
        r, self.canvas, self.box = canvas.roles, canvas, box
        self.axes = canvas.axes(*box)
        self.axes.set_title("true scale", fontsize=SMALL, color=r.ink, pad=3)
        self.axes.set_ylabel("height [m], 0: anchors", fontsize=SMALL, color=r.ink, labelpad=1)
        self.axes.set_xticks([])
        self.axes.spines["bottom"].set_visible(False)
        self.tall, self.top = Reach(8.0), 0.0
        plot, moving = self.axes.plot, canvas.moving
        self.chord = moving(plot([], [], color=r.faint, linewidth=0.8)[0])
        self.line_then = moving(plot([], [], **r.other.line(linewidth=2.0))[0])
        self.person_then = moving(plot([], [], color=r.faint, linewidth=1.4)[0])
        self.backup = moving(plot([], [], **r.backup.line())[0])
        self.line_a = moving(plot([], [], **r.side_a.line(linewidth=2.6))[0])
        self.line_b = moving(plot([], [], **r.side_b.line(linewidth=2.6))[0])
        self.caught = moving(plot([], [], **r.backup.line(linewidth=4.5))[0])
        self.leash = moving(plot([], [], **r.person.line())[0])
        self.person = moving(plot([], [], color=r.person.colour, linewidth=2.2, solid_capstyle="round")[0])
        self.ring = moving(plot([], [], linestyle="none", marker="o", markersize=7, markeredgewidth=2, color=r.ink)[0])
        self.ring.set_markerfacecolor(r.paper)
        self.depth = moving(plot([], [], **r.drop.line())[0])
        self.words = Word(canvas, self.axes, colour=r.drop.colour, across="right", up="top", bold=True)
        self._fit()

    def show(
        self,
        *,
        line: tuple[Array, Array],
        ring: int,
        tie_in: tuple[float, float],
        standing: tuple[Array, Array] | None,
        standing_tie_in: tuple[float, float] | None,
        standing_height: float,
        backup: tuple[Array, Array],
        chord_height: float,
        lowest: tuple[float, str] | None,
        parted: tuple[float, float] | None = None,
    ) -> None:
        """Set everything that moves; [m], heights counted from the anchors' line at the ring, `chord_height` [m] above A.

        `lowest` : depth of the lowest tie-in and the words beside it; `parted` : where along the span the backup is the line.
        """
        x, z = line
        centre = float(x[ring])
        self._hold(
            max((standing_tie_in or tie_in)[1], tie_in[1]) - chord_height + 0.9,
            min(tie_in[1] - chord_height, -lowest[0] if lowest else 0.0) - 1.1,
        )
        self.chord.set_data(self.axes.get_xlim(), [0.0, 0.0])
        self.line_a.set_data(x[: ring + 1] - centre, z[: ring + 1] - chord_height)
        self.line_b.set_data(x[ring:] - centre, z[ring:] - chord_height)
        self.backup.set_data(backup[0] - centre, backup[1] - chord_height)
        along = np.linspace(*(parted or (0.0, 0.0)), 49)
        self.caught.set_data(along - centre, np.interp(along, x, z) - chord_height)
        self.caught.set_visible(parted is not None)
        at = (tie_in[0] - centre, tie_in[1] - chord_height)
        self.leash.set_data([0.0, at[0]], [float(z[ring]) - chord_height, at[1]])
        self.ring.set_data([0.0], [float(z[ring]) - chord_height])
        self.person.set_data(*_body(at[0], at[1], 1.0))
        self.line_then.set_visible(standing is not None)
        self.person_then.set_visible(standing_tie_in is not None)
        if standing is not None and standing_tie_in is not None:
            self.line_then.set_data(standing[0] - centre, standing[1] - chord_height)
            then = (standing_tie_in[0] - centre, standing_tie_in[1] - chord_height)
            self.person_then.set_data(*_body(*then, max(standing_height, 0.12) / 0.95))
        self._mark(lowest)

    def _mark(self, lowest: tuple[float, str] | None) -> None:
        left, right = self.axes.get_xlim()
        self.depth.set_visible(lowest is not None)
        self.words.set_visible(lowest is not None)
        if lowest is not None:
            self.depth.set_data([left, right], [-lowest[0], -lowest[0]])
            self.words.put(lowest[1], right, -lowest[0] - 0.012 * self.tall.value)

    def _hold(self, top: float, bottom: float) -> None:
        """Keep the window while it holds `top` and `bottom` [m] and is not much too large; else move it in whole metres."""
        inside = top <= self.top and bottom >= self.top - self.tall.value
        if not inside or self.top - top > 0.4 * self.tall.value:
            spare = 0.12 * (top - bottom)  # so that the next small change does not move it again
            self.top = math.ceil(top + spare)
            self.tall.take(self.top - bottom + spare)
            self._fit()

    def _fit(self) -> None:
        half = 0.5 * self.tall.value * self.box[2] / self.box[3]
        self.axes.set_ylim(self.top - self.tall.value, self.top)
        self.axes.set_xlim(-half, half)
        self.canvas.still_changed()
