"""Tearing once more, the slow way: springs one by one, the load raised in small steps, and energies by integration."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import Phase, assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from linelib.models.bundle import scattered
from linelib.models.seated_strips import strips_of
from linelib.models.seating import Seating, path_differences
from linelib.models.stretch import law_of
from linelib.models.tearing import tear
from linelib.tables import webbings

WEBBINGS = webbings()
COUNT, SHARING = 12, 0.08
NAMES = ("hmpe_25mm", "polyamide_25mm", "polyester_tubular_25mm")


def springs(name, seating, strengths, stiffening):
    """One tension function, limit and displacement at the limit a strip; nothing of linelib.models.strips."""
    webbing = WEBBINGS[name]
    law = law_of(webbing)
    gaps = path_differences(seating=seating, width=webbing.width, sharing_length=SHARING, count=COUNT)

    def tension(gap, u):
        return stiffening * float(law.tension((u - gap) / SHARING)) / COUNT

    limits = [float(s) * webbing.breaking_strength / COUNT for s in strengths]
    ends = [gap + SHARING * float(law.strain(COUNT * m / stiffening)) for gap, m in zip(gaps, limits, strict=True)]
    return [(gap, limit, tension, end) for gap, limit, end in zip(gaps, limits, ends, strict=True)]


def raise_load(whole, load):
    """The strips still whole after a load that stays: find balance, drop the strip most beyond its limit, and again."""
    whole = list(whole)
    while whole:
        far = 20.0 * SHARING + max(gap for gap, *_ in whole)
        u = brentq(lambda u: sum(f(gap, u) for gap, _, f, _ in whole) - load, 0.0, far, xtol=1e-13)
        over = [f(gap, u) / limit for gap, limit, f, _ in whole]
        if max(over) <= 1.0:
            return whole
        # the pull rises slowly: of those beyond their limit the one that came to it first has torn first
        whole.pop(int(np.argmin([ends for *_, ends in whole])))
    return whole


@settings(max_examples=8, deadline=None, phases=[Phase.explicit, Phase.reuse, Phase.generate])
@given(
    name=st.sampled_from(NAMES),
    skew=st.floats(0.0, 0.2),
    depth=st.floats(0.0, 0.004),
    share=st.sampled_from([0.25, 0.5, 0.75]),
    variation=st.sampled_from([0.0, 0.08]),
    loads=st.lists(st.floats(0.05, 0.95), min_size=1, max_size=3),
)
def test_the_same_strips_tear(name, skew, depth, share, variation, loads):
    seating = Seating(skew_angle=skew, fold_depth=depth, folded_share=share)
    webbing, strengths = WEBBINGS[name], scattered(count=COUNT, variation=variation)
    gaps = path_differences(seating=seating, width=webbing.width, sharing_length=SHARING, count=COUNT)
    strips = strips_of(webbing=webbing, difference=gaps, sharing_length=SHARING, strengths=strengths)
    forces = [1.0007 * share * webbing.breaking_strength for share in loads]
    found = tear(strips=strips, loads=forces)
    whole = springs(name, seating, strengths, 1.0)
    for state, force in zip(found, forces, strict=True):
        assume(np.all(np.abs(strips.peak_pull / force - 1.0) > 1e-4))  # on the edge rounding decides
        whole = raise_load(whole, force)
        assert len(whole) == COUNT - state.torn
        assert state.held == bool(whole)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("stiffening", [1.0, 1.6])
def test_energy_of_a_slow_draw_is_stored_or_torn(name, stiffening):
    """The ledger: work done by the pull = stored in whole strips + what torn ones had stored; to 1 part in 2000."""
    webbing = WEBBINGS[name]
    gaps = path_differences(
        seating=Seating(skew_angle=0.1, fold_depth=0.002, folded_share=0.4),
        width=webbing.width,
        sharing_length=SHARING,
        count=30,
    )
    strips = strips_of(webbing=webbing, difference=gaps, sharing_length=SHARING, stiffening=stiffening)
    end = 1.02 * float(strips.tears_at[-1])
    u = np.linspace(0.0, end, 40_001)
    pull = strips.loading(u)
    work = np.concatenate([[0.0], np.cumsum(0.5 * (pull[1:] + pull[:-1]) * np.diff(u))])
    scale = strips.torn_energy(30)
    for i in (4000, 15_000, 30_000, 40_000):
        torn = int(np.searchsorted(strips.tears_at, u[i], side="left"))
        assert work[i] == pytest.approx(strips.stored_energy(u[i], torn) + strips.torn_energy(torn), abs=5e-4 * scale)
    assert strips.torn_energy(30) == pytest.approx(work[-1], rel=1e-3)


def test_strips_are_the_springs_one_by_one():
    seating = Seating(skew_angle=0.1, rolled_width=0.006)
    strengths = scattered(count=COUNT, variation=0.05)
    for name in NAMES:
        webbing = WEBBINGS[name]
        gaps = path_differences(seating=seating, width=webbing.width, sharing_length=SHARING, count=COUNT)
        strips = strips_of(webbing=webbing, difference=gaps, sharing_length=SHARING, strengths=strengths, stiffening=1.3)
        u = 0.8 * float(strips.tears_at[0])
        one_by_one = np.array([f(gap, u) for gap, _, f, _ in springs(name, seating, strengths, 1.3)])
        assert strips.tensions(u) == pytest.approx(one_by_one[strips.place], rel=1e-4, abs=0.5)
