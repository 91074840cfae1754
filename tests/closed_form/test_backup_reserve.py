"""Least extra lengths of many backups at once: stretch by hand on a straight law, one at a time, and what is refused."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from linelib import Backup, Rig, Segment, Webbing, least_extra_length
from linelib.models.backup_reserve import least_extra_lengths
from linelib.studies.case_rig import LINKS, PLANNED, RIGGED, case_rig
from linelib.studies.costs import RESERVE, costs_of

STIFF = Webbing(name="stiff", stiffness=1e6, mass_per_length=1e-6, width=0.025, breaking_strength=35e3)
SOFT = Webbing(name="soft", stiffness=5e4, mass_per_length=1e-6, width=0.025, breaking_strength=30e3)
BACKUP = Backup(webbing=STIFF, joints=(0.5,), extra_length=2.0)


def rig(*segments: Segment) -> Rig:
    return Rig(span=40.0, segments=segments, pretension=100.0, backup=BACKUP)


def test_stretch_by_hand_with_and_without_an_insert() -> None:
    """20 m in each bay of a light straight line: stiff ones L T / EA; with 10 m soft at A the first bay stretches more."""
    rigs = [rig(Segment(webbing=STIFF)), rig(Segment(webbing=SOFT, length=10.0), Segment(webbing=STIFF))]
    found = least_extra_lengths(rigs=rigs, tensions=[5e3, 8e3])
    assert found.shape == (2, 2)
    assert found[:, 0] == pytest.approx([0.1, 0.1], rel=2e-3)
    assert found[:, 1] == pytest.approx([10.0 * 8e3 / 5e4 + 10.0 * 8e3 / 1e6, 20.0 * 8e3 / 1e6], rel=3e-3)
    for j, (one, pull) in enumerate(zip(rigs, (5e3, 8e3), strict=True)):
        assert found[:, j] == pytest.approx(least_extra_length(rig=one, tension=pull), rel=1e-9)


def test_costs_of_backups_joined_at_different_places() -> None:
    cases = [case_rig(numbers=PLANNED), case_rig(numbers=RIGGED), case_rig(numbers=RIGGED)]
    backup = cases[2].setup.rig.backup
    assert backup is not None
    other = replace(cases[2].setup.rig, backup=replace(backup, joints=(0.5,), extra_length=3.0))
    cases[2] = replace(cases[2], setup=replace(cases[2].setup, rig=other))
    for case, of in zip(cases, costs_of(cases=cases, links=LINKS), strict=True):
        one = case.setup.rig
        assert one.backup is not None
        least = least_extra_length(rig=one, tension=max(of["peak at A"], of["peak at B"]))
        assert of[RESERVE] == pytest.approx(one.backup.extra_length - float(least.max()), rel=1e-9)


def test_a_lock_that_paid_out_counts_in_its_bay() -> None:
    plain = least_extra_length(rig=rig(Segment(webbing=STIFF)), tension=5e3)
    slipped = least_extra_length(rig=rig(Segment(webbing=STIFF)), tension=5e3, slip_a=0.2, slip_b=0.3)
    assert slipped - plain == pytest.approx([0.2, 0.3])


def test_refusals() -> None:
    one = rig(Segment(webbing=STIFF))
    with pytest.raises(ValueError, match="joined at the same places"):
        least_extra_lengths(rigs=[one, replace(one, backup=replace(BACKUP, joints=(0.25,)))], tensions=[1e3, 1e3])
    with pytest.raises(ValueError, match="joined at the same places"):
        least_extra_lengths(rigs=[replace(one, backup=None)], tensions=[1e3])
    for wrong in ([1e3, 1e3], [0.0], [np.nan]):
        with pytest.raises(ValueError, match=r"tensions = .* is not possible; allowed: 1 numbers from 1 to"):
            least_extra_lengths(rigs=[one], tensions=wrong)
