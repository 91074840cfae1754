"""The branch of the case that did not happen: the coach falls once more on what was left, and the backup's catch."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from linelib.models.fall_results import Fall
from linelib.studies.case_story import Morning, fall_on, strips_at_lock
from linelib.studies.falls_in_a_row import longer


def gone_on(*, told: Morning, strengths: Sequence[float] = (1.0,), leash: float | None = None) -> tuple[Fall, ...]:
    """The fall that was never made: the coach again, on what was left in the lock, for strengths [-] nobody could know.

    Parameters: told : of `morning`; strengths [-] : of the remaining strips, times what is printed; leash [m], None: as before.
    Returns: Falls; where the line parts, the backup's catch is in them. Forces in [N], lengths in [m].
    Raises: ValueError as strips_at_lock and fall.
    Source: an invented story; models/torn_in_fall.py, models/failure.py.
    """
    last = told.falls[-1]
    torn = round(last.torn * len(told.strips.tears_at))
    setup = replace(last.setup, rig=longer(rig=last.setup.rig, paid_out=last.fall.slip_b))
    if leash is not None:
        setup = replace(setup, leash=replace(setup.leash, length=leash))
    return tuple(fall_on(strips=strips_at_lock(strength=k), setup=setup, torn=torn) for k in strengths)


def gone_on_text(*, told: Morning, strengths: Sequence[float] = (0.9, 0.95, 1.0, 1.05), leash: float | None = None) -> str:
    """A table of `gone_on`: the load in the lock, and where the line parts the catch: the person, anchors, lowest tie-in.

    Parameters: told, strengths, leash : as in `gone_on`. Returns: text; forces in [kN], depths in [m].
    Raises: ValueError as gone_on.
    Source: models/failure.py.
    """
    rows = ["strength left, times    load in the lock    the line    person    anchors, catch    lowest tie-in"]
    for k, one in zip(strengths, gone_on(told=told, strengths=strengths, leash=leash), strict=True):
        parted = one.failure_time >= 0.0
        person = one.catch_leash_force if parted else one.peak_leash_force
        anchors = f"{max(one.catch_tension_a, one.catch_tension_b) / 1e3:.1f} kN" if parted else "-"
        rows.append(
            f"{k:14.2f}{one.peak_tension_b / 1e3:20.1f} kN{'parts' if parted else 'holds':>15}"
            f"{person / 1e3:8.1f} kN{anchors:>18}{one.lowest_point:15.1f} m"
        )
    return "\n".join(
        [*rows, "Where it parts, person and anchors are those of the backup's catch; no upper bound: recoil is left out."]
    )
