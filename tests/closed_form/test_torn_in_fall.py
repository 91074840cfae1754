"""Webbing that tears in the lock during a fall, against limits known beforehand: never reached, a lock that slips, by hand."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from linelib import Backup, Failure, Rig, Segment, Setup, Tear, fall, falls
from linelib.models.seated_strips import strips_of
from linelib.models.tearing import tear
from linelib.models.torn_in_fall import strips_torn, torn_in_fall
from tests.setups import HMPE, reference_setup, straight

STEP = [0.0] * 5 + [0.01] * 15  # a quarter of the width tight, the rest 10 mm longer
PEAKS = ("peak_tension_a", "peak_tension_b", "peak_leash_force", "lowest_point", "slip_a", "slip_b")
UNREACHED = 1e6


def setup_of(failure: Failure | None, **rig: float) -> Setup:
    """70 m with a backup of two bays; whatever `failure` says."""
    backup = Backup(webbing=HMPE, joints=(0.5,), extra_length=2.0)
    whole = Rig(span=70.0, segments=(Segment(webbing=HMPE),), pretension=3e3, backup=backup, **rig)
    return reference_setup(whole, walker={"position": 0.35}, failure=failure)


def at_b(*tears: tuple[float, float], tension: float = UNREACHED) -> Failure:
    return Failure(bay=1, tension=tension, tears=tuple(Tear(tension=t, length=out) for t, out in tears))


def strips(*, stiffening: float = 1.0):
    """33 kN, breaking strain 3.3 %, over 0.1 m: stretches 3.3 mm, less than the step."""
    return strips_of(webbing=straight(1e6, breaking_strength=33e3), difference=STEP, sharing_length=0.1, stiffening=stiffening)


def test_tears_that_are_not_reached_change_nothing():
    whole, torn = (fall(setup=setup_of(f)) for f in (at_b(), at_b((5e4, 0.1))))
    assert [getattr(torn, n) for n in PEAKS] == [getattr(whole, n) for n in PEAKS]


@pytest.mark.parametrize("many", [1, 3])
def test_a_tear_without_end_is_a_lock_that_slips(many):
    """The same fall, once as a lock that slips at 8 kN and once as webbing that gives up ten metres there."""
    slips = setup_of(Failure(bay=0, tension=UNREACHED), slip_load_b=8e3)
    tears = setup_of(at_b((8e3, 10.0)))
    found = falls(setups=[slips, tears] * many)
    assert found.slip_b[0] > 0.05
    for name in PEAKS:
        assert getattr(found, name)[1::2] == pytest.approx(getattr(found, name)[0::2], rel=1e-9), name
    assert fall(setup=tears).slip_b == pytest.approx(found.slip_b[1], rel=1e-9)


def test_each_tear_gives_up_its_length_once():
    """Of tears at 6, 7 and 20 kN the first two come in a fall that stays below 20; the peak is between the second and the whole
    line's, and both ways to march agree."""
    whole = fall(setup=setup_of(None))
    setup = setup_of(at_b((6e3, 0.03), (7e3, 0.05), (20e3, 1.0)))
    one, batch = fall(setup=setup), falls(setups=[setup, setup_of(None), setup])
    assert one.slip_b == pytest.approx(0.08, rel=1e-12)
    assert 7e3 < one.peak_tension_b < whole.peak_tension_b
    assert one.lowest_point > whole.lowest_point
    assert one.failure_time == -1.0
    for name in PEAKS:
        assert getattr(batch, name)[[0, 2]] == pytest.approx([getattr(one, name)] * 2, rel=1e-9), name
    assert batch.slip_b[1] == 0.0


def test_the_pull_stays_at_the_tear_until_its_length_is_out():
    """1 m at 7 kN takes longer than a step: the tension at B is 7 kN as long as webbing comes out, never more before."""
    result = fall(setup=setup_of(at_b((7e3, 0.2))))
    tension = result.tension_b
    at = np.flatnonzero(tension >= 7e3 - 1e-6)
    stays = at[tension[at] <= 7e3 + 1e-6]
    assert len(stays) >= 3
    assert stays[-1] < int(np.argmax(tension))
    assert np.all(np.diff(stays) == 1)


def test_what_is_torn_takes_energy_and_the_ledger_closes():
    result = fall(setup=setup_of(at_b((6e3, 0.03), (7e3, 0.05))))
    by_hand = 6e3 * 0.03 * 1.006 + 7e3 * 0.05 * 1.007  # pull times length, stretched by 0.6 and 0.7 %
    dashpot = 0.02 * by_hand  # which takes part of the pull
    assert result.ledger.lost_slip[-1] == pytest.approx(by_hand, abs=dashpot + 12.0)  # 12 J: within a step the pull overshoots
    assert result.ledger_error < 0.005


def test_after_the_last_tear_it_parts():
    """Tears at 6 and 7 kN, parts at 7.5: the backup holds what is left, and has lost the length given up."""
    result = fall(setup=setup_of(at_b((6e3, 0.03), (7e3, 0.05), tension=7.5e3)))
    assert result.failure_time > 0.0
    at = round(result.failure_time / result.time[1])
    assert result.tension_b[at] >= 7.5e3
    assert result.tension_b[:at].max() < 7.5e3
    assert result.catch_leash_force > 80.0 * 9.8


def test_stages_of_a_step_by_hand():
    """Five of twenty strips tight tear at a quarter of 33 kN, at 3.3 mm. The rest carries 8.25 kN at 10 mm + 0.1 m x 0.011."""
    failure = torn_in_fall(strips=strips(), bay=1)
    assert failure.bay == 1
    assert failure.tension == pytest.approx(0.75 * 33e3, rel=1e-3)
    (first,) = failure.tears
    assert first.tension == pytest.approx(8.25e3, rel=1e-3)
    assert first.length == pytest.approx(0.010 + 0.1 * 0.011 - 0.0033, rel=2e-3)


def test_a_smooth_skew_has_no_stages():
    """The pull falls from the first tear on: it parts at 1/(2 r) of its strength, r = 2, without a stage."""
    skew = np.linspace(0.0, 0.0066, 400)
    smooth = strips_of(webbing=straight(1e6, breaking_strength=33e3), difference=skew, sharing_length=0.1)
    failure = torn_in_fall(strips=smooth, bay=0)
    assert failure.tears == ()
    assert failure.tension == pytest.approx(33e3 / 4.0, rel=0.01)


def test_fall_after_fall_tears_what_slow_loads_tear():
    """Each fall's peak as a load that comes and goes: the same strips, as models/tearing.py. A hair more than the peak, since a
    fall may spend all it has while the first strips give up their length: then its peak is just what they held."""
    seat, torn, slow = strips(), 0, 0
    for mass in (55.0, 80.0, 100.0):
        setup = setup_of(torn_in_fall(strips=seat, bay=1, torn=torn))
        result = fall(setup=replace(setup, walker=replace(setup.walker, mass=mass)))
        torn = strips_torn(strips=seat, length=result.slip_b, torn=torn)
        (state,) = tear(strips=seat, loads=[result.peak_tension_b * (1.0 + 1e-9)], torn=slow)
        slow = state.torn
        assert torn == slow
    assert torn == 5


@pytest.mark.parametrize(("length", "torn"), [(0.0, 0), (0.0078, 5), (0.5, 5)])
def test_how_many_have_torn(length, torn):
    assert strips_torn(strips=strips(), length=length) == torn
