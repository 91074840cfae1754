"""The march of one fall in plain numbers: for so few nodes three times as fast as arrays, for a picture on a slider.

The same equations, rows and order of work as models/march.py; tests/closed_form/test_fall_limits.py holds the two together.
"""

from __future__ import annotations

from itertools import pairwise
from math import hypot, inf, sqrt

import numpy as np
from numpy.typing import NDArray

from linelib.models.chain import Chain
from linelib.models.failure import NEVER, Broken
from linelib.models.leash import LeashLaw
from linelib.models.lines import GRAVITY
from linelib.models.lock_limits import limits_of
from linelib.models.side_alone import SideAlone
from linelib.rigging import Setup

Array = NDArray[np.float64]
AFTER_TURN = 0.3
LONGEST_CATCH = 8.0  # s after the failure, where one side hangs slack for good
FARTHEST = 1e4


class Alone:
    """The moving state of one fall, and lists of what happened at every step."""

    def __init__(self, chain: Chain, setup: Setup) -> None:
        ring, self.dt, self.span = chain.ring, chain.step.item(), chain.span.item()
        self.ring, mass = ring, chain.mass[1:-1, 0]
        push = np.where(mass > 0.0, self.dt / np.where(mass > 0.0, mass, 1.0), 0.0)
        self.push, self.slowing = push.tolist(), (chain.drag[1:-1, 0] * push).tolist()
        self.push_x, self.push_walker = self.dt / chain.mass_x.item(), self.dt / setup.walker.mass
        self.share2 = float(chain.share[0, 0]) ** 2, float(chain.share[-1, 0]) ** 2
        leash, (limits_a, limits_b) = setup.leash, limits_of(setup)
        self.side_a, self.side_b = SideAlone(chain, limits_a, 0), SideAlone(chain, limits_b, 1)
        self.law = LeashLaw(length=leash.length, half=0.5 * leash.stiffness, damping=leash.damping / self.dt)
        self.z, self.x = chain.z[:, 0].tolist(), (chain.ring_x.item(),) * 2
        self.walker_z = self.z[ring] + setup.walker.standing_height
        self.speed, self.speed_x, self.speed_walker = [0.0] * len(self.push), (0.0, 0.0), 0.0
        self.between = (0.0, setup.walker.standing_height, setup.walker.standing_height)
        self.turn_below, self.turned = self.z[ring] - leash.length, 0
        self.n, self.blown, self.broken, self.broke = 0, False, chain.broken, NEVER
        if chain.broken is not None:
            self.parts_at, self.parts_above = chain.broken.time.item(), chain.broken.tension.item()
            self.parting = np.flatnonzero(chain.broken.parts[:, 0]).tolist()
        self.places: list[list[float]] = []
        self.sides: list[tuple[float, ...]] = []
        self.used_to: list[tuple[list[float], list[float]]] = []
        self.leash = [(0.0, setup.walker.standing_height)]
        self._measure()

    def _measure(self) -> None:
        """Lengths of the sides, slopes, the tensions, and their force along the line on the ring; kept as rows."""
        ring, (share_a, share_b), run_a = self.ring, self.share2, self.x[0]
        run_b = self.span - run_a
        square_a, square_b = share_a * run_a * run_a, share_b * run_b * run_b
        rise = [right - left for left, right in pairwise(self.z)]
        long_a, long_b = [sqrt(r * r + square_a) for r in rise[:ring]], [sqrt(r * r + square_b) for r in rise[ring:]]
        length_a, length_b = sum(long_a), sum(long_b)
        if not length_a + length_b < FARTHEST:
            self.blown = True
            return
        a, b = self.side_a, self.side_b
        pull_a, pull_b = a.at(length_a), b.at(length_b)
        over_a, over_b = [pull_a / long for long in long_a], [pull_b / long for long in long_b]
        self.tilt = [r * over for r, over in zip(rise, over_a + over_b, strict=True)]
        self.lean = share_b * run_b * sum(over_b) - share_a * run_a * sum(over_a)
        self.places.append([*self.z, *self.x, self.walker_z])
        self.sides.append((length_a, length_b, a.elastic, b.elastic, pull_a, pull_b, a.paid, b.paid))
        self.used_to.append((a.used_to, b.used_to))
        if self.broken is not None and self.broke == NEVER:
            self._part(self.broken, (pull_a, pull_b), (length_a, length_b))

    def _part(self, broken: Broken, pulls: tuple[float, float], lengths: tuple[float, float]) -> None:
        """Let the main line part if it is due; the pulls of this moment still act over one step."""
        if self.n * self.dt >= self.parts_at or max((pulls[side] for side in self.parting), default=0.0) >= self.parts_above:
            self.side_a.part(broken, lengths[0])
            self.side_b.part(broken, lengths[1])
            self.broke, self.turned, self.turn_below = self.n, 0, min(self.turn_below, self.walker_z)

    def steps(self, count: int) -> None:
        """Go on by `count` steps."""
        for _ in range(count):
            if not self.blown:
                self._step()

    def _step(self) -> None:
        """One time step: forces where things are, then speeds, then places."""
        dt, old, ring, tilt = self.dt, self.speed, self.ring, self.tilt
        fall = dt * GRAVITY
        thick = [1.0 + abs(v) * c for v, c in zip(old, self.slowing, strict=True)]
        speed = [
            ((right - left) * p + v - fall) / t
            for left, right, p, v, t in zip(tilt[:-1], tilt[1:], self.push, old, thick, strict=True)
        ]
        ring_x, walker_x = self.speed_x
        ring_x += self.lean * self.push_x
        walker_z = self.speed_walker - fall
        push, x, z = self.push[ring - 1] / thick[ring - 1], self.x, self.walker_z - self.z[ring]
        half, push_walker = 0.5 * dt, self.push_walker
        across, up = x[1] - x[0] + half * (walker_x - ring_x), z + half * (walker_z - speed[ring - 1])
        give_x, give_z = half * (self.push_x + push_walker), half * (push + push_walker)
        force, ux, uz = self.law.pull(self.between, across, up, give_x, give_z)
        if force is not None:
            fx, fz = force * ux, force * uz
            speed[ring - 1] += push * fz
            ring_x, walker_x, walker_z = ring_x + self.push_x * fx, walker_x - push_walker * fx, walker_z - push_walker * fz
            across, up = across - give_x * fx, up - give_z * fz
        self.between = (across, up, hypot(across, up))
        self._move(speed, ring_x, walker_x, walker_z, force or 0.0)

    def _move(self, speed: list[float], ring_x: float, walker_x: float, walker_z: float, force: float) -> None:
        """Go to the new places with the new speeds."""
        dt, z = self.dt, self.z
        self.speed, self.speed_x, self.speed_walker = speed, (ring_x, walker_x), walker_z
        self.z = [z[0], *[place + dt * v for place, v in zip(z[1:-1], speed, strict=True)], z[-1]]
        self.x = self.x[0] + dt * ring_x, self.x[1] + dt * walker_x
        self.walker_z += dt * walker_z
        self.n += 1
        self.leash.append((force, self.between[2]))
        if not self.turned and force > 0.0 and walker_z > 0.0 and self.walker_z < self.turn_below and self._may_turn():
            self.turned = self.n
        self._measure()

    def _may_turn(self) -> bool:
        """Whether a walker who moves up is caught: not while a failure is still to come at a time, and not by a slack line."""
        if self.broke == NEVER:
            return self.broken is None or self.parts_at == inf
        return min(self.sides[-1][4:6]) > 0.0

    def find_turns(self, ends: Array) -> None:
        """Set the end [s] of the fall once the walker has moved up in the leash, or a while after the main line parted."""
        if self.turned:
            ends[0] = self.turned * self.dt + AFTER_TURN
        else:
            ends[0] = inf if self.broke == NEVER else self.broke * self.dt + LONGEST_CATCH

    def lost(self) -> bool:
        """Whether the fall blew up."""
        return self.blown

    def broke_at(self) -> NDArray[np.intp]:
        """The step at whose end the main line parted, (1,) [-]."""
        return np.array([self.broke])

    def kept(self) -> dict[str, Array]:
        """The rows of models.march.March up to the present step: [m] and [N] as there."""
        sides = np.array(self.sides).reshape(-1, 4, 2, 1)
        leash = np.array(self.leash[: len(sides)])[:, :, None]
        used = self.used_to[:1] if self.side_a.plain else self.used_to
        return {
            "places": np.array(self.places)[:, :, None],
            **{name: sides[:, i] for i, name in enumerate(("length", "elastic", "pull", "paid"))},
            "used_to": np.array(used).transpose(0, 2, 1)[..., None],
            "leash": leash[:, 0],
            "leash_long": leash[:, 1],
        }
