"""The panel of the lesson on the weakest link: anchor legs from above, and strength over load place by place."""

from __future__ import annotations

import ipywidgets
import numpy as np

from linelib.checks import number, one_of
from linelib.figures.anchor_plan import Plan
from linelib.figures.kept_figure import HEIGHT, WIDTH
from linelib.figures.place_bars import Bar
from linelib.figures.weakest_link_figure import VIEWS, WeakestLinkFigure
from linelib.models.fall_in_time import fall
from linelib.models.fall_results import Fall
from linelib.panels.controls import Value
from linelib.panels.panel import Panel
from linelib.panels.weakest_link_settings import FALL, KINDS, VISIBLE, found_of, in_si, setup_of, weakest_link_controls
from linelib.panels.weakest_link_words import WeakestLink, even_share, in_times, is_legs
from linelib.rigging import Setup
from linelib.tables import webbings


class WeakestLinkPanel(Panel):
    """Sliders, readings and picture of strength by place; keyword arguments set the sliders (screen units)."""

    refusal = "No weakest link can be named here."

    def __init__(self, **values: Value) -> None:
        self.table = webbings()
        self._limit: float | None = None
        self.guess: float | None = None
        self._fall: tuple[tuple[float, ...], Setup, Fall] | None = None
        self.figure = WeakestLinkFigure()
        super().__init__(controls=weakest_link_controls(), visible=VISIBLE, picture=self.figure, size=(WIDTH, HEIGHT))
        self.view = ipywidgets.ToggleButtons(options=VIEWS, layout={"width": "auto", "margin": "2px 0"})
        self.entered = ipywidgets.Text(
            description="your limit [times]", placeholder="blank: no limit", continuous_update=False,
            style={"description_width": "154px"}, layout={"width": "auto", "margin": "1px 0"},
        )  # fmt: skip
        self.frame.extra.children = (self.view,)
        fold = self.frame.fold.children[0]
        fold.children = (*fold.children, self.entered)
        self.view.observe(lambda _: self._switched(), "value")
        self.entered.observe(lambda change: self._typed(change["new"]), "value")
        self.set(**values)

    def look_at(self, view: str) -> WeakestLinkPanel:
        """Choose 'all legs hold' or 'one leg fails'."""
        self.view.value = one_of("view", view, VIEWS)
        return self

    def limit(self, times: float | None) -> WeakestLinkPanel:
        """Enter a limit of your own, strength over load; None: blank, as it starts."""
        wanted = None if times is None else number("times", times, low=1.0, high=50.0)
        self.entered.value = "" if wanted is None else f"{wanted:g}"
        return self

    def predict(self, times: float) -> WeakestLinkPanel:
        """Put a guess of the weakest place's strength over load into the picture, as a hollow dot."""
        self.guess = number("times", times, low=0.0, high=50.0)
        self.redraw()
        return self

    def readings(self, *, fails: bool = False, **values: Value) -> WeakestLink:
        """Readings for given slider values (the present ones where not given); nothing on the screen changes.

        Raises: ValueError naming what is not possible.
        """
        return self._find({**self.values, **values}, fails)

    def compute(self) -> None:
        """Legs and places; the fall only when one of its own sliders has moved."""
        self.found = self._find(self.values, self.view.value == VIEWS[1])

    def draw(self) -> WeakestLink:
        """Draw the anchor and the bars."""
        found = self.found
        self.figure.plan.show(_plan(found, str(self.values["legs"]), float(in_si(self.values, self.controls)["direction"])))
        bars = [_bar(found, i) for i in range(len(found.margins.each))]
        weakest = found.margins.each.index(found.margins.weakest)
        often = (found.often.nothing_off, found.often.all_multiplied)
        self.figure.bars.show(bars=bars, weakest=weakest, often=often, limit=found.limit, guess=self.guess)
        person, low = found.fall.peak_leash_force / 1e3, found.fall.lowest_point
        self.figure.say_fall(
            "The pull is the peak of a leash fall: in it the", f"person gets {person:.1f} kN, tie-in {low:.1f} m down."
        )
        return found

    def _find(self, values: dict[str, Value], fails: bool) -> WeakestLink:
        si = in_si(values, self.controls)
        wanted = tuple(si[name] for name in FALL)
        if self._fall is None or self._fall[0] != wanted:
            setup = setup_of(si, self.table)
            self._fall = (wanted, setup, fall(setup=setup))
        _, setup, one = self._fall
        return found_of(kind=str(values["legs"]), si=si, setup=setup, fall=one, fails=fails, limit=self._limit)

    def _switched(self) -> None:
        with self.one_at_a_time:
            self.figure.look_at(self.view.value)
            self.update()

    def _typed(self, text: str) -> None:
        """A limit as typed; what is no number from 1 to 50 is taken as blank and taken away."""
        with self.one_at_a_time:
            try:
                self._limit = number("limit", float(text.replace(",", ".")), low=1.0, high=50.0)
            except ValueError:
                self._limit = None
                self.entered.value = ""
            self.update()


def _plan(found: WeakestLink, kind: str, direction: float) -> Plan:
    forces, lost = found.forces, found.lost
    return Plan(
        bolts=[leg.bolt for leg in found.legs],
        point=forces.point,
        tensions=[t / 1e3 for t in forces.tensions],
        failed=found.failed,
        pull=found.fall.peak_tension_a / 1e3,
        along=(float(np.cos(direction)), float(np.sin(direction))),
        before=forces.point if lost is None else lost.before.point,
        running=kind.endswith("running"),
        note=next(words for words, value in KINDS.items() if value == kind) if lost is None else found.run_in_words,
    )


def _bar(found: WeakestLink, i: int) -> Bar:
    margin = found.margins.each[i]
    load, printed = margin.place.load, margin.place.printed
    even = printed / even_share(found) if is_legs(margin.place.name) else printed / load
    return Bar(
        left=margin.times,
        here=margin.left_here / load,
        printed=printed / load,
        even=max(even, printed / load),
        words=f"{margin.left / 1e3:.1f} of {printed / 1e3:.0f} kN left, load {load / 1e3:.1f}: {in_times(margin.times)}",
    )
