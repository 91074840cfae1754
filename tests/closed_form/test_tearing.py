"""Load after load: a smooth skew runs to failure, a step allows stages, and the length given up, by hand."""

from __future__ import annotations

import numpy as np
import pytest

from linelib.models.first_tear import first_tear
from linelib.models.seated_strips import strips_of
from linelib.models.tearing import remainder, tear
from linelib.webbing import Webbing
from tests.house.refusals import NO_NUMBER, refused

WEBBING = Webbing(name="made up", stiffness=1.1e6, mass_per_length=0.05, width=0.025, breaking_strength=33e3)  # eb 3 %
SHARING = 0.1  # breaking stretch 3 mm


def seated(difference):
    return strips_of(webbing=WEBBING, difference=difference, sharing_length=SHARING)


def step(tight, longer=0.004, count=40):
    """A share of the width tight, the rest longer."""
    return seated(longer * (np.arange(count) >= round(tight * count)))


SKEW = seated(np.linspace(0.0, 0.002, 40))


def test_a_quarter_tears_near_8_kn_and_the_rest_holds_about_24():
    """33 kN, a quarter tight and the rest slack until it has torn: 8.25 kN, then 24.75 kN."""
    strips = step(0.25)
    assert first_tear(strips=strips).pull == pytest.approx(8.25e3, rel=1e-9)
    states = tear(strips=strips, loads=[8.2e3, 8.3e3, 3e3, 24.7e3, 24.8e3])
    assert [s.torn for s in states] == [0, 10, 10, 10, 40]
    assert [s.held for s in states] == [True, True, True, True, False]
    assert [s.whole_share for s in states] == pytest.approx([1.0, 0.75, 0.75, 0.75, 0.0])
    assert [s.strength_left for s in states] == pytest.approx([24.75e3] * 4 + [0.0], rel=1e-9)
    assert [s.pull for s in states] == pytest.approx([8.2e3, 8.3e3, 3e3, 24.7e3, 0.0], rel=1e-6)


def test_one_load_of_the_highest_or_several_come_to_the_same():
    strips = step(0.25)
    assert tear(strips=strips, loads=[3e3, 9e3, 20e3])[-1] == tear(strips=strips, loads=[20e3])[0]
    assert tear(strips=strips, loads=[20e3], torn=10) == tear(strips=strips, loads=[9e3, 20e3])[1:]


@pytest.mark.parametrize("line_stiffness", [0.0, 1e6])
def test_the_very_load_that_would_tear_the_next_strip_is_still_held(line_stiffness):
    """And the end stands where that strip is about to tear: at 3 mm, and at 4 + 3 mm once the quarter has gone."""
    strips = step(0.25)
    for torn, place in ((0, 0.003), (10, 0.007)):
        load = float(strips.peak_pull[torn] + line_stiffness * strips.tears_at[torn])
        state = tear(strips=strips, loads=[load], torn=torn, line_stiffness=line_stiffness)[0]
        assert (state.held, state.torn) == (True, torn)
        assert state.displacement == pytest.approx(place, rel=1e-6)


def test_torn_through_the_end_is_where_the_last_strip_tore():
    """4 mm longer and 3 mm of stretch."""
    state = tear(strips=step(0.25), loads=[25e3])[0]
    assert not state.held
    assert state.displacement == pytest.approx(0.007, rel=1e-9)


@pytest.mark.parametrize("r", [0.3, 0.7, 1.0])
def test_a_smooth_skew_holds_whole_or_not_at_all_under_a_load_that_stays(r):
    strips = seated(np.linspace(0.0, r * 0.003, 60))
    first = first_tear(strips=strips).pull
    below, above = tear(strips=strips, loads=[0.9999 * first])[0], tear(strips=strips, loads=[1.0001 * first])[0]
    assert (below.held, below.torn) == (True, 0)
    assert (above.held, above.torn, above.strength_left) == (False, 60, 0.0)


def test_drawn_out_and_held_a_smooth_skew_stops_part_way():
    """Held at 4 mm (so stiff a line): strips with e + 3 mm < 4 mm have torn, half of those from 0 to 2 mm."""
    stiff = 1e12
    state = tear(strips=SKEW, loads=[0.004 * stiff], line_stiffness=stiff)[0]
    assert state.held
    assert state.displacement == pytest.approx(0.004, rel=1e-5)
    assert state.whole_share == pytest.approx(0.5, abs=1.0 / 40)
    assert state.pull == pytest.approx(float(SKEW.loading([0.004])[0]), rel=1e-4)


def test_a_line_that_gives_way_loses_its_pull_by_hand():
    """A quarter tight, 8.3 kN wanted, line of 1 MN/m: the pull falls by 1 kN for each millimetre drawn out."""
    state = tear(strips=step(0.25), loads=[8.3e3 + 3e3], line_stiffness=1e6)[0]
    assert state.torn == 10
    # the rest: 8.25 MN/m (u - 4 mm) = 11.3 kN - 1 MN/m u
    assert state.displacement == pytest.approx((11.3e3 + 33e3) / (8.25e6 + 1e6), rel=1e-6)
    assert state.pull == pytest.approx(11.3e3 - 1e6 * state.displacement, rel=1e-6)


def test_a_load_the_line_itself_lets_go_of():
    """Very soft strips' place: the whole pull is lost before the first strip is taut, nothing tears."""
    state = tear(strips=step(0.25), loads=[1e3], line_stiffness=1e6)[0]
    assert (state.held, state.torn) == (True, 0)
    assert state.pull == pytest.approx(1e3 - 1e6 * state.displacement, rel=1e-6)


def test_length_given_up_by_hand():
    """Half tight, half longer by 2 mm, 1.1 MN over 0.1 m: 5.5 MN/m each half. At 1.1 kN it stood at 0.2 mm, then at 2.2 mm."""
    strips = seated([0.0, 0.002])
    after = remainder(strips=strips, torn=1, tension=1.1e3)
    assert after.length_given_up == pytest.approx(0.002, rel=1e-6)
    assert (after.whole_share, after.carrying_share) == (0.5, 0.5)
    assert after.strength_left == pytest.approx(16.5e3, rel=1e-9)
    before = remainder(strips=strips, torn=0, tension=1.1e3)
    assert (before.length_given_up, before.whole_share, before.carrying_share) == (0.0, 1.0, 0.5)
    assert remainder(strips=strips, torn=1, tension=0.0).length_given_up == pytest.approx(0.002, rel=1e-12)


def test_what_tore_had_stored_its_breaking_energy():
    """Each strip: T_b eb l/2 over 40: 33 kN * 0.03 * 0.1 m/2 = 49.5 J for all, a quarter of it for ten."""
    states = tear(strips=step(0.25), loads=[9e3, 30e3])
    assert [s.torn_energy for s in states] == pytest.approx([49.5 / 4, 49.5], rel=1e-6)


BAD = [
    ("loads", [[-1.0], [np.nan], [None], ["1"]]),
    ("torn", [-1, 41, 1.0, True, None]),
    ("line_stiffness", [-1.0, *NO_NUMBER]),
]


@pytest.mark.parametrize(("name", "values"), BAD)
def test_impossible_arguments_are_refused(name, values):
    for value in values:
        good = {"strips": SKEW, "loads": [1e3], "torn": 0, "line_stiffness": 0.0}
        head, _ = refused(lambda value=value, good=good: tear(**{**good, name: value}))
        assert name in head


def test_a_remainder_there_cannot_be_is_refused():
    for torn in (-1, 40, 0.5, None):
        head, _ = refused(lambda torn=torn: remainder(strips=SKEW, torn=torn, tension=1e3))
        assert head.startswith("torn = ")
    head, allowed = refused(lambda: remainder(strips=step(0.25), torn=10, tension=9e3))
    assert head == "tension = 9000.0"
    assert allowed == "a number from 0 to 8250 N"
