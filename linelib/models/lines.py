"""From described rigs to the pieces of a hanging line: natural lengths, weights, and where a walker divides them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from linelib.checks import refuse
from linelib.models.hanging_line import Pieces, land, solve_length, solve_pull
from linelib.models.law_table import Indices, table_of
from linelib.rigging import Rig, Segment
from linelib.webbing import Webbing

Array = NDArray[np.float64]
GRAVITY = 9.80665


@dataclass(frozen=True, kw_only=True)
class Lines:
    """A batch of lines hanging alone: the pieces, `span` and `rise` [m], and the pull at A (`horizontal`, `vertical`) [N];
    arrays (rigs,)."""

    pieces: Pieces
    span: Array
    rise: Array
    horizontal: Array
    vertical: Array

    def of(self, j: int) -> Lines:
        """Line number `j` as a batch of one."""
        one = slice(j, j + 1)
        pull = {"horizontal": self.horizontal[one], "vertical": self.vertical[one]}
        return Lines(pieces=_columns(self.pieces, np.array([j])), span=self.span[one], rise=self.rise[one], **pull)


def lines_of(rigs: Sequence[Rig]) -> Lines:
    """Hang every rig with nobody on it; a segment without a length gets the one its pretension asks for.

    Returns: Lines, lengths in [m], pulls in [N].
    Raises: ValueError when the webbing is too short to hold the span, or the other segments already reach across.
    Source: models/hanging_line.py.
    """
    span = np.array([r.span for r in rigs])
    rise = np.array([r.height_difference for r in rigs])
    pieces = _described(rigs)
    given = np.array([r.pretension is None for r in rigs])
    _refuse_short(rigs, pieces, given)
    _refuse_loose(rigs, pieces)
    horizontal, vertical = np.zeros(len(rigs)), np.zeros(len(rigs))
    if not np.all(given):
        cols = np.flatnonzero(~given)
        horizontal[cols] = [rigs[c].pretension or 0.0 for c in cols.tolist()]
        solved, vertical[cols] = _solve_free(rigs, pieces, cols, horizontal[cols])
        pieces.length[:, cols], pieces.weight[:, cols] = solved.length, solved.weight
    if np.any(given):
        cols = np.flatnonzero(given)
        horizontal[cols], vertical[cols] = solve_pull(_columns(pieces, cols), span=span[cols], rise=rise[cols])
    return Lines(pieces=pieces, span=span, rise=rise, horizontal=horizontal, vertical=vertical)


def _solve_free(rigs: Sequence[Rig], pieces: Pieces, cols: Indices, horizontal: Array) -> tuple[Pieces, Array]:
    """Pieces of the rigs `cols` with the one length solved that their pretension asks for, and V at A [N].

    The hung weight is spread over the natural length, which is not known before: twice, first over the straight line.
    """
    some = [rigs[c] for c in cols.tolist()]
    free = np.array([[s.length is None for s in rig.segments].index(True) for rig in some], dtype=np.intp)
    span, rise = np.array([r.span for r in some]), np.array([r.height_difference for r in some])
    hung = np.array([r.hung_mass for r in some]) * GRAVITY * span
    part, over = _columns(pieces, cols), np.hypot(span, rise)
    own = _own_weight(some, len(part.length))
    vertical = horizontal
    for _ in range(2 if np.any(hung) else 1):
        part = replace(part, weight=own + hung / over, length=part.length.copy())
        solved, vertical = solve_length(part, free=free, horizontal=horizontal, span=span, rise=rise)
        part.length[free, np.arange(len(cols))] = solved
        over = part.length.sum(0)
    return part, vertical


def place_on_line(lines: Lines, position: Array) -> Array:
    """Natural length [m] from A to the webbing that lies at x = position * span in the line hanging alone, (rigs,).

    Source: x along the line rises, so Newton kept inside a shrinking bracket.
    """
    wanted, column = position * lines.span, np.arange(len(lines.span))
    landing = land(lines.pieces, lines.horizontal, lines.vertical)
    k = np.minimum((landing.x < wanted).sum(0), len(landing.x) - 1)
    begin = np.where(k > 0, landing.x[k - 1, column], 0.0)
    full = lines.pieces.length[k, column]
    pull = landing.start[k, column]
    one = replace(
        lines.pieces,
        weight=lines.pieces.weight[k, column][None],
        law=lines.pieces.law[k, column][None],
        load=np.zeros((1, len(column))),
    )
    low, high = np.zeros_like(full), full
    s = full * (wanted - begin) / (landing.x[k, column] - begin)
    for _ in range(60):
        part = land(replace(one, length=s[None]), lines.horizontal, pull)
        short = begin + part.x[0] - wanted
        there = np.abs(short) < 1e-12 * lines.span
        if np.all(there):
            break
        low, high = np.where(short < 0, s, low), np.where(short < 0, high, s)
        slope = (s > 0) * part.x[0] / np.maximum(s, 1e-12) + (s <= 0)
        better = s - short / slope
        s = np.where(there, s, np.where((better > low) & (better < high), better, 0.5 * (low + high)))
    before = np.cumsum(lines.pieces.length, axis=0)[k, column] - full
    return np.asarray(before + s)


def divide(pieces: Pieces, at: Array, load: Array) -> tuple[Pieces, Indices]:
    """Divide every line at the natural lengths `at` [m] from A and hang `load` [N] there; both (loads, rigs).

    Returns: the new Pieces, and for each load the piece at whose end it hangs, (loads, rigs).
    Source: bookkeeping; nothing is approximated.
    """
    ends = np.cumsum(pieces.length, axis=0)
    all_ends = np.concatenate([at, ends])
    order = np.argsort(all_ends, axis=0, kind="stable")
    sorted_ends = np.take_along_axis(all_ends, order, axis=0)
    sorted_ends[-1] = ends[-1]
    length = np.diff(sorted_ends, axis=0, prepend=0.0)
    middle = sorted_ends - 0.5 * length
    old = np.minimum((middle[:, None] > ends[None]).sum(1), len(ends) - 1)
    loads = np.take_along_axis(np.concatenate([load, pieces.load]), order, axis=0)
    where = np.argsort(order, axis=0, kind="stable")[: len(at)]
    column = np.arange(at.shape[1])
    divided = replace(pieces, length=length, weight=pieces.weight[old, column], law=pieces.law[old, column], load=loads)
    return divided, where


def _described(rigs: Sequence[Rig]) -> Pieces:
    """Pieces as entered; a missing length is a placeholder; short lists are filled up with pieces of no length."""
    kinds: dict[Webbing, int] = {}
    for rig in rigs:
        for segment in rig.segments:
            kinds.setdefault(segment.webbing, len(kinds))
    count = max(len(r.segments) for r in rigs)
    law = np.array([[kinds[s.webbing] for s in _padded(r, count)] for r in rigs], dtype=np.intp).T
    length = np.zeros((count, len(rigs)))
    for j, rig in enumerate(rigs):
        for i, segment in enumerate(rig.segments):
            length[i, j] = rig.span if segment.length is None else segment.length
    hung = np.array([r.hung_mass * r.span for r in rigs]) * GRAVITY
    weight = _own_weight(rigs, count) + hung / length.sum(0)
    return Pieces(table=table_of(tuple(kinds)), length=length, weight=weight, law=law, load=np.zeros_like(length))


def _padded(rig: Rig, count: int) -> tuple[Segment, ...]:
    return rig.segments + (rig.segments[-1],) * (count - len(rig.segments))


def _own_weight(rigs: Sequence[Rig], count: int) -> Array:
    mass = [[s.webbing.mass_per_length for s in _padded(r, count)] for r in rigs]
    return np.array(mass).T * GRAVITY


def _columns(pieces: Pieces, cols: Indices) -> Pieces:
    return replace(
        pieces,
        length=pieces.length[:, cols],
        weight=pieces.weight[:, cols],
        law=pieces.law[:, cols],
        load=pieces.load[:, cols],
    )


def _refuse_loose(rigs: Sequence[Rig], pieces: Pieces) -> None:
    """A pretension so low that the line alone would hang deeper than about half its span is no highline."""
    for j, rig in enumerate(rigs):
        least = float(pieces.weight[:, j].max()) * rig.span / 4.0
        if rig.pretension is not None and rig.pretension < least:
            raise refuse("pretension", rig.pretension, f"at least {least:.0f} N, where the line alone hangs half its span deep")


def _refuse_short(rigs: Sequence[Rig], pieces: Pieces, given: NDArray[np.bool_]) -> None:
    """A line whose straight chord alone would break it cannot hold the span."""
    for j in map(int, np.flatnonzero(given)):
        rig = rigs[j]
        chord = float(np.hypot(rig.span, rig.height_difference))
        natural = float(pieces.length[:, j].sum())
        strength = min(s.webbing.breaking_strength for s in rig.segments)
        strain = pieces.table.strain(pieces.law[:, j], np.full(len(pieces.length), strength))[0]
        longest = float((pieces.length[:, j] * (1.0 + strain)).sum())
        if longest < chord:
            raise refuse(
                "length",
                round(natural, 3),
                f"segments that reach {chord:.2f} m before the weakest breaks at {strength / 1e3:.1f} kN; "
                f"these reach {longest:.2f} m: a natural length that cannot hold the span",
            )
