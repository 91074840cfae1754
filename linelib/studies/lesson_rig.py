"""The rig of the lessons: an invented quarry line, always with its backup."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from linelib.checks import one_of
from linelib.rigging import Backup, Leash, Rig, Segment, Setup, Walker
from linelib.tables import webbings
from linelib.webbing import Webbing

INSERT = "polyamide_25mm"
BACKUP = "polyester_25mm"
JOINTS = tuple(i / 8.0 for i in range(1, 8))
HIGHEST = 12e3  # N: our choice, more than a hard fall gives on webbing that stretches by much
SPARE, SPARE_PER_INSERT = 0.5, 0.2  # [m], [m per m of insert]: our choice; a polyamide insert stretches by less than a fifth


def lesson_setup(
    *,
    length: float = 100.0,
    material: str = "hmpe_25mm",
    table: Mapping[str, Webbing] | None = None,
    leash_length: float = 1.5,
    standing_height: float = 1.0,
    pretension: float = 3000.0,
    mass: float = 80.0,
    position: float = 0.5,
    insert_length: float = 0.0,
) -> Setup:
    """One webbing from A to B, with a soft insert of polyamide between the static anchor A and it when `insert_length` > 0.

    The backup of polyester is joined at every eighth of the span and hangs under the main line; each bay is longer than
    the main line by 0.5 m, or by what an eighth of the main webbing stretches at 12 kN if that is more, and by a fifth of the
    insert: so that it never loads before the main line has failed (tests/closed_form/test_lesson_rigs.py).

    Parameters: length (span), leash_length, standing_height, insert_length [m]; pretension [N]; mass [kg]; position [-];
    material : a row of data/webbings.csv, or of `table`, for who asks often and has read it once.
    Returns: Setup.
    Raises: ValueError naming what is not possible.
    Source: an invented rig; the numbers are our choice.
    """
    table = webbings() if table is None else table
    segments = [Segment(webbing=table[one_of("material", material, tuple(table))])]
    if insert_length > 0.0:
        segments.insert(0, Segment(webbing=table[INSERT], length=insert_length))
    stretch = _strain(segments[-1].webbing) * length / (len(JOINTS) + 1)
    backup = Backup(webbing=table[BACKUP], joints=JOINTS, extra_length=max(SPARE, stretch) + SPARE_PER_INSERT * insert_length)
    return Setup(
        rig=Rig(span=length, segments=tuple(segments), pretension=pretension, backup=backup),
        leash=Leash(length=leash_length),
        walker=Walker(mass=mass, standing_height=standing_height, position=position),
    )


def _strain(webbing: Webbing) -> float:
    """At HIGHEST in a slow pull, straight between and beyond the rows of its table [-]."""
    if webbing.strain is None or webbing.tension is None:
        return HIGHEST / float(webbing.stiffness or np.inf)
    slope = (webbing.strain[-1] - webbing.strain[-2]) / (webbing.tension[-1] - webbing.tension[-2])
    return float(np.interp(HIGHEST, webbing.tension, webbing.strain)) + slope * max(HIGHEST - webbing.tension[-1], 0.0)
