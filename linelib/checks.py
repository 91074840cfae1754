"""Questions every argument has to answer before anything is computed with it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from numbers import Real


def refuse(name: str, value: object, allowed: str) -> ValueError:
    """The one sentence all refusals have: name, value, what is allowed."""
    return ValueError(f"{name} = {value!r} is not possible; allowed: {allowed}")


def number(name: str, value: object, *, low: float, high: float, unit: str = "") -> float:
    """Return `value` as a float when it is a finite number from `low` to `high`.

    Raises: ValueError naming the argument, its value and the allowed range, also for nan, text and truth values.
    """
    allowed = f"a number from {low:g} to {high:g} {unit}".rstrip()
    if isinstance(value, bool) or not isinstance(value, Real):
        raise refuse(name, value, allowed)
    plain = float(value)
    if not math.isfinite(plain) or not low <= plain <= high:
        raise refuse(name, plain, allowed)
    return plain


def rising(name: str, values: object, *, unit: str = "") -> tuple[float, ...]:
    """Return `values` as a tuple of at least two non-negative numbers, each larger than the one before it.

    Raises: ValueError naming the argument, its value and what is allowed.
    """
    allowed = f"at least two numbers from 0 up, each larger than the one before {unit}".rstrip()
    if isinstance(values, str) or not hasattr(values, "__iter__"):
        raise refuse(name, values, allowed)
    numbers = tuple(number(f"{name}[{i}]", v, low=0.0, high=1e12, unit=unit) for i, v in enumerate(values))
    if len(numbers) < 2 or any(b <= a for a, b in pairwise(numbers)):
        raise refuse(name, numbers, allowed)
    return numbers


def instance(name: str, value: object, kind: type) -> None:
    """Refuse anything that is not a `kind`."""
    if not isinstance(value, kind):
        raise refuse(name, value, f"a {kind.__name__}")


def one_of(name: str, value: object, choices: Sequence[str]) -> str:
    """Return `value` when it is one of `choices`; the refusal lists them."""
    if not isinstance(value, str) or value not in choices:
        raise refuse(name, value, "one of " + ", ".join(choices))
    return value
