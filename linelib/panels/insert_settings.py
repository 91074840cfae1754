"""The sliders of the lesson on soft inserts, and what they mean: screen values to rigs, falls to readings and words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from linelib.models.fall_results import Fall, Falls
from linelib.models.loss_loop import LossLoop
from linelib.panels.controls import Choice, Control, Slider, Value
from linelib.panels.frame import Reading
from linelib.rigging import Rig, Setup
from linelib.studies.held_equal import HELD
from linelib.studies.insert_compare import PLACES
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.sayings import Saying
from linelib.webbing import Webbing

VISIBLE = 5
DEEP = 0.10  # of the span: above it the model reads low at the anchors (models/fall_in_time.py)
ON_LINE = ("length", "mass", "pretension", "position", "leash_length")


def insert_controls(table: Mapping[str, Webbing]) -> tuple[Control, ...]:
    """Length of the insert, place, what is held equal, fast ratio, pretension; then the folded ones."""
    names = {f"{i} · {webbing.name}": key for i, (key, webbing) in enumerate(table.items(), 1)}
    return (
        Slider(name="insert_length", words="length of insert", unit="m", low=0, high=15, step=0.5, start=5),
        Slider(name="fast_ratio", words="fast over slow", unit="", low=1, high=3, step=0.1, start=1.8),
        Slider(name="pretension", words="pretension", unit="kN", low=0.6, high=6, step=0.1, start=1, si=1e3),
        Choice(name="place", words="place", options={p: p for p in PLACES}, start=PLACES[0]),
        Choice(name="held", words="equal", options={h: h for h in HELD}, start=HELD[0]),
        Slider(name="length", words="line length", unit="m", low=60, high=200, step=1, start=100, digits=0),
        Choice(name="material", words="line", options=names, start="hmpe_25mm"),
        Slider(name="mass", words="walker's mass", unit="kg", low=40, high=130, step=1, start=80, digits=0),
        Slider(name="leash_length", words="leash length", unit="m", low=1, high=3, step=0.1, start=1.5),
        Slider(name="position", words="position", unit="% from A", low=10, high=90, step=1, start=50, si=0.01, digits=0),
    )


def plain_of(values: Mapping[str, Value], controls: Sequence[Control], table: Mapping[str, Webbing]) -> Setup:
    """The lesson rig without an insert, for screen values.

    Raises: ValueError naming what is not possible.
    """
    si = {c.name: float(values[c.name]) * c.si for c in controls if isinstance(c, Slider) and c.name in ON_LINE}
    return lesson_setup(material=str(values["material"]), table=table, **si)


@dataclass(frozen=True, kw_only=True)
class InsertReadings:
    """What the strip says, in numbers: forces [N], lowest tie-in and standing sag [m], each with the insert and without it
    (`plain`, in the same order); and the sentence under the picture."""

    anchor_a: float
    anchor_b: float
    person: float
    lowest_point: float
    sag: float
    plain: tuple[float, float, float, float, float]
    sentence: str

    @property
    def strip(self) -> tuple[Reading, ...]:
        """The four readings of the strip."""
        a, b, person, low, _ = self.plain
        return (
            Reading(f"peak at A, plain {a / 1e3:.1f}", f"{self.anchor_a / 1e3:.1f} kN"),
            Reading(f"peak at B, plain {b / 1e3:.1f}", f"{self.anchor_b / 1e3:.1f} kN"),
            Reading(f"person, plain {person / 1e3:.1f}", f"{self.person / 1e3:.1f} kN"),
            Reading(f"lowest tie-in, plain {low:.1f}", f"{self.lowest_point:.1f} m"),
        )


def readings_of(found: Fall, plain: Falls, sentence: str) -> InsertReadings:
    """Numbers of a fall with an insert beside the first of the `plain` ones."""
    names = ("peak_tension_a", "peak_tension_b", "peak_leash_force", "lowest_point", "standing_sag")
    return InsertReadings(
        anchor_a=found.peak_tension_a,
        anchor_b=found.peak_tension_b,
        person=found.peak_leash_force,
        lowest_point=found.lowest_point,
        sag=found.standing_sag,
        plain=tuple(float(getattr(plain, name)[0]) for name in names),  # type: ignore[arg-type]
        sentence=sentence,
    )


def compared_in_words(
    values: Mapping[str, Value], rig: Rig, found: Fall, plain: Falls, *, band: tuple[float, float], saying: Saying
) -> str:
    """The sentence of the view 'compared'; `band` [N]: from the softest to the stiffest insert of this length."""
    said = f"Commonly said: about {saying.peak / 1e3:.1f} kN for {saying.lengths[0]:g} to {saying.lengths[1]:g} m"
    if float(values["insert_length"]) == 0.0:
        return f"No insert: this is the plain rig, where every curve begins. {said} (no source)."
    share = found.standing_sag / rig.span
    if share > DEEP:
        slack = ", slack and not softness" if values["held"] == HELD[2] else ""
        end = f"Standing sag is {100 * share:.0f} % of the span{slack}; there the model reads low."
    else:
        end = f"{said}; here, from a soft to a stiff insert, {band[0] / 1e3:.1f} to {band[1] / 1e3:.1f} kN."
    one, other = (_move(getattr(found, name), getattr(plain, name)[0]) for name in ("peak_tension_a", "peak_tension_b"))
    what = f"{float(values['insert_length']):g} m {values['place']}, held equal: {values['held']}"
    return f"{what}. Anchor A goes from {one} kN, anchor B from {other}. {_cost(values, rig, found, plain)} {end}"


def _move(now: float, before: float) -> str:
    return f"{before / 1e3:.1f} to {now / 1e3:.1f}"


def _cost(values: Mapping[str, Value], rig: Rig, found: Fall, plain: Falls) -> str:
    """What the lower number is paid with."""
    deeper, sags = found.lowest_point - float(plain.lowest_point[0]), found.standing_sag - float(plain.standing_sag[0])
    sag = "as much" if abs(sags) < 0.05 else f"{abs(sags):.1f} m {'more' if sags > 0.0 else 'less'}"
    drop = "as deep" if abs(deeper) < 0.05 else f"{abs(deeper):.1f} m {'deeper' if deeper > 0.0 else 'less deep'}"
    if rig.pretension is not None and values["held"] == HELD[1]:
        tight = f"{rig.pretension / 1e3:.1f} kN of pretension instead of {float(values['pretension']):.1f}"
        return f"The price: {tight}; the fall goes {drop}."
    person = _move(found.peak_leash_force, float(plain.peak_leash_force[0]))
    return f"The price: the fall goes {drop}, the line sags {sag}. Person: {person} kN."


def pace_in_words(*, fast: LossLoop, slow: LossLoop, period: float, peak: float, slow_peak: float, place: str) -> str:
    """The sentence of the view 'how fast': peaks [N] by the law of now and by the slow-pull curve, `period` [s]."""
    times = fast.stiffness / slow.stiffness
    words = (
        f"As fast as in this fall, {period:.1f} s up and down, the insert {place} is {times:.1f} times as stiff as in "
        f"a slow pull and keeps {100 * fast.lost_share:.0f} % of the energy put in."
    )
    if peak - slow_peak < 50.0:
        return f"{words} Here the slow-pull curve gives the same peak at A, {peak / 1e3:.1f} kN."
    promised = f"{slow_peak / 1e3:.1f} kN at A instead of {peak / 1e3:.1f}"
    return f"{words} A slow-pull curve would promise {promised}: it overstates what the insert gives, on the unsafe side."
