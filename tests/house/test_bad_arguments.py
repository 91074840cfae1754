"""Every argument of every public model, and what is impossible only together: refused with the argument's name, its value
and what is allowed; and nothing that is accepted comes back as nan.
"""

from __future__ import annotations

import inspect
import math
from dataclasses import fields, replace

import numpy as np
import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

import linelib
from linelib import Rig, Segment, clearance_left, fall, fall_energy, falls, hang, weightless_v
from tests.house.refusals import NO_NUMBER, refused, shown
from tests.random_setups import setups
from tests.setups import HMPE, one_webbing, reference_setup

RIG, SETUP = one_webbing(), reference_setup()
TABLE = replace(HMPE, stiffness=None, strain=(0.0, 0.01, 0.03), tension=(0.0, 1e3, 4e3))
GIVEN = Rig(span=100.0, segments=(Segment(webbing=HMPE, length=100.5),))

CALLS = {  # good call, then its arguments with values that are not possible
    hang: (
        {"rig": RIG, "load": 800.0, "position": 0.5},
        {
            "rig": [None, "rig", SETUP],
            "load": [-1.0, 2e9, None, *NO_NUMBER[:6], [100.0, math.nan], [], ["1", 2.0]],
            "position": [0.0, 1.0, -0.2, 1.2, None, *NO_NUMBER[:6], [0.2, 0.4], [], [math.nan]],
        },
    ),
    weightless_v: (
        {"load": 800.0, "span": 100.0, "sag": 2.5, "position": 0.5},
        {
            "load": [-1.0, 2e6, None, *NO_NUMBER],
            "span": [0.0, -100.0, 5001.0, None, *NO_NUMBER],
            "sag": [0.0, -2.5, 101.0, None, *NO_NUMBER],
            "position": [0.0, 1.0, -0.2, None, *NO_NUMBER],
        },
    ),
    fall_energy: ({"setup": SETUP}, {"setup": [None, "setup", RIG, [SETUP]]}),
    fall: (
        {"setup": SETUP, "duration": 0.1},
        {"setup": [None, "setup", RIG, [SETUP]], "duration": [0.0, -1.0, 0.01, 21.0, *NO_NUMBER]},
    ),
    falls: (
        {"setups": [SETUP], "duration": 0.1, "series": False},
        {"setups": [None, "s", SETUP, [], [SETUP, None], [RIG]], "duration": [0.0, -1.0, 21.0, *NO_NUMBER]},
    ),
    clearance_left: (
        {"lowest_point": 7.0, "position": 0.5, "span": 100.0, "height_difference": 0.0, "ground": [(0, -20), (100, -20)]}
        | {"body_below": 1.0, "model_allowance": 0.5, "reach": 1.0},
        {
            "lowest_point": [None, 2e4, *NO_NUMBER],
            "position": [-0.1, 1.1, None, *NO_NUMBER],
            "span": [0.0, -100.0, None, *NO_NUMBER],
            "height_difference": [300.0, None, *NO_NUMBER],
            "ground": [None, "flat", 3.0, [], [(0.0, math.nan), (100.0, -20.0)], [(0.0, -20.0)], [(100.0, -1.0), (0.0, -1.0)]],
            "body_below": [-1.0, None, *NO_NUMBER],
            "model_allowance": [-1.0, *NO_NUMBER],
            "reach": [-1.0, None, *NO_NUMBER],
        },
    ),
}
PARAMETERS = [
    pytest.param(call, name, value, id=f"{call.__name__}.{name}={value!r:.40}")
    for call, (_, bad) in CALLS.items()
    for name, values in bad.items()
    for value in values
]


@pytest.mark.parametrize("call, name, value", PARAMETERS)
def test_arguments_of_the_models(call, name, value):
    head, _ = refused(lambda: call(**{**CALLS[call][0], name: value}))
    assert name in head
    if not isinstance(value, (list, type)):
        assert shown(value) in head


@pytest.mark.parametrize("call", CALLS)
def test_the_good_call_is_good_and_every_argument_is_in_the_table(call):
    good, bad = CALLS[call]
    call(**good)
    assert set(good) == set(inspect.signature(call).parameters)
    assert set(bad) | {"series"} >= set(good)
    with pytest.raises(TypeError):
        call(*good.values())


TOGETHER = {  # possible one by one, impossible together: name in the sentence, what is asked
    "standing above the leash": (
        "standing_height = 2.0",
        lambda: reference_setup(leash={"length": 1.9}, walker={"standing_height": 2.0}),
    ),
    "stiffness and table": ("stiffness", lambda: replace(HMPE, strain=(0.0, 0.01), tension=(0.0, 1e3))),
    "neither stiffness nor table": ("stiffness = None", lambda: replace(HMPE, stiffness=None)),
    "strain without tension": ("tension = None", lambda: replace(TABLE, tension=None)),
    "zero strain at some tension": ("strain", lambda: replace(TABLE, tension=(1.0, 1e3, 4e3))),
    "no length, no pretension": ("length = None", lambda: Rig(span=100.0, segments=(Segment(webbing=HMPE),))),
    "every length and a pretension": ("pretension = 3000.0", lambda: replace(GIVEN, pretension=3000.0)),
    "two lengths missing": (
        "pretension",
        lambda: Rig(span=100.0, pretension=3e3, segments=(Segment(webbing=HMPE), Segment(webbing=HMPE))),
    ),
    "too short to reach": (
        "length = 90.0",
        lambda: hang(rig=replace(GIVEN, segments=(Segment(webbing=linelib.webbings()["hmpe_25mm"], length=90.0),))),
    ),
    "other segments reach across": (
        "length",
        lambda: hang(
            rig=Rig(span=100.0, pretension=3e3, segments=(Segment(webbing=HMPE, length=101.0), Segment(webbing=HMPE)))
        ),
    ),
    "next to no pretension": ("pretension = 5.0", lambda: hang(rig=one_webbing(pretension=5.0))),
    "a lock that would slip at once": (
        "slip_load_a = 4000.0",
        lambda: fall(setup=reference_setup(one_webbing(slip_load_a=4e3))),
    ),
    "too long for a fall": ("span = 601.0", lambda: fall(setup=reference_setup(one_webbing(span=601.0)))),
    "too short for a fall": ("span = 4.9", lambda: fall(setup=reference_setup(one_webbing(span=4.9)))),
    "too steep for a fall": (
        "height_difference = 51.0",
        lambda: fall(setup=reference_setup(one_webbing(height_difference=51.0))),
    ),
    "unknown webbing": ("webbing = 'silk'", lambda: linelib.webbing("silk")),
    "a webbing that is no word": ("webbing = 25", lambda: linelib.webbing(25)),
}


@pytest.mark.parametrize("head, call", TOGETHER.values(), ids=TOGETHER.keys())
def test_what_is_impossible_only_together(head, call):
    assert head in refused(call)[0]


def test_an_unknown_material_is_answered_with_the_known_ones():
    _, allowed = refused(lambda: linelib.webbing("silk"))
    assert all(name in allowed for name in linelib.webbings())


def test_a_standing_height_as_long_as_the_leash_is_possible():
    assert fall(setup=reference_setup(walker={"standing_height": 1.5})).peak_tension_a > 0.0


@settings(max_examples=25, phases=(Phase.explicit, Phase.generate))
@given(setups(), st.integers(0, 3))
def test_what_is_accepted_never_comes_back_as_nan(setup, loads):
    """`hang` and `fall_energy` over the whole range of rigs; `fall` is checked in tests/independent_route/test_ledger.py."""
    places = np.linspace(0.1, 0.9, loads) if loads else 0.5
    state = hang(rig=setup.rig, load=[700.0] * loads or 0.0, position=places)
    estimate = fall_energy(setup=setup)
    numbers = [getattr(state, f.name) for f in fields(state) if f.name != "shape"]
    numbers += [getattr(state.shape, f.name) for f in fields(state.shape)]
    numbers += [estimate.standing_tension, estimate.standing_sag]
    for one in (estimate.from_standing, estimate.from_line_alone):
        numbers += [] if one is None else [one.tension, one.leash_force, one.lowest_point]
    assert all(np.all(np.isfinite(n)) for n in numbers)
    assert (estimate.from_line_alone is None) == bool(estimate.refused)
