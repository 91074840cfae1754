"""The slipping lesson rig that the tests of outings start from."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from linelib.rigging import Setup
from linelib.studies.lesson_rig import lesson_setup


def slipping(slip_load: float | None = 6500.0, *, extra_length: float = 1.0, **changes: Any) -> Setup:
    """The lesson rig with a lock at B that slips at `slip_load` [N], bays of the backup longer by `extra_length` [m]."""
    setup = lesson_setup(**changes)
    assert setup.rig.backup is not None
    backup = replace(setup.rig.backup, extra_length=extra_length)
    return replace(setup, rig=replace(setup.rig, slip_load_b=slip_load, backup=backup))
