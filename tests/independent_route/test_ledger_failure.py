"""The energy ledger of a fall whose main line parts: it closes, nobody gives back what was lost, and what the break gave up is
booked once and never negative. Refusals that name extra_length are allowed: a backup too short for the rig drawn.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from linelib import Backup, Failure, Tear, fall, falls, hang
from tests.independent_route.test_ledger import DRAW, a_touch_lighter, check_ledger
from tests.random_setups import ROWS, setups
from tests.setups import GRAVITY

SHORT = st.floats(0.001, 0.05)  # m
NAMES = ("lowest_point", "failure_time", "catch_tension_a", "catch_tension_b", "catch_leash_force", "slip_a", "slip_b")


@st.composite
def failing(draw):
    """A setup of tests/random_setups.py, 20 to 300 m, whose main line parts in some bay; three in four at B, later, after
    webbing has torn in the lock there."""
    moderate = setups().filter(lambda s: 20.0 <= s.rig.span <= 300.0)
    setup = draw(moderate)
    joints = draw(st.sampled_from([(), (0.5,), (0.3, 0.7), (0.25, 0.45, 0.8)]))
    extra = draw(st.floats(0.06, 0.15)) * setup.rig.span / (len(joints) + 1)
    backup = Backup(webbing=draw(st.sampled_from(ROWS)), joints=joints, extra_length=extra)
    time = draw(st.floats(0.0, 1.5))
    failure = Failure(bay=draw(st.integers(0, len(joints))), time=time)
    rig = replace(setup.rig, backup=backup, hung_mass_per_length=0.05)
    standing = hang(rig=rig, load=(setup.walker.mass + setup.leash.ring_mass) * GRAVITY, position=setup.walker.position)
    if rig.slip_load_a is not None:
        rig = replace(rig, slip_load_a=1.3 * standing.tension_a)
    if draw(st.integers(0, 3)) > 0:
        ups, outs = draw(st.tuples(st.floats(1.08, 1.2), st.floats(1.02, 1.2))), draw(st.tuples(SHORT, SHORT))
        tensions = standing.tension_b * np.cumprod(ups)
        tears = tuple(Tear(tension=float(t), length=out) for t, out in zip(tensions, outs, strict=True))
        failure = replace(failure, bay=len(joints), time=time + 1.3, tears=tears)
        rig = rig if joints else replace(rig, slip_load_a=None)
    return replace(setup, rig=rig, failure=failure)


def caught(setup):
    """The fall, or None when it is refused for an extra length that is too short."""
    try:
        return fall(setup=setup)
    except ValueError as refusal:
        if not str(refusal).startswith(f"extra_length = {setup.rig.backup.extra_length!r} "):
            raise
        return None


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
    seen, torn = Counter(), Counter()

    @settings(max_examples=60, **DRAW)
    @given(failing())
    def one(setup):
        result = caught(setup)
        seen[result is None] += 1
        if result is not None:
            check_ledger(result, setup)
            check_break(result, setup)
            torn[bool(setup.failure.tears) and result.slip_b > 0.0] += 1

    one()
    assert seen[False] >= 40, seen
    assert 3 * seen[True] <= seen.total(), seen
    assert torn[True] >= 5, torn


def test_a_batch_is_its_falls():
    """To 1e-8; where rounding grows, since a slack line snaps taut (a walker lighter by one part in 1e12 shows it), to 2 %, a
    tension to 2 % of the highest of that fall."""
    seen = Counter()

    @settings(max_examples=6, **DRAW)
    @given(st.lists(failing(), min_size=3, max_size=5))
    def one(many):
        kept = [(setup, result) for setup in many if (result := caught(setup)) is not None]
        if not kept:
            return
        batch = falls(setups=[setup for setup, _ in kept])
        for i, (setup, alone) in enumerate(kept):
            near = fall(setup=a_touch_lighter(setup))
            grows = any(abs(getattr(near, n) - getattr(alone, n)) > 1e-10 * abs(getattr(alone, n)) for n in NAMES)
            for name in NAMES:
                apart = abs(getattr(batch, name)[i] - getattr(alone, name))
                peak = max(alone.peak_tension_a, alone.peak_tension_b) if "tension" in name else getattr(alone, name)
                assert apart <= (0.02 * peak if grows else 1e-8 * getattr(alone, name)), name
            seen[grows] += 1

    one()
    assert seen[False] >= 2 * seen[True], seen
