"""Energy of the legs of an anchor that meet in one point and are pulled there: what the point's place follows from."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
STEPS, HALVINGS = 200, 60


@dataclass(frozen=True, kw_only=True)
class LegEnergy:
    """Stored energy of the legs less the work of the pull, for places `u` of the point.

    tied:     sum of k (r - n)^2 / 2 over the legs longer than their natural length
    running:  K (sum of r - sum of n)^2 / 2, one loop through all bolts, the same tension in every leg
    The pull falls by `line_stiffness` for every metre the point gives way along it, and never pushes.
    Convex in u, so that there is one lowest value; a leg that hangs slack stores nothing.

    Fields: bolts [m], shape (legs, 2); natural [m] and spring [N/m] of each leg, shape (legs,); loop: (natural length of
    the whole loop [m], its spring [N/m]) or None; pull [N]; along: unit vector; line_stiffness [N/m].
    Source: potential energy of springs (any mechanics textbook).
    """

    bolts: Array
    natural: Array
    spring: Array
    loop: tuple[float, float] | None
    pull: float
    along: Array
    line_stiffness: float = 0.0

    def tensions(self, u: Array) -> Array:
        """Tension of each leg [N], shape (..., legs), with the point at `u` [m], shape (..., 2)."""
        r = np.linalg.norm(self.bolts - u[..., None, :], axis=-1)
        if self.loop is None:
            return np.asarray(self.spring * np.maximum(r - self.natural, 0.0))
        one = self.loop[1] * np.maximum(r.sum(-1) - self.loop[0], 0.0)
        return np.asarray(one[..., None] * np.ones(len(self.natural)))

    def value(self, u: Array) -> Array:
        """Energy [J] with the point at `u` [m], shape (..., 2)."""
        tension = self.tensions(u)
        stored = 0.5 * (tension**2 / self.spring).sum(-1) if self.loop is None else 0.5 * tension[..., 0] ** 2 / self.loop[1]
        given = u @ self.along
        if self.line_stiffness > 0.0:
            given = np.minimum(given, self.pull / self.line_stiffness)
        return np.asarray(stored - self.pull * given + 0.5 * self.line_stiffness * given**2)

    def pull_left(self, u: Array) -> float:
        """Pull [N] that is left with the point at `u` [m], shape (2,)."""
        return max(self.pull - self.line_stiffness * float(u @ self.along), 0.0)

    def slope(self, u: Array) -> Array:
        """Change of the energy per metre [N], shape (2,): what is missing to balance."""
        way = u - self.bolts
        unit = way / np.linalg.norm(way, axis=1)[:, None]
        return np.asarray(self.tensions(u) @ unit - self.pull_left(u) * self.along)

    def curvature(self, u: Array) -> Array:
        """Change of the slope per metre [N/m], shape (2, 2)."""
        way, tension = u - self.bolts, self.tensions(u)
        r = np.linalg.norm(way, axis=1)
        unit = way / r[:, None]
        outer = unit[:, :, None] * unit[:, None, :]
        turning = ((tension / r)[:, None, None] * (np.eye(2) - outer)).sum(0)
        if self.loop is None:
            stretching = ((self.spring * (tension > 0.0))[:, None, None] * outer).sum(0)
        else:
            stretching = self.loop[1] * np.outer(unit.sum(0), unit.sum(0)) * (tension[0] > 0.0)
        give = self.line_stiffness * np.outer(self.along, self.along) * (self.pull_left(u) > 0.0)
        return np.asarray(turning + stretching + give)

    def lowest(self) -> Array:
        """Place [m], shape (2,), where the energy is lowest: Newton's method with halved steps.

        Raises: ArithmeticError when no balance is found, which is a fault of this file and not of the arguments.
        """
        reach = float(self.natural.sum()) + float(np.abs(self.bolts).max())
        if self.loop is not None:
            reach = max(reach, self.loop[0])
        u, tiny = reach * self.along + self.bolts.mean(0), 1e-10 * self.pull
        for _ in range(STEPS):
            slope = self.slope(u)
            if float(np.hypot(*slope)) <= tiny:
                return u
            step = np.linalg.solve(self.curvature(u) + 1e-9 * self.spring.max() * np.eye(2), -slope)
            now, share = float(self.value(u)), 1.0
            for _ in range(HALVINGS):
                there = u + share * step
                lower = float(self.value(there)) <= now + 1e-4 * share * float(slope @ step)
                if lower or float(np.hypot(*self.slope(there))) <= 0.5 * float(np.hypot(*slope)):  # near the end: rounding
                    break
                share *= 0.5
            if share < 0.5**HALVINGS * 1.5 or float(np.hypot(*(share * step))) < 1e-14 * reach:
                break
            u = u + share * step
        if float(np.hypot(*self.slope(u))) > 1e-6 * self.pull:
            raise ArithmeticError(f"no balance of the legs found: {self}")
        return u
