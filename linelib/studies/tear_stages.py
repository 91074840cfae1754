"""Thresholds of a tearing sequence: at which load which stage ends, over many ways to sit in the lock at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from linelib.checks import number, refuse
from linelib.models.bundle import scattered
from linelib.models.seated_strips import strips_of
from linelib.models.strip_peaks import strip_peaks
from linelib.models.strips import Strips
from linelib.models.torn_in_fall import HIGHER
from linelib.webbing import Webbing

Array = NDArray[np.float64]
COUNT = 40  # strips: shares of the width in steps of 2.5 %
OUT_OF_REACH = 2.0  # breaking stretches: a rest longer by so much carries nothing while the tight strips tear


@dataclass(frozen=True, kw_only=True)
class Stages:
    """Tearing in stages, arrays (cells, stages): in state k the next tear comes at `load` [-], over the sound strength.

    State k goes on to a later one at load[k]; at load[-1] the line parts. `torn` and `carries` [-]: share of the width torn in
    state k, and share that carries anything just before its next tear. Rows with fewer stages repeat their last one: a stage of
    no width, which is never reached.

    Raises: ValueError naming the argument, its value and what is allowed.
    """

    load: Array
    torn: Array
    carries: Array

    def __post_init__(self) -> None:
        load = np.asarray(self.load, float)
        if load.ndim != 2 or load.size == 0 or not np.all(np.isfinite(load) & (load > 0.0)) or np.any(np.diff(load) < 0.0):
            raise refuse("load", self.load, "rows of numbers above 0, none less than the one before")
        for name in ("torn", "carries"):
            share = np.asarray(getattr(self, name), float)
            if share.shape != load.shape or not np.all((share >= 0.0) & (share <= 1.0)):
                raise refuse(name, getattr(self, name), f"numbers from 0 to 1, shape {load.shape} as load")
        for name in ("load", "torn", "carries"):
            object.__setattr__(self, name, np.asarray(getattr(self, name), float))

    def lessened(self, *, left: ArrayLike = 1.0, gone: ArrayLike = 0.0) -> Stages:
        """The same seating of webbing that keeps `left` [-] of its strength, and of whose width `gone` [-] was torn before.

        Loads times left (1 - gone), shares of what was left; arguments one number or shape (cells,).
        """
        kept = 1.0 - np.broadcast_to(np.asarray(gone, float), len(self.load))[:, None]
        factor = kept * np.broadcast_to(np.asarray(left, float), len(self.load))[:, None]
        return Stages(load=factor * self.load, torn=1.0 - kept * (1.0 - self.torn), carries=kept * self.carries)


def seated_stages(
    *,
    webbing: Webbing,
    tight: ArrayLike,
    slack: ArrayLike | None,
    spread: ArrayLike,
    sharing_length: ArrayLike,
    variation: float = 0.0,
) -> Stages:
    """Stages of webbing with a tight share; the rest is longer, and the rest of the rest longer still, evenly.

    e = 0 for the tight share, slack to slack + spread over the rest. Straight law, slack out of reach, spread 0: the tight
    share q tears at q, the rest parts at 1 - q.

    Parameters
    ----------
    webbing : its law and breaking strength, pulled as fast as in a fall
    tight [-], slack [m] (None: beyond what the tight strips can stretch), spread [m], sharing_length [m] : shape (cells,)
    variation [-] : scatter of the strips' strengths, standard deviation over mean; more stages

    Returns: Stages, loads over the breaking strength [-].
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: a quarter tight, slack out of reach: 0.25, then 0.75; torn 0, then 0.25.
    Valid: a law that scales with the strength. Source: models/strip_peaks.py; stages as models/torn_in_fall.py.
    Leaves out: a jerk when strips tear, and damage by loads that tear nothing.
    """
    number("variation", variation, low=0.0, high=1.0)
    strengths = scattered(count=COUNT, variation=variation)
    plain = strips_of(webbing=webbing, difference=np.zeros(COUNT), sharing_length=1.0, strengths=strengths,
                      stiffening=webbing.fast_ratio)  # fmt: skip
    over = np.atleast_1d(np.asarray(sharing_length, float))
    reach = OUT_OF_REACH * float(plain.tears_at.max()) * over
    rows = np.stack(np.broadcast_arrays(tight, reach if slack is None else slack, spread, over), axis=-1)
    if not np.all(np.isfinite(rows) & (rows >= 0.0)) or np.any(rows[:, 0] > 1.0) or np.any(rows[:, 3] < 1e-3):
        raise refuse(
            "tight, slack, spread, sharing_length", rows, "shares from 0 to 1, lengths from 0 m, to share over from 0.001 m"
        )
    unique, back = np.unique(rows, axis=0, return_inverse=True)
    found = [_stages(plain, row) for row in unique]
    most = max(len(one) for one in found)
    table = np.array([one + [one[-1]] * (most - len(one)) for one in found])[np.ravel(back)]
    return Stages(load=table[..., 0], torn=table[..., 1], carries=table[..., 2])


def _stages(plain: Strips, row: Array) -> list[tuple[float, float, float]]:
    """Load [-], torn and carrying share of each state for one row of tight share, slack, spread and sharing length."""
    tight, slack, spread, sharing = (float(v) for v in row)
    rest = np.arange(COUNT) - round(tight * COUNT)
    e = np.where(rest < 0, 0.0, slack + spread * rest / max(COUNT - round(tight * COUNT) - 1, 1))
    e = e - e.min()
    order, tears_at, pulls = strip_peaks(table=plain.table, difference=e, across=plain.across, sharing_length=sharing)
    before = np.maximum.accumulate(np.append(0.0, pulls[:-1]))
    first = np.flatnonzero(pulls > HIGHER * before)
    e, strength = e[order], plain.webbing.breaking_strength
    return [(float(pulls[k]) / strength, k / COUNT, float((e[k:] < tears_at[k]).sum()) / COUNT) for k in first]
