"""The plain rig: straight laws and nothing hung under the line. To compare numbers by, not to walk on."""

from __future__ import annotations

from dataclasses import replace

from linelib.rigging import Leash, Rig, Segment, Setup, Walker
from linelib.webbing import Webbing

LINES = (1e6, 0.7e6)  # stiffness of low-stretch webbing [N]: our choice


def plain_setup(
    *,
    span: float = 100.0,
    insert_length: float = 0.0,
    insert_stiffness: float = 70e3,
    stiffness: float = LINES[0],
    pretension: float = 1e3,
    mass: float = 75.0,
) -> Setup:
    """A straight law of 0.05 kg/m, insert at A of 0.07 kg/m, nothing hung under it: to compare numbers by, not to walk on.

    Parameters: span, insert_length [m]; insert_stiffness, stiffness, pretension [N]; mass [kg].
    Returns: Setup.
    Source: invented; the numbers are our choice.
    """
    line = Webbing(name="straight law", stiffness=stiffness, mass_per_length=0.05, width=0.025, breaking_strength=35e3)
    segments = [Segment(webbing=line)]
    if insert_length > 0.0:
        soft = replace(line, name="soft insert", stiffness=insert_stiffness, mass_per_length=0.07)
        segments.insert(0, Segment(webbing=soft, length=insert_length))
    rig = Rig(span=span, segments=tuple(segments), pretension=pretension)
    return Setup(rig=rig, leash=Leash(), walker=Walker(mass=mass))
