"""Regression only: what the library gave when these lines were written.

No evidence that a number is right, only that it moved.
"""

from __future__ import annotations

import pytest

from linelib import hang
from linelib.models.pluck import pluck
from linelib.studies.lesson_rig import lesson_setup
from tests.setups import GRAVITY

GAVE = (  # lesson rig, round trip [s], as if only the webbing swung [s], sag under 80 kg [m]
    ({}, 1.22332, 0.79799, 3.71888),
    ({"length": 40.0, "pretension": 1e4}, 0.27207, 0.17429, 0.73962),
    ({"length": 200.0, "material": "polyamide_25mm", "pretension": 1e3}, 4.66740, 3.19148, 22.50272),
)


@pytest.mark.parametrize(("changes", "there_and_back", "webbing_only", "sag"), GAVE)
def test_lesson_lines_have_not_moved(changes: dict, there_and_back: float, webbing_only: float, sag: float) -> None:
    rig = lesson_setup(**changes).rig
    found = pluck(rig=rig)
    assert found.round_trip == pytest.approx(there_and_back, rel=1e-4)
    assert found.webbing_only == pytest.approx(webbing_only, rel=1e-4)
    assert hang(rig=rig, load=80.0 * GRAVITY).sag == pytest.approx(sag, rel=1e-4)
