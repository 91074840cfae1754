"""The round trip of a pluck is one period of a taut string's lowest note, before and after length is given up.

Source: Thomson (1965), Vibration Theory and Applications, p. 264. Status: read in a public source and recomputed.
Length 100 in, tension 500 lbf, section 0.00306796 in2, density 7.3e-4 lb s2/in4: lowest frequency 74.708 Hz.
"""

from __future__ import annotations

import math

import pytest

from linelib.models.tear_signs import tear_signs
from tests.setups import one_webbing, straight

INCH, POUND = 0.0254, 4.4482216152605  # m, N
SPAN, PULL = 100.0 * INCH, 500.0 * POUND
MASS = 0.00306796 * 7.3e-4 * POUND / INCH**2  # kg/m


def test_period_of_the_lowest_note() -> None:
    """Stretched by 2 % it weighs what it should; 1 mm given up lowers the pull from EA (L/L0 - 1) to EA (L/(L0 + 1 mm) - 1)."""
    stiffness, natural = 50.0 * PULL, SPAN / 1.02
    rig = one_webbing(straight(stiffness, MASS * 1.02), span=SPAN, pretension=PULL)
    trip = tear_signs(rig=rig, length_given_up=1e-3, load=1.0).each[4]
    assert 1.0 / trip.before == pytest.approx(74.708, rel=2e-4)
    lower = stiffness * (SPAN / (natural + 1e-3) - 1.0)
    assert 1.0 / trip.after == pytest.approx(74.708 * math.sqrt(lower / PULL), rel=5e-4)
