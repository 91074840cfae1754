"""Stretch: tension and strain of webbing, the energy it stores, and how a fast pull differs from a slow one."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.interpolate import PchipInterpolator

from linelib.webbing import Webbing

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Law:
    """Slow tension-strain law of one webbing, its inverse and its stored energy, consistent with each other.

    A table is interpolated as strain over tension (monotone, PCHIP); it starts with the slope between its first two
    rows and goes on straight beyond its last row with the slope between its last two.
    Pressed together, webbing carries nothing: tension is 0 for strain <= 0.

    Source: Fritsch & Carlson (1980), SIAM J. Numer. Anal. 17:238, as in scipy.interpolate.PchipInterpolator.
    """

    webbing: Webbing
    last_tension: float
    curve: PchipInterpolator

    def strain(self, tension: ArrayLike) -> Array:
        """Strain [-] under `tension` [N], any shape. Example: stiffness 1e6 N under 5 kN gives 0.005."""
        pull = np.maximum(np.asarray(tension, float), 0.0)
        inside = np.minimum(pull, self.last_tension)
        return np.asarray(self.curve(inside) + (pull - inside) * self._last_compliance)

    def compliance(self, tension: ArrayLike) -> Array:
        """Strain per tension [1/N], the slope of `strain`, any shape."""
        return np.asarray(self.curve(np.clip(np.asarray(tension, float), 0.0, self.last_tension), 1))

    def tension(self, strain: ArrayLike) -> Array:
        """Tension [N] at `strain` [-], any shape; 0 where strain <= 0. The inverse of `strain`, to rounding."""
        wanted = np.maximum(np.asarray(strain, float), 0.0)
        last = float(self.curve(self.last_tension))
        inside = np.minimum(wanted, last)
        knots = self.curve(self.curve.x)
        lower = np.clip(np.searchsorted(knots, inside, side="right") - 1, 0, len(knots) - 2)
        low, high = self.curve.x[lower], self.curve.x[lower + 1]
        for _ in range(60):  # bisection: the curve is monotone
            middle = 0.5 * (low + high)
            below = self.curve(middle) < inside
            low, high = np.where(below, middle, low), np.where(below, high, middle)
        found = 0.5 * (low + high) + (wanted - inside) / self._last_compliance
        return np.where(wanted <= 0.0, 0.0, found)

    def energy(self, tension: ArrayLike) -> Array:
        """Stored energy [J per metre of natural length] under `tension` [N], any shape.

        Integral of tension over strain = tension * strain - integral of strain over tension.
        Example: stiffness 1e6 N under 5 kN stores 5000 * 0.005 / 2 = 12.5 J/m.
        """
        pull = np.maximum(np.asarray(tension, float), 0.0)
        inside = np.minimum(pull, self.last_tension)
        area = self.curve.antiderivative()
        up_to_last = inside * self.curve(inside) - (area(inside) - area(0.0))
        return np.asarray(up_to_last + 0.5 * (pull**2 - inside**2) * self._last_compliance)

    @property
    def _last_compliance(self) -> float:
        return float(self.curve(self.last_tension, 1))


def law_of(webbing: Webbing) -> Law:
    """The slow law of `webbing`.

    Source: straight law by definition; table by PCHIP (see Law).
    """
    if webbing.stiffness is not None:
        tension = np.array([0.0, 1e3])
        strain, last = tension / webbing.stiffness, tension[-1]
    else:
        strain, tension = np.asarray(webbing.strain, float), np.asarray(webbing.tension, float)
        if tension[0] > 0.0:
            strain, tension = np.append(0.0, strain), np.append(0.0, tension)
        last = tension[-1]
        # one more piece at either end, straight on: else PCHIP's end slopes can be 0, a webbing that stretches no more
        strain = np.concatenate([[-strain[1]], strain, [2.0 * strain[-1] - strain[-2]]])
        tension = np.concatenate([[-tension[1]], tension, [2.0 * tension[-1] - tension[-2]]])
    return Law(webbing=webbing, last_tension=float(last), curve=PchipInterpolator(tension, strain))


def relaxed_tension(*, webbing: Webbing, strain: ArrayLike, time: ArrayLike) -> tuple[Array, Array]:
    """Tension over time of webbing whose strain follows a given path: the standard linear solid.

    T = Ts(e) + (r - 1) (Ts(e) - s),   ds/dt = (Ts(e) - s) / relaxation_time,   s = Ts(e) at the start.
    `Ts` is the slow law, `r` the fast ratio, `s` the tension the webbing has got used to: at once r times as stiff,
    in the long run Ts again. For a straight law this is a spring beside one Maxwell arm of stiffness (r - 1) EA.
    Between two times the slow tension is taken as straight and the equation is solved exactly.

    Parameters: strain [-], shape (times,); time [s], shape (times,), rising.
    Returns: tension [N], shape (times,); s [N], shape (times,).
    Raises: ValueError when the shapes differ or the time does not rise.
    Leaves out: permanent set, temperature, wet webbing.
    Source: Fung (1993), Biomechanics, 2nd ed., section 7.6 (quasi-linear law; section from memory);
    spring beside Maxwell arm: Lakes (2009), Viscoelastic Materials, section 2.6 (section from memory).
    """
    e, t = np.asarray(strain, float), np.asarray(time, float)
    if e.shape != t.shape or e.ndim != 1 or np.any(np.diff(t) <= 0):
        raise ValueError(f"time = shape {t.shape} is not possible; allowed: rising, as many numbers as strain, {e.shape}")
    slow = law_of(webbing).tension(e)
    used_to = np.empty_like(slow)
    used_to[0] = slow[0]
    for n, dt in enumerate(np.diff(t)):
        x = dt / webbing.relaxation_time
        faded = -np.expm1(-x)
        used_to[n + 1] = used_to[n] + faded * (slow[n] - used_to[n]) + (1.0 - faded / x) * (slow[n + 1] - slow[n])
    return np.maximum(slow + (webbing.fast_ratio - 1.0) * (slow - used_to), 0.0), used_to


def arm_energy(*, webbing: Webbing, tension_slow: ArrayLike, used_to: ArrayLike) -> Array:
    """Energy [J per metre] held by the fast part beside the slow law's own: never negative.

    W = (r - 1) (U(e) - U(a) - s (e - a)) with Ts(a) = s: the slow law's energy less its tangent at `a`.
    For a straight law (r - 1) EA (e - a)^2 / 2. Inputs [N], any shape. A path that stays taut loses exactly what it
    should: work done = change of U + W + (r - 1) * integral of (e - a) ds. Where a fast release leaves no tension the
    webbing is slack, its own length is not `e`, and this balance does not hold.

    Source: energy of a Maxwell arm, written for a curved law here; checked in tests/closed_form/test_stretch.py.
    """
    law = law_of(webbing)
    now, base = np.asarray(tension_slow, float), np.asarray(used_to, float)
    gap = law.strain(now) - law.strain(base)
    return (webbing.fast_ratio - 1.0) * (law.energy(now) - law.energy(base) - base * gap)
