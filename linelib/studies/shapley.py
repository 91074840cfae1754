"""Who adds what when many act together: Shapley values of a game, and how much each pair adds beyond its single parts."""

from __future__ import annotations

from math import factorial

import numpy as np
from numpy.typing import ArrayLike, NDArray

from linelib.checks import refuse

Array = NDArray[np.float64]
MOST = 10


def shapley(*, values: ArrayLike) -> Array:
    """What each player adds, on average over all orders in which the players can come.

    value_i = sum over all sets S without i of  s! (k - s - 1)! / k!  *  (v(S and i) - v(S)),   s players in S

    Parameters
    ----------
    values : array (2^k, ...) [any unit], k from 1 to 10. Row m is what the set m gets: player i is in it where m >> i & 1; row
        0 is nobody, the last row everybody. Trailing axes are outcomes side by side.

    Returns
    -------
    array (k, ...) [as values]; over the players it sums to the last row less the first.

    Raises: ValueError when there are not 2^k rows, or a value is no finite number.
    Example: v = 0, 1, 2, 6 for nobody, first, second, both: first (1 + 6 - 2) / 2 = 2.5, second (2 + 6 - 1) / 2 = 3.5.
    Leaves out: any order of its own. Where one thing had to come before another, all orders alike is a choice.
    Source: Shapley, A value for n-person games, 1953, from memory.
    """
    v, k = _game(values)
    return np.stack([_mean(_without(v, (i,)) @ np.array([-1.0, 1.0]), k, 1) for i in range(k)])


def interactions(*, values: ArrayLike) -> Array:
    """What each pair adds together beyond what its two players add alone, on average over the company they can be in.

    index_ij = sum over all sets S without i, j of  s! (k - s - 2)! / (k - 1)!  *  (v(S, i, j) - v(S, i) - v(S, j) + v(S))

    Parameters: values : as in `shapley` [any unit].
    Returns: array (k, k, ...) [as values], symmetric, 0 on the diagonal. More than 0: together more than one by one.
    Raises: ValueError as `shapley`.
    Example: v = 0, 1, 2, 6: 6 - 1 - 2 = 3 for the pair.
    Leaves out: threes and more; the indices do not sum to the difference.
    Source: Owen, Multilinear extensions of games, 1972; Grabisch & Roubens, An axiomatic approach to the concept of
    interaction among players in cooperative games, 1999, both from memory.
    """
    v, k = _game(values)
    found = np.zeros((k, k, *v.shape[1:]))
    for i in range(k):
        for j in range(i + 1, k):
            found[i, j] = found[j, i] = _mean(_without(v, (i, j)) @ np.array([1.0, -1.0, -1.0, 1.0]), k, 2)
    return found


def members(mix: int, k: int) -> tuple[int, ...]:
    """The players in set number `mix`, of k."""
    return tuple(i for i in range(k) if mix >> i & 1)


def _game(values: ArrayLike) -> tuple[Array, int]:
    allowed = f"2^k rows of finite numbers, k from 1 to {MOST}"
    try:
        v = np.asarray(values, float)
    except (TypeError, ValueError):
        raise refuse("values", values, allowed) from None
    rows = len(v) if v.ndim else 0
    k = rows.bit_length() - 1
    if not 1 <= k <= MOST or rows != 1 << k:
        raise refuse("values", f"{rows} rows", allowed)
    if not np.all(np.isfinite(v)):
        raise refuse("values", "not finite", allowed)
    return v, k


def _without(v: Array, players: tuple[int, ...]) -> Array:
    """Rows for the sets without `players` (all in rising order); the last axis: nobody of them, the first, the second, all."""
    k = len(v).bit_length() - 1
    mask = sum(1 << p for p in players)
    rest = np.array([m for m in range(1 << k) if not m & mask])
    added = [sum(1 << p for n, p in enumerate(players) if which >> n & 1) for which in range(1 << len(players))]
    return np.stack([v[rest | add] for add in added], axis=-1)


def _mean(gains: Array, k: int, players: int) -> Array:
    """Mean of what is gained over the sets of the others; the size of the set is as likely as any other."""
    others = k - players
    sizes = [bin(m).count("1") for m in range(1 << others)]
    weights = np.array([factorial(s) * factorial(others - s) / factorial(others + 1) for s in sizes])
    return np.asarray(np.tensordot(weights, gains, axes=1))
