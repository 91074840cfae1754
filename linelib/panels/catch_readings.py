"""What the panel about a main line that parts reads off a catch, and says of it in words."""

from __future__ import annotations

from dataclasses import dataclass

from linelib.models.backup_reserve import least_extra_length
from linelib.models.clearance import Clearance
from linelib.models.fall_results import Fall
from linelib.models.strips import Strips
from linelib.models.torn_in_fall import strips_torn
from linelib.panels.fall_settings import FallReadings
from linelib.panels.frame import Reading
from linelib.rigging import Setup

KEY = "bar: highest in the catch   |: if the main line held"
NEXT = "A held fall proves nothing about the next one. "


@dataclass(frozen=True, kw_only=True)
class CatchReadings(FallReadings):
    """Of the catch by the backup, or of the fall where `parted` is not so: `person`, `anchor_a`, `anchor_b` [N],
    `lowest_point`, `clearance`, `least_extra` [m]."""

    parted: bool
    clearance: float
    least_extra: float

    @property
    def strip(self) -> tuple[Reading, ...]:
        """The four readings of the strip."""
        where = "in the catch" if self.parted else "line holds"
        return (
            Reading(f"person, {where}", f"{self.person / 1e3:.1f} kN"),
            Reading(f"anchors, {where}", f"{max(self.anchor_a, self.anchor_b) / 1e3:.1f} kN"),
            Reading("tie-in, below anchors", f"{self.lowest_point:.1f} m"),
            Reading("clearance left", f"{self.clearance:.1f} m" if self.clearance > 0.0 else "none: ground"),
        )


def catch_readings(setup: Setup, found: Fall, held: Fall, left: Clearance, strips: Strips | None) -> CatchReadings:
    """Numbers and words of a catch, beside the same fall `held` by the main line; `strips` of the webbing in the lock at B."""
    parted = found.failure_time >= 0.0
    least = float(least_extra_length(rig=setup.rig, tension=max(held.peak_tension_a, held.peak_tension_b)).max())
    catch = (found.catch_tension_a, found.catch_tension_b, found.catch_leash_force)
    peaks = (found.peak_tension_a, found.peak_tension_b, found.peak_leash_force)
    a, b, person = catch if parted else peaks
    return CatchReadings(
        anchor_a=a,
        anchor_b=b,
        person=person,
        lowest_point=found.lowest_point,
        sentence=_torn(setup, found, strips)
        + (_caught(setup, found, held, least, strips) if parted else _held(setup, found, strips)),
        forces=(a / 1e3, b / 1e3, person / 1e3),
        notches=(held.peak_tension_a / 1e3, held.peak_tension_b / 1e3, held.peak_leash_force / 1e3),
        parted=parted,
        clearance=left.clearance,
        least_extra=least,
    )


def _torn(setup: Setup, found: Fall, strips: Strips | None) -> str:
    """What has torn in the lock at B before the line parted, if it did."""
    if strips is None:
        return ""
    torn, first = strips_torn(strips=strips, length=found.slip_b), float(strips.peak_pull[0]) / 1e3
    if not torn:
        return f"In lock B nothing tears below {first:.1f} kN. "
    share, gone = torn / len(strips.place), 1.0 - strips.strength_left(torn) / strips.webbing.breaking_strength
    return (
        f"Lock B: {100 * share:.0f} % of the width tears at {first:.1f} kN, {1e3 * found.slip_b:.0f} mm come out, "
        f"{100 * gone:.0f} % of the strength is gone. "
    )


def _held(setup: Setup, found: Fall, strips: Strips | None) -> str:
    """That it held, and what that proves."""
    failure, highest = setup.failure, max(found.peak_tension_a, found.peak_tension_b)
    if failure is None or failure.tension is None or strips is not None:
        return f"In this model the line holds this fall of {highest / 1e3:.1f} kN. {NEXT}"
    limit = failure.tension / 1e3
    return f"The highest pull, {highest / 1e3:.1f} kN, stays under {limit:.1f}: in this model the line holds. {NEXT}"


def _caught(setup: Setup, found: Fall, held: Fall, least: float, strips: Strips | None) -> str:
    """How the catch differs from a fall on a line that holds, and what the extra length has to do with it."""
    slack = not (held.time < found.failure_time)[held.leash_force > 1.0].any()
    sentence = (
        f"The main line parts {found.failure_time:.2f} s after the step off, "
        f"{'before the leash is taut' if slack else 'in the leash'}: the tie-in goes "
        f"{found.lowest_point - held.lowest_point:.1f} m deeper than on a line that holds, the person gets "
        f"{found.catch_leash_force / 1e3:.1f} instead of {held.peak_leash_force / 1e3:.1f} kN. "
    )
    extra = setup.rig.backup.extra_length if setup.rig.backup else 0.0
    if strips is not None:
        return sentence.strip()
    if extra < least:
        return f"{sentence}{extra:.1f} m a bay is too short: at up to {least:.1f} m of stretch it would share the held fall."
    return f"{sentence}Under {least:.1f} m a bay the backup would share every such fall; every metre more costs drop."
