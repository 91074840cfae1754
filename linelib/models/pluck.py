"""A pluck: how long a short sideways pulse runs along the line hanging alone, to the far anchor and back."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.checks import instance
from linelib.models.lines import GRAVITY, Lines, lines_of
from linelib.models.shape import Shape, shape_of
from linelib.rigging import Rig

Array = NDArray[np.float64]
POINTS = 32  # parts of each segment


@dataclass(frozen=True, kw_only=True)
class Pluck:
    """A pulse on the line with nobody on it.

    round_trip [s] : to the far anchor and back, with all that hangs under the line
    webbing_only [s] : what it would be at the same tension if nothing hung under the webbing
    tension [N] : pull along the straight line between the anchors, horizontal part times distance / span
    shape : Shape of the line alone
    """

    round_trip: float
    webbing_only: float
    tension: float
    shape: Shape


def pluck(*, rig: Rig) -> Pluck:
    """Time of a pulse from one anchor to the other and back, on the line as it really hangs.

        round trip = 2 * integral of ds / c,   c = sqrt(T / mu)
                   = 2 * sum of sqrt(ds dm / T) over short parts of length ds and mass dm

    Tension, stretch and mass differ along the line, so the speed `c` does too. What hangs under the line is spread evenly.

    Parameters
    ----------
    rig : Rig; hung mass included

    Returns: Pluck, times in [s], tension in [N].
    Valid: small pulses, short beside the span. A backup joined in bays moves like evenly spread mass only for pulses wider
    than two bays to each side: a pulse of one bay comes back 3 to 5 % late, a much shorter one is scattered and does not
    come back as itself (computed with the mass at the joints; how real loops swing along is not known here).
    Raises: ValueError when `rig` is no Rig, or as `hang`.
    Example: 100 m, 0.1 kg/m, 4000 N: c = 200 m/s, there and back in 1 s.
    Leaves out: how a pulse fades, air, an echo where two webbings meet, bending stiffness.
    Source: wave speed on a string (any physics textbook); first order of a wave on a slowly changing string (WKB).
    """
    instance("rig", rig, Rig)
    lines = lines_of([rig])
    shape = shape_of(lines.pieces, lines.horizontal, lines.vertical, POINTS)
    own = np.array([s.webbing.mass_per_length for s in rig.segments])
    chord = float(np.hypot(rig.span, rig.height_difference))
    return Pluck(
        round_trip=_there_and_back(lines, shape, lines.pieces.weight[:, 0] / GRAVITY),
        webbing_only=_there_and_back(lines, shape, own),
        tension=float(lines.horizontal[0]) * chord / rig.span,
        shape=shape,
    )


def _there_and_back(lines: Lines, shape: Shape, mass: Array) -> float:
    """Twice the sum of sqrt(ds dm / T); `mass` [kg per metre of natural length] of each segment."""
    middle = 0.5 * (shape.length[1:] + shape.length[:-1])
    ends = np.cumsum(lines.pieces.length[:, 0])
    segment = np.minimum(np.searchsorted(ends, middle), len(ends) - 1)
    long = np.hypot(np.diff(shape.x), np.diff(shape.z))
    heavy = mass[segment] * np.diff(shape.length)
    pull = 0.5 * (shape.tension[1:] + shape.tension[:-1])
    return float(2.0 * np.sqrt(long * heavy / pull).sum())
