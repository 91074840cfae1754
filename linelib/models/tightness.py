"""How tight is it, without a load cell: tension from the sag under a known weight, or from timed round trips of a pluck.

Both answers come with a standard uncertainty, by the first-order law of propagation: each reading's error times how much the
answer changes with it, added as squares. It holds what the readings may be off, not what a rule leaves out.

Source: JCGM 100:2008 (GUM), law of propagation of uncertainty, section 5.1 (section from memory).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from linelib.checks import number, refuse

ROUGH = 0.3  # beyond this relative uncertainty first order says little more than 'no measurement'


@dataclass(frozen=True, kw_only=True)
class Measured:
    """A tension [N] and its standard uncertainty [N]: about two readings of three lie closer than that."""

    tension: float
    uncertainty: float

    @property
    def relative(self) -> float:
        """Uncertainty over tension [-]."""
        return self.uncertainty / self.tension

    @property
    def rough(self) -> bool:
        """Whether the uncertainty is so large that this is no measurement."""
        return self.relative > ROUGH


def tension_from_sag(
    *,
    load: float,
    length: float,
    sag: float,
    line_weight: float = 0.0,
    load_error: float = 0.0,
    length_error: float = 0.0,
    sag_error: float = 0.0,
) -> Measured:
    """Tension of the line WITH a known weight in its middle, from the sag under it.

        T = (W L / 4 + w L^2 / 8) / sag

    With w = 0 this is the crews' usual way, T = W L / (4 sag). It is the tension with the weight on, more than that of the
    line alone.

    Parameters
    ----------
    load [N] : W, the weight in the middle
    length [m] : L, straight distance between the anchors
    sag [m] : below that straight line, at the weight
    line_weight [N/m] : w, of webbing and all that hangs under it, per metre; 0: left out, as the usual way does
    load_error [N], length_error [m], sag_error [m] : standard uncertainties

    Returns: Measured [N], along the straight line between the anchors.
    Valid: a taut line; sag under about a tenth of the length; relative errors well below 1.
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: 800 N in the middle of 100 m, sag 2.5 m, read to 0.1 m: 8000 N, known to 0.1 / 2.5 = 4 %, 320 N.
    Source: balance of moments about an anchor (any statics textbook); the usual way: common practice, no source;
    uncertainty: see the file.
    """
    load = number("load", load, low=1.0, high=1e6, unit="N")
    length = number("length", length, low=0.1, high=5000.0, unit="m")
    sag = number("sag", sag, low=1e-3, high=length, unit="m")
    w = number("line_weight", line_weight, low=0.0, high=1e3, unit="N/m")
    errors = (
        number("load_error", load_error, low=0.0, high=load, unit="N") * length / (4.0 * sag),
        number("length_error", length_error, low=0.0, high=length, unit="m") * (load + w * length) / (4.0 * sag),
    )
    tension = (load * length / 4.0 + w * length**2 / 8.0) / sag
    by_sag = number("sag_error", sag_error, low=0.0, high=1e3, unit="m") * tension / sag
    return Measured(tension=tension, uncertainty=math.hypot(*errors, by_sag))


def tension_from_round_trips(
    *,
    time: float,
    trips: float,
    length: float,
    mass_per_length: float,
    stopwatch_error: float = 0.0,
    mass_error: float = 0.0,
    length_error: float = 0.0,
) -> Measured:
    """Tension of the line ALONE, from a pluck timed over several round trips to the far anchor and back.

        T = mu (2 L n / t)^2,   (u(T) / T)^2 = (2 sqrt(2) r / t)^2 + (u(mu) / mu)^2 + (2 u(L) / L)^2

    The watch is pressed twice, each press with an error r of its own; what both presses have in common drops out.

    Parameters
    ----------
    time [s] : t, for all trips together
    trips : n, a whole number from 1
    length [m] : L, the way from anchor to anchor
    mass_per_length [kg/m] : mu, of ALL that moves: webbing and what hangs under it
    stopwatch_error [s] : r, standard uncertainty of one press
    mass_error [kg/m], length_error [m] : standard uncertainties

    Returns: Measured [N], along the straight line between the anchors.
    Valid: a taut line; relative uncertainty under about 0.3 (`Measured.rough`).
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: 100 m, 0.1 kg/m, 3 trips in 3 s: 0.1 * (600 / 3)^2 = 4000 N; r = 0.1 s gives 2 * 0.1414 / 3 = 9.4 %.
    Leaves out: a pulse that has faded or is taken for its neighbour; a count that is off by one.
    Source: wave speed on a string, c = sqrt(T / mu) (any physics textbook); uncertainty: see the file.
    """
    time = number("time", time, low=1e-6, high=1e5, unit="s")
    trips = _whole("trips", trips)
    length = number("length", length, low=0.1, high=5000.0, unit="m")
    mass = number("mass_per_length", mass_per_length, low=1e-9, high=200.0, unit="kg/m")
    by_watch = 2.0 * math.sqrt(2.0) * number("stopwatch_error", stopwatch_error, low=0.0, high=1e3, unit="s") / time
    by_mass = number("mass_error", mass_error, low=0.0, high=mass, unit="kg/m") / mass
    by_length = 2.0 * number("length_error", length_error, low=0.0, high=length, unit="m") / length
    tension = mass * (2.0 * length * trips / time) ** 2
    return Measured(tension=tension, uncertainty=tension * math.hypot(by_watch, by_mass, by_length))


def _whole(name: str, value: float) -> int:
    """A whole number from 1; 3.0, as a slider says it, is one too."""
    found = number(name, value, low=1, high=1000)
    if found != int(found):
        raise refuse(name, value, "a whole number from 1 to 1000")
    return int(found)
