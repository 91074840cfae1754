"""Tension of one side of one fall in plain numbers: the same lines as models/side_tension.py, for `march_alone.py`.

Source: see models/side_tension.py; tests/closed_form/test_fall_limits.py holds the two against each other.
"""

from __future__ import annotations

import numpy as np

from linelib.models.chain import Chain
from linelib.models.failure import Broken
from linelib.models.law_table import KNOTS
from linelib.models.lock_limits import Limit
from linelib.models.sides import Sides

SETTLE = 8  # Newton steps on a curved law


class SideAlone:
    """One side: tensions [N], lengths [m]; `pull` at the anchor, `paid` webbing paid out, `used_to` one a piece."""

    def __init__(self, chain: Chain, limits: list[Limit], side: int) -> None:
        step, self.side = chain.step.item(), side
        self.strains, self.plain = chain.sides.table.laws.ravel().tolist(), chain.plain
        self.step, self.count = step, len(chain.sides.length)
        self.natural, self.elastic = chain.natural.item(side, 0), chain.tension.item(side, 0)
        self.used_to, self.paid = [self.elastic] * self.count, 0.0
        self.lag = chain.loss.item(side, 0) / step
        self.limits, self.give = limits, 0.0
        self._made_of(chain.sides)
        self._stretch()

    def _made_of(self, sides: Sides) -> None:
        """Take the pieces' laws and lengths."""
        at = (slice(None), self.side, 0)
        own = 1.0 / (sides.table.steps[sides.law] * sides.ratio)  # knots per newton of tension
        self.first, self.own = (sides.law[at] * KNOTS).tolist(), own[at].tolist()
        self.kept = ((sides.ratio - 1.0) * own)[at].tolist()  # knots per newton it is used to
        self.fade = (-np.expm1(-self.step / sides.relaxation[at]) / sides.ratio[at]).tolist()
        self.long = sides.length[at].tolist()

    def part(self, broken: Broken, length: float) -> None:
        """The main webbing parts while the side is `length` [m] long: go on with what holds afterwards."""
        if not broken.parts[self.side, 0]:
            return
        at_anchor = bool(broken.at_anchor[self.side, 0])
        kept = 0.0 if at_anchor else self.paid
        self._made_of(broken.sides)
        self.long[0] += kept
        self.natural += broken.longer.item(self.side, 0) + kept - self.paid
        self.used_to = [0.0 if fails else s for s, fails in zip(self.used_to, broken.sides.fails[:, self.side, 0], strict=True)]
        self.limits = [] if at_anchor else self.limits
        for _ in range(SETTLE):
            self.elastic = max(self.elastic + (length - self.natural - self._stretch()) / self.give, 0.0)

    def at(self, length: float) -> float:
        """Tension at the anchor [N] when the side has come to `length` [m] after a step."""
        stretch = self.elastic * self.give if self.plain else self._stretch()
        before = self.elastic
        self.elastic = elastic = max(before + (length - self.natural - stretch) / self.give, 0.0)
        if not self.plain:
            self.used_to = [s + f * (elastic - s) for s, f in zip(self.used_to, self.fade, strict=True)]
        pull = max(elastic + self.lag * (elastic - before), 0.0)
        while self.limits and pull > self.limits[0][0]:
            pull = self._slip(pull, *self.limits[0])
        return pull

    def _stretch(self) -> float:
        """Stretch [m] of the pieces at the elastic tension; sets `give`, the side's compliance [m/N]."""
        stretch = self.give = 0.0
        for piece in range(self.count):
            low, rise = self._knot(piece)
            stretch += low * self.long[piece]
            self.give += rise * self.own[piece] * self.long[piece]
        return stretch

    def _knot(self, piece: int) -> tuple[float, float]:
        """Strain of a piece, and how much it grows from knot to knot of the table there."""
        x = self.elastic * self.own[piece] + self.used_to[piece] * self.kept[piece]
        k = int(x) if x < KNOTS - 2 else KNOTS - 2
        knot = self.first[piece] + k
        low = self.strains[knot]
        rise = self.strains[knot + 1] - low
        return low + (x - k) * rise, rise

    def _slip(self, pull: float, load: float, until: float) -> float:
        """Pay out natural length until the pull is what the lock holds, `load` [N], or `until` [m] are out: the next limit."""
        give = self.give / (1.0 + self.lag)
        strain, rise = self._knot(0)
        wanted, left = (pull - load) * give / (1.0 + strain), until - self.paid
        out = min(wanted, left)
        moved = out * (1.0 + strain)
        self.elastic = max(self.elastic - moved / self.give, 0.0)
        self.natural += out
        self.long[0] += out
        if self.plain:
            self.give += out * rise * self.own[0]
        if wanted < left:
            self.paid += out
            return load
        self.paid, self.limits = until, self.limits[1:]
        return pull - moved / give
