"""What if: the fall now, and the same fall over the whole range of one choice, in one batch."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.models.fall_in_time import fall, falls
from linelib.models.fall_results import Fall, Falls
from linelib.rigging import Setup

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class WhatIf:
    """`now`: the fall as set; `over` (values,): where a fall is possible; `falls` there; `other`: those of a second rig."""

    now: Fall
    over: Array
    falls: Falls
    other: Falls | None


def what_if(
    *,
    now: Setup,
    values: Sequence[float],
    setup_at: Callable[[float], Setup],
    compare: Callable[[list[Setup]], list[Setup]] | None = None,
) -> WhatIf:
    """Compute the fall `now` and one for each of `values`, for which `setup_at` describes the setup.

    Values for which no setup can be described (a standing height above the leash's length), or whose fall is refused (a
    backup so short that it shares the load), are left out. `compare` turns the list of setups into those of a second rig,
    which are computed in the same batch. Units are those of `setup_at`; results are in [N] and [m].

    Returns: WhatIf.
    Raises: ValueError when no fall can be computed.
    Source: models/fall_in_time.py.
    """
    possible: list[float] = []
    setups: list[Setup] = []
    for value in values:
        try:
            setups.append(setup_at(value))
        except ValueError:
            continue  # not a fall at all: the curve has no point here, and the panel's own setting says why
        possible.append(value)
    others = compare(setups) if compare and setups else []
    try:
        found = falls(setups=[now, *setups, *others], series=(0,))
    except ValueError:
        fall(setup=now)  # is it the setup now that has no answer?
        kept = [i for i in range(len(setups)) if all(_falls(s) for s in (setups[i], *others[i : i + 1]))]
        possible, setups, others = [possible[i] for i in kept], [setups[i] for i in kept], [others[i] for i in kept if others]
        found = falls(setups=[now, *setups, *others], series=(0,))
    middle = 1 + len(setups)
    return WhatIf(
        now=found.series[0],
        over=np.array(possible),
        falls=found.part(1, middle),
        other=found.part(middle, middle + len(others)) if others else None,
    )


def _falls(setup: Setup) -> bool:
    """Whether the fall has an answer."""
    try:
        fall(setup=setup)
    except ValueError:
        return False
    return True
