"""Where a function meets a limit: none, one, two and many crossings, jumps, gaps, and leashes of two blackboard estimates.

The estimates are solved for the leash by hand, because tension, not leash, is what is known at the limit.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq

from linelib import Leash, Rig, Segment, Setup, Walker, fall_energy
from linelib.studies.crossings import crossings, many_crossings
from tests.setups import GRAVITY, straight

INF = float("inf")


def test_a_line_and_its_root():
    found = crossings(outcome=lambda v: 2.0 + 3.0 * v, limit=5.0, low=0.0, high=4.0)
    assert found.values == pytest.approx((1.0,), abs=1e-4)
    assert found.within == ((0.0, found.values[0]),)
    assert (found.jumps, found.unknown, found.never) == ((), (), False)


@pytest.mark.parametrize("limit, within", [(20.0, ((0.0, 4.0),)), (1.0, ())])
def test_no_root(limit, within):
    found = crossings(outcome=lambda v: 2.0 + 3.0 * v, limit=limit, low=0.0, high=4.0)
    assert found.values == ()
    assert found.within == within
    assert found.never == (not within)


def test_two_roots_and_what_lies_between():
    """(v - 1)(v - 3) + 10 is at most 10 from 1 to 3; turned over, outside of it."""
    valley = crossings(outcome=lambda v: (v - 1.0) * (v - 3.0) + 10.0, limit=10.0, low=0.0, high=5.0, count=7)
    assert valley.values == pytest.approx((1.0, 3.0), abs=1e-3)
    assert valley.within == (valley.values,)
    hill = crossings(outcome=lambda v: 10.0 - (v - 1.0) * (v - 3.0), limit=10.0, low=0.0, high=5.0, count=7)
    assert hill.within == ((0.0, hill.values[0]), (hill.values[1], 5.0))


def test_many_roots():
    found = crossings(outcome=lambda v: 2.0 + np.sin(v), limit=2.0, low=1.0, high=20.0, count=64)
    assert found.values == pytest.approx(np.pi * np.arange(1, 7), abs=1e-3)
    assert [b for a, b in found.within] == pytest.approx([np.pi * n for n in (2, 4, 6)], abs=1e-3)


def test_a_limit_met_on_the_grid_itself_is_found_once():
    found = crossings(outcome=lambda v: v, limit=2.0, low=0.0, high=4.0, count=5)
    assert found.values == (2.0,)
    assert found.within == ((0.0, 2.0),)
    falling = crossings(outcome=lambda v: 4.0 - v, limit=2.0, low=0.0, high=4.0, count=5)
    assert falling.values == (2.0,)
    assert falling.within == ((2.0, 4.0),)


def test_a_limit_that_is_only_touched_is_not_crossed():
    found = crossings(outcome=lambda v: 5.0 - (v - 2.0) ** 2, limit=5.0, low=0.0, high=4.0, count=5)
    assert found.values == ()
    assert found.within == ((0.0, 4.0),)


def test_a_jump_is_told_from_a_root():
    found = crossings(outcome=lambda v: np.where(v < 1.37, 3.0, 8.0), limit=5.0, low=0.0, high=4.0)
    assert found.values == ()
    assert found.jumps == pytest.approx((1.37,), abs=1e-5)
    assert found.within == ((0.0, found.jumps[0]),)


def test_where_there_is_no_answer_nothing_is_said():
    """v from 0 to 1 and from 2 to 4; no answer between."""
    found = crossings(outcome=lambda v: np.where((v > 1.0) & (v < 2.0), np.nan, v), limit=3.0, low=0.0, high=4.0, count=9)
    assert found.values == pytest.approx((3.0,))
    assert found.within == ((0.0, 1.0), (2.0, 3.0))
    assert found.unknown == ((1.0, 2.0),)
    lost = crossings(outcome=lambda v: np.where((v > 1.1) & (v < 1.9), np.nan, v), limit=1.5, low=0.0, high=3.0, count=4)
    assert lost.values == ()  # both ends of the step answer, but not what lies between
    assert lost.unknown == ((1.0, 2.0),)
    assert lost.within == ((0.0, 1.0),)


def test_many_functions_share_each_batch():
    asked = []

    def outcome(values, line):
        asked.append(len(values))
        return values ** (line + 1.0)

    found = many_crossings(outcome=outcome, limit=2.1, grids=[np.linspace(0.0, 3.0, 10)] * 3)
    assert [of.values[0] for of in found] == pytest.approx([2.1, 2.1**0.5, 2.1 ** (1 / 3)], rel=1e-4)
    assert asked[0] == 30
    assert max(asked[1:]) == 3
    assert len(asked) < 12


def test_the_leash_of_a_load_that_is_suddenly_stopped():
    """A line that does not give: F = m g + sqrt((m g)^2 + 2 m g k (height + leash)) at 10 kN, so the leash is
    ((F - m g)^2 - (m g)^2) / (2 m g k) - height; 80 kg, 20 kN/m, height 1 m:
    (84.925 - 0.615) MN2 / 31.381 kN2/m - 1 m = 1.687 m."""
    weight, k, height = 80.0 * GRAVITY, 20e3, 1.0

    def pull(leash):
        return weight + np.sqrt(weight**2 + 2.0 * weight * k * (height + leash))

    found = crossings(outcome=pull, limit=10e3, low=0.2, high=5.0)
    wanted = ((10e3 - weight) ** 2 - weight**2) / (2.0 * weight * k) - height
    assert found.values == pytest.approx((wanted,), rel=1e-3)
    assert found.within == ((0.2, found.values[0]),)
    assert wanted == pytest.approx(1.687, abs=5e-4)


def test_the_leash_of_the_blackboard_on_a_massless_line():
    """Estimate 'from standing' on a weightless straight line, solved for the leash: at the limit T1 the line's length, its V of
    depth d1, the leash's pull P = 2 T1 sin, and all energies are known; only the height fallen is not."""
    stiffness, natural, span, limit, k = 1e6, 100.05, 100.0, 9e3, 20e3
    rig = Rig(span=span, segments=(Segment(webbing=straight(stiffness, 1e-6), length=natural),))

    def peaks(leashes):
        setups = [Setup(rig=rig, leash=Leash(length=float(v)), walker=Walker()) for v in leashes]
        return np.array([fall_energy(setup=s).from_standing.tension for s in setups])

    def depth(tension):
        return np.sqrt((0.5 * natural * (1.0 + tension / stiffness)) ** 2 - (0.5 * span) ** 2)

    def carried(tension):
        return 2.0 * tension * depth(tension) / np.hypot(0.5 * span, depth(tension))

    standing = brentq(lambda t: carried(t) - 80.4 * GRAVITY, 100.0, 1e5)  # the ring of 0.4 kg stands on the line, too
    pull = carried(limit)
    stored = 0.5 * natural * (limit**2 - standing**2) / stiffness + 0.5 * pull**2 / k
    wanted = stored / (80.0 * GRAVITY) - (depth(limit) - depth(standing)) - pull / k - 1.0
    found = crossings(outcome=peaks, limit=limit, low=1.0, high=4.0, count=5)
    assert 1.0 < wanted < 4.0
    assert found.values == pytest.approx((wanted,), rel=1e-3)
    there = replace(Setup(rig=rig, leash=Leash(), walker=Walker()), leash=Leash(length=found.values[0]))
    assert fall_energy(setup=there).from_standing.tension == pytest.approx(limit, rel=1e-3)


@pytest.mark.parametrize(
    "changes, head",
    [
        ({"limit": None}, "limit = None"),
        ({"limit": "5"}, "limit = '5'"),
        ({"limit": float("nan")}, "limit = nan"),
        ({"low": 4.0}, "high = 4.0"),
        ({"high": INF}, "high = inf"),
        ({"low": True}, "low = True"),
        ({"count": 2}, "count = 2.0"),
    ],
)
def test_refusals(changes, head):
    with pytest.raises(ValueError, match="is not possible; allowed: ") as refusal:
        crossings(**{"outcome": lambda v: v, "limit": 2.0, "low": 0.0, "high": 4.0, **changes})
    assert str(refusal.value).startswith(head)
