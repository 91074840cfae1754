"""Who pays, over the sag and along the span: printed values of another program, another solver, single falls, and mirrors.

Status of the printed values: computed with an earlier, separately written program, two or three digits; not measured. 100 m of
stiffness 1e6 N and 0.05 kg/m, nothing hung under it, 80 kg, leash 1.5 m, standing height 1 m.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from linelib import clearance_left, fall, falls, webbings
from linelib.rigging import Segment
from linelib.studies.commonly_said import at_sag
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.plain_rig import plain_setup
from linelib.studies.valley import valley
from linelib.studies.who_pays import (
    PLACES,
    SAGS,
    Bills,
    least_left,
    over_place,
    over_sag,
    placed,
    tensioned,
    tensions_of,
)

from .full_model import full_fall

TABLE = webbings()
LESSON = lesson_setup(table=TABLE)
BOARD = plain_setup(mass=80.0, pretension=3e3)
ROWS = ("peak_tension_a", "peak_tension_b", "peak_leash_force", "lowest_point")


@pytest.fixture(scope="module")
def board():
    return over_sag(setup=BOARD, tensions=tensions_of(setup=BOARD), shares=(0.027, 0.047, 0.105))


@pytest.fixture(scope="module")
def lesson():
    return over_sag(setup=LESSON, tensions=tensions_of(setup=LESSON))


def test_printed_values_over_the_sag(board):
    """Sag 2.7, 4.7, 10.5 %: anchor 10.3, 8.0, 6.9 kN; over standing x 1.4, 1.8, 3.5; person 1.9, 2.0, 3.1 kN; lowest in m."""
    assert board.peak / 1e3 == pytest.approx([10.3, 8.0, 6.9], rel=0.02)
    assert board.peak_tension_a / board.standing_tension_a == pytest.approx([1.4, 1.8, 3.5], rel=0.05)
    assert board.peak_leash_force / 1e3 == pytest.approx([1.9, 2.0, 3.1], rel=0.06)
    assert board.lowest_point == pytest.approx([6.2, 7.9, 13.3], rel=0.02)


def test_printed_values_along_the_span():
    """At 50, 15, 5, 3 % of the span 1.9, 2.4, 3.7, 4.6 kN on the person; the higher anchor hardly moves, 8.8 to 9.0 kN."""
    found = falls(setups=[placed(BOARD, p) for p in (0.5, 0.15, 0.05, 0.03)])
    assert found.peak_leash_force / 1e3 == pytest.approx([1.9, 2.4, 3.7, 4.6], rel=0.05)
    assert found.peak_tension_a / 1e3 == pytest.approx([8.77, 8.83, 8.93, 9.0], rel=0.01)
    assert found.lowest_point[:3] == pytest.approx([6.97, 5.30, 3.73], rel=0.01)


@pytest.mark.parametrize("bills", ["board", "lesson"])
def test_saggier_is_less_at_the_anchor_and_more_for_person_drop_and_increase(bills, request):
    """Both halves of the answer, between a taut and a slack line; the drop deepens with every step."""
    found = request.getfixturevalue(bills)
    assert np.all(np.diff(found.peak) < 0.0)
    assert np.all(np.diff(found.lowest_point) > 0.0)
    assert found.increase[-1] > 1.2 * found.increase[0]
    assert found.peak_leash_force[-1] > 1.1 * found.peak_leash_force[0]


@pytest.mark.parametrize("length, material, mass", [(100.0, "hmpe_25mm", 80.0), (60.0, "polyamide_tubular_25mm", 130.0)])
def test_the_pretension_for_a_sag_by_another_solver(length, material, mass):
    """Brent's root on the standing line of studies/commonly_said.py; the sag itself within 0.1 %."""
    setup = lesson_setup(table=TABLE, length=length, material=material, mass=mass)
    tensions = tensions_of(setup=setup)
    assert np.all(np.diff(tensions.shares) > 0.0)
    for share in (0.03, 0.05, 0.09):
        found, exact = tensions.at(share), at_sag(setup=setup, share=share).rig.pretension
        assert found == pytest.approx(exact, rel=3e-3)
        sag = falls(setups=[tensioned(setup, found)], duration=0.05).standing_sag[0]
        assert sag / length == pytest.approx(share, rel=1e-3)


def test_a_sag_is_that_in_the_middle_wherever_the_walker_is():
    assert tensions_of(setup=placed(LESSON, 0.1)).at(0.05) == pytest.approx(tensions_of(setup=LESSON).at(0.05), rel=1e-12)


@pytest.mark.parametrize("pretension", [1e3, 4e3])
def test_places_between_the_computed_ones(pretension):
    """Anchors within 2.5 %, lowest tie-in within 1 %; the person within 10 %: either of two falls is converged to about 5 %."""
    setup = tensioned(LESSON, pretension)
    drawn, there = over_place(setup=setup), (0.06, 0.1, 0.17, 0.24, 0.43, 0.62, 0.88)
    truth = falls(setups=[placed(setup, p) for p in there])
    for name, within in zip(ROWS, (0.025, 0.025, 0.10, 0.01), strict=True):
        assert np.interp(there, drawn.over, getattr(drawn, name)) == pytest.approx(getattr(truth, name), rel=within), name


def test_the_far_half_is_the_mirror_of_the_near_one():
    """Drawn by symmetry; computed on both halves here: what A gets at 20 %, B gets at 80 %."""
    drawn = over_place(setup=BOARD)
    assert drawn.peak_tension_a == pytest.approx(drawn.peak_tension_b[::-1], rel=1e-12)
    assert drawn.lowest_point == pytest.approx(drawn.lowest_point[::-1], rel=1e-12)
    assert (drawn.over[0], drawn.over[-1]) == pytest.approx((PLACES[0], 1.0 - PLACES[0]))
    left, right = (fall(setup=placed(BOARD, p)) for p in (0.2, 0.8))
    assert left.peak_tension_a == pytest.approx(right.peak_tension_b, rel=1e-6)
    assert left.peak_tension_a != pytest.approx(left.peak_tension_b, rel=1e-3)
    assert left.peak_leash_force == pytest.approx(right.peak_leash_force, rel=1e-6)


def test_close_to_an_anchor_the_person_pays():
    drawn = over_place(setup=LESSON)
    assert drawn.peak_leash_force[0] > 1.5 * drawn.peak_leash_force[18]
    assert drawn.peak[0] == pytest.approx(drawn.peak[18], rel=0.05)
    assert drawn.lowest_point.argmax() == 18


@pytest.mark.parametrize(
    "share, position, near, far", [(0.04, 0.1, 0.01, 0.01), (0.08, 0.1, 0.02, 0.07), (0.1, 0.5, 0.02, 0.02)]
)
def test_against_the_full_model(share, position, near, far):
    """Stretch waves, 60 elements. Measured: the higher anchor within 1.5 %, the drop within 0.2 %. Where the line is slack the
    reduced model reads low: the person by 6.5 % at 10 % of sag, and the far, lower anchor by 6 % at 8 % of sag close to A.
    """
    setup = placed(tensioned(LESSON, tensions_of(setup=LESSON).at(share)), position)
    full, found = full_fall(setup=setup, elements=60), fall(setup=setup)
    assert full.peak_tension_a >= 0.999 * full.peak_tension_b
    assert found.peak_tension_a == pytest.approx(full.peak_tension_a, rel=near)
    assert found.peak_tension_b == pytest.approx(full.peak_tension_b, rel=far)
    assert found.lowest_point == pytest.approx(full.lowest_point, rel=0.01)
    assert found.peak_leash_force == pytest.approx(full.peak_leash_force, rel=0.08)


def test_the_least_clearance_is_the_least_of_all_places():
    drawn, ground = over_place(setup=LESSON), valley(span=100.0, depth=16.0, rim=16.0)
    place, left = least_left(bills=drawn, span=100.0, ground=ground)
    by_hand = []
    for p, low in zip(drawn.over, drawn.lowest_point, strict=True):
        x = np.clip(100.0 * p + np.array([-1.0, 1.0]), 0.0, 100.0)
        top = np.interp(x, *np.array(ground).T).max()
        by_hand.append(-low - top - 1.0 - max(0.5, 0.05 * low))
    assert left.clearance == pytest.approx(min(by_hand))
    assert min(place, 1.0 - place) == pytest.approx(0.05)  # both ends alike
    alone = clearance_left(
        lowest_point=float(drawn.lowest_point[0]), position=0.05, span=100.0, height_difference=0.0, ground=ground
    )
    assert alone.clearance == pytest.approx(by_hand[0])


def test_peak_and_increase_are_each_of_the_anchor_with_more():
    """A 9 - 5 = 4, B 7 - 2 = 5 kN over standing; then A 6 - 4 = 2, B 8 - 7 = 1."""
    known = {"over": np.array([0.04, 0.08]), "peak_leash_force": np.zeros(2), "lowest_point": np.zeros(2)}
    peaks = {"peak_tension_a": np.array([9e3, 6e3]), "peak_tension_b": np.array([7e3, 8e3])}
    standing = {"standing_tension_a": np.array([5e3, 4e3]), "standing_tension_b": np.array([2e3, 7e3])}
    bills = Bills(**known, **peaks, **standing)
    assert bills.peak.tolist() == [9e3, 8e3]
    assert bills.increase.tolist() == [5e3, 2e3]


def test_the_valley_by_hand():
    """Rim 10 m, depth 20 m: half-way down the rim the ground is (1.5 + 20) / 2 = 10.75 m below the anchors."""
    x, z = np.array(valley(span=100.0, depth=20.0, rim=10.0)).T
    assert np.interp([0.0, 5.0, 10.0, 50.0, 95.0, 100.0], x, z) == pytest.approx([-1.5, -10.75, -20.0, -20.0, -10.75, -1.5])


def test_refusals():
    tensions = tensions_of(setup=LESSON)
    with pytest.raises(ValueError, match=r"standing sag = 0\.9 is not possible; allowed: a number from"):
        tensions.at(0.9)
    with pytest.raises(ValueError, match=r"shares = \(0\.9,\) is not possible"):
        over_sag(setup=LESSON, tensions=tensions, shares=(0.9,))
    two = (Segment(webbing=TABLE["polyamide_25mm"], length=5.0), *LESSON.rig.segments)
    for rig in (replace(LESSON.rig, height_difference=2.0), replace(LESSON.rig, segments=two)):
        with pytest.raises(ValueError, match="setup = 'a line whose sides differ' is not possible"):
            over_place(setup=replace(LESSON, rig=rig))
    with pytest.raises(ValueError, match=r"places = \(0\.1, 0\.3\) is not possible"):
        over_place(setup=LESSON, places=(0.1, 0.3))
    fixed = replace(LESSON.rig, pretension=None, segments=(Segment(webbing=TABLE["hmpe_25mm"], length=100.5),))
    with pytest.raises(ValueError, match="pretension = None is not possible"):
        tensions_of(setup=replace(LESSON, rig=fixed))
    for name, value in (("span", 0.0), ("depth", 1.0), ("rim", 51.0), ("depth", math.nan)):
        with pytest.raises(ValueError, match=f"{name} = .* is not possible"):
            valley(**{"span": 100.0, "depth": 20.0, "rim": 10.0, name: value})


def test_sags_the_rig_cannot_have_are_left_out():
    heavy = lesson_setup(table=TABLE, mass=130.0, material="polyamide_tubular_25mm", pretension=3e3)
    tensions = tensions_of(setup=heavy)
    found = over_sag(setup=heavy, tensions=tensions, shares=(0.001, *SAGS))
    assert found.over.tolist() == list(SAGS)
