"""The panel of the lesson on how sure we are: a fall whose inputs are ranges, and which unknown matters most."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import ipywidgets

from linelib.checks import number, one_of, refuse
from linelib.figures.how_sure_figure import VIEWS, HowSureFigure
from linelib.figures.kept_figure import HEIGHT, WIDTH
from linelib.figures.quantile_dots import Dots
from linelib.figures.ranking_bars import Row
from linelib.panels.controls import Value
from linelib.panels.how_sure_settings import (
    AXES,
    BEYOND,
    NONE,
    UNITS,
    VISIBLE,
    how_sure_controls,
    inputs_of,
    middles_of,
    range_words,
)
from linelib.panels.how_sure_words import SHORT, Readings, rounded
from linelib.panels.panel import Panel
from linelib.rigging import Setup
from linelib.studies.draws import Given
from linelib.studies.how_sure import HowSure, how_sure
from linelib.studies.lesson_unsure import SPAN, unsure_setup
from linelib.studies.many_cases import compute_cases
from linelib.studies.share_above import percent_interval
from linelib.studies.what_matters import Matters, WhatMatters, what_matters
from linelib.tables import webbings

CASES, ROWS = 256, 256
MOVED = "The ranges have moved since they were ranked: press 'rank the unknowns'."


class HowSurePanel(Panel):
    """Sliders, readings and picture of a fall over ranges; keyword arguments set the sliders (screen units)."""

    refusal = "Nothing can be said of this fall."

    def __init__(self, **values: Value) -> None:
        self.table = webbings()
        self.guess: float | None = None
        self._cases: tuple[dict[str, Given], HowSure, dict[str, float]] | None = None
        self._ranked: tuple[dict[str, Given], WhatMatters | None, str] | None = None
        self.figure = HowSureFigure()
        super().__init__(controls=how_sure_controls(), visible=VISIBLE, picture=self.figure, size=(WIDTH, HEIGHT))
        self.view = ipywidgets.ToggleButtons(options=VIEWS, layout={"width": "auto", "margin": "2px 0"})
        self.button = ipywidgets.Button(description="rank the unknowns", layout={"width": "160px"})
        self.bar = ipywidgets.IntProgress(value=0, min=0, max=1, layout={"width": "100px", "visibility": "hidden"})
        self.frame.extra.children = (self.view, ipywidgets.HBox([self.button, self.bar]))
        self.view.observe(lambda _: self._switched(), "value")
        self.button.on_click(lambda _: self.look_at(VIEWS[1]).rank())
        self.set(**values)

    def look_at(self, view: str) -> HowSurePanel:
        """Choose 'how high' or 'what matters most'; the unknowns are ranked when that is first looked at."""
        self.view.value = one_of("view", view, VIEWS)
        return self

    def predict(self, kilonewton: float) -> HowSurePanel:
        """Put a guess of the peak at the higher anchor into the picture, as a hollow dot."""
        self.guess = number("kilonewton", kilonewton, low=0.0, high=200.0, unit="kN")
        self.redraw()
        return self

    def rank(self) -> HowSurePanel:
        """Rank the unknowns as the ranges are now, with a progress bar. Interrupted, everything of it is dropped."""
        with self.one_at_a_time:
            inputs = inputs_of(self.values, self.controls)
            self.bar.value = 0
            self.bar.layout.visibility, self.button.disabled = "visible", True
            try:
                found, reason = what_matters(inputs=inputs, setup_at=self._setup, count=ROWS, progress=self._tick), ""
            except ValueError as error:
                found, reason = None, f"No ranking: {rounded(str(error))}"
            finally:
                self.bar.layout.visibility, self.button.disabled = "hidden", False
            self._ranked = (inputs, found, reason)
            self.redraw()
        return self

    def ranking(self, outcome: str) -> tuple[Matters, ...]:
        """The unknowns of an outcome as they were ranked last, the most important first.

        Raises: ValueError when the ranges were not ranked, have moved since, or cannot be ranked.
        """
        _, found, reason = self._ranked or ({}, None, MOVED)
        if found is None or self._stale():
            raise refuse("ranking", None, reason or MOVED)
        return found.ranking(outcome)

    def readings(self, **values: Value) -> Readings:
        """Readings for given slider values (the present ones where not given); nothing on the screen changes.

        Raises: ValueError naming what is not possible.
        """
        every = {**self.values, **values}
        return self._readings(every, *self._compute(inputs_of(every, self.controls)))

    def compute(self) -> None:
        """The cases, only when a range has moved; the ranking waits for its button."""
        inputs = inputs_of(self.values, self.controls)
        if self._cases is None or self._cases[0] != inputs:
            self._cases = None
            self._cases = (inputs, *self._compute(inputs))

    def draw(self) -> Readings:
        """Draw the chosen view."""
        if self._cases is None:
            raise RuntimeError("nothing has been computed")
        _, found, one = self._cases
        now = self._readings(self.values, found, one)
        if self.view.value == VIEWS[1]:
            return self._draw_ranking(now)
        spread, (unit, si) = found.spread(now.outcome), UNITS[now.outcome]
        dots = Dots(
            values=found.evenly(now.outcome) / si,
            low=spread.low / si,
            median=spread.median / si,
            high=spread.high / si,
            one=None if now.one is None else now.one / si,
            limit=now.limit / si if now.limited == now.outcome else None,
            guess=self.guess if now.outcome == "anchor" else None,
            unit=unit,
            share="" if now.share is None else f"{percent_interval(now.share)} {BEYOND[now.outcome]}",
        )
        self.figure.draw_dots(now.outcome, AXES[now.outcome], dots, self._beside(found))
        return now

    def idle(self) -> tuple[str, ...]:
        """The limit means nothing until one is entered."""
        return ("limit",) if self.values["limit_of"] == NONE else ()

    def _setup(self, case: Mapping[str, object]) -> Setup:
        return unsure_setup(case, table=self.table)

    def _compute(self, inputs: dict[str, Given]) -> tuple[HowSure, dict[str, float]]:
        """All cases, and the one fall with the middle of every range; nothing of it where that cannot be computed."""
        found = how_sure(inputs=inputs, setup_at=self._setup, count=CASES)
        middle = compute_cases(cases=[middles_of(inputs)], setup_at=self._setup)
        return found, {name: float(v[0]) for name, v in middle.values.items() if len(v)}

    def _readings(self, values: dict[str, Value], found: HowSure, one: dict[str, float]) -> Readings:
        outcome, of = str(values["outcome"]), str(values["limit_of"])
        limited = None if of == NONE else of
        limit = float(values["limit"]) * UNITS[limited or outcome][1]
        return Readings(found=found, outcome=outcome, one=one.get(outcome), limited=limited, limit=limit)

    def _draw_ranking(self, now: Readings) -> Readings:
        _, ranked, reason = self._ranked or ({}, None, MOVED)
        if self._stale():
            ranked, reason = None, MOVED
        ranking = ranked.ranking(now.outcome) if ranked else ()
        rows = [
            Row(name=range_words(m.name, now.found.inputs[m.name]), first=m.first, total=m.total, interval=m.total_interval)
            for m in ranking
        ]
        self.figure.draw_ranking(rows, reason)
        return replace(now, ranking=ranking, ranked=True)

    def _beside(self, found: HowSure) -> list[str]:
        filled = "evenly filled" if self.values["filled"] == "even" else "middle likelier"
        head = [f"put in, {filled}:", *(range_words(name, given) for name, given in found.inputs.items())]
        rest = [f"{SPAN:.0f} m of HMPE, with its backup", "not put in: the model's own error"]
        limited = str(self.values["limit_of"])
        if limited != NONE:
            rest.append(f"your limit, {SHORT[limited]}: {float(self.values['limit']):.1f} {UNITS[limited][0]}")
        return [*head, *rest]

    def _tick(self, done: int, total: int) -> None:
        self.bar.max, self.bar.value = total, done

    def _switched(self) -> None:
        with self.one_at_a_time:
            self.figure.look_at(self.view.value)
            if self.view.value == VIEWS[1] and self._ready and self._stale():
                self.rank()
            else:
                self.update()

    def _stale(self) -> bool:
        return self._ranked is None or self._ranked[0] != inputs_of(self.values, self.controls)
