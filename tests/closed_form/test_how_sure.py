"""Falls over ranges against single falls at values known in advance; what cannot be computed; interruptions."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import brentq

import linelib.studies.many_cases as under_test
from linelib import fall, webbings
from linelib.studies.how_sure import HowSure, how_sure
from linelib.studies.lesson_unsure import unsure_setup
from linelib.studies.many_cases import Refused, compute_cases
from linelib.studies.ranges import Normal, OneOf, Uniform

TABLE = webbings()
FIXED = {"leash_length": 1.5, "standing_height": 1.0, "pretension": 3e3}


def setup_at(case):
    return unsure_setup(case, table=TABLE)


def peak(mass):
    one = fall(setup=setup_at({**FIXED, "mass": mass}))
    return max(one.peak_tension_a, one.peak_tension_b)


def test_one_unknown_moves_the_peak_one_way_so_quantiles_are_single_falls():
    """The peak rises with the mass: 5 % of the peaks lie under that of the mass below which 5 % of the masses lie. Each of the
    scrambles has one mass in every 128th of the range, 0.3 kg: so close the quantiles have to be, and 1 kg is 40 N."""
    found = how_sure(inputs={**FIXED, "mass": Uniform(low=60.0, high=100.0)}, setup_at=setup_at, count=1024)
    spread = found.spread("anchor")
    assert [spread.low, spread.median, spread.high] == pytest.approx([peak(62.0), peak(80.0), peak(98.0)], rel=2e-3)
    assert found.evenly("anchor", count=4) == pytest.approx([peak(m) for m in (65.0, 75.0, 85.0, 95.0)], rel=2e-3)
    assert (found.asked, found.computed, found.refused, found.not_computed) == (1024, 1024, (), "")


def test_share_above_a_limit_is_that_of_the_masses_beyond_one_mass():
    """The mass that just reaches the limit is found by single falls; the share is that of the heavier ones."""
    found = how_sure(inputs={**FIXED, "mass": Normal(mean=80.0, sd=8.0)}, setup_at=setup_at, count=1024)
    limit = 11.6e3
    just = brentq(lambda mass: peak(mass) - limit, 60.0, 110.0, xtol=0.01)
    share = found.share("anchor", limit)
    heavier = 1.0 - float(np.mean(Normal(mean=80.0, sd=8.0).at((np.arange(4000) + 0.5) / 4000) < just))
    assert 0.1 < heavier < 0.5
    assert share.share == pytest.approx(heavier, abs=0.004)
    assert share.interval[0] <= heavier <= share.interval[1]


def test_a_list_gives_its_values_in_their_shares():
    """Three quarters of the falls are on a leash of 1.2 m: the quarter on 1.8 m, and nothing else, is above one of them."""
    inputs = {**FIXED, "mass": 80.0, "leash_length": OneOf(values=(1.2, 1.8), weights=(3.0, 1.0))}
    found = how_sure(inputs=inputs, setup_at=setup_at, count=64, scrambles=4)
    values = np.unique(np.round(found.values["anchor"], 3))
    assert len(values) == 2
    assert found.share("anchor", float(values.mean())).share == 0.25


def test_outcomes_are_those_of_the_falls():
    inputs = {**FIXED, "mass": Uniform(low=79.0, high=81.0), "position": 0.3}
    found = how_sure(inputs=inputs, setup_at=setup_at, count=16, scrambles=2)
    one = fall(setup=setup_at({**FIXED, "mass": 80.0, "position": 0.3}))
    middle = {name: float(np.median(values)) for name, values in found.values.items()}
    wanted = {"anchor": max(one.peak_tension_a, one.peak_tension_b), "person": one.peak_leash_force, "lowest": one.lowest_point}
    assert middle == {name: pytest.approx(value, rel=0.01) for name, value in wanted.items()}


def test_what_is_refused_is_counted_and_shares_are_of_the_rest():
    """Leash from 1 to 2 m, tie-in at 1.25 m: a quarter of the cases stand higher than their leash is long."""
    inputs = {"mass": 80.0, "pretension": 3e3, "standing_height": 1.25, "leash_length": Uniform(low=1.0, high=2.0)}
    found = how_sure(inputs=inputs, setup_at=setup_at, count=128)
    assert (found.asked, found.computed) == (128, 96)
    (why,) = found.refused
    assert (why.what, why.count) == ("standing_height", 32)
    assert why.example.startswith("standing_height = 1.25 is not possible; allowed: from 0 to the leash's length, 1.")
    words = "32 of 128 cases cannot be computed (32 for standing height): shares are of the other 96."
    assert found.not_computed == words
    middle = fall(setup=setup_at({**inputs, "leash_length": 1.625}))
    assert found.spread("anchor").median == pytest.approx(middle.peak_tension_a, rel=3e-3)
    assert found.share("anchor", middle.peak_tension_a).share == pytest.approx(0.5, abs=0.02)
    assert np.bincount(found.scramble).tolist() == [12] * 8


def refusing(monkeypatch, impossible):
    """Falls that refuse a batch which holds an impossible mass, as a fall in time would."""
    real, asked = under_test.falls, []

    def falls(*, setups):
        asked.append(len(setups))
        for setup in setups:
            if setup.walker.mass in impossible:
                raise ValueError(f"ledger of {setup.walker.mass:g} kg did not close")
        return real(setups=setups, duration=0.05)

    monkeypatch.setattr(under_test, "falls", falls)
    return asked


def test_a_refused_fall_is_found_in_its_batch_and_the_others_stay(monkeypatch):
    asked = refusing(monkeypatch, {70.0, 90.0})
    masses = [60.0 + i for i in range(32)]
    found = compute_cases(cases=[{**FIXED, "mass": m} for m in masses], setup_at=setup_at)
    assert found.which.tolist() == [i for i, m in enumerate(masses) if m not in (70.0, 90.0)]
    assert found.refused == (
        Refused(what="ledger of 70 kg did not close", count=1, example="ledger of 70 kg did not close"),
        Refused(what="ledger of 90 kg did not close", count=1, example="ledger of 90 kg did not close"),
    )
    assert max(asked) == 32
    assert len(asked) < 2 * 2 * 6
    monkeypatch.undo()
    alone = [fall(setup=setup_at({**FIXED, "mass": masses[i]}), duration=0.05).lowest_point for i in (0, 31)]
    assert found.values["lowest"][[0, -1]] == pytest.approx(alone)


def test_reasons_come_with_the_commonest_first():
    lengths = [1.2, 0.9, 0.9, 1.2, 0.9]
    cases = [{**FIXED, "mass": 80.0 if i else 1.0, "leash_length": length} for i, length in enumerate(lengths)]
    found = compute_cases(cases=cases, setup_at=setup_at)
    assert [(one.what, one.count) for one in found.refused] == [("standing_height", 3), ("mass", 1)]
    assert found.which.tolist() == [3]


def test_strict_stops_where_the_first_is_refused(monkeypatch):
    """A refused setup: no fall is computed. A refused fall: no chunk after its own."""
    seen = []
    cases = [{**FIXED, "mass": 60.0 + i / 32} for i in range(600)]
    refused = [*cases, {**FIXED, "mass": 1.0}]
    found = compute_cases(cases=refused, setup_at=setup_at, strict=True, progress=lambda done, _: seen.append(done))
    assert (seen, found.asked, len(found.which), found.refused[0].what) == ([], 601, 0, "mass")
    refusing(monkeypatch, {70.0})  # number 320: in the second chunk
    found = compute_cases(cases=cases, setup_at=setup_at, strict=True, progress=lambda done, _: seen.append(done))
    assert (seen, found.asked, len(found.which)) == ([256, 512], 512, 511)
    assert compute_cases(cases=cases, setup_at=setup_at).asked == 600


def test_every_case_refused_is_a_refusal_with_its_reason():
    inputs = {"mass": 80.0, "pretension": 3e3, "standing_height": 1.5, "leash_length": Uniform(low=1.0, high=1.4)}
    with pytest.raises(
        ValueError, match=r"inputs = 'leash_length' is not possible; .* any can be computed; here: standing_height = 1.5"
    ):
        how_sure(inputs=inputs, setup_at=setup_at, count=64)


def test_other_errors_go_through():
    def broken(case):
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        how_sure(inputs={"mass": Uniform(low=1.0, high=2.0)}, setup_at=broken, count=64)


def test_progress_and_interruption():
    """After each chunk of 256; an interruption goes through, leaves nothing behind, and the next run is as any other."""
    inputs, seen = {**FIXED, "mass": Uniform(low=60.0, high=100.0)}, []
    whole = how_sure(inputs=inputs, setup_at=setup_at, count=512, progress=lambda done, total: seen.append((done, total)))
    assert seen == [(256, 512), (512, 512)]

    def stop(done, total):
        seen.append(done)
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        how_sure(inputs=inputs, setup_at=setup_at, count=512, progress=stop)
    assert seen[2:] == [256]
    again = how_sure(inputs=inputs, setup_at=setup_at, count=512)
    assert isinstance(again, HowSure)
    assert np.array_equal(again.values["anchor"], whole.values["anchor"])


def test_same_seed_same_cases_another_seed_others():
    inputs = {**FIXED, "mass": Uniform(low=60.0, high=100.0)}
    one, same, other = (how_sure(inputs=inputs, setup_at=setup_at, count=16, scrambles=2, seed=s) for s in (1, 1, 2))
    assert np.array_equal(one.values["lowest"], same.values["lowest"])
    assert not np.array_equal(one.values["lowest"], other.values["lowest"])
    assert one.scramble.tolist() == [0] * 8 + [1] * 8
