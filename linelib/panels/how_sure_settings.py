"""The sliders of the lesson on how sure we are: the middle and the spread of each unknown, and a limit that starts blank."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from linelib.panels.controls import Choice, Control, Slider, Value
from linelib.studies.draws import Given
from linelib.studies.lesson_unsure import FURTHER
from linelib.studies.many_cases import ANCHOR, LOWEST, PERSON
from linelib.studies.ranges import Range, Triangular, Uniform

VISIBLE = 5
NONE = "none"
EVEN, MIDDLE = "even", "middle"
KNOWN, UNKNOWN = "known", "unknown"
UNITS = {ANCHOR: ("kN", 1e3), PERSON: ("kN", 1e3), LOWEST: ("m", 1.0)}
NAMES = {ANCHOR: "higher anchor", PERSON: "person", LOWEST: "lowest tie-in"}
AXES = {
    ANCHOR: "peak at the higher anchor [kN]",
    PERSON: "peak on the person, 20 ms mean [kN]",
    LOWEST: "lowest tie-in below the anchors [m]",
}
BEYOND = {ANCHOR: "above", PERSON: "above", LOWEST: "deeper"}
UNKNOWNS = {  # words, unit on the screen, SI per screen unit, digits
    "mass": ("walker's mass", "kg", 1.0, 0),
    "leash_length": ("leash length", "m", 1.0, 2),
    "standing_height": ("standing height", "m", 1.0, 2),
    "pretension": ("pretension", "kN", 1e3, 1),
    "stiffness": ("webbing stiffness ×", "", 1.0, 1),
    "leash_stiffness": ("leash stiffness", "kN/m", 1e3, 0),
    "leash_damping": ("leash damping", "N s/m", 1.0, 0),
    "position": ("place from A", "%", 0.01, 0),
}
CENTRES = tuple(UNKNOWNS)[:4]


def how_sure_controls() -> tuple[Control, ...]:
    """Spreads and the outcome; then, folded, the middles, how a spread is filled, what else is unknown, and the limit."""
    outcomes = {NAMES[name]: name for name in (ANCHOR, PERSON, LOWEST)}
    limits = {"none entered": NONE, **{f"for the {words}": name for words, name in outcomes.items()}}
    return (
        Choice(name="outcome", words="outcome", options=outcomes, start=ANCHOR),
        Slider(name="mass_spread", words="mass ±", unit="kg", low=0, high=15, step=1, start=5, digits=0),
        Slider(name="leash_length_spread", words="leash length ±", unit="m", low=0, high=0.5, step=0.05, start=0.2, digits=2),
        Slider(name="standing_height_spread", words="height ±", unit="m", low=0, high=0.5, step=0.05, start=0.2, digits=2),
        Slider(name="pretension_spread", words="pretension ±", unit="kN", low=0, high=1.5, step=0.1, start=0.5, si=1e3),
        Choice(name="limit_of", words="limit", options=limits, start=NONE),
        Slider(name="limit", words="your limit", unit="kN or m", low=1, high=30, step=0.1, start=12),
        Slider(name="mass", words="mass, middle", unit="kg", low=50, high=110, step=1, start=80, digits=0),
        Slider(name="leash_length", words="leash, middle", unit="m", low=1, high=2.5, step=0.05, start=1.5, digits=2),
        Slider(name="standing_height", words="height, middle", unit="m", low=0.5, high=1.5, step=0.05, start=1, digits=2),
        Slider(name="pretension", words="pretension, mid", unit="kN", low=2, high=6, step=0.1, start=3, si=1e3),
        Choice(name="filled", words="spreads", options={"evenly filled": EVEN, "middle likelier": MIDDLE}, start=EVEN),
        Choice(name="rest", words="the rest", options={"known": KNOWN, "webbing, leash, place unknown": UNKNOWN}, start=KNOWN),
    )


def inputs_of(values: Mapping[str, Value], controls: Sequence[Control]) -> dict[str, Given]:
    """Ranges (a spread of 0: a value) for screen values, in SI units."""
    si = {c.name: float(values[c.name]) * c.si for c in controls if isinstance(c, Slider)}
    inputs = {name: _given(si[name], si[f"{name}_spread"], str(values["filled"])) for name in CENTRES}
    return {**inputs, **(FURTHER if values["rest"] == UNKNOWN else {})}


def middles_of(inputs: Mapping[str, Given]) -> dict[str, Value]:
    """The middle of every range: what a crew would compute that takes its guesses for values."""
    return {name: float(given.at(0.5)) if isinstance(given, Range) else given for name, given in inputs.items()}


def _given(middle: float, spread: float, filled: str) -> Given:
    if spread == 0.0:
        return middle
    if filled == MIDDLE:
        return Triangular(low=middle - spread, mode=middle, high=middle + spread)
    return Uniform(low=middle - spread, high=middle + spread)


def range_words(name: str, given: Given) -> str:
    """An unknown with its range, or its value, on the screen's scale."""
    words, unit, si, digits = UNKNOWNS[name]
    ends = [given.low, given.high] if isinstance(given, Uniform | Triangular) else [given]
    return f"{words} {' to '.join(f'{float(end) / si:.{digits}f}' for end in ends)} {unit}".rstrip()  # type: ignore[arg-type]
