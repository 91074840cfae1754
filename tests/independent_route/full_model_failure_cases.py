"""Setups whose main line parts, for the full model and for linelib, and what the full model gave for them.

Run as `python -m tests.independent_route.full_model_failure_cases` to compute full_model_failure_cases.json again: minutes.
Invented examples, computed, not measured.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from linelib import Backup, Failure, Leash, Rig, Segment, Setup, Walker, webbings
from tests.setups import HMPE, straight

from .full_model_failure import full_catch

FILE = Path(__file__).with_name("full_model_failure_cases.json")
POLYAMIDE = webbings()["polyamide_25mm"]
AFTER, RECOIL = 2.0, 0.25  # s followed after the failure; s in which the freed line shoots back and is looked at by itself
OLD = 0.05  # s in which the anchors still have the main line's tension: a wave crosses the line in about 0.02 s


def with_backup(
    *,
    span: float = 70.0,
    extra_length: float = 2.0,
    bay: int = 0,
    time: float = 0.99,
    position: float = 0.35,
    joints: tuple[float, ...] = (0.5,),
    **changes: Any,
) -> Setup:
    """80 kg on a line of stiffness 1e6 N, pretension 3 kN, backup of the same, and what differs."""
    soft = changes.get("soft", 0.0)
    insert = (Segment(webbing=straight(6e4, 0.07), length=soft),) if soft else ()
    backup = Backup(webbing=changes.get("backup", HMPE), joints=joints, extra_length=extra_length)
    rig = Rig(
        span=span,
        segments=(*insert, Segment(webbing=HMPE)),
        pretension=3e3,
        height_difference=changes.get("rise", 0.0),
        backup=backup,
    )
    failure = Failure(bay=bay, time=time)
    return Setup(rig=rig, leash=Leash(), walker=Walker(position=position), failure=failure)


# Near the peak: times at which the main line of linelib's fall comes to about 97 % of its peak.
CASES = {
    "70 m, 1 m extra": with_backup(extra_length=1.0),
    "70 m, 2 m extra": with_backup(),
    "70 m, 4 m extra": with_backup(extra_length=4.0),
    "70 m, before the catch": with_backup(time=0.5),
    "70 m, walker in another bay": with_backup(bay=1, time=1.01),
    "70 m, walker in another bay, before the catch": with_backup(bay=1, time=0.5),
    "70 m, middle of three bays": with_backup(joints=(0.2, 0.8), bay=1),
    "70 m, insert, uneven": with_backup(extra_length=3.0, joints=(0.55,), soft=5.0, rise=4.0, position=0.4, time=1.226),
    "40 m, 1 m extra": with_backup(span=40.0, extra_length=1.0, time=1.042),
    "40 m, insert at A, middle bay": with_backup(span=40.0, joints=(0.3, 0.7), bay=1, soft=5.0, position=0.5, time=1.118),
    "40 m, polyamide backup": with_backup(span=40.0, extra_length=1.5, backup=POLYAMIDE, time=1.014),
}
QUICK = "40 m, polyamide backup"  # the one that a test computes again


def computed(name: str) -> dict[str, float]:
    """What the full model gives for a case, elements of about 0.7 m: peaks once the freed line has shot back, [N], [m], [J]."""
    setup = CASES[name]
    failure = setup.failure
    assert failure is not None
    assert failure.time is not None
    when, elements = failure.time, round(setup.rig.span / 0.7)
    full = full_catch(setup=setup, time=when, duration=when + AFTER, elements=elements)
    after, late = full.time > when, full.time > when + RECOIL
    early = (full.time > when + OLD) & ~late
    leash, a, b = full.leash_force, full.tension_a, full.tension_b
    return {
        "lowest_point": round(full.lowest_point, 4),
        "catch_leash_force": round(float(leash[after].max()), 1),
        "catch_tension_a": round(float(a[late].max()), 1),
        "catch_tension_b": round(float(b[late].max()), 1),
        "recoil_a": round(float(a[early].max()), 1),
        "recoil_b": round(float(b[early].max()), 1),
        "given_up": round(full.given_up, 2),
        "energy_error": round(full.energy_error, 5),
    }


def stored() -> dict[str, dict[str, float]]:
    """The kept results, by name."""
    return dict(json.loads(FILE.read_text(encoding="utf-8")))


if __name__ == "__main__":
    FILE.write_text(json.dumps({name: computed(name) for name in CASES}, indent=1) + "\n", encoding="utf-8")
