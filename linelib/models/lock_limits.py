"""What a lock holds during a fall: up to which tension, until how much length has come out, one limit after the other."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from linelib.rigging import Setup

Array = NDArray[np.float64]
Limit = tuple[float, float]  # tension [N], length out in all [m] at which the next limit follows


def limits_of(setup: Setup) -> tuple[list[Limit], list[Limit]]:
    """The limits of the locks at A and at B, none where a lock simply holds.

    A slip load lasts for ever. A tear gives up its length at its tension; after the last one the rest holds until it parts.
    With one bay only, whose both ends are beside a lock, the lock at B is the one that tears.

    Returns: for each lock, tensions [N] and the lengths out in all [m] up to which each holds. Source: bookkeeping.
    """
    limits: list[list[Limit]] = [[(load, np.inf)] if load else [] for load in (setup.rig.slip_load_a, setup.rig.slip_load_b)]
    if setup.failure is not None and setup.failure.tears and setup.rig.backup is not None:
        out = np.cumsum([tear.length for tear in setup.failure.tears]).tolist()
        at_b = setup.failure.bay == len(setup.rig.backup.joints)
        limits[at_b] = [(tear.tension, until) for tear, until in zip(setup.failure.tears, out, strict=True)]
    return limits[0], limits[1]


class LockLimits:
    """The limits of all locks of a batch, and which one each has come to: `tension` [N] and `until` [m], (2, falls)."""

    def __init__(self, setups: Sequence[Setup]) -> None:
        rows = [limits_of(setup) for setup in setups]
        self.count = max(len(limits) for row in rows for limits in row)
        self.table = np.full((self.count + 1, 2, len(setups), 2), np.inf)
        for j, row in enumerate(rows):
            for side, limits in enumerate(row):
                self.table[: len(limits), side, j] = np.reshape(limits, (-1, 2))
        self.stage = np.zeros((2, len(setups)), dtype=np.intp)
        self._look()

    def free(self, where: NDArray[np.bool_]) -> None:
        """Take the limits [N] away, (2, falls): nothing is left in the lock."""
        self.table[:, where] = np.inf
        self._look()

    def passed(self, out: Array) -> None:
        """Go on to the next limit where the length `out` [m], (2, falls), has come to the end of one."""
        self.stage = np.where(out >= self.until, np.minimum(self.stage + 1, self.count), self.stage)
        self._look()

    def _look(self) -> None:
        now = np.take_along_axis(self.table, self.stage[None, ..., None], 0)[0]
        self.tension, self.until = now[..., 0], now[..., 1]
