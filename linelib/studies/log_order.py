"""Bringing a log into order, and noticing gaps, uneven sampling, flat tops, forces below zero."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from linelib.checks import refuse
from linelib.studies.log_table import Table

Array = NDArray[np.float64]
NEIGHBOURS = 5.0  # a step back over more sampling intervals than this is a second recording, not rows out of order: our choice
DOUBLED = 0.1  # share of times that may be there twice; more: the file gives time with too few digits. Our choice
GAP = 1.5  # sampling intervals
UNEVEN = 0.1  # scatter of the intervals over their median that is worth saying: our choice
FLAT, STEEP = 3, 12.0  # samples of a flat top; see `clipped_samples`


def in_order(*, name: str, table: Table, fewest: int) -> tuple[Array, Array, tuple[str, ...]]:
    """Times [s] and forces [N] that rise in time, each once, and words on what was done.

    Raises: ValueError where rows are not from one recording, or where too few are left.
    Source: by definition.
    """
    noticed = []
    rows = [row for row in table.rows if row[2] is not None]
    if missing := [row[0] for row in table.rows if row[2] is None]:
        noticed.append(f"{_count(missing, 'row')} without a force ({_places(missing)}): left as a gap")
    if len(rows) < fewest:
        raise refuse(f"{name}, rows with time and force", len(rows), f"at least {fewest}")
    line = [row[0] for row in rows]
    time = np.array([row[1] for row in rows]) * table.to_second
    force = np.array([row[2] for row in rows], dtype=float) * table.to_newton
    step = np.diff(time)
    interval = float(np.median(np.abs(step[step != 0.0]))) if np.any(step) else 0.0
    if back := [line[i + 1] for i in np.flatnonzero(step < 0.0)]:
        reach = float((np.maximum.accumulate(time) - time).max())
        if reach > NEIGHBOURS * interval:
            at = line[int(np.argmax(np.maximum.accumulate(time) - time))]
            allowed = "one recording a file; neighbouring rows may be out of order"
            raise refuse(f"{name}, line {at}, time", f"{reach:.3g} s back", allowed)
        noticed.append(f"time steps back in {_count(back, 'row')} ({_places(back)}): rows put in order of time")
        order = np.argsort(time, kind="stable")
        time, force, line = time[order], force[order], [line[i] for i in order]
    once, first, count = np.unique(time, return_index=True, return_counts=True)
    if len(once) < len(time):
        if len(time) - len(once) > DOUBLED * len(time):
            twice = line[int(first[count > 1][0]) + 1]
            allowed = f"at most {100 * DOUBLED:.0f} % of the times twice; the file gives time with too few digits"
            raise refuse(f"{name}, line {twice}, times that are there already", len(time) - len(once), allowed)
        places = [line[i] for i in first[count > 1]]
        noticed.append(f"{_count(places, 'time')} more than once ({_places(places)}): the mean of the forces is taken")
        force = np.add.reduceat(force, first) / count
    if len(once) < fewest:
        raise refuse(f"{name}, different times", len(once), f"at least {fewest}")
    return once, force, tuple(noticed)


def look_over(*, time: Array, force: Array) -> tuple[str, ...]:
    """Words on gaps and uneven sampling of times [s], and on forces [N] below zero.

    Source: by definition.
    """
    step, noticed = np.diff(time), []
    usual = float(np.median(step))
    gaps = np.flatnonzero(step > GAP * usual)
    if len(gaps):
        longest = gaps[np.argmax(step[gaps])]
        where = f"the longest {step[longest]:.3g} s at {time[longest]:.2f} s"
        noticed.append(f"{len(gaps)} gap{'s' * (len(gaps) > 1)} in time, {where}: not filled; a peak may lie inside")
    even = step[step <= GAP * usual]
    if float(even.std()) > UNEVEN * usual:
        noticed.append(f"sampling is uneven: intervals {1e3 * even.min():.3g} to {1e3 * even.max():.3g} ms")
    if (lowest := float(force.min())) < 0.0:
        noticed.append(f"lowest reading {lowest:.0f} N: webbing cannot push, so the cell's zero or its noise is off")
    return tuple(noticed)


def clipped_samples(*, time: Array, force: Array, most: float | None) -> tuple[NDArray[np.bool_], tuple[str, ...]]:
    """Which samples stand at the cell's end, and words on that.

    With `most` [N]: all that reach it. Without: at least 3 equal samples in a row at the highest reading, to which the force
    runs up, or from which it runs down, too steeply. A round top that only looks flat because the cell rounds to steps of q
    falls by less than q over half of the n flat samples, so by less than 9 q over n more; 12 q are asked for, on both sides.

    Source: a parabola through the top, by hand.
    """
    top = float(force.max())
    if most is not None:
        clipped = force >= most * (1.0 - 1e-9)
        if not clipped.any():
            return clipped, ()
        said = f"at or above the cell's end of {most / 1e3:.2f} kN"
    else:
        clipped = force == top
        if not _flat(force, clipped):
            return np.zeros(len(force), dtype=bool), ()
        said = f"equal at {top / 1e3:.2f} kN, a flat top"
    span = time[clipped][-1] - time[clipped][0]
    words = (
        f"{int(clipped.sum())} samples {said}, within {span:.2f} s: clipped; the true peak is higher, how much is not recorded"
    )
    return clipped, (words,)


def _flat(force: Array, at_top: NDArray[np.bool_]) -> bool:
    """Whether one run at the top is too flat for a round peak."""
    steps = np.diff(np.unique(force))
    if not len(steps):
        return False
    quantum = float(np.percentile(steps, 25.0))  # not the least: the mean of two forces at one time lies between steps
    edges = np.flatnonzero(np.diff(np.concatenate([[0], at_top.astype(int), [0]])))
    top = float(force.max())
    for begin, end in zip(edges[::2], edges[1::2], strict=True):
        size = end - begin
        sides = [force[max(begin - size, 0)], force[min(end + size - 1, len(force) - 1)]]
        if size >= FLAT and all(top - side > STEEP * quantum for side in sides):
            return True
    return False


def _count(of: Sequence[int], what: str) -> str:
    return f"{len(of)} {what}{'s' * (len(of) > 1)}"


def _places(lines: Sequence[int]) -> str:
    """Line numbers, at most six of them."""
    more = f" and {len(lines) - 6} more" if len(lines) > 6 else ""
    return f"line{'s' * (len(lines) > 1)} " + ", ".join(str(line) for line in lines[:6]) + more
