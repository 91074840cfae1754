"""The panel of the lesson on what a crew can know: a tear at the lock, and every sign of it over what can be noticed."""

from __future__ import annotations

from linelib.checks import number
from linelib.figures.kept_figure import HEIGHT, WIDTH
from linelib.figures.tear_signs_figure import Row, TearSignsFigure
from linelib.models.signs import Sign
from linelib.panels.controls import Value
from linelib.panels.panel import Panel
from linelib.panels.tear_signs_settings import VISIBLE, Known, known_of, tear_signs_controls
from linelib.tables import webbings

SHOWN = ((1e3, "mm", ".1f"), (1e2, "cm", ".1f"), (1e-3, "kN", ".2f"), (1e-3, "kN", ".2f"), (1e3, "ms", ".1f"))


class TearSignsPanel(Panel):
    """Sliders, readings and picture of a line with strips torn at its lock; keyword arguments set the sliders."""

    refusal = "No signs can be shown here."

    def __init__(self, **values: Value) -> None:
        self.table = webbings()
        self.guess: float | None = None
        self.figure = TearSignsFigure()
        controls = tear_signs_controls(self.table)
        super().__init__(controls=controls, visible=VISIBLE, picture=self.figure, size=(WIDTH, HEIGHT))
        self.set(**values)

    def predict(self, centimetre: float) -> TearSignsPanel:
        """Put a guess of the change of the sag under the walker [cm] into the picture, as a hollow dot."""
        self.guess = number("centimetre", centimetre, low=0.0, high=500.0, unit="cm")
        self.redraw()
        return self

    def readings(self, **values: Value) -> Known:
        """Readings for given slider values (the present ones where not given); nothing on the screen changes.

        Raises: ValueError naming what is not possible.
        """
        return known_of({**self.values, **values}, self.controls, self.table)

    def compute(self) -> None:
        """Tear, remainder and signs."""
        self.known = self.readings()

    def draw(self) -> Known:
        """Draw the width and a bar for every sign."""
        signs = self.known.signs.each
        guess = None if self.guess is None else 0.01 * self.guess / signs[1].threshold
        rows = tuple(_row(sign, *shown) for sign, shown in zip(signs, SHOWN, strict=True))
        self.figure.draw(torn=self.known.share, rows=rows, guess=guess)
        return self.known


def _row(sign: Sign, factor: float, unit: str, digits: str) -> Row:
    """One bar and its numbers in words."""
    size, least = format(factor * abs(sign.change), digits), format(0.0, digits)
    if sign.change == 0.0:
        change = "no change"
    elif size == least:
        change = f"under {least[:-1]}1 {unit}"
    else:
        change = f"{'+' if sign.change > 0.0 else '−'}{size} {unit}"
    return Row(times=sign.times, words=f"{change}, noticed from {factor * sign.threshold:g}")
