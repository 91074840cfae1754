"""The rigs of the lessons and the tables made with them: what is rigged where, by hand, and rows against single falls."""

from __future__ import annotations

from dataclasses import replace

import pytest

from linelib import fall, falls, least_extra_length, webbings
from linelib.studies.lesson_catch import catches_text, lesson_catch
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.one_at_a_time import effects_text, one_at_a_time
from linelib.studies.plain_rig import plain_setup
from linelib.studies.what_if import what_if

TABLE = webbings()


def test_the_insert_sits_at_a_and_makes_the_bays_longer() -> None:
    """8 m of polyamide: 0.5 + 8 / 5 = 2.1 m of extra length in each of eight bays."""
    rig = lesson_setup(table=TABLE, insert_length=8.0).rig
    assert [s.length for s in rig.segments] == [8.0, None]
    assert [s.webbing.name for s in rig.segments] == [TABLE["polyamide_25mm"].name, TABLE["hmpe_25mm"].name]
    assert rig.backup.extra_length == pytest.approx(2.1)
    assert rig.backup.joints == pytest.approx([0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875])
    assert plain_setup(insert_length=8.0).rig.segments[0].length == 8.0


@pytest.mark.parametrize("material", TABLE)
@pytest.mark.parametrize("insert_length", [0.0, 2.0, 8.0, 15.0])
def test_the_backup_never_loads_in_a_fall_that_is_held(material, insert_length) -> None:
    """No bay of the main line stretches by its extra length, slow law, at the highest peak of hard falls."""
    hard = {"mass": 130.0, "leash_length": 3.0, "standing_height": 1.0, "insert_length": insert_length, "material": material}
    setups = [lesson_setup(table=TABLE, length=n, pretension=p, **hard) for n in (50.0, 100.0, 200.0) for p in (1e3, 6e3)]
    found = falls(setups=setups)
    for setup, a, b in zip(setups, found.peak_tension_a, found.peak_tension_b, strict=True):
        assert least_extra_length(rig=setup.rig, tension=float(max(a, b))).max() < setup.rig.backup.extra_length


def test_a_row_of_catches_is_the_hardest_and_the_deepest_of_single_falls() -> None:
    """Walker at 30 %, two extra lengths, three moments; the moment stands beside its number."""
    extra, times = (1.0, 2.5), (0.2, 0.7, 1.3)
    rows = [line.split() for line in catches_text(extra_lengths=extra, times=times, position=0.3).splitlines()[1:]]
    held = fall(setup=lesson_catch(time=None, position=0.3))
    assert [float(rows[0][2]), float(rows[0][4])] == pytest.approx([held.peak_leash_force / 1e3, held.lowest_point], abs=0.06)
    for row, longer in zip(rows[1:], extra, strict=True):
        alone = {t: fall(setup=lesson_catch(extra_length=longer, time=t, position=0.3)) for t in times}
        hard = max(times, key=lambda t: alone[t].peak_leash_force)
        deep = max(times, key=lambda t: alone[t].lowest_point)
        numbers = [float(row[i]) for i in (0, 2, 4, 6, 8)]
        wanted = [longer, alone[hard].peak_leash_force / 1e3, hard, alone[deep].lowest_point, deep]
        assert numbers == pytest.approx(wanted, abs=0.06)


def test_one_choice_at_a_time_against_single_falls() -> None:
    """From low to high in that order, the one that moves the higher anchor most first; off the middle, where A and B differ."""
    ends = {"mass": (70.0, 90.0), "pretension": (2e3, 5e3), "length": (80.0, 160.0)}
    pairs = {name: tuple(lesson_setup(table=TABLE, position=0.1, **{name: v}) for v in both) for name, both in ends.items()}
    effects = one_at_a_time(pairs=pairs)
    for effect in effects:
        low, high = (fall(setup=one) for one in pairs[effect.name])
        peaks = [max(one.peak_tension_a, one.peak_tension_b) for one in (low, high)]
        assert effect.anchor == pytest.approx(peaks, rel=1e-6)
        assert effect.person == pytest.approx([low.peak_leash_force, high.peak_leash_force], rel=1e-6)
        assert effect.lowest_point == pytest.approx([low.lowest_point, high.lowest_point], rel=1e-6)
    moved = [abs(e.anchor[1] - e.anchor[0]) for e in effects]
    assert moved == sorted(moved, reverse=True)
    assert any(e.anchor[1] < e.anchor[0] for e in effects)  # a longer line: less at the anchor
    first = effects_text(effects).splitlines()[1].split()
    shown = [float(v) for v in first if v[0].isdigit()]
    wanted = [v / 1e3 for v in (*effects[0].anchor, *effects[0].person)] + list(effects[0].lowest_point)
    assert shown == pytest.approx(wanted, abs=0.051)


def test_what_if_against_single_falls() -> None:
    """Three standing heights, one above the leash's length and left out; beside each the same fall of a heavier walker."""

    def setup_at(height: float):
        return lesson_setup(table=TABLE, standing_height=height, position=0.1)

    def heavier(setups):
        return [replace(setup, walker=replace(setup.walker, mass=100.0)) for setup in setups]

    found = what_if(now=setup_at(0.8), values=(0.5, 9.0, 1.2), setup_at=setup_at, compare=heavier)
    assert found.over.tolist() == [0.5, 1.2]
    assert found.now.peak_tension_a == pytest.approx(fall(setup=setup_at(0.8)).peak_tension_a, rel=1e-9)
    setups = [setup_at(0.5), setup_at(1.2)]
    for batch, rigs in ((found.falls, setups), (found.other, heavier(setups))):
        alone = [fall(setup=one) for one in rigs]
        for name in ("peak_tension_a", "peak_tension_b", "peak_leash_force", "lowest_point"):
            assert getattr(batch, name) == pytest.approx([getattr(one, name) for one in alone], rel=1e-9)


@pytest.mark.parametrize("first_parts", [True, False])
def test_what_if_leaves_out_falls_whose_backup_is_too_short(first_parts) -> None:
    """Of three extra lengths 1 cm is refused where the main line parts, be it in the first or in the second rig of the two."""

    def of(extra: float, parts: bool):
        return lesson_catch(table=TABLE, extra_length=extra, insert_length=8.0, time=1.3 if parts else None)

    def second(setups):
        return [of(setup.rig.backup.extra_length, not first_parts) for setup in setups]

    now, values = of(3.0, first_parts), (0.01, 2.0, 3.0)
    found = what_if(now=now, values=values, setup_at=lambda extra: of(extra, first_parts), compare=second)
    assert found.over.tolist() == [2.0, 3.0]
    for batch, parts in ((found.falls, first_parts), (found.other, not first_parts)):
        wanted = [fall(setup=of(extra, parts)).lowest_point for extra in (2.0, 3.0)]
        assert batch.lowest_point == pytest.approx(wanted, rel=1e-9)
