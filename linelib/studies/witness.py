"""A witness: what is said beside what the model gives, four numbers of a fall always together."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from textwrap import fill

import numpy as np

from linelib.models.fall_in_time import falls
from linelib.rigging import Setup
from linelib.studies.sayings import Saying

WIDTH = 98  # characters of a line of text
TELLS = {  # the least change [-] called one: our choice; the leash force is converged to about 5 % (models/fall_in_time.py)
    "peak at the anchor": 0.01,
    "increase over standing": 0.05,
    "force on the person": 0.05,
    "lowest tie-in": 0.01,
}
HEAD = (
    "A teaching model beside common practice. anchor: peak at the higher anchor [kN]; over: its increase over the standing "
    "line [kN]; person: 20 ms mean [kN]; lowest: lowest tie-in [m], which is not clearance. EA: straight law of the line, or "
    "of the insert; nothing hung under it, to compare numbers only. lesson rig: typical HMPE, its insert typical polyamide, "
    "always with its backup."
)
UNKNOWN = (
    "Not known: the tension before, what was held equal, how stiff the webbing was in that fall, where and how fast the force "
    "was taken."
)


@dataclass(frozen=True, kw_only=True)
class Case:
    """One fall: `numbers` are those of TELLS, in that order: peak at the higher anchor, its increase over standing there,
    20 ms mean of the force on the person [N], lowest tie-in below the line between the anchors [m]."""

    group: str
    name: str
    numbers: tuple[float, float, float, float]


@dataclass(frozen=True, kw_only=True)
class Witness:
    """A `saying`, what is `said` in numbers with its source, the falls of the `model`, and both compared in `words`."""

    saying: str
    said: str
    model: tuple[Case, ...]
    words: str


def witness_of(*, saying: Saying, cases: tuple[Case, ...], words: str) -> Witness:
    """The witness of a `saying`, marked with its source."""
    peak = f"{saying.peak / 1e3:.1f} kN, " if saying.peak else ""
    said = f"{peak}{saying.uncertainty}; {saying.source}"
    return Witness(saying=saying.words, said=said, model=cases, words=words)


def cases_of(*, setups: Mapping[tuple[str, str], Setup]) -> tuple[Case, ...]:
    """The falls of all setups as one batch, keys are (group, name).

    Returns: Cases, forces in [N], lengths in [m].
    Raises: ValueError when a fall cannot be computed.
    Source: models/fall_in_time.py.
    """
    found = falls(setups=list(setups.values()))
    peak = np.array([found.peak_tension_a, found.peak_tension_b])
    over = peak - np.array([found.standing_tension_a, found.standing_tension_b])
    rows = zip(setups, peak.max(0), over.max(0), found.peak_leash_force, found.lowest_point, strict=True)
    return tuple(
        Case(group=group, name=name, numbers=(float(a), float(o), float(p), float(d))) for (group, name), a, o, p, d in rows
    )


def verdict(*, saying: Saying, cases: Sequence[Case]) -> str:
    """How far the peaks of the model are from the one that is said, and which cases come within what is said."""
    peaks = [case.numbers[0] for case in cases]
    low, high = min(peaks), max(peaks)
    near = [f"{case.group}, {case.name}" for case in cases if abs(case.numbers[0] / saying.peak - 1.0) <= saying.within]
    agree = "all of them" if len(near) == len(cases) else "; ".join(near) or "none"
    return (
        f"The model gives {low / 1e3:.1f} to {high / 1e3:.1f} kN: {_away(low, saying.peak)} to {_away(high, saying.peak)} "
        f"what is said. Within {percent(saying.within)} of it: {agree}."
    )


def _away(value: float, said: float) -> str:
    return f"{percent(abs(value / said - 1.0))} {'above' if value >= said else 'below'}"


def percent(share: float) -> str:
    """A `share` [-] in words, such as 12 %. Source: by definition."""
    return f"{100.0 * share:.0f} %"


def trend(values: Sequence[float], tell: float) -> str:
    """Where `values` go from first to last: up, down, down then up, up then down, or hardly moves (less than `tell` [-]).

    Source: by definition.
    """
    row = np.asarray(values, float)
    rises = bool(np.any(row / np.minimum.accumulate(row) > 1.0 + tell))
    falling = bool(np.any(row / np.maximum.accumulate(row) < 1.0 - tell))
    if rises and falling:
        return "down, then up" if row.argmin() not in (0, len(row) - 1) else "up, then down"
    return "up" if rises else "down" if falling else "hardly moves"


def block(*, witness: Witness) -> str:
    """The witness as text: saying, numbers by name with one group beside the other, words."""
    groups = list(dict.fromkeys(case.group for case in witness.model))
    names = list(dict.fromkeys(case.name for case in witness.model))
    wide = max(map(len, names))
    cells = {(case.group, case.name): _cells(case) for case in witness.model}
    head = "anchor  over person lowest"
    rows = [" | ".join([" " * wide, *(f"{group:{len(head)}}" for group in groups)])]
    rows += [" | ".join([" " * wide, *(head for _ in groups)])]
    rows += [" | ".join([f"{name:{wide}}", *(cells.get((g, name), " " * len(head)) for g in groups)]) for name in names]
    return "\n".join([lines(f"SAID: {witness.saying} [{witness.said}]"), *(row.rstrip() for row in rows), lines(witness.words)])


def lines(words: str) -> str:
    """The `words` broken into lines of at most WIDTH characters."""
    return fill(words, WIDTH, break_on_hyphens=False)


def _cells(case: Case) -> str:
    anchor, over, person, lowest = case.numbers
    return f"{anchor / 1e3:6.1f}{over / 1e3:6.1f}{person / 1e3:7.1f}{lowest:7.1f}"
