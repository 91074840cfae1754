"""Signs of a tear: what changed, over the least change that people can tell apart."""

from __future__ import annotations

from dataclasses import dataclass

from linelib.checks import number

PROVES_NOTHING = "No change noticed is not evidence that nothing broke."


@dataclass(frozen=True, kw_only=True)
class Noticeable:
    """The least change a crew tells apart: `length` [m] at the lock, `sag` [m], `tension` [N], `round_trip` [s] of a pluck.

    Source: typical, no source; wind, light and how often somebody looks change them.
    Raises: ValueError naming the argument, its value and what is allowed.
    """

    length: float = 0.005
    sag: float = 0.1
    tension: float = 300.0
    round_trip: float = 0.05

    def __post_init__(self) -> None:
        for name, high, unit in (("length", 10.0, "m"), ("sag", 100.0, "m"), ("tension", 1e6, "N"), ("round_trip", 100.0, "s")):
            number(name, getattr(self, name), low=1e-6, high=high, unit=unit)


@dataclass(frozen=True, kw_only=True)
class Sign:
    """One thing that changed: its `name`, values `before` and `after`, and the `threshold`, all in [m], [N] or [s]."""

    name: str
    before: float
    after: float
    threshold: float

    @property
    def change(self) -> float:
        """After less before, in [m], [N] or [s]."""
        return self.after - self.before

    @property
    def times(self) -> float:
        """Size of the change over the threshold [-]."""
        return abs(self.change) / self.threshold


@dataclass(frozen=True, kw_only=True)
class TearSigns:
    """Signs of a tear: `each` in the order length, sag, tension standing, tension alone, pluck; lengths [m], tensions [N]."""

    each: tuple[Sign, ...]

    @property
    def noticeable(self) -> tuple[Sign, ...]:
        """Those that reach their threshold."""
        return tuple(sign for sign in self.each if sign.times >= 1.0)

    @property
    def verdict(self) -> str:
        """What may be concluded: never that all is well."""
        if self.noticeable:
            return (
                "Could be noticed, if somebody compares: "
                + ", ".join(s.name for s in self.noticeable)
                + ". Stop; nobody plucks a suspect line."
            )
        return f"Nothing could be noticed. {PROVES_NOTHING}"
