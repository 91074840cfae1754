"""The picture of a log: what was recorded with its rest level and its falls, and a fitted fall over the measured one."""

from __future__ import annotations

import numpy as np

from linelib.figures.kept_figure import KeptFigure
from linelib.figures.limits import Reach, round_up
from linelib.figures.roles import SMALL
from linelib.figures.word import Word
from linelib.studies.log_falls import LoggedFalls
from linelib.studies.log_fit_results import Fit

VIEWS = ("log", "fit")
BOXES = ((52, 46, 736, 316), (52, 46, 322, 316))


class LogFigure(KeptFigure):
    """Kept picture; view 'log': the whole log; 'fit': beside it one fall and the model through the same cell."""

    def __init__(self, paper: str = "light") -> None:
        super().__init__(paper=paper)
        r, moving = self.canvas.roles, self.canvas.moving
        self.axes = self.canvas.axes(*BOXES[0])
        self.close = self.canvas.axes(446, 146, 342, 216)
        self.left = self.canvas.axes(446, 46, 342, 70)
        for axes, words in ((self.axes, "force [kN]"), (self.close, "force [kN]"), (self.left, "misfit [N]")):
            axes.set_ylabel(words, fontsize=SMALL, color=r.ink, labelpad=2)
        for axes in (self.axes, self.left):
            axes.set_xlabel("time in the log [s]", fontsize=SMALL, color=r.ink, labelpad=1)
        self.force, self.misfit = Reach(10.0), Reach(100.0)
        plot = self.axes.plot
        self.recorded = moving(plot([], [], **r.side_a.line(linewidth=1.0))[0])
        self.rest = moving(plot([], [], color=r.ink, linewidth=1.0, linestyle=(0, (5, 3)))[0])
        self.clipped = moving(plot([], [], linestyle="none", marker="x", markersize=4, color=r.ink)[0])
        self.peaks = moving(plot([], [], **r.now.dot(size=8))[0])
        self.light = moving(plot([], [], linestyle="none", marker="|", markersize=16, color=r.ink)[0])
        self.words = [Word(self.canvas, self.axes, colour=r.ink, across="center", bold=True) for _ in range(6)]
        self.rest_word = Word(self.canvas, self.axes, colour=r.ink)
        self.key = Word(self.canvas, self.axes, colour=r.ink)
        self.measured = moving(self.close.plot([], [], **r.side_a.dot(size=2.5))[0])
        self.bounds = moving(self.close.plot([], [], linestyle="none", marker="x", markersize=4, color=r.ink)[0])
        self.model = moving(self.close.plot([], [], color=r.ink, linewidth=1.6)[0])
        self.apart = moving(self.left.plot([], [], **r.side_a.line(linewidth=0.8))[0])
        self.zero = moving(self.left.plot([], [], color=r.ink, linewidth=0.8)[0])
        self.names = [
            Word(self.canvas, self.close, colour=r.ink),
            Word(self.canvas, self.close, colour=r.side_a.colour, up="top"),
        ]
        self.use({"log": (), "fit": (self.close, self.left)}, always=(self.axes,))

    def draw(self, found: LoggedFalls, fit: Fit | None = None) -> None:
        """Set the log and its falls; with a Fit, that too."""
        self.look_at("log" if fit is None else "fit")
        self.back()
        left, bottom, width, height = BOXES[0] if fit is None else BOXES[1]
        size = (self.canvas.width, self.canvas.height)
        self.axes.set_position((left / size[0], bottom / size[1], width / size[0], height / size[1]))
        self._log(found)
        if fit is not None:
            self._fitted(fit)
        self.canvas.still_changed()

    def _log(self, found: LoggedFalls) -> None:
        log, force = found.log, 1e-3 * found.log.force
        self.force.take(1.15 * float(force.max()))
        self.axes.set_xlim(float(log.time[0]), float(log.time[-1]))
        self.axes.set_ylim(0.0, self.force.value)
        gaps = np.flatnonzero(np.diff(log.time) > 1.5 * log.interval) + 1
        self.recorded.set_data(np.insert(log.time, gaps, np.nan), np.insert(force, gaps, np.nan))
        self.clipped.set_data(log.time[log.clipped], force[log.clipped])
        level = 1e-3 * found.rest.level
        self.rest.set_data(log.time[[0, -1]], [level, level])
        self.rest_word.put(f"at rest {level:.2f}", float(log.time[0]), level + 0.04 * self.force.value)
        self.peaks.set_data([f.time for f in found.falls], [1e-3 * f.peak for f in found.falls])
        self.light.set_data([f.release for f in found.falls], [1e-3 * f.before for f in found.falls])
        lift = 0.03 * self.force.value
        for i, word in enumerate(self.words):
            if i < len(found.falls):
                fall = found.falls[i]
                text = f"{'≥ ' if fall.clipped else ''}{1e-3 * fall.peak:.2f} kN"
                word.put(text, fall.time, 1e-3 * fall.peak + lift)
            else:
                word.put("", 0.0, 0.0)
        self.key.put("● highest sample   | line goes light", float(log.time[0]), self.force.value)

    def _fitted(self, fit: Fit) -> None:
        part, held = fit.part, fit.part.clipped
        top = round_up(1.15e-3 * max(float(part.force.max()), float(fit.modelled.max())))
        for axes in (self.close, self.left):
            axes.set_xlim(float(part.time[0]), float(part.time[-1]))
        self.close.set_ylim(0.0, top)
        self.measured.set_data(part.time[~held], 1e-3 * part.force[~held])
        self.bounds.set_data(part.time[held], 1e-3 * part.force[held])
        self.model.set_data(part.time, 1e-3 * fit.modelled)
        apart = np.where(held, np.nan, fit.modelled - part.force)
        self.misfit.take(1.05 * float(np.nanmax(np.abs(apart))))
        self.left.set_ylim(-self.misfit.value, self.misfit.value)
        self.apart.set_data(part.time, apart)
        self.zero.set_data(part.time[[0, -1]], [0.0, 0.0])
        self.names[0].put("line: fitted fall through the cell", float(part.time[0]), top)
        self.names[1].put("dots: recorded" + ("; crosses: clipped" if held.any() else ""), float(part.time[0]), top)
