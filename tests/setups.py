"""The rig of the reference falls, and how it is changed: what many tests start from."""

from __future__ import annotations

from typing import Any

from linelib.rigging import Leash, Rig, Segment, Setup, Walker
from linelib.webbing import Webbing

GRAVITY = 9.80665  # m/s2, standard value (CGPM 1901); written again, so that a slip of the pen in linelib shows


def straight(stiffness: float, mass_per_length: float = 0.05, **changes: Any) -> Webbing:
    """Webbing of the given `stiffness` [N], 25 mm, that breaks late enough for every test."""
    known: dict[str, Any] = {"name": "made up", "width": 0.025, "breaking_strength": 1e6, **changes}
    return Webbing(stiffness=stiffness, mass_per_length=mass_per_length, **known)


HMPE = straight(1e6)


def one_webbing(webbing: Webbing = HMPE, *, span: float = 100.0, pretension: float = 3e3, **changes: Any) -> Rig:
    """A line of one webbing, its length solved from the pretension [N]."""
    return Rig(span=span, segments=(Segment(webbing=webbing),), pretension=pretension, **changes)


def reference_setup(
    rig: Rig | None = None,
    *,
    leash: dict[str, float] | None = None,
    walker: dict[str, float] | None = None,
    **changes: float,
) -> Setup:
    """80 kg on 1.5 m of leash, 1 m above the middle of 100 m of stiffness 1e6 N and pretension 3 kN, and what differs."""
    return Setup(rig=rig or one_webbing(), leash=Leash(**leash or {}), walker=Walker(**walker or {}), **changes)


def undamped(**changes: Any) -> Setup:
    """The reference fall, or what differs from it, in which nothing takes energy: no air, no dashpot."""
    changes["leash"] = {"damping": 0.0, **changes.get("leash", {})}
    changes.setdefault("rig", one_webbing(straight(1e6, loss_time=0.0)))
    changes.setdefault("air_density", 0.0)
    return reference_setup(**changes)


def on_a_spring(*, mass: float, drop: float, stiffness: float, damping: float = 0.0) -> Setup:
    """A mass [kg] that falls by `drop` [m] and is caught by a leash [N/m, N s/m] on a line that hardly gives.

    5 m of line under 10 MN: its middle gives 1 m for 4 x 10 MN / 5 m = 8 MN, the leash 1 m for at most some kN.
    """
    leash = {"length": min(drop, 10.0), "stiffness": stiffness, "damping": damping, "ring_mass": 0.05}
    walker = {"mass": mass, "standing_height": max(drop - 10.0, 0.0)}
    rig = one_webbing(straight(1e8, 100.0, breaking_strength=1e9), span=5.0, pretension=1e7)
    return reference_setup(rig, leash=leash, walker=walker, air_density=0.0)
