"""What is held equal when two rigs are compared decides the answer: pretension, standing sag, or the webbing itself."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from linelib.checks import one_of, refuse
from linelib.models.lines import lines_of
from linelib.models.standing import standing_of
from linelib.rigging import Setup

HELD = ("pretension", "standing sag", "the same webbing")
ROUNDS = 6


def hold_equal(*, firsts: Sequence[Setup], seconds: Sequence[Setup], held: str) -> list[Setup]:
    """The second rigs, each tensioned so that `held` equals that of the first rig beside it.

    pretension : as described; standing sag [m] : the pretension is solved for it (secant on 1 / sag, to 0.1 %);
    the same webbing : the segment without a length keeps the natural length [m] it has in the first rig.

    Returns: Setups, as many as given.
    Raises: ValueError when `held` is unknown, or no pretension gives that sag.
    Source: definitions; physics of models/sag.py.
    """
    held = one_of("held", held, HELD)
    if held == "pretension":
        return list(seconds)
    if held == "standing sag":
        return _same_sag(firsts, seconds)
    lengths = lines_of([s.rig for s in firsts]).pieces.length
    return [_with_length(s, _free_length(f, lengths[:, j])) for j, (f, s) in enumerate(zip(firsts, seconds, strict=True))]


def _same_sag(firsts: Sequence[Setup], seconds: Sequence[Setup]) -> list[Setup]:
    wanted = 1.0 / standing_of(firsts).sag
    old = np.array([s.rig.pretension or 3000.0 for s in seconds])
    new = 1.1 * old
    past = 1.0 / standing_of(_tensioned(seconds, old)).sag - wanted
    for _ in range(ROUNDS):
        miss = 1.0 / standing_of(_tensioned(seconds, new)).sag - wanted
        if np.all(np.abs(miss) < 1e-3 * wanted):
            return _tensioned(seconds, new)
        step = np.where(miss == past, 0.0, miss * (new - old) / np.where(miss == past, 1.0, miss - past))
        old, past, new = new, miss, np.clip(new - step, 0.3 * new, 3.0 * new)
    raise refuse("held", "standing sag", "a rig that can be tensioned to that sag")


def _tensioned(setups: Sequence[Setup], pretension: np.typing.NDArray[np.float64]) -> list[Setup]:
    return [replace(s, rig=replace(s.rig, pretension=float(p))) for s, p in zip(setups, pretension, strict=True)]


def _free_length(setup: Setup, lengths: np.typing.NDArray[np.float64]) -> float:
    free = [segment.length is None for segment in setup.rig.segments].index(True)
    return float(lengths[free])


def _with_length(setup: Setup, length: float) -> Setup:
    segments = tuple(replace(s, length=length) if s.length is None else s for s in setup.rig.segments)
    return replace(setup, rig=replace(setup.rig, segments=segments, pretension=None))
