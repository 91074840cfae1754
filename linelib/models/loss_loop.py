"""One load cycle of webbing that is pulled and let go again and again: how stiff it is, and what it keeps of the energy."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from linelib.checks import instance, number, refuse
from linelib.models.stretch import law_of
from linelib.webbing import Webbing

Array = NDArray[np.float64]
SAMPLES = 256
HIGHEST_STRAIN = 1.0


@dataclass(frozen=True, kw_only=True)
class LossLoop:
    """One settled cycle, arrays (samples + 1,), the last point being the first again.

    strain [-], tension [N]; `taken`, `lost` [J per metre of natural length] : work put in while it stretches, and what of it
    does not come back, the area of the loop; `stiffness` [N] : tension between the ends over strain between the ends
    """

    strain: Array
    tension: Array
    taken: float
    lost: float
    stiffness: float

    @property
    def lost_share(self) -> float:
        """Lost over taken [-], 0 for webbing that gives everything back."""
        return self.lost / self.taken


def loss_loop(*, webbing: Webbing, low: float, high: float, period: float) -> LossLoop:
    """The loop of tension over strain when the strain goes up and down as a sine, after many equal cycles.

    e = (low + high) / 2 - (high - low) / 2 * cos(2 pi t / period)
    T = Ts(e) + (r - 1) (Ts(e) - s),   ds/dt = (Ts(e) - s) / relaxation_time,   s periodic
    lost = integral of T de over one cycle = the area of the loop
    For s each harmonic of Ts is divided by 1 + i w relaxation_time.

    Parameters
    ----------
    webbing : Webbing, its slow law Ts, fast ratio r and relaxation time
    low, high [-] : ends of the strain, 0 <= low < high <= 1
    period [s] : time of one cycle, 1e-4 to 1e6

    Returns: LossLoop.
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: 1e6 N, r = 2, relaxation time 1 s, strain 0.01 to 0.02 in 2 pi s: lost = pi * 0.005^2 * 1e6 / 2 = 39.3 J/m.
    Leaves out: the plain dashpot (`loss_time`), heat, permanent set; the first cycles, which start from the slow law and
    settle; a fast release that leaves the webbing slack, where the tension is 0 and the strain shown is not its own.
    Source: standard linear solid as in models/stretch.py; a filter of first order on a periodic signal, by definition.
    """
    return loss_loops(webbing=webbing, low=low, high=high, periods=(period,))[0]


def loss_loops(*, webbing: Webbing, low: float, high: float, periods: Sequence[float]) -> list[LossLoop]:
    """`loss_loop` for many `periods` [s] of the same strain, `low` to `high` [-].

    Returns: LossLoops, one a period.
    Raises: ValueError as loss_loop.
    Source: as loss_loop.
    """
    instance("webbing", webbing, Webbing)
    low = number("low", low, low=0.0, high=HIGHEST_STRAIN)
    high = number("high", high, low=0.0, high=HIGHEST_STRAIN)
    if high <= low:
        raise refuse("high", high, f"more than low, {low:g}")
    turn = 2.0 * np.pi * np.arange(SAMPLES) / SAMPLES
    strain = 0.5 * (low + high) - 0.5 * (high - low) * np.cos(turn)
    slow = law_of(webbing).tension(strain)
    stretching = 0.5 * (high - low) * np.sin(turn) * 2.0 * np.pi / SAMPLES
    harmonics, order, top = np.fft.rfft(slow), np.arange(SAMPLES // 2 + 1), SAMPLES // 2
    loops = []
    for period in periods:
        pace = 2.0 * np.pi * webbing.relaxation_time / number("period", period, low=1e-4, high=1e6, unit="s")
        used_to = np.fft.irfft(harmonics / (1.0 + 1j * pace * order), SAMPLES)
        tension = np.maximum(slow + (webbing.fast_ratio - 1.0) * (slow - used_to), 0.0)
        work = tension * stretching
        loop = LossLoop(
            strain=np.append(strain, strain[0]),
            tension=np.append(tension, tension[0]),
            taken=float(work[: top + 1].sum()),
            lost=float(work.sum()),
            stiffness=float((tension[top] - tension[0]) / (high - low)),
        )
        loops.append(loop)
    return loops


def strain_of_pull(*, webbing: Webbing, tension: ArrayLike, time: ArrayLike) -> Array:
    """Strain over time of webbing under a given tension, at rest before: models/stretch.py read the other way round.

    ds/dt = (T - s) / (r relaxation_time), s = T at the start;   Ts(e) = (T + (r - 1) s) / r
    Between two times the tension is taken as straight and the equation is solved exactly.

    Parameters: tension [N], not negative, and time [s], rising, both (times,).
    Returns: strain [-], (times,).
    Raises: ValueError when the shapes differ or the time does not rise.
    Source: the equations of stretch.relaxed_tension with Ts eliminated.
    """
    pull, t = np.asarray(tension, float), np.asarray(time, float)
    if pull.shape != t.shape or pull.ndim != 1 or np.any(np.diff(t) <= 0):
        raise refuse("time", f"shape {t.shape}", f"rising, as many numbers as tension, {pull.shape}")
    used_to, ratio = np.empty_like(pull), webbing.fast_ratio
    used_to[0] = pull[0]
    x = np.diff(t) / (ratio * webbing.relaxation_time)
    faded = -np.expm1(-x)
    rest = 1.0 - faded / x
    for n in range(len(x)):
        used_to[n + 1] = used_to[n] + faded[n] * (pull[n] - used_to[n]) + rest[n] * (pull[n + 1] - pull[n])
    return law_of(webbing).strain((pull + (ratio - 1.0) * used_to) / ratio)


def storage_and_loss(*, stiffness: float, fast_ratio: float, relaxation_time: float, period: float) -> tuple[float, float]:
    """What a straight law with a fast part does under a sine of strain: the part in step with it, and the part ahead of it.

    storage = EA (1 + (r - 1) x^2 / (1 + x^2)),   loss = EA (r - 1) x / (1 + x^2),   x = 2 pi relaxation_time / period
    T = EA mean strain + amplitude * (storage sin + loss cos);   lost per cycle and metre = pi amplitude^2 loss

    Parameters: stiffness EA [N]; fast_ratio r [-], 1 to 20; relaxation_time, period [s].
    Returns: storage [N], loss [N].
    Valid while the tension stays above 0 all through the cycle.
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: EA = 1e6 N, r = 2, x = 1: storage 1.5e6 N, loss 0.5e6 N, the most there can be.
    Source: standard linear solid, e.g. Ferry (1980), Viscoelastic Properties of Polymers, 3rd ed., chapter 3 (from memory).
    """
    stiffness = number("stiffness", stiffness, low=1.0, high=1e15, unit="N")
    more = number("fast_ratio", fast_ratio, low=1.0, high=20.0) - 1.0
    relaxation_time = number("relaxation_time", relaxation_time, low=1e-3, high=1e9, unit="s")
    x = 2.0 * np.pi * relaxation_time / number("period", period, low=1e-4, high=1e6, unit="s")
    faded = 1.0 / (1.0 + x * x)
    return float(stiffness * (1.0 + more * (1.0 - faded))), float(stiffness * more * x * faded)
