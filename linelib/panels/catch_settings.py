"""The sliders of the panel about a main line that parts: screen values to a Setup, and what lies under the line."""

from __future__ import annotations

from collections.abc import Mapping
from math import radians
from typing import Any

from linelib.models.seating import Seating
from linelib.panels.controls import Choice, Control, Slider, Value
from linelib.rigging import Setup
from linelib.studies.lesson_catch import FOLD_DEPTH, lesson_catch
from linelib.studies.valley import Ground, valley
from linelib.webbing import Webbing

VISIBLE = 5
PARTS = {"the walker's own bay": "own", "the bay at anchor A": "a", "the bay at anchor B": "b"}
WHEN = {"after a time": "time", "above a pull": "pull", "torn in the lock at B": "strips"}
CAUSES = {"time": ("time",), "pull": ("pull",), "strips": ("skew", "folded")}  # which sliders say when it parts
NOT_OF_THE_RIG = ("time", "pull", "skew", "folded", "bays", "depth", "rim")


def catch_controls() -> tuple[Control, ...]:
    """Extra length, which bay parts, when, where the walker is; then the folded ones."""
    return (
        Slider(name="extra_length", words="extra length", unit="m", low=0.4, high=6, step=0.1, start=1.5),
        Choice(name="bay", words="parts in", options=PARTS, start="own"),
        Slider(name="time", words="parts after", unit="s", low=0, high=3, step=0.05, start=1.3, digits=2),
        Choice(name="when", words="it parts", options=WHEN, start="time"),
        Slider(name="position", words="position", unit="% from A", low=5, high=95, step=1, start=50, si=0.01, digits=0),
        Slider(name="bays", words="backup's bays", unit="", low=1, high=8, step=1, start=3, digits=0),
        Slider(name="pull", words="parts above", unit="kN", low=6, high=14, step=0.1, start=8, si=1e3),
        Slider(name="skew", words="skewed in lock B", unit="°", low=0, high=12, step=0.5, start=10),
        Slider(name="folded", words="folded in lock B", unit="%", low=0, high=80, step=1, start=70, si=0.01, digits=0),
        Slider(name="length", words="line length", unit="m", low=50, high=200, step=1, start=100, digits=0),
        Slider(name="pretension", words="pretension", unit="kN", low=1, high=10, step=0.1, start=3, si=1e3),
        Slider(name="leash_length", words="leash length", unit="m", low=0.5, high=4, step=0.1, start=1.5),
        Slider(name="standing_height", words="standing height", unit="m", low=0, high=2, step=0.1, start=1),
        Slider(name="mass", words="walker's mass", unit="kg", low=40, high=130, step=1, start=80, digits=0),
        Slider(name="depth", words="ground, middle", unit="m", low=10, high=60, step=1, start=25, digits=0),
        Slider(name="rim", words="rim falls over", unit="%", low=0, high=50, step=1, start=25, digits=0),
    )


def catch_setup(values: Mapping[str, Value], controls: tuple[Control, ...], table: Mapping[str, Webbing]) -> Setup:
    """The lesson rig with a backup of equal bays, one of which the main line parts beside.

    Raises: ValueError naming what is not possible.
    """
    si = {c.name: float(values[c.name]) * c.si for c in controls if isinstance(c, Slider)}
    lesson: dict[str, Any] = {name: value for name, value in si.items() if name not in NOT_OF_THE_RIG}
    when = values["when"]
    return lesson_catch(
        bays=round(si["bays"]),
        bay=str(values["bay"]),
        time=si["time"] if when == "time" else None,
        tension=si["pull"] if when == "pull" else None,
        seating=seating_of(values) if when == "strips" else None,
        table=table,
        **lesson,
    )


def seating_of(values: Mapping[str, Value]) -> Seating:
    """How the webbing sits in the lock at B."""
    skew, folded = radians(float(values["skew"])), 0.01 * float(values["folded"])
    return Seating(skew_angle=skew, fold_depth=FOLD_DEPTH, folded_share=folded)


def catch_ground(values: Mapping[str, Value]) -> Ground:
    """The ground below."""
    span = float(values["length"])
    return valley(span=span, depth=float(values["depth"]), rim=0.01 * float(values["rim"]) * span)


def idle_controls(values: Mapping[str, Value]) -> set[str]:
    """Those that mean nothing for the way in which the line parts."""
    others = {name for when, names in CAUSES.items() if when != values["when"] for name in names}
    return others | ({"bay"} if values["when"] == "strips" else set())
