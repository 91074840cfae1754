"""The fall in time against the full two-dimensional model on further setups: stored results, and one that is run here.

The stored ones, full_model_cases.json, were computed with tests/independent_route/full_model.py on 240 or 480 elements: the
eight rows of the reference table, a lock that slips at 6 and 7 kN, a hung mass between anchors of unequal height, three
segments, soft webbing that is stiffer in a fast pull, and a loose short line. Computed, not measured.

Allowed: 1 % for the anchors and the lowest point, which both models resolve to about 0.1 %; 2 % for what a lock pays out,
which lives on the last tenths of a kN; 5 % for the leash force, since the leash pulls on one light node and its peak depends
on how finely the webbing beside it is cut: it is converged to about 3 %.
"""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from linelib import Leash, Rig, Segment, Setup, Walker, Webbing, fall, falls

from .full_model import full_fall

STORED = json.loads(Path(__file__).with_name("full_model_cases.json").read_text(encoding="utf-8"))["cases"]
WITHIN = {"peak_tension_a": 0.01, "peak_tension_b": 0.01, "lowest_point": 0.01, "peak_leash_force": 0.05}
PAID = ("slip_a", "slip_b")


def described(case):
    """The Setup of a stored case."""
    segments = tuple(Segment(webbing=Webbing(**s["webbing"]), length=s.get("length")) for s in case["segments"])
    rig = Rig(segments=segments, **case["rig"])
    return Setup(rig=rig, leash=Leash(**case["leash"]), walker=Walker(**case["walker"]), **case["air"])


def misses(found, results, i=0, within=WITHIN):
    """What of fall `i` is further from the results than allowed."""
    gaps = {name: abs(float(np.atleast_1d(getattr(found, name))[i]) / results[name] - 1.0) for name in within}
    return {name: gap for name, gap in gaps.items() if not gap <= within[name]}


KEPT = [case for case in STORED if case["results"]]
REFUSED = [case for case in STORED if not case["results"]]


@pytest.fixture(scope="module")
def batch():
    return falls(setups=[described(case) for case in KEPT])


@pytest.mark.parametrize("i", range(len(KEPT)), ids=[case["name"] for case in KEPT])
def test_peaks_person_and_lowest_point(batch, i):
    assert misses(batch, KEPT[i]["results"], i) == {}
    assert batch.ledger_error[i] < 0.005


@pytest.mark.parametrize("i", range(len(KEPT)), ids=[case["name"] for case in KEPT])
def test_what_the_locks_pay_out(batch, i):
    """Within 2 % where a lock slips, exactly nothing where none does, and the slip load is the peak there."""
    case = KEPT[i]
    for name in PAID:
        assert getattr(batch, name)[i] == pytest.approx(case["results"][name], rel=0.02, abs=0.0)
        load = case["rig"].get(name.replace("slip", "slip_load"))
        assert (case["results"][name] > 0.0) == (load is not None)
        if load is not None:
            assert getattr(batch, name.replace("slip", "peak_tension"))[i] == pytest.approx(load, rel=1e-3)


def test_the_cases_are_what_the_text_says():
    assert (len(KEPT), len(REFUSED)) == (14, 1)
    assert sum(case["results"]["slip_b"] > 0.0 for case in KEPT) == 2
    assert all(case["mesh"]["elements"] >= 240 for case in KEPT)


def test_a_lock_that_slips_under_the_standing_walker_is_refused():
    for case in REFUSED:
        with pytest.raises(
            ValueError, match=r"slip_load_b = 5000\.0 .* more than the tension with the walker standing, 5622 N"
        ):
            fall(setup=described(case))


def test_the_limits_would_see_a_walker_of_a_tenth_more():
    """Each stored case with 10 % more mass is outside what is allowed: the comparison can fail."""
    heavier = [described(case) for case in KEPT]
    heavier = [replace(s, walker=replace(s.walker, mass=1.1 * s.walker.mass)) for s in heavier]
    found = falls(setups=heavier)
    assert all(misses(found, case["results"], i) for i, case in enumerate(KEPT))


def test_one_more_setup_through_both_models():
    """Unlike any stored one: insert at B, which is lower; the walker off the middle; a curved law; both laws stiffer fast.

    60 elements to be quick: they change the anchors and the lowest point by 0.01 %, but give a leash force 1.7 % above that of
    240, which is allowed on top. The leash force found is 4.8 % below that of 60 elements and 3.2 % below that of 240.
    """
    strain, tension = (0.0, 0.004, 0.007, 0.0145), (0.0, 2e3, 5e3, 15e3)
    known = {"width": 0.025, "breaking_strength": 35e3}
    line = Webbing(name="curved", mass_per_length=0.048, strain=strain, tension=tension, fast_ratio=1.2, **known)
    soft = Webbing(name="soft", mass_per_length=0.065, stiffness=60e3, fast_ratio=1.8, **known)
    segments = (Segment(webbing=line), Segment(webbing=soft, length=6.0))
    rig = Rig(span=84.0, segments=segments, pretension=1.8e3, height_difference=-4.0, hung_mass_per_length=0.03)
    walker = Walker(mass=66.0, standing_height=1.1, position=0.36)
    setup = Setup(rig=rig, leash=Leash(length=1.8), walker=walker)
    full = full_fall(setup=setup, elements=60)
    assert full.energy_error < 0.005
    results = {name: getattr(full, name) for name in WITHIN}
    assert misses(fall(setup=setup), results, within={**WITHIN, "peak_leash_force": 0.05 + 0.017}) == {}
