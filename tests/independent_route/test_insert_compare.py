"""Soft inserts at A, at B and in the middle: curves against single falls, mirrored rigs, and the full two-dimensional model."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from linelib import fall, falls, hang, webbings
from linelib.studies.held_equal import HELD
from linelib.studies.insert_compare import LAWS, PLACES, hold, insert_curves, insert_ends, insert_laws, insert_webbing, pair
from linelib.studies.lesson_rig import INSERT, lesson_setup
from linelib.studies.plain_rig import plain_setup
from linelib.tables import webbing_notes
from tests.setups import straight

from .full_model import full_fall

TABLE, NOTE = webbings(), webbing_notes()[INSERT]
INSERTS = insert_laws(table=TABLE, note=NOTE, fast_ratio=1.8)
PLAIN = lesson_setup(table=TABLE, pretension=1e3)
NUMBERS = ("peak_tension_a", "peak_tension_b", "peak_leash_force", "lowest_point", "standing_sag")
# how far a drawn curve may be from a fall computed at that length: the slack line's peaks wiggle from one reflection to another
WITHIN = {HELD[0]: (0.01, 0.01, 0.015, 0.005, 0.005), HELD[1]: (0.01, 0.01, 0.015, 0.005, 0.005)}
WITHIN[HELD[2]] = (0.04, 0.04, 0.08, 0.01, 0.01)


def held_pair(length, place, held=HELD[0], plain=PLAIN, web=INSERTS["now"]):
    return hold([pair(plain=plain, webbing=web, length=length, place=place, held=held)], held)[0]


@pytest.mark.parametrize("held", HELD)
@pytest.mark.parametrize("place", PLACES)
def test_curves_between_the_computed_lengths(place, held):
    lengths = (2.0, 5.0, 10.0, 12.5)
    now = held_pair(5.0, place, held)
    one, curves = insert_curves(plain=PLAIN, now=now, inserts=INSERTS, place=place, held=held)
    assert one.peak_tension_a == pytest.approx(fall(setup=now).peak_tension_a, rel=1e-9)
    assert list(curves.laws) == list(LAWS)
    truth = falls(setups=[held_pair(x, place, held, web=web) for web in INSERTS.values() for x in lengths])
    for i, law in enumerate(LAWS):
        for name, within in zip(NUMBERS, WITHIN[held], strict=True):
            drawn = getattr(curves.laws[law], name)
            read = np.interp(lengths, curves.lengths, drawn)
            assert read == pytest.approx(getattr(truth, name)[4 * i : 4 * i + 4], rel=within), (law, name)
            assert drawn[0] == pytest.approx(getattr(curves.plain, name)[0], rel=1e-12)


@pytest.mark.parametrize("place", PLACES)
def test_both_anchors_gain_wherever_the_insert_sits_and_the_drop_pays(place):
    """The far anchor gets no less of it: within 2 % of the near one; drop and sag grow with every metre."""
    found = falls(setups=[PLAIN, *(held_pair(x, place) for x in (2.0, 5.0, 10.0, 15.0))])
    assert np.all(np.diff(found.peak_tension_a) < 0.0)
    assert np.all(np.diff(found.peak_tension_b) < 0.0)
    assert found.peak_tension_b == pytest.approx(found.peak_tension_a, rel=0.025)
    assert np.all(np.diff(found.lowest_point) > 0.0)
    assert np.all(np.diff(found.standing_sag) > 0.0)


def test_an_insert_at_b_is_the_mirror_of_one_at_a():
    left = replace(PLAIN, walker=replace(PLAIN.walker, position=0.3))
    right = replace(PLAIN, walker=replace(PLAIN.walker, position=0.7))
    a, b = fall(setup=held_pair(7.0, "at A", plain=left)), fall(setup=held_pair(7.0, "at B", plain=right))
    assert a.peak_tension_a == pytest.approx(b.peak_tension_b, rel=1e-6)
    assert a.peak_tension_b == pytest.approx(b.peak_tension_a, rel=1e-6)
    assert a.lowest_point == pytest.approx(b.lowest_point, rel=1e-6)
    assert a.peak_tension_a != pytest.approx(a.peak_tension_b, rel=1e-3)


def test_an_insert_in_the_middle_hangs_about_the_middle():
    for held in HELD:
        state = hang(rig=held_pair(8.0, "in the middle", held).rig)
        lengths = state.natural_lengths
        assert lengths[1] == pytest.approx(8.0)
        assert lengths[0] == pytest.approx(lengths[2], rel=0.02)


def test_at_a_it_is_the_rig_of_the_table_of_sayings():
    """5 m of EA 70 kN on a straight law: pair() and plain_setup() describe the same rig, 6.34 kN at A (computed elsewhere)."""
    web = replace(straight(70e3, 0.07), name="soft insert", breaking_strength=35e3)
    made = held_pair(5.0, "at A", plain=plain_setup(), web=web)
    assert made == plain_setup(insert_length=5.0, insert_stiffness=70e3)
    assert fall(setup=made).peak_tension_a == pytest.approx(6.34e3, rel=0.015)


def test_what_is_held_equal_is_equal_and_decides_the_answer():
    pretension, sag, same = (held_pair(5.0, "at A", held) for held in HELD)
    assert pretension.rig.pretension == PLAIN.rig.pretension
    found = falls(setups=[PLAIN, pretension, sag, same])
    assert found.standing_sag[2] == pytest.approx(found.standing_sag[0], rel=1e-3)
    assert hang(rig=same.rig).natural_lengths[1] == pytest.approx(hang(rig=PLAIN.rig).natural_lengths[0], rel=1e-9)
    assert found.peak_tension_a[0] > found.peak_tension_a[2] > found.peak_tension_a[1] > found.peak_tension_a[3]
    # the lowest number at the anchors has the deepest drop and the hardest catch
    assert found.lowest_point.argmax() == found.peak_leash_force.argmax() == found.peak_tension_a.argmin() == 3


def test_the_same_webbing_is_that_of_the_rig_beside_it():
    """60 and 100 m in one batch, main webbing in two pieces: the second rig keeps both lengths of the first one beside it."""
    plains = [lesson_setup(table=TABLE, length=span, pretension=1e3) for span in (60.0, 100.0)]
    pairs = [pair(plain=p, webbing=INSERTS["now"], length=6.0, place="in the middle", held=HELD[2]) for p in plains]
    for (first, _), second in zip(pairs, hold(pairs, HELD[2]), strict=True):
        left, right = hang(rig=first.rig).natural_lengths
        assert left - right > 0.01  # the right one is solved from the pretension
        assert [s.length for s in second.rig.segments] == pytest.approx([left, 6.0, right], rel=1e-9)


def test_a_slow_pull_curve_promises_more_than_the_insert_gives_in_a_fall():
    for place in PLACES:
        slow, now, stiff = falls(
            setups=[held_pair(8.0, place, web=INSERTS[n]) for n in ("slow", "now", "stiff")]
        ).peak_tension_a
        assert slow < now < stiff


def test_the_ends_of_the_band_by_hand():
    """At 5 kN the row stretches 9.1 %. Softer: x 1.3, fast x 1.8 x 0.6: 45.6 kN. Stiffer: x 0.7, fast x 1.8 x 1.4: 198 kN."""
    soft, stiff = insert_ends(table=TABLE, note=NOTE)
    at = TABLE[INSERT].tension.index(5e3)
    assert soft.fast_ratio * 5e3 / soft.strain[at] == pytest.approx(45.6e3, rel=2e-3)
    assert stiff.fast_ratio * 5e3 / stiff.strain[at] == pytest.approx(197.8e3, rel=2e-3)


@pytest.mark.parametrize("place, length", [("in the middle", 8.0), ("at B", 5.0)])
def test_against_the_full_model(place, length):
    """Stretch waves and curved laws with a fast part, 60 elements: the reduced model is within 1.5 %, the person within 5 %."""
    setup = held_pair(length, place)
    full, found = full_fall(setup=setup, elements=60), fall(setup=setup)
    for name in ("peak_tension_a", "peak_tension_b", "lowest_point"):
        assert getattr(found, name) == pytest.approx(getattr(full, name), rel=0.015)
    assert found.peak_leash_force == pytest.approx(full.peak_leash_force, rel=0.05)


@pytest.mark.parametrize(
    "name, value", [("length", -1.0), ("length", 51.0), ("length", math.nan), ("place", "at C"), ("held", "luck")]
)
def test_refusals(name, value):
    good = {"length": 5.0, "place": "at A", "held": HELD[0]}
    with pytest.raises(ValueError, match=f"{name} = .* is not possible; allowed: "):
        pair(plain=PLAIN, webbing=INSERTS["now"], **{**good, name: value})
    with pytest.raises(ValueError, match=r"strain_times = 0\.0 is not possible"):
        insert_webbing(table=TABLE, strain_times=0.0)
