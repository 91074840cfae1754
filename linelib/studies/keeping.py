"""What would have kept the margin: for each single choice the values at which an outcome meets an entered limit."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.checks import instance, number, one_of
from linelib.studies.close_in import Numbers
from linelib.studies.costs import ask, costs_of, names_of
from linelib.studies.crossings import COUNT, Crossings, many_crossings
from linelib.studies.knobs import Knob, Listed, no_slack
from linelib.studies.outcomes import Case, Link, outcomes_of

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Found:
    """A `value` at which the limit is met, and what all outcomes are there: what it costs [N], [m], [-]."""

    value: float
    outcomes: Mapping[str, float]


@dataclass(frozen=True, kw_only=True)
class Kept:
    """One choice: its `knob`, the `curves` of all outcomes over the values `over` (points,), nan where there is no answer;
    with a limit also its `crossings` and what was `found` at them."""

    knob: Knob
    over: Array
    curves: Mapping[str, Array]
    crossings: Crossings | None
    found: tuple[Found, ...]


@dataclass(frozen=True, kw_only=True)
class Keeping:
    """What was asked, what is `now`, and every choice alone: as numbers, and from lists (list -> entry -> outcomes, empty
    where an entry has no answer)."""

    outcome: str
    limit: float | None
    now: Mapping[str, float]
    kept: tuple[Kept, ...]
    listed: Mapping[str, Mapping[str, Mapping[str, float]]]


def keeping(
    *,
    now: Case,
    outcome: str,
    limit: float | None,
    knobs: Sequence[Knob] = (),
    lists: Sequence[Listed] = (),
    links: Sequence[Link] = (),
    count: int = COUNT,
    progress: Callable[[int, int], None] | None = None,
) -> Keeping:
    """Search every choice alone for the values at which `outcome` meets `limit`, all choices in one batch a step.

    Parameters
    ----------
    now : the case whose margin is asked; outcome : a name of `outcomes_of`; limit : the highest wanted [as that outcome], your
        own; None: blank, and then there are curves but nothing is found
    knobs, lists : the choices; links : the places; count : values of a grid; progress : called with (done, total) grid falls

    Returns: Keeping, forces in [N], depths in [m], load over strength [-].
    Raises: ValueError naming what is not possible: an unknown outcome, a choice that is bought with slip or less tension, a
    case that has no answer as it is.
    Leaves out: two choices at once (studies/boundary.py); values outside the range searched. A value that keeps a limit in the
    model approves nothing.
    Source: studies/crossings.py; models/fall_in_time.py; models/backup_reserve.py.
    """
    instance("now", now, Case)
    names = names_of(links)
    one_of("outcome", outcome, names)
    outcomes_of(cases=[now], links=links)  # the case as it is has an answer, or says why not
    limit = None if limit is None else number("limit", limit, low=1e-6, high=1e9)
    entries = [(one.name, entry, case) for one in lists for entry, case in one.options.items()]
    for name, _, case in entries:
        no_slack(now=now, case=case, name=name)
    points = int(number("count", count, low=3, high=1000))
    grids = [np.linspace(k.low, k.high, points) for k in knobs]
    first = _ask(now, knobs, links, np.concatenate([[], *grids]), np.repeat(np.arange(len(knobs)), points), progress)
    rows = [{name: first[name].reshape(len(knobs), points)[k] for name in names} for k in range(len(knobs))]
    crossed = _crossed(now, knobs, links, grids, outcome, limit, first[outcome])
    met = [(k, value) for k, of in enumerate(crossed) if of is not None for value in of.values]
    costs = costs_of(cases=[now, *(knobs[k].on(now, value) for k, value in met), *(case for *_, case in entries)], links=links)
    found: list[list[Found]] = [[] for _ in knobs]
    for (k, value), outcomes in zip(met, costs[1:], strict=False):
        found[k].append(Found(value=value, outcomes=outcomes))
    listed: dict[str, dict[str, dict[str, float]]] = {one.name: {} for one in lists}
    for (name, entry, _), outcomes in zip(entries, costs[1 + len(met) :], strict=True):
        listed[name][entry] = outcomes
    kept = tuple(
        Kept(knob=k, over=g, curves=r, crossings=c, found=tuple(f))
        for k, g, r, c, f in zip(knobs, grids, rows, crossed, found, strict=True)
    )
    return Keeping(outcome=outcome, limit=limit, now=costs[0], kept=kept, listed=listed)


def _crossed(
    now: Case,
    knobs: Sequence[Knob],
    links: Sequence[Link],
    grids: Sequence[Array],
    outcome: str,
    limit: float | None,
    on_grids: Array,
) -> Sequence[Crossings | None]:
    """Crossings of all choices; the grids themselves are computed already."""
    if limit is None or not knobs:
        return [None] * len(knobs)
    known = [on_grids]

    def asked(values: Array, line: Numbers) -> Array:
        return known.pop() if known else _ask(now, knobs, links, values, line)[outcome]

    return many_crossings(outcome=asked, limit=limit, grids=grids)


def _ask(
    now: Case,
    knobs: Sequence[Knob],
    links: Sequence[Link],
    values: Array,
    line: Numbers,
    progress: Callable[[int, int], None] | None = None,
) -> dict[str, Array]:
    """Outcomes at values, each of the knob whose number stands in `line`."""
    makers = [lambda n=n, v=v: knobs[n].on(now, float(v)) for n, v in zip(line, values, strict=True)]
    return ask(now=now, makers=makers, owners=[knobs[n].name for n in line], links=links, progress=progress)
