"""How long the studies of the case take: shares of 1 to 10 choices, what would have kept a limit, and two choices at once.

    python -m tests.benchmarks.which_choice_and_keeping [--repeats 3]

Times depend on the machine and on what else runs. Not a test.
"""

from __future__ import annotations

import argparse
import time
from collections.abc import Callable
from dataclasses import replace

import numpy as np

from linelib.studies.attribution import attribute
from linelib.studies.boundary import boundary, of_two
from linelib.studies.case_rig import LINKS, LOCK, PLANNED, RIGGED, case_choices, case_knobs, case_lists, case_rig
from linelib.studies.keeping import keeping
from linelib.studies.knobs import CHANGES
from linelib.studies.mixes import Choice
from linelib.studies.shapley import interactions, shapley

SOON_ENOUGH = 1.0  # s, for 8 choices


def best(call: Callable[[], object], repeats: int) -> float:
    """The shortest of several times [s]."""
    times = []
    for _ in range(repeats):
        begin = time.perf_counter()
        call()
        times.append(time.perf_counter() - begin)
    return min(times)


def choices(count: int) -> list[Choice]:
    """The six of the case, and four more."""
    more = [
        Choice(name="span", change=lambda s: CHANGES["span"][1](s, 70.0)),
        Choice(name="place", change=lambda s: replace(s, walker=replace(s.walker, position=0.4))),
        Choice(name="height of B", change=lambda s: replace(s, rig=replace(s.rig, height_difference=5.0))),
        Choice(name="worn end", strength={"end at A": 0.9}),
    ]
    return [*case_choices(), *more][:count]


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--repeats", type=int, default=3, help="each time is the best of so many")
    repeats = parser.parse_args().repeats
    before, now = case_rig(numbers=PLANNED), case_rig(numbers=RIGGED)
    took = {}
    for k in (1, 2, 4, 6, 8, 10):
        took[k] = best(lambda k=k: attribute(reference=before, choices=choices(k), links=LINKS), repeats)  # type: ignore[misc]
        print(f"shares of {k:>2} choices, {1 << k:>4} falls      {1e3 * took[k]:8.0f} ms")
    values = np.random.default_rng(1).normal(size=(1024, 9))
    both = best(lambda: (shapley(values=values), interactions(values=values)), repeats)
    print(f"of 10 choices, the sums alone         {1e3 * both:8.1f} ms")
    knobs, lists = case_knobs(now=now), case_lists(now=now)
    one = best(lambda: keeping(now=now, outcome=LOCK, limit=0.8, knobs=knobs, lists=lists, links=LINKS), repeats)
    print(f"each of {len(knobs)} choices alone, 2 lists     {1e3 * one:8.0f} ms")
    asked = of_two(now=now, first=knobs[0], second=knobs[4], outcome=LOCK, links=LINKS)
    x, y = (np.linspace(k.low, k.high, 17) for k in (knobs[0], knobs[4]))
    two = best(lambda: boundary(outcome=asked, limit=0.8, x=x, y=y), repeats)
    print(f"boundary of two, 17 by 17             {1e3 * two:8.0f} ms")
    print(f"8 choices in under {SOON_ENOUGH:g} s: {'kept' if took[8] < SOON_ENOUGH else 'NOT kept'}.")


if __name__ == "__main__":
    main()
