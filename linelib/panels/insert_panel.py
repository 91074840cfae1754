"""The panel of the lesson on soft inserts: compared with what, and loaded how fast."""

from __future__ import annotations

from collections.abc import Mapping

import ipywidgets
import numpy as np
from numpy.typing import NDArray

from linelib.checks import number, one_of
from linelib.figures.insert_figure import PERIODS, VIEWS, InsertFigure, Softened
from linelib.figures.insert_plots import Drawn
from linelib.figures.kept_figure import HEIGHT, WIDTH
from linelib.models.fall_in_time import fall, falls
from linelib.models.fall_results import Fall
from linelib.models.loss_loop import loss_loops, strain_of_pull
from linelib.models.stretch import law_of
from linelib.panels.controls import Value
from linelib.panels.fall_scene import frame_of, scene_of
from linelib.panels.insert_settings import (
    VISIBLE,
    InsertReadings,
    compared_in_words,
    insert_controls,
    pace_in_words,
    plain_of,
    readings_of,
)
from linelib.panels.panel import Panel
from linelib.rigging import Setup
from linelib.studies.insert_compare import PLACES, InsertCurves, Over, hold, insert_curves, insert_laws, pair
from linelib.studies.lesson_rig import INSERT
from linelib.studies.sayings import sayings
from linelib.tables import webbing_notes, webbings
from linelib.webbing import Webbing

Array = NDArray[np.float64]
SLOW = 60.0  # s, one slow load cycle
KEPT = "insert_length"


class InsertPanel(Panel):
    """Sliders, readings and picture of a fall with a soft insert; keyword arguments set the sliders (screen units)."""

    def __init__(self, **values: Value) -> None:
        self.table, self.note, self.saying = webbings(), webbing_notes()[INSERT], sayings()["soft_insert"]
        self.guess: float | None = None
        self._curves: tuple[object, InsertCurves] | None = None
        peak, within = self.saying.peak / 1e3, self.saying.within
        self.figure = InsertFigure((self.saying.lengths[0], peak * (1 - within), self.saying.lengths[1], peak * (1 + within)))
        super().__init__(controls=insert_controls(self.table), visible=VISIBLE, picture=self.figure, size=(WIDTH, HEIGHT))
        self.view = ipywidgets.ToggleButtons(options=VIEWS, layout={"width": "auto", "margin": "2px 0"})
        self.frame.extra.children = (self.view,)
        self.view.observe(lambda _: self._switched(), "value")
        self.set(**values)

    def look_at(self, view: str) -> InsertPanel:
        """Choose the further view: 'compared' or 'how fast'."""
        self.view.value = one_of("view", view, VIEWS)
        return self

    def predict(self, kilonewton: float) -> InsertPanel:
        """Put a guess of the peak at anchor A into the picture, as a hollow dot."""
        self.guess = number("kilonewton", kilonewton, low=0.0, high=200.0, unit="kN")
        self.redraw()
        return self

    def rigs(self, *laws: str, **values: Value) -> list[Setup]:
        """The plain rig of given slider values, and with the insert by each of `laws` (names of LAWS).

        Raises: ValueError naming what is not possible.
        """
        every = {**self.values, **values}
        plain = plain_of(every, self.controls, self.table)
        known, length = self._laws(every), float(every["insert_length"])
        place, held = str(every["place"]), str(every["held"])
        pairs = [pair(plain=plain, webbing=known[law], length=length, place=place, held=held) for law in laws]
        return [plain, *hold(pairs, held)]

    def readings(self, **values: Value) -> InsertReadings:
        """Readings for given slider values (the present ones where not given); nothing on the screen changes.

        Raises: ValueError naming what is not possible.
        """
        setups = self.rigs("now", "soft", "stiff", **values)
        found = falls(setups=setups, series=(1,))
        high = np.maximum(found.peak_tension_a, found.peak_tension_b)
        band, every = (float(high[2]), float(high[3])), {**self.values, **values}
        now, plain = found.series[0], found.part(0, 1)
        return readings_of(now, plain, compared_in_words(every, setups[1].rig, now, plain, band=band, saying=self.saying))

    def compute(self) -> None:
        """The fall now, and in the view 'compared' the falls over the length of the insert."""
        if self.view.value == VIEWS[0]:
            self._compare()
        else:
            self._load_fast()

    def draw(self) -> InsertReadings:
        """Draw the fall at its lowest point and the chosen view."""
        if self.view.value == VIEWS[0]:
            self._draw_curves()
        else:
            self._draw_loops()
        plain = float(self.plain.lowest_point[0])
        begin, end = _where(float(self.values["insert_length"]), self.setup.rig.span, str(self.values["place"]))
        scene, frame = scene_of(self.setup, self.fall), frame_of(self.setup, self.fall)
        self.figure.draw(scene, frame, Softened(begin=begin, end=end, plain_lowest=plain))
        return self._readings

    def _laws(self, values: Mapping[str, Value]) -> dict[str, Webbing]:
        return insert_laws(table=self.table, note=self.note, fast_ratio=float(values["fast_ratio"]))

    def _switched(self) -> None:
        with self.one_at_a_time:
            self.figure.look_at(self.view.value)
            self.update()

    def _compare(self) -> None:
        """The curves do not depend on the length of the insert and are kept while only that moves."""
        values = self.values
        key = tuple((name, value) for name, value in values.items() if name != KEPT)
        plain, self.setup = self.rigs("now")
        if self._curves is not None and self._curves[0] == key:
            self.fall = fall(setup=self.setup)
        else:
            place, held = str(values["place"]), str(values["held"])
            self.fall, curves = insert_curves(plain=plain, now=self.setup, inserts=self._laws(values), place=place, held=held)
            self._curves = (key, curves)
        self.curves = curves = self._curves[1]
        self.plain = curves.plain
        ends = [np.interp(float(values[KEPT]), curves.lengths, _higher(curves.laws[law])) for law in ("soft", "stiff")]
        words = compared_in_words(
            values, self.setup.rig, self.fall, self.plain, band=(float(ends[0]), float(ends[1])), saying=self.saying
        )
        self._readings = readings_of(self.fall, self.plain, words)

    def _load_fast(self) -> None:
        """The fall by the law of now and by the slow-pull curve, and load cycles between standing and the highest pull."""
        setups = self.rigs("now", "slow")
        found = falls(setups=setups, series=(1,))
        self.setup, self.fall, self.plain = setups[1], found.series[0], found.part(0, 1)
        web = self._laws(self.values)["now"]
        low, high, self.period = _cycle(web, self.fall, str(self.values["place"]))
        fast, slow, *swept = loss_loops(webbing=web, low=low, high=high, periods=(self.period, SLOW, *PERIODS))
        self.loops, self.swept, self.web = (fast, slow), swept, web
        words = pace_in_words(
            fast=fast,
            slow=slow,
            period=self.period,
            peak=self.fall.peak_tension_a,
            slow_peak=float(found.peak_tension_a[2]),
            place=str(self.values["place"]),
        )
        self._readings = readings_of(self.fall, self.plain, words)

    def _draw_curves(self) -> None:
        laws, now, found = self.curves.laws, float(self.values[KEPT]), self.fall
        mine, band = laws["now"], (_higher(laws["soft"]) / 1e3, _higher(laws["stiff"]) / 1e3)
        forces = (
            Drawn(values=mine.peak_tension_a / 1e3, now=found.peak_tension_a / 1e3, band=band),
            Drawn(values=mine.peak_tension_b / 1e3, now=found.peak_tension_b / 1e3),
            Drawn(values=laws["slow"].peak_tension_a / 1e3),
            Drawn(values=mine.peak_leash_force / 1e3, now=found.peak_leash_force / 1e3),
        )
        drops = (laws["stiff"].lowest_point, laws["soft"].lowest_point)
        costs = (
            Drawn(values=mine.lowest_point, now=found.lowest_point, band=drops),
            Drawn(values=mine.standing_sag, now=found.standing_sag),
        )
        least = self.saying.peak / 1e3 * (1.0 + self.saying.within)
        self.figure.forces.show(forces, over=self.curves.lengths, now=now, least=max(least, self.guess or 0.0))
        self.figure.forces.put_guess(now, self.guess)
        self.figure.costs.show(costs, over=self.curves.lengths, now=now)

    def _draw_loops(self) -> None:
        fast, slow = self.loops
        pull = np.linspace(0.0, max(float(fast.tension.max()), float(slow.tension.max())), 40)
        curve = (100.0 * np.asarray(law_of(self.web).strain(pull)), pull / 1e3)
        loops = tuple((100.0 * loop.strain, loop.tension / 1e3) for loop in self.loops)
        both = ((self.period, fast, "● this fall"), (SLOW, slow, "◇ slow pull"))
        words = [f"{name}, {t:.2g} s: loses {loop.lost:.0f} of {loop.taken:.0f} J/m" for t, loop, name in both]
        self.figure.loops.show(slow_curve=curve, loops=loops, words=tuple(words))
        base = self.swept[-1].stiffness
        for plot, what in ((self.figure.stiffness, "stiffness"), (self.figure.loss, "lost_share")):
            scale = 1.0 / base if what == "stiffness" else 100.0
            values = np.array([getattr(loop, what) for loop in self.swept]) * scale
            dots = [(t, getattr(loop, what) * scale) for t, loop in ((self.period, fast), (SLOW, slow))]
            plot.show(values, fast=dots[0], slow=dots[1])


def _higher(over: Over) -> Array:
    """The higher of both anchors' peaks [N]."""
    return np.maximum(over.peak_tension_a, over.peak_tension_b)


def _where(length: float, span: float, place: str) -> tuple[float, float]:
    """Where the insert lies along the span [m]."""
    begin = (0.0, span - length, 0.5 * (span - length))[PLACES.index(place)]
    return begin, begin + length


def _cycle(web: Webbing, found: Fall, place: str) -> tuple[float, float, float]:
    """Strain of the insert [-] when somebody stands there and at its highest in the fall; twice the time it took to get up
    there from where the leash begins to pull [s]."""
    pull = found.tension_b if place == "at B" else found.tension_a
    caught = int(np.argmax(found.leash_force > 0.0))
    peak = caught + max(1, int(np.argmax(pull[caught:])))
    strain = strain_of_pull(webbing=web, tension=pull, time=found.time)
    low = float(strain[0])
    return low, max(float(strain[caught:].max()), low + 1e-4), 2.0 * float(found.time[peak] - found.time[caught])
