"""A main line that parts against limits known beforehand: never reached, seen from the other side, rest at the end, and how
much extra length a backup needs, by hand."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq

from linelib import Backup, Failure, Leash, Rig, Segment, Setup, Walker, fall, falls, hang, webbings
from linelib.models.backup_reserve import least_extra_length
from linelib.models.chain import chain_of
from linelib.models.lines import lines_of, place_on_line
from linelib.models.march import march
from tests.setups import GRAVITY, HMPE, one_webbing, reference_setup, straight

POLYAMIDE = webbings()["polyamide_25mm"]
INSERT = (Segment(webbing=straight(6e4, 0.07), length=5.0), Segment(webbing=HMPE))
CURVED = (Segment(webbing=POLYAMIDE, length=5.0), Segment(webbing=HMPE))
MAINS = {"plain": (Segment(webbing=HMPE),), "insert": INSERT, "curved": CURVED}
every_main = pytest.mark.parametrize("main", MAINS.values(), ids=MAINS.keys())
PEAKS = ("peak_tension_a", "peak_tension_b", "peak_leash_force", "lowest_point")
CAUGHT = (*PEAKS, "failure_time", "catch_tension_a", "catch_tension_b", "catch_leash_force")


def setup_of(main=MAINS["plain"], *, failure=None, joints=(0.5,), extra=2.0, backup=HMPE, position=0.35, span=70.0, **rig):
    backup = Backup(webbing=backup, joints=joints, extra_length=extra)
    rig = Rig(span=span, segments=main, pretension=3e3, backup=backup, **rig)
    return reference_setup(rig, walker={"position": position}, failure=failure)


def numbers(result, names=PEAKS):
    return [getattr(result, name) for name in names]


@every_main
def test_a_tension_that_is_never_reached_changes_nothing(main):
    """The same fall as of a line that cannot fail. Straight laws are read from a table then, and the time step may be shorter
    for the backup's sake: within 0.1 %."""
    held = fall(setup=setup_of(main))
    for bay in (0, 1):
        failure = Failure(bay=bay, tension=1.01 * max(held.peak_tension_a, held.peak_tension_b))
        result = fall(setup=setup_of(main, failure=failure))
        assert numbers(result) == pytest.approx(numbers(held), rel=1e-3)
        assert result.time[-1] == pytest.approx(held.time[-1], abs=0.02)
        assert numbers(result, CAUGHT[4:]) == [-1.0, 0.0, 0.0, 0.0]
        assert np.all(result.ledger.lost_break == 0.0)


def test_a_time_after_the_end_changes_nothing():
    held = fall(setup=setup_of(), duration=2.0)
    result = fall(setup=setup_of(failure=Failure(time=5.0)), duration=2.0)
    assert numbers(result) == pytest.approx(numbers(held), rel=1e-6)
    assert result.failure_time == -1.0


def test_without_a_given_duration_a_late_failure_is_waited_for():
    """The walker has turned long before: the fall goes on until the main line parts at 3 s, and the catch."""
    result = fall(setup=setup_of(failure=Failure(time=3.0)))
    assert result.failure_time == pytest.approx(3.0, abs=1.1 * result.time[1])
    assert result.time[-1] > 3.8
    assert result.lowest_point > fall(setup=setup_of()).lowest_point + 1.0
    assert result.catch_tension_a > result.standing_tension_a


def mirrored(setup):
    rig, failure = setup.rig, setup.failure
    joints = tuple(1.0 - j for j in rig.backup.joints[::-1])
    changes = {"height_difference": -rig.height_difference, "segments": rig.segments[::-1]}
    changes |= {"slip_load_a": rig.slip_load_b, "slip_load_b": rig.slip_load_a}
    rig = replace(rig, backup=replace(rig.backup, joints=joints), **changes)
    walker = replace(setup.walker, position=1.0 - setup.walker.position)
    return replace(setup, rig=rig, walker=walker, failure=replace(failure, bay=len(joints) - failure.bay))


@every_main
@pytest.mark.parametrize("bay", [0, 1, 2])
def test_seen_from_the_other_side(main, bay):
    """The bay counted from B in the mirrored rig, on uneven anchors, with a lock that slips first at A."""
    load = 1.2 * fall(setup=setup_of(main, joints=(0.3, 0.6), height_difference=4.0)).standing_tension_a
    failure = Failure(bay=bay, time=1.05)
    one = setup_of(main, failure=failure, joints=(0.3, 0.6), height_difference=4.0, slip_load_a=load)
    seen, other = fall(setup=one), fall(setup=mirrored(one))
    names = ("peak_tension_b", "peak_tension_a", *PEAKS[2:], "failure_time", "catch_tension_b", "catch_tension_a")
    assert numbers(other, (*names, "catch_leash_force")) == pytest.approx(numbers(seen, CAUGHT), rel=1e-6)
    assert other.slip_b == pytest.approx(seen.slip_a, rel=1e-6)
    assert seen.slip_a > 0.0


@every_main
def test_plain_numbers_and_arrays_march_alike(main):
    """One fall is marched in plain numbers, a batch in arrays; beside falls that hold or part elsewhere, at another moment."""
    held = fall(setup=setup_of(main))
    late, load = Failure(bay=1, time=1.2), 0.95 * held.peak_tension_a
    setups = [
        setup_of(main),
        setup_of(main, failure=late, slip_load_b=0.85 * held.peak_tension_b),
        setup_of(main, failure=Failure(tension=load), backup=POLYAMIDE),
        setup_of(main, failure=Failure(time=0.5), slip_load_a=0.9 * held.peak_tension_a),
    ]
    batch = falls(setups=setups, series=True)
    for i, setup in enumerate(setups):
        alone, together = fall(setup=setup), batch.series[i]
        assert numbers(alone, CAUGHT) == pytest.approx(numbers(together, CAUGHT), rel=1e-8)
        assert numbers(alone, CAUGHT) == pytest.approx([getattr(batch, name)[i] for name in CAUGHT], rel=1e-8)
        for name in ("time", "tie_in_z", "ring_x", "tension_a", "tension_b", "leash_force", "line_z"):
            assert getattr(alone, name) == pytest.approx(getattr(together, name), rel=1e-8, abs=1e-6), name
        assert alone.ledger.lost_break == pytest.approx(together.ledger.lost_break, rel=1e-8)
    assert (batch.failure_time >= 0.0).tolist() == [False, True, True, True]
    assert batch.slip_b[1] > 0.0


@every_main
@pytest.mark.parametrize("bay", [0, 1])
def test_a_quarter_of_the_time_step_changes_little(main, bay):
    """Anchors in the catch within 4 %, found up to 3.6 %, lowest point within 0.5 %: a line that snaps taut is less forgiving
    than one that stays taut. It parts at the same moment, at the end of a coarse step."""
    step = float(chain_of([setup_of(main, failure=Failure(bay=bay, time=1.0))]).step[0])
    setups, found = [setup_of(main, failure=Failure(bay=bay, time=round(1.0 / step) * step - 1e-9))], []
    for refine in (1.0, 4.0):
        run = march(chain=chain_of(setups, refine=refine), setups=setups, duration=2.5)
        after = run.pull[int(run.broke[0]) + 1 :, :, 0]
        found.append([*after.max(0), -run.places[:, -1, 0].min()])
    assert found[0][:2] == pytest.approx(found[1][:2], rel=4e-2)
    assert found[0][2] == pytest.approx(found[1][2], rel=5e-3)


@every_main
@pytest.mark.parametrize("failure", [Failure(time=0.5), Failure(bay=1, time=1.0), Failure(time=1.0)])
def test_the_fall_does_not_end_before_its_peaks(main, failure):
    """Followed for 1.5 s more, no peak is higher and nothing lies lower."""
    ended = fall(setup=setup_of(main, failure=failure))
    longer = fall(setup=setup_of(main, failure=failure), duration=ended.time[-1] + 1.5)
    assert numbers(longer, CAUGHT) == pytest.approx(numbers(ended, CAUGHT), rel=1e-9)


def test_it_parts_at_the_time_or_the_tension_that_comes_first():
    held = fall(setup=setup_of())
    load = 0.9 * held.peak_tension_a
    at = int(np.argmax(np.maximum(held.tension_a, held.tension_b) >= load))
    by_tension = fall(setup=setup_of(failure=Failure(tension=load)))
    assert by_tension.failure_time == pytest.approx(held.time[at], abs=1e-9)
    assert by_tension.tension_a[: at + 1] == pytest.approx(held.tension_a[: at + 1], rel=1e-6)
    assert min(by_tension.tension_a[at + 1], by_tension.tension_b[at + 1]) == 0.0  # both sides have a part of this bay
    assert fall(setup=setup_of(failure=Failure(tension=load, time=9.0))).failure_time == by_tension.failure_time
    early = fall(setup=setup_of(failure=Failure(tension=load, time=0.4)))
    assert 0.4 <= early.failure_time < 0.4 + 1.01 * early.time[1]


def test_a_bay_without_the_ring_leaves_the_other_side_as_it_is():
    """Walker at 0.35, bay from the middle to B: side B goes slack at once, side A only as the ring gives way."""
    result = fall(setup=setup_of(failure=Failure(bay=1, time=1.0)))
    at = round(result.failure_time / result.time[1])
    assert result.tension_b[at + 1] == 0.0
    assert result.tension_a[at + 1] > 0.5 * result.tension_a[at] > 0.0


def test_the_catch_begins_when_the_backup_is_taut():
    """Near the peak the bay at B parts. Anchor A still has the peak's tension for a moment: that is not the catch's."""
    held = fall(setup=setup_of())
    result = fall(setup=setup_of(failure=Failure(bay=1, time=1.25)))
    just_after = round(result.failure_time / result.time[1]) + 1
    assert result.tension_a[just_after] > 0.9 * held.peak_tension_a
    slack = just_after + int(np.argmax(result.tension_b[just_after:] <= 0.0))
    taut = slack + int(np.argmax(result.tension_b[slack:] > 0.0))
    assert just_after <= slack < taut
    assert result.catch_tension_a == result.tension_a[taut:].max() < 0.9 * held.peak_tension_a


def test_more_extra_length_is_a_longer_fall():
    """By more than the extra length itself, from 1 to 4 m; and a harder catch on the person."""
    extra = np.array([1.0, 2.0, 3.0, 4.0])
    found = falls(setups=[setup_of(extra=e, failure=Failure(time=0.99)) for e in extra.tolist()])
    assert np.all(np.diff(found.lowest_point) > np.diff(extra))
    assert np.all(np.diff(found.catch_leash_force) > 0.0)


def test_a_lock_whose_bay_parted_holds_nothing_and_the_other_still_slips():
    """Both locks slip in the fall; then the bay at A or at B parts. What its lock had paid out is gone, and caps nothing."""
    load, result = 7.5e3, {}
    for bay in (0, 1):
        one = fall(setup=setup_of(extra=4.0, failure=Failure(bay=bay, time=1.2), slip_load_a=load, slip_load_b=load))
        result[bay] = one
        at, taken = round(one.failure_time / one.time[1]), one.ledger.lost_slip
        assert 0.0 < taken[at] < taken[-1]
    assert result[0].slip_a < result[1].slip_a
    assert result[1].slip_b < result[0].slip_b
    for bay in (0, 1):
        lock = {"slip_load_b" if bay else "slip_load_a": load}
        held = fall(setup=setup_of(extra=4.0, failure=Failure(bay=bay, time=1.2), **lock))
        free = held.catch_tension_b if bay else held.catch_tension_a
        assert free > 1.03 * load


@pytest.mark.parametrize(("bay", "position"), [(0, 0.3), (1, 0.3), (0, 0.5)])
def test_it_ends_where_the_walker_hangs_at_rest(bay, position):
    """20 s on a soft leash, with webbing a metre wide, so that air brings it nearly to rest (the leash still swings, 6 % of the
    weight either way: means are taken): tensions and depth of `hang` on a line of two webbings, one of them the backup and
    longer, each with the mass that lies there. The line is a polygon, its mass a little displaced: 1 %."""
    span, extra, main, backup = 20.0, 1.0, straight(2e5, 0.06, width=1.0), straight(1e5, 0.05)
    leash, place = Leash(stiffness=1e3, damping=300.0), Walker(position=position)
    rig = one_webbing(main, span=span, pretension=5e3, backup=Backup(webbing=backup, joints=(0.5,), extra_length=extra))
    setup = Setup(rig=rig, leash=leash, walker=place, failure=Failure(bay=bay, time=0.3))
    half = 0.5 * float(hang(rig=rig).natural_lengths[0])
    mass = 0.06 + rig.hung_mass * span / (2.0 * half)
    lengths = [half, half]
    lengths[bay] += extra
    kinds = [replace(w, mass_per_length=mass * half / n) for w, n in zip((main, main), lengths, strict=True)]
    kinds[bay] = replace(kinds[bay], stiffness=backup.stiffness)
    after = Rig(span=span, segments=tuple(Segment(webbing=w, length=n) for w, n in zip(kinds, lengths, strict=True)))
    ring = float(place_on_line(lines_of([rig]), np.array([position]))[0]) * (1.0 if bay else (half + extra) / half)
    alone = lines_of([after])
    there = brentq(lambda p: float(place_on_line(alone, np.array([p]))[0]) - ring, 0.05, 0.95)
    state = hang(rig=after, load=80.4 * GRAVITY, position=there)
    result = fall(setup=setup, duration=20.0)
    late = (result.time > 8.0) & (result.time < 19.9)
    weights = np.hanning(late.sum())
    rows = (result.tension_a, result.tension_b, result.ring_z, result.ring_x)
    *found, ring_x = (float(np.average(row[late], weights=weights)) for row in rows)
    assert np.ptp(result.leash_force[result.time > 16.0]) < 0.15 * 80.0 * GRAVITY
    assert found == pytest.approx([state.tension_a, state.tension_b, state.load_z[0]], rel=1e-2)
    assert ring_x == pytest.approx(state.load_x[0], abs=0.02)


HAND = Rig(span=20.0, segments=(Segment(webbing=straight(4e4, 0.05), length=20.0),), backup=Backup(webbing=HMPE))


def test_least_extra_length_by_hand():
    """10 m of 40 kN stiffness at 4.75 kN: 10 * 4.75 / 40 = 1.1875 m in each of two bays; slip adds to the bay at that lock."""
    assert least_extra_length(rig=HAND, tension=4750.0) == pytest.approx([1.1875, 1.1875], rel=1e-6)
    slipped = least_extra_length(rig=HAND, tension=4750.0, slip_a=0.4, slip_b=0.1)
    assert slipped == pytest.approx([1.5875, 1.2875], rel=1e-6)
    alone = replace(HAND, backup=Backup(webbing=HMPE, joints=()))
    assert least_extra_length(rig=alone, tension=4750.0, slip_a=0.4, slip_b=0.1) == pytest.approx([2.875], rel=1e-6)


def test_least_extra_length_of_two_webbings_and_a_table():
    """6 m of 60 kN beside HMPE of 1 MN at 6 kN: 0.1 strain there, 0.006 here; the joint lies in the HMPE."""
    segments = (Segment(webbing=straight(6e4, 0.07), length=6.0), Segment(webbing=HMPE, length=24.0))
    rig = Rig(span=30.0, segments=segments, backup=Backup(webbing=HMPE, joints=(0.5,)))
    first, second = least_extra_length(rig=rig, tension=6e3)
    assert first + second == pytest.approx(6.0 * 0.1 + 24.0 * 0.006, rel=1e-9)
    assert 0.6 < first < 0.6 + 0.006 * 10.0
    table = replace(HMPE, stiffness=None, strain=(0.0, 0.02, 0.03), tension=(0.0, 2e3, 4e3))
    curved = replace(HAND, segments=(Segment(webbing=table, length=20.0),))
    assert least_extra_length(rig=curved, tension=4e3) == pytest.approx([0.3, 0.3], rel=2e-3)


def test_bays_hold_the_webbing_that_hangs_between_their_joints():
    """Weightless under 3 kN, 6 m of 20 kN reach 6.9 m, HMPE 1.003 of itself. Joints at 3 and 15 m: 3 / 1.15 = 2.6087 m of the
    insert lie in the first bay, 3.3913 m and (15 - 6.9) / 1.003 = 8.0758 m of HMPE in the second, 14.955 m in the third. At
    6 kN they stretch by 0.3 and 0.006: 0.7826, 1.0174 + 0.0485 and 0.0897 m."""
    segments = (Segment(webbing=straight(2e4, 1e-6), length=6.0), Segment(webbing=straight(1e6, 1e-6)))
    backup = Backup(webbing=HMPE, joints=(0.1, 0.5))
    rig = Rig(span=30.0, segments=segments, pretension=3e3, backup=backup, hung_mass_per_length=0.0)
    assert least_extra_length(rig=rig, tension=6e3) == pytest.approx([0.78261, 1.06585, 0.08973], rel=2e-5)


def test_least_extra_length_is_what_keeps_a_held_fall_from_loading_the_backup():
    """At the peak of the held fall, stretched straight distances between joints stay within what the backup has."""
    setup = setup_of(INSERT, failure=None)
    held = fall(setup=setup)
    enough = float(least_extra_length(rig=setup.rig, tension=held.peak_tension_a).max())
    late = Failure(tension=0.99 * held.peak_tension_a)
    result = fall(setup=setup_of(INSERT, extra=enough, failure=late))
    assert result.ledger.lost_break[-1] > 0.0
    with pytest.raises(ValueError, match=r"extra_length = 0\.0 "):
        fall(setup=setup_of(INSERT, extra=0.0, failure=late))
