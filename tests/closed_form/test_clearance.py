"""Clearance left: hand values, mirrored rigs, and the highest ground within reach."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linelib.models.clearance import clearance_left

FLAT = ((0.0, -20.0), (100.0, -20.0))
CASE = {"lowest_point": 7.0, "position": 0.5, "span": 100.0, "height_difference": 0.0, "ground": FLAT}


def test_level_rig_over_flat_ground_by_hand():
    """20 m to the ground - 7 m - 1 m of body - 0.5 m for the model (5 % of 7 m is less) = 11.5 m."""
    left = clearance_left(**CASE)
    assert left.clearance == pytest.approx(11.5)
    assert (left.ground_height, left.tie_in_height, left.body_below, left.model_allowance) == (-20.0, -7.0, 1.0, 0.5)


def test_high_anchor_b_lifts_the_straight_line():
    """B 8 m higher, a quarter of the way: the line is 2 m above A, so 2 m more is left than on a level rig."""
    left = clearance_left(**{**CASE, "position": 0.25, "height_difference": 8.0})
    assert left.clearance == pytest.approx(11.5 + 2.0)
    assert left.tie_in_height == pytest.approx(-5.0)


@pytest.mark.parametrize(("lowest_point", "allowance"), [(4.0, 0.5), (10.0, 0.5), (14.0, 0.7), (-1.0, 0.5)])
def test_model_allowance_is_the_larger_of_half_a_metre_and_a_twentieth(lowest_point, allowance):
    left = clearance_left(**{**CASE, "lowest_point": lowest_point})
    assert left.model_allowance == pytest.approx(allowance)
    assert left.clearance == pytest.approx(20.0 - lowest_point - 1.0 - allowance)


def test_entered_allowances_replace_ours():
    left = clearance_left(**CASE, body_below=1.4, model_allowance=0.0)
    assert left.clearance == pytest.approx(20.0 - 7.0 - 1.4)


@pytest.mark.parametrize(
    ("reach", "height"),
    [(0.0, -20.0), (0.5, -20.0), (1.0, -20.0), (1.5, -18.0), (2.0, -16.0), (3.0, -16.0)],
)
def test_highest_ground_within_reach_on_a_slope_and_a_peak(reach, height):
    """Flat up to 51 m, then 4 m up over 1 m to a peak at 52 m, and down again: 1.5 m away it is half-way up."""
    ground = ((0.0, -20.0), (51.0, -20.0), (52.0, -16.0), (53.0, -20.0), (100.0, -20.0))
    left = clearance_left(**{**CASE, "ground": ground}, reach=reach)
    assert left.ground_height == pytest.approx(height)
    assert left.clearance == pytest.approx(-7.0 - height - 1.5)


def test_a_narrow_block_between_the_ends_of_the_reach_counts():
    ground = ((0.0, -20.0), (50.3, -20.0), (50.4, -9.0), (50.5, -20.0), (100.0, -20.0))
    assert clearance_left(**{**CASE, "ground": ground}).ground_height == -9.0


def test_a_wall_counts_from_its_top_as_soon_as_it_is_in_reach():
    wall = ((0.0, -20.0), (51.0, -20.0), (51.0, -2.0), (100.0, -2.0))
    assert clearance_left(**{**CASE, "ground": wall}).ground_height == -2.0
    assert clearance_left(**{**CASE, "ground": wall}, reach=0.99).ground_height == -20.0
    near_a = ((0.0, -1.0), (6.0, -1.0), (6.0, -30.0), (100.0, -30.0))
    rounded = {**CASE, "position": 0.07, "ground": near_a}  # 0.07 * 100 is a little over 7: the wall is in reach still
    assert clearance_left(**rounded).ground_height == -1.0
    near_b = ((0.0, -30.0), (30.0, -30.0), (30.0, -1.0), (100.0, -1.0))
    rounded = {**CASE, "position": 0.29, "ground": near_b}  # 0.29 * 100 is a little under 29
    assert clearance_left(**rounded).ground_height == -1.0


heights = st.floats(-60.0, 0.0)


@given(
    zs=st.lists(heights, min_size=5, max_size=5),
    position=st.floats(0.0, 1.0),
    rise=st.floats(-20.0, 20.0),
    lowest_point=st.floats(0.0, 40.0),
)
def test_the_rig_seen_from_the_other_side_has_the_same_clearance(zs, position, rise, lowest_point):
    xs = (0.0, 3.0, 40.0, 40.5, 80.0)
    ground = tuple(zip(xs, zs, strict=True))
    mirrored = tuple((80.0 - x, z - rise) for x, z in reversed(ground))
    one = clearance_left(lowest_point=lowest_point, position=position, span=80.0, height_difference=rise, ground=ground)
    other = clearance_left(
        lowest_point=lowest_point, position=1.0 - position, span=80.0, height_difference=-rise, ground=mirrored
    )
    assert other.clearance == pytest.approx(one.clearance, abs=1e-6)


@given(zs=st.lists(heights, min_size=4, max_size=4), position=st.floats(0.05, 0.95), more=st.floats(0.0, 5.0))
def test_looking_further_never_leaves_more(zs, position, more):
    case = {**CASE, "position": position, "ground": tuple(zip((0.0, 30.0, 60.0, 100.0), zs, strict=True))}
    assert clearance_left(**case, reach=1.0 + more).clearance <= clearance_left(**case).clearance


def test_words_say_what_was_taken_off():
    words = clearance_left(**CASE, model_allowance=0.75).words
    assert "13.00 m above the highest ground within 1 m" in words
    assert "1.00 m of body below the tie-in (1 m is common practice, no source)" in words
    assert "0.75 m for the error of the model (a choice: ours, if you entered none)" in words
    assert "11.25 m is left." in words
    assert "The clearance that counts is taken for the catch by the backup." in words
    assert "reaches the ground" not in words


@pytest.mark.parametrize(
    ("lowest_point", "place", "short"),
    [(18.5, "1.50 m above", "0.00"), (19.0, "1.00 m above", "0.50"), (21.0, "1.00 m below", "2.50")],
)
def test_words_when_nothing_is_left(lowest_point, place, short):
    words = clearance_left(**{**CASE, "lowest_point": lowest_point}, model_allowance=0.5).words
    assert f"Less than nothing left ({short} m short): the person reaches the ground." in words
    assert f"The lowest tie-in is {place} the highest ground" in words
    assert " is left." not in words


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"ground": ((0.0, -20.0), (50.5, -20.0))}, r"ground = 'from 0 to 50.5 m' .* covers x from 49 to 51 m"),
        ({"ground": ((49.5, -20.0), (90.0, -20.0))}, r"ground = 'from 49.5 to 90 m' .* covers x from 49 to 51 m"),
        ({"ground": ((0.0, -20.0),)}, "ground = .*at least two pairs"),
        ({"ground": ((50.0, -20.0), (50.0, -10.0))}, "ground = .*at least two pairs"),
        ({"ground": ((0.0, -20.0), (60.0, -20.0), (40.0, -20.0), (100.0, 0.0))}, "ground = .*towards anchor B"),
        ({"ground": (0.0, -20.0)}, "ground = .*at least two pairs"),
        ({"ground": ((0.0, -20.0, 1.0), (100.0, -20.0, 1.0))}, "ground = .*at least two pairs"),
        ({"ground": "flat"}, "ground = 'flat'"),
        ({"ground": ((0.0, -20.0), (100.0, float("nan")))}, r"ground\[1\]\[1\] = nan"),
        ({"lowest_point": float("nan")}, "lowest_point = nan"),
        ({"position": 1.2}, "position = 1.2 .* 0 to 1"),
        ({"span": 0.0}, "span = 0.0"),
        ({"height_difference": 300.0}, "height_difference = 300.0"),
        ({"body_below": -1.0}, "body_below = -1.0 .* 0 to 5 m"),
        ({"model_allowance": -0.1}, "model_allowance = -0.1"),
        ({"reach": -1.0}, "reach = -1.0"),
    ],
)
def test_what_is_not_possible_is_refused(change, words):
    with pytest.raises(ValueError, match=words):
        clearance_left(**{**CASE, **change})


def test_close_to_an_anchor_the_profile_may_end_with_the_line():
    assert clearance_left(**{**CASE, "position": 0.005}).clearance == pytest.approx(11.5)
    assert clearance_left(**{**CASE, "position": 0.995}).clearance == pytest.approx(11.5)


def test_ground_beyond_an_anchor_counts_when_it_is_entered():
    ground = ((-5.0, -3.0), (-0.2, -3.0), (0.0, -20.0), (100.0, -20.0))
    assert clearance_left(**{**CASE, "position": 0.005, "ground": ground}).ground_height == -3.0
