"""What is commonly said of falls against what the model gives. The model need not agree: the words are worked out from it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from scipy.optimize import brentq

from linelib.cautions import CAUTION, RETENSION
from linelib.checks import number, refuse
from linelib.models.standing import standing_of
from linelib.rigging import Setup
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.plain_rig import LINES, plain_setup
from linelib.studies.sayings import sayings
from linelib.studies.soft_insert import insert_band
from linelib.studies.witness import (
    HEAD,
    TELLS,
    UNKNOWN,
    Case,
    Witness,
    block,
    cases_of,
    lines,
    percent,
    trend,
    verdict,
    witness_of,
)

SPANS = (60.0, 80.0, 100.0, 300.0)  # [m], beside the lengths of the saying: our choice
PRETENSIONS = (300.0, 1e3, 3e3, 5e3)  # [N]: our choice
LENGTH = "Length does not replace the insert, the backup or good seating in the lock."


def plain_fall() -> Witness:
    """The plain leash fall on two stiffnesses of the line and on the lesson rig.

    Source: data/commonly_said.csv; models/fall_in_time.py.
    """
    saying, setups = sayings()["plain_fall"], {}
    span = saying.lengths[0]
    for pretension, mass in ((1e3, 75.0), (1e3, 80.0), (3e3, 80.0)):
        name = f"{pretension / 1e3:g} kN, {mass:g} kg"
        for stiffness in LINES:
            setup = plain_setup(span=span, stiffness=stiffness, pretension=pretension, mass=mass)
            setups[f"EA {stiffness / 1e3:g} kN", name] = setup
        setups["lesson rig", name] = lesson_setup(length=span, pretension=pretension, mass=mass)
    cases = cases_of(setups=setups)
    return witness_of(saying=saying, cases=cases, words=f"{verdict(saying=saying, cases=cases)} {UNKNOWN}")


def length_curve(*, sag_share: float | None = None, spans: Sequence[float] = SPANS) -> Witness:
    """The peak over the span at equal standing sag and at equal pretension, 80 kg.

    Parameters: sag_share [-] of the span, None: that of 100 m under 3 kN; spans [m], with those of the saying.
    Raises: ValueError as at_sag and length_words.
    Source: data/commonly_said.csv; models/fall_in_time.py.
    """
    saying = sayings()["long_enough"]
    spans = sorted({*spans, *saying.lengths})
    first = plain_setup(pretension=3e3, mass=80.0)
    share = float(standing_of([first]).sag[0]) / first.rig.span if sag_share is None else sag_share
    plain = {span: plain_setup(span=span, pretension=3e3, mass=80.0) for span in spans}
    setups = {("equal standing sag", f"{span:g} m"): at_sag(setup=setup, share=share) for span, setup in plain.items()}
    setups |= {("equal pretension", f"{span:g} m"): setup for span, setup in plain.items()}
    setups |= {("lesson rig, equal sag", f"{span:g} m"): at_sag(setup=lesson_setup(length=span), share=share) for span in spans}
    cases = cases_of(setups=setups)
    held = f"Standing sag {100.0 * share:.1f} % of the span, or 3 kN; 80 kg."
    words = f"{held} {length_words(lengths=saying.lengths, spans=spans, cases=cases)}"
    return witness_of(saying=saying, cases=cases, words=words)


def at_sag(*, setup: Setup, share: float) -> Setup:
    """The setup with the pretension solved at which its standing sag is `share` [-] of the span.

    Raises: ValueError when no pretension from 0.5 N a metre of span to 50 kN gives that sag.
    Source: models/standing.py.
    """

    def tensioned(pretension: float) -> Setup:
        return replace(setup, rig=replace(setup.rig, pretension=pretension))

    def miss(log: float) -> float:
        return float(standing_of([tensioned(float(np.exp(log)))]).sag[0]) / setup.rig.span - share

    low, high = float(np.log(0.5 * setup.rig.span)), float(np.log(5e4))
    number("share", share, low=share + miss(high), high=share + miss(low), unit="of the span")
    return tensioned(float(np.exp(brentq(miss, low, high, xtol=1e-4))))


def length_words(*, lengths: Sequence[float], spans: Sequence[float], cases: Sequence[Case]) -> str:
    """Whether the peak steps down within `lengths` [m]: what a doubling of the span takes off below, within, and above them.

    Parameters: lengths [m]: two of the `spans`; spans [m], rising, at least one on either side; cases, (spans,) a group.
    Returns: words.
    Raises: ValueError when spans do not reach beyond `lengths` on both sides.
    Source: 1 - 2 ** (slope of log peak over log span).
    """
    x, words = np.log(spans), []
    if lengths[0] not in spans[1:] or lengths[-1] not in spans[:-1]:
        raise refuse("spans", spans, f"{lengths[0]:g} and {lengths[-1]:g} m and at least one span on either side of them")
    first, last = spans.index(lengths[0]), spans.index(lengths[-1])
    for group in dict.fromkeys(case.group for case in cases):
        y = np.log([case.numbers[0] for case in cases if case.group == group])
        off = [
            1.0 - 2.0 ** float((y[b] - y[a]) / (x[b] - x[a])) for a, b in ((first - 1, first), (first, last), (last, last + 1))
        ]
        step = off[1] > max(off[0], off[2])
        found = "a step" if step else "no threshold, a smooth curve"
        words.append(f"{group} {percent(off[0])}, {percent(off[1])}, {percent(off[2])}: {found}")
    where = f"{lengths[0]:g} to {lengths[-1]:g} m"
    return f"A doubling of the span takes off the peak, below, within and above {where}: {'; '.join(words)}. {LENGTH}"


def retension(*, pretensions: Sequence[float] = PRETENSIONS, mass: float = 80.0) -> Witness:
    """The fall over the pretension, from a line that has lost it to a tight one.

    Parameters: pretensions [N], rising; mass [kg].
    Source: data/commonly_said.csv; models/fall_in_time.py.
    """
    setups = {("EA 1000 kN", f"{p / 1e3:g} kN"): plain_setup(pretension=p, mass=mass) for p in pretensions}
    setups |= {("lesson rig", f"{p / 1e3:g} kN"): lesson_setup(pretension=p, mass=mass) for p in pretensions}
    cases = cases_of(setups=setups)
    return witness_of(saying=sayings()["retension"], cases=cases, words=f"{retension_words(cases=cases)} {RETENSION}")


def retension_words(*, cases: Sequence[Case]) -> str:
    """Which of the four numbers go up and which go down along the cases of each group, and for which the saying holds.

    Source: witness.trend, with what the model can tell apart.
    """
    groups = list(dict.fromkeys(case.group for case in cases))
    ways: dict[str, list[str]] = {}
    for i, (name, tell) in enumerate(TELLS.items()):
        ways[name] = [trend([case.numbers[i] for case in cases if case.group == group], tell) for group in groups]
    moves = "; ".join(f"{name} {way[0] if len(set(way)) == 1 else ' / '.join(way)}" for name, way in ways.items())
    lower = [name for name, way in ways.items() if set(way) == {"down"}]
    higher = [name for name, way in ways.items() if set(way) == {"up"}]
    mixed = [name for name in ways if name not in (*lower, *higher)]
    return (
        f"From the loosest to the tightest line ({' / '.join(groups)}): {moves}. "
        f"So 'lowers' holds for: {', '.join(lower) or 'none'}; is the wrong way round for: {', '.join(higher) or 'none'}; "
        f"undecided for: {', '.join(mixed) or 'none'}."
    )


def table_text(*, witnesses: Sequence[Witness] = ()) -> str:
    """All witnesses, or those given, as one plain text at most 100 characters wide, forces in kN."""
    found = witnesses or (plain_fall(), insert_band(), length_curve(), retension())
    return "\n\n".join([lines(HEAD), *(block(witness=one) for one in found), lines(CAUTION)])
