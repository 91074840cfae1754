"""The sliders of the lesson on who pays, and what they mean: screen values to a rig, falls to readings and words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from linelib.models.clearance import Clearance
from linelib.models.fall_results import Fall
from linelib.models.lines import GRAVITY
from linelib.panels.controls import Choice, Control, Slider, Value
from linelib.panels.frame import Reading
from linelib.rigging import Setup
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.valley import Ground, valley
from linelib.studies.who_pays import Bills
from linelib.webbing import Webbing

VISIBLE = 4
ON_GROUND = ("depth", "rim")
ON_LINE = ("length", "mass", "position", "leash_length")
NO_CURE = "A lower anchor peak is no reason to leave a line slack."
ALLOWED = "Set tension within what every link allows."
BACKUP = "What counts is the catch by the backup."


def who_pays_controls(table: Mapping[str, Webbing]) -> tuple[Control, ...]:
    """Standing sag, position, depth of the valley, width of its rim; then the folded ones."""
    names = {f"{i} · {webbing.name}": key for i, (key, webbing) in enumerate(table.items(), 1)}
    return (
        Slider(name="sag", words="standing sag", unit="%", low=2.5, high=10, step=0.1, start=4, si=0.01),
        Slider(name="position", words="position", unit="% from A", low=5, high=95, step=1, start=50, si=0.01, digits=0),
        Slider(name="depth", words="ground, middle", unit="m", low=10, high=40, step=1, start=16, digits=0),
        Slider(name="rim", words="rim falls over", unit="m", low=0, high=30, step=1, start=16, digits=0),
        Slider(name="length", words="line length", unit="m", low=60, high=200, step=1, start=100, digits=0),
        Choice(name="material", words="material", options=names, start="hmpe_25mm"),
        Slider(name="mass", words="walker's mass", unit="kg", low=40, high=130, step=1, start=80, digits=0),
        Slider(name="leash_length", words="leash length", unit="m", low=1, high=3, step=0.1, start=1.5),
    )


def loose_of(values: Mapping[str, Value], controls: Sequence[Control], table: Mapping[str, Webbing]) -> Setup:
    """The lesson rig for screen values, not yet tensioned to its sag.

    Raises: ValueError naming what is not possible.
    """
    si = {c.name: float(values[c.name]) * c.si for c in controls if isinstance(c, Slider) and c.name in ON_LINE}
    return lesson_setup(material=str(values["material"]), table=table, **si)


def ground_of(values: Mapping[str, Value]) -> Ground:
    """The invented valley for screen values."""
    return valley(span=float(values["length"]), depth=float(values["depth"]), rim=float(values["rim"]))


@dataclass(frozen=True, kw_only=True)
class WhoPaysReadings:
    """What the strip says, in numbers: at the anchor with the higher peak (`name`) peak and standing pull [N], force on the
    person [N] and as multiples of body weight [-], lowest tie-in and clearance left [m]; and the sentence under the picture."""

    name: str
    peak: float
    standing: float
    person: float
    weights: float
    lowest_point: float
    clearance: float
    sentence: str

    @property
    def strip(self) -> tuple[Reading, ...]:
        """The four readings of the strip."""
        return (
            Reading(f"peak at {self.name}, standing {self.standing / 1e3:.1f}", f"{self.peak / 1e3:.1f} kN"),
            Reading(f"increase over standing, {self.name}", f"{(self.peak - self.standing) / 1e3:.1f} kN"),
            Reading(f"person, {self.weights:.1f} × weight", f"{self.person / 1e3:.1f} kN"),
            Reading(f"lowest tie-in, {_left(self.clearance)}", f"{self.lowest_point:.1f} m"),
        )


def readings_of(setup: Setup, found: Fall, left: Clearance, sentence: str) -> WhoPaysReadings:
    """Numbers of a fall and what is left of the room below."""
    at_a = found.peak_tension_a >= found.peak_tension_b * (1.0 - 1e-6)
    return WhoPaysReadings(
        name="A" if at_a else "B",
        peak=found.peak_tension_a if at_a else found.peak_tension_b,
        standing=found.standing_tension_a if at_a else found.standing_tension_b,
        person=found.peak_leash_force,
        weights=found.peak_leash_force / (setup.walker.mass * GRAVITY),
        lowest_point=found.lowest_point,
        clearance=left.clearance,
        sentence=sentence,
    )


def _left(clearance: float) -> str:
    return f"left {clearance:.1f} m" if clearance > 0.0 else f"{-clearance:.1f} m short"


def sag_in_words(values: Mapping[str, Value], setup: Setup, found: Fall, bills: Bills) -> str:
    """The sentence of the view 'over the sag': now, and at that end of the `bills` that is further away."""
    share, tension = float(values["sag"]) / 100.0, (setup.rig.pretension or 0.0) / 1e3
    end = -1 if share <= 0.5 * float(bills.over[0] + bills.over[-1]) else 0
    peak = max(found.peak_tension_a, found.peak_tension_b)
    more = max(found.peak_tension_a - found.standing_tension_a, found.peak_tension_b - found.standing_tension_b)
    pairs = (
        ("anchor", peak / 1e3, bills.peak[end] / 1e3, " kN"),
        ("increase over standing", more / 1e3, bills.increase[end] / 1e3, ""),
        ("person", found.peak_leash_force / 1e3, bills.peak_leash_force[end] / 1e3, ""),
        ("lowest tie-in", found.lowest_point, bills.lowest_point[end], " m"),
    )
    moves = ", ".join(f"{name} {now:.1f} > {then:.1f}{unit}" for name, now, then, unit in pairs)
    first = f"{100.0 * share:.1f} % of sag takes {tension:.1f} kN of pretension; from here to {100.0 * bills.over[end]:.1f} %"
    return f"{first}: {moves}. {NO_CURE if end else ALLOWED}"


def place_in_words(found: Fall, left: Clearance, least: tuple[float, Clearance], *, at: float, span: float) -> str:
    """The sentence of the view 'along the span': the fall `at` a distance from A [m], and the `least` clearance of all."""
    forces = (
        f"A {found.peak_tension_a / 1e3:.1f}, B {found.peak_tension_b / 1e3:.1f}, person {found.peak_leash_force / 1e3:.1f} kN"
    )
    taken = f"tie-in {found.lowest_point:.1f} - body {left.body_below:.1f} - model {left.model_allowance:.1f}"
    parts = f"Ground {-left.ground_height:.1f} m down - {taken}: {_left(left.clearance)}"
    place = min(least[0], 1.0 - least[0]) * span
    worst = f"Of the places drawn, {place:.0f} m from an anchor is the worst: {_left(least[1].clearance)}."
    return f"{at:.0f} m from A: {forces}. {parts}. {worst} {BACKUP}"
