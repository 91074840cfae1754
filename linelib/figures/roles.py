"""One look for every figure: what a thing is decides how it is drawn. Figures ask for a role, never for a colour.

Colours: Okabe & Ito (2008), Color Universal Design, set of eight; every role also has a line style or a marker of its own, so
that a grey print can be read.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

SMALL, TEXT, LARGE = 11.0, 11.5, 13.0


@dataclass(frozen=True, kw_only=True)
class Role:
    """How one kind of thing is drawn: colour, line style, width in points, marker."""

    colour: str
    style: Any = "-"
    width: float = 2.0
    marker: str = ""

    def line(self, **more: Any) -> dict[str, Any]:
        """Keywords for a line."""
        return {"color": self.colour, "linestyle": self.style, "linewidth": self.width, **more}

    def dot(self, *, hollow: bool = False, size: float = 9.0, **more: Any) -> dict[str, Any]:
        """Keywords for a marker without a line."""
        face = "none" if hollow else self.colour
        plain = {"linestyle": "none", "marker": self.marker or "o", "markersize": size, "markeredgewidth": 2.0}
        return {**plain, "markeredgecolor": self.colour, "markerfacecolor": face, **more}


@dataclass(frozen=True, kw_only=True)
class Roles:
    """Every role, for one paper colour."""

    paper: str
    ink: str
    faint: str
    side_a: Role
    side_b: Role
    person: Role
    drop: Role
    carries: Role
    carries_not: Role
    torn: Role
    backup: Role
    now: Role
    guess: Role
    other: Role
    said: Role
    limit: Role


def roles(paper: str = "light") -> Roles:
    """The roles for 'light' or 'dark' paper."""
    dark = paper == "dark"
    ink, faint = ("#f0f0f0", "#7d7d7d") if dark else ("#1a1a1a", "#9a9a9a")
    return Roles(
        paper="#1f1f1f" if dark else "#ffffff",
        ink=ink,
        faint=faint,
        side_a=Role(colour="#56B4E9" if dark else "#0072B2", marker="o"),
        side_b=Role(colour="#E69F00", style=(0, (5, 1.5)), marker="s"),
        person=Role(colour="#D55E00", width=2.4, marker="^"),
        drop=Role(colour="#009E73", style=(0, (6, 1.5, 1.5, 1.5)), marker="v"),
        carries=Role(colour=ink, width=2.2),
        carries_not=Role(colour=faint, style=(0, (4, 3)), width=1.4),
        torn=Role(colour=faint, style=(0, (1, 3)), width=1.4, marker="x"),
        backup=Role(colour="#CC79A7", style=(0, (1.5, 1.2)), width=2.0, marker="d"),
        now=Role(colour=ink, marker="o"),
        guess=Role(colour=ink, marker="o"),
        other=Role(colour=faint, width=1.3, style="-"),
        said=Role(colour=faint, width=0.0, marker="P"),
        limit=Role(colour=ink, width=1.2),
    )
