"""The energy ledger of a fall: where the energy is, and who has taken what, at every stored time.

Speeds live half way between two places, so the ledger is written there: entry n stands at time (n - 1/2) dt.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace

import numpy as np
from numpy.typing import NDArray

from linelib.models.chain import Chain
from linelib.models.lines import GRAVITY
from linelib.models.march import March
from linelib.models.sides import Sides
from linelib.rigging import Setup

Array = NDArray[np.float64]
Indices = NDArray[np.intp]
BLOCK, AT_ONCE = 16, 60_000  # steps, numbers looked at together: few enough to stay in the processor's cache


@dataclass(frozen=True, kw_only=True)
class Ledger:
    """Energies [J] over `time` [s], arrays (times,) (of a batch: (times, falls)); the first entry is the standing line.

    Where it is: kinetic_line, kinetic_ring, kinetic_walker, gravity (0 at the start), strain_a, strain_b (webbing of each
    side, its fast part included), strain_leash. Who has taken it, so far: lost_webbing, lost_leash, lost_air, lost_slip.
    """

    time: Array
    kinetic_line: Array
    kinetic_ring: Array
    kinetic_walker: Array
    gravity: Array
    strain_a: Array
    strain_b: Array
    strain_leash: Array
    lost_webbing: Array
    lost_leash: Array
    lost_air: Array
    lost_slip: Array

    @property
    def total(self) -> Array:
        """Sum of all entries [J]; a correct fall keeps it at its first value."""
        return sum((getattr(self, f.name) for f in fields(self) if f.name != "time"), np.zeros_like(self.gravity))

    @property
    def mismatch(self) -> Array:
        """Largest departure of the total from its first value [J]."""
        return np.asarray(np.abs(self.total - self.total[:1]).max(0))

    def of(self, fall: int, times: int) -> Ledger:
        """The first `times` entries of one fall of a batch."""
        return replace(self, **{f.name: getattr(self, f.name)[:times, fall] for f in fields(self)})


def ledger_of(*, march: March, chain: Chain, setups: Sequence[Setup], steps: Indices) -> Ledger:
    """Write the ledger of a batch at the given `steps`, rising, from 1.

    Returns: Ledger with arrays (1 + steps, falls) [J]. Source: definitions of work and energy.
    """
    some = max(BLOCK, AT_ONCE // march.places[0].size)
    masses = np.array([[s.leash.ring_mass, s.walker.mass] for s in setups]).T
    line = chain.mass.copy()
    line[chain.ring] -= masses[0]
    blocks = [_energies(march, chain, line, masses, steps[begin : begin + some]) for begin in range(0, len(steps), some)]
    energies = {name: np.concatenate([block[name] for block in blocks]) for name in blocks[0]}
    none = np.zeros_like(chain.step)
    first = chain.sides.energy(march.elastic[0], march.used_to[0]).sum(-3)
    entries = {**energies, **_losses(march, chain, setups, steps), "lost_air": _air(march, chain, steps)}
    entries["strain_leash"] = _spring(march.leash_long[steps], setups)
    begins = {"strain_a": first[0], "strain_b": first[1]}
    return Ledger(**{name: np.concatenate([begins.get(name, none)[None], later]) for name, later in entries.items()})


def _energies(march: March, chain: Chain, line: Array, masses: Array, steps: Indices) -> dict[str, Array]:
    """Time [s] and energies of motion, height and webbing [J] half a step before each of the `steps`, (steps, falls) each.

    `line` (nodes, falls) and `masses` of ring and walker (2, falls) [kg].
    """
    after, before = march.places[steps], march.places[steps - 1]
    now, speed = 0.5 * (after + before), (after - before) / chain.step
    ring, count, rest = chain.ring, len(chain.z), march.places[0]
    ring_mass, walker = masses
    ups, along = speed[:, :count], speed[:, -3]
    sunk = np.einsum("snf,nf->sf", now[:, :count] - rest[:count], line)
    sunk += ring_mass * (now[:, ring] - rest[ring]) + walker * (now[:, -1] - rest[-1])
    strain = _strain(march, chain, steps, _lengths(now, chain))
    moving = np.einsum("snf,snf,nf->sf", ups, ups, line) + (chain.mass_x - ring_mass) * along**2
    return {
        "time": (steps[:, None] - 0.5) * chain.step,
        "kinetic_line": 0.5 * moving,
        "kinetic_ring": 0.5 * ring_mass * (speed[:, ring] ** 2 + along**2),
        "kinetic_walker": 0.5 * walker * (speed[:, -1] ** 2 + speed[:, -2] ** 2),
        "gravity": GRAVITY * sunk,
        "strain_a": strain[:, 0],
        "strain_b": strain[:, 1],
    }


def _lengths(places: Array, chain: Chain) -> Array:
    """Lengths of the sides' polylines [m] at places half way between two steps, (steps, 2, falls)."""
    rise = np.diff(places[:, : len(chain.z)], axis=1)
    run = np.empty_like(rise)
    run[:, : chain.ring] = chain.share[: chain.ring] * places[:, None, -3]
    run[:, chain.ring :] = chain.share[chain.ring :] * (chain.span - places[:, None, -3])
    long = np.sqrt(rise * rise + run * run)
    return np.stack([long[:, : chain.ring].sum(1), long[:, chain.ring :].sum(1)], axis=1)


def _grown(sides: Sides, paid: Array) -> Sides:
    """The sides with the webbing paid out through the locks added to the pieces at the anchors."""
    if not np.any(paid):
        return sides
    length = np.repeat(sides.length[None], len(paid), axis=0)
    length[:, 0] += paid
    return replace(sides, length=length)


def _so_far(taken: Array, steps: Indices) -> Array:
    """Sum of what was `taken` in steps 1, 2, ... until half of each of the `steps`, which are rising; first axis time."""
    begins = np.append(0, steps[:-1])
    return np.cumsum(np.add.reduceat(taken, begins, axis=0), axis=0) - 0.5 * taken[steps - 1]


def _air(march: March, chain: Chain, steps: Indices) -> Array:
    """What the air has taken until each of the `steps` [J]: the drag c |v| v' over the mean of speeds v before and v' after."""
    taken = np.zeros((int(steps[-1]), len(chain.step)))
    if np.any(chain.drag):
        nodes, factor = len(chain.z), 0.5 * chain.step * chain.drag
        for begin in range(0, len(taken), BLOCK):
            some = march.places[max(begin - 1, 0) : begin + BLOCK + 1, :nodes]
            speed = np.diff(some, axis=0, prepend=some[: int(begin == 0)]) / chain.step
            mean = (speed[:-1] + speed[1:]) * speed[1:]
            mean *= np.abs(speed[:-1])
            part = np.einsum("snf,nf->sf", mean, factor)
            taken[begin : begin + len(part)] = part[: len(taken) - begin]
    return np.cumsum(np.add.reduceat(taken, np.append(0, steps[:-1]), axis=0), axis=0)


def _strain(march: March, chain: Chain, steps: Indices, length: Array) -> Array:
    """Energy stored in the webbing of each side [J], (steps, 2, falls)."""
    before = steps - 1
    used_to = march.used_to
    used = used_to if len(used_to) == 1 else 0.5 * (used_to[steps] + used_to[before])
    paid = 0.5 * (march.paid[steps] + march.paid[before])
    sides = _grown(chain.sides, paid)
    tension = 0.5 * (march.elastic[steps] + march.elastic[before])
    stretch, compliance = sides.stretch(tension, used)
    tension = np.maximum(tension + (length - chain.natural - paid - stretch) / compliance, 0.0)
    return np.asarray(sides.energy(tension, used).sum(-3))


def _spring(long: Array, setups: Sequence[Setup]) -> Array:
    """Energy in the leash [J] at its length [m]."""
    stretch = np.maximum(long - np.array([s.leash.length for s in setups]), 0.0)
    return np.asarray(0.5 * np.array([s.leash.stiffness for s in setups]) * stretch**2)


def _losses(march: March, chain: Chain, setups: Sequence[Setup], steps: Indices) -> dict[str, Array]:
    """What webbing, leash and slip have taken until half a step before each of the `steps` [J], (steps, falls) each."""
    last = int(steps[-1]) + 1
    spring = _spring(march.leash_long[np.append(0, steps)], setups)
    pulled = march.leash[1:last] * np.diff(march.leash_long[:last], axis=0)
    leash = np.cumsum(np.add.reduceat(pulled, np.append(0, steps[:-1]), axis=0), axis=0) - (spring[1:] - spring[0])
    dashed = march.pull[:last] - march.elastic[:last]
    apart = np.diff(march.length[:last], axis=0)
    # the dashpot's force of a step acts over half of the way before it and half of the way after it
    webbing = (
        _so_far((0.5 * (dashed[:-1] + dashed[1:]) * apart).sum(1), steps)
        + 0.25 * (((dashed[:-1] - dashed[1:]) * apart).sum(1)[steps - 1])
    )
    slip = np.zeros_like(webbing)
    if np.any(march.paid):
        out = np.diff(march.paid[:last], axis=0)
        used_to = march.used_to[1:last] if len(march.used_to) > 1 else march.used_to
        q = chain.sides.used(march.pull[1:last], used_to)[..., 0, :, :]
        law, table = chain.sides.law[0], chain.sides.table
        moved = out * (1.0 + table.strain(law, q)[0])
        slip = _so_far((march.pull[1:last] * moved - table.energy(law, q) * out).sum(1), steps)
        webbing -= _so_far((dashed[1:] * moved).sum(1), steps)
    return {"lost_webbing": webbing + _arm_loss(march, chain.sides, steps), "lost_leash": leash, "lost_slip": slip}


def _arm_loss(march: March, sides: Sides, steps: Indices) -> Array | float:
    """What the fast part of the webbing has turned into heat: (r - 1) (C(q) - C(s)) ds over the natural length."""
    if len(march.used_to) == 1:
        return 0.0
    last = int(steps[-1]) + 1
    used_to = march.used_to[:last]
    grown = _grown(sides, march.paid[:last])
    gap = grown.table.strain(sides.law, grown.used(march.elastic[:last], used_to))[0]
    gap = (gap - grown.table.strain(sides.law, used_to)[0]) * grown.length * (sides.ratio - 1.0)
    return _so_far((0.5 * (gap[1:] + gap[:-1]) * np.diff(used_to, axis=0)).sum((1, 2)), steps)
