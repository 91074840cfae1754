"""Round trip of a pluck against printed frequencies: a taut string swings once while a pulse runs there and back.

Sources:
* Thomson (1965), Vibration Theory and Applications, p. 264. Status: read in a public source and recomputed. Length 100 in,
  tension 500 lbf, section 0.00306796 in2, density 7.3e-4 lb s2/in4: first three frequencies 74.708, 149.42, 224.12 Hz.
* Irvine & Caughey (1974), Proc. R. Soc. Lond. A 341:299. Status: the numbers are from memory; an independent recomputation
  reproduces them. First symmetric swing of a sagging cable, times that of the taut string: lambda2 = 0: 1; 4: 1.15182;
  10: 1.34512; 4 pi^2: 2; 200: 2.77439. So a swing that is timed instead of a pulse misleads on a long or loose line.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from linelib.models.march import march
from linelib.models.pluck import pluck
from linelib.models.tightness import tension_from_round_trips
from tests.moving_string import ALONE, nobody, string_at_rest
from tests.setups import GRAVITY, one_webbing, straight

INCH, POUND = 0.0254, 4.4482216152605  # m, N
SPAN, PULL = 100.0 * INCH, 500.0 * POUND
MASS = 0.00306796 * 7.3e-4 * POUND / INCH**2  # kg/m
PRINTED = ((1, 74.708), (2, 149.42), (3, 224.12))  # Hz


@pytest.mark.parametrize("mode, frequency", PRINTED)
def test_round_trip_is_one_period_of_the_first_swing(mode, frequency):
    """Mode n swings n times in a round trip; printed to five figures."""
    strain = 0.01
    webbing = straight(PULL / strain, MASS * (1.0 + strain))  # stretched, it weighs what it should
    found = pluck(rig=one_webbing(webbing, span=SPAN, pretension=PULL)).round_trip
    assert mode / found == pytest.approx(frequency, rel=5e-5)


@pytest.mark.parametrize("mode, frequency", PRINTED)
def test_tension_from_the_printed_frequency(mode, frequency):
    found = tension_from_round_trips(time=mode / frequency, trips=1, length=SPAN, mass_per_length=MASS)
    assert found.tension == pytest.approx(PULL, rel=1e-4)


@pytest.mark.parametrize("lambda2, swing", [(4.0, 1.15182), (4.0 * np.pi**2, 2.0), (200.0, 2.77439)])
def test_pulse_does_not_follow_the_first_swing(lambda2, swing):
    """The same cables in time: weight over pull 0.02, plucked by a bump that moves up on one side and down on the other, so
    that the line need not stretch. It comes back after one round trip whatever lambda2 is; the printed first swing is 1.15
    to 2.77 times as fast, and a tension from it would be that squared, 1.3 to 7.7 times too high. The middle must be free to
    move along the line: 5 kg there are slow enough for the step and light beside the webbing's stiffness."""
    span, mass, elements, steep = 0.5, 1.0, 160, 0.02
    pull = mass * GRAVITY * span / steep
    stiffness = lambda2 * (1.0 + steep**2 / 8.0) / steep**2 * pull
    webbing = straight(stiffness, mass * (1.0 + pull / stiffness), loss_time=0.0)
    chain = string_at_rest(webbing, span=span, pull=pull, elements=elements, mass_x=5.0)
    x = np.linspace(0.0, 1.0, elements + 1)[:, None]
    bump = 2e-5 * span * (np.exp(-(((x - 0.25) / 0.07) ** 2)) - np.exp(-(((x - 0.75) / 0.07) ** 2)))
    bump[[0, -1]] = 0.0
    expected = pluck(rig=one_webbing(webbing, span=span, pretension=pull)).round_trip
    assert expected < ALONE / 1.3
    run = march(chain=replace(chain, z=chain.z + bump), setups=[nobody(webbing)], duration=1.3 * expected)
    alike = (run.places[:, : elements + 1, 0] - chain.z[:, 0]) @ bump[:, 0]
    time = chain.step[0] * (1 + np.arange(len(alike)))
    later = (time > 0.75 * expected) & (time < 1.25 * expected)  # at half and at 1.5 it looks alike, too
    back = time[later][np.argmax(alike[later])]
    assert back == pytest.approx(expected, rel=0.01)
    assert expected / back < 0.9 * swing
