"""Outings by another route: the same series typed out by hand, and the second fall in the full two-dimensional model."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

import linelib as ll
from linelib.studies.falls_in_a_row import falls_in_a_row
from linelib.studies.outings import outings
from tests.independent_route.full_model import full_fall
from tests.lesson_slip import slipping
from tests.setups import HMPE, one_webbing, reference_setup


def test_a_series_by_hand() -> None:
    """Only the front door: hang for the natural length, replace for the longer segment, fall for each outing."""
    setup = slipping(7000.0)
    web = setup.rig.segments[0].webbing
    length = float(ll.hang(rig=setup.rig).natural_lengths[0])
    series = outings(row=falls_in_a_row(setup=setup, count=3), tail=2.0, fold=0.3)
    gone = 0.0
    for i in range(3):
        rig = replace(setup.rig, segments=(ll.Segment(webbing=web, length=length + gone),), pretension=None)
        one = ll.fall(setup=replace(setup, rig=rig))
        assert series.pretension[i] == pytest.approx(ll.hang(rig=rig).horizontal, rel=1e-9)
        gone += one.slip_b
        for name, value in {
            "peak_a": one.peak_tension_a,
            "peak_b": one.peak_tension_b,
            "standing_b": one.standing_tension_b,
            "person": one.peak_leash_force,
            "lowest": one.lowest_point,
            "standing_sag": one.standing_sag,
            "paid_out": one.slip_b,
            "line_longer": gone,
            "tail_left": 2.0 - gone,
        }.items():
            assert getattr(series, name)[i] == pytest.approx(value, rel=1e-6), (name, i)
    assert gone > 0.3
    assert series.fold_in == int(np.argmax(series.line_longer >= 0.3)) + 1


def test_the_second_fall_in_the_full_two_dimensional_model() -> None:
    """The plain line of the reference falls, slip load 6.5 kN: the second fall, on a line longer by what the first paid out.

    Measured on 60 and 120 elements: anchor A 1.1 % low (the line is slack by then), lowest point 0.05 %, paid out 0.5 %,
    leash force 1 to 3 %; the first fall 0.8 %, 0.02 %, 0.1 %, 2 to 3 %.
    """
    setup = reference_setup(one_webbing(HMPE, slip_load_b=6500.0))
    row = falls_in_a_row(setup=setup, count=2)
    first = ll.Segment(webbing=HMPE, length=float(ll.hang(rig=setup.rig).natural_lengths[0]) + row.paid_out[0])
    full = full_fall(setup=replace(setup, rig=replace(setup.rig, segments=(first,), pretension=None)), elements=60)
    assert full.energy_error < 0.005
    second = row.falls[1]
    assert second.peak_tension_a == pytest.approx(full.peak_tension_a, rel=0.015)
    assert second.lowest_point == pytest.approx(full.lowest_point, rel=0.005)
    assert second.slip_b == pytest.approx(full.slip_b, rel=0.02)
    assert second.peak_leash_force == pytest.approx(full.peak_leash_force, rel=0.05)
