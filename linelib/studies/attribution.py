"""Which choice drove it: from a reference to what was rigged, every mix of the choices, and what each choice adds."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.checks import one_of
from linelib.studies.costs import AT_ONCE
from linelib.studies.mixes import Choice, all_mixes, mix_in_words
from linelib.studies.outcomes import DEMANDS, Case, Link, outcomes_of, where_possible
from linelib.studies.shapley import interactions, shapley

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Shares:
    """One outcome: `start` of the reference, `end` with every choice, `each` (choices,) and `together` (choices, choices).

    Demands in [N] and [m]; at a `place` all four are natural logarithms of load over strength [-], so that shares add up where
    the factors multiply.
    """

    outcome: str
    names: tuple[str, ...]
    place: bool
    start: float
    end: float
    each: Array
    together: Array

    @property
    def driver(self) -> int:
        """Number of the choice that adds most; the first of equals."""
        return int(np.argmax(self.each))

    def pairs(self, most: int = 3) -> list[tuple[str, str, float]]:
        """The pairs that do most together beyond their single parts, up or down, [as `each`]; those under 5 % of the largest
        share are left out."""
        i, j = np.triu_indices(len(self.each), 1)
        found = self.together[i, j]
        order = np.argsort(-np.abs(found), kind="stable")[:most]
        least = 0.05 * float(np.abs(self.each).max())
        return [(self.names[i[n]], self.names[j[n]], float(found[n])) for n in order if abs(found[n]) > least]


@dataclass(frozen=True, kw_only=True)
class Attribution:
    """Shares of every outcome, by its name, in the order of `outcomes_of`."""

    shares: Mapping[str, Shares]

    def of(self, outcome: str) -> Shares:
        """The shares of one outcome. Raises: ValueError listing the outcomes."""
        return self.shares[one_of("outcome", outcome, tuple(self.shares))]


def attribute(
    *,
    reference: Case,
    choices: Sequence[Choice],
    links: Sequence[Link] = (),
    progress: Callable[[int, int], None] | None = None,
) -> Attribution:
    """Give each choice its share of the difference between the reference and the rig with every choice in it.

    All 2^k mixes fall in one batch; a share is the Shapley value, a pair's is the Shapley interaction index.

    Parameters: reference; choices, 1 to 10, whose order does not matter; links, the places whose load over strength is asked;
    progress : called with (done, total) falls, every 256.
    Returns: Attribution, forces in [N], depth in [m], places as ln(load over strength) [-].
    Raises: ValueError when two choices give different rigs in different orders, or a mix has no answer, which is named.
    Example: a lock that keeps 0.55 of its strength adds ln(1 / 0.55) = 0.598 at the lock, and nothing elsewhere.
    Leaves out: everything between the two rigs that is no choice here. Another reference gives other shares.
    Source: studies/shapley.py; models/fall_in_time.py.
    """
    chosen = tuple(choices)
    mixes = all_mixes(reference=reference, choices=chosen)
    found = _fallen(mixes, chosen, links, progress)
    values = np.stack([of if name in DEMANDS else np.log(of) for name, of in found.items()], axis=1)
    each, together = shapley(values=values), interactions(values=values)
    names = tuple(choice.name for choice in chosen)
    shares = {
        name: Shares(
            outcome=name,
            names=names,
            place=name not in DEMANDS,
            start=float(values[0, n]),
            end=float(values[-1, n]),
            each=each[:, n],
            together=together[:, :, n],
        )
        for n, name in enumerate(found)
    }
    return Attribution(shares=shares)


def _fallen(
    mixes: Sequence[Case], chosen: Sequence[Choice], links: Sequence[Link], progress: Callable[[int, int], None] | None
) -> dict[str, Array]:
    """Outcomes of all mixes; the first one without an answer is named."""
    parts: list[dict[str, Array]] = []
    for begin in range(0, len(mixes), AT_ONCE):
        part, reasons = where_possible(
            things=mixes[begin : begin + AT_ONCE], compute=lambda some: outcomes_of(cases=some, links=links)
        )
        for mix, why in reasons.items():
            raise ValueError(f"{mix_in_words(begin + mix, chosen)} has no answer: {why}")
        parts.append(part)
        if progress is not None:
            progress(min(begin + AT_ONCE, len(mixes)), len(mixes))
    return {name: np.concatenate([part[name] for part in parts]) for name in parts[0]}
