"""The line of the blackboard: no mass, one tension along it, a V hanging from two anchors. Many rigs at once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.models.law_table import Indices, LawTable
from linelib.models.lines import GRAVITY, Lines
from linelib.rigging import Setup

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Massless:
    """Weightless lines with a walker on each; arrays (pieces, rigs) for the webbing, (rigs,) for the rest.

    reach_a, reach_b [m] horizontal distance of the ring from A and B; slope of the straight line between the anchors;
    weight [N] of walker and ring; mass [kg] of the walker; fall [m] = standing height + leash; leash [N/m].
    """

    table: LawTable
    law: Indices
    length: Array
    ratio: Array
    reach_a: Array
    reach_b: Array
    slope: Array
    weight: Array
    mass: Array
    fall: Array
    leash: Array

    def long(self, tension: Array, used_to: Array) -> Array:
        """Stretched length of the line [m] under `tension` [N] when it is used to `used_to` [N]."""
        strain = self.table.strain(self.law, self._used(tension, used_to))[0]
        return np.asarray((self.length * (1.0 + strain)).sum(0))

    def energy(self, tension: Array, used_to: Array) -> Array:
        """Energy [J] up to a constant: only differences at the same `used_to` mean anything."""
        q = self._used(tension, used_to)
        strain, slow = self.table.strain(self.law, q)[0], self.table.energy(self.law, q)
        return np.asarray((self.length * (self.ratio * slow - (self.ratio - 1.0) * used_to * strain)).sum(0))

    def drop(self, long: Array) -> Array:
        """Depth [m] of a V of length `long` [m] below the straight line, at the ring; 0 when it is no longer than that."""
        a, b = self.reach_a, self.reach_b
        chord = (a + b) * np.hypot(1.0, self.slope)
        over = np.maximum(long, chord * (1.0 + 1e-12))
        d = np.sqrt(np.maximum(((over**2 + a**2 - b**2) / (2.0 * over)) ** 2 - a**2, 1e-12))
        for _ in range(8):
            side_a, side_b = np.hypot(a, self.slope * a - d), np.hypot(b, self.slope * b + d)
            steep = (d - self.slope * a) / side_a + (self.slope * b + d) / side_b
            step = (side_a + side_b - over) / np.maximum(steep, 1e-9)
            there = np.abs(step) < 1e-9 * chord
            d = np.where(there, d, np.maximum(d - step, 1e-9))
            if np.all(there):
                break
        return d

    def lift(self, tension: Array, drop: Array) -> Array:
        """Vertical force [N] with which the V carries the ring."""
        down_a, down_b = drop - self.slope * self.reach_a, drop + self.slope * self.reach_b
        return tension * (down_a / np.hypot(self.reach_a, down_a) + down_b / np.hypot(self.reach_b, down_b))

    def standing(self) -> Array:
        """Tension [N] at which the V carries walker and ring at rest."""
        return root(lambda t: self.lift(t, self.drop(self.long(t, t))) - self.weight, low=0.0 * self.weight)

    def alone(self, used_to: Array) -> Array:
        """Tension [N] of the straight line just after it is freed; 0 when it hangs slack."""
        chord = (self.reach_a + self.reach_b) * np.hypot(1.0, self.slope)
        return root(lambda t: self.long(t, used_to) - chord, low=0.0 * used_to)

    def _used(self, tension: Array, used_to: Array) -> Array:
        return (tension + (self.ratio - 1.0) * used_to) / self.ratio


def massless_of(setups: Sequence[Setup], lines: Lines) -> Massless:
    """The weightless twin of every hung line: same natural lengths [m], ring at position * span.

    Source: the textbook V, no mass and one tension.
    """
    kinds = lines.pieces.table.webbings
    span, rise = lines.span, lines.rise
    position = np.array([s.walker.position for s in setups])
    return Massless(
        table=lines.pieces.table,
        law=lines.pieces.law,
        length=lines.pieces.length,
        ratio=np.array([w.fast_ratio for w in kinds])[lines.pieces.law],
        reach_a=position * span,
        reach_b=(1.0 - position) * span,
        slope=rise / span,
        weight=np.array([s.walker.mass + s.leash.ring_mass for s in setups]) * GRAVITY,
        mass=np.array([s.walker.mass for s in setups]),
        fall=np.array([s.walker.standing_height + s.leash.length for s in setups]),
        leash=np.array([s.leash.stiffness for s in setups]),
    )


def root(rising: Callable[[Array], Array], *, low: Array, rounds: int = 60, above: bool = False) -> Array:
    """Where a function rising with tension passes 0, from `low` [N] upward; `low` itself where it is above 0 there.

    `above` : return the upper end of the last interval, not its middle.
    Source: doubling, then bisection.
    """
    high = 2.0 * low + 1e2
    for _ in range(40):
        below = rising(high) < 0.0
        if not np.any(below):
            break
        high = np.where(below, low + 2.0 * (high - low), high)
    low = low + 0.0 * high
    for _ in range(rounds):
        middle = 0.5 * (low + high)
        below = rising(middle) < 0.0
        low, high = np.where(below, middle, low), np.where(below, high, middle)
    return high if above else 0.5 * (low + high)
