"""Webbing seated in a lock: strength left over the path difference, and a history of loads as a table."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.models.bundle import scattered
from linelib.models.many_seatings import peaks_of_many
from linelib.models.seated_strips import strips_of
from linelib.models.seating import STRIPS, Seating, path_differences
from linelib.models.strips import Strips
from linelib.models.tearing import remainder, tear
from linelib.webbing import Webbing

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Seated:
    """Webbing in a lock: what it is, how it sits, `sharing_length` [m], `variation` [-] of the strips' strengths (standard
    deviation over mean), and whether the pull is as fast as a fall, so that the fast law holds."""

    webbing: Webbing
    seating: Seating
    sharing_length: float
    variation: float = 0.0
    fast: bool = True

    @property
    def difference(self) -> Array:
        """Path differences [m] of the strips across the width."""
        return path_differences(seating=self.seating, width=self.webbing.width, sharing_length=self.sharing_length)

    @property
    def strips(self) -> Strips:
        """The webbing cut in thought into strips."""
        return strips_of(
            webbing=self.webbing,
            difference=self.difference,
            sharing_length=self.sharing_length,
            strengths=scattered(count=STRIPS, variation=self.variation),
            stiffening=self.webbing.fast_ratio if self.fast else 1.0,
        )


@dataclass(frozen=True, kw_only=True)
class StrengthCurve:
    """Over the largest path difference [m]: strength left, and the width that carries at the first tear, shares [-]."""

    difference: Array
    left: Array
    carrying: Array


def strength_curve(*, seated: Seated, largest: Sequence[float], strips: Strips | None = None) -> StrengthCurve:
    """Strength left when the path differences grow in proportion; a skew where it sits straight.

    Never above 1: among scattered strips a lucky order of weak and strong can hold one or two per cent more than square
    seating does; that is not counted as a gain.

    Parameters: seated; largest [m] : largest path difference of each point; strips : those of `seated`, if they are there.
    Returns: StrengthCurve, lengths in [m], shares [-], as many as `largest`.
    Raises: ValueError when an argument is not possible.
    Source: models/strips.py.
    """
    base, shape = strips or seated.strips, seated.difference
    shape = shape / shape.max() if shape.max() > 0.0 else np.linspace(0.0, 1.0, len(shape))
    differences = np.asarray(largest, float)[:, None] * shape
    pulls, carrying = peaks_of_many(strips=base, difference=differences, sharing_length=seated.sharing_length)
    left = np.minimum(pulls.max(axis=1) / seated.webbing.breaking_strength, 1.0)
    return StrengthCurve(difference=np.asarray(largest, float), left=left, carrying=carrying)


def breaking_strain(*, webbing: Webbing, fast: bool = True) -> float:
    """Strain [-] at the breaking strength, on the law used for strips; tables go on straight with their last slope.

    Returns: strain [-]. Example: 1.2 MN straight, 30 kN, slow: 2.5 %.
    Source: models/stretch.py; a fast pull by the webbing's fast ratio.
    """
    one = Seated(webbing=webbing, seating=Seating(), sharing_length=1.0, fast=fast)
    return float(one.strips.tears_at[0])


def history_text(*, seated: Seated, loads: Sequence[float], resting: float = 3000.0) -> str:
    """Load after load as a plain table: what is still whole, the most it holds, what was given up at the resting tension.

    Parameters: seated; loads [N] : highest pull of each load, which stays on while strips tear; resting [N] : tension between.
    Returns: text; forces in [kN], lengths in [mm], energies in [J].
    Raises: ValueError when an argument is not possible.
    Source: models/tearing.py.
    """
    strips = seated.strips
    rows = ["load [kN]   held   whole [%]   holds at most [kN]   given up [mm]   torn had stored [J]"]
    for state in tear(strips=strips, loads=loads):
        given = "-"
        if state.held and resting <= min(strips.peak_pull[0], strips.peak_pull[state.torn]):
            given = f"{1e3 * remainder(strips=strips, torn=state.torn, tension=resting).length_given_up:.1f}"
        numbers = f"{100 * state.whole_share:9.0f} {state.strength_left / 1e3:20.1f} {given:>15}"
        rows.append(f"{state.load / 1e3:9.1f} {'yes' if state.held else 'NO':>6} {numbers} {state.torn_energy:21.1f}")
    return "\n".join(rows)
