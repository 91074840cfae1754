"""Signs of a tear where they can be written down: a light taut line, nothing given up, thresholds; refusals; stop rules."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest

from linelib.models.pluck import pluck
from linelib.models.signs import PROVES_NOTHING, Noticeable, Sign, TearSigns
from linelib.models.tear_signs import tear_signs, with_lengths
from linelib.rigging import Rig, Segment
from linelib.studies.stop_rules import ACTS, NEVER, STATES, act_for, order_text
from tests.house.refusals import NO_NUMBER, refused, shown
from tests.setups import one_webbing, straight

LIGHT = one_webbing(straight(1e6, 1e-6))


@pytest.mark.parametrize("given", [1e-3, 1e-2, 5e-2])
def test_light_taut_line_loses_stiffness_times_length_given_up(given) -> None:
    """T = EA (L / L0 - 1), exactly: L0 = L / (1 + T/EA), then L0 + given."""
    natural = 100.0 / 1.003
    signs = tear_signs(rig=LIGHT, length_given_up=given, load=800.0)
    assert signs.each[3].after == pytest.approx(1e6 * (100.0 / (natural + given) - 1.0), abs=0.5)
    assert signs.each[3].change == pytest.approx(-1e6 * given / 100.0, rel=0.01)
    ratio = signs.each[4].after / signs.each[4].before
    assert ratio == pytest.approx(math.sqrt(signs.each[3].before / signs.each[3].after), rel=1e-3)
    assert signs.each[0].change == given


def test_nothing_given_up_changes_nothing_and_proves_nothing() -> None:
    signs = tear_signs(rig=one_webbing(), length_given_up=0.0, load=800.0)
    assert [sign.times for sign in signs.each] == pytest.approx([0.0] * 5, abs=1e-6)
    assert signs.noticeable == ()
    assert PROVES_NOTHING in signs.verdict


def test_more_given_up_shows_more_and_in_the_right_direction() -> None:
    found = [tear_signs(rig=one_webbing(), length_given_up=g, load=800.0) for g in (0.002, 0.02, 0.2)]
    for less, more in pairwise(found):
        assert all(a.times < b.times for a, b in zip(less.each, more.each, strict=True))
    signs = [math.copysign(1.0, sign.change) for sign in found[-1].each]
    assert signs == [1.0, 1.0, -1.0, -1.0, 1.0]
    assert "Stop;" in found[-1].verdict


def test_threshold_reached_counts_as_noticeable() -> None:
    sign = Sign(name="sag", before=2.0, after=2.5, threshold=0.5)
    assert sign.times == 1.0
    assert TearSigns(each=(sign,)).noticeable == (sign,)
    assert TearSigns(each=(replace(sign, threshold=0.51),)).noticeable == ()


def test_half_the_threshold_is_twice_the_times() -> None:
    one, two = (tear_signs(rig=LIGHT, length_given_up=0.01, load=800.0, noticeable=n) for n in (None, Noticeable(sag=0.05)))
    assert two.each[1].times == pytest.approx(2.0 * one.each[1].times)


def test_weakened_webbing_stretches_more_as_written_down() -> None:
    """Light and straight, a share s left on l: compliance (L - l)/EA + l/(s EA), natural length as before."""
    signs = tear_signs(rig=LIGHT, length_given_up=0.0, load=800.0, weakened_length=0.5, whole_share=0.5)
    natural = 100.0 / 1.003
    expected = (100.0 - natural) / ((natural - 0.5) / 1e6 + 0.5 / 0.5e6)
    assert signs.each[3].after == pytest.approx(expected, abs=0.5)


def test_weakened_webbing_of_a_table_is_that_of_the_same_straight_law() -> None:
    table = replace(straight(1e6, 1e-6), stiffness=None, strain=(0.0, 0.01, 0.02), tension=(0.0, 1e4, 2e4))
    soft = {"length_given_up": 0.0, "load": 800.0, "weakened_length": 20.0, "whole_share": 0.4}
    one, two = (tear_signs(rig=rig, **soft) for rig in (LIGHT, one_webbing(table)))
    assert one.each[3].change < -300.0
    assert [s.after for s in two.each] == pytest.approx([s.after for s in one.each], rel=2e-4)


def test_what_is_given_up_comes_out_of_the_lock_at_b() -> None:
    """Light and straight, 10 m of 100 kN at A, then 1 MN: T = (L - n_A - n_B - given) / (n_A / EA_A + (n_B + given) / EA_B)."""
    parts = (Segment(webbing=straight(1e5, 1e-6), length=10.0), Segment(webbing=straight(1e6, 1e-6)))
    signs = tear_signs(rig=Rig(span=100.0, segments=parts, pretension=3e3), length_given_up=0.2, load=800.0)
    main = (100.0 - 10.0 * 1.03) / 1.003
    assert signs.each[3].after == pytest.approx((90.0 - main - 0.2) / (10.0 / 1e5 + (main + 0.2) / 1e6), abs=0.5)


def test_given_lengths_hang_the_same() -> None:
    rig = one_webbing()
    assert pluck(rig=with_lengths(rig=rig)).tension == pytest.approx(pluck(rig=rig).tension, rel=1e-6)
    two = Rig(span=50.0, segments=(Segment(webbing=straight(1e5), length=5.0), Segment(webbing=straight(1e6))), pretension=2e3)
    lengths = [s.length for s in with_lengths(rig=two).segments]
    assert lengths[0] == 5.0
    assert sum(lengths) < 50.0


GOOD = {"rig": LIGHT, "length_given_up": 0.01, "load": 800.0, "position": 0.5, "weakened_length": 0.1, "whole_share": 0.5}
BAD = {
    "rig": [None, "rig"],
    "length_given_up": [-0.1, 6.0, None, *NO_NUMBER],
    "load": [0.0, -1.0, 2e5, None, *NO_NUMBER],
    "weakened_length": [-0.1, 60.0, 1e-4, *NO_NUMBER],
    "whole_share": [0.0, 1.1, *NO_NUMBER],
    "position": [0.0, 1.0],
}


@pytest.mark.parametrize(("name", "value"), [(n, v) for n, values in BAD.items() for v in values])
def test_bad_arguments_are_refused_by_name_and_value(name, value) -> None:
    head, _ = refused(lambda: tear_signs(**{**GOOD, name: value}))
    assert head == f"{name} = {shown(value)}"


@pytest.mark.parametrize("name", ["length", "sag", "tension", "round_trip"])
@pytest.mark.parametrize("value", [0.0, -1.0, 1e7, *NO_NUMBER])
def test_bad_thresholds_are_refused(name, value) -> None:
    head, _ = refused(lambda: Noticeable(**{name: value}))
    assert head == f"{name} = {shown(value)}"


def test_noticeable_of_another_kind_is_refused() -> None:
    head, _ = refused(lambda: tear_signs(**GOOD, noticeable=0.1))
    assert head == "noticeable = 0.1"


def test_order_of_acts() -> None:
    """Nothing is opened before the load is off, and nobody is on the line then."""
    order = [step.act for step in ACTS]
    places = [
        next(i for i, act in enumerate(order) if word in act)
        for word in ("stop", "walker", "recoil", "load off", "open", "no more")
    ]
    assert places == sorted(places) == list(range(6))
    assert all(step.why for step in ACTS)
    assert order_text().splitlines()[3].startswith("4. take the load off with independent tackle:")
    assert NEVER == "Nobody pulls, plucks, loads or bounces on a suspect line."


@pytest.mark.parametrize("state", STATES)
def test_no_state_lets_anybody_go_on(state) -> None:
    said = act_for(state=state).lower()
    assert any(word in said for word in ("stop", "no more outing"))
    assert not any(word in said for word in ("safe", "continue", "carry on", "go on", "fine", "enough", "unless"))


@pytest.mark.parametrize("state", ["", "all well", None, 1])
def test_unknown_state_is_refused(state) -> None:
    head, allowed = refused(lambda: act_for(state=state))
    assert head == f"state = {state!r}"
    assert "nothing found" in allowed
