"""What the studies of the case do not accept: name, value and what is allowed, in one sentence."""

from __future__ import annotations

import pytest

from linelib.studies.attribution import attribute
from linelib.studies.boundary import of_two
from linelib.studies.case_rig import LINKS, LOCK, PLANNED, RIGGED, Numbers, case_knobs, case_rig
from linelib.studies.keeping import keeping
from linelib.studies.knobs import Knob, knob
from linelib.studies.mixes import Choice, all_mixes
from linelib.studies.outcomes import Case, Link, outcomes_of
from tests.house.refusals import NO_NUMBER, refused, shown
from tests.setups import reference_setup

CASE = Case(setup=reference_setup())
NOW = case_rig(numbers=RIGGED)
LEASH = case_knobs(now=NOW)[0]
IDLE = Choice(name="idle")


@pytest.mark.parametrize("value", [0.0, -1.0, 1.01, None, *NO_NUMBER])
def test_a_factor_of_strength(value):
    for call, name in (
        (lambda: Case(setup=CASE.setup, left={"lock": value}), "left['lock']"),
        (lambda: Choice(name="seating", strength={"lock": value}), "strength['lock']"),
    ):
        head, allowed = refused(call)
        assert head == f"{name} = {shown(value)}"
        assert allowed == "a number from 0.01 to 1"


@pytest.mark.parametrize("value", [None, 0.5, "lock", [("lock", 0.5)]])
def test_factors_that_name_no_place(value):
    assert refused(lambda: Case(setup=CASE.setup, left=value))[0].startswith("left = ")
    assert refused(lambda: Choice(name="seating", strength=value))[0].startswith("strength = ")


CALLS = {
    "a case of no setup": (lambda: Case(setup=CASE), "setup = "),
    "a choice without a name": (lambda: Choice(name=" "), "name = ' '"),
    "a change that is none": (lambda: Choice(name="leash", change=2.2), "change = 2.2"),
    "a change that gives no setup": (
        lambda: all_mixes(reference=CASE, choices=(Choice(name="leash", change=lambda s: None),)),
        "change of 'leash' = None",
    ),
    "no choice": (lambda: attribute(reference=CASE, choices=()), "choices = []"),
    "eleven choices": (lambda: attribute(reference=CASE, choices=[Choice(name=str(i)) for i in range(11)]), "choices = ['0',"),
    "two of one name": (lambda: attribute(reference=CASE, choices=(IDLE, IDLE)), "choices = ['idle', 'idle']"),
    "a choice that is none": (lambda: attribute(reference=CASE, choices=("leash",)), "choices[0] = 'leash'"),
    "a reference that is none": (lambda: attribute(reference=CASE.setup, choices=(IDLE,)), "reference = "),
    "an unknown outcome": (lambda: attribute(reference=CASE, choices=(IDLE,)).of("pull"), "outcome = 'pull'"),
    "a link without a name": (lambda: Link(name="", side="A"), "name = ''"),
    "a link named as an outcome": (lambda: Link(name="person", side="A"), "name = 'person'"),
    "a link at no side": (lambda: Link(name="lock", side="C"), "side = 'C'"),
    "a link of no strength": (lambda: Link(name="lock", side="A", printed=0.0), "printed = 0.0"),
    "reductions that are none": (lambda: Link(name="lock", side="A", reductions=(0.2,)), "reductions[0] = 0.2"),
    "links of one name": (lambda: outcomes_of(cases=[CASE], links=(LINKS[0], LINKS[0])), "links = ['anchor A', 'anchor A']"),
    "a weak place that is no link": (
        lambda: outcomes_of(cases=[Case(setup=CASE.setup, left={"knot": 0.5})], links=LINKS),
        "place with a factor of strength left = 'knot'",
    ),
    "a weak place without links": (lambda: keeping(now=NOW, outcome="person", limit=None), f"{'place with a factor'}"),
    "keeping an unknown outcome": (lambda: keeping(now=NOW, outcome="noise", limit=1.0, links=LINKS), "outcome = 'noise'"),
    "keeping a place without links": (lambda: keeping(now=CASE, outcome=LOCK, limit=1.0), "outcome = 'lock at B'"),
    "keeping of no case": (lambda: keeping(now=CASE.setup, outcome="person", limit=1.0), "now = "),
    "too few values": (lambda: keeping(now=CASE, outcome="person", limit=1.0, knobs=(LEASH,), count=2), "count = 2.0"),
    "a choice of no name": (lambda: knob(name="colour", now=CASE, low=1.0, high=2.0), "name = 'colour'"),
    "a range that is none": (lambda: knob(name="leash length", now=CASE, low=2.0, high=2.0), "high = 2.0"),
    "a range below nothing": (lambda: knob(name="leash length", now=CASE, low=-1.0, high=2.0), "low = -1.0"),
    "a range without an end": (lambda: Knob(name="x", unit="m", low=0.0, high=float("inf"), on=LEASH.on), "high = inf"),
    "one choice twice": (lambda: of_two(now=NOW, first=LEASH, second=LEASH, outcome="person"), "second = 'leash length'"),
    "two for nothing": (
        lambda: of_two(now=NOW, first=LEASH, second=case_knobs(now=NOW)[1], outcome="noise"),
        "outcome = 'noise'",
    ),
    "a lock with nothing left": (lambda: Numbers(**{**vars(PLANNED), "lock_left": 0.0}), "lock_left = 0.0"),
    "an insert shorter than none": (lambda: Numbers(**{**vars(PLANNED), "insert_length": -1.0}), "insert_length = -1.0"),
    "a stance over the leash": (
        lambda: case_rig(numbers=Numbers(**{**vars(PLANNED), "standing_height": 1.6})),
        "standing_height = 1.6",
    ),
}


@pytest.mark.parametrize("call, head", CALLS.values(), ids=CALLS.keys())
def test_refusals(call, head):
    assert refused(call)[0].startswith(head)


@pytest.mark.parametrize("value", [0.0, -1.0, 1e10, *NO_NUMBER])
def test_a_limit_that_is_none(value):
    head, allowed = refused(lambda: keeping(now=CASE, outcome="person", limit=value))
    assert head == f"limit = {shown(value)}"
    assert "1e-06 to 1e+09" in allowed
