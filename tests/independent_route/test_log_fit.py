"""Fits to logs whose truth is known: coverage of the intervals, the interval by another way, bounds, and what is not told."""

from __future__ import annotations

import functools
from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import binom, norm

from linelib.cautions import CAUTION
from linelib.models.fall_in_time import fall
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.log_falls import falls_in_log
from linelib.studies.log_file import Log, example_log
from linelib.studies.log_fit import USUAL, fit_log
from linelib.studies.log_fit_words import DAMPING, MODEL, fit_text, not_told
from linelib.studies.log_model import SETTINGS, changed, recorded, setting_of
from linelib.studies.log_problem import MOST, together_of

TRUTH = {"stiffness": 0.9, "pretension": 2700.0, "leash_damping": 400.0}
RATE, NOISE, WINDOW, START, LOGS = 50.0, 40.0, 0.05, 1.003, 40


@functools.cache
def clean(rate: float = RATE, window: float = WINDOW) -> tuple[np.ndarray, np.ndarray]:
    """What a cell without noise records of the true fall, by the model that is fitted."""
    at = np.arange(0.0, 5.0, 1.0 / rate)
    setup = changed(lesson_setup(), TRUTH)
    return at, recorded(setups=[setup], starts=[START], at=at, averaging=window)[0]


def noisy(seed: int, noise: float = NOISE, rate: float = RATE) -> Log:
    at, force = clean(rate)
    read = force + noise * np.random.default_rng(seed).standard_normal(len(at))
    return Log(time=at, force=read, averaging=WINDOW, name="made")


def fitted(log: Log, vary=USUAL, **asked):
    found = falls_in_log(log=log)
    asked.setdefault("setup", lesson_setup())
    asked.setdefault("noise", found.rest.noise)
    return fit_log(log=log, fall=found.falls[0], vary=vary, **asked)


def test_truth_is_found_without_noise() -> None:
    at, force = clean()
    fit = fitted(Log(time=at, force=force, averaging=WINDOW), noise=1.0)
    for estimate in fit.estimates:
        assert estimate.value == pytest.approx(TRUTH[estimate.name], rel=2e-3)
    assert fit.start == pytest.approx(START, abs=2e-4)
    assert fit.scatter < 1.0


def test_ninety_percent_intervals_cover() -> None:
    """40 noisy logs; each setting and the start lie inside their 90 % as often as 40 draws with 0.9 allow (0.2 % to both sides
    left out): intervals too narrow fail. Too wide ones fail by how far the settings scatter over their uncertainties."""
    inside = dict.fromkeys((*TRUTH, "start", "peak"), 0)
    apart = {name: [] for name in TRUTH}
    peak = fall(setup=changed(lesson_setup(), TRUTH)).peak_tension_a
    for seed in range(LOGS):
        fit = fitted(noisy(seed))
        for e in fit.estimates:
            inside[e.name] += e.low <= TRUTH[e.name] <= e.high
            apart[e.name].append(np.log(e.value / TRUTH[e.name]) / e.error)
        inside["start"] += abs(fit.start - START) <= 1.645 * fit.start_error
        inside["peak"] += abs(fit.peak - peak) <= 1.645 * fit.peak_error
    low, high = binom.ppf([0.002, 0.998], LOGS, 0.9)
    assert all(low <= count <= high for count in inside.values()), inside
    for name, values in apart.items():
        assert abs(np.mean(values)) < 3.1 / np.sqrt(LOGS), name
        assert 0.65 < np.std(values) < 1.4, name


@pytest.mark.parametrize("name", ["stiffness", "pretension"])
def test_interval_by_the_profile(name) -> None:
    """Held one standard uncertainty away, the others fitted again: the sum of squares grows by its scatter squared."""
    log = noisy(3)
    fit = fitted(log)
    one = next(e for e in fit.estimates if e.name == name)
    others = tuple(n for n in USUAL if n != name)
    scatter = (fit.scatter / fit.noise) ** 2 * fit.together
    for sign in (-1.0, 1.0):
        held = changed(lesson_setup(), {name: one.value * np.exp(sign * one.error)})
        grown = (fitted(log, vary=others, setup=held).misfit - fit.misfit) / scatter
        assert grown == pytest.approx(1.0, abs=0.15)


def test_interval_holds_ninety_percent_of_a_normal_distribution() -> None:
    for e in fitted(noisy(4)).estimates:
        assert np.log(e.high / e.value) / e.error == pytest.approx(norm.ppf(0.95), rel=1e-4)
        assert np.log(e.value / e.low) / e.error == pytest.approx(norm.ppf(0.95), rel=1e-4)


def test_uncertainties_come_from_the_scatter_not_from_the_noise_told() -> None:
    log = noisy(4)
    right, told = fitted(log, noise=NOISE), fitted(log, noise=0.5 * NOISE)
    assert told.scatter == pytest.approx(right.scatter, rel=1e-3)
    assert told.scatter == pytest.approx(NOISE, rel=0.15)
    assert [e.error for e in told.estimates] == pytest.approx([e.error for e in right.estimates], rel=0.02)
    assert told.peak_error == pytest.approx(right.peak_error, rel=0.02)


def test_start_of_the_fit_does_not_matter() -> None:
    log = noisy(5)
    near = fitted(log)
    far = fitted(log, setup=changed(lesson_setup(), {"pretension": 4000.0, "leash_damping": 1000.0, "mass": 80.0}))
    for one, other in zip(near.estimates, far.estimates, strict=True):
        assert one.value == pytest.approx(other.value, rel=0.1 * one.error + 1e-5)


def test_clipped_samples_count_as_bounds() -> None:
    """Cut at 7.5 kN, the fit still finds the truth and the true peak, less surely; taken for readings they would mislead."""
    log, cut = noisy(7), 7500.0
    held = replace(log, force=np.minimum(log.force, cut), clipped=log.force >= cut)
    whole, fit = fitted(log), fitted(held)
    left = (fit.modelled - fit.part.force) / fit.noise
    assert fit.misfit == pytest.approx(np.sum(np.where(fit.part.clipped, np.minimum(left, 0.0), left) ** 2))
    assert left[fit.part.clipped].max() > 20.0  # the model goes far above the cell's end, and that costs nothing
    for e in fit.estimates:
        assert abs(np.log(e.value / TRUTH[e.name])) < 3.0 * e.error, e.name
    assert abs(fit.peak - whole.peak) < 3.0 * np.hypot(fit.peak_error, whole.peak_error)
    assert fit.peak > cut + 1000.0
    assert fit.estimates[0].error > whole.estimates[0].error
    naive = fitted(replace(held, clipped=np.zeros(len(held.time), dtype=bool)))
    assert naive.peak < 0.97 * fit.peak


def test_forgotten_averaging_biases_the_peak() -> None:
    """The same log, its window of 0.3 s not stated: the fit takes the low readings for the truth."""
    at, force = clean(RATE, 0.3)
    log = Log(time=at, force=force, averaging=0.3)
    known, unknown = (fitted(one, noise=10.0) for one in (log, replace(log, averaging=None)))
    true = fall(setup=changed(lesson_setup(), TRUTH)).peak_tension_a
    assert known.peak == pytest.approx(true, rel=1e-3)
    assert unknown.peak < 0.99 * true
    assert "averaging not stated" in fit_text(unknown, replace(log, averaging=None))


def test_anchor_b_is_fitted_with_anchor_b() -> None:
    setup = lesson_setup(position=0.2)
    at = np.arange(0.0, 5.0, 0.02)
    force = recorded(setups=[setup], starts=[START], at=at, averaging=0.0, anchor="b")[0]
    log = Log(time=at, force=force, averaging=0.0)
    right, wrong = (fitted(log, setup=setup, anchor=a, noise=5.0, vary=("stiffness", "pretension")) for a in "ba")
    assert right.scatter < 1.0
    assert wrong.scatter > 30.0
    assert any("the misfit is" in words for words in not_told(wrong))


def test_what_cannot_be_told_apart_is_named() -> None:
    """A log that ends before the peak, and three questions about stiffness: they do each other's work."""
    fit = fitted(noisy(1), vary=("stiffness", "pretension", "faster"), seconds=1.1)
    r = fit.correlation
    assert r[0, 1] < -0.95
    assert r[0, 2] < -0.95
    more = "more of one and less of the other fits as well"
    said = not_told(fit)
    assert said[:2] == (
        f"stiffness of the webbing and pretension cannot be told apart (correlation {r[0, 1]:+.2f}): {more}",
        "stiffness of the webbing and extra stiffness when pulled fast cannot be told apart "
        f"(correlation {r[0, 2]:+.2f}): {more}",
    )
    true = fall(setup=changed(lesson_setup(), TRUTH)).peak_tension_a
    assert abs(fit.peak - true) < 3.0 * fit.peak_error  # of the whole fall, though the log ends before its peak
    assert float(fit.part.force.max()) < 0.9 * true
    longer = fitted(noisy(1), vary=("stiffness", "pretension", "faster"), seconds=3.5)
    assert not any("told apart" in words for words in not_told(longer))
    assert longer.estimates[0].error < 0.5 * fit.estimates[0].error
    both = replace(fit, correlation=np.abs(r))
    assert not_told(both)[0].endswith(f"(correlation {-r[0, 1]:+.2f}): more of both fits as well")


def test_condition_number_and_correlation_by_hand() -> None:
    fit = fitted(noisy(2))
    assert np.diag(fit.correlation) == pytest.approx(np.ones(4))
    assert fit.correlation == pytest.approx(fit.correlation.T, abs=1e-9)
    # columns of unit length: their product is the inverse of the correlation's, up to scale; condition is its root
    inverse = np.linalg.inv(fit.correlation)
    scale = 1.0 / np.sqrt(np.diag(inverse))
    product = inverse * np.outer(scale, scale)
    assert fit.condition == pytest.approx(np.sqrt(np.linalg.cond(product)), rel=1e-4)


def test_together_of_independent_and_of_carried_on_residuals() -> None:
    """A series x_t = a x_{t-1} + noise has 1 + 2 (a + a^2 + ...) = (1 + a) / (1 - a): 3 for a = 0.5."""
    noise = np.random.default_rng(1).standard_normal(40000)
    assert together_of(noise) == pytest.approx(1.0, abs=0.05)
    carried = np.zeros(40000)
    for i in range(1, 40000):
        carried[i] = 0.5 * carried[i - 1] + noise[i]
    assert together_of(carried) == pytest.approx(3.0, rel=0.1)
    assert together_of(np.zeros(50)) == 1.0


def test_settings_go_in_and_come_out() -> None:
    setup = lesson_setup(insert_length=5.0)
    for name in SETTINGS:
        value = 1.3 * setting_of(setup, name)
        again = changed(setup, {name: value})
        assert setting_of(again, name) == (1.0 if name == "stiffness" else pytest.approx(value))
    stiff = changed(setup, {"stiffness": 2.0})
    for old, new in zip(setup.rig.segments, stiff.rig.segments, strict=True):
        assert new.webbing.tension == pytest.approx([2.0 * t for t in old.webbing.tension])
        assert new.webbing.strain == old.webbing.strain


def test_progress_is_called_and_may_stop_the_fit() -> None:
    seen = []
    fitted(noisy(1), progress=lambda done, total: seen.append((done, total)))
    assert [done for done, _ in seen] == list(range(1, len(seen) + 1))
    assert {total for _, total in seen} == {MOST}

    def stop(done, total):
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        fitted(noisy(1), progress=stop)


def test_words_by_hand() -> None:
    log = example_log("clipped_fall")
    fit = fitted(log, setup=lesson_setup(length=70.0, insert_length=5.0, position=0.4))
    lines = fit_text(fit, log).splitlines()
    count = int(fit.part.clipped.sum())
    assert lines[0] == (
        f"used        {len(fit.part.time)} samples of clipped_fall.csv, 200 Hz, each the mean of 2 ms, anchor A, "
        f"{count} of them clipped and used as bounds"
    )
    e = fit.estimates[1]
    assert lines[2] == (
        f"fitted      pretension, nobody on the line: {e.value / 1e3:.2f} kN (90 %: {e.low / 1e3:.2f} to {e.high / 1e3:.2f})"
    )
    peak = f"{fit.peak / 1e3:.2f} ± {max(fit.peak_error / 1e3, 0.01):.2f} kN"
    assert f"{peak} in the fitted fall, if the model is right" in lines[6]
    assert lines[-3:] == [f"model       {MODEL}", f"model       {DAMPING}", CAUTION]
    sure = fitted(noisy(1), vary=("stiffness", "pretension"))
    assert "not told    nothing of what was asked; what was believed is not tested" in fit_text(sure, noisy(1))
    assert DAMPING not in fit_text(sure, noisy(1))
    other = fitted(noisy(1), vary=("faster",))
    e = other.estimates[0]
    assert f"fast ratio - 1: {e.value:.3f} (90 %: {e.low:.4f} to {e.high:.3f})" in fit_text(other, noisy(1))
    end = replace(sure, estimates=(replace(sure.estimates[0], at_end=True), replace(sure.estimates[1], error=0.31)))
    assert not_told(end) == (
        "pretension is not told: 31 % uncertain",
        "stiffness of the webbing ran to the end of what was allowed: not a result",
    )
    bad = replace(sure, condition=31.0, scatter=4.0 * sure.noise)
    assert not_told(bad) == (
        "the questions nearly repeat each other (condition number 31): ask fewer, or record longer",
        "the misfit is 4.0 times the noise: the model, or what was believed, is not this fall",
    )
