"""A load cell's log: read from a file, put in order, and everything odd about it said in words. Nothing is dropped unsaid."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from linelib.checks import number, refuse
from linelib.studies.log_order import clipped_samples, in_order, look_over
from linelib.studies.log_table import table_of
from linelib.tables import DATA

Array = NDArray[np.float64]
FEWEST = 20  # samples: fewer are no log
LONGEST, HIGHEST = 1e6, 1e7  # [s], [N]


@dataclass(frozen=True, kw_only=True)
class Log:
    """What a cell recorded, in order.

    time [s], rising, force [N], (samples,); clipped (samples,) : at the cell's end, the true force was at least that
    averaging [s] : window over which the cell means before each sample; None: not stated by anybody
    noticed : what was odd and what was done about it; remarks : words of the file itself; name : for the screen
    """

    time: Array
    force: Array
    averaging: float | None = None
    clipped: NDArray[np.bool_] = field(default_factory=lambda: np.zeros(0, dtype=bool))
    noticed: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    name: str = "log"

    def __post_init__(self) -> None:
        for name, limit in (("time", LONGEST), ("force", HIGHEST)):
            values = np.asarray(getattr(self, name), dtype=float)
            if values.ndim != 1 or len(values) < FEWEST:
                raise refuse(f"{name}, shape", values.shape, f"one row of at least {FEWEST} samples")
            if not np.all(np.abs(values) <= limit):
                raise refuse(name, float(values[~(np.abs(values) <= limit)][0]), f"numbers from {-limit:g} to {limit:g}")
            object.__setattr__(self, name, values)
        if len(self.time) != len(self.force):
            raise refuse("force, samples", len(self.force), f"as many as times, {len(self.time)}")
        if not np.all(np.diff(self.time) > 0.0):
            raise refuse("time", float(self.time[1:][np.diff(self.time) <= 0.0][0]), "times that rise")
        if self.averaging is not None:
            number("averaging", self.averaging, low=0.0, high=60.0, unit="s")
        if len(self.clipped) == 0:
            object.__setattr__(self, "clipped", np.zeros(len(self.time), dtype=bool))
        if len(self.clipped) != len(self.time):
            raise refuse("clipped, samples", len(self.clipped), f"as many as times, {len(self.time)}")

    @property
    def interval(self) -> float:
        """Usual time between two samples [s], the median."""
        return float(np.median(np.diff(self.time)))

    @property
    def rate(self) -> float:
        """Usual sampling rate [Hz]."""
        return 1.0 / self.interval


def read_log(
    *,
    path: Path | str,
    time_unit: str | None = None,
    force_unit: str | None = None,
    averaging: float | None = None,
    most: float | None = None,
) -> Log:
    """A log of time and force from a text file.

    Handled and told in `noticed`: neighbouring times out of order (sorted), times twice (mean of their forces), forces that
    are missing (left as a gap), gaps, uneven sampling, a flat top (marked as clipped), forces below zero, unused columns.
    Refused: two decimal signs, two recordings in one file, a force without time, text instead of a number, no unit.

    Parameters
    ----------
    path : text in UTF-8; cells separated by comma, semicolon or tab; decimal point, or comma where the separator is none
    time_unit : s or ms; force_unit : N, daN, kN, kgf or lbf; needed only where the header does not say
    averaging [s] : the cell's own window, from its data sheet; None: not known
    most [N] : the cell's highest reading; None: a flat top is looked for

    Returns: Log, [s] and [N].
    Raises: ValueError naming file, line, value and what is allowed; FileNotFoundError.
    Example: the line "12,5;800" under "time [ms];force [kgf]" is 0.0125 s and 800 * 9.80665 = 7845.32 N.
    Source: units: kilogram-force 9.80665 N (CGPM 1901), pound-force 4.4482216152605 N (from memory).
    """
    path = Path(path)
    if averaging is not None:
        averaging = number("averaging", averaging, low=0.0, high=60.0, unit="s")
    if most is not None:
        most = number("most", most, low=1.0, high=HIGHEST, unit="N")
    table = table_of(path=path, time_unit=time_unit, force_unit=force_unit)
    time, force, noticed = in_order(name=path.name, table=table, fewest=FEWEST)
    clipped, words = clipped_samples(time=time, force=force, most=most)
    noticed = (*table.noticed, *noticed, *look_over(time=time, force=force), *words)
    return Log(
        time=time,
        force=force,
        averaging=averaging,
        clipped=clipped,
        noticed=noticed,
        remarks=table.remarks,
        name=path.name,
    )


def example_log(name: str, *, averaging: float | None = 0.002, most: float | None = None) -> Log:
    """An invented log of data/logs by its name without `.csv`; `averaging` [s] as its remarks say, `most` as in `read_log`.

    Raises: ValueError listing the names there are.
    Source: computed by a model written apart from linelib.models, with noise; each file says its seed and its truth.
    """
    known = sorted(path.stem for path in (DATA / "logs").glob("*.csv"))
    if name not in known:
        raise refuse("name", name, "one of " + ", ".join(known))
    return read_log(path=DATA / "logs" / f"{name}.csv", averaging=averaging, most=most)


def log_text(log: Log) -> str:
    """What the log is and what was noticed, one line a thing; times in [s], rate in [Hz], forces in [kN].

    Source: the log itself.
    """
    lines = [
        f"log         {log.name}: {len(log.time)} samples in {log.time[-1] - log.time[0]:.1f} s",
        f"cell        {log.rate:.4g} samples a second, {window_in_words(log)}",
        f"forces      {log.force.min() / 1e3:.2f} to {log.force.max() / 1e3:.2f} kN as recorded",
    ]
    lines += [f"noticed     {words}" for words in log.noticed or ("nothing odd: in order, no gap, no flat top",)]
    if log.remarks:
        lines.append(f"the file    {log.remarks[0]}" + ("; more in its remarks" if len(log.remarks) > 1 else ""))
    return "\n".join(lines)


def window_in_words(log: Log) -> str:
    """The averaging of a log's cell [ms].

    Source: the log.
    """
    if log.averaging is None:
        return "averaging not stated"
    return f"each the mean of {1e3 * log.averaging:.3g} ms" if log.averaging > 0.0 else "no averaging"
