"""The tension during a fall, found again from nothing but the moving shape of the line and the laws of its webbing.

A side of the ring is as long as its polygon. Its strain follows from that, its tension from the strain: by the law of a
straight webbing, or by `relaxed_tension`, which solves the standard linear solid apart from the fall. Lines of one webbing,
walker in the middle of level anchors, no dashpot in the webbing.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from linelib import fall, hang, webbings
from linelib.models.chain import chain_of
from linelib.models.stretch import law_of, relaxed_tension
from tests.setups import one_webbing, reference_setup, straight

SPAN, RING = 60.0, 0.4
FAST = {
    "straight": straight(4e5, loss_time=0.0, fast_ratio=1.8, relaxation_time=0.3),
    "polyamide": replace(webbings()["polyamide_25mm"], loss_time=0.0),
    "polyester": replace(webbings()["polyester_25mm"], loss_time=0.0, fast_ratio=2.0, relaxation_time=0.1),
}


def strain_over_time(result, rig, webbing):
    """Strain of side A over time, its natural length [m] half of the line's: grown from that of the standing line."""
    middle = int(np.argmin(np.abs(result.line_x[0] - 0.5 * SPAN)))
    steps = np.diff(result.line_x[:, : middle + 1], axis=1), np.diff(result.line_z[:, : middle + 1], axis=1)
    long, half = np.hypot(*steps).sum(1), 0.5 * hang(rig=rig).natural_lengths[0]
    standing = float(law_of(webbing).strain(result.standing_tension_a))
    return standing + (long - long[0]) / half, half


@pytest.mark.parametrize("webbing", FAST.values(), ids=FAST.keys())
def test_webbing_that_is_stiffer_when_pulled_fast(webbing):
    """2 % of the peak over the whole fall and half a percent at the peak: one Newton step a time step lags where the freed
    line whips. Relaxing three times as fast, or as slowly, would show."""
    rig = one_webbing(webbing, span=SPAN, pretension=2e3)
    result = fall(setup=reference_setup(rig), duration=2.0)
    strain, _ = strain_over_time(result, rig, webbing)

    def again(relaxation_time):
        other = replace(webbing, relaxation_time=relaxation_time)
        return relaxed_tension(webbing=other, strain=strain, time=result.time)[0]

    expected = again(webbing.relaxation_time)
    assert result.tension_a == pytest.approx(expected, abs=0.02 * expected.max())
    assert result.peak_tension_a == pytest.approx(expected.max(), rel=5e-3)
    for wrong in (webbing.relaxation_time / 3.0, 3.0 * webbing.relaxation_time):
        assert np.abs(again(wrong) - expected).max() > 0.03 * expected.max()


def test_what_a_lock_has_paid_out_is_in_the_line():
    """After a slip the natural length of that side is longer by what was paid out: EA (stretched / natural - 1)."""
    webbing, slip = straight(4e5, loss_time=0.0), 6e3
    rig = one_webbing(webbing, span=SPAN, pretension=2e3, slip_load_a=slip)
    result = fall(setup=reference_setup(rig))
    strain, half = strain_over_time(result, rig, webbing)
    assert result.peak_tension_a == pytest.approx(slip, rel=1e-9)
    assert result.slip_a > 0.05
    end = 4e5 * (half * (1.0 + strain[-1]) / (half + result.slip_a) - 1.0)
    assert result.tension_a[-1] == pytest.approx(end, rel=2e-3)
    forgotten = 4e5 * (half * (1.0 + strain[-1]) / half - 1.0)
    assert abs(result.tension_a[-1] / forgotten - 1.0) > 0.1


@pytest.mark.parametrize("span", [20.0, 60.0, 200.0])
def test_a_third_of_the_line_moves_along_with_the_ring(span):
    """Places between anchor and ring move along in proportion to their distance from the anchor: a third of the line's
    mass, and of n lumps a side 1 / (2 n^2) of this more; the ring itself in full."""
    rig = one_webbing(span=span)
    chain = chain_of([reference_setup(rig)])
    line = 0.05 * hang(rig=rig).natural_lengths[0]
    fewest = min(chain.ring, len(chain.share) - chain.ring)
    third = float(chain.mass_x[0] - RING) / (line / 3.0)
    assert 1.0 < third <= 1.0 + 0.5 / fewest**2 + 1e-6
