"""The sliders of the lesson on tightness, and what they mean: screen values to a rig, two measurements and words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from linelib.checks import one_of
from linelib.figures.answers import Answers, in_words
from linelib.models.lines import GRAVITY
from linelib.models.pluck import Pluck, pluck
from linelib.models.sag import State, hang
from linelib.models.tightness import Measured, tension_from_round_trips, tension_from_sag
from linelib.models.trips_needed import trips_needed
from linelib.panels.controls import Choice, Control, Slider, Value
from linelib.panels.frame import Reading
from linelib.rigging import Rig
from linelib.studies.lesson_rig import lesson_setup
from linelib.webbing import Webbing

VISIBLE = 5
COUNTED, FORGOTTEN = "counted", "forgotten"
WEIGHT_ERROR, LENGTH_ERROR = 0.01, 0.005  # of the known weight and of the distance between the anchors: our choice
WANTED = 0.05
NEVER = "Nobody plucks or loads a line they doubt."


def tightness_controls(table: Mapping[str, Webbing]) -> tuple[Control, ...]:
    """True pretension, length, known weight, round trips, which mass is counted; then the folded ones."""
    names = {f"{i} · {webbing.name}": key for i, (key, webbing) in enumerate(table.items(), 1)}
    masses = {"backup forgotten": FORGOTTEN, "webbing and backup": COUNTED}
    return (
        Slider(name="pretension", words="true pretension", unit="kN", low=1, high=10, step=0.1, start=3, si=1e3),
        Slider(name="length", words="line length", unit="m", low=40, high=200, step=1, start=100, digits=0),
        Slider(name="weight", words="known weight", unit="kg", low=10, high=120, step=1, start=80, digits=0),
        Slider(name="trips", words="round trips timed", unit="", low=1, high=12, step=1, start=3, digits=0),
        Choice(name="mass", words="counted", options=masses, start=FORGOTTEN),
        Slider(name="watch", words="stopwatch error", unit="s", low=0.02, high=0.2, step=0.01, start=0.1, digits=2),
        Slider(name="sag_error", words="error of sag", unit="cm", low=1, high=30, step=1, start=10, si=0.01, digits=0),
        Slider(name="mass_error", words="error of g/m", unit="%", low=0, high=10, step=0.5, start=3, si=0.01),
        Choice(name="material", words="material", options=names, start="hmpe_25mm"),
    )


@dataclass(frozen=True, kw_only=True)
class Readings:
    """What a crew reads on one line, and what follows from it. Lengths [m], times [s], tensions [N].

    `trips_for_wanted` : round trips that bring the pluck to 5 %, None where no number is enough; `relative` : uncertainty of
    the pluck after 1, 2, ... trips [-]; `state` : the line with the weight on; `alone` : the pluck on the line without it.
    """

    rig: Rig
    weight: float
    trips: int
    watch: float
    state: State
    alone: Pluck
    answers: Answers
    relative: tuple[float, ...]
    trips_for_wanted: int | None
    sentence: str

    @property
    def pluck(self) -> Measured:
        """What the pluck says with the mass that is counted now."""
        return self.answers.forgotten if self.answers.forgets else self.answers.counted

    @property
    def strip(self) -> tuple[Reading, ...]:
        """The four readings of the strip: alone, then with the weight on."""
        return (
            Reading("true, nobody on it", f"{self.answers.true_alone / 1e3:.1f} kN"),
            Reading("pluck, nobody on it", _short(self.pluck)),
            Reading("true, weight on", f"{self.answers.true_on / 1e3:.1f} kN"),
            Reading("sag says, weight on", _short(self.answers.sag)),
        )


def readings_of(
    values: Mapping[str, Value], controls: Sequence[Control], table: Mapping[str, Webbing], *, most_trips: int
) -> Readings:
    """Both measurements for screen values: read without error, and each answer with the uncertainty of its readings.

    Raises: ValueError naming what is not possible.
    """
    si = {c.name: float(values[c.name]) * c.si for c in controls if isinstance(c, Slider)}
    forgets = one_of("mass", values["mass"], (COUNTED, FORGOTTEN)) == FORGOTTEN
    rig = lesson_setup(material=str(values["material"]), table=table, length=si["length"], pretension=si["pretension"]).rig
    trips, watch, chord = round(si["trips"]), si["watch"], rig.span
    state, alone = hang(rig=rig, load=si["weight"] * GRAVITY), pluck(rig=rig)
    webbing = rig.segments[0].webbing.mass_per_length
    both = webbing + rig.hung_mass

    def timed(mass: float, count: int, error: float) -> Measured:
        return _by_pluck(alone.round_trip, count, error, mass=mass, mass_error=si["mass_error"], chord=chord)

    answers = Answers(
        true_on=state.horizontal * chord / rig.span,
        true_alone=alone.tension,
        sag=_by_sag(si["weight"] * GRAVITY, state.sag, si["sag_error"], chord=chord),
        counted=timed(both, trips, watch),
        forgotten=timed(webbing, trips, watch),
        forgets=forgets,
    )
    return Readings(
        rig=rig,
        weight=si["weight"],
        trips=trips,
        watch=watch,
        state=state,
        alone=alone,
        answers=answers,
        relative=tuple(timed(both, n, watch).relative for n in range(1, most_trips + 1)),
        trips_for_wanted=_needed(alone.round_trip, watch, timed(both, 1, 0.0).relative),
        sentence=_sentence(answers, hung=1.0 - webbing / both),
    )


def _by_sag(load: float, sag: float, error: float, *, chord: float) -> Measured:
    """The crews' usual way: the line's own weight is left out."""
    errors = {"load_error": WEIGHT_ERROR * load, "length_error": LENGTH_ERROR * chord, "sag_error": error}
    return tension_from_sag(load=load, length=chord, sag=sag, **errors)


def _by_pluck(round_trip: float, count: int, watch: float, *, mass: float, mass_error: float, chord: float) -> Measured:
    """`count` round trips with the given mass per metre, its error as a share of it."""
    errors = {"stopwatch_error": watch, "mass_error": mass_error * mass, "length_error": LENGTH_ERROR * chord}
    return tension_from_round_trips(time=count * round_trip, trips=count, length=chord, mass_per_length=mass, **errors)


def _needed(round_trip: float, watch: float, rest: float) -> int | None:
    if rest >= WANTED:
        return None
    return trips_needed(wanted=WANTED, round_trip=round_trip, stopwatch_error=watch, rest=rest)


def _short(measured: Measured) -> str:
    return in_words(measured) + ("" if measured.rough else " kN")


def _sentence(answers: Answers, *, hung: float) -> str:
    """What the picture shows, in words."""
    says = answers.forgotten if answers.forgets else answers.counted
    pluck_says, alone, on, sag = (
        f"{v / 1e3:.1f}" for v in (says.tension, answers.true_alone, answers.true_on, answers.sag.tension)
    )
    if says.rough:
        first = f"So few trips are too short for this stopwatch: no measurement. Nobody on it: {alone} kN."
    elif answers.forgets:
        first = f"{100 * hung:.0f} % of what swings is the backup: forgotten, the pluck says {pluck_says} kN, true is {alone}."
    else:
        sure = f"{100 * says.relative:.0f} %"
        first = f"With all that swings counted, the pluck says {pluck_says} kN, give or take {sure}; true is {alone}."
    return f"{first} The weight tightens the line to {on}; the sag says {sag}, blind to the line's own weight. {NEVER}"
