"""Strength by place, by hand: the least of the places, reductions only where they act, and what is often done instead."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linelib.models.anchor_legs import Leg, share_pull
from linelib.models.margins import NO_SOURCE, Place, Reduction, margins, share_left
from linelib.studies.weakest_link import END, LEGS, LOCK, WEBBING, often_done, weakest_link
from tests.house.refusals import NO_NUMBER, refused

QUARTER, TENTH = Reduction(name="lock", loses=0.25), Reduction(name="sun", loses=0.1, source="entered")
LOCKED = Place(name="lock", printed=35e3, load=8e3, reductions=(QUARTER,))
PLAIN = Place(name="webbing", printed=30e3, load=8e3)


def test_by_hand():
    found = margins(places=[PLAIN, LOCKED], everywhere=[TENTH])
    assert [m.left_here for m in found.each] == pytest.approx([30e3, 26250.0])
    assert [m.left for m in found.each] == pytest.approx([27e3, 23625.0])
    assert found.weakest.place is LOCKED
    assert found.times == pytest.approx(23625.0 / 8e3)


def test_two_reductions_at_one_place_multiply_and_none_leave_all():
    assert share_left(reductions=[QUARTER, TENTH]) == pytest.approx(0.675)
    assert share_left(reductions=[]) == 1.0
    assert Reduction(name="knot", loses=0.4).source == NO_SOURCE


SHARES = st.floats(0.0, 0.9)


@given(a=SHARES, b=SHARES, everywhere=SHARES)
def test_reductions_at_different_places_are_not_multiplied(a, b, everywhere):
    places = [
        replace(PLAIN, reductions=(Reduction(name="a", loses=a),)),
        replace(PLAIN, reductions=(Reduction(name="b", loses=b),)),
    ]
    found = margins(places=places, everywhere=[Reduction(name="sun", loses=everywhere)])
    by_hand = 30e3 / 8e3 * (1.0 - max(a, b)) * (1.0 - everywhere)
    assert found.times == pytest.approx(by_hand, rel=1e-12)
    assert found.times >= 30e3 / 8e3 * (1.0 - a) * (1.0 - b) * (1.0 - everywhere) * (1.0 - 1e-12)


def test_a_loss_somewhere_else_changes_nothing_at_the_weakest_place():
    before = margins(places=[PLAIN, LOCKED]).times
    assert margins(places=[replace(PLAIN, reductions=(TENTH,)), LOCKED]).times == before
    assert margins(places=[PLAIN, LOCKED], everywhere=[TENTH]).times == pytest.approx(0.9 * before)


def rig(legs_at=0.5, **more):
    legs = share_pull(legs=[Leg(angle=legs_at), Leg(angle=-legs_at)], pull=8e3)
    known = {
        "pull_a": 8e3,
        "pull_b": 7e3,
        "leg_strength": 22e3,
        "webbing_strength": 35e3,
        "at_lock": [QUARTER],
        "everywhere": [TENTH],
    }
    return weakest_link(legs=legs, **{**known, **more}), legs


def test_places_of_a_side():
    found, legs = rig()
    assert [m.place.name for m in found.each] == [LEGS, END, WEBBING, LOCK]
    assert [m.place.load for m in found.each] == pytest.approx([max(legs.tensions), 8e3, 8e3, 7e3])
    assert found.weakest.place.name == LOCK


def test_what_is_often_done_is_wrong_in_both_directions():
    narrow, _ = rig(at_end=[QUARTER])
    wide, _ = rig(legs_at=1.2)
    assert often_done(narrow).all_multiplied < narrow.times < often_done(narrow).nothing_off
    assert wide.weakest.place.name == LEGS
    assert wide.times < often_done(wide).all_multiplied < often_done(wide).nothing_off
    assert often_done(narrow).nothing_off == pytest.approx(35.0 / 8.0)
    assert often_done(narrow).all_multiplied == pytest.approx(35.0 / 8.0 * 0.75 * 0.75 * 0.9)
    with pytest.raises(
        ValueError, match=r"of = 'rope' is not possible; allowed: one of legs at A, end at A, webbing, lock at B"
    ):
        often_done(narrow, of="rope")


BAD = {
    (Reduction, "loses"): [-0.1, 1.0, *NO_NUMBER],
    (Reduction, "name"): ["", None, 3],
    (Reduction, "source"): ["", " ", None],
    (Place, "name"): ["", None],
    (Place, "printed"): [0.0, -1.0, *NO_NUMBER],
    (Place, "load"): [0.0, -1.0, *NO_NUMBER],
    (Place, "reductions"): [None, "x", QUARTER, [0.1]],
    (margins, "places"): [None, [], PLAIN, [QUARTER]],
    (margins, "everywhere"): [None, 0.1, [PLAIN]],
    (share_left, "reductions"): [None, [0.1]],
}
GOOD = {
    Reduction: {"name": "sun", "loses": 0.1},
    Place: {"name": "lock", "printed": 1e4, "load": 1e3},
    margins: {"places": [PLAIN]},
    share_left: {},
}


@pytest.mark.parametrize("call, name, value", [(c, n, v) for (c, n), values in BAD.items() for v in values])
def test_refusals(call, name, value):
    head, _ = refused(lambda: call(**{**GOOD[call], name: value}))
    assert name in head
