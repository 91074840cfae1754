"""Falls of the full model as a fast cell without noise records them: how far a fit of the reduced model is off by itself.

Run as `python -m tests.independent_route.log_bias_cases` to compute log_bias_cases.json again: half a minute. Invented.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from linelib import Setup
from linelib.studies.cell import sampled
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.log_file import Log
from linelib.studies.log_model import changed

from .make_logs import WINDOW, pull

FILE = Path(__file__).with_name("log_bias_cases.json")
RATE, SECONDS = 50.0, 4.5

RIGS: dict[str, dict[str, Any]] = {
    "HMPE, 100 m": {},
    "HMPE, 50 m": {"length": 50.0},
    "HMPE, 150 m": {"length": 150.0, "pretension": 5000.0, "leash_length": 2.2, "standing_height": 1.4},
    "HMPE, near A": {"position": 0.2},
    "polyester, 60 m": {"material": "polyester_25mm", "length": 60.0, "pretension": 2500.0},
    "polyamide, 40 m": {"material": "polyamide_25mm", "length": 40.0},
}
TRUTH = {"stiffness": 1.1, "leash_damping": 400.0}
TIGHTER = 0.9  # true pretension over the believed one


def believed(name: str) -> Setup:
    """Where a fit begins."""
    return lesson_setup(**RIGS[name])


def truth(name: str) -> dict[str, float]:
    """What fell."""
    return {**TRUTH, "pretension": TIGHTER * (believed(name).rig.pretension or 0.0)}


def computed(name: str, seconds: float = SECONDS) -> list[float]:
    """Readings [N] of the cell, to a tenth, until `seconds` after the step off."""
    time, force = pull(changed(believed(name), truth(name)), seconds, 80)
    return [round(float(f), 1) for f in sampled(time=time, force=force, rate=RATE, averaging=WINDOW)[1]]


def stored(name: str) -> Log:
    """The kept log."""
    force = json.loads(FILE.read_text(encoding="utf-8"))[name]
    return Log(time=[i / RATE for i in range(len(force))], force=force, averaging=WINDOW, name=name)  # type: ignore[arg-type]


if __name__ == "__main__":
    FILE.write_text(json.dumps({name: computed(name) for name in RIGS}, indent=None) + "\n", encoding="utf-8")
