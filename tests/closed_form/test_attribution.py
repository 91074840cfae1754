"""Shares of real falls: they add up, a factor of strength is its own logarithm, idle choices get nothing, no order matters."""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations
from math import exp, log

import numpy as np
import pytest

from linelib import fall
from linelib.models.margins import Place, Reduction, margins
from linelib.studies import attribution
from linelib.studies.attribution import attribute
from linelib.studies.case_rig import LINKS, LOCK, PLANNED, RIGGED, case_choices, case_rig
from linelib.studies.knobs import CHANGES
from linelib.studies.mixes import Choice, all_mixes, mix_in_words
from linelib.studies.outcomes import DEMANDS, WEAKEST, Case, Link, outcomes_of, where_possible
from linelib.studies.shapley import shapley
from tests.setups import reference_setup

REFERENCE = Case(setup=reference_setup())
LINK = Link(name="lock", side="B", printed=35e3)


def sets(name, value):
    return lambda setup: CHANGES[name][1](setup, value)


LEASH, MASS = (
    Choice(name=n, change=sets(of, v)) for n, of, v in (("leash", "leash length", 2.2), ("mass", "walker's mass", 95))
)
WEAK = Choice(name="seating", strength={"lock": 0.55})


@pytest.fixture(scope="module")
def case():
    return attribute(reference=case_rig(numbers=PLANNED), choices=case_choices(), links=LINKS)


def test_shares_add_up_to_the_falls_alone(case):
    before, after = (fall(setup=case_rig(numbers=n).setup) for n in (PLANNED, RIGGED))
    for name, where in DEMANDS.items():
        shares = case.of(name)
        assert shares.start == pytest.approx(getattr(before, where), rel=1e-6)
        assert shares.end == pytest.approx(getattr(after, where), rel=1e-6)
    for shares in case.shares.values():
        assert shares.each.sum() == pytest.approx(shares.end - shares.start, rel=1e-9, abs=1e-9)


def test_a_factor_of_strength_is_its_own_logarithm_and_only_at_its_place(case):
    seating = next(i for i, name in enumerate(case.of(LOCK).names) if name.startswith("seating"))
    assert case.of(LOCK).each[seating] == pytest.approx(log(1.0 / 0.55), rel=1e-12)
    for name, shares in case.shares.items():
        if name not in (LOCK, WEAKEST):
            assert shares.each[seating] == pytest.approx(0.0, abs=1e-9)
    assert 0.0 < case.of(WEAKEST).each[seating] < log(1.0 / 0.55)  # where it sits well, another place is weaker


def test_load_over_strength_is_that_of_the_margins():
    """The lock of the planned rig: 35 kN less a quarter; the end at A is that of the insert, polyamide of 28 kN."""
    cases = [case_rig(numbers=n) for n in (PLANNED, RIGGED)]
    found = outcomes_of(cases=cases, links=LINKS)
    for i, (end, factor) in enumerate(((28e3, 1.0), (35e3, 0.55))):
        a, b = float(found["peak at A"][i]), float(found["peak at B"][i])
        places = (
            Place(name="anchor A", printed=40e3, load=a),
            Place(name="end at A", printed=end, load=a, reductions=(Reduction(name="sewn", loses=0.15),)),
            Place(name="webbing", printed=min(end, 35e3), load=max(a, b)),
            Place(
                name="lock at B",
                printed=35e3,
                load=b,
                reductions=(Reduction(name="lock", loses=0.25), Reduction(name="sits badly", loses=1.0 - factor)),
            ),
        )
        chain = margins(places=places)
        assert [1.0 / m.times for m in chain.each] == pytest.approx([float(found[link.name][i]) for link in LINKS])
        assert float(found[WEAKEST][i]) == pytest.approx(1.0 / chain.times)
    assert found[LOCK][1] == found[WEAKEST][1]


def test_two_choices_by_hand():
    """Four falls alone; the first choice gets the mean of what it adds first and what it adds last."""
    setups = [REFERENCE.setup, LEASH.change(REFERENCE.setup), MASS.change(REFERENCE.setup)]
    setups.append(MASS.change(setups[1]))
    none, leash, mass, both = (fall(setup=s).peak_tension_a for s in setups)
    shares = attribute(reference=REFERENCE, choices=(LEASH, MASS)).of("peak at A")
    assert shares.each == pytest.approx([0.5 * (leash - none + both - mass), 0.5 * (mass - none + both - leash)], rel=1e-6)
    assert shares.together[0, 1] == pytest.approx(both - leash - mass + none, rel=1e-4)
    assert not shares.place


def test_a_choice_that_changes_nothing_gets_nothing_anywhere():
    idle = Choice(name="idle", change=sets("leash length", REFERENCE.setup.leash.length))
    found = attribute(reference=REFERENCE, choices=(idle, MASS, WEAK), links=(LINK,))
    for shares in found.shares.values():
        assert shares.each[0] == pytest.approx(0.0, abs=1e-9)
        assert np.abs(shares.together[0]).max() < 1e-9


def test_the_order_in_which_choices_are_named_does_not_matter():
    named = {}
    for choices in permutations((LEASH, MASS, WEAK)):
        for name, shares in attribute(reference=REFERENCE, choices=choices, links=(LINK,)).shares.items():
            for choice, each in zip(shares.names, shares.each, strict=True):
                named.setdefault((name, choice), []).append(float(each))
    assert all(np.ptp(of) <= 1e-9 * max(map(abs, of)) + 1e-9 for of in named.values())


def test_factors_at_one_place_multiply_and_the_reference_may_be_weak_already():
    weak = Case(setup=REFERENCE.setup, left={"lock": 0.8})
    twice = (WEAK, Choice(name="worn", strength={"lock": 0.9}))
    shares = attribute(reference=weak, choices=twice, links=(LINK,)).of("lock")
    assert shares.each == pytest.approx([-log(0.55), -log(0.9)])
    load = fall(setup=REFERENCE.setup).peak_tension_b
    assert exp(shares.start) == pytest.approx(load / (35e3 * 0.8), rel=1e-6)


def test_every_mix_is_in_its_place():
    mixes = all_mixes(reference=REFERENCE, choices=(LEASH, MASS, WEAK))
    for mix, case in enumerate(mixes):
        assert case.setup.leash.length == (2.2 if mix & 1 else 1.5)
        assert case.setup.walker.mass == (95.0 if mix & 2 else 80.0)
        assert dict(case.left) == ({"lock": 0.55} if mix & 4 else {})


def test_choices_that_do_not_commute_are_named_and_no_others():
    longer = Choice(name="longer", change=lambda s: replace(s, leash=replace(s.leash, length=s.leash.length + 0.5)))
    assert len(all_mixes(reference=REFERENCE, choices=(MASS, longer))) == 4
    with pytest.raises(ValueError, match=r"^choices = 'leash' and 'longer' is not possible; .* one rig in either order"):
        all_mixes(reference=REFERENCE, choices=(MASS, LEASH, longer))
    with pytest.raises(ValueError, match="'longer' and 'leash'"):
        attribute(reference=REFERENCE, choices=(longer, WEAK, LEASH), links=(LINK,))


def test_a_pair_that_only_collides_beside_a_third_is_found():
    heavy = Choice(name="heavy", change=lambda s: sets("walker's mass", 100.0 if s.leash.length > 2.0 else 80.0)(s))
    with pytest.raises(ValueError, match="'leash' and 'heavy'"):
        all_mixes(reference=REFERENCE, choices=(MASS, LEASH, heavy)[1:])


def test_a_mix_that_cannot_be_rigged_is_named():
    stance = Choice(name="stance", change=sets("standing height", 1.8))
    with pytest.raises(ValueError, match=r"^the mix with only 'stance' cannot be rigged: standing_height = 1.8"):
        attribute(reference=REFERENCE, choices=(LEASH, stance, MASS))
    short = Choice(name="short", change=sets("leash length", 0.9))
    with pytest.raises(ValueError, match=r"^the mix with only 'short' cannot be rigged"):
        attribute(reference=REFERENCE, choices=(MASS, short, stance))


@pytest.mark.parametrize("at_once", [256, 2])
def test_a_mix_whose_fall_is_refused_is_named(monkeypatch, at_once):
    monkeypatch.setattr(attribution, "AT_ONCE", at_once)
    slips = Choice(name="slips", change=lambda s: replace(s, rig=replace(s.rig, slip_load_b=5.9e3)))
    assert fall(setup=slips.change(REFERENCE.setup)).slip_b > 0.0
    with pytest.raises(ValueError, match=r"^the mix with all but 'leash' has no answer: .*slip_load_b"):
        attribute(reference=REFERENCE, choices=(MASS, slips, LEASH))


def test_what_is_possible_is_computed_beside_what_is_not():
    def halves(things):
        if any(t < 0 for t in things):
            raise ValueError(f"{min(things)} is refused")
        return {"half": np.array(things) / 2.0}

    found, reasons = where_possible(things=[4.0, -1.0, 6.0, 8.0, -3.0], compute=halves)
    assert found["half"] == pytest.approx([2.0, np.nan, 3.0, 4.0, np.nan], nan_ok=True)
    assert reasons == {1: "-1.0 is refused", 4: "-3.0 is refused"}
    assert where_possible(things=[], compute=halves) == ({}, {})
    assert where_possible(things=[-1.0, -2.0], compute=halves) == ({}, {0: "-1.0 is refused", 1: "-2.0 is refused"})


def test_mixes_in_words():
    three = (LEASH, MASS, WEAK)
    said = [mix_in_words(m, three) for m in (0, 1, 6, 7)]
    assert said == ["the reference", "the mix with only 'leash'", "the mix with all but 'leash'", "the mix with every choice"]


def test_ten_choices_have_as_many_mixes_as_there_are():
    links = tuple(Link(name=f"place {i}", side="A", printed=30e3) for i in range(10))
    weak = [Choice(name=f"weak {i}", strength={f"place {i}": 0.9}) for i in range(10)]
    told = []
    found = attribute(reference=REFERENCE, choices=weak, links=links, progress=lambda *done: told.append(done))
    assert told == [(256, 1024), (512, 1024), (768, 1024), (1024, 1024)]
    assert found.of("place 7").each == pytest.approx([0.0] * 7 + [-log(0.9)] + [0.0] * 2, abs=1e-9)
    assert shapley(values=np.zeros(1024)) == pytest.approx(np.zeros(10))
