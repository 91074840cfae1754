"""Logs that cannot be read, fitted or recorded: refused with file, line or argument, value, and what is allowed."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from linelib.studies.cell import sampled, through_cell
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.log_falls import falls_in_log
from linelib.studies.log_file import Log, example_log, read_log
from linelib.studies.log_fit import fit_log
from linelib.studies.log_model import changed, recorded, setting_of, true_peaks
from linelib.studies.slow_cell import half_sine_averaged, half_sine_sampled, rate_needed, slow_cell, sudden_load_recorded
from tests.house.refusals import NO_NUMBER, refused

HEAD = "time [s],force [kN]"
GOOD = [f"{i / 10:.1f},{5 + i % 2}.5" for i in range(30)]


def refusal(folder, lines, **asked):
    path = folder / "bad.csv"
    path.write_text("\n".join(lines), encoding="utf-8")
    return refused(lambda: read_log(path=path, **asked))


def with_line(i, line):
    return [HEAD, *GOOD[:i], line, *GOOD[i + 1 :]]


@pytest.mark.parametrize(
    "lines, head, allowed",
    [
        ([], "bad.csv, lines with numbers = 0", "a header and rows of time and force"),
        (["# only words"], "bad.csv, lines with numbers = 0", "a header and rows"),
        (["time [s] force [kN]", "0.1 5"], "bad.csv, line 2 = '0.1 5'", "comma, semicolon or tab"),
        (
            with_line(5, "0.5,5,5"),
            "bad.csv, line 7, number of cells = 3",
            "2, separated by comma; a decimal comma needs semicolons",
        ),
        (with_line(5, "0.5"), "bad.csv, line 7, number of cells = 1", "2, separated by comma"),
        (
            with_line(5, "0.5,OL"),
            "bad.csv, line 7, force = 'OL'",
            "a number, with one decimal point or comma, or an empty cell",
        ),
        (with_line(5, "half,5"), "bad.csv, line 7, time = 'half'", "a number"),
        (with_line(5, ",5"), "bad.csv, line 7, time = ''", "a force without a time has no place"),
        (with_line(5, "0.5,1e999"), "bad.csv, line 7, force = inf", "a number from -1e+09 to 1e+09"),
        ([HEAD, *GOOD[:19]], "bad.csv, rows with time and force = 19", "at least 20"),
        ([HEAD, *(f"{i / 10},5" for i in range(19)), "1.8,5"], "bad.csv, different times = 19", "at least 20"),
        ([HEAD, *["0.1,5"] * 30], "bad.csv, line 3, times that are there already = 29", "too few digits"),
        ([HEAD, *GOOD, *GOOD], "bad.csv, line 32, time = '2.9 s back'", "one recording a file; neighbouring rows may be out"),
        (["time,force", *GOOD], "bad.csv, unit of time = 'time'", "one of s, ms, in the header"),
        (["time [s],force", *GOOD], "bad.csv, unit of force = 'force'", "one of N, daN, kN, kgf, lbf, in the header"),
        (["time [h],force [kN]", *GOOD], "bad.csv, unit of time = 'h'", "one of s, ms"),
        (["a,b [s],c [s]", "1,2,3"], "bad.csv, columns = ['a', 'b [s]', 'c [s]']", "exactly one column in s, ms and one in N"),
        ([*GOOD], "bad.csv, unit of time = None", "one of s, ms, in the header as in 'force [kN]', or as an argument"),
    ],
)
def test_bad_files(tmp_path, lines, head, allowed) -> None:
    found = refusal(tmp_path, lines)
    assert found[0] == head
    assert allowed in found[1]


def test_two_decimal_signs(tmp_path) -> None:
    lines = ["time [s];force [kN]", *(row.replace(",", ";") for row in GOOD)]
    lines[9] = lines[9].replace(".", ",")
    head, allowed = refusal(tmp_path, lines)
    assert head == "bad.csv, decimal signs = 'point in line 2, comma in line 10'"
    assert allowed == "one of the two in the whole file"
    assert refusal(tmp_path, [*lines[:9], "0.8;1.234,5", *lines[10:]])[0] == "bad.csv, line 10, force = '1.234,5'"


def test_bad_text_and_no_file(tmp_path) -> None:
    path = tmp_path / "bad.csv"
    path.write_bytes(b"time [s],force [kN]\n0,\xff\xfe\n")
    assert refused(lambda: read_log(path=path))[1] == "text in UTF-8"
    with pytest.raises(FileNotFoundError, match=r"none\.csv is not there"):
        read_log(path=tmp_path / "none.csv")


@pytest.mark.parametrize("name, values", [("time_unit", ["h", "kN", 3]), ("force_unit", ["s", "t", "MN"])])
def test_units_asked_for(tmp_path, name, values) -> None:
    for value in values:
        head, _ = refusal(tmp_path, [HEAD, *GOOD], **{name: value})
        assert head == f"bad.csv, {name.replace('_unit', '')}".replace(", ", ", unit of ") + f" = {value!r}"
    other = {"time_unit": "ms", "force_unit": "N"}[name]
    assert "what the header says" in refusal(tmp_path, [HEAD, *GOOD], **{name: other})[1]


@pytest.mark.parametrize("name, low", [("averaging", -1.0), ("most", 0.0)])
def test_numbers_asked_for(tmp_path, name, low) -> None:
    for value in [low, 1e9, *NO_NUMBER]:
        assert refusal(tmp_path, [HEAD, *GOOD], **{name: value})[0].startswith(f"{name} = ")


TIME = np.arange(40) * 0.1
FORCE = np.full(40, 5000.0)


@pytest.mark.parametrize(
    "changes, head",
    [
        ({"time": TIME[:10], "force": FORCE[:10]}, "time, shape = (10,)"),
        ({"force": FORCE[:30]}, "force, samples = 30"),
        ({"time": np.floor(TIME)}, "time = 0.0"),
        ({"force": np.where(np.arange(40) == 3, math.nan, FORCE)}, "force = nan"),
        ({"time": TIME[:, None]}, "time, shape = (40, 1)"),
        ({"clipped": np.zeros(3, dtype=bool)}, "clipped, samples = 3"),
        ({"averaging": -0.1}, "averaging = -0.1"),
    ],
)
def test_bad_logs(changes, head) -> None:
    assert refused(lambda: Log(**{"time": TIME, "force": FORCE, **changes}))[0] == head


def test_example_that_is_not_there() -> None:
    assert refused(lambda: example_log("none")) == ("name = 'none'", "one of clipped_fall, one_fall, two_falls")


CELL = {"time": np.array([0.0, 1.0, 2.0]), "force": np.array([0.0, 100.0, 50.0])}


@pytest.mark.parametrize(
    "changes, head",
    [
        ({"time": np.array([0.0, 0.0, 1.0])}, "time, samples = (3,)"),
        ({"force": np.ones(4)}, "force, samples = (4,)"),
        ({"force": np.array([0.0, math.nan, 1.0])}, "force, samples = (3,)"),
        ({"averaging": -1.0}, "averaging = -1.0"),
        ({"at": np.array([1.0, 2.5])}, "at = 2.5"),
    ],
)
def test_bad_cells(changes, head) -> None:
    good = {**CELL, "at": np.array([1.0]), "averaging": 0.1}
    assert through_cell(**good) == pytest.approx([95.0])
    assert refused(lambda: through_cell(**{**good, **changes}))[0] == head


@pytest.mark.parametrize("name, value", [("rate", 0.0), ("rate", 0.4), ("phase", -0.1), ("phase", 1.1), ("noise", -1.0)])
def test_bad_sampling(name, value) -> None:
    good = {**CELL, "rate": 10.0, "averaging": 0.0}
    assert len(sampled(**good)[0]) == 21
    assert refused(lambda: sampled(**{**good, name: value}))[0] == f"{name} = {value!r}"


def test_bad_slow_cells() -> None:
    assert refused(lambda: slow_cell(**CELL, rate=0.9)) == ("rate = 0.9", "at least 1 Hz, two intervals in the force's time")
    assert refused(lambda: slow_cell(time=CELL["time"], force=np.zeros(3), rate=10.0))[0] == "force, highest = 0.0"
    for call, good in (
        (half_sine_averaged, {"pulse": 0.1, "window": 0.1}),
        (half_sine_sampled, {"pulse": 0.1, "rate": 10.0}),
        (rate_needed, {"pulse": 0.1, "missed": 0.01}),
        (sudden_load_recorded, {"period": 1.0, "window": 0.5}),
    ):
        assert math.isfinite(call(**good))
        for name in good:
            for value in (-1.0, *NO_NUMBER):
                assert refused(lambda call=call, good=good, name=name, value=value: call(**{**good, name: value}))[
                    0
                ].startswith(f"{name} = ")
    assert refused(lambda: sudden_load_recorded(period=1.0, window=1.1))[0] == "window = 1.1"
    assert refused(lambda: rate_needed(pulse=1.0, missed=1.0))[0] == "missed = 1.0"


def test_bad_searches() -> None:
    log = example_log("one_fall")
    for value in (0.0, 6.0, *NO_NUMBER):
        assert refused(lambda value=value: falls_in_log(log=log, least_rise=value))[0].startswith("least_rise = ")
    for value in (-1.0, *NO_NUMBER):
        assert refused(lambda value=value: falls_in_log(log=log, rest=value))[0].startswith("rest = ")
    swinging = Log(time=TIME, force=5000.0 + 2000.0 * np.sin(TIME), name="swinging")
    head, allowed = refused(lambda: falls_in_log(log=swinging))
    assert head == "swinging, quiet time = 0.0"
    assert allowed == "at least 1 s in which nothing moves, or a level given as `rest` [N]"
    assert falls_in_log(log=swinging, rest=5000.0).rest.level == 5000.0


def fitting(log, **changes):
    found = falls_in_log(log=log)
    return fit_log(**{"log": log, "fall": found.falls[0], "setup": lesson_setup(), "noise": 15.0, **changes})


def test_bad_fits() -> None:
    log = example_log("one_fall")
    cases = [("vary", ("weather",)), ("anchor", "c"), ("noise", -1.0), ("seconds", 0.1), ("seconds", 99.0)]
    for name, value in cases:
        said = "weather" if name == "vary" else value
        assert refused(lambda name=name, value=value: fitting(log, **{name: value}))[0] == f"{name} = {said!r}"
    stiff = lesson_setup()
    web = replace(stiff.rig.segments[0].webbing, fast_ratio=1.0)
    stiff = replace(stiff, rig=replace(stiff.rig, segments=(replace(stiff.rig.segments[0], webbing=web),)))
    head, allowed = refused(lambda: fitting(log, setup=stiff, vary=("faster",)))
    assert head == "faster = 0.0"
    assert "no size that could be fitted" in allowed


def every(log, step):
    return replace(log, time=log.time[::step], force=log.force[::step], clipped=log.clipped[::step], name="thin")


def test_sparse_gappy_and_clipped_logs_are_refused_with_the_reason() -> None:
    log = example_log("one_fall")
    thin = every(log, 100)  # 5 Hz
    found = falls_in_log(log=thin, rest=5394.0)
    head, allowed = refused(lambda: fit_log(log=thin, fall=found.falls[0], setup=lesson_setup(), noise=15.0))
    assert head.startswith("thin, samples in the rise = ")
    assert allowed.startswith("at least 10 between stepping off and peak")
    keep = (log.time < 1.5) | (log.time > 1.9)
    holed = replace(log, time=log.time[keep], force=log.force[keep], clipped=log.clipped[keep], name="holed")
    head, allowed = refused(lambda: fitting(holed))
    assert head == "holed, gap in the rise [s] = 0.404"
    assert "a fifth of the time from stepping off to the peak" in allowed
    low = replace(log, force=np.minimum(log.force, 5800.0), clipped=log.force > 5800.0, name="low")
    found = falls_in_log(log=low, least_rise=0.05)
    head, allowed = refused(lambda: fit_log(log=low, fall=found.falls[0], setup=lesson_setup(), noise=15.0, seconds=2.0))
    assert head.startswith("low, share clipped = 0.")
    assert allowed == "at most a third of the samples from step off on"


def test_bad_models() -> None:
    setup = lesson_setup()
    assert refused(lambda: setting_of(setup, "weather"))[0] == "setting = 'weather'"
    assert refused(lambda: changed(setup, {"weather": 1.0}))[0] == "setting = 'weather'"
    assert refused(lambda: changed(setup, {"stiffness": 0.0}))[0] == "stiffness = 0.0"
    assert refused(lambda: changed(setup, {"mass": 1.0}))[0] == "mass = 1.0"
    at = np.arange(5) * 0.1
    assert refused(lambda: recorded(setups=[setup], starts=[0.0], at=at, averaging=0.0, anchor="x"))[0] == "anchor = 'x'"
    assert refused(lambda: true_peaks(setups=[setup], anchor="x"))[0] == "anchor = 'x'"
