"""Setups over the whole range that falls are said to hold for, drawn by hypothesis."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
from hypothesis import strategies as st

from linelib import Leash, Rig, Segment, Setup, Walker, hang, webbings
from linelib.webbing import Webbing
from tests.setups import GRAVITY, straight

ROWS = tuple(webbings().values())
LOSSLESS = (straight(1e6, loss_time=0.0), straight(2e5, 0.065, loss_time=0.0), straight(6e4, 0.07, loss_time=0.0))
SPANS, STEEPEST = st.floats(10.0, 500.0), 0.3


@st.composite
def rigs(draw: Callable[..., Any], kinds: tuple[Webbing, ...] = ROWS) -> Rig:
    """10 to 500 m, height difference to 30 % of it, 1 to 5 segments; by pretension, or by lengths from 99 to 110 %."""
    span = draw(SPANS)
    rise = span * draw(st.floats(-STEEPEST, STEEPEST))
    chord = float(np.hypot(span, rise))
    chosen = draw(st.lists(st.sampled_from(kinds), min_size=1, max_size=5))
    parts = np.array(draw(st.lists(st.floats(0.1, 1.0), min_size=len(chosen), max_size=len(chosen))))
    lengths: list[float | None] = list(chord * parts / parts.sum())
    if draw(st.booleans()):
        slack = draw(st.floats(0.99, 1.1))
        segments = tuple(Segment(webbing=w, length=slack * x) for w, x in zip(chosen, lengths, strict=True) if x)
        return Rig(span=span, height_difference=rise, segments=segments)
    free = draw(st.integers(0, len(chosen) - 1))
    segments = tuple(
        Segment(webbing=w, length=None if i == free else 0.7 * (x or 0.0))
        for i, (w, x) in enumerate(zip(chosen, lengths, strict=True))
    )
    return Rig(span=span, height_difference=rise, segments=segments, pretension=draw(st.floats(800.0, 8e3)))


@st.composite
def setups(draw: Callable[..., Any]) -> Setup:
    """A walker of 40 to 130 kg anywhere on such a rig, leash 0.5 to 6 m; one lock in four slips in a harder fall."""
    rig, length = draw(rigs()), draw(st.floats(0.5, 6.0))
    walker = Walker(
        mass=draw(st.floats(40.0, 130.0)),
        standing_height=min(3.0, length) * draw(st.floats(0.0, 1.0)),
        position=draw(st.floats(0.02, 0.98)),
    )
    slips = draw(st.sampled_from([None, None, None, 1.3]))
    if slips is not None:
        standing = hang(rig=rig, load=(walker.mass + 0.4) * GRAVITY, position=walker.position).tension_a
        rig = replace(rig, slip_load_a=slips * standing)
    return Setup(rig=rig, leash=Leash(length=length), walker=walker)


@st.composite
def lossless(draw: Callable[..., Any]) -> Setup:
    """The same, with nothing that takes energy: straight laws, no dashpots, no air, locks that hold."""
    setup = draw(setups())
    rig = draw(rigs(LOSSLESS))
    return replace(setup, rig=rig, leash=replace(setup.leash, damping=0.0), air_density=0.0)
