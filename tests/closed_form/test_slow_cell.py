"""What a slow cell misses, against pulses that can be integrated by hand, and against a running mean of SciPy."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.ndimage import uniform_filter1d

from linelib.studies.cell import sampled, through_cell
from linelib.studies.slow_cell import (
    PHASES,
    SlowCell,
    half_sine_averaged,
    half_sine_sampled,
    rate_needed,
    slow_cell,
    slow_cells,
    slow_text,
    sudden_load_recorded,
)

PULSE = 0.1  # s


def half_sine(top=1000.0, pulse=PULSE):
    """Nothing, a half sine, nothing; straight between 0.05 ms."""
    time = np.linspace(-3.0 * pulse, 4.0 * pulse, 14001)
    inside = (time >= 0.0) & (time <= pulse)
    return time, np.where(inside, top * np.sin(np.pi * time / pulse), 0.0)


def test_mean_over_a_window_by_hand() -> None:
    time, force = np.array([0.0, 2.0]), np.array([0.0, 200.0])
    assert through_cell(time=time, force=force, at=np.array([1.0]), averaging=0.2) == pytest.approx([90.0])
    # over the kink of 0, 10, 0 N at 0, 1, 2 s: from 0.5 to 1.5 s the mean of two trapezia, 7.5 N
    time, force = np.array([0.0, 1.0, 2.0]), np.array([0.0, 10.0, 0.0])
    found = through_cell(time=time, force=force, at=np.array([1.5, 2.0, 1.0, 0.0, -1.0]), averaging=1.0)
    assert found == pytest.approx([7.5, 5.0, 5.0, 0.0, 0.0])
    # before its first time the force is as at that time
    assert through_cell(time=time, force=force + 4.0, at=np.array([0.5]), averaging=1.0) == pytest.approx([4.0 + 0.5 * 2.5])
    assert through_cell(time=time, force=force, at=np.array([0.25, 1.5]), averaging=0.0) == pytest.approx([2.5, 5.0])


def test_running_mean_of_scipy() -> None:
    """A window of 201 points of SciPy's filter, centred there and before the sample here."""
    time, force = half_sine()
    step = time[1] - time[0]
    theirs = uniform_filter1d(force, 201, mode="nearest")
    ours = through_cell(time=time, force=force, at=time[200:], averaging=201 * step)
    middle = through_cell(time=time, force=force, at=time[200:] - 0.5 * step, averaging=200 * step)
    assert ours == pytest.approx(theirs[100:-100], abs=3.0)  # a trapezium less than a sum of points
    assert middle == pytest.approx(0.5 * (theirs[100:-100] + np.roll(theirs, 1)[100:-100]), abs=3.0)


@pytest.mark.parametrize("share", [0.0, 0.1, 0.4, 0.8, 1.0, 1.5, 2.5])
def test_half_sine_averaged(share) -> None:
    time, force = half_sine()
    found = slow_cell(time=time, force=force, rate=20000.0, averaging=share * PULSE)
    assert found.highest / found.true == pytest.approx(half_sine_averaged(pulse=PULSE, window=share * PULSE), abs=2e-5)


def test_half_sine_averaged_by_hand() -> None:
    assert half_sine_averaged(pulse=PULSE, window=PULSE) == pytest.approx(2.0 / math.pi)
    assert half_sine_averaged(pulse=PULSE, window=PULSE / 3.0) == pytest.approx(3.0 / math.pi)  # sin 30 deg = 1/2
    assert half_sine_averaged(pulse=PULSE, window=2.0 * PULSE) == pytest.approx(1.0 / math.pi)
    assert half_sine_averaged(pulse=PULSE, window=0.0) == 1.0


@pytest.mark.parametrize("samples", [1.5, 2.0, 3.0, 4.7, 10.0, 50.0])
def test_half_sine_sampled_at_the_worst_moment(samples) -> None:
    time, force = half_sine()
    rate = samples / PULSE
    at = np.array([[0.5 * PULSE + (k + phase) / rate for k in range(-3, 4)] for phase in np.linspace(0.0, 1.0, 401)])
    worst = through_cell(time=time, force=force, at=at, averaging=0.0).max(1).min()
    factor = half_sine_sampled(pulse=PULSE, rate=rate)
    assert worst / 1000.0 == pytest.approx(factor, abs=1e-6)
    found = slow_cell(time=time, force=force, rate=rate)
    assert factor - 1e-6 <= found.lowest / found.true <= factor + (math.pi / samples) ** 2 / PHASES
    assert found.highest / found.true == pytest.approx(1.0, abs=0.5 * (math.pi / samples / PHASES) ** 2)


def test_half_sine_sampled_by_hand() -> None:
    assert half_sine_sampled(pulse=PULSE, rate=20.0) == pytest.approx(math.sqrt(0.5))
    assert half_sine_sampled(pulse=PULSE, rate=15.0) == pytest.approx(0.5)  # cos 60 deg
    assert half_sine_sampled(pulse=PULSE, rate=9.0) == 0.0
    assert half_sine_sampled(pulse=PULSE, rate=10.0) == pytest.approx(0.0, abs=1e-12)


def test_window_and_sampling_together() -> None:
    """While the window stays inside the pulse, the two factors multiply: the mean of a sine is a sine."""
    time, force = half_sine()
    window, rate = 0.3 * PULSE, 4.0 / PULSE
    product = half_sine_averaged(pulse=PULSE, window=window) * half_sine_sampled(pulse=PULSE, rate=rate)
    assert slow_cell(time=time, force=force, rate=rate, averaging=window).lowest / 1000.0 == pytest.approx(product, abs=0.013)
    at = np.array([[0.5 * PULSE + 0.5 * window + (k + 0.5) / rate for k in range(-2, 2)]])
    assert through_cell(time=time, force=force, at=at, averaging=window).max() / 1000.0 == pytest.approx(product, abs=1e-6)


@given(missed=st.floats(1e-4, 0.9), pulse=st.floats(0.01, 10.0))
def test_rate_needed_is_the_inverse(missed, pulse) -> None:
    rate = rate_needed(pulse=pulse, missed=missed)
    assert 1.0 - half_sine_sampled(pulse=pulse, rate=rate) == pytest.approx(missed, rel=1e-6)


def test_rate_needed_by_hand() -> None:
    assert rate_needed(pulse=0.1, missed=0.5) == pytest.approx(15.0)  # arccos(1/2) = 60 deg
    assert rate_needed(pulse=0.1, missed=0.01) == pytest.approx(110.98, abs=0.01)


@pytest.mark.parametrize("share", [0.0, 0.2, 0.5, 1.0])
def test_suddenly_applied_load(share) -> None:
    """W (1 - cos(2 pi t / P)): the true peak is 2 W; a window of one period sees W and nothing of the doubling."""
    time = np.linspace(0.0, 3.0, 30001)
    force = 1.0 - np.cos(2.0 * np.pi * time)
    found = slow_cell(time=time, force=force, rate=2000.0, averaging=share)
    assert found.true == pytest.approx(2.0)
    assert found.highest == pytest.approx(sudden_load_recorded(period=1.0, window=share), abs=1e-4)
    assert sudden_load_recorded(period=1.0, window=1.0) == pytest.approx(1.0)
    assert sudden_load_recorded(period=1.0, window=0.5) == pytest.approx(1.0 + 2.0 / math.pi)


def test_sampling_and_noise() -> None:
    time, force = half_sine()
    at, read = sampled(time=time, force=force, rate=10.0, averaging=0.0, phase=0.5)
    assert at == pytest.approx(-0.25 + 0.1 * np.arange(7))
    assert read == pytest.approx([0.0, 0.0, 0.0, 1000.0, 0.0, 0.0, 0.0], abs=1e-6)
    time = np.array([0.0, 100.0])
    _, noisy = sampled(time=time, force=np.array([500.0, 500.0]), rate=100.0, averaging=0.0, noise=20.0, seed=4)
    assert noisy.std() == pytest.approx(20.0, rel=0.03)
    assert noisy.mean() == pytest.approx(500.0, abs=3.0 * 20.0 / 100.0)
    assert abs(np.corrcoef(noisy[1:], noisy[:-1])[0, 1]) < 0.04
    again = sampled(time=time, force=np.array([500.0, 500.0]), rate=100.0, averaging=0.0, noise=20.0, seed=4)[1]
    other = sampled(time=time, force=np.array([500.0, 500.0]), rate=100.0, averaging=0.0, noise=20.0, seed=5)[1]
    assert np.array_equal(noisy, again)
    assert not np.array_equal(noisy, other)


def test_mean_over_the_phases() -> None:
    """Two samples in a half sine, T/2 apart: the higher one, over all phases, is sin from 45 to 90 deg and back; its mean is
    (4/pi) cos 45 deg = 0.900."""
    time, force = half_sine()
    found = slow_cell(time=time, force=force, rate=2.0 / PULSE)
    assert found.mean / found.true == pytest.approx(4.0 / math.pi * math.sqrt(0.5), abs=1e-3)
    assert found.missed == (pytest.approx(0.0, abs=1e-9), pytest.approx(1.0 - math.sqrt(0.5), abs=1e-6))


def test_words_by_hand() -> None:
    one = SlowCell(rate=10.0, averaging=0.02, true=9500.0, lowest=9310.0, mean=9400.0, highest=9480.0)
    assert one.missed == (pytest.approx(0.0021, abs=1e-4), pytest.approx(0.02))
    head, row = slow_text([one]).splitlines()
    assert row.split() == ["10", "20", "9.50", "9.31", "to", "9.48", "2.0", "%"]
    assert head.split()[:4] == ["rate", "[Hz]", "window", "[ms]"]
    assert "missed at worst" in head
    time, force = half_sine()
    cells = slow_cells(time=time, force=force, rates=[10.0, 50.0], averagings=[0.0, 0.02])
    assert [(c.rate, c.averaging) for c in cells] == [(10.0, 0.0), (10.0, 0.02), (50.0, 0.0), (50.0, 0.02)]
