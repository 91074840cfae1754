"""The leash: a spring and a dashpot that only pull, stepped so that no energy is made.

The leash is much stiffer than the waves on the light ring, so its force over a step is solved together with the motion it
causes. Over the step the stretch goes from e0 to e1; the spring pulls with the mean that gives back exactly its energy,

    F = share * (k (e0+ + e1+) / 2 + c (e1 - e0) / dt),   share = (e1+ - e0+) / (e1 - e0),   e+ = max(e, 0)

(a discrete gradient: F times the change of length is the change of k e+^2 / 2; `share` is the part of the step in contact),
and e1 = e0 + grown - gain F: a line where the leash stays taut, a square where it becomes taut within the step.

Source: Gonzalez (1996), J. Nonlinear Sci. 6:449 (discrete gradients; from memory).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np


@dataclass(frozen=True, kw_only=True)
class LeashLaw:
    """Length [m], half the stiffness [N/m], damping over the time step [N/m]: numbers for one fall, else arrays (falls,)."""

    length: Any
    half: Any
    damping: Any

    def pull(self, before: Any, x1: Any, z1: Any, give_x: Any, give_z: Any) -> tuple[Any, Any, Any]:
        """Force over a step; the same lines serve numbers and arrays.

        Parameters: `before` x, z and length [m] from ring to tie-in at the begin of the step; x1, z1 [m] at its end if the
        leash did not pull; give_x, give_z [m/N]: how much a unit force shortens that.
        Returns: force [N], or None where every leash is slack; the direction (x, z) in which it pulls the ring.
        """
        one = isinstance(x1, float)
        hypot = math.hypot if one else np.hypot
        x0, z0, long0 = before
        long1 = hypot(x1, z1)
        e0 = long0 - self.length
        both = long0 + long1
        ux, uz = (x1 + x0) / both, (z1 + z0) / both
        grown = ux * (x1 - x0) + uz * (z1 - z0)
        e1 = e0 + grown
        if one:
            if e0 <= 0.0 and e1 <= 0.0:
                return None, ux, uz
        elif not (np.maximum(e0, e1) > 0.0).any():
            return None, ux, uz
        gain = give_x * ux * ux + give_z * uz * uz
        choose = _choose_one if one else _choose_many
        return choose(self, e0, e1, gain), ux, uz

    def stays(self, e0: Any, e1: Any, gain: Any) -> Any:
        """Force [N] of a step that begins and ends taut: a line in the stretch at its end."""
        return (self.half * (e0 + e1) + self.damping * (e1 - e0)) / (1.0 + gain * self.both)

    @cached_property
    def both(self) -> Any:
        """Half the stiffness and the damping together [N/m]."""
        return self.half + self.damping

    def enters(self, e0: Any, e1: Any, gain: Any) -> Any:
        """Force [N] of a step that begins slack and ends taut: the positive root of a square in the stretch at its end."""
        a = 1.0 + gain * self.both
        b = e1 + e0 * (1.0 + gain * self.damping)
        end = (b + (b * b - 4.0 * a * e1 * e0) ** 0.5) / (2.0 * a)
        return (e1 - end) / gain

    def leaves(self, e0: Any, e1: Any, gain: Any) -> Any:
        """Force [N] of a step that begins taut and ends slack: (F + c e0) (e0 - e1 + gain F) = k e0^2 / 2; at least 0."""
        b = e0 - e1 + gain * self.damping * e0
        rest = self.half * e0 * e0 - self.damping * e0 * (e0 - e1)
        return 2.0 * rest / (b + abs(b * b + 4.0 * gain * rest) ** 0.5)


def _choose_one(law: LeashLaw, e0: float, e1: float, gain: float) -> float:
    if e0 < 0.0:
        return float(law.enters(e0, e1, gain))
    force = law.stays(e0, e1, gain)
    return float(max(law.leaves(e0, e1, gain) if e1 < gain * force else force, 0.0))


def _choose_many(law: LeashLaw, e0: Any, e1: Any, gain: Any) -> Any:
    taut, free = e0 > 0.0, e1 > 0.0
    force = law.stays(e0, e1, gain)
    leaving = taut & (e1 < gain * force)
    if leaving.any():
        force = np.where(leaving, law.leaves(np.maximum(e0, 1e-30), e1, gain), force)
    force = np.maximum(force, 0.0)
    if not taut.all():
        force = np.where(taut, force, 0.0)
        entering = free & ~taut
        if entering.any():
            force = np.where(entering, law.enters(np.minimum(e0, 0.0), np.maximum(e1, 0.0), gain), force)
    return force
