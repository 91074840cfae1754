"""Cases drawn from ranges: evenly spread points (a scrambled Sobol sequence) in place of dice.

Points are spread more evenly than independent draws, so fewer are needed. They are not independent of each other: how far off
a result may be is seen from several scrambles, each a sequence of its own, not from the number of points.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray
from scipy.stats import qmc

from linelib.checks import number, refuse
from linelib.studies.ranges import Normal, OneOf, Range, Triangular, Uniform, Value

Array = NDArray[np.float64]
Given = Value | Range
Case = dict[str, Value]
BITS = 30
FEWEST, MOST = 8, 2**16  # points of one sequence


def power_of_two(name: str, value: object, *, low: int, high: int) -> int:
    """Return `value` [-] when it is a power of two from `low` to `high`: only then does a Sobol sequence fill space evenly.

    Raises: ValueError naming the argument, its value and what is allowed.
    Source: Owen (1998), ACM Trans. Model. Comput. Simul. 8:71 (from memory); as in scipy.stats.qmc.Sobol.
    """
    count = number(name, value, low=low, high=high)
    if count != int(count) or int(count) & (int(count) - 1):
        raise refuse(name, value, f"a power of two from {low} to {high}")
    return int(count)


def whole(name: str, value: object, *, low: int, high: int) -> int:
    """Return `value` [-] when it is a whole number from `low` to `high`.

    Raises: ValueError naming the argument, its value and what is allowed.
    Source: bookkeeping.
    """
    count = number(name, value, low=low, high=high)
    if count != int(count):
        raise refuse(name, value, f"a whole number from {low} to {high}")
    return int(count)


def even_points(*, dimensions: int, count: int, scrambles: int, seed: int) -> Array:
    """Points of `scrambles` independent scrambled Sobol sequences.

    Parameters: dimensions; count of points of each sequence, a power of two; seed : same seed, same points.
    Returns: (scrambles, count, dimensions) [-], over 0 and under 1.
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: 8 points in one dimension: one in every eighth of the way from 0 to 1.
    Source: scipy.stats.qmc.Sobol; scramble of Matousek (1998) as there.
    """
    dimensions = whole("dimensions", dimensions, low=1, high=1000)
    count = power_of_two("count", count, low=FEWEST, high=MOST)
    scrambles = whole("scrambles", scrambles, low=1, high=1024)
    seeds = np.random.SeedSequence(whole("seed", seed, low=0, high=2**31)).spawn(scrambles)
    half = 0.5**BITS * 0.5  # so that no point is 0, where a range without bounds has no value
    power = count.bit_length() - 1
    points = [qmc.Sobol(d=dimensions, bits=BITS, rng=np.random.default_rng(s)).random_base2(power) for s in seeds]
    return np.asarray(np.stack(points) + half)


def checked(inputs: Mapping[str, Given]) -> tuple[str, ...]:
    """Names of the `inputs` that are ranges; the others are values.

    Raises: ValueError naming an input that is neither, or saying that none is a range.
    Source: bookkeeping.
    """
    if not isinstance(inputs, Mapping) or not all(isinstance(name, str) and name for name in inputs):
        raise refuse("inputs", inputs, "a mapping from names to values or ranges")
    for name, given in inputs.items():
        if not isinstance(given, str | Range):
            if isinstance(given, bool) or not isinstance(given, int | float):
                raise refuse(name, given, "a number, words, or one of Normal, Uniform, Triangular, OneOf")
            number(name, given, low=-1e12, high=1e12)
    ranges = tuple(name for name, given in inputs.items() if isinstance(given, Normal | Uniform | Triangular | OneOf))
    if not ranges:
        raise refuse("inputs", dict(inputs), "at least one range: values alone are one fall")
    return ranges


def cases_at(*, inputs: Mapping[str, Given], points: Array) -> list[Case]:
    """One case a point: each range at its probability, in the order of the ranges; each value as it is.

    Parameters: inputs, checked; points (cases, ranges) [-].
    Returns: cases, in the units of the inputs.
    Raises: ValueError as the ranges.
    Source: inverse distributions, scipy.stats.
    """
    columns = iter(points.T)
    drawn = {name: given.at(next(columns)) for name, given in inputs.items() if isinstance(given, Range)}
    fixed = {name: given for name, given in inputs.items() if not isinstance(given, Range)}
    rows = range(len(points))
    return [{n: _plain(drawn[n][i]) if n in drawn else fixed[n] for n in inputs} for i in rows]


def _plain(value: object) -> Value:
    return value if isinstance(value, str) else float(value)  # type: ignore[arg-type]
