"""The picture of the lesson on rival explanations: their chances, the story they have to account for, and what carried."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from linelib.figures.kept_figure import KeptFigure
from linelib.figures.weighing_bars import Chance, WeighingBars
from linelib.figures.weighing_plots import CarriedPlot, Dot, EventStrip

Array = NDArray[np.float64]


class WeighingFigure(KeptFigure):
    """Kept picture; `names` of the explanations, in their order."""

    def __init__(self, names: Sequence[str], paper: str = "light") -> None:
        super().__init__(paper=paper)
        self.bars = WeighingBars(self.canvas, (10, 42, 440, 352), names)
        self.strip = EventStrip(self.canvas, (500, 232, 280, 142))
        self.carried = CarriedPlot(self.canvas, (500, 42, 280, 124))
        self.use({"all": (self.bars.axes, self.strip.axes, self.carried.axes)})

    def draw(
        self,
        *,
        chances: Sequence[Chance],
        dots: Sequence[Dot],
        carried: tuple[Array, Array],
        between: tuple[float, float],
        guess: float | None,
    ) -> None:
        """Set a Chance for each name, the loads, chances over the shares that carried [%], their range and a guess [%]."""
        self.back()
        self.bars.show(chances)
        self.strip.show(dots)
        self.carried.show(shares=carried[0], chances=carried[1], between=between, guess=guess)
