"""One load cycle against the closed form of the standard linear solid, its limits, and values by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linelib.models.loss_loop import loss_loop, storage_and_loss
from linelib.models.stretch import law_of
from linelib.tables import webbings
from tests.house.refusals import refused
from tests.setups import straight

BY_HAND = straight(1e6, fast_ratio=2.0, relaxation_time=1.0)
POLYAMIDE = webbings()["polyamide_25mm"]


def test_by_hand_where_the_loss_is_greatest():
    """EA 1 MN, r 2, one radian a relaxation time: storage 1.5 MN, loss 0.5 MN; pi 0.005^2 0.5 MN = 39.27 J/m."""
    storage, loss = storage_and_loss(stiffness=1e6, fast_ratio=2.0, relaxation_time=1.0, period=2.0 * math.pi)
    assert (storage, loss) == pytest.approx((1.5e6, 0.5e6), rel=1e-12)
    loop = loss_loop(webbing=BY_HAND, low=0.01, high=0.02, period=2.0 * math.pi)
    assert loop.lost == pytest.approx(39.2699, rel=1e-6)
    assert loop.stiffness == pytest.approx(1.5e6, rel=1e-9)
    # put in on the way up: 15 kN * 0.01 + half of what is lost = 169.63 J/m, of which 23.15 % do not come back
    assert loop.taken == pytest.approx(169.635, rel=1e-4)
    assert loop.lost_share == pytest.approx(0.2315, abs=5e-5)
    # tension at the ends: 15 kN in the middle, 0.005 * 1.5 MN to either side
    assert [loop.tension[0], loop.tension[128]] == pytest.approx([7.5e3, 22.5e3], rel=1e-9)


@settings(max_examples=40)
@given(
    ratio=st.floats(1.0, 4.0),
    relaxation=st.floats(0.05, 5.0),
    period=st.floats(0.02, 200.0),
    half=st.floats(1e-4, 0.004),
)
def test_a_straight_law_is_the_closed_form(ratio, relaxation, period, half):
    """Mean strain 0.02, which keeps it taut: e' = 1 - 4 * 0.004 / 0.02 > 0."""
    web = straight(8e4, fast_ratio=ratio, relaxation_time=relaxation)
    loop = loss_loop(webbing=web, low=0.02 - half, high=0.02 + half, period=period)
    storage, loss = storage_and_loss(stiffness=8e4, fast_ratio=ratio, relaxation_time=relaxation, period=period)
    assert loop.stiffness == pytest.approx(storage, rel=1e-9)
    assert loop.lost == pytest.approx(math.pi * half**2 * loss, rel=1e-7, abs=1e-10)
    turn = np.linspace(0.0, 2.0 * np.pi, 257)
    expected = 8e4 * 0.02 + half * (-storage * np.cos(turn) + loss * np.sin(turn))
    assert loop.tension == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("period, times", [(1e5, 1.0), (1e-3, POLYAMIDE.fast_ratio)])
def test_very_slow_and_very_fast_nothing_is_lost_and_the_stiffness_is_that_of_the_law(period, times):
    low, high = (float(law_of(POLYAMIDE).strain(t)) for t in (3e3, 5e3))
    loop = loss_loop(webbing=POLYAMIDE, low=low, high=high, period=period)
    assert loop.stiffness == pytest.approx(times * 2e3 / (high - low), rel=1e-3)
    assert loop.lost_share < 3e-3
    middle = loss_loop(webbing=POLYAMIDE, low=low, high=high, period=2.0 * math.pi * POLYAMIDE.relaxation_time)
    assert middle.lost_share > 0.05


def test_without_a_fast_part_nothing_is_lost_at_any_pace():
    for period in (0.1, 1.0, 60.0):
        loop = loss_loop(webbing=straight(1e6), low=0.001, high=0.006, period=period)
        assert loop.lost == pytest.approx(0.0, abs=1e-9)
        assert loop.taken == pytest.approx(0.5 * 1e6 * (0.006**2 - 0.001**2), rel=1e-3)


def test_the_loop_is_closed_and_taken_counts_only_the_way_up():
    loop = loss_loop(webbing=POLYAMIDE, low=0.05, high=0.1, period=1.0)
    assert (loop.strain[0], loop.tension[0]) == (loop.strain[-1], loop.tension[-1])
    up = slice(0, 129)
    assert loop.taken == pytest.approx(np.trapezoid(loop.tension[up], loop.strain[up]), rel=1e-3)
    assert loop.lost == pytest.approx(np.trapezoid(loop.tension, loop.strain), rel=2e-3)
    assert 0.0 < loop.lost < loop.taken


def test_a_fast_release_from_a_hard_pull_ends_slack_and_never_pushes():
    loop = loss_loop(webbing=straight(1e6, fast_ratio=3.0), low=0.0, high=0.01, period=0.2)
    assert loop.tension.min() == 0.0
    assert loop.tension.max() > 1e4


GOOD = {"webbing": POLYAMIDE, "low": 0.05, "high": 0.1, "period": 1.0}
STRAIGHT = {"stiffness": 1e6, "fast_ratio": 2.0, "relaxation_time": 0.5, "period": 1.0}


@pytest.mark.parametrize(
    "call, good, name, value",
    [
        (loss_loop, GOOD, "webbing", "polyamide"),
        (loss_loop, GOOD, "low", -0.01),
        (loss_loop, GOOD, "low", math.nan),
        (loss_loop, GOOD, "high", 1.5),
        (loss_loop, GOOD, "high", 0.05),
        (loss_loop, GOOD, "period", 0.0),
        (storage_and_loss, STRAIGHT, "stiffness", 0.0),
        (storage_and_loss, STRAIGHT, "fast_ratio", 0.5),
        (storage_and_loss, STRAIGHT, "relaxation_time", -1.0),
        (storage_and_loss, STRAIGHT, "period", math.inf),
    ],
)
def test_refusals_name_argument_and_value(call, good, name, value):
    call(**good)
    head, _ = refused(lambda: call(**{**good, name: value}))
    assert name in head
    assert repr(value) in head
