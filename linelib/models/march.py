"""The march of a batch of falls through time: semi-implicit (symplectic) Euler, every fall with its own step.

Nodes move up and down only; the ring also moves along the line and carries the nodes of its sides with it. Tension is one
number a side, and the force on a coordinate is minus tension times how fast the side's length changes with it (virtual work).

Rows of places and speeds: 0 .. N the nodes' heights (anchors included), then the ring's x, the tie-in's x and the tie-in's z.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields
from typing import Any

import numpy as np
from numpy.typing import NDArray

from linelib.models.chain import Chain
from linelib.models.failure import NEVER, Broken
from linelib.models.leash import LeashLaw
from linelib.models.lines import GRAVITY
from linelib.models.march_alone import AFTER_TURN, FARTHEST, LONGEST_CATCH, Alone
from linelib.models.side_tension import SideTension
from linelib.rigging import Setup

Array = NDArray[np.float64]
LONGEST_FALL = 30.0
BLOCK = 16
BEYOND = 0.01  # s past the end, so that a mean over 20 ms is whole there


@dataclass(frozen=True, kw_only=True)
class March:
    """What happened at every step, first axis time.

    places (steps, rows, falls) [m], rows as above; sides (steps, 2, falls): length [m], elastic and pull [N] (pull: at the
    anchor), paid [m] (webbing paid out); used_to (steps, pieces, 2, falls) [N], one row only for webbing without a fast part;
    leash [N] over the step before, leash_long [m] half a step before, (steps, falls) each; last (falls,): the last step that
    belongs to each fall; blown (falls,): whether the fall blew up (its rows then hold the standing line); broke (falls,): the
    last step with the whole main line, NEVER where it holds.
    """

    places: Array
    length: Array
    elastic: Array
    pull: Array
    paid: Array
    used_to: Array
    leash: Array
    leash_long: Array
    last: NDArray[np.intp]
    blown: NDArray[np.bool_]
    broke: NDArray[np.intp]

    def of(self, j: int) -> March:
        """Fall number `j` as a batch of one."""
        return March(**{f.name: getattr(self, f.name)[..., j : j + 1] for f in fields(self)})


def march(*, chain: Chain, setups: Sequence[Setup], duration: float | None) -> March:
    """Let every walker of the batch fall.

    Parameters: chain : at rest under the standing walkers; duration [s] : None ends 0.3 s after the walker turns in the leash.
    Returns: March.
    Source: virtual work; Hairer, Lubich & Wanner (2006), Geometric Numerical Integration, ch. I (symplectic Euler).
    """
    run = Alone(chain, setups[0]) if len(setups) == 1 else _Run(chain, setups)
    ends = np.full(len(setups), np.inf if duration is None else duration)
    blown = np.zeros(len(setups), dtype=bool)
    while not np.all((run.n * chain.step > ends + chain.step + BEYOND) | blown):
        with np.errstate(over="ignore", invalid="ignore", divide="ignore"):
            run.steps(BLOCK)
            blown |= run.lost()
            blown |= (run.n * chain.step > LONGEST_FALL) & np.isinf(ends)
        if duration is None:
            run.find_turns(ends)
    kept = run.kept()
    for rows in kept.values():
        rows[1:, ..., blown] = rows[:1, ..., blown]
    last = np.where(blown, 1, np.ceil(np.where(blown, 0.0, ends) / chain.step - 1e-9)).astype(np.intp)
    return March(**kept, last=last, blown=blown, broke=run.broke_at())


class _Run:
    """The moving state, kept in rows that grow by doubling, and the arrays that never change."""

    def __init__(self, chain: Chain, setups: Sequence[Setup]) -> None:
        self.ring, self.elements, self.dt, self.span = chain.ring, len(chain.share), chain.step, chain.span
        self.share2 = np.maximum(chain.share**2, 1e-30)  # rows of no length keep a length to divide by
        self.of_side = np.repeat(np.eye(2), [self.ring, self.elements - self.ring], axis=1)  # adds up each side's elements
        self.lean = np.zeros_like(chain.tension)
        self.air = _Air(chain)
        self.tension = SideTension(chain, setups)
        self.reins = _Reins(chain, setups)
        self.push = self.reins.push
        self.weight = np.where(self.push > 0.0, self.dt * GRAVITY, 0.0)
        self.weight[-3:-1] = 0.0
        standing = np.array([s.walker.standing_height for s in setups])
        first = np.concatenate([chain.z, [chain.ring_x, chain.ring_x, chain.z[self.ring] + standing]])
        self.turn_below = chain.z[self.ring] - np.array([s.leash.length for s in setups])
        self.broken, self.broke = chain.broken, np.full(len(setups), NEVER)
        self.speed, self.force, self.runs = np.zeros_like(first), np.zeros_like(first), np.zeros_like(chain.tension)
        self.slope, self.long, self.work = (np.zeros_like(chain.share) for _ in range(3))
        self.n, self.turned = 0, np.zeros(len(setups), dtype=bool)
        side, one = self.tension.paid, standing
        shapes = {"places": first, "length": side, "elastic": side, "pull": side, "paid": side, "leash": one, "leash_long": one}
        self.rows = {name: np.zeros((384, *value.shape)) for name, value in shapes.items()}
        self.rows["used_to"] = np.zeros((1 if self.tension.plain else 384, *self.tension.used_to.shape))
        self.rows["places"][0] = first
        self.rows["leash_long"][0] = standing
        self._measure(0, first)

    def _measure(self, n: int, places: Array) -> None:
        """Lengths of the sides, slopes, how each length changes with the ring's x, and the tensions."""
        ring, long, work, slope, runs = self.ring, self.long, self.work, self.slope, self.runs
        runs[0] = places[-3]
        np.subtract(self.span, places[-3], out=runs[1])
        across = runs * runs
        rise = np.subtract(places[1 : self.elements + 1], places[: self.elements], out=slope)
        np.multiply(self.share2[:ring], across[0], out=work[:ring])
        np.multiply(self.share2[ring:], across[1], out=work[ring:])
        np.multiply(rise, rise, out=long)
        long += work
        np.sqrt(long, out=long)
        length = np.matmul(self.of_side, long, out=self.rows["length"][n])
        np.divide(rise, long, out=slope)
        np.divide(self.share2, long, out=work)
        np.matmul(self.of_side, work, out=self.lean)
        self.pull = self.rows["pull"][n]
        self.pull[:] = self.tension.at(length, self.dt)
        self.rows["elastic"][n] = self.tension.elastic
        if self.tension.slips:
            self.rows["paid"][n] = self.tension.paid
        if n == 0 or not self.tension.plain:
            self.rows["used_to"][n] = self.tension.used_to
        if self.broken is not None:
            self._part(self.broken, n, length)

    def _part(self, broken: Broken, n: int, length: Array) -> None:
        """Let the main lines part that are due; the pulls of this moment still act over one step."""
        now = (self.broke == NEVER) & broken.due(n * self.dt, self.pull)
        if now.any():
            self.tension.part(now, length)
            self.broke[now] = n
            self.turn_below = np.where(now, np.minimum(self.turn_below, self.rows["places"][n, -1]), self.turn_below)

    def steps(self, count: int) -> None:
        """Go on by `count` steps."""
        if self.n + count + 1 > len(self.rows["places"]):
            self.rows = {name: _doubled(rows) if len(rows) > 1 else rows for name, rows in self.rows.items()}
        for _ in range(count):
            self._step(self.n + 1)
            self.n += 1

    def _step(self, n: int) -> None:
        """One time step of all falls: forces where things are, then speeds, then places."""
        ring, elements, old, pull, work = self.ring, self.elements, self.rows["places"][n - 1], self.pull, self.work
        np.multiply(self.slope[:ring], pull[0], out=work[:ring])
        np.multiply(self.slope[ring:], pull[1], out=work[ring:])
        np.subtract(work[1:], work[:-1], out=self.force[1:elements])
        lean = self.lean
        lean *= self.runs
        lean *= pull
        np.subtract(lean[1], lean[0], out=self.force[-3])
        new = self.force * self.push
        new += self.speed
        new -= self.weight
        eased = self.air.slow(self.speed[1:elements], new[1:elements], self.push[ring])
        self.reins.pull(self.rows, n, old, new, eased)
        self.speed = new
        places = np.multiply(new, self.dt, out=self.rows["places"][n])
        places += old
        self._measure(n, places)

    def lost(self) -> NDArray[np.bool_]:
        """Which falls blew up, (falls,)."""
        return np.asarray(~(np.abs(self.rows["places"][self.n]).max(0) < FARTHEST))

    def broke_at(self) -> NDArray[np.intp]:
        """The step at whose end each main line parted, (falls,)."""
        return self.broke

    def kept(self) -> dict[str, Array]:
        """The rows of March up to the present step."""
        return {name: rows[: self.n + 1] for name, rows in self.rows.items()}

    def find_turns(self, ends: Array) -> None:
        """Set the end [s] of the falls whose walker moved up in the leash for the first time during the last block.

        Not while a failure is still to come at a time; after one the walker is caught by a line that is taut on both sides, or
        the fall ends after a while.
        """
        begin = max(self.n - BLOCK - 1, 0)
        height = self.rows["places"][begin : self.n + 1, -1]
        pulled = self.rows["leash"][begin + 1 : self.n + 1] > 0.0
        up = (np.diff(height, axis=0) > 0.0) & pulled & (height[1:] < self.turn_below)
        if self.broken is not None:
            step = np.arange(begin + 1, self.n + 1)[:, None]
            now = (self.broke >= begin) & (self.broke < NEVER)
            self.turned[now], ends[now] = False, (self.broke * self.dt + LONGEST_CATCH)[now]
            taut = self.rows["pull"][begin : self.n].min(1) > 0.0
            up &= np.where(self.broke == NEVER, np.isinf(self.broken.time), (step > self.broke) & taut)
        turned = up.any(0) & ~self.turned
        self.turned |= turned
        ends[turned] = ((begin + 1 + up.argmax(0)) * self.dt + AFTER_TURN)[turned]


def _doubled(rows: Array) -> Array:
    more = np.zeros((2 * len(rows), *rows.shape[1:]))
    more[: len(rows)] = rows
    return more


class _Air:
    """Drag of the air on the moving webbing: a force c |v| v on every node, taken with the new speed so that it only slows."""

    def __init__(self, chain: Chain) -> None:
        self.ring, self.some = chain.ring, bool(np.any(chain.drag > 0.0))
        mass = chain.mass[1:-1]
        self.slowing = chain.drag[1:-1] * np.where(mass > 0.0, chain.step / np.where(mass > 0.0, mass, 1.0), 0.0)
        self.thick = np.zeros_like(mass)

    def slow(self, speed: Array, wanted: Array, push: Array) -> Array:
        """Slow the nodes down in place; returns how far a force on the ring still moves it, `push` [m/s per N] eased."""
        if not self.some:
            return push
        np.abs(speed, out=self.thick)
        self.thick *= self.slowing
        self.thick += 1.0
        wanted /= self.thick
        return np.asarray(push / self.thick[self.ring - 1])


class _Reins:
    """The leash between ring and walker, asleep while no leash of the batch can become taut."""

    FASTEST = 25.0  # m/s that ring and walker may gain on each other beyond what they have, while it sleeps

    def __init__(self, chain: Chain, setups: Sequence[Setup]) -> None:
        self.ring = chain.ring
        mass, inner = np.array([s.walker.mass for s in setups]), chain.mass[1:-1]
        nodes = np.where(inner > 0.0, chain.step / np.where(inner > 0.0, inner, 1.0), 0.0)
        none = np.zeros_like(mass)[None]
        self.push = np.concatenate([none, nodes, none, *((chain.step / m)[None] for m in (chain.mass_x, mass, mass))])
        leash = np.array([[s.leash.length, 0.5 * s.leash.stiffness, s.leash.damping] for s in setups]).T
        self.law = LeashLaw(length=leash[0], half=leash[1], damping=leash[2] / chain.step)
        self.half, self.dt, self.length = 0.5 * chain.step, float(chain.step.max()), leash[0]
        self.push_x, self.push_w = self.push[-3], self.push[-1]
        self.give_x = self.half * (self.push_x + self.push_w)
        self.between: tuple[Any, Any, Any] = (0.0, 0.0, 0.0)
        self.asleep_until = 0

    def pull(self, rows: dict[str, Array], n: int, old: Array, new: Array, eased: Array) -> None:
        """Let the leash pull ring and walker during step `n`; a force moves the ring by `eased` [m/s per N]."""
        if n < self.asleep_until:
            return
        if n == self.asleep_until or n == 1:
            self._wake(rows, n)
        ring, half, push = self.ring, self.half, eased
        x = old[-2] - old[-3] + half * (new[-2] - new[-3])
        z = old[-1] - old[ring] + half * (new[-1] - new[ring])
        give_x, give_z = self.give_x, half * (push + self.push_w)
        force, ux, uz = self.law.pull(self.between, x, z, give_x, give_z)
        if force is not None:
            fx, fz = force * ux, force * uz
            new[ring] += push * fz
            new[-3] += self.push_x * fx
            new[-2] -= self.push_w * fx
            new[-1] -= self.push_w * fz
            x, z = x - give_x * fx, z - give_z * fz
            rows["leash"][n] = force
        long = np.hypot(x, z)
        self.between = (x, z, long)
        rows["leash_long"][n] = long
        if force is None:
            self._sleep(n, long, new)

    def _sleep(self, n: int, long: Array, new: Array) -> None:
        """Sleep for as many steps as the slackest-looking leash certainly stays slack."""
        reserve = float(np.min(self.length - long))
        gain = self.FASTEST + float(np.abs(new[[-3, -2, -1, self.ring]]).max())
        steps = int(reserve / (2.0 * gain * self.dt))
        if steps > 1:
            self.asleep_until = n + steps

    def _wake(self, rows: dict[str, Array], n: int) -> None:
        """Where ring and tie-in were half a step before step n - 1."""
        places = rows["places"]
        middle = 0.5 * (places[n - 1] + places[max(n - 2, 0)])
        x, z = middle[-2] - middle[-3], middle[-1] - middle[self.ring]
        self.between = (x, z, np.hypot(x, z))
        rows["leash_long"][max(n - 1, 0)] = self.between[2]
