"""How strong the sound webbing was, as well as anybody knows: a lognormal spread on a grid."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.checks import number

Array = NDArray[np.float64]
NODES = np.linspace(-3.0, 3.0, 25)  # in tolerances; weights normal


@dataclass(frozen=True, kw_only=True)
class Strength:
    """Strength of the sound webbing: `median` [N], and its `tolerance` [-], the standard deviation of its logarithm.

    Raises: ValueError naming the argument, its value and what is allowed.
    """

    median: float
    tolerance: float

    def __post_init__(self) -> None:
        number("median", self.median, low=100.0, high=1e6, unit="N")
        number("tolerance", self.tolerance, low=0.0, high=0.5)

    @property
    def nodes(self) -> tuple[Array, Array]:
        """Strengths [N] and their weights [-], shapes (nodes,); one node when the tolerance is 0."""
        z = NODES if self.tolerance > 0.0 else np.zeros(1)
        weight = np.exp(-0.5 * z * z)
        return self.median * np.exp(self.tolerance * z), weight / weight.sum()
