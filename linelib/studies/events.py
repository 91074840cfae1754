"""A story as evidence: loads in their order, what was seen at each, and what an inspection found; all of it uncertain."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import ndtr

from linelib.checks import instance, number, one_of, refuse

Array = NDArray[np.float64]
QUIET, NOISE, PARTED, UNKNOWN = "held, nothing noticed", "held, noise", "parted", "not known"
SEEN = (QUIET, NOISE, PARTED, UNKNOWN)
MOST_EVENTS = 40


@dataclass(frozen=True, kw_only=True)
class Event:
    """One load on the place in question: `load` [N] with its standard `uncertainty` [N] (normal), and what was `seen` of SEEN.

    'not known' is no evidence by itself; that another load followed says that the line still stood.

    Raises: ValueError naming the argument, its value and what is allowed.
    """

    load: float
    uncertainty: float
    seen: str

    def __post_init__(self) -> None:
        number("load", self.load, low=0.0, high=1e6, unit="N")
        number("uncertainty", self.uncertainty, low=1.0, high=1e6, unit="N")
        one_of("seen", self.seen, SEEN)


@dataclass(frozen=True, kw_only=True)
class Inspection:
    """What was found torn: share `torn` [-] of the width, standard `uncertainty` [-], as it stood `after` so many events.

    `trust` [-] : chance that the card is right. A wrong card says any share, all equally likely; trust 0 is no evidence.
    Once the line has parted everything is torn: what old ends show then is the state before that event.

    Raises: ValueError naming the argument, its value and what is allowed.
    """

    torn: float
    uncertainty: float
    after: int
    trust: float = 1.0

    def __post_init__(self) -> None:
        number("torn", self.torn, low=0.0, high=1.0)
        number("uncertainty", self.uncertainty, low=0.005, high=0.5)
        number("trust", self.trust, low=0.0, high=1.0)
        if isinstance(self.after, bool) or not isinstance(self.after, int) or not 0 <= self.after <= MOST_EVENTS:
            raise refuse("after", self.after, f"a whole number from 0 to {MOST_EVENTS}")

    def density(self, torn: ArrayLike) -> Array:
        """Density [1/share] of finding what was found when a share `torn` [-], any shape, is torn in truth.

        trust * normal density cut off at 0 and 1 + (1 - trust) * 1. Example: trust 0 gives 1 everywhere.
        """
        z = (self.torn - np.asarray(torn, float)) / self.uncertainty
        inside = ndtr(z + (1.0 - self.torn) / self.uncertainty) - ndtr(z - self.torn / self.uncertainty)
        normal = np.exp(-0.5 * z * z) / (np.sqrt(2.0 * np.pi) * self.uncertainty)
        return np.asarray(self.trust * normal / inside + 1.0 - self.trust)


@dataclass(frozen=True, kw_only=True)
class Hearing:
    """Chance that a noise is noticed: `heard` [-] when something tears and the rest holds, `stray` [-] when nothing tears.

    Nothing noticed is not evidence that nothing tore: with `heard` 0.7 three tears in ten pass unnoticed.
    Source: both numbers typical, no source; wind, distance and talk decide. The noise of a tear is taken as one chance, however
    much of the width tears.

    Raises: ValueError naming the argument, its value and what is allowed; a stray noise is not likelier than a heard tear.
    """

    heard: float = 0.7
    stray: float = 0.05

    def __post_init__(self) -> None:
        number("heard", self.heard, low=0.0, high=1.0)
        number("stray", self.stray, low=0.0, high=self.heard, unit="(heard)")

    def chances(self, seen: str) -> tuple[float, float, float]:
        """Chance [-] of what was `seen` when nothing tears, when something tears and the rest holds, when the line parts.

        Raises: ValueError listing what can be seen.
        """
        return {
            QUIET: (1.0 - self.stray, 1.0 - self.heard, 0.0),
            NOISE: (self.stray, self.heard, 0.0),
            PARTED: (0.0, 0.0, 1.0),
            UNKNOWN: (1.0, 1.0, 1.0),
        }[one_of("seen", seen, SEEN)]


@dataclass(frozen=True, kw_only=True)
class Story:
    """Events in their order, an inspection or None, and how well noises are heard; the same strips all the time.

    Raises: ValueError naming the argument, its value and what is allowed: nothing loads a line that has parted.
    """

    events: tuple[Event, ...]
    inspection: Inspection | None = None
    hearing: Hearing = field(default_factory=Hearing)

    def __post_init__(self) -> None:
        if not isinstance(self.events, tuple) or not 1 <= len(self.events) <= MOST_EVENTS:
            raise refuse("events", self.events, f"a tuple of 1 to {MOST_EVENTS} Event")
        for i, event in enumerate(self.events):
            instance(f"events[{i}]", event, Event)
            if event.seen == PARTED and i < len(self.events) - 1:
                raise refuse(f"events[{i}].seen", event.seen, "as the last event only: nothing loads a line that has parted")
        instance("hearing", self.hearing, Hearing)
        if self.inspection is not None:
            instance("inspection", self.inspection, Inspection)
            most = len(self.events) - (1 if self.parted else 0)
            if self.inspection.after > most:
                raise refuse(
                    "inspection.after", self.inspection.after, f"at most {most}, the events that left a line to look at"
                )

    @property
    def parted(self) -> bool:
        """Whether the last event broke the line."""
        return self.events[-1].seen == PARTED
