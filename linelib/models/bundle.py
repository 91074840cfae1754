"""Strips are not equally strong: scattered strengths, and what a bundle of such strips holds."""

from __future__ import annotations

from math import gamma

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.optimize import brentq

from linelib.checks import number, refuse

Array = NDArray[np.float64]
GOLDEN = 0.5 * (5.0**0.5 - 1.0)


def weibull_shape(*, variation: float) -> float:
    """Weibull shape [-] of strengths whose standard deviation is `variation` [-] times their mean.

    variation^2 = Gamma(1 + 2/shape) / Gamma(1 + 1/shape)^2 - 1.
    Parameters: variation [-], 0.005 to 1. Returns: shape [-], 1 to about 250.
    Raises: ValueError when `variation` is out of range.
    Example: variation 1 is shape 1, the exponential distribution; 0.1 is about 12.2.
    Source: Weibull (1951), J. Appl. Mech. 18:293 (from memory).
    """
    number("variation", variation, low=0.005, high=1.0)
    return float(brentq(lambda k: gamma(1.0 + 2.0 / k) / gamma(1.0 + 1.0 / k) ** 2 - 1.0 - variation**2, 0.99, 400.0))


def weibull_strengths(*, shape: float, chance: ArrayLike) -> Array:
    """Strip strengths [-] over their mean, at given chances of being weaker: (-ln(1 - chance))^(1/shape) / Gamma(1 + 1/shape).

    Parameters: shape [-], 0.5 to 1000; chance [-], any shape, above 0 and below 1.
    Returns: strengths [-], shape of `chance`; mean 1 over all chances.
    Raises: ValueError when one is out of range.
    Example: shape 1, chance 1 - 1/e = 0.632: strength 1.
    Source: Weibull (1951), J. Appl. Mech. 18:293 (from memory).
    """
    number("shape", shape, low=0.5, high=1000.0)
    below = np.asarray(chance, float)
    if not np.all((below > 0.0) & (below < 1.0)):
        raise refuse("chance", chance, "numbers above 0 and below 1")
    return np.asarray((-np.log1p(-below)) ** (1.0 / shape) / gamma(1.0 + 1.0 / shape))


def bundle_strength(strengths: ArrayLike) -> Array:
    """What equally stretched strips hold together [-], over as many strips of strength 1: the best moment while they tear.

    max over k of x_k (n - k)/n, with x_0 <= x_1 <= ... the strengths: before strip k tears, n - k strips carry x_k each.
    Parameters: strengths [-], shape (..., n). Returns: [-], shape (...).
    Example: strengths 1 and 3: max(1, 3/2) = 1.5.
    Source: Daniels (1945), Proc. R. Soc. Lond. A 183:405.
    """
    x = np.sort(np.asarray(strengths, float), axis=-1)
    count = x.shape[-1]
    return np.asarray((x * np.arange(count, 0, -1) / count).max(axis=-1))


def scattered(*, count: int, variation: float) -> Array:
    """Strengths [-] of `count` strips across a width: evenly spread chances, mixed over the width, the same every time.

    The bundle of all of them, equally stretched, holds exactly 1: the breaking strength of a webbing is that of the whole.
    Parameters: count; variation [-] : standard deviation over mean; below 0.005 all are 1.
    Returns: strengths [-], shape (count,), over the strength each strip would have if all were equal.
    Raises: ValueError when `variation` is out of range.
    Source: Weibull (1951) for the strengths, Daniels (1945) for the bundle; mixed by steps of the golden ratio: our choice.
    """
    if number("variation", variation, low=0.0, high=1.0) < 0.005:
        return np.ones(count)
    chance = (np.argsort(np.argsort(np.arange(count) * GOLDEN % 1.0)) + 0.5) / count
    strengths = weibull_strengths(shape=weibull_shape(variation=variation), chance=chance)
    return np.asarray(strengths / bundle_strength(strengths))
