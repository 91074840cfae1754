"""An anchor seen from above, true to scale: bolts, legs as thick as their share of the pull, and the pull."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from linelib.figures.canvas import Canvas
from linelib.figures.word import Word

MOST, WIDEST, LABEL = 3, 9.0, 66.0  # legs; points for a leg that carries the whole pull; screen pixels of a force in words
Point = tuple[float, float]


@dataclass(frozen=True, kw_only=True)
class Plan:
    """What is drawn, lengths [m], forces [kN]: bolts in the order of the legs; where the legs meet; tension of each leg;
    which one has failed (None: all hold); pull and its direction as a unit vector; where the legs met before;
    whether the legs are one running loop; a note under the title."""

    bolts: Sequence[Point]
    point: Point
    tensions: Sequence[float]
    failed: int | None
    pull: float
    along: Point
    before: Point
    running: bool
    note: str


class AnchorPlan:
    """One view of the anchor: `box` in screen pixels, `left` and `top` the limits [m], `arrow` the length of
    the pull [screen pixels]; one scale both ways."""

    def __init__(
        self, canvas: Canvas, box: tuple[float, float, float, float], *, left: float, top: float, arrow: float
    ) -> None:
        r, self.canvas = canvas.roles, canvas
        self.axes = canvas.axes(*box)
        self.axes.set_axis_off()
        self.pixel = 2.0 * top / box[3]  # m a screen pixel
        self.axes.set_xlim(left, left + self.pixel * box[2])
        self.axes.set_ylim(-top, top)
        self.right = left + self.pixel * box[2]
        self.arrow = arrow * self.pixel
        plot, moving = self.axes.plot, canvas.moving
        self.rigged = moving(plot([], [], color=r.faint, linewidth=1.0, marker="o", markersize=4, linestyle=(0, (2, 3)))[0])
        self.legs = [moving(plot([], [], color=r.side_a.colour, solid_capstyle="butt")[0]) for _ in range(MOST)]
        self.cut = moving(plot([], [], **r.torn.line(marker=r.torn.marker, markersize=9, markeredgewidth=2.0))[0])
        self.bolts = moving(plot([], [], linestyle="none", marker="o", markersize=9, color=r.ink, markerfacecolor=r.paper)[0])
        self.backup = moving(plot([], [], **r.backup.line())[0])
        self.pull = moving(plot([], [], color=r.ink, linewidth=2.6)[0])
        self.head = moving(plot([], [], color=r.ink, linewidth=2.6)[0])
        self.dot = moving(plot([], [], **r.now.dot(size=8))[0])
        colour = r.side_a.colour
        places = (("center", "bottom"), ("center", "top"), ("right", "center"))
        self.words = [Word(canvas, self.axes, colour=colour, across=a, up=u, bold=True) for a, u in places]
        self.pull_word = Word(canvas, self.axes, colour=r.ink, up="bottom", bold=True)
        self.backup_word = Word(canvas, self.axes, colour=r.backup.colour, across="right", up="top", bold=True)
        self.note = Word(canvas, self.axes, colour=r.ink, up="top")

    def show(self, plan: Plan) -> None:
        """Set everything; a leg that carries nothing is thin and broken."""
        r, point = self.canvas.roles, np.array(plan.point)
        for i, line in enumerate(self.legs):
            line.set_visible(i < len(plan.bolts))
            if i < len(plan.bolts):
                share = plan.tensions[i] / plan.pull
                slack, gone = share < 1e-3, i == plan.failed
                line.set_visible(not gone)
                line.set_data(*np.array([plan.bolts[i], plan.point]).T)
                line.set_linestyle(r.carries_not.style if slack else "-")
                line.set_color(r.carries_not.colour if slack else r.side_a.colour)
                line.set_linewidth(1.4 if slack else 1.2 + WIDEST * min(share, 1.3))
        self._fail(plan)
        self.bolts.set_data(*np.array(plan.bolts).T)
        self.dot.set_marker("o" if plan.running else "s")
        self.dot.set_markerfacecolor(r.paper if plan.running else r.ink)
        self.dot.set_data([plan.point[0]], [plan.point[1]])
        moved = np.hypot(*(point - plan.before)) > 4.0 * self.pixel
        self.rigged.set_data(*(np.array([plan.before, plan.point]).T if moved else ([], [])))
        tip = self._arrow(plan)
        self._say(plan, tip)

    def _fail(self, plan: Plan) -> None:
        """The failed leg: a broken line where it was, with a cross."""
        if plan.failed is None:
            self.cut.set_data([], [])
            return
        bolt, before = np.array(plan.bolts[plan.failed]), np.array(plan.before)
        self.cut.set_data(*np.array([bolt, 0.5 * (bolt + before), before]).T)
        self.cut.set_markevery([1])

    def _arrow(self, plan: Plan) -> Point:
        """The pull, always of the same length on the screen; returns its tip."""
        tail, along = np.array(plan.point), np.array(plan.along)
        tip = tail + self.arrow * along
        across = np.array([-along[1], along[0]])
        back = 11.0 * self.pixel
        self.pull.set_data(*np.array([tail, tip]).T)
        loose = np.linspace(0.0, 1.0, 12)[:, None]  # the backup leaves beside the line, loose: only that it is there
        self.backup.set_data(*(tail + loose * (tip - tail) + 40.0 * self.pixel * loose * (1.0 - loose) * [0.0, -1.0]).T)
        self.head.set_data(*np.array([tip - back * (along + 0.5 * across), tip, tip - back * (along - 0.5 * across)]).T)
        return float(tip[0]), float(tip[1])

    def _say(self, plan: Plan, tip: Point) -> None:
        gap = 10.0 * self.pixel
        offsets = ((0.0, gap), (0.0, -gap), (-gap, 0.0))
        for i, word in enumerate(self.words):
            text = ""
            if i < len(plan.bolts):
                held = "slack" if plan.tensions[i] < 1e-3 * plan.pull else f"{plan.tensions[i]:.1f} kN"
                text = f"{i + 1}: {'failed' if i == plan.failed else held}"
            x, y = plan.bolts[i] if text else (0.0, 0.0)
            word.put(text, x + offsets[i][0], y + offsets[i][1])
        start = min(plan.point[0] + gap, self.right - LABEL * self.pixel)
        self.pull_word.put(f"{plan.pull:.1f} kN", start, max(tip[1], plan.point[1]) + 0.7 * gap)
        low = min(tip[1], plan.point[1]) - 1.4 * gap
        self.backup_word.put("backup", min(tip[0] + 2.6 * gap, self.right), low)
        self.note.put(plan.note, self.axes.get_xlim()[0], self.axes.get_ylim()[1] + 20.0 * self.pixel)
