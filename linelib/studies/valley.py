"""The ground of the lessons: an invented valley that rises near the anchors."""

from __future__ import annotations

from linelib.checks import number

Ground = tuple[tuple[float, float], ...]
RIM = 1.5  # [m] the anchors stand above the ground beside them: our choice


def valley(*, span: float, depth: float, rim: float) -> Ground:
    """An invented valley: from RIM below either anchor the ground falls to `depth` over the first `rim`, flat in between.

    Parameters: span, depth below the anchors, rim [m], at most half of the span.
    Returns: pairs (x, z) [m] as models/clearance.py takes them.
    Raises: ValueError naming what is not possible.
    Source: invented.
    """
    span = number("span", span, low=1.0, high=5000.0, unit="m")
    depth = number("depth", depth, low=RIM, high=1000.0, unit="m")
    rim = number("rim", rim, low=0.0, high=0.5 * span, unit="m")
    return ((0.0, -RIM), (rim, -depth), (span - rim, -depth), (span, -RIM))
