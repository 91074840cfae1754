"""Webbing in the lock's jaws from above, true to scale, strip by strip; and beside it what each strip carries."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from matplotlib.patches import Polygon
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.roles import SMALL
from linelib.figures.word import Word

Array = NDArray[np.float64]
LEFT, RIGHT, TALL = -17.0, 33.0, 45.0  # mm: jaws to the left, free webbing to the right, height of the box
WAVES, POINTS, PLEAT_AT, EVERY = (
    6,
    73,
    9.0,
    3,
)  # waves of slack, place of a pleat [mm], one strip of so many shown


@dataclass(frozen=True, kw_only=True)
class InLock:
    """Strips across the width, arrays (strips,): what sits how, and who carries now. Lengths [mm].

    `width`; `jaw` : how far each strip's jaw lies back; `pleat` : length folded away; `rolled` : width of the rolled edge;
    `slack` : of the difference, what the pull has not taken up yet; `load` [-] : tension over the strip's strength;
    `torn` : truth values; `largest` : path difference; `pulls` [kN] : the highest before, and now.
    """

    width: float
    jaw: Array
    pleat: Array
    rolled: float
    slack: Array
    load: Array
    torn: NDArray[np.bool_]
    largest: float
    pulls: tuple[float, float]


class LockView:
    """Drawing and load of each strip in two boxes of screen pixels, at one scale of heights."""

    def __init__(self, canvas: Canvas, box: tuple[float, float, float, float], beside: tuple[float, float]) -> None:
        r, self.canvas = canvas.roles, canvas
        left, bottom, width, height = box
        self.axes = canvas.axes(*box)
        self.axes.set_axis_off()
        self.axes.set(xlim=(LEFT, RIGHT), ylim=(-0.5 * TALL, 0.5 * TALL))
        self.loads = canvas.axes(left + width + beside[0], bottom, beside[1], height)
        self.loads.set(xlim=(0.0, 108.0), ylim=(-0.5 * TALL, 0.5 * TALL), yticks=[], xticks=[0, 50, 100])
        self.loads.spines["left"].set_visible(False)
        self.loads.set_xlabel("strip load [%]", fontsize=SMALL, color=r.ink, labelpad=1)
        self.loads.plot([100.0, 100.0], [-0.5 * TALL, 0.4 * TALL], **r.limit.line())
        self.loads.text(104.0, 0.42 * TALL, "tears", fontsize=SMALL, color=r.ink, ha="right")
        moving = canvas.moving
        self.jaws = moving(Polygon([[0.0, 0.0]] * 4, facecolor="none", edgecolor=r.faint, hatch="///", linewidth=1.2))
        self.axes.add_patch(self.jaws)
        plot = self.axes.plot
        self.lines = [moving(plot([], [], **role.line(marker=""))[0]) for role in (r.carries_not, r.carries)]
        self.lines.append(moving(plot([], [], **r.torn.line(marker=""))[0]))
        self.ends = moving(plot([], [], **r.torn.dot(size=4, markeredgecolor=r.ink, markeredgewidth=1.2))[0])
        fold = Polygon([[0.0, 0.0]] * 4, facecolor=r.carries.colour, alpha=0.25, edgecolor=r.ink, linewidth=1.0)
        self.axes.add_patch(fold)
        self.fold, self.folded = moving(fold), Word(canvas, self.axes, colour=r.ink, across="center")
        self.ruler = moving(plot([], [], color=r.ink, linewidth=1.4, marker="|", markersize=8)[0])
        self.bars = moving(self.loads.plot([], [], color=r.carries.colour, linewidth=2.6, solid_capstyle="butt")[0])
        self.crosses = moving(self.loads.plot([], [], **r.torn.dot(size=4, markeredgecolor=r.ink, markeredgewidth=1.2))[0])
        self.word = Word(canvas, self.axes, colour=r.ink, up="top")
        top = 0.5 * TALL - 0.5
        self.axes.text(LEFT + 0.3, top, "jaws", fontsize=SMALL, color=r.ink, va="top", ha="left")
        self.pulls = Word(canvas, self.axes, colour=r.ink, across="right", up="top")

    def show(self, lock: InLock) -> None:
        """Draw every strip as what it does now."""
        before, now = lock.pulls
        self.pulls.put(f"pull before {before:.1f}, now {now:.1f} kN →", RIGHT, 0.5 * TALL)
        count = len(lock.jaw)
        places = np.linspace(0.0, lock.width, count) - 0.5 * lock.width
        shown = np.arange(EVERY // 2, count, EVERY)
        tan = float(lock.jaw[-1] - lock.jaw[0]) / lock.width
        over, under = 0.5 * lock.width + 1.6, -0.5 * lock.width - 1.6
        edge = [[-tan * (y + 0.5 * lock.width), y] for y in (under, over)]
        self.jaws.set_xy([*edge, [LEFT, over], [LEFT, under]])
        carries = ~lock.torn & (lock.load > 0.0)
        for line, mine in zip(self.lines, (~lock.torn & ~carries, carries, lock.torn), strict=True):
            paths = [_path(lock, float(places[i]), int(i)) for i in shown if mine[i]]
            line.set_data(np.concatenate([[], *(p[0] for p in paths)]), np.concatenate([[], *(p[1] for p in paths)]))
        gone = shown[lock.torn[shown]]
        frayed = [(2.0 + 3.0 * ((7 * int(i)) % 5) / 5, places[i]) for i in gone]
        self.ends.set_data([x for x, _ in frayed], [y for _, y in frayed])
        whole = shown[carries[shown]]
        gap = np.full(len(whole), np.nan)
        self.bars.set_data(
            np.column_stack([np.zeros(len(whole)), 100.0 * lock.load[whole], gap]).ravel(),
            np.column_stack([places[whole], places[whole], gap]).ravel(),
        )
        self.crosses.set_data(np.full(len(gone), 4.0), places[gone])
        self._pleat(lock, places)
        low = under - 1.6
        self.ruler.set_data([0.0, min(lock.largest, RIGHT)], [low, low])
        self.word.put(f"path difference {lock.largest:.1f} mm", 0.0, low - 0.5)

    def _pleat(self, lock: InLock, places: Array) -> None:
        """The pleat, as deep as what it still swallows."""
        mine = (lock.pleat > 0.0) & ~lock.torn
        deep = 0.5 * float(np.minimum(lock.pleat, lock.slack)[mine].min()) if mine.any() else 0.0
        self.fold.set_visible(deep > 0.0)
        self.folded.put("fold" if deep > 0.0 else "", PLEAT_AT, 0.5 * lock.width + 0.8)
        if deep > 0.0:
            low, high = float(places[mine].min()) - 0.3, float(places[mine].max()) + 0.3
            left, right = PLEAT_AT - 0.5 * deep, PLEAT_AT + 0.5 * deep
            self.fold.set_xy([[left, low], [right, low], [right, high], [left, high]])


def _path(lock: InLock, y: float, i: int) -> tuple[Array, Array]:
    """One strip from the jaws to the right, its slack as waves of the right length."""
    start, roll = -float(lock.jaw[i]), -0.5 * lock.width + lock.rolled
    x = np.linspace(start, RIGHT, POINTS)
    along = (x - start) / (RIGHT - start)
    height = np.full(POINTS, y)
    if y < roll:  # rolled over: it starts mirrored on the roll's line
        height = roll + (roll - y) * (1.0 - 2.0 * along)
    slack = 0.0 if lock.torn[i] else float(lock.slack[i])
    folded = min(float(lock.pleat[i]), slack)
    swing = np.sqrt(max(slack - folded, 0.0) * (RIGHT - start)) / (np.pi * WAVES)
    height = height + swing * np.sin(2.0 * np.pi * WAVES * along)
    if lock.torn[i]:
        x, height = x[x > 6.0], height[x > 6.0]
        x, height = np.concatenate([[start, 2.0, np.nan], x]), np.concatenate([[y, y, np.nan], height])
    return np.append(x, np.nan), np.append(height, np.nan)
