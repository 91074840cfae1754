"""Path differences of badly seated webbing, by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest

from linelib.models.seating import Seating, path_differences
from tests.house.refusals import NO_NUMBER, refused

PLACE = {"width": 0.025, "sharing_length": 0.1}


def differences(count=6, **wrong):
    return path_differences(seating=Seating(**wrong), **PLACE, count=count)


def test_square_and_flat_is_no_difference():
    assert np.all(differences() == 0.0)


def test_a_skew_grows_evenly_to_width_times_its_tangent():
    """25 mm * tan(0.1) = 2.508 mm at the far edge, a fifth of it from strip to strip of six."""
    assert differences(skew_angle=0.1) == pytest.approx(0.025 * math.tan(0.1) * np.arange(6) / 5, rel=1e-12)


def test_a_pleat_swallows_twice_its_depth_in_its_share_of_the_width():
    assert differences(fold_depth=0.002, folded_share=0.5) == pytest.approx([0, 0, 0, 0.004, 0.004, 0.004], rel=1e-12)
    assert differences(count=100, fold_depth=0.002, folded_share=0.35).sum() == pytest.approx(35 * 0.004, rel=1e-12)


def test_a_fold_of_the_whole_width_is_no_difference():
    assert np.all(differences(fold_depth=0.002, folded_share=1.0) == 0.0)


def test_a_rolled_edge_is_tight_and_the_flat_part_longer():
    """10 mm rolled over 100 mm: its edge goes sqrt(100^2 + 20^2) = 101.9804 mm; half way, sqrt(100^2 + 10^2) = 100.4988 mm."""
    found = 1e3 * differences(rolled_width=0.01)  # strips at 0, 5, 10, 15, 20, 25 mm
    assert found == pytest.approx([0.0, 1.4816, 1.9804, 1.9804, 1.9804, 1.9804], abs=6e-5)


def test_faults_add_up():
    both = differences(skew_angle=0.1, fold_depth=0.002, folded_share=0.5)
    assert both == pytest.approx(differences(skew_angle=0.1) + differences(fold_depth=0.002, folded_share=0.5), rel=1e-12)


@pytest.mark.parametrize(
    ("name", "beyond"), [("skew_angle", 0.71), ("rolled_width", 0.51), ("fold_depth", 0.11), ("folded_share", 1.1)]
)
def test_impossible_seatings_are_refused(name, beyond):
    for value in (-1e-3, beyond, None, *NO_NUMBER):
        head, allowed = refused(lambda value=value: Seating(**{name: value}))
        assert name in head
        assert "a number from 0 to" in allowed


@pytest.mark.parametrize(
    ("name", "values"),
    [
        ("width", [0.0, 1.1, None, *NO_NUMBER]),
        ("sharing_length", [0.0, 101.0, None, *NO_NUMBER]),
        ("count", [1, 5001, 2.0, None, *NO_NUMBER]),
    ],
)
def test_impossible_arguments_are_refused(name, values):
    for value in values:
        good = {"seating": Seating(), **PLACE, "count": 6}
        head, _ = refused(lambda value=value, good=good: path_differences(**{**good, name: value}))
        assert name in head


def test_more_than_half_of_the_width_cannot_be_rolled_over():
    head, allowed = refused(lambda: differences(rolled_width=0.013))
    assert head == "rolled_width = 0.013"
    assert allowed == "at most half of the webbing's width of 0.025 m"
