"""The full two-dimensional model when the main webbing parts in one bay of the backup: a second witness for the catch.

At the failure the elements of the bay become elements of the backup: its law, and the natural length of the main webbing
there and the extra length. Ring and bay share it as in linelib, in proportion to natural length; on each side of the ring the
elements share it in proportion to how long they are at that moment, so that none of them is taut at once. Masses stay.
Everything else moves on as in full_model.py, along the line as well as across: what the rest of the line had stored makes it
shoot back, which linelib leaves out.
Leaves out, besides what full_model.py does: the two broken ends, joints that slip. A teaching model: it approves no rig.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from linelib.rigging import Segment, Setup

from .full_model import GRAVITY, Chain, Motion, _alone, _chain, _hanging, _run, _slow_law

Array = NDArray[np.float64]
NAMES = "time", "tension_a", "tension_b", "leash_force", "tie_in_x", "tie_in_z", "ring_x", "ring_z"


@dataclass(frozen=True, kw_only=True)
class FullCatch:
    """Series (times,) in [s], [N], [m]; leash_force is the mean over 20 ms. given_up [J] at the break; natural lengths [m]
    at the end; energy_error: gap of the ledger over the fall energy, what the break gives up counted as taken."""

    lowest_point: float
    given_up: float
    energy_error: float
    time: Array
    tension_a: Array
    tension_b: Array
    leash_force: Array
    tie_in_x: Array
    tie_in_z: Array
    ring_x: Array
    ring_z: Array


@dataclass(frozen=True, kw_only=True)
class Break:
    """What the chain is made of after the failure at `time` [s], arrays (elements,): `bay` (bool), natural lengths [m]."""

    time: float
    chain: Chain
    bay: NDArray[np.bool_]
    natural: Array


class FailingMotion(Motion):
    """A motion whose bay parts at the first step that is not before `broken.time`."""

    def __init__(self, *, broken: Break, **known: Any) -> None:
        super().__init__(**known)
        self.broken, self.now, self.given_up = broken, 0.0, 0.0
        before, after = (max(_steepness(c, n)) for c, n in ((self.chain, self.natural), (broken.chain, broken.natural)))
        slower = min(1.0, (before / after) ** 0.5)  # a backup that is stiffer asks for shorter steps
        self.step, self.share = self.step * slower, self.share * slower
        self.waiting = True

    def kick(self) -> None:
        """The same, with the bay parted first where it is time."""
        if self.waiting and self.now >= self.broken.time:
            self._part()
        super().kick()

    def drift(self) -> None:
        super().drift()
        self.now += self.step

    def _part(self) -> None:
        """From here on the bay is made of the backup, which was used to no pull; what is stored less is given up."""
        held, bay = self._energy(), self.broken.bay
        self.chain, self.waiting = self.broken.chain, False
        self.fast, self.relaxation, self.loss, self.width = self.chain.webbing
        self.natural, self.used_to = self._shared(), np.where(bay, 0.0, self.used_to)
        self.limit[[0, -1]] = np.where(bay[[0, -1]], np.inf, self.limit[[0, -1]])
        self.given_up = held - self._energy()
        self.taken += self.given_up

    def _shared(self) -> Array:
        """Natural lengths of all elements [m] with the backup in the bay: its whole length on each side of the ring is kept."""
        long, natural = np.abs(np.diff(self.at)), self.natural.copy()
        number = np.arange(len(long))
        for side in (number < self.chain.ring, number >= self.chain.ring):
            there = self.broken.bay & side
            if there.any():
                natural[there] = self.broken.natural[there].sum() * long[there] / long[there].sum()
        return natural

    def _energy(self) -> float:
        """Stored in the webbing where it is now [J]."""
        self.strain = np.abs(np.diff(self.at)) / self.natural - 1.0
        return float(self._stored() @ self.natural)


def _steepness(chain: Chain, natural: Array) -> Array:
    """Largest stiffness of each element [N/m]."""
    steepest = [np.full(part.stop - part.start, max(law["pull"].c[0])) for part, law in chain.parts]
    return np.asarray(chain.webbing[0] * np.concatenate(steepest) / natural)


def _cut(setup: Setup) -> tuple[Setup, float, tuple[float, float], Array]:
    """The setup with its segments cut at the ends of the bay; natural length [m] to the ring; to both ends of the bay."""
    rig, failure = setup.rig, setup.failure
    assert rig.backup is not None
    assert failure is not None
    lengths, ring_at = _alone(setup=setup)
    joints = [_alone(setup=replace(setup, walker=replace(setup.walker, position=j)))[1] for j in rig.backup.joints]
    begin, end = [0.0, *joints, lengths.sum()][failure.bay : failure.bay + 2]
    ends = np.cumsum(lengths)
    edges = np.unique(np.round([0.0, *ends, begin, end], 9))
    owner = np.searchsorted(ends, 0.5 * (edges[1:] + edges[:-1]))
    pieces = np.diff(edges)
    segments = tuple(Segment(webbing=rig.segments[i].webbing, length=x) for i, x in zip(owner, pieces, strict=True))
    whole = replace(rig, segments=segments, pretension=None, hung_mass_per_length=rig.hung_mass)
    return replace(setup, rig=whole), ring_at, (begin, end), pieces


def _broken(*, setup: Setup, chain: Chain, bay_ends: tuple[float, float], time: float) -> Break:
    """What becomes of the `chain` when the webbing between `bay_ends` [m of natural length] parts at `time` [s]."""
    backup = setup.rig.backup
    assert backup is not None
    middle, natural = 0.5 * (chain.along[1:] + chain.along[:-1]), np.diff(chain.along)
    bay = (middle > bay_ends[0]) & (middle < bay_ends[1])
    webbing, law = backup.webbing, _slow_law(backup.webbing)
    parts = tuple((part, law if bay[part.start] else own) for part, own in chain.parts)
    row = np.array([webbing.fast_ratio, webbing.relaxation_time, webbing.loss_time, np.nan])[:, None]
    after = np.where(bay & ~np.isnan(row), row, chain.webbing)  # the width stays: broken webbing and backup hang together
    longer = natural * (1.0 + bay * backup.extra_length / natural[bay].sum())
    return Break(time=time, chain=replace(chain, parts=parts, webbing=after), bay=bay, natural=longer)


def full_catch(*, setup: Setup, time: float, duration: float, elements: int = 120, time_step_factor: float = 0.5) -> FullCatch:
    """The fall of a walker whose main line parts at `time` [s] in the bay of `setup.failure`, followed for `duration` [s]."""
    whole, ring_at, bay_ends, lengths = _cut(setup)
    walker, leash = setup.walker, setup.leash
    chain = _chain(setup=whole, lengths=lengths, elements=elements, ring_at=ring_at, ring_mass=leash.ring_mass)
    places = _hanging(setup=whole, chain=chain, load=walker.mass * GRAVITY)
    broken = _broken(setup=setup, chain=chain, bay_ends=bay_ends, time=time)
    motion = FailingMotion(broken=broken, setup=whole, chain=chain, places=places, time_step_factor=time_step_factor)
    *rows, energy = _run(motion=motion, duration=duration)
    series = dict(zip(NAMES, rows, strict=True))
    window = np.ones(round(0.02 / series["time"][1]))
    series["leash_force"] = np.convolve(series["leash_force"], window / window.size, mode="same")
    lowest = float(series["tie_in_z"].min())
    return FullCatch(
        lowest_point=walker.position * setup.rig.height_difference - lowest,
        given_up=motion.given_up,
        energy_error=float(np.ptp(energy) / (walker.mass * GRAVITY * (series["tie_in_z"][0] - lowest))),
        **series,
    )
