"""What every panel does: sliders move values, values are computed and drawn, and a setting without an answer says why."""

from __future__ import annotations

import threading
from collections.abc import Collection, Sequence
from typing import Any, Protocol, Self

from linelib.cautions import CAUTION
from linelib.checks import number, one_of
from linelib.panels.controls import Control, Slider, Value, starts
from linelib.panels.echo import Echoes, clean
from linelib.panels.frame import Frame, Reading, Sheet


class Readings(Protocol):
    """What a panel reads off: the strip of at most four numbers, and the sentence under the picture."""

    @property
    def strip(self) -> Sequence[Reading]:
        """At most four numbers."""
        ...

    @property
    def sentence(self) -> str:
        """What the picture shows, in words."""
        ...


class Picture(Protocol):
    """A kept figure that can also show a reason instead of a picture."""

    def refuse(self, reason: str) -> None:
        """Show the reason instead of the picture."""
        ...

    def png(self) -> bytes:
        """The picture as PNG."""
        ...


class Panel:
    """Sliders, readings and picture. A panel of its own fills in `compute` and `draw`.

    Keyword arguments of `set` are the sliders' names, in the units of the screen. `refusal` opens what is said in the picture's
    place where there is no answer.
    """

    refusal = "This cannot be rigged or walked."

    def __init__(self, *, controls: Sequence[Control], visible: int, picture: Picture, size: tuple[int, int]) -> None:
        self.controls, self.picture = tuple(controls), picture
        self.values: dict[str, Value] = starts(controls)
        self.last_moved = self.controls[0].name
        self.frame = Frame(controls=controls, visible=visible, size=size)
        self._words, self._quiet, self._ready = "", False, False
        self._echoes = Echoes()
        self.one_at_a_time = threading.RLock()  # a kernel may hand messages of the page to several threads
        for name, widget in self.frame.inputs.items():
            widget.observe(lambda change, name=name: self._moved(name, change["new"]), "value")

    def compute(self) -> None:
        """Compute everything for `self.values`. Raises ValueError when they have no answer."""
        raise NotImplementedError

    def draw(self) -> Readings:
        """Set what moves in the picture from what was computed, and say what is read off."""
        raise NotImplementedError

    def idle(self) -> Collection[str]:
        """Names of the controls that mean nothing as the others are set: they are greyed."""
        return ()

    def set(self, **values: Value) -> Self:
        """Move sliders; returns the panel. Raises ValueError naming an unknown slider or a value outside its range."""
        kinds = {control.name: control for control in self.controls}
        for name, value in values.items():
            control = kinds[one_of("slider", name, tuple(kinds))]
            if isinstance(control, Slider):
                value = number(name, value, low=control.low, high=control.high, unit=control.unit)
            else:
                value = one_of(name, value, tuple(control.options.values()))
            self.values[name], self.last_moved = value, name
        with self.one_at_a_time:
            self._tell(*values)
            self.update()
        return self

    def update(self) -> None:
        """Compute and draw; where there is no answer, show the reason in the picture's place. The next move recovers."""
        with self.one_at_a_time:
            self._ready = False
            self.frame.grey(self.idle())
            try:
                self.compute()
            except ValueError as error:
                self._refuse(str(error).replace("_", " "))
                return
            self._ready = True
            self.redraw()

    def redraw(self) -> None:
        """Draw what was computed, and compute nothing again."""
        with self.one_at_a_time:
            if self._ready:
                readings = self.draw()
                strip = "; ".join(f"{words}: {value}" for words, value in readings.strip)
                self._words = f"{strip}.\n{readings.sentence}"
                self.frame.show(readings=readings.strip, sentence=readings.sentence, png=self.picture.png())

    @property
    def words(self) -> str:
        """Readings, sentence and caution as they are now, as plain text."""
        return f"{self._words}\n{CAUTION}"

    def static(self) -> Sheet:
        """The picture as it is now, with its words, for print."""
        return Sheet(bytes(self.frame.picture.value), self.words)

    def _moved(self, name: str, value: Value) -> None:
        with self.one_at_a_time:
            if self._quiet:
                return
            echo = self._echoes.heard(name, value)
            if clean(value) == clean(self.values[name]):
                return
            if echo:
                self._tell(name)  # the page shows an older value: again what holds
            else:
                self.values[name], self.last_moved = clean(value), name
                self.update()

    def _tell(self, *names: str) -> None:
        """Send values to the page."""
        self._quiet = True
        for name in names:
            self._echoes.tell(name, self.values[name])
            self.frame.inputs[name].value = self.values[name]
        self._quiet = False

    def _refuse(self, reason: str) -> None:
        self._words = f"{self.refusal} {reason}"
        self.picture.refuse(f"{self.refusal}\n{reason}")
        self.frame.show(readings=[Reading("no reading", "–")] * 4, sentence=self._words, png=self.picture.png())

    def _repr_mimebundle_(self, **_: Any) -> dict[str, Any]:
        for name, value in self.values.items():
            self._echoes.tell(name, value)
        return self.frame.bundle(png=self.frame.picture.value, words=self.words)
