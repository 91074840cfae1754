"""How long falls over ranges take, as ratios to a single fall: a measurement to read, not a test.

python -m tests.benchmarks.falls_over_ranges [--repeats 5]
"""

from __future__ import annotations

import argparse

from linelib import falls, webbings
from linelib.panels.controls import starts
from linelib.panels.how_sure_panel import HowSurePanel
from linelib.panels.how_sure_settings import how_sure_controls, inputs_of, middles_of
from linelib.studies.how_sure import how_sure
from linelib.studies.lesson_unsure import unsure_setup
from linelib.studies.what_matters import what_matters
from tests.benchmarks.falls_against_solve_ivp import best

THOUSAND_IN = 0.5  # s


def main() -> None:
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--repeats", type=int, default=5, help="each time is the best of so many")
    repeats = parser.parse_args().repeats
    controls, table = how_sure_controls(), webbings()
    four = inputs_of(starts(controls), controls)
    eight = inputs_of({**starts(controls), "rest": "unknown"}, controls)

    def setup_at(case):
        return unsure_setup(case, table=table)

    one = best(lambda: falls(setups=[setup_at(middles_of(four))]), 4 * repeats)

    def line(name: str, seconds: float, count: int) -> None:
        print(f"{name:<46}{1e3 * seconds:>10.0f}{seconds / one:>12.1f}{seconds / count / one:>13.3f}")

    print(f"{'best of several':<46}{'all [ms]':>10}{'over one':>12}{'each over':>13}")
    line("one fall, peaks", one, 1)
    for count in (256, 1024):
        took = best(lambda n=count: how_sure(inputs=four, setup_at=setup_at, count=n), repeats)
        line(f"how_sure, 4 unknowns, {count} falls", took, count)
    kept = took <= THOUSAND_IN
    line("how_sure, 8 unknowns, 1024 falls", best(lambda: how_sure(inputs=eight, setup_at=setup_at), repeats), 1024)
    for inputs, rows in ((four, 256), (eight, 256), (eight, 1024)):
        count = rows * (len(inputs) + 2)
        seconds = best(lambda i=inputs, r=rows: what_matters(inputs=i, setup_at=setup_at, count=r), max(1, repeats // 2))
        line(f"what_matters, {len(inputs)} unknowns, {rows} rows, {count} falls", seconds, count)
    panel, mass = HowSurePanel(), iter(range(60, 100))
    line("a move of the panel, 256 falls and a picture", best(lambda: panel.set(mass=next(mass)), 3 * repeats), 257)
    print(f"1024 falls over ranges in at most {1e3 * THOUSAND_IN:.0f} ms: {'kept' if kept else 'NOT kept'}.")


if __name__ == "__main__":
    main()
