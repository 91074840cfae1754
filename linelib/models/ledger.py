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
from linelib.models.side_alone import SETTLE
from linelib.models.sides import Sides
from linelib.rigging import Setup

Array = NDArray[np.float64]
BLOCK, AT_ONCE = 16, 60_000  # steps, numbers looked at together: few enough to stay in the processor's cache


@dataclass(frozen=True, kw_only=True)
class Ledger:
    """Energies [J] over `time` [s], arrays (times,) (of a batch: (times, falls)); the first entry is the standing line.

    Where it is: kinetic_line, kinetic_ring, kinetic_walker, gravity (0 at the start), strain_a, strain_b (webbing of each
    side, its fast part included), strain_leash. Who has taken it, so far: lost_webbing, lost_leash, lost_air, lost_slip, and
    lost_break: what a main line that parts has stored and gives to nobody.
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
    lost_break: Array

    @property
    def total(self) -> Array:
        """Sum of all entries [J]; a correct fall keeps it at its first value."""
        return sum((getattr(self, f.name) for f in fields(self) if f.name != "time"), np.zeros_like(self.gravity))

    @property
    def lost(self) -> tuple[Array, ...]:
        """What webbing, leash, air, slip and a break have taken so far [J]; a correct fall gives none of it back."""
        return self.lost_webbing, self.lost_leash, self.lost_air, self.lost_slip, self.lost_break

    def of(self, fall: int, times: int) -> Ledger:
        """The first `times` entries of one fall of a batch."""
        return replace(self, **{f.name: getattr(self, f.name)[:times, fall] for f in fields(self)})


def ledger_of(*, march: March, chain: Chain, setups: Sequence[Setup]) -> Ledger:
    """Write the ledger of a batch at every step up to the last that belongs to any of its falls.

    Returns: Ledger with arrays (1 + steps, falls) [J]. Source: definitions of work and energy.
    """
    end = int(march.last.max()) + 1
    some = max(BLOCK, AT_ONCE // march.places[0].size)
    masses = np.array([[s.leash.ring_mass, s.walker.mass] for s in setups]).T
    line = chain.mass.copy()
    line[chain.ring] -= masses[0]
    spans = [slice(begin, min(begin + some, end)) for begin in range(1, end, some)]
    blocks = [_energies(march, chain, line, masses, span) for span in spans]
    entries = {name: np.concatenate([block[name] for block in blocks]) for name in blocks[0]}
    none = np.zeros_like(chain.step)
    first = chain.sides.energy(march.elastic[0], march.used_to[0]).sum(-3)
    entries["time"] = (np.arange(1, end)[:, None] - 0.5) * chain.step
    for name in ("lost_air", "lost_break"):
        entries[name] = np.cumsum(entries[name], axis=0)
    entries["strain_leash"] = _spring(march.leash_long[1:end], setups)
    entries.update(_losses(march, chain, setups, end))
    begins = {"strain_a": first[0], "strain_b": first[1]}
    return Ledger(**{name: np.concatenate([begins.get(name, none)[None], later]) for name, later in entries.items()})


def _energies(march: March, chain: Chain, line: Array, masses: Array, steps: slice) -> dict[str, Array]:
    """Energies of motion, height and webbing half a step before each of the `steps`, and what the air takes in it [J].

    Each (steps, falls); `line` (nodes, falls) and `masses` of ring and walker (2, falls) [kg].
    """
    places = march.places[steps.start - 1 : steps.stop]
    speed = (places[1:] - places[:-1]) / chain.step
    now = 0.5 * (places[1:] + places[:-1])
    ring, count, rest = chain.ring, len(chain.z), march.places[0]
    ring_mass, walker = masses
    ups, along = speed[:, :count], speed[:, -3]
    sunk = np.einsum("snf,nf->sf", now[:, :count] - rest[:count], line)
    sunk += ring_mass * (now[:, ring] - rest[ring]) + walker * (now[:, -1] - rest[-1])
    strain, given_up = _strain(march, chain, steps, _lengths(now, chain))
    moving = np.einsum("snf,snf,nf->sf", ups, ups, line) + (chain.mass_x - ring_mass) * along**2
    return {
        "kinetic_line": 0.5 * moving,
        "kinetic_ring": 0.5 * ring_mass * (speed[:, ring] ** 2 + along**2),
        "kinetic_walker": 0.5 * walker * (speed[:, -1] ** 2 + speed[:, -2] ** 2),
        "gravity": GRAVITY * sunk,
        "strain_a": strain[:, 0],
        "strain_b": strain[:, 1],
        "lost_air": _air(march, chain, steps, ups),
        "lost_break": given_up,
    }


def _lengths(places: Array, chain: Chain) -> Array:
    """Lengths of the sides' polylines [m] at places half way between two steps, (steps, 2, falls)."""
    rise = np.diff(places[:, : len(chain.z)], axis=1)
    run = np.empty_like(rise)
    run[:, : chain.ring] = chain.share[: chain.ring] * places[:, None, -3]
    run[:, chain.ring :] = chain.share[chain.ring :] * (chain.span - places[:, None, -3])
    long = np.sqrt(rise * rise + run * run)
    return np.stack([long[:, : chain.ring].sum(1), long[:, chain.ring :].sum(1)], axis=1)


def _so_far(taken: Array) -> Array:
    """Sum of what was `taken` in steps 1, 2, ... until half of each; first axis time."""
    return np.cumsum(taken, axis=0) - 0.5 * taken


def _air(march: March, chain: Chain, steps: slice, speed: Array) -> Array:
    """What the air takes in each of the `steps` [J]: the drag c |v| v' over the mean of speeds v before and v' after."""
    if not np.any(chain.drag):
        return np.zeros_like(speed[:, 0])
    begin, nodes = steps.start, len(chain.z)
    first = march.places[max(begin - 2, 0) : begin, :nodes]
    before = np.concatenate([np.diff(first, axis=0, prepend=first[: int(begin == 1)]) / chain.step, speed[:-1]])
    mean = (before + speed) * speed
    mean *= np.abs(before)
    return np.asarray(np.einsum("snf,nf->sf", mean, 0.5 * chain.step * chain.drag))


def _strain(march: March, chain: Chain, steps: slice, length: Array) -> tuple[Array, Array]:
    """Energy in the webbing of each side half a step before each of the `steps`, (steps, 2, falls), and what a main line that
    parted there gives up at once, (steps, falls) [J]."""
    before, number = slice(steps.start - 1, steps.stop - 1), np.arange(steps.start, steps.stop)[:, None]
    paid, tension = (0.5 * (row[steps] + row[before]) for row in (march.paid, march.elastic))
    used_to = march.used_to
    used = used_to if len(used_to) == 1 else 0.5 * (used_to[steps] + used_to[before])
    none = np.zeros_like(length[:, 0])
    if chain.broken is None:
        return _stored(chain.sides, chain.natural, paid, tension, used, length, 1), none
    parting, fails = (number == march.broke + 1)[:, None, None], chain.sides.fails
    used_then, used_after = (np.where(parting & fails, used_to[at], used) for at in (before, steps))
    held = _stored(chain.sides, chain.natural, paid, tension, used_then, length, SETTLE)
    left = np.where(chain.broken.at_anchor, 0.0, paid)
    after = _stored(chain.broken.sides, chain.natural + chain.broken.longer, left, tension, used_after, length, SETTLE)
    given_up = np.where(number == march.broke + 1, (held - after).sum(1), none)
    return np.where((number > march.broke)[:, None], after, held), given_up


def _stored(sides: Sides, natural: Array, paid: Array, tension: Array, used: Array, length: Array, rounds: int) -> Array:
    """Energy stored in the webbing of each side [J] at its `length` [m], Newton from `tension` [N], (steps, 2, falls)."""
    sides = sides.grown(paid)
    for _ in range(rounds):
        stretch, compliance = sides.stretch(tension, used)
        tension = np.maximum(tension + (length - natural - paid - stretch) / compliance, 0.0)
    return np.asarray(sides.energy(tension, used).sum(-3))


def _spring(long: Array, setups: Sequence[Setup]) -> Array:
    """Energy in the leash [J] at its length [m]."""
    stretch = np.maximum(long - np.array([s.leash.length for s in setups]), 0.0)
    return np.asarray(0.5 * np.array([s.leash.stiffness for s in setups]) * stretch**2)


def _losses(march: March, chain: Chain, setups: Sequence[Setup], end: int) -> dict[str, Array]:
    """What webbing, leash and slip have taken until half a step before each of the steps 1 to `end` - 1 [J], (steps, falls)."""
    spring = _spring(march.leash_long[:end], setups)
    pulled = march.leash[1:end] * np.diff(march.leash_long[:end], axis=0)
    leash = np.cumsum(pulled, axis=0) - (spring[1:] - spring[0])
    dashed = march.pull[:end] - march.elastic[:end]
    apart = np.diff(march.length[:end], axis=0)
    # the dashpot's force of a step acts over half of the way before it and half of the way after it
    mean, change = (0.5 * (dashed[:-1] + dashed[1:]) * apart).sum(1), ((dashed[:-1] - dashed[1:]) * apart).sum(1)
    webbing = _so_far(mean) + 0.25 * change
    slip = np.zeros_like(webbing)
    if np.any(march.paid):
        out = np.diff(march.paid[:end], axis=0)
        used_to = march.used_to[1:end] if len(march.used_to) > 1 else march.used_to
        q = chain.sides.used(march.pull[1:end], used_to)[..., 0, :, :]
        law, table = chain.sides.law[0], chain.sides.table
        moved = out * (1.0 + table.strain(law, q)[0])
        slip = _so_far((march.pull[1:end] * moved - table.energy(law, q) * out).sum(1))
        webbing -= _so_far((dashed[1:] * moved).sum(1))
    return {"lost_webbing": webbing + _arm_loss(march, chain, end), "lost_leash": leash, "lost_slip": slip}


def _arm_loss(march: March, chain: Chain, end: int) -> Array | float:
    """What the fast part of the webbing has turned into heat: (r - 1) (C(q) - C(s)) ds over the natural length."""
    if len(march.used_to) == 1:
        return 0.0
    used_to, paid, elastic = march.used_to[:end], march.paid[:end], march.elastic[:end]

    def heated(sides: Sides, paid: Array) -> Array:
        grown = sides.grown(paid)
        gap = grown.table.strain(sides.law, grown.used(elastic, used_to))[0]
        return np.asarray((gap - grown.table.strain(sides.law, used_to)[0]) * grown.length * (sides.ratio - 1.0))

    gap, faded = heated(chain.sides, paid), np.diff(used_to, axis=0)
    if chain.broken is not None:
        parted = (np.arange(end)[:, None] > march.broke)[:, None, None]
        after = heated(chain.broken.sides, np.where(chain.broken.at_anchor, 0.0, paid))
        gap = np.where(parted & chain.sides.fails, after, gap)
        faded[(np.diff(parted.astype(int), axis=0) > 0) & chain.sides.fails] = 0.0
    return _so_far((0.5 * (gap[1:] + gap[:-1]) * faded).sum((1, 2)))
