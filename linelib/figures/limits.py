"""Axis limits that stand still: they change only when a value leaves them or has become far too small, in round steps."""

from __future__ import annotations

import math

STEPS = (1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0)


def round_up(value: float) -> float:
    """The next round number: 1, 1.5, 2, 3, 4, 5, 6, 8 times a power of ten. Example: 8.77 gives 10, 110 gives 150."""
    if value <= 0.0:
        return 1.0
    power = 10.0 ** math.floor(math.log10(value) + 1e-12)
    return power * next(step for step in STEPS if step * power >= value * (1.0 - 1e-9))


class Reach:
    """How far an axis reaches; `take` returns whether it had to change."""

    def __init__(self, first: float) -> None:
        self.value = round_up(first)

    def take(self, wanted: float) -> bool:
        """Hold `wanted`: grow when it does not fit, shrink when less than a third of the axis is used."""
        if self.value / 3.0 <= wanted <= self.value:
            return False
        new = round_up(wanted)
        changed, self.value = new != self.value, new
        return changed
