"""The sliders of the lesson on pull, and what they mean: screen values to a Setup, a balance to readings and words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from linelib.models.hanging_line import Pieces, land, solve_pull
from linelib.models.lines import GRAVITY, divide, lines_of, place_on_line
from linelib.models.shape import Shape, shape_of
from linelib.models.weightless_v import weightless_v
from linelib.panels.controls import Choice, Control, Slider, Value
from linelib.panels.frame import Reading
from linelib.rigging import Setup
from linelib.studies.lesson_rig import lesson_setup
from linelib.webbing import Webbing

Array = NDArray[np.float64]
VISIBLE = 4
PRETENSION = (1.0, 10.0)  # kN
COST = "More sag pulls less, but drops deeper, and promises no softer catch."


def pull_controls(table: Mapping[str, Webbing]) -> tuple[Control, ...]:
    """Length, walker's mass, pretension, position; then the folded ones."""
    names = {f"{i} · {webbing.name}": key for i, (key, webbing) in enumerate(table.items(), 1)}
    low, high = PRETENSION
    return (
        Slider(name="length", words="line length", unit="m", low=40, high=200, step=1, start=100, digits=0),
        Slider(name="mass", words="walker's mass", unit="kg", low=40, high=130, step=1, start=80, digits=0),
        Slider(name="pretension", words="pretension", unit="kN", low=low, high=high, step=0.1, start=3, si=1e3),
        Slider(name="position", words="position", unit="% from A", low=5, high=95, step=1, start=50, si=0.01, digits=0),
        Choice(name="material", words="material", options=names, start="hmpe_25mm"),
        Slider(name="height_difference", words="B above A", unit="m", low=-10, high=10, step=1, start=0, digits=0),
        Slider(name="insert_length", words="soft insert at A", unit="m", low=0, high=15, step=0.5, start=0),
    )


def setup_of(values: Mapping[str, Value], controls: Sequence[Control], table: Mapping[str, Webbing]) -> Setup:
    """The lesson rig for screen values.

    Raises: ValueError naming what is not possible.
    """
    si = {c.name: float(values[c.name]) * c.si for c in controls if isinstance(c, Slider)}
    height = si.pop("height_difference")
    setup = lesson_setup(material=str(values["material"]), table=table, **si)
    return replace(setup, rig=replace(setup.rig, height_difference=height))


def load_of(setup: Setup) -> float:
    """Weight of walker and leash ring [N]: all that is put on the line."""
    return (setup.walker.mass + setup.leash.ring_mass) * GRAVITY


@dataclass(frozen=True, kw_only=True)
class Pulls:
    """Walkers standing on lines, arrays (setups,): `sag` [m], ring at `ring_x` [m] from A; `tension_a`, `tension_b`,
    `horizontal` [N]; `angle_a`, `angle_b` [rad], positive when the line leaves the anchor downward;
    `lift_a`, `lift_b` [N]: upward part of each side's pull at the ring, together the load.
    Of the first setup also the shape of the line, with the walker (`line`) and with nobody on it (`alone`)."""

    sag: Array
    ring_x: Array
    tension_a: Array
    tension_b: Array
    horizontal: Array
    angle_a: Array
    angle_b: Array
    lift_a: Array
    lift_b: Array
    line: Shape
    alone: Shape


def pulls_of(setups: Sequence[Setup]) -> Pulls:
    """Sag and pulls of many setups as one batch.

    Returns: Pulls, lengths in [m], forces in [N].
    Raises: ValueError when a rig cannot hang.
    Source: models/hanging_line.py.
    """
    lines = lines_of([s.rig for s in setups])
    load, column = np.array([load_of(s) for s in setups]), np.arange(len(setups))
    at = place_on_line(lines, np.array([s.walker.position for s in setups]))
    pieces, hung_at = divide(lines.pieces, at[None], load[None])
    horizontal, vertical = solve_pull(pieces, span=lines.span, rise=lines.rise)
    landing = land(pieces, horizontal, vertical)
    ring = hung_at[0]
    x, depth = landing.x[ring, column], landing.y[ring, column]
    return Pulls(
        sag=lines.rise * x / lines.span + depth,
        ring_x=x,
        tension_a=np.hypot(horizontal, vertical),
        tension_b=np.hypot(horizontal, landing.end[-1]),
        horizontal=horizontal,
        angle_a=np.arctan2(vertical, horizontal),
        angle_b=np.arctan2(-landing.end[-1], horizontal),
        lift_a=landing.end[ring, column],
        lift_b=-landing.start[ring + 1, column],
        line=shape_of(_first(pieces), horizontal[:1], vertical[:1]),
        alone=shape_of(_first(lines.pieces), lines.horizontal[:1], lines.vertical[:1]),
    )


def _first(pieces: Pieces) -> Pieces:
    """The first line of a batch."""
    return replace(
        pieces,
        length=pieces.length[:, :1],
        weight=pieces.weight[:, :1],
        law=pieces.law[:, :1],
        load=pieces.load[:, :1],
    )


def v_pull(setup: Setup, *, sag: float, ring_x: float) -> float:
    """Pull at A [N] of the weightless V with the same sag [m] and place of the ring [m]; B may be higher than A."""
    rig = setup.rig
    horizontal = weightless_v(load=load_of(setup), span=rig.span, sag=sag, position=ring_x / rig.span).horizontal
    return float(horizontal * np.hypot(1.0, sag / ring_x - rig.height_difference / rig.span))


@dataclass(frozen=True, kw_only=True)
class PullReadings:
    """What the strip says, in numbers: forces [N], sag [m], angles of the line at the anchors [rad], positive when it leaves
    downward; and the sentence under the picture."""

    anchor_a: float
    anchor_b: float
    angle_a: float
    angle_b: float
    weight: float
    sag: float
    sentence: str

    @property
    def strip(self) -> tuple[Reading, ...]:
        """The four readings of the strip."""
        return (
            Reading(f"pull at A, {_turn(self.angle_a)}", f"{self.anchor_a / 1e3:.1f} kN"),
            Reading(f"pull at B, {_turn(self.angle_b)}", f"{self.anchor_b / 1e3:.1f} kN"),
            Reading("weight, walker and ring", f"{self.weight / 1e3:.2f} kN"),
            Reading("sag under the walker", f"{self.sag:.2f} m"),
        )


def readings_of(setup: Setup, pulls: Pulls) -> PullReadings:
    """Numbers and words of the first of `pulls`, which is that of `setup`."""
    a, sag = float(pulls.tension_a[0]), float(pulls.sag[0])
    weightless = f"{v_pull(setup, sag=sag, ring_x=float(pulls.ring_x[0])) / 1e3:.1f}"
    more = "as well" if weightless == f"{a / 1e3:.1f}" else "at A; the weight of line and backup does the rest"
    words = f"{_sides_in_words(load_of(setup), pulls)} The weightless V says {weightless} kN {more}. {COST}"
    return PullReadings(
        anchor_a=a,
        anchor_b=float(pulls.tension_b[0]),
        angle_a=float(pulls.angle_a[0]),
        angle_b=float(pulls.angle_b[0]),
        weight=load_of(setup),
        sag=sag,
        sentence=words,
    )


def _turn(angle: float) -> str:
    """Words for an angle [rad] of the line at an anchor."""
    return f"{abs(np.degrees(angle)):.1f}° {'down' if angle >= 0.0 else 'up'}"


def _sides_in_words(load: float, pulls: Pulls) -> str:
    """How steep the two sides are, and what each must pull for it."""
    lifts, weight = (pulls.lift_a, pulls.lift_b), f"{load / 1e3:.2f} kN"
    angle_a, angle_b = (f"{np.degrees(np.arctan2(lift[0], pulls.horizontal[0])):.1f}" for lift in lifts)
    forces = [float(v[0]) for v in (pulls.tension_a, pulls.tension_b)]
    pull_a, pull_b = (f"{f / 1e3:.1f}" for f in forces)
    times_a, times_b = (f"{f / load:.1f}" for f in forces)
    if (angle_a, pull_a, times_a) == (angle_b, pull_b, times_b):
        each = f"each pulls {pull_a} kN, {times_a} times as much, so that small upward parts add up to it."
        return f"The {weight} hang on two sides that rise only {angle_a}°: {each}"
    most = max(forces) / load
    both = f"they pull {pull_a} and {pull_b} kN, up to {most:.1f} times as much, as only upward parts lift."
    return f"A {_rise(angle_a)}, B {_rise(angle_b)}: to lift {weight} {both}"


def _rise(angle: str) -> str:
    return f"falls {angle[1:]}°" if angle.startswith("-") else f"rises {angle}°"
