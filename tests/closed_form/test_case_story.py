"""The story of the case: its falls by other ways, its cards, and what would have come; last its numbers as they are now."""

from __future__ import annotations

from dataclasses import replace

import pytest

from linelib import fall, hang
from linelib.models.tear_signs import tear_signs
from linelib.models.tearing import tear
from linelib.studies.case_cards import (
    CELL,
    CELL_WITHIN,
    INFERRED,
    KINDS,
    MISSING,
    Card,
    cards,
    cards_text,
    cell_text,
    morning_text,
    signs_after,
)
from linelib.studies.case_gone_on import gone_on, gone_on_text
from linelib.studies.case_rig import LINKS, LOCK, PLANNED, RIGGED, case_rig
from linelib.studies.case_story import FOLD_DEPTH, morning, strips_at_lock
from linelib.studies.falls_in_a_row import longer

TOLD = morning()
TIGHT = 1.0 - RIGGED.lock_left


def test_fall_four_is_the_fall_of_the_rig_of_the_case() -> None:
    last, case = TOLD.falls[-1], case_rig(numbers=RIGGED)
    assert last.load == pytest.approx(fall(setup=case.setup).peak_tension_b, rel=1e-6)
    assert (last.setup.walker, last.setup.leash) == (case.setup.walker, case.setup.leash)
    tensions = [one.pretension for one in TOLD.falls]
    assert (tensions[0], tensions[-1]) == pytest.approx((PLANNED.pretension, RIGGED.pretension), rel=1e-5)
    assert sorted(tensions, reverse=True) == tensions


def test_what_crept_is_the_difference_of_two_natural_lengths() -> None:
    lengths = [
        sum(hang(rig=replace(TOLD.falls[0].setup.rig, segments=rig.segments, pretension=rig.pretension)).natural_lengths)
        for rig in (case_rig(numbers=replace(RIGGED, pretension=n)).setup.rig for n in (3000.0, 2200.0))
    ]
    assert TOLD.crept == pytest.approx(lengths[1] - lengths[0], rel=1e-6)


def test_the_strips_by_hand() -> None:
    """45 % tight of 35 kN less a quarter tear at 0.45 * 26.25 kN; the pleat holds 0.55 * 26.25 kN, as the lock of case_rig."""
    straight = 0.75 * 35e3
    assert TOLD.strips.peak_pull[0] == pytest.approx(TIGHT * straight)
    assert TOLD.strips.strength_left() == pytest.approx(RIGGED.lock_left * straight)
    lock = next(link for link in LINKS if link.name == LOCK)
    assert TOLD.strips.strength_left() == pytest.approx(lock.strength(case_rig(numbers=RIGGED)))
    assert strips_at_lock(strength=0.9).peak_pull[0] == pytest.approx(0.9 * TIGHT * straight)
    assert TOLD.strips.difference.max() == pytest.approx(2.0 * FOLD_DEPTH)


def test_the_noise_follows_from_the_strips() -> None:
    """Quiet as long as the load stays under the first tear; models/tearing.py finds the same, load by load."""
    first = TOLD.strips.peak_pull[0]
    assert max(TOLD.loads[:3]) < first < TOLD.loads[3] < TOLD.strips.strength_left()
    assert list(TOLD.loads) == sorted(TOLD.loads)
    states = tear(strips=TOLD.strips, loads=TOLD.loads)
    assert [one.held for one in states] == [one.fall.failure_time < 0.0 for one in TOLD.falls] == [True] * 4
    assert [1.0 - one.whole_share for one in states] == pytest.approx([one.torn for one in TOLD.falls])
    assert [one.torn for one in TOLD.falls] == pytest.approx([0.0, 0.0, 0.0, TIGHT])


def test_a_line_that_parts_in_fall_four_has_all_its_width_torn() -> None:
    last = morning(strips=strips_at_lock(skew=0.0105)).falls[-1]
    assert last.fall.failure_time > 0.0
    assert last.torn == 1.0


def test_the_cell_sides_with_the_photograph() -> None:
    """Each reading within twice its uncertainty of the bare line, and far from the one with the insert."""
    bare = [one.fall.peak_tension_a for one in TOLD.falls]
    assert all(abs(read - one) < 2.0 * CELL_WITHIN for read, one in zip(CELL, bare, strict=True))
    soft = [float(row.split()[-1]) * 1e3 for row in cell_text(told=TOLD).splitlines()[1:5]]
    assert all(read - one > 5.0 * CELL_WITHIN for read, one in zip(CELL, soft, strict=True))
    numbers = replace(PLANNED, mass=RIGGED.mass, leash_length=RIGGED.leash_length, standing_height=RIGGED.standing_height)
    assert soft[3] == pytest.approx(fall(setup=case_rig(numbers=numbers).setup).peak_tension_a, abs=51.0)


def test_the_cards() -> None:
    found = cards(told=TOLD)
    kinds = [one.kind for one in found]
    assert set(kinds) == set(KINDS)
    assert (kinds.count(MISSING), kinds.count(INFERRED)) == (1, 1)
    text = cards_text(told=TOLD)
    assert "Insert in" in text
    assert "45 % of the" in text
    assert "6 cm further out" in text
    assert max(len(row) for row in text.splitlines()) <= 98
    assert not any(word in text.lower() for word in ("fault of", "guilt", "careless", "blame"))
    with pytest.raises(ValueError, match="kind"):
        Card(kind="rumour", words="It was the wind.")


def test_the_morning_in_words() -> None:
    rows = morning_text(told=TOLD).splitlines()
    assert rows[4].split() == ["4", "coach", "2.20", "kN", "14.1", "kN", "11.8", "kN", "45", "%"]
    assert rows[5].startswith("What was left in the lock could hold 14.4 kN: 2.3 % more than fall 4 asked.")


def test_signs_of_the_tear() -> None:
    last, found = TOLD.falls[-1], signs_after(told=TOLD)
    assert found.each[0].after == pytest.approx(2.0 * FOLD_DEPTH, rel=0.05)  # less what the tight strips had stretched
    weight = RIGGED.mass * 9.80665
    again = tear_signs(rig=last.setup.rig, length_given_up=found.each[0].after, load=weight, whole_share=RIGGED.lock_left)
    assert found.each[1].change == pytest.approx(again.each[1].change, rel=1e-3)
    assert 0.0 < found.each[1].change < 0.05


def test_the_branch_that_did_not_happen() -> None:
    """It parts where the load in the lock reaches what is left: known for each strength beforehand."""
    strengths = (0.9, 0.95, 1.0, 1.05)
    found = gone_on(told=TOLD, strengths=strengths)
    held = next(one.peak_tension_b for one in found if one.failure_time < 0.0)
    last = TOLD.falls[-1]
    out = longer(rig=last.setup.rig, paid_out=last.fall.slip_b)  # the line is longer by what the tear gave up
    assert held == pytest.approx(fall(setup=replace(last.setup, rig=out)).peak_tension_b, rel=1e-9)
    for k, one in zip(strengths, found, strict=True):
        left = strips_at_lock(strength=k).strength_left()
        assert (one.failure_time < 0.0) == (held < left)
        if one.failure_time >= 0.0:  # at the first step that reaches it
            assert one.tension_b[one.time < one.failure_time - 1e-9].max() < left <= one.peak_tension_b
    assert all(one.lowest_point > found[-1].lowest_point + 3.0 for one in found[:2])
    assert gone_on(told=TOLD, leash=2.6)[0].failure_time > 0.0
    rows = gone_on_text(told=TOLD, strengths=strengths).splitlines()
    assert ["parts" in row for row in rows[1:5]] == [True, True, False, False]
    assert f"{found[0].catch_leash_force / 1e3:.1f} kN" in rows[1]


def test_refusals() -> None:
    with pytest.raises(ValueError, match=r"strength = 0.2 is not possible; allowed: .*0.5"):
        strips_at_lock(strength=0.2)
    with pytest.raises(ValueError, match="skew_angle"):
        strips_at_lock(skew=2.0)
    with pytest.raises(ValueError, match="leash"):
        gone_on(told=TOLD, leash=0.5)


def test_numbers_as_they_are_now() -> None:
    """No evidence that they are right, only that they have not moved unnoticed."""
    assert TOLD.loads == pytest.approx((9171.0, 10055.0, 10372.0, 14111.0), abs=15.0)
    assert TOLD.crept == pytest.approx(0.0642, abs=2e-4)
    assert TOLD.falls[-1].fall.slip_b == pytest.approx(0.0097, abs=1e-4)
