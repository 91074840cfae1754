"""The factor by which a leg at an angle carries more than its share of the load, as printed in rigging tables.

Source: sling angle factors as printed in common rigging tables, angle from the horizontal. Status: read, and correct within
the printing: 60 degrees 1.155, 45 degrees 1.414, 30 degrees 2.000; 0.002 is allowed.
"""

from __future__ import annotations

import numpy as np
import pytest

from linelib import Rig, Segment, hang, weightless_v
from tests.setups import straight

PRINTED = [(60.0, 1.155), (45.0, 1.414), (30.0, 2.000)]
LOAD, SPAN = 1000.0, 10.0


@pytest.mark.parametrize("degrees, factor", PRINTED)
def test_the_weightless_v(degrees, factor):
    sag = 0.5 * SPAN * np.tan(np.radians(degrees))
    v = weightless_v(load=LOAD, span=SPAN, sag=sag)
    assert v.tension_a / (LOAD / 2.0) == pytest.approx(factor, abs=0.002)
    assert v.tension_b == pytest.approx(v.tension_a, rel=1e-12)
    assert np.degrees(v.angle_a) == pytest.approx(degrees, abs=1e-9)


@pytest.mark.parametrize("degrees, factor", PRINTED)
def test_the_hanging_line_that_weighs_next_to_nothing(degrees, factor):
    length = SPAN / np.cos(np.radians(degrees))
    segments = (Segment(webbing=straight(1e9, 1e-6), length=length),)
    state = hang(rig=Rig(span=SPAN, segments=segments), load=LOAD)
    assert state.tension_a / (LOAD / 2.0) == pytest.approx(factor, abs=0.002)
    assert np.degrees(state.angle_b) == pytest.approx(degrees, abs=0.01)
