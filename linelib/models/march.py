"""The march of a batch of falls through time: semi-implicit (symplectic) Euler, every fall with its own step.

Nodes move up and down only; the ring also moves along the line and carries the nodes of its sides with it. Tension is one
number a side, and the force on a coordinate is minus tension times how fast the side's length changes with it (virtual work).

Rows of places and speeds: 0 .. N the nodes' heights (anchors included), then the ring's x, the tie-in's x and the tie-in's z.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, fields
from typing import Any

import numpy as np
from numpy.typing import NDArray

from linelib.models.chain import Chain
from linelib.models.leash import LeashLaw
from linelib.models.lines import GRAVITY
from linelib.models.side_tension import SideTension
from linelib.rigging import Setup

Array = NDArray[np.float64]
AFTER_TURN = 0.3
LONGEST_FALL = 30.0
FARTHEST = 1e4
BLOCK = 32


@dataclass(frozen=True, kw_only=True)
class March:
    """What happened at every step, first axis time.

    places (steps, rows, falls) [m], rows as above; sides (steps, 2, falls): length [m], elastic and pull [N] (pull: at the
    anchor), paid [m] (webbing paid out); used_to (steps, pieces, 2, falls) [N], one row only for webbing without a fast part;
    blown (falls,): whether the fall blew up (its rows then hold the standing line);
    leash [N] over the step before, leash_long [m] half a step before, air [J] taken by the air until half a step before,
    (steps, falls) each; last (falls,): the last step that belongs to each fall.
    """

    places: Array
    length: Array
    elastic: Array
    pull: Array
    paid: Array
    used_to: Array
    leash: Array
    leash_long: Array
    air: Array
    last: NDArray[np.intp]
    blown: NDArray[np.bool_]

    def of(self, j: int) -> March:
        """Fall number `j` as a batch of one."""
        return March(**{f.name: getattr(self, f.name)[..., j : j + 1] for f in fields(self)})


def march(*, chain: Chain, setups: Sequence[Setup], duration: float | None) -> March:
    """Let every walker of the batch fall.

    Parameters: chain : at rest under the standing walkers; duration [s] : None ends 0.3 s after the walker turns in the leash.
    Returns: March.
    Source: virtual work; Hairer, Lubich & Wanner (2006), Geometric Numerical Integration, ch. I (symplectic Euler).
    """
    run = _Run(chain, setups)
    ends = np.full(len(setups), np.inf if duration is None else duration)
    blown = np.zeros(len(setups), dtype=bool)
    while not np.all((run.n * chain.step > ends + chain.step) | blown):
        with np.errstate(over="ignore", invalid="ignore", divide="ignore"):
            run.steps(BLOCK)
            blown |= ~(np.abs(run.rows["places"][run.n]).max(0) < FARTHEST)
            blown |= (run.n * chain.step > LONGEST_FALL) & np.isinf(ends)
        if duration is None:
            run.find_turns(ends)
    kept = {name: rows[: run.n + 1] for name, rows in run.rows.items()}
    for rows in kept.values():
        rows[1:, ..., blown] = rows[:1, ..., blown]
    last = np.where(blown, 1, np.ceil(np.where(blown, 0.0, ends) / chain.step - 1e-9)).astype(np.intp)
    return March(**kept, last=last, blown=blown)


class _Run:
    """The moving state, kept in rows that grow by doubling, and the arrays that never change."""

    def __init__(self, chain: Chain, setups: Sequence[Setup]) -> None:
        self.ring, self.elements, self.dt, self.span = chain.ring, len(chain.share), chain.step, chain.span
        self.share2 = chain.share**2
        mass = np.array([s.walker.mass for s in setups])
        inner = chain.mass[1:-1]
        nowhere = np.zeros((1, len(setups)))
        self.push = np.concatenate(
            [nowhere, np.where(inner > 0.0, self.dt / np.where(inner > 0.0, inner, 1.0), 0.0), nowhere]
            + [(self.dt / m)[None] for m in (chain.mass_x, mass, mass)]
        )
        self.weight = np.where(self.push > 0.0, self.dt * GRAVITY, 0.0)
        self.weight[-3:-1] = 0.0
        self.drag_force = 0.5 * self.dt * chain.drag[1:-1]
        self.drag = chain.drag[1:-1] * self.push[1 : self.elements]
        self.airy = bool(np.any(chain.drag > 0.0))
        self.one: Callable[[Any], Any] = _number if len(setups) == 1 else _same
        self.hypot: Callable[[Any, Any], Any] = math.hypot if len(setups) == 1 else np.hypot
        self.half_step = self.one(0.5 * self.dt)
        leash = np.array([[s.leash.length, 0.5 * s.leash.stiffness, s.leash.damping] for s in setups]).T
        self.turn_below = chain.z[self.ring] - leash[0]
        self.leash = LeashLaw(length=self.one(leash[0]), half=self.one(leash[1]), damping=self.one(leash[2] / self.dt))
        self.tension = SideTension(chain, setups)
        standing = np.array([s.walker.standing_height for s in setups])
        first = np.concatenate([chain.z, [chain.ring_x, chain.ring_x, chain.z[self.ring] + standing]])
        self.speed, self.force, self.up = np.zeros_like(first), np.zeros_like(first), np.zeros_like(chain.share)
        self.between = (self.one(0.0 * standing), self.one(standing), self.one(standing))
        self.taken = np.zeros_like(standing)
        self.n = 0
        self._open_rows(first)

    def _open_rows(self, first: Array) -> None:
        side, one = self.tension.paid, self.taken
        shapes = {"places": first, "length": side, "elastic": side, "pull": side, "paid": side}
        shapes |= {"used_to": self.tension.used_to, "leash": one, "leash_long": one, "air": one}
        self.rows = {name: np.zeros((256, *value.shape)) for name, value in shapes.items()}
        self.rows["places"][0] = first
        self.rows["leash_long"][0] = self.between[2]
        self._measure(0)

    def _measure(self, n: int) -> None:
        """Lengths of the sides, slopes, how each length changes with the ring's x, and the tensions."""
        ring, places = self.ring, self.rows["places"][n]
        self.run_a = places[-3]
        self.run_b = self.span - self.run_a
        z = places[: self.elements + 1]
        rise = z[1:] - z[:-1]
        long = rise * rise
        long[:ring] += self.share2[:ring] * (self.run_a * self.run_a)
        long[ring:] += self.share2[ring:] * (self.run_b * self.run_b)
        long += 1e-30
        np.sqrt(long, out=long)
        length = np.add.reduceat(long, (0, ring), axis=0, out=self.rows["length"][n])
        self.slope = np.divide(rise, long, out=rise)
        self.lean = np.add.reduceat(self.share2 / long, (0, ring), axis=0)
        pull = self.rows["pull"][n]
        pull[:] = self.tension.at(length, self.dt)
        self.rows["elastic"][n] = self.tension.elastic
        if self.tension.slips:
            self.rows["paid"][n] = self.tension.paid
        if n == 0 or not self.tension.plain:
            self.rows["used_to"][n] = self.tension.used_to
        self.pull = pull

    def steps(self, count: int) -> None:
        """Go on by `count` steps."""
        if self.n + count + 1 > len(self.rows["places"]):
            self.rows = {name: np.concatenate([rows, np.zeros_like(rows)]) for name, rows in self.rows.items()}
        for _ in range(count):
            self._step(self.n + 1)
            self.n += 1

    def _step(self, n: int) -> None:
        """One time step of all falls: forces where things are, then speeds, then places."""
        ring, elements, old, speed, push = self.ring, self.elements, self.rows["places"][n - 1], self.speed, self.push
        up = self.up
        np.multiply(self.slope[:ring], self.pull[0], out=up[:ring])
        np.multiply(self.slope[ring:], self.pull[1], out=up[ring:])
        np.subtract(up[1:], up[:-1], out=self.force[1:elements])
        self.force[-3] = self.pull[1] * self.run_b * self.lean[1] - self.pull[0] * self.run_a * self.lean[0]
        new = self.force * push
        new += speed
        new -= self.weight
        nodes, eased = new[1:elements], push[ring]
        if self.airy:
            fast = np.abs(speed[1:elements])
            thick = 1.0 + self.drag * fast
            nodes /= thick
            eased = eased / thick[ring - 1]
        self._pull_leash(n, old, new, eased)
        if self.airy:
            mean = speed[1:elements] + nodes
            mean *= nodes
            fast *= self.drag_force
            self.taken = self.taken + np.einsum("nf,nf->f", mean, fast)
            self.rows["air"][n] = self.taken
        self.speed = new
        places = np.multiply(new, self.dt, out=self.rows["places"][n])
        places += old
        self._measure(n)

    def _pull_leash(self, n: int, old: Array, new: Array, eased: Array) -> None:
        """Let the leash pull ring and walker during the step; the ring moves by `eased` [m/s per N]."""
        ring, half, one = self.ring, self.half_step, self.one
        x = one(old[-2] - old[-3]) + half * one(new[-2] - new[-3])
        z = one(old[-1] - old[ring]) + half * one(new[-1] - new[ring])
        push_x, push_w, eased = one(self.push[-3]), one(self.push[-1]), one(eased)
        give_x, give_z = half * (push_x + push_w), half * (eased + push_w)
        force, ux, uz = self.leash.pull(self.between, x, z, give_x, give_z)
        if force is not None:
            fx, fz = force * ux, force * uz
            new[ring] += eased * fz
            new[-3] += push_x * fx
            new[-2] -= push_w * fx
            new[-1] -= push_w * fz
            x, z = x - give_x * fx, z - give_z * fz
            self.rows["leash"][n] = force
        long = self.hypot(x, z)
        self.between = (x, z, long)
        self.rows["leash_long"][n] = long

    def find_turns(self, ends: Array) -> None:
        """Set the end of the falls whose walker moved up in the leash for the first time during the last block."""
        begin = max(self.n - BLOCK - 1, 0)
        height = self.rows["places"][begin : self.n + 1, -1]
        pulled = self.rows["leash"][begin + 1 : self.n + 1] > 0.0
        up = (np.diff(height, axis=0) > 0.0) & pulled & (height[1:] < self.turn_below)
        turned = up.any(0) & np.isinf(ends)
        ends[turned] = ((begin + 1 + up.argmax(0)) * self.dt + AFTER_TURN)[turned]


def _same(value: Any) -> Any:
    return value


def _number(value: Any) -> Any:
    return value.item()
