"""What a change costs: all outcomes of cases, with the backup's reserve; and outcomes of cases that may have no answer."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from linelib.models.backup_reserve import least_extra_lengths
from linelib.studies.knobs import no_slack
from linelib.studies.outcomes import ANCHOR_A, ANCHOR_B, DEMANDS, WEAKEST, Case, Link, outcomes_of, where_possible

Array = NDArray[np.float64]
RESERVE = "backup's reserve"
AT_ONCE = 256  # falls between two reports of progress


def names_of(links: Sequence[Link]) -> tuple[str, ...]:
    """Names of all outcomes, in the order of `outcomes_of`."""
    return (*DEMANDS, *(link.name for link in links), *((WEAKEST,) if links else ()))


def costs_of(*, cases: Sequence[Case], links: Sequence[Link] = ()) -> list[dict[str, float]]:
    """All outcomes of each case [N], [m], [-], and what is left of the backup's extra length before it would share the load.

    reserve [m] = extra length - the longest stretch of a bay at the higher peak; with a backup only. Under 0 it would share.

    Returns: one dictionary a case, empty where it has no answer.
    Source: studies/outcomes.py; models/backup_reserve.py.
    """
    found, refused = where_possible(things=cases, compute=lambda part: outcomes_of(cases=part, links=links))
    each: list[dict[str, float]] = [{} for _ in cases]
    joined: dict[tuple[float, ...], list[int]] = {}
    for i, case in enumerate(cases):
        if i not in refused:
            each[i] = {name: float(of[i]) for name, of in found.items()}
            if case.setup.rig.backup is not None:
                joined.setdefault(case.setup.rig.backup.joints, []).append(i)
    for some in joined.values():
        rigs = [cases[i].setup.rig for i in some]
        pulls = [max(each[i][ANCHOR_A], each[i][ANCHOR_B]) for i in some]
        longest = least_extra_lengths(rigs=rigs, tensions=pulls).max(0)
        for i, rig, least in zip(some, rigs, longest, strict=True):
            each[i][RESERVE] = (rig.backup.extra_length if rig.backup else 0.0) - float(least)
    return each


def ask(
    *,
    now: Case,
    makers: Sequence[Callable[[], Case]],
    owners: Sequence[str],
    links: Sequence[Link] = (),
    progress: Callable[[int, int], None] | None = None,
) -> dict[str, Array]:
    """Outcomes of cases still to be made, in batches: arrays (makers,) [N], [m], [-], nan where one cannot be rigged or fall.

    Parameters: now : no case may have less tension or other slip loads; makers; owners : the choice each belongs to, for the
    refusal; links; progress : called with (done, total) falls.
    Raises: ValueError when a case is bought with slip or less tension.
    Source: studies/outcomes.py.
    """
    which: list[int] = []
    cases: list[Case] = []
    for i, (make, owner) in enumerate(zip(makers, owners, strict=True)):
        try:
            case = make()
        except ValueError:
            continue  # it cannot be rigged: no answer there
        no_slack(now=now, case=case, name=owner)
        which.append(i)
        cases.append(case)
    found = {name: np.full(len(makers), np.nan) for name in names_of(links)}
    for begin in range(0, len(cases), AT_ONCE):
        end = min(begin + AT_ONCE, len(cases))
        values, _ = where_possible(things=cases[begin:end], compute=lambda part: outcomes_of(cases=part, links=links))
        for name, of in values.items():
            found[name][which[begin:end]] = of
        if progress is not None:
            progress(end, len(cases))
    return found
