"""The line of lesson 13, described with values that nobody knows exactly: an invented line of 62 m, with its backup."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from linelib.rigging import Rig, Setup
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.ranges import Uniform
from linelib.webbing import Webbing

SPAN = 62.0  # m
FURTHER = {  # our choice; the webbing's row says 30 % of the stretch
    "stiffness": Uniform(low=0.8, high=1.2),
    "leash_stiffness": Uniform(low=10e3, high=30e3),
    "leash_damping": Uniform(low=100.0, high=500.0),
    "position": Uniform(low=0.4, high=0.6),
}


def unsure_setup(case: Mapping[str, object], *, table: Mapping[str, Webbing]) -> Setup:
    """The lesson rig of 62 m for one case.

    Parameters: case : mass [kg], leash_length, standing_height [m], pretension [N], position [-] as in `lesson_setup`;
    stiffness [-] : the main webbing's pull at every stretch over that of its row; leash_stiffness [N/m]; leash_damping [N s/m];
    what is missing stays as it is in the lesson. table : webbings by id.
    Returns: Setup.
    Raises: ValueError naming what is not possible.
    Source: an invented rig; the numbers are our choice.
    """
    given = dict(case)
    times = given.pop("stiffness", None)
    leash = {name: given.pop(f"leash_{name}") for name in ("stiffness", "damping") if f"leash_{name}" in given}
    setup = lesson_setup(length=SPAN, table=table, **given)  # type: ignore[arg-type]
    if times is not None:
        setup = replace(setup, rig=_stiffer(setup.rig, times))
    return replace(setup, leash=replace(setup.leash, **leash)) if leash else setup  # type: ignore[arg-type]


def _stiffer(rig: Rig, times: object) -> Rig:
    """The main webbing with `times` the pull at every stretch; the backup as it is."""
    (segment,) = rig.segments
    webbing = segment.webbing
    pulls = tuple(float(times) * t for t in webbing.tension or ())  # type: ignore[arg-type]
    return replace(rig, segments=(replace(segment, webbing=replace(webbing, tension=pulls)),))
