"""Rig files: a setup written to a readable JSON file that stands alone, and read back exactly."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any, NamedTuple

from linelib.checks import instance, refuse
from linelib.rigging import Backup, Failure, Leash, Rig, Segment, Setup, Tear, Walker
from linelib.webbing import Webbing

VERSION = 1
WHAT_THIS_IS = (
    "A highline setup for linelib, units in the names of the keys. A teaching model: it approves no rig "
    "and replaces no backup; local codes and qualified riggers decide."
)


class Key(NamedTuple):
    """How a field is written: its `key` in the file, its `kind` (float, str or a class), None, many or missing allowed."""

    field: str
    key: str
    kind: type = float
    optional: bool = False
    many: bool = False
    missing: bool = False


KEYS: dict[type, tuple[Key, ...]] = {
    Webbing: (
        Key("name", "name", str),
        Key("mass_per_length", "mass_per_length_kg_per_m"),
        Key("width", "width_m"),
        Key("breaking_strength", "breaking_strength_N"),
        Key("stiffness", "stiffness_N", optional=True),
        Key("strain", "strain_ratio", optional=True, many=True),
        Key("tension", "tension_N", optional=True, many=True),
        Key("fast_ratio", "fast_ratio"),
        Key("relaxation_time", "relaxation_time_s"),
        Key("loss_time", "loss_time_s"),
    ),
    Segment: (Key("length", "length_m", optional=True), Key("webbing", "webbing", Webbing)),
    Backup: (
        Key("joints", "joints_share_of_span", many=True),
        Key("extra_length", "extra_length_m"),
        Key("webbing", "webbing", Webbing),
    ),
    Rig: (
        Key("span", "span_m"),
        Key("height_difference", "height_difference_m"),
        Key("pretension", "pretension_N", optional=True),
        Key("slip_load_a", "slip_load_a_N", optional=True),
        Key("slip_load_b", "slip_load_b_N", optional=True),
        Key("hung_mass_per_length", "hung_mass_per_length_kg_per_m", optional=True),
        Key("segments", "segments", Segment, many=True),
        Key("backup", "backup", Backup, optional=True),
    ),
    Leash: (
        Key("length", "length_m"),
        Key("stiffness", "stiffness_N_per_m"),
        Key("damping", "damping_N_s_per_m"),
        Key("ring_mass", "ring_mass_kg"),
    ),
    Walker: (
        Key("mass", "mass_kg"),
        Key("standing_height", "standing_height_m"),
        Key("position", "position_share_of_span"),
    ),
    Tear: (Key("tension", "tension_N"), Key("length", "length_m")),
    Failure: (
        Key("bay", "bay"),
        Key("time", "time_s", optional=True),
        Key("tension", "tension_N", optional=True),
        Key("tears", "tears", Tear, many=True, missing=True),
    ),
    Setup: (
        Key("rig", "rig", Rig),
        Key("leash", "leash", Leash),
        Key("walker", "walker", Walker),
        Key("air_density", "air_density_kg_per_m3"),
        Key("drag_coefficient", "drag_coefficient"),
        Key("failure", "failure", Failure, optional=True, missing=True),
    ),
}
WORDS = {float: "a number", str: "text"}


def save_rig(*, setup: Setup, path: str | Path) -> None:
    """Write `setup` to the file `path`: indented JSON, SI units in the key names, every webbing in full.

    Raises: ValueError when `setup` is not a Setup; OSError when the file cannot be written.
    """
    instance("setup", setup, Setup)
    content = {"what_this_is": WHAT_THIS_IS, "version": VERSION, **_packed(setup)}
    Path(path).write_bytes((json.dumps(content, indent=2, ensure_ascii=False) + "\n").encode())


def open_rig(*, path: str | Path) -> Setup:
    """The setup in the file `path`, equal in every digit to the one `save_rig` wrote.

    Raises: ValueError naming the key with its full path, as in rig.segments[1].webbing.stiffness_N, its value and
    what is allowed; OSError when the file cannot be read.
    """
    file = Path(path)
    try:
        content = json.loads(file.read_text(encoding="utf-8"), parse_int=float, object_pairs_hook=_each_key_once)
    except (json.JSONDecodeError, UnicodeDecodeError, RecursionError) as error:
        raise refuse(file.name, str(error), "a JSON file written by save_rig") from error
    if not isinstance(content, dict):
        raise refuse(file.name, content, "an object with the keys of save_rig")
    _check_keys(content, {*_names(Setup), "what_this_is", "version"}, _may_miss(Setup), "")
    if content["version"] != VERSION or isinstance(content["version"], bool):
        raise refuse("version", content["version"], f"{VERSION}, the version this library writes and reads")
    _unpacked_one(Key("", "what_this_is", str), content.pop("what_this_is"), "what_this_is")
    del content["version"]
    return _unpacked(Setup, content, "")


def _names(kind: type) -> set[str]:
    return {entry.key for entry in KEYS[kind]}


def _may_miss(kind: type) -> set[str]:
    return {entry.key for entry in KEYS[kind] if entry.missing}


def _packed(thing: Any) -> dict[str, Any]:
    def one(entry: Key, value: Any) -> Any:
        return _packed(value) if entry.kind in KEYS else entry.kind(value)

    content: dict[str, Any] = {}
    for entry in KEYS[type(thing)]:
        value = getattr(thing, entry.field)
        if value is not None:
            value = [one(entry, v) for v in value] if entry.many else one(entry, value)
        if value or not entry.missing:
            content[entry.key] = value
    return content


def _unpacked(kind: type, content: object, path: str) -> Any:
    """An object of `kind` from what the file says at `path`."""
    if not isinstance(content, dict):
        raise refuse(path, content, "an object with the keys " + ", ".join(sorted(_names(kind))))
    _check_keys(content, _names(kind), _may_miss(kind), path)
    values: dict[str, Any] = {}
    for entry in KEYS[kind]:
        if entry.key not in content:
            continue
        here, value = _joined(path, entry.key), content[entry.key]
        if value is None and entry.optional:
            values[entry.field] = None
        elif not entry.many:
            values[entry.field] = _unpacked_one(entry, value, here)
        elif isinstance(value, list):
            values[entry.field] = tuple(_unpacked_one(entry, v, f"{here}[{i}]") for i, v in enumerate(value))
        else:
            raise refuse(here, value, "a list" + (" or null" if entry.optional else ""))
    try:
        return kind(**values)
    except ValueError as error:
        raise _in_words_of_the_file(error, kind, values, path) from error


def _unpacked_one(entry: Key, value: object, here: str) -> Any:
    if entry.kind in KEYS:
        return _unpacked(entry.kind, value, here)
    if not isinstance(value, entry.kind):
        raise refuse(here, value, WORDS[entry.kind] + (" or null" if entry.optional and not entry.many else ""))
    return value


def _in_words_of_the_file(error: ValueError, kind: type, values: dict[str, Any], path: str) -> ValueError:
    """The refusal with the key's full path for the argument's name: 'leash length = ...' is leash.length_m = ..."""
    name, _, rest = str(error).partition(" = ")
    field, bracket, index = name.rpartition(" ")[2].partition("[")
    for entry in KEYS[kind]:
        if entry.field == field:
            return ValueError(f"{_joined(path, entry.key)}{bracket}{index} = {rest}")
    for outer in KEYS[kind]:  # a refusal about something further in: the first place with that name and value
        inside = values[outer.field] if outer.many else (values[outer.field],)
        for i, thing in enumerate(inside or ()):
            for entry in KEYS.get(type(thing), ()):
                if entry.field == field and rest.startswith(f"{getattr(thing, field)!r} "):
                    where = _joined(path, outer.key) + (f"[{i}]" if outer.many else "")
                    return ValueError(f"{where}.{entry.key} = {rest}")
    return ValueError(f"{path or 'the setup'}: {error}")


def _joined(path: str, key: str) -> str:
    return f"{path}.{key}" if path else key


def _check_keys(content: dict[str, Any], names: set[str], may_miss: set[str], path: str) -> None:
    """Refuse a key that is not known, and say which one is missing."""
    allowed = "the keys " + ", ".join(sorted(names))
    for key in content:
        if key not in names:
            raise ValueError(f"{_joined(path, key)} is not a known key; allowed: {allowed}")
    for key in sorted(names - may_miss):
        if key not in content:
            raise ValueError(f"{_joined(path, key)} is missing; allowed: all of {allowed}")


def _each_key_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    content = dict(pairs)
    for key in content:
        if [k for k, _ in pairs].count(key) > 1:
            raise ValueError(f"{key} stands twice in one place; allowed: each key once")
    return content
