"""What is commonly said of falls, read from data/commonly_said.csv. Common practice, no source: a witness, not a fact."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from linelib.checks import number, refuse
from linelib.tables import DATA

WORDS = ("saying", "uncertainty_in_words", "source")
NUMBERS = {"peak_at_anchor_kN": 1e3, "length_from_m": 1.0, "length_to_m": 1.0, "uncertainty_percent": 0.01}  # to SI


@dataclass(frozen=True, kw_only=True)
class Saying:
    """`words`; the `peak` [N], the `lengths` [m] and the width `within` [-] it names, 0 or () for none; `uncertainty` and
    `source` in words."""

    words: str
    peak: float
    lengths: tuple[float, ...]
    within: float
    uncertainty: str
    source: str


def sayings(*, path: Path | None = None) -> dict[str, Saying]:
    """Every saying by its id, in the order of the file. An empty cell: no such number is said.

    Parameters: path : another file of the same columns; None: data/commonly_said.csv.
    Returns: id to Saying, forces in [N], lengths in [m].
    Raises: ValueError naming file, row, column, value and what is allowed.
    Source: each row's own: common practice, no source.
    """
    file = DATA / "commonly_said.csv" if path is None else path
    with file.open(encoding="utf-8-sig", newline="") as lines:
        table = csv.DictReader(lines, strict=True)
        wanted = {"id", *WORDS, *NUMBERS}
        if set(table.fieldnames or ()) != wanted:
            raise refuse(f"{file.name}, columns", table.fieldnames, ", ".join(sorted(wanted)))
        return {row["id"]: _saying(row, f"{file.name}, row {row['id']}") for row in table}


def _saying(row: Mapping[str, str | None], place: str) -> Saying:
    for column in WORDS:
        if not row[column]:
            raise refuse(f"{place}, column {column}", row[column], "some words")
    peak, low, high, within = (_number(row[column], f"{place}, column {column}") * si for column, si in NUMBERS.items())
    words, uncertainty, source = (str(row[column]) for column in WORDS)
    lengths = tuple(x for x in (low, high) if x)
    return Saying(words=words, peak=peak, lengths=lengths, within=within, uncertainty=uncertainty, source=source)


def _number(text: str | None, name: str) -> float:
    """The number in a cell, 0 for an empty one."""
    if not text:
        return 0.0
    try:
        return number(name, float(text), low=1e-3, high=1e4)
    except ValueError as error:
        raise refuse(name, text, "nothing, or a number from 0.001 to 10000, with a point, not a comma") from error
