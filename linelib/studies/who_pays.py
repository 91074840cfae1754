"""Who pays: anchor, person or drop, over the standing sag at one place, and along the span at one tension."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator

from linelib.checks import number, refuse
from linelib.models.clearance import Clearance, clearance_left
from linelib.models.fall_in_time import falls
from linelib.models.fall_results import Fall
from linelib.models.standing import standing_of
from linelib.rigging import Setup
from linelib.studies.valley import Ground

Array = NDArray[np.float64]
LEAST_PER_METRE, HIGHEST = 0.6, 20e3  # [N per m of span], [N]: pretensions between which a sag is looked for; our choice
TRIED = 20
SAGS = (0.025, 0.032, 0.041, 0.052, 0.066, 0.082, 0.10)  # of the span; above 10 % the model reads low at the anchors
PLACES = (0.05, 0.065, 0.085, 0.11, 0.15, 0.2, 0.27, 0.37, 0.5)  # of the span; the other half is their mirror
FINE = 37


@dataclass(frozen=True, kw_only=True)
class Tensions:
    """Standing sag [-] of the span, walker in the middle, over the pretension [N]: tried in one batch, read in between."""

    shares: Array
    pretensions: Array

    def at(self, share: float) -> float:
        """Pretension [N] at which the standing sag is `share` [-] of the span. Raises: ValueError when none was found."""
        share = number("standing sag", share, low=float(self.shares[0]), high=float(self.shares[-1]), unit="of the span here")
        return float(np.exp(PchipInterpolator(np.log(self.shares), np.log(self.pretensions))(np.log(share))))


def tensions_of(*, setup: Setup) -> Tensions:
    """Which pretension gives which standing sag on this rig, walker in the middle.

    Parameters: setup : its own pretension does not matter; one segment without a length.
    Returns: Tensions, [N] and [-], shares rising, pretensions from 0.6 N a metre of span to 20 kN.
    Raises: ValueError when the rig cannot hang, or has given lengths only.
    Source: models/standing.py; monotone interpolation of the logarithms, Fritsch & Carlson (1980) as in SciPy.
    """
    if setup.rig.pretension is None:
        raise refuse("pretension", None, "a rig that is tensioned: a segment without a length")
    tried = np.geomspace(HIGHEST, LEAST_PER_METRE * setup.rig.span, TRIED)
    middle = replace(setup, walker=replace(setup.walker, position=0.5))
    shares = standing_of([tensioned(middle, float(p)) for p in tried]).sag / setup.rig.span
    return Tensions(shares=shares, pretensions=tried)


def tensioned(setup: Setup, pretension: float) -> Setup:
    """The setup with another pretension [N]. Source: bookkeeping."""
    return replace(setup, rig=replace(setup.rig, pretension=pretension))


def placed(setup: Setup, position: float) -> Setup:
    """The setup with the walker at another `position` [-]. Source: bookkeeping."""
    return replace(setup, walker=replace(setup.walker, position=position))


@dataclass(frozen=True, kw_only=True)
class Bills:
    """Falls over a choice, arrays (values,): `over` [-], the sag or the place as a share of the span; peaks and standing
    tensions at both anchors and the peak on the person [N], lowest tie-in [m]. `now` : the fall of the `setup` itself."""

    over: Array
    peak_tension_a: Array
    peak_tension_b: Array
    standing_tension_a: Array
    standing_tension_b: Array
    peak_leash_force: Array
    lowest_point: Array
    setup: Setup | None = None
    now: Fall | None = None

    @property
    def peak(self) -> Array:
        """The higher of both anchors [N]."""
        return np.maximum(self.peak_tension_a, self.peak_tension_b)

    @property
    def increase(self) -> Array:
        """The larger increase over standing of both anchors [N]."""
        return np.maximum(self.peak_tension_a - self.standing_tension_a, self.peak_tension_b - self.standing_tension_b)


PEAKS = tuple(f.name for f in fields(Bills) if f.name not in ("over", "setup", "now"))


def over_sag(*, setup: Setup, tensions: Tensions, shares: Sequence[float] = SAGS) -> Bills:
    """The same walker at the same place, on the same webbing tensioned to one standing sag after the other, in one batch.

    Parameters: setup; tensions of the same rig; shares [-] of the span, rising; those the rig cannot have are left out.
    Returns: Bills, forces in [N], lengths in [m].
    Raises: ValueError when no sag is possible, or a fall cannot be computed.
    Source: models/fall_in_time.py.
    """
    possible = [s for s in shares if tensions.shares[0] <= s <= tensions.shares[-1]]
    if not possible:
        raise refuse("shares", tuple(shares), f"some from {tensions.shares[0]:.3f} to {tensions.shares[-1]:.3f} of the span")
    return _bills(np.array(possible), setup, [tensioned(setup, tensions.at(s)) for s in possible])


def over_place(*, setup: Setup, places: Sequence[float] = PLACES) -> Bills:
    """The same fall at one place after the other along a level line of one webbing, mirrored about the middle, drawn smooth.

    Parameters: setup, its place does not matter; places [-], rising, up to and with 0.5.
    Returns: Bills at FINE places, forces in [N], lengths in [m].
    Raises: ValueError when the line is not its own mirror image, or a fall cannot be computed.
    Source: models/fall_in_time.py; symmetry; monotone interpolation as in scipy.interpolate.PchipInterpolator.
    """
    rig = setup.rig
    if len(rig.segments) > 1 or rig.height_difference or (rig.slip_load_a, rig.slip_load_b) != (None, None):
        raise refuse("setup", "a line whose sides differ", "one webbing between level anchors, locks that hold")
    if places[-1] != 0.5:
        raise refuse("places", tuple(places), "rising, up to and with 0.5")
    half = _bills(np.array(places), setup, [placed(setup, p) for p in places])
    there = np.linspace(places[0], 1.0 - places[0], FINE)
    knots = np.append(half.over, 1.0 - half.over[-2::-1])
    swap = {"peak_tension_a": "peak_tension_b", "standing_tension_a": "standing_tension_b"}
    swap |= {b: a for a, b in swap.items()}
    full = {n: np.append(getattr(half, n), getattr(half, swap.get(n, n))[-2::-1]) for n in PEAKS}
    return Bills(
        over=there, setup=setup, now=half.now, **{n: PchipInterpolator(knots, values)(there) for n, values in full.items()}
    )


def _bills(over: Array, now: Setup, setups: list[Setup]) -> Bills:
    """The falls of `setups`, and in the same batch that of `now` with its series."""
    found = falls(setups=[now, *setups], series=(0,))
    return Bills(over=over, setup=now, now=found.series[0], **{name: getattr(found, name)[1:] for name in PEAKS})


def least_left(*, bills: Bills, span: float, ground: Ground) -> tuple[float, Clearance]:
    """Where along the line the least clearance is left, and how much.

    Parameters: bills of over_place; span [m]; ground as models/clearance.py takes it.
    Returns: the place [-], Clearance [m].
    Raises: ValueError as clearance_left.
    Source: models/clearance.py.
    """
    lefts = [
        clearance_left(lowest_point=float(low), position=float(p), span=span, height_difference=0.0, ground=ground)
        for p, low in zip(bills.over, bills.lowest_point, strict=True)
    ]
    at = int(np.argmin([left.clearance for left in lefts]))
    return float(bills.over[at]), lefts[at]
