"""What would have kept a limit, in plain sentences: each choice alone, and what each value costs."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from linelib.cautions import LIMITS, RETENSION
from linelib.studies.boundary import Boundary
from linelib.studies.costs import RESERVE
from linelib.studies.crossings import Crossings
from linelib.studies.keeping import Keeping, Kept
from linelib.studies.knobs import Knob
from linelib.studies.outcome_words import name_of, number_of, words_of
from linelib.studies.outcomes import ANCHOR_A, ANCHOR_B, DROP, PERSON

BLANK = f"No limit is entered, so nothing is looked for. {LIMITS}"
BOUNDS = (
    "Each value is what this choice alone would have needed in the model, everything else as rigged. It approves nothing. "
    "Slip, added sag and lower tension are not offered."
)
COSTS = (ANCHOR_A, ANCHOR_B, PERSON, DROP, RESERVE)


def keeping_text(found: Keeping) -> str:
    """Every choice on a line of its own, then the lists, then what is not offered."""
    now = words_of(found.outcome, found.now[found.outcome])
    head = f"{_capital(name_of(found.outcome))}, now {now}"
    if found.limit is None:
        return f"{head}. {BLANK}"
    lines = [f"{head}; your limit {words_of(found.outcome, found.limit)}."]
    lines += [kept_in_words(one, found) for one in found.kept]
    lines += [list_in_words(name, found) for name in found.listed]
    return "\n".join([*lines, BOUNDS])


def kept_in_words(one: Kept, found: Keeping) -> str:
    """One choice: the values that keep the limit and what they cost, or that no value of this alone does."""
    crossed, knob = one.crossings, one.knob
    if crossed is None or found.limit is None:
        return BLANK
    reach = f"from {_value(knob, knob.low)} to {_value(knob, knob.high)} {_unit(knob)}"
    known = crossed.outcome[np.isfinite(crossed.outcome)]
    if not len(known):
        return f"{knob.name}: no answer at all {reach}."
    ends = f"{number_of(found.outcome, float(known.min()))} to {words_of(found.outcome, float(known.max()))}"
    unknown = f" No answer {_ranges(knob, crossed.unknown)}, at least in part." if crossed.unknown else ""
    if crossed.never:
        words = f"no value of this alone does, searched {reach}: {ends}."
    elif not crossed.values and not crossed.jumps:
        words = f"every value does that has an answer, searched {reach}: {ends}."
    else:
        words = f"{_kept_at(knob, crossed)}, searched {reach}."
    prices = "".join(f" At {_value(knob, f.value)} {_unit(knob)}: {costs_in_words(f.outcomes, found)}." for f in one.found)
    return f"{knob.name}: {words}{prices}{unknown}{' ' + RETENSION if knob.name == 'pretension' else ''}"


def list_in_words(name: str, found: Keeping) -> str:
    """The entries of a list that keep the limit, a line each with what it costs; those without an answer are named."""
    entries = found.listed[name]
    if found.limit is None:
        return BLANK
    does = kept_entries(found, name)
    silent = [entry for entry, one in entries.items() if not one]
    said = [
        f"\n  {entry}, {words_of(found.outcome, one[found.outcome])}: {costs_in_words(one, found)}"
        for entry, one in does.items()
    ]
    words = "".join(said) if said else " no entry of this alone does."
    return f"{name}:{words}" + (f"\n  no answer: {', '.join(silent)}" if silent else "")


def costs_in_words(there: Mapping[str, float], found: Keeping) -> str:
    """What the other outcomes become, each with what it is now. A reserve under 0 says that the backup shares the load.

    `there` [N], [m], [-]. Example: person 2.8 kN (now 4.3), lowest tie-in 6.1 m (now 6.6). Source: definition.
    """
    parts = [
        f"{name} {words_of(name, there[name])} (now {number_of(name, found.now[name])})"
        for name in COSTS
        if name != found.outcome and name in there and name in found.now
    ]
    shares = "; the backup would share the load, which is left out" if there.get(RESERVE, 0.0) < 0.0 else ""
    return ", ".join(parts) + shares


def _kept_at(knob: Knob, crossed: Crossings) -> str:
    jumps = ", with a jump at " + ", ".join(_value(knob, v) for v in crossed.jumps) if crossed.jumps else ""
    return f"kept {_ranges(knob, crossed.within)}{jumps}"


def _ranges(knob: Knob, ranges: tuple[tuple[float, float], ...]) -> str:
    said = []
    for low, high in ranges:
        if low <= knob.low and high < knob.high:
            said.append(f"up to {_value(knob, high)} {_unit(knob)}")
        elif high >= knob.high and low > knob.low:
            said.append(f"from {_value(knob, low)} {_unit(knob)}")
        else:
            said.append(f"between {_value(knob, low)} and {_value(knob, high)} {_unit(knob)}")
    return " and ".join(said)


def _value(knob: Knob, value: float) -> str:
    """A value of a choice on the screen's scale."""
    if knob.unit == "N":
        return f"{value / 1e3:.2f}"
    return f"{value:.0f}" if knob.unit == "kg" else f"{value:.2f}"


def _unit(knob: Knob) -> str:
    return "kN" if knob.unit == "N" else knob.unit


def _capital(words: str) -> str:
    return words[0].upper() + words[1:]


def limit_in_words(found: Keeping) -> str:
    """The limit with its unit, or that it is blank."""
    return "no limit entered" if found.limit is None else f"your limit {words_of(found.outcome, found.limit)}"


def summary_in_words(found: Keeping) -> str:
    """Which choices alone keep the limit and which do not, in one sentence for under a picture."""
    if found.limit is None:
        return BLANK
    does = [one.knob.name for one in found.kept if one.crossings is not None and not one.crossings.never]
    does += [name for name in found.listed if kept_entries(found, name)]
    every = [*(one.knob.name for one in found.kept), *found.listed]
    others = [name for name in every if name not in does]
    first = f"Alone can keep your limit: {', '.join(does)}." if does else "No value of one choice alone keeps your limit."
    second = f" No value does of: {', '.join(others)}." if does and others else ""
    return f"{first}{second} Each is paid in the columns, and approves nothing. Slip, added sag, lower tension: not offered."


def kept_entries(found: Keeping, name: str) -> dict[str, Mapping[str, float]]:
    """The entries of a list that keep the limit, with their outcomes [N], [m], [-]. Source: definition."""
    if found.limit is None:
        return {}
    return {entry: one for entry, one in found.listed[name].items() if one and one[found.outcome] <= found.limit}


def pair_in_words(found: Keeping, both: Boundary | None, names: tuple[str, str]) -> str:
    """How much of a grid of two choices keeps the limit, in one sentence for under a picture."""
    if both is None:
        return BLANK
    known = both.outcome[np.isfinite(both.outcome)]
    kept = int((known <= both.limit).sum())
    share = "no pair" if not kept else "every pair" if kept == len(known) else f"{kept} of {len(known)} pairs"
    silent = both.outcome.size - len(known)
    none = f" Without an answer: {silent}." if silent else ""
    return (
        f"{names[0].capitalize()} with {names[1]}: {share} of the grid keep{'s' if kept in (0, len(known)) else ''} your limit "
        f"for {name_of(found.outcome)}.{none} What it costs: the curves at the left, for {names[0]} alone. It approves nothing."
    )
