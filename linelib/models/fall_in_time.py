"""The fall in time: from a described setup to the forces at the anchors and on the person.

Stretch runs along webbing at kilometres a second, sideways waves at 150 to 400 m/s. So each side of the leash ring has one
tension, from the length of its polyline, while the sideways motion is resolved: nodes evenly spaced between anchor and ring
move up and down, the ring also along the line, the walker is a point on a leash. Forces are virtual work of the sides'
energies, so nothing is made or lost but what webbing, leash, air and locks take, and the ledger says how much.

Tested: span 10 to 500 m, height difference to 30 % of the span. Above about 10 % standing sag the reduction reads low at the
anchors (0.6 % at 10.5 %, 2.7 % at 16 %). The leash force is converged to about 3 %, with elements over 12 m not at all.
Source of the check: a full two-dimensional model with stretch waves, tests/independent_route/.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.checks import instance, number, refuse
from linelib.models.chain import Chain, chain_of
from linelib.models.ledger import Ledger, ledger_of
from linelib.models.lines import GRAVITY
from linelib.models.march import March, march
from linelib.rigging import Setup

Array = NDArray[np.float64]
CLOSES = 0.005
AT_ONCE = 256
WINDOW = 0.020
SPANS, STEEPEST = (5.0, 600.0), 0.5


@dataclass(frozen=True, kw_only=True)
class Fall:
    """One fall. Peaks include the standing line at t = 0.

    peak_tension_a, peak_tension_b [N] : highest tension at each anchor
    peak_leash_force [N] : highest 20 ms mean of the force on the person (converged to about 3 %)
    lowest_point [m] : lowest tie-in below the straight line between the anchors, at x = position * span; not clearance
    slip_a, slip_b [m] : natural length paid out by each lock in this fall
    standing_tension_a, standing_tension_b [N], standing_sag [m] : before the fall
    time [s], (times,); tension_a, tension_b, leash_force (20 ms mean) [N], tie_in_x, tie_in_z, ring_x, ring_z [m], (times,);
    line_x, line_z [m], (times, nodes), from A, z up
    ledger : Ledger; ledger_error [-] : how far it fails to close, as a share of the fall energy
    """

    peak_tension_a: float
    peak_tension_b: float
    peak_leash_force: float
    lowest_point: float
    slip_a: float
    slip_b: float
    standing_tension_a: float
    standing_tension_b: float
    standing_sag: float
    time: Array
    tension_a: Array
    tension_b: Array
    leash_force: Array
    tie_in_x: Array
    tie_in_z: Array
    ring_x: Array
    ring_z: Array
    line_x: Array
    line_z: Array
    ledger: Ledger
    ledger_error: float


@dataclass(frozen=True, kw_only=True)
class Falls:
    """Many falls: the peaks of `Fall` as arrays (falls,), and the falls themselves where series were asked for."""

    peak_tension_a: Array
    peak_tension_b: Array
    peak_leash_force: Array
    lowest_point: Array
    slip_a: Array
    slip_b: Array
    standing_tension_a: Array
    standing_tension_b: Array
    standing_sag: Array
    ledger_error: Array
    series: tuple[Fall, ...] = ()


def fall(*, setup: Setup, duration: float | None = None) -> Fall:
    """One leash fall in time, with its series and its energy ledger.

    Parameters
    ----------
    setup : Setup; the walker falls from rest, tie-in at standing height above the ring, line in balance under the weight
    duration [s], 0.05 to 20 : None ends 0.3 s after the walker first moves up again in the leash

    Returns: Fall.
    Raises: ValueError naming what is not possible, or saying that the energy ledger did not close.
    Example: 100 m of stiffness 1e6 N, pretension 3 kN, 80 kg: 8.8 kN at both anchors, 1.9 kN on the person.
    Leaves out: wind, a pull sideways, a body that is more than a point, a ring that slides along the line, the second walker.
    Source: virtual work on a reduced chain (module text); tests/independent_route/ compares it with the full model.
    """
    return falls(setups=[setup], duration=duration, series=True).series[0]


def falls(*, setups: Sequence[Setup], duration: float | None = None, series: bool = False) -> Falls:
    """Many leash falls as one batch: the same results as `fall`, as arrays with one entry a setup.

    Parameters: setups, at least one; duration [s] as in `fall`; series : also keep every fall's series.
    Returns: Falls.
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
    found: dict[int, tuple[dict[str, float], Fall | None]] = {}
    for begin in range(0, len(setups), AT_ONCE):
        which = list(range(begin, min(begin + AT_ONCE, len(setups))))
        _compute(setups, which, duration, series, found, refine=1.0)
    rows = [found[i] for i in range(len(setups))]
    peaks = {name: np.array([row[0][name] for row in rows]) for name in rows[0][0]}
    return Falls(**peaks, series=tuple(row[1] for row in rows if row[1] is not None))


def _refuse(name: str, setup: Setup) -> None:
    instance(name, setup, Setup)
    number("span", setup.rig.span, low=SPANS[0], high=SPANS[1], unit="m for a fall")
    steepest = STEEPEST * setup.rig.span
    number("height_difference", setup.rig.height_difference, low=-steepest, high=steepest, unit="m for a fall on this span")


def _compute(
    setups: Sequence[Setup],
    which: list[int],
    duration: float | None,
    series: bool,
    found: dict[int, tuple[dict[str, float], Fall | None]],
    refine: float,
) -> None:
    """Fill `found` for the falls `which`; those whose ledger does not close are done again with half the time step."""
    batch = [setups[i] for i in which]
    chain = chain_of(batch, refine=refine)
    run = march(chain=chain, setups=batch, duration=duration)
    last = int(run.last.max())
    steps = np.arange(1, last + 1) if series else np.unique(np.linspace(1, last, 16).astype(np.intp))
    ledger = ledger_of(march=run, chain=chain, setups=batch, steps=steps)
    peaks = _peaks(run, chain, batch)
    inside = np.concatenate([[0], steps])[:, None] <= run.last
    energy = np.array([s.walker.mass for s in batch]) * GRAVITY * (run.places[0, -1] - peaks.pop("lowest_z"))
    gap = np.where(inside, np.abs(ledger.total - ledger.total[:1]), 0.0).max(0)
    peaks["ledger_error"] = gap / np.maximum(energy, GRAVITY * 1e-3)
    again = [i for i, error in zip(which, peaks["ledger_error"], strict=True) if not error < CLOSES]
    if again and refine > 30.0:
        raise ValueError(f"the energy ledger of {len(again)} falls did not close to {CLOSES:.1%}: please report this setup")
    for j, i in enumerate(which):
        row = {name: float(values[j]) for name, values in peaks.items()}
        found[i] = (row, _series(run, chain, ledger, j, row) if series else None)
    if again:
        _compute(setups, again, duration, series, found, refine=2.0 * refine)


def _peaks(run: March, chain: Chain, setups: Sequence[Setup]) -> dict[str, Array]:
    inside = np.arange(len(run.pull))[:, None] <= run.last
    column = np.arange(len(setups))
    pull = np.where(inside[:, None], run.pull, 0.0).max(0)
    lowest = np.where(inside, run.places[:, -1], np.inf).min(0)
    position = np.array([s.walker.position for s in setups])
    return {
        "peak_tension_a": pull[0],
        "peak_tension_b": pull[1],
        "peak_leash_force": np.where(inside, _mean_force(run, chain), 0.0).max(0),
        "lowest_point": chain.rise * position - lowest,
        "slip_a": run.paid[run.last, 0, column],
        "slip_b": run.paid[run.last, 1, column],
        "standing_tension_a": run.pull[0, 0],
        "standing_tension_b": run.pull[0, 1],
        "standing_sag": chain.rise * chain.ring_x / chain.span - chain.z[chain.ring],
        "lowest_z": lowest,
    }


def _mean_force(run: March, chain: Chain) -> Array:
    """Mean leash force over the 20 ms around each step [N], (steps, falls): impulse, straight between half steps."""
    impulse = np.concatenate([0.0 * run.leash[:1], np.cumsum(run.leash[1:], axis=0)])
    reach = 0.5 * WINDOW / chain.step
    at = np.arange(len(impulse))[:, None] + 0.5
    column = np.arange(impulse.shape[1])

    def until(x: Array) -> Array:
        x = np.clip(x, 0.0, len(impulse) - 1.0)
        k = np.minimum(x.astype(np.intp), len(impulse) - 2)
        low = impulse[k, column]
        return np.asarray(low + (x - k) * (impulse[k + 1, column] - low))

    return (until(at + reach) - until(at - reach)) / (2.0 * reach)


def _series(run: March, chain: Chain, ledger: Ledger, j: int, row: dict[str, float]) -> Fall:
    end = int(run.last[j]) + 1
    places = run.places[:end, :, j]
    ring_x = places[:, -3]
    a, b = np.cumsum(chain.share[: chain.ring, j]), np.cumsum(chain.share[chain.ring :, j])
    fraction_a, fraction_b = np.append(0.0, a), b
    line_x = np.concatenate([ring_x[:, None] * fraction_a, ring_x[:, None] + (chain.span[j] - ring_x[:, None]) * fraction_b], 1)
    return Fall(
        **row,
        time=np.arange(end) * chain.step[j],
        tension_a=run.pull[:end, 0, j],
        tension_b=run.pull[:end, 1, j],
        leash_force=_mean_force(run, chain)[:end, j],
        tie_in_x=places[:, -2],
        tie_in_z=places[:, -1],
        ring_x=ring_x,
        ring_z=places[:, chain.ring],
        line_x=line_x,
        line_z=places[:, : len(chain.z)],
        ledger=ledger.of(j, end),
    )
