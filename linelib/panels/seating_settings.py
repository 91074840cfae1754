"""The sliders of the lesson on seating, and what they mean: screen values to webbing in a lock, and to readings and words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from linelib.models.first_tear import FirstTear, first_tear
from linelib.models.seated_strips import reseated
from linelib.models.seating import Seating
from linelib.models.strips import Strips
from linelib.models.tearing import TearState, tear
from linelib.panels.controls import Choice, Control, Slider, Value
from linelib.panels.frame import Reading
from linelib.studies.seated_strength import Seated
from linelib.webbing import Webbing

VISIBLE = 5
SPEEDS = {"as fast as in a fall": "fast", "slow": "slow"}
RESEAT = "Bad seating is a fault in any fibre: load off, seat it square."
RADIAN = 0.017453292519943295


def seating_controls(table: Mapping[str, Webbing]) -> tuple[Control, ...]:
    """Material, skew, fold, sharing length, pull; then the folded ones."""
    names = {f"{i} · {webbing.name}": key for i, (key, webbing) in enumerate(table.items(), 1)}
    return (
        Choice(name="material", words="material", options=names, start="hmpe_25mm"),
        Slider(name="skew", words="skewed by", unit="°", low=0, high=20, step=0.5, start=9, si=RADIAN),
        Slider(name="fold", words="fold depth", unit="mm", low=0, high=5, step=0.1, start=0, si=1e-3),
        Slider(name="sharing", words="sharing length", unit="cm", low=4, high=30, step=1, start=10, si=1e-2, digits=0),
        Slider(name="pull", words="pull now", unit="kN", low=0, high=40, step=0.5, start=6, si=1e3),
        Slider(name="earlier", words="pull before", unit="kN", low=0, high=40, step=0.5, start=0, si=1e3),
        Slider(name="folded", words="width folded", unit="%", low=5, high=95, step=5, start=65, si=1e-2, digits=0),
        Slider(name="rolled", words="rolled edge", unit="mm", low=0, high=9, step=0.5, start=0, si=1e-3),
        Slider(name="factor", words="known to a factor", unit="", low=1, high=2.5, step=0.1, start=2),
        Slider(name="scatter", words="strips differ ±", unit="%", low=0, high=20, step=1, start=0, si=1e-2, digits=0),
        Choice(name="speed", words="pulled", options=SPEEDS, start="fast"),
    )


@dataclass(frozen=True, kw_only=True)
class Case:
    """What the sliders say: webbing in the lock with the middle sharing length, the lengths' `factor` [-], the loads [N]."""

    seated: Seated
    factor: float
    loads: tuple[float, float]

    @property
    def range(self) -> tuple[Seated, Seated, Seated]:
        """Seated with the shortest, the middle and the longest sharing length."""
        middle = self.seated
        shares = (1.0 / self.factor, 1.0, self.factor)
        low, _, high = (replace(middle, sharing_length=share * middle.sharing_length) for share in shares)
        return low, middle, high


def case_of(values: Mapping[str, Value], controls: Sequence[Control], table: Mapping[str, Webbing]) -> Case:
    """Webbing in a lock for screen values.

    Raises: ValueError naming what is not possible.
    """
    si = {c.name: float(values[c.name]) * c.si for c in controls if isinstance(c, Slider)}
    seating = Seating(
        skew_angle=si["skew"],
        rolled_width=si["rolled"],
        fold_depth=si["fold"],
        folded_share=si["folded"],
    )
    seated = Seated(
        webbing=table[str(values["material"])],
        seating=seating,
        sharing_length=si["sharing"],
        variation=si["scatter"],
        fast=values["speed"] == "fast",
    )
    return Case(seated=seated, factor=si["factor"], loads=(si["earlier"], si["pull"]))


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """One sharing length: strips, first tear, and the state after the highest pull before and the pull now."""

    strips: Strips
    first: FirstTear
    before: TearState
    now: TearState

    @property
    def left(self) -> float:
        """Strength left [-] of webbing seated so and never loaded; at most 1, see studies/seated_strength.py."""
        return min(self.strips.strength_left() / self.strips.webbing.breaking_strength, 1.0)


def outcomes_of(case: Case) -> tuple[Outcome, Outcome, Outcome]:
    """For the shortest, the middle and the longest sharing length.

    Raises: ValueError naming what is not possible.
    """
    found, base = [], case.seated.strips
    for seated in case.range:
        strips = reseated(strips=base, difference=seated.difference, sharing_length=seated.sharing_length)
        before, now = tear(strips=strips, loads=case.loads)
        found.append(Outcome(strips=strips, first=first_tear(strips=strips), before=before, now=now))
    low, middle, high = found
    return low, middle, high


@dataclass(frozen=True, kw_only=True)
class SeatingReadings:
    """What the strip says, for the shortest, middle and longest sharing length: `left` [-] of the strength, `carrying` [-]
    width that carries at the first tear, `first` tear [N], `whole` [-] width after the `pulls` [N]; the sentence."""

    left: tuple[float, float, float]
    carrying: tuple[float, float, float]
    first: tuple[float, float, float]
    whole: tuple[float, float, float]
    pulls: tuple[float, float]
    sentence: str

    @property
    def strip(self) -> tuple[Reading, ...]:
        """The four readings of the strip."""
        return (
            Reading("strength left", _percent(self.left)),
            Reading("carries at first tear", _percent(self.carrying)),
            Reading("first strip tears at", _span([f / 1e3 for f in self.first], ".1f", "kN")),
            Reading(f"whole, {self.pulls[0] / 1e3:.1f} then {self.pulls[1] / 1e3:.1f} kN", _percent(self.whole)),
        )


def readings_of(case: Case, outcomes: Sequence[Outcome]) -> SeatingReadings:
    """Numbers and words for the shortest, the middle and the longest sharing length."""
    return SeatingReadings(
        left=_three([o.left for o in outcomes]),
        carrying=_three([o.first.carrying_share for o in outcomes]),
        first=_three([o.first.pull for o in outcomes]),
        whole=_three([o.now.whole_share for o in outcomes]),
        pulls=case.loads,
        sentence=_sentence(case, outcomes[1]),
    )


def _three(numbers: Sequence[float]) -> tuple[float, float, float]:
    low, middle, high = numbers
    return low, middle, high


def _percent(shares: Sequence[float]) -> str:
    return _span([100.0 * s for s in shares], ".0f", "%")


def _span(numbers: Sequence[float], digits: str, unit: str) -> str:
    """The range of the numbers, or one number where the range does not show."""
    low, high = (format(n, digits) for n in (min(numbers), max(numbers)))
    return f"{low} {unit}" if low == high else f"{low}–{high} {unit}"


def _sentence(case: Case, one: Outcome) -> str:
    """What the picture shows, for the middle sharing length."""
    length = f"Shared over {100 * case.seated.sharing_length:.0f} cm"
    highest = f"{max(case.loads) / 1e3:.1f} kN"
    if not one.now.held:
        after = "after what tore before, " if one.before.held and one.before.torn else ""
        return f"{length}, {after}{highest} tears it through: the pull stays on, nothing stops it. {RESEAT}"
    if one.now.torn:
        torn = f"{100 * (1 - one.now.whole_share):.0f} % of the width"
        lost = f"{100 * (1 - one.now.strength_left / case.seated.webbing.breaking_strength):.0f} % of the strength is lost"
        return f"{length}, {highest} tore {torn}, and {lost}. That it held proves nothing about the next time. {RESEAT}"
    lost, idle = f"{100 * (1 - one.left):.0f}", f"{100 * (1 - one.first.carrying_share):.0f}"
    if lost == "0":
        return "Square and flat: all strips carry alike. Look at the webbing in every lock before it is loaded."
    if idle == "0":
        return f"{length}, all strips carry at the first tear, but unevenly: {lost} % of the strength is lost. {RESEAT}"
    joined = "yet" if float(lost) > float(idle) else "and"
    width = f"{idle} % of the width carries nothing at the first tear"
    return f"{length}, {width}, {joined} {lost} % of the strength is lost. {RESEAT}"
