"""From strips to what the picture of the lesson on seating needs: drawing, curves, other fibres."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from linelib.figures.lock_view import InLock
from linelib.models.seating import Seating
from linelib.models.strips import Strips
from linelib.panels.seating_settings import Case, Outcome
from linelib.studies.seated_strength import Seated, StrengthCurve, strength_curve
from linelib.webbing import Webbing

Array = NDArray[np.float64]
FIBRES = {"HMPE": "hmpe_25mm", "polyester": "polyester_25mm", "polyamide": "polyamide_25mm"}
POINTS, COARSE, FINE = 21, 11, 80


def in_lock(case: Case, one: Outcome) -> InLock:
    """What the drawing needs of the strips, across the width; where all tore the strips are shown as they lie."""
    seated, strips, now = case.seated, one.strips, one.now
    webbing, seating = seated.webbing, seated.seating
    count = len(strips.place)
    skew = Seated(webbing=webbing, seating=Seating(skew_angle=seating.skew_angle), sharing_length=seated.sharing_length)
    fold = replace(skew, seating=replace(seating, skew_angle=0.0, rolled_width=0.0))
    load, slack, torn = np.zeros(count), np.zeros(count), np.zeros(count, dtype=bool)
    load[strips.place] = strips.tensions(now.displacement, now.torn) / strips.breaks_at
    slack[strips.place] = np.maximum(strips.difference - now.displacement, 0.0)
    torn[strips.place[: now.torn]] = True
    return InLock(
        width=1e3 * webbing.width,
        jaw=1e3 * skew.difference,
        pleat=1e3 * fold.difference,
        rolled=1e3 * seating.rolled_width,
        slack=1e3 * slack,
        load=load,
        torn=torn,
        largest=1e3 * float(seated.difference.max()),
        pulls=(one.before.load / 1e3, one.now.load / 1e3),
    )


def curves_of(case: Case, outcomes: tuple[Outcome, ...], reach: float) -> tuple[StrengthCurve, ...]:
    """For the three sharing lengths the same seating, better and worse in proportion, up to `reach` [m] of the middle one."""
    middle = float(case.seated.difference.max())
    shares = np.unique(np.append(np.linspace(0.0, reach, POINTS), middle))
    found = []
    for seated, outcome in zip(case.range, outcomes, strict=True):
        scale = float(seated.difference.max()) / middle if middle > 0.0 else 1.0
        found.append(strength_curve(seated=seated, largest=list(scale * shares), strips=outcome.strips))
    return tuple(found)


def other_fibres(case: Case, table: Mapping[str, Webbing], reach: float) -> dict[str, StrengthCurve]:
    """Other fibres, seated the same."""
    keys = {name: table[key] for name, key in FIBRES.items() if table[key] != case.seated.webbing}
    largest = list(np.linspace(0.0, reach, COARSE))
    return {name: strength_curve(seated=_as(case.seated, web), largest=largest) for name, web in keys.items()}


def _as(seated: Seated, webbing: Webbing) -> Seated:
    """The same seating shape with another webbing of any width."""
    return replace(seated, webbing=replace(webbing, width=seated.webbing.width))


def loading_of(strips: Strips, torn: int) -> tuple[Array, Array]:
    """Displacement [mm] and pull [kN] while the end is drawn out, with every tear."""
    if torn >= len(strips.tears_at):
        return np.array([0.0, 1e3 * strips.tears_at[-1]]), np.zeros(2)
    start, tears = float(strips.difference[torn:].min()), strips.tears_at[torn:]
    u = np.unique(np.concatenate([[0.0], np.linspace(start, tears[-1], FINE), tears, tears + 1e-9]))
    return 1e3 * u, strips.loading(u, torn) / 1e3
