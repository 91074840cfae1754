"""The panel of the lesson on rival explanations: which of them survive all that was seen, in its order."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from linelib.checks import number, refuse
from linelib.figures.kept_figure import HEIGHT, WIDTH
from linelib.figures.weighing_bars import Chance
from linelib.figures.weighing_figure import WeighingFigure
from linelib.figures.weighing_plots import Dot
from linelib.panels.controls import Value
from linelib.panels.panel import Panel
from linelib.panels.weighing_settings import LOADS, VISIBLE, Weighing, quarry_rivals, weighed_of, weighing_controls
from linelib.studies.events import NOISE, PARTED, QUIET, UNKNOWN
from linelib.studies.weighing_words import weighed_text

SHORT = {QUIET: "held", NOISE: "noise", PARTED: "parted", UNKNOWN: "?"}


class WeighingPanel(Panel):
    """Sliders, readings and picture of rivals weighed by an invented story; keyword arguments set the sliders.

    `loads` [N] : highest pull in the lock in falls 1 to 4, in their order.
    """

    refusal = "None of the explanations listed gives this story any chance: look for one that is not on the list."

    def __init__(self, *, loads: Sequence[float] = LOADS, **values: Value) -> None:
        if len(loads) != len(LOADS):
            raise refuse("loads", loads, f"{len(LOADS)} loads, one for each fall that held")
        self.loads = tuple(number(f"loads[{i}]", load, low=0.0, high=1e6, unit="N") for i, load in enumerate(loads))
        self.listed = quarry_rivals()
        self.guess: float | None = None
        self.figure = WeighingFigure([one.name for one in self.listed])
        super().__init__(controls=weighing_controls(), visible=VISIBLE, picture=self.figure, size=(WIDTH, HEIGHT))
        self.set(**values)

    def predict(self, percent: float) -> WeighingPanel:
        """Put a guess of the share of the width that carried [%] into the picture, as a hollow dot."""
        self.guess = number("percent", percent, low=0.0, high=100.0, unit="%")
        self.redraw()
        return self

    def readings(self, **values: Value) -> Weighing:
        """Readings for given slider values (the present ones where not given); nothing on the screen changes.

        Raises: ValueError naming what is not possible.
        """
        return weighed_of({**self.values, **values}, self.controls, self.listed, self.loads)

    def table(self) -> str:
        """Everything that went into the weighing as it is set now and came out of it, as text with its cautions."""
        return weighed_text(weighed=self.weighing.found)

    def idle(self) -> Collection[str]:
        """The load of a fall that was never made; the torn share on a card that nobody believes."""
        off = ("last",) if self.values["fifth"] != PARTED else ()
        return (*off, "torn") if self.values["card"] == "wrong card" else off

    def compute(self) -> None:
        """Weigh all rivals."""
        self.weighing = self.readings()

    def draw(self) -> Weighing:
        """Draw chances, the story and what carried."""
        found = self.weighing.found
        low, high = found.between(0.9)
        self.figure.draw(
            chances=[
                Chance(before=100.0 * one.prior, after=100.0 * one.posterior, sufficient=one.sufficient)
                for one in found.accounts
            ],
            dots=[Dot(load=one.load / 1e3, give=one.uncertainty / 1e3, word=SHORT[one.seen]) for one in found.story.events],
            carried=(100.0 * found.shares, found.carried),
            between=(100.0 * low, 100.0 * high),
            guess=self.guess,
        )
        return self.weighing
