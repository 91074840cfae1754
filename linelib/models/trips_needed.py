"""How many round trips of a pluck have to be timed for a wanted uncertainty of the tension."""

from __future__ import annotations

import math

from linelib.checks import number, refuse


def trips_needed(*, wanted: float, round_trip: float, stopwatch_error: float, rest: float = 0.0) -> int:
    """How many round trips to time for a wanted relative uncertainty of the tension.

        n = 2 sqrt(2) r / (t1 sqrt(wanted^2 - rest^2)), rounded up

    Parameters
    ----------
    wanted [-] : relative standard uncertainty of the tension, 0.05 is 5 %
    round_trip [s] : t1, of one trip
    stopwatch_error [s] : r, of one press
    rest [-] : relative uncertainty by mass and length, which no number of trips makes smaller

    Returns: a whole number from 1 [-].
    Raises: ValueError naming the argument, its value and what is allowed; also when `rest` alone is too much.
    Example: t1 = 1 s, r = 0.1 s, 5 % wanted: 0.283 / 0.05 = 5.7, so 6 trips.
    Source: `tension_from_round_trips` of models/tightness.py, solved for the trips.
    """
    wanted = number("wanted", wanted, low=1e-6, high=1.0)
    round_trip = number("round_trip", round_trip, low=1e-6, high=1e5, unit="s")
    error = number("stopwatch_error", stopwatch_error, low=0.0, high=1e3, unit="s")
    rest = number("rest", rest, low=0.0, high=10.0)
    if rest >= wanted:
        raise refuse("rest", rest, f"less than the wanted {wanted:g}: no number of trips makes up for mass and length")
    left = math.sqrt(wanted**2 - rest**2)
    return max(1, math.ceil(2.0 * math.sqrt(2.0) * error / (round_trip * left) - 1e-9))
