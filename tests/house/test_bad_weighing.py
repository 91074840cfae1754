"""Stories, explanations and weights that are not possible are refused by name."""

from __future__ import annotations

import math

import numpy as np
import pytest

from linelib.studies.events import NOISE, PARTED, QUIET, UNKNOWN, Event, Hearing, Inspection, Story
from linelib.studies.explanations import Explanation, Range
from linelib.studies.rival_explanations import rivals
from linelib.studies.sound_strength import Strength
from linelib.studies.tear_stages import Stages, seated_stages
from linelib.studies.weighed import in_scale
from linelib.studies.weighing import state_chances, weigh
from linelib.tables import webbings
from tests.house.refusals import NO_NUMBER, refused, shown

WEB = webbings()["hmpe_25mm"]
GOOD = Event(load=8e3, uncertainty=300.0, seen=QUIET)
BROKE = Event(load=9e3, uncertainty=300.0, seen=PARTED)
STAGES = Stages(load=[[8.0]], torn=[[0.0]], carries=[[1.0]])
ONE = Explanation(name="one", words="one", ranges=(Range(name="row", words="row", values=(0.0,)),), sequence=lambda _: STAGES)
STRENGTH = Strength(median=1e3, tolerance=0.1)
MAKERS = {
    "load": lambda v: Event(load=v, uncertainty=300.0, seen=QUIET),
    "uncertainty": lambda v: Event(load=8e3, uncertainty=v, seen=QUIET),
    "torn": lambda v: Inspection(torn=v, uncertainty=0.1, after=0),
    "trust": lambda v: Inspection(torn=0.3, uncertainty=0.1, after=0, trust=v),
    "heard": lambda v: Hearing(heard=v, stray=0.0),
    "stray": lambda v: Hearing(heard=0.5, stray=v),
    "median": lambda v: Strength(median=v, tolerance=0.1),
    "tolerance": lambda v: Strength(median=3e4, tolerance=v),
    "variation": lambda v: rivals(webbing=WEB, variation=v),
}
BEYOND = {
    "load": (-1.0, 1.1e6),
    "uncertainty": (0.9, 1.1e6),
    "torn": (-0.01, 1.01),
    "trust": (-0.01, 1.01),
    "heard": (-0.01, 1.01),
    "stray": (-0.01, 0.51),
    "median": (99.0, 1.1e6),
    "tolerance": (-0.01, 0.51),
    "variation": (-0.01, 1.01),
}


@pytest.mark.parametrize(("name", "value"), [(n, v) for n, values in BEYOND.items() for v in (*values, *NO_NUMBER)])
def test_numbers(name, value) -> None:
    head, _ = refused(lambda: MAKERS[name](value))
    assert head.startswith(f"{name} = ")
    if not isinstance(value, (list, type)):
        assert shown(value) in head


def told(*events, **more):
    return Story(events=events, **more)


def card(after):
    return Inspection(torn=0.3, uncertainty=0.1, after=after)


def listed(count=1, **changes):
    values = tuple(float(i) for i in range(count))
    known = {
        "name": "x",
        "words": "x",
        "ranges": (Range(name="row", words="row", values=values),),
        "sequence": lambda _: STAGES,
    }
    return Explanation(**{**known, **changes})


def weighed(explanations=(ONE,), **more):
    return weigh(story=told(GOOD), explanations=explanations, strength=STRENGTH, **more)


REFUSALS = {
    "seen, a word of its own": ("seen = 'held'", lambda: Event(load=8e3, uncertainty=300.0, seen="held")),
    "chances of a word": ("seen = 'fine'", lambda: Hearing().chances("fine")),
    "a card read to nothing": ("uncertainty = 0.004", lambda: Inspection(torn=0.3, uncertainty=0.004, after=0)),
    "a card read to all": ("uncertainty = 0.6", lambda: Inspection(torn=0.3, uncertainty=0.6, after=0)),
    "a card after minus one": ("after = -1", lambda: card(-1)),
    "a card after half an event": ("after = 0.5", lambda: card(0.5)),
    "a card after True": ("after = True", lambda: card(True)),
    "no events": ("events = ()", lambda: told()),
    "a list of events": ("events = [", lambda: Story(events=[GOOD])),
    "forty-one events": ("events = (", lambda: told(*[GOOD] * 41)),
    "an event in words": ("events[1] = 'held'", lambda: told(GOOD, "held")),
    "a load on a line that parted": ("events[0].seen = 'parted'", lambda: told(BROKE, GOOD)),
    "a card after more than there was": ("inspection.after = 2", lambda: told(GOOD, inspection=card(2))),
    "a card after the line parted": ("inspection.after = 2", lambda: told(GOOD, BROKE, inspection=card(2))),
    "a card in words": ("inspection = 'torn'", lambda: told(GOOD, inspection="torn")),
    "no hearing": ("hearing = None", lambda: told(GOOD, hearing=None)),
    "a story in words": ("story = 'it broke'", lambda: state_chances(story="it broke", stages=STAGES, strength=STRENGTH)),
    "stages that fall": ("load = ", lambda: Stages(load=[[0.5, 0.4]], torn=[[0.0, 0.1]], carries=[[1.0, 0.9]])),
    "stages at nothing": ("load = ", lambda: Stages(load=[[0.0]], torn=[[0.0]], carries=[[1.0]])),
    "stages without end": ("load = ", lambda: Stages(load=[[math.inf]], torn=[[0.0]], carries=[[1.0]])),
    "stages in a row": ("load = ", lambda: Stages(load=[0.5], torn=[0.0], carries=[1.0])),
    "more torn than there is": ("torn = ", lambda: Stages(load=[[0.5]], torn=[[1.1]], carries=[[1.0]])),
    "shares of another shape": ("carries = ", lambda: Stages(load=[[0.5]], torn=[[0.0]], carries=[[1.0, 1.0]])),
    "a tight share above all": ("tight, slack, spread, sharing_length = ", lambda: seated(tight=1.1)),
    "a negative slack": ("tight, slack, spread, sharing_length = ", lambda: seated(slack=-1e-3)),
    "a spread of nan": ("tight, slack, spread, sharing_length = ", lambda: seated(spread=math.nan)),
    "shared over nothing": ("tight, slack, spread, sharing_length = ", lambda: seated(sharing_length=0.0)),
    "everything gone before": ("load = ", lambda: STAGES.lessened(gone=1.0)),
    "a range of nothing": ("values of q = ()", lambda: Range(name="q", words="q", values=())),
    "a range in a list": ("values of q = [1.0]", lambda: Range(name="q", words="q", values=[1.0])),
    "a range of nan": ("values[1] of q = nan", lambda: Range(name="q", words="q", values=(1.0, math.nan))),
    "a range in words": ("ranges = 'q'", lambda: listed(ranges=("q",))),
    "too many cells": ("ranges = 20001", lambda: listed(20001)),
    "too few rows": ("rows of the sequence of x = 1", lambda: listed(2).stages),
    "a sequence of numbers": ("sequence of x = 1.0", lambda: listed(sequence=lambda _: 1.0).stages),
    "webbing in words": ("webbing = 'HMPE'", lambda: rivals(webbing="HMPE")),
    "no explanation": ("explanations = []", lambda: weighed([])),
    "two of one name": ("explanations = ['one', 'one']", lambda: weighed([ONE, ONE])),
    "too many weights": ("prior = [1.0, 1.0]", lambda: weighed(prior=[1.0, 1.0])),
    "no weight": ("prior = [0.0]", lambda: weighed(prior=[0.0])),
    "a negative weight": ("prior[0] = -1.0", lambda: weighed(prior=[-1.0])),
    "a weight of nan": ("prior[0] = nan", lambda: weighed(prior=[math.nan])),
    "a story nobody gives a chance": ("explanations = ['one']", lambda: weigh(
        story=told(Event(load=1e5, uncertainty=1.0, seen=QUIET)), explanations=[ONE], strength=STRENGTH)),
    "a range of all": ("chance = 1.0", lambda: weighed().between(1.0)),
    "a factor under 1": ("factor = 0.9", lambda: in_scale(0.9)),
    "a factor of nan": ("factor = nan", lambda: in_scale(math.nan)),
}  # fmt: skip


def seated(**changes):
    known = {"tight": 0.25, "slack": 1e-3, "spread": 0.0, "sharing_length": 0.1}
    return seated_stages(webbing=WEB, **{**known, **changes})


@pytest.mark.parametrize("case", REFUSALS)
def test_what_is_refused(case) -> None:
    start, ask = REFUSALS[case]
    head, _ = refused(ask)
    assert head.startswith(start)


def test_what_stands_at_the_edge_is_taken() -> None:
    story = told(GOOD, Event(load=0.0, uncertainty=1.0, seen=UNKNOWN), inspection=card(2))
    assert not story.parted
    assert told(Event(load=1e6, uncertainty=1e6, seen=NOISE), BROKE, inspection=card(1)).parted
    assert Hearing(heard=0.0, stray=0.0).chances(QUIET) == (1.0, 1.0, 0.0)
    assert np.all(np.isfinite(weighed().carried))
