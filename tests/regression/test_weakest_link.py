"""Numbers of the panel of the weakest link as it starts and of three anchors, kept so that a change is seen. No validation."""

from __future__ import annotations

import pytest

from linelib.panels.weakest_link_panel import WeakestLinkPanel


@pytest.fixture(scope="module")
def panel():
    return WeakestLinkPanel()


def test_as_it_starts(panel):
    found = panel.readings()
    assert found.fall.peak_tension_a == pytest.approx(9485.0, rel=5e-3)
    assert [t / found.fall.peak_tension_a for t in found.forces.tensions] == pytest.approx([0.218, 0.218, 0.616], abs=0.005)
    assert [m.times for m in found.margins.each] == pytest.approx([3.21, 2.67, 3.14, 2.35], rel=0.01)


@pytest.mark.parametrize("legs, run, jolt", [("2 tied", 0.22, 14.6), ("2 running", 1.78, 58.9), ("3 running", 0.84, 33.1)])
def test_one_leg_fails(panel, legs, run, jolt):
    lost = panel.readings(legs=legs, odd_leg=0, fails=True).lost
    assert lost.run == pytest.approx(run, abs=0.01)
    assert lost.jolt / 1e3 == pytest.approx(jolt, rel=0.02)
