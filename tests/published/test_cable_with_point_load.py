"""A level elastic cable with one point load, against the movement of the load point that five papers agree on.

Source: Michalos & Birnstiel (1962); O'Brien & Francis (1964), J. Struct. Div. ASCE 90(ST3); Jayaraman & Knudson (1981),
Comput. Struct. 14:325; Tibert (1999), KTH; Thai & Kim (2011), Finite Elem. Anal. Des. 47:237.
Status: the published numbers are from memory; an independent recomputation reproduces them. Lengths of 125.88 and
186.85 m, found in copies of this case, do not fit its sag and are not used.

Span 304.8 m, level; midspan sag alone 30.48 m; 46.12 N/m; EA = 548.4 mm2 x 131.0 GPa; 35.586 kN at x = 121.92 m.
"""

from __future__ import annotations

import pytest
from scipy.optimize import brentq

from linelib import Rig, Segment, hang
from tests.setups import GRAVITY, straight

CABLE = straight(548.4e-6 * 131.0e9, 46.12 / GRAVITY, breaking_strength=1e15)
PLACE = 121.92 / 304.8


def cable(length):
    return Rig(span=304.8, segments=(Segment(webbing=CABLE, length=length),))


@pytest.fixture(scope="module")
def rig():
    """The natural length is not published: found as the one that sags 30.48 m."""
    length = brentq(lambda at: hang(rig=cable(at), position=0.5).sag - 30.48, 305.0, 330.0, xtol=1e-9)
    return cable(length)


def test_the_line_before_the_load(rig):
    """Sag at the load point 29.276 m (29.2759 recomputed); natural lengths 125.84698 and 186.85523 m (recomputed)."""
    alone = hang(rig=rig, position=PLACE)
    assert alone.load_x[0] == pytest.approx(121.92, abs=1e-6)
    assert alone.sag == pytest.approx(29.276, abs=1e-3)
    assert alone.natural_lengths[0] == pytest.approx(125.84698 + 186.85523, abs=1e-4)


def test_movement_of_the_load_point(rig):
    """Published: -5.626 m vertically, -0.859 m horizontally; 1 mm of tolerance is the last digit printed."""
    alone, loaded = hang(rig=rig, position=PLACE), hang(rig=rig, load=35.586e3, position=PLACE)
    assert loaded.load_z[0] - alone.load_z[0] == pytest.approx(-5.626, abs=1e-3)
    assert loaded.load_x[0] - alone.load_x[0] == pytest.approx(-0.859, abs=1e-3)


def test_tensions_under_the_load(rig):
    """Recomputed with the formulas of Irvine (1981), independently of this program: 0.1 N printed, 0.5 N allowed."""
    loaded = hang(rig=rig, load=35.586e3, position=PLACE)
    assert loaded.horizontal == pytest.approx(89442.9, abs=0.5)
    assert (loaded.tension_a, loaded.tension_b) == pytest.approx((93933.6, 91946.7), abs=0.5)
