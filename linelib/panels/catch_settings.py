"""The sliders of the panel about a main line that parts: screen values to a Setup, a catch to readings and words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from linelib.models.backup_reserve import least_extra_length
from linelib.models.clearance import clearance_left
from linelib.models.fall_results import Fall
from linelib.panels.controls import Choice, Control, Slider, Value
from linelib.panels.fall_settings import FallReadings
from linelib.panels.frame import Reading
from linelib.rigging import Setup
from linelib.studies.lesson_catch import lesson_catch
from linelib.webbing import Webbing

VISIBLE = 5
KEY = "bar: highest in the catch   |: if the main line held"
PARTS = {"the walker's own bay": "own", "the bay at anchor A": "a", "the bay at anchor B": "b"}


def catch_controls() -> tuple[Control, ...]:
    """Extra length, bays, which one parts, when, where the walker is; then the folded ones."""
    return (
        Slider(name="extra_length", words="extra length", unit="m", low=0.4, high=6, step=0.1, start=1.5),
        Slider(name="bays", words="backup's bays", unit="", low=1, high=8, step=1, start=3, digits=0),
        Choice(name="bay", words="parts in", options=PARTS, start="own"),
        Slider(name="time", words="parts after", unit="s", low=0, high=3, step=0.05, start=1.3, digits=2),
        Slider(name="position", words="position", unit="% from A", low=5, high=95, step=1, start=50, si=0.01, digits=0),
        Slider(name="length", words="line length", unit="m", low=50, high=200, step=1, start=100, digits=0),
        Slider(name="pretension", words="pretension", unit="kN", low=1, high=10, step=0.1, start=3, si=1e3),
        Slider(name="leash_length", words="leash length", unit="m", low=0.5, high=4, step=0.1, start=1.5),
        Slider(name="standing_height", words="standing height", unit="m", low=0, high=2, step=0.1, start=1),
        Slider(name="mass", words="walker's mass", unit="kg", low=40, high=130, step=1, start=80, digits=0),
        Slider(name="ground", words="ground below", unit="m", low=10, high=60, step=1, start=25, digits=0),
    )


def catch_setup(values: Mapping[str, Value], controls: tuple[Control, ...], table: Mapping[str, Webbing]) -> Setup:
    """The lesson rig with a backup of equal bays, one of which the main line parts beside.

    Raises: ValueError naming what is not possible.
    """
    si = {c.name: float(values[c.name]) * c.si for c in controls if isinstance(c, Slider)}
    lesson: dict[str, Any] = {name: value for name, value in si.items() if name not in ("bays", "ground")}
    return lesson_catch(bays=round(si["bays"]), bay=str(values["bay"]), table=table, **lesson)


@dataclass(frozen=True, kw_only=True)
class CatchReadings(FallReadings):
    """Of the catch by the backup: `person`, `anchor_a`, `anchor_b` [N], `lowest_point`, `clearance`, `least_extra` [m]."""

    clearance: float
    least_extra: float

    @property
    def strip(self) -> tuple[Reading, ...]:
        """The four readings of the strip."""
        return (
            Reading("person, in the catch", f"{self.person / 1e3:.1f} kN"),
            Reading("anchors, in the catch", f"{max(self.anchor_a, self.anchor_b) / 1e3:.1f} kN"),
            Reading("tie-in, below anchors", f"{self.lowest_point:.1f} m"),
            Reading("clearance left", f"{self.clearance:.1f} m" if self.clearance > 0.0 else "none: ground"),
        )


def catch_readings(setup: Setup, found: Fall, held: Fall, ground: float) -> CatchReadings:
    """Numbers and words of a catch, beside the same fall `held` by the main line; `ground` [m] below anchor A."""
    span = setup.rig.span
    left = clearance_left(
        lowest_point=found.lowest_point,
        position=setup.walker.position,
        span=span,
        height_difference=setup.rig.height_difference,
        ground=((0.0, -ground), (span, -ground)),
    )
    least = float(least_extra_length(rig=setup.rig, tension=max(held.peak_tension_a, held.peak_tension_b)).max())
    extra = setup.rig.backup.extra_length if setup.rig.backup else 0.0
    before = (
        "before the leash is taut" if not (held.time < found.failure_time)[held.leash_force > 1.0].any() else "in the leash"
    )
    sentence = (
        f"The main line parts {found.failure_time:.2f} s after the step off, {before}: the tie-in goes "
        f"{found.lowest_point - held.lowest_point:.1f} m deeper than on a line that holds, the person gets "
        f"{found.catch_leash_force / 1e3:.1f} instead of {held.peak_leash_force / 1e3:.1f} kN. "
    )
    if extra < least:
        sentence += f"{extra:.1f} m a bay is too short: up to {least:.1f} m of stretch, the backup would share the held fall."
    else:
        sentence += f"Under {least:.1f} m a bay the backup would share every such fall; every metre more costs drop."
    return CatchReadings(
        anchor_a=found.catch_tension_a,
        anchor_b=found.catch_tension_b,
        person=found.catch_leash_force,
        lowest_point=found.lowest_point,
        sentence=sentence,
        forces=(found.catch_tension_a / 1e3, found.catch_tension_b / 1e3, found.catch_leash_force / 1e3),
        notches=(held.peak_tension_a / 1e3, held.peak_tension_b / 1e3, held.peak_leash_force / 1e3),
        clearance=left.clearance,
        least_extra=least,
    )
