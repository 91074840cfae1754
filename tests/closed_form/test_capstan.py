"""The capstan relation: its limits, its law of adding angles, values by hand, and what a tie-back lets through."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linelib.models.capstan import capstan_ratio, hold_back
from linelib.studies.tie_back import FRICTIONS, TIES, TURNS, let_through, tie_back_text
from tests.house.refusals import NO_NUMBER, refused, shown


def test_no_friction_or_no_contact_holds_nothing() -> None:
    assert capstan_ratio(friction=0.0, angle=10.0) == 1.0
    assert capstan_ratio(friction=0.3, angle=0.0) == 1.0
    assert hold_back(load=1000.0, friction=0.0, angle=10.0) == 1000.0


def test_by_hand() -> None:
    assert capstan_ratio(friction=0.1, angle=math.pi) == pytest.approx(1.369, abs=5e-4)
    assert hold_back(load=1000.0, friction=0.1, angle=math.pi) == pytest.approx(730.4, abs=0.1)
    assert let_through(excess=1000.0, friction=0.0, angle=0.0, stiffness=1e4, slack=0.05) == pytest.approx(0.15, rel=1e-12)


@given(st.floats(0.0, 0.5), st.floats(0.0, 9.0), st.floats(0.0, 9.0), st.floats(1.0, 1e5))
def test_two_bends_are_one_bend_of_both_angles(friction, one, two, load) -> None:
    after_one = hold_back(load=load, friction=friction, angle=one)
    assert hold_back(load=after_one, friction=friction, angle=two) == pytest.approx(
        hold_back(load=load, friction=friction, angle=one + two), rel=1e-9
    )


def test_the_slope_is_friction_times_tension() -> None:
    """dT = mu T dphi, the balance of a short piece of webbing on a bend."""
    step, friction, tension = 1e-5, 0.2, 1.0
    for _ in range(round(3.0 / step)):
        tension += friction * tension * step
    assert capstan_ratio(friction=friction, angle=3.0) == pytest.approx(tension, rel=1e-5)


def test_a_soft_tie_back_lets_more_through_and_more_friction_less() -> None:
    def run(friction: float, stiffness: float) -> float:
        return let_through(excess=3000.0, friction=friction, angle=6.28, stiffness=stiffness)

    for friction in FRICTIONS.values():
        lengths = [run(friction, k) for k in sorted(TIES.values())]
        assert lengths == sorted(lengths, reverse=True)
        assert lengths[0] > 1.0  # elastic: more than a metre, far beyond any fold
    assert run(0.08, 5e3) > run(0.15, 5e3) > run(0.25, 5e3)
    assert run(0.08, 5e3) * 5e3 * capstan_ratio(friction=0.08, angle=6.28) == pytest.approx(3000.0, rel=1e-12)


def test_the_table_prints_what_is_computed() -> None:
    text = tie_back_text(excess=3000.0)
    for name, friction in FRICTIONS.items():
        row = next(line for line in text.splitlines() if line.startswith(f"{name}, {friction:.2f}"))
        wanted = [math.exp(-friction * 2.0 * math.pi * turns) for turns in TURNS]
        assert [float(v) for v in row[24:].split()] == pytest.approx(wanted, abs=5.1e-3)
    assert "stop and re-rig" in text


def test_the_second_table_prints_what_runs_through_and_what_must_be_borne() -> None:
    """3 kN, one turn, 5 cm of slack. HMPE, slippery: 3 exp(-0.08 x 6.28) = 1.81 kN; over 0.5, 5, 50 kN/m 3.68, 0.41, 0.09 m."""
    lines = tie_back_text(excess=3000.0).splitlines()
    start = lines.index("Runs through before it holds 3.0 kN, with 5 cm of slack, one turn [m]:")
    held = {name: 3e3 * math.exp(-friction * 2.0 * math.pi) for name, friction in FRICTIONS.items()}
    for line, force in zip(lines[start + 2 :], held.values(), strict=False):
        assert [float(v) for v in line[24:].split()] == pytest.approx([0.05 + force / k for k in TIES.values()], abs=5.1e-3)
    borne = next(line for line in lines if line.startswith("it must then bear [kN]"))
    assert [float(part.split()[-1]) for part in borne.split("   ")[-3:]] == pytest.approx(
        [force / 1e3 for force in held.values()], abs=0.051
    )
    assert [float(v) for v in lines[start + 2][24:].split()] == [3.68, 0.41, 0.09]


BAD = [
    (capstan_ratio, {"friction": 0.1, "angle": 1.0}, {"friction": [-0.1, 2.1, None], "angle": [-0.1, 21.0, None]}),
    (hold_back, {"load": 1.0, "friction": 0.1, "angle": 1.0}, {"load": [-1.0, 2e9, None], "friction": [-0.1]}),
    (
        let_through,
        {"excess": 1.0, "friction": 0.1, "angle": 1.0, "stiffness": 1e3, "slack": 0.0},
        {"stiffness": [0.0, -1.0, None], "slack": [-0.1, 101.0], "angle": [21.0], "friction": [3.0]},
    ),
]


@pytest.mark.parametrize(
    "call, good, name, value",
    [(call, good, name, v) for call, good, bad in BAD for name, values in bad.items() for v in [*values, *NO_NUMBER]],
)
def test_bad_arguments_are_refused(call, good, name, value) -> None:
    head, allowed = refused(lambda: call(**{**good, name: value}))
    assert name in head
    assert any(c.isdigit() for c in allowed)
    if not isinstance(value, (list, type)):
        assert shown(value) in head
