"""Fall after fall on a line whose lock at B slips: each begins with what the one before has left.

After a fall the natural length of the line has grown by what the lock at B paid out; everything else is as before, and the next
walker stands at the same place along the span. Falls follow each other slowly enough for the webbing to come to rest, and the
slip load stays what it was: our assumptions. A slipping lock is a fault, never a shock absorber.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from linelib.cautions import SLIP
from linelib.checks import instance, number, refuse
from linelib.models.fall_in_time import fall
from linelib.models.fall_results import Fall
from linelib.models.lines import lines_of
from linelib.models.stretch import law_of
from linelib.rigging import Rig, Setup

Array = NDArray[np.float64]
MOST = 20


@dataclass(frozen=True, kw_only=True)
class Row:
    """Falls in a row on one line.

    setup : Setup before the first fall, every natural length given; falls : the Falls, (falls,)
    pretension [N], (falls,) : horizontal tension of the line alone, before each fall
    bay_stretch [m], (falls,) : of the main webbing between the last joint of the backup and B, at the highest pull there
    """

    setup: Setup
    falls: tuple[Fall, ...]
    pretension: Array
    bay_stretch: Array

    def first(self, count: int) -> Row:
        """The first `count` falls of the row."""
        pretension, bay_stretch = self.pretension[:count], self.bay_stretch[:count]
        return replace(self, falls=self.falls[:count], pretension=pretension, bay_stretch=bay_stretch)

    @property
    def paid_out(self) -> Array:
        """What the lock at B paid out in each fall [m], (falls,)."""
        return np.array([one.slip_b for one in self.falls])


def longer(*, rig: Rig, paid_out: float) -> Rig:
    """The rig after the lock at B has paid out: every length given, the last segment longer, no pretension.

    Parameters: rig : Rig; paid_out [m], 0 to 100. Returns: Rig.
    Raises: ValueError naming the argument, its value and what is allowed, or when the rig cannot hang.
    Example: 100 m of natural length, 0.4 m paid out: 100.4 m.
    Source: definition (module text).
    """
    instance("rig", rig, Rig)
    paid_out = number("paid_out", paid_out, low=0.0, high=100.0, unit="m")
    lengths = [segment.length or 0.0 for segment in rig.segments]
    if rig.pretension is not None:
        lengths = [float(n) for n in lines_of([rig]).pieces.length[: len(rig.segments), 0]]
    lengths[-1] += paid_out
    segments = tuple(replace(s, length=n) for s, n in zip(rig.segments, lengths, strict=True))
    return replace(rig, segments=segments, pretension=None)


def falls_in_a_row(*, setup: Setup, count: int) -> Row:
    """`count` falls one after the other. When one pays out nothing, all later ones are the same fall, computed once.

    Parameters: setup : Setup with a slip load at B or none, and none at A; lengths [m], forces [N]; count, 1 to 20.
    Returns: Row.
    Raises: ValueError as `fall`; also when the lock slips while somebody only stands.
    Example: 100 m, slip load 6.5 kN: the line alone has 3.0 kN before the first fall, about 1.1 kN before the second.
    Source: models/fall_in_time.py.
    """
    instance("setup", setup, Setup)
    number("count", count, low=1, high=MOST, unit="falls")
    if setup.rig.slip_load_a is not None:
        raise refuse("slip_load_a", setup.rig.slip_load_a, "None: tail, fold and bay are those at B, the tensioning side")
    rig = longer(rig=setup.rig, paid_out=0.0)
    rigs, found = [rig], [_fall(replace(setup, rig=rig))]
    while len(found) < count and found[-1].slip_b > 0.0:
        rigs.append(longer(rig=rigs[-1], paid_out=found[-1].slip_b))
        found.append(_fall(replace(setup, rig=rigs[-1])))
    same = int(count) - len(found)
    return Row(
        setup=replace(setup, rig=rig),
        falls=tuple(found + found[-1:] * same),
        pretension=np.pad(lines_of(rigs).horizontal, (0, same), mode="edge"),
        bay_stretch=np.pad(_bay_stretch(rig, np.array([one.peak_tension_b for one in found])), (0, same), mode="edge"),
    )


def _fall(setup: Setup) -> Fall:
    try:
        return fall(setup=setup)
    except ValueError as error:
        if "slip_load_b" in str(error):
            raise ValueError(f"{error}. The lock slips while somebody only stands. {SLIP}") from error
        raise


def _bay_stretch(rig: Rig, pull: Array) -> Array:
    """Stretch [m] by the slow law, rather too much, under `pull` [N], (falls,); the bay's share of the line is that of the
    span. Without joints, or without a backup, the bay is the whole line."""
    joints = rig.backup.joints if rig.backup else ()
    bay = sum(s.length or 0.0 for s in rig.segments) * (1.0 - (joints[-1] if joints else 0.0))
    stretch = np.zeros_like(pull)
    for segment in reversed(rig.segments):
        part = min(segment.length or 0.0, bay)
        stretch, bay = stretch + part * law_of(segment.webbing).strain(pull), bay - part
    return stretch
