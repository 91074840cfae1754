"""Strips in parallel against closed forms: strength left 1 - r/2 and 1/(2 r), loaded part 1/r, a step, and limits."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linelib.models.bundle import scattered
from linelib.models.first_tear import first_tear
from linelib.models.many_seatings import peaks_of_many
from linelib.models.seated_strips import reseated, strips_of
from linelib.models.seating import Seating, path_differences
from linelib.tables import webbings
from linelib.webbing import Webbing
from tests.house.refusals import NO_NUMBER, refused

STRENGTH, BREAKING_STRAIN, SHARING = 30e3, 0.03, 0.1
STRAIGHT = Webbing(
    name="made up", stiffness=STRENGTH / BREAKING_STRAIN, mass_per_length=0.05, width=0.025, breaking_strength=STRENGTH
)
WEBBINGS = webbings()
every_webbing = pytest.mark.parametrize("webbing", WEBBINGS.values(), ids=WEBBINGS.keys())


def ramp(r, count):
    """Path difference growing evenly to r times the breaking stretch."""
    return np.linspace(0.0, r * BREAKING_STRAIN * SHARING, count)


def straight(difference, **more):
    return strips_of(webbing=STRAIGHT, difference=difference, sharing_length=SHARING, **more)


@pytest.mark.parametrize("r", [0.0, 0.2, 0.5, 0.9, 1.0])
def test_up_to_the_breaking_stretch_half_of_r_is_lost(r):
    """Every strip carries 1 - e/(eb l) at the first tear; strips from edge to edge have their mean exactly in the middle."""
    strips = straight(ramp(r, 60))
    assert strips.strength_left() / STRENGTH == pytest.approx(1.0 - r / 2.0, rel=1e-9)
    assert first_tear(strips=strips).pull == pytest.approx(strips.strength_left(), rel=1e-9)


@pytest.mark.parametrize("r", [1.0, 1.5, 2.0, 4.0])
def test_beyond_it_one_over_two_r_is_left_and_one_over_r_carries(r):
    """The finite number of strips is off by at most one half of a strip's share in the pull, one strip in the part."""
    for count in (60, 240, 960):
        strips = straight(ramp(r, count))
        tear = first_tear(strips=strips)
        assert strips.strength_left() / STRENGTH == pytest.approx(0.5 / r, abs=0.51 / count)
        assert tear.pull == pytest.approx(strips.strength_left(), rel=0.51 / count * 2 * r)
        assert tear.carrying_share == pytest.approx(1.0 / r, abs=1.01 / count)
        assert tear.displacement == pytest.approx(BREAKING_STRAIN * SHARING, rel=1e-9)


@pytest.mark.parametrize("share", [0.25, 0.5, 0.65, 0.9])
@pytest.mark.parametrize("r", [0.3, 0.8, 1.0, 2.5])
def test_a_step_tears_in_two_groups(share, r):
    """Tight part 1 - s, the rest longer by r eb l: it carries max(0, 1 - r) when the tight part tears; then s is left."""
    count = 100
    longer = np.arange(count) >= count - round(share * count)
    strips = straight(r * BREAKING_STRAIN * SHARING * longer)
    first = (1.0 - share) + share * max(0.0, 1.0 - r)
    assert first_tear(strips=strips).pull / STRENGTH == pytest.approx(first, rel=1e-9)
    assert strips.strength_left() / STRENGTH == pytest.approx(max(first, share), rel=1e-9)
    assert strips.strength_left(torn=count - round(share * count)) / STRENGTH == pytest.approx(share, rel=1e-9)


@every_webbing
def test_straight_seating_keeps_the_breaking_strength_also_with_scattered_strips(webbing):
    for variation in (0.0, 0.05, 0.2):
        strengths = scattered(count=60, variation=variation)
        for stiffening in (1.0, webbing.fast_ratio):
            strips = strips_of(
                webbing=webbing, difference=np.zeros(60), sharing_length=0.1, strengths=strengths, stiffening=stiffening
            )
            assert strips.strength_left() == pytest.approx(webbing.breaking_strength, rel=1e-6)


@every_webbing
def test_only_the_difference_over_the_sharing_length_matters(webbing):
    e = path_differences(seating=Seating(skew_angle=0.2), width=webbing.width, sharing_length=0.1)
    one = strips_of(webbing=webbing, difference=e, sharing_length=0.1)
    two = strips_of(webbing=webbing, difference=3.0 * e, sharing_length=0.3)
    assert two.peak_pull == pytest.approx(one.peak_pull, rel=1e-9)
    assert two.tears_at == pytest.approx(3.0 * one.tears_at, rel=1e-12)


@every_webbing
def test_with_the_span_as_sharing_length_the_effect_vanishes(webbing):
    e = path_differences(seating=Seating(skew_angle=0.2), width=webbing.width, sharing_length=100.0)
    strips = strips_of(webbing=webbing, difference=e, sharing_length=100.0)
    assert strips.strength_left() / webbing.breaking_strength > 0.995


@every_webbing
def test_mirrored_seating_is_as_strong(webbing):
    e = path_differences(seating=Seating(skew_angle=0.1, fold_depth=0.002, folded_share=0.4), width=0.019, sharing_length=0.1)
    one, two = (strips_of(webbing=webbing, difference=d, sharing_length=0.1) for d in (e, e[::-1]))
    assert two.peak_pull == pytest.approx(one.peak_pull, rel=1e-9)
    assert sorted(two.place) == sorted(one.place)
    assert one.place[0] == 0
    assert two.place[0] == len(e) - 1


def test_softer_fibre_forgives_more():
    """Same seating, same sharing length: what is left is ordered as the breaking strains are."""
    names = ("hmpe_25mm", "polyester_25mm", "polyamide_25mm")
    e = path_differences(seating=Seating(skew_angle=0.15), width=0.025, sharing_length=0.1)
    seated = [strips_of(webbing=WEBBINGS[name], difference=e, sharing_length=0.1) for name in names]
    left = [s.strength_left() / s.webbing.breaking_strength for s in seated]
    strain = [s.tears_at[0] / s.sharing_length for s in seated]
    assert left == sorted(left)
    assert strain == sorted(strain)
    assert left[2] - left[0] > 0.4


def test_a_fast_pull_forgives_less():
    """Twice as stiff: half the breaking strain of a straight law, r doubles: 1 - 0.25 becomes 1 - 0.5."""
    assert straight(ramp(0.5, 60), stiffening=1.0).strength_left() == pytest.approx(0.75 * STRENGTH, rel=1e-9)
    assert straight(ramp(0.5, 60), stiffening=2.0).strength_left() == pytest.approx(0.5 * STRENGTH, rel=1e-9)


@settings(max_examples=40)
@given(r=st.floats(0.0, 4.0), share=st.floats(0.0, 1.0), pull=st.floats(0.0, 1.0))
def test_displacement_is_the_inverse_of_pull(r, share, pull):
    e = ramp(r, 30) + 0.002 * (np.arange(30) >= 30 - round(share * 30))
    strips = straight(e - e.min())
    for torn in (0, 7):
        force = pull * float(strips.peak_pull[torn])
        at = strips.displacement(pull=force, torn=torn)
        assert float(strips.pull(at, torn)) == pytest.approx(force, rel=1e-6, abs=1e-3)
        assert at <= strips.tears_at[torn]


def test_two_strips_by_hand():
    """1 MN, two halves, the second 1 mm longer, l = 0.1 m: at 3 mm the first has 3 %, 15 kN; the second 2 %, 10 kN."""
    strips = straight([0.0, 0.001])
    assert strips.tensions(0.003) == pytest.approx([15e3, 10e3], rel=1e-9)
    assert strips.pull([0.0, 0.001, 0.003]) == pytest.approx([0.0, 5e3, 25e3], rel=1e-9)
    assert strips.loading([0.003, 0.0031, 0.0041]) == pytest.approx([25e3, 10.5e3, 0.0], rel=1e-9)
    assert strips.loading([0.0005, 0.003], torn=1) == pytest.approx([0.0, 10e3], abs=1e-6)  # the first is gone already
    assert strips.tears_at == pytest.approx([0.003, 0.004], rel=1e-12)
    assert strips.peak_pull == pytest.approx([25e3, 15e3], rel=1e-9)
    assert strips.displacement(pull=0.0, torn=1) == pytest.approx(0.001, rel=1e-12)
    assert strips.displacement(pull=0.0, torn=2) == 0.0
    assert [strips.displacement(pull=float(strips.peak_pull[k]), torn=k) for k in (0, 1)] == pytest.approx([0.003, 0.004])
    # energies: T^2 l/(2 EA) with EA 0.5 MN each: 22.5 J and 10 J; the torn one had 22.5 J
    assert strips.stored_energy(0.003) == pytest.approx(32.5, rel=1e-6)
    assert strips.stored_energy(0.003, torn=1) == pytest.approx(10.0, rel=1e-6)
    assert [strips.torn_energy(k) for k in range(3)] == pytest.approx([0.0, 22.5, 45.0], rel=1e-6)


def test_reseated_is_the_same_as_new():
    strengths = scattered(count=40, variation=0.1)
    e = ramp(1.3, 40)
    one = straight(e, strengths=strengths)
    two = reseated(strips=straight(ramp(0.4, 40)[::-1], strengths=strengths), difference=e, sharing_length=SHARING)
    for name in ("place", "difference", "breaks_at", "tears_at", "peak_pull"):
        assert getattr(two, name) == pytest.approx(getattr(one, name), rel=1e-12)


GOOD = {"webbing": STRAIGHT, "difference": [0.0, 0.001], "sharing_length": 0.1, "strengths": 1.0, "stiffening": 1.0}


@pytest.mark.parametrize(
    ("name", "values"),
    [
        ("sharing_length", [0.0, -0.1, 101.0, None, *NO_NUMBER]),
        ("stiffening", [0.9, 21.0, None, *NO_NUMBER]),
        ("difference", [[0.001, 0.002], [0.0], 0.0, [-0.001, 0.0], [0.0, np.nan], [0.0, np.inf]]),
        ("strengths", [0.0, -1.0, [1.0, 1.0, 1.0], [1.0, np.nan], [1.0, 11.0]]),
    ],
)
def test_impossible_arguments_are_refused(name, values):
    for value in values:
        head, _ = refused(lambda value=value: strips_of(**{**GOOD, name: value}))
        assert name in head


def test_what_would_tear_a_strip_is_no_displacement_of_whole_strips():
    strips = straight([0.0, 0.001])
    head, allowed = refused(lambda: strips.displacement(pull=26e3))
    assert head == "pull = 26000.0"
    assert "25000 N, at which the next strip tears" in allowed
    refused(lambda: strips.displacement(pull=1.0, torn=2))
    refused(lambda: reseated(strips=strips, difference=[0.0, 0.1, 0.2], sharing_length=0.1))


def test_many_seatings_at_once_are_each_of_them():
    strengths = scattered(count=40, variation=0.1)
    base = straight(np.zeros(40), strengths=strengths)
    rows = np.array([ramp(r, 40)[:: 1 if r < 1.0 else -1] for r in (0.0, 0.4, 1.7)])
    pulls, carrying = peaks_of_many(strips=base, difference=rows, sharing_length=SHARING)
    for row, pull, share in zip(rows, pulls, carrying, strict=True):
        one = straight(row, strengths=strengths)
        assert pull == pytest.approx(one.peak_pull, rel=1e-12)
        assert share == first_tear(strips=one).carrying_share
    for bad in (rows[0], rows[:, 1:], rows + 1e-3, np.where(rows > 0.004, np.nan, rows)):
        refused(lambda bad=bad: peaks_of_many(strips=base, difference=bad, sharing_length=SHARING))
