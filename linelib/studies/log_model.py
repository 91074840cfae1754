"""The fall model as a load cell would have recorded it, for the settings that may be fitted to a log."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from linelib.checks import number, one_of
from linelib.models.fall_in_time import falls
from linelib.rigging import Setup
from linelib.studies.cell import through_cell
from linelib.webbing import Webbing

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Setting:
    """Something a fit may change: words and unit for the screen, and how far from where it starts, up and down, as a factor."""

    words: str
    unit: str
    reach: float


SETTINGS = {
    "stiffness": Setting(words="stiffness of the webbing, slow and fast alike", unit="times", reach=4.0),
    "pretension": Setting(words="pretension, nobody on the line", unit="N", reach=4.0),
    "leash_damping": Setting(words="damping of the leash", unit="N s/m", reach=20.0),
    "loss_time": Setting(words="loss time of the webbing", unit="s", reach=20.0),
    "faster": Setting(words="extra stiffness when pulled fast, fast ratio - 1", unit="-", reach=10.0),
    "mass": Setting(words="mass of the walker", unit="kg", reach=2.0),
}


def setting_of(setup: Setup, name: str) -> float:
    """What a setup has for one of SETTINGS, in its unit: [times] 1 for the stiffness, else [N], [N s/m], [s], [-], [kg].

    Of several webbings, loss time and fast ratio are those of the last segment.
    Raises: ValueError for an unknown name, or a setting this setup does not have.
    Source: the setup.
    """
    one_of("setting", name, tuple(SETTINGS))
    last = setup.rig.segments[-1].webbing
    value = {
        "stiffness": 1.0,
        "pretension": setup.rig.pretension,
        "leash_damping": setup.leash.damping,
        "loss_time": last.loss_time,
        "faster": last.fast_ratio - 1.0,
        "mass": setup.walker.mass,
    }[name]
    return number(name, value, low=1e-9, high=1e9, unit="above 0, else it has no size that could be fitted")


def changed(setup: Setup, values: Mapping[str, float]) -> Setup:
    """The setup with other settings, in the units of SETTINGS ([times], [N], [N s/m], [s], [-], [kg]); all segments alike.

    Raises: ValueError for an unknown name or an impossible value.
    Source: definitions in SETTINGS.
    """
    for name in values:
        one_of("setting", name, tuple(SETTINGS))
    segments = tuple(replace(s, webbing=_webbing(s.webbing, values)) for s in setup.rig.segments)
    rig = replace(setup.rig, segments=segments, pretension=values.get("pretension", setup.rig.pretension))
    leash = replace(setup.leash, damping=values.get("leash_damping", setup.leash.damping))
    walker = replace(setup.walker, mass=values.get("mass", setup.walker.mass))
    return replace(setup, rig=rig, leash=leash, walker=walker)


def _webbing(web: Webbing, values: Mapping[str, float]) -> Webbing:
    """All tensions times the stiffness at the same strain."""
    times = number("stiffness", values.get("stiffness", 1.0), low=1e-3, high=1e3, unit="times")
    web = replace(
        web,
        loss_time=values.get("loss_time", web.loss_time),
        fast_ratio=1.0 + values.get("faster", web.fast_ratio - 1.0),
    )
    if web.stiffness is not None:
        return replace(web, stiffness=times * web.stiffness)
    return replace(web, tension=tuple(times * t for t in web.tension or ()))


def recorded(*, setups: Sequence[Setup], starts: Sequence[float], at: Array, averaging: float, anchor: str = "a") -> Array:
    """Tension at an anchor at the times `at`, through the cell's window; before its start the line stands still.

    Parameters: setups; starts [s] : when the walker steps off, one a setup; at [s], rising; averaging [s]; anchor : a or b.
    Returns: forces [N], (setups, samples).
    Raises: ValueError naming what is not possible.
    Source: `linelib.falls`, `through_cell`.
    """
    one_of("anchor", anchor, ("a", "b"))
    duration = max(float(at[-1]) - min(starts), 0.05) + 0.02
    rows = []
    for one, start in zip(falls(setups=setups, duration=duration, series=True).series, starts, strict=True):
        force = one.tension_a if anchor == "a" else one.tension_b
        rows.append(through_cell(time=one.time, force=force, at=at - start, averaging=averaging))
    return np.array(rows)


def true_peaks(*, setups: Sequence[Setup], anchor: str = "a") -> Array:
    """True peaks at an anchor [N], (setups,), of whole falls, however long a log is.

    Raises: ValueError naming what is not possible.
    Source: `linelib.falls`.
    """
    one_of("anchor", anchor, ("a", "b"))
    found = falls(setups=setups)
    return found.peak_tension_a if anchor == "a" else found.peak_tension_b
