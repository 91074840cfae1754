"""One anchor leg fails: how far the meeting point runs, what the others then hold, and how hard the jolt is."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from linelib.checks import number, refuse
from linelib.models.anchor_legs import Leg, LegForces, energy_of, forces_at
from linelib.models.leg_energy import LegEnergy

Array = NDArray[np.float64]
STEP, HALF_SWING = 0.12, 3.2  # rad of the stiffest motion a step; in square roots of length * mass / pull


@dataclass(frozen=True, kw_only=True)
class LegLost:
    """After one leg has failed: `before` and `after` (at rest; the lost leg has 0 there), `pull_after` [N] of the line at
    rest, `run` [m] of the meeting point along the pull, and `jolt` [N], the highest tension of any leg on the way."""

    before: LegForces
    after: LegForces
    pull_after: float
    run: float
    jolt: float


def lose_leg(
    *,
    legs: Sequence[Leg],
    lost: int,
    pull: float,
    direction: float = 0.0,
    running: bool = False,
    line_stiffness: float = 0.0,
) -> LegLost:
    """What happens when leg `lost` gives way under a pull.

    tied legs: the others keep their lengths, the point swings;  running loop: the freed length of the lost leg runs out.
    The jolt is the highest leg tension when the point, with any mass, is let go under a pull that stays on, and nothing is
    lost: the mass cancels. For one leg left straight behind the pull it is F + sqrt(F^2 + 2 k F d), d the free run. A tied leg
    that swings gets far less than that, since most of the energy goes sideways.

    Parameters: legs, at least two; lost, number of the leg counted from 0; pull [N]; direction [rad]; running;
    line_stiffness [N/m] by which the pull falls as the point gives way. 0, a pull that never falls, gives the highest jolt.
    Returns: LegLost, [N] and [m].
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: pull 8 kN, one leg of 100 kN/m left straight behind it after 0.5 m of free run, nothing stored:
    8 + sqrt(64 + 2 * 100 * 8 * 0.5) = 37.4 kN.
    Leaves out: friction, losses, the mass of the webbing spread along it, and what the backup takes.
    Source: Newton's law in central steps (Stoermer 1907, from memory); the formula for one leg is that of a weight dropped on a
    spring (Wexler 1950, as in the impact force equation of ropes).
    """
    whole = energy_of(legs=legs, pull=pull, direction=direction, running=running)
    give = number("line_stiffness", line_stiffness, low=0.0, high=1e9, unit="N/m")
    count = len(whole.natural)
    if isinstance(lost, bool) or not isinstance(lost, int) or not 0 <= lost < count or count < 2:
        raise refuse("lost", lost, f"a leg's number from 0 to {count - 1}, of at least two legs")
    start, keep = whole.lowest(), np.arange(count) != lost
    left = replace(
        whole,
        bolts=whole.bolts[keep],
        natural=whole.natural[keep],
        spring=whole.spring[keep],
        pull=whole.pull + give * float(start @ whole.along),  # so that it is `pull` where the point is when the leg fails
        line_stiffness=give,
    )
    rest = left.lowest()
    return LegLost(
        before=forces_at(whole, start),
        after=_with_lost(forces_at(left, rest), lost, legs[lost].angle),
        pull_after=left.pull_left(rest),
        run=float((rest - start) @ whole.along),
        jolt=_jolt(left, start),
    )


def _jolt(energy: LegEnergy, start: Array) -> float:
    """Highest leg tension [N] of a mass at the meeting point that is let go at `start`.

    Nothing is lost, so the mass sets only how fast it goes, not its path: 1 kg is taken. Stoermer's central steps, fifty
    a period of the stiffest motion, for longer than half a swing of the whole length.
    """
    legs = list(zip(*energy.bolts.T.tolist(), energy.natural.tolist(), energy.spring.tolist(), strict=True))
    along_x, along_y = (float(v) for v in energy.along)
    loop, pull, give = energy.loop, energy.pull, energy.line_stiffness
    stiffest = float(energy.spring.sum()) if loop is None else loop[1] * len(legs) ** 2
    length = float(energy.natural.max()) if loop is None else loop[0]
    step = STEP / math.sqrt(stiffest)
    x, y = (float(v) for v in start)
    before_x, before_y, highest = x, y, 0.0
    for n in range(math.ceil(HALF_SWING * math.sqrt(length / energy.pull_left(start)) / step)):
        force = max(pull - give * (x * along_x + y * along_y), 0.0)
        ax, ay = force * along_x, force * along_y
        ways = [(bx - x, by - y, math.hypot(bx - x, by - y), natural, spring) for bx, by, natural, spring in legs]
        one = 0.0 if loop is None else loop[1] * max(sum(way[2] for way in ways) - loop[0], 0.0)
        for dx, dy, r, natural, spring in ways:
            tension = spring * max(r - natural, 0.0) if loop is None else one
            highest = max(highest, tension)
            ax, ay = ax + tension * dx / r, ay + tension * dy / r
        half = 0.5 if n == 0 else 1.0  # from rest
        after = (2.0 * x - before_x + half * step**2 * ax, 2.0 * y - before_y + half * step**2 * ay)
        before_x, before_y, (x, y) = x, y, after
    return highest


def _with_lost(forces: LegForces, lost: int, angle: float) -> LegForces:
    """The same forces with the lost leg in its place, holding nothing."""
    return replace(
        forces,
        tensions=(*forces.tensions[:lost], 0.0, *forces.tensions[lost:]),
        angles=(*forces.angles[:lost], angle, *forces.angles[lost:]),
    )
