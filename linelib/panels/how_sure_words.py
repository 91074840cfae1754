"""What the panel of how sure we are says: four readings, one sentence, and the ranking in words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from linelib.figures.ranking_bars import in_percent
from linelib.panels.frame import Reading
from linelib.panels.how_sure_settings import NAMES, UNITS, UNKNOWNS
from linelib.studies.how_sure import MODEL_OFF, HowSure
from linelib.studies.share_above import Share, percent_interval
from linelib.studies.what_matters import Matters

ONLY = "A number from ranges is only as good as the ranges."
NO_PROBABILITY = "A share of what was put in, no probability that a rig fails."
VERBS = {"anchor": "bring the higher anchor over", "person": "give the person over", "lowest": "take the tie-in deeper than"}
SHORT = {"anchor": "anchor", "person": "person", "lowest": "tie-in"}


@dataclass(frozen=True, kw_only=True)
class Readings:
    """Everything that is shown, in SI: the cases; the `outcome` looked at, and what `one` fall with the middle of every range
    gives for it (None: it cannot be computed); the outcome that has a limit (`limited`, None: none is entered), its `limit`;
    the `ranking`, if that is looked at (`ranked`)."""

    found: HowSure
    outcome: str
    one: float | None
    limited: str | None
    limit: float
    ranking: Sequence[Matters] = ()
    ranked: bool = False

    @property
    def share(self) -> Share | None:
        """Share of the cases over the limit; None where none is entered."""
        return None if self.limited is None else self.found.share(self.limited, self.limit)

    @property
    def strip(self) -> tuple[Reading, ...]:
        """The four readings of the strip."""
        rows = [Reading(f"{words}, 5 to 95 %", self._reach(name)) for name, words in NAMES.items()]
        if self.limited is None or (share := self.share) is None:
            return (*rows, Reading("cases over a limit", "no limit"))
        said = percent_interval(share).split(" (")[0]
        return (*rows, Reading(f"{SHORT[self.limited]} over {_shown(self.limited, self.limit)}", said))

    @property
    def sentence(self) -> str:
        """What the picture shows, in words."""
        return self._ranking_in_words() if self.ranked else f"{self._spread_in_words()} {self._limit_in_words()}"

    def _spread_in_words(self) -> str:
        spread, (unit, si) = self.found.spread(self.outcome), UNITS[self.outcome]
        low, median, high = (f"{v / si:.1f}" for v in (spread.low, spread.median, spread.high))
        words = f"Half of the cases {VERBS[self.outcome]} {median} {unit}"
        if self.found.not_computed:
            return f"{words}. {self.found.not_computed}"
        return f"{words}; one in twenty is over {high}, one under {low}."

    def _limit_in_words(self) -> str:
        share = self.share
        if self.limited is None or share is None:
            said = "" if self.one is None else f"One fall with every middle says {_shown(self.outcome, self.one)}. "
            return f"{said}No limit is entered. {ONLY}"
        off = MODEL_OFF[self.limited]
        ends = [self.found.share(self.limited, self.limit * (1.0 + sign * off)) for sign in (1.0, -1.0)]
        low, high = (percent_interval(one).split(" %")[0] for one in ends)
        words = f"Over {_shown(self.limited, self.limit)} ({SHORT[self.limited]}): {percent_interval(share)}"
        return f"{words}; were the model {100.0 * off:.0f} % off, {low} to {high} %. {NO_PROBABILITY}"

    def _ranking_in_words(self) -> str:
        if not self.ranking:
            return f"There is no ranking for these ranges. {ONLY}"
        first, *others = self.ranking
        alone, both = in_percent(first.first), in_percent(first.total)
        much = f"{alone} of the variance by itself, {both} with the others"
        if first.first >= first.total:  # two estimates: as good as the same
            much = f"{both} of the variance, as good as all by itself"
        words = f"What moves it most ({NAMES[self.outcome]}): {unknown(first.name)}, {much}."
        near = [unknown(one.name) for one in others if one.total_interval[1] >= first.total_interval[0]]
        if near:
            words += f" So few falls cannot tell whether {' or '.join(near)} matters as much."
        return f"{words} Half a spread is a quarter of its variance: the order is that of these ranges."

    def _reach(self, name: str) -> str:
        spread, (unit, si) = self.found.spread(name), UNITS[name]
        return f"{spread.low / si:.1f}–{spread.high / si:.1f} {unit}"


def rounded(reason: str) -> str:
    """A refusal for the screen: numbers with three digits, names without underscores."""
    return re.sub(r"\d+\.\d{3,}", lambda found: f"{float(found[0]):.3g}", reason).replace("_", " ")


def unknown(name: str) -> str:
    """The name of an unknown in a sentence."""
    return UNKNOWNS[name][0].removesuffix(" ×")


def _shown(outcome: str, value: float) -> str:
    unit, si = UNITS[outcome]
    return f"{value / si:.1f} {unit}"
