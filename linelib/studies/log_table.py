"""A logged table as text: which sign separates cells, which marks decimals, where units stand, and what each line says."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from linelib.checks import number, refuse

TIME_UNITS = {"s": 1.0, "ms": 1e-3}  # to [s]
POUND, KILOGRAM = 4.4482216152605, 9.80665  # [N]: pound-force, kilogram-force
FORCE_UNITS = {"n": 1.0, "dan": 10.0, "kn": 1e3, "kgf": KILOGRAM, "lbf": POUND}  # to [N]
TIMES, FORCES = "s, ms", "N, daN, kN, kgf, lbf"
MISSING = ("", "-", "nan", "na", "n/a", "null")
SEPARATORS = {"\t": "tab", ";": "semicolon", ",": "comma"}
NUMBER = re.compile(r"[-+]?(\d+[.,]?\d*|[.,]\d+)([eE][-+]?\d+)?")
UNIT = re.compile(r"(?:[\[(/_,]|\s|^)\s*([a-zA-Z]+)\s*[\])]?$")

Row = tuple[int, float, float | None]  # line number, time, force or None where there is none


@dataclass(frozen=True, kw_only=True)
class Table:
    """Rows as (line, time, force or None) in the units found, factors to [s] and [N], remarks of the file, what was noticed."""

    rows: tuple[Row, ...]
    to_second: float
    to_newton: float
    remarks: tuple[str, ...]
    noticed: tuple[str, ...]


def table_of(*, path: Path, time_unit: str | None, force_unit: str | None) -> Table:
    """Read two columns of numbers, with units from the header or, where the header has none, as asked for.

    Lines that begin with # are remarks. Columns beyond time and force are named in `noticed` and not used.
    Raises: ValueError naming the file, the line and what is allowed; FileNotFoundError.
    """
    lines = _lines(path)
    remarks = tuple(text[1:].strip() for _, text in lines if text.startswith("#"))
    lines = [(line, text) for line, text in lines if text and not text.startswith("#")]
    if not lines:
        raise refuse(f"{path.name}, lines with numbers", 0, "a header and rows of time and force")
    sign = _separator(path.name, lines)
    head = lines[0][1].split(sign)
    headed = not all(_is_value(cell) for cell in head)
    names = [name.strip().strip('"') for name in head] if headed else [""] * len(head)
    columns, factors, noticed = _columns(path.name, names, time_unit, force_unit)
    cells = [(line, text.split(sign)) for line, text in lines[headed:]]
    for line, row in cells:
        if len(row) != len(head):
            allowed = f"{len(head)}, separated by {SEPARATORS[sign]}; a decimal comma needs semicolons or tabs between cells"
            raise refuse(f"{path.name}, line {line}, number of cells", len(row), allowed)
    rows = _numbers(path.name, cells, columns, sign)
    return Table(rows=rows, to_second=factors[0], to_newton=factors[1], remarks=remarks, noticed=noticed)


def _lines(path: Path) -> list[tuple[int, str]]:
    """Lines with their numbers, without blanks around them; a tab at an end of a line stays: it holds an empty cell."""
    if not path.is_file():
        raise FileNotFoundError(f"{path.name} is not there")
    try:
        text = path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        raise refuse(path.name, str(error), "text in UTF-8") from error
    return [(i, line.strip(" \r") if line.strip() else "") for i, line in enumerate(text.split("\n"), 1)]


def _separator(name: str, lines: Sequence[tuple[int, str]]) -> str:
    """Tab before semicolon before comma: a comma beside one of the others marks decimals."""
    line, text = lines[min(1, len(lines) - 1)]
    for sign in SEPARATORS:
        if sign in text:
            return sign
    raise refuse(f"{name}, line {line}", text, "cells separated by comma, semicolon or tab")


def _is_value(cell: str) -> bool:
    return cell.strip().lower() in MISSING or NUMBER.fullmatch(cell.strip()) is not None


def _columns(
    name: str, heads: Sequence[str], time_unit: str | None, force_unit: str | None
) -> tuple[tuple[int, int], tuple[float, float], tuple[str, ...]]:
    """Which columns are time and force, the factors of their units, and words about columns that are not used."""
    found = [match[1].lower() if (match := UNIT.search(head)) else "" for head in heads]
    if len(heads) < 2:
        raise refuse(f"{name}, columns", list(heads), "two: time and force")
    if len(heads) == 2:
        at = [1, 0] if found[0] in FORCE_UNITS or found[1] in TIME_UNITS else [0, 1]
    else:
        at = []
        for units in (TIME_UNITS, FORCE_UNITS):
            fits = [i for i, unit in enumerate(found) if unit in units]
            if len(fits) != 1:
                allowed = f"exactly one column in {TIMES} and one in {FORCES}, units in the header as in 'force [kN]'"
                raise refuse(f"{name}, columns", list(heads), allowed)
            at.append(fits[0])
    to_second = _factor(f"{name}, unit of time", found[at[0]], time_unit, TIME_UNITS, TIMES)
    to_newton = _factor(f"{name}, unit of force", found[at[1]], force_unit, FORCE_UNITS, FORCES)
    unused = [head for i, head in enumerate(heads) if i not in at]
    noticed = (f"columns not used: {', '.join(unused)}",) if unused else ()
    return (at[0], at[1]), (to_second, to_newton), noticed


def _factor(name: str, found: str, asked: str | None, units: dict[str, float], allowed: str) -> float:
    """The factor of a unit from the header, else of the one asked for; both must agree where both are there."""
    said = None if asked is None else str(asked).lower()
    if said is not None and said not in units:
        raise refuse(name, asked, f"one of {allowed}")
    if found in units:
        if said is not None and units[said] != units[found]:
            raise refuse(name, asked, f"what the header says, {found}, or nothing")
        return units[found]
    if said is None:
        raise refuse(name, found or None, f"one of {allowed}, in the header as in 'force [kN]', or as an argument")
    return units[said]


def _numbers(name: str, cells: list[tuple[int, list[str]]], columns: tuple[int, int], sign: str) -> tuple[Row, ...]:
    """The numbers of all rows; commas and points must not both mark decimals."""
    rows: list[Row] = []
    marks: dict[str, int] = {}
    for line, row in cells:
        pair: list[float | None] = []
        for column, what in zip(columns, ("time", "force"), strict=True):
            text = row[column].strip().strip('"')
            if text.lower() in MISSING:
                pair.append(None)
                continue
            if not NUMBER.fullmatch(text):
                raise refuse(
                    f"{name}, line {line}, {what}", text, "a number, with one decimal point or comma, or an empty cell"
                )
            marks.update({mark: line for mark in ".," if mark in text and mark not in marks})
            pair.append(number(f"{name}, line {line}, {what}", float(text.replace(",", ".")), low=-1e9, high=1e9))
        if pair[0] is None:
            raise refuse(f"{name}, line {line}, time", row[columns[0]], "a number: a force without a time has no place")
        rows.append((line, pair[0], pair[1]))
    if len(marks) == 2:
        where = f"{name}, decimal signs"
        raise refuse(where, f"point in line {marks['.']}, comma in line {marks[',']}", "one of the two in the whole file")
    return tuple(rows)
