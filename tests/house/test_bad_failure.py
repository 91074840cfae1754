"""A failure of the main line that is not possible is refused by name, and rig files keep it."""

from __future__ import annotations

import json
import math
from dataclasses import replace

import pytest

from linelib import Backup, Failure, Tear, fall, open_rig, save_rig
from linelib.models.backup_reserve import least_extra_length
from linelib.models.seated_strips import strips_of
from linelib.models.torn_in_fall import torn_in_fall
from tests.house.refusals import NO_NUMBER, refused, shown
from tests.setups import HMPE, one_webbing, reference_setup

STRIPS = strips_of(webbing=HMPE, difference=[0.0, 0.01] * 10, sharing_length=0.1)
BACKED = one_webbing(backup=Backup(webbing=HMPE, joints=(0.3, 0.7), extra_length=2.0))
WRONG = [
    *(("bay", v) for v in (-1, 0.5, 1001, math.nan, None, *NO_NUMBER)),
    *(("time", v) for v in (-0.1, 20.1, *NO_NUMBER)),
    *(("tension", v) for v in (0.0, -1.0, 1e7, *NO_NUMBER)),
]
TEAR = (Tear(tension=6e3, length=0.02),)


@pytest.mark.parametrize(("name", "value"), WRONG)
def test_arguments_of_a_failure(name, value):
    head, _ = refused(lambda: Failure(**{"bay": 0, "time": 1.0, "tension": 9e3, name: value}))
    assert name in head
    if not isinstance(value, (list, type)):
        assert shown(value) in head


def setup_of(rig=BACKED, **failure):
    return reference_setup(rig, failure=Failure(**failure) if failure else None)


TOGETHER = {
    "neither time nor tension": ("time = None", lambda: Failure(bay=0)),
    "a bay beyond the backup": ("bay = 3", lambda: setup_of(bay=3, time=1.0)),
    "a bay of a backup without joints": (
        "bay = 1",
        lambda: setup_of(one_webbing(backup=Backup(webbing=HMPE, joints=())), bay=1, time=1.0),
    ),
    "no backup": ("failure = Failure(", lambda: setup_of(one_webbing(), time=1.0)),
    "no failure at all": ("failure = 'now'", lambda: reference_setup(BACKED, failure="now")),
    "a tension it has standing": ("tension = 4000.0", lambda: fall(setup=setup_of(tension=4e3))),
    "tears in a bay without a lock": ("tears = (Tear(", lambda: setup_of(bay=1, time=1.0, tears=TEAR)),
    "tears beside a lock that slips": (
        "tears = (Tear(",
        lambda: setup_of(replace(BACKED, slip_load_b=8e3), bay=2, time=1.0, tears=TEAR),
    ),
    "tears at falling tensions": ("tears = (Tear(", lambda: Failure(time=1.0, tears=TEAR * 2)),
    "tears above the tension at which it parts": ("tears = (Tear(", lambda: Failure(tension=6e3, tears=TEAR)),
    "a tear at a tension it has standing": (
        "tears[0].tension = 4000.0",
        lambda: fall(setup=setup_of(bay=2, time=1.0, tears=(Tear(tension=4e3, length=0.1),))),
    ),
    "strips that have all torn": ("torn = 20", lambda: torn_in_fall(strips=STRIPS, bay=0, torn=20)),
    "half a strip torn": ("torn = 0.5", lambda: torn_in_fall(strips=STRIPS, bay=0, torn=0.5)),
    "a backup that would share the load": (
        "extra_length = 0.01",
        lambda: fall(setup=setup_of(one_webbing(backup=Backup(webbing=HMPE, extra_length=0.01)), bay=1, time=1.0)),
    ),
    "least extra length without a backup": ("backup = None", lambda: least_extra_length(rig=one_webbing(), tension=1e3)),
    "least extra length of no tension": ("tension = 0.0", lambda: least_extra_length(rig=BACKED, tension=0.0)),
    "least extra length of slip backwards": ("slip_b = -1.0", lambda: least_extra_length(rig=BACKED, tension=1e3, slip_b=-1.0)),
    "least extra length of no rig": ("rig = None", lambda: least_extra_length(rig=None, tension=1e3)),
}


@pytest.mark.parametrize("case", TOGETHER)
def test_what_is_impossible_together(case):
    sentence, ask = TOGETHER[case]
    with pytest.raises(ValueError, match="is not possible; allowed: ") as refusal:
        ask()
    assert str(refusal.value).startswith(sentence)


FAILURES = (
    None,
    Failure(bay=2, time=1.0, tears=(Tear(tension=5e3, length=1 / 30), Tear(tension=1e5 / 3, length=0.1))),
    Failure(bay=1, tension=7123.4567891),
    Failure(time=1 / 3, tension=1e4 / 3),
)


@pytest.mark.parametrize("failure", FAILURES, ids=range(4))
def test_a_rig_file_keeps_the_failure(tmp_path, failure):
    path, setup = tmp_path / "rig.json", replace(setup_of(), failure=failure)
    save_rig(setup=setup, path=path)
    again = open_rig(path=path)
    assert again == setup
    assert again.failure is None or isinstance(again.failure.bay, int)


def changed(path, change):
    content = json.loads(path.read_text(encoding="utf-8"))
    change(content)
    path.write_text(json.dumps(content), encoding="utf-8")


def test_a_file_written_before_there_were_failures_opens(tmp_path):
    path = tmp_path / "rig.json"
    save_rig(setup=setup_of(), path=path)
    changed(path, lambda content: content.pop("failure", None))
    assert open_rig(path=path) == setup_of()


def test_a_file_written_before_there_were_tears_opens(tmp_path):
    path = tmp_path / "rig.json"
    save_rig(setup=setup_of(bay=2, time=1.0), path=path)
    assert "tears" not in path.read_text(encoding="utf-8")
    assert open_rig(path=path) == setup_of(bay=2, time=1.0)


@pytest.mark.parametrize(
    ("key", "value", "named"),
    [("bay", 0.5, "failure.bay = 0.5"), ("time_s", -1.0, "failure.time_s = -1.0"), ("bay", 7, "bay = 7")],
)
def test_a_wrong_failure_in_a_file_is_refused(tmp_path, key, value, named):
    path = tmp_path / "rig.json"
    save_rig(setup=setup_of(bay=2, time=1.0), path=path)
    changed(path, lambda content: content["failure"].update({key: value}))
    with pytest.raises(ValueError, match="allowed: ") as refusal:
        open_rig(path=path)
    assert named in str(refusal.value)
