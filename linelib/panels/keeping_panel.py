"""The panel on what would have kept a limit of your own: every choice alone, and two together."""

from __future__ import annotations

from collections.abc import Collection

import ipywidgets
import numpy as np

from linelib.checks import number, one_of
from linelib.figures.cost_curves import Drawn
from linelib.figures.keeping_figure import VIEWS, KeepingFigure
from linelib.figures.kept_figure import HEIGHT, WIDTH
from linelib.figures.outcome_roles import role_of
from linelib.panels import keeping_settings as settings
from linelib.panels.controls import Value
from linelib.panels.keeping_readings import KeepingReadings
from linelib.panels.panel import Panel
from linelib.panels.which_choice_settings import numbers_of
from linelib.studies.boundary import Boundary, boundary, of_two
from linelib.studies.case_rig import LINKS, case_knobs, case_lists, case_rig
from linelib.studies.keeping import Keeping, keeping
from linelib.studies.keeping_words import keeping_text, limit_in_words, pair_in_words, summary_in_words
from linelib.studies.knobs import Knob
from linelib.studies.outcome_words import name_of, shown, unit
from linelib.studies.outcomes import ANCHOR_A, DROP, PERSON, Case
from linelib.tables import webbings


class KeepingPanel(Panel):
    """Sliders, readings and picture of what would have kept a limit; keyword arguments set the sliders (screen units)."""

    refusal = "Nothing can be looked for here:"

    def __init__(self, **values: Value) -> None:
        self.table = webbings()
        self._limits: dict[str, float] = {}
        self.figure = KeepingFigure(rows=len(settings.KNOBS) + 2)
        controls = settings.keeping_controls()
        super().__init__(controls=controls, visible=settings.VISIBLE, picture=self.figure, size=(WIDTH, HEIGHT))
        self.view = ipywidgets.ToggleButtons(options=VIEWS, layout={"width": "auto", "margin": "2px 0"})
        self.entered = ipywidgets.Text(
            description="your limit", placeholder="blank: no limit", continuous_update=False,
            style={"description_width": "154px"}, layout={"width": "auto", "margin": "1px 0"},
        )  # fmt: skip
        self.frame.extra.children = (self.entered, self.view)
        self.view.observe(lambda _: self._switched(), "value")
        self.entered.observe(lambda change: self._typed(change["new"]), "value")
        self.set(**values)

    def look_at(self, view: str) -> KeepingPanel:
        """Choose 'each alone' or 'two together'."""
        self.view.value = one_of("view", view, VIEWS)
        return self

    def limit(self, value: float | None) -> KeepingPanel:
        """Enter a limit of your own for what is asked [kN], [m] or [-]; None: blank, as it starts. Each outcome has its own."""
        wanted = None if value is None else number("limit", value, low=0.001, high=1000.0)
        self.entered.value = "" if wanted is None else f"{wanted:g}"
        return self

    def text(self) -> str:
        """Every choice alone in sentences, with what each value costs."""
        return keeping_text(self._search(None))

    def idle(self) -> Collection[str]:
        """The two choices of the map, where there is no map."""
        return ("first", "second") if self.view.value == VIEWS[0] else ()

    def compute(self) -> None:
        """The search over every choice alone, or over two; the words of the text field follow what is asked."""
        outcome, *names = settings.values_of(self.values)
        self._show_limit(outcome)
        self.numbers = numbers_of(self.values, self.controls)
        self.boundary: Boundary | None = None
        if self.view.value == VIEWS[0]:
            self.found = self._search(None)
            return
        self.found = self._search(names[0])
        pair = self._knobs()
        self.pair = self._one(pair, names[0]), self._one(pair, names[1])
        asked = of_two(now=self._case(), first=self.pair[0], second=self.pair[1], outcome=outcome, links=LINKS)
        if self.found.limit is not None:
            x, y = (np.linspace(k.low, k.high, settings.GRID) for k in self.pair)
            self.boundary = boundary(outcome=asked, limit=self.found.limit, x=x, y=y)

    def draw(self) -> KeepingReadings:
        """Draw the chosen view."""
        self.figure.back()
        if self.view.value == VIEWS[0]:
            return self._draw_each()
        return self._draw_two()

    def _case(self) -> Case:
        return case_rig(numbers=numbers_of(self.values, self.controls), table=self.table)

    def _knobs(self) -> tuple[Knob, ...]:
        return case_knobs(now=self._case(), table=self.table)

    def _one(self, knobs: tuple[Knob, ...], name: str) -> Knob:
        found = [k for k in knobs if k.name == name]
        if not found:
            raise ValueError("pretension is only set again to what was planned, 3.0 kN, and here it is no lower")
        return found[0]

    def _search(self, only: str | None) -> Keeping:
        case, knobs = self._case(), self._knobs()
        outcome = str(self.values["outcome"])
        return keeping(
            now=case,
            outcome=outcome,
            limit=self._limits.get(outcome),
            knobs=knobs if only is None else (self._one(knobs, only),),
            lists=case_lists(now=case, table=self.table) if only is None else (),
            links=LINKS,
            count=settings.COUNT,
        )

    def _draw_each(self) -> KeepingReadings:
        found = self.found
        rows = [settings.row_of(one, self.numbers) for one in found.kept]
        rows += [settings.list_row(name, found) for name in found.listed]
        heads, now = settings.heads(found)
        self.figure.bars.show(rows, title=f"{name_of(found.outcome)}: {limit_in_words(found)}", heads=heads, now=now)
        return KeepingReadings(found=found, sentence=summary_in_words(found))

    def _draw_two(self) -> KeepingReadings:
        found, pair = self.found, self.pair
        one = found.kept[0]
        per = settings.per_screen(one.knob)
        asked = [found.outcome, *(name for name in (PERSON, DROP, ANCHOR_A) if name != found.outcome)][:3]
        drawn = [
            Drawn(
                title=f"{name} [{unit(name)}]" if unit(name) else f"load over strength, {name}",
                values=one.curves[name] * shown(name, 1.0),
                now=shown(name, found.now[name]),
                role=role_of(name, self.figure.canvas.roles),
            )
            for name in asked
        ]
        limit = None if found.limit is None else shown(found.outcome, found.limit)
        now = settings.now_of(one.knob.name, self.numbers) / per
        met = [f.value / per for f in one.found]
        title = settings.title_of(one.knob)
        self.figure.curves.show(drawn, over=one.over / per, now=now, name=title, limit=limit, met=met)
        words = limit_in_words(found)
        words = words if found.limit is None else f"line: {words}"
        reason = "" if found.limit is not None else "no limit entered: no line"
        self.figure.map.show(settings.map_of(pair, self.boundary, self.numbers, words), reason=reason)
        return KeepingReadings(found=found, sentence=pair_in_words(found, self.boundary, (pair[0].name, pair[1].name)))

    def _show_limit(self, outcome: str) -> None:
        """The text field shows the limit of what is asked."""
        limit = self._limits.get(outcome)
        text = "" if limit is None else f"{shown(outcome, limit):g}"
        self.entered.description = f"your limit [{unit(outcome)}]" if unit(outcome) else "your limit"
        if self.entered.value != text:
            self._typing = False
            self.entered.value = text
            self._typing = True

    def _switched(self) -> None:
        with self.one_at_a_time:
            self.figure.look_at(self.view.value)
            self.update()

    def _typed(self, text: str) -> None:
        """A limit as typed; what is no number is taken as blank and taken away."""
        if not getattr(self, "_typing", True):
            return
        with self.one_at_a_time:
            outcome = str(self.values["outcome"])
            try:
                value = number("limit", float(text.replace(",", ".")), low=0.001, high=1000.0)
                self._limits[outcome] = value / shown(outcome, 1.0)
            except ValueError:
                self._limits.pop(outcome, None)
            self.update()
