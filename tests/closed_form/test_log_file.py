"""Reading a load cell's log: every unit, separator and decimal sign by hand, and every oddity handled and told in words."""

from __future__ import annotations

import numpy as np
import pytest

from linelib.studies.log_file import Log, log_text, read_log
from linelib.studies.log_order import clipped_samples, look_over

ROWS = 24


def written(folder, text, name="a.csv", encoding="utf-8"):
    path = folder / name
    path.write_bytes(text.encode(encoding))
    return path


def rows(count=ROWS, sign=",", mark=".", time=0.1, force=5.25):
    """Times 0, 0.1, 0.2 ...; forces 5.25, 6.25, 5.25 ..."""
    return [f"{i * time:.3f}{sign}{force + i % 2:.2f}".replace(".", mark) for i in range(count)]


# pound-force and kilogram-force: exact by definition, 0.45359237 kg * 9.80665 m/s2 and 9.80665 N
UNITS = {"N": 1.0, "daN": 10.0, "kN": 1000.0, "kgf": 9.80665, "lbf": 0.45359237 * 9.80665}


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("time, factor", [("s", 1.0), ("ms", 1e-3)])
@pytest.mark.parametrize("sign, mark", [(",", "."), (";", "."), (";", ","), ("\t", "."), ("\t", ",")])
def test_units_separators_and_decimal_signs(tmp_path, unit, time, factor, sign, mark) -> None:
    head = f"time [{time}]{sign}force [{unit}]"
    log = read_log(path=written(tmp_path, "\n".join([head, *rows(sign=sign, mark=mark)]) + "\n"))
    assert log.time[[0, 3]] == pytest.approx([0.0, 0.3 * factor])
    assert log.force[[0, 1]] == pytest.approx([5.25 * UNITS[unit], 6.25 * UNITS[unit]], rel=1e-12)
    assert log.noticed == ()
    assert log.rate == pytest.approx(10.0 / factor)
    assert log.averaging is None


@pytest.mark.parametrize(
    "head",
    [
        "time (s);force (kN)",
        "t_s;F_kN",
        "time/s;force/kN",
        "s;kN",
        "Time [S];Force [KN]",
        '"time [s]";"force [kN]"',
        "t, s;F, kN",
    ],
)
def test_headers_that_say_seconds_and_kilonewton(tmp_path, head) -> None:
    log = read_log(path=written(tmp_path, "\n".join([head, *rows(sign=";")])))
    assert log.force[0] == pytest.approx(5250.0)


def test_units_by_argument_with_and_without_a_header(tmp_path) -> None:
    bare = written(tmp_path, "\n".join(rows()), "bare.csv")
    log = read_log(path=bare, time_unit="ms", force_unit="daN", averaging=0.02)
    assert (log.time[1], log.force[1], log.averaging) == (pytest.approx(1e-4), pytest.approx(62.5), 0.02)
    assert len(log.time) == ROWS
    named = written(tmp_path, "\n".join(["time,force", *rows()]), "named.csv")
    assert read_log(path=named, time_unit="s", force_unit="kN").force[0] == pytest.approx(5250.0)


def test_columns_the_other_way_round_and_more_of_them(tmp_path) -> None:
    turned = [",".join(row.split(",")[::-1]) for row in rows()]
    log = read_log(path=written(tmp_path, "\n".join(["force [kN],time [s]", *turned])))
    assert (log.time[2], log.force[0]) == (pytest.approx(0.2), pytest.approx(5250.0))
    more = [f"{i},{row},20.5" for i, row in enumerate(rows())]
    log = read_log(path=written(tmp_path, "\n".join(["count,time [s],force [kN],heat [C]", *more])))
    assert log.noticed == ("columns not used: count, heat [C]",)
    assert log.force[0] == pytest.approx(5250.0)


def test_byte_order_mark_windows_line_ends_blank_lines_and_remarks(tmp_path) -> None:
    text = "\r\n".join(["\ufeff# invented", "time [s],force [N]", "", *rows(), ""])
    log = read_log(path=written(tmp_path, text))
    assert log.remarks == ("invented",)
    assert len(log.time) == ROWS


def test_everything_odd_is_told_with_its_line(tmp_path) -> None:
    lines = rows(60)  # line i + 2 of the file
    lines[10], lines[11] = lines[11], lines[10]
    lines[20] = lines[20].split(",")[0] + ","
    lines[21] = lines[21].split(",")[0] + ",NaN"
    lines[30] = lines[30].split(",")[0] + ",9.25"
    lines.insert(31, lines[30].split(",")[0] + ",3.25")
    del lines[41:46]
    lines[-1] = lines[-1].split(",")[0] + ",-0.5"
    log = read_log(path=written(tmp_path, "\n".join(["time [s],force [kN]", *lines])))
    assert log.noticed == (
        "2 rows without a force (lines 22, 23): left as a gap",
        "time steps back in 1 row (line 13): rows put in order of time",
        "1 time more than once (line 32): the mean of the forces is taken",
        "2 gaps in time, the longest 0.6 s at 3.90 s: not filled; a peak may lie inside",
        "lowest reading -500 N: webbing cannot push, so the cell's zero or its noise is off",
    )
    assert len(log.time) == 60 - 2 - 5
    at = int(np.argmin(np.abs(log.time - 3.0)))
    assert log.force[at] == pytest.approx(6250.0)  # the mean of 9.25 and 3.25 kN
    assert log.force[10:12] == pytest.approx([5250.0, 6250.0])  # in order again


def test_uneven_sampling_is_told() -> None:
    time = np.cumsum(np.tile([0.01, 0.014], 20))
    assert look_over(time=time, force=np.ones(40)) == ("sampling is uneven: intervals 10 to 14 ms",)
    assert look_over(time=np.arange(40) * 0.01, force=np.ones(40)) == ()


def half_sine(count, top, cut=np.inf, quantum=0.0):
    time = np.linspace(0.0, 1.0, count)
    force = np.minimum(top * np.sin(np.pi * time), cut)
    return time, np.round(force / quantum) * quantum if quantum else force


@pytest.mark.parametrize("count, cut, quantum", [(101, 800.0, 0.0), (201, 900.0, 1.0), (1001, 950.0, 5.0), (60, 700.0, 10.0)])
def test_flat_top_is_found(count, cut, quantum) -> None:
    time, force = half_sine(count, 1000.0, cut, quantum)
    clipped, words = clipped_samples(time=time, force=force, most=None)
    assert clipped.sum() == np.count_nonzero(force == cut) >= 3
    assert len(words) == 1
    assert f"{clipped.sum()} samples equal at {cut / 1e3:.2f} kN, a flat top" in words[0]
    assert "the true peak is higher, how much is not recorded" in words[0]


@pytest.mark.parametrize("count", [51, 101, 501, 1001, 5001])
@pytest.mark.parametrize("quantum", [0.0, 1.0, 5.0, 10.0, 50.0])
def test_round_top_that_only_looks_flat_is_none(count, quantum) -> None:
    """Rounded to coarse steps, a round top has up to a fifth of all samples at its highest reading, and is not clipped."""
    time, force = half_sine(count, 1000.0, quantum=quantum)
    assert not clipped_samples(time=time, force=force, most=None)[0].any()


def test_stated_end_of_the_cell_marks_all_that_reach_it() -> None:
    time, force = half_sine(101, 1000.0)
    clipped, words = clipped_samples(time=time, force=force, most=900.0)
    assert clipped.sum() == np.count_nonzero(force >= 900.0)
    assert "at or above the cell's end of 0.90 kN" in words[0]
    assert clipped_samples(time=time, force=force, most=1001.0) == (pytest.approx(np.zeros(101)), ())


def test_a_rest_at_the_top_is_no_flat_top() -> None:
    """A line that stands still at its highest force and is then let go: flat, but the force did not run up to it."""
    time = np.arange(200) * 0.01
    force = np.where(time < 1.0, 5000.0, 5000.0 - 3000.0 * np.sin(np.clip(time - 1.0, 0.0, 1.0) * np.pi))
    assert not clipped_samples(time=time, force=force, most=None)[0].any()
    assert not clipped_samples(time=time, force=force[::-1], most=None)[0].any()


def test_constant_force_is_not_clipped() -> None:
    assert not clipped_samples(time=np.arange(30.0), force=np.full(30, 5.0), most=None)[0].any()


def test_words_by_hand() -> None:
    log = Log(
        time=np.arange(50) * 0.02, force=np.linspace(1000.0, 5000.0, 50), averaging=0.005, name="by hand", remarks=("x", "y")
    )
    assert log_text(log).splitlines() == [
        "log         by hand: 50 samples in 1.0 s",
        "cell        50 samples a second, each the mean of 5 ms",
        "forces      1.00 to 5.00 kN as recorded",
        "noticed     nothing odd: in order, no gap, no flat top",
        "the file    x; more in its remarks",
    ]
    plain = Log(time=log.time, force=log.force, noticed=("this", "that"))
    assert "averaging not stated" in log_text(plain)
    assert log_text(plain).splitlines()[-2:] == ["noticed     this", "noticed     that"]
    assert "no averaging" in log_text(Log(time=log.time, force=log.force, averaging=0.0))
