"""The exact elastic hanging line, many rigs at once: pieces from A to B, each with weight, stretch and a load at its end.

Unknown is the pull at anchor A: H horizontal, V downward. Along a piece H stays, V falls by the weight passed, so

    x = integral of (1 + strain(T)) H / T,   y = integral of (1 + strain(T)) V / T   over the natural length,  T^2 = H^2 + V^2

The part with 1 is the inextensible catenary in closed form; the part with the strain is integrated by Gauss points
(exact for a straight law). Where the far end lands must be anchor B: two equations, Newton with step halving. The pull is the
minimum of a convex complementary energy, so there is one answer, taut or slack.

Source: Irvine (1981), Cable Structures, elastic catenary with point loads.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from linelib.models.law_table import Indices, LawTable

Array = NDArray[np.float64]
NODES, WEIGHTS = np.polynomial.legendre.leggauss(6)
NODES, WEIGHTS = 0.5 * (NODES[:, None, None] + 1.0), 0.5 * WEIGHTS[:, None, None]


@dataclass(frozen=True, kw_only=True)
class Pieces:
    """Pieces of a batch of lines, arrays (pieces, rigs): natural `length` [m], `weight` [N per metre of natural length],
    `law` (row of the table) and `load` [N] hung at the end of the piece."""

    table: LawTable
    length: Array
    weight: Array
    law: Indices
    load: Array


@dataclass(frozen=True, kw_only=True)
class Landing:
    """Where each piece ends under a pull (H, V): arrays (pieces, rigs) of x, y [m, y down], V at its start and end [N],
    and the flexibilities xx, xy, yy [m/N] of each piece."""

    x: Array
    y: Array
    start: Array
    end: Array
    xx: Array
    xy: Array
    yy: Array


def land(pieces: Pieces, horizontal: Array, vertical: Array) -> Landing:
    """Follow the line from A under the pull (horizontal, vertical) [N], arrays (rigs,).

    Source: Irvine (1981), Cable Structures (module text).
    """
    length, weight = pieces.length, pieces.weight
    passed = weight * length
    before = np.cumsum(passed + pieces.load, axis=0) - passed - pieces.load
    start = vertical - before
    end = start - passed
    t0, t1 = np.hypot(horizontal, start), np.hypot(horizontal, end)
    bent_x, bent_y = _inextensible(horizontal, start, end, t0, t1, length, weight)
    v = start - passed * NODES
    t = np.hypot(horizontal, v)
    strain, compliance = pieces.table.strain(pieces.law, t)
    cos, sin, ds = horizontal / t, v / t, WEIGHTS * length
    turn = (1.0 + strain) / t * ds
    give = compliance * ds
    cross = ((give - turn) * cos * sin).sum(0)
    return Landing(
        x=np.cumsum(bent_x + (strain * cos * ds).sum(0), axis=0),
        y=np.cumsum(bent_y + (strain * sin * ds).sum(0), axis=0),
        start=start,
        end=end,
        xx=(turn * sin**2 + give * cos**2).sum(0),
        xy=cross,
        yy=(turn * cos**2 + give * sin**2).sum(0),
    )


def _inextensible(h: Array, v0: Array, v1: Array, t0: Array, t1: Array, length: Array, weight: Array) -> tuple[Array, Array]:
    """Closed form without cancellation: asinh a - asinh b = asinh((a - b)(a + b)/(a sqrt(1+b^2) + b sqrt(1+a^2)))."""
    same_way = v0 * v1 > 0.0
    bottom = np.where(same_way, v0 * t1 + v1 * t0, 1.0)
    apart = np.arcsinh(v0 / h) - np.arcsinh(v1 / h)
    turned = np.where(same_way, np.arcsinh(weight * length * (v0 + v1) / bottom), apart)
    flat = weight * length < 1e-12 * t0
    x = np.where(flat, length * h / t0, h / weight * turned)
    return x, length * (v0 + v1) / (t0 + t1)


def solve_pull(pieces: Pieces, *, span: Array, rise: Array) -> tuple[Array, Array]:
    """The pull (H, V) [N] at anchor A of every line, arrays (rigs,); B lies `span` away and `rise` higher [m].

    Raises: ValueError when no balance is found.
    Source: Irvine (1981); convexity as in any elastic cable (complementary energy).
    """
    chord = np.hypot(span, rise)
    weight = (pieces.weight * pieces.length + pieces.load).sum(0)
    pull = _first_pull(pieces, chord, weight)
    cos = span / chord

    def miss(u: Array) -> tuple[Array, Array]:
        landing = land(pieces, u[0], u[1])
        matrix = np.array([[landing.xx.sum(0), landing.xy.sum(0)], [landing.xy.sum(0), landing.yy.sum(0)]])
        return np.array([landing.x[-1] - span, landing.y[-1] + rise]), matrix

    first = np.array([pull * cos, -pull * rise / chord + _lever(pieces)])
    found = _newton(miss, first, scale=chord, floor=0.2)
    return found[0], found[1]


def solve_length(pieces: Pieces, *, free: Indices, horizontal: Array, span: Array, rise: Array) -> tuple[Array, Array]:
    """Natural length [m] of piece `free` for which the line hangs with the given horizontal tension [N]; arrays (rigs,).

    Returns: length [m], V at A [N].
    Raises: ValueError when the other pieces alone already reach across.
    Source: as `solve_pull`, with the length as unknown in the place of H.
    """
    chord, column = np.hypot(span, rise), np.arange(len(span))
    later = np.arange(len(pieces.length))[:, None] > free

    def with_length(length: Array) -> Pieces:
        lengths = pieces.length.copy()
        lengths[free, column] = length
        return replace(pieces, length=lengths)

    def miss(u: Array) -> tuple[Array, Array]:
        trial = with_length(u[0])
        landing = land(trial, horizontal, u[1])
        end = landing.end[free, column]
        t = np.hypot(horizontal, end)
        grown = 1.0 + trial.table.strain(trial.law[free, column], t)[0]
        less = trial.weight[free, column]
        dx = grown * horizontal / t - less * (landing.xy * later).sum(0)
        dy = grown * end / t - less * (landing.yy * later).sum(0)
        matrix = np.array([[dx, landing.xy.sum(0)], [dy, landing.yy.sum(0)]])
        return np.array([landing.x[-1] - span, landing.y[-1] + rise]), matrix

    pull = horizontal * chord / span
    stretched = pieces.length * (1.0 + pieces.table.strain(pieces.law, np.broadcast_to(pull, pieces.length.shape))[0])
    stretched[free, column] = 0.0
    own = 1.0 + pieces.table.strain(pieces.law[free, column], pull)[0]
    mean = pieces.weight[free, column]
    curved = np.hypot(rise, 2.0 * horizontal / mean * np.sinh(np.minimum(mean * span / (2.0 * horizontal), 20.0)))
    guess = (curved - stretched.sum(0)) / own
    if np.any(guess <= 1e-3):
        worst = float(guess.min())
        raise ValueError(
            f"length = {worst:.3g} m left for the segment without one is not possible; allowed: more than 0.001 m "
            "(the other segments already reach across: shorten one or raise the span)"
        )
    weight = (with_length(guess).weight * with_length(guess).length).sum(0)
    first = np.array([guess, -horizontal * rise / span + 0.5 * weight])
    found = _newton(miss, first, scale=chord, floor=0.2)
    return found[0], found[1]


def _first_pull(pieces: Pieces, chord: Array, weight: Array) -> Array:
    """A first guess of the pull: straight and stretched, or hanging; Newton does the rest."""
    natural = pieces.length.sum(0)
    slack = natural / chord - 1.0
    soft = (pieces.length * pieces.table.strain(pieces.law, np.full(pieces.length.shape, 1e3))[0]).sum(0) / 1e3
    hanging = (natural / soft * weight**2 / 24.0) ** (1.0 / 3.0)
    loose = weight / np.sqrt(24.0 * np.maximum(slack, 1e-12))
    return np.where(slack > 0.0, np.minimum(hanging, loose), np.maximum(hanging, -slack * chord / soft)) + 1e-9


def _lever(pieces: Pieces) -> Array:
    """Share of the weight carried by A if the line were straight [N]."""
    total = pieces.length.sum(0)
    end = np.cumsum(pieces.length, axis=0)
    own = pieces.weight * pieces.length * (1.0 - (end - 0.5 * pieces.length) / total)
    return np.asarray((own + pieces.load * (1.0 - end / total)).sum(0))


def _newton(miss: Callable[[Array], tuple[Array, Array]], first: Array, *, scale: Array, floor: float) -> Array:
    """Newton for two unknowns a column; halves the step where the miss does not shrink; u[0] stays positive."""
    u = first
    missed, matrix = miss(u)
    size = np.hypot(*missed) / scale
    for _ in range(200):
        if np.all(size < 1e-12):
            return u
        det = matrix[0, 0] * matrix[1, 1] - matrix[0, 1] * matrix[1, 0]
        step = np.array(
            [
                (matrix[1, 1] * missed[0] - matrix[0, 1] * missed[1]) / det,
                (matrix[0, 0] * missed[1] - matrix[1, 0] * missed[0]) / det,
            ]
        )
        step[:, size < 1e-12] = 0.0
        step *= np.minimum(1.0, (1.0 - floor) * u[0] / np.maximum(step[0], 1e-300))
        share = np.ones_like(size)
        for _ in range(40):
            trial = u - share * step
            new_missed, new_matrix = miss(trial)
            new_size = np.hypot(*new_missed) / scale
            worse = new_size > np.maximum(size, 1e-12)
            if not np.any(worse):
                break
            share = np.where(worse, 0.5 * share, share)
        if np.all(new_size >= size) and np.all(size < 1e-9):
            return u
        u, missed, matrix, size = trial, new_missed, new_matrix, new_size
    if np.all(size < 1e-8):
        return u
    raise ValueError(f"no balance found for the line: the far end misses anchor B by {float(size.max()):.2g} of the span")
