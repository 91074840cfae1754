"""The sliders of the panel on what would have kept a limit, and how its findings become rows, curves and a map."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from linelib.figures.boundary_plot import Map
from linelib.figures.range_bars import Row
from linelib.panels.controls import Choice, Control, Value
from linelib.panels.which_choice_settings import PLACES, rig_sliders
from linelib.studies.boundary import Boundary
from linelib.studies.case_rig import LOCK, PLANNED, SPAN, Numbers
from linelib.studies.costs import RESERVE
from linelib.studies.keeping import Keeping, Kept
from linelib.studies.keeping_words import kept_entries
from linelib.studies.knobs import Knob
from linelib.studies.outcome_words import number_of, words_of
from linelib.studies.outcomes import ANCHOR_A, DEMANDS, DROP, PERSON

Array = NDArray[np.float64]
VISIBLE, COUNT, GRID = 5, 13, 13
OUTCOMES = (*DEMANDS, *PLACES)
COLUMNS = (ANCHOR_A, PERSON, DROP, RESERVE)
KNOBS = ("leash length", "standing height", "walker's mass", "span", "insert length", "pretension")
NUMBER = {
    "leash length": "leash_length",
    "standing height": "standing_height",
    "walker's mass": "mass",
    "insert length": "insert_length",
    "pretension": "pretension",
}


def keeping_controls() -> tuple[Control, ...]:
    """What is asked, the two choices of the map, then the rig as it was rigged."""
    names = {name: name for name in KNOBS}
    return (
        Choice(name="outcome", words="asked", options={name: name for name in OUTCOMES}, start=LOCK),
        Choice(name="first", words="first", options=names, start="leash length"),
        Choice(name="second", words="second", options=names, start="insert length"),
        *rig_sliders(),
    )


def now_of(name: str, numbers: Numbers) -> float:
    """What a choice is in the rig with these numbers [m], [kg], [N]."""
    return float(getattr(numbers, NUMBER[name])) if name in NUMBER else SPAN


def per_screen(knob: Knob) -> float:
    """What one on the screen is in SI: 1000 for forces."""
    return 1e3 if knob.unit == "N" else 1.0


def title_of(knob: Knob) -> str:
    """A choice with the unit of the screen."""
    return f"{knob.name} [{'kN' if knob.unit == 'N' else knob.unit}]"


def row_of(one: Kept, numbers: Numbers) -> Row:
    """The row of a choice that is a number."""
    knob, crossed = one.knob, one.crossings
    digits, per = 0 if knob.unit == "kg" or knob.name == "span" else 2, per_screen(knob)
    wide = knob.high - knob.low

    def share(value: float) -> float:
        return (value - knob.low) / wide

    plain = Row(
        name=title_of(knob),
        now=float(np.clip(share(now_of(knob.name, numbers)), 0.0, 1.0)),
        ends=(f"{knob.low / per:.{min(digits, 1)}f}", f"{knob.high / per:.{min(digits, 1)}f}"),
    )
    if crossed is None:
        return plain
    if crossed.never or not one.found:
        known = "every value with an answer does" if crossed.unknown else "every value does"
        note = "no value of this alone does" if crossed.never else "jumps across the limit" if crossed.jumps else known
        return Row(**{**vars(plain), "within": [(share(a), share(b)) for a, b in crossed.within], "note": note})
    here = now_of(knob.name, numbers)
    nearest = min(one.found, key=lambda f: abs(f.value - here))
    ordered = [nearest, *(f for f in one.found if f is not nearest)]
    return Row(
        **{
            **vars(plain),
            "within": [(share(a), share(b)) for a, b in crossed.within],
            "marks": [share(f.value) for f in ordered],
            "labels": [f"{f.value / per:.{digits}f}" for f in ordered],
            "costs": costs_of_row(nearest.outcomes),
        }
    )


def list_row(name: str, found: Keeping) -> Row:
    """The row of a list: how many entries keep the limit, and the costs of the one that does so with least to spare."""
    if found.limit is None:
        return Row(name=name)
    does = kept_entries(found, name)
    if not does:
        return Row(name=name, note="no entry of this alone does")
    last = max(does, key=lambda entry: does[entry][found.outcome])
    count = f", {len(does)} of {len(found.listed[name])}" if len(found.listed[name]) > 2 else ""
    return Row(name=f"{name}{count}", note=last, costs=costs_of_row(does[last]))


def costs_of_row(outcomes: Mapping[str, float]) -> list[str]:
    """The four columns of costs as numbers of the screen."""
    return [number_of(name, outcomes[name]) for name in COLUMNS]


def heads(found: Keeping) -> tuple[list[str], list[str]]:
    """Names of the four columns, and what they are now, with their units."""
    names = {ANCHOR_A: "at A", PERSON: "person", DROP: "tie-in", RESERVE: "reserve"}
    return [names[name] for name in COLUMNS], [words_of(name, found.now[name]) for name in COLUMNS]


def map_of(knobs: tuple[Knob, Knob], found: Boundary | None, numbers: Numbers, limit: str) -> Map:
    """The map of two choices, on the screen's scale; without a boundary an empty one."""
    per = np.array([per_screen(k) for k in knobs])
    none = np.empty((0, 2))
    kept, not_kept, line = none, none, none
    if found is not None:
        x, y = np.meshgrid(found.x, found.y)
        points, of = np.column_stack([x.ravel(), y.ravel()]) / per, found.outcome.ravel()
        kept, not_kept = points[of <= found.limit], points[of > found.limit]
        gap = [np.nan, np.nan]
        line = np.array([p for a, b in found.pieces for p in (a, b, gap)], float).reshape(-1, 2) / per
    places = [np.array([now_of(k.name, of) for k in knobs]) / per for of in (numbers, PLANNED)]
    ranges = [(k.low / per_screen(k), k.high / per_screen(k)) for k in knobs]
    return Map(
        kept=kept,
        not_kept=not_kept,
        line=line,
        now=_pair(places[0]),
        planned=_pair(places[1]),
        names=(title_of(knobs[0]), title_of(knobs[1])),
        x=ranges[0],
        y=ranges[1],
        limit=limit,
    )


def _pair(values: Sequence[float] | Array) -> tuple[float, float]:
    return float(values[0]), float(values[1])


def values_of(values: Mapping[str, Value]) -> tuple[str, str, str]:
    """What is asked, and the two choices of the map."""
    return str(values["outcome"]), str(values["first"]), str(values["second"])
