"""Rig files: what is opened is what was saved, in every digit, and a wrong file is refused by the path of the key."""

from __future__ import annotations

import json
from dataclasses import fields
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linelib.rig_file import KEYS, open_rig, save_rig
from linelib.rigging import Backup, Leash, Rig, Segment, Setup, Walker
from linelib.webbing import Webbing

PLAIN = {"mass_per_length": 0.05, "width": 0.025, "breaking_strength": 35e3}
HMPE = Webbing(name="HMPE, 25 mm", stiffness=1e6, **PLAIN)
SOFT = Webbing(name="weiches Band, äußerst", strain=(0.1, 0.15), tension=(5e3, 1e4), fast_ratio=1.8, **PLAIN)
SETUP = Setup(
    rig=Rig(
        span=100,
        segments=(Segment(webbing=SOFT, length=7.5), Segment(webbing=HMPE)),
        pretension=3e3,
        slip_load_b=7e3,
        backup=Backup(webbing=HMPE, joints=(0.3, 0.7)),
    ),
    leash=Leash(),
    walker=Walker(),
)


def between(low, high):
    """Numbers from `low` to `high`, whole ones among them."""
    return st.floats(low, high) | st.integers(int(low) + 1, int(high)).map(lambda n: min(max(n, low), high))


def steps(smallest, largest):
    return st.lists(st.floats(smallest, largest), min_size=3, max_size=3).map(lambda d: (d[0], d[0] + d[1], sum(d)))


def straight_or_table():
    straight = st.fixed_dictionaries({"stiffness": between(1.0, 1e9)})
    return straight | st.fixed_dictionaries({"strain": steps(1e-3, 0.1), "tension": steps(1.0, 1e4)})


webbing = st.builds(
    lambda law, **rest: Webbing(**law, **rest),
    law=straight_or_table(),
    name=st.text(min_size=1, max_size=20),
    mass_per_length=between(1e-9, 100.0),
    width=st.floats(1e-4, 1.0),
    breaking_strength=between(1.0, 1e6),
    fast_ratio=st.floats(1.0, 20.0),
    relaxation_time=between(1e-3, 1e9),
    loss_time=st.floats(0.0, 0.1),
)
backup = st.builds(
    Backup,
    webbing=webbing,
    joints=st.lists(st.floats(0.001, 0.999), max_size=3, unique=True).map(sorted).map(tuple),
    extra_length=between(0.0, 100.0),
)
maybe_load = st.none() | between(1.0, 1e9)


@st.composite
def setups(draw):
    lengths = draw(st.lists(between(1e-3, 1e4), min_size=1, max_size=3))
    pretension = draw(maybe_load)
    if pretension is not None:
        lengths[draw(st.integers(0, len(lengths) - 1))] = None
    rig = Rig(
        span=draw(between(0.1, 5000.0)),
        segments=tuple(Segment(webbing=draw(webbing), length=length) for length in lengths),
        height_difference=draw(st.floats(-0.2, 0.2)),
        pretension=pretension,
        slip_load_a=draw(maybe_load),
        slip_load_b=draw(maybe_load),
        hung_mass_per_length=draw(st.none() | between(0.0, 100.0)),
        backup=draw(st.none() | backup),
    )
    leash = Leash(length=draw(between(3.0, 10.0)), stiffness=draw(st.floats(100.0, 1e6)), ring_mass=0.3)
    walker = Walker(mass=draw(between(10.0, 300.0)), standing_height=draw(between(0.0, 3.0)), position=1 / 3)
    return Setup(rig=rig, leash=leash, walker=walker, air_density=draw(st.floats(0.0, 2.0)))


@settings(max_examples=40, deadline=None)
@given(setup=setups())
def test_what_is_opened_is_what_was_saved(setup):
    with TemporaryDirectory() as folder:
        path = Path(folder) / "rig.json"
        save_rig(setup=setup, path=path)
        assert open_rig(path=path) == setup


@pytest.mark.parametrize("kind", KEYS)
def test_every_field_is_written_once_under_its_own_key(kind):
    written = [entry.field for entry in KEYS[kind]]
    assert sorted(written) == sorted(field.name for field in fields(kind))
    assert len({entry.key for entry in KEYS[kind]}) == len(written)


@pytest.fixture
def saved(tmp_path):
    path = tmp_path / "rig.json"
    save_rig(setup=SETUP, path=path)
    return path


def test_the_file_can_be_read_by_a_person_and_says_what_it_is(saved):
    text = saved.read_text(encoding="utf-8")
    content = json.loads(text)
    assert list(content)[:2] == ["what_this_is", "version"]
    assert "approves no rig" in content["what_this_is"]
    assert "qualified riggers decide" in content["what_this_is"]
    assert '\n  "rig": {\n    "span_m": 100.0,' in text
    assert "weiches Band, äußerst" in text
    assert content["rig"]["segments"][1]["webbing"]["stiffness_N"] == 1e6
    assert content["rig"]["backup"]["webbing"]["breaking_strength_N"] == 35e3
    assert content["rig"]["slip_load_a_N"] is None


def test_only_a_setup_is_saved_and_nothing_is_left_behind(tmp_path):
    with pytest.raises(ValueError, match=r"setup = .* allowed: a Setup"):
        save_rig(setup=SETUP.rig, path=tmp_path / "rig.json")
    assert not list(tmp_path.iterdir())


def put(content, where, value):
    *outer, last = where
    for step in outer:
        content = content[step]
    content[last] = value


HMPE_AT_B = ("rig", "segments", 1, "webbing")
WRONG = [  # where in the file, what is put there, the path named in the refusal, what is allowed
    ((*HMPE_AT_B, "stiffness_N"), -5, "rig.segments[1].webbing.stiffness_N = -5.0", "1 to 1e+15 N"),
    ((*HMPE_AT_B, "stiffness_N"), "soft", "rig.segments[1].webbing.stiffness_N = 'soft'", "a number or null"),
    ((*HMPE_AT_B, "stiffness_N"), None, "rig.segments[1].webbing.stiffness_N = None", "a table of strain"),
    ((*HMPE_AT_B, "width_m"), None, "rig.segments[1].webbing.width_m = None", "a number"),
    ((*HMPE_AT_B, "width_m"), True, "rig.segments[1].webbing.width_m = True", "a number"),
    ((*HMPE_AT_B, "width_m"), float("nan"), "rig.segments[1].webbing.width_m = nan", "0.0001 to 1 m"),
    ((*HMPE_AT_B, "width_m"), float("inf"), "rig.segments[1].webbing.width_m = inf", "0.0001 to 1 m"),
    ((*HMPE_AT_B, "width_m"), 10**400, "rig.segments[1].webbing.width_m = inf", "0.0001 to 1 m"),
    ((*HMPE_AT_B, "name"), 7, "rig.segments[1].webbing.name = 7.0", "text"),
    ((*HMPE_AT_B, "name"), "", "rig.segments[1].webbing.name = ''", "some words"),
    (HMPE_AT_B, "hmpe_25mm", "rig.segments[1].webbing = 'hmpe_25mm'", "an object with the keys"),
    (
        ("rig", "segments", 0, "webbing", "strain_ratio"),
        0.1,
        "segments[0].webbing.strain_ratio = 0.1",
        "a list or null",
    ),
    (("rig", "segments", 0, "webbing", "strain_ratio", 1), "x", "webbing.strain_ratio[1] = 'x'", "a number"),
    (("rig", "segments", 0, "webbing", "strain_ratio", 1), -1, "webbing.strain_ratio[1] = -1.0", "from 0"),
    (("rig", "segments", 0, "webbing", "tension_N"), [1, 2, 3], "segments[0].webbing.tension_N = (", "as many numbers"),
    (("rig", "segments", 0, "length_m"), None, "rig.pretension_N = 3000.0", "exactly one segment without a length"),
    (("rig", "pretension_N"), None, "rig.segments[1].length_m = None", "a length for every segment, or a pretension"),
    (("rig", "segments"), [], "rig.segments = ()", "at least one"),
    (("rig", "segments"), None, "rig.segments = None", "a list"),
    (("rig", "span_m"), 0, "rig.span_m = 0.0", "0.1 to 5000 m"),
    (("rig", "slip_load_b_N"), 0, "rig.slip_load_b_N = 0.0", "1 to 1e+09 N"),
    (("rig", "backup", "joints_share_of_span", 1), 1, "rig.backup.joints_share_of_span[1] = 1.0", "0.001 to 0.999"),
    (("rig", "backup", "joints_share_of_span", 1), 0.2, "rig.backup.joints_share_of_span = (", "each larger"),
    (("rig", "backup"), [], "rig.backup = []", "an object with the keys extra_length_m"),
    (("leash", "length_m"), 0, "leash.length_m = 0.0", "0.2 to 10 m"),
    (("leash", "stiffness_N_per_m"), 1, "leash.stiffness_N_per_m = 1.0", "100 to 1e+06 N/m"),
    (("walker", "standing_height_m"), 2, "walker.standing_height_m = 2.0", "the leash's length"),
    (("walker", "position_share_of_span"), 1, "walker.position_share_of_span = 1.0", "0.01 to 0.99"),
    (("walker",), None, "walker = None", "an object with the keys mass_kg"),
    (("air_density_kg_per_m3",), 12, "air_density_kg_per_m3 = 12.0", "0 to 2 kg/m3"),
    (("rig", "colour"), "red", "rig.colour is not a known key", "span_m"),
    (("colour",), "red", "colour is not a known key", "walker"),
    (("version",), 2, "version = 2.0", "1, the version"),
    (("version",), "1", "version = '1'", "1, the version"),
    (("version",), True, "version = True", "1, the version"),
    (("what_this_is",), None, "what_this_is = None", "text"),
]


@pytest.mark.parametrize(("where", "value", "named", "allowed"), WRONG)
def test_a_wrong_value_is_refused_by_the_full_path_of_its_key(saved, where, value, named, allowed):
    content = json.loads(saved.read_text(encoding="utf-8"))
    put(content, where, value)
    saved.write_text(json.dumps(content), encoding="utf-8")
    with pytest.raises(ValueError, match="allowed: ") as refusal:
        open_rig(path=saved)
    assert named in str(refusal.value)
    assert allowed in str(refusal.value).partition("allowed: ")[2]


def every_key(content, path=()):
    """The place of every key in the file."""
    inside = content.items() if isinstance(content, dict) else enumerate(content) if isinstance(content, list) else ()
    for key, value in inside:
        if isinstance(content, dict):
            yield (*path, key)
        yield from every_key(value, (*path, key))


def test_every_missing_key_is_named(saved):
    text = saved.read_text(encoding="utf-8")
    places = list(every_key(json.loads(text)))
    assert len(places) > 50
    for *outer, last in places:
        content = inner = json.loads(text)
        for step in outer:
            inner = inner[step]
        del inner[last]
        saved.write_text(json.dumps(content), encoding="utf-8")
        with pytest.raises(ValueError, match="is missing; allowed: all of the keys") as refusal:
            open_rig(path=saved)
        path = "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in (*outer, last))[1:]
        assert str(refusal.value).startswith(f"{path} is missing")


def test_a_key_that_stands_twice_is_refused(saved):
    text = saved.read_text(encoding="utf-8")
    saved.write_text(text.replace('"span_m": 100.0,', '"span_m": 100.0, "span_m": 50.0,'), encoding="utf-8")
    with pytest.raises(ValueError, match="span_m stands twice"):
        open_rig(path=saved)


@pytest.mark.parametrize("content", [b"", b"{", b"span = 100", b"\xff\xfe", b"[" * 100_000], ids=range(5))
def test_a_file_that_is_not_json_is_refused_by_its_name(saved, content):
    saved.write_bytes(content)
    with pytest.raises(ValueError, match=r"rig\.json = .* allowed: a JSON file written by save_rig"):
        open_rig(path=saved)


@pytest.mark.parametrize("content", ["[]", "3", "null"])
def test_json_that_is_not_a_rig_is_refused(saved, content):
    saved.write_text(content, encoding="utf-8")
    with pytest.raises(ValueError, match=r"rig\.json = .* allowed: an object"):
        open_rig(path=saved)
