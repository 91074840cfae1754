"""The sliders of the main panel and what they mean: screen values to a Setup, a fall to readings and words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from linelib.models.fall_results import Fall
from linelib.models.lines import GRAVITY
from linelib.panels.controls import Choice, Control, Slider, Value
from linelib.panels.frame import Reading
from linelib.rigging import Setup
from linelib.studies.lesson_rig import lesson_setup
from linelib.webbing import Webbing

VISIBLE = 4


def fall_controls(table: Mapping[str, Webbing]) -> tuple[Control, ...]:
    """Length, material, leash length, standing height; then the folded ones."""
    names = {f"{i} · {webbing.name}": key for i, (key, webbing) in enumerate(table.items(), 1)}
    return (
        Slider(name="length", words="line length", unit="m", low=50, high=200, step=1, start=100, digits=0),
        Choice(name="material", words="material", options=names, start="hmpe_25mm"),
        Slider(name="leash_length", words="leash length", unit="m", low=0.5, high=4, step=0.1, start=1.5),
        Slider(name="standing_height", words="standing height", unit="m", low=0, high=2, step=0.1, start=1),
        Slider(name="pretension", words="pretension", unit="kN", low=1, high=10, step=0.1, start=3, si=1e3),
        Slider(name="mass", words="walker's mass", unit="kg", low=40, high=130, step=1, start=80, digits=0),
        Slider(name="position", words="position", unit="% from A", low=5, high=95, step=1, start=50, si=0.01, digits=0),
        Slider(name="insert_length", words="soft insert at A", unit="m", low=0, high=15, step=0.5, start=0),
    )


def setup_of(values: Mapping[str, Value], controls: tuple[Control, ...], table: Mapping[str, Webbing]) -> Setup:
    """The lesson rig for screen values.

    Raises: ValueError naming what is not possible.
    """
    si = {c.name: float(values[c.name]) * c.si for c in controls if isinstance(c, Slider)}
    return lesson_setup(material=str(values["material"]), table=table, **si)


@dataclass(frozen=True, kw_only=True)
class FallReadings:
    """What the strip says, in numbers: forces [N], lowest tie-in [m]; the sentence under the picture; and of the bars for A, B
    and person the highest `forces` and the `notches` on them [kN]."""

    anchor_a: float
    anchor_b: float
    person: float
    lowest_point: float
    sentence: str
    forces: tuple[float, ...]
    notches: tuple[float | None, ...]

    @property
    def strip(self) -> tuple[Reading, ...]:
        """The four readings of the strip."""
        return (
            Reading("peak at anchor A", f"{self.anchor_a / 1e3:.1f} kN"),
            Reading("peak at anchor B", f"{self.anchor_b / 1e3:.1f} kN"),
            Reading("peak on the person", f"{self.person / 1e3:.1f} kN"),
            Reading("tie-in, below anchors", f"{self.lowest_point:.1f} m"),
        )


def readings_of(setup: Setup, fall: Fall) -> FallReadings:
    """Numbers and words of a fall."""
    a, person = fall.peak_tension_a / 1e3, fall.peak_leash_force
    main = setup.rig.segments[-1].webbing
    insert = f" behind {setup.rig.segments[0].length:g} m of polyamide" if len(setup.rig.segments) > 1 else ""
    sentence = (
        f"{setup.walker.mass:.0f} kg steps off {setup.walker.standing_height:.1f} m above {setup.rig.span:.0f} m of "
        f"{main.name}{insert}, on {setup.leash.length:.1f} m of leash: anchor A goes from "
        f"{fall.standing_tension_a / 1e3:.1f} to {a:.1f} kN ({a * 1e3 / fall.standing_tension_a:.1f} times), the person gets "
        f"{person / (setup.walker.mass * GRAVITY):.1f} times body weight, the tie-in goes down to {fall.lowest_point:.1f} m. "
    )
    weakest = min(s.webbing.breaking_strength for s in setup.rig.segments)
    if max(fall.peak_tension_a, fall.peak_tension_b) > weakest:
        sentence += f"That is above the table's breaking strength of {weakest / 1e3:.0f} kN: a line would be gone. "
    else:
        sentence += "The drop is not clearance: body, ground and the catch by the backup come on top. "
    return FallReadings(
        anchor_a=fall.peak_tension_a,
        anchor_b=fall.peak_tension_b,
        person=person,
        lowest_point=fall.lowest_point,
        sentence=sentence.strip(),
        forces=(a, fall.peak_tension_b / 1e3, person / 1e3),
        notches=(fall.standing_tension_a / 1e3, fall.standing_tension_b / 1e3, None),
    )
