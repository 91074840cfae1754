"""The case as it happened, in the model: a morning of three falls while the lock crept, then the coach's. Invented;
the way the webbing sat is chosen so that its first strips tear between falls 3 and 4."""

from __future__ import annotations

from dataclasses import dataclass, replace

from linelib.checks import number
from linelib.models.fall_in_time import fall
from linelib.models.fall_results import Fall
from linelib.models.sag import hang
from linelib.models.seated_strips import strips_of
from linelib.models.seating import Seating, path_differences
from linelib.models.strips import Strips
from linelib.models.torn_in_fall import strips_torn, torn_in_fall
from linelib.rigging import Rig, Setup
from linelib.studies.case_rig import LINKS, LOCK, PLANNED, RIGGED, Numbers, case_rig
from linelib.studies.falls_in_a_row import longer

FOLD_DEPTH, SHARING_LENGTH = 0.005, 0.1  # [m]: our choice; nobody knows the second
ROLES = ("first walker", "second walker", "third walker", "coach")
LIGHTER = ((58.0, 1.3, 0.9), (64.0, 1.5, 1.0), (70.0, 1.5, 1.0))  # mass [kg], leash, stance [m]: our choice
_LOCK = next(link for link in LINKS if link.name == LOCK)


@dataclass(frozen=True, kw_only=True)
class Told:
    """One fall of the morning: `role`, its `setup`, the line's `pretension` before it [N], `load` [N] at the lock if nothing
    had given way there, and the `fall` as the strips made it; `torn` [-] : share of the width torn after it."""

    role: str
    setup: Setup
    pretension: float
    load: float
    fall: Fall
    torn: float


@dataclass(frozen=True, kw_only=True)
class Morning:
    """The four falls in their order, `crept` [m] : what came through the lock between falls 1 and 4, and the `strips` there."""

    falls: tuple[Told, ...]
    crept: float
    strips: Strips

    @property
    def loads(self) -> tuple[float, ...]:
        """Load at the lock of each fall [N]."""
        return tuple(one.load for one in self.falls)


def strips_at_lock(*, strength: float = 1.0, skew: float = 0.0) -> Strips:
    """The webbing in the lock at B: an edge rolled over to a pleat, so that only the flat share of the width is tight.

    Strips as strong as the lock leaves webbing that is seated straight. The pleat takes the share `RIGGED.lock_left` of the
    width: the flat rest tears first, and what lay in the pleat then holds that share, as the lock's factor in case_rig says.

    Parameters: strength [-] : times what is printed, 0.5 to 1.5; skew [rad] : by which the webbing lies aslant as well.
    Returns: Strips; forces in [N].
    Raises: ValueError naming the argument, its value and what is allowed.
    Example: 35 kN, a quarter off in the lock, 45 % tight: they tear at 0.45 * 26.25 = 11.8 kN, the rest holds 14.4 kN.
    Source: models/seating.py, models/strips.py; the seating is our choice.
    """
    number("strength", strength, low=0.5, high=1.5)
    case = case_rig(numbers=RIGGED)
    straight = _LOCK.strength(replace(case, left={}))
    webbing = replace(case.setup.rig.segments[-1].webbing, breaking_strength=strength * straight)
    seating = Seating(skew_angle=skew, fold_depth=FOLD_DEPTH, folded_share=RIGGED.lock_left)
    difference = path_differences(seating=seating, width=webbing.width, sharing_length=SHARING_LENGTH)
    return strips_of(webbing=webbing, difference=difference, sharing_length=SHARING_LENGTH, stiffening=webbing.fast_ratio)


def morning(*, strips: Strips | None = None) -> Morning:
    """Falls 1 to 4 on the rig as it was, without the insert, each on the line that the creep before it has left.

    The line starts at the tension that was planned; equal lengths creep through the lock after falls 1, 2 and 3, so much that
    fall 4 finds the tension of RIGGED. Nothing slips in a fall.

    Parameters: strips : at the lock; None: those of `strips_at_lock`.
    Returns: Morning, forces in [N], lengths in [m].
    Source: an invented story; models/fall_in_time.py, models/torn_in_fall.py.
    """
    strips = strips_at_lock() if strips is None else strips
    first, last = (_rig(pretension) for pretension in (PLANNED.pretension, RIGGED.pretension))
    crept = _length(last) - _length(first)
    told: list[Told] = []
    torn = 0
    for i, (role, setup) in enumerate(zip(ROLES, _setups(), strict=True)):
        rig = longer(rig=first, paid_out=crept * i / (len(ROLES) - 1))
        setup = replace(setup, rig=rig)
        fallen = fall_on(strips=strips, setup=setup, torn=torn)
        load = fall(setup=setup).peak_tension_b
        if fallen.failure_time < 0.0:
            torn = strips_torn(strips=strips, length=fallen.slip_b, torn=torn)
        share = torn / len(strips.tears_at) if fallen.failure_time < 0.0 else 1.0
        told.append(Told(role=role, setup=setup, pretension=hang(rig=rig).horizontal, load=load, fall=fallen, torn=share))
    return Morning(falls=tuple(told), crept=crept, strips=strips)


def fall_on(*, strips: Strips, setup: Setup, torn: int = 0) -> Fall:
    """The fall of `setup` with `strips` in the lock at B, of which so many are `torn`; the backup's bay there takes over.

    Parameters: strips [N]; setup : with a backup; torn. Returns: Fall, forces in [N].
    Raises: ValueError as torn_in_fall and fall.
    Source: models/torn_in_fall.py.
    """
    bay = len(setup.rig.backup.joints) if setup.rig.backup else 0
    return fall(setup=replace(setup, failure=torn_in_fall(strips=strips, bay=bay, torn=torn)), duration=8.0)


def _rig(pretension: float) -> Rig:
    """The rig of the day at a tension, every length given."""
    return longer(rig=case_rig(numbers=replace(RIGGED, pretension=pretension)).setup.rig, paid_out=0.0)


def _length(rig: Rig) -> float:
    return sum(segment.length or 0.0 for segment in rig.segments)


def _setups() -> list[Setup]:
    """Who fell, in which leash, from which height: three lighter walkers and the coach."""
    lighter = [replace(RIGGED, mass=m, leash_length=long, standing_height=high) for m, long, high in LIGHTER]
    every: list[Numbers] = [*lighter, RIGGED]
    return [case_rig(numbers=one).setup for one in every]
