"""The sliders of what a slow cell misses: screen values to a fall, a cell, its recording, and words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.checks import one_of
from linelib.models.fall_in_time import fall
from linelib.models.fall_results import Fall
from linelib.panels.controls import Choice, Control, Slider, Value
from linelib.panels.frame import Reading
from linelib.studies.cell import sampled, through_cell
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.slow_cell import SlowCell, slow_cell, slow_cells
from linelib.webbing import Webbing

Array = NDArray[np.float64]
VISIBLE = 5
ANCHOR, LEASH = "anchor", "leash"
OVER = tuple(float(f) for f in np.geomspace(5.0, 500.0, 13))  # [Hz]
LONGER = 0.6  # [s]: the longest window and the longest interval are 0.3 and 0.2 s
OF_FALL = ("leash_length", "length")
SAY = "State a peak with its sampling and averaging."
MEANT = "The model gives the leash as 20 ms means."


def slow_cell_controls(table: Mapping[str, Webbing]) -> tuple[Control, ...]:
    """Where the cell is, its rate, window, the moment it begins, its noise; then the fall, folded."""
    names = {f"{i} · {webbing.name}": key for i, (key, webbing) in enumerate(table.items(), 1)}
    places = {"at anchor A": ANCHOR, "in the leash": LEASH}
    return (
        Choice(name="place", words="cell", options=places, start=ANCHOR),
        Slider(name="rate", words="sampling rate", unit="Hz", low=5, high=500, step=5, start=10, digits=0),
        Slider(name="window", words="averaging", unit="ms", low=0, high=300, step=10, start=0, si=1e-3, digits=0),
        Slider(name="phase", words="first sample", unit="% on", low=0, high=95, step=5, start=0, si=0.01, digits=0),
        Slider(name="noise", words="noise", unit="N", low=0, high=100, step=5, start=0, digits=0),
        Slider(name="leash_length", words="leash length", unit="m", low=1, high=3, step=0.1, start=1.5),
        Choice(name="material", words="material", options=names, start="hmpe_25mm"),
        Slider(name="length", words="line length", unit="m", low=25, high=200, step=1, start=100, digits=0),
    )


@dataclass(frozen=True, kw_only=True)
class Recorded:
    """The fall's force [N] at the cell over time [s], what the window makes of it, samples and readings; the cell without
    noise, now and over the rate."""

    place: str
    time: Array
    force: Array
    meant: Array
    at: Array
    read: Array
    noise: float
    cell: SlowCell
    over: tuple[SlowCell, ...]

    @property
    def peak(self) -> float:
        """Highest reading [N]."""
        return float(self.read.max())

    @property
    def missed(self) -> float:
        """Share of the true peak missed now [-]; negative where noise lifts a reading above it."""
        return 1.0 - self.peak / self.cell.true

    @property
    def strip(self) -> tuple[Reading, ...]:
        """The four readings of the strip."""
        c = self.cell
        where = "anchor A" if self.place == ANCHOR else "leash"
        return (
            Reading(f"true peak, {where}", f"{c.true / 1e3:.2f} kN"),
            Reading(f"recorded, {c.rate:.0f} Hz, {1e3 * c.averaging:.0f} ms", f"{self.peak / 1e3:.2f} kN"),
            Reading("missed now, with noise", f"{_percent(self.missed)} %"),
            Reading("missed, by the moment", f"{_percent(c.missed[0])}–{_percent(c.missed[1])} %"),
        )

    @property
    def sentence(self) -> str:
        """What the picture shows, in words."""
        c, gap = self.cell, abs(self.peak - self.cell.true)
        if self.peak > c.true:
            first = f"Noise lifts the highest reading {gap:.0f} N above the true peak: a record can be too high."
        else:
            band = f"{_percent(c.missed[0])} to {_percent(c.missed[1])} %"
            first = f"The cell shows {gap:.0f} N less than the true peak; by the moment it begins it misses {band}."
        fastest = self.over[-1].missed[1]
        if fastest > 0.5 * c.missed[1] and fastest > 0.003:
            why = f"Faster sampling does not help: the window alone takes {_percent(fastest)} %."
        elif c.missed[1] > 0.003:
            why = "The peak falls between samples."
        else:
            why = "This cell is fast enough for this fall."
        return " ".join([first, why, SAY, *([MEANT] if self.place == LEASH else [])])


def _percent(share: float) -> str:
    """A share in percent, with one decimal, never minus nought."""
    return f"{100.0 * share:.1f}".replace("-0.0", "0.0").replace("-", "−")


def fall_of(values: Mapping[str, Value], controls: Sequence[Control], table: Mapping[str, Webbing]) -> Fall:
    """The lesson rig's fall for screen values, followed long enough for the longest window to pass over the peak.

    Raises: ValueError naming what is not possible.
    """
    si = {c.name: float(values[c.name]) * c.si for c in controls if isinstance(c, Slider) and c.name in OF_FALL}
    setup = lesson_setup(material=str(values["material"]), table=table, **si)
    caught = fall(setup=setup)
    return fall(setup=setup, duration=float(caught.time[-1]) + LONGER)


def recorded_of(values: Mapping[str, Value], controls: Sequence[Control], found: Fall) -> Recorded:
    """What the cell records of a fall.

    Raises: ValueError naming what is not possible.
    """
    si = {c.name: float(values[c.name]) * c.si for c in controls if isinstance(c, Slider)}
    place = one_of("place", values["place"], (ANCHOR, LEASH))
    time, force = found.time, found.tension_a if place == ANCHOR else found.leash_force
    rate, window = si["rate"], si["window"]
    at, read = sampled(time=time, force=force, rate=rate, averaging=window, phase=si["phase"], noise=si["noise"])
    return Recorded(
        place=place,
        time=time,
        force=force,
        meant=through_cell(time=time, force=force, at=time, averaging=window),
        at=at,
        read=read,
        noise=si["noise"],
        cell=slow_cell(time=time, force=force, rate=rate, averaging=window),
        over=slow_cells(time=time, force=force, rates=OVER, averagings=[window]),
    )
