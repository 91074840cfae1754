"""Tension from sag and from round trips: hand values, limits, symmetry, and what is refused."""

from __future__ import annotations

import inspect
from dataclasses import replace

import numpy as np
import pytest

from linelib import hang
from linelib.models.pluck import pluck
from linelib.models.tightness import Measured, tension_from_round_trips, tension_from_sag
from linelib.models.trips_needed import trips_needed
from linelib.rigging import Rig, Segment
from linelib.studies.lesson_rig import lesson_setup
from linelib.tables import webbings
from tests.house.refusals import NO_NUMBER, refused, shown
from tests.setups import GRAVITY, one_webbing, reference_setup, straight


def test_sag_by_hand():
    """800 N in the middle of 100 m, 2.5 m of sag: 800 x 100 / (4 x 2.5) = 8000 N. Own weight 1 N/m adds
    1 x 100^2 / (8 x 2.5) = 500 N. Sag to 0.1 m: 4 %, 320 N; weight to 8 N: 1 %, 80 N; length to 2 m: 2 %, 160 N."""
    plain = {"load": 800.0, "length": 100.0, "sag": 2.5}
    assert tension_from_sag(**plain).tension == pytest.approx(8000.0, rel=1e-12)
    assert tension_from_sag(**plain, line_weight=1.0).tension == pytest.approx(8500.0, rel=1e-12)
    for error, uncertainty in (({"sag_error": 0.1}, 320.0), ({"load_error": 8.0}, 80.0), ({"length_error": 2.0}, 160.0)):
        assert tension_from_sag(**plain, **error).uncertainty == pytest.approx(uncertainty, rel=1e-12)
    together = tension_from_sag(**plain, sag_error=0.1, load_error=8.0, length_error=2.0)
    assert together.uncertainty == pytest.approx((320.0**2 + 80.0**2 + 160.0**2) ** 0.5, rel=1e-12)


def test_round_trips_by_hand():
    """100 m, 0.1 kg/m, 3 trips in 3 s: 200 m/s, 4000 N. Two presses of 0.1 s: 2 x 0.1414 / 3 = 9.43 %; 5 % of the mass is
    5 %; 1 % of the length is 2 %."""
    plain = {"time": 3.0, "trips": 3, "length": 100.0, "mass_per_length": 0.1}
    assert tension_from_round_trips(**plain).tension == pytest.approx(4000.0, rel=1e-12)
    assert tension_from_round_trips(**plain, stopwatch_error=0.1).relative == pytest.approx(0.0943, abs=5e-5)
    assert tension_from_round_trips(**plain, mass_error=0.005).relative == pytest.approx(0.05, rel=1e-12)
    assert tension_from_round_trips(**plain, length_error=1.0).relative == pytest.approx(0.02, rel=1e-12)


def test_trips_by_hand():
    """t1 = 1 s, r = 0.1 s: 28.3 % over the number of trips. 5 % takes 5.7, so 6; with 3 % of the mass 4 % are left, 7.07,
    so 8. A perfect watch needs one."""
    assert trips_needed(wanted=0.05, round_trip=1.0, stopwatch_error=0.1) == 6
    assert trips_needed(wanted=0.05, round_trip=1.0, stopwatch_error=0.1, rest=0.03) == 8
    assert trips_needed(wanted=0.05, round_trip=1.0, stopwatch_error=0.0) == 1
    assert trips_needed(wanted=0.1, round_trip=1.0, stopwatch_error=0.2 / 8.0**0.5) == 2  # exactly two, not three


@pytest.mark.parametrize("round_trip, error, rest", [(0.3, 0.2, 0.0), (1.2, 0.1, 0.03), (4.0, 0.05, 0.049)])
def test_that_many_trips_are_enough_and_one_less_is_not(round_trip, error, rest):
    needed = trips_needed(wanted=0.05, round_trip=round_trip, stopwatch_error=error, rest=rest)

    def relative(trips):
        plain = {"length": 100.0, "mass_per_length": 0.1, "mass_error": 0.1 * rest, "stopwatch_error": error}
        return tension_from_round_trips(time=trips * round_trip, trips=trips, **plain).relative

    assert relative(needed) <= 0.05
    assert needed == 1 or relative(needed - 1) > 0.05


def test_no_number_of_trips_makes_up_for_the_mass():
    name, allowed = refused(lambda: trips_needed(wanted=0.05, round_trip=1.0, stopwatch_error=0.1, rest=0.06))
    assert name == "rest = 0.06"
    assert "no number of trips" in allowed


def test_forgetting_a_backup_of_equal_mass_halves_the_answer():
    web = webbings()["hmpe_25mm"]
    rig = one_webbing(web, hung_mass_per_length=web.mass_per_length)
    time = pluck(rig=rig).round_trip
    both, one = (
        tension_from_round_trips(time=time, trips=1, length=100.0, mass_per_length=n * web.mass_per_length).tension
        for n in (2.0, 1.0)
    )
    assert one == pytest.approx(0.5 * both, rel=1e-12)
    assert both == pytest.approx(3000.0, rel=5e-3)  # what is left: webbing that is stretched weighs less a metre


def test_pluck_on_a_nearly_weightless_line_is_two_lengths_over_speed():
    """0.1 kg/m unstretched, so tight that its weight does nothing: 4e5 N stretch it by 0.4, 0.1 / 1.4 kg/m are left, and
    there and back takes 2 x 100 m sqrt(0.1 / 1.4 / 4e5)."""
    found = pluck(rig=one_webbing(straight(1e6, 0.1), pretension=4e5))
    assert found.round_trip == pytest.approx(200.0 * (0.1 / 1.4 / 4e5) ** 0.5, rel=1e-6)
    assert found.tension == 4e5


def test_pluck_on_a_slope_takes_pull_and_way_along_the_straight_line():
    """80 m across and 60 m up are 100 m; 99.7 m of webbing pull EA (100 / 99.7 - 1) = 3009.0 N along it, not 2407 N across.
    There and back: 2 sqrt(m L / T), m = 99.7 m of 1 mg/m."""
    found = pluck(rig=Rig(span=80.0, height_difference=60.0, segments=(Segment(webbing=straight(1e6, 1e-6), length=99.7),)))
    assert found.tension == pytest.approx(1e6 * (100.0 / 99.7 - 1.0), rel=1e-6)
    assert found.round_trip == pytest.approx(2.0 * (99.7e-6 * 100.0 / found.tension) ** 0.5, rel=1e-6)


def test_nothing_hung_is_webbing_only_also_where_webbings_differ():
    heavy = Segment(webbing=straight(1e5, 0.3), length=20.0)
    bare = pluck(rig=Rig(span=100.0, segments=(heavy, Segment(webbing=straight(1e6, 0.05))), pretension=3e3))
    assert bare.webbing_only == pytest.approx(bare.round_trip, rel=1e-12)


def test_nothing_hung_is_webbing_only_and_hung_mass_slows_by_the_root():
    bare = pluck(rig=one_webbing())
    assert bare.webbing_only == pytest.approx(bare.round_trip, rel=1e-12)
    hung = pluck(rig=one_webbing(hung_mass_per_length=0.15))
    assert hung.round_trip / hung.webbing_only == pytest.approx(2.0, rel=2e-3)  # 0.2 kg/m over 0.05 kg/m
    assert hung.round_trip > bare.round_trip


def test_pluck_seen_from_the_other_side():
    soft = Segment(webbing=webbings()["polyamide_25mm"], length=10.0)
    rig = Rig(span=80.0, height_difference=9.0, segments=(soft, Segment(webbing=webbings()["hmpe_25mm"])), pretension=2e3)
    turned = replace(rig, height_difference=-9.0, segments=rig.segments[::-1])
    assert pluck(rig=turned).round_trip == pytest.approx(pluck(rig=rig).round_trip, rel=1e-9)


@pytest.mark.parametrize("pretension", [1e3, 3e3, 1e4])
@pytest.mark.parametrize("mass", [10.0, 80.0])
@pytest.mark.parametrize("height", [0.0, 10.0])
def test_sag_says_the_tension_with_the_weight_on(pretension, mass, height):
    """The exact line, read without error. With the line's own weight the answer is right to 1 %; the usual way is low; the
    line with the weight on is tighter than alone."""
    rig = replace(lesson_setup(pretension=pretension).rig, height_difference=height)
    load, chord = mass * GRAVITY, float(np.hypot(100.0, height))
    state = hang(rig=rig, load=load)
    true = state.horizontal * chord / 100.0
    web, natural = rig.segments[0].webbing, float(state.natural_lengths[0])
    own = (web.mass_per_length * natural + rig.hung_mass * rig.span) * GRAVITY / chord
    usual = tension_from_sag(load=load, length=chord, sag=state.sag).tension
    assert tension_from_sag(load=load, length=chord, sag=state.sag, line_weight=own).tension == pytest.approx(true, rel=0.01)
    assert usual / true == pytest.approx(load / (load + 0.5 * own * chord), rel=0.01)
    assert usual < true
    assert true > pluck(rig=rig).tension


def test_rough_is_beyond_thirty_percent():
    assert not Measured(tension=1000.0, uncertainty=299.0).rough
    assert Measured(tension=1000.0, uncertainty=301.0).rough


ERROR = [-1.0, 1e4, None, *NO_NUMBER]
CALLS = {
    tension_from_sag: (
        {"load": 800.0, "length": 100.0, "sag": 2.5, "line_weight": 1.0}
        | {"load_error": 8.0, "length_error": 0.1, "sag_error": 0.1},
        {"load": [0.0, -1.0, 2e6, None, *NO_NUMBER], "length": [0.0, 6e3, None, *NO_NUMBER]}
        | {"sag": [0.0, -1.0, 101.0, None, *NO_NUMBER], "line_weight": ERROR}
        | {"load_error": ERROR, "length_error": ERROR, "sag_error": ERROR},
    ),
    tension_from_round_trips: (
        {"time": 3.0, "trips": 3, "length": 100.0, "mass_per_length": 0.1}
        | {"stopwatch_error": 0.1, "mass_error": 0.003, "length_error": 0.5},
        {"time": [0.0, -1.0, None, *NO_NUMBER], "trips": [0, -3, 2.5, 1001, None, *NO_NUMBER]}
        | {"length": [0.0, 6e3, None, *NO_NUMBER], "mass_per_length": [0.0, 201.0, None, *NO_NUMBER]}
        | {"stopwatch_error": ERROR, "mass_error": ERROR, "length_error": ERROR},
    ),
    trips_needed: (
        {"wanted": 0.05, "round_trip": 1.0, "stopwatch_error": 0.1, "rest": 0.03},
        {"wanted": [0.0, -0.1, 1.1, None, *NO_NUMBER], "round_trip": [0.0, -1.0, None, *NO_NUMBER]}
        | {"stopwatch_error": ERROR, "rest": [-0.1, 0.05, 11.0, None, *NO_NUMBER]},
    ),
    pluck: ({"rig": one_webbing()}, {"rig": [None, "rig", reference_setup()]}),
}
BAD = [
    pytest.param(call, name, value, id=f"{call.__name__}.{name}={value!r:.40}")
    for call, (_, bad) in CALLS.items()
    for name, values in bad.items()
    for value in values
]


@pytest.mark.parametrize("call, name, value", BAD)
def test_bad_arguments(call, name, value):
    head, _ = refused(lambda: call(**{**CALLS[call][0], name: value}))
    assert name in head
    if isinstance(value, (int, float)):
        assert shown(value) in head or repr(value) in head


@pytest.mark.parametrize("call", CALLS)
def test_good_calls_and_every_argument_is_in_the_table(call):
    good, bad = CALLS[call]
    call(**good)
    assert set(good) == set(bad) == set(inspect.signature(call).parameters)
    with pytest.raises(TypeError):
        call(*good.values())
