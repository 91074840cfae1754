"""How sure are we: a described fall whose inputs are known as ranges, computed over and over with cases drawn from them.

A number from ranges is only as good as the ranges. A share of cases is a share of what was put in, never the probability that
a real rig fails.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.checks import one_of, refuse
from linelib.studies.draws import Given, cases_at, checked, even_points, power_of_two
from linelib.studies.many_cases import ANCHOR, LOWEST, PERSON, Progress, Refused, SetupAt, compute_cases
from linelib.studies.share_above import Share, share_above

Array = NDArray[np.float64]
SEED, SCRAMBLES = 1013, 8
ONLY_AS_GOOD = "A number from ranges is only as good as the ranges; a share of cases is no probability that a real rig fails."
MODEL_OFF = {
    ANCHOR: 0.02,
    PERSON: 0.12,
    LOWEST: 0.01,
}  # most found (tests/independent_route), rounded up
NOT_IN_RANGES = (
    "Not in the ranges: the model itself. Where compared on this line it is within 2 % of a full two-dimensional model at the "
    "anchors, 12 % on the person, 1 % in the lowest tie-in. Both leave out the same things, and neither has been set against a "
    "measured fall."
)


@dataclass(frozen=True, kw_only=True)
class Spread:
    """An outcome over the cases [N] or [m]: 5 % of them lie under `low`, half under `median`, 95 % under `high`."""

    low: float
    median: float
    high: float


@dataclass(frozen=True, kw_only=True)
class HowSure:
    """Outcomes of the cases that could be computed; shares and spreads are of those.

    inputs : as given; values : by outcome, (computed,), 'anchor' and 'person' [N], 'lowest' [m]
    scramble : number of the scramble each of them is from, (computed,)
    asked : cases drawn; refused : those without an answer, by reason, with their counts
    """

    inputs: Mapping[str, Given]
    values: Mapping[str, Array]
    scramble: NDArray[np.intp]
    asked: int
    refused: tuple[Refused, ...]

    @property
    def computed(self) -> int:
        """How many of the cases have an answer."""
        return len(self.scramble)

    def spread(self, outcome: str) -> Spread:
        """Median and 5 to 95 % [N] or [m]. Raises: ValueError when there is no such outcome."""
        low, median, high = np.quantile(self._of(outcome), (0.05, 0.5, 0.95))
        return Spread(low=float(low), median=float(median), high=float(high))

    def evenly(self, outcome: str, count: int = 100) -> Array:
        """`count` equally likely values [N] or [m], (count,), rising: each stands for as many cases as any other.

        Raises: ValueError when there is no such outcome.
        """
        return np.asarray(np.quantile(self._of(outcome), (np.arange(count) + 0.5) / count))

    def share(self, outcome: str, limit: float) -> Share:
        """Share of the computed cases above an entered `limit` [N] or [m]. Raises: ValueError when there is none."""
        return share_above(values=self._of(outcome), scramble=self.scramble, limit=limit)

    @property
    def not_computed(self) -> str:
        """How many cases have no answer and why, in words; '' when all have one."""
        if not self.refused:
            return ""
        why = "; ".join(f"{one.count} for {one.what.replace('_', ' ')}" for one in self.refused)
        left = self.asked - self.computed
        return f"{left} of {self.asked} cases cannot be computed ({why}): shares are of the other {self.computed}."

    def _of(self, outcome: str) -> Array:
        return self.values[one_of("outcome", outcome, tuple(self.values))]


def how_sure(
    *,
    inputs: Mapping[str, Given],
    setup_at: SetupAt,
    count: int = 1024,
    seed: int = SEED,
    scrambles: int = SCRAMBLES,
    progress: Progress | None = None,
) -> HowSure:
    """The fall over `count` cases drawn from ranges, evenly spread, in batches.

    Parameters
    ----------
    inputs : name -> value or range (studies/ranges.py), in the units `setup_at` takes; independent of each other
    setup_at : name -> value, one a case, to a Setup; a ValueError is counted as a case that cannot be computed
    count, scrambles [-] : powers of two, at least 8 cases a scramble; the scrambles' scatter says how far a share may be off
    seed : the same seed gives the same cases; progress(done, total) after each chunk of 256

    Interrupted between chunks, everything is dropped.
    Returns: HowSure, forces in [N], lengths in [m].
    Raises: ValueError naming what is not possible, or saying why not one case could be computed.
    Example: only the mass unknown, 75 to 85 kg, equally likely: the median peak is that of 80 kg, for it rises with the mass.
    Source: models/fall_in_time.py; scipy.stats.qmc.Sobol; studies/share_above.py.
    Leaves out: inputs that hang together (a heavy walker with a long leash), and the error of the model (NOT_IN_RANGES).
    """
    names = checked(inputs)
    scrambles = power_of_two("scrambles", scrambles, low=2, high=64)
    count = power_of_two("count", count, low=8 * scrambles, high=2**16)
    points = even_points(dimensions=len(names), count=count // scrambles, scrambles=scrambles, seed=seed)
    cases = cases_at(inputs=inputs, points=points.reshape(count, len(names)))
    found = compute_cases(cases=cases, setup_at=setup_at, progress=progress)
    scramble = found.which // (count // scrambles)
    if len(np.unique(scramble)) < 2:
        some = "more than a few" if len(scramble) else "any"
        raise refuse("inputs", ", ".join(names), f"ranges in which {some} can be computed; here: {found.refused[0].example}")
    return HowSure(inputs=dict(inputs), values=found.values, scramble=scramble, asked=count, refused=found.refused)
