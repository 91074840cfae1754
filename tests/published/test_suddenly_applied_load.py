"""A load that is put on at once goes twice as deep as the same load put on gently, less when something damps it.

Source: a textbook limit (any text on vibration; Thomson 1965 among them). Status: recomputed; with damping ratio z the
factor is 1 + exp(-pi z / sqrt(1 - z^2)): 2 exactly without damping, 1.85447 at 0.05, 1.52662 at 0.20.

A walker cannot be put on a leash without any drop: the shortest is the shortest leash, 0.2 m. So the spring is made so
soft (100 N/m under 300 kg) that it gives 29.4 m at rest, and the drop, 0.7 % of that, adds a little from above.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from linelib import fall
from tests.setups import GRAVITY, on_a_spring, one_webbing, straight

MASS, SPRING, DROP = 300.0, 100.0, 0.2
GIVE = MASS * GRAVITY / SPRING
FACTORS = [(0.0, 2.0), (0.05, 1.85447), (0.20, 1.52662)]


@pytest.mark.parametrize("ratio, factor", FACTORS)
def test_the_walker_on_a_soft_leash(ratio, factor):
    """The drop raises the factor, at most to 1 + sqrt(1 + 2 drop / give) = 2.0068: between nothing and 0.7 % above."""
    damping = 2.0 * ratio * np.sqrt(SPRING * MASS)
    result = fall(setup=on_a_spring(mass=MASS, drop=DROP, stiffness=SPRING, damping=damping))
    deep = (result.lowest_point - DROP) / GIVE
    assert deep >= factor * (1.0 - 5e-4)
    assert deep <= factor + DROP / GIVE + 1e-3


def test_a_line_from_which_the_walker_steps_rises_by_twice_its_give():
    """The other way round and on the line itself: freed of the walker's weight, a ring of 10 kg on a line of 12 g rises by
    2 W / k, k = 4 T / span; 0.5 %: the line's own mass in 10 kg, and its tension, which is raised by 0.1 %."""
    rig = one_webbing(straight(1e6, 0.0024, loss_time=0.0), span=5.0, pretension=2e5)
    setup = on_a_spring(mass=80.0, drop=2.0, stiffness=20e3)
    result = fall(setup=replace(setup, rig=rig, leash=replace(setup.leash, ring_mass=10.0)))
    until = result.time < 0.9 * np.sqrt(2.0 * 2.0 / GRAVITY)  # before the leash pulls
    rise = result.ring_z[until].max() - result.ring_z[0]
    assert rise == pytest.approx(2.0 * 80.0 * GRAVITY / (4.0 * 2e5 / 5.0), rel=5e-3)
