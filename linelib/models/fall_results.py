"""Results of falls in time: the peaks, the series, and how they are read from what was marched."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray

from linelib.models.chain import Chain
from linelib.models.failure import NEVER
from linelib.models.ledger import Ledger
from linelib.models.march import March
from linelib.models.shape import Shape, shape_of
from linelib.rigging import Setup

Array = NDArray[np.float64]
WINDOW = 0.020


@dataclass(frozen=True, kw_only=True)
class Fall:
    """One fall. Peaks include the standing line at t = 0.

    peak_tension_a, peak_tension_b [N] : highest tension at each anchor
    peak_leash_force [N] : highest 20 ms mean of the force on the person (converged to about 5 %)
    lowest_point [m] : lowest tie-in below the straight line between the anchors, at x = position * span; not clearance
    slip_a, slip_b [m] : natural length paid out by each lock in this fall
    standing_tension_a, standing_tension_b [N], standing_sag [m] : before the fall
    failure_time [s] : when the main line parted, -1 if it held; catch_tension_a, catch_tension_b, catch_leash_force [N] : the
    highest once the backup is taut after that, in what holds at each anchor (the backup where the bay beside it parted) and on
    the person; 0 if it held
    time [s], (times,); tension_a, tension_b, leash_force (20 ms mean) [N], tie_in_x, tie_in_z, ring_x, ring_z [m], (times,);
    line_x, line_z [m], (times, nodes), from A, z up; alone : Shape of the line with nobody on it
    ledger : Ledger; ledger_error [-] : how far it fails to close, or a loss comes back, as a share of the fall energy
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
    failure_time: float
    catch_tension_a: float
    catch_tension_b: float
    catch_leash_force: float
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
    alone: Shape
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
    failure_time: Array
    catch_tension_a: Array
    catch_tension_b: Array
    catch_leash_force: Array
    ledger_error: Array
    series: tuple[Fall, ...] = ()

    def part(self, begin: int, end: int) -> Falls:
        """The peaks of the falls from number `begin` to before `end`, without series."""
        return Falls(**{f.name: getattr(self, f.name)[begin:end] for f in fields(self) if f.name != "series"})


def peaks_of(run: March, chain: Chain, setups: Sequence[Setup]) -> dict[str, Array]:
    """Everything of `Falls` but the ledger, and `lowest_z` [m], the lowest tie-in above A; arrays (falls,).

    Source: definitions in `Fall`.
    """
    number = np.arange(len(run.pull))[:, None]
    inside = number <= run.last
    caught = inside & _in_catch(run, chain, number)
    column = np.arange(len(setups))
    pull = np.where(inside[:, None], run.pull, 0.0).max(0)
    lowest = np.where(inside, run.places[:, -1], np.inf).min(0)
    position = np.array([s.walker.position for s in setups])
    mean_force = _mean_force(run, chain)
    catch = np.where(caught[:, None], run.pull, 0.0).max(0)
    return {
        "peak_tension_a": pull[0],
        "peak_tension_b": pull[1],
        "peak_leash_force": np.where(inside, mean_force, 0.0).max(0),
        "lowest_point": chain.rise * position - lowest,
        "slip_a": run.paid[run.last, 0, column],
        "slip_b": run.paid[run.last, 1, column],
        "standing_tension_a": run.pull[0, 0],
        "standing_tension_b": run.pull[0, 1],
        "standing_sag": chain.rise * chain.ring_x / chain.span - chain.z[chain.ring],
        "failure_time": np.where(run.broke == NEVER, -1.0, run.broke * chain.step),
        "catch_tension_a": catch[0],
        "catch_tension_b": catch[1],
        "catch_leash_force": np.where(caught, mean_force, 0.0).max(0),
        "lowest_z": lowest,
    }


def _in_catch(run: March, chain: Chain, number: NDArray[np.intp]) -> NDArray[np.bool_]:
    """The steps from the one on at which what parted is taut again, by the backup, after it has gone slack, (steps, falls);
    where it never goes slack or is never taut again, all after the failure."""
    after = number > run.broke
    if chain.broken is None:
        return after
    pull = np.where(chain.broken.parts, run.pull, 0.0).max(1)
    slack = np.logical_or.accumulate(after & (pull <= 0.0), axis=0)
    caught = np.logical_or.accumulate(slack & (pull > 0.0), axis=0)
    return np.where(caught.any(0), caught, after)


def _mean_force(run: March, chain: Chain) -> Array:
    """Mean leash force over the 20 ms around each step [N], (steps, falls): impulse, straight between half steps."""
    slack = int(np.argmax(run.leash.max(1) > 0.0)) - int(WINDOW / chain.step.min()) - 2
    begin = max(slack, 0)  # nothing pulls before
    impulse = np.cumsum(run.leash[begin:], axis=0)
    reach = 0.5 * WINDOW / chain.step
    at = np.arange(len(impulse))[:, None] + 0.5
    column = np.arange(impulse.shape[1])

    def until(x: Array) -> Array:
        x = np.clip(x, 0.0, len(impulse) - 1.0)
        k = np.minimum(x.astype(np.intp), len(impulse) - 2)
        low = impulse[k, column]
        return np.asarray(low + (x - k) * (impulse[k + 1, column] - low))

    mean = (until(at + reach) - until(at - reach)) / (2.0 * reach)
    return np.concatenate([np.zeros((begin, impulse.shape[1])), mean])


def series_of(run: March, chain: Chain, ledger: Ledger, peaks: dict[str, float]) -> Fall:
    """The whole series of a batch of one fall, forces in [N], lengths in [m].

    Source: definitions in `Fall`.
    """
    j = 0
    end = int(run.last[j]) + 1
    places = run.places[:end, :, j]
    ring_x = places[:, -3]
    a, b = np.cumsum(chain.share[: chain.ring, j]), np.cumsum(chain.share[chain.ring :, j])
    fraction_a, fraction_b = np.append(0.0, a), b
    line_x = np.concatenate([ring_x[:, None] * fraction_a, ring_x[:, None] + (chain.span[j] - ring_x[:, None]) * fraction_b], 1)
    return Fall(
        **peaks,
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
        alone=shape_of(chain.lines.pieces, chain.lines.horizontal, chain.lines.vertical),
        ledger=ledger,
    )
