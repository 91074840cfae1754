"""What a fit asks of the fall model: residuals and their slopes, for logarithms of settings and the moment of stepping off."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from linelib.rigging import Setup
from linelib.studies.log_model import SETTINGS, changed, recorded, setting_of, true_peaks
from linelib.studies.log_part import Part

Array = NDArray[np.float64]
STEP, SHIFT = 0.01, 0.002  # of a logarithm; [s] of the start
LATEST = 0.3  # [s] by which the start may move from where the log seems to have it
MOST = 60  # evaluations


class Problem:
    """Residuals and their slopes for logarithms of settings over where they begin, and the shift of the start [s]."""

    def __init__(
        self,
        *,
        part: Part,
        setup: Setup,
        vary: tuple[str, ...],
        noise: float,
        anchor: str,
        progress: Callable[[int, int], None] | None,
    ) -> None:
        self.part, self.setup, self.vary, self.noise, self.anchor = part, setup, vary, noise, anchor
        self.base = np.array([setting_of(setup, name) for name in vary])
        self.reach = np.append(np.log([SETTINGS[name].reach for name in vary]), LATEST)
        self.progress, self.done = progress, 0

    def setup_at(self, x: Array) -> Setup:
        """The setup these logarithms [-] mean."""
        return changed(self.setup, dict(zip(self.vary, self.base * np.exp(x[:-1]), strict=True)))

    def forces(self, xs: Sequence[Array]) -> Array:
        """Recorded forces [N] for each of `xs`."""
        setups, starts = [self.setup_at(x) for x in xs], [self.part.release + float(x[-1]) for x in xs]
        return recorded(setups=setups, starts=starts, at=self.part.time, averaging=self.part.averaging, anchor=self.anchor)

    def shifted(self, x: Array) -> tuple[list[Array], Array]:
        """Every logarithm [-] and the start [s] a step up and a step down, and the steps."""
        steps = np.append(np.full(len(x) - 1, STEP), SHIFT)
        return [x + sign * step * row for step, row in zip(steps, np.eye(len(x)), strict=True) for sign in (1.0, -1.0)], steps

    def peak(self, x: Array) -> tuple[float, Array]:
        """True peak of the fall [N], and its slopes over the logarithms; the start moves no peak."""
        around, steps = self.shifted(x)
        peaks = true_peaks(setups=[self.setup_at(one) for one in (x, *around)], anchor=self.anchor)
        slopes = (peaks[1::2] - peaks[2::2]) / (2.0 * steps)
        slopes[-1] = 0.0
        return float(peaks[0]), slopes

    def residuals(self, x: Array) -> Array:
        """Model less recorded over the noise [-]; a clipped sample counts only while the model is lower."""
        self.done += 1
        if self.progress is not None:
            self.progress(min(self.done, MOST), MOST)
        return self.bounded(self.forces([x])[0])

    def bounded(self, force: Array) -> Array:
        """Residuals of given forces [N]."""
        left = (force - self.part.force) / self.noise
        return np.where(self.part.clipped, np.minimum(left, 0.0), left)

    def jacobian(self, x: Array) -> Array:
        """Slopes of the residuals [-], the last over the start [1/s]: central differences, all in one batch of falls."""
        around, steps = self.shifted(x)
        force = self.forces([x, *around])
        slopes = (force[1::2] - force[2::2]).T / (2.0 * steps * self.noise)
        free = self.part.clipped & (force[0] >= self.part.force)
        return np.where(free[:, None], 0.0, slopes)


def together_of(left: Array) -> float:
    """1 + 2 * sum of the autocorrelations of the residuals up to the first that is not positive; at least 1 [-].

    Source: variance of a mean of correlated terms (any textbook on time series).
    """
    left = left - left.mean()
    size = 1 << int(np.ceil(np.log2(2 * len(left))))
    power = np.abs(np.fft.rfft(left, size)) ** 2
    carried = np.fft.irfft(power, size)[: len(left)]
    if carried[0] <= 0.0:
        return 1.0
    share = carried[1:] / carried[0]
    end = int(np.argmax(share <= 0.0)) if np.any(share <= 0.0) else len(share)
    return float(1.0 + 2.0 * share[:end].sum())
