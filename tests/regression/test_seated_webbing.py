"""A few numbers of the lesson on seating as they were when it was written: they show a change, they prove nothing."""

from __future__ import annotations

import math

import pytest

from linelib.models.seating import Seating
from linelib.studies.seated_strength import Seated, breaking_strain, history_text, strength_curve
from linelib.tables import webbings

TABLE = webbings()
SKEW, FOLD = Seating(skew_angle=math.radians(9.0)), Seating(fold_depth=0.002, folded_share=0.65)


@pytest.mark.parametrize(
    ("name", "fast", "left"),
    [
        ("hmpe_25mm", True, 0.2834),
        ("hmpe_25mm", False, 0.3358),
        ("polyester_25mm", True, 0.7741),
        ("polyamide_25mm", True, 0.8654),
    ],
)
def test_strength_left_of_a_skew(name, fast, left):
    strips = Seated(webbing=TABLE[name], seating=SKEW, sharing_length=0.1, fast=fast).strips
    assert strips.strength_left() / TABLE[name].breaking_strength == pytest.approx(left, abs=2e-4)


def test_breaking_strains():
    assert breaking_strain(webbing=TABLE["hmpe_25mm"], fast=False) == pytest.approx(0.0298, abs=1e-5)
    assert breaking_strain(webbing=TABLE["polyamide_25mm"]) == pytest.approx(0.2033, abs=1e-4)


def test_a_fold_in_stages():
    text = history_text(seated=Seated(webbing=TABLE["hmpe_25mm"], seating=FOLD, sharing_length=0.1), loads=[6e3, 14e3, 24e3])
    rows = [row.split() for row in text.splitlines()[1:]]
    assert rows == [
        ["6.0", "yes", "100", "22.8", "0.0", "0.0"],
        ["14.0", "yes", "65", "22.8", "3.7", "13.6"],
        ["24.0", "NO", "0", "0.0", "-", "38.8"],
    ]


def test_a_curve_begins_whole_and_is_never_a_gain():
    """Scattered strips can hold a little more by a lucky order; the curve does not count it."""
    seated = Seated(webbing=TABLE["polyamide_25mm"], seating=Seating(), sharing_length=0.3, variation=0.2)
    curve = strength_curve(seated=seated, largest=[0.0, 0.002, 0.009, 0.03])
    assert curve.left[0] == pytest.approx(1.0, abs=1e-6)
    assert curve.left.max() <= 1.0
    assert curve.left[-1] < 0.97
