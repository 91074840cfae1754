"""What the panels say of falls with numbers of our own: every number in its place, in its unit, and on the right side.

The falls are made up, so that A and B, peak and catch, insert and plain differ by numbers that can be told apart.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from linelib import clearance_left, falls, least_extra_length
from linelib.models.loss_loop import LossLoop
from linelib.models.seating import Seating
from linelib.panels import catch_settings, fall_settings, insert_settings, weakest_link_settings, who_pays_settings
from linelib.panels.catch_readings import catch_readings
from linelib.panels.controls import starts
from linelib.studies.held_equal import HELD
from linelib.studies.lesson_catch import FOLD_DEPTH, lesson_catch, strips_in_lock
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.sayings import sayings
from linelib.studies.who_pays import Bills
from linelib.tables import webbings
from tests.lesson_slip import numbered

TABLE = webbings()


@pytest.fixture(scope="module")
def fallen():
    """Peaks 9.0 and 7.0 kN, standing 5.0 and 4.5, person 2.1 kN, lowest tie-in 7.5 m, standing sag 3.5 m."""
    return numbered().falls[0]


def flat(lowest):
    """What is left above flat ground 25 m below the anchors."""
    return clearance_left(
        lowest_point=lowest, position=0.5, span=100.0, height_difference=0.0, ground=((0.0, -25.0), (100.0, -25.0))
    )


def numbers(strip):
    return [reading.number for reading in strip]


def test_a_fall(fallen):
    """80 kg are 784.5 N: 2.1 kN is 2.7 times as much; A 9.0 / 5.0 = 1.8 times."""
    said = fall_settings.readings_of(lesson_setup(table=TABLE), fallen)
    assert numbers(said.strip) == ["9.0 kN", "7.0 kN", "2.1 kN", "7.5 m"]
    assert "anchor A goes from 5.0 to 9.0 kN (1.8 times), the person gets 2.7 times body weight" in said.sentence
    assert said.forces == pytest.approx((9.0, 7.0, 2.1))
    assert said.notches == pytest.approx((5.0, 4.5, None))


def test_a_fall_beyond_the_weakest_webbing(fallen):
    """The polyamide of the insert breaks at 28 kN, HMPE at 35; 29 kN at one anchor is beyond the one."""
    rig, words = lesson_setup(table=TABLE, insert_length=5.0), "above the table's breaking strength of 28 kN"
    for one in ({"peak_tension_a": 29e3}, {"peak_tension_b": 29e3}):
        assert words in fall_settings.readings_of(rig, replace(fallen, **one)).sentence
        assert words not in fall_settings.readings_of(lesson_setup(table=TABLE), replace(fallen, **one)).sentence


def test_a_catch(fallen):
    """Tie-in at 12 m: 25 - 12 - 1 of body - 0.6 for the model = 11.4 m; 12.0 - 7.5 = 4.5 m deeper."""
    caught = {
        "failure_time": 0.5,
        "catch_tension_a": 6e3,
        "catch_tension_b": 8e3,
        "catch_leash_force": 1.9e3,
        "lowest_point": 12.0,
    }
    setup, found, left = lesson_catch(table=TABLE), replace(fallen, peak_leash_force=5e3, **caught), flat(12.0)
    held = replace(fallen, time=np.array([0.0, 0.4, 0.6, 0.8]), leash_force=np.array([0.0, 0.0, 2e3, 2e3]))
    said = catch_readings(setup, found, held, left, None)
    assert numbers(said.strip) == ["1.9 kN", "8.0 kN", "12.0 m", "11.4 m"]
    assert said.forces == pytest.approx((6.0, 8.0, 1.9))
    assert said.notches == pytest.approx((9.0, 7.0, 2.1))
    least = float(least_extra_length(rig=setup.rig, tension=9e3).max())
    assert said.least_extra == pytest.approx(least, rel=1e-9)
    assert "parts 0.50 s after the step off, before the leash is taut: the tie-in goes 4.5 m deeper" in said.sentence
    assert "the person gets 1.9 instead of 2.1 kN" in said.sentence
    assert f"Under {least:.1f} m a bay the backup would share every such fall" in said.sentence
    late = replace(found, failure_time=0.7)
    assert "in the leash:" in catch_readings(setup, late, held, left, None).sentence
    short = catch_readings(lesson_catch(table=TABLE, extra_length=0.2), found, held, flat(23.0), None)
    assert f"0.2 m a bay is too short: at up to {least:.1f} m of stretch" in short.sentence
    assert numbers(short.strip)[3] == "none: ground"  # 25 - 23 - 1 - 1.15


def test_strips_that_tore_in_words(fallen):
    """Folded over 75 % of 60 strips, HMPE of 35 kN: 8.75 kN tear a quarter, three quarters are left, and a line that holds."""
    seating = Seating(fold_depth=FOLD_DEPTH, folded_share=0.75)
    setup = lesson_catch(table=TABLE, seating=seating)
    strips = strips_in_lock(seating=seating, webbing=setup.rig.segments[-1].webbing)
    found = replace(fallen, slip_b=setup.failure.tears[0].length, failure_time=-1.0)
    said = catch_readings(setup, found, fallen, flat(7.5), strips)
    out = 1e3 * setup.failure.tears[0].length
    assert said.sentence.startswith(f"Lock B: 25 % of the width tears at 8.8 kN, {out:.0f} mm come out, 25 % of the")
    assert "In this model the line holds this fall of 9.0 kN. A held fall proves nothing" in said.sentence
    assert [r.words for r in said.strip][:2] == ["person, line holds", "anchors, line holds"]
    whole = catch_readings(setup, replace(found, slip_b=0.0), fallen, flat(7.5), strips)
    assert whole.sentence.startswith("In lock B nothing tears below 8.8 kN.")


@pytest.mark.parametrize("name, bay", [("the walker's own bay", 1), ("the bay at anchor A", 0), ("the bay at anchor B", 3)])
def test_a_catch_from_the_sliders(name, bay):
    """Four bays, walker at 30 %: in the second one. Tension in kN, position in %."""
    controls = catch_settings.catch_controls()
    values = {**starts(controls), "bays": 4, "bay": catch_settings.PARTS[name], "position": 30, "pretension": 2.0, "time": 0.9}
    setup = catch_settings.catch_setup(values, controls, TABLE)
    assert (setup.failure.bay, setup.failure.time, setup.rig.pretension) == (bay, 0.9, 2e3)
    assert setup.walker.position == pytest.approx(0.3)
    assert setup.rig.backup.joints == pytest.approx([0.25, 0.5, 0.75])


def plain_falls():
    """A plain fall: 10.0 and 9.5 kN, person 2.5 kN, lowest tie-in 7.0 m, standing sag 3.0 m."""
    known = {
        "peak_tension_a": 10e3,
        "peak_tension_b": 9.5e3,
        "peak_leash_force": 2.5e3,
        "lowest_point": 7.0,
        "standing_sag": 3.0,
    }
    return replace(falls(setups=[lesson_setup(table=TABLE)]), **{name: np.array([value]) for name, value in known.items()})


def test_an_insert_beside_the_plain_rig(fallen):
    plain = plain_falls()
    said = insert_settings.readings_of(fallen, plain, "")
    assert [(r.words.split()[-1], r.number) for r in said.strip] == [
        ("10.0", "9.0 kN"),
        ("9.5", "7.0 kN"),
        ("2.5", "2.1 kN"),
        ("7.0", "7.5 m"),
    ]
    assert (said.sag, said.plain[4]) == (3.5, 3.0)
    values = {**starts(insert_settings.insert_controls(TABLE)), "insert_length": 5.0, "pretension": 1.0}
    more = {"band": (4e3, 8e3), "saying": sayings()["soft_insert"]}

    def words(held, length):
        rig = lesson_setup(table=TABLE, length=length).rig
        return insert_settings.compared_in_words({**values, "held": held}, rig, fallen, plain, **more)

    first = "held equal: pretension. Anchor A goes from 10.0 to 9.0 kN, anchor B from 9.5 to 7.0. "
    cost = "The price: the fall goes 0.5 m deeper, the line sags 0.5 m more. Person: 2.5 to 2.1 kN. "
    assert first + cost in words(HELD[0], 80.0)
    assert words(HELD[0], 80.0).endswith("from a soft to a stiff insert, 4.0 to 8.0 kN.")
    assert "about 4.5 kN for 5 to 10 m" in words(HELD[0], 80.0)
    assert "The price: 3.0 kN of pretension instead of 1.0; the fall goes 0.5 m deeper." in words(HELD[1], 80.0)
    assert "Standing sag is 12 % of the span; there the model reads low." in words(HELD[0], 30.0)  # 3.5 m of 30 m
    assert "12 % of the span, slack and not softness; there" in words(HELD[2], 30.0)


def test_an_insert_from_the_sliders():
    controls = insert_settings.insert_controls(TABLE)
    moved = {"pretension": 2.0, "position": 30, "length": 120, "mass": 70, "leash_length": 2.0, "material": "polyester_25mm"}
    found = insert_settings.plain_of({**starts(controls), **moved}, controls, TABLE)
    line = {"pretension": 2e3, "position": 0.3, "length": 120.0, "mass": 70.0, "leash_length": 2.0}
    assert found == lesson_setup(table=TABLE, material="polyester_25mm", **line)


def test_how_fast_an_insert_is_pulled():
    """90 over 50 kN of stiffness are 1.8 times; 2 of 10 J stay."""
    loops = {"strain": np.zeros(2), "tension": np.zeros(2), "taken": 10.0}
    fast, slow = LossLoop(**loops, lost=2.0, stiffness=90e3), LossLoop(**loops, lost=0.1, stiffness=50e3)
    said = insert_settings.pace_in_words(fast=fast, slow=slow, period=1.2, peak=6.5e3, slow_peak=6e3, place="at B")
    assert "1.2 s up and down, the insert at B is 1.8 times as stiff as in a slow pull and keeps 20 % of the energy" in said
    assert "would promise 6.0 kN at A instead of 6.5: it overstates" in said


def test_who_pays(fallen):
    setup = lesson_setup(table=TABLE)
    flat = clearance_left(lowest_point=7.5, position=0.1, span=100.0, height_difference=0.0, ground=((0, -20), (100, -20)))
    said = who_pays_settings.readings_of(setup, fallen, flat, "")
    assert [(r.words, r.number) for r in said.strip] == [
        ("peak at A, standing 5.0", "9.0 kN"),
        ("increase over standing, A", "4.0 kN"),
        ("person, 2.7 × weight", "2.1 kN"),
        ("lowest tie-in, left 11.0 m", "7.5 m"),
    ]
    other = replace(fallen, peak_tension_a=6e3, peak_tension_b=8e3)
    assert who_pays_settings.readings_of(setup, other, flat, "").strip[0].words == "peak at B, standing 4.5"
    short = replace(flat, clearance=-1.3)
    words = who_pays_settings.place_in_words(fallen, flat, (0.95, short), at=10.0, span=100.0)
    assert words.startswith("10 m from A: A 9.0, B 7.0, person 2.1 kN. Ground 20.0 m down - tie-in 7.5 - body 1.0 - model 0.5")
    assert "left 11.0 m. Of the places drawn, 5 m from an anchor is the worst: 1.3 m short." in words


@pytest.mark.parametrize(
    "sag, rest",
    [
        (
            4.0,
            "to 10.0 %: anchor 9.0 > 8.0 kN, increase over standing 4.0 > 5.0, person 2.1 > 3.0, lowest tie-in 7.5 > 13.0 m.",
        ),
        (8.0, "to 2.5 %: anchor 9.0 > 12.0 kN, increase over standing 4.0 > 3.0, person 2.1 > 2.0, lowest tie-in 7.5 > 6.0 m."),
    ],
)
def test_who_pays_over_the_sag(fallen, sag, rest):
    """From here to that end which is further away; at the ends A 12 - 9 and 7 - 3 kN, B 11 - 9 and 8 - 3 kN."""
    ends = {"over": (0.025, 0.1), "peak_leash_force": (2e3, 3e3), "lowest_point": (6.0, 13.0)}
    ends |= {"peak_tension_a": (12e3, 7e3), "peak_tension_b": (11e3, 8e3)}
    ends |= {"standing_tension_a": (9e3, 3e3), "standing_tension_b": (9e3, 3e3)}
    bills = Bills(**{name: np.array(values) for name, values in ends.items()})
    words = who_pays_settings.sag_in_words({"sag": sag}, lesson_setup(table=TABLE), fallen, bills)
    assert words.startswith(f"{sag:.1f} % of sag takes 3.0 kN of pretension; from here {rest}")
    slack = replace(fallen, peak_tension_a=6e3, standing_tension_a=5e3)  # then B has the larger increase, 7.0 - 4.5
    assert "increase over standing 2.5 >" in who_pays_settings.sag_in_words({"sag": sag}, lesson_setup(), slack, bills)


def test_the_weakest_link_takes_each_anchor_where_it_is(fallen):
    """A's 9 kN on legs and end, the higher on the webbing, B's 7 kN on the lock; the most loaded leg is the one that fails."""
    controls = weakest_link_settings.weakest_link_controls()
    moved = {"lock_loss": 20, "end_loss": 10, "weather": 0, "odd_leg": -2}
    si = weakest_link_settings.in_si({**starts(controls), **moved}, controls)
    more = {"si": si, "setup": lesson_setup(table=TABLE), "fall": fallen, "limit": None}
    found = weakest_link_settings.found_of(kind="3 tied", fails=False, **more)
    legs, end, webbing, lock = found.margins.each
    assert (end.place.load, webbing.place.load, lock.place.load) == (9e3, 9e3, 7e3)
    assert (end.left, webbing.left, lock.left) == pytest.approx((0.9 * 35e3, 35e3, 0.8 * 35e3))
    assert (legs.place.load, legs.place.printed) == (max(found.forces.tensions), 22e3)
    pulls = [t * np.cos(a) for t, a in zip(found.forces.tensions, found.forces.angles, strict=True)]
    assert sum(pulls) == pytest.approx(9e3, rel=1e-6)
    lost = weakest_link_settings.found_of(kind="3 tied", fails=True, **more)
    assert lost.failed == 2  # the short leg in the middle
    assert lost.forces.tensions[2] == 0.0
