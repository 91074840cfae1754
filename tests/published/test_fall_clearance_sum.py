"""The sum of heights in lesson 5: a fall-clearance chart as it is printed for employees' fall arrest.

Source: 29 CFR 1926.502(d)(16)(iii) and (iv), free fall at most 6 ft and deceleration distance at most 3.5 ft; with 6 ft of
body below the attachment and 3 ft of margin, charts print 18.5 ft under an anchorage level with the attachment. Status: the
numbers are from memory; the sum is recomputed, 6 + 3.5 + 6 + 3 = 18.5. Reference values of another system (full-body
harness, absorber, rigid anchorage): no limit and no clearance for a walker on a line, whose own fall is far longer.
"""

from __future__ import annotations

import pytest

from linelib import clearance_left

FOOT = 0.3048  # m, exact
CHART = {"lowest_point": 9.5 * FOOT, "body_below": 6.0 * FOOT, "model_allowance": 3.0 * FOOT}


def left(ground, **changes):
    """What is left [ft] over flat ground at a height [ft]."""
    flat = ((0.0, ground * FOOT), (20.0, ground * FOOT))
    given = {"position": 0.5, "span": 20.0, "height_difference": 0.0, "ground": flat, **CHART, **changes}
    return clearance_left(**given).clearance / FOOT


def test_nothing_is_left_where_the_chart_ends():
    assert left(-18.5) == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("more", [-3.0, 0.1, 10.0])
def test_every_foot_of_ground_counts_once(more):
    assert left(-18.5 - more) == pytest.approx(more, abs=1e-12)


def test_every_foot_of_the_chart_counts_once():
    """1 ft more of fall, of body or of margin: 1 ft less; the place is where the line is, half way up to a higher anchor."""
    for name, value in CHART.items():
        assert left(-18.5, **{name: value + FOOT}) == pytest.approx(-1.0, abs=1e-12)
    assert left(-18.5, height_difference=8.0 * FOOT) == pytest.approx(4.0, abs=1e-12)
