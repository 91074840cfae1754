"""Roots of many brackets at once against scipy.optimize, which takes one at a time; on plain functions and on falls."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq, ridder, toms748

from linelib import fall, falls
from linelib.studies.boundary import boundary, of_two
from linelib.studies.case_rig import LINKS, LOCK, RIGGED, case_knobs, case_rig
from linelib.studies.close_in import close_in
from linelib.studies.keeping import keeping

FUNCTIONS = {
    "line": (lambda x: 3.0 * x - 2.0, 0.0, 1.0),
    "cube": (lambda x: x**3 - 0.1, 0.0, 3.0),
    "exponential": (lambda x: np.exp(x) - 5.0, -4.0, 5.0),
    "falling": (lambda x: 1.0 / x - 2.0, 0.1, 9.0),
    "steep": (lambda x: np.tanh(40.0 * (x - 0.7)), 0.0, 1.0),
}
NOW = case_rig(numbers=RIGGED)
KNOBS = {k.name: k for k in case_knobs(now=NOW)}


def test_all_brackets_at_once_against_one_at_a_time():
    every = list(FUNCTIONS.values())
    low, high = (np.array([of[i] for of in every]) for i in (1, 2))

    def miss(values, which):
        return np.array([every[n][0](v) for n, v in zip(which, values, strict=True)])

    at = [miss(of, np.arange(len(every))) for of in (low, high)]
    found = close_in(miss=miss, low=low, high=high, at_low=at[0], at_high=at[1], scale=1e-6)
    for solver in (brentq, toms748, ridder):
        roots = [solver(of, a, b) for of, a, b in every]
        assert found.value == pytest.approx(roots, abs=1e-7)
    assert found.miss == pytest.approx(miss(found.value, np.arange(len(every))), abs=1e-15)


def test_a_bracket_that_is_none_is_refused():
    with pytest.raises(ValueError, match=r"^at_low = .* opposite sign"):
        close_in(
            miss=lambda v, n: v,
            low=np.array([1.0]),
            high=np.array([2.0]),
            at_low=np.array([1.0]),
            at_high=np.array([2.0]),
            scale=1,
        )


@pytest.mark.parametrize(
    "name, outcome, limit, read",
    [
        ("leash length", "lowest tie-in", 6.2, lambda f: f.lowest_point),
        ("walker's mass", "peak at A", 12e3, lambda f: f.peak_tension_a),
        ("insert length", "peak at B", 11e3, lambda f: f.peak_tension_b),
        ("standing height", "person", 3.6e3, lambda f: f.peak_leash_force),
        ("span", "peak at A", 12e3, lambda f: f.peak_tension_a),
    ],
)
def test_the_fall_at_the_value_found_meets_the_limit(name, outcome, limit, read):
    """One fall alone, and a search by Brent with one fall alone at a time."""
    knob = KNOBS[name]
    kept = keeping(now=NOW, outcome=outcome, limit=limit, knobs=(knob,), links=LINKS, count=9).kept[0]
    assert kept.found
    for found in kept.found:
        assert read(fall(setup=knob.on(NOW, found.value).setup)) == pytest.approx(limit, rel=1e-3)
        near = 0.02 * (knob.high - knob.low)
        one = brentq(
            lambda v: read(fall(setup=knob.on(NOW, v).setup)) - limit, found.value - near, found.value + near, xtol=1e-4
        )
        assert found.value == pytest.approx(one, abs=2e-3 * (knob.high - knob.low))


def test_the_boundary_of_two_meets_the_limit_in_falls_alone():
    """Lock at B with 0.55 of 0.75 of 35 kN left: 80 % of it is 11.55 kN."""
    asked = of_two(now=NOW, first=KNOBS["leash length"], second=KNOBS["insert length"], outcome=LOCK, links=LINKS)
    found = boundary(outcome=asked, limit=0.8, x=np.linspace(1.4, 3.0, 5), y=np.linspace(0.0, 12.0, 5))
    points = {point for piece in found.pieces for point in piece}
    assert len(points) >= 5
    setups = [KNOBS["insert length"].on(KNOBS["leash length"].on(NOW, x), y).setup for x, y in points]
    assert falls(setups=setups).peak_tension_b == pytest.approx(np.full(len(setups), 0.8 * 0.55 * 0.75 * 35e3), rel=1e-3)
    assert fall(setup=replace(setups[0])).peak_tension_b == pytest.approx(11.55e3, rel=1e-3)
