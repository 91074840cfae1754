"""What a weighing found: one account an explanation, and the share of the width that carried."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.checks import number
from linelib.studies.events import Story
from linelib.studies.explanations import Explanation

Array = NDArray[np.float64]
LEAST_FIT = 0.01  # our choice: under a hundredth of what a story that fitted in everything would reach, it does not suffice
TOLD_APART = 3.0  # Kass & Raftery (1995), J. Am. Stat. Assoc. 90:773, from memory
SCALE = ((TOLD_APART, "not told apart"), (20.0, "positive"), (150.0, "strong"), (np.inf, "very strong"))


def in_scale(factor: float) -> str:
    """What a Bayes factor [-] from 1 up is called: under 3 'not told apart', then positive, strong (20), very strong (150).

    Raises: ValueError when it is under 1. Source: Kass & Raftery (1995), J. Am. Stat. Assoc. 90:773, from memory; they call the
    lowest step not worth more than a bare mention.
    """
    if not np.isposinf(factor):
        number("factor", factor, low=1.0, high=1.8e308)
    return next((words for limit, words in SCALE if factor < limit), SCALE[-1][1])


@dataclass(frozen=True, kw_only=True)
class Account:
    """How one explanation accounts for the story: `prior` and `posterior` [-] among those listed; `evidence`, its mean
    chance of the story over its whole range (times [1/share] with an inspection); `fit` [-], its best chance over what can be
    reached at all; `cell` of that best; `share` [-], shape (classes,): chances of the share that carried, if it is right.
    """

    explanation: Explanation
    prior: float
    posterior: float
    evidence: float
    fit: float
    cell: int
    share: Array

    @property
    def name(self) -> str:
        """Name of the explanation."""
        return self.explanation.name

    @property
    def sufficient(self) -> bool:
        """Whether it can account for the story anywhere in its range; that does not make it the cause."""
        return self.fit >= LEAST_FIT


@dataclass(frozen=True, kw_only=True)
class Weighed:
    """The story, strength `median` [N] and `tolerance` [-] of the sound webbing, accounts in the order given, and the middles
    `shares` [-] of the classes of the share of the width that carried when the line was last whole."""

    story: Story
    median: float
    tolerance: float
    accounts: tuple[Account, ...]
    shares: Array

    @property
    def ranked(self) -> tuple[Account, ...]:
        """Accounts from the largest evidence down: by the events alone, whatever was believed before."""
        return tuple(sorted(self.accounts, key=lambda one: -one.evidence))

    @property
    def sufficient(self) -> tuple[Account, ...]:
        """Those that can account for the story somewhere in their range, from the largest evidence down."""
        return tuple(one for one in self.ranked if one.sufficient)

    @property
    def not_told_apart(self) -> tuple[Account, ...]:
        """The best supported of the sufficient, and those of them within a Bayes factor of 3 of it; none if none suffices."""
        return tuple(one for one in self.sufficient if bayes_factor(self.sufficient[0], one) < TOLD_APART)

    @property
    def insufficient(self) -> tuple[Account, ...]:
        """Those that cannot account for the story anywhere in their range."""
        return tuple(one for one in self.accounts if not one.sufficient)

    @property
    def carried(self) -> Array:
        """Chances [-] of the share of the width that carried, over all explanations listed, shape (classes,)."""
        return np.asarray(sum(one.posterior * one.share for one in self.accounts))

    def between(self, chance: float = 0.9) -> tuple[float, float]:
        """Shares [-] between which the share that carried lies with the `chance` [-]; as much is left out below as above.

        Within a class the chance is spread evenly. Raises: ValueError when `chance` is not from 0.01 to 0.999.
        """
        tail = 0.5 * (1.0 - number("chance", chance, low=0.01, high=0.999))
        half = 0.5 * (self.shares[1] - self.shares[0])
        edges = np.clip(np.append(self.shares - half, self.shares[-1] + half), 0.0, 1.0)
        below = np.append(0.0, np.cumsum(self.carried))
        return _where(tail, below, edges), _where(1.0 - tail, below, edges)


def _where(chance: float, below: Array, edges: Array) -> float:
    """The share [-] under which `chance` of all lies, in the class that reaches it."""
    k = int(np.searchsorted(below, chance * float(below[-1]), side="left"))
    part = (chance * float(below[-1]) - below[k - 1]) / (below[k] - below[k - 1])
    return float(edges[k - 1] + part * (edges[k] - edges[k - 1]))


def bayes_factor(one: Account, other: Account) -> float:
    """How many times as likely the story is [-] if `one` is right as if `other` is; infinite when `other` rules it out.

    Example: evidences 0.2 and 0.1: 2. Source: Bayes; ratio of evidences, without the priors.
    """
    return one.evidence / other.evidence if other.evidence > 0.0 else float("inf")
