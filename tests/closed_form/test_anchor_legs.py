"""Anchor legs against what can be done by hand: symmetry, stiff legs at small movements, legs side by side, a lost leg."""

from __future__ import annotations

import numpy as np
import pytest

from linelib.models.anchor_legs import Leg, share_pull
from linelib.models.leg_lost import lose_leg
from tests.house.refusals import NO_NUMBER, refused, shown

STIFF, PULL = 1e9, 8000.0


def pair(degrees, **more):
    return [Leg(angle=sign * np.radians(degrees) / 2.0, **more) for sign in (1.0, -1.0)]


def three(degrees, **more):
    return [*pair(degrees, **more), Leg(angle=0.0, **more)]


@pytest.mark.parametrize("degrees", [0.0, 30.0, 60.0, 90.0, 120.0])
@pytest.mark.parametrize("running", [False, True])
def test_symmetric_pair(degrees, running):
    found = share_pull(legs=pair(degrees), pull=PULL, running=running)
    by_hand = PULL / (2.0 * np.cos(found.angles[0]))  # the angle is the one under load
    assert found.tensions == pytest.approx((by_hand, by_hand), rel=1e-9)
    assert found.point[1] == pytest.approx(0.0, abs=1e-9)
    opened = np.degrees(found.angles[0] + (-found.angles[1]))
    assert opened == 0.0 if degrees == 0.0 else 0.0 < opened < degrees


@pytest.mark.parametrize("degrees, off", [(60.0, 10.0), (60.0, -20.0), (120.0, 25.0)])
def test_pull_off_the_middle_of_a_stiff_pair_is_the_sine_rule(degrees, off):
    found = share_pull(legs=pair(degrees, stiffness=STIFF), pull=PULL, direction=np.radians(off))
    half, whole = np.radians(degrees / 2.0), np.radians(degrees)
    left = PULL * np.sin(half - np.radians(off)) / np.sin(whole)
    right = PULL * np.sin(half + np.radians(off)) / np.sin(whole)
    assert found.tensions == pytest.approx((left, right), rel=1e-4)


@pytest.mark.parametrize("off", [40.0, -40.0])
def test_pull_past_a_leg_leaves_the_other_one_slack(off):
    found = share_pull(legs=pair(30.0), pull=PULL, direction=np.radians(off))
    assert sorted(found.tensions) == pytest.approx([0.0, PULL], rel=1e-9)
    assert found.tensions[0 if off < 0.0 else 1] == pytest.approx(PULL, rel=1e-9)


@pytest.mark.parametrize("degrees", [20.0, 60.0, 100.0])
def test_three_equal_stiff_legs(degrees):
    # stretch of an outer leg = that of the middle one times cos, and F = middle + 2 outer cos
    c = np.cos(np.radians(degrees / 2.0))
    middle = PULL / (1.0 + 2.0 * c**2)
    found = share_pull(legs=three(degrees, stiffness=STIFF), pull=PULL)
    assert found.tensions == pytest.approx((middle * c, middle * c, middle), rel=1e-4)
    assert found.most == 2


@pytest.mark.parametrize("degrees", [20.0, 60.0, 100.0])
def test_running_loop_pulls_the_same_in_three_legs(degrees):
    found = share_pull(legs=three(degrees, stiffness=STIFF), pull=PULL, running=True)
    each = PULL / (1.0 + 2.0 * np.cos(np.radians(degrees / 2.0)))
    assert found.tensions == pytest.approx((each,) * 3, rel=1e-4)


def test_legs_side_by_side_of_unequal_length_and_stiffness():
    legs = [Leg(angle=0.0, stiffness=200e3), Leg(angle=0.0, stiffness=300e3, longer_by=0.02)]
    k1, k2 = 200e3 / 1.5, 300e3 / 1.52
    x = (PULL + k2 * 0.02) / (k1 + k2)  # both taut: k1 x + k2 (x - 0.02) = pull
    assert share_pull(legs=legs, pull=PULL).tensions == pytest.approx((k1 * x, k2 * (x - 0.02)), rel=1e-9)


def test_long_leg_side_by_side_hangs_slack_until_the_other_has_stretched_by_it():
    just = 250e3 / 1.5 * 0.03  # N that stretch the short leg by 3 cm
    legs = [Leg(angle=0.0), Leg(angle=0.0, longer_by=0.03)]
    assert share_pull(legs=legs, pull=0.999 * just).tensions == pytest.approx((0.999 * just, 0.0), rel=1e-9)
    assert share_pull(legs=legs, pull=1.01 * just).tensions[1] > 0.0


def test_two_legs_at_an_angle_take_a_small_length_difference_by_swinging():
    even, odd = (share_pull(legs=[*pair(60.0)[:1], Leg(angle=-np.radians(30.0), longer_by=e)], pull=PULL) for e in (0.0, 0.02))
    assert odd.tensions == pytest.approx(even.tensions, rel=0.05)
    assert abs(odd.point[1]) > 0.01


def test_mirrored_anchor_has_mirrored_forces():
    legs = [Leg(angle=0.5, longer_by=0.03), Leg(angle=-0.3, stiffness=100e3), Leg(angle=0.1, reach=1.0)]
    mirrored = [Leg(angle=-g.angle, longer_by=g.longer_by, stiffness=g.stiffness, reach=g.reach) for g in legs]
    for running in (False, True):
        one = share_pull(legs=legs, pull=PULL, direction=0.1, running=running)
        two = share_pull(legs=mirrored, pull=PULL, direction=-0.1, running=running)
        assert one.tensions == pytest.approx(two.tensions, rel=1e-8)
        assert one.point == pytest.approx((two.point[0], -two.point[1]), abs=1e-9)


def test_stiff_tied_leg_lost_swings_and_loop_runs_out():
    half = np.radians(30.0)
    tied = lose_leg(legs=pair(60.0, stiffness=STIFF), lost=0, pull=PULL)
    loop = lose_leg(legs=pair(60.0, stiffness=STIFF), lost=0, pull=PULL, running=True)
    assert tied.run == pytest.approx(1.5 - 1.5 * np.cos(half), abs=1e-3)
    assert loop.run == pytest.approx(3.0 - 1.5 * np.cos(half), abs=1e-3)
    for lost in (tied, loop):
        assert lost.after.angles[0] == half  # the lost one stays in its place
        assert lost.after.tensions == pytest.approx((0.0, PULL), rel=1e-6)


def test_jolt_on_one_leg_straight_behind_is_the_dropped_weight():
    legs = [Leg(angle=0.0), Leg(angle=0.0, longer_by=0.5)]
    lost = lose_leg(legs=legs, lost=0, pull=PULL)
    free = 0.5 - lost.before.point[0]  # the short leg had stretched already
    k = 250e3 / 2.0
    assert lost.jolt == pytest.approx(PULL + np.sqrt(PULL**2 + 2.0 * k * PULL * free), rel=4e-3)
    assert lost.run == pytest.approx(free + PULL / k, rel=1e-9)


def test_jolt_of_a_leg_that_was_as_loaded_is_half_as_much_again():
    # two legs side by side: the other holds F/2 and then F, a sudden load: up to F + (F - F/2)
    lost = lose_leg(legs=[Leg(angle=0.0)] * 2, lost=1, pull=PULL)
    assert lost.jolt == pytest.approx(1.5 * PULL, rel=4e-3)


def test_stiff_tied_leg_swings_like_a_pendulum_and_hums():
    # rigid pendulum let go 30 degrees off: F (3 - 2 cos 30) at the bottom; the leg's own stretching adds at most as much again
    lost = lose_leg(legs=pair(60.0, stiffness=1e7), lost=0, pull=PULL)
    rigid = PULL * (3.0 - 2.0 * np.cos(np.radians(30.0)))
    assert rigid < lost.jolt < 1.5 * rigid
    assert lost.jolt < 0.5 * lose_leg(legs=pair(60.0, stiffness=1e7), lost=0, pull=PULL, running=True).jolt


def test_line_that_slackens_jolts_less():
    legs = pair(60.0)
    jolts = [lose_leg(legs=legs, lost=0, pull=PULL, running=True, line_stiffness=c) for c in (0.0, 2e3, 10e3)]
    assert jolts[0].jolt > jolts[1].jolt > jolts[2].jolt
    assert jolts[0].pull_after == pytest.approx(PULL)
    assert jolts[1].pull_after == pytest.approx(PULL - 2e3 * jolts[1].run, rel=1e-9)


GOOD = {"legs": pair(60.0), "pull": PULL, "direction": 0.0, "running": False}
BAD = {
    "legs": [None, "legs", 3.0, [], [None], pair(60.0) * 4, Leg(angle=0.0)],
    "pull": [0.0, -1.0, 1e8, *NO_NUMBER],
    "direction": [2.0, -2.0, *NO_NUMBER],
    "running": [None, 1, "yes"],
}
LOSE = {"lost": [-1, 2, 0.0, True, None, "0"], "line_stiffness": [-1.0, *NO_NUMBER]}


@pytest.mark.parametrize("name, value", [(n, v) for n, values in BAD.items() for v in values])
def test_refusals_of_share_pull(name, value):
    head, _ = refused(lambda: share_pull(**{**GOOD, name: value}))
    assert name in head
    if not isinstance(value, (list, type)):
        assert shown(value) in head or repr(value) in head


@pytest.mark.parametrize("name, value", [(n, v) for n, values in {**BAD, **LOSE}.items() for v in values])
def test_refusals_of_lose_leg(name, value):
    assert name in refused(lambda: lose_leg(**{**GOOD, "lost": 0, name: value}))[0]


def test_no_leg_can_be_lost_of_one():
    assert "lost" in refused(lambda: lose_leg(legs=pair(0.0)[:1], pull=PULL, lost=0))[0]


@pytest.mark.parametrize(
    "field, bad", [("angle", 1.6), ("reach", 0.0), ("longer_by", -0.8), ("longer_by", 1.6), ("stiffness", 0.0)]
)
def test_refusals_of_a_leg(field, bad):
    for value in (bad, *NO_NUMBER):
        head, _ = refused(lambda value=value: Leg(**{"angle": 0.0, field: value}))
        assert field in head
