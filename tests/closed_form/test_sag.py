"""The hanging line against hand values, limits, symmetry, scaling and balance of forces."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from linelib import Backup, Rig, Segment, hang, webbings, weightless_v
from tests.setups import GRAVITY, HMPE, one_webbing, straight

ROWS = webbings()
SOFT = straight(6e4, 0.07)


def fixed(*lengths, span=100.0, webbings=(SOFT, HMPE), **changes):
    """A rig whose natural lengths are given."""
    segments = tuple(Segment(webbing=w, length=x) for w, x in zip(webbings, lengths, strict=False))
    return Rig(span=span, segments=segments, **changes)


def down(state):
    """Vertical support of both anchors [N], up positive."""
    return state.tension_a * np.sin(state.angle_a) + state.tension_b * np.sin(state.angle_b)


@st.composite
def hung(draw):
    """A rig of one to four segments, slack or taut, and one to three loads."""
    span = draw(st.floats(5.0, 500.0))
    rise = span * draw(st.floats(-0.5, 0.5))
    kinds = draw(st.lists(st.sampled_from([*ROWS.values(), SOFT]), min_size=1, max_size=4))
    parts = draw(st.lists(st.floats(0.05, 1.0), min_size=len(kinds), max_size=len(kinds)))
    chord = np.hypot(span, rise) * draw(st.floats(0.995, 1.2))
    segments = tuple(Segment(webbing=k, length=chord * p / sum(parts)) for k, p in zip(kinds, parts, strict=True))
    rig = Rig(span=span, height_difference=rise, segments=segments, hung_mass_per_length=draw(st.floats(0.0, 0.1)))
    places = draw(st.lists(st.floats(0.02, 0.98), min_size=1, max_size=3))
    return rig, draw(st.lists(st.floats(0.0, 2e3), min_size=len(places), max_size=len(places))), places


@settings(max_examples=60)
@given(hung())
def test_vertical_forces_balance_and_the_line_ends_at_the_anchor(described):
    """Both anchors carry the webbing, what is hung under it, and the loads; the shape runs from A to B."""
    rig, loads, places = described
    state = hang(rig=rig, load=loads, position=places)
    webbing = sum(s.webbing.mass_per_length * s.length for s in rig.segments)
    weight = (webbing + rig.hung_mass * rig.span) * GRAVITY + sum(loads)
    assert down(state) == pytest.approx(weight, rel=1e-8, abs=1e-9 * state.horizontal)
    ends = [state.shape.x[0], state.shape.z[0], state.shape.x[-1], state.shape.z[-1]]
    assert ends == pytest.approx([0.0, 0.0, rig.span, rig.height_difference], abs=1e-7 * rig.span)
    assert state.shape.tension[[0, -1]] == pytest.approx([state.tension_a, state.tension_b], rel=1e-9)
    assert state.horizontal == pytest.approx(state.tension_b * np.cos(state.angle_b), rel=1e-9)


@settings(max_examples=60)
@given(hung())
def test_seen_from_the_other_side(described):
    """Ends swapped, height difference of other sign, places from the other end: everything swaps, nothing changes."""
    rig, loads, places = described
    state = hang(rig=rig, load=loads, position=places)
    mirrored = replace(rig, segments=rig.segments[::-1], height_difference=-rig.height_difference)
    other = hang(rig=mirrored, load=loads, position=[1.0 - p for p in places])
    close = {"rel": 1e-6, "abs": 1e-6}
    assert (other.tension_a, other.tension_b) == pytest.approx((state.tension_b, state.tension_a), **close)
    assert (other.angle_a, other.angle_b) == pytest.approx((state.angle_b, state.angle_a), **close)
    assert rig.span - other.load_x == pytest.approx(state.load_x, rel=1e-6, abs=1e-6 * rig.span)
    assert other.sags == pytest.approx(state.sags, rel=1e-6, abs=1e-6 * rig.span)
    assert other.stretches[::-1] == pytest.approx(state.stretches, rel=1e-6, abs=1e-6 * rig.span)


@settings(max_examples=40)
@given(hung(), st.floats(0.1, 10.0))
def test_everything_heavier_and_stiffer_alike_hangs_alike(described, factor):
    """Masses, loads and stiffness times a factor: the same shape, forces times the factor."""
    rig, loads, places = described
    loads = np.array(loads)

    def times(webbing):
        law = {"stiffness": webbing.stiffness and webbing.stiffness * factor}
        law["tension"] = webbing.tension and tuple(factor * t for t in webbing.tension)
        strength = factor * webbing.breaking_strength
        return replace(webbing, mass_per_length=factor * webbing.mass_per_length, breaking_strength=strength, **law)

    segments = tuple(replace(s, webbing=times(s.webbing)) for s in rig.segments)
    heavy = replace(rig, segments=segments, hung_mass_per_length=factor * rig.hung_mass)
    one, other = hang(rig=rig, load=loads, position=places), hang(rig=heavy, load=factor * loads, position=places)
    assert other.sags == pytest.approx(one.sags, rel=1e-6, abs=1e-6 * rig.span)
    assert other.tension_a == pytest.approx(factor * one.tension_a, rel=1e-6)


def test_everything_longer_alike_hangs_alike():
    """Lengths times 3 at the same mass per length and three times the load: angles and strains stay, forces times 3 when
    the stiffness is 3 times as large too."""
    one = hang(rig=fixed(20.0, 81.0, height_difference=6.0), load=800.0, position=0.3)
    webbing = (straight(3.0 * 6e4, 0.07), straight(3e6))
    other = hang(rig=fixed(60.0, 243.0, span=300.0, webbings=webbing, height_difference=18.0), load=2400.0, position=0.3)
    assert other.tension_a == pytest.approx(3.0 * one.tension_a, rel=1e-9)
    assert (other.sag, other.angle_b) == pytest.approx((3.0 * one.sag, one.angle_b), rel=1e-9)


def test_taut_line_alone_is_a_parabola_with_the_sag_of_the_blackboard():
    """w span^2 / (8 H) = 0.05 x 9.80665 x 100^2 / (8 x 3000) = 0.2043 m; the catenary is (w span / H)^2 / 48 deeper, 5e-6;
    the webbing, stretched by 0.3 %, weighs that much less a metre. The unrounded number is the formula's."""
    state = hang(rig=one_webbing())
    stretched = 0.05 * GRAVITY / 1.003
    assert state.horizontal == pytest.approx(3000.0, rel=1e-12)
    assert state.sag == pytest.approx(stretched * 100.0**2 / (8.0 * 3000.0), rel=2e-5)
    assert state.sag == pytest.approx(0.2037, abs=1e-4)


def test_line_that_does_not_stretch_is_a_catenary():
    """H = 500 N under 10 N/m: a = 50 m, span 100 m, length 2 a sinh 1 = 117.520 m, sag a (cosh 1 - 1) = 27.154 m, end
    tension H cosh 1 = 771.540 N."""
    rig = fixed(100.0 * np.sinh(1.0), webbings=(straight(1e13, 10.0 / GRAVITY),))
    state = hang(rig=rig)
    assert state.horizontal == pytest.approx(500.0, rel=1e-8)
    assert state.sag == pytest.approx(50.0 * (np.cosh(1.0) - 1.0), rel=1e-8)
    assert state.tension_a == pytest.approx(500.0 * np.cosh(1.0), rel=1e-8)
    assert state.shape.z == pytest.approx(50.0 * (np.cosh(state.shape.x / 50.0 - 1.0) - np.cosh(1.0)), abs=1e-6)


@pytest.mark.parametrize("position", [0.5, 0.2, 0.03])
def test_line_next_to_without_weight_is_the_v(position):
    """Webbing of a milligram a metre: the V of the same sag pulls as hard, at both ends, to 1e-5."""
    state = hang(rig=one_webbing(straight(1e6, 1e-6)), load=800.0, position=position)
    v = weightless_v(load=800.0, span=100.0, sag=state.sag, position=state.load_x[0] / 100.0)
    assert (state.tension_a, state.tension_b) == pytest.approx((v.tension_a, v.tension_b), rel=1e-5)
    assert (state.angle_a, state.angle_b) == pytest.approx((v.angle_a, v.angle_b), rel=1e-4)
    assert state.horizontal == pytest.approx(v.horizontal, rel=1e-5)


@pytest.mark.parametrize("load", [0.0, 800.0])
@pytest.mark.parametrize("length", [99.99, 100.0, 100.01])
def test_just_slack_and_just_taut_go_over_into_each_other(length, load):
    """A tenth of a millimetre more or less of webbing moves sag and tension by no more than it does nearby, and the way
    it should: more webbing, more sag, less tension."""
    states = [hang(rig=fixed(length + d, webbings=(straight(1e6),)), load=load) for d in (-1e-4, 0.0, 1e-4)]
    sags, tensions = np.diff([s.sag for s in states]), np.diff([s.tension_a for s in states])
    assert np.all(sags > 0.0)
    assert np.all(tensions < 0.0)
    assert sags[1] == pytest.approx(sags[0], rel=0.02)
    assert tensions[1] == pytest.approx(tensions[0], rel=0.02)


def test_small_loads_on_a_taut_line_add_up():
    """1 N here and 2 N there lower every place by the sum of what each does alone: 3 N change 30 kN by next to nothing."""
    rig, places = one_webbing(pretension=30e3), [0.2, 0.7]

    def lowered(*loads):
        return hang(rig=rig, load=[0.0, 0.0], position=places).load_z - hang(rig=rig, load=loads, position=places).load_z

    assert lowered(1.0, 2.0) == pytest.approx(lowered(1.0, 0.0) + lowered(0.0, 2.0), rel=2e-4)
    assert lowered(1.0, 0.0)[1] == pytest.approx(0.5 * lowered(0.0, 2.0)[0], rel=2e-4)  # Maxwell: here by there, there by here


def test_no_load_is_no_load_and_halves_add_up_to_a_whole():
    rig = fixed(20.0, 81.0, height_difference=6.0)
    alone, zero = hang(rig=rig), hang(rig=rig, load=[0.0, 0.0, 0.0], position=[0.1, 0.5, 0.9])
    assert (zero.tension_a, zero.tension_b) == pytest.approx((alone.tension_a, alone.tension_b), rel=1e-10)
    whole, halves = hang(rig=rig, load=800.0, position=0.4), hang(rig=rig, load=[400.0, 400.0], position=[0.4, 0.4])
    assert halves.sags == pytest.approx([whole.sag] * 2, rel=1e-10)


def test_sag_is_that_of_the_heaviest_load():
    state = hang(rig=one_webbing(), load=[100.0, 800.0, 300.0], position=[0.2, 0.6, 0.8])
    assert state.sag == state.sags[1]
    assert state.load_x == pytest.approx([20.0, 60.0, 80.0], abs=0.1)


def test_one_webbing_in_two_pieces_is_one_webbing():
    whole = hang(rig=fixed(100.3, webbings=(SOFT,)), load=800.0, position=0.37)
    parts = hang(rig=fixed(61.1, 39.2, webbings=(SOFT, SOFT)), load=800.0, position=0.37)
    assert (parts.tension_a, parts.sag) == pytest.approx((whole.tension_a, whole.sag), rel=1e-10)
    assert parts.stretches.sum() == pytest.approx(whole.stretches.sum(), rel=1e-4)


def test_stretch_and_tension_of_segments():
    """Taut and light: each segment stretches by tension over stiffness of its length."""
    state = hang(rig=fixed(7.5, 92.0), load=800.0)
    assert state.stretches / state.natural_lengths == pytest.approx(state.tensions / np.array([6e4, 1e6]), rel=1e-5)
    assert state.tensions == pytest.approx([state.tension_a, state.tension_b], rel=1e-3)


@pytest.mark.parametrize("length", [99.0, 105.0, 140.0])
def test_stretch_is_the_integral_of_strain_along_the_line(length):
    """Tension over stiffness, summed over the natural length: slack lines pull more at the anchors than in the middle."""
    state = hang(rig=fixed(length, webbings=(straight(6e4, 1.0),), height_difference=20.0))
    lifted = state.tension_a * np.sin(state.angle_a)
    summed, _ = quad(lambda s: np.hypot(state.horizontal, lifted - GRAVITY * s) / 6e4, 0.0, length)
    assert state.stretches[0] == pytest.approx(summed, rel=1e-4)


def test_a_straight_table_is_a_straight_law():
    table = replace(straight(1e6), stiffness=None, strain=(0.0, 0.005, 0.01), tension=(0.0, 5e3, 10e3))
    one, other = (hang(rig=one_webbing(w), load=800.0, position=0.3) for w in (straight(1e6), table))
    assert (other.sag, other.tension_a) == pytest.approx((one.sag, one.tension_a), rel=1e-9)


def test_a_backup_hangs_as_its_own_mass_along_the_span():
    """0.05 kg/m of 100 m + 3 bays x 1.5 m more: as 0.05225 kg on every metre of span, entered by hand."""
    backed = one_webbing(backup=Backup(webbing=straight(1e6), joints=(0.3, 0.6), extra_length=1.5))
    by_hand = one_webbing(hung_mass_per_length=0.05 * (100.0 + 3 * 1.5) / 100.0)
    one, other = hang(rig=backed, load=800.0), hang(rig=by_hand, load=800.0)
    assert (one.sag, one.tension_a) == pytest.approx((other.sag, other.tension_a), rel=1e-12)
    assert hang(rig=backed).horizontal == pytest.approx(3000.0, rel=1e-9)
    assert one.sag > hang(rig=one_webbing(), load=800.0).sag
