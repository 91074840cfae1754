"""Games whose shares are known by hand: glove, airport, linear and product games, and the axioms a share has to keep.

Source of the games: the glove game is a textbook example; the airport game is Littlechild & Owen, A simple expression for the
Shapley value in a special case, 1973, from memory. Status: every number worked out by hand here.
"""

from __future__ import annotations

from math import log, prod

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from linelib.studies.shapley import interactions, members, shapley


def game(k, worth):
    """Values of all sets of k players, in the order of their numbers."""
    return np.array([worth(set(members(m, k))) for m in range(1 << k)], float)


def test_two_players_by_hand():
    assert shapley(values=[0.0, 1.0, 2.0, 6.0]) == pytest.approx([2.5, 3.5])
    assert interactions(values=[0.0, 1.0, 2.0, 6.0]) == pytest.approx(np.array([[0.0, 3.0], [3.0, 0.0]]))


def test_three_players_by_hand():
    """v: a 12, b 6, c 0, ab 30, ac 15, bc 9, abc 48. a: (2 * 12 + 24 + 15 + 2 * 39) / 6 = 23.5, b: (12 + 18 + 9 + 66) / 6 =
    17.5, c: (0 + 3 + 3 + 36) / 6 = 7. Pair ab: alone 30 - 12 - 6 = 12, beside c 48 - 15 - 9 + 0 = 24, mean 18."""
    values = [0.0, 12.0, 6.0, 30.0, 0.0, 15.0, 9.0, 48.0]
    assert shapley(values=values) == pytest.approx([23.5, 17.5, 7.0])
    together = interactions(values=values)
    assert together[0, 1] == pytest.approx(18.0)
    assert together[0, 2] == pytest.approx(0.5 * ((15 - 12 - 0) + (48 - 30 - 9 + 6)))
    assert together[1, 2] == pytest.approx(0.5 * ((9 - 6 - 0) + (48 - 30 - 15 + 12)))


def test_the_glove_game():
    """One left glove, two right ones; a pair is worth 1: the left one is worth 2/3, each right one 1/6."""
    values = game(3, lambda those: float(0 in those and len(those) > 1))
    assert shapley(values=values) == pytest.approx([2 / 3, 1 / 6, 1 / 6])
    together = interactions(values=values)
    assert together[0, 1] == pytest.approx(0.5)  # 1 alone, 0 beside the other right glove
    assert together[1, 2] == pytest.approx(-0.5)  # two right gloves are in each other's way


@pytest.mark.parametrize("costs", [(1.0, 2.0, 3.0), (4.0, 9.0, 9.5, 20.0), (2.0, 2.0, 5.0, 7.0, 7.0)])
def test_the_airport_game(costs):
    """A runway as long as the largest aeroplane needs: each further piece is shared by those who need it.

    For 1, 2, 3: 1/3, 1/3 + 1/2, 1/3 + 1/2 + 1."""
    k = len(costs)
    values = game(k, lambda those: max((costs[i] for i in those), default=0.0))
    pieces = np.diff([0.0, *costs]) / (k - np.arange(k))
    assert shapley(values=values) == pytest.approx(np.cumsum(pieces))
    if costs[0] == 1.0:
        assert shapley(values=values) == pytest.approx([1 / 3, 5 / 6, 11 / 6])


def test_a_linear_game_gives_everybody_his_own_and_nothing_acts_together():
    own = np.array([3.0, -2.0, 0.5, 7.0, 0.0])
    values = game(5, lambda those: 11.0 + sum(own[i] for i in those))
    assert shapley(values=values) == pytest.approx(own, abs=1e-12)
    assert np.abs(interactions(values=values)).max() < 1e-12


def test_a_product_game_by_hand():
    """v = product of 1 + x over the set. Taking i and j into S adds x_i x_j product(S) beyond the single steps; the mean over
    S of two others: a third for nobody, a sixth for each alone, a third for both. Its logarithm is linear."""
    x = np.array([0.5, 1.0, -0.25, 3.0])
    values = game(4, lambda those: prod(1.0 + x[i] for i in those))
    together = interactions(values=values)
    a, b = 1.0 + x[2], 1.0 + x[3]
    assert together[0, 1] == pytest.approx(0.5 * 1.0 * (1 / 3 + a / 6 + b / 6 + a * b / 3))
    a, b = 1.0 + x[0], 1.0 + x[1]
    assert together[3, 2] == pytest.approx(-0.75 * (1 / 3 + a / 6 + b / 6 + a * b / 3))
    assert shapley(values=np.log(values)) == pytest.approx(np.log1p(x))
    assert np.abs(interactions(values=np.log(values))).max() < 1e-12


@given(st.integers(1, 6), st.integers(0, 2**32 - 1))
def test_shares_sum_to_the_difference(k, seed):
    values = np.random.default_rng(seed).normal(0.0, 1e4, (1 << k, 3))
    each = shapley(values=values)
    assert each.shape == (k, 3)
    np.testing.assert_allclose(each.sum(0), values[-1] - values[0], rtol=1e-9, atol=1e-9)


@given(st.integers(2, 6), st.integers(0, 2**32 - 1))
def test_who_adds_nothing_gets_nothing_and_who_is_alike_gets_alike(k, seed):
    rng = np.random.default_rng(seed)
    lesser = rng.normal(size=1 << (k - 1))
    idle = game(k, lambda those: lesser[sum(1 << i for i in those if i < k - 1)])  # the last player never matters
    assert shapley(values=idle)[-1] == pytest.approx(0.0, abs=1e-12)
    assert np.abs(interactions(values=idle)[-1]).max() < 1e-12
    assert shapley(values=idle)[:-1] == pytest.approx(shapley(values=lesser))
    by_size = rng.normal(size=k + 1)
    alike = game(k, lambda those: by_size[len(those)])
    assert shapley(values=alike) == pytest.approx([(by_size[-1] - by_size[0]) / k] * k)


@given(st.integers(1, 5), st.integers(0, 2**32 - 1))
def test_shares_of_a_sum_are_the_sums_of_the_shares_and_outcomes_do_not_mix(k, seed):
    values = np.random.default_rng(seed).normal(size=(1 << k, 2))
    both = shapley(values=values.sum(1))
    assert both == pytest.approx(shapley(values=values).sum(1))
    assert shapley(values=values)[:, 1] == pytest.approx(shapley(values=values[:, 1]))
    assert interactions(values=values)[..., 0] == pytest.approx(interactions(values=values[:, 0]))


def test_a_factor_adds_its_logarithm_whoever_else_is_there():
    worth = np.array([2.0, 5.0, 3.0, 11.0])  # two choices that act together
    values = np.concatenate([worth, worth / 0.55])  # the third multiplies by 1 / 0.55
    assert shapley(values=np.log(values))[2] == pytest.approx(log(1.0 / 0.55), rel=1e-12)


@pytest.mark.parametrize(
    "values", [[], [1.0], [1.0, 2.0, 3.0], np.zeros(2048), [0.0, np.nan], [0.0, np.inf], 3.0, "ab", None, [["a"], ["b"]]]
)
def test_what_is_no_game_is_refused(values):
    for function in (shapley, interactions):
        with pytest.raises(ValueError, match=r"^values = .* is not possible; allowed: 2\^k rows of finite numbers"):
            function(values=values)
