"""Regression only: what the library gave when these lines were written. No evidence that a number is right, only that it moved.

Four lesson rigs, anchors and lowest point within 0.3 %, the force on the person within 2 %. When a change of the model moves
them on purpose, say why in the commit and write the new numbers.
"""

from __future__ import annotations

import pytest

import linelib as ll
from linelib.studies.lesson_rig import lesson_setup

GAVE = (  # setup, peak at A [N], peak at B [N], person [N], lowest tie-in [m]
    ({}, 9486.4, 9486.4, 2179.9, 6.760),
    ({"length": 62.0, "mass": 95.0, "leash_length": 2.5, "standing_height": 1.4}, 14958.8, 14958.8, 4386.8, 6.843),
    ({"length": 140.0, "insert_length": 8.0}, 6792.8, 6800.3, 1655.8, 9.204),
    ({"material": "polyamide_25mm", "position": 0.1, "pretension": 1500.0}, 3432.0, 2399.8, 1872.4, 6.542),
)


@pytest.mark.parametrize(("changes", "a", "b", "person", "lowest"), GAVE)
def test_lesson_falls_have_not_moved(changes: dict, a: float, b: float, person: float, lowest: float) -> None:
    fall = ll.fall(setup=lesson_setup(**changes))
    assert fall.peak_tension_a == pytest.approx(a, rel=3e-3)
    assert fall.peak_tension_b == pytest.approx(b, rel=3e-3)
    assert fall.peak_leash_force == pytest.approx(person, rel=2e-2)
    assert fall.lowest_point == pytest.approx(lowest, rel=3e-3)
