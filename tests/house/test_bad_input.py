"""Every field of every public description: what is not possible is refused with the field's name, its value and what is
allowed. A test fails when a field is in neither of the tables below.
"""

from __future__ import annotations

import math
from dataclasses import MISSING, fields, is_dataclass, replace

import pytest

import linelib
from linelib import Backup, Failure, Leash, Rig, Segment, Setup, Tear, Walker, Webbing
from tests.house.refusals import NO_NUMBER, refused, shown
from tests.setups import HMPE, one_webbing, reference_setup

TABLE = replace(HMPE, stiffness=None, strain=(0.0, 0.01, 0.03), tension=(0.0, 1e3, 4e3))
RIG = one_webbing()
BACKUP = Backup(webbing=HMPE)
SETUP = reference_setup()
TEAR = Tear(tension=5e3, length=0.1)
FAILURE = Failure(bay=1, time=1.0, tension=9e3)

# whole thing, field: numbers just outside; None added where a number must be there
NUMBERS = [
    (HMPE, "mass_per_length", [0.0, -0.05, 101.0]),
    (HMPE, "width", [0.0, -0.025, 1.1]),
    (HMPE, "breaking_strength", [0.0, -3e4, 2e15]),
    (HMPE, "stiffness", [0.0, -1e6, 2e15]),
    (HMPE, "fast_ratio", [0.99, -1.0, 21.0]),
    (HMPE, "relaxation_time", [0.0, -0.5, 2e9]),
    (HMPE, "loss_time", [-1e-3, 0.11]),
    (Segment(webbing=HMPE, length=10.0), "length", [0.0, -1.0, 1.1e4]),
    (BACKUP, "extra_length", [-0.1, 101.0]),
    (RIG, "span", [0.0, -100.0, 5001.0]),
    (RIG, "height_difference", [201.0, -201.0]),
    (RIG, "pretension", [0.0, -3e3, 2e9]),
    (RIG, "slip_load_a", [0.0, -5e3, 2e9]),
    (RIG, "slip_load_b", [0.0, -5e3, 2e9]),
    (RIG, "hung_mass_per_length", [-0.01, 101.0]),
    (SETUP.leash, "length", [0.0, -1.5, 0.19, 10.1]),
    (SETUP.leash, "stiffness", [0.0, -2e4, 99.0, 2e6]),
    (SETUP.leash, "damping", [-1.0, 1.1e4]),
    (SETUP.leash, "ring_mass", [0.0, -0.4, 11.0]),
    (SETUP.walker, "mass", [0.0, -80.0, 9.0, 301.0]),
    (SETUP.walker, "standing_height", [-0.1, 3.01]),
    (SETUP.walker, "position", [0.0, 1.0, -0.5, 1.5]),
    (SETUP, "air_density", [-0.1, 2.1]),
    (SETUP, "drag_coefficient", [-0.1, 3.1]),
    (TEAR, "tension", [0.0, -5e3, 2e6]),
    (TEAR, "length", [0.0, -0.1, 10.1]),
    (FAILURE, "bay", [-1, 0.5, 1001]),
    (FAILURE, "time", [-0.1, 21.0]),
    (FAILURE, "tension", [0.0, -5e3, 2e6]),
]
OPTIONAL = {"stiffness", "pretension", "slip_load_a", "slip_load_b", "hung_mass_per_length", "length"}
OPTIONAL_IN = {(Segment, "length"), (Webbing, "stiffness"), *((Rig, name) for name in OPTIONAL)}
OPTIONAL_IN |= {(Failure, "time"), (Failure, "tension")}
PARTS = [
    (HMPE, "name", ["", None, 3, 4.5, True]),
    (TABLE, "strain", [(0.0, 0.01), (0.0, 0.02, 0.01), (0.0, math.nan, 0.03), "0.1", 0.1, (0.0, True, 0.2), (-0.1, 0.0, 0.1)]),
    (TABLE, "tension", [(0.0, 1e3), (0.0, 2e3, 2e3), (0.0, math.inf, 4e3), "1", 5.0, (0.0, "1", 4e3), (1.0, 2.0, 3.0)]),
    (Segment(webbing=HMPE), "webbing", [None, "HMPE", 1e6, RIG]),
    (BACKUP, "webbing", [None, "HMPE", 1e6]),
    (BACKUP, "joints", ["0.5", 0.5, None, (0.5, 0.5), (0.7, 0.3), (0.0,), (1.0,), (math.nan,), (True,), ("0.5",)]),
    (RIG, "segments", [(), None, "HMPE", Segment(webbing=HMPE), (HMPE,), 3, (Segment(webbing=HMPE), None)]),
    (RIG, "backup", [HMPE, 1.5, "yes", True]),
    (SETUP, "rig", [None, "rig", HMPE]),
    (SETUP, "leash", [None, 1.5, "long"]),
    (SETUP, "walker", [None, 80.0, "somebody"]),
    (FAILURE, "tears", ["now", 3.0, None, (0.1,), TEAR, (TEAR, TEAR)]),
    (SETUP, "failure", ["soon", 1.0, True, FAILURE]),  # the last one: a rig without a backup
]


def each(table, extra):
    """Every pair of a row's thing and field with one of its bad values."""
    return [
        pytest.param(thing, field, value, id=f"{type(thing).__name__}.{field}={value!r:.40}")
        for thing, field, values in table
        for value in [*values, *extra(thing, field)]
    ]


def no_number(thing, field):
    return [*NO_NUMBER, *([] if (type(thing), field) in OPTIONAL_IN else [None])]


@pytest.mark.parametrize("thing, field, value", each(NUMBERS, no_number))
def test_numbers_in_descriptions(thing, field, value):
    head, _ = refused(lambda: replace(thing, **{field: value}))
    assert field in head
    assert shown(value) in head


@pytest.mark.parametrize("thing, field, value", each(PARTS, lambda *_: []))
def test_parts_of_descriptions(thing, field, value):
    head, _ = refused(lambda: replace(thing, **{field: value}))
    names = {"strain": ("strain", "tension"), "tension": ("strain", "tension")}.get(field, (field,))
    assert any(name in head for name in names)
    assert " = " in head


def test_no_field_was_forgotten():
    kinds = [kind for kind in vars(linelib).values() if is_dataclass(kind) and kind.__module__.startswith("linelib.")]
    described = [k for k in kinds if k in (Webbing, Segment, Backup, Rig, Leash, Walker, Tear, Failure, Setup)]
    assert len(described) == 9
    tested = {(type(thing), field) for thing, field, _ in NUMBERS + PARTS}
    assert tested == {(kind, f.name) for kind in described for f in fields(kind)}


@pytest.mark.parametrize("kind", [Webbing, Segment, Backup, Rig, Leash, Walker, Tear, Failure, Setup])
def test_descriptions_take_names_only_and_do_not_change(kind):
    needed = [f.name for f in fields(kind) if f.default is MISSING]
    with pytest.raises(TypeError):
        kind(1.0)
    if needed:
        with pytest.raises(TypeError, match=needed[0]):
            kind()
    thing = next(t for t, _, _ in NUMBERS + PARTS if type(t) is kind)
    with pytest.raises(AttributeError):
        setattr(thing, fields(kind)[0].name, None)
