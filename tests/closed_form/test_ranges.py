"""Ranges against the formulas of their distributions, written out by hand."""

from __future__ import annotations

from math import erf, sqrt

import numpy as np
import pytest

from linelib.studies.draws import cases_at, even_points
from linelib.studies.ranges import Normal, OneOf, Triangular, Uniform

P = np.linspace(0.01, 0.99, 33)


def phi(x):
    """The normal distribution of mean 0 and standard deviation 1."""
    return 0.5 * (1.0 + erf(x / sqrt(2.0)))


def test_uniform():
    assert Uniform(low=2.0, high=10.0).at(P) == pytest.approx(2.0 + 8.0 * P)


def test_normal_runs_back_through_its_own_distribution():
    values = Normal(mean=80.0, sd=5.0).at(P)
    assert [phi((v - 80.0) / 5.0) for v in values] == pytest.approx(P)
    assert Normal(mean=80.0, sd=5.0).at([0.5])[0] == pytest.approx(80.0)


def test_bounds_of_a_normal_take_nothing_from_its_shape():
    """Between its bounds (F(x) - F(low)) / (F(high) - F(low)); nothing lies outside."""
    values = Normal(mean=3.0, sd=2.0, low=2.0, high=7.0).at(P)
    low, high = phi(-0.5), phi(2.0)
    assert [(phi((v - 3.0) / 2.0) - low) / (high - low) for v in values] == pytest.approx(P)
    assert values.min() > 2.0
    assert values.max() < 7.0
    one_sided = Normal(mean=3.0, sd=1.0, low=3.0)
    assert one_sided.at([0.5])[0] == pytest.approx(3.6744898)  # the upper quartile of a normal, 0.6744898 above the mean


def test_triangular():
    """F(x) = (x - a)^2 / ((b - a)(c - a)) up to the mode c, 1 - (b - x)^2 / ((b - a)(b - c)) beyond."""
    a, c, b = 1.0, 2.0, 5.0
    values = Triangular(low=a, mode=c, high=b).at(P)
    back = [(x - a) ** 2 / ((b - a) * (c - a)) if x <= c else 1 - (b - x) ** 2 / ((b - a) * (b - c)) for x in values]
    assert back == pytest.approx(P)
    assert Triangular(low=0.0, mode=0.0, high=1.0).at([0.75])[0] == pytest.approx(0.5)  # 1 - sqrt(1 - 0.75)


def test_one_of_a_few():
    even = OneOf(values=(1.0, "hmpe_25mm", 3.0))
    assert list(even.at([0.3, 0.34, 0.6, 0.7])) == [1.0, "hmpe_25mm", "hmpe_25mm", 3.0]
    weighted = OneOf(values=(1.0, 2.0), weights=(3.0, 1.0))
    assert weighted.shares == pytest.approx([0.75, 0.25])
    assert list(weighted.at([0.74, 0.76])) == [1.0, 2.0]


def test_words():
    assert Uniform(low=75.0, high=85.0).words == "75 to 85, equally likely"
    assert Triangular(low=1.2, mode=1.5, high=1.8).words == "1.2 to 1.8, likeliest 1.5"
    assert Normal(mean=80.0, sd=5.0).words == "about 80, sd 5"
    assert Normal(mean=80.0, sd=5.0, low=60.0, high=90.0).words == "about 80, sd 5, at least 60, at most 90"
    assert OneOf(values=(1.0, 2.5)).words == "1, 2.5: equally likely"
    assert OneOf(values=("old", "new"), weights=(3, 1)).words == "old (75 %), new (25 %)"


def test_points_are_spread_evenly():
    """Of 16 points in 3 dimensions one lies in every sixteenth of each; scrambles differ, the same seed gives the same."""
    points = even_points(dimensions=3, count=16, scrambles=5, seed=7)
    assert points.shape == (5, 16, 3)
    for scramble in points:
        for column in scramble.T:
            assert sorted(np.floor(16 * column)) == list(range(16))
    assert np.array_equal(points, even_points(dimensions=3, count=16, scrambles=5, seed=7))
    assert not np.array_equal(points, even_points(dimensions=3, count=16, scrambles=5, seed=8))
    assert len({tuple(one.ravel()) for one in points}) == 5


def test_no_point_lies_on_an_end(monkeypatch):
    """A point of the sequence can be 0, where a normal range has no value: it is moved by half of the finest step."""
    from scipy.stats import qmc

    monkeypatch.setattr(qmc.Sobol, "random_base2", lambda self, m: np.zeros((2**m, self.d)))
    points = even_points(dimensions=2, count=8, scrambles=1, seed=1)
    assert points.min() == pytest.approx(0.5**31)
    assert np.all(np.isfinite(Normal(mean=0.0, sd=1.0).at(points)))


def test_a_case_is_one_point():
    """Ranges take the columns in their order, values stay; words stay words."""
    inputs = {"mass": Uniform(low=0.0, high=10.0), "span": 62.0, "fibre": "hmpe", "leash": Uniform(low=1.0, high=2.0)}
    cases = cases_at(inputs=inputs, points=np.array([[0.1, 0.5], [0.2, 0.75]]))
    assert cases == [
        {"mass": pytest.approx(1.0), "span": 62.0, "fibre": "hmpe", "leash": pytest.approx(1.5)},
        {"mass": pytest.approx(2.0), "span": 62.0, "fibre": "hmpe", "leash": pytest.approx(1.75)},
    ]
    assert list(cases[0]) == list(inputs)
