"""Rest level, drift, noise, falls and swings in logs made of formulas: what is found is what was put in."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import binom

from linelib.cautions import CAUTION, HELD
from linelib.studies.log_falls import LEAST_RISE, falls_in_log
from linelib.studies.log_file import Log
from linelib.studies.log_rest import noise_of, rest_of
from linelib.studies.log_swing import parabola
from linelib.studies.log_words import NO_PEAK, falls_text

REST, RISE, PERIOD, DAMPING = 5000.0, 4000.0, 2.0, 0.04  # N, N, s, -
DECREMENT = 2.0 * math.pi * DAMPING / math.sqrt(1.0 - DAMPING**2)


def swinging(t, rise=RISE, period=PERIOD, decrement=DECREMENT):
    """A dip to REST - rise/2 within 0.6 s, then a damped cosine around REST, from a quarter before its first top. t [s] from
    the begin of the dip."""
    dip = REST - 0.5 * rise * np.sin(np.pi * np.clip(t / 0.6, 0.0, 1.0))
    x = (np.maximum(t, 0.6) - 0.6) / period - 0.25
    return np.where(t < 0.6, dip, REST + rise * np.exp(-decrement * x) * np.cos(2.0 * np.pi * x))


def made(rate=200.0, noise=0.0, seed=1, drift=0.0, seconds=12.0, rise=RISE, **changes):
    """3 s of rest, then the fall."""
    time = np.arange(0.0, seconds, 1.0 / rate)
    force = np.where(time < 3.0, REST, swinging(time - 3.0, rise)) + drift * time
    force = force + noise * np.random.default_rng(seed).standard_normal(len(time))
    return Log(time=time, force=force, averaging=0.0, name="made", **changes)


def test_one_fall_is_found_with_its_numbers() -> None:
    found = falls_in_log(log=made(noise=5.0))
    assert len(found.falls) == 1
    fall = found.falls[0]
    assert found.rest.level == pytest.approx(REST, abs=1.0)
    assert fall.time == pytest.approx(4.1, abs=0.05)
    assert fall.smooth == pytest.approx(REST + RISE, abs=20.0)
    assert fall.release == pytest.approx(3.0, abs=0.03)
    assert fall.dip == pytest.approx(REST - 0.5 * RISE, abs=20.0)
    assert fall.before == pytest.approx(REST, abs=2.0)
    assert not fall.clipped
    assert found.noticed == ()


@pytest.mark.parametrize("damping", [0.01, 0.04, 0.1])
def test_period_and_decrement_of_a_damped_cosine(damping) -> None:
    """Tops of exp(-d x) cos(2 pi x) all lie the same little before whole periods, so their spacing and ratio are exact."""
    decrement = 2.0 * math.pi * damping / math.sqrt(1.0 - damping**2)
    time = np.arange(0.0, 14.0, 0.005)
    force = np.where(time < 3.0, REST, swinging(time - 3.0, decrement=decrement))
    swing = falls_in_log(log=Log(time=time, force=force), least_rise=0.02).falls[0].swing
    assert swing.turns >= 3
    assert swing.period == pytest.approx(PERIOD, rel=1e-3)
    assert swing.decrement == pytest.approx(decrement, rel=0.02)
    assert swing.damping == pytest.approx(damping, rel=0.02)
    assert swing.frequency == pytest.approx(1.0 / PERIOD, rel=1e-3)


def test_uncertainties_cover_what_they_should() -> None:
    """60 noisy logs: rest, top, period and decrement lie within 1.645 of their uncertainties as often as 90 % allows."""
    hits = dict.fromkeys(("rest", "top", "period", "decrement"), 0)
    clean = falls_in_log(log=made()).falls[0]
    for seed in range(60):
        found = falls_in_log(log=made(noise=20.0, seed=seed))
        fall = found.falls[0]
        pairs = {
            "rest": (found.rest.level - REST, found.rest.error),
            "top": (fall.smooth - clean.smooth, fall.smooth_error),
            "period": (fall.swing.period - clean.swing.period, fall.swing.period_error),
            "decrement": (fall.swing.decrement - clean.swing.decrement, fall.swing.decrement_error),
        }
        for name, (apart, error) in pairs.items():
            assert error > 0.0
            hits[name] += abs(apart) <= 1.645 * error
    fewest = binom.ppf(0.001, 60, 0.9)
    assert all(count >= fewest for count in hits.values()), hits
    assert hits["top"] <= 59
    assert hits["decrement"] <= 59


def test_noise_by_third_differences() -> None:
    noise = 25.0 * np.random.default_rng(2).standard_normal(20000)
    assert noise_of(noise) == pytest.approx(25.0, rel=0.03)
    slow = 4000.0 * np.sin(2.0 * np.pi * 0.4 * np.arange(20000) / 100.0)
    assert noise_of(noise + slow) == pytest.approx(25.0, rel=0.03)
    assert noise_of(slow) < 0.1


@pytest.mark.parametrize("drift", [-8.0, 0.0, 5.0])
def test_drift_is_read_and_told_only_when_it_stands_out(drift) -> None:
    time = np.arange(0.0, 30.0, 0.01)
    force = REST + drift * time + 20.0 * np.random.default_rng(3).standard_normal(len(time))
    found = rest_of(log=Log(time=time, force=force))
    assert abs(found.drift - drift) < 4.0 * found.drift_error
    assert found.drift_error < 0.2
    noticed = falls_in_log(log=Log(time=time, force=force)).noticed
    assert len(noticed) == (0 if drift == 0.0 else 1)
    if drift:
        assert f"the level at rest wanders by {found.drift:+.1f}" in noticed[0]
        assert "a log cannot tell which" in noticed[0]


def test_level_is_that_before_the_fall_where_it_wanders() -> None:
    time = np.arange(0.0, 20.0, 0.01)
    force = np.where(time < 12.0, REST, swinging(time - 12.0)) + 30.0 * time
    fall = falls_in_log(log=Log(time=time, force=force)).falls[0]
    assert fall.before == pytest.approx(REST + 30.0 * 11.5, abs=20.0)


@pytest.mark.parametrize("share, count", [(0.9, 0), (1.1, 1)])
def test_least_rise_is_the_border(share, count) -> None:
    log = made(rise=share * LEAST_RISE * REST)
    assert len(falls_in_log(log=log).falls) == count
    assert len(falls_in_log(log=log, least_rise=0.1).falls) == 1


def test_a_pull_without_going_light_is_no_fall() -> None:
    time = np.arange(0.0, 10.0, 0.01)
    pulled = np.where((time > 4.0) & (time < 6.0), REST + 3000.0 * np.sin(0.5 * np.pi * (time - 4.0)), REST)
    found = falls_in_log(log=Log(time=time, force=pulled))
    assert found.falls == ()
    assert found.noticed == ("a peak of 8.00 kN at 5.00 s without the line going light before: not taken for a fall",)


def two(pause, second, rate=100.0):
    time = np.arange(0.0, 3.0 + pause + 12.0, 1.0 / rate)
    one = np.where(time < 3.0, REST, swinging(time - 3.0, decrement=0.6))
    begin = 3.0 + pause
    return Log(time=time, force=np.where(time < begin, one, swinging(time - begin, second)))


def test_second_fall_after_rest_or_higher_is_another() -> None:
    assert len(falls_in_log(log=two(20.0, 1150.0)).falls) == 2  # after rest, lower than the last top before it
    assert len(falls_in_log(log=two(5.0, 6000.0)).falls) == 2  # no rest, higher
    assert len(falls_in_log(log=two(4.0, 1900.0)).falls) == 1  # no rest, lower: said in the file that it cannot tell


def test_clipped_peak_is_a_lower_bound_and_left_out_of_the_swing() -> None:
    log = made(noise=2.0)
    cut = 8000.0
    held = replace(log, force=np.minimum(log.force, cut), clipped=log.force >= cut)
    fall = falls_in_log(log=held).falls[0]
    assert fall.clipped
    assert fall.missed is None
    assert fall.peak == cut
    assert fall.swing.turns < falls_in_log(log=log).falls[0].swing.turns
    assert fall.swing.decrement == pytest.approx(DECREMENT, rel=0.03)
    words = falls_text(falls_in_log(log=held))
    assert "at least 8.00 kN: clipped, the true peak is higher" in words


def test_parabola_is_exact_for_a_parabola() -> None:
    """F = 900 - 400 (t - 1.03)^2: top 900 N at 1.03 s, bend 800 N/s2; a cell of 10 Hz may miss 800 / 8 * 0.01 = 1 N of it."""
    time = np.arange(0.0, 2.0, 0.1)
    force = 900.0 - 400.0 * (time - 1.03) ** 2
    top = parabola(Log(time=time, force=force), 1.0, 0.45)
    assert (top.time, top.top, top.bend) == (pytest.approx(1.03), pytest.approx(900.0), pytest.approx(800.0))
    assert top.top_error < 1e-6


def test_missed_by_sampling_and_averaging() -> None:
    log = replace(made(rate=50.0), averaging=0.06)
    fall = falls_in_log(log=log).falls[0]
    top = parabola(log, fall.time, 4.0 * log.interval)
    assert fall.missed == pytest.approx(top.bend * (0.02**2 / 8.0 + 0.06**2 / 24.0), rel=1e-9)
    assert fall.missed > 0.0


def test_words_by_hand() -> None:
    found = falls_in_log(log=made(noise=20.0, noticed=("something",)))
    words = falls_text(found)
    lines = words.splitlines()
    assert lines[0].startswith("at rest     5.00")
    assert lines[0].endswith("noise of one sample 20 N")
    assert "falls       1 found; all numbers as recorded with 200 Hz, no averaging" in lines
    peak, smooth = found.falls[0].peak / 1e3, found.falls[0].smooth / 1e3
    assert f"highest sample {peak:.2f} kN, smoothed {smooth:.3f} ± 0.00" in words
    assert "swing: 1.9" in words or "swing: 2.0" in words
    assert "noticed     1 more in reading the file: see log_text" in lines
    assert lines[-3:] == [NO_PEAK, HELD, CAUTION]
    quiet = Log(time=np.arange(300) * 0.01, force=REST + 20.0 * np.random.default_rng(1).standard_normal(300))
    assert "falls       0 found; all numbers as recorded with 100 Hz, averaging not stated" in falls_text(
        falls_in_log(log=quiet)
    )
    short = made(seconds=5.0)
    assert "swing: too few tops to read it" in falls_text(falls_in_log(log=short))
