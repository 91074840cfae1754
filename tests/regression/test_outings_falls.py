"""Regression only: what a series of falls gave when these lines were written. No evidence that a number is right.

The lesson rig with a lock that slips at 6.5 kN, four falls; within 1 %, the force on the person within 3 %.
"""

from __future__ import annotations

import pytest

from linelib.studies.falls_in_a_row import falls_in_a_row
from linelib.studies.outings import outings
from tests.lesson_slip import slipping

GAVE = {
    "anchor": (6668.5, 6668.2, 6706.0, 6667.6),
    "standing_b": (5676.1, 4365.3, 3882.8, 3594.4),
    "lowest": (7.341, 7.983, 8.484, 8.850),
    "line_longer": (0.317, 0.492, 0.623, 0.747),
    "pretension": (3000.0, 1061.9, 628.7, 478.3),
}
PERSON = (1775.4, 1911.6, 2040.2, 2009.2)


def test_four_falls_have_not_moved() -> None:
    series = outings(row=falls_in_a_row(setup=slipping(), count=4))
    for name, wanted in GAVE.items():
        assert getattr(series, name) == pytest.approx(wanted, rel=1e-2), name
    assert series.person == pytest.approx(PERSON, rel=3e-2)
