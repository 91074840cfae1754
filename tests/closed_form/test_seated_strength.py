"""Seated webbing against closed forms: what is left of a skew, over the path difference, and the table of loads, by hand."""

from __future__ import annotations

import math

import pytest

from linelib.models.bundle import scattered
from linelib.models.seating import Seating
from linelib.studies.seated_strength import Seated, breaking_strain, history_text, strength_curve
from linelib.webbing import Webbing

WEB = Webbing(name="made up", stiffness=1.1e6, mass_per_length=0.05, width=0.02, breaking_strength=33e3, fast_ratio=2.0)
SKEW = Seating(skew_angle=math.atan(0.1))  # 2 mm over 20 mm


def seated(seating: Seating = SKEW, **more) -> Seated:
    return Seated(webbing=WEB, seating=seating, sharing_length=0.1, **{"fast": False, **more})


def test_a_skew_by_hand():
    """Slow, 3 % breaks: r = 2 mm / 3 mm, 1 - r/2 = 2/3 is left. Fast, twice as stiff, 1.5 %: r = 4/3, 1/(2 r) = 3/8."""
    assert seated().strips.strength_left() / 33e3 == pytest.approx(2.0 / 3.0, rel=1e-9)
    assert seated(fast=True).strips.strength_left() / 33e3 == pytest.approx(3.0 / 8.0, abs=0.51 / 60)
    assert breaking_strain(webbing=WEB, fast=False) == pytest.approx(0.03, rel=1e-9)
    assert breaking_strain(webbing=WEB) == pytest.approx(0.015, rel=1e-9)


@pytest.mark.parametrize("seating", [SKEW, Seating()])
def test_a_curve_of_a_skew_by_hand(seating):
    """r = 0, 0.5, 1 and 2: 1 - r/2, then 1/(2 r); beyond r = 1 the share 1/r carries at the first tear."""
    curve = strength_curve(seated=seated(seating), largest=[0.0, 0.0015, 0.003, 0.006])
    assert curve.left == pytest.approx([1.0, 0.75, 0.5, 0.25], abs=0.51 / 60)
    assert curve.carrying == pytest.approx([1.0, 1.0, 1.0, 0.5], abs=1.01 / 60)
    assert curve.difference.tolist() == [0.0, 0.0015, 0.003, 0.006]


def test_scatter_is_that_of_the_strips():
    strips = seated(Seating(), variation=0.2).strips
    assert strips.across == pytest.approx(33e3 * scattered(count=60, variation=0.2), rel=1e-12)


def test_the_table_of_loads_by_hand():
    """A quarter tight, the rest longer by 4 mm: 8.25 kN, then 24.75 kN. At 3 kN the quarter stood at 3 / 2.75 = 1.09 mm, the
    rest stands at 4 + 3 / 8.25 = 4.36 mm: 3.27 mm given up. What tore had stored a quarter of 49.5 J. At 9 kN between the
    loads the quarter could not have stood, so nothing is said of what was given up."""
    fold = seated(Seating(fold_depth=0.002, folded_share=0.75))
    rows = [row.split() for row in history_text(seated=fold, loads=[8e3, 9e3, 25e3]).splitlines()[1:]]
    assert rows == [
        ["8.0", "yes", "100", "24.8", "0.0", "0.0"],
        ["9.0", "yes", "75", "24.8", "3.3", "12.4"],
        ["25.0", "NO", "0", "0.0", "-", "49.5"],
    ]
    between = [row.split() for row in history_text(seated=fold, loads=[8e3, 9e3], resting=9e3).splitlines()[1:]]
    assert [row[4] for row in between] == ["-", "-"]
