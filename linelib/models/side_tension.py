"""Tension of both sides during a fall, from their lengths: stretch law, fast part, dashpot, and a lock that slips.

    tension = max(0, elastic + loss_time * (d elastic / dt)), at most the slip load of the lock there.

Elastic tension is where the stretch of the pieces in series adds up to that of the side; one Newton step each time step (the
next step mends what is left). The tension s that a piece is used to follows ds/dt = (T - s) / (ratio * relaxation time).
At a slipping lock natural length is paid out until the tension is the slip load; where webbing tears in the lock, until the
rest carries again. A slipping lock is a fault, never a shock absorber.

Source: see models/fall_in_time.py and models/sides.py.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from linelib.models.chain import Chain
from linelib.models.law_table import KNOTS, Indices
from linelib.models.lock_limits import LockLimits
from linelib.models.side_alone import SETTLE
from linelib.rigging import Setup

Array = NDArray[np.float64]


class SideTension:
    """Keeps elastic tension, what the webbing is used to, and paid-out length; arrays (2, falls)."""

    def __init__(self, chain: Chain, setups: Sequence[Setup]) -> None:
        sides = chain.sides
        self.sides, self.plain, self.loss, self.broken, self.dt = sides, chain.plain, chain.loss, chain.broken, chain.step
        self.natural, self.elastic = chain.natural.copy(), chain.tension.copy()
        self.paid = np.zeros_like(chain.tension)
        self.used_to = np.broadcast_to(chain.tension, sides.length.shape).copy()
        self.lengths = sides.length.copy()
        self.compliance = sides.stretch(self.elastic, self.used_to)[1]
        self.locks = LockLimits(setups)
        self.slips = self.locks.count > 0
        table = sides.table
        self.strains = table.laws.ravel()
        self.rises = np.diff(table.laws, axis=1, append=0.0).ravel()
        self._made_of(sides.law, sides.ratio, sides.relaxation)

    def _made_of(self, law: Indices, ratio: Array, relaxation: Array) -> None:
        """Take the pieces' laws."""
        per_step = 1.0 / self.sides.table.steps[law]
        self.law, self.ratio, self.relaxation, self.first_knot = law, ratio, relaxation, law * KNOTS
        self.own = per_step / ratio  # knots per newton of tension
        self.kept = per_step * (ratio - 1.0) / ratio  # knots per newton it is used to
        self.fade = -np.expm1(-self.dt / relaxation) / ratio

    def part(self, now: NDArray[np.bool_], length: Array) -> None:
        """The main webbing of the falls `now` parts while their sides are `length` [m] long: go on with what holds then."""
        broken = self.broken
        if broken is None or not now.any():
            return
        there, fails = now & broken.parts, now & self.sides.fails
        at_anchor, after = now & broken.at_anchor, broken.sides
        self.natural = self.natural + np.where(there, broken.longer, 0.0) - np.where(at_anchor, self.paid, 0.0)
        self.lengths = np.where(there, after.length, self.lengths)
        self.lengths[0] += np.where(there & ~at_anchor, self.paid, 0.0)
        self.used_to = np.where(fails, 0.0, self.used_to)
        self.locks.free(at_anchor)
        rows = ((self.law, after.law), (self.ratio, after.ratio), (self.relaxation, after.relaxation))
        law, ratio, relaxation = (np.where(fails, new, old) for old, new in rows)
        self._made_of(law.astype(np.intp), ratio, relaxation)
        elastic, compliance = self.elastic, self.compliance
        for _ in range(SETTLE):
            self._newton(length)
        self.elastic, self.compliance = np.where(there, self.elastic, elastic), np.where(there, self.compliance, compliance)

    def at(self, length: Array, dt: Array) -> Array:
        """Tension at the anchors [N], (2, falls), when the sides have come to `length` [m] after a step `dt` [s]."""
        before = self.elastic
        if self.plain:
            self.elastic = np.maximum((length - self.natural) / self.compliance, 0.0)
        else:
            self._curved(length)
        pull = np.maximum(self.elastic + (self.elastic - before) * (self.loss / dt), 0.0)
        return self._slipped(pull, dt) if self.slips else pull

    def _curved(self, length: Array) -> None:
        """One Newton step, and what the webbing is used to follows."""
        self._newton(length)
        self.used_to = self.used_to + self.fade * (self.elastic - self.used_to)

    def _newton(self, length: Array) -> None:
        """One Newton step on the tables of all pieces (as LawTable.strain, with everything that stays made before)."""
        x = self.elastic * self.own
        x += self.used_to * self.kept
        k = np.fmin(x, KNOTS - 2).astype(np.intp)
        x -= k
        k += self.first_knot
        rise = self.rises.take(k)
        x *= rise
        x += self.strains.take(k)
        x *= self.lengths
        rise *= self.own
        rise *= self.lengths
        stretch, self.compliance = (x[0], rise[0]) if len(x) == 1 else (np.add.reduce(x), np.add.reduce(rise))
        miss = length - self.natural
        miss -= stretch
        miss /= self.compliance
        miss += self.elastic
        self.elastic = np.maximum(miss, 0.0, out=miss)

    def _slipped(self, pull: Array, dt: Array) -> Array:
        """Pay out natural length where the lock cannot hold, until the pull is what it holds or this limit's length is out."""
        for _ in range(self.locks.count):
            over = np.maximum(pull - self.locks.tension, 0.0)
            if not (over > 0.0).any():
                break
            give = self.compliance / (1.0 + self.loss / dt)
            outer = self.sides.used(self.elastic, self.used_to)[0]
            strain, compliance = self.sides.table.strain(self.sides.law[0], outer)
            wanted, left = over * give / (1.0 + strain), self.locks.until - self.paid
            out = np.minimum(wanted, left)
            moved = out * (1.0 + strain)
            self.elastic = np.maximum(self.elastic - moved / self.compliance, 0.0)
            self.natural = self.natural + out
            self.lengths[0] += out
            if self.plain:
                self.compliance = self.compliance + out * compliance
            pull = np.where(wanted < left, np.minimum(pull, self.locks.tension), pull - moved / give)
            self.paid = np.where(wanted < left, self.paid + out, np.minimum(self.paid + out, self.locks.until))
            self.locks.passed(np.where(wanted < left, 0.0, self.locks.until))
        return pull
