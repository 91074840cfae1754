"""Lesson 5 on a taut string: how far it gives at any place, and what this does to a fall there.

Source: a textbook result, the taut string under a point load (in any text on vibration or cables; Irvine 1981, Cable
Structures, among them): a load W at x moves it by W x (L - x) / (L T), so it is a spring T L / (x (L - x)). Drop on a spring:
m g + sqrt((m g)^2 + 2 m g k h), Thomson (1965), p. 110; springs in series, 1/k = 1/k1 + 1/k2.
Status: formulas, recomputed here; the drop is read in a public source and also stands in test_mass_on_a_spring.py.

The line is so soft (a hundredth of its tension for each unit of strain) and so light that it is this string at any depth:
its tension is in proportion to its length. A real line has a tension that grows, and a mass: that is what is left out.
"""

from __future__ import annotations

import numpy as np
import pytest

from linelib import hang
from linelib.studies.who_pays import over_place, tensions_of
from tests.setups import GRAVITY, one_webbing, reference_setup, straight

SPAN, PULL, MASS, LEASH, STAND = 50.0, 2e5, 80.0, 20e3, 3.0
WEIGHT, DROP = MASS * GRAVITY, 10.0 + STAND


def string(pull=PULL, stiffness=0.01 * PULL, mass=1e-3):
    return one_webbing(straight(stiffness, mass * (1.0 + pull / stiffness), loss_time=0.0), span=SPAN, pretension=pull)


def walker_on(rig):
    leash = {"length": 10.0, "stiffness": LEASH, "damping": 0.0, "ring_mass": 0.05}
    return reference_setup(rig, leash=leash, walker={"standing_height": STAND}, air_density=0.0)


@pytest.fixture(scope="module")
def along():
    """The falls of the lesson along the span, the spring of the string [N/m] and the force on the person [N] there."""
    bills = over_place(setup=walker_on(string()))
    line = PULL / (bills.over * (1.0 - bills.over) * SPAN)
    both = 1.0 / (1.0 / line + 1.0 / LEASH)
    return bills, line, both, WEIGHT + np.sqrt(WEIGHT**2 + 2.0 * WEIGHT * both * DROP)


@pytest.mark.parametrize("place", [0.05, 0.15, 0.37, 0.5, 0.8])
def test_how_far_it_gives(place):
    """1e-6: the line's own weight, 0.5 N, acts on it before and after, and cancels."""
    rig = string()
    given = hang(rig=rig, load=WEIGHT, position=place).sag - hang(rig=rig, position=place).sag
    assert given == pytest.approx(WEIGHT * place * (1.0 - place) * SPAN / PULL, rel=1e-6)


def test_pretension_for_a_standing_sag():
    """In the middle W L / (4 T): a sag of 1/40 needs ten times the weight, of 1/10 two and a half times. 1e-4, the
    interpolation: it is exact for what is a straight line in logarithms. The ring's 0.05 kg count."""
    tensions = tensions_of(setup=walker_on(string(stiffness=1.0, mass=1e-9)))
    for share, times in ((0.025, 10.0), (0.05, 5.0), (0.1, 2.5)):
        assert tensions.at(share) == pytest.approx(times * (MASS + 0.05) * GRAVITY, rel=1e-4)


def test_force_on_the_person_along_the_span(along):
    """0.6 %, found 0.3: the ring still swings by the 5 cm in 13 m that the walker's weight held it down."""
    bills, _, _, force = along
    assert bills.peak_leash_force == pytest.approx(force, rel=6e-3)
    assert bills.peak_leash_force[0] > 1.3 * bills.peak_leash_force[len(bills.over) // 2]  # the leash alone, nearly


def test_lowest_point_along_the_span(along):
    """0.1 %, found 0.04: the same swing, and the mass of the line."""
    bills, _, both, force = along
    assert bills.lowest_point == pytest.approx(10.0 + force / both, rel=1e-3)


def test_tension_at_both_anchors(along):
    """T sqrt(1 + (give / distance)^2). Standing to 1e-6. In the fall, at the nearer anchor, between that of the peak force
    and that of a ring that swings on top of it by as much as the weight had held it down: this lets the rise over T be 8 to
    11 % high. At the farther one the rise is a few N in 200 kN, less than what the ring's way along the line adds."""
    bills, line, _, force = along
    for name, distance in (("a", bills.over * SPAN), ("b", (1.0 - bills.over) * SPAN)):
        standing, peak = getattr(bills, f"standing_tension_{name}"), getattr(bills, f"peak_tension_{name}")
        least, most = (PULL * np.hypot(1.0, load / line / distance) for load in (force, force + WEIGHT))
        assert standing == pytest.approx(PULL * np.hypot(1.0, (MASS + 0.05) * GRAVITY / line / distance), rel=1e-6)
        near = distance <= 0.5 * SPAN
        assert near.sum() > 10
        assert np.all((least <= peak)[near] & (peak <= most)[near]), name
