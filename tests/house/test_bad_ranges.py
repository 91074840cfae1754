"""Ranges, draws and studies over them that are not possible are refused: name, value, what is allowed."""

from __future__ import annotations

import math

import numpy as np
import pytest

from linelib import webbings
from linelib.studies.draws import even_points
from linelib.studies.how_sure import how_sure
from linelib.studies.lesson_unsure import unsure_setup
from linelib.studies.ranges import Normal, OneOf, Triangular, Uniform
from linelib.studies.share_above import share_above
from linelib.studies.what_matters import design, indices, what_matters
from tests.house.refusals import NO_NUMBER, refused, shown

TABLE = webbings()
GOOD = {
    Normal: {"mean": 80.0, "sd": 5.0, "low": 60.0, "high": 100.0},
    Uniform: {"low": 1.0, "high": 2.0},
    Triangular: {"low": 1.0, "mode": 1.5, "high": 2.0},
}
WRONG = [
    *((Normal, name, v) for name in ("mean", "sd", "low", "high") for v in NO_NUMBER),
    *((Normal, "sd", v) for v in (0.0, -5.0)),
    (Normal, "high", 60.0),
    (Normal, "high", 50.0),
    *((kind, name, v) for kind in (Uniform, Triangular) for name in ("low", "high") for v in (*NO_NUMBER, None)),
    (Uniform, "high", 1.0),
    (Uniform, "high", 0.5),
    (Triangular, "high", 1.0),
    *((Triangular, "mode", v) for v in (0.9, 2.1, *NO_NUMBER, None)),
]


@pytest.mark.parametrize(("kind", "name", "value"), WRONG)
def test_arguments_of_a_range(kind, name, value):
    head, _ = refused(lambda: kind(**{**GOOD[kind], name: value}))
    assert head.startswith(f"{name} = ")
    if not isinstance(value, (list, type)):
        assert shown(value) in head


INPUTS = {"mass": Uniform(low=75.0, high=85.0), "leash_length": 1.5, "standing_height": 1.0, "pretension": 3e3}


def sure(**more):
    return how_sure(**{"inputs": INPUTS, "setup_at": lambda case: unsure_setup(case, table=TABLE), "count": 64, **more})


def matters(**more):
    return what_matters(**{"inputs": INPUTS, "setup_at": lambda case: unsure_setup(case, table=TABLE), "count": 64, **more})


OTHERS = {
    "bounds far from the mean": ("low, high = (200.0, None)", lambda: Normal(mean=80.0, sd=5.0, low=200.0)),
    "a list of one": ("values = (1.0,)", lambda: OneOf(values=(1.0,))),
    "words in place of a list": ("values = 'hmpe'", lambda: OneOf(values="hmpe")),
    "no number in a list": ("values = nan", lambda: OneOf(values=(1.0, math.nan))),
    "a value twice": ("values = (1.0, 1.0)", lambda: OneOf(values=(1.0, 1.0))),
    "too few weights": ("weights = (1.0,)", lambda: OneOf(values=(1.0, 2.0), weights=(1.0,))),
    "a weight of nothing": ("weights = 0.0", lambda: OneOf(values=(1.0, 2.0), weights=(1.0, 0.0))),
    "weights that are words": ("weights = 'ab'", lambda: OneOf(values=(1.0, 2.0), weights="ab")),
    "a probability of 0": ("probability = 0.0", lambda: Uniform(low=1.0, high=2.0).at(0.0)),
    "a probability of 1": ("probability = [0.5, 1.0]", lambda: OneOf(values=(1.0, 2.0)).at([0.5, 1.0])),
    "no probability": ("probability = nan", lambda: Normal(mean=1.0, sd=1.0).at(math.nan)),
    "points that are no power of two": ("count = 100", lambda: even_points(dimensions=2, count=100, scrambles=2, seed=1)),
    "half a dimension": ("dimensions = 1.5", lambda: even_points(dimensions=1.5, count=64, scrambles=2, seed=1)),
    "a seed below zero": ("seed = -1.0", lambda: even_points(dimensions=2, count=64, scrambles=2, seed=-1)),
    "a seed that is no number": ("seed = None", lambda: design(dimensions=2, count=64, seed=None)),
    "no mapping": ("inputs = None", lambda: sure(inputs=None)),
    "values only": ("inputs = {'mass': 80.0}", lambda: sure(inputs={"mass": 80.0})),
    "an input that is neither": ("mass = None", lambda: sure(inputs={**INPUTS, "mass": None})),
    "an input that is true": ("leash_length = True", lambda: sure(inputs={**INPUTS, "leash_length": True})),
    "an input that is no number": ("leash_length = nan", lambda: sure(inputs={**INPUTS, "leash_length": math.nan})),
    "cases that are no power of two": ("count = 1000", lambda: sure(count=1000)),
    "too few cases a scramble": ("count = 32.0", lambda: sure(count=32)),
    "one scramble": ("scrambles = 1.0", lambda: sure(scrambles=1)),
    "three scrambles": ("scrambles = 3", lambda: sure(scrambles=3)),
    "an outcome there is not": ("outcome = 'knee'", lambda: sure().spread("knee")),
    "no limit": ("limit = None", lambda: sure().share("anchor", None)),
    "no limit as a number": ("limit = nan", lambda: sure().share("anchor", math.nan)),
    "rows that are no power of two": ("count = 100", lambda: matters(count=100)),
    "a ranking of an outcome there is not": ("outcome = 'knee'", lambda: matters().ranking("knee")),
    "a ranking where nothing moves": (
        "outcome = 3.0",
        lambda: indices(names=("x",), base=np.full((2, 8), 3.0), mixed=np.full((1, 8), 3.0)),
    ),
    "a ranking of numbers that are none": (
        "mixed = 'shape (1, 8)'",
        lambda: indices(names=("x",), base=np.arange(16.0).reshape(2, 8), mixed=np.full((1, 8), np.nan)),
    ),
    "a ranking with a row too few": (
        "mixed = 'shape (1, 8)'",
        lambda: indices(names=("x", "y"), base=np.arange(16.0).reshape(2, 8), mixed=np.ones((1, 8))),
    ),
    "values that are none": ("values = [nan]", lambda: share_above(values=[math.nan], scramble=[0], limit=1.0)),
    "no values": ("values = []", lambda: share_above(values=[], scramble=[], limit=1.0)),
    "a scramble for another count": ("values = [1.0]", lambda: share_above(values=[1.0], scramble=[0, 1], limit=1.0)),
    "one scramble only": ("scramble = 1", lambda: share_above(values=[1.0, 2.0], scramble=[0, 0], limit=1.0)),
}


@pytest.mark.parametrize("case", OTHERS)
def test_what_is_not_possible(case):
    sentence, ask = OTHERS[case]
    head, _ = refused(ask)
    assert head.startswith(sentence), head


def test_no_ranking_where_a_single_case_is_refused():
    """A tie-in no higher than the leash is long ties the two together: no ranking for inputs that hang together."""
    inputs = {**INPUTS, "leash_length": Uniform(low=1.0, high=2.0), "standing_height": 1.01}
    with pytest.raises(
        ValueError, match=r"inputs = 'mass, leash_length' is not possible; allowed: ranges in which every"
    ) as why:
        matters(inputs=inputs, progress=lambda done, total: pytest.fail("fell before it was refused"))
    assert "of 256 looked at" in str(why.value)
    assert "standing_height = 1.01" in str(why.value)
