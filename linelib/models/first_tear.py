"""The moment before the first strip of badly seated webbing tears."""

from __future__ import annotations

from dataclasses import dataclass

from linelib.models.strips import Strips


@dataclass(frozen=True, kw_only=True)
class FirstTear:
    """The moment before the first strip tears: `pull` [N], `displacement` [m], `carrying_share` [-] of the width."""

    pull: float
    displacement: float
    carrying_share: float


def first_tear(*, strips: Strips) -> FirstTear:
    """When the first strip tears, and which share of the width carries anything at that moment.

    Straight law, e from 0 to e_max: carrying share 1/r for r = e_max/(breaking strain * l) >= 1, else all.
    Returns: FirstTear; pull in [N], displacement in [m], share [-].
    Source: models/strips.py.
    """
    at = float(strips.tears_at[0])
    return FirstTear(
        pull=float(strips.peak_pull[0]),
        displacement=at,
        carrying_share=float((strips.difference < at).mean()),
    )
