"""The chain a fall is computed on: nodes evenly spaced between anchor and ring, at rest under walker and ring.

Rows of every node array run from anchor A over the ring (row `ring`) to anchor B; falls with fewer elements on a side have
rows of no length beside that anchor. Source of the reduction: see models/fall_in_time.py.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace

import numpy as np
from numpy.typing import NDArray

from linelib.checks import refuse
from linelib.models.failure import Broken, broken_of
from linelib.models.fall_energy import highest_tension
from linelib.models.lines import GRAVITY, Lines
from linelib.models.lock_limits import limits_of
from linelib.models.sides import Sides, sides_of
from linelib.models.standing import standing_of
from linelib.rigging import Setup

Array = NDArray[np.float64]
LONGEST_STEP = 9e-3
ELEMENT, LONGEST_ELEMENT, FEWEST, USUAL = 6.0, 12.0, 8, 24


@dataclass(frozen=True, kw_only=True)
class Chain:
    """A batch of lines ready to fall, at rest under the standing walker.

    lines : the same hanging alone; ring : row of the ring; share (elements, falls) : element length over its side's length;
    z (nodes, falls), ring_x (falls,) [m]; mass (nodes, falls), mass_x (falls,) [kg]; drag (nodes, falls) [N s2/m2];
    tension (2, falls) [N]; natural (2, falls) [m], the length of each side's polyline with no tension; loss (2, falls) and
    step (falls,) [s].
    """

    lines: Lines
    sides: Sides
    broken: Broken | None
    span: Array
    rise: Array
    ring: int
    share: Array
    z: Array
    ring_x: Array
    mass: Array
    mass_x: Array
    drag: Array
    tension: Array
    natural: Array
    loss: Array
    step: Array

    def of(self, j: int) -> Chain:
        """Fall number `j` as a batch of one."""
        arrays = {
            f.name: getattr(self, f.name)[..., j : j + 1]
            for f in fields(self)
            if f.name not in ("lines", "sides", "broken", "ring")
        }
        broken = self.broken and self.broken.of(j)
        return Chain(lines=self.lines.of(j), sides=self.sides.of(j), broken=broken, ring=self.ring, **arrays)

    @property
    def plain(self) -> bool:
        """Straight laws without a fast part, and nothing parts: compliance is one number a side, but for slip."""
        return self.broken is None and self.sides.plain


def chain_of(setups: Sequence[Setup], *, refine: float = 1.0) -> Chain:
    """Stand every walker on the line, in balance, and lay the chain along it. `refine` divides the time step [s].

    Raises: ValueError when a rig cannot hang, or a lock would slip while the walker only stands.
    Source: statics of models/hanging_line.py.
    """
    standing = standing_of(setups)
    lines, horizontal, ring_x, ring_z = standing.lines, standing.horizontal, standing.ring_x, standing.ring_z
    sides, broken = broken_of(setups, sides_of(standing.pieces, standing.ring, standing.fails, GRAVITY))
    runs = np.stack([ring_x, lines.span - ring_x])
    share, fraction, rows = _rows(runs, lines.span)
    lengths = share * np.repeat(runs, rows, axis=0)
    tension = horizontal * np.hypot(runs, np.stack([-ring_z, lines.rise - ring_z])) / runs
    strain = sides.table.strain(sides.law, np.broadcast_to(tension, sides.length.shape))[0]
    mass, width = _laid_out(sides, sides.length * (1.0 + strain), fraction, rows)
    z = _balanced(share, mass, lengths, rows, horizontal, ring_z, lines.rise)
    node_mass, mass_x, drag = _nodes(setups, mass, width, lengths, fraction, rows)
    polyline = np.hypot(lengths, np.diff(z, axis=0))
    cosine = np.add.reduceat(share * lengths / np.maximum(polyline, 1e-12), [0, rows[0]], axis=0)
    tension = horizontal / cosine
    _refuse_giving_way(setups, tension)
    used_to = np.broadcast_to(tension, sides.length.shape)
    natural = np.add.reduceat(polyline, [0, rows[0]], axis=0) - sides.stretch(tension, used_to)[0]
    chain = Chain(
        lines=lines,
        sides=sides,
        broken=broken,
        span=lines.span,
        rise=lines.rise,
        ring=rows[0],
        share=share,
        z=z,
        ring_x=ring_x,
        mass=node_mass,
        mass_x=mass_x,
        drag=drag,
        tension=tension,
        natural=natural,
        loss=sides.loss_time(tension, used_to),
        step=np.empty(0),
    )
    step, loss = _time_step(chain, *highest_tension(setups, lines, tension.max(0)), polyline)
    return replace(chain, step=step / refine, loss=loss)


def _rows(runs: Array, span: Array) -> tuple[Array, Array, tuple[int, int]]:
    """Element shares, node fractions (0 anchor .. 1 ring), and the number of rows on each side."""
    total = np.maximum(np.clip(np.ceil(span / ELEMENT), FEWEST, USUAL), np.ceil(span / LONGEST_ELEMENT))
    count = np.floor(total * runs / runs.sum(0) + 0.500001)  # halves always up: rounding must not choose
    count = np.maximum(np.maximum(count, np.ceil(runs / LONGEST_ELEMENT)), 2).astype(int)
    rows = (int(count[0].max()), int(count[1].max()))
    from_a = np.arange(rows[0])[:, None] >= rows[0] - count[0]
    from_b = np.arange(rows[1])[:, None] < count[1]
    share = np.concatenate([from_a / count[0], from_b / count[1]])
    to_ring = np.cumsum(share[: rows[0]], axis=0)
    from_ring = np.cumsum(share[rows[0] :][::-1], axis=0)[::-1]
    none = np.zeros((1, share.shape[1]))
    fraction = np.concatenate([none, to_ring[:-1], none + 1.0, from_ring[1:], none])
    return share, fraction, rows


def _laid_out(sides: Sides, stretched: Array, fraction: Array, rows: tuple[int, int]) -> tuple[Array, Array]:
    """Mass [kg] and mean width [m] of every element: the pieces' stretched lengths laid along each side."""
    begin = np.cumsum(stretched, axis=0) - stretched
    whole = stretched.sum(0)
    mass, width = [], []
    for side, nodes in ((0, fraction[: rows[0] + 1]), (1, fraction[rows[0] :])):
        reached = nodes[:, None] * whole[side] - begin[:, side]
        part = np.clip(reached / np.maximum(stretched[:, side], 1e-12), 0.0, 1.0)
        covered = np.abs(np.diff(part, axis=0))
        mass.append((covered * sides.mass[:, side]).sum(1))
        across = (covered * stretched[:, side] * sides.width[:, side]).sum(1)
        width.append(across / np.maximum((covered * stretched[:, side]).sum(1), 1e-12))
    return np.concatenate(mass), np.concatenate(width)


def _balanced(
    share: Array, mass: Array, lengths: Array, rows: tuple[int, int], pull: Array, ring_z: Array, rise: Array
) -> Array:
    """Heights of a hanging chain with constant horizontal pull: slope grows by node weight over pull; ends are given."""
    heights = []
    for part, top, bottom in ((slice(0, rows[0]), 0.0 * rise, ring_z), (slice(rows[0], None), ring_z, rise)):
        run, half = lengths[part], 0.5 * mass[part] * GRAVITY
        bend = np.cumsum(half + np.concatenate([0.0 * half[:1], half[:-1]]), axis=0) - half[:1]
        climbed = np.concatenate([0.0 * run[:1], np.cumsum(run * bend / pull, axis=0)])
        along = np.concatenate([0.0 * run[:1], np.cumsum(share[part], axis=0)])
        heights.append(top + climbed + along * (bottom - top - climbed[-1]))
    return np.concatenate([heights[0], heights[1][1:]])


def _nodes(
    setups: Sequence[Setup], mass: Array, width: Array, lengths: Array, fraction: Array, rows: tuple[int, int]
) -> tuple[Array, Array, Array]:
    """Node masses, the ring's mass in x, and drag factors: half of each element to each of its nodes; anchors do not move."""
    ring_mass = np.array([s.leash.ring_mass for s in setups])
    air = np.array([0.5 * s.air_density * s.drag_coefficient for s in setups])
    none = np.zeros((1, mass.shape[1]))

    def halves(element: Array) -> Array:
        return 0.5 * (np.concatenate([element, none]) + np.concatenate([none, element]))

    node_mass = halves(mass) * (fraction > 0.0)
    node_mass[rows[0]] += ring_mass
    return node_mass, (node_mass * fraction**2).sum(0), air * halves(width * lengths)


def _refuse_giving_way(setups: Sequence[Setup], tension: Array) -> None:
    for j, setup in enumerate(setups):
        if setup.failure and setup.failure.tension and setup.failure.tension <= (least := float(tension[:, j].max())):
            raise refuse(
                "tension", setup.failure.tension, f"more than with the walker standing, {least:.0f} N, where it would part"
            )
        for name, limits, standing in zip(("slip_load_a", "slip_load_b"), limits_of(setup), tension[:, j], strict=True):
            if limits and (load := limits[0][0]) <= standing:
                name = name if load == getattr(setup.rig, name) else "tears[0].tension"
                raise refuse(name, load, f"more than the tension with the walker standing, {standing:.0f} N")


def _time_step(chain: Chain, highest: Array, deepest: Array, lengths: Array) -> tuple[Array, Array]:
    """Time step [s] well inside the limit (0.9 of it), and loss time of each side [s], (2, falls).

    Symplectic Euler with a dashpot that lags a step: (waves + stretch) dt^2 + 2 loss_time stretch dt <= 4, squares of
    angular frequencies, each from above (Gershgorin); the sum again is from above. A side so short that its dashpot would
    more than half damp the ring on it gets half damping: there the loss time means nothing any more and costs steps.
    """
    stiff = np.where(lengths > 0.0, 1.0 / np.maximum(lengths, 1e-12), 0.0)
    inner = (stiff[1:] + stiff[:-1]) / np.maximum(chain.mass[1:-1], 1e-12)
    waves = 2.0 * highest * np.where((stiff[1:] > 0.0) & (stiff[:-1] > 0.0), inner, 0.0).max(0)
    used_to = np.broadcast_to(chain.tension, chain.sides.length.shape)
    under = np.broadcast_to(highest, chain.tension.shape)
    give = chain.sides.stretch(under, used_to)[1]
    if chain.broken is not None:
        give = np.minimum(give, chain.broken.sides.stretch(under, used_to)[1])
    run = np.stack([chain.ring_x, chain.span - chain.ring_x])
    steep = deepest**2 / (deepest**2 + run**2)
    stretch = (1.0 / chain.mass_x + steep / chain.mass[chain.ring]) / give
    loss = np.minimum(chain.loss, 1.0 / np.sqrt(stretch))
    dashed = (loss * stretch).sum(0)
    both = waves + stretch.sum(0)
    return np.minimum(LONGEST_STEP, (np.sqrt(dashed**2 + 3.24 * both) - dashed) / both), loss
