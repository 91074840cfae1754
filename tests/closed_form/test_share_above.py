"""The share above a limit: by hand, against what is known in advance, and how often its intervals hold it."""

from __future__ import annotations

import numpy as np
import pytest

from linelib.studies.draws import even_points
from linelib.studies.share_above import Share, percent_interval, share_above


def shares(*parts, each=10):
    """Scrambles of which the given parts lie above 0."""
    values = np.concatenate([np.where(np.arange(each) < round(p * each), 1.0, -1.0) for p in parts])
    return share_above(values=values, scramble=np.repeat(np.arange(len(parts)), each), limit=0.0)


def test_by_hand():
    """0.2 and 0.4: sd 0.1414, over sqrt(2) 0.1, t with one degree of freedom 12.706: cut off at 0 and 1."""
    found = shares(0.2, 0.4)
    assert (found.share, found.above, found.computed) == (pytest.approx(0.3), 6, 20)
    assert found.scrambles == (0.0, 1.0)
    four = shares(0.3, 0.4, 0.4, 0.5)  # sd 0.08165, over 2: 0.040825; t with three degrees of freedom 3.1824
    assert four.scrambles == pytest.approx((0.4 - 3.1824 * 0.040825, 0.4 + 3.1824 * 0.040825), abs=1e-5)
    assert four.interval == four.scrambles


def test_a_value_at_the_limit_is_not_above_it():
    values, scramble = [1.0, 2.0, 3.0, 3.0], [0, 0, 1, 1]
    assert share_above(values=values, scramble=scramble, limit=2.0).above == 2
    assert share_above(values=values, scramble=scramble, limit=1.999).above == 3


def test_no_scatter_seen_is_no_certainty():
    """None of 20 above: Clopper and Pearson by hand, 1 - 0.025^(1/20); all of them: mirrored."""
    none, every = shares(0.0, 0.0), shares(1.0, 1.0)
    assert none.scrambles is None
    assert none.interval == pytest.approx((0.0, 1.0 - 0.025 ** (1 / 20)))
    assert every.interval == pytest.approx((0.025 ** (1 / 20), 1.0))


def test_both_intervals_against_a_known_share():
    """Of x + y, x and y from 0 to 1, a share of 0.08 lies above 1.6 and 0.02 above 1.8 (a triangle, by hand). Drawn 300 times,
    the scrambles' interval holds it about as often as it says, and is far narrower; Clopper and Pearson's nearly always."""
    for limit, true in ((1.6, 0.08), (1.8, 0.02)):
        found = []
        for seed in range(300):
            points = even_points(dimensions=2, count=32, scrambles=8, seed=seed)
            scramble = np.repeat(np.arange(8), 32)
            found.append(share_above(values=points.sum(-1).ravel(), scramble=scramble, limit=limit))
        held = np.mean([one.interval[0] <= true <= one.interval[1] for one in found])
        exact = np.mean([one.independent[0] <= true <= one.independent[1] for one in found])
        wide = np.mean([one.interval[1] - one.interval[0] for one in found])
        exact_wide = np.mean([one.independent[1] - one.independent[0] for one in found])
        assert 0.90 <= held <= 0.99
        assert exact >= 0.995
        assert wide < 0.75 * exact_wide
        assert np.mean([one.share for one in found]) == pytest.approx(true, abs=0.001)


def test_dice_are_held_by_both():
    """With independent draws the two intervals agree in width, and both hold the share of 0.3."""
    random, found = np.random.default_rng(4), []
    for _ in range(300):
        values = random.random(256)
        found.append(share_above(values=values, scramble=np.repeat(np.arange(8), 32), limit=0.7))
    for name in ("scrambles", "independent"):
        held = np.mean([getattr(one, name)[0] <= 0.3 <= getattr(one, name)[1] for one in found])
        assert 0.91 <= held <= 0.99
    ratio = np.mean([np.ptp(one.scrambles) / np.ptp(one.independent) for one in found])
    assert 0.9 < ratio < 1.3


def made(share, low, high):
    return Share(share=share, above=1, computed=100, scrambles=(low, high), independent=(0.0, 1.0))


@pytest.mark.parametrize(
    "share, words",
    [
        (made(0.273, 0.244, 0.302), "27 % (24 to 30 %)"),
        (made(0.004, 0.0, 0.012), "0.4 % (0 to 1 %)"),
        (made(0.0004, 0.0, 0.004), "under 0.1 % (0 to 0.4 %)"),
        (made(0.9996, 0.995, 1.0), "over 99.9 % (99.5 to 100 %)"),
        (made(0.0, 0.0, 0.014), "0 % (0 to 1 %)"),
    ],
)
def test_words(share, words):
    """A share that is not 0 is not shown as 0, one that is not 1 not as 100 %."""
    assert percent_interval(share) == words
