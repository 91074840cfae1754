"""A case: everything the papers of an incident are written from, checked when it is made."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from linelib.checks import refuse
from linelib.papers.case_parts import Assumption, Cause, Change, Computed, Evidence, NamedSetup, Step
from linelib.papers.wording import printable, says, texts, without_blame

PARTS: dict[str, type] = {
    "evidence": Evidence,
    "order": Step,
    "assumptions": Assumption,
    "computed": Computed,
    "causes": Cause,
    "changes": Change,
    "setups": NamedSetup,
}


@dataclass(frozen=True, kw_only=True)
class CaseFile:
    """The material of a report and a bulletin.

    Parameters
    ----------
    title : one line, without blame
    evidence : what was told, photographed, measured, inferred, or is missing; at least one
    not_known : what stays open; never empty
    invented : True: every page says so; False only for what has happened
    date : in words, '' for none; no paper takes the date of today by itself
    order : Steps, the first first
    assumptions : what was taken within a range
    computed : results as texts and pictures, made elsewhere
    causes : explanations by their rank, the first first
    changes : what keeps the margin, each with its cost
    affected, do_now : for the bulletin
    setups : the rigs computed with, each under a name of its own
    seed : of the random numbers; None: none were used

    Raises
    ------
    ValueError : name, value and what is allowed.
    """

    title: str
    evidence: Sequence[Evidence]
    not_known: Sequence[str]
    invented: bool = True
    date: str = ""
    order: Sequence[Step] = ()
    assumptions: Sequence[Assumption] = ()
    computed: Sequence[Computed] = ()
    causes: Sequence[Cause] = ()
    changes: Sequence[Change] = ()
    affected: Sequence[str] = ()
    do_now: Sequence[str] = ()
    setups: Sequence[NamedSetup] = ()
    seed: int | None = None

    def __post_init__(self) -> None:
        without_blame("title", says("title", self.title))
        if "\n" in self.title:
            raise refuse("title", self.title, "a text of one line")
        printable("date", self.date)
        if not isinstance(self.invented, bool):
            raise refuse("invented", self.invented, "True or False")
        for name, kind in PARTS.items():
            object.__setattr__(self, name, _all_of(name, getattr(self, name), kind))
        for name in ("not_known", "affected", "do_now"):
            object.__setattr__(self, name, texts(name, getattr(self, name)))
        self._check_what_is_missing()

    def _check_what_is_missing(self) -> None:
        if not self.evidence:
            raise refuse("evidence", self.evidence, "at least one Evidence")
        if not self.not_known:
            raise refuse("not_known", self.not_known, "at least one text: no study knows everything")
        ranks = [cause.rank for cause in self.causes]
        if ranks[:1] not in ([], [1]) or any(b - a not in (0, 1) for a, b in pairwise(ranks)):
            raise refuse("causes", ranks, "ranks that begin with 1 and go on by 0, not told apart, or 1")
        names = [one.name for one in self.setups]
        if len(set(names)) < len(names):
            raise refuse("setups", names, "names that differ")
        if self.seed is not None and (isinstance(self.seed, bool) or not isinstance(self.seed, int) or self.seed < 0):
            raise refuse("seed", self.seed, "a whole number from 0 up, or None")


def _all_of(name: str, values: Any, kind: type) -> tuple[Any, ...]:
    if isinstance(values, str | bytes) or not hasattr(values, "__iter__"):
        raise refuse(name, values, f"a tuple of {kind.__name__}")
    found = tuple(values)
    for i, value in enumerate(found):
        if not isinstance(value, kind):
            raise refuse(f"{name}[{i}]", value, f"a {kind.__name__}")
    return found
