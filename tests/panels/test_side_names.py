"""No line of the side view crosses a word: boxes of the words against the curves, on short, long, slack and tight lines."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from linelib.figures.side_view import SideView
from linelib.figures.word import Word
from linelib.panels.catch_panel import CatchPanel
from linelib.panels.fall_panel import FallPanel
from linelib.panels.insert_panel import InsertPanel
from linelib.panels.pull_panel import PullPanel
from linelib.panels.tightness_panel import TightnessPanel
from linelib.panels.who_pays_panel import WhoPaysPanel

NAMED = ("nobody on it", "standing", "backup")
INK = 4.0  # pixels of a word's box, above and below, that its letters leave free
CASES = [
    (PullPanel, [{"length": 40}, {"length": 200}, {"length": 60}, {"pretension": 1}, {"pretension": 10}]),
    (TightnessPanel, [{"length": 200}, {"length": 40}, {"pretension": 10}, {"weight": 120}]),
    (FallPanel, [{}, {"length": 200}, {"length": 60}, {"material": "polyamide_25mm"}, {"pretension": 1}]),
    (InsertPanel, [{}, {"place": "at B"}, {"place": "in the middle"}, {"insert_length": 0}]),
    (WhoPaysPanel, [{"sag": 10}, {"sag": 2.5}, {"depth": 40}]),
    (CatchPanel, [{}, {"extra_length": 6}, {"bays": 8}, {"position": 5}]),
]


def box(word: Word) -> tuple[float, float, float, float]:
    """Left, right, bottom and top of a word's letters [screen pixels]."""
    x, y = word.axes.transData.transform(word.place)
    wide, tall = word.size(word.text)
    left, bottom = x - word.across * wide, y - word.up * tall
    return left, left + wide, bottom + INK, bottom + tall - INK


def crossed(side: SideView) -> list[str]:
    """Words of the side view with a curve in their box, and words in each other's boxes."""
    words = [side.names[name] for name in NAMED if side.names[name].text]
    boxes = {word.text: box(word) for word in words}
    found = []
    for name, (left, right, bottom, top) in boxes.items():
        for curve in (side.chord, side.alone, side.standing, side.line_a, side.line_b, side.backup):
            points = side.axes.transData.transform(np.column_stack(curve.get_data()).reshape(-1, 2))
            for (x0, y0), (x1, y1) in pairwise(points):
                share = np.linspace(0.0, 1.0, 200)
                x, y = x0 + share * (x1 - x0), y0 + share * (y1 - y0)
                if ((x > left) & (x < right) & (y > bottom) & (y < top)).any():
                    found.append(name)
                    break
        for other, (l2, r2, b2, t2) in boxes.items():
            if other != name and l2 < right and left < r2 and b2 < top and bottom < t2:
                found.append(f"{name} on {other}")
    return found


@pytest.mark.parametrize(("kind", "settings"), CASES, ids=[kind.__name__ for kind, _ in CASES])
def test_no_line_runs_through_a_word(kind, settings) -> None:
    panel = kind()
    start = dict(panel.values)
    for values in settings:
        panel.set(**{**start, **values})
        side = panel.figure.side
        assert side.names["nobody on it"].text == "nobody on it"
        assert crossed(side) == [], (kind.__name__, values)
