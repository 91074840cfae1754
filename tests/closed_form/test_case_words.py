"""What the studies of the case say, with numbers of our own: every number in its place, unit and sign, every sum shown."""

from __future__ import annotations

from math import log

import numpy as np
import pytest

from linelib.cautions import LIMITS, RETENSION
from linelib.studies import keeping_words as kept_words
from linelib.studies.attribution import Attribution, Shares
from linelib.studies.attribution_words import (
    attribution_text,
    change_in_words,
    drivers_in_words,
    price_in_words,
    together_in_words,
)
from linelib.studies.boundary import Boundary
from linelib.studies.costs import RESERVE
from linelib.studies.crossings import Crossings
from linelib.studies.keeping import Found, Keeping, Kept
from linelib.studies.knobs import Knob
from linelib.studies.outcome_words import number_of, words_of

NAMES = ("insert", "tension", "seating")


def shares(outcome, start, each, pair=0.0, place=False):
    together = np.zeros((3, 3))
    together[0, 1] = together[1, 0] = pair
    each = np.array(each, float)
    return Shares(
        outcome=outcome, names=NAMES, place=place, start=start, end=start + float(each.sum()), each=each, together=together
    )


PEAK = shares("peak at A", 7240.0, [4300.0, -400.0, 0.0], pair=-510.0)
LOCK = shares("lock at B", log(0.3), [log(1.5), log(0.96), log(1.8)], pair=log(1.2), place=True)
PERSON = shares("person", 2350.0, [700.0, 60.0, 0.0])
DROP = shares("lowest tie-in", 5.7, [-0.8, 0.3, 0.0])
FOUND = Attribution(shares={s.outcome: s for s in (PEAK, PERSON, DROP, LOCK)})


def test_numbers_on_the_screen():
    assert [words_of("peak at A", 7240.0), words_of("person", 95.0), words_of("lowest tie-in", 6.28)] == [
        "7.2 kN",
        "0.1 kN",
        "6.3 m",
    ]
    assert [words_of("lock at B", 0.976), words_of(RESERVE, -0.21)] == ["0.98", "-0.2 m"]
    assert number_of("person", -20.0, sign=True) == "+0.0"
    assert number_of("person", -60.0) == "-0.1"


def test_a_demand_and_its_sum():
    """7.24 + 4.3 - 0.4 = 11.14."""
    assert change_in_words(PEAK) == "Peak at A from 7.2 to 11.1 kN: insert +4.3, tension -0.4, seating +0.0; sum +3.9 kN."


def test_a_place_and_its_product():
    """1.5 * 0.96 * 1.8 = 2.592, of 0.3: 0.7776; ln 1.8 = 0.588, ln 1.5 = 0.405, ln 0.96 = -0.041, sum 0.952."""
    assert change_in_words(LOCK) == (
        "Load over strength, lock at B, from 0.30 to 0.78: seating × 1.80, insert × 1.50, tension × 0.96; "
        "product × 2.59 (logarithms +0.588 +0.405 -0.041 = +0.952)."
    )


def test_the_drivers_differ():
    said = drivers_in_words(demand=PEAK, place=LOCK)
    assert said == (
        "The peak at A was driven most by insert (+4.3 of +3.9 kN). Load over strength, lock at B: most by seating "
        "(× 1.80 of × 2.59). They differ: the peak at A alone cannot see it at all."
    )
    same = shares("webbing", log(0.3), [log(1.5), log(0.96), 0.0], place=True)
    assert "differ" not in drivers_in_words(demand=PEAK, place=same)
    hidden = shares("peak at A", 7e3, [4e3, 0.0, 1e3])
    assert drivers_in_words(demand=hidden, place=LOCK).endswith("the peak at A alone hides it.")
    less = shares("peak at A", 7e3, [4e3, 0.0, -1e3])
    assert drivers_in_words(demand=less, place=LOCK).endswith("the peak at A alone hardly shows it.")


def test_nothing_adds():
    none, no_place = shares("person", 2e3, [0.0, -100.0, 0.0]), shares("webbing", -1.0, [0.0, -0.1, 0.0], place=True)
    assert drivers_in_words(demand=none, place=no_place) == (
        "No choice adds to the person. No choice adds to the load over strength, webbing."
    )
    assert "Load over strength, lock at B: most by seating" in drivers_in_words(demand=none, place=LOCK)


def test_pairs_are_named_with_their_sign_and_small_ones_are_not():
    assert together_in_words(PEAK) == "Together, beyond their single parts: insert with tension -0.5 kN."
    assert together_in_words(LOCK) == "Together, beyond their single parts: insert with tension × 1.20."
    assert together_in_words(PERSON) == "Hardly any two choices act together on person."
    assert shares("person", 0.0, [1000.0, 0.0, 0.0], pair=49.0).pairs() == []
    assert shares("person", 0.0, [1000.0, 0.0, 0.0], pair=-51.0).pairs() == [("insert", "tension", -51.0)]


def test_a_minus_is_never_shown_without_what_it_cost():
    assert price_in_words(FOUND, outcome="peak at A") == (
        "Less here: tension -0.4 kN, paid elsewhere: person +0.1 kN, lowest tie-in +0.3 m."
    )
    assert price_in_words(FOUND, outcome="lowest tie-in") == (
        "Less here: insert -0.8 m, paid elsewhere: peak at A +4.3 kN, person +0.7 kN."
    )
    assert price_in_words(FOUND, outcome="person") == ""
    assert price_in_words(FOUND, outcome="lock at B").startswith("Less here: tension × 0.96, paid elsewhere: person +0.1 kN")


def test_the_table_shows_every_share_and_the_sums():
    lines = attribution_text(FOUND).splitlines()
    assert " ".join(lines[0].split()) == "peak at A [kN] person [kN] lowest tie-in [m] lock at B [ln]"
    cells = {line.split()[0]: line.split()[1:] for line in lines[1:5]}
    assert cells["insert"] == ["+4.3", "+0.7", "-0.8", "+0.405"]
    assert cells["sum"] == ["+3.9", "+0.8", "-0.5", "+0.952"]
    assert lines[5].split() == ["as", "planned", "7.2", "2.4", "5.7", "-1.204"]
    assert lines[6].split() == ["as", "rigged", "11.1", "3.1", "5.2", "-0.252"]
    assert "names choices, not people, and a minus alone is no remedy" in lines[7]


KNOB = Knob(name="leash length", unit="m", low=1.0, high=3.0, on=lambda case, value: case)
TENSION = Knob(name="pretension", unit="N", low=2200.0, high=3000.0, on=lambda case, value: case)
NOW = {"peak at A": 13.8e3, "peak at B": 14.1e3, "person": 4.3e3, "lowest tie-in": 6.6, "lock at B": 0.98, RESERVE: 2.0}
THERE = {"peak at A": 11.2e3, "peak at B": 11.6e3, "person": 4.0e3, "lowest tie-in": 7.1, "lock at B": 0.8, RESERVE: -0.1}


def kept(knob=KNOB, values=(1.7,), within=((1.0, 1.7),), unknown=(), jumps=(), outcome=(0.7, 0.9, 1.1)):
    crossed = Crossings(
        limit=0.8,
        over=np.linspace(knob.low, knob.high, 3),
        outcome=np.array(outcome),
        values=values,
        jumps=jumps,
        within=within,
        unknown=unknown,
    )
    found = tuple(Found(value=v, outcomes=THERE) for v in values)
    return Kept(knob=knob, over=crossed.over, curves={}, crossings=crossed, found=found)


def keeping_of(*each, limit=0.8, listed=None):
    return Keeping(outcome="lock at B", limit=limit, now=NOW, kept=each, listed=listed or {})


def test_a_value_found_with_its_costs():
    one = kept()
    assert kept_words.kept_in_words(one, keeping_of(one)) == (
        "leash length: kept up to 1.70 m, searched from 1.00 to 3.00 m. At 1.70 m: peak at A 11.2 kN (now 13.8), "
        "peak at B 11.6 kN (now 14.1), person 4.0 kN (now 4.3), lowest tie-in 7.1 m (now 6.6), backup's reserve -0.1 m "
        "(now 2.0); the backup would share the load, which is left out."
    )


@pytest.mark.parametrize(
    "changes, said",
    [
        ({"values": (), "within": ()}, "no value of this alone does, searched from 1.00 to 3.00 m: 0.70 to 1.10."),
        ({"values": (), "within": ((1.0, 3.0),)}, "every value does that has an answer, searched from 1.00 to 3.00 m"),
        ({"values": (1.7,), "within": ((1.7, 3.0),)}, "kept from 1.70 m, searched"),
        ({"values": (1.2, 2.5), "within": ((1.2, 2.5),)}, "kept between 1.20 and 2.50 m, searched"),
        ({"values": (1.2, 2.5), "within": ((1.0, 1.2), (2.5, 3.0))}, "kept up to 1.20 m and from 2.50 m, searched"),
        ({"values": (), "jumps": (1.7,)}, "kept up to 1.70 m, with a jump at 1.70, searched"),
        ({"unknown": ((1.0, 3.0),)}, "No answer between 1.00 and 3.00 m, at least in part."),
        ({"unknown": ((1.0, 1.4),)}, "No answer up to 1.40 m, at least in part."),
        ({"outcome": (np.nan,) * 3, "values": (), "within": ()}, "leash length: no answer at all from 1.00 to 3.00 m."),
    ],
)
def test_ranges_in_words(changes, said):
    one = kept(**changes)
    assert said in kept_words.kept_in_words(one, keeping_of(one))


def test_pretension_is_never_told_without_its_cost():
    one = kept(knob=TENSION, values=(2500.0,), within=((2500.0, 3000.0),))
    said = kept_words.kept_in_words(one, keeping_of(one))
    assert said.startswith("pretension: kept from 2.50 kN, searched from 2.20 to 3.00 kN. At 2.50 kN: peak at A")
    assert said.endswith(RETENSION)


def test_lists_in_words():
    found = keeping_of(listed={"material": {"soft": THERE, "stiff": NOW, "none": {}}, "seating": {"as it sat": NOW}})
    soft, no_answer = kept_words.list_in_words("material", found).splitlines()[1:]
    assert soft.startswith("  soft, 0.80: peak at A 11.2 kN (now 13.8)")
    assert no_answer == "  no answer: none"
    assert kept_words.list_in_words("seating", found) == "seating: no entry of this alone does."


def test_without_a_limit_the_study_says_so():
    one = kept()
    blank = keeping_of(one, limit=None)
    for said in (kept_words.keeping_text(blank), kept_words.summary_in_words(blank), kept_words.kept_in_words(one, blank)):
        assert "No limit is entered, so nothing is looked for." in said
        assert LIMITS in said
    assert kept_words.limit_in_words(blank) == "no limit entered"


def test_the_summary_names_both_sides():
    never = kept(knob=TENSION, values=(), within=())
    found = keeping_of(kept(), never, listed={"material": {"soft": THERE}, "seating": {"as it sat": NOW}})
    said = kept_words.summary_in_words(found)
    assert said.startswith("Alone can keep your limit: leash length, material. No value does of: pretension, seating.")
    assert "approves nothing" in said
    assert kept_words.summary_in_words(keeping_of(never)).startswith("No value of one choice alone keeps your limit. Each")
    text = kept_words.keeping_text(found)
    assert text.startswith("Load over strength, lock at B, now 0.98; your limit 0.80.\nleash length: kept")
    assert text.endswith("It approves nothing. Slip, added sag and lower tension are not offered.")


def test_two_together_in_words():
    outcome = np.array([[0.5, 0.9], [0.8, np.nan]])
    both = Boundary(limit=0.8, x=np.array([1.0, 2.0]), y=np.array([0.0, 5.0]), outcome=outcome, pieces=())
    said = kept_words.pair_in_words(keeping_of(), both, ("leash length", "insert length"))
    assert said.startswith(
        "Leash length with insert length: 2 of 3 pairs of the grid keep your limit for load over strength, lock"
    )
    assert "Without an answer: 1." in said
    none = Boundary(limit=0.1, x=both.x, y=both.y, outcome=outcome, pieces=())
    assert ": no pair of the grid keeps your limit" in kept_words.pair_in_words(keeping_of(), none, ("a", "b"))
    every = Boundary(limit=1.0, x=both.x, y=both.y, outcome=outcome, pieces=())
    assert ": every pair of the grid keeps your limit" in kept_words.pair_in_words(keeping_of(), every, ("a", "b"))
    assert kept_words.pair_in_words(keeping_of(), None, ("a", "b")) == kept_words.BLANK
