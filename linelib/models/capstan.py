"""Webbing round a bend: how little hold-back keeps how much load from running through, and how little a tie-back adds.

    load = hold-back * exp(friction * angle)

The load side is about to slip towards the load; the angle is the whole angle of contact. The relation multiplies whatever holds
back, large or small: a tie-back that holds nothing adds nothing.
"""

from __future__ import annotations

import math

from linelib.checks import number


def capstan_ratio(*, friction: float, angle: float) -> float:
    """How many times the hold-back the load may be before webbing slips round a bend: exp(friction * angle).

    Parameters: friction [-], 0 to 2; angle [rad], 0 to 20, of contact (one whole turn is 6.28).
    Returns: ratio of the two tensions [-].
    Valid: slow slip, a bend round and wide against the webbing's thickness; friction does not change with load, heat or speed.
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: friction 0.1, half a turn: exp(0.1 * 3.14) = 1.37; one turn: 1.87.
    Source: Euler-Eytelwein, the capstan equation, from memory (any textbook of statics).
    Leaves out: what jaws press together, webbing on webbing, stiffness in bending.
    """
    friction = number("friction", friction, low=0.0, high=2.0)
    return math.exp(friction * number("angle", angle, low=0.0, high=20.0, unit="rad"))


def hold_back(*, load: float, friction: float, angle: float) -> float:
    """What must hold back the tail [N] so that `load` does not pull it round the bend: load * exp(-friction * angle).

    Parameters: load [N], 0 to 1e9: the part of the tension at the lock that the lock itself does not hold;
    friction [-], angle [rad] as in `capstan_ratio`.
    Returns: force [N].
    Raises: ValueError as `capstan_ratio`.
    Example: 1000 N, friction 0.1, half a turn: 1000 / 1.37 = 730 N.
    Source: as `capstan_ratio`.
    """
    return number("load", load, low=0.0, high=1e9, unit="N") / capstan_ratio(friction=friction, angle=angle)
