"""Slip at the lock, outing after outing: what each fall pays out, and what that takes from tail, backup and drop.

After a fall the line is left as it is, or the crew pulls what was paid out back through the same lock until the line alone has
its first pretension; then the next fall begins as the first did, and the lock slips again.

What pays for it, with assumptions of ours (common practice, no source):
* the tail behind the lock is loose: it shortens by what was paid out; a fold or knot in it comes as much nearer to the lock;
* joints are fixed to the main webbing. What is paid out comes in between the lock and the last joint, so only the bay there
  gets longer, and the backup beside it stays as it is: its extra length shrinks by what was paid out. At the highest pull the
  webbing of that bay is stretched as well. When both together exceed the extra length, the backup pulls before the main line
  is at its length: a line this model does not compute, so the series ends before that fall.

A slipping lock is a fault, never a shock absorber.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.checks import instance, number, refuse
from linelib.models.fall_results import Fall
from linelib.studies.falls_in_a_row import Row

Array = NDArray[np.float64]
NAMES = {
    "peak_a": "peak_tension_a",
    "peak_b": "peak_tension_b",
    "standing_a": "standing_tension_a",
    "standing_b": "standing_tension_b",
    "person": "peak_leash_force",
    "lowest": "lowest_point",
    "standing_sag": "standing_sag",
}


@dataclass(frozen=True, kw_only=True)
class Outings:
    """A series of falls, arrays (falls,), at most as many as in the row.

    peak_a, peak_b, standing_a, standing_b, person [N] : as in Fall; pretension [N] : of the line alone, before the fall
    lowest, standing_sag [m] : as in Fall; standing_sag before the fall
    paid_out [m] : by the lock in this fall; line_longer [m] : natural length above that of the first line after the fall
    tail_left, fold_to_lock, backup_left [m] : when the fall is over; backup_left at its highest pull, in the bay at the lock
    fold_in : number of the fall in which the fold reaches the lock, 0: in none of them
    ended : 'tail', 'backup' or '' ; ended_in : number of the fall that is not shown any more, 0: all are
    series : the falls themselves, (falls,)
    """

    retensioned: bool
    peak_a: Array
    peak_b: Array
    standing_a: Array
    standing_b: Array
    person: Array
    lowest: Array
    standing_sag: Array
    pretension: Array
    paid_out: Array
    line_longer: Array
    tail_left: Array
    fold_to_lock: Array
    backup_left: Array
    fold_in: int
    ended: str
    ended_in: int
    series: tuple[Fall, ...]

    @property
    def anchor(self) -> Array:
        """Highest tension at the higher anchor [N], (falls,)."""
        return np.maximum(self.peak_a, self.peak_b)

    @property
    def increase(self) -> Array:
        """Highest tension above that of the standing line, at the anchor where it is more [N], (falls,)."""
        return np.maximum(self.peak_a - self.standing_a, self.peak_b - self.standing_b)


def outings(*, row: Row, tail: float = 1.5, fold: float = 0.6, retensioned: bool = False) -> Outings:
    """What each fall of a row has cost: tail, fold and backup.

    Parameters
    ----------
    row : Row of a setup with a backup; re-tensioned, the first of its falls is every fall
    tail [m], 0.01 to 100 : webbing behind the lock; fold [m], 0 to the tail : from the lock to a fold or knot in it
    retensioned : after each fall, what was paid out is pulled back through the lock

    Returns: Outings, (falls,), cut before the fall in which tail or backup come to their end.
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: 0.3 m paid out in each of three falls, 1.5 m of tail, fold at 0.6 m: 0.6 m of tail left, the fold in since fall 2.
    Leaves out: what a fold in the lock does to it (lesson 8), a backup that shares a fall, wear of what ran through the lock.
    Source: bookkeeping with the assumptions in the module text.
    """
    instance("row", row, Row)
    tail = number("tail", tail, low=0.01, high=100.0, unit="m")
    fold = number("fold", fold, low=0.0, high=tail, unit="m, the tail")
    backup = row.setup.rig.backup
    if backup is None:
        raise refuse("backup", backup, "a Backup: its extra length is one of the things that slip uses up")
    every = np.zeros(len(row.falls), dtype=int) if retensioned else np.arange(len(row.falls))
    falls, paid = tuple(row.falls[i] for i in every), row.paid_out[every]
    gone = paid if retensioned else np.cumsum(paid)
    room = backup.extra_length - row.bay_stretch[every]
    whole = int(np.argmin(np.append(gone < np.minimum(tail, room), False)))
    ended = "" if whole == len(falls) else "tail" if tail <= room[whole] else "backup"
    in_lock = np.flatnonzero(gone[:whole] >= fold)
    return Outings(
        retensioned=retensioned,
        **{name: np.array([getattr(one, of) for one in falls[:whole]]) for name, of in NAMES.items()},
        pretension=row.pretension[every][:whole],
        paid_out=paid[:whole],
        line_longer=gone[:whole],
        tail_left=tail - gone[:whole],
        fold_to_lock=np.maximum(fold - gone[:whole], 0.0),
        backup_left=(room - gone)[:whole],
        fold_in=int(in_lock[0]) + 1 if len(in_lock) else 0,
        ended=ended,
        ended_in=whole + 1 if ended else 0,
        series=falls[:whole],
    )
