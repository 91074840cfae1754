"""Falls of many cases, in chunks; a case that cannot be computed is counted with its reason, never dropped in silence."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.models.fall_in_time import AT_ONCE, falls
from linelib.models.fall_results import Falls
from linelib.rigging import Setup
from linelib.studies.draws import Case

Array = NDArray[np.float64]
Progress = Callable[[int, int], object]
SetupAt = Callable[[Mapping[str, object]], Setup]
ANCHOR, PERSON, LOWEST = "anchor", "person", "lowest"
OUTCOMES: Mapping[str, Callable[[Falls], Array]] = {
    ANCHOR: lambda found: np.maximum(found.peak_tension_a, found.peak_tension_b),
    PERSON: lambda found: found.peak_leash_force,
    LOWEST: lambda found: found.lowest_point,
}


@dataclass(frozen=True, kw_only=True)
class Refused:
    """`count` cases that could not be computed, all because of `what`; `example` : the refusal of the first of them."""

    what: str
    count: int
    example: str


@dataclass(frozen=True, kw_only=True)
class Computed:
    """Outcomes of the cases that could be computed.

    values : by outcome, (computed,) : 'anchor', the higher of both peaks, and 'person', 20 ms mean [N]; 'lowest' tie-in [m]
    which : numbers of those cases, (computed,); asked : how many there were; refused : the others by reason, commonest first
    """

    values: Mapping[str, Array]
    which: NDArray[np.intp]
    asked: int
    refused: tuple[Refused, ...]


def compute_cases(
    *, cases: Sequence[Case], setup_at: SetupAt, progress: Progress | None = None, strict: bool = False
) -> Computed:
    """The falls of all cases, a chunk of 256 in one batch.

    Between chunks it can be interrupted (KeyboardInterrupt goes through): everything found until then is dropped, nothing is
    kept anywhere. What `setup_at` and the fall refuse with a ValueError is counted; any other error goes through.

    Parameters: cases; setup_at : a case -> Setup; progress(done, total) after each chunk; strict : stop at the first chunk in
    which anything is refused, and say so in `asked`, the cases looked at.
    Returns: Computed, forces in [N], lengths in [m].
    Source: models/fall_in_time.py.
    """
    setups, reasons = _setups(cases, setup_at)
    asked = len(cases)
    parts: list[tuple[list[int], Falls]] = []
    for begin in range(0, 0 if strict and reasons else len(cases), AT_ONCE):
        end = min(begin + AT_ONCE, len(cases))
        parts += _falls([i for i in range(begin, end) if i in setups], setups, reasons)
        if progress is not None:
            progress(end, len(cases))
        if strict and reasons:
            asked = end
            break
    which = np.array([i for numbers, _ in parts for i in numbers], dtype=np.intp)
    order = np.argsort(which)
    empty = np.empty(0)
    values = {name: np.concatenate([empty, *(of(found) for _, found in parts)])[order] for name, of in OUTCOMES.items()}
    return Computed(values=values, which=which[order], asked=asked, refused=_by_reason(reasons))


def _setups(cases: Sequence[Case], setup_at: SetupAt) -> tuple[dict[int, Setup], dict[int, str]]:
    setups: dict[int, Setup] = {}
    reasons: dict[int, str] = {}
    for i, case in enumerate(cases):
        try:
            setups[i] = setup_at(case)
        except ValueError as error:
            reasons[i] = str(error)
    return setups, reasons


def _falls(numbers: list[int], setups: Mapping[int, Setup], reasons: dict[int, str]) -> list[tuple[list[int], Falls]]:
    """The falls of a chunk; a refused one is found by halving."""
    if not numbers:
        return []
    try:
        return [(numbers, falls(setups=[setups[i] for i in numbers]))]
    except ValueError as error:
        if len(numbers) == 1:
            reasons[numbers[0]] = str(error)
            return []
    middle = len(numbers) // 2
    return _falls(numbers[:middle], setups, reasons) + _falls(numbers[middle:], setups, reasons)


def _by_reason(reasons: Mapping[int, str]) -> tuple[Refused, ...]:
    """Refusals by the argument they name: what stands before ' = ', else the sentence as it is."""
    groups: dict[str, list[str]] = {}
    for _, reason in sorted(reasons.items()):
        groups.setdefault(reason.split(" = ")[0] if " is not possible" in reason else reason, []).append(reason)
    found = [Refused(what=what, count=len(group), example=group[0]) for what, group in groups.items()]
    return tuple(sorted(found, key=lambda one: -one.count))
