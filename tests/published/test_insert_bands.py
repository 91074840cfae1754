"""Lessons 6 and 10 against printed stretch: the insert's band, a fast cycle over a slow one, and a backup's extra length.

Sources; status of all: read in a public source, a datum of a material, not of these webbings; edition not noted.
SLINGS  Printed stretch tables of flat web slings, several makers, not named; rated capacity a fifth of breaking (practice of
        WSTDA-WS-1). At rated capacity polyamide 5 to 10 %, polyester 3 to 7 %; polyamide at breaking 30 to 33 %.
ROPES   MoorPy property library, EA over breaking load at mean load Lm (of breaking): static polyester 14, polyamide 5,
        HMPE 56; dynamic 11.6 + 40 Lm, 2.08 + 39 Lm, 59 + 54 Lm.

Sling tables are webbing, pulled slowly; ropes are not webbing and a cyclic test is not a fall. test_webbing_bands.py holds
the rows of the data to the same bands; here it is what the lessons make of them.
"""

from __future__ import annotations

import pytest

from linelib import Backup, Rig, Segment, least_extra_length, webbings
from linelib.models.loss_loop import loss_loops
from linelib.models.stretch import law_of
from linelib.studies.insert_compare import insert_ends, insert_laws
from linelib.studies.lesson_rig import INSERT
from linelib.studies.soft_insert import polyamide_stiffness
from linelib.tables import webbing_notes
from tests.setups import straight

SLINGS = {"polyamide": (0.05, 0.10), "polyester": (0.03, 0.07)}
ROPES = {"polyester": (14.0, 11.6, 40.0), "polyamide": (5.0, 2.08, 39.0), "HMPE": (56.0, 59.0, 54.0)}
ROWS, NOTES = webbings(), webbing_notes()
FIBRE = {row: note.fibres[0] for row, note in NOTES.items() if len(note.fibres) == 1}
SLING_ROWS = [row for row, fibre in FIBRE.items() if fibre in SLINGS]


def rope_ratio(fibre, mean):
    static, at_rest, grows = ROPES[fibre]
    return (at_rest + grows * mean) / static


@pytest.mark.parametrize("row", FIBRE)
def test_fast_cycle_over_slow_cycle(row):
    """Loops about 4.5 kN, a millisecond and a day long: ratio of their stiffness within that of ropes at 3 to 6 kN."""
    web = ROWS[row]
    low, high = (float(law_of(web).strain(tension)) for tension in (4.4e3, 4.6e3))
    fast, slow = (loop.stiffness for loop in loss_loops(webbing=web, low=low, high=high, periods=(1e-3, 86400.0)))
    least, most = (rope_ratio(FIBRE[row], tension / web.breaking_strength) for tension in (3e3, 6e3))
    assert slow == pytest.approx(200.0 / (high - low), rel=1e-3)
    assert least <= fast / slow <= most


def test_band_of_the_insert_takes_in_what_is_printed():
    """Stiffness at a fifth of breaking, over breaking, from the softest sling pulled slowly, 2.0, to the stiffest pulled
    fast as a rope is, 4.0 x 1.81 at 5 kN = 7.2; the insert as it is taken lies between, pulled slowly and fast."""
    row = ROWS[INSERT]
    pull, softest, stiffest = row.breaking_strength / 5.0, 0.2 / SLINGS["polyamide"][1], 0.2 / SLINGS["polyamide"][0]
    ratio = rope_ratio("polyamide", 5e3 / row.breaking_strength)

    def fast(web):
        return web.fast_ratio * pull / float(law_of(web).strain(pull)) / row.breaking_strength

    laws = insert_laws(table=ROWS, note=NOTES[INSERT], fast_ratio=row.fast_ratio)
    assert [laws["soft"], laws["stiff"]] == list(insert_ends(table=ROWS, note=NOTES[INSERT]))
    assert fast(laws["soft"]) <= softest <= fast(laws["slow"]) <= stiffest <= stiffest * ratio <= fast(laws["stiff"])
    assert softest * ratio <= fast(laws["now"]) <= stiffest * ratio


def test_softest_polyamide_of_the_verdict():
    """At a fifth of what the softest row breaks at: no stiffer than the softest sling, and softer than it by no more than
    the 30 % that the data claim to be uncertain."""
    row = min((ROWS[r] for r in SLING_ROWS if FIBRE[r] == "polyamide"), key=lambda w: w.breaking_strength)
    slow, fast = polyamide_stiffness(tension=row.breaking_strength / 5.0)
    sling = 0.2 / SLINGS["polyamide"][1] * row.breaking_strength
    assert sling / 1.3 <= slow <= sling
    assert slow < fast < slow * rope_ratio("polyamide", 0.2)


@pytest.mark.parametrize("row", SLING_ROWS)
def test_extra_length_over_a_sling(row):
    """10 m of it in the first bay, before a main line that hardly stretches: 5 to 10 % of 10 m, or 3 to 7 %, at rated
    capacity; polyamide 3.0 to 3.3 m when it breaks."""
    segments = (Segment(webbing=ROWS[row], length=10.0), Segment(webbing=straight(1e9), length=90.0))
    rig = Rig(span=100.0, segments=segments, backup=Backup(webbing=ROWS[row], joints=(0.5,)))
    breaking, (low, high) = ROWS[row].breaking_strength, SLINGS[FIBRE[row]]
    at_a, at_b = least_extra_length(rig=rig, tension=breaking / 5.0)
    assert 10.0 * low <= at_a <= 10.0 * high
    assert at_b == pytest.approx(0.0, abs=1e-3)
    if FIBRE[row] == "polyamide":
        assert 3.0 <= least_extra_length(rig=rig, tension=breaking)[0] <= 3.3
