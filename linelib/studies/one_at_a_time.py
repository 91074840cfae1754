"""Which choice moves which number: one choice at a time, from low to high, everything else left as it is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from linelib.models.fall_in_time import falls
from linelib.rigging import Setup


@dataclass(frozen=True, kw_only=True)
class Effect:
    """One choice at its low and its high end: pairs of peaks at the anchors and on the person [N], lowest tie-in [m]."""

    name: str
    anchor: tuple[float, float]
    person: tuple[float, float]
    lowest_point: tuple[float, float]


def one_at_a_time(*, pairs: Mapping[str, tuple[Setup, Setup]]) -> list[Effect]:
    """Effects of all choices in one batch, the one that moves the anchor peak most first. `anchor` is the higher of A and B.

    Parameters: pairs : name of a choice -> the setups at its two ends.
    Returns: Effects, forces in [N], lengths in [m].
    Raises: ValueError when a fall cannot be computed.
    Source: models/fall_in_time.py.
    Leaves out: choices that act together; the order depends on how far each choice is moved.
    """
    found = falls(setups=[setup for pair in pairs.values() for setup in pair])
    high = [max(a, b) for a, b in zip(found.peak_tension_a, found.peak_tension_b, strict=True)]

    def both(values: object, i: int) -> tuple[float, float]:
        return float(values[2 * i]), float(values[2 * i + 1])  # type: ignore[index]

    effects = [
        Effect(
            name=name,
            anchor=both(high, i),
            person=both(found.peak_leash_force, i),
            lowest_point=both(found.lowest_point, i),
        )
        for i, name in enumerate(pairs)
    ]
    return sorted(effects, key=lambda e: -abs(e.anchor[1] - e.anchor[0]))


def effects_text(effects: list[Effect]) -> str:
    """The effects as a plain table."""
    rows = [f"{'from low to high':42}{'anchor [kN]':>15}{'person [kN]':>15}{'lowest tie-in [m]':>21}"]
    for e in effects:
        pairs = [f"{low:.1f} > {high:.1f}" for low, high in ([v / 1e3 for v in e.anchor], [v / 1e3 for v in e.person])]
        rows.append(f"{e.name:42}{pairs[0]:>15}{pairs[1]:>15}{f'{e.lowest_point[0]:.1f} > {e.lowest_point[1]:.1f}':>21}")
    return "\n".join(rows)
