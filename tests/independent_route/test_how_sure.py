"""Studies over ranges by other routes: SciPy's own indices and intervals, dice in place of even points, variances of means, and
the full two-dimensional model for what is said of the model's own error.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from linelib import fall, falls, webbings
from linelib.studies.how_sure import MODEL_OFF, how_sure
from linelib.studies.lesson_unsure import FURTHER, unsure_setup
from linelib.studies.ranges import Normal, Triangular, Uniform
from linelib.studies.share_above import share_above
from linelib.studies.what_matters import design, indices, what_matters

from .full_model import full_fall

TABLE = webbings()
INPUTS = {
    "mass": Normal(mean=80.0, sd=5.0),
    "leash_length": Uniform(low=1.3, high=1.7),
    "standing_height": Triangular(low=0.8, mode=1.0, high=1.2),
    "pretension": Uniform(low=2.5e3, high=3.5e3),
}
CENTRE = {"mass": 80.0, "leash_length": 1.5, "standing_height": 1.0, "pretension": 3e3}


def setup_at(case):
    return unsure_setup(case, table=TABLE)


def dice(count, seed):
    """Cases drawn by NumPy's own generators, not by inverse distributions."""
    random = np.random.default_rng(seed)
    columns = {
        "mass": random.normal(80.0, 5.0, count),
        "leash_length": random.uniform(1.3, 1.7, count),
        "standing_height": random.triangular(0.8, 1.0, 1.2, count),
        "pretension": random.uniform(2.5e3, 3.5e3, count),
    }
    return [dict(zip(columns, row, strict=True)) for row in zip(*columns.values(), strict=True)]


def test_dice_give_the_same_distribution():
    """2048 cases by dice: quantiles and a share within 3.3 standard errors of theirs, which even points hardly add to."""
    found = how_sure(inputs=INPUTS, setup_at=setup_at, count=1024)
    many = falls(setups=[setup_at(case) for case in dice(2048, seed=6)])
    thrown = {
        "anchor": np.maximum(many.peak_tension_a, many.peak_tension_b),
        "person": many.peak_leash_force,
        "lowest": many.lowest_point,
    }
    for name, values in thrown.items():
        spread = found.spread(name)
        for level, value in ((0.05, spread.low), (0.5, spread.median), (0.95, spread.high)):
            error = np.sqrt(level * (1.0 - level) / len(values))
            assert abs(np.mean(values < value) - level) < 3.3 * error, (name, level)
    share = found.share("anchor", 11.8e3)
    by_dice = np.mean(thrown["anchor"] > 11.8e3)
    assert abs(share.share - by_dice) < 3.3 * np.sqrt(by_dice * (1 - by_dice) / 2048)
    assert np.ptp(share.interval) < 0.8 * np.ptp(share.independent)


def test_first_order_by_means_of_means():
    """Var(E(Y | X = x)) over Var(Y), by fixing the leash at 16 lengths and averaging 64 falls at each."""
    ranking = what_matters(inputs=INPUTS, setup_at=setup_at, count=512).ranking("anchor")
    leash = next(one for one in ranking if one.name == "leash_length")
    lengths = 1.3 + 0.4 * (np.arange(16) + 0.5) / 16
    cases = [{**case, "leash_length": float(length)} for length in lengths for case in dice(64, seed=9)]
    many = falls(setups=[setup_at(case) for case in cases])
    peaks = np.maximum(many.peak_tension_a, many.peak_tension_b).reshape(16, 64)
    assert leash.first == pytest.approx(peaks.mean(1).var() / peaks.var(), abs=0.06)
    assert sum(one.first for one in ranking) == pytest.approx(1.0, abs=0.05)  # hardly anything acts together here


def test_scipy_has_the_same_indices():
    random = np.random.default_rng(1)
    values = random.normal(size=(5, 64)) + 100.0 * random.random((1, 64))
    base, mixed = values[:2], values[2:]
    theirs = stats.sobol_indices(func={"f_A": base[:1], "f_B": base[1:], "f_AB": mixed[:, None, :]}, n=64)
    ours = {one.name: one for one in indices(names=("a", "b", "c"), base=base, mixed=mixed)}
    assert [ours[n].first for n in "abc"] == pytest.approx(np.ravel(theirs.first_order), rel=1e-9)
    assert [ours[n].total for n in "abc"] == pytest.approx(np.ravel(theirs.total_order), rel=1e-9)


def test_scipy_bootstrap_gives_much_the_same_intervals():
    """SciPy's is bias-corrected and takes no seed: ends within a fifth of the width."""
    values = np.sum(design(dimensions=2, count=256, seed=4) * np.array([3.0, 1.0]), axis=-1)
    theirs = stats.sobol_indices(func={"f_A": values[:1], "f_B": values[1:2], "f_AB": values[2:, None, :]}, n=256)
    ends = theirs.bootstrap(n_resamples=500).total_order.confidence_interval
    ours = {one.name: one for one in indices(names=("0", "1"), base=values[:2], mixed=values[2:])}
    for i in (0, 1):
        low, high = ours[str(i)].total_interval
        within = 0.2 * (high - low)
        assert (low, high) == pytest.approx((float(np.ravel(ends.low)[i]), float(np.ravel(ends.high)[i])), abs=within)


@pytest.mark.parametrize(("above", "of"), [(0, 20), (1, 20), (7, 64), (64, 64), (100, 1024)])
def test_scipy_has_the_same_exact_interval(above, of):
    values = np.where(np.arange(of) < above, 1.0, 0.0)
    found = share_above(values=values, scramble=np.arange(of) % 2, limit=0.5)
    theirs = stats.binomtest(above, of).proportion_ci(confidence_level=0.95, method="exact")
    assert found.independent == pytest.approx((theirs.low, theirs.high), abs=1e-9)


EDGES = {  # the middle of the lesson's line, where every range of the panel begins, and cases at edges of its ranges
    "middle": CENTRE,
    "light, tight": {**CENTRE, "mass": 65.0, "pretension": 5e3, "leash_length": 1.8, "standing_height": 1.1},
    "soft, off the middle": {**CENTRE, "mass": 95.0, "stiffness": 0.8, "leash_stiffness": 1e4, "position": 0.4},
    "stiff": {**CENTRE, "stiffness": 1.2, "leash_stiffness": 3e4, "leash_damping": 100.0, "pretension": 2e3},
}


@pytest.mark.parametrize("name", EDGES)
def test_the_error_of_the_model_is_as_large_as_is_said(name):
    """Reduced against full model, 120 elements: within what the lesson says it may be off."""
    setup = setup_at(EDGES[name])
    ours, full = fall(setup=setup), full_fall(setup=setup, elements=120)
    for a, b in ((ours.peak_tension_a, full.peak_tension_a), (ours.peak_tension_b, full.peak_tension_b)):
        assert abs(a / b - 1.0) <= MODEL_OFF["anchor"]
    assert abs(ours.peak_leash_force / full.peak_leash_force - 1.0) <= MODEL_OFF["person"]
    assert abs(ours.lowest_point / full.lowest_point - 1.0) <= MODEL_OFF["lowest"]


def test_smaller_errors_would_not_have_been_true():
    """In the middle the anchor is off by more than 1 %, the person by more than 5 %."""
    setup = setup_at(CENTRE)
    ours, full = fall(setup=setup), full_fall(setup=setup, elements=120)
    assert ours.peak_tension_a / full.peak_tension_a - 1.0 > 0.5 * MODEL_OFF["anchor"]
    assert ours.peak_leash_force / full.peak_leash_force - 1.0 > 0.4 * MODEL_OFF["person"]


def test_the_further_unknowns_reach_the_setup():
    """Each of them changes the fall; stiffness acts on the main webbing at every stretch, and on the backup not at all."""
    plain = setup_at(CENTRE)
    stiff = setup_at({**CENTRE, "stiffness": 1.2})
    before, after = plain.rig.segments[0].webbing, stiff.rig.segments[0].webbing
    assert after.tension == pytest.approx([1.2 * t for t in before.tension])
    assert after.strain == before.strain
    assert stiff.rig.backup == plain.rig.backup
    for name, given in FURTHER.items():
        moved = [fall(setup=setup_at({**CENTRE, name: float(v)})).peak_leash_force for v in given.at([0.05, 0.5])]
        assert abs(moved[1] / moved[0] - 1.0) > 1e-3, name
