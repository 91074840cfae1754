"""What would have kept a limit: found values cost what falls there cost, no limit finds nothing, slip and slack are refused."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from linelib import fall, least_extra_length
from linelib.studies import costs
from linelib.studies.boundary import of_two
from linelib.studies.case_rig import LINKS, LOCK, RIGGED, SEATING, case_knobs, case_lists, case_rig
from linelib.studies.costs import RESERVE, costs_of
from linelib.studies.keeping import keeping
from linelib.studies.knobs import Knob, Listed, knob, no_slack
from linelib.studies.outcomes import Case
from tests.setups import one_webbing, reference_setup

NOW = case_rig(numbers=RIGGED)
KNOBS = {k.name: k for k in case_knobs(now=NOW)}
CASE = Case(setup=reference_setup())


def test_found_values_cost_what_the_fall_there_costs():
    found = keeping(now=NOW, outcome=LOCK, limit=0.8, knobs=(KNOBS["insert length"],), links=LINKS, count=9)
    (kept,) = found.kept
    (there,) = kept.found
    assert kept.crossings.values == (there.value,)
    assert kept.crossings.within == ((there.value, 15.0),)
    setup = KNOBS["insert length"].on(NOW, there.value).setup
    alone = fall(setup=setup)
    assert there.outcomes[LOCK] == pytest.approx(0.8, rel=1e-3)
    assert there.outcomes["person"] == pytest.approx(alone.peak_leash_force, rel=1e-6)
    assert there.outcomes["lowest tie-in"] == pytest.approx(alone.lowest_point, rel=1e-6)
    high = max(alone.peak_tension_a, alone.peak_tension_b)
    assert there.outcomes[RESERVE] == pytest.approx(2.1 - least_extra_length(rig=setup.rig, tension=high).max(), rel=1e-6)
    assert found.now[LOCK] == pytest.approx(fall(setup=NOW.setup).peak_tension_b / (0.55 * 0.75 * 35e3), rel=1e-6)
    assert there.outcomes["lowest tie-in"] > found.now["lowest tie-in"]  # it is paid for


def test_curves_are_the_falls_over_the_range():
    (kept,) = keeping(now=NOW, outcome="person", limit=None, knobs=(KNOBS["leash length"],), links=LINKS, count=3).kept
    wanted = [fall(setup=KNOBS["leash length"].on(NOW, v).setup).peak_leash_force for v in (1.4, 2.2, 3.0)]
    assert kept.curves["person"] == pytest.approx(wanted, rel=1e-6)
    assert kept.over == pytest.approx([1.4, 2.2, 3.0])


def test_one_choice_at_a_time_or_all_at_once_is_the_same():
    together = keeping(now=NOW, outcome="peak at A", limit=12e3, knobs=tuple(KNOBS.values()), links=LINKS, count=9)
    for one in together.kept:
        (alone,) = keeping(now=NOW, outcome="peak at A", limit=12e3, knobs=(one.knob,), links=LINKS, count=9).kept
        assert one.crossings.values == pytest.approx(alone.crossings.values, rel=1e-9)
        assert one.curves["peak at A"] == pytest.approx(alone.curves["peak at A"], rel=1e-9)
    assert {k.knob.name: bool(k.found) for k in together.kept} == {
        "leash length": False,
        "standing height": True,
        "walker's mass": True,
        "span": True,
        "insert length": True,
        "pretension": False,
    }


def test_without_a_limit_nothing_is_found():
    found = keeping(now=NOW, outcome=LOCK, limit=None, knobs=tuple(KNOBS.values()), links=LINKS, count=3)
    assert found.limit is None
    assert all(one.crossings is None and one.found == () for one in found.kept)


def test_lists_give_every_entry_and_leave_out_what_cannot_be_rigged():
    short = replace(NOW, setup=replace(NOW.setup, rig=replace(NOW.setup.rig, slip_load_b=None)))
    lists = (*case_lists(now=NOW), Listed(name="leash made of", options={"as it was": NOW, "the same": short}))
    found = keeping(now=NOW, outcome=LOCK, limit=0.8, lists=lists, links=LINKS)
    assert found.listed[SEATING]["straight"][LOCK] == pytest.approx(0.55 * found.now[LOCK])
    assert found.listed[SEATING]["straight"]["person"] == pytest.approx(found.now["person"])
    assert found.listed["material"]["HMPE, 25 mm"][LOCK] == pytest.approx(found.now[LOCK])
    assert found.listed["leash made of"]["the same"] == found.listed["leash made of"]["as it was"]
    assert found.kept == ()


def test_values_that_cannot_be_rigged_are_unknown():
    low = knob(name="leash length", now=NOW, low=0.6, high=3.0)  # under the stance of 1.4 m the walker hangs in it
    (kept,) = keeping(now=NOW, outcome="lowest tie-in", limit=6.2, knobs=(low,), links=LINKS, count=9).kept
    assert kept.crossings.unknown == ((0.6, 1.5),)
    assert np.isnan(kept.curves["person"][0])
    assert kept.crossings.within[0][0] == pytest.approx(1.5)


def test_two_are_set_in_the_order_that_can_be_rigged():
    leash, stance = (knob(name=n, now=CASE, low=0.2, high=h) for n, h in (("leash length", 3.0), ("standing height", 2.5)))
    setup = reference_setup(leash={"length": 2.5}, walker={"standing_height": 2.0})
    for first, second, x, y in ((stance, leash, 2.0, 2.5), (leash, stance, 2.5, 2.0)):
        asked = of_two(now=CASE, first=first, second=second, outcome="person")
        assert asked(np.array([x]), np.array([y])) == pytest.approx([fall(setup=setup).peak_leash_force], rel=1e-6)
    assert np.isnan(of_two(now=CASE, first=leash, second=stance, outcome="person")(np.array([1.0]), np.array([2.0]))[0])


def test_progress_is_told_and_an_interrupt_goes_through(monkeypatch):
    monkeypatch.setattr(costs, "AT_ONCE", 4)
    told, leash = [], KNOBS["leash length"]
    keeping(now=NOW, outcome="person", limit=None, knobs=(leash,), links=LINKS, count=9, progress=lambda *d: told.append(d))
    assert told == [(4, 9), (8, 9), (9, 9)]

    def stop(done, total):
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        keeping(now=NOW, outcome="person", limit=None, knobs=(leash,), links=LINKS, count=9, progress=stop)


@pytest.mark.parametrize("name", ["slip load at B", "Slip", "added sag", "standing sag", "more slack"])
def test_slip_sag_and_slack_are_refused_by_name(name):
    with pytest.raises(ValueError, match=r"^name = .* is not possible; allowed: what is no slip, sag or slack: "):
        knob(name=name, now=CASE, low=1.0, high=2.0)
    with pytest.raises(ValueError, match=r"is a fault|no remedy"):
        Knob(name=name, unit="m", low=1.0, high=2.0, on=lambda case, value: case)
    with pytest.raises(ValueError, match=r"is a fault|no remedy"):
        Listed(name=name, options={})


def slipping(case, value):
    return replace(case, setup=replace(case.setup, rig=replace(case.setup.rig, slip_load_b=value)))


def looser(case, value):
    return replace(case, setup=replace(case.setup, rig=replace(case.setup.rig, pretension=value)))


def test_slip_and_lower_tension_are_refused_whatever_they_are_called():
    soft = Knob(name="kind lock", unit="N", low=6e3, high=9e3, on=slipping)
    loose = Knob(name="comfort", unit="N", low=2e3, high=4e3, on=looser)
    with pytest.raises(ValueError, match=r"^kind lock = \(None, 6000.0\) is not possible; allowed: the slip loads as they are"):
        keeping(now=CASE, outcome="person", limit=2e3, knobs=(soft,))
    with pytest.raises(
        ValueError, match=r"^comfort = 2000.0 is not possible; allowed: no less than now, 3000 N: raised, or set"
    ):
        keeping(now=CASE, outcome="person", limit=2e3, knobs=(loose,))
    leash = knob(name="leash length", now=CASE, low=1.2, high=2.0)
    both = of_two(now=CASE, first=loose, second=leash, outcome="person")
    with pytest.raises(ValueError, match=r"^comfort with leash length = 2000.0"):
        both(np.array([2e3]), np.array([1.5]))
    with pytest.raises(ValueError, match=r"^low = 2000.0 is not possible; allowed: 3000 N or more"):
        knob(name="pretension", now=CASE, low=2e3, high=4e3)
    with pytest.raises(ValueError, match=r"^tuned = 2000.0"):
        keeping(now=CASE, outcome="person", limit=2e3, lists=(Listed(name="tuned", options={"a": looser(CASE, 2e3)}),))
    no_slack(now=CASE, case=looser(CASE, 4e3), name="reset")


def test_tension_is_only_raised_and_what_it_does_is_told():
    tight = knob(name="pretension", now=CASE, low=3e3, high=6e3)
    (kept,) = keeping(now=CASE, outcome="lowest tie-in", limit=6.5, knobs=(tight,), count=9).kept
    (there,) = kept.found
    assert there.value > 3e3
    assert there.outcomes["peak at A"] > fall(setup=CASE.setup).peak_tension_a


def test_a_rig_of_given_lengths_has_no_pretension_to_compare_at():
    given = one_webbing(pretension=3e3)
    fixed = replace(given, segments=(replace(given.segments[0], length=100.3),), pretension=None)
    case = Case(setup=reference_setup(fixed))
    leash = knob(name="leash length", now=case, low=1.2, high=2.0)
    with pytest.raises(ValueError, match=r"^pretension = None is not possible; allowed: a rig with a pretension"):
        keeping(now=case, outcome="person", limit=2e3, knobs=(leash,))


def test_costs_without_a_backup_have_no_reserve():
    (one,) = costs_of(cases=[CASE])
    assert RESERVE not in one
    assert one["peak at A"] == pytest.approx(fall(setup=CASE.setup).peak_tension_a, rel=1e-6)
