"""A main line that parts in one bay: what each side is made of afterwards.

The backup's bay takes the place of the main webbing beside it. Its natural length is that of the main webbing in the bay and
the extra length. So the side goes slack, the line falls, and the backup catches. Where the walker's own bay parts, the ring
then runs on the backup and keeps its share of the bay. Broken ends keep hanging where they are; what the side had stored is
lost in the recoil.

The backup must carry nothing before the main line parts, else it would share the load, which is left out: such an extra
length is refused (least_extra_length in models/backup_reserve.py says how much is needed).

Leaves out: a ring that slides along the loop, the time a tear takes, joints that slip, and the recoil: in the full model the
freed line can snap the backup taut for milliseconds with more than the catch, so a catch is no upper bound for an anchor.
Source: bookkeeping of natural lengths; tests/independent_route/ compares the catch with the full two-dimensional model.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace

import numpy as np
from numpy.typing import NDArray

from linelib.models.law_table import Indices, table_of
from linelib.models.sides import Sides
from linelib.rigging import Setup

Array = NDArray[np.float64]
NEVER = 2**40  # more steps than any fall has


@dataclass(frozen=True, kw_only=True)
class Broken:
    """The sides after the failure, and when it comes.

    sides : Sides with the backup in the bay that parted; longer (2, falls) [m] : how much natural length that adds;
    parts (2, falls) : which sides are concerned; at_anchor (2, falls) : whether the bay beside the anchor parted, whose lock
    then holds nothing; time (falls,) [s] and tension (falls,) [N] at which it comes, inf where it does not.
    """

    sides: Sides
    longer: Array
    parts: NDArray[np.bool_]
    at_anchor: NDArray[np.bool_]
    time: Array
    tension: Array

    def of(self, j: int) -> Broken:
        """Fall number `j` as a batch of one."""
        rows = {f.name: getattr(self, f.name)[..., j : j + 1] for f in fields(self) if f.name != "sides"}
        return Broken(sides=self.sides.of(j), **rows)

    def due(self, time: Array, pull: Array) -> NDArray[np.bool_]:
        """Whether the main line of each fall parts at `time` [s] under the `pull` [N], (2, falls), of its sides."""
        return np.asarray((time >= self.time) | (np.where(self.parts, pull, 0.0).max(0) >= self.tension))


def broken_of(setups: Sequence[Setup], sides: Sides) -> tuple[Sides, Broken | None]:
    """What the `sides` [m] become where the main line of a setup fails; the same sides, on a table with the backups' laws.

    Returns: Sides before, Broken; None where no setup has a failure. Source: module text.
    """
    if all(s.failure is None for s in setups):
        return sides, None
    backups = [s.rig.backup.webbing if s.rig.backup else s.rig.segments[0].webbing for s in setups]
    table = table_of(tuple(dict.fromkeys((*sides.table.webbings, *backups))))
    sides = replace(sides, table=table)
    law: Indices = np.where(sides.fails, [table.webbings.index(w) for w in backups], sides.law)
    extra = np.array([s.rig.backup.extra_length if s.rig.backup else 0.0 for s in setups])
    bay = np.where(sides.fails, sides.length, 0.0).sum((0, 1))
    length = sides.length * (1.0 + np.where(sides.fails, extra / np.maximum(bay, 1e-9), 0.0))
    ratio = np.where(sides.fails, [w.fast_ratio for w in backups], sides.ratio)
    relaxation = np.where(sides.fails, [w.relaxation_time for w in backups], sides.relaxation)
    after = replace(sides, law=law, length=length, ratio=ratio, relaxation=relaxation)
    when = [(s.failure.time, s.failure.tension) if s.failure else (None, None) for s in setups]
    time, tension = (np.array([np.inf if v is None else v for v in row]) for row in zip(*when, strict=True))
    return sides, Broken(
        sides=after,
        longer=(length - sides.length).sum(0),
        parts=np.asarray((sides.fails & (sides.length > 0.0)).any(0)),
        at_anchor=np.array([_at_anchors(s) for s in setups]).T,
        time=time,
        tension=tension,
    )


def _at_anchors(setup: Setup) -> tuple[bool, bool]:
    """Whether the bay that parts lies beside anchor A, beside anchor B."""
    if setup.failure is None or setup.rig.backup is None:
        return False, False
    return setup.failure.bay == 0, setup.failure.bay == len(setup.rig.backup.joints)


def stretch_in_bay(sides: Sides, broken: Broken, run: tuple[Array, Array, Array]) -> Array:
    """How much longer than its natural length the bay that parts is, with webbing paid out there [m], at each step until then.

    `sides`, `broken` of one fall; run : elastic [N], used_to [N] and paid [m] as in models/march.py, until it parts.
    Returns: array (steps,) [m]. Source: stretch of pieces in series.
    """
    elastic, used_to, paid = run
    strain = sides.table.strain(sides.law, sides.used(elastic, used_to))[0]
    stretched = np.where(sides.fails, sides.length * strain, 0.0).sum((1, 2, 3))
    return np.asarray(stretched + np.where(broken.at_anchor, paid, 0.0).sum((1, 2)))
