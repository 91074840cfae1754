"""A few numbers of the lessons on soft inserts and on who pays, as they were when written. Regression only, no validation."""

from __future__ import annotations

import pytest

from linelib import falls, webbings
from linelib.studies.held_equal import HELD
from linelib.studies.insert_compare import hold, insert_webbing, pair
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.who_pays import placed, tensioned, tensions_of

TABLE = webbings()
WITHIN = {"anchors": 0.01, "person": 0.05, "lowest": 0.01}


def close(found, i, a, b, person, lowest):
    assert found.peak_tension_a[i] == pytest.approx(a, rel=WITHIN["anchors"])
    assert found.peak_tension_b[i] == pytest.approx(b, rel=WITHIN["anchors"])
    assert found.peak_leash_force[i] == pytest.approx(person, rel=WITHIN["person"])
    assert found.lowest_point[i] == pytest.approx(lowest, rel=WITHIN["lowest"])


def test_five_metres_of_insert_compared_in_three_ways():
    plain, web = lesson_setup(table=TABLE, pretension=1e3), insert_webbing(table=TABLE)
    pairs = [(held, pair(plain=plain, webbing=web, length=5.0, place="at A", held=held)) for held in HELD]
    found = falls(setups=[plain, *(hold([both], held)[0] for held, both in pairs)])
    close(found, 0, 8.22e3, 8.22e3, 2.34e3, 7.87)
    close(found, 1, 6.56e3, 6.62e3, 2.14e3, 8.67)
    close(found, 2, 7.07e3, 7.10e3, 2.04e3, 7.92)
    close(found, 3, 4.68e3, 4.85e3, 3.49e3, 18.90)


def test_four_and_eight_per_cent_of_sag_in_the_middle_and_close_to_a():
    setup = lesson_setup(table=TABLE)
    tensions = tensions_of(setup=setup)
    rigs = [tensioned(setup, tensions.at(share)) for share in (0.04, 0.08)]
    found = falls(setups=[placed(rig, p) for p in (0.5, 0.08) for rig in rigs])
    assert found.peak_tension_a / 1e3 == pytest.approx([9.1, 7.2, 9.2, 6.6], rel=0.01)
    assert found.peak_leash_force / 1e3 == pytest.approx([2.2, 2.8, 3.0, 3.6], rel=0.05)
    assert found.lowest_point == pytest.approx([7.0, 10.8, 4.3, 6.1], rel=0.015)
