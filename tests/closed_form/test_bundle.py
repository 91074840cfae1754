"""Scattered strengths: known shapes of the Weibull distribution, hand values, refusals."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.stats import weibull_min

from linelib.models.bundle import bundle_strength, scattered, weibull_shape, weibull_strengths
from tests.house.refusals import NO_NUMBER, refused


def test_bundles_by_hand():
    assert bundle_strength([1.0, 3.0]) == 1.5
    assert bundle_strength([3.0, 2.5]) == 2.5
    assert bundle_strength([[1.0, 1.0, 1.0], [0.0, 0.0, 6.0]]) == pytest.approx([1.0, 2.0])


def test_shape_one_is_the_exponential_distribution():
    assert weibull_shape(variation=1.0) == pytest.approx(1.0, rel=1e-9)
    assert weibull_strengths(shape=1.0, chance=1.0 - math.exp(-2.0)) == pytest.approx(2.0, rel=1e-12)


@pytest.mark.parametrize("variation", [0.005, 0.02, 0.1, 0.3])
def test_mean_and_deviation_are_as_asked(variation):
    law = weibull_min(weibull_shape(variation=variation))
    assert law.std() / law.mean() == pytest.approx(variation, rel=1e-6)
    chance = np.linspace(0.01, 0.99, 9)
    own = weibull_strengths(shape=weibull_shape(variation=variation), chance=chance)
    assert own == pytest.approx(law.ppf(chance) / law.mean(), rel=1e-9)


@pytest.mark.parametrize("variation", [0.0, 0.01, 0.1, 0.2])
def test_the_whole_bundle_holds_one_and_no_edge_is_weaker(variation):
    strengths = scattered(count=60, variation=variation)
    assert bundle_strength(strengths) == pytest.approx(1.0, rel=1e-12)
    halves = strengths[:30].mean() / strengths[30:].mean()
    assert halves == pytest.approx(1.0, abs=0.2 * variation + 1e-12)
    assert strengths.std() / strengths.mean() == pytest.approx(variation, rel=0.05)


def test_scattered_strengths_stand_at_the_middle_of_equal_chances():
    """Four strips: chances of 1/8, 3/8, 5/8 and 7/8 of being weaker, whatever their order across the width."""
    law = weibull_min(weibull_shape(variation=0.2)).ppf(np.array([1.0, 3.0, 5.0, 7.0]) / 8.0)
    strengths = np.sort(scattered(count=4, variation=0.2))
    assert strengths / strengths[0] == pytest.approx(law / law[0], rel=1e-9)


def test_impossible_arguments_are_refused():
    for value in (-0.1, 1.1, None, *NO_NUMBER):
        for call in (lambda v: scattered(count=9, variation=v), lambda v: weibull_shape(variation=v)):
            head, _ = refused(lambda call=call, value=value: call(value))
            assert "variation" in head
    refused(lambda: weibull_strengths(shape=0.0, chance=0.5))
    for chance in (0.0, 1.0, [0.5, math.nan]):
        assert "chance" in refused(lambda chance=chance: weibull_strengths(shape=5.0, chance=chance))[0]
