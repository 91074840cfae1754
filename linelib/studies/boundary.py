"""Two choices at once: the line between what meets a limit and what does not, from a grid, each point of it closed in on."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from linelib.checks import number, one_of, refuse, rising
from linelib.studies.close_in import close_in
from linelib.studies.costs import ask, names_of
from linelib.studies.knobs import Knob
from linelib.studies.outcomes import Case, Link

Array = NDArray[np.float64]
Point = tuple[float, float]


@dataclass(frozen=True, kw_only=True)
class Boundary:
    """A grid of two choices `x` (columns,), `y` (rows,) [as asked] and the `outcome` there (rows, columns), nan where there is
    no answer; `pieces` of the boundary, pairs of points (x, y), where the outcome is the `limit` to 0.1 % or jumps across it.
    """

    limit: float
    x: Array
    y: Array
    outcome: Array
    pieces: tuple[tuple[Point, Point], ...]


def boundary(*, outcome: Callable[[Array, Array], Array], limit: float, x: ArrayLike, y: ArrayLike) -> Boundary:
    """Where `outcome`, any function of a batch of two choices, is `limit`.

    The grid is one batch. Every edge of it that the limit crosses is closed in on, along its row or column; in each cell the
    points on its edges are joined. A cell crossed on all four edges is joined by the mean of its corners.

    Parameters: outcome : x (n,), y (n,) to outcomes (n,), nan where there is no answer; limit [as outcome]; x, y : rising
    values from 0 up [as asked].
    Returns: Boundary [as asked].
    Raises: ValueError without a limit, or for values that do not rise.
    Example: x + y at 1 on 0, 0.4, 1: points such as (0.4, 0.6).
    Leaves out: what happens inside a cell without showing at its corners.
    Source: closing in as studies/close_in.py; cells joined as in marching squares, from memory.
    """
    if limit is None:
        raise refuse("limit", limit, "a number of your own; none is given here")
    limit = number("limit", limit, low=-1e12, high=1e12)
    across, up = np.array(rising("x", x)), np.array(rising("y", y))
    flat = [of.ravel() for of in np.meshgrid(across, up)]
    found = np.asarray(outcome(*flat), float).reshape(len(up), len(across))
    edges = _edges(found, limit)
    begin = np.array([[across[i], up[j]] for j, i, _ in edges]).reshape(-1, 2)
    end = np.array([[across[i + 1 - down], up[j + down]] for j, i, down in edges]).reshape(-1, 2)

    def miss(share: Array, which: NDArray[np.intp]) -> Array:
        at = begin[which] + share[:, None] * (end[which] - begin[which])
        return np.asarray(outcome(at[:, 0], at[:, 1]), float) - limit

    ends = [np.array([found[j + d * more, i + (1 - d) * more] for j, i, d in edges]) - limit for more in (0, 1)]
    zero, one = np.zeros(len(edges)), np.ones(len(edges))
    roots = close_in(miss=miss, low=zero, high=one, at_low=ends[0], at_high=ends[1], scale=max(abs(limit), 1e-9))
    points = begin + roots.value[:, None] * (end - begin)
    at = {edge: (float(p[0]), float(p[1])) for edge, p in zip(edges, points, strict=True) if np.all(np.isfinite(p))}
    pieces = [piece for j in range(len(up) - 1) for i in range(len(across) - 1) for piece in _cell(found, limit, at, j, i)]
    return Boundary(limit=limit, x=across, y=up, outcome=found, pieces=tuple(pieces))


def of_two(
    *, now: Case, first: Knob, second: Knob, outcome: str, links: tuple[Link, ...] = ()
) -> Callable[[Array, Array], Array]:
    """`outcome` as a function of a batch of two choices: the first sets the case, the second sets it further.

    Both are knobs on the case `now`, each setting what the other leaves; nan where a pair cannot be rigged or has no answer.

    Returns: function of two arrays (n,) [as the knobs' units].
    Raises: ValueError for one choice twice or an unknown outcome; when asked, for a pair bought with slip or less tension.
    Source: studies/outcomes.py.
    """
    if first.name == second.name:
        raise refuse("second", second.name, "another choice than the first")
    one_of("outcome", outcome, names_of(links))

    def asked(x: Array, y: Array) -> Array:
        pairs = zip(x, y, strict=True)
        makers = [lambda one=one, other=other: _both(now, (first, one), (second, other)) for one, other in pairs]
        owners = [f"{first.name} with {second.name}"] * len(x)
        return ask(now=now, makers=makers, owners=owners, links=links)[outcome]

    return asked


def _both(now: Case, one: tuple[Knob, float], other: tuple[Knob, float]) -> Case:
    """Both set, in the order that can be rigged on the way: a leash is made longer before the stance is raised."""
    (first, x), (second, y) = one, other
    try:
        return second.on(first.on(now, float(x)), float(y))
    except ValueError:
        return first.on(second.on(now, float(y)), float(x))


def _edges(found: Array, limit: float) -> list[tuple[int, int, int]]:
    """Edges of the grid that are crossed: row, column of their begin, and whether they go up a row (1) or across (0)."""
    beyond, known = found > limit, np.isfinite(found)
    across = (beyond[:, :-1] != beyond[:, 1:]) & known[:, :-1] & known[:, 1:]
    up = (beyond[:-1] != beyond[1:]) & known[:-1] & known[1:]
    return [(int(j), int(i), d) for d, crossed in ((0, across), (1, up)) for j, i in zip(*np.nonzero(crossed), strict=True)]


def _cell(found: Array, limit: float, at: dict[tuple[int, int, int], Point], j: int, i: int) -> list[tuple[Point, Point]]:
    """Pieces in the cell whose lowest corner is row `j`, column `i`; none where a corner has no answer."""
    corners = found[j : j + 2, i : i + 2]
    low, left, high, right = (at.get(edge) for edge in ((j, i, 0), (j, i, 1), (j + 1, i, 0), (j, i + 1, 1)))
    there = [point for point in (low, left, high, right) if point is not None]
    if not np.all(np.isfinite(corners)) or len(there) not in (2, 4):
        return []
    if len(there) == 2:
        return [(there[0], there[1])]
    alike = (corners.mean() > limit) == (corners[0, 0] > limit)  # the middle goes with the lowest corner and the one opposite
    return [(low, right), (left, high)] if alike else [(low, left), (high, right)]  # type: ignore[list-item]
