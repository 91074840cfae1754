"""What the panel of the weakest link says: four readings, one sentence, and the numbers behind its bars."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from linelib.models.anchor_legs import Leg, LegForces
from linelib.models.fall_results import Fall
from linelib.models.leg_lost import LegLost
from linelib.models.margins import Margins
from linelib.panels.frame import Reading
from linelib.studies.weakest_link import LEGS, OftenDone


def in_times(value: float) -> str:
    """A strength over a load for the screen: one decimal, near 1 two, so that nothing under 1 is shown as 1."""
    return f"{value:.2f}" if 0.9 < value < 1.1 else f"{value:.1f}"


@dataclass(frozen=True, kw_only=True)
class WeakestLink:
    """Everything that is shown: legs, how they share the pull, which one fails (None: none), margins, what is often done,
    the fall, and an entered limit [times] (None: blank)."""

    legs: Sequence[Leg]
    forces: LegForces
    lost: LegLost | None
    margins: Margins
    often: OftenDone
    fall: Fall
    limit: float | None

    @property
    def failed(self) -> int | None:
        """The leg that has failed, the most loaded one, or None."""
        return None if self.lost is None else self.lost.before.most

    @property
    def strip(self) -> tuple[Reading, ...]:
        """The four readings of the strip."""
        pull, weakest = self.fall.peak_tension_a, self.margins.weakest
        most = max(self.forces.tensions)
        return (
            Reading("peak at anchor A", f"{pull / 1e3:.1f} kN"),
            Reading(f"most on one leg, {100 * most / pull:.0f} %", f"{most / 1e3:.1f} kN"),
            Reading(f"weakest: {weakest.place.name}", f"{in_times(weakest.times)} times"),
            Reading("printed, nothing off", f"{self.often.nothing_off:.1f} times"),
        )

    @property
    def sentence(self) -> str:
        """What the picture shows, in words."""
        weakest = self.margins.weakest
        first = f"Weakest: {weakest.place.name}, {weakest.left / 1e3:.1f} of {weakest.place.printed / 1e3:.0f} kN left, "
        first += f"load {weakest.place.load / 1e3:.1f}: {in_times(weakest.times)} times. "
        others = [margin for margin in self.margins.each if margin is not weakest]
        if others:
            second = min(others, key=lambda margin: margin.times)
            first += f"Next: {second.place.name}, {in_times(second.times)}. "
        if self.margins.times < 1.0:
            first += "In the model it is gone. "
        then = self._lost_in_words(self.lost) if self.lost else self._often_in_words()
        return (first + then + self._limit_in_words()).strip()

    @property
    def run_in_words(self) -> str:
        """Which leg has failed and how far the point ran; '' when all hold."""
        return "" if self.lost is None else f"leg {self.lost.before.most + 1} failed: the point ran {self.lost.run:.2f} m"

    def _lost_in_words(self, lost: LegLost) -> str:
        most = max(lost.after.tensions) / 1e3
        jolt = f"at rest up to {most:.1f} kN on one leg, on the way {lost.jolt / 1e3:.0f} kN if the line pulls on"
        return f"{self.run_in_words[0].upper()}{self.run_in_words[1:]}; {jolt}. "

    def _often_in_words(self) -> str:
        wrong = self.often.all_multiplied / self.margins.times
        if wrong > 1.02:
            return f"Multiplying all reductions gives {self.often.all_multiplied:.1f}: too high, it does not see the legs. "
        if self.often.all_multiplied == self.often.nothing_off:
            return "Nothing is entered as lost; a printed strength is that of a new piece on a test machine. "
        turn = "too low here, and it names no place" if wrong < 0.98 else "near it by chance, and it names no place"
        return f"Multiplying all reductions gives {self.often.all_multiplied:.1f}: {turn}. "

    def _limit_in_words(self) -> str:
        if self.limit is None:
            return ""
        below = [margin.place.name for margin in self.margins.each if margin.times < self.limit]
        return f"Below your limit: {', '.join(below)}." if below else "No place is below your limit; that approves nothing."


def even_share(found: WeakestLink) -> float:
    """Load on a leg [N] when all legs share the pull as if side by side: what is often assumed."""
    return found.fall.peak_tension_a / len(found.legs)


def is_legs(name: str) -> bool:
    """Whether a place is the anchor's legs."""
    return name == LEGS
