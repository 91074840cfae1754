"""The share of cases above a limit, and how far it may be off because only so many cases were drawn.

Evenly spread points are not independent draws, so the usual intervals for a share (Clopper and Pearson's, Wilson's) are not
theirs. Several independent scrambles are: each gives a share of its own, and their scatter says how far their mean may be off.
Both intervals are given; neither knows anything about how good the ranges are, or the model.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike
from scipy import stats

from linelib.checks import number, refuse

Interval = tuple[float, float]
LEVEL = 0.95


@dataclass(frozen=True, kw_only=True)
class Share:
    """`share` [-] of the `computed` cases, `above` of them, and its 95 % intervals.

    scrambles : mean of the scrambles' own shares, with Student's t; None where every scramble gives the same share: no scatter
    was seen, which does not say that there is none
    independent : Clopper and Pearson's, as if the cases were independent draws; as a rule too wide for evenly spread points
    """

    share: float
    above: int
    computed: int
    scrambles: Interval | None
    independent: Interval

    @property
    def interval(self) -> Interval:
        """The interval that is said [-]: that of the scrambles, and where they show no scatter the other one."""
        return self.independent if self.scrambles is None else self.scrambles


def share_above(*, values: ArrayLike, scramble: ArrayLike, limit: float) -> Share:
    """Share of `values` above an entered `limit`.

    mean of the scrambles' shares +- t(0.975, scrambles - 1) * standard deviation / sqrt(scrambles), cut off at 0 and 1

    Parameters: values (cases,), [unit of the limit]; scramble (cases,) : number of the scramble each case is from, at least two
    of them; limit : entered, there is no default.
    Returns: Share [-].
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: scrambles with shares 0.2 and 0.4: 0.3 +- 12.7 * 0.141 / 1.414, so 0 to 1: two scrambles say nearly nothing.
    Source: Owen (2013), Monte Carlo theory, methods and examples, ch. 17 (from memory): replicated randomized sequences;
    Clopper & Pearson (1934), Biometrika 26:404 (from memory; scipy.stats.binomtest is the check).
    Leaves out: everything that is not in the values: whether the ranges are right, and the model.
    """
    above, numbers = np.asarray(values, float), np.asarray(scramble)
    limit = number("limit", limit, low=-1e12, high=1e12)
    if above.ndim != 1 or numbers.shape != above.shape or not above.size or not np.all(np.isfinite(above)):
        raise refuse("values", values, "at least one finite number for each entry of scramble")
    over = above > limit
    groups = [over[numbers == n] for n in np.unique(numbers)]
    if len(groups) < 2:
        raise refuse("scramble", len(groups), "at least two scrambles: one alone does not say how far it is off")
    count = int(over.sum())
    return Share(
        share=count / over.size,
        above=count,
        computed=int(over.size),
        scrambles=_scatter([float(group.mean()) for group in groups], count / over.size),
        independent=_exact(count, int(over.size)),
    )


def _exact(count: int, of: int) -> Interval:
    """Clopper and Pearson's interval, by the beta distribution: scipy.stats.binomtest gives the same, thirty times slower."""
    tail = 0.5 - 0.5 * LEVEL
    low = float(stats.beta.ppf(tail, count, of - count + 1)) if count else 0.0
    high = float(stats.beta.ppf(1.0 - tail, count + 1, of - count)) if count < of else 1.0
    return low, high


def _scatter(shares: Sequence[float], middle: float) -> Interval | None:
    """Interval of the mean of independent shares, about the share of all."""
    spread = float(np.std(shares, ddof=1))
    if spread < 1e-12:
        return None
    reach = float(stats.t.ppf(0.5 + 0.5 * LEVEL, len(shares) - 1)) * spread / len(shares) ** 0.5
    return max(middle - reach, 0.0), min(middle + reach, 1.0)


def percent_interval(share: Share) -> str:
    """A share and its interval in words, such as '27 % (24 to 30 %)'. A share that is not 0 is never shown as 0 %.

    Source: bookkeeping.
    """
    low, high = share.interval
    return f"{_percent(share.share)} % ({_percent(low)} to {_percent(high)} %)"


def _percent(share: float) -> str:
    """Whole percents; under 1 and over 99 with a decimal, and never rounded to 0 or 100."""
    value = 100.0 * share
    if share in (0.0, 1.0) or 1.0 <= value <= 99.0:
        return f"{value:.0f}"
    return "under 0.1" if value < 0.05 else "over 99.9" if value > 99.95 else f"{value:.1f}"
