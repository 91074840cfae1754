"""A weighing in words: which explanations survive, which do not suffice, and what none of it shows."""

from __future__ import annotations

from collections.abc import Sequence

from linelib.cautions import CAUTION, HELD
from linelib.studies.events import NOISE, Story
from linelib.studies.rival_explanations import GROUP, NONE
from linelib.studies.weighed import LEAST_FIT, TOLD_APART, Account, Weighed, bayes_factor, in_scale
from linelib.studies.witness import lines

AFTER = (
    "After the event only, and no reason for another fall. The first story that fits is not the cause. "
    f"The list is not complete: '{NONE}' is always possible and has no number here."
)

HOW = (
    "Bayes factors, over the best: under 3 not told apart, from 3 positive, from 20 strong, from 150 very strong (Kass "
    f"and Raftery 1995, from memory). Best fit: over a story that fitted in everything; under {LEAST_FIT:g} it is called not "
    "sufficient, our choice. Ranges: our choice; other ranges give other weights."
)


def rest_should_hold(*, story: Story, median: float) -> float | None:
    """What a sound rest should hold [N], if a tight part tore at the last noise before the line parted; None: no such story.

    A tight share q of sound webbing of strength S tears at L = q S, and the rest, longer by a step, holds (1 - q) S = S - L.
    Parameters: story; median [N], S. Returns: [N] or None, also when the line did not part or nothing would be left.
    Example: a quarter tears at 8 kN of 32: three quarters hold 24. Source: balance of forces, models/strips.py.
    """
    noises = [event.load for event in story.events if event.seen == NOISE]
    if not story.parted or not noises or noises[-1] >= median:
        return None
    return median - noises[-1]


def verdict(*, weighed: Weighed) -> str:
    """The best supported, and what is not told apart from it, by number in the order of the list.

    Returns: text. Source: studies/weighed.py; scale of Kass & Raftery (1995), from memory.
    """
    near = weighed.not_told_apart
    if not near:
        return f"None of the list is sufficient: look for '{NONE}'. The bars only share out among those listed."
    if len(near) > 1:
        return f"Not told apart: {_numbers(weighed, near)} (Bayes factors under {TOLD_APART:g})."
    others = [one for one in weighed.ranked if one is not near[0]]
    if not others:
        return "One explanation alone has no rival: nothing is weighed."
    factor, name = bayes_factor(near[0], others[0]), _numbers(weighed, near)
    if factor < TOLD_APART:
        other = _numbers(weighed, others[:1])
        return f"{name} alone is sufficient, but its Bayes factor over {other} is {factor:.1f}: look again."
    times = f"{factor:.0f}" if factor < 1000.0 else "over 1000"
    return f"Best supported: {name}; Bayes factor over the next {times}, '{in_scale(factor)}'."


def not_sufficient(*, weighed: Weighed) -> str:
    """Which explanations do not suffice, by number, and for the first story why, with its loads in [kN]; '' when all do.

    Returns: text. Source: studies/weighed.py.
    """
    if not weighed.insufficient:
        return "All of them could account for it somewhere in their range."
    words = f"Not sufficient: {_numbers(weighed, weighed.insufficient)}."
    rest = rest_should_hold(story=weighed.story, median=weighed.median)
    if rest is not None and GROUP in [one.name for one in weighed.insufficient]:
        last = weighed.story.events[-1].load
        if last < rest:
            words += f" A sound rest should hold about {rest / 1e3:.0f} kN; it parted near {last / 1e3:.1f}: "
            words += "something more was at work."
    return words


def said(*, weighed: Weighed) -> str:
    """The weighing in three short sentences, with the one that it never goes without.

    Returns: text, loads in [kN]. Source: studies/weighed.py.
    """
    last = f"'{NONE.capitalize()}' is always possible. After the event only: a held fall proves nothing about the next."
    if not weighed.story.parted:
        last += " Nothing here is a reason for another fall: stop, load off, look."
    second = f"{not_sufficient(weighed=weighed)} " if weighed.sufficient else ""
    return f"{verdict(weighed=weighed)} {second}{last}"


def weighed_text(*, weighed: Weighed) -> str:
    """Everything that went into a weighing and came out of it, with its cautions; loads in [kN], shares in [%].

    Returns: text, at most 100 characters wide. Source: studies/weighing.py.
    """
    rows = [*_story(weighed), "", "WHAT ACCOUNTS FOR IT"]
    rows.append(f"{'':32}{'prior':>8}{'posterior':>11}{'Bayes factor':>14}{'best fit':>10}")
    first = weighed.ranked[0]
    for i, one in enumerate(weighed.accounts, 1):
        behind = bayes_factor(first, one)
        factor = f"1/{behind:.{0 if behind > 9.95 else 1}f}" if behind < 9999.5 else "under 1/9999"
        mark = "" if one.sufficient else "  not sufficient"
        rows.append(
            f"{i} {one.name:30}{_percent(one.prior, 1):>8}{_percent(one.posterior, 1):>11}{factor:>14}{one.fit:10.3f}{mark}"
        )
    rows += [f"  {NONE:30}{'-':>8}{'-':>11}   always possible, no number", ""]
    rows += [
        lines(f"{i} ranges: " + "; ".join(r.ends for r in one.explanation.ranges)) for i, one in enumerate(weighed.accounts, 1)
    ]
    rows += ["", lines(verdict(weighed=weighed)), lines(not_sufficient(weighed=weighed)), _cell(first)]
    rows.append(lines(f"Share of the width that carried when last whole: {_between(weighed)}, among those listed. {HOW}"))
    return "\n".join([*rows, "", lines(AFTER), lines(HELD), lines(CAUTION)])


def _percent(share: float, digits: int = 0) -> str:
    return f"{100 * share:.{digits}f} %"


def _story(weighed: Weighed) -> list[str]:
    story, hearing, found = weighed.story, weighed.story.hearing, weighed.story.inspection
    rows = ["WHAT IS KNOWN, AND HOW WELL"]
    for i, one in enumerate(story.events, 1):
        rows.append(f"fall {i}: {one.load / 1e3:.1f} kN, give or take {one.uncertainty / 1e3:.1f}; {one.seen}")
    if found is not None:
        rows.append(
            f"torn after fall {found.after}: {_percent(found.torn)} of the width, give or take {_percent(found.uncertainty)}"
        )
        rows.append(f"chance that this card is right: {_percent(found.trust)}")
    heard = (
        f"A tear that holds is heard with a chance of {_percent(hearing.heard)}; a load that tears nothing makes such a noise "
    )
    sound = f"Sound webbing: {weighed.median / 1e3:.1f} kN, give or take {_percent(weighed.tolerance)}."
    rows.append(lines(f"{heard}with {_percent(hearing.stray)} (typical, no source). {sound}"))
    return rows


def _between(weighed: Weighed) -> str:
    low, high = weighed.between(0.9)
    return f"{100 * low:.0f} to {_percent(high)} with a chance of 90 %"


def _cell(one: Account) -> str:
    return lines(f"Where '{one.name}' fits best: {one.explanation.cell(one.cell)}.")


def _numbers(weighed: Weighed, chosen: Sequence[Account]) -> str:
    """'2, 3 and 5': places in the list."""
    places = [str(i) for i, one in enumerate(weighed.accounts, 1) if one in chosen]
    return " and ".join([", ".join(places[:-1]), places[-1]]) if len(places) > 1 else places[0]
