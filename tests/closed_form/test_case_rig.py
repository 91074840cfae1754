"""The invented rig of the case: its plain numbers, its choices from one version to the other, a backup that never shares."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from linelib import falls, least_extra_length
from linelib.studies.case_rig import (
    EXTRA,
    LINKS,
    LOCK,
    PLANNED,
    RIGGED,
    SEATING,
    case_choices,
    case_knobs,
    case_lists,
    case_rig,
)
from linelib.studies.knobs import no_slack
from linelib.studies.mixes import all_mixes

BEFORE, AFTER = case_rig(numbers=PLANNED), case_rig(numbers=RIGGED)


def test_the_numbers_of_both_versions():
    for case, mass, leash, stance, tension, pieces in (
        (BEFORE, 75.0, 1.5, 1.0, 3000.0, 2),
        (AFTER, 95.0, 2.2, 1.4, 2200.0, 1),
    ):
        setup, rig = case.setup, case.setup.rig
        assert (setup.walker.mass, setup.leash.length, setup.walker.standing_height) == (mass, leash, stance)
        assert (rig.span, rig.height_difference, rig.pretension, len(rig.segments)) == (62.0, 3.0, tension, pieces)
        assert rig.backup is not None
    assert BEFORE.setup.rig.segments[0].length == 8.0
    assert "polyamide" in BEFORE.setup.rig.segments[0].webbing.name
    assert (BEFORE.left[LOCK], AFTER.left[LOCK]) == (1.0, 0.55)


def test_the_choices_lead_from_the_one_to_the_other_and_each_changes_one_thing():
    mixes = all_mixes(reference=BEFORE, choices=case_choices())
    assert len(mixes) == 64
    assert mixes[0].setup == BEFORE.setup
    assert mixes[-1].setup == AFTER.setup
    assert dict(mixes[-1].left) == pytest.approx({LOCK: 0.55})
    singles = [mixes[1 << i] for i in range(6)]
    assert [s.setup == BEFORE.setup for s in singles] == [False] * 5 + [True]
    assert [dict(s.left) == {LOCK: 1.0} for s in singles] == [True] * 5 + [False]


def test_a_lock_that_sat_badly_already_is_left_as_rigged():
    half = replace(PLANNED, lock_left=0.8)
    mixes = all_mixes(reference=case_rig(numbers=half), choices=case_choices(planned=half, rigged=RIGGED))
    assert mixes[-1].left[LOCK] == pytest.approx(0.55)


def test_the_backup_never_shares_in_any_mix():
    mixes = all_mixes(reference=BEFORE, choices=case_choices())
    found = falls(setups=[m.setup for m in mixes])
    peaks = np.maximum(found.peak_tension_a, found.peak_tension_b)
    least = [float(least_extra_length(rig=m.setup.rig, tension=float(p)).max()) for m, p in zip(mixes, peaks, strict=True)]
    assert peaks.max() > 14e3
    assert max(least) < EXTRA
    assert max(least) > 0.5 * EXTRA  # not longer than it has to be by far


def test_names_of_choices_say_what_changed():
    names = [c.name for c in case_choices()]
    assert names == [
        "insert 8 m to none",
        "tension 3 to 2.2 kN",
        "mass 75 to 95 kg",
        "leash 1.5 to 2.2 m",
        "stance 1 to 1.4 m",
        "seating: 55 % left",
    ]
    assert [link.name for link in LINKS] == ["anchor A", "end at A", "webbing", "lock at B"]


def test_what_could_have_been_otherwise_holds_no_slack():
    knobs = {k.name: k for k in case_knobs(now=AFTER)}
    assert (knobs["pretension"].low, knobs["pretension"].high) == (2200.0, 3000.0)
    assert (knobs["leash length"].low, knobs["standing height"].high) == (1.4, 1.6)
    assert "pretension" not in {k.name for k in case_knobs(now=BEFORE)}
    for knob in knobs.values():
        for value in (knob.low, knob.high):
            no_slack(now=AFTER, case=knob.on(AFTER, value), name=knob.name)
    material, seating = case_lists(now=AFTER)
    assert len(material.options) >= 8
    assert seating.name == SEATING
    assert seating.options["straight"].left[LOCK] == 1.0
    assert knobs["insert length"].on(AFTER, 0.0).setup == AFTER.setup
    assert len(knobs["insert length"].on(AFTER, 3.0).setup.rig.segments) == 2
