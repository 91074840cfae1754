"""The fall in time against limits known beforehand: free fall, symmetry, scaling, rest at the end, a lock that slips."""

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
import pytest

from linelib import Rig, Segment, Walker, fall, falls, hang, webbings
from linelib.models.chain import chain_of
from linelib.models.march import march
from tests.setups import GRAVITY, HMPE, one_webbing, reference_setup, straight

INSERT = Rig(span=100.0, segments=(Segment(webbing=straight(6e4, 0.07), length=7.5), Segment(webbing=HMPE)), pretension=3e3)
POLYAMIDE = webbings()["polyamide_25mm"]
CURVED = Rig(span=60.0, segments=(Segment(webbing=POLYAMIDE, length=9.0), Segment(webbing=HMPE)), pretension=2e3)
RIGS = {"plain": one_webbing(), "insert": INSERT, "curved": CURVED}
every_rig = pytest.mark.parametrize("rig", RIGS.values(), ids=RIGS.keys())
PEAKS = ("peak_tension_a", "peak_tension_b", "peak_leash_force", "lowest_point")


def peaks(result):
    return [getattr(result, name) for name in PEAKS]


@every_rig
@pytest.mark.parametrize("position", [0.5, 0.2])
def test_seen_from_the_other_side(rig, position):
    """The mirrored rig, slipping lock included, gives the mirrored fall."""
    walker, rig = {"position": position}, replace(rig, height_difference=7.0, slip_load_a=6.2e3)
    one = fall(setup=reference_setup(rig, walker=walker))
    changes = {"height_difference": -7.0, "slip_load_a": None, "slip_load_b": 6.2e3, "segments": rig.segments[::-1]}
    other = fall(setup=reference_setup(replace(rig, **changes), walker={"position": 1.0 - position}))
    swapped = [other.peak_tension_b, other.peak_tension_a, other.peak_leash_force, other.lowest_point]
    assert swapped == pytest.approx(peaks(one), rel=1e-6)
    assert other.slip_b == pytest.approx(one.slip_a, rel=1e-5, abs=1e-6)
    assert rig.span - other.tie_in_x == pytest.approx(one.tie_in_x, abs=1e-6)
    assert other.tie_in_z + 7.0 == pytest.approx(one.tie_in_z, abs=1e-5)


@every_rig
def test_free_fall_until_the_leash_is_taut(rig):
    """Tie-in 1 m above the ring, which hangs at the standing sag: then g t^2 / 2, straight down, until ring, which springs
    up, and tie-in are 1.5 m apart. Semi-implicit steps of dt lead by g t dt / 2: put into what is expected."""
    result = fall(setup=reference_setup(rig))
    loose = slice(0, int(np.argmax(result.tie_in_z - result.ring_z < -1.4)))
    time, step = result.time[loose], result.time[1]
    assert len(time) > 10
    start = 1.0 - result.standing_sag
    assert result.tie_in_z[loose] == pytest.approx(start - 0.5 * GRAVITY * time * (time + step), abs=1e-9)
    assert result.tie_in_x[loose] == pytest.approx(result.ring_x[0], abs=1e-12)


@every_rig
@pytest.mark.parametrize("position", [0.5, 0.1])
def test_it_starts_from_the_hanging_line(rig, position):
    """Before the fall: tensions and sag of `hang` under walker and ring, the line a polygon of some pieces."""
    setup = reference_setup(rig, walker={"position": position})
    result, state = fall(setup=setup, duration=0.05), hang(rig=rig, load=80.4 * GRAVITY, position=position)
    tensions = [result.standing_tension_a, result.standing_tension_b]
    assert tensions == pytest.approx([state.tension_a, state.tension_b], rel=2e-3)
    assert result.standing_sag == pytest.approx(state.sag, rel=1e-6)
    assert result.line_z[0, [0, -1]] == pytest.approx([0.0, rig.height_difference], abs=1e-9)
    assert result.ring_x[0] == pytest.approx(state.load_x[0], rel=1e-9)


def test_it_ends_where_the_walker_hangs_at_rest():
    """20 s on a soft leash with a hard-working dashpot: tensions and sag of `hang` under walker and ring, leash stretched by
    the walker's weight. The line is a polygon: 0.1 %."""
    rig = one_webbing(straight(2e5, 0.06), span=20.0, pretension=10e3, height_difference=2.0)
    setup = reference_setup(rig, leash={"stiffness": 1e3, "damping": 300.0}, walker={"position": 0.4})
    result, state = fall(setup=setup, duration=20.0), hang(rig=rig, load=80.4 * GRAVITY, position=0.4)
    end = (result.time > 16.0) & (result.time < 19.9)
    assert np.ptp(result.leash_force[end]) < 5.0
    assert result.tension_a[end].mean() == pytest.approx(state.tension_a, rel=1e-3)
    assert result.tension_b[end].mean() == pytest.approx(state.tension_b, rel=1e-3)
    assert result.leash_force[end].mean() == pytest.approx(80.0 * GRAVITY, rel=1e-3)
    assert result.tie_in_z[end].mean() == pytest.approx(state.load_z[0] - 1.5 - 80.0 * GRAVITY / 1e3, abs=1e-3)


@every_rig
@pytest.mark.parametrize("position", [0.5, 0.1])
def test_the_chain_is_in_balance_under_its_walker(rig, position):
    """At every node the two sides' tensions carry the node, at the ring also the walker: nothing stirs but by stepping off.
    One tension a side carries the line's own weight a little differently from end to end: 0.2 N of 900 N and more."""
    chain = chain_of([reference_setup(rig, walker={"position": position})])
    run = np.where(np.arange(len(chain.share)) < chain.ring, chain.ring_x, rig.span - chain.ring_x)
    slope = np.diff(chain.z[:, 0]) / (chain.share[:, 0] * run)
    tension = np.where(np.arange(len(chain.share)) < chain.ring, *chain.tension[:, 0])
    lift = np.diff(tension * slope / np.hypot(1.0, slope))
    weights = chain.mass[1:-1, 0] * GRAVITY
    weights[chain.ring - 1] += 80.0 * GRAVITY
    assert lift == pytest.approx(weights, abs=0.2)


@every_rig
def test_everything_heavier_and_stiffer_alike_falls_alike(rig):
    """Masses, stiffness, tension, damping, air times 2: the same motion, forces times 2; 0.5 % for another time step."""
    factor = 2.0

    def times(webbing):
        law = {"stiffness": webbing.stiffness and webbing.stiffness * factor}
        law["tension"] = webbing.tension and tuple(factor * t for t in webbing.tension)
        return replace(webbing, mass_per_length=factor * webbing.mass_per_length, **law)

    segments = tuple(replace(s, webbing=times(s.webbing)) for s in rig.segments)
    heavy = replace(rig, segments=segments, pretension=factor * rig.pretension)
    leash = {"stiffness": factor * 20e3, "damping": factor * 300.0, "ring_mass": factor * 0.4}
    one = fall(setup=reference_setup(rig, air_density=0.6))
    other = fall(setup=reference_setup(heavy, leash=leash, walker={"mass": factor * 80.0}, air_density=factor * 0.6))
    assert peaks(other) == pytest.approx(np.array(peaks(one)) * [factor, factor, factor, 1.0], rel=5e-3)


def test_one_webbing_in_two_pieces_falls_as_one():
    """Also when one of the pieces is called by another name and given by a table."""
    table = replace(HMPE, name="the same", stiffness=None, strain=(0.0, 0.005, 0.01), tension=(0.0, 5e3, 10e3))
    whole = fall(setup=reference_setup())
    for second in (HMPE, table):
        segments = (Segment(webbing=HMPE, length=31.0), Segment(webbing=second))
        parts = fall(setup=reference_setup(Rig(span=100.0, segments=segments, pretension=3e3)))
        assert peaks(parts) == pytest.approx(peaks(whole), rel=2e-4)


@every_rig
def test_a_quarter_of_the_time_step_changes_little(rig):
    """Peaks and lowest point within 0.1 %."""
    setups, found = [reference_setup(rig)], []
    for refine in (1.0, 4.0):
        run = march(chain=chain_of(setups, refine=refine), setups=setups, duration=2.0)
        found.append([*run.pull[:, :, 0].max(0), -run.places[:, -1, 0].min()])
    assert found[0] == pytest.approx(found[1], rel=1e-3)


@every_rig
@pytest.mark.parametrize("position", [0.5, 0.04])
def test_plain_numbers_and_arrays_march_alike(rig, position):
    """One fall is marched in plain numbers, a batch in arrays: the same places, forces and webbing paid out at every step."""
    rig = replace(rig, hung_mass_per_length=0.05)
    heaviest = fall(setup=reference_setup(rig, walker={"position": position, "mass": 110.0}))
    rig = replace(rig, slip_load_b=1.1 * heaviest.standing_tension_b)
    setups = [reference_setup(rig, walker={"position": position, "mass": mass}) for mass in (60.0, 80.0, 110.0)]
    batch = falls(setups=setups, series=True)
    for together, setup in zip(batch.series, setups, strict=True):
        alone = fall(setup=setup)
        for name in ("time", "tie_in_x", "tie_in_z", "ring_x", "tension_a", "tension_b", "leash_force", "line_z"):
            assert getattr(alone, name) == pytest.approx(getattr(together, name), rel=1e-8, abs=1e-7), name
        assert (alone.slip_b, alone.ledger_error) == pytest.approx((together.slip_b, together.ledger_error), abs=1e-9)
    assert batch.slip_b.max() > 0.01


@every_rig
def test_peaks_are_those_of_the_series(rig):
    result = fall(setup=reference_setup(replace(rig, height_difference=5.0), walker={"position": 0.3}))
    series = [result.tension_a.max(), result.tension_b.max(), result.leash_force.max(), 1.5 - result.tie_in_z.min()]
    assert peaks(result) == pytest.approx(series, rel=1e-12)
    assert all(len(getattr(result, f.name)) == len(result.time) for f in fields(result) if f.name.startswith(("line", "ri")))
    assert result.line_z[:, result.line_x[0].searchsorted(result.ring_x[0] - 1e-9)] == pytest.approx(result.ring_z)
    assert np.all(np.diff(result.line_x, axis=1) >= 0.0)


def test_it_ends_three_tenths_after_the_walker_first_moves_up():
    result = fall(setup=reference_setup())
    turn = result.time[np.argmin(result.tie_in_z)]
    assert result.time[-1] - turn == pytest.approx(0.3, abs=2.1 * result.time[1])
    assert fall(setup=reference_setup(), duration=2.5).time[-1] == pytest.approx(2.5, abs=1.1 * result.time[1])


def test_a_longer_record_begins_with_the_shorter_one():
    short, long = fall(setup=reference_setup()), fall(setup=reference_setup(), duration=4.0)
    assert long.tension_a[: len(short.time)] == pytest.approx(short.tension_a, rel=1e-12)


SLIPS = [5.8e3, 6.5e3, 7.2e3, 8e3]


def test_a_lock_that_slips_caps_the_anchor_and_costs_drop():
    """No more than the slip load at that anchor; the lower it is, the more webbing runs out and the deeper the fall. Above
    the peak nothing slips, and the result is that of a lock that holds. Slip is a fault: this tests a sum, no advice."""
    holds = fall(setup=reference_setup())
    results = [fall(setup=reference_setup(one_webbing(slip_load_b=load))) for load in SLIPS]
    assert [r.peak_tension_b for r in results] == pytest.approx(SLIPS, rel=1e-9)
    paid, deep = [r.slip_b for r in results], [r.lowest_point for r in results]
    assert np.all(np.diff(paid) < 0.0)
    assert np.all(np.diff(deep) < 0.0)
    assert deep[-1] > holds.lowest_point
    assert all(r.slip_a == 0.0 for r in results)
    above = fall(setup=reference_setup(one_webbing(slip_load_b=9e3)))
    assert above.slip_b == 0.0
    assert peaks(above) == pytest.approx(peaks(holds), rel=1e-9)


def test_a_webbing_that_never_relaxes_is_a_line_that_is_stiffer_in_the_fall():
    """Fast ratio 2 that fades in 1e9 s: T = T rest + 2 EA (strain - strain at rest). A straight law of 2 EA with the length
    that gives the same tension at rest is the same line; what differs is where 1e-3 of length lies."""
    fast = reference_setup(one_webbing(straight(1e6, fast_ratio=2.0, relaxation_time=1e9)))
    rest = hang(rig=fast.rig, load=80.4 * GRAVITY)
    natural = float(rest.natural_lengths[0] * (1.0 + rest.tension_a / 1e6) / (1.0 + rest.tension_a / 2e6))
    rig = Rig(span=100.0, segments=(Segment(webbing=straight(2e6), length=natural),))
    one, other = fall(setup=fast), fall(setup=reference_setup(rig))
    assert other.standing_tension_a == pytest.approx(one.standing_tension_a, rel=1e-3)
    assert peaks(other) == pytest.approx(peaks(one), rel=4e-3)
    assert one.peak_tension_a > 1.1 * fall(setup=reference_setup()).peak_tension_a


def test_without_any_air_the_freed_line_moves_further():
    """Drag only takes: the ring of the freed line rises higher without air."""
    with_air, without = (fall(setup=reference_setup(air_density=d), duration=0.5) for d in (1.2, 0.0))
    assert without.ring_z.max() > with_air.ring_z.max() + 0.03
    assert np.all(with_air.ledger.lost_air[2:] > 0.0)
    assert np.all(without.ledger.lost_air == 0.0)


def test_a_harder_fall_pulls_harder():
    setups = [reference_setup(walker={"standing_height": h, "mass": m}) for h in (0.0, 0.7, 1.4) for m in (60.0, 100.0)]
    found = falls(setups=setups)
    by_height, by_mass = found.peak_tension_a.reshape(3, 2), found.lowest_point.reshape(3, 2)
    assert np.all(np.diff(by_height, axis=0) > 0.0)
    assert np.all(np.diff(by_height, axis=1) > 0.0)
    assert np.all(np.diff(by_mass, axis=1) > 0.0)
    assert setups[1].walker == Walker(mass=100.0, standing_height=0.0)
