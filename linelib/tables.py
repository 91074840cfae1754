"""The data folder: reads the tables in it, and refuses a bad cell by naming the place where it stands."""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from pathlib import Path

from linelib.checks import number, one_of, refuse
from linelib.webbing import Webbing

DATA = Path(__file__).resolve().parent.parent / "data"

FIBRES = ("polyamide", "polyester", "HMPE")
LOADS_KN = (0, 1, 2, 3, 5, 7, 10, 15)  # tension of the strain columns
ALWAYS_FILLED = 7  # strain columns that must have a value: up to 10 kN
STRAIN_COLUMNS = tuple(f"strain_percent_at_{load}_kN" for load in LOADS_KN)
TEXT_COLUMNS = ("id", "name", "fibre", "source")
NUMBER_COLUMNS = {  # header: lowest and highest value allowed, unit
    "width_mm": (1.0, 500.0, "mm"),
    "mass_g_per_m": (1.0, 500.0, "g/m"),
    "breaking_strength_kN": (10.0, 500.0, "kN"),
    "fast_ratio": (1.0, 20.0, ""),
    "relaxation_time_s": (1e-3, 1e4, "s"),
    "loss_time_s": (0.0, 0.1, "s"),
    "strain_uncertainty_percent": (0.0, 100.0, "%"),
    "strength_uncertainty_percent": (0.0, 100.0, "%"),
    "fast_ratio_uncertainty_percent": (0.0, 100.0, "%"),
}
COLUMNS = {*TEXT_COLUMNS, *NUMBER_COLUMNS, *STRAIN_COLUMNS}


@dataclass(frozen=True, kw_only=True)
class WebbingNote:
    """Where a row comes from, how far to trust it: `fibres`, `source` in words, uncertainties [-], 0.2 for +-20 %."""

    fibres: tuple[str, ...]
    source: str
    strain_uncertainty: float
    strength_uncertainty: float
    fast_ratio_uncertainty: float


def webbings(*, path: Path | None = None) -> dict[str, Webbing]:
    """Every webbing of data/webbings.csv by its id, in the order of the file.

    Parameters: path : another file of the same columns; None: data/webbings.csv beside the package.
    Returns: id to Webbing, SI units.
    Raises: ValueError naming file, row, column, value and what is allowed; FileNotFoundError without the data folder.
    Example: webbings()["hmpe_25mm"].width is 0.025 [m], from 25 in the column width_mm.
    Source: each row's own, see webbing_notes.
    """
    return {row["id"]: _webbing(row, place) for place, row in _rows(path)}


def webbing_notes(*, path: Path | None = None) -> dict[str, WebbingNote]:
    """Source and uncertainty [-] of every webbing by its id. Arguments and refusals as in `webbings`."""
    return {row["id"]: _note(row, place) for place, row in _rows(path)}


def webbing(name: str) -> Webbing:
    """The webbing with the id `name`, such as "hmpe_25mm". Raises: ValueError listing the known ids."""
    known = webbings()
    return known[one_of("webbing", name, list(known))]


def _rows(path: Path | None) -> list[tuple[str, dict[str, str]]]:
    """Pairs of place, as words for a refusal, and row; every column there once, ids unique, no empty text."""
    file = DATA / "webbings.csv" if path is None else Path(path)
    if not file.is_file():
        raise FileNotFoundError(f"{file} is not there; the folder 'data' belongs beside the folder 'linelib'")
    try:
        with file.open(encoding="utf-8-sig", newline="") as lines:
            header, *table = [line for line in csv.reader(lines, strict=True) if line] or [[]]
    except (csv.Error, UnicodeDecodeError) as error:
        raise refuse(file.name, str(error), "comma-separated text in UTF-8") from error
    if set(header) != COLUMNS or len(header) != len(COLUMNS):
        wrong = sorted(COLUMNS.symmetric_difference(header)) or header
        raise refuse(f"{file.name}, columns", wrong, "each of these once: " + ", ".join(sorted(COLUMNS)))
    if not table:
        raise refuse(f"{file.name}, rows", 0, "at least one row under the header")
    rows: list[tuple[str, dict[str, str]]] = []
    for cells in table:
        place = f"{file.name}, row {cells[0].strip()}"
        if len(cells) != len(header):
            raise refuse(f"{place}, number of cells", len(cells), str(len(header)))
        row = dict(zip(header, (cell.strip() for cell in cells), strict=True))
        rows.append((f"{file.name}, row {row['id']}", row))
        _check_text(rows)
    return rows


def _check_text(rows: list[tuple[str, dict[str, str]]]) -> None:
    """Refuse the last row when a text in it is not possible."""
    place, row = rows[-1]
    if not re.fullmatch(r"[a-z][a-z0-9_]*", row["id"]):
        raise refuse(f"{place}, column id", row["id"], "small letters, digits and _, a letter first")
    if sum(row["id"] == other["id"] for _, other in rows) > 1:
        raise refuse(f"{place}, column id", row["id"], "an id no other row has")
    for column in ("name", "source"):
        if not row[column]:
            raise refuse(f"{place}, column {column}", row[column], "some words")
    for fibre in row["fibre"].split("+"):
        if fibre not in FIBRES:
            raise refuse(f"{place}, column fibre", row["fibre"], "joined by +, of " + ", ".join(FIBRES))


def _cell(row: dict[str, str], place: str, column: str, *, low: float, high: float, unit: str) -> float:
    """The number in one cell, or a refusal that names the cell."""
    name, text = f"{place}, column {column}", row[column]
    if not re.fullmatch(r"[-+]?(\d+\.?\d*|\.\d+)([eE][-+]?\d+)?", text):
        raise refuse(name, text, f"a number from {low:g} to {high:g} {unit}, with a point, not a comma")
    return number(name, float(text), low=low, high=high, unit=unit)


def _number(row: dict[str, str], place: str, column: str) -> float:
    low, high, unit = NUMBER_COLUMNS[column]
    return _cell(row, place, column, low=low, high=high, unit=unit)


def _strains(row: dict[str, str], place: str) -> tuple[float, ...]:
    """The filled strain cells [-]: from 0 up, rising, empty only at the end, none above the breaking strength."""
    strains: list[float] = []
    for i, (column, load) in enumerate(zip(STRAIN_COLUMNS, LOADS_KN, strict=True)):
        if i >= ALWAYS_FILLED and not any(row[later] for later in STRAIN_COLUMNS[i:]):
            break
        percent = _cell(row, place, column, low=0.0, high=100.0, unit="%")
        if load > _number(row, place, "breaking_strength_kN"):
            raise refuse(f"{place}, column {column}", percent, "an empty cell above the breaking strength")
        if (load == 0) != (percent == 0.0) or (strains and percent / 100.0 <= strains[-1]):
            raise refuse(f"{place}, column {column}", percent, "0 % at 0 kN, then more than in the column before")
        strains.append(round(percent / 100.0, 12))  # 0.116 for 11.6 %, not 0.11599999999999999
    return tuple(strains)


def _webbing(row: dict[str, str], place: str) -> Webbing:
    strain = _strains(row, place)
    return Webbing(
        name=row["name"],
        width=_number(row, place, "width_mm") / 1e3,
        mass_per_length=_number(row, place, "mass_g_per_m") / 1e3,
        breaking_strength=_number(row, place, "breaking_strength_kN") * 1e3,
        strain=strain,
        tension=tuple(1e3 * load for load in LOADS_KN[: len(strain)]),
        fast_ratio=_number(row, place, "fast_ratio"),
        relaxation_time=_number(row, place, "relaxation_time_s"),
        loss_time=_number(row, place, "loss_time_s"),
    )


def _note(row: dict[str, str], place: str) -> WebbingNote:
    return WebbingNote(
        fibres=tuple(row["fibre"].split("+")),
        source=row["source"],
        strain_uncertainty=_number(row, place, "strain_uncertainty_percent") / 100.0,
        strength_uncertainty=_number(row, place, "strength_uncertainty_percent") / 100.0,
        fast_ratio_uncertainty=_number(row, place, "fast_ratio_uncertainty_percent") / 100.0,
    )
