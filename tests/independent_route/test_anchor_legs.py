"""Anchor legs by other routes: SciPy's minimiser without derivatives, the balance of forces, and a mass let go in time."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.optimize import minimize

from linelib.models.anchor_legs import Leg, share_pull
from linelib.models.leg_lost import lose_leg

LEGS = st.lists(
    st.builds(
        Leg,
        angle=st.floats(-1.3, 1.3),
        reach=st.floats(0.5, 3.0),
        longer_by=st.floats(-0.1, 0.4),
        stiffness=st.floats(50e3, 2e6),
    ),
    min_size=1,
    max_size=3,
)


def stretches(legs, u):
    """Stretch of each leg [m], written again from the bolts' places, negative when slack."""
    bolts = np.array([[-g.reach * np.cos(g.angle), g.reach * np.sin(g.angle)] for g in legs])
    return np.hypot(*(bolts - u).T), np.array([g.reach + g.longer_by for g in legs]), bolts


def energy(u, legs, pull, direction, running):
    """Stored energy less work [J]."""
    r, n, _ = stretches(legs, u)
    ea = np.array([g.stiffness for g in legs])
    if running:
        stored = 0.5 * max(r.sum() - n.sum(), 0.0) ** 2 / (n / ea).sum()
    else:
        stored = (0.5 * ea / n * np.maximum(r - n, 0.0) ** 2).sum()
    return stored - pull * (u[0] * np.cos(direction) + u[1] * np.sin(direction))


@settings(max_examples=25)
@given(legs=LEGS, pull=st.floats(500.0, 30e3), direction=st.floats(-1.0, 1.0), running=st.booleans())
def test_balance_and_least_energy(legs, pull, direction, running):
    found = share_pull(legs=legs, pull=pull, direction=direction, running=running)
    point = np.array(found.point)
    r, _, bolts = stretches(legs, point)
    unit = (bolts - point) / r[:, None]
    along = np.array([np.cos(direction), np.sin(direction)])
    assert np.array(found.tensions) @ unit + pull * along == pytest.approx(np.zeros(2), abs=1e-5 * pull)
    assert min(found.tensions) >= 0.0
    # SciPy, from another start and without derivatives, finds no lower place
    start = point + np.array([0.3, -0.2])
    arguments = (legs, pull, direction, running)
    other = minimize(
        energy, start, args=arguments, method="Nelder-Mead", options={"xatol": 1e-8, "fatol": 1e-9, "maxiter": 4000}
    )
    here = energy(point, *arguments)
    assert here <= other.fun + 1e-6 * abs(here)
    assert other.fun == pytest.approx(here, abs=1e-4 * pull)


@pytest.mark.parametrize("running", [False, True])
def test_tensions_of_scipy_at_three_odd_legs(running):
    legs = [Leg(angle=0.6, longer_by=0.03), Leg(angle=-0.4, stiffness=120e3), Leg(angle=0.05, longer_by=-0.02)]
    found = share_pull(legs=legs, pull=9e3, direction=0.15, running=running)
    arguments = (legs, 9e3, 0.15, running)
    other = minimize(
        energy, [0.2, 0.1], args=arguments, method="Nelder-Mead", options={"xatol": 1e-11, "fatol": 1e-12, "maxiter": 9000}
    )
    r, n, _ = stretches(legs, other.x)
    ea = np.array([g.stiffness for g in legs])
    tensions = ea * np.maximum(r - n, 0.0) / n if not running else np.full(3, (r.sum() - n.sum()) / (n / ea).sum())
    assert found.tensions == pytest.approx(tensions, rel=1e-3, abs=5.0)


@pytest.mark.parametrize("mass", [5.0, 60.0])
@pytest.mark.parametrize("running, line", [(False, 0.0), (True, 0.0), (True, 5e3)])
@pytest.mark.parametrize("count", [2, 3])
def test_jolt_of_a_mass_let_go_in_time(mass, running, line, count):
    legs = [Leg(angle=0.5), Leg(angle=-0.6, longer_by=0.01), Leg(angle=0.1)][:count]
    lost = lose_leg(legs=legs, lost=0, pull=8e3, running=running, line_stiffness=line)
    rest, start = legs[1:], np.array(lost.before.point)
    ea = np.array([g.stiffness for g in legs])
    whole = np.array([g.reach + g.longer_by for g in legs])

    def tensions(u):
        r, n, bolts = stretches(rest, u)
        if running:
            return np.full(len(rest), max(r.sum() - whole.sum(), 0.0) / (whole / ea).sum()), (bolts - u) / r[:, None]
        return ea[1:] * np.maximum(r - n, 0.0) / n, (bolts - u) / r[:, None]

    def rate(_, y):
        force, unit = tensions(y[:2])
        pull = max(8e3 - line * (y[0] - start[0]), 0.0)
        return [*y[2:], *((force @ unit + np.array([pull, 0.0])) / mass)]

    length = whole.sum() if running else whole[1:].max()
    end = 3.2 * np.sqrt(length * mass / 8e3)
    path = solve_ivp(rate, (0.0, end), [*start, 0.0, 0.0], rtol=1e-9, atol=1e-11, max_step=end / 2000)
    highest = max(tensions(u)[0].max() for u in path.y[:2].T)
    assert lost.jolt == pytest.approx(highest, rel=0.01)
    assert lost.jolt > max(lost.after.tensions)
