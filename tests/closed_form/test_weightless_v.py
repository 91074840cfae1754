"""The blackboard V against hand values, balance of forces, and symmetry."""

from __future__ import annotations

from dataclasses import astuple

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from linelib import weightless_v

any_v = given(
    load=st.floats(0.0, 1e5), span=st.floats(1.0, 1000.0), steep=st.floats(0.001, 1.0), position=st.floats(0.01, 0.99)
)


def test_by_hand():
    """800 N in the middle of 100 m with 2.5 m of sag: 800 x 100 / (4 x 2.5) = 8000 N horizontally, tan = 2.5 / 50,
    tension 8000 sqrt(1 + 0.05^2) = 8009.994 N."""
    v = weightless_v(load=800.0, span=100.0, sag=2.5)
    assert v.horizontal == pytest.approx(8000.0, rel=1e-12)
    assert v.tension_a == pytest.approx(8009.994, abs=5e-4)
    assert v.angle_a == pytest.approx(np.arctan(0.05), rel=1e-12)


def test_off_centre_by_hand():
    """3-4-5: 3 m of sag, 4 m from A, 12 m from B: 600 x 4 x 12 / (16 x 3) = 600 N; at A 600 x 5/4 = 750 N, at B
    600 sqrt(12^2 + 3^2) / 12 = 618.47 N."""
    v = weightless_v(load=600.0, span=16.0, sag=3.0, position=0.25)
    assert (v.horizontal, v.tension_a) == pytest.approx((600.0, 750.0), rel=1e-12)
    assert v.tension_b == pytest.approx(618.466, abs=1e-3)


@any_v
def test_both_sides_carry_the_load_and_pull_alike(load, span, steep, position):
    v = weightless_v(load=load, span=span, sag=steep * span, position=position)
    carried = v.tension_a * np.sin(v.angle_a) + v.tension_b * np.sin(v.angle_b)
    assert carried == pytest.approx(load, rel=1e-9)
    assert v.tension_a * np.cos(v.angle_a) == pytest.approx(v.horizontal, rel=1e-9)
    assert v.tension_b * np.cos(v.angle_b) == pytest.approx(v.horizontal, rel=1e-9)


@any_v
def test_seen_from_the_other_side(load, span, steep, position):
    one = weightless_v(load=load, span=span, sag=steep * span, position=position)
    other = weightless_v(load=load, span=span, sag=steep * span, position=1.0 - position)
    swapped = (other.tension_b, other.tension_a, other.horizontal, other.angle_b, other.angle_a)
    assert swapped == pytest.approx(astuple(one), rel=1e-9)


def test_half_the_sag_is_twice_the_pull_and_no_load_is_no_pull():
    v = weightless_v(load=800.0, span=100.0, sag=2.5)
    assert weightless_v(load=800.0, span=100.0, sag=1.25).horizontal == pytest.approx(2.0 * v.horizontal, rel=1e-12)
    assert weightless_v(load=0.0, span=100.0, sag=2.5).tension_a == 0.0
