"""The slipping lesson rig that the tests of outings start from, and rows of falls with numbers of our own."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from linelib.models.fall_in_time import fall
from linelib.rigging import Setup
from linelib.studies.falls_in_a_row import Row
from linelib.studies.lesson_rig import lesson_setup


def slipping(slip_load: float | None = 6500.0, *, extra_length: float = 1.0, **changes: Any) -> Setup:
    """The lesson rig with a lock at B that slips at `slip_load` [N], bays of the backup longer by `extra_length` [m]."""
    setup = lesson_setup(**changes)
    assert setup.rig.backup is not None
    backup = replace(setup.rig.backup, extra_length=extra_length)
    return replace(setup, rig=replace(setup.rig, slip_load_b=slip_load, backup=backup))


def made(paid: list[float], extra: float, stretch: float = 0.1) -> Row:
    """A made-up row: the lesson fall with other numbers paid out, for the book-keeping alone."""
    one = fall(setup=slipping(None))
    falls = tuple(replace(one, slip_b=p) for p in paid)
    number = len(paid)
    setup = slipping(None, extra_length=extra)
    return Row(setup=setup, falls=falls, pretension=np.full(number, 3e3), bay_stretch=np.full(number, stretch))


def numbered() -> Row:
    """Two falls with round numbers, of which A has the more in one and B in the other."""
    row, names = made([0.3, 0.2], 2.0), ("peak_tension_a", "peak_tension_b", "standing_tension_a", "standing_tension_b")
    forces = ((9e3, 7e3, 5e3, 4.5e3, 2.1e3, 7.5, 3.5), (6e3, 6.5e3, 5.5e3, 4e3, 2.4e3, 8.5, 5.0))
    names = (*names, "peak_leash_force", "lowest_point", "standing_sag")
    falls = tuple(replace(one, **dict(zip(names, row_of, strict=True))) for one, row_of in zip(row.falls, forces, strict=True))
    return replace(row, falls=falls, pretension=np.array([3e3, 1.5e3]))
