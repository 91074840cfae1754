"""A mass dropped on a spring: the leash is the spring, its line hardly gives, nothing takes energy.

Source: Thomson (1965), Vibration Theory and Applications, p. 110, example 4.6-1. Status: read in a public source and
recomputed. 0.5 lb s2/in, g = 386 in/s2, drop 1 in, 1973.92 lb/in: contact after 0.07198 s at 27.79 in/s, lowest point
-1.5506 in; peak force m g + sqrt((m g)^2 + 2 m g k h) = 1086.97 lb = 5.632 m g.

An inch is too short for a leash. The same problem is made larger: drop 2.54 m, and the spring that keeps k h / (m g).
Lengths then count in drops, times in sqrt(drop / g), forces in m g.
"""

from __future__ import annotations

import numpy as np
import pytest

from linelib import fall, fall_energy
from tests.setups import GRAVITY, on_a_spring

MASS, DROP = 87.563, 2.54  # 0.5 lb s2/in in kg; 1 in made 100 times as large
SPRING = 1973.92 * 1.0 / (0.5 * 386.0) * MASS * GRAVITY / DROP  # k h / (m g) as printed
SETUP = on_a_spring(mass=MASS, drop=DROP, stiffness=SPRING)
TIME, SPEED = np.sqrt(DROP / GRAVITY * 386.0), np.sqrt(DROP * GRAVITY / 386.0)  # of 1 s and of 1 in/s


@pytest.fixture(scope="module")
def result():
    return fall(setup=SETUP)


def test_contact(result):
    """When and how fast the leash becomes taut, straight between two steps. The step of under 2 ms is late by half a
    step in 0.72 s, 0.1 %, at most."""
    depth, speed = -result.tie_in_z, -np.gradient(result.tie_in_z, result.time)
    assert np.diff(result.time).max() < 2e-3
    before = result.time < result.time[np.argmax(depth)]
    assert np.interp(DROP, depth[before], result.time[before]) == pytest.approx(0.07198 * TIME, rel=1.5e-3)
    assert np.interp(DROP, depth[before], speed[before]) == pytest.approx(27.79 * SPEED, rel=1.5e-3)


def test_lowest_point_and_peak_force(result):
    """The printing (3e-5), the line, which gives 0.04 % of what the spring does, and, for the force, its mean over 20 ms,
    which is (6.3 / s x 20 ms)^2 / 24 = 0.07 % low."""
    assert result.lowest_point == pytest.approx(1.5506 * DROP, rel=1e-3)
    assert result.peak_leash_force == pytest.approx(5.632 * MASS * GRAVITY, rel=2e-3)


def test_the_blackboard_estimate():
    """One equation, no mass of the line, nothing lost: only the line's own give, 0.04 % of the spring's, is left."""
    estimate = fall_energy(setup=SETUP).from_standing
    assert estimate.leash_force == pytest.approx(5.632 * MASS * GRAVITY, rel=1e-3)
    assert estimate.lowest_point == pytest.approx(1.5506 * DROP, rel=1e-3)
