"""Every row of data/webbings.csv against the printed bands of its fibre.

What this proves: no row is stiffer, softer, stronger or faster than printed figures for its fibre leave room for; half
or twice the stretch of any row is refused, and so is a webbing without any difference between a fast and a slow pull.
What it does not prove: that any real webbing behaves like a row. Three of the four sources are not about webbing. Yarn
and rope do not have the crimp of a weave, which adds stretch at low load and lowers stiffness by an amount that is
printed nowhere; a cyclic test of a rope is not a fall. Printed sling tables are webbing, but disagree by a factor of
two, and have nothing on HMPE. Blends have no printed figures: they must lie between the bands, and between the rows, of
their fibres.

Sources; status of all: read in a public source, a datum of a material, not of these webbings; edition not noted.

SLINGS   Printed stretch tables of flat web slings, several makers, not named. Rated capacity is a fifth of breaking
         (practice of WSTDA-WS-1). At rated capacity: polyamide 5-7 % (first), 6 untreated and 10 treated (second),
         8-10 (third); polyester half of polyamide (first), 3 untreated and 7 treated (second), 3 (third).
         At breaking: polyamide 30-33 %.
YARN     Tension Technology International, synthetic fibre yarn table: strength polyamide 0.84, polyester 0.84,
         HMPE 2.65-3.10 N/tex. Breaking strain, from a table of an aramid maker: polyamide 66 20 %, polyester 13 %,
         HMPE 3.5 %. 1 N/tex = 1 MN/(kg/m).
ROPES    MoorPy property library (polyester also in MoorDyn tests, which cite ABS guidance), stiffness EA over breaking
         load, Lm = mean load over breaking load: static polyester 14, polyamide 5 (1-10), HMPE 56;
         dynamic polyester 11.6 + 40 Lm, polyamide 2.08 + 39 Lm, HMPE 59 + 54 Lm.

The breaking strain of yarn is used as an upper bound only for strains inside the table, and for the slope above the
crimp of polyester and HMPE. It cannot bound the breaking strain of polyamide webbing: slings print 30-33 %, yarn 20 %.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from linelib.models.stretch import law_of
from linelib.tables import webbing_notes, webbings

SLING_STRETCH = {"polyamide": (0.05, 0.10), "polyester": (0.03, 0.07)}  # at a fifth of breaking: SLINGS
SLING_BREAKING_STRAIN = (0.30, 0.33)  # polyamide: SLINGS
YARN_BREAKING_STRAIN = {"polyamide": 0.20, "polyester": 0.13, "HMPE": 0.035}  # YARN
YARN_STRENGTH = {"polyamide": 0.84e6, "polyester": 0.84e6, "HMPE": 3.10e6}  # N/(kg/m), upper end: YARN
ROPE_STATIC = {"polyamide": 5.0, "polyester": 14.0, "HMPE": 56.0}  # EA over breaking: ROPES
ROPE_DYNAMIC = {"polyamide": (2.08, 39.0), "polyester": (11.6, 40.0), "HMPE": (59.0, 54.0)}  # ROPES
STANDING = (3e3, 6e3)  # N, tension of a line somebody stands on, from which Lm is taken: our choice

ROWS = webbings()
FIBRES = {row: note.fibres for row, note in webbing_notes().items()}


def outside(quantity, value, low, high):
    """A complaint in words when `value` is not between `low` and `high`, else nothing."""
    return [] if low <= value <= high else [f"{quantity} {value:.4g} is not within {low:.4g} to {high:.4g}"]


def fifth_stretch(webbing):
    return float(law_of(webbing).strain(webbing.breaking_strength / 5.0))


def stretch_complaints(webbing, fibres):
    """Strain at a fifth of breaking (SLINGS), last strain of the table (YARN), at breaking (SLINGS, YARN)."""
    complaints = []
    if "HMPE" not in fibres:
        low, high = min(SLING_STRETCH[f][0] for f in fibres), max(SLING_STRETCH[f][1] for f in fibres)
        complaints += outside("stretch at a fifth of breaking", fifth_stretch(webbing), low, high)
    first_to_break = min(YARN_BREAKING_STRAIN[f] for f in fibres)
    complaints += outside("last strain of the table", webbing.strain[-1], 0.0, first_to_break)
    if "polyamide" in fibres:
        low = min([SLING_BREAKING_STRAIN[0], *(YARN_BREAKING_STRAIN[f] for f in fibres if f != "polyamide")])
        at_breaking = float(law_of(webbing).strain(webbing.breaking_strength))
        complaints += outside("strain run straight on to breaking", at_breaking, low, SLING_BREAKING_STRAIN[1])
    return complaints


def stiffness_complaints(webbing, fibres):
    """Steepest slope over breaking: not above rope (ROPES), nor below what breaks the yarn at its strain (YARN)."""
    pull = np.linspace(0.0, webbing.breaking_strength, 400)
    steepest = 1.0 / (law_of(webbing).compliance(pull).min() * webbing.breaking_strength)
    high = max(ROPE_STATIC[f] for f in fibres)
    low = 0.0 if "polyamide" in fibres else min(1.0 / YARN_BREAKING_STRAIN[f] for f in fibres)
    return outside("steepest EA over breaking", steepest, low, high)


def fast_complaints(webbing, fibres):
    """Fast ratio between dynamic over static stiffness of rope at 3 and at 6 kN (ROPES)."""
    ratios = [
        (ROPE_DYNAMIC[f][0] + ROPE_DYNAMIC[f][1] * tension / webbing.breaking_strength) / ROPE_STATIC[f]
        for f in fibres
        for tension in STANDING
    ]
    return outside("fast ratio", webbing.fast_ratio, min(ratios), max(ratios))


def strength_complaints(webbing, fibres):
    """Breaking strength over mass below that of the strongest yarn in it (YARN): a bound nothing can pass."""
    per_mass = webbing.breaking_strength / webbing.mass_per_length
    return outside("strength over mass", per_mass, 0.0, max(YARN_STRENGTH[f] for f in fibres))


def blend_complaints(webbing, fibres):
    """A blend stretches, at a fifth of breaking, more than every row of one of its fibres and less than the other's."""
    if len(fibres) == 1:
        return []
    pure = [[fifth_stretch(ROWS[r]) for r in ROWS if FIBRES[r] == (fibre,)] for fibre in fibres]
    stiffer, softer = sorted(pure, key=max)
    return outside("stretch of the blend at a fifth of breaking", fifth_stretch(webbing), max(stiffer), min(softer))


def complaints(webbing, fibres):
    checks = (stretch_complaints, stiffness_complaints, fast_complaints, strength_complaints, blend_complaints)
    return [words for check in checks for words in check(webbing, fibres)]


@pytest.mark.parametrize("row", ROWS)
def test_every_row_is_within_every_band_of_its_fibres(row):
    assert complaints(ROWS[row], FIBRES[row]) == []


@pytest.mark.parametrize("factor", [0.5, 2.0])
@pytest.mark.parametrize("row", ROWS)
def test_half_and_twice_the_stretch_are_refused(row, factor):
    """The bands are narrow enough to notice: no row may be off by a factor of two."""
    wrong = replace(ROWS[row], strain=tuple(factor * e for e in ROWS[row].strain))
    assert complaints(wrong, FIBRES[row]) != []


@pytest.mark.parametrize("row", ROWS)
def test_no_difference_and_twice_the_difference_between_fast_and_slow_are_refused(row):
    for ratio in (1.0, 2.0 * ROWS[row].fast_ratio):
        assert fast_complaints(replace(ROWS[row], fast_ratio=ratio), FIBRES[row]) != []


@pytest.mark.parametrize("row", ROWS)
def test_another_fibre_is_refused(row):
    """A row of one fibre does not pass as a row of another."""
    for fibre in YARN_BREAKING_STRAIN:
        if FIBRES[row] != (fibre,):
            assert complaints(ROWS[row], (fibre,)) != []


@pytest.mark.parametrize("row", ROWS)
def test_webbing_gets_stiffer_as_the_crimp_is_taken_up(row):
    """The shape of every table: each further kilonewton stretches it less than the one before. Common practice, no
    source; it finds a slip of the pen inside a row."""
    per_newton = np.diff(ROWS[row].strain) / np.diff(ROWS[row].tension)
    assert np.all(np.diff(per_newton) < 0.0)


def test_there_are_enough_rows_and_each_fibre_has_one():
    assert len(ROWS) >= 9
    assert {(fibre,) for fibre in ROPE_STATIC} <= set(FIBRES.values())
