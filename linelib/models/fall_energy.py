"""The fall by energy: two estimates for the blackboard, no mass in the line, nothing lost.

from the line alone   m g (standing height + leash + extra sag) = U(lowest) - U(line hanging alone) + leash
from standing         m g (standing height + leash + extra sag) = U(lowest) - U(standing) + leash

Extra sag counts from the standing line. What the standing line had stored is given back to nobody: freed, it springs up and
spends it. The first estimate believes all of it lost, the second none of it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.checks import instance
from linelib.models.lines import GRAVITY, Lines, lines_of
from linelib.models.massless import Massless, massless_of, root
from linelib.rigging import Setup

Array = NDArray[np.float64]
TRIED = (25.0, 150.0)


@dataclass(frozen=True, kw_only=True)
class Estimate:
    """`tension` [N] along the line, `leash_force` [N] and `lowest_point` of the tie-in [m below the anchors' line]."""

    tension: float
    leash_force: float
    lowest_point: float


@dataclass(frozen=True, kw_only=True)
class FallEnergy:
    """Both estimates; `from_line_alone` is None where it cannot be used, and `refused` says why ('' otherwise)."""

    from_line_alone: Estimate | None
    from_standing: Estimate
    refused: str
    standing_tension: float
    standing_sag: float


def fall_energy(*, setup: Setup) -> FallEnergy:
    """Highest tension of a leash fall by energy, one equation each, on the fast law.

    Parameters: setup : Setup. Returns: FallEnergy, forces in [N], lengths in [m].
    Valid: level, tight lines with the walker in the middle. There 'from the line alone' lies -12 to +8 % from the fall in time
    between 25 and 150 m, and is refused outside and where the freed line would have more to give back than the walker brings;
    'from standing' lies 4 to 26 % above. Slack lines, other heights and places near an anchor: either can be half or twice.
    Raises: ValueError when the rig cannot hang.
    Example: with a line that cannot stretch and a leash of k, F = mg + sqrt((mg)^2 + 2 mg k h): a mass dropped on a spring.
    Leaves out: mass of the line, air, losses, off-centre differences between the sides.
    Source: energy balance; the mass on a spring of Thomson (1965) p. 110 is its limit (tests/published/).
    """
    instance("setup", setup, Setup)
    line = massless_of([setup], lines_of([setup.rig]))
    standing = line.standing()
    alone = line.alone(standing)
    deep = line.drop(line.long(standing, standing))
    high = _lowest(line, standing, standing, deep)
    given_back = float((line.energy(standing, standing) - line.energy(alone, standing))[0])
    brought = float((line.mass * GRAVITY * line.fall)[0])
    refused = ""
    if not TRIED[0] <= setup.rig.span <= TRIED[1]:
        refused = f"span = {setup.rig.span:g} m: this estimate was only tried from {TRIED[0]:g} to {TRIED[1]:g} m"
    elif given_back > brought:
        refused = f"the freed line spends {given_back:.0f} J, the walker brings only {brought:.0f} J: no answer"
    return FallEnergy(
        from_line_alone=None if refused else _estimate(line, _lowest(line, alone, standing, deep), standing, setup),
        from_standing=_estimate(line, high, standing, setup),
        refused=refused,
        standing_tension=float(standing[0]),
        standing_sag=float(deep[0]),
    )


def highest_tension(setups: Sequence[Setup], lines: Lines, standing: Array) -> tuple[Array, Array]:
    """'From standing' for a batch: tension [N], rounded up, and drop of the ring [m], (falls,) each: for the time step.

    `standing` [N], (falls,), is the tension with the walker standing. Source: as `fall_energy`.
    """
    line = massless_of(setups, lines)
    deep = line.drop(line.long(standing, standing))
    highest = _lowest(line, standing, standing, deep, rounds=4, above=True)
    return highest, line.drop(line.long(highest, standing))


def _lowest(line: Massless, begin: Array, standing: Array, deep: Array, rounds: int = 60, above: bool = False) -> Array:
    """Tension at the lowest point when energy is counted from tension `begin`; `above`: rather too high than too low."""
    before = line.energy(begin, standing)

    def lacking(tension: Array) -> Array:
        d = line.drop(line.long(tension, standing))
        pull = line.lift(tension, d)
        fallen = line.fall + d - deep + pull / line.leash
        return line.energy(tension, standing) - before + 0.5 * pull**2 / line.leash - line.mass * GRAVITY * fallen

    return root(lacking, low=standing, rounds=rounds, above=above)


def _estimate(line: Massless, tension: Array, standing: Array, setup: Setup) -> Estimate:
    drop = line.drop(line.long(tension, standing))
    pull = float(line.lift(tension, drop)[0])
    lowest = float(drop[0]) + setup.leash.length + pull / setup.leash.stiffness
    return Estimate(tension=float(tension[0]), leash_force=pull, lowest_point=lowest)
