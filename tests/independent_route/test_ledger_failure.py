"""The energy ledger of a fall whose main line parts: it closes, nobody gives back what was lost, and what the break gave up is
booked once and never negative. Refusals that name extra_length are allowed: a backup too short for the rig drawn.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import fields, replace

import numpy as np
import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from linelib import Backup, Failure, fall, falls, hang
from tests.independent_route.test_ledger import LOST, fall_energy_of, walker_and_leash_again
from tests.random_setups import ROWS, setups
from tests.setups import GRAVITY

DRAW = {"phases": (Phase.explicit, Phase.generate)}
BOOKED = (*LOST, "lost_break")


@st.composite
def failing(draw):
    """A setup of tests/random_setups.py, 20 to 300 m, whose main line parts in some bay."""
    moderate = setups().filter(lambda s: 20.0 <= s.rig.span <= 300.0)
    setup = draw(moderate)
    joints = draw(st.sampled_from([(), (0.5,), (0.3, 0.7), (0.25, 0.45, 0.8)]))
    extra = draw(st.floats(0.06, 0.15)) * setup.rig.span / (len(joints) + 1)
    backup = Backup(webbing=draw(st.sampled_from(ROWS)), joints=joints, extra_length=extra)
    time = draw(st.floats(0.0, 1.5))
    failure = Failure(bay=draw(st.integers(0, len(joints))), time=time)
    rig = replace(setup.rig, backup=backup, hung_mass_per_length=0.05)
    if rig.slip_load_a is not None:
        weight = (setup.walker.mass + setup.leash.ring_mass) * GRAVITY
        rig = replace(rig, slip_load_a=1.3 * hang(rig=rig, load=weight, position=setup.walker.position).tension_a)
    return replace(setup, rig=rig, failure=failure)


def caught(setup):
    """The fall, or None when it is refused for an extra length that is too short."""
    try:
        return fall(setup=setup)
    except ValueError as refusal:
        if not str(refusal).startswith(f"extra_length = {setup.rig.backup.extra_length!r} "):
            raise
        return None


def check_ledger(result, setup):
    energy, ledger = fall_energy_of(result, setup), result.ledger
    total = sum(getattr(ledger, f.name) for f in fields(ledger) if f.name != "time")
    gap = np.abs(total - total[0]).max() / energy
    assert gap <= 0.005
    for name in BOOKED:
        lost = getattr(ledger, name)
        assert lost[0] == 0.0
        back = (np.maximum.accumulate(lost) - lost).max() / energy
        assert back <= 0.005, name
        gap = max(gap, back)
    assert result.ledger_error == pytest.approx(gap, rel=1e-6, abs=1e-9)
    kinetic, spring = walker_and_leash_again(result, setup)
    assert ledger.kinetic_walker[1:] == pytest.approx(kinetic, rel=1e-6, abs=1e-9 * energy)
    assert ledger.strain_leash[1:] == pytest.approx(spring, rel=1e-6, abs=1e-9 * energy)


def check_break(result, setup):
    """Given up in one entry, that of the step after the failure; the walker is caught afterwards."""
    lost, at = result.ledger.lost_break, round(result.failure_time / result.time[1])
    assert setup.failure.time <= result.failure_time <= setup.failure.time + 1.01 * result.time[1]
    assert np.all(lost[: at + 1] == 0.0)
    assert np.all(lost[at + 1 :] == lost[-1])
    assert lost[-1] >= 0.0
    assert result.catch_leash_force > setup.walker.mass * GRAVITY
    numbers = [result.catch_tension_a, result.catch_tension_b, result.lowest_point]
    assert np.all(np.isfinite(numbers))
    assert result.catch_tension_a <= result.peak_tension_a
    assert result.catch_tension_b <= result.peak_tension_b


def test_it_closes_and_losses_never_come_back():
    """60 falls; of those drawn at most a third are refused."""
    seen = Counter()

    @settings(max_examples=60, **DRAW)
    @given(failing())
    def one(setup):
        result = caught(setup)
        seen[result is None] += 1
        if result is not None:
            check_ledger(result, setup)
            check_break(result, setup)

    one()
    assert seen[False] >= 40, seen
    assert 3 * seen[True] <= seen.total(), seen


def test_a_batch_is_its_falls():
    """All to 2 %, nearly all to 1e-8: where a slack line snaps taut, rounding grows, and array sums round otherwise."""
    seen = Counter()

    @settings(max_examples=6, **DRAW)
    @given(st.lists(failing(), min_size=3, max_size=5))
    def one(many):
        kept = [(setup, result) for setup in many if (result := caught(setup)) is not None]
        if not kept:
            return
        batch = falls(setups=[setup for setup, _ in kept])
        for i, (_, alone) in enumerate(kept):
            names = ("lowest_point", "failure_time", "catch_tension_a", "catch_tension_b", "catch_leash_force")
            off = max(abs(getattr(batch, n)[i] / getattr(alone, n) - 1.0) for n in names if getattr(alone, n) > 0.0)
            assert off <= 0.02
            seen[off <= 1e-8] += 1

    one()
    assert seen[True] >= 4 * seen[False], seen
