"""Shares by walking through every order of the players, and pairs by making one player of two: no sum of the formula."""

from __future__ import annotations

from itertools import combinations, permutations

import numpy as np
import pytest

from linelib.studies.shapley import interactions, shapley


def by_orders(values: dict[frozenset, float], players: tuple) -> dict:
    """What each player adds when it comes, on average over all orders."""
    added = dict.fromkeys(players, 0.0)
    orders = list(permutations(players))
    for order in orders:
        there = frozenset()
        for player in order:
            more = there | {player}
            added[player] += values[more] - values[there]
            there = more
    return {player: sum_ / len(orders) for player, sum_ in added.items()}


def all_sets(players) -> list[frozenset]:
    return [frozenset(those) for size in range(len(players) + 1) for those in combinations(players, size)]


def random_game(k: int, seed: int) -> tuple[np.ndarray, dict[frozenset, float]]:
    values = np.random.default_rng(seed).normal(size=1 << k)
    return values, {those: float(values[sum(1 << i for i in those)]) for those in all_sets(range(k))}


@pytest.mark.parametrize("k", range(1, 7))
def test_shares_by_all_orders(k):
    values, worth = random_game(k, 40 + k)
    walked = by_orders(worth, tuple(range(k)))
    assert shapley(values=values) == pytest.approx([walked[i] for i in range(k)], rel=1e-9, abs=1e-12)


def test_glove_and_airport_by_all_orders():
    glove = {those: float(0 in those and len(those) > 1) for those in all_sets(range(3))}
    airport = {those: float(max(those, default=-1) + 1) for those in all_sets(range(3))}
    assert by_orders(glove, (0, 1, 2)) == pytest.approx({0: 2 / 3, 1: 1 / 6, 2: 1 / 6})
    assert by_orders(airport, (0, 1, 2)) == pytest.approx({0: 1 / 3, 1: 5 / 6, 2: 11 / 6})


@pytest.mark.parametrize("k", range(2, 6))
def test_pairs_as_one_player(k):
    """Pair ij = share of 'i and j as one player', less the share of i where j never is, less that of j where i never is
    (recursion of Grabisch & Roubens 1999, from memory)."""
    values, worth = random_game(k, 70 + k)
    found = interactions(values=values)
    for i, j in combinations(range(k), 2):
        others = tuple(p for p in range(k) if p not in (i, j))
        merged = {
            those: worth[frozenset(those - {"ij"}) | ({i, j} if "ij" in those else set())]
            for those in all_sets((*others, "ij"))
        }
        alone = [by_orders({t: worth[t] for t in all_sets((*others, p))}, (*others, p))[p] for p in (i, j)]
        assert found[i, j] == pytest.approx(by_orders(merged, (*others, "ij"))["ij"] - sum(alone), rel=1e-9, abs=1e-12)
        assert found[j, i] == found[i, j]
