"""Which choice drove it, in plain sentences, with the sums."""

from __future__ import annotations

from math import exp

import numpy as np

from linelib.studies.attribution import Attribution, Shares
from linelib.studies.outcome_words import name_of, number_of, unit, words_of
from linelib.studies.outcomes import ANCHOR_A, DROP, PERSON

BOUNDS = (
    "This is what the model says of these two rigs, pretension compared as it was set. Another reference gives other shares. "
    "It names choices, not people, and a minus alone is no remedy."
)


def change_in_words(shares: Shares) -> str:
    """From where to where, and each share, largest first, with the sum or the product.

    Example: Peak at A from 7.2 to 13.8 kN, +6.6: insert +4.3, tension -0.4; sum +3.9 kN.
    """
    order = np.argsort(-np.abs(shares.each), kind="stable")
    parts = ", ".join(f"{shares.names[i]} {one_share(shares, int(i))}" for i in order)
    if shares.place:
        ratio = exp(shares.end - shares.start)
        logs = " ".join(f"{shares.each[i]:+.3f}" for i in order)
        whole = f"product × {ratio:.2f} (logarithms {logs} = {shares.end - shares.start:+.3f})"
        return f"{_capital(name_of(shares.outcome))}, from {exp(shares.start):.2f} to {exp(shares.end):.2f}: {parts}; {whole}."
    start, end = number_of(shares.outcome, shares.start), words_of(shares.outcome, shares.end)
    whole = f"{number_of(shares.outcome, shares.end - shares.start, sign=True)} {unit(shares.outcome)}"
    return f"{_capital(shares.outcome)} from {start} to {end}: {parts}; sum {whole}."


def one_share(shares: Shares, i: int) -> str:
    """The share of choice `i`: what it adds, or at a place the factor it multiplies load over strength with."""
    if shares.place:
        return f"× {exp(shares.each[i]):.2f}"
    return number_of(shares.outcome, float(shares.each[i]), sign=True)


def drivers_in_words(*, demand: Shares, place: Shares) -> str:
    """Which choice drove the demand, which the load over the strength; and what the demand alone would have blamed."""
    if float(demand.each.max()) <= 0.0:
        first = f"No choice adds to the {demand.outcome}."
    else:
        of = f"{one_share(demand, demand.driver)} of {number_of(demand.outcome, demand.end - demand.start, sign=True)}"
        first = f"The {demand.outcome} was driven most by {demand.names[demand.driver]} ({of} {unit(demand.outcome)})."
    if float(place.each.max()) <= 0.0:
        return f"{first} No choice adds to the load over strength, {place.outcome}."
    ratio = exp(place.end - place.start)
    of = f"{one_share(place, place.driver)} of × {ratio:.2f}"
    second = f"Load over strength, {place.outcome}: most by {place.names[place.driver]} ({of})."
    if float(demand.each.max()) <= 0.0 or place.driver == demand.driver:
        return f"{first} {second}"
    share = float(demand.each[place.driver])
    blind = "cannot see it at all" if abs(share) < 1e-9 * abs(demand.end) else "hardly shows it" if share <= 0.0 else "hides it"
    return f"{first} {second} They differ: the {demand.outcome} alone {blind}."


def together_in_words(shares: Shares, most: int = 3) -> str:
    """The pairs that do most together beyond their single parts."""
    pairs = shares.pairs(most)
    if not pairs:
        return f"Hardly any two choices act together on {shares.outcome}."
    said = [f"{one} with {other} {_together(shares, value)}" for one, other, value in pairs]
    return f"Together, beyond their single parts: {'; '.join(said)}."


def price_in_words(found: Attribution, *, outcome: str, most: int = 10) -> str:
    """What the choices that take most off `outcome` cost the person and the drop; '' where none takes anything off."""
    shares, said = found.of(outcome), []
    order = [i for i in np.argsort(shares.each, kind="stable") if shares.each[i] < -1e-3 * max(abs(shares.end), 1e-9)]
    for i in order[:most]:
        others = (PERSON, DROP) if outcome not in (PERSON, DROP) else (ANCHOR_A, PERSON, DROP)
        costs = [found.of(name) for name in others if name != outcome]
        parts = [f"{of.outcome} {one_share(of, int(i))} {unit(of.outcome)}" for of in costs]
        less = f"{one_share(shares, int(i))} {unit(shares.outcome)}".rstrip()
        paid = "paid elsewhere" if any(of.each[i] > 0.0 for of in costs) else "and elsewhere"
        said.append(f"{shares.names[i]} {less}, {paid}: {', '.join(parts)}")
    return f"Less here: {'; '.join(said)}." if said else ""


def attribution_text(found: Attribution) -> str:
    """All shares as a plain table: a row a choice, a column an outcome, and the sums; places as natural logarithms."""
    every = list(found.shares.values())
    heads = [f"{s.outcome} [{'ln' if s.place else unit(s.outcome)}]" for s in every]
    names = every[0].names
    rows = [[_cell(s, float(s.each[i])) for s in every] for i in range(len(names))]
    rows.append([_cell(s, float(s.each.sum())) for s in every])
    rows += [[_cell(s, value, sign=False) for s, value in zip(every, values, strict=True)] for values in _ends(every)]
    wide = [max(len(head), 8) + 2 for head in heads]
    first = max(len(name) for name in (*names, "as rigged, all of it"))
    lines = [" " * first + "".join(f"{head:>{w}}" for head, w in zip(heads, wide, strict=True))]
    titles = (*names, "sum", "as planned", "as rigged")
    for title, cells in zip(titles, rows, strict=True):
        lines.append(f"{title:<{first}}" + "".join(f"{cell:>{w}}" for cell, w in zip(cells, wide, strict=True)))
    return "\n".join([*lines, BOUNDS])


def _ends(every: list[Shares]) -> tuple[list[float], list[float]]:
    return [s.start for s in every], [s.end for s in every]


def _cell(shares: Shares, value: float, *, sign: bool = True) -> str:
    if shares.place:
        return f"{round(value, 3) + 0.0:{'+' if sign else ''}.3f}"
    return number_of(shares.outcome, value, sign=sign)


def _together(shares: Shares, value: float) -> str:
    if shares.place:
        return f"× {exp(value):.2f}"
    return f"{number_of(shares.outcome, value, sign=True)} {unit(shares.outcome)}"


def _capital(words: str) -> str:
    return words[0].upper() + words[1:]
