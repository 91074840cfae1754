"""Does a soft insert do what is said of it? Compared with what, and how stiff is it when it is pulled fast?"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

import numpy as np
from scipy.optimize import brentq

from linelib.checks import number
from linelib.models.fall_in_time import falls
from linelib.models.standing import standing_of
from linelib.models.stretch import law_of
from linelib.rigging import Setup
from linelib.studies.held_equal import HELD, hold_equal
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.plain_rig import LINES, plain_setup
from linelib.studies.sayings import sayings
from linelib.studies.witness import UNKNOWN, Witness, cases_of, percent, verdict, witness_of
from linelib.tables import webbing_notes, webbings

INSERTS = (40e3, 70e3, 100e3, 150e3, 200e3)  # stiffness of an insert [N], from soft and slow to stiff and fast: our choice
SOFTEST, STIFFEST = 5e3, 5e6  # [N], between these a stiffness is looked for


def insert_band(
    *, lengths: Sequence[float] = (), stiffnesses: Sequence[float] = INSERTS, pretension: float = 1e3, mass: float = 75.0
) -> Witness:
    """A soft insert at A, its length times its stiffness as one batch: at equal pretension, and with other things held equal.

    Parameters: lengths [m], none: those of the saying; stiffnesses, pretension [N]; mass [kg].
    Source: data/commonly_said.csv; models/fall_in_time.py.
    """
    saying, needed, deepest = sayings()["soft_insert"], [], 0.0
    rigged = partial(plain_setup, pretension=pretension, mass=mass)
    setups: dict[tuple[str, str], Setup] = {}
    soft, middle = min(stiffnesses), sorted(stiffnesses)[len(stiffnesses) // 2]
    for length in lengths or saying.lengths:
        group = f"{length:g} m of insert"
        for stiffness in stiffnesses:
            setups[group, f"EA {stiffness / 1e3:g} kN"] = rigged(insert_length=length, insert_stiffness=stiffness)
        softer_line = rigged(insert_length=length, insert_stiffness=soft, stiffness=LINES[1])
        setups[group, f"EA {soft / 1e3:g} kN, line {LINES[1] / 1e3:g} kN"] = softer_line
        for held in HELD[1:]:
            second = rigged(insert_length=length, insert_stiffness=middle)
            other = hold_equal(firsts=[rigged()], seconds=[second], held=held)
            setups[group, f"EA {middle / 1e3:g} kN, {held} held"] = other[0]
            deepest = max(deepest, float(standing_of(other).sag[0]) / second.rig.span)
        setups[group, "lesson rig"] = lesson_setup(insert_length=length, pretension=pretension, mass=mass)
        needed.append(implied_words(peak=saying.peak, length=length, setup_at=partial(_with_insert, rigged, length)))
    cases = cases_of(setups=setups)
    words = (
        verdict(saying=saying, cases=cases),
        f"Held equal, unless said: {pretension / 1e3:g} kN of pretension, {mass:g} kg.",
        *needed,
        f"The deepest standing sag here is {percent(deepest)} of the span; above 10 % the model reads low at the anchors.",
        "A lower number is no reason to leave a line slack.",
        UNKNOWN,
    )
    return witness_of(saying=saying, cases=cases, words=" ".join(words))


def _with_insert(rigged: Callable[..., Setup], length: float, stiffness: float) -> Setup:
    return rigged(insert_length=length, insert_stiffness=stiffness)


def stiffness_implied(*, peak: float, setup_at: Callable[[float], Setup]) -> float:
    """The stiffness [N] at which the higher anchor's peak is `peak` [N]; `setup_at` describes the setup with a stiffness.

    Returns: stiffness [N], to about 0.1 %.
    Raises: ValueError when `peak` is outside what 5 to 5000 kN give.
    Source: Brent's root as in scipy.optimize.brentq, on models/fall_in_time.py.
    """

    def miss(log: float) -> float:
        found = falls(setups=[setup_at(float(np.exp(log)))])
        return float(max(found.peak_tension_a[0], found.peak_tension_b[0])) - peak

    low, high = float(np.log(SOFTEST)), float(np.log(STIFFEST))
    ends = miss(low), miss(high)
    number("peak", peak, low=peak + ends[0], high=peak + ends[1], unit="N, from such a stiffness")
    return float(np.exp(brentq(miss, low, high, xtol=1e-3)))


def implied_words(*, peak: float, length: float, setup_at: Callable[[float], Setup]) -> str:
    """Which insert the `peak` [N] asks for, beside the polyamide rows of data/webbings.csv pulled to that peak.

    Source: stiffness_implied; data/webbings.csv with its uncertainties.
    """
    try:
        stiffness = stiffness_implied(peak=peak, setup_at=setup_at)
    except ValueError as error:
        return f"For {peak / 1e3:.1f} kN no stiffness of {length:g} m was found: {error}."
    slow, fast = polyamide_stiffness(tension=peak)
    if stiffness < slow:
        match = "softer than any polyamide row, even in a slow pull"
    else:
        match = "a polyamide row in a slow pull, not in a fast one" if stiffness < fast else "a polyamide row in a fast pull"
    return (
        f"For {peak / 1e3:.1f} kN, {length:g} m would need EA {stiffness / 1e3:.0f} kN, stretched by "
        f"{percent(peak / stiffness)}: {match} (softest: {slow / 1e3:.0f} kN slow, {fast / 1e3:.0f} kN fast)."
    )


def polyamide_stiffness(*, tension: float) -> tuple[float, float]:
    """Softest polyamide row with its uncertainties: `tension` [N] over its strain, in a slow and in a fast pull [N].

    Source: data/webbings.csv.
    """
    notes, rows = webbing_notes(), webbings()
    slow, fast = [], []
    for name, note in notes.items():
        if note.fibres == ("polyamide",):
            slow.append(tension / float(law_of(rows[name]).strain(tension)) / (1.0 + note.strain_uncertainty))
            fast.append(slow[-1] * max(1.0, rows[name].fast_ratio * (1.0 - note.fast_ratio_uncertainty)))
    return min(slow), min(fast)
