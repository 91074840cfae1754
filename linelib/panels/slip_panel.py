"""The panel of the lesson on slip: a lock that pays out, fall after fall, and everything that pays for it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from linelib.checks import number
from linelib.figures.before_after import Line
from linelib.figures.kept_figure import HEIGHT, WIDTH
from linelib.figures.slip_figure import Course, SlipFigure, SlipPicture
from linelib.models.backup_shape import backup_shape
from linelib.models.fall_in_time import fall
from linelib.models.fall_results import Fall
from linelib.panels.controls import Value
from linelib.panels.panel import Panel
from linelib.panels.slip_settings import VISIBLE, SlipReadings, readings_of, setup_of, slip_controls, slips_standing
from linelib.rigging import Backup, Setup
from linelib.studies.falls_in_a_row import Row, falls_in_a_row
from linelib.studies.outings import Outings, outings
from linelib.studies.outings_words import ending
from linelib.tables import webbings

ENDS = {"": "", "tail": "tail used up", "backup": "backup pulls"}


class SlipPanel(Panel):
    """Sliders, readings and picture of falls with a slipping lock; keyword arguments set the sliders (screen units)."""

    def __init__(self, **values: Value) -> None:
        self.table = webbings()
        self.guess: float | None = None
        self.figure = SlipFigure()
        self._known: tuple[Setup, Row] | None = None
        self._held: tuple[Setup, Fall] | None = None
        super().__init__(controls=slip_controls(self.table), visible=VISIBLE, picture=self.figure, size=(WIDTH, HEIGHT))
        self.set(**values)

    def predict(self, metre: float) -> SlipPanel:
        """Put a guess of the lowest tie-in in the last fall into the picture, as a hollow dot."""
        self.guess = number("metre", metre, low=0.0, high=50.0, unit="m")
        self.redraw()
        return self

    def readings(self, **values: Value) -> SlipReadings:
        """Readings for given slider values (the present ones where not given); nothing on the screen changes.

        Raises: ValueError naming what is not possible.
        """
        left, again, holding, setup = self._falls({**self.values, **values})
        return readings_of(left, again, holding, setup.rig.slip_load_b or 0.0)

    def compute(self) -> None:
        """The falls, one after the other, left alone and re-tensioned, and one with a lock that holds."""
        left, again, holding, setup = self._falls(self.values)
        self._readings = readings_of(left, again, holding, setup.rig.slip_load_b or 0.0)
        self._picture = _picture(setup, left, again, holding, float(self.values["fold"]), float(self.values["tail"]))

    def draw(self) -> SlipReadings:
        """Draw line, tail, forces and costs."""
        self.figure.draw(self._picture, self.guess)
        return self._readings

    def _falls(self, values: dict[str, Value]) -> tuple[Outings, Outings, Fall, Setup]:
        """Falls already known for the same setup are not computed again."""
        setup, count = setup_of(values, self.controls, self.table), int(values["falls"])
        if self._known is None or self._known[0] != setup or len(self._known[1].falls) < count:
            self._known = (setup, _row(setup, count))
        row = self._known[1].first(count)
        firm = replace(setup, rig=replace(setup.rig, slip_load_b=None))
        if self._held is None or self._held[0] != firm:
            self._held = (firm, row.falls[0] if row.falls[0].slip_b <= 0.0 else fall(setup=firm))
        tail, fold = float(values["tail"]), float(values["fold"])
        left, again = (outings(row=row, tail=tail, fold=fold, retensioned=r) for r in (False, True))
        if not left.series:
            raise ValueError(ending(outings=left))
        return left, again, self._held[1], setup


def _row(setup: Setup, count: int) -> Row:
    try:
        return falls_in_a_row(setup=setup, count=count)
    except ValueError as error:
        raise ValueError(slips_standing(setup) if "slip_load_b" in str(error) else str(error)) from error


def _picture(setup: Setup, left: Outings, again: Outings, holding: Fall, fold: float, tail: float) -> SlipPicture:
    first, last, backup = left.series[0], left.series[-1], setup.rig.backup
    line = (last.line_x[0], last.line_z[0])
    peak = max(holding.peak_tension_a, holding.peak_tension_b)
    extra = backup.extra_length if backup else 0.0
    return SlipPicture(
        left=_course(left, fold, tail, extra),
        again=_course(again, fold, tail, extra),
        holds=(peak / 1e3, holding.peak_leash_force / 1e3, holding.lowest_point),
        first=(first.line_x[0], first.line_z[0]),
        last=line,
        ring=int(np.argmin(np.abs(line[0] - last.ring_x[0]))),
        backup=_loops(backup, line, float(left.line_longer[-1] - left.paid_out[-1])) if backup else (line[0][:1], line[1][:1]),
        ring_x=float(last.ring_x[0]),
        fold_in=left.fold_in,
        end=(left.ended_in, ENDS[left.ended]),
    )


def _loops(backup: Backup, line: Line, paid_out: float) -> Line:
    """The backup under the line; the loop at the lock is flatter by what was paid out there."""
    x, z = backup_shape(backup=backup, line_x=line[0], line_z=line[1])
    less = replace(backup, extra_length=max(backup.extra_length - paid_out, 0.0))
    points = len(x) // (len(backup.joints) + 1)
    z[-points:] = backup_shape(backup=less, line_x=line[0], line_z=line[1])[1][-points:]
    return x, z


def _course(series: Outings, fold: float, tail: float, extra: float) -> Course:
    return Course(
        anchor=series.anchor / 1e3,
        standing=np.where(series.peak_a >= series.peak_b, series.standing_a, series.standing_b) / 1e3,
        person=series.person / 1e3,
        lowest=series.lowest,
        tail=np.append(tail, series.tail_left),
        backup=np.append(extra, series.backup_left),
        fold=np.append(fold, series.fold_to_lock),
    )
