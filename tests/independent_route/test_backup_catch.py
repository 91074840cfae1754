"""The catch by the backup against the full two-dimensional model: stored results, and one that is computed here.

Stored in full_model_failure_cases.json, setups in full_model_failure_cases.py: 70 and 40 m, 1 to 4 m of extra length, parting
near the peak or in the free fall, in the walker's bay or another, an insert, uneven anchors, a backup of another fibre.
Computed, not measured. Found, reduced model over full model:

    lowest point        -0.1 to +1.4 %
    person              -2.1 to +4.0 %; -9.3 % at 4 m of extra length, +10.9 % near the peak with the walker in another bay
    anchors             -4.4 to +3.2 %; -11.3 % at 4 m, +5.5 and +8.9 % with the walker in another bay (before the catch, near
                        the peak), -7.1 and +6.9 % with an insert

The nodes of linelib move up and down only. On a line that hangs deep its webbing, when it snaps taut, runs more along than
across, and slack webbing bunches up: so the anchors and the person are less certain in a catch than in a held fall.
Looked at once the freed line has shot back, 0.25 s after it parts. The recoil itself is left out by linelib. In the full model
it can snap the backup taut for some milliseconds with more than the catch; how hard depends on how finely the line is cut.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from linelib import falls

from .full_model_failure_cases import AFTER, CASES, QUICK, computed, stored

STORED = stored()
ALLOWED = {"lowest_point": (-0.005, 0.015), "catch_leash_force": (-0.03, 0.045)}  # low, high, just outside what was found
ANCHORS = ("catch_tension_a", "catch_tension_b")
WIDER = {  # what is further off, and by how much
    ("70 m, 4 m extra", "catch_leash_force"): (-0.10, 0.0),
    ("70 m, 4 m extra", "catch_tension_a"): (-0.12, 0.0),
    ("70 m, walker in another bay", "catch_leash_force"): (0.0, 0.115),
    ("70 m, walker in another bay", "catch_tension_b"): (0.0, 0.095),
    ("70 m, walker in another bay, before the catch", "catch_tension_b"): (0.0, 0.06),
    ("70 m, insert, uneven", "catch_tension_a"): (-0.075, 0.0),
    ("40 m, insert at A, middle bay", "catch_tension_a"): (0.0, 0.075),
}
PEAKS = ("catch_leash_force", *ANCHORS)
NAMES = list(CASES)


def reduced(setups):
    """The falls, each for itself: followed for as long as the full model was."""
    return [falls(setups=[s], duration=s.failure.time + AFTER) for s in setups]


def misses(found, results):
    """By how much each result of linelib is more than that of the full model, as a share of it."""
    return {name: float(getattr(found, name)[0]) / results[name] - 1.0 for name in ("lowest_point", *PEAKS)}


@pytest.fixture(scope="module")
def gaps():
    return {n: misses(f, STORED[n]) for n, f in zip(NAMES, reduced(CASES.values()), strict=True)}


def test_every_case_is_kept():
    assert list(STORED) == NAMES
    assert len(NAMES) == 11


@pytest.mark.parametrize("name", NAMES)
def test_lowest_point_person_and_anchors(gaps, name):
    for result, gap in gaps[name].items():
        low, high = WIDER.get((name, result), ALLOWED.get(result, (-0.05, 0.035)))
        assert low <= gap <= high, result


@pytest.mark.parametrize("name", NAMES)
def test_the_full_model_keeps_its_energy(name):
    """To 0.7 % of the fall energy, found 0.62 %, what the break gives up counted; and it gives up some."""
    assert STORED[name]["energy_error"] < 0.007
    assert STORED[name]["given_up"] > 0.0


@pytest.mark.parametrize("name", NAMES)
def test_linelib_lets_the_break_take_no_less(name):
    """The full model loses what the bay had stored; in linelib the rest of the sides that go slack loses its own too."""
    fall = falls(setups=[CASES[name]], series=True).series[0]
    assert fall.ledger.lost_break[-1] >= STORED[name]["given_up"]


def test_the_recoil_that_is_left_out_can_be_more_than_the_catch():
    """So a catch by this library is no bound for what an anchor feels in the moment after the break."""
    higher = [n for n in NAMES if STORED[n]["recoil_b"] > STORED[n]["catch_tension_b"]]
    assert len(higher) >= 3


def test_the_limits_would_see_half_a_metre_more_of_extra_length():
    """Each case with 0.5 m more is outside of what is allowed for the lowest point: the comparison can fail."""
    longer = [replace(s.rig.backup, extra_length=s.rig.backup.extra_length + 0.5) for s in CASES.values()]
    longer = [replace(s, rig=replace(s.rig, backup=b)) for s, b in zip(CASES.values(), longer, strict=True)]
    found = [misses(f, STORED[n])["lowest_point"] for n, f in zip(NAMES, reduced(longer), strict=True)]
    assert min(found) > ALLOWED["lowest_point"][1]


def test_one_case_is_computed_again():
    """The full model, run here, gives what is stored; the recoil follows rounding and is left out."""
    again, kept = computed(QUICK), STORED[QUICK]
    for name in ("lowest_point", *PEAKS, "given_up"):
        assert again[name] == pytest.approx(kept[name], rel=2e-3), name
    assert np.isfinite(list(again.values())).all()
