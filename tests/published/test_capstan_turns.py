"""How many times a rope round a post multiplies the hold: one, two, three whole turns.

Source: the small table of exp(2 pi mu n) that accompanies the Euler-Eytelwein equation in common reference works. Status: from
memory, recomputed here by repeated multiplication (one turn's factor to the number of turns); printed to two figures or to one.
"""

from __future__ import annotations

import math

import pytest

from linelib.models.capstan import capstan_ratio

PRINTED = [  # turns, friction, factor, half of the last printed figure
    (1, 0.1, 1.9, 0.05),
    (1, 0.2, 3.5, 0.05),
    (1, 0.3, 6.6, 0.05),
    (1, 0.4, 12.0, 0.5),
    (1, 0.5, 23.0, 0.5),
    (2, 0.1, 3.5, 0.05),
    (2, 0.2, 12.0, 0.5),
    (2, 0.3, 43.0, 0.5),
    (3, 0.2, 43.0, 0.5),
    (3, 0.3, 286.0, 0.5),
]


@pytest.mark.parametrize("turns, friction, factor, half", PRINTED)
def test_printed_factors(turns: int, friction: float, factor: float, half: float) -> None:
    ratio = capstan_ratio(friction=friction, angle=2.0 * math.pi * turns)
    assert ratio == pytest.approx(factor, abs=half)
    assert ratio == pytest.approx(capstan_ratio(friction=friction, angle=2.0 * math.pi) ** turns, rel=1e-12)
