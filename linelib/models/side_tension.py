"""Tension of both sides during a fall, from their lengths: stretch law, fast part, dashpot, and a lock that slips.

    tension = max(0, elastic + loss_time * (d length / dt) / compliance), at most the slip load of the lock there.

Elastic tension is where the stretch of the pieces in series adds up to that of the side; one Newton step each time step (the
next step mends what is left). At a slipping lock natural length is paid out until the tension is the slip load.
A slipping lock is a fault, never a shock absorber.

Source: see models/fall_in_time.py.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from linelib.models.chain import Chain
from linelib.rigging import Setup

Array = NDArray[np.float64]


class SideTension:
    """Keeps elastic tension, what the webbing is used to, and paid-out length; arrays (2, falls)."""

    def __init__(self, chain: Chain, setups: Sequence[Setup]) -> None:
        self.sides = chain.sides
        self.plain = self.sides.plain
        self.natural = chain.natural.copy()
        self.elastic = chain.tension.copy()
        self.paid = np.zeros_like(chain.tension)
        self.used_to = np.broadcast_to(chain.tension, self.sides.length.shape).copy()
        self.lengths = self.sides.length.copy()
        give = self.sides.length * self.sides.table.strain(self.sides.law, self.used_to)[1] / self.sides.ratio
        self.compliance = give.sum(0)
        self.loss = chain.loss
        self.fade = 1.0 - np.exp(-chain.step / self.sides.relaxation)
        slip = [[s.rig.slip_load_a or np.inf for s in setups], [s.rig.slip_load_b or np.inf for s in setups]]
        self.slip = np.array(slip)
        self.slips = bool(np.any(np.isfinite(self.slip)))
        self.before: Array | None = None

    def at(self, length: Array, dt: Array) -> Array:
        """Tension at the anchors [N], (2, falls), when the sides have come to `length` [m] after a step `dt` [s]."""
        rate = 0.0 if self.before is None else (length - self.before) / dt
        self.before = length
        if self.plain:
            self.elastic = np.maximum((length - self.natural) / self.compliance, 0.0)
        else:
            self._curved(length)
        pull = np.maximum(self.elastic + self.loss * rate / self.compliance * (self.elastic > 0.0), 0.0)
        return self._slipped(pull, dt) if self.slips else pull

    def _curved(self, length: Array) -> None:
        sides = self.sides
        q = sides.used(self.elastic, self.used_to)
        strain, compliance = sides.table.strain(sides.law, q)
        self.compliance = (self.lengths * compliance / sides.ratio).sum(0)
        miss = length - self.natural - (self.lengths * strain).sum(0)
        self.elastic = np.maximum(self.elastic + miss / self.compliance, 0.0)
        self.used_to = self.used_to + self.fade * (sides.used(self.elastic, self.used_to) - self.used_to)

    def _slipped(self, pull: Array, dt: Array) -> Array:
        """Pay out natural length where the lock cannot hold, until the pull is the slip load."""
        over = np.maximum(pull - self.slip, 0.0)
        if not np.any(over > 0.0):
            return pull
        moved = over * self.compliance / (1.0 + self.loss / dt)
        outer = self.sides.used(self.elastic, self.used_to)[0]
        strain, compliance = self.sides.table.strain(self.sides.law[0], outer)
        out = moved / (1.0 + strain)
        self.elastic = np.maximum(self.elastic - moved / self.compliance, 0.0)
        self.natural = self.natural + out
        self.lengths[0] += out
        self.paid = self.paid + out
        if self.plain:
            self.compliance = self.compliance + out * compliance
        return np.minimum(pull, self.slip)
