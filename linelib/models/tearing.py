"""Load after load on badly seated webbing: what tears, what still carries, and what could be noticed of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq

from linelib.checks import number, refuse
from linelib.models.strips import Strips


@dataclass(frozen=True, kw_only=True)
class TearState:
    """Strips after a load: `load` [N] as asked for; `held` : whether it was carried in the end; `torn` : strips torn so far;
    `whole_share` [-] of the width; `pull` [N] and `displacement` [m] while the load was on (0 and the last strip's end when
    it tore through); `strength_left` [N] : the most it holds from here on; `torn_energy` [J] : what all torn strips had stored.
    """

    load: float
    held: bool
    torn: int
    whole_share: float
    pull: float
    displacement: float
    strength_left: float
    torn_energy: float


def tear(*, strips: Strips, loads: Sequence[float], torn: int = 0, line_stiffness: float = 0.0) -> tuple[TearState, ...]:
    """The states after each of several loads that come and go, one after the other.

    A load that stays on while strips tear finds rest only where the strips still whole carry it again: the next strip k with
    peak_pull_k + K tears_at_k >= load. Where the difference grows smoothly the pull falls from the first tear on, and nothing
    stops it: it runs to failure. After a step (a fold) the rest may hold, until a higher load comes: stages.

    Parameters
    ----------
    strips : of models/strips.py
    loads [N] : highest pull of each load, as it would be if nothing gave way in the lock
    torn : strips torn before
    line_stiffness [N/m], K : by how much the pull falls for each metre that gives way; 0 for a load that stays (a long line
        is near it: 100 m of 1 MN lose 10 N a millimetre); very large: the end is drawn out to load/K and held there

    Returns: one TearState a load, forces in [N], lengths in [m], energies in [J].
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: a quarter of the width tight, the rest longer by more than it stretches, 33 kN: a load of 9 kN tears the quarter
        and is held by the rest, which tears at 24.75 kN.
    Source: balance of forces; energies in strips.stored_energy and torn_energy close the ledger of a slow displacement.
    Leaves out: the jerk when strips tear, creep under a load that stays for long, damage of strips that did not tear.
    """
    number("line_stiffness", line_stiffness, low=0.0, high=1e15, unit="N/m")
    count = len(strips.tears_at)
    if isinstance(torn, bool) or not isinstance(torn, int) or not 0 <= torn <= count:
        raise refuse("torn", torn, f"a whole number from 0 to {count}")
    states = []
    for i, load in enumerate(loads):
        number(f"loads[{i}]", load, low=0.0, high=1e15, unit="N")
        enough = np.flatnonzero(strips.peak_pull[torn:] + line_stiffness * strips.tears_at[torn:] >= load)
        held = len(enough) > 0
        torn = torn + int(enough[0]) if held else count
        states.append(_state(strips, float(load), held, torn, line_stiffness))
    return tuple(states)


def _state(strips: Strips, load: float, held: bool, torn: int, stiffness: float) -> TearState:
    at = _rest(strips, load, torn, stiffness) if held else float(strips.tears_at[-1])
    return TearState(
        load=load,
        held=held,
        torn=torn,
        whole_share=1.0 - torn / len(strips.tears_at),
        pull=float(strips.pull(at, torn)) if held else 0.0,
        displacement=at,
        strength_left=strips.strength_left(torn),
        torn_energy=strips.torn_energy(torn),
    )


def _rest(strips: Strips, load: float, torn: int, stiffness: float) -> float:
    """Where the whole strips and the line pull alike [m]; with a line that gives way it may be below the first taut strip."""
    if stiffness == 0.0:
        return strips.displacement(pull=load, torn=torn)
    end = float(strips.tears_at[torn])
    if float(strips.pull(end, torn)) + stiffness * end <= load:
        return end
    return float(brentq(lambda u: float(strips.pull(u, torn)) + stiffness * u - load, 0.0, end, xtol=1e-12))


@dataclass(frozen=True, kw_only=True)
class Remainder:
    """What is left at some tension: `whole_share` [-] of the width not torn; `carrying_share` [-] that carries something now;
    `length_given_up` [m] : how much further out the webbing stands than untorn webbing seated the same, at the same tension;
    `strength_left` [N] : the most it holds from here on."""

    whole_share: float
    carrying_share: float
    length_given_up: float
    strength_left: float


def remainder(*, strips: Strips, torn: int, tension: float) -> Remainder:
    """Which share of the width still carries after a load history, and the length given up at a given tension.

    For what a crew could notice: give the `torn` of the last TearState and the tension of the line at rest. The length given
    up makes the line longer by as much; sag, tension and pluck follow from that and the span, elsewhere.

    Parameters
    ----------
    strips : of models/strips.py
    torn : strips torn so far, from `tear`
    tension [N] : the line's now; at most what both the untorn and the remaining strips carry without a further tear

    Returns: Remainder; shares [-], length in [m], strength in [N].
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: straight law of 1 MN, l = 0.1 m, half of the strips tight and torn, the others longer by 2 mm: at 1 kN each half
        had stretched 0.2 mm; now it stands at 2 + 0.2 mm: 2 mm given up.
    Source: balance of forces, models/strips.py.
    """
    if isinstance(torn, bool) or not isinstance(torn, int) or not 0 <= torn < len(strips.tears_at):
        raise refuse("torn", torn, f"a whole number from 0 to {len(strips.tears_at) - 1}")
    most = float(min(strips.peak_pull[0], strips.peak_pull[torn]))
    number("tension", tension, low=0.0, high=most, unit="N")
    now = strips.displacement(pull=tension, torn=torn)
    carrying = strips.tensions(now, torn) > 0.0
    return Remainder(
        whole_share=1.0 - torn / len(strips.tears_at),
        carrying_share=float(carrying.mean()),
        length_given_up=now - strips.displacement(pull=tension),
        strength_left=strips.strength_left(torn),
    )
