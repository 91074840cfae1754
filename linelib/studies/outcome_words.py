"""Outcomes on the screen: kN, m, and load over strength as a plain number."""

from __future__ import annotations

from linelib.studies.costs import RESERVE
from linelib.studies.outcomes import DEMANDS, DROP

METRES = (DROP, RESERVE)


def is_place(outcome: str) -> bool:
    """Whether an outcome is the load over the strength of a place."""
    return outcome not in DEMANDS and outcome not in METRES


def shown(outcome: str, value: float) -> float:
    """A value [N], [m] or [-] in the unit of the screen: kN, m, or none. Source: definition."""
    return value if outcome in METRES or is_place(outcome) else value / 1e3


def unit(outcome: str) -> str:
    """The unit of the screen: 'kN', 'm' or ''."""
    return "" if is_place(outcome) else "m" if outcome in METRES else "kN"


def number_of(outcome: str, value: float, *, sign: bool = False) -> str:
    """A value [N], [m] or [-] as a number of the screen, with a `sign` where it is a change; no minus before nothing.

    Example: 7240 N is '7.2'; a load over strength of 0.286 is '0.29'. Source: definition.
    """
    digits = 2 if is_place(outcome) else 1
    number = round(shown(outcome, value), digits) + 0.0
    return f"{number:{'+' if sign else ''}.{digits}f}"


def words_of(outcome: str, value: float) -> str:
    """A value [N], [m] or [-] with its unit. Example: '7.2 kN'. Source: definition."""
    return f"{number_of(outcome, value)} {unit(outcome)}".rstrip()


def name_of(outcome: str) -> str:
    """What an outcome is called in a sentence."""
    return f"load over strength, {outcome}" if is_place(outcome) else outcome
