"""What a case is made of: evidence, order of events, assumptions, results, causes, changes and rigs, each checked when made."""

from __future__ import annotations

from dataclasses import dataclass

from linelib.checks import instance, number, one_of, refuse
from linelib.papers.blocks import size_of
from linelib.papers.wording import printable, says
from linelib.rigging import Setup

KINDS = ("told", "photographed", "measured", "inferred", "missing")
BELIEVED = ("yes", "doubted", "wrong")
SURE = ("sure", "likely", "not known")


@dataclass(frozen=True, kw_only=True)
class Evidence:
    """One thing known or missing: its `kind`, in `words`, whether it is `believed` (yes, doubted, wrong), and its `source`."""

    kind: str
    words: str
    believed: str = "yes"
    source: str = ""

    def __post_init__(self) -> None:
        one_of("kind", self.kind, KINDS)
        says("words", self.words)
        one_of("believed", self.believed, BELIEVED)
        printable("source", self.source)


@dataclass(frozen=True, kw_only=True)
class Step:
    """One step in the order of events: `when` in words, '' if not known; how `sure` its place in the order is."""

    words: str
    when: str = ""
    sure: str = "sure"

    def __post_init__(self) -> None:
        says("words", self.words)
        printable("when", self.when)
        one_of("sure", self.sure, SURE)


@dataclass(frozen=True, kw_only=True)
class Assumption:
    """What was not known and had to be taken from `low` to `high` in `unit` ('' or '-' without one), and `why` that far."""

    name: str
    low: float
    high: float
    unit: str
    why: str

    def __post_init__(self) -> None:
        says("name", self.name)
        object.__setattr__(self, "low", number("low", self.low, low=-1e12, high=1e12))
        object.__setattr__(self, "high", number("high", self.high, low=self.low, high=1e12))
        printable("unit", self.unit)
        says("why", self.why)


@dataclass(frozen=True, kw_only=True)
class Computed:
    """A result as it was given: a `title`, its `words` line by line as they stand, and a PNG `picture` or None."""

    title: str
    words: str
    picture: bytes | None = None

    def __post_init__(self) -> None:
        says("title", self.title)
        says("words", self.words)
        if self.picture is not None:
            size_of(self.picture, "picture")


@dataclass(frozen=True, kw_only=True)
class Cause:
    """An explanation and its `rank` from 1; those that are not told apart have the same. What speaks `for_it` and `against`."""

    rank: int
    words: str
    for_it: str
    against: str

    def __post_init__(self) -> None:
        if isinstance(self.rank, bool) or not isinstance(self.rank, int) or self.rank < 1:
            raise refuse("rank", self.rank, "a whole number from 1 up")
        for name in ("words", "for_it", "against"):
            says(name, getattr(self, name))


@dataclass(frozen=True, kw_only=True)
class Change:
    """A change that keeps a margin: `words` say which change, `keeps` which margin, `cost` what is given up for it."""

    words: str
    keeps: str
    cost: str

    def __post_init__(self) -> None:
        says("words", self.words)
        says("keeps", self.keeps)
        if not isinstance(self.cost, str) or not self.cost.strip():
            raise refuse("cost", self.cost, "what the change costs: a number that looks better is never shown without it")
        printable("cost", self.cost)


@dataclass(frozen=True, kw_only=True)
class NamedSetup:
    """A `setup` that was computed with, and a `name` of one line for its rig file."""

    name: str
    setup: Setup

    def __post_init__(self) -> None:
        says("name", self.name)
        if "\n" in self.name:
            raise refuse("name", self.name, "a text of one line")
        instance("setup", self.setup, Setup)
