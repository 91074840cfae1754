"""Where a function crosses a limit over a range: all crossings a grid can see, each closed in on; and where it is within."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.checks import number, refuse
from linelib.studies.close_in import Batch, close_in

Array = NDArray[np.float64]
COUNT = 33
MEETS = 1e-3  # of the limit: a root that misses by more is a jump


@dataclass(frozen=True, kw_only=True)
class Crossings:
    """What a grid `over` and the `outcome` there (points,) say of a `limit`; outcomes are nan where there is no answer.

    values : where the limit is met to 0.1 %; jumps : where the function jumps across it; within : ranges (from, to) in which
    the outcome is at or below the limit; unknown : ranges without an answer, at least in part. All [as the values asked].
    """

    limit: float
    over: Array
    outcome: Array
    values: tuple[float, ...]
    jumps: tuple[float, ...]
    within: tuple[tuple[float, float], ...]
    unknown: tuple[tuple[float, float], ...]

    @property
    def never(self) -> bool:
        """No value that has an answer is within the limit."""
        return not self.within


def crossings(*, outcome: Callable[[Array], Array], limit: float, low: float, high: float, count: int = COUNT) -> Crossings:
    """All values from `low` to `high` at which `outcome` meets `limit`, which is the highest that is wanted.

    `outcome` is any function of a batch: values (n,) to outcomes (n,), nan where there is no answer. First a batch of `count`
    values brackets the crossings, then each is closed in on.

    Returns: Crossings [as the values and outcomes asked].
    Raises: ValueError without a limit, or naming what is not possible.
    Example: 2 + 3 x to 5 over 0 to 4: at 1, within from 0 to 1.
    Leaves out: two crossings nearer to each other than a step of the grid, and a limit that is touched only.
    Source: studies/close_in.py.
    """
    low, high = number("low", low, low=-1e12, high=1e12), number("high", high, low=-1e12, high=1e12)
    if not low < high:
        raise refuse("high", high, f"more than low, {low:g}")
    count = int(number("count", count, low=3, high=1000))
    return many_crossings(outcome=lambda v, _: outcome(v), limit=limit, grids=[np.linspace(low, high, count)])[0]


def many_crossings(*, outcome: Batch, limit: float, grids: Sequence[Array]) -> list[Crossings]:
    """`crossings` of many functions at once; `outcome` gets values and, for each, the number of the grid it belongs to.

    Parameters: outcome; limit [as outcome]; grids : rising values, at least two each.
    Returns: Crossings, one a grid [as the values and outcomes asked].
    Raises: ValueError without a limit, or naming what is not possible.
    Source: studies/close_in.py.
    """
    if limit is None:
        raise refuse("limit", limit, "a number of your own; none is given here")
    limit = number("limit", limit, low=-1e12, high=1e12)
    sizes = [len(grid) for grid in grids]
    found = np.asarray(outcome(np.concatenate(grids), np.repeat(np.arange(len(grids)), sizes)), float)
    rows = np.split(found, np.cumsum(sizes)[:-1])
    steps = [(g, i) for g, row in enumerate(rows) for i in range(len(row) - 1) if _crosses(row[i], row[i + 1], limit)]
    line, begin = np.array([g for g, _ in steps], np.intp), [i for _, i in steps]
    scale = max(abs(limit), 1e-9)
    ends = [np.array([of[g][i + more] for g, i in steps]) for of in (grids, rows) for more in (0, 1)]
    roots = close_in(
        miss=lambda v, n: np.asarray(outcome(v, line[n]), float) - limit,
        low=ends[0],
        high=ends[1],
        at_low=ends[2] - limit,
        at_high=ends[3] - limit,
        scale=scale,
    )
    met = np.abs(roots.miss) <= MEETS * scale
    each: list[dict[int, tuple[float, bool]]] = [{} for _ in grids]
    for g, i, value, meets in zip(line, begin, roots.value, met, strict=True):
        each[g][i] = (float(value), bool(meets))
    return [_read(grid, row, limit, at) for grid, row, at in zip(grids, rows, each, strict=True)]


def _crosses(one: float, next_: float, limit: float) -> bool:
    return bool(np.isfinite(one + next_)) and (one > limit) != (next_ > limit)


def _read(grid: Array, row: Array, limit: float, at: dict[int, tuple[float, bool]]) -> Crossings:
    """Walk along the grid, step by step, and join what touches."""
    within: list[tuple[float, float]] = []
    unknown: list[tuple[float, float]] = []
    for i in range(len(grid) - 1):
        begin, end = float(grid[i]), float(grid[i + 1])
        value = at[i][0] if i in at else end
        if not np.isfinite(row[i] + row[i + 1] + value):
            _join(unknown, begin, end)
        elif i not in at:
            _join(within, begin, end) if row[i] <= limit else None
        else:
            _join(within, begin, value) if row[i] <= limit else _join(within, value, end)
    sure = {i: pair for i, pair in at.items() if np.isfinite(pair[0])}
    return Crossings(
        limit=limit,
        over=grid,
        outcome=row,
        values=tuple(value for value, meets in sure.values() if meets),
        jumps=tuple(value for value, meets in sure.values() if not meets),
        within=tuple(within),
        unknown=tuple(unknown),
    )


def _join(ranges: list[tuple[float, float]], begin: float, end: float) -> None:
    if ranges and ranges[-1][1] == begin:
        ranges[-1] = (ranges[-1][0], end)
    else:
        ranges.append((begin, end))
