"""The weightless V of the blackboard: span, sag, angle."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from linelib.checks import number


@dataclass(frozen=True, kw_only=True)
class WeightlessV:
    """Tension of each side and its horizontal part [N], angle of each side below the horizontal [rad]."""

    tension_a: float
    tension_b: float
    horizontal: float
    angle_a: float
    angle_b: float


def weightless_v(*, load: float, span: float, sag: float, position: float = 0.5) -> WeightlessV:
    """A load on a line without weight between two level anchors.

    horizontal = load * a * b / (span * sag),  a = position * span,  b = span - a;  tension = horizontal / cos(angle)

    Parameters: load [N], 0 or more; span [m]; sag [m] at the load, above 0; position of the load, 0 to 1.
    Returns: WeightlessV.
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: 800 N in the middle of 100 m with 2.5 m of sag: 800 * 50 * 50 / (100 * 2.5) = 8000 N.
    Leaves out: the weight of the webbing, and why the sag is what it is.
    Source: two forces and a weight in balance (any statics textbook); with the load in the middle T = W S / (4 sag).
    """
    load = number("load", load, low=0.0, high=1e6, unit="N")
    span = number("span", span, low=0.1, high=5000.0, unit="m")
    sag = number("sag", sag, low=1e-3, high=span, unit="m")
    position = number("position", position, low=0.001, high=0.999, unit="of the span")
    a, b = position * span, (1.0 - position) * span
    horizontal = load * a * b / (span * sag)
    angle_a, angle_b = float(np.arctan2(sag, a)), float(np.arctan2(sag, b))
    return WeightlessV(
        tension_a=horizontal / float(np.cos(angle_a)),
        tension_b=horizontal / float(np.cos(angle_b)),
        horizontal=horizontal,
        angle_a=angle_a,
        angle_b=angle_b,
    )
