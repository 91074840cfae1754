"""Signs of a tear by other routes: SciPy on the weightless V, two lines hung by hand, strips against softer webbing."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq

from linelib.models.sag import hang
from linelib.models.seated_strips import strips_of
from linelib.models.tear_signs import tear_signs
from linelib.models.tearing import remainder
from linelib.rigging import Segment
from tests.setups import HMPE, one_webbing, straight


def sag_of_v(natural, load, span=100.0, stiffness=1e6):
    def unbalanced(sag):
        side = math.hypot(0.5 * span, sag)
        return 2.0 * stiffness * (2.0 * side / natural - 1.0) * sag / side - load

    sag = brentq(unbalanced, math.sqrt(max(natural**2 - span**2, 0.0)) / 2.0, 0.4 * span)
    return sag, stiffness * (2.0 * math.hypot(0.5 * span, sag) / natural - 1.0)


@pytest.mark.parametrize("given", [0.004, 0.03])
def test_weightless_v_by_scipy(given) -> None:
    signs = tear_signs(rig=one_webbing(straight(1e6, 1e-6)), length_given_up=given, load=800.0)
    natural = 100.0 / 1.003
    (sag, pull), (later, lower) = sag_of_v(natural, 800.0), sag_of_v(natural + given, 800.0)
    assert signs.each[1].change == pytest.approx(later - sag, rel=2e-3)
    assert signs.each[2].change == pytest.approx(lower - pull, rel=2e-3)


def test_two_hanging_lines_by_hand() -> None:
    rig = one_webbing(height_difference=6.0)
    natural = float(hang(rig=rig).natural_lengths[0])
    both = [
        hang(rig=replace(rig, pretension=None, segments=(Segment(webbing=HMPE, length=natural + g),)), load=800.0, position=0.3)
        for g in (0.0, 0.02)
    ]
    signs = tear_signs(rig=rig, length_given_up=0.02, load=800.0, position=0.3)
    assert signs.each[1].change == pytest.approx(both[1].sag - both[0].sag, rel=1e-5)
    pulls = [max(state.tension_a, state.tension_b) for state in both]
    assert signs.each[2].change == pytest.approx(pulls[1] - pulls[0], rel=1e-5)


def test_a_weakened_stretch_at_b_hung_by_hand() -> None:
    """10 m of polyamide at A, then HMPE whose last 40 m carry on half of their width; the walker a fifth of the way from A."""
    soft = straight(1e5, 0.07)
    rig = replace(one_webbing(), segments=(Segment(webbing=soft, length=10.0), Segment(webbing=HMPE)))
    main = float(hang(rig=rig).natural_lengths[1])
    lengths = ((soft, 10.0), (HMPE, main - 40.0 + 0.02), (replace(HMPE, stiffness=0.5e6), 40.0))
    after = replace(rig, pretension=None, segments=tuple(Segment(webbing=w, length=n) for w, n in lengths))
    state = hang(rig=after, load=800.0, position=0.2)
    torn = {"length_given_up": 0.02, "weakened_length": 40.0, "whole_share": 0.5}
    signs = tear_signs(rig=rig, load=800.0, position=0.2, **torn)
    assert signs.each[1].after == pytest.approx(state.sag, rel=1e-6)
    assert signs.each[2].after == pytest.approx(max(state.tension_a, state.tension_b), rel=1e-6)


def test_softer_webbing_at_the_lock_against_the_strips() -> None:
    """All tight, half gone: the strips give up the stretch of the other half, which the weakened length stretches by itself."""
    web = straight(1e6, 1e-6, breaking_strength=3e4)
    strips = strips_of(webbing=web, difference=np.zeros(10), sharing_length=0.2)
    rig = one_webbing(web)
    soft = tear_signs(rig=rig, length_given_up=0.0, load=800.0, weakened_length=0.2, whole_share=0.5)
    given = remainder(strips=strips, torn=5, tension=soft.each[3].after).length_given_up
    longer = tear_signs(rig=rig, length_given_up=given, load=800.0)
    assert given == pytest.approx(0.2 * soft.each[3].after / 1e6)
    assert longer.each[3].change == pytest.approx(soft.each[3].change, rel=0.01)
