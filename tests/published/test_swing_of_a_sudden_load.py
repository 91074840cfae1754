"""The swing read from a log of a suddenly applied load, whose first peak over the load is known.

Source: factor 2, with damping ratio z: 1 + exp(-pi z / sqrt(1 - z^2)); z = 0.05: 1.85447, z = 0.20: 1.52662 (any vibrations
textbook, as Thomson 1965, Vibration Theory and Applications, step response; page from memory not known).
Status: formula from memory, numbers recomputed.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.signal import find_peaks

from linelib.studies.log_file import Log
from linelib.studies.log_swing import parabola, swing_of
from linelib.studies.slow_cell import slow_cell

WEIGHT, PERIOD = 800.0, 1.5  # N, s of the damped swing


def step_response(time, damping):
    """W (1 - e^(-z w t) (cos + z / sqrt(1 - z^2) sin)) at the damped frequency."""
    free = 2.0 * math.pi / PERIOD
    natural, ratio = free / math.sqrt(1.0 - damping**2), damping / math.sqrt(1.0 - damping**2)
    return WEIGHT * (1.0 - np.exp(-damping * natural * time) * (np.cos(free * time) + ratio * np.sin(free * time)))


@pytest.mark.parametrize("damping, factor", [(0.05, 1.85447), (0.20, 1.52662)])
def test_first_peak_period_and_damping_of_the_log(damping, factor) -> None:
    time = np.arange(0.0, 6.0, 0.005)
    force = step_response(time, damping)
    log = Log(time=time, force=force)
    turns = [int(t) for t in find_peaks(force)[0]][:3]
    swing = swing_of(log=log, turns=turns, level=WEIGHT, level_error=0.0)
    assert parabola(log, float(time[turns[0]]), 0.05).top / WEIGHT == pytest.approx(factor, abs=1e-4)
    assert swing.period == pytest.approx(PERIOD, rel=1e-3)
    assert swing.damping == pytest.approx(damping, rel=0.02)


def test_a_fast_cell_records_the_published_factor_and_a_slow_one_less() -> None:
    time = np.arange(0.0, 6.0, 0.001)
    force = step_response(time, 0.05)
    fast = slow_cell(time=time, force=force, rate=500.0)
    assert fast.lowest / WEIGHT == pytest.approx(1.85447, abs=1e-4)
    slow = slow_cell(time=time, force=force, rate=4.0)
    assert slow.lowest < 0.95 * fast.lowest
    assert slow.highest == pytest.approx(fast.highest, rel=2e-3)
