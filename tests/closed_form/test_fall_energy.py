"""The two estimates of the blackboard: limits, symmetry, and the values of an earlier program."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from linelib import Rig, Segment, fall_energy
from tests.setups import GRAVITY, HMPE, on_a_spring, one_webbing, reference_setup, straight

INSERT = Rig(span=100.0, segments=(Segment(webbing=straight(6e4, 0.07), length=7.5), Segment(webbing=HMPE)), pretension=3e3)
CASES = {
    "100 m": (one_webbing(), 8.74e3, 10.42e3),
    "with insert": (INSERT, 6.32e3, 7.82e3),
    "50 m": (one_webbing(straight(8e4, 0.07), span=50.0, pretension=2.5e3), 4.23e3, 4.87e3),
    "300 m": (one_webbing(straight(2e5, 0.065), span=300.0, pretension=5e3), None, 6.32e3),
}


@pytest.mark.parametrize("rig, alone, standing", CASES.values(), ids=CASES.keys())
def test_values_of_an_earlier_separately_written_program(rig, alone, standing):
    """Within 1 %; at 300 m there is no answer from the line alone, and words that say why."""
    estimate = fall_energy(setup=reference_setup(rig))
    assert estimate.from_standing.tension == pytest.approx(standing, rel=0.01)
    if alone is None:
        assert estimate.from_line_alone is None
        assert "300" in estimate.refused
    else:
        assert estimate.from_line_alone.tension == pytest.approx(alone, rel=0.01)
        assert estimate.refused == ""


def test_refused_where_the_freed_line_gives_back_more_than_the_walker_brings():
    """150 m of soft webbing under 130 kg, fallen from 0.2 m: the standing line holds more than m g x 0.4 m."""
    rig = one_webbing(straight(1e5), span=150.0, pretension=1e3)
    setup = reference_setup(rig, leash={"length": 0.2}, walker={"mass": 130.0, "standing_height": 0.2})
    estimate = fall_energy(setup=setup)
    assert estimate.from_line_alone is None
    assert f"brings only {130.0 * GRAVITY * 0.4:.0f} J" in estimate.refused
    assert estimate.from_standing.tension > estimate.standing_tension


@pytest.mark.parametrize("stiffness", [1e3, 20e3])
@pytest.mark.parametrize("drop", [0.2, 2.0, 12.0])
def test_on_a_line_that_hardly_gives_it_is_a_mass_on_a_spring(drop, stiffness):
    """F = mg + sqrt((mg)^2 + 2 mg k h): the line gives 1 m for 8 MN; 20 kN/m give 400 times as much, half of 1/400 counts."""
    weight = 80.0 * GRAVITY
    estimate = fall_energy(setup=on_a_spring(mass=80.0, drop=drop, stiffness=stiffness)).from_standing
    assert estimate.leash_force == pytest.approx(weight + np.sqrt(weight**2 + 2.0 * weight * stiffness * drop), rel=2e-3)
    assert estimate.lowest_point == pytest.approx(min(drop, 10.0) + estimate.leash_force / stiffness, rel=1e-3, abs=1e-3)


def test_on_a_leash_that_hardly_gives_the_line_takes_it_all():
    """Energy put together by hand in the middle of a level straight-law line: mg (h + leash + extra sag) =
    EA / (2 L) (stretch^2 - stretch at rest^2), with L the natural length behind 3 kN."""
    natural = 100.0 / 1.003
    estimate = fall_energy(setup=reference_setup(one_webbing(straight(1e6, 1e-6)), leash={"stiffness": 1e6}))

    def stretch(sag):
        return 2.0 * np.hypot(50.0, sag) - natural

    sag = estimate.from_standing.lowest_point - 1.5 - estimate.from_standing.leash_force / 1e6
    brought = 80.0 * GRAVITY * (2.5 + sag - estimate.standing_sag)
    taken = 0.5e6 / natural * (stretch(sag) ** 2 - stretch(estimate.standing_sag) ** 2)
    assert taken == pytest.approx(brought, rel=2e-3)  # the leash takes 2 J of 3.6 kJ
    assert estimate.from_standing.tension == pytest.approx(1e6 * stretch(sag) / natural, rel=1e-6)
    lift = 2.0 * estimate.from_standing.tension * sag / np.hypot(50.0, sag)
    assert estimate.from_standing.leash_force == pytest.approx(lift, rel=1e-6)


def test_standing_line_by_hand():
    """2 T sin(angle) carries walker and ring."""
    estimate = fall_energy(setup=reference_setup())
    sag = estimate.standing_sag
    carried = 2.0 * estimate.standing_tension * sag / np.hypot(50.0, sag)
    assert carried == pytest.approx(80.4 * GRAVITY, rel=1e-6)


@pytest.mark.parametrize("position", [0.5, 0.3, 0.04])
@pytest.mark.parametrize("rise", [0.0, 12.0])
def test_seen_from_the_other_side(position, rise):
    setup = reference_setup(replace(INSERT, height_difference=rise), walker={"position": position})
    rig = replace(INSERT, segments=INSERT.segments[::-1], height_difference=-rise)
    one, other = fall_energy(setup=setup), fall_energy(setup=reference_setup(rig, walker={"position": 1.0 - position}))
    for name in ("from_line_alone", "from_standing"):
        a, b = getattr(one, name), getattr(other, name)
        assert (a.tension, a.leash_force, a.lowest_point) == pytest.approx((b.tension, b.leash_force, b.lowest_point), rel=1e-6)


def test_a_fast_ratio_is_a_stiffer_line_in_the_fall_only():
    """Fast ratio 2: rest as before, force in between that of the slow law and that of a line twice as stiff with the
    same tension at rest, which for a straight law is the same thing: T = T0 + 2 EA (strain - strain at rest)."""
    slow = fall_energy(setup=reference_setup())
    fast = fall_energy(setup=reference_setup(one_webbing(straight(1e6, fast_ratio=2.0))))
    assert fast.standing_tension == pytest.approx(slow.standing_tension, rel=1e-9)
    assert fast.from_standing.tension > 1.1 * slow.from_standing.tension
    natural = 100.0 / (1.0 + 3e3 / 1e6)
    low = fast.from_standing.lowest_point - 1.5 - fast.from_standing.leash_force / 20e3
    longer = 2.0 * (np.hypot(50.0, low) - np.hypot(50.0, fast.standing_sag))
    assert fast.from_standing.tension == pytest.approx(fast.standing_tension + 2e6 * longer / natural, rel=1e-4)


@pytest.mark.parametrize("name", ["from_line_alone", "from_standing"])
def test_more_drop_and_more_mass_pull_harder(name):
    def tension(**walker):
        return getattr(fall_energy(setup=reference_setup(walker=walker)), name).tension

    assert tension(standing_height=0.0) < tension(standing_height=0.7) < tension(standing_height=1.4)
    assert tension(mass=60.0) < tension(mass=80.0) < tension(mass=100.0)
