"""Clearance left: what remains between a caught person and the ground."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from linelib.checks import number, refuse

BODY_BELOW = 1.0  # [m] body below the harness tie-in: common practice, no source
LEAST_MODEL_ALLOWANCE = 0.5  # [m] our choice
MODEL_SHARE = 0.05  # of the lowest point: our choice
ROUNDING = 1e-9  # [m] so that a wall exactly at the end of the reach counts


@dataclass(frozen=True, kw_only=True)
class Clearance:
    """What is left, and what was taken off to get there.

    Attributes
    ----------
    clearance [m] : what is left; 0 or less means that the person reaches the ground
    tie_in_height [m] : lowest harness tie-in, positive above anchor A
    ground_height [m] : highest ground within `reach` of the place, positive above anchor A
    body_below, model_allowance, reach [m] : what was taken off, and how far to both sides the ground was looked at
    """

    clearance: float
    tie_in_height: float
    ground_height: float
    body_below: float
    model_allowance: float
    reach: float

    @property
    def words(self) -> str:
        """What was subtracted and what is left, in plain English."""
        above = self.tie_in_height - self.ground_height
        where = f"{abs(above):.2f} m {'above' if above >= 0.0 else 'below'} the highest ground"
        if self.clearance > 0.0:
            left = f"{self.clearance:.2f} m is left."
        else:
            left = f"Less than nothing left ({abs(self.clearance):.2f} m short): the person reaches the ground."
        return (
            f"The lowest tie-in is {where} within {self.reach:g} m of the place. "
            f"Taken off: {self.body_below:.2f} m of body below the tie-in (1 m is common practice, no source) and "
            f"{self.model_allowance:.2f} m for the error of the model (a choice: ours, if you entered none). {left} "
            "The clearance that counts is taken for the catch by the backup."
        )


def clearance_left(
    *,
    lowest_point: float,
    position: float,
    span: float,
    height_difference: float,
    ground: Sequence[Sequence[float]],
    body_below: float = BODY_BELOW,
    model_allowance: float | None = None,
    reach: float = 1.0,
) -> Clearance:
    """What is left between the person at the lowest point of a fall and the highest ground near that place.

    clearance = position * height_difference - lowest_point - ground - body_below - model_allowance

    Parameters
    ----------
    lowest_point [m] : lowest tie-in below the straight line between the anchors, positive down, as `fall` returns it;
        take it from the catch by the backup
    position [-] : place of the fall, x = position * span, from 0 at anchor A to 1 at anchor B
    span [m], height_difference [m] : as in Rig, anchor B above anchor A
    ground : pairs (x, z) [m], from A towards B: distance from anchor A, and height above anchor A, positive up, so a
        valley is negative. Straight in between; two pairs at one x are a wall. It must cover the place and `reach`
        to both sides of it, as far as there is line
    body_below [m] : body below the tie-in; 1 m is common practice, no source
    model_allowance [m] : for the error of the model, yours to enter; None: 0.5 m or 5 % of the lowest point, whichever
        is larger, which is our choice and no proof
    reach [m] : how far to both sides the ground is looked at; the highest there counts. 1 m is our choice

    Returns
    -------
    Clearance [m], and `words`.

    Raises: ValueError naming the argument, its value and what is allowed.
    Example: lowest point 7 m, level anchors, ground 20 m down, 1 m of body, 0.5 m for the model: 11.5 m is left.
    Leaves out: a swing to the side, a pull along the line further than `reach`, trees and people below.
    Source: a sum of heights; the allowances are sourced beside their values above.
    """
    number("span", span, low=0.1, high=5000.0, unit="m")
    number("lowest_point", lowest_point, low=-10.0, high=1e4, unit="m")
    number("position", position, low=0.0, high=1.0, unit="of the span (0 is anchor A, 1 is anchor B)")
    number("height_difference", height_difference, low=-2.0 * span, high=2.0 * span, unit="m")
    number("body_below", body_below, low=0.0, high=5.0, unit="m")
    number("reach", reach, low=0.0, high=100.0, unit="m")
    if model_allowance is None:
        model_allowance = max(LEAST_MODEL_ALLOWANCE, MODEL_SHARE * lowest_point)
    number("model_allowance", model_allowance, low=0.0, high=1e3, unit="m")
    tie_in = position * height_difference - lowest_point
    ground_height = _highest_ground(ground, position * span, reach, span)
    return Clearance(
        clearance=tie_in - ground_height - body_below - model_allowance,
        tie_in_height=tie_in,
        ground_height=ground_height,
        body_below=float(body_below),
        model_allowance=float(model_allowance),
        reach=float(reach),
    )


def _highest_ground(ground: Sequence[Sequence[float]], place: float, reach: float, span: float) -> float:
    """Highest ground [m] within `reach` of `place` [m]; refuse a profile that does not cover what is needed of it."""
    x, z = _profile(ground)
    left, right = place - reach - ROUNDING, place + reach + ROUNDING
    if x[0] > max(left, 0.0) + 2.0 * ROUNDING or x[-1] < min(right, span) - 2.0 * ROUNDING:
        allowed = f"a profile that covers x from {max(left, 0.0):g} to {min(right, span):g} m"
        raise refuse("ground", f"from {x[0]:g} to {x[-1]:g} m", allowed)
    left, right = max(left, float(x[0])), min(right, float(x[-1]))
    ends = np.interp([left, right], x, z)
    return float(max(ends.max(), z[(x >= left) & (x <= right)].max(initial=-np.inf)))


def _profile(ground: Sequence[Sequence[float]]) -> tuple[np.ndarray, np.ndarray]:
    """The columns x and z of the profile, checked."""
    allowed = "at least two pairs (x, z) in m, from anchor A towards anchor B"
    if isinstance(ground, str) or not hasattr(ground, "__iter__"):
        raise refuse("ground", ground, allowed)
    pairs: list[tuple[Any, ...]] = [tuple(pair) if hasattr(pair, "__iter__") else (pair,) for pair in ground]
    if len(pairs) < 2 or any(len(pair) != 2 for pair in pairs):
        raise refuse("ground", pairs, allowed)
    x = np.array([number(f"ground[{i}][0]", p[0], low=-1e4, high=1e4, unit="m") for i, p in enumerate(pairs)])
    z = np.array([number(f"ground[{i}][1]", p[1], low=-1e4, high=1e4, unit="m") for i, p in enumerate(pairs)])
    if np.any(np.diff(x) < 0.0) or x[0] == x[-1]:
        raise refuse("ground", pairs, allowed)
    return x, z
