"""The fall in time: from a described setup to the forces at the anchors and on the person.

Stretch runs along webbing at kilometres a second, sideways waves at 150 to 400 m/s. So each side of the leash ring has one
tension, from the length of its polyline, while the sideways motion is resolved: nodes evenly spaced between anchor and ring
move up and down, the ring also along the line, the walker is a point on a leash. Forces are virtual work of the sides'
energies, so nothing is made or lost but what webbing, leash, air and locks take, and the ledger says how much.

Tested: span 10 to 500 m, height difference to 30 % of the span. Above about 10 % standing sag the reduction reads low at the
anchors (0.6 % at 10.5 %, 2.7 % at 16 %). The leash force is converged to about 5 %, with elements over 12 m not at all.
In a catch by the backup the lowest point is off by up to 1.5 %, person and anchors by up to 11 %.
Source of the check: a full two-dimensional model with stretch waves, tests/independent_route/.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from linelib.checks import instance, number, refuse
from linelib.models.chain import Chain, chain_of
from linelib.models.failure import NEVER, stretch_in_bay
from linelib.models.fall_results import Fall, Falls, peaks_of, series_of
from linelib.models.ledger import Ledger, ledger_of
from linelib.models.lines import GRAVITY
from linelib.models.march import March, march
from linelib.rigging import Setup

CLOSES = 0.005
AT_ONCE = 256
SPANS, STEEPEST = (5.0, 600.0), 0.5


def fall(*, setup: Setup, duration: float | None = None) -> Fall:
    """One leash fall in time, with its series and its energy ledger.

    Parameters
    ----------
    setup : Setup; the walker falls from rest, tie-in at standing height above the ring, line in balance under the weight
    duration [s], 0.05 to 20 : None ends 0.3 s after the walker first moves up again in the leash

    Returns: Fall.
    Raises: ValueError naming what is not possible, or saying that the energy ledger did not close.
    Example: 100 m of stiffness 1e6 N, pretension 3 kN, 80 kg: 8.8 kN at both anchors, 2.0 kN on the person.
    Leaves out: wind, a pull sideways, a body that is more than a point, a ring that slides along the line, the second walker.
    Source: virtual work on a reduced chain (module text); tests/independent_route/ compares it with the full model.
    """
    return falls(setups=[setup], duration=duration, series=True).series[0]


def falls(*, setups: Sequence[Setup], duration: float | None = None, series: bool | Sequence[int] = False) -> Falls:
    """Many leash falls as one batch: the same results as `fall`, as arrays with one entry a setup.

    Parameters: setups, at least one; duration [s] as in `fall`; series : keep the series of all falls, or of those numbered.
    Returns: Falls; `Falls.series` holds the falls asked for, in the order of the setups.
    Raises: ValueError as `fall`.
    Source: as `fall`.
    """
    if isinstance(setups, Setup) or not hasattr(setups, "__iter__"):
        raise refuse("setups", setups, "a list of Setups")
    setups = list(setups)
    if not setups:
        raise refuse("setups", setups, "at least one Setup")
    for i, setup in enumerate(setups):
        _refuse(f"setups[{i}]", setup)
    if duration is not None:
        duration = number("duration", duration, low=0.05, high=20.0, unit="s")
    wanted = set(range(len(setups)) if series is True else series or ())
    found = _Found(setups=setups, duration=duration, wanted=wanted)
    for begin in range(0, len(setups), AT_ONCE):
        found.compute(list(range(begin, min(begin + AT_ONCE, len(setups)))))
    rows = [found.peaks[i] for i in range(len(setups))]
    peaks = {name: np.array([row[name] for row in rows]) for name in rows[0]}
    return Falls(**peaks, series=tuple(found.series[i] for i in sorted(wanted)))


def _refuse(name: str, setup: Setup) -> None:
    instance(name, setup, Setup)
    number("span", setup.rig.span, low=SPANS[0], high=SPANS[1], unit="m for a fall")
    steepest = STEEPEST * setup.rig.span
    number("height_difference", setup.rig.height_difference, low=-steepest, high=steepest, unit="m for a fall on this span")


class _Found:
    """Results of a list of falls while it is worked through."""

    def __init__(self, *, setups: list[Setup], duration: float | None, wanted: set[int]) -> None:
        self.setups, self.duration, self.wanted = setups, duration, wanted
        self.peaks: dict[int, dict[str, float]] = {}
        self.series: dict[int, Fall] = {}

    def compute(self, which: list[int], refine: float = 1.0) -> None:
        """Compute the falls `which`; those whose ledger does not close are done again with half the time step."""
        batch = [self.setups[i] for i in which]
        chain = chain_of(batch, refine=refine)
        run = march(chain=chain, setups=batch, duration=self.duration)
        peaks = peaks_of(run, chain, batch)
        energy = np.array([s.walker.mass for s in batch]) * GRAVITY * (run.places[0, -1] - peaks.pop("lowest_z"))
        ledger = ledger_of(march=run, chain=chain, setups=batch)
        error = peaks["ledger_error"] = _error(ledger, run, energy)
        _refuse_sharing(batch, chain, run)
        again = [i for i, e in zip(which, error, strict=True) if not e <= CLOSES]
        for j, i in enumerate(which):
            self.peaks[i] = {name: float(values[j]) for name, values in peaks.items()}
            if i in self.wanted and not run.blown[j]:
                one = ledger.of(j, int(run.last[j]) + 1)
                self.series[i] = series_of(run.of(j), chain.of(j), one, self.peaks[i])
        if again and refine > 30.0:
            raise ValueError(f"the energy ledger of {len(again)} falls did not close to {CLOSES:.1%}: please report this setup")
        if again:
            self.compute(again, refine=2.0 * refine)


def _refuse_sharing(setups: Sequence[Setup], chain: Chain, run: March) -> None:
    """Before the main line parts, its stretch in that bay must not reach the backup's extra length."""
    if chain.broken is None:
        return
    for j, setup in enumerate(setups):
        if setup.rig.backup is None or run.broke[j] == NEVER:
            continue
        one, until = run.of(j), int(run.broke[j]) + 1
        used_to = one.used_to if len(one.used_to) == 1 else one.used_to[:until]
        rows = one.elastic[:until], used_to, one.paid[:until]
        reached = float(stretch_in_bay(chain.sides.of(j), chain.broken.of(j), rows).max())
        if reached > (extra := setup.rig.backup.extra_length):
            allowed = (
                f"more than the main line's stretch in that bay before it parts, {reached:.2f} m, else the two share the load"
            )
            raise refuse("extra_length", extra, allowed)


def _error(ledger: Ledger, run: March, energy: NDArray[np.float64]) -> NDArray[np.float64]:
    """How far each ledger fails to close, or what was lost comes back, whichever is more, as a share of the fall's energy."""
    inside = np.arange(len(ledger.time))[:, None] <= run.last
    gap = np.where(inside, np.abs(ledger.total - ledger.total[:1]), 0.0).max(0)
    for lost in ledger.lost:
        back = np.maximum.accumulate(lost, axis=0) - lost
        gap = np.maximum(gap, np.where(inside, back, 0.0).max(0))
    return np.where(run.blown, np.inf, gap / np.maximum(energy, 1e-6))
