"""Case files: a case written to a readable JSON file that stands alone, rigs and pictures inside, and read back exactly."""

from __future__ import annotations

import binascii
import json
from base64 import b64decode, b64encode
from dataclasses import fields
from pathlib import Path
from typing import Any

from linelib.checks import instance, refuse
from linelib.papers.case import PARTS, CaseFile
from linelib.papers.rig_text import rig_of, rig_text
from linelib.rigging import Setup

VERSION = 1
WHAT_THIS_IS = (
    "A case for the papers of linelib; pictures as PNG in base64, setups as rig files, units in the names of their keys or "
    "beside the number. It blames nobody, approves no rig and replaces no backup; local codes and qualified riggers decide."
)
TEXTS = ("not_known", "affected", "do_now")


def save_case(*, case: CaseFile, path: str | Path) -> None:
    """Write `case` to the file `path`: indented JSON.

    Raises: ValueError when `case` is not a CaseFile; OSError when the file cannot be written.
    """
    instance("case", case, CaseFile)
    content = {"what_this_is": WHAT_THIS_IS, "version": VERSION, **_packed(case)}
    Path(path).write_bytes((json.dumps(content, indent=2, ensure_ascii=False) + "\n").encode())


def open_case(*, path: str | Path) -> CaseFile:
    """The case in the file `path`, equal to the one `save_case` wrote.

    Raises: ValueError naming the key with its full path, as in evidence[2].kind, its value and what is allowed; OSError
    when the file cannot be read.
    """
    file = Path(path)
    try:
        content = json.loads(file.read_text(encoding="utf-8"), object_pairs_hook=_each_key_once)
    except (json.JSONDecodeError, UnicodeDecodeError, RecursionError) as error:
        raise refuse(file.name, str(error), "a JSON file written by save_case") from error
    if not isinstance(content, dict):
        raise refuse(file.name, content, "an object with the keys of save_case")
    for key in ("version", "what_this_is"):
        if key not in content:
            raise ValueError(f"{key} is missing; allowed: a file written by save_case")
    if content["version"] != VERSION or isinstance(content["version"], bool):
        raise refuse("version", content["version"], f"{VERSION}, the version this library writes and reads")
    del content["version"], content["what_this_is"]
    return _unpacked(CaseFile, content, "")


def _packed(part: Any) -> dict[str, Any]:
    return {field.name: _value(getattr(part, field.name)) for field in fields(part)}


def _value(value: Any) -> Any:
    if isinstance(value, Setup):
        return json.loads(rig_text(value))
    if isinstance(value, bytes):
        return b64encode(value).decode("ascii")
    if isinstance(value, tuple):
        return [_value(one) for one in value]
    return value if value is None or isinstance(value, str | bool | int | float) else _packed(value)


def _unpacked(kind: type, content: object, path: str) -> Any:
    """An object of `kind` from what the file says at `path`."""
    names = [field.name for field in fields(kind)]
    allowed = "the keys " + ", ".join(names)
    if not isinstance(content, dict):
        raise refuse(path, content, f"an object with {allowed}")
    before = f"{path}." if path else ""
    for key in content:
        if key not in names:
            raise ValueError(f"{before}{key} is not a known key; allowed: {allowed}")
    for key in names:
        if key not in content:
            raise ValueError(f"{before}{key} is missing; allowed: all of {allowed}")
    values = {key: _read(key, value, before + key) for key, value in content.items()}
    try:
        return kind(**values)
    except ValueError as error:
        raise ValueError(before + str(error)) from error


def _read(key: str, value: Any, here: str) -> Any:
    """What stands under a key: parts, texts, a rig, a picture, or a plain value that the part itself checks."""
    if key in PARTS or key in TEXTS:
        if not isinstance(value, list):
            raise refuse(here, value, "a list")
        return tuple(_unpacked(PARTS[key], one, f"{here}[{i}]") if key in PARTS else one for i, one in enumerate(value))
    if key == "setup":
        return _rig(value, here)
    if key == "picture" and value is not None:
        try:
            return b64decode(value, validate=True)
        except (binascii.Error, ValueError, TypeError) as error:
            raise refuse(here, value, "a PNG picture in base64, or null") from error
    return value


def _rig(value: Any, here: str) -> Setup:
    try:
        return rig_of(json.dumps(value))
    except ValueError as error:
        raise ValueError(f"{here}: {error}") from error


def _each_key_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    keys = [key for key, _ in pairs]
    for key in keys:
        if keys.count(key) > 1:
            raise ValueError(f"{key} stands twice in one place; allowed: each key once")
    return dict(pairs)
