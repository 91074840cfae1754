"""Rival explanations weighed by hand: normal chances written out, evidence that says nothing, what is not sufficient."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import numpy as np
import pytest

from linelib.studies.events import NOISE, PARTED, QUIET, UNKNOWN, Event, Hearing, Inspection, Story
from linelib.studies.explanations import Explanation, Range
from linelib.studies.rival_explanations import BEFORE, GROUP, OVERLOAD, UNEVEN, WEAKER, rivals
from linelib.studies.sound_strength import Strength
from linelib.studies.tear_stages import Stages
from linelib.studies.weighed import bayes_factor
from linelib.studies.weighing import attainable, state_chances, weigh
from linelib.tables import webbings

KN = Strength(median=1000.0, tolerance=0.0)  # loads of stages are then in kN
DEAF = Hearing(heard=0.7, stray=0.0)


def phi(z: float) -> float:
    """The normal distribution."""
    return 0.5 * math.erfc(-z / math.sqrt(2.0))


def known(name, *rows, torn=None) -> Explanation:
    """An explanation with one unknown: which of these rows of thresholds [kN] it is."""
    load = np.array(rows, float)
    torn = np.zeros_like(load) if torn is None else np.array(torn, float)
    values = tuple(float(i) for i in range(len(rows)))
    stages = Stages(load=load, torn=torn, carries=1.0 - torn)
    return Explanation(
        name=name, words=name, ranges=(Range(name="row", words="row", values=values),), sequence=lambda _: stages
    )


def event(load, seen, give=1.0) -> Event:
    return Event(load=1e3 * load, uncertainty=1e3 * give, seen=seen)


def story(*events, **more) -> Story:
    return Story(events=tuple(event(*one) for one in events), **more)


def test_two_explanations_one_unknown_two_events() -> None:
    """X: it parts at 8 or at 10 kN, nobody knows; Y: at 12. Held 7 +- 1 quietly (stray 0.05), parted near 9 +- 0.5."""
    told = story((7.0, QUIET, 1.0), (9.0, PARTED, 0.5))
    found = weigh(story=told, explanations=[known("x", [8.0], [10.0]), known("y", [12.0])], strength=KN)
    x = 0.95 * 0.5 * (phi(1.0) * phi(2.0) + phi(3.0) * phi(-2.0))
    y = 0.95 * phi(5.0) * phi(-6.0)
    assert [one.evidence for one in found.accounts] == pytest.approx([x, y], rel=1e-12)
    assert [one.posterior for one in found.accounts] == pytest.approx([x / (x + y), y / (x + y)], rel=1e-12)
    assert bayes_factor(*found.accounts) == pytest.approx(x / y, rel=1e-12)
    assert found.accounts[0].fit == pytest.approx(phi(1.0) * phi(2.0), rel=1e-12)  # over 0.95, at 8 kN
    assert found.accounts[0].cell == 0
    assert found.insufficient == (found.accounts[1],)
    weighted = weigh(story=told, explanations=[known("x", [8.0], [10.0]), known("y", [12.0])], strength=KN, prior=[3e-3, 9e5])
    assert weighted.accounts[1].posterior == pytest.approx(3e8 * y / (x + 3e8 * y), rel=1e-12)
    assert weighted.accounts[1].prior == pytest.approx(3e8 / (3e8 + 1.0), rel=1e-12)


def test_stages_with_a_tear_that_may_go_unheard() -> None:
    """Thresholds 6 and 9 kN; noise at 7, quiet at 8, parted at 10, each +- 1; heard 0.7, stray 0.05. State by state."""
    told = story((7.0, NOISE), (8.0, QUIET), (10.0, PARTED))
    whole, torn = 0.05 * phi(-1.0), 0.7 * (phi(2.0) - phi(-1.0))
    whole, torn = 0.95 * whole * phi(-2.0), 0.95 * torn * phi(1.0) + 0.3 * whole * (phi(1.0) - phi(-2.0))
    at_end = [whole * phi(1.0), torn * phi(1.0), 0.0]
    found = state_chances(story=told, stages=known("z", [6.0, 9.0]).stages, strength=KN)
    assert found[:, 0, 0] == pytest.approx(at_end, rel=1e-12)
    repeated = state_chances(story=told, stages=known("z", [6.0, 9.0, 9.0]).stages, strength=KN)
    assert repeated[:, 0, 0] == pytest.approx([*at_end[:2], 0.0, 0.0], rel=1e-12)


def test_two_stages_in_one_load_and_a_share_that_carries_less_than_is_whole() -> None:
    """Thresholds 6, 8 and 10; noise at 7, then at 9, +- 1. To the third state from the first two: together, (8, 10) at 9."""
    stages = Stages(load=[[6.0, 8.0, 10.0]], torn=[[0.0, 0.2, 0.4]], carries=[[0.3, 0.5, 0.25]])
    told = story((7.0, NOISE), (9.0, NOISE))
    a, b, c = 0.05 * phi(-1.0), 0.7 * (phi(1.0) - phi(-1.0)), 0.7 * (phi(3.0) - phi(1.0))
    by_hand = [
        0.05 * a * phi(-3.0),
        0.05 * b * phi(-1.0) + 0.7 * a * (phi(-1.0) - phi(-3.0)),
        0.05 * c * phi(1.0) + 0.7 * (a + b) * (phi(1.0) - phi(-1.0)),
        0.0,
    ]
    assert state_chances(story=told, stages=stages, strength=KN)[:, 0, 0] == pytest.approx(by_hand, rel=1e-12)
    one = replace(known("z", [6.0]), sequence=lambda _: stages)
    carried = weigh(story=told, explanations=[one], strength=KN).carried
    assert carried[[12, 20, 10]] == pytest.approx(np.array(by_hand[:3]) / sum(by_hand), rel=1e-9)  # 30, 50 and 25 %


def test_an_inspection_counts_where_it_stands() -> None:
    """A third found torn after a noise: the state with a third torn weighs its density, the whole one next to nothing."""
    card = Inspection(torn=0.3, uncertainty=0.1, after=1, trust=0.8)
    told = story((7.0, NOISE), (10.0, PARTED), inspection=card)
    one = known("z", [6.0, 9.0], torn=[[0.0, 0.4]])

    def density(torn):
        inside = phi((1.0 - torn) / 0.1) - phi((0.0 - torn) / 0.1)
        bell = math.exp(-0.5 * ((0.3 - torn) / 0.1) ** 2) / (0.1 * math.sqrt(2.0 * math.pi))
        return 0.8 * bell / inside + 0.2

    by_hand = [0.05 * phi(-1.0) * density(0.0) * phi(1.0), 0.7 * (phi(2.0) - phi(-1.0)) * density(0.4) * phi(1.0), 0.0]
    assert state_chances(story=told, stages=one.stages, strength=KN)[:, 0, 0] == pytest.approx(by_hand, rel=1e-12)
    found = weigh(story=told, explanations=[one], strength=KN)
    share = found.carried
    assert share[-1] == pytest.approx(by_hand[0] / sum(by_hand), rel=1e-9)  # all of the width
    assert share[24] == pytest.approx(by_hand[1] / sum(by_hand), rel=1e-9)  # 60 %, class 24 of 0 to 40
    first = replace(told, inspection=replace(card, after=0))
    assert state_chances(story=first, stages=one.stages, strength=KN)[1, 0, 0] == pytest.approx(
        0.7 * (phi(2.0) - phi(-1.0)) * density(0.0) * phi(1.0), rel=1e-12
    )


def test_strength_is_averaged_over_its_tolerance() -> None:
    """Parted at a load equal to the median threshold: one half. Beside it, the integral over strengths by 4001 points."""
    told = Story(events=(Event(load=8e3, uncertainty=1.0, seen=PARTED),))
    found = weigh(story=told, explanations=[known("x", [8.0])], strength=Strength(median=1000.0, tolerance=0.1))
    assert found.accounts[0].evidence == pytest.approx(0.5, rel=1e-9)
    near = weigh(story=told, explanations=[known("x", [8.8])], strength=Strength(median=1000.0, tolerance=0.1))
    wide = replace(told, events=(Event(load=8e3, uncertainty=400.0, seen=PARTED),))
    smooth = weigh(story=wide, explanations=[known("x", [8.8])], strength=Strength(median=1000.0, tolerance=0.1))
    assert near.accounts[0].evidence == pytest.approx(phi(math.log(8.0 / 8.8) / 0.1), abs=0.05)  # a grid of 21 strengths
    z = np.linspace(-8.0, 8.0, 4001)
    weight = np.exp(-0.5 * z * z)
    exact = sum(w * phi((8.0 - 8.8 * math.exp(0.1 * s)) / 0.4) for s, w in zip(z, weight, strict=True)) / weight.sum()
    assert smooth.accounts[0].evidence == pytest.approx(exact, rel=0.01)


def test_an_odd_strength_has_its_price_in_the_fit() -> None:
    """Parted at 8 where 10 is the median, 0.1 tolerance: only a strength over two tolerances low explains it."""
    told = Story(events=(Event(load=8e3, uncertainty=1.0, seen=PARTED),))
    found = weigh(story=told, explanations=[known("x", [10.0])], strength=Strength(median=1000.0, tolerance=0.1))
    assert found.accounts[0].fit == pytest.approx(
        math.exp(-0.5 * 2.25**2), rel=1e-6
    )  # the first node below log(0.8)/0.1 = -2.23


@pytest.mark.parametrize("seen", [UNKNOWN, QUIET])
def test_evidence_that_says_nothing_leaves_the_prior(seen) -> None:
    """One heavy load of which nothing is known; or loads far below every threshold, held quietly."""
    loads = (20.0,) if seen == UNKNOWN else (0.5, 1.0)
    told = story(*((load, seen, 0.1) for load in loads))
    listed = [known("x", [8.0], [10.0]), known("y", [5.0, 12.0]), known("z", [25.0])]
    found = weigh(story=told, explanations=listed, strength=KN, prior=[1.0, 2.0, 5.0])
    assert [one.posterior for one in found.accounts] == pytest.approx([0.125, 0.25, 0.625], rel=1e-9)
    assert [one.prior for one in found.accounts] == pytest.approx([0.125, 0.25, 0.625])
    card = Inspection(torn=0.9, uncertainty=0.05, after=1, trust=0.0)  # a card nobody believes
    again = weigh(story=replace(told, inspection=card), explanations=listed, strength=KN, prior=[1.0, 2.0, 5.0])
    assert [one.posterior for one in again.accounts] == pytest.approx([0.125, 0.25, 0.625], rel=1e-9)
    assert again.not_told_apart == again.ranked


def test_a_load_of_which_nothing_is_known_still_left_a_line_that_held() -> None:
    """Not known at 9 +- 1, then held at 5 +- 1: a threshold at 8 has to have survived the first. By hand for one stage."""
    told = story((9.0, UNKNOWN), (5.0, QUIET))
    found = state_chances(story=told, stages=known("x", [8.0]).stages, strength=KN)
    assert found[:, 0, 0] == pytest.approx([phi(-1.0) * 0.95 * phi(3.0), 0.0], rel=1e-12)
    broke = state_chances(story=story((9.0, UNKNOWN), (7.0, PARTED)), stages=known("x", [8.0]).stages, strength=KN)
    assert broke[:, 0, 0] == pytest.approx([phi(-1.0) * phi(-1.0), 0.0], rel=1e-12)
    last = state_chances(story=story((9.0, UNKNOWN)), stages=known("x", [8.0]).stages, strength=KN)
    assert last[:, 0, 0] == pytest.approx([phi(-1.0), phi(1.0)], rel=1e-12)


def test_order_of_loads_that_tear_nothing_does_not_matter() -> None:
    """Every tear would be heard, and none was: six orders, one likelihood. With a tear between, the order counts."""
    heard = Hearing(heard=1.0, stray=0.0)
    loads = ((6.0, QUIET), (7.0, QUIET), (8.0, QUIET))
    stages = known("z", [7.5, 9.0], [8.0, 12.0]).stages
    chances = [
        state_chances(story=story(*order, (9.0, NOISE), hearing=heard), stages=stages, strength=KN)
        for order in itertools.permutations(loads)
    ]
    for one in chances[1:]:
        assert one == pytest.approx(chances[0], rel=1e-12, abs=1e-300)
    mixed = [
        state_chances(story=story(*order, hearing=DEAF), stages=stages, strength=KN)
        for order in (((6.0, QUIET), (8.5, NOISE)), ((8.5, NOISE), (6.0, QUIET)))
    ]
    assert mixed[0].sum() < 0.97 * mixed[1].sum()


def quarry(last, *, hearing=None, **card) -> Story:
    found = Inspection(torn=0.25, uncertainty=0.08, after=2, trust=0.95, **card)
    events = (event(7.2, QUIET, 0.3), event(8.0, NOISE, 0.3), event(last, PARTED, 0.3))
    return Story(events=events, inspection=found, hearing=hearing or Hearing())


def test_a_quarter_tears_at_8_and_the_rest_should_hold_24() -> None:
    """32 kN of webbing: the first story cannot part at 9, whatever its seating; it can near 24. Overload alone never."""
    listed = rivals(webbing=replace(webbings()["hmpe_25mm"], breaking_strength=32e3))
    strength = Strength(median=32e3, tolerance=0.1)
    low, high = (weigh(story=quarry(last), explanations=listed, strength=strength) for last in (9.0, 24.0))
    assert GROUP in [one.name for one in low.insufficient]
    assert OVERLOAD in [one.name for one in low.insufficient]
    assert {one.name for one in low.not_told_apart} == {UNEVEN, WEAKER}
    assert [one.name for one in high.insufficient] == [OVERLOAD]
    assert GROUP in [one.name for one in high.not_told_apart]
    alone = known("a quarter, the rest sound", [8.0, 24.0], torn=[[0.0, 0.25]])
    one = weigh(story=quarry(9.0), explanations=[alone, listed[1]], strength=Strength(median=1000.0, tolerance=0.1))
    assert one.accounts[0] in one.insufficient


def test_a_wrong_card_decides_over_earlier_damage() -> None:
    """Damage before the day needs more of the width torn than the card says; without the card it is not told apart."""
    listed = rivals(webbing=replace(webbings()["hmpe_25mm"], breaking_strength=33e3))
    strength = Strength(median=33e3, tolerance=0.1)
    told = quarry(9.0)
    no_card = replace(told, inspection=replace(told.inspection, trust=0.0))
    with_card, without = (weigh(story=one, explanations=listed, strength=strength) for one in (told, no_card))
    assert BEFORE not in [one.name for one in with_card.not_told_apart]
    assert BEFORE in [one.name for one in without.not_told_apart]
    none = weigh(story=replace(told, inspection=None), explanations=listed, strength=strength)
    assert [one.posterior for one in none.accounts] == pytest.approx([one.posterior for one in without.accounts], rel=1e-9)


def test_what_can_be_reached_at_all() -> None:
    """0.95^3 * 0.7 for three quiet falls and a noise; stray 0.4 and heard 0.5: a quiet one has 0.6 at best."""
    told = story((6.0, QUIET), (7.0, QUIET), (7.5, QUIET), (8.0, NOISE))
    assert attainable(story=told) == pytest.approx(0.95**3 * 0.7)
    dull = story((6.0, QUIET), (7.0, UNKNOWN), (8.0, PARTED), hearing=Hearing(heard=0.5, stray=0.4))
    assert attainable(story=dull) == pytest.approx(0.6)
    card = Inspection(torn=0.5, uncertainty=0.05, after=4, trust=0.5)
    peak = 0.5 / (0.05 * math.sqrt(2.0 * math.pi)) + 0.5
    assert attainable(story=replace(told, inspection=card)) == pytest.approx(0.95**3 * 0.7 * peak, rel=1e-6)


def test_a_card_near_the_edge_fits_best_at_the_edge() -> None:
    """5 % found, read to 30 %: half of all readings of a whole width would be under 0; that makes this one likelier."""
    told = story((6.0, UNKNOWN), inspection=Inspection(torn=0.05, uncertainty=0.3, after=1))
    bell = math.exp(-0.5 * (0.05 / 0.3) ** 2) / (0.3 * math.sqrt(2.0 * math.pi))
    assert attainable(story=told) == pytest.approx(bell / (phi(1.0 / 0.3) - 0.5), rel=1e-9)


def test_a_story_that_contradicts_itself_suffices_for_nobody() -> None:
    """Held at 20 and parted at 6: no threshold does both."""
    told = story((20.0, QUIET, 0.5), (6.0, PARTED, 0.5))
    found = weigh(story=told, explanations=[known("x", [13.0], [12.0]), known("y", [19.0])], strength=KN)
    assert found.not_told_apart == ()
    assert len(found.insufficient) == 2
    assert sum(one.posterior for one in found.accounts) == pytest.approx(1.0)
