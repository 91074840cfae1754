"""Why a soft tie-back of the tail cannot stop slip: what it would have to hold, and how much runs through before it does."""

from __future__ import annotations

import math

from linelib.cautions import CAUTION, SLIP
from linelib.checks import number
from linelib.models.capstan import capstan_ratio, hold_back
from linelib.studies.witness import lines

FRICTIONS = {"HMPE, slippery": 0.08, "HMPE, dry": 0.15, "polyester": 0.25}  # webbing on smooth metal, from memory
TURNS = (0.5, 1.0, 1.5)  # of contact in the lock: our choice
TIES = {"elastic, 0.5 kN/m": 500.0, "thin cord, 5 kN/m": 5e3, "webbing, 50 kN/m": 50e3}  # [N/m]: our choice, to compare


def let_through(*, excess: float, friction: float, angle: float, stiffness: float, slack: float = 0.0) -> float:
    """How far the tail runs before a tie-back holds what the lock does not: slack + hold-back / stiffness.

    Parameters: excess [N], 0 to 1e9: tension at the lock above its slip load; friction [-] and angle [rad] as in
    `capstan_ratio`; stiffness [N/m], 1 to 1e9, and slack [m], 0 to 100, of the tie-back.
    Returns: length [m]; at most this much, since slip itself lowers the tension.
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: 1 kN, no friction, 10 kN/m, 0.05 m of slack: 0.05 + 1/10 = 0.15 m.
    Source: models/capstan.py; a straight spring.
    Leaves out: that the tie-back breaks, slides along the tail, or that its knot draws tight.
    """
    stiffness = number("stiffness", stiffness, low=1.0, high=1e9, unit="N/m")
    slack = number("slack", slack, low=0.0, high=100.0, unit="m")
    return slack + hold_back(load=excess, friction=friction, angle=angle) / stiffness


def tie_back_text(*, excess: float, slack: float = 0.05) -> str:
    """What a tie-back must hold for each kN at the lock, and what runs through before it holds `excess`.

    Parameters: excess [N], slack [m] as in `let_through`. Returns: text, forces in [kN], lengths in [m].
    Raises: ValueError as `let_through`.
    Source: models/capstan.py; frictions from memory, turns and tie-backs our choice.
    """
    rows = ["The tie-back must hold, for each kN that the lock does not [kN]:"]
    rows.append(f"{'turns of contact':24}" + "".join(f"{turns:>8.1f}" for turns in TURNS))
    for name, friction in FRICTIONS.items():
        held = [1.0 / capstan_ratio(friction=friction, angle=2.0 * math.pi * turns) for turns in TURNS]
        rows.append(f"{f'{name}, {friction:.2f}':24}" + "".join(f"{h:8.2f}" for h in held))
    rows += ["", f"Runs through before it holds {excess / 1e3:.1f} kN, with {100 * slack:.0f} cm of slack, one turn [m]:"]
    rows.append(" " * 24 + "".join(f"{name.split(',')[0]:>14}" for name in TIES))
    for name, friction in FRICTIONS.items():
        runs = [
            let_through(excess=excess, friction=friction, angle=2.0 * math.pi, stiffness=k, slack=slack) for k in TIES.values()
        ]
        rows.append(f"{f'{name}, {friction:.2f}':24}" + "".join(f"{r:14.2f}" for r in runs))
    rows.append(f"{'it must then bear [kN]':24}" + "   ".join(_borne(excess)))
    said = "Friction is not known on the day: dust, wet and a new webbing change it, and it stands in an exponent."
    return "\n".join([*rows, "", lines(f"{said} {SLIP} {CAUTION}")])


def _borne(excess: float) -> list[str]:
    turn = 2.0 * math.pi
    return [f"{name} {hold_back(load=excess, friction=f, angle=turn) / 1e3:.1f}" for name, f in FRICTIONS.items()]
