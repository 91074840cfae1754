"""Telling a move of a slider from the page's echo: its sliders repeat what they are told, with a rounding error, and late.

A slider that is shown with 30 may answer 29.999999999999996, after code has set 45 already. Taken for a move, that would undo
the 45, and the slider would count as the one moved last.
"""

from __future__ import annotations

from linelib.panels.controls import Value

DIGITS = 9  # after the point; what is beyond them is rounding


def clean(value: Value) -> Value:
    """The value without rounding errors."""
    return value if isinstance(value, str) else round(float(value), DIGITS)


class Echoes:
    """Values the page was told, for each control by name, since it last answered with a move."""

    def __init__(self) -> None:
        self._told: dict[str, set[Value]] = {}

    def tell(self, name: str, value: Value) -> None:
        """Remember that the page was told a value."""
        self._told.setdefault(name, set()).add(clean(value))

    def heard(self, name: str, value: Value) -> bool:
        """Whether the page only repeats, with a rounding error, what it was told, each value once; a move forgets them all."""
        told = self._told.get(name, set())
        if value != clean(value) and clean(value) in told:
            told.remove(clean(value))
            return True
        self._told.pop(name, None)
        return False
