"""Numbers of the lesson on what a crew can know, as they were; last, and not a proof of anything."""

from __future__ import annotations

import pytest

from linelib.models.tear_signs import tear_signs
from linelib.studies.lesson_rig import lesson_setup


@pytest.mark.parametrize(
    ("length", "times"),
    [
        (25.0, [0.696726, 0.1231517, 0.247236, 0.393572, 0.1282641]),
        (100.0, [0.696726, 0.1221508, 0.0613812, 0.0963834, 0.1189505]),
        (200.0, [0.696726, 0.1210607, 0.0296927, 0.0442631, 0.1082426]),
    ],
)
def test_lesson_rig(length, times) -> None:
    signs = tear_signs(rig=lesson_setup(length=length).rig, length_given_up=0.00348363, load=785.0)
    assert [sign.times for sign in signs.each] == pytest.approx(times, rel=2e-4)
