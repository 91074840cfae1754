"""The fall with stretch waves: a slow two-dimensional model, written apart from linelib.models as a second witness.

A chain of lumped nodes, free in x and z, lies along the natural length from anchor A to anchor B. Each element pulls
with its own webbing's law and never pushes. Places, speeds, forces are complex, x + i z, from anchor A, z up; SI units.
Leaves out: wind, flutter, a broken end, the ring sliding on the webbing, the backup except as hung weight, the mass of
webbing that slips out of a lock. The body is a point. A teaching model: it approves no rig.
Source: Newton's law node by node; leapfrog as in Hairer, Lubich & Wanner (2003), Acta Numerica 12:399 (from memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator, PPoly
from scipy.linalg.lapack import dgtsv
from scipy.optimize import brentq

from linelib.rigging import Setup
from linelib.webbing import Webbing

Array = NDArray[np.float64]
Points = NDArray[Any]  # complex
GRAVITY = 9.80665  # m/s2, standard value (CGPM 1901)
FAR_TENSION = 1e9  # N, end of the straight continuation of every law


@dataclass(frozen=True, kw_only=True)
class FullFall:
    """Forces [N], places [m], paid-out length [m], time [s], series (times,); gap of the ledger over fall energy."""

    peak_tension_a: float
    peak_tension_b: float
    peak_leash_force: float
    lowest_point: float
    slip_a: float
    slip_b: float
    time: Array
    tension_a: Array
    tension_b: Array
    leash_force: Array
    tie_in_x: Array
    tie_in_z: Array
    ring_x: Array
    ring_z: Array
    energy_error: float


def _slow_law(webbing: Webbing) -> dict[str, PPoly]:
    """Slow law in straight pieces, 4000 along a table: pull [N] and stored [J/m] over strain, strain over pull [N]."""
    if webbing.stiffness is not None:
        tension, strain = np.array([0.0, FAR_TENSION]), np.array([0.0, FAR_TENSION / webbing.stiffness])
    else:
        rows = np.array([webbing.tension, webbing.strain])
        rows = rows if rows[0, 0] == 0.0 else np.insert(rows, 0, 0.0, axis=1)
        ends = -rows[:, 1], rows, 2.0 * rows[:, -1] - rows[:, -2]  # a row more at both ends, straight on
        curve, last = PchipInterpolator(*np.column_stack(ends)), rows[0, -1]
        tension = np.append(np.linspace(0.0, last, 4001), FAR_TENSION)
        strain = np.append(curve(tension[:-1]), curve(last) + (FAR_TENSION - last) * curve(last, 1))
    slope = np.diff(tension) / np.diff(strain)
    pull, back = PPoly([slope, tension[:-1]], strain), PPoly([1.0 / slope, strain[:-1]], tension)
    return {"pull": pull, "stored": pull.antiderivative(), "strain": back}


@dataclass(frozen=True, kw_only=True)
class Chain:
    """Elements (n,) from A to B between nodes (n + 1,), and the node of the ring."""

    along: Array  # natural length from A to each node [m]
    mass: Array  # of each node [kg]
    parts: tuple[tuple[slice, dict[str, PPoly]], ...]  # for each segment, its elements and their slow law
    webbing: Array  # (4, n): fast ratio, relaxation time [s], loss time [s], width [m]
    ring: int

    def of(self, curve: str, values: Array, slope: int = 0) -> Array:
        """One curve of the slow law, or its slope, at one value an element; negative values count as 0."""
        return np.concatenate([law[curve](np.maximum(values[part], 0.0), slope) for part, law in self.parts])


def _beside(element: Any, sign: float = 1.0) -> Any:
    """What the element after each node has, plus (or minus) what the one before it has; the anchors have one."""
    return np.append(element, 0.0) + sign * np.append(0.0, element)


def _chain(*, setup: Setup, lengths: Array, elements: int, ring_at: float = 0.0, ring_mass: float = 0.0) -> Chain:
    """Cut the line at the ends of segments and at the ring [m of natural length], each piece in equal elements."""
    ends, webbings = np.cumsum(lengths), [s.webbing for s in setup.rig.segments]
    edges = np.unique([0.0, *ends, *([] if min(abs(ends - ring_at)) < 1e-3 else [ring_at])])  # no sliver at a splice
    counts = [max(1, round(elements * piece / ends[-1])) for piece in np.diff(edges)]
    starts = [np.linspace(a, b, k, endpoint=False) for a, b, k in zip(edges[:-1], edges[1:], counts, strict=True)]
    along = np.append(np.concatenate(starts), ends[-1])
    owner = np.searchsorted(ends, 0.5 * (along[1:] + along[:-1]))
    rows = [(w.fast_ratio, w.relaxation_time, w.loss_time, w.width, w.mass_per_length) for w in webbings]
    *webbing, line = np.array(rows)[owner].T
    mass = _beside(0.5 * np.diff(along) * (line + setup.rig.hung_mass * setup.rig.span / ends[-1]))
    ring = int(np.argmin(abs(along - ring_at)))
    mass[ring] += ring_mass
    first = np.searchsorted(owner, np.arange(len(webbings) + 1))
    parts = tuple((slice(first[i], first[i + 1]), _slow_law(w)) for i, w in enumerate(webbings))
    return Chain(along=along, mass=mass, parts=parts, webbing=np.array(webbing), ring=ring)


def _places(*, chain: Chain, height: float, level: float, load: float = 0.0) -> Points:
    """Nodes at horizontal pull `level` [N], by shooting: from the pull at A, element by element, to B at `height`."""
    weight = GRAVITY * chain.mass[:-1]
    weight[0] = 0.0
    weight[chain.ring] += load

    def nodes(rise: float) -> Points:
        pull = level + 1j * (rise + np.cumsum(weight))
        size = np.abs(pull)
        return np.append(0.0, np.cumsum(np.diff(chain.along) * (1.0 + chain.of("strain", size)) * pull / size))

    most = weight.sum() + 1e3 * level + 1.0
    return nodes(brentq(lambda rise: nodes(rise)[-1].imag - height, -most, most, xtol=1e-12 * most, rtol=1e-14))


def _hanging(*, setup: Setup, chain: Chain, load: float = 0.0) -> Points:
    """The line at rest between its anchors with `load` [N] at the ring: the horizontal pull by a bracketed root."""
    at = partial(_places, chain=chain, height=setup.rig.height_difference, load=load)
    log_level = brentq(lambda u: at(level=np.exp(u))[-1].real - setup.rig.span, np.log(1e-2), np.log(1e7), xtol=1e-13)
    return at(level=np.exp(log_level))


def _alone(*, setup: Setup) -> tuple[Array, float]:
    """Natural lengths of all segments [m], and that from A to the ring, from the line hanging alone, on a fine mesh."""
    rig, level, high = setup.rig, setup.rig.pretension, abs(setup.rig.height_difference)

    def line(free: float) -> Chain:
        return _chain(setup=setup, lengths=np.array([s.length or free for s in rig.segments]), elements=1000)

    def beyond(free: float) -> float:
        return float(_places(chain=line(free), height=rig.height_difference, level=level or 0.0)[-1].real) - rig.span

    least, most = max(0.0, high - sum(s.length or 0.0 for s in rig.segments)) + 1e-3, 2.0 * (rig.span + high)
    if level is not None and not beyond(least) < 0.0 < beyond(most):
        raise ValueError(f"pretension = {level!r} is not possible; allowed: one that some free length fits")
    free = 0.0 if level is None else brentq(beyond, least, most, xtol=1e-12)
    nodes = _hanging(setup=setup, chain=line(free))
    ring_at = np.interp(setup.walker.position * rig.span, nodes.real, line(free).along)
    return np.array([s.length or free for s in rig.segments]), float(ring_at)


class Motion:
    """Chain, walker and energy ledger on their way through time. Places at whole steps, speeds between them."""

    def __init__(self, *, setup: Setup, chain: Chain, places: Points, time_step_factor: float) -> None:
        self.setup, self.chain = setup, chain
        self.fast, self.relaxation, self.loss, self.width = chain.webbing
        self.at, self.speed, self.natural = places, np.zeros_like(places), np.diff(chain.along)
        steepest = np.concatenate([np.full(part.stop - part.start, max(law["pull"].c[0])) for part, law in chain.parts])
        around = _beside(self.fast * steepest / self.natural)
        around[chain.ring] += setup.leash.stiffness
        wave = 2.0 / np.sqrt(np.max(2.0 * around / chain.mass))  # stable below this [s]: Gershgorin's bound
        self.step = step = time_step_factor * min(wave, chain.mass[chain.ring] / max(setup.leash.damping, 1e-9))
        self.share = step / chain.mass
        self.share[[0, -1]], self.taken = 0.0, 0.0  # the anchors do not move; nothing [J] is taken yet by losses
        self.walker, self.walker_speed = complex(places[chain.ring]) + 1j * setup.walker.standing_height, 0j
        self.used_to = chain.of("pull", np.abs(np.diff(places)) / self.natural - 1.0)
        self.limit = np.full(len(self.natural), np.inf)
        self.limit[0], self.limit[-1] = setup.rig.slip_load_a or np.inf, setup.rig.slip_load_b or np.inf
        if np.any(self.used_to > self.limit):
            raise ValueError(f"slip_load_a or _b = {min(self.limit)} is not possible; allowed: above standing tension")

    def kick(self) -> None:
        """Forces now; speeds from half a step ago to half a step ahead; the power [W] that losses take meanwhile."""
        chain, apart = self.chain, self.at[1:] - self.at[:-1]
        length = np.abs(apart)
        self.towards, self.strain = apart / length, length / self.natural - 1.0
        self.slow = chain.of("pull", self.strain)
        self.stiffness = self.fast * chain.of("pull", self.strain, 1) * (self.strain > 0.0)
        self.law = self.slow + (self.fast - 1.0) * (self.slow - self.used_to)
        area, rise = _beside(0.5 * self.width * np.abs(apart.real)), self.speed.imag
        drag = 0.5 * self.setup.air_density * self.setup.drag_coefficient * area * np.abs(rise) * rise
        self.leash, direction, self.leash_stretch = self._leash()
        force: Points = -1j * (GRAVITY * chain.mass + drag)
        force[chain.ring] += self.leash * direction
        self.tension = self._tension(force)
        self.mean, self.walker_mean = 0.5 * self.speed, 0.5 * self.walker_speed
        self.speed = self.speed + self.share * (force + _beside(self.tension * self.towards, -1.0))
        self.walker_speed -= self.step * (self.leash * direction / self.setup.walker.mass + 1j * GRAVITY)
        self.mean, self.walker_mean = self.mean + 0.5 * self.speed, self.walker_mean + 0.5 * self.walker_speed
        stretching = (np.conj(self.towards) * (self.mean[1:] - self.mean[:-1])).real
        parting = (direction.conjugate() * (self.walker_mean - complex(self.mean[chain.ring]))).real
        self.power = float(drag @ self.mean.imag + (self.tension - self.law) @ stretching)
        self.power += (self.leash - self.setup.leash.stiffness * self.leash_stretch) * parting
        self.taken += 0.5 * self.step * self.power

    def _leash(self) -> tuple[float, complex, float]:
        """Force of the leash [N], its direction from ring to walker, its stretch [m]; nothing while it is slack."""
        leash, between = self.setup.leash, self.walker - complex(self.at[self.chain.ring])
        stretch, direction = max(0.0, abs(between) - leash.length), between / (abs(between) or 1.0)
        rate = (direction.conjugate() * (self.walker_speed - complex(self.speed[self.chain.ring]))).real
        return max(0.0, leash.stiffness * stretch + leash.damping * rate * (stretch > 0.0)), direction, stretch

    def _tension(self, force: Points) -> Array:
        """Tension of all elements [N], dashpots included.

        Explicit dashpots would need far smaller steps, so their pulls are solved together with the speeds they lead to,
        a three-banded system. An element that would push, or pull over its slip load, is set to that limit; then again.
        """
        hold, loss = self.law.copy(), self.stiffness * self.loss / self.natural
        bend = self.share[1:-1] * (np.conj(self.towards[1:]) * self.towards[:-1]).real
        around = self.share[1:] + self.share[:-1]
        while True:
            free = self.speed + self.share * (force + _beside(hold * self.towards, -1.0))
            rate = (np.conj(self.towards) * (free[1:] - free[:-1])).real
            pull = dgtsv(-loss[1:] * bend, 1.0 + loss * around, -loss[:-1] * bend, loss * rate)[3]
            tension = np.asarray(hold + pull)
            wrong = (tension < -1e-6) | (tension > self.limit + 1e-6)
            if not wrong.any():
                return tension
            hold[wrong], loss[wrong] = np.clip(tension[wrong], 0.0, self.limit[wrong]), 0.0

    def drift(self) -> None:
        """Places to the next step; the fast part fades; a slipping lock pays out natural length."""
        self.at, self.walker = self.at + self.step * self.speed, self.walker + self.step * self.walker_speed
        self.taken += 0.5 * self.step * self.power
        if np.any(self.fast > 1.0):
            change = self.step * (self.slow - self.used_to) / self.relaxation
            gap = self.strain - self.chain.of("strain", self.used_to)
            self.taken += float(((self.fast - 1.0) * gap * change) @ self.natural)
            self.used_to = self.used_to + change
        for end in np.flatnonzero(self.tension >= self.limit):  # pays out until law and dashpot give the slip load:
            stiffness = self.stiffness[end] * (1.0 + self.loss[end] / self.step)  # law + stiffness * change = limit
            strain = self.strain[end] + (self.limit[end] - self.law[end]) / stiffness
            paid = max(0.0, abs(self.at[end + 1] - self.at[end]) / (1.0 + strain) - self.natural[end])
            self.taken += paid * (self.law[end] * (1.0 + self.strain[end]) - self._stored()[end])
            self.natural[end] += paid

    def _stored(self) -> Array:
        """Energy in each element [J/m]: slow law, and the fast part beside it (its own energy less the tangent)."""
        slow, base = self.chain.of("stored", self.strain), self.chain.of("strain", self.used_to)
        arm = slow - self.chain.of("stored", base) - self.used_to * (self.strain - base)
        return np.asarray(slow + (self.fast - 1.0) * arm)

    def row(self, time: float) -> list[float]:
        """Time, pulls at A, B, leash, x and z of walker and ring, and the ledger's sum [J], which should stay."""
        walker, ring, man = self.walker, complex(self.at[self.chain.ring]), self.setup.walker.mass
        moving = 0.5 * float(self.chain.mass @ np.abs(self.mean) ** 2) + 0.5 * man * abs(self.walker_mean) ** 2
        raised = GRAVITY * (float(self.chain.mass @ self.at.imag) + man * walker.imag)
        stored = float(self._stored() @ self.natural) + 0.5 * self.setup.leash.stiffness * self.leash_stretch**2
        forces = [float(self.tension[0]), float(self.tension[-1]), self.leash]
        return [time, *forces, walker.real, walker.imag, ring.real, ring.imag, moving + raised + stored + self.taken]


def _run(*, motion: Motion, duration: float | None) -> Array:
    """Series of the fall, shape (9, times), about every 0.2 ms; ends as `full_fall` says, at the latest after 60 s."""
    every, end, rows, n, caught = max(1, round(2e-4 / motion.step)), duration or 60.0, [], 0, duration is not None
    while (time := n * motion.step) <= end:
        motion.kick()
        if n % every == 0:
            rows.append(motion.row(time))
        if not caught and motion.leash > 0.0 and motion.walker_speed.imag > 0.0:
            caught, end = True, time + 0.3
        motion.drift()
        n += 1
    if not np.all(np.isfinite(rows)):
        raise RuntimeError("the computation blew up; take a smaller time_step_factor")
    return np.array(rows).T


def full_fall(*, setup: Setup, elements: int = 120, time_step_factor: float = 0.5, duration: float | None = None) -> FullFall:
    """The fall of a walker into the leash, node by node.

    mass * acceleration = pulls of both elements + weight + air + leash; pull = max(0, law(strain) + K loss_time rate).
    Parameters: setup; elements along the line; time_step_factor, share of the longest stable step;
    duration [s]; None: until 0.3 s after the walker first moves up again in the leash.
    Returns: FullFall. Raises: ValueError for what is not possible, RuntimeError when the computation blew up.
    Example: 100 m, EA 1.0e6 N, 0.05 kg/m, pretension 3 kN, 80 kg at midspan: 8.8 kN at both anchors.
    """
    asked = ("elements", elements, 8, 5000), ("time_step_factor", time_step_factor, 0.01, 0.8)
    for name, value, low, high in (*asked, ("duration", 60.0 if duration is None else duration, 0.05, 60.0)):
        if not low <= value <= high:
            raise ValueError(f"{name} = {value!r} is not possible; allowed: from {low} to {high}")
    rig, walker, leash = setup.rig, setup.walker, setup.leash
    lengths, ring_at = _alone(setup=setup)
    chain = _chain(setup=setup, lengths=lengths, elements=elements, ring_at=ring_at, ring_mass=leash.ring_mass)
    places = _hanging(setup=setup, chain=chain, load=walker.mass * GRAVITY)
    motion = Motion(setup=setup, chain=chain, places=places, time_step_factor=time_step_factor)
    *rows, energy = _run(motion=motion, duration=duration)
    names = "time", "tension_a", "tension_b", "leash_force", "tie_in_x", "tie_in_z", "ring_x", "ring_z"
    series = dict(zip(names, rows, strict=True))
    lowest, paid = float(series["tie_in_z"].min()), motion.natural - np.diff(chain.along)
    window = round(0.02 / series["time"][1])  # 20 ms
    return FullFall(
        peak_tension_a=float(series["tension_a"].max()),
        peak_tension_b=float(series["tension_b"].max()),
        peak_leash_force=float(np.convolve(series["leash_force"], np.ones(window) / window, mode="valid").max()),
        lowest_point=walker.position * rig.height_difference - lowest,
        slip_a=float(paid[0]),
        slip_b=float(paid[-1]),
        energy_error=float(np.ptp(energy) / (walker.mass * GRAVITY * (series["tie_in_z"][0] - lowest))),
        **series,
    )
