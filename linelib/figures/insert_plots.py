"""Forces and costs over the length of a soft insert: both anchors, the person, the drop and the sag, side by side."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from matplotlib.patches import Polygon, Rectangle
from numpy.typing import NDArray

from linelib.figures.canvas import Canvas
from linelib.figures.limits import Reach
from linelib.figures.roles import SMALL, Role
from linelib.figures.word import Word

Array = NDArray[np.float64]
Box = tuple[float, float, float, float]
LONGEST = 15.0  # m
GAP = 14.0  # px between the middles of two words


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """One quantity over the length of the insert, its value now (None: no dot), and its band from softest to stiffest."""

    values: Array
    now: float | None = None
    band: tuple[Array, Array] | None = None


def apart(wanted: Sequence[float], gap: float) -> list[float]:
    """The `wanted` heights, moved so that none is nearer to the next than `gap`; what is too near goes half up, half down."""
    order = np.argsort(wanted, kind="stable")
    places = np.array(wanted, float)[order]
    for _ in range(40):
        push = 0.5 * np.maximum(gap - np.diff(places), 0.0)
        places[:-1] -= push
        places[1:] += push
    found = np.empty_like(places)
    found[order] = places
    return [float(v) for v in found]


class Ends:
    """Curves with their names at their right ends, dots for now, a band about the first, a thin line at its left end."""

    def __init__(self, canvas: Canvas, box: Box, parts: Sequence[tuple[str, Role]], *, down: bool) -> None:
        r, self.canvas, self.box, self.down = canvas.roles, canvas, box, down
        self.axes = canvas.axes(*box)
        self.axes.set_xlabel("length of the insert [m]", fontsize=SMALL, color=r.ink, labelpad=1)
        self.axes.set_xlim(-0.02 * LONGEST, LONGEST)
        self.reach = Reach(10.0)
        self.names = [name for name, _ in parts]
        fill = Polygon(np.zeros((2, 2)), facecolor=parts[0][1].colour, alpha=0.22, linewidth=0.0)
        self.axes.add_patch(fill)
        self.fill = canvas.moving(fill)
        plot, moving = self.axes.plot, canvas.moving
        self.level = moving(plot([], [], **r.other.line(linewidth=1.0))[0])
        self.lines = [moving(plot([], [], **role.line())[0]) for _, role in parts]
        now = r.now.colour
        self.dots = [moving(plot([], [], **role.dot(size=8, markerfacecolor=now, clip_on=False))[0]) for _, role in parts]
        self.words = [Word(canvas, self.axes, colour=role.colour, bold=True, up="center") for _, role in parts]
        self._fit()

    def show(self, drawn: Sequence[Drawn], *, over: Array, now: float, least: float = 0.0) -> None:
        """Set curves over the lengths `over` [m] with dots at `now` [m]; the axis holds `least`, too."""
        every = [d.values for d in drawn] + [v for d in drawn for v in d.band or ()]
        if self.reach.take(1.04 * max(least, *(float(v.max()) for v in every))):
            self._fit()
        for line, dot, one in zip(self.lines, self.dots, drawn, strict=True):
            line.set_data(over, one.values)
            dot.set_data(*(([], []) if one.now is None else ([now], [one.now])))
        first = drawn[0]
        self.level.set_data([0.0, LONGEST], [float(first.values[0])] * 2)
        low, high = first.band or (first.values, first.values)
        self.fill.set_xy(np.column_stack([np.append(over, over[::-1]), np.append(low, high[::-1])]))
        places = apart([float(d.values[-1]) for d in drawn], GAP * self.reach.value / self.box[3])
        for word, name, place in zip(self.words, self.names, places, strict=True):
            word.put(name, LONGEST * (1.0 + 10.0 / self.box[2]), place)

    def _fit(self) -> None:
        top = self.reach.value
        self.axes.set_ylim(*((top, 0.0) if self.down else (0.0, top)))
        self.canvas.still_changed()


class Forces(Ends):
    """Peaks [kN] at both anchors and on the person; what is commonly said as a hatched band; a hollow dot for a guess."""

    def __init__(self, canvas: Canvas, box: Box, said: Box) -> None:
        r = canvas.roles
        slow = replace(r.other, colour=r.ink, style=(0, (1.2, 1.6)))
        parts = (("A", r.side_a), ("B", r.side_b), ("slow law", slow), ("person", r.person))
        super().__init__(canvas, box, parts, down=False)
        left, low, right, high = said
        hatch: dict[str, Any] = {"facecolor": "none", "edgecolor": r.said.colour, "hatch": "////", "linewidth": 1.0}
        self.axes.add_patch(Rectangle((left, low), right - left, high - low, **hatch))
        self.guess = canvas.moving(self.axes.plot([], [], **r.guess.dot(hollow=True), clip_on=False)[0])
        self.guess_word = Word(canvas, self.axes, colour=r.ink, up="center")
        self._key(0.0, 18.0, None, "peak in a fall [kN]")
        self._key(0.53, 18.0, {"facecolor": r.side_a.colour, "alpha": 0.22}, "soft to stiff insert")
        self._key(0.0, 3.0, hatch, "commonly said, no source")

    def put_guess(self, now: float, guess: float | None) -> None:
        """A guess [kN] for anchor A at the present length [m], or none."""
        self.guess.set_data(*(([], []) if guess is None else ([now], [guess])))
        self.guess_word.put("" if guess is None else "guess", now + 0.045 * LONGEST, guess or 0.0)

    def _key(self, x: float, above: float, look: dict[str, Any] | None, words: str) -> None:
        """Words over the axes, `above` pixels from their top, with a swatch before them."""
        y, ink = 1.0 + above / self.box[3], self.canvas.roles.ink
        place: dict[str, Any] = {"transform": self.axes.transAxes, "clip_on": False}
        if look is not None:
            self.axes.add_patch(Rectangle((x, y + 2.0 / self.box[3]), 0.06, 9.0 / self.box[3], **place, **look))
        self.axes.text(x + (0.075 if look else 0.0), y, words, fontsize=SMALL, color=ink, va="bottom", **place)


class Costs(Ends):
    """Lowest tie-in and standing sag [m] below the anchors, drawn downward."""

    def __init__(self, canvas: Canvas, box: Box) -> None:
        r = canvas.roles
        sag = replace(r.other, colour=r.ink, width=2.0, marker="D")
        super().__init__(canvas, box, (("tie-in", r.drop), ("sag", sag)), down=True)
        self.axes.set_title("the cost: depth [m]", fontsize=SMALL, color=r.ink, pad=4, loc="left")
