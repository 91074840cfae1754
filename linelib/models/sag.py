"""Sag: where a line hangs, alone or with walkers on it, and how hard it pulls at its anchors."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from linelib.checks import instance, number, refuse
from linelib.models.hanging_line import NODES, WEIGHTS, Pieces, land, solve_pull
from linelib.models.lines import divide, lines_of, place_on_line
from linelib.models.shape import Shape, shape_of
from linelib.rigging import Rig

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class State:
    """A line at rest.

    sag [m] below the straight line between the anchors, at the load (the heaviest, if there are several)
    tension_a, tension_b, horizontal [N]; angle_a, angle_b [rad], positive when the line leaves the anchor downward
    load_x, load_z [m] : where the loads hang, from A, z up, (loads,); sags [m] : under each of them
    natural_lengths, stretches [m] and tensions [N] : of each segment, from A to B, (segments,); tension at its middle
    shape : Shape
    """

    sag: float
    tension_a: float
    tension_b: float
    horizontal: float
    angle_a: float
    angle_b: float
    load_x: Array
    load_z: Array
    sags: Array
    natural_lengths: Array
    stretches: Array
    tensions: Array
    shape: Shape


def hang(*, rig: Rig, load: ArrayLike = 0.0, position: ArrayLike = 0.5) -> State:
    """The exact elastic hanging line under any number of point loads.

    Parameters
    ----------
    rig : Rig; taut or slack, anchors at different heights, any number of segments, hung mass included
    load [N] : all that is put on the line, a number or several, 0 or more
    position : where, x / span in the line hanging alone (the load stays with that piece of webbing); as many as loads

    Returns: State.
    Valid: quasi-static, slow law, no bending stiffness; the hung mass is spread evenly over the natural length.
    Raises: ValueError naming the argument, its value and what is allowed; also for a length that cannot hold the span.
    Example: 100 m, 800 N at midspan, sag 2.5 m: the weightless V pulls 800 * 100 / (4 * 2.5) = 8 kN horizontally.
    Leaves out: wind, a ring that slides along the line.
    Source: Irvine (1981), Cable Structures; checked against cases A1, A2, A6 in tests/published/.
    """
    instance("rig", rig, Rig)
    loads, places = _numbers("load", load, 0.0, 1e9, "N"), _numbers("position", position, 0.001, 0.999, "of the span")
    if len(loads) != len(places):
        raise refuse("position", places.tolist(), f"as many positions as loads, {len(loads)}")
    lines = lines_of([rig])
    at = np.array([place_on_line(lines, np.array([p]))[0] for p in places])
    pieces, hung_at = divide(lines.pieces, at[:, None], loads[:, None])
    h, v = solve_pull(pieces, span=lines.span, rise=lines.rise)
    landing = land(pieces, h, v)
    load_x, load_z = landing.x[hung_at[:, 0], 0], -landing.y[hung_at[:, 0], 0]
    sags = rig.height_difference * load_x / rig.span - load_z
    natural = lines.pieces.length[: len(rig.segments), 0]
    stretches, tensions = _segments(pieces, landing.start, landing.end, h, natural)
    return State(
        sag=float(sags[int(np.argmax(loads))]),
        tension_a=float(np.hypot(h, v)[0]),
        tension_b=float(np.hypot(h, landing.end[-1])[0]),
        horizontal=float(h[0]),
        angle_a=float(np.arctan2(v, h)[0]),
        angle_b=float(np.arctan2(-landing.end[-1], h)[0]),
        load_x=load_x,
        load_z=load_z,
        sags=sags,
        natural_lengths=natural,
        stretches=stretches,
        tensions=tensions,
        shape=shape_of(pieces, h, v),
    )


def shape_alone(*, rig: Rig) -> Shape:
    """Where the line hangs with nobody on it, and nothing else: less work than `hang`.

    Returns: Shape, lengths in [m]. Raises: ValueError as `hang`. Source: as `hang`.
    """
    lines = lines_of([rig])
    return shape_of(lines.pieces, lines.horizontal, lines.vertical)


def _numbers(name: str, value: ArrayLike, low: float, high: float, unit: str) -> Array:
    if isinstance(value, str) or not hasattr(value, "__iter__"):
        return np.array([number(name, value, low=low, high=high, unit=unit)])
    found = [number(f"{name}[{i}]", v, low=low, high=high, unit=unit) for i, v in enumerate(value)]  # type: ignore[arg-type]
    if not found:
        raise refuse(name, value, "at least one number")
    return np.array(found)


def _segments(pieces: Pieces, start: Array, end: Array, h: Array, natural: Array) -> tuple[Array, Array]:
    """Stretch and middle tension of each described segment, summed over the pieces it was divided into."""
    middle = np.hypot(h, 0.5 * (start + end))
    inside = np.hypot(h, start - (start - end) * NODES)
    parts = pieces.length * (pieces.table.strain(pieces.law, inside)[0] * WEIGHTS).sum(0)
    centre = np.cumsum(pieces.length, axis=0) - 0.5 * pieces.length
    owner = np.minimum(np.searchsorted(np.cumsum(natural), centre[:, 0]), len(natural) - 1)
    stretches = np.bincount(owner, weights=parts[:, 0], minlength=len(natural))
    weights = np.maximum(pieces.length[:, 0], 1e-12)
    tensions = np.bincount(owner, weights=weights * middle[:, 0], minlength=len(natural))
    mean = tensions / np.bincount(owner, weights=weights, minlength=len(natural))
    return np.asarray(stretches, float), np.asarray(mean, float)
