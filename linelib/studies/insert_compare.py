"""A soft insert compared: where it sits, what is held equal, and how stiff it may be when it is pulled fast."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields, replace

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator

from linelib.checks import number, one_of
from linelib.models.fall_in_time import falls
from linelib.models.fall_results import Fall, Falls
from linelib.rigging import Segment, Setup
from linelib.studies.held_equal import HELD, hold_equal
from linelib.studies.lesson_rig import INSERT, SPARE_PER_INSERT
from linelib.tables import WebbingNote
from linelib.webbing import Webbing

Array = NDArray[np.float64]
PLACES = ("at A", "at B", "in the middle")
LENGTHS = (1.2, 3.5, 7.5, 15.0)  # [m] where a curve is computed; between them smooth (tests/independent_route)
LOOSE = (0.5, 1.2, 2.0, 3.5, 5.5, 7.5, 11.0, 15.0)  # [m] where the line is not tensioned again and soon gets slack
FINE = 31  # points of a drawn curve
LAWS = ("now", "slow", "soft", "stiff")


def insert_webbing(*, table: Mapping[str, Webbing], fast_ratio: float | None = None, strain_times: float = 1.0) -> Webbing:
    """The polyamide of the lesson's insert, with another fast ratio, or stretching `strain_times` as much under every pull.

    Parameters: table : webbings by id; fast_ratio [-], None: the table's, 1: the slow-pull curve also in a fall;
    strain_times [-], 0.2 to 5.
    Returns: Webbing.
    Raises: ValueError naming what is not possible.
    Source: data/webbings.csv.
    """
    row = table[INSERT]
    times = number("strain_times", strain_times, low=0.2, high=5.0)
    strain = tuple(times * e for e in row.strain or ())
    return replace(row, strain=strain, fast_ratio=row.fast_ratio if fast_ratio is None else fast_ratio)


def insert_ends(*, table: Mapping[str, Webbing], note: WebbingNote) -> tuple[Webbing, Webbing]:
    """The softest and the stiffest insert within the uncertainties of its row: strain and fast ratio both at their ends.

    Returns: Webbings; stiffness in a fast pull is fast ratio * tension / strain [N].
    Source: uncertainties of data/webbings.csv.
    """
    ratio, e, r = table[INSERT].fast_ratio, note.strain_uncertainty, note.fast_ratio_uncertainty
    soft = insert_webbing(table=table, strain_times=1.0 + e, fast_ratio=max(1.0, ratio * (1.0 - r)))
    return soft, insert_webbing(table=table, strain_times=1.0 - e, fast_ratio=ratio * (1.0 + r))


def insert_laws(*, table: Mapping[str, Webbing], note: WebbingNote, fast_ratio: float) -> dict[str, Webbing]:
    """The insert as it is taken now, by its slow-pull curve, and at the ends of its row's uncertainties.

    Parameters: table : webbings by id; note : uncertainties of the insert's row; fast_ratio [-] of now.
    Returns: Webbings by LAWS.
    Raises: ValueError naming what is not possible.
    Source: data/webbings.csv.
    """
    soft, stiff = insert_ends(table=table, note=note)
    now, slow = (insert_webbing(table=table, fast_ratio=r) for r in (fast_ratio, 1.0))
    return dict(zip(LAWS, (now, slow, soft, stiff), strict=True))


def pair(*, plain: Setup, webbing: Webbing, length: float, place: str, held: str) -> tuple[Setup, Setup]:
    """The plain rig, and beside it the same with `length` [m] of `webbing` put in at a `place`; the pretension stays.

    'in the middle': both have a main webbing in two pieces, the left one of given length, so that the insert hangs about the
    middle of the span; that length depends on what will be `held` equal. The backup's bays get longer by a fifth of the
    insert, as in studies/lesson_rig.py. With 0 m nothing is put in.

    Returns: Setups, first the plain one.
    Raises: ValueError naming what is not possible.
    Source: bookkeeping.
    """
    rig, main = plain.rig, plain.rig.segments[0]
    length = number("length", length, low=0.0, high=0.5 * rig.span, unit="m")
    half = 0.5 * (rig.span - (0.0 if one_of("held", held, HELD) == HELD[2] else length))
    sides = ((), (main,)), ((main,), ()), ((replace(main, length=half),), (main,))
    left, right = sides[PLACES.index(one_of("place", place, PLACES))]
    soft = (Segment(webbing=webbing, length=length),) if length > 0.0 else ()
    longer = SPARE_PER_INSERT * length
    backup = rig.backup and replace(rig.backup, extra_length=rig.backup.extra_length + longer)
    first = replace(plain, rig=replace(rig, segments=(*left, *right)))
    return first, replace(plain, rig=replace(rig, segments=(*left, *soft, *right), backup=backup))


def hold(pairs: Sequence[tuple[Setup, Setup]], held: str) -> list[Setup]:
    """The second of each pair, tensioned so that `held` (studies/held_equal.py) is as in the first.

    Returns: Setups. Raises: ValueError as hold_equal; here lengths in [m], forces in [N].
    Source: studies/held_equal.py.
    """
    return hold_equal(firsts=[first for first, _ in pairs], seconds=[second for _, second in pairs], held=held)


@dataclass(frozen=True, kw_only=True)
class Over:
    """Falls over the length of the insert, arrays (FINE,): peaks [N], lowest tie-in and standing sag [m]."""

    peak_tension_a: Array
    peak_tension_b: Array
    peak_leash_force: Array
    lowest_point: Array
    standing_sag: Array


@dataclass(frozen=True, kw_only=True)
class InsertCurves:
    """The fall without an insert, and over its `lengths` [m] for each of LAWS."""

    plain: Falls
    lengths: Array
    laws: Mapping[str, Over]


def insert_curves(
    *, plain: Setup, now: Setup, inserts: Mapping[str, Webbing], place: str, held: str
) -> tuple[Fall, InsertCurves]:
    """The fall `now`, and the fall over the length of the insert for every one of `inserts`, in one batch.

    Computed at LENGTHS (or LOOSE, with the same webbing) and without insert, drawn through these by a monotone interpolant.

    Parameters: plain : without insert; inserts : webbings by name; place, one of PLACES; held, one of held_equal.HELD.
    Returns: Fall with its series; InsertCurves, forces in [N], lengths in [m].
    Raises: ValueError when a rig cannot be tensioned so, or a fall cannot be computed.
    Source: models/fall_in_time.py; Fritsch & Carlson (1980) as in scipy.interpolate.PchipInterpolator.
    """
    at = LOOSE if held == HELD[2] else LENGTHS
    pairs = [pair(plain=plain, webbing=web, length=x, place=place, held=held) for web in inserts.values() for x in at]
    found = falls(setups=[now, plain, *hold(pairs, held)], series=(0,))
    knots, fine = np.array([0.0, *at]), np.linspace(0.0, at[-1], FINE)
    laws = {}
    for i, name in enumerate(inserts):
        rows = [1, *range(2 + i * len(at), 2 + (i + 1) * len(at))]
        curves = {f.name: PchipInterpolator(knots, getattr(found, f.name)[rows])(fine) for f in fields(Over)}
        laws[name] = Over(**curves)
    return found.series[0], InsertCurves(plain=found.part(1, 2), lengths=fine, laws=laws)
