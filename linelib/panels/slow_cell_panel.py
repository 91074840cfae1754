"""The panel of what a slow cell misses: one fall, one cell, and what is left of the peak."""

from __future__ import annotations

from linelib.checks import number
from linelib.figures.kept_figure import HEIGHT, WIDTH
from linelib.figures.slow_cell_figure import Recording, SlowCellFigure
from linelib.models.fall_results import Fall
from linelib.panels.controls import Value
from linelib.panels.panel import Panel
from linelib.panels.slow_cell_settings import LEASH, OF_FALL, VISIBLE, Recorded, fall_of, recorded_of, slow_cell_controls
from linelib.tables import webbings


class SlowCellPanel(Panel):
    """Sliders, readings and picture of a cell's recording; keyword arguments set the sliders (screen units)."""

    refusal = "Nothing can be recorded here."

    def __init__(self, **values: Value) -> None:
        self.table = webbings()
        self.guess: float | None = None
        self.figure = SlowCellFigure()
        self._fall: tuple[tuple[Value, ...], Fall] | None = None
        controls = slow_cell_controls(self.table)
        super().__init__(controls=controls, visible=VISIBLE, picture=self.figure, size=(WIDTH, HEIGHT))
        self.set(**values)

    def predict(self, percent: float) -> SlowCellPanel:
        """Put a guess of the share missed at the worst moment [%] into the picture, as a hollow dot."""
        self.guess = number("percent", percent, low=0.0, high=100.0, unit="%")
        self.redraw()
        return self

    def readings(self, **values: Value) -> Recorded:
        """Readings for given slider values (the present ones where not given); nothing on the screen changes.

        Raises: ValueError naming what is not possible.
        """
        asked = {**self.values, **values}
        return recorded_of(asked, self.controls, fall_of(asked, self.controls, self.table))

    def compute(self) -> None:
        """The fall, once for each setting of it, and the recording."""
        key = tuple(self.values[name] for name in (*OF_FALL, "material"))
        if self._fall is None or self._fall[0] != key:
            self._fall = key, fall_of(self.values, self.controls, self.table)
        self.recorded = recorded_of(self.values, self.controls, self._fall[1])

    def draw(self) -> Recorded:
        """Draw trace, samples and the share missed over the rate."""
        one = self.recorded
        recording = Recording(
            time=one.time,
            force=1e-3 * one.force,
            meant=1e-3 * one.meant,
            at=one.at,
            read=1e-3 * one.read,
            person=one.place == LEASH,
        )
        self.figure.draw(recording, one.over, (one.cell.rate, 100.0 * one.missed), self.guess)
        return one
