"""Anchor legs: how two or three legs that meet in one point share the pull, by angle, length and stiffness."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from linelib.checks import instance, number, refuse
from linelib.models.leg_energy import LegEnergy

MOST_LEGS = 6


@dataclass(frozen=True, kw_only=True)
class Leg:
    """One leg, seen from above, from the point where the legs meet to its bolt.

    Parameters
    ----------
    angle [rad] : of the leg as rigged, from straight back; positive to the left of who looks along the pull
    reach [m] : from the meeting point as rigged to the bolt
    longer_by [m] : natural length less reach; below 0 for a leg that is too short
    stiffness [N] : tension per unit strain, EA, of the whole leg (both strands of a sling)

    Raises
    ------
    ValueError : name, value and allowed range.
    """

    angle: float
    reach: float = 1.5
    longer_by: float = 0.0
    stiffness: float = 250e3

    def __post_init__(self) -> None:
        number("angle", self.angle, low=-1.5, high=1.5, unit="rad")
        number("reach", self.reach, low=0.05, high=100.0, unit="m")
        number("longer_by", self.longer_by, low=-0.5 * self.reach, high=self.reach, unit="m (from half the reach less)")
        number("stiffness", self.stiffness, low=1e3, high=1e9, unit="N")

    @property
    def bolt(self) -> tuple[float, float]:
        """Place of the bolt [m]; the meeting point as rigged is (0, 0), the line leaves along x."""
        return -self.reach * float(np.cos(self.angle)), self.reach * float(np.sin(self.angle))


@dataclass(frozen=True, kw_only=True)
class LegForces:
    """Tension of each leg [N]; place of the meeting point [m]; angle of each leg under load [rad], from straight back."""

    tensions: tuple[float, ...]
    point: tuple[float, float]
    angles: tuple[float, ...]

    @property
    def most(self) -> int:
        """Number of the leg that carries most, counted from 0; the first of equals."""
        top = max(self.tensions)
        return next(i for i, tension in enumerate(self.tensions) if tension >= top * (1.0 - 1e-9))


def share_pull(*, legs: Sequence[Leg], pull: float, direction: float = 0.0, running: bool = False) -> LegForces:
    """How the legs share a pull, in balance at the place where the meeting point comes to rest.

    Sum over the legs of tension * unit vector to the bolt = - pull, tension = stiffness * (r - n) / n when r > n, else 0.
    With `running` the legs are one loop that runs through all bolts and the meeting point without friction: the same
    tension everywhere, = (sum of r - sum of n) / (sum of n / stiffness). Changes of geometry are kept: the angles are those
    under load. The balance is the lowest place of a convex energy, found by Newton's method.

    Parameters: legs, 1 to 6 of them; pull [N]; direction [rad] of the pull, 0 along the line, positive to the left;
    running, True or False.
    Returns: LegForces, [N], [m], [rad].
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: two equal legs, 60 degrees between them under load, pull 8 kN: 8 / (2 cos 30) = 4.62 kN each, which is half the
    pull times the printed factor 1.155.
    Leaves out: friction at the bolts, legs in three dimensions, a curved law of the webbing, and everything in time.
    Source: balance of forces in a plane (any statics textbook).
    """
    energy = energy_of(legs=legs, pull=pull, direction=direction, running=running)
    return forces_at(energy, energy.lowest())


def energy_of(*, legs: Sequence[Leg], pull: float, direction: float, running: bool) -> LegEnergy:
    """The energy whose lowest place is the balance; arguments as in `share_pull`, in [N], [rad].

    Raises: ValueError naming the argument, its value and what is allowed.
    Source: models/leg_energy.py.
    """
    if isinstance(legs, str | Leg) or not hasattr(legs, "__iter__"):
        raise refuse("legs", legs, f"1 to {MOST_LEGS} Legs")
    found = tuple(legs)
    if not 1 <= len(found) <= MOST_LEGS:
        raise refuse("legs", found, f"1 to {MOST_LEGS} Legs")
    for i, leg in enumerate(found):
        instance(f"legs[{i}]", leg, Leg)
    pull = number("pull", pull, low=1.0, high=1e7, unit="N")
    direction = number("direction", direction, low=-1.5, high=1.5, unit="rad")
    if not isinstance(running, bool):
        raise refuse("running", running, "True or False")
    natural = np.array([leg.reach + leg.longer_by for leg in found])
    compliance = natural / np.array([leg.stiffness for leg in found])
    return LegEnergy(
        bolts=np.array([leg.bolt for leg in found]),
        natural=natural,
        spring=1.0 / compliance,
        loop=(float(natural.sum()), 1.0 / float(compliance.sum())) if running else None,
        pull=pull,
        along=np.array([np.cos(direction), np.sin(direction)]),
    )


def forces_at(energy: LegEnergy, point: np.ndarray) -> LegForces:
    """Tensions [N] and angles [rad] with the meeting point at `point` [m]. Source: geometry."""
    back = energy.bolts - point
    angles = np.arctan2(back[:, 1], -back[:, 0])
    return LegForces(
        tensions=tuple(float(t) for t in energy.tensions(point)),
        point=(float(point[0]), float(point[1])),
        angles=tuple(float(a) for a in angles),
    )
