"""The sliders of the panel on which choice drove it, what they mean, and what is read off."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import exp

from linelib.figures.share_bars import Bars
from linelib.panels.controls import Choice, Control, Slider, Value
from linelib.panels.frame import Reading
from linelib.studies.attribution import Attribution, Shares
from linelib.studies.attribution_words import drivers_in_words, one_share, price_in_words, together_in_words
from linelib.studies.case_rig import LINKS, LOCK, RIGGED, Numbers
from linelib.studies.outcome_words import number_of, shown, unit, words_of
from linelib.studies.outcomes import ANCHOR_A, DEMANDS, DROP, PERSON, WEAKEST

VISIBLE = 5
PLACES = (*(link.name for link in LINKS), WEAKEST)
SLIDERS = {
    "insert_length": ("insert", "m", 0.0, 12.0, 0.5, 1.0, 1),
    "pretension": ("pretension", "kN", 1.0, 5.0, 0.1, 1e3, 1),
    "lock_left": ("lock has left", "%", 30.0, 100.0, 1.0, 0.01, 0),
    "leash_length": ("leash length", "m", 1.0, 3.0, 0.1, 1.0, 1),
    "standing_height": ("standing height", "m", 0.0, 1.6, 0.1, 1.0, 1),
    "mass": ("walker's mass", "kg", 45.0, 120.0, 1.0, 1.0, 0),
}


def rig_sliders() -> tuple[Slider, ...]:
    """The numbers of the rig as it was rigged."""
    return tuple(
        Slider(
            name=name,
            words=words,
            unit=of,
            low=low,
            high=high,
            step=step,
            start=getattr(RIGGED, name) / si,
            si=si,
            digits=digits,
        )
        for name, (words, of, low, high, step, si, digits) in SLIDERS.items()
    )


def which_choice_controls() -> tuple[Control, ...]:
    """The demand, the place, then how strong each choice was on the day."""
    return (
        Choice(name="demand", words="demand", options={name: name for name in DEMANDS}, start=ANCHOR_A),
        Choice(name="place", words="place", options={name: name for name in PLACES}, start=LOCK),
        *rig_sliders(),
    )


def numbers_of(values: Mapping[str, Value], controls: Sequence[Control]) -> Numbers:
    """Screen values as the numbers of the rig [SI]."""
    return Numbers(**{c.name: float(values[c.name]) * c.si for c in controls if isinstance(c, Slider) and c.name in SLIDERS})


@dataclass(frozen=True, kw_only=True)
class WhichChoice:
    """Everything that is shown: the shares of all outcomes, and which demand and place are looked at."""

    found: Attribution
    demand: str
    place: str

    @property
    def strip(self) -> tuple[Reading, ...]:
        """The demand and the load over strength, then person and drop, or what else is not yet shown."""
        place = self.found.of(self.place)
        others = [name for name in (PERSON, DROP, ANCHOR_A) if name != self.demand][:2]
        return (
            self._reading(self.demand),
            Reading(f"load/strength, was {exp(place.start):.2f}", f"{exp(place.end):.2f}"),
            *(self._reading(name) for name in others),
        )

    @property
    def sentence(self) -> str:
        """Which choice drove which, and what a minus costs."""
        demand, place = self.found.of(self.demand), self.found.of(self.place)
        gone = " Above 1 the place is gone in the model." if place.end > 0.0 else ""
        return f"{drivers_in_words(demand=demand, place=place)}{gone}"

    @property
    def lines(self) -> tuple[str, str]:
        """Two lines under the bars: what acts together, and what a minus costs."""
        demand = self.found.of(self.demand)
        return together_in_words(demand, 1), price_in_words(self.found, outcome=self.demand, most=1)

    def bars(self, outcome: str) -> Bars:
        """The bars of one outcome; at a place natural logarithms, with the factors in words."""
        shares = self.found.of(outcome)
        rising = float(shares.each.max()) > 1e-6 * max(abs(shares.end), 1.0)
        return Bars(
            title=f"ln(load / strength), {outcome}" if shares.place else f"{outcome} [{unit(outcome)}]",
            values=[_scaled(shares, float(v)) for v in shares.each],
            words=[one_share(shares, i) for i in range(len(shares.names))],
            total=_scaled(shares, shares.end - shares.start),
            total_words=_total(shares),
            driver=shares.driver if rising else None,
        )

    def _reading(self, outcome: str) -> Reading:
        shares = self.found.of(outcome)
        return Reading(f"{outcome}, was {number_of(outcome, shares.start)}", words_of(outcome, shares.end))


def _scaled(shares: Shares, value: float) -> float:
    return value if shares.place else shown(shares.outcome, value)


def _total(shares: Shares) -> str:
    change = shares.end - shares.start
    return f"× {exp(change):.2f}" if shares.place else f"{number_of(shares.outcome, change, sign=True)}"
