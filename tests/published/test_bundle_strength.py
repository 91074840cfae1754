"""Bundles of strips with scattered strengths, and two strands of unequal length.

Source: Daniels (1945), Proc. R. Soc. Lond. A 183:405; Coleman (1958), J. Mech. Phys. Solids 7:60.
Status: the published numbers are from memory; an independent recomputation reproduces them.
Weibull shape r: bundle over fibre mean (r e)^(-1/r)/Gamma(1 + 1/r) for very many strips; for few strips by counting.
"""

from __future__ import annotations

import numpy as np
import pytest

from linelib.models.bundle import bundle_strength, weibull_strengths
from linelib.models.seated_strips import strips_of
from linelib.webbing import Webbing

WEBBING = Webbing(name="made up", stiffness=1e6, mass_per_length=0.05, width=0.025, breaking_strength=30e3)


def bundle(strengths):
    """Strength left of equally long strips, over that of strips of strength 1."""
    strips = strips_of(webbing=WEBBING, difference=np.zeros(len(strengths)), sharing_length=0.1, strengths=strengths)
    return strips.strength_left() / WEBBING.breaking_strength


@pytest.mark.parametrize(("shape", "published"), [(5, 0.6463), (10, 0.7555), (20, 0.8412)])
def test_large_bundles(shape, published):
    strengths = weibull_strengths(shape=shape, chance=(np.arange(2000) + 0.5) / 2000)
    assert bundle(strengths) == pytest.approx(published, abs=6e-4)
    assert bundle_strength(strengths) == pytest.approx(published, abs=6e-4)


@pytest.mark.parametrize(("count", "published"), [(2, 0.8767), (5, 0.7757)])
def test_small_bundles(count, published):
    """Mean over 400 000 bundles drawn at random; its own error is about 0.0003."""
    chance = np.random.default_rng(1945).uniform(1e-12, 1.0 - 1e-12, (400_000, count))
    strengths = weibull_strengths(shape=5, chance=chance)
    assert strengths.mean() == pytest.approx(1.0, abs=1e-3)
    assert bundle_strength(strengths).mean() == pytest.approx(published, abs=1e-3)
    assert [bundle(s) for s in strengths[:20]] == pytest.approx(bundle_strength(strengths[:20]), rel=1e-6)


@pytest.mark.parametrize("slack", [0.0, 0.3e-3, 1e-3, 2.5e-3])
def test_two_equal_strands_of_unequal_length(slack):
    """Breaking strain eb, the second strand longer by s (a strain): the first breaks at 1 - s/(2 eb) of the ideal pull."""
    strips = strips_of(webbing=WEBBING, difference=[0.0, slack], sharing_length=0.1)
    s, eb = slack / 0.1, 0.03
    assert strips.peak_pull[0] / WEBBING.breaking_strength == pytest.approx(1.0 - s / (2.0 * eb), rel=1e-9)
