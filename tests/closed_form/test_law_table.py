"""The table of many laws against the laws it is sampled from, and its energy against its own integral."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import cumulative_trapezoid

from linelib import webbings
from linelib.models.law_table import KNOTS, table_of
from linelib.models.stretch import law_of
from tests.setups import straight

KINDS = {"straight": straight(1e6), "soft": straight(6e4, 0.07), **webbings()}
TABLE = table_of(tuple(KINDS.values()))
EVERY = np.arange(len(KINDS))
every_kind = pytest.mark.parametrize("row", EVERY, ids=KINDS.keys())
NAMES = list(KINDS)


@every_kind
def test_strain_and_energy_are_those_of_the_law(row):
    """Inside the table strain within 1e-6, as the table says of itself, and so energy within 1e-6 x 15 kN = 0.015 J/m.
    Beyond it goes on with the slope of its last 5 to 15 N instead of the last slope of the curve: within 0.02 %."""
    law = law_of(KINDS[NAMES[row]])
    for tension, close in (
        (np.linspace(0.0, law.last_tension, 1777), {"rel": 0.0, "abs": 1e-6}),
        (np.linspace(law.last_tension, 60e3, 100), {"rel": 2e-4}),
    ):
        which = np.full(tension.shape, row)
        assert TABLE.strain(which, tension)[0] == pytest.approx(law.strain(tension), **close)
        close = {name: 15e3 * value if name == "abs" else value for name, value in close.items()}
        assert TABLE.energy(which, tension) == pytest.approx(law.energy(tension), **close)


@every_kind
def test_compliance_is_the_slope_of_strain(row):
    """Between two knots the table is straight: the slope is exact, and close to the law's."""
    law = law_of(KINDS[NAMES[row]])
    tension = (np.arange(20, KNOTS - 2, 37) + 0.5) * TABLE.steps[row]
    which, reach = np.full(tension.shape, row), 0.3 * TABLE.steps[row]
    _, compliance = TABLE.strain(which, tension)
    slope = (TABLE.strain(which, tension + reach)[0] - TABLE.strain(which, tension - reach)[0]) / (2.0 * reach)
    assert compliance == pytest.approx(slope, rel=1e-8)
    assert compliance == pytest.approx(law.compliance(tension), rel=2e-3)
    assert np.all(compliance > 0.0)


@given(row=st.sampled_from(EVERY), tension=st.floats(0.0, 100e3))
def test_tension_is_the_inverse_of_strain(row, tension):
    which = np.array([row])
    strain, _ = TABLE.strain(which, np.array([tension]))
    assert TABLE.tension(which, strain) == pytest.approx([tension], rel=1e-9, abs=1e-6)


@every_kind
def test_energy_belongs_to_the_table_itself(row):
    """Tension over strain, summed over trapezia with the table's own corners: exact, nothing lost between law and energy."""
    tension = np.sort(np.append(TABLE.steps[row] * np.arange(KNOTS + 400), np.linspace(3.3, 17e3, 55)))
    which = np.full(tension.shape, row)
    area = cumulative_trapezoid(tension, TABLE.strain(which, tension)[0], initial=0.0)
    assert TABLE.energy(which, tension) == pytest.approx(area, rel=1e-9, abs=1e-9)
    assert area[-1] > 1.0


def test_straight_laws_by_hand_far_beyond_the_table():
    """1e6 N under 50 kN: strain 0.05, 1250 J/m. 6e4 N under 3 kN: 0.05, 75 J/m. Each from its own row of one call."""
    strain, compliance = TABLE.strain(EVERY[:2], np.array([50e3, 3e3]))
    assert strain == pytest.approx([0.05, 0.05], rel=1e-9)
    assert compliance == pytest.approx([1e-6, 1.0 / 6e4], rel=1e-9)
    assert TABLE.energy(EVERY[:2], np.array([50e3, 3e3])) == pytest.approx([1250.0, 75.0], rel=1e-9)


def test_only_straight_laws_are_called_straight():
    assert table_of((straight(1e6), straight(6e4))).straight
    assert not TABLE.straight
