"""A setup in words: every number by hand, in the unit that stands behind it."""

from __future__ import annotations

import pytest

from linelib.rigging import Backup, Leash, Rig, Segment, Setup, Walker
from linelib.studies.in_words import in_words
from tests.setups import GRAVITY, straight


def setup() -> Setup:
    parts = (Segment(webbing=straight(1e5, 0.07), length=10.0), Segment(webbing=straight(1e6, 0.05)))
    backup = Backup(webbing=straight(5e5, 0.06), joints=(0.25, 0.5, 0.75), extra_length=1.5)
    rig = Rig(span=80.0, height_difference=2.0, segments=parts, pretension=4e3, backup=backup, hung_mass_per_length=0.08)
    return Setup(rig=rig, leash=Leash(length=1.3), walker=Walker(mass=75.0, standing_height=0.8, position=0.25))


def test_what_is_rigged() -> None:
    lines = in_words(setup=setup()).splitlines()
    assert lines[0] == "span        80.0 m, B +2.0 m; A is the static side, B the tensioning side"
    assert lines[1] == "webbing     10.00 m of made up, 70 g/m, natural length"
    assert lines[2].endswith(" m of made up, 50 g/m, natural length")
    # straight between the anchors 80.025 m; under 4 kN 10 m reach 10.4 m; the line's own sag asks for less than 5 cm more
    assert float(lines[2].split()[1]) == pytest.approx((80.025 - 10.4) / 1.004, abs=0.05)
    assert lines[3:8] == [
        "pretension  4.0 kN, nobody on the line",
        "backup      made up, joined at 3 places, each bay 1.5 m longer",
        "hung mass   80 g per metre of span",
        "walker      75 kg at 25 % of the span, from A",
        "leash       1.3 m; tie-in 0.8 m above the line at the step off",
    ]


def test_how_the_walker_stands() -> None:
    """Balance of moments: sag H = p (1 - p) (W S + w S^2 / 2), W of walker and ring, w of webbing and what hangs under it."""
    one = setup()
    words = in_words(setup=one).splitlines()[8].split()
    sag, share, pull = float(words[1]), float(words[5].strip("(")), float(words[-2])
    weight = (75.0 + one.leash.ring_mass) * GRAVITY
    own = (10.0 * 0.07 + 69.35 * 0.05 + 80.0 * 0.08) * GRAVITY / 80.0
    assert sag * pull * 1e3 == pytest.approx(0.25 * 0.75 * (weight * 80.0 + own * 80.0**2 / 2.0), rel=0.015)
    assert share == pytest.approx(100.0 * sag / 80.0, abs=0.06)
    assert 4.0 < pull < 6.0
