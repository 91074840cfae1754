"""Five rivals after a line parted at its lock: what was at work beside strips that sat tight. The list is not complete."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from linelib.checks import instance, number
from linelib.studies.explanations import Explanation, Range
from linelib.studies.tear_stages import Stages, seated_stages
from linelib.webbing import Webbing

Array = NDArray[np.float64]
GROUP, UNEVEN, WEAKER, BEFORE, OVERLOAD = (
    "one group tore, rest sound",
    "rest seated unevenly",
    "edge or heat: all weaker",
    "damaged before the day",
    "overload, webbing sound",
)
NONE = "none of these"
TIGHT = Range(name="tight", words="tight share", unit="%", factor=100.0,
              values=(0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5))  # fmt: skip
SLACK = Range(name="slack", words="rest longer by", unit="mm", factor=1e3, values=(1e-3, 1.5e-3, 2e-3, 3e-3, 5e-3))
SHARING = Range(name="sharing", words="sharing length", unit="cm", factor=100.0, values=(0.05, 0.1, 0.2))
FOLDED = (TIGHT, SLACK, SHARING)
SPREAD = Range(name="spread", words="rest uneven by", unit="mm", factor=1e3, values=(1e-3, 2e-3, 3e-3, 5e-3, 8e-3))
LEFT = Range(name="left", words="strength left", unit="%", factor=100.0,
             values=(0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9))  # fmt: skip
GONE = Range(name="gone", words="gone before", unit="%", factor=100.0, values=(0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8))
TIMES = Range(name="times", words="loads above those computed, times", values=(1.0, 1.25, 1.5, 1.75, 2.0))


def rivals(*, webbing: Webbing, variation: float = 0.0) -> tuple[Explanation, ...]:
    """The five explanations for one webbing, in the order in which they are told; ranges: our choice, no source.

    1. A tight share of the width tore; the rest was longer by a step, and sound.
    2. The same, and the rest sat unevenly: it tears one strip after the other.
    3. As 1, and everything in the lock had lost strength by one factor: an edge, heat.
    4. As 1, on the width that was left: a share had torn before the first load of the story.
    5. Sound webbing seated square; all loads were higher than computed, by one factor.

    Parameters: webbing, its law and breaking strength; variation [-] : scatter of the strips' strengths (models/bundle.py).
    Returns: Explanations; loads of their stages over the sound strength [-].
    Raises: ValueError naming the argument, its value and what is allowed.
    Source: mechanism of models/strips.py. Leaves out: every cause nobody thought of; damage that grows from load to load.
    """
    instance("webbing", webbing, Webbing)
    number("variation", variation, low=0.0, high=1.0)

    def step(p: Mapping[str, Array]) -> Stages:
        return seated_stages(
            webbing=webbing, tight=p["tight"], slack=p["slack"], spread=0.0, sharing_length=p["sharing"], variation=variation
        )

    def uneven(p: Mapping[str, Array]) -> Stages:
        return seated_stages(
            webbing=webbing, tight=p["tight"], slack=None, spread=p["spread"], sharing_length=p["sharing"], variation=variation
        )

    def weaker(p: Mapping[str, Array]) -> Stages:
        return step(p).lessened(left=p["left"])

    def before(p: Mapping[str, Array]) -> Stages:
        return step(p).lessened(gone=p["gone"])

    made = (
        (GROUP, "a tight share tore, the rest was sound", FOLDED, step),
        (UNEVEN, "a tight share tore, and the rest sat unevenly", (TIGHT, SPREAD, SHARING), uneven),
        (WEAKER, "an edge or heat had weakened all that is in the lock", (*FOLDED, LEFT), weaker),
        (BEFORE, "a share was torn before the day", (*FOLDED, GONE), before),
        (OVERLOAD, "sound webbing, loads higher than computed", (TIMES,), _sound),
    )
    return tuple(Explanation(name=name, words=words, ranges=ranges, sequence=make) for name, words, ranges, make in made)


def _sound(p: Mapping[str, Array]) -> Stages:
    """Square webbing parts at its strength; loads above those computed are the same as so much less strength."""
    one = np.ones((len(p["times"]), 1))
    return Stages(load=one / p["times"][:, None], torn=0.0 * one, carries=one)
