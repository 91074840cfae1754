"""Lesson 6, a soft insert in a line: springs in series, under a load that only stretch can carry.

Source: a textbook problem (Timoshenko, Strength of Materials: the horizontal wire with a load at its middle, from memory;
springs in series in any text). Status: recomputed. A wire without weight and tension, of stiffness EA and half length a,
gives y = a tan b where P = 2 EA (tan b - sin b); for small angles y = a (P / EA)^(1/3). Of two webbings end to end
L / EA = L1 / EA1 + L2 / EA2, wherever the soft one is.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq

from linelib import Rig, Segment, hang
from linelib.studies.held_equal import HELD
from linelib.studies.insert_compare import PLACES, pair
from tests.setups import reference_setup, straight

SPAN, LINE, SOFT = 100.0, straight(1e6, 1e-7), straight(70e3, 1e-7)
every_insert = pytest.mark.parametrize("length", [2.0, 5.0, 15.0])


def in_series(length):
    return SPAN / (length / 70e3 + (SPAN - length) / 1e6)


def angle(load, stiffness):
    return brentq(lambda b: 2.0 * stiffness * (np.tan(b) - np.sin(b)) - load, 1e-4, 1.0)


def wire(length, place):
    """The rig with an insert as the lesson makes it, cut so that the line is straight and without tension."""
    plain = reference_setup(Rig(span=SPAN, segments=(Segment(webbing=LINE),), pretension=1e3))
    made = pair(plain=plain, webbing=SOFT, length=length, place=place, held=HELD[0])[1].rig.segments
    rest = SPAN - sum(s.length or 0.0 for s in made)
    return Rig(span=SPAN, segments=tuple(replace(s, length=s.length or rest) for s in made))


@every_insert
@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("load", [50.0, 800.0])
def test_deflection_and_tension(length, place, load):
    """2e-4, found 5e-5 and 1.2e-4: with the insert on one side the load also moves to the other, by up to 0.3 m."""
    b = angle(load, in_series(length))
    state = hang(rig=wire(length, place), load=load)
    assert state.sag == pytest.approx(0.5 * SPAN * np.tan(b), rel=2e-4)
    assert (state.tension_a, state.tension_b) == pytest.approx([load / (2.0 * np.sin(b))] * 2, rel=2e-4)


@every_insert
def test_cube_root(length):
    """The small-angle form is (y / a)^2 / 4 low, the next term of tan b - sin b: up to 0.45 % under 800 N. 2e-4 as above."""
    state = hang(rig=wire(length, PLACES[0]), load=800.0)
    root = 0.5 * SPAN * (800.0 / in_series(length)) ** (1.0 / 3.0)
    assert state.sag / root - 1.0 == pytest.approx(0.25 * (state.sag / (0.5 * SPAN)) ** 2, abs=2e-4)


@every_insert
def test_each_webbing_stretches_for_itself(length):
    """Tension times length over EA, the same tension in both. 2e-4 as above."""
    state = hang(rig=wire(length, PLACES[0]), load=800.0)
    tension = 800.0 / (2.0 * np.sin(angle(800.0, in_series(length))))
    expected = tension * length / 70e3, tension * (SPAN - length) / 1e6
    assert state.stretches == pytest.approx(expected, rel=2e-4)
