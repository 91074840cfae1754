"""The sliders of the lesson on rival explanations: screen values to a story, what is believed before it, and what it shows.

The story is invented: a 62 m line in an invented quarry, four falls that held, a noise at the fourth, and a fifth that was one
too many. The loads are those in the lock, as computed for each fall.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from linelib.checks import number
from linelib.panels.controls import Choice, Control, Slider, Value
from linelib.panels.frame import Reading
from linelib.studies.events import NOISE, PARTED, QUIET, UNKNOWN, Event, Hearing, Inspection, Story
from linelib.studies.explanations import Explanation
from linelib.studies.rival_explanations import rivals
from linelib.studies.sound_strength import Strength
from linelib.studies.weighed import Weighed, bayes_factor
from linelib.studies.weighing import weigh
from linelib.studies.weighing_words import said
from linelib.tables import webbings

VISIBLE = 5
LOADS = (6.5e3, 7.2e3, 7.6e3, 8.4e3)  # N, falls 1 to 4: invented
FOUND_WITHIN = 0.08  # of the width: how well a torn share is read off, typical, no source
TRUST = {"believed": 0.95, "half": 0.5, "wrong card": 0.0}  # chance that the card is right: our choice
SEEN_AT_4 = {"held, a noise": NOISE, "held, nothing noticed": QUIET, "not known": UNKNOWN}
CARD = {
    "edge strips torn: believed": "believed",
    "edge strips torn: half believed": "half",
    "a wrong card: not believed": "wrong card",
}
FIFTH = {"made: the line parted": PARTED, "never made: they stopped": "never"}
PRIOR = {"all equally likely": "equal", "the first story, one to one": "first"}
STRENGTH = 33e3  # N; the ranges are those of a webbing as strong as this


def weighing_controls() -> tuple[Control, ...]:
    """The last load, what was seen at fall 4, the torn share, the card, how well loads are known; then the folded ones."""
    return (
        Slider(name="last", words="load of fall 5", unit="kN", low=6, high=30, step=0.1, start=8.9, si=1e3),
        Choice(name="fourth", words="fall 4", options=SEEN_AT_4, start=NOISE),
        Slider(name="torn", words="torn share found", unit="%", low=0, high=60, step=5, start=30, si=0.01, digits=0),
        Choice(name="card", words="the card", options=CARD, start="believed"),
        Slider(name="give", words="each load ±", unit="kN", low=0.1, high=1.5, step=0.1, start=0.3, si=1e3),
        Choice(name="fifth", words="fall 5", options=FIFTH, start=PARTED),
        Slider(name="heard", words="a tear is heard", unit="%", low=30, high=100, step=5, start=70, si=0.01, digits=0),
        Slider(name="stray", words="stray noise", unit="%", low=0, high=30, step=1, start=5, si=0.01, digits=0),
        Slider(name="strength", words="sound strength", unit="kN", low=25, high=45, step=1, start=33, si=1e3, digits=0),
        Slider(name="tolerance", words="strength ±", unit="%", low=2, high=20, step=1, start=10, si=0.01, digits=0),
        Choice(name="prior", words="before", options=PRIOR, start="equal"),
    )


def quarry_rivals() -> tuple[Explanation, ...]:
    """The rivals for the webbing of the story: HMPE of the table, taken as STRENGTH [N] strong."""
    return rivals(webbing=replace(webbings()["hmpe_25mm"], breaking_strength=STRENGTH))


def story_of(values: Mapping[str, Value], controls: Sequence[Control], loads: Sequence[float] = LOADS) -> Story:
    """Events, inspection and hearing for screen values; `loads` of the falls 1 to 4 [N]."""
    si = _in_si(values, controls)
    seen = (QUIET, QUIET, QUIET, str(values["fourth"]))
    events = [Event(load=load, uncertainty=si["give"], seen=what) for load, what in zip(loads, seen, strict=True)]
    if values["fifth"] == PARTED:
        events.append(Event(load=si["last"], uncertainty=si["give"], seen=PARTED))
    card = Inspection(torn=si["torn"], uncertainty=FOUND_WITHIN, after=len(loads), trust=TRUST[str(values["card"])])
    return Story(events=tuple(events), inspection=card, hearing=Hearing(heard=si["heard"], stray=si["stray"]))


def weighed_of(
    values: Mapping[str, Value], controls: Sequence[Control], listed: Sequence[Explanation], loads: Sequence[float] = LOADS
) -> Weighing:
    """The rivals weighed for screen values. Raises: ValueError when none of them gives the story any chance."""
    si = _in_si(values, controls)
    prior = None if values["prior"] == "equal" else [len(listed) - 1.0, *[1.0] * (len(listed) - 1)]
    strength = Strength(median=si["strength"], tolerance=si["tolerance"])
    return Weighing(weigh(story=story_of(values, controls, loads), explanations=listed, strength=strength, prior=prior))


def _in_si(values: Mapping[str, Value], controls: Sequence[Control]) -> dict[str, float]:
    return {c.name: number(c.name, values[c.name], low=c.low, high=c.high) * c.si for c in controls if isinstance(c, Slider)}


@dataclass(frozen=True)
class Weighing:
    """What was found, as readings and words."""

    found: Weighed

    @property
    def strip(self) -> tuple[Reading, ...]:
        """The four readings: likeliest, how far ahead, what carried, what does not suffice."""
        accounts = self.found.accounts
        likeliest = max(accounts, key=lambda one: one.posterior)
        first, second = self.found.ranked[:2]
        ahead = bayes_factor(first, second)
        low, high = self.found.between(0.9)
        place = {one.name: i for i, one in enumerate(accounts, 1)}
        return (
            Reading(
                f"{'likeliest listed' if likeliest.sufficient else 'likeliest, not sufficient'}: {place[likeliest.name]}",
                f"{100 * likeliest.posterior:.0f} %",
            ),
            Reading(
                f"events: {place[first.name]} over {place[second.name]}, times", f"{ahead:.1f}" if ahead < 999.5 else "over 999"
            ),
            Reading("width that carried, 90 %", f"{100 * low:.0f} to {100 * high:.0f} %"),
            Reading("not sufficient", f"{len(self.found.insufficient)} of {len(accounts)}"),
        )

    @property
    def sentence(self) -> str:
        """What the picture shows, in words."""
        return said(weighed=self.found)
