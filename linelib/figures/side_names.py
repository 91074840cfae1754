"""Names of what the side view shows, put where no line crosses them."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from linelib.figures.word import Word

Array = NDArray[np.float64]
Line = tuple[Array, Array]
GAP = 2.0  # screen pixels between a curve and the word on it
CORNER = 0.3  # share of the axis from which on the lower edge holds other words


class SideNames:
    """Places words beside curves x, z [m]; `pixel` is what a screen pixel is along and up [m], `floor` the lowest height,
    `crowded` whether the lower edge holds other words on the left, too."""

    def __init__(self, words: dict[str, Word]) -> None:
        self.words = words
        self.pixel, self.floor, self.reach, self.crowded = (1.0, 1.0), 0.0, 1.0, False

    def fit(self, *, pixel: tuple[float, float], floor: float, reach: float) -> None:
        """Take the limits of the axes [m]."""
        self.pixel, self.floor, self.reach = pixel, floor, reach

    def clear(self, name: str) -> None:
        """Say nothing."""
        self.words[name].put("", 0.0, 0.0)

    def on(self, name: str, share: float, curves: Sequence[Line], chord: Line) -> None:
        """On curves that hang under the anchors' straight line; where it does not fit between them, over all."""
        if not self.between(name, share, curves, chord):
            span = float(chord[0][-1])
            places = self._covered(name, share, span)
            high = max(float(np.interp(places, *one).max()) for one in (*curves, chord))
            self.words[name].put(name, share * span, high + GAP * self.pixel[1])

    def between(self, name: str, share: float, below: Sequence[Line], above: Line) -> bool:
        """On the curves `below`, if that is clear of the curve `above`; returns whether it is, else nothing is said."""
        span, word = float(above[0][-1]), self.words[name]
        places = self._covered(name, share, span)
        low, high = max(float(np.interp(places, *one).max()) for one in below), float(np.interp(places, *above).min())
        room = high - low > (word.size(name)[1] - GAP) * self.pixel[1]
        word.put(name if room else "", share * span, low)
        return room

    def under(self, name: str, shares: tuple[float, ...], backup: Line, line: Line, tie_in: tuple[float, float]) -> None:
        """Under everything that is near; at the first of `shares` of the span where other words leave room for it."""
        span, word, up = float(line[0][-1]), self.words[name], self.pixel[1]
        self.clear(name)
        for share in shares:
            places = self._covered(name, share, span)
            near = (backup[0] >= places[0]) & (backup[0] <= places[-1]) & np.isfinite(backup[1])
            if not near.any():
                continue
            low = min(float(backup[1][near].min()), float(np.interp(places, *line).min()))
            if places[0] <= tie_in[0] <= places[-1]:
                low = min(low, tie_in[1] - 6.0 * up)
            rows = 2.0 if self.crowded or places[-1] > CORNER * self.reach else 1.0
            free = low - rows * word.size(name)[1] * up > self.floor
            if free or not word.text:
                word.put(name, share * span, low - 0.5 * GAP * up)
            if free:
                return

    def _covered(self, name: str, share: float, span: float) -> Array:
        """Places along the span that a word in the middle of `share` covers [m]."""
        half = (0.5 * self.words[name].size(name)[0] + 3.0) * self.pixel[0]
        return np.linspace(max(share * span - half, 0.0), min(share * span + half, span), 33)
