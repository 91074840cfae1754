"""The hanging line against scipy's solver of boundary value problems, for laws straight and curved.

The other route knows nothing of catenaries: it takes x and z along the natural length as unknown functions,

    dx/ds = (1 + strain(T)) H / T,   dz/ds = -(1 + strain(T)) V / T,   V less by the weight passed and the loads,

with the pull (H, V) at A as two unknown numbers, and solves them by collocation, one region between two joints or loads
each. Only the stretch law of a webbing is shared; it is checked on its own in tests/closed_form/test_stretch.py.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_bvp
from scipy.optimize import brentq

from linelib import Backup, Rig, Segment, hang, webbings
from linelib.models.stretch import law_of
from tests.setups import GRAVITY, HMPE, one_webbing, straight

ROWS = webbings()
POLYAMIDE, POLYESTER, LIGHT = ROWS["polyamide_25mm"], ROWS["polyester_25mm"], ROWS["hmpe_25mm"]
HEAVY = straight(6e4, 1.0)


def segments(*pairs):
    return tuple(Segment(webbing=w, length=length) for w, length in pairs)


CASES = {
    "taut": (one_webbing(), [800.0], [0.5]),
    "taut and steep": (Rig(span=60.0, height_difference=18.0, segments=segments((POLYESTER, 60.5))), [1000.0], [0.3]),
    "slack": (Rig(span=100.0, segments=segments((POLYAMIDE, 106.0))), [700.0], [0.5]),
    "slack, heavy, nobody": (Rig(span=100.0, height_difference=-12.0, segments=segments((HEAVY, 118.0))), [0.0], [0.5]),
    "insert": (
        Rig(span=100.0, segments=(*segments((POLYAMIDE, 7.5)), Segment(webbing=LIGHT)), pretension=3e3),
        [900.0],
        [0.15],
    ),
    "four segments, three loads": (
        Rig(
            span=250.0,
            height_difference=20.0,
            segments=segments((POLYAMIDE, 12.0), (LIGHT, 120.0), (POLYESTER, 100.0), (HMPE, 18.0)),
        ),
        [300.0, 800.0, 500.0],
        [0.03, 0.45, 0.8],
    ),
    "backup": (one_webbing(LIGHT, backup=Backup(webbing=POLYESTER, joints=(0.3, 0.7))), [800.0], [0.6]),
}


class Other:
    """One line, solved by scipy: `weights` [N] are hung at the natural lengths `at` [m]."""

    def __init__(self, rig, natural, at=(), weights=()):
        ends = np.cumsum(natural)
        joints = np.unique(np.concatenate([[0.0], ends[:-1], at, [ends[-1]]]))
        self.begin, self.long = joints[:-1], np.diff(joints)
        owner = [int(np.searchsorted(ends, b + 0.5 * d)) for b, d in zip(self.begin, self.long, strict=True)]
        laws = [law_of(s.webbing) for s in rig.segments]
        hung = rig.hung_mass * rig.span / ends[-1]
        own = np.array([rig.segments[k].webbing.mass_per_length + hung for k in owner]) * GRAVITY
        loads = np.array([sum(w for a, w in zip(at, weights, strict=True) if a <= b) for b in self.begin])
        before = np.cumsum(own * self.long) - own * self.long + loads
        regions = len(self.long)

        def slopes(fraction, _, pull):
            rows = []
            for k in range(regions):
                v = pull[1] - before[k] - own[k] * self.long[k] * fraction
                t = np.hypot(pull[0], v)
                grown = (1.0 + laws[owner[k]].strain(t)) * self.long[k] / t
                rows += [grown * pull[0], -grown * v]
            return np.array(rows)

        def ends_meet(first, last, _):
            return np.concatenate([first[:2], first[2:] - last[:-2], last[-2:] - [rig.span, rig.height_difference]])

        mesh = np.linspace(0.0, 1.0, 9)
        along = np.repeat(self.begin[:, None] + self.long[:, None] * mesh, 2, axis=0) / ends[-1]
        guess = along * np.tile([rig.span, rig.height_difference], regions)[:, None]
        weight = (own * self.long).sum() + sum(weights)
        first = [4.0 * weight, 0.5 * weight - 4.0 * weight * rig.height_difference / rig.span]
        solved = solve_bvp(slopes, ends_meet, mesh, guess, p=first, tol=1e-9, max_nodes=20000)
        assert solved.success, solved.message
        self.solution, self.pull = solved.sol, solved.p
        pull_b = solved.p[1] - before[-1] - own[-1] * self.long[-1]
        self.tensions = [float(np.hypot(solved.p[0], v)) for v in (solved.p[1], pull_b)]
        self.angles = [float(np.arctan2(solved.p[1], solved.p[0])), float(np.arctan2(-pull_b, solved.p[0]))]

    def place(self, s):
        """x and z [m] at the natural length `s` [m]."""
        k = min(int(np.searchsorted(self.begin, s, side="right")) - 1, len(self.long) - 1)
        return self.solution((s - self.begin[k]) / self.long[k])[2 * k : 2 * k + 2]


@pytest.mark.parametrize("rig, loads, positions", CASES.values(), ids=CASES.keys())
def test_statics(rig, loads, positions):
    """Tensions, angles and load points to 1e-6; natural lengths solved from a pretension are taken over, then checked: the
    line alone must pull with that pretension."""
    state = hang(rig=rig, load=loads, position=positions)
    alone = Other(rig, state.natural_lengths)
    if rig.pretension is not None:
        assert alone.pull[0] == pytest.approx(rig.pretension, rel=1e-6)
    whole = state.natural_lengths.sum()
    at = [brentq(lambda s, p=p: alone.place(s)[0] - p * rig.span, 0.0, whole, xtol=1e-10) for p in positions]
    other = Other(rig, state.natural_lengths, at, loads)
    assert (state.tension_a, state.tension_b) == pytest.approx(tuple(other.tensions), rel=1e-6)
    assert (state.angle_a, state.angle_b) == pytest.approx(tuple(other.angles), rel=1e-6, abs=1e-7)
    places = np.array([other.place(s) for s in at])
    assert state.load_x == pytest.approx(places[:, 0], rel=1e-6)
    assert state.load_z == pytest.approx(places[:, 1], rel=1e-6, abs=1e-6)
    shape = np.array([other.place(s) for s in state.shape.length])
    assert state.shape.z == pytest.approx(shape[:, 1], abs=1e-5)
