"""Regression only: what the library gave when these lines were written. No evidence that a number is right, only that it moved.

A main line of 70 m that parts 0.99 s into the fall beside the walker, 2 m of extra length. When a change of the model moves
these numbers on purpose, say why in the commit and write the new ones.
"""

from __future__ import annotations

import pytest

from linelib import Backup, Failure, fall
from tests.setups import HMPE, one_webbing, reference_setup


def test_the_catch_has_not_moved() -> None:
    rig = one_webbing(span=70.0, backup=Backup(webbing=HMPE, joints=(0.5,), extra_length=2.0))
    result = fall(setup=reference_setup(rig, walker={"position": 0.35}, failure=Failure(time=0.99)))
    assert result.lowest_point == pytest.approx(10.857, rel=3e-3)
    assert result.catch_tension_a == pytest.approx(10873.0, rel=1e-2)
    assert result.catch_leash_force == pytest.approx(5927.0, rel=2e-2)
