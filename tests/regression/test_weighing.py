"""Numbers of the invented story as they are now; no evidence that they are right, only that they have not moved unnoticed."""

from __future__ import annotations

import pytest

from linelib.panels.controls import starts
from linelib.panels.weighing_settings import quarry_rivals, weighed_of, weighing_controls

CONTROLS = weighing_controls()
MOVED = {
    "start": ({}, (0.0, 0.493, 0.481, 0.026, 0.0), (0.469, 0.799)),
    "wrong card": ({"card": "wrong card"}, (0.0, 0.364, 0.330, 0.306, 0.0), (0.236, 0.990)),
    "never made": ({"fifth": "never"}, (0.274, 0.258, 0.231, 0.226, 0.010), (0.490, 0.807)),
}


@pytest.mark.parametrize("name", MOVED)
def test_the_story(name) -> None:
    moved, chances, between = MOVED[name]
    found = weighed_of({**starts(CONTROLS), **moved}, CONTROLS, quarry_rivals()).found
    assert [one.posterior for one in found.accounts] == pytest.approx(chances, abs=0.002)
    assert found.between(0.9) == pytest.approx(between, abs=0.006)
