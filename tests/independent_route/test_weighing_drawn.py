"""The likelihood of a story against stories drawn event by event, and what it says of them against the truth they came from."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from scipy.stats import kstest, truncnorm

from linelib.models.seated_strips import strips_of
from linelib.models.tearing import tear
from linelib.studies.events import NOISE, PARTED, QUIET, UNKNOWN, Event, Hearing, Inspection, Story
from linelib.studies.explanations import Explanation, Range
from linelib.studies.rival_explanations import GROUP, OVERLOAD, UNEVEN, rivals
from linelib.studies.sound_strength import Strength
from linelib.studies.tear_stages import COUNT, Stages, seated_stages
from linelib.studies.weighing import state_chances, weigh
from linelib.tables import webbings
from tests.drawn_stories import drawn_from

WEB = replace(webbings()["hmpe_25mm"], breaking_strength=33e3)
STRENGTH = Strength(median=33e3, tolerance=0.1)
HEARING = Hearing(heard=0.6, stray=0.1)


def physical(tight, slack, spread):
    """Peak pulls [N] of strips laid out by hand, in the order in which they tear."""
    first = round(tight * COUNT)
    rest = slack + spread * np.arange(COUNT - first) / (COUNT - first - 1)
    return strips_of(
        webbing=WEB, difference=[0.0] * first + list(rest), sharing_length=0.1, stiffening=WEB.fast_ratio, strengths=1.0
    )


def told(*events, give=400.0, **more) -> Story:
    return Story(events=tuple(Event(load=load, uncertainty=give, seen=seen) for load, seen in events), hearing=HEARING, **more)


STORIES = {
    "noise, then parted": told((6.5e3, QUIET), (8.2e3, NOISE), (9e3, PARTED)),
    "unheard, nothing parted": told((8.4e3, QUIET), (8e3, QUIET), (8.3e3, NOISE)),
    "not known on the way": told((8e3, UNKNOWN), (8.5e3, QUIET), (9.2e3, PARTED)),
    "not known at the end": told((8.2e3, NOISE), (9.5e3, UNKNOWN)),
}
SEATINGS = {"a step, weakened": (0.45, 6e-3, 0.0, 17.5e3), "an uneven rest": (0.25, 6e-3, 3e-3, 33e3)}


@pytest.mark.parametrize("seating", SEATINGS)
@pytest.mark.parametrize("name", STORIES)
def test_one_cell_against_brute_force(name, seating) -> None:
    """300 000 strengths and loads drawn, every strip asked in its order whether it holds: how many stories come out as told."""
    story, rng, count = STORIES[name], np.random.default_rng(7), 300_000
    tight, slack, spread, median = SEATINGS[seating]
    strength, strips = Strength(median=median, tolerance=0.1), physical(tight, slack, spread)
    peaks = strips.peak_pull / 33e3
    newtons = median * np.exp(0.1 * rng.normal(size=count))
    torn, alike = np.zeros(count, int), np.ones(count, bool)
    for event in story.events:
        load = rng.normal(event.load, event.uncertainty, count)
        after = torn.copy()
        for k in range(COUNT):  # a strip that cannot hold the load tears, and hands it on to the next
            after[(after == k) & (peaks[k] * newtons < load)] += 1
        alike &= torn < COUNT  # nothing loads a line that has parted
        noise = np.where(after > torn, rng.random(count) < 0.6, rng.random(count) < 0.1)
        parts = after == COUNT
        alike &= {PARTED: parts, NOISE: noise & ~parts, QUIET: ~noise & ~parts, UNKNOWN: True}[event.seen]
        last, torn = torn, after
    share = alike.mean()
    stages = seated_stages(webbing=WEB, tight=tight, slack=slack, spread=spread, sharing_length=0.1)
    chances = state_chances(story=story, stages=stages, strength=strength) @ strength.nodes[1]
    error = np.sqrt(share * (1.0 - share) / count)
    assert share > 1e-3
    assert chances.sum() == pytest.approx(share, abs=4.0 * error + 0.005 * share)
    state = last if story.parted else torn
    for k, first in enumerate(np.unique(np.round(stages.torn[0] * COUNT).astype(int))):
        here = (
            alike & (state >= first) & (state < (stages.torn[0, k + 1] * COUNT if k + 1 < len(stages.torn[0]) else COUNT))
        ).mean()
        assert chances[k, 0] == pytest.approx(here, abs=4.0 * np.sqrt(max(here, 1e-5) / count) + 0.005 * here)


def test_loads_one_by_one_through_the_model() -> None:
    """models/tearing takes the loads of 4000 drawn histories; how many of them are told alike, within four standard errors."""
    story, rng, count = STORIES["noise, then parted"], np.random.default_rng(11), 4000
    strips, alike = physical(0.45, 6e-3, 0.0), 0
    for _ in range(count):
        factor = 17.5 / 33.0 * np.exp(0.1 * rng.normal())
        loads = [max(rng.normal(e.load, e.uncertainty), 0.0) / factor for e in story.events]
        states = tear(strips=strips, loads=loads)
        torn = [0, *(state.torn for state in states)]
        noises = [rng.random() < (0.6 if after > before else 0.1) for before, after in pairwise(torn)]
        alike += [s.held for s in states] == [True, True, False] and noises[:2] == [False, True]
    stages = seated_stages(webbing=WEB, tight=0.45, slack=6e-3, spread=0.0, sharing_length=0.1)
    strength = Strength(median=17.5e3, tolerance=0.1)
    chance = float((state_chances(story=story, stages=stages, strength=strength) @ strength.nodes[1]).sum())
    assert alike / count == pytest.approx(chance, abs=4.0 * np.sqrt(chance / count))
    assert alike > 100


@pytest.mark.parametrize("torn", [0.0, 0.1, 0.5, 0.95, 1.0])
def test_a_card_against_scipy(torn) -> None:
    """scipy.stats.truncnorm, cut off at 0 and 1, mixed with a card that says anything."""
    for found in (0.0, 0.3, 1.0):
        card = Inspection(torn=found, uncertainty=0.12, after=0, trust=0.7)
        cut = truncnorm((0.0 - torn) / 0.12, (1.0 - torn) / 0.12, loc=torn, scale=0.12)
        assert float(card.density(torn)) == pytest.approx(0.7 * cut.pdf(found) + 0.3, rel=1e-9)


def fine() -> Explanation:
    """A tight share anywhere from 5 to 45 %, the rest out of reach and sound: q, then 1 - q, on 81 values."""
    values = tuple(float(q) for q in np.linspace(0.05, 0.45, 81))
    q = np.array(values)
    pair = np.column_stack([q, 1.0 - q])
    stages = Stages(load=pair, torn=np.column_stack([0.0 * q, q]), carries=pair)
    return Explanation(
        name="fine", words="fine", ranges=(Range(name="q", words="q", values=values),), sequence=lambda _: stages
    )


def test_ninety_per_cent_ranges_hold_the_truth_in_ninety_per_cent() -> None:
    """200 stories drawn from the prior; 0.9 +- 3 binomial standard deviations, and ranks of the truth spread evenly."""
    rng, one, strength = np.random.default_rng(3), fine(), Strength(median=20e3, tolerance=0.1)
    inside, ranks = 0, []
    for _ in range(200):
        means = np.sort(rng.uniform(2e3, 12e3, 4))
        story, truth = drawn_from(rng, one, strength=strength, means=means, give=400.0, hearing=HEARING, found_within=0.1)
        found = weigh(story=story, explanations=[one], strength=strength)
        low, high = found.between(0.9)
        inside += low <= truth <= high
        below = np.concatenate([[0.0], np.cumsum(found.carried)])
        ranks.append(float(np.interp(truth, np.append(found.shares - 0.0125, 1.0125), below)))
    assert inside / 200 == pytest.approx(0.9, abs=3.0 * np.sqrt(0.9 * 0.1 / 200))
    assert kstest(ranks, "uniform").pvalue > 0.01


def small() -> list[Explanation]:
    """The five rivals on fewer values each."""
    kept = {"tight": 3, "slack": 2, "sharing": 3, "spread": 2, "left": 2, "gone": 2, "times": 1}
    return [
        replace(one, ranges=tuple(replace(r, values=r.values[:: kept[r.name]]) for r in one.ranges))
        for one in rivals(webbing=WEB)
    ]


def test_chances_of_explanations_come_true_as_often_as_they_say() -> None:
    """600 stories, each drawn from one of the five. In every class of stated chance, hits within 3.3 standard deviations."""
    rng, listed = np.random.default_rng(5), small()
    said, true, dropped = [], [], 0
    for _ in range(600):
        which = int(rng.integers(len(listed)))
        means = np.cumsum(rng.uniform(1e3, 4e3, 5)) + 2e3
        story, _ = drawn_from(rng, listed[which], strength=STRENGTH, means=means, give=500.0, found_within=0.1)
        found = weigh(story=story, explanations=listed, strength=STRENGTH)
        said.append([one.posterior for one in found.accounts])
        true.append(np.arange(len(listed)) == which)
        dropped += not found.accounts[which].sufficient
    chances, hits = np.ravel(said), np.ravel(true)
    classes = np.digitize(chances, [0.02, 0.1, 0.2, 0.3, 0.4, 0.5, 0.7, 0.9])
    looked_at = 0
    for k in range(9):
        mine = chances[classes == k]
        spread = np.sqrt((mine * (1.0 - mine)).sum())
        if len(mine) >= 20:
            looked_at += 1
            assert abs(hits[classes == k].sum() - mine.sum()) < 3.3 * spread + 0.5, (k, len(mine))
    assert looked_at >= 6
    assert dropped <= 12  # the truth is called not sufficient in at most one story of fifty


def test_a_longer_story_finds_the_truth_more_often() -> None:
    """Names of the two ends of the list are told apart from each other by what they do, not by their place."""
    listed = [one for one in small() if one.name in (GROUP, UNEVEN, OVERLOAD)]
    rng, right = np.random.default_rng(9), 0
    for i in range(60):
        means = np.cumsum(rng.uniform(1e3, 3e3, 9)) + 3e3
        story, _ = drawn_from(rng, listed[i % 3], strength=STRENGTH, means=means, give=300.0, found_within=0.08)
        found = weigh(story=story, explanations=listed, strength=STRENGTH)
        right += found.ranked[0].name == listed[i % 3].name
    assert right > 40
