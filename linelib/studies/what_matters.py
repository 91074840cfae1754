"""Which unknown matters most: how much of an outcome's variance each input brings, alone and together with the others.

First order: the share of the variance that would go if this input alone became known. Total: the share that would be left if
all others became known. Equal where the input acts by itself; the difference is what it does together with others.

S_i = mean(f(B) (f(AB_i) - f(A))) / var, Saltelli et al. (2010), Comput. Phys. Commun. 181:259, table 2 (b);
ST_i = mean((f(A) - f(AB_i))^2) / (2 var), Jansen (1999), ibid. 117:35, table 2 (f) there; AB_i is A with column i from B.
The same as scipy.stats.sobol_indices (tests/independent_route); its bootstrap takes no seed, so it is done here.
Inputs are independent: for inputs that hang together these shares have no meaning, and none is offered.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from linelib.checks import one_of, refuse
from linelib.studies.draws import Given, cases_at, checked, even_points, power_of_two
from linelib.studies.how_sure import SEED
from linelib.studies.many_cases import OUTCOMES, Progress, SetupAt, compute_cases

Array = NDArray[np.float64]
Interval = tuple[float, float]
RESAMPLES, LEVEL = 500, 0.95


@dataclass(frozen=True, kw_only=True)
class Matters:
    """One unknown: `first` and `total` [-] with 95 % intervals (bootstrap). Estimates: a small one can come out below 0."""

    name: str
    first: float
    total: float
    first_interval: Interval
    total_interval: Interval


@dataclass(frozen=True, kw_only=True)
class WhatMatters:
    """By outcome: `base` (2, n) at A and B, `mixed` (d, n) at AB; `names` of the d unknowns; `falls` computed for it."""

    names: tuple[str, ...]
    base: Mapping[str, Array]
    mixed: Mapping[str, Array]
    falls: int

    def ranking(self, outcome: str) -> tuple[Matters, ...]:
        """The unknowns, the one with the largest total first. Raises: ValueError when nothing moves the outcome."""
        name = one_of("outcome", outcome, tuple(self.base))
        return indices(names=self.names, base=self.base[name], mixed=self.mixed[name])


def design(*, dimensions: int, count: int, seed: int) -> Array:
    """The points A, B, AB_1 ... AB_d: A and B are halves of one evenly spread sequence in twice as many dimensions.

    Parameters: dimensions d; count n, a power of two; seed.
    Returns: (d + 2, n, d) [-].
    Raises: ValueError naming the argument, its value and what is allowed.
    Source: Saltelli et al. (2010), as in the module text.
    """
    both = even_points(dimensions=2 * dimensions, count=count, scrambles=1, seed=seed)[0]
    a, b = both[:, :dimensions], both[:, dimensions:]
    mixed = [np.where(np.arange(dimensions) == i, b, a) for i in range(dimensions)]
    return np.stack([a, b, *mixed])


def indices(*, names: tuple[str, ...], base: ArrayLike, mixed: ArrayLike, seed: int = SEED) -> tuple[Matters, ...]:
    """First-order and total indices of outcomes at the points of `design`, largest total first.

    The intervals are from 500 bootstrap resamples of the n rows, taken as if independent: about right for a jagged function,
    far too wide for a smooth one, which evenly spread points know better than dice would.

    Parameters: names (d,); base (2, n) at A and B; mixed (d, n) at AB; any unit, the same everywhere; seed of the bootstrap.
    Returns: Matters [-].
    Raises: ValueError naming an argument whose shape or numbers are not possible, or when the outcome does not move at all.
    Example: f = x + 2 y, x and y from 0 to 1: 1/5 and 4/5, first order and total alike.
    Source: the module text; Efron (1979), Ann. Statist. 7:1, for the bootstrap.
    """
    at_a_b, at_ab = np.asarray(base, float), np.asarray(mixed, float)
    for name, high, array in (("base", 2, at_a_b), ("mixed", len(names), at_ab)):
        if array.ndim != 2 or array.shape != (high, at_a_b.shape[-1]) or array.shape[-1] < 2 or not np.all(np.isfinite(array)):
            raise refuse(name, f"shape {array.shape}", f"{high} rows of finite numbers, as long as those of base")
    middle, n = float(at_a_b.mean()), at_a_b.shape[1]
    if float(np.ptp(at_a_b)) <= 1e-12 * abs(middle):
        raise refuse("outcome", middle, "one that moves: here it is the same in every case")
    drawn = np.random.default_rng(seed).multinomial(n, np.full(n, 1.0 / n), size=RESAMPLES)
    first, total = _estimates(np.vstack([np.ones(n), drawn]) / n, at_a_b - middle, at_ab - middle)
    ends = np.array([0.5 - 0.5 * LEVEL, 0.5 + 0.5 * LEVEL])
    low_high = [np.quantile(one[1:], ends, axis=0).T for one in (first, total)]
    rows = [
        Matters(
            name=name,
            first=float(first[0, i]),
            total=float(total[0, i]),
            first_interval=(float(low_high[0][i, 0]), float(low_high[0][i, 1])),
            total_interval=(float(low_high[1][i, 0]), float(low_high[1][i, 1])),
        )
        for i, name in enumerate(names)
    ]
    return tuple(sorted(rows, key=lambda one: -one.total))


def _estimates(weights: Array, base: Array, mixed: Array) -> tuple[Array, Array]:
    """First and total (samples, d) for rows weighted by `weights` (samples, n), each summing to 1."""
    a, b = base
    mean = weights @ base.mean(0)
    variance = (weights @ (0.5 * (a**2 + b**2)) - mean**2)[:, None]
    first = weights @ (b * (mixed - a)).T / variance
    total = 0.5 * (weights @ ((mixed - a) ** 2).T) / variance
    return first, total


def what_matters(
    *, inputs: Mapping[str, Given], setup_at: SetupAt, count: int = 1024, seed: int = SEED, progress: Progress | None = None
) -> WhatMatters:
    """Falls at all points from which the unknowns of a described fall are ranked: count * (ranges + 2) of them.

    Parameters: inputs, setup_at, seed, progress as in `how_sure`; count [-] : rows, a power of two.
    Interrupted between chunks, everything is dropped.
    Returns: WhatMatters, forces in [N], lengths in [m].
    Raises: ValueError naming what is not possible; also when a single case cannot be computed: what is refused ties inputs
    together (a tie-in no higher than the leash is long), and for inputs that hang together there is no such ranking.
    Source: the module text; models/fall_in_time.py.
    """
    names = checked(inputs)
    count = power_of_two("count", count, low=8, high=2**14)
    points = design(dimensions=len(names), count=count, seed=seed)
    cases = cases_at(inputs=inputs, points=points.reshape(-1, len(names)))
    found = compute_cases(cases=cases, setup_at=setup_at, progress=progress, strict=True)
    if found.refused:
        one = found.refused[0]
        allowed = f"ranges in which every case can be computed: of {found.asked} looked at, {one.count} cannot: {one.example}"
        raise refuse("inputs", ", ".join(names), allowed)
    shaped = {name: found.values[name].reshape(len(names) + 2, count) for name in OUTCOMES}
    base, mixed = {n: v[:2] for n, v in shaped.items()}, {n: v[2:] for n, v in shaped.items()}
    return WhatMatters(names=names, base=base, mixed=mixed, falls=len(cases))
