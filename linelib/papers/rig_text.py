"""The text of a rig file, without leaving a file: exactly what `save_rig` writes and `open_rig` reads."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

from linelib.rig_file import open_rig, save_rig
from linelib.rigging import Setup


def rig_text(setup: Setup) -> str:
    """The text that `save_rig` writes for `setup`.

    Raises: ValueError when it is not a Setup.
    """
    with TemporaryDirectory() as folder:
        save_rig(setup=setup, path=Path(folder) / "setup")
        return (Path(folder) / "setup").read_text(encoding="utf-8")


def rig_of(text: str) -> Setup:
    """The setup in the text of a rig file.

    Raises: ValueError as in `open_rig`.
    """
    with TemporaryDirectory() as folder:
        (Path(folder) / "setup").write_text(text, encoding="utf-8")
        return open_rig(path=Path(folder) / "setup")
