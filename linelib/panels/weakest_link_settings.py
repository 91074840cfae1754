"""The sliders of the lesson on the weakest link and what they mean: screen values to legs, a fall, and places."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from linelib.models.anchor_legs import Leg, share_pull
from linelib.models.fall_results import Fall
from linelib.models.leg_lost import lose_leg
from linelib.models.margins import NO_SOURCE, Reduction
from linelib.panels.controls import Choice, Control, Slider, Value
from linelib.panels.weakest_link_words import WeakestLink
from linelib.rigging import Setup
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.weakest_link import often_done, weakest_link
from linelib.webbing import Webbing

VISIBLE = 5
LEG_REACH = 1.5  # m, our choice
MATERIAL = "hmpe_25mm"
FALL = ("length", "pretension", "leash_length", "standing_height", "mass")
KINDS = {"2 legs, tied off": "2 tied", "3 legs, tied off": "3 tied", "2 legs, running loop": "2 running"}
KINDS["3 legs, running loop"] = "3 running"


def _degrees(name: str, words: str, low: float, high: float, start: float) -> Slider:
    return Slider(name=name, words=words, unit="°", low=low, high=high, step=1, start=start, si=np.pi / 180, digits=0)


def _loss(name: str, words: str, start: float) -> Slider:
    return Slider(name=name, words=words, unit="%", low=0, high=60, step=1, start=start, si=0.01, digits=0)


def weakest_link_controls() -> tuple[Control, ...]:
    """Legs, what is lost where; then the folded ones."""
    return (
        Choice(name="legs", words="anchor A", options=KINDS, start="3 tied"),
        _degrees("angle", "outer legs apart", 10, 150, 60),
        Slider(name="odd_leg", words="odd leg longer", unit="cm", low=-6, high=6, step=0.5, start=-2, si=0.01),
        _loss("lock_loss", "lost in the lock", 25),
        _loss("weather", "age, sun, wet", 15),
        _loss("end_loss", "lost at the end", 15),
        _degrees("direction", "pull off middle", -20, 20, 0),
        Slider(name="leg_strength", words="printed on a leg", unit="kN", low=10, high=50, step=1, start=22, si=1e3, digits=0),
        Slider(
            name="leg_stiffness", words="stiffness of legs", unit="kN", low=160, high=800, step=10, start=250, si=1e3, digits=0
        ),
        Slider(name="length", words="line length", unit="m", low=50, high=200, step=1, start=100, digits=0),
        Slider(name="pretension", words="pretension", unit="kN", low=1, high=8, step=0.1, start=3, si=1e3),
        Slider(name="leash_length", words="leash length", unit="m", low=1, high=3, step=0.1, start=1.5),
        Slider(name="standing_height", words="standing height", unit="m", low=0, high=1, step=0.1, start=1),
        Slider(name="mass", words="walker's mass", unit="kg", low=40, high=130, step=1, start=80, digits=0),
    )


def in_si(values: Mapping[str, Value], controls: Sequence[Control]) -> dict[str, float]:
    """The sliders' values in SI units."""
    return {c.name: float(values[c.name]) * c.si for c in controls if isinstance(c, Slider)}


def setup_of(si: Mapping[str, float], table: Mapping[str, Webbing]) -> Setup:
    """The lesson rig of the fall that loads the places."""
    return lesson_setup(table=table, material=MATERIAL, **{name: si[name] for name in FALL})


def legs_of(kind: str, si: Mapping[str, float]) -> list[Leg]:
    """Outer legs 1 and 2, and leg 3 in the middle; the odd one, of another length, is the last of them."""
    angles = [0.5 * si["angle"], -0.5 * si["angle"], 0.0][: int(kind[0])]
    odd = len(angles) - 1
    return [
        Leg(angle=a, reach=LEG_REACH, longer_by=si["odd_leg"] if i == odd else 0.0, stiffness=si["leg_stiffness"])
        for i, a in enumerate(angles)
    ]


def found_of(*, kind: str, si: Mapping[str, float], setup: Setup, fall: Fall, fails: bool, limit: float | None) -> WeakestLink:
    """Legs, places and margins under the peaks of `fall`; with `fails`, after the most loaded leg has failed.

    Raises: ValueError naming what is not possible.
    """
    legs, running = legs_of(kind, si), kind.endswith("running")
    pull, direction = fall.peak_tension_a, si["direction"]
    forces, lost = share_pull(legs=legs, pull=pull, direction=direction, running=running), None
    if fails:
        lost = lose_leg(legs=legs, lost=forces.most, pull=pull, direction=direction, running=running)
        forces = lost.after
    margins = weakest_link(
        legs=forces,
        pull_a=pull,
        pull_b=fall.peak_tension_b,
        leg_strength=si["leg_strength"],
        webbing_strength=setup.rig.segments[-1].webbing.breaking_strength,
        at_end=(Reduction(name="lost at the end", loses=si["end_loss"], source=NO_SOURCE),),
        at_lock=(Reduction(name="lock", loses=si["lock_loss"], source=NO_SOURCE),),
        everywhere=(Reduction(name="age, sun, wet", loses=si["weather"], source=NO_SOURCE),),
    )
    often = often_done(margins)
    return WeakestLink(legs=legs, forces=forces, lost=lost, margins=margins, often=often, fall=fall, limit=limit)
