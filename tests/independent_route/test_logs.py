"""The invented logs in data/logs: what they say of themselves is true, and what is read from them is what was put in.

They were computed by the full two-dimensional model, which shares nothing with linelib.models; see make_logs.py.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from linelib.studies.log_falls import falls_in_log
from linelib.studies.log_file import example_log
from linelib.tables import DATA

from .make_logs import BEFORE, CASES, FOLDER, TWO_DRIFT, TWO_NOISE, readings

FORCE_STEP = {"one_fall": 1.0, "clipped_fall": 0.980665}  # [N] to which the file rounds


def test_a_stored_log_is_what_the_full_model_gives() -> None:
    """The begin of the quick one computed again, until it is clipped, to the last digit of the file."""
    log, case = example_log("clipped_fall"), CASES["clipped_fall"]
    time, force = readings(replace(case, seconds=1.2))
    count = len(time)
    assert count > 400
    assert (force == case.most).any()
    assert log.time[:count] == pytest.approx(time, abs=1e-9)
    assert np.abs(log.force[:count] - force).max() <= 0.5 * FORCE_STEP["clipped_fall"] + 1e-6


@pytest.mark.parametrize("name", CASES)
def test_remarks_say_the_truth(name) -> None:
    case, log = CASES[name], example_log(name)
    said = " ".join(log.remarks)
    assert log.remarks[0] == "invented, computed by a model, not measured"
    assert all(f"{key} {value:g}" in said for key, value in case.truth.items())
    assert f"{case.rate:g} Hz, averaging 2 ms, noise {case.noise:g} N, seed {case.seed}" in said
    assert log.rate == pytest.approx(case.rate)


def test_files_are_small_and_all_there() -> None:
    files = sorted(FOLDER.glob("*"))
    assert FOLDER == DATA / "logs"
    assert [file.name for file in files] == ["clipped_fall.csv", "one_fall.csv", "two_falls.csv"]
    assert all(file.stat().st_size < 60_000 for file in files)


@pytest.mark.parametrize("name", CASES)
def test_fall_is_found_where_it_was_put(name) -> None:
    case, log = CASES[name], example_log(name)
    found = falls_in_log(log=log)
    assert len(found.falls) == 1
    assert found.falls[0].release == pytest.approx(BEFORE, abs=0.03)
    assert found.rest.noise == pytest.approx(case.noise, rel=0.1)
    assert found.falls[0].clipped == np.isfinite(case.most)
    assert log.clipped.any() == np.isfinite(case.most)


def test_two_falls_with_all_their_oddities() -> None:
    log = example_log("two_falls", averaging=0.0)
    assert [words.split(":")[0].split(",")[0] for words in log.noticed] == [
        "3 rows without a force (lines 931",
        "time steps back in 1 row (line 707)",
        "1 time more than once (line 405)",
        "3 gaps in time",
    ]
    found = falls_in_log(log=log)
    assert [fall.release for fall in found.falls] == pytest.approx([4.0, 15.5], abs=0.05)
    assert found.falls[1].peak > found.falls[0].peak + 1000.0  # the longer leash
    assert found.rest.noise == pytest.approx(TWO_NOISE, rel=0.1)
    assert abs(found.rest.drift - TWO_DRIFT) < 3.0 * found.rest.drift_error
    assert found.rest.drift_error < 0.3
    assert "wanders by +3.9 ± 0.1 N/s" in found.noticed[0]
    before = [fall.before for fall in found.falls]
    assert np.diff(before)[0] == pytest.approx(TWO_DRIFT * 11.5, abs=12.0)
