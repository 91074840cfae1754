"""What the panel of how sure we are says, with numbers of our own: each in its place, in its unit, on the right side."""

from __future__ import annotations

import numpy as np
import pytest

from linelib.figures.ranking_bars import in_percent
from linelib.panels.controls import starts
from linelib.panels.how_sure_settings import how_sure_controls as controls
from linelib.panels.how_sure_settings import inputs_of, range_words
from linelib.panels.how_sure_words import Readings, rounded
from linelib.studies.how_sure import MODEL_OFF, NOT_IN_RANGES, HowSure
from linelib.studies.lesson_unsure import FURTHER
from linelib.studies.many_cases import Refused
from linelib.studies.ranges import OneOf
from linelib.studies.what_matters import Matters

RANGES = inputs_of(starts(controls()), controls())


def made(refused=()):
    """200 cases, a hundred a scramble: anchor 10.00 to 11.99 kN, person a fifth of that, tie-in half of it in metres."""
    row = 10e3 + 10.0 * np.arange(200)
    count = 200 + sum(one.count for one in refused)
    values = {"anchor": row, "person": row / 5.0, "lowest": row / 2e3}
    return HowSure(inputs=RANGES, values=values, scramble=np.arange(200) % 2, asked=count, refused=tuple(refused))


def said(found=None, **more):
    given = {"outcome": "anchor", "one": 11e3, "limited": None, "limit": 12e3}
    return Readings(found=found or made(), **{**given, **more})


def test_without_a_limit():
    """10.0 + 0.05 * 1.99 = 10.1, 10.995, 11.9; the person 2.02 to 2.38; the tie-in 5.05 to 5.95 m."""
    now = said()
    assert [r.number for r in now.strip] == ["10.1–11.9 kN", "2.0–2.4 kN", "5.0–5.9 m", "no limit"]
    assert now.share is None
    assert now.sentence == (
        "Half of the cases bring the higher anchor over 11.0 kN; one in twenty is over 11.9, one under 10.1. "
        "One fall with every middle says 11.0 kN. No limit is entered. A number from ranges is only as good as the ranges."
    )


def test_with_a_limit():
    """Above 11.60 kN: 11.61 to 11.99, 39 of 200, 19.5 %: 20 and 19 of a hundred a scramble, so 19.5 +- 12.7 * 0.5 %. The limit
    2 % higher, 11.832: 16 cases, 8 %; 2 % lower, 11.368: 63 cases, 31.5 %."""
    now = said(limited="anchor", limit=11.6e3)
    assert now.share.above == 39
    assert now.strip[3].words == "anchor over 11.6 kN"
    assert now.strip[3].number == "20 %"
    assert now.sentence.endswith(
        "Over 11.6 kN (anchor): 20 % (13 to 26 %); were the model 2 % off, 8 to 32 %. "
        "A share of what was put in, no probability that a rig fails."
    )


def test_a_limit_of_another_outcome_is_said_with_its_own_name_and_unit():
    """Deeper than 5.8 m: 5.805 to 5.995, 39 cases."""
    now = said(outcome="person", limited="lowest", limit=5.8)
    assert now.strip[3].words == "tie-in over 5.8 m"
    assert now.share.above == 39
    assert "Half of the cases give the person over 2.2 kN; one in twenty is over 2.4, one under 2.0." in now.sentence
    assert "Over 5.8 m (tie-in): 20 %" in now.sentence
    assert "were the model 1 % off" in now.sentence


def test_what_cannot_be_computed_is_said():
    found = made([Refused(what="standing_height", count=50, example="x"), Refused(what="extra_length", count=6, example="y")])
    words = "56 of 256 cases cannot be computed (50 for standing height; 6 for extra length): shares are of the other 200."
    assert words in said(found).sentence
    assert "every middle" not in said(found, one=None).sentence


def row(name, first, total, reach=0.02):
    return Matters(
        name=name, first=first, total=total, first_interval=(first, first), total_interval=(total - reach, total + reach)
    )


def test_a_ranking():
    rows = (row("leash_length", 0.5, 0.55), row("mass", 0.3, 0.35), row("stiffness", -0.01, 0.004))
    now = said(ranked=True, ranking=rows)
    assert now.sentence == (
        "What moves it most (higher anchor): leash length, 50 % of the variance by itself, 55 % with the others. "
        "Half a spread is a quarter of its variance: the order is that of these ranges."
    )


def test_a_ranking_that_cannot_tell_says_so():
    rows = (row("stiffness", 0.5, 0.45, 0.1), row("mass", 0.3, 0.35, 0.1), row("pretension", 0.1, 0.1, 0.02))
    words = said(outcome="lowest", ranked=True, ranking=rows).sentence
    assert "(lowest tie-in): webbing stiffness, 45 % of the variance, as good as all by itself." in words
    assert "So few falls cannot tell whether walker's mass matters as much." in words


def test_no_ranking():
    assert said(ranked=True).sentence.startswith("There is no ranking for these ranges.")


@pytest.mark.parametrize("share, words", [(0.274, "27 %"), (0.005, "0 %"), (0.0049, "about 0"), (-0.02, "about 0")])
def test_shares_of_the_variance(share, words):
    assert in_percent(share) == words if share != 0.005 else in_percent(share) in ("0 %", "1 %")


def test_ranges_on_the_screen():
    assert range_words("mass", RANGES["mass"]) == "walker's mass 75 to 85 kg"
    assert range_words("pretension", RANGES["pretension"]) == "pretension 2.5 to 3.5 kN"
    assert range_words("pretension", 3000.0) == "pretension 3.0 kN"
    assert range_words("stiffness", FURTHER["stiffness"]) == "webbing stiffness × 0.8 to 1.2"
    assert range_words("leash_stiffness", FURTHER["leash_stiffness"]) == "leash stiffness 10 to 30 kN/m"
    assert range_words("position", FURTHER["position"]) == "place from A 40 to 60 %"
    assert not hasattr(OneOf, "low")


def test_reasons_on_the_screen():
    reason = "standing_height = 0.9829789152368903 is not possible; allowed: from 0 to the leash's length, 0.923438 m"
    assert rounded(reason) == "standing height = 0.983 is not possible; allowed: from 0 to the leash's length, 0.923 m"
    assert rounded("count = 256, 1.5 m") == "count = 256, 1.5 m"


def test_what_is_not_in_the_ranges_is_said_with_the_numbers_that_are_used():
    for share in MODEL_OFF.values():
        assert f"{100 * share:.0f} %" in NOT_IN_RANGES
    assert all(word not in NOT_IN_RANGES.lower() for word in ("safe", "enough", "approved"))
