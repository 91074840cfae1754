"""Frequencies of a taut string, plucked and marched through time by linelib's chain.

Source: Thomson (1965), Vibration Theory and Applications, p. 264. Status: read in a public source and recomputed.
Length 100 in, tension 500 lbf, section 0.00306796 in2, density 7.3e-4 lb s2/in4: 74.708, 149.42, 224.12 Hz.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from linelib.models.march import march
from tests.moving_string import nobody, string_at_rest
from tests.setups import straight

INCH, POUND = 0.0254, 4.4482216152605  # m, N
SPAN, PULL = 100.0 * INCH, 500.0 * POUND
MASS = 0.00306796 * 7.3e-4 * POUND / INCH**2  # kg/m
PRINTED = (74.708, 149.42, 224.12)  # Hz
ELEMENTS = 32


def crossings(height):
    """How many samples one period has, from the first and last passing of 0 on the way up, straight in between."""
    up = np.flatnonzero((height[:-1] < 0.0) & (height[1:] >= 0.0))
    at = up + height[up] / (height[up] - height[up + 1])
    return (at[-1] - at[0]) / (len(at) - 1)


@pytest.mark.parametrize("mode", [1, 2, 3])
def test_frequencies(mode):
    """Released from a sine of one hundred-thousandth of the span; the string stretches so easily (EA = 50 pulls) that its
    tension stays. Known errors of the method are put into what is expected: evenly spaced lumps of mass swing slower than
    a string by sin(x) / x, x = mode pi / (2 elements), and steps of dt swing faster, sin(omega dt / 2) = lumps' omega dt / 2.
    Both together are under 0.4 %. What is left is the printing (1e-5) and the record of 15 periods: 1e-4 is allowed."""
    webbing = straight(50.0 * PULL, MASS * 1.02, loss_time=0.0)  # stretched by 2 %, it weighs what it should
    chain = string_at_rest(webbing, span=SPAN, pull=PULL, elements=ELEMENTS)
    sine = np.sin(mode * np.pi * np.linspace(0.0, 1.0, ELEMENTS + 1))[:, None]
    plucked = replace(chain, z=chain.z + 1e-5 * SPAN * sine)
    run = march(chain=plucked, setups=[nobody(webbing)], duration=0.2)
    swing = (run.places[:, : ELEMENTS + 1, 0] - chain.z[:, 0]) @ sine[:, 0]
    found = 1.0 / (crossings(swing) * chain.step[0])
    lumps, step = mode * np.pi / (2.0 * ELEMENTS), np.pi * chain.step[0]
    expected = np.arcsin(PRINTED[mode - 1] * np.sin(lumps) / lumps * step) / step
    assert expected == pytest.approx(PRINTED[mode - 1], rel=4e-3)
    assert found == pytest.approx(expected, rel=1e-4)
