"""First-order and total indices against functions whose variances are known by hand."""

from __future__ import annotations

import numpy as np
import pytest

from linelib import webbings
from linelib.studies.lesson_unsure import unsure_setup
from linelib.studies.ranges import Uniform
from linelib.studies.what_matters import design, indices, what_matters

TABLE = webbings()


def ranked(function, names, *, count=2048, seed=5):
    """Indices of a function of points from 0 to 1, by name."""
    values = function(design(dimensions=len(names), count=count, seed=seed))
    found = indices(names=names, base=values[:2], mixed=values[2:])
    return {one.name: one for one in found}


def test_a_sum_with_known_variances():
    """f = 3 x + 2 y + z: variances 9, 4 and 1 twelfths: 9/14, 4/14, 1/14, first order and total alike; largest first."""
    found = ranked(lambda p: p @ np.array([3.0, 2.0, 1.0]) + 50.0, ("x", "y", "z"))
    assert list(found) == ["x", "y", "z"]
    for name, wanted in zip("xyz", (9 / 14, 4 / 14, 1 / 14), strict=True):
        assert found[name].first == pytest.approx(wanted, abs=3e-3)
        assert found[name].total == pytest.approx(wanted, abs=3e-3)


def test_a_product_acts_only_together():
    """f = x y, both of mean 0 and variance s: each alone moves nothing, and each is needed for all of it: 0 and 1."""
    found = ranked(lambda p: (p[..., 0] - 0.5) * (p[..., 1] - 0.5), ("x", "y"))
    for one in found.values():
        assert one.first == pytest.approx(0.0, abs=0.01)
        assert one.total == pytest.approx(1.0, abs=0.01)


def test_a_product_of_means_other_than_zero():
    """f = x y, x from 0 to 1, y from 0 to 1: S = (1/4 * 1/12) / (1/9 - 1/16) = 3/7 each, total 4/7."""
    found = ranked(lambda p: p[..., 0] * p[..., 1], ("x", "y"))
    for one in found.values():
        assert one.first == pytest.approx(3 / 7, abs=5e-3)
        assert one.total == pytest.approx(4 / 7, abs=5e-3)


def test_what_does_not_act_has_nothing_and_the_order_of_names_means_nothing():
    found = ranked(lambda p: p[..., 1] ** 2 + 0.0 * p[..., 0], ("idle", "acts"))
    assert list(found) == ["acts", "idle"]
    assert found["idle"].total == 0.0
    assert found["idle"].first == pytest.approx(0.0, abs=1e-12)


def test_indices_do_not_depend_on_unit_or_zero():
    plain = ranked(lambda p: p @ np.array([3.0, 2.0]), ("x", "y"))
    moved = ranked(lambda p: 1e3 * (p @ np.array([3.0, 2.0])) - 1e7, ("x", "y"))
    for name in "xy":
        assert moved[name].first == pytest.approx(plain[name].first, abs=1e-9)
        assert moved[name].total_interval == pytest.approx(plain[name].total_interval, abs=1e-9)


def test_design_takes_one_column_from_b():
    a, b, *mixed = design(dimensions=3, count=16, seed=3)
    for i, ab in enumerate(mixed):
        assert np.array_equal(ab[:, i], b[:, i])
        others = [j for j in range(3) if j != i]
        assert np.array_equal(ab[:, others], a[:, others])
    assert not np.any(a == b)


def ishigami(points):
    x = np.pi * (2.0 * points - 1.0)
    return np.sin(x[..., 0]) + 7.0 * np.sin(x[..., 1]) ** 2 + 0.1 * x[..., 2] ** 4 * np.sin(x[..., 0])


def test_bootstrap_intervals_hold_the_true_values_about_as_often_as_they_say():
    """A jagged function, 200 seeds of 256 rows: 95 of 100 times, give or take; intervals half as wide would not."""
    true = {"x": (0.3139, 0.5576), "y": (0.4424, 0.4424), "z": (0.0, 0.2437)}
    held, half = {(name, k): 0 for name in true for k in (0, 1)}, dict.fromkeys([(n, k) for n in true for k in (0, 1)], 0)
    for seed in range(200):
        for name, one in ranked(ishigami, tuple(true), count=256, seed=seed).items():
            for k, (low, high) in enumerate((one.first_interval, one.total_interval)):
                off = abs(true[name][k] - 0.5 * (low + high))
                held[name, k] += off <= 0.5 * (high - low)
                half[name, k] += off <= 0.25 * (high - low)
    assert min(held.values()) >= 0.91 * 200
    assert min(half.values()) < 0.91 * 200


def test_bootstrap_intervals_of_a_smooth_function_are_far_too_wide():
    """Evenly spread points know a sum far better than as many dice: every interval holds, five times as wide as need be."""
    true, found = (9 / 14, 4 / 14, 1 / 14), []
    for seed in range(50):
        one = ranked(lambda p: p @ np.array([3.0, 2.0, 1.0]), ("x", "y", "z"), count=256, seed=seed)
        found.append([(one[n].total, *one[n].total_interval) for n in "xyz"])
    total, low, high = np.array(found).transpose(2, 0, 1)
    assert np.all((low <= true) & (np.array(true) <= high))
    assert np.all((high - low).mean(0) > 5.0 * 2.0 * 1.96 * np.std(total, axis=0))


def test_bootstrap_is_drawing_rows_again():
    """The same draws, done plainly: rows repeated as often as drawn, indices by NumPy's variance, quantiles of 500."""
    values = ishigami(design(dimensions=3, count=64, seed=1)) + 100.0
    found = {one.name: one for one in indices(names=("x", "y", "z"), base=values[:2], mixed=values[2:], seed=9)}
    centred, total = values - values[:2].mean(), []
    for times in np.random.default_rng(9).multinomial(64, np.full(64, 1 / 64), size=500):
        again = np.repeat(centred, times, axis=1)
        total.append(0.5 * ((again[2:] - again[0]) ** 2).mean(1) / again[:2].var())
    for i, name in enumerate("xyz"):
        assert found[name].total_interval == pytest.approx(tuple(np.quantile(np.array(total)[:, i], (0.025, 0.975))), rel=1e-9)


def test_of_one_unknown_all_is_its_own():
    """One unknown alone: first order and total are 1, within what 64 rows can say."""
    fixed = {"leash_length": 1.5, "standing_height": 1.0, "pretension": 3e3}
    inputs = {**fixed, "mass": Uniform(low=60.0, high=100.0)}
    found = what_matters(inputs=inputs, setup_at=lambda case: unsure_setup(case, table=TABLE), count=64)
    assert found.falls == 64 * 3
    for outcome in ("anchor", "person", "lowest"):
        (one,) = found.ranking(outcome)
        assert (one.name, one.first, one.total) == ("mass", pytest.approx(1.0, abs=0.05), pytest.approx(1.0, abs=0.05))


def test_half_the_spread_is_a_quarter_of_the_variance():
    """Two equal levers, one with half the spread: 4/5 and 1/5."""
    found = ranked(lambda p: (p[..., 0] - 0.5) * 2.0 + (p[..., 1] - 0.5), ("whole", "half"))
    assert found["whole"].total / found["half"].total == pytest.approx(4.0, rel=0.01)


def test_interrupted_between_chunks_nothing_is_kept():
    inputs = {"leash_length": 1.5, "standing_height": 1.0, "pretension": 3e3, "mass": Uniform(low=60.0, high=100.0)}
    seen = []

    def stop(done, total):
        seen.append((done, total))
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        what_matters(inputs=inputs, setup_at=lambda case: unsure_setup(case, table=TABLE), count=128, progress=stop)
    assert seen == [(256, 384)]
