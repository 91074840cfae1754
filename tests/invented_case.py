"""An invented case with everything in it, and a picture: what the tests of the papers start from."""

from __future__ import annotations

import io
from dataclasses import replace
from functools import cache
from typing import Any

from PIL import Image

from linelib.papers import Assumption, CaseFile, Cause, Change, Computed, Evidence, NamedSetup, Step
from linelib.rigging import Failure
from linelib.studies.lesson_rig import lesson_setup


@cache
def picture(width: int = 640, height: int = 240) -> bytes:
    """A PNG with a slope of greys: every column has its own shade."""
    image = Image.new("L", (width, height))
    image.putdata([round(255 * x / width) for _ in range(height) for x in range(width)])
    out = io.BytesIO()
    image.save(out, "PNG")
    return out.getvalue()


EVIDENCE = (
    Evidence(kind="told", words="Two sharp noises were heard before the line parted.", source="person on side A"),
    Evidence(kind="told", words="The line was much tighter than on other days.", believed="doubted", source="walker"),
    Evidence(kind="told", words="The tail was 2 m long.", believed="wrong", source="rigger"),
    Evidence(kind="photographed", words="The webbing lay with one edge folded over in the lock at A.", source="two pictures"),
    Evidence(kind="measured", words="Span: 100 m, give or take 1 m.", source="tape"),
    Evidence(kind="measured", words="The tail at A was 0.4 m long.", source="tape, before opening"),
    Evidence(
        kind="inferred",
        words="The part of the width that carried was smaller than the whole.",
        source="fold, end torn in steps",
    ),
    Evidence(kind="missing", words="The file of the load cell for the second fall.", source="device was switched off"),
)
ORDER = (
    Step(words="The line was put up and tensioned.", when="morning"),
    Step(words="First fall: held, one noise.", when="about noon"),
    Step(words="Second fall: held, a sharp noise.", sure="likely"),
    Step(words="Third fall: the main line parted at A, the backup held.", when="afternoon"),
)
CAUSES = (
    Cause(
        rank=1,
        words="Webbing seated with one edge tight tore in steps.",
        for_it="fold, noises",
        against="no picture before",
    ),
    Cause(rank=1, words="Worn webbing was weaker everywhere.", for_it="age told", against="torn ends look fresh"),
    Cause(rank=2, words="An unusually hard fall.", for_it="none", against="leash and height as always"),
)
COMPUTED = (
    Computed(
        title="Peaks of three falls",
        words="fall 1     6.1 to 7.4 kN\nfall 2     6.0 to 7.9 kN\nfall 3     6.2 to 8.1 kN",
    ),
    Computed(title="Weighing", words="tight edge   0.71\nworn webbing 0.29", picture=picture()),
)
ASSUMPTIONS = (
    Assumption(name="pretension", low=2.5, high=4.0, unit="kN", why="told only; a pluck was not done"),
    Assumption(name="share of the width that sat tight", low=0.2, high=1.0, unit="-", why="read from a photograph"),
)


def invented_case(**changes: Any) -> CaseFile:
    """The invented case, and what differs from it."""
    setup = lesson_setup()
    known: dict[str, Any] = {
        "title": "Main line parted at the lock, backup held",
        "date": "an invented spring",
        "evidence": EVIDENCE,
        "order": ORDER,
        "assumptions": ASSUMPTIONS,
        "computed": COMPUTED,
        "causes": CAUSES,
        "changes": (
            Change(
                words="Look at the seat of the webbing under load before walking.",
                keeps="strength at the lock",
                cost="ten minutes",
            ),
            Change(words="Stop after any noise nobody can explain.", keeps="all", cost="the day may be over"),
        ),
        "not_known": ("How tight the line was.", "Whether the first noise was a tear."),
        "affected": ("Crews whose webbing can shift in the lock while it is loaded.",),
        "do_now": ("After an unknown noise: stop, walker in gently, load off with independent tackle, then look.",),
        "setups": (
            NamedSetup(name="as told", setup=setup),
            NamedSetup(
                name="tighter, parts at A", setup=replace(lesson_setup(pretension=4e3), failure=Failure(bay=0, tension=7e3))
            ),
        ),
        "seed": 7,
    }
    return CaseFile(**{**known, **changes})
