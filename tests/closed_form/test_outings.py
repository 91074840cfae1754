"""Falls in a row with a slipping lock: limits, closed forms for the longer line, book-keeping, ends, and refusals."""

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
import pytest

from linelib import Backup, Leash, Rig, Segment, Setup, Walker, fall
from linelib.models.lines import lines_of
from linelib.studies.falls_in_a_row import Row, falls_in_a_row, longer
from linelib.studies.outings import Outings, outings
from linelib.studies.outings_words import ending, outings_text, said_and_shown, table_text
from tests.house.refusals import NO_NUMBER, refused, shown
from tests.lesson_slip import made, numbered, slipping
from tests.setups import HMPE, one_webbing, straight

COUNT = 4


@pytest.fixture(scope="module")
def row() -> Row:
    return falls_in_a_row(setup=slipping(), count=COUNT)


@pytest.fixture(scope="module")
def left(row: Row) -> Outings:
    return outings(row=row)


@pytest.mark.parametrize("slip_load", [None, 16e3])
def test_a_lock_that_holds_gives_the_same_fall_again(slip_load) -> None:
    setup = slipping(slip_load)
    series = outings(row=falls_in_a_row(setup=setup, count=3))
    alone = fall(setup=replace(setup, rig=replace(setup.rig, slip_load_b=None)))
    assert np.all(series.paid_out == 0.0)
    assert series.peak_b == pytest.approx([alone.peak_tension_b] * 3, rel=1e-6)
    assert series.lowest == pytest.approx([alone.lowest_point] * 3, rel=1e-6)
    assert series.pretension == pytest.approx([3000.0] * 3, rel=1e-6)
    assert list(series.tail_left) == [1.5] * 3
    assert list(series.fold_to_lock) == [0.6] * 3
    assert series.series[0] is series.series[2]  # computed once
    assert (series.fold_in, series.ended, series.ended_in) == (0, "", 0)


def test_a_slip_load_just_above_the_peak_does_not_slip_and_just_below_does() -> None:
    peak = fall(setup=slipping(None)).peak_tension_b
    assert falls_in_a_row(setup=slipping(1.001 * peak), count=1).paid_out[0] == 0.0
    assert 0.0 < falls_in_a_row(setup=slipping(0.98 * peak), count=1).paid_out[0] < 0.05


def test_the_cap_at_b_and_everything_that_pays_for_it(left: Outings) -> None:
    assert left.peak_b == pytest.approx([6500.0] * COUNT, rel=1e-9)
    for grows in (left.increase, left.lowest, left.standing_sag, left.line_longer):
        assert np.all(np.diff(grows) > 0.0)
    for shrinks in (left.paid_out, left.pretension, left.standing_b, left.tail_left, left.backup_left):
        assert np.all(np.diff(shrinks) < 0.0)
    assert left.person[-1] > left.person[0]


def test_book_keeping_adds_up(row: Row, left: Outings) -> None:
    assert left.line_longer == pytest.approx(np.cumsum(left.paid_out), rel=1e-12)
    assert left.tail_left + left.line_longer == pytest.approx([1.5] * COUNT, rel=1e-12)
    before = sum(s.length for s in row.setup.rig.segments)
    for one, gone in zip(left.series[1:], left.line_longer[:-1], strict=True):
        assert one.alone.length[-1] == pytest.approx(before + gone, rel=1e-9)
    # the bay at the lock is an eighth of the line; strain of the table at 6.5 kN lies between its rows at 5 and 7 kN
    stretch = 1.0 - left.line_longer - left.backup_left
    assert np.all((before / 8.0 * 0.0072 < stretch) & (stretch < before / 8.0 * 0.0090))
    assert left.fold_in == 1 + int(np.argmax(left.line_longer >= 0.6))
    assert left.fold_to_lock[left.fold_in - 1] == 0.0


def test_retensioned_every_fall_is_the_first_and_the_lock_slips_in_each(row: Row, left: Outings) -> None:
    again = outings(row=row, retensioned=True)
    for name in ("peak_b", "person", "lowest", "standing_sag", "pretension", "paid_out", "tail_left", "backup_left"):
        assert list(getattr(again, name)) == [getattr(left, name)[0]] * COUNT, name
    assert again.paid_out.sum() == pytest.approx(COUNT * left.paid_out[0], rel=1e-12)
    assert again.paid_out.sum() > left.paid_out.sum()


@pytest.mark.parametrize("paid_out", [0.0, 0.05, 0.2, 0.35])
def test_tension_of_a_taut_line_after_length_is_paid_out(paid_out: float) -> None:
    """Without weight, a straight law and a straight line: T = EA (span / (length + paid out) - 1)."""
    rig = longer(rig=one_webbing(straight(1e6, 1e-7), pretension=5e3), paid_out=paid_out)
    natural = 100.0 / (1.0 + 5e3 / 1e6)
    assert rig.segments[0].length == pytest.approx(natural + paid_out, rel=1e-9)
    wanted = 1e6 * (100.0 / (natural + paid_out) - 1.0)
    assert lines_of([rig]).horizontal[0] == pytest.approx(wanted, rel=1e-5)


def test_sag_of_a_slack_line_after_length_is_paid_out() -> None:
    """A shallow parabola that hardly stretches: 8 sag^2 / (3 span) = natural length - span, H = w span^2 / (8 sag)."""
    web = straight(1e9, 0.05)
    start = longer(rig=one_webbing(web, pretension=200.0), paid_out=0.0)
    for out in (0.2, 0.5):
        rig = longer(rig=start, paid_out=out)
        slack = rig.segments[0].length - 100.0
        sag = (3.0 * 100.0 * slack / 8.0) ** 0.5
        assert lines_of([rig]).horizontal[0] == pytest.approx(0.05 * 9.80665 * 100.0**2 / (8.0 * sag), rel=0.01)


def test_length_is_paid_out_by_the_last_segment_only() -> None:
    rig = Rig(span=100.0, segments=(Segment(webbing=straight(6e4), length=7.5), Segment(webbing=HMPE)), pretension=3e3)
    one, two = longer(rig=rig, paid_out=0.0), longer(rig=rig, paid_out=0.4)
    assert one.segments[0].length == two.segments[0].length == 7.5
    assert two.segments[1].length == pytest.approx(one.segments[1].length + 0.4, rel=1e-12)
    assert longer(rig=one, paid_out=0.4) == two


@pytest.mark.parametrize(
    "paid, extra, tail, whole, ended",
    [
        ([0.3, 0.3, 0.3], 2.0, 1.5, 3, ""),
        ([0.3, 0.3, 0.3], 2.0, 0.8, 2, "tail"),
        ([0.3, 0.3, 0.3], 0.8, 1.5, 2, "backup"),  # 0.9 m and 0.1 m of stretch are more than 0.8 m; 0.6 m and 0.1 m are not
        ([0.3, 0.3, 0.3], 0.7, 1.5, 1, "backup"),
        ([0.3, 0.3, 0.3], 0.2, 1.5, 0, "backup"),
        ([0.9, 0.3], 2.0, 0.9, 0, "tail"),
        ([0.3, 0.5], 0.8, 0.65, 1, "tail"),  # both are used up in fall 2, the tail first
        ([0.3, 0.5], 0.7, 0.65, 1, "backup"),  # and here the backup first
    ],
)
def test_the_series_ends_before_the_fall_it_does_not_compute(paid, extra, tail, whole, ended) -> None:
    series = outings(row=made(paid, extra), tail=tail, fold=0.5)
    assert (len(series.series), series.ended, series.ended_in) == (whole, ended, whole + 1 if ended else 0)
    for f in fields(series):
        value = getattr(series, f.name)
        if isinstance(value, np.ndarray):
            assert value.shape == (whole,)
            assert np.all(np.isfinite(value))
    assert np.all(series.tail_left > 0.0)
    assert np.all(series.backup_left > 0.0)
    words = ending(outings=series)
    assert (f"In fall {whole + 1} the tail is used up" in words) == (ended == "tail")
    assert (f"In fall {whole + 1} the extra length is used up" in words) == (ended == "backup")


def test_the_fold_comes_nearer_by_what_is_paid_out() -> None:
    row = made([0.3, 0.2, 0.2], 3.0)
    assert outings(row=row, fold=0.5).fold_in == 2
    assert outings(row=row, fold=0.51).fold_in == 3
    assert outings(row=row, fold=0.51).fold_to_lock == pytest.approx([0.21, 0.01, 0.0], abs=1e-12)
    assert outings(row=row, fold=0.51, retensioned=True).fold_in == 0
    assert outings(row=row, fold=0.3, retensioned=True).fold_in == 1


def test_the_example_of_the_docstring() -> None:
    series = outings(row=made([0.3, 0.3, 0.3], 3.0), tail=1.5, fold=0.6)
    assert series.tail_left[-1] == pytest.approx(0.6)
    assert series.fold_in == 2


def test_the_bay_at_the_lock_stretches_by_what_hangs_in_it() -> None:
    """HMPE from A, 4 m of 100 kN at B, the last joint at 7/8: 4 m and the rest of an eighth of the natural length, under what
    anchor B gets, which is not what A gets."""
    setup = slipping(None, position=0.3)
    parts = (Segment(webbing=HMPE), Segment(webbing=straight(1e5, 0.07), length=4.0))
    row = falls_in_a_row(setup=replace(setup, rig=replace(setup.rig, segments=parts)), count=1)
    bay, pull = sum(s.length for s in row.setup.rig.segments) / 8.0, row.falls[0].peak_tension_b
    assert row.bay_stretch[0] == pytest.approx(4.0 * pull / 1e5 + (bay - 4.0) * pull / 1e6, rel=1e-6)
    assert row.falls[0].peak_tension_a != pytest.approx(pull, rel=1e-3)


def test_a_little_slip_is_slip_and_the_next_fall_is_another_one() -> None:
    peak = fall(setup=slipping(None)).peak_tension_b
    row = falls_in_a_row(setup=slipping(0.98 * peak), count=2)
    assert 0.0 < row.paid_out[0] < 0.05
    assert row.pretension[1] < 3e3 - 50.0
    assert row.falls[1].lowest_point > row.falls[0].lowest_point


def test_gain_and_cost_by_hand() -> None:
    """Fall 1: A 9.0 - 5.0 = 4.0, B 7.0 - 4.5 = 2.5 kN over standing; fall 2: 0.5 and 2.5. Paid out 0.3, then 0.5 m in all."""
    series = outings(row=numbered(), tail=1.5, fold=0.4)
    assert series.anchor.tolist() == [9e3, 6.5e3]
    assert series.increase.tolist() == [4e3, 2.5e3]
    rows = [[float(v) for v in line.split()] for line in outings_text(outings=series).splitlines()[3:5]]
    #  anchor, over, person, lowest, sag, alone, paid out, tail, fold, backup: 2.0 - 0.1 of stretch - paid out
    assert rows[0] == [1.0, 9.0, 4.0, 2.1, 7.5, 3.5, 3.0, 0.3, 1.2, 0.1, 1.6]
    assert rows[1] == [2.0, 6.5, 2.5, 2.4, 8.5, 5.0, 1.5, 0.2, 1.0, 0.0, 1.4]
    assert "all falls together: 0.50 m" in outings_text(outings=series)


def test_what_is_said_beside_what_is_shown_by_hand() -> None:
    row = numbered()
    holding = replace(row.falls[0], peak_tension_a=10e3, peak_tension_b=11e3, peak_leash_force=1.9e3, lowest_point=7.0)
    words = " ".join(said_and_shown(left=outings(row=row, fold=0.4), holding=holding).split())
    assert "fall 1 has 9.0 in place of 11.0 kN at the anchor, 2.1 in place of 1.9 kN on the person" in words
    assert "a lowest tie-in of 7.5 in place of 7.0 m, and has paid out 0.30 m." in words
    assert "peak at the anchor down; increase over standing down; force on the person up; lowest tie-in up." in words
    assert "Gone by then: 0.50 m of the tail and of the backup's extra length, and standing sag from 3.5 to 5.0 m." in words


def test_the_energy_ledger_closes_through_slip(row: Row) -> None:
    for one in row.falls:
        book = one.ledger
        assert one.ledger_error < 0.005
        brought = 80.0 * 9.80665 * (one.tie_in_z[0] - one.tie_in_z.min())
        assert np.abs(book.total - book.total[0]).max() < 0.005 * brought
        # what slip has taken is the slip load over the length that ran out, stretched as it was
        assert book.lost_slip[-1] == pytest.approx(6500.0 * one.slip_b, rel=0.02)


def test_words_say_gain_and_cost_together(row: Row, left: Outings) -> None:
    holding = fall(setup=slipping(None))
    text = said_and_shown(left=left, holding=holding)
    for word in ("common practice, no source", "shock absorber", "on the person", "lowest tie-in", "paid out", "re-rig"):
        assert word in " ".join(text.split()), word
    assert "increase over standing up" in " ".join(text.split())
    table = table_text(series=[left, outings(row=row, retensioned=True)])
    assert "fold reaches the lock in fall" in outings_text(outings=left)
    assert "LEFT AS" in table
    assert "RE-TENSIONED" in table
    assert "stop and re-rig" in table
    assert max(map(len, (text + "\n" + table).splitlines())) <= 100


def test_a_lock_that_slips_under_the_standing_walker_is_refused_with_the_reason() -> None:
    with pytest.raises(ValueError, match=r"slip_load_b = 5000.0 .* more than the tension .* only stands.*stop and re-rig"):
        falls_in_a_row(setup=slipping(5000.0), count=3)


def test_bad_arguments_are_refused(row: Row) -> None:
    setup = slipping()
    for value in (0, -1, 21, None, *NO_NUMBER):
        head, _ = refused(lambda v=value: falls_in_a_row(setup=setup, count=v))
        assert "count" in head
    for value in (None, "setup", setup.rig):
        assert "setup" in refused(lambda v=value: falls_in_a_row(setup=v, count=1))[0]
    slips_at_a = replace(setup, rig=replace(setup.rig, slip_load_a=6e3))
    assert "slip_load_a = 6000.0" in refused(lambda: falls_in_a_row(setup=slips_at_a, count=1))[0]
    for name, values in {"tail": [0.0, -1.0, 101.0], "fold": [-0.1, 1.6]}.items():
        for value in [*values, None, *NO_NUMBER]:
            head, _ = refused(lambda n=name, v=value: outings(row=row, **{n: v}))
            assert name in head
            if not isinstance(value, (list, type)):
                assert shown(value) in head
    assert "row" in refused(lambda: outings(row=row.falls))[0]
    assert "paid_out" in refused(lambda: longer(rig=setup.rig, paid_out=-0.1))[0]
    assert "rig" in refused(lambda: longer(rig=setup, paid_out=0.1))[0]


def test_a_rig_without_a_backup_is_refused() -> None:
    bare = Setup(rig=one_webbing(HMPE), leash=Leash(), walker=Walker())
    assert "backup = None" in refused(lambda: outings(row=falls_in_a_row(setup=bare, count=1)))[0]
    assert Backup(webbing=HMPE).extra_length > 0.0
