"""What is known of an input when no single value is: a range, with what is more and what is less likely inside it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy import stats

from linelib.checks import number, refuse

Array = NDArray[np.float64]
Value = float | str
MOST, LEAST_INSIDE = 1e12, 1e-6  # share of a normal range that has to lie between its bounds


@dataclass(frozen=True, kw_only=True)
class Normal:
    """Near `mean`, two of three within one `sd`; nothing under `low` or over `high` where given. Units of the input."""

    mean: float
    sd: float
    low: float | None = None
    high: float | None = None

    def __post_init__(self) -> None:
        number("mean", self.mean, low=-MOST, high=MOST)
        number("sd", self.sd, low=1e-12, high=MOST)
        low, high = self._bounds()
        if not low < high:
            raise refuse("high", self.high, f"more than low = {self.low}")
        if stats.norm.cdf(high) - stats.norm.cdf(low) < LEAST_INSIDE:
            raise refuse("low, high", (self.low, self.high), f"bounds nearer to mean = {self.mean:g}, sd = {self.sd:g}")

    def at(self, probability: ArrayLike) -> Array:
        """Values below which the range lies with `probability` [-]. Raises: ValueError outside 0 to 1, ends excluded."""
        low, high = self._bounds()
        return np.asarray(stats.truncnorm.ppf(_inside(probability), low, high, loc=self.mean, scale=self.sd))

    @property
    def words(self) -> str:
        """The range in words."""
        ends = [f", at {side} {end:g}" for side, end in (("least", self.low), ("most", self.high)) if end is not None]
        return f"about {self.mean:g}, sd {self.sd:g}" + "".join(ends)

    def _bounds(self) -> tuple[float, float]:  # in standard deviations from the mean
        low = -np.inf if self.low is None else number("low", self.low, low=-MOST, high=MOST)
        high = np.inf if self.high is None else number("high", self.high, low=-MOST, high=MOST)
        return (low - self.mean) / self.sd, (high - self.mean) / self.sd


@dataclass(frozen=True, kw_only=True)
class Uniform:
    """From `low` to `high`, every value as likely as any other. Units of the input."""

    low: float
    high: float

    def __post_init__(self) -> None:
        _rising(self.low, self.high)

    def at(self, probability: ArrayLike) -> Array:
        """Values below which the range lies with `probability` [-]. Raises: ValueError outside 0 to 1, ends excluded."""
        return np.asarray(stats.uniform.ppf(_inside(probability), loc=self.low, scale=self.high - self.low))

    @property
    def words(self) -> str:
        """The range in words."""
        return f"{self.low:g} to {self.high:g}, equally likely"


@dataclass(frozen=True, kw_only=True)
class Triangular:
    """From `low` to `high`, likeliest at `mode`, falling off in straight lines to both ends. Units of the input."""

    low: float
    mode: float
    high: float

    def __post_init__(self) -> None:
        _rising(self.low, self.high)
        number("mode", self.mode, low=self.low, high=self.high)

    def at(self, probability: ArrayLike) -> Array:
        """Values below which the range lies with `probability` [-]. Raises: ValueError outside 0 to 1, ends excluded."""
        wide = self.high - self.low
        return np.asarray(stats.triang.ppf(_inside(probability), (self.mode - self.low) / wide, loc=self.low, scale=wide))

    @property
    def words(self) -> str:
        """The range in words."""
        return f"{self.low:g} to {self.high:g}, likeliest {self.mode:g}"


@dataclass(frozen=True, kw_only=True)
class OneOf:
    """One of a few `values`, numbers or words (such as materials); `weights` are shares once divided by their sum."""

    values: tuple[Value, ...]
    weights: tuple[float, ...] | None = None

    def __post_init__(self) -> None:
        if isinstance(self.values, str) or not hasattr(self.values, "__iter__") or len(tuple(self.values)) < 2:
            raise refuse("values", self.values, "at least two values")
        values = tuple(v if isinstance(v, str) else number("values", v, low=-MOST, high=MOST) for v in self.values)
        object.__setattr__(self, "values", values)
        if len(set(values)) < len(values):
            raise refuse("values", values, "each value once; give a weight to what is likelier")
        if (weights := self.weights) is not None:
            if isinstance(weights, str) or not hasattr(weights, "__iter__") or len(tuple(weights)) != len(values):
                raise refuse("weights", weights, f"as many as there are values, {len(values)}")
            object.__setattr__(self, "weights", tuple(number("weights", w, low=1e-9, high=MOST) for w in weights))

    @property
    def shares(self) -> Array:
        """How likely each value is [-]; they sum to 1."""
        weights = np.ones(len(self.values)) if self.weights is None else np.array(self.weights)
        return np.asarray(weights / weights.sum())

    def at(self, probability: ArrayLike) -> NDArray[np.object_]:
        """Values in their order, each over its share of `probability` [-]. Raises: ValueError outside 0 to 1, ends excluded."""
        until = np.cumsum(self.shares)[:-1]
        return np.array(self.values, dtype=object)[np.searchsorted(until, _inside(probability))]

    @property
    def words(self) -> str:
        """The range in words."""
        named = [v if isinstance(v, str) else f"{v:g}" for v in self.values]
        if self.weights is None:
            return f"{', '.join(named)}: equally likely"
        return ", ".join(f"{name} ({100 * share:.0f} %)" for name, share in zip(named, self.shares, strict=True))


Range = Normal | Uniform | Triangular | OneOf


def _rising(low: object, high: object) -> None:
    at = number("low", low, low=-MOST, high=MOST)
    if not number("high", high, low=-MOST, high=MOST) > at:
        raise refuse("high", high, f"more than low = {at:g}; one value is no range, give it as a number")


def _inside(probability: ArrayLike) -> Array:
    p = np.asarray(probability, float)
    if not np.all((p > 0.0) & (p < 1.0)):
        raise refuse("probability", probability, "numbers between 0 and 1, the ends excluded")
    return p
