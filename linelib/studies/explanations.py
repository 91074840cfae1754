"""An explanation: a name, words, parameters with ranges on an explicit grid, and the tearing sequence they lead to."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from linelib.checks import instance, number, refuse
from linelib.studies.tear_stages import Stages

Array = NDArray[np.float64]
MOST_CELLS = 20000


@dataclass(frozen=True, kw_only=True)
class Range:
    """A parameter nobody has measured: `name`, `words` and `unit` for the screen, `values` equally likely before the events.

    `factor` [-] : from SI to the unit of the screen.
    Raises: ValueError naming the argument, its value and what is allowed.
    """

    name: str
    words: str
    values: tuple[float, ...]
    unit: str = ""
    factor: float = 1.0

    def __post_init__(self) -> None:
        if not isinstance(self.values, tuple) or not self.values:
            raise refuse(f"values of {self.name}", self.values, "a tuple of at least one number")
        for i, value in enumerate(self.values):
            number(f"values[{i}] of {self.name}", value, low=-1e9, high=1e9)

    def shown(self, value: float) -> str:
        """One value in the unit [unit] of the screen."""
        return f"{value * self.factor:g} {self.unit}".rstrip()

    @property
    def ends(self) -> str:
        """From the least to the largest value, in words."""
        low, high = min(self.values), max(self.values)
        if low == high:
            return f"{self.words} {self.shown(low)}"
        return f"{self.words} {low * self.factor:g} to {self.shown(high)}"


@dataclass(frozen=True, kw_only=True)
class Explanation:
    """A rival: `name` (short), `words`, `ranges` of its parameters, and `sequence`: {name: values (cells,)} to Stages.

    The ranges are part of the explanation: with other ranges it is another one, and gets another weight.
    Raises: ValueError naming the argument, its value and what is allowed.
    """

    name: str
    words: str
    ranges: tuple[Range, ...]
    sequence: Callable[[Mapping[str, Array]], Stages]

    def __post_init__(self) -> None:
        cells = 1
        for one in self.ranges:
            instance("ranges", one, Range)
            cells *= len(one.values)
        if cells > MOST_CELLS:
            raise refuse("ranges", cells, f"at most {MOST_CELLS} combinations of values")

    @cached_property
    def grid(self) -> dict[str, Array]:
        """Every combination of the values, {name: (cells,)}, in SI units [SI]."""
        axes = np.meshgrid(*(np.array(one.values, float) for one in self.ranges), indexing="ij")
        return {one.name: axis.ravel() for one, axis in zip(self.ranges, axes, strict=True)}

    @cached_property
    def stages(self) -> Stages:
        """The tearing sequence of every cell of the grid; computed once.

        Raises: ValueError when `sequence` gives another number of rows than the grid has cells.
        """
        found, cells = self.sequence(self.grid), int(np.prod([len(one.values) for one in self.ranges]))
        instance(f"sequence of {self.name}", found, Stages)
        if len(found.load) != cells:
            raise refuse(f"rows of the sequence of {self.name}", len(found.load), f"{cells}, one a cell of the grid")
        return found

    def cell(self, index: int) -> str:
        """The values of one cell in words."""
        return ", ".join(f"{one.words} {one.shown(float(self.grid[one.name][index]))}" for one in self.ranges)
