"""What is rigged and who falls: plain descriptions, checked when they are made, computed elsewhere."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from linelib.checks import instance, number, refuse
from linelib.webbing import Webbing


@dataclass(frozen=True, kw_only=True)
class Segment:
    """A piece of the line of one webbing. `length` [m] is its natural length; None: solved from the rig's pretension."""

    webbing: Webbing
    length: float | None = None

    def __post_init__(self) -> None:
        instance("webbing", self.webbing, Webbing)
        if self.length is not None:
            number("length", self.length, low=1e-3, high=1e4, unit="m")


@dataclass(frozen=True, kw_only=True)
class Backup:
    """A second line under the main one, joined to both anchors and to the main webbing at `joints`.

    Parameters
    ----------
    webbing : Webbing
    joints : positions along the span, 0 < joint < 1, rising; not at the leash ring. () : joined at the anchors only
    extra_length [m] : by how much each bay is longer than the main line beside it
    """

    webbing: Webbing
    joints: tuple[float, ...] = (0.5,)
    extra_length: float = 1.5

    def __post_init__(self) -> None:
        instance("webbing", self.webbing, Webbing)
        number("extra_length", self.extra_length, low=0.0, high=100.0, unit="m")
        if isinstance(self.joints, str) or not hasattr(self.joints, "__iter__"):
            raise refuse("joints", self.joints, "positions between 0 and 1")
        joints = tuple(number(f"joints[{i}]", j, low=0.001, high=0.999) for i, j in enumerate(self.joints))
        if any(b <= a for a, b in pairwise(joints)):
            raise refuse("joints", joints, "positions between 0 and 1, each larger than the one before")
        object.__setattr__(self, "joints", joints)


@dataclass(frozen=True, kw_only=True)
class Rig:
    """The line between its two anchors. A is the static side, B the tensioning side.

    Parameters
    ----------
    span [m] : horizontal distance of the anchors
    segments : Segments from A to B. Either every one has a length and there is no pretension, or exactly one has none
    height_difference [m] : anchor B above anchor A
    pretension [N] : horizontal tension of the line hanging alone, with what is hung under it
    slip_load_a, slip_load_b [N] : tension at which the lock there slips; None: it holds. A slipping lock is a fault
    hung_mass_per_length [kg per metre of span] : carried by the main webbing; None: that of the backup, if there is one
    backup : Backup or None

    Raises
    ------
    ValueError : name, value and allowed range.
    """

    span: float
    segments: tuple[Segment, ...]
    height_difference: float = 0.0
    pretension: float | None = None
    slip_load_a: float | None = None
    slip_load_b: float | None = None
    hung_mass_per_length: float | None = None
    backup: Backup | None = None

    def __post_init__(self) -> None:
        number("span", self.span, low=0.1, high=5000.0, unit="m")
        number("height_difference", self.height_difference, low=-2.0 * self.span, high=2.0 * self.span, unit="m")
        for name in ("pretension", "slip_load_a", "slip_load_b"):
            if getattr(self, name) is not None:
                number(name, getattr(self, name), low=1.0, high=1e9, unit="N")
        if self.hung_mass_per_length is not None:
            number("hung_mass_per_length", self.hung_mass_per_length, low=0.0, high=100.0, unit="kg/m")
        if self.backup is not None:
            instance("backup", self.backup, Backup)
        self._check_segments()

    def _check_segments(self) -> None:
        if isinstance(self.segments, str | Segment) or not hasattr(self.segments, "__iter__"):
            raise refuse("segments", self.segments, "a tuple of Segments from A to B")
        segments = tuple(self.segments)
        if not segments:
            raise refuse("segments", segments, "at least one Segment")
        for i, segment in enumerate(segments):
            instance(f"segments[{i}]", segment, Segment)
        object.__setattr__(self, "segments", segments)
        free = sum(s.length is None for s in segments)
        if self.pretension is None and free:
            raise refuse("length", None, "a length for every segment, or a pretension from which one is solved")
        if self.pretension is not None and free != 1:
            raise refuse("pretension", self.pretension, "exactly one segment without a length, here there are " + str(free))

    @property
    def hung_mass(self) -> float:
        """What hangs under the main webbing [kg per metre of span]: as entered, else the backup's own mass."""
        if self.hung_mass_per_length is not None:
            return float(self.hung_mass_per_length)
        if self.backup is None:
            return 0.0
        bays = len(self.backup.joints) + 1
        chord = (self.span**2 + self.height_difference**2) ** 0.5
        return self.backup.webbing.mass_per_length * (chord + bays * self.backup.extra_length) / self.span


@dataclass(frozen=True, kw_only=True)
class Leash:
    """What ties the walker to the line: `length` [m], `stiffness` [N/m], `damping` [N s/m], `ring_mass` [kg]."""

    length: float = 1.5
    stiffness: float = 20e3
    damping: float = 300.0
    ring_mass: float = 0.4

    def __post_init__(self) -> None:
        number("leash length", self.length, low=0.2, high=10.0, unit="m")
        number("leash stiffness", self.stiffness, low=100.0, high=1e6, unit="N/m")
        number("leash damping", self.damping, low=0.0, high=1e4, unit="N s/m")
        number("ring_mass", self.ring_mass, low=0.05, high=10.0, unit="kg")


@dataclass(frozen=True, kw_only=True)
class Walker:
    """Who falls: `mass` [kg], `standing_height` [m] of the harness tie-in above the line, `position` along the span [-]."""

    mass: float = 80.0
    standing_height: float = 1.0
    position: float = 0.5

    def __post_init__(self) -> None:
        number("mass", self.mass, low=10.0, high=300.0, unit="kg")
        number("standing_height", self.standing_height, low=0.0, high=3.0, unit="m")
        number("position", self.position, low=0.01, high=0.99, unit="of the span (0 is anchor A, 1 is anchor B)")


@dataclass(frozen=True, kw_only=True)
class Tear:
    """Part of the webbing's width tears in the lock at a `tension` [N]; the rest gives up a `length` [m] until it carries."""

    tension: float
    length: float

    def __post_init__(self) -> None:
        number("tension", self.tension, low=1.0, high=1e6, unit="N")
        number("length", self.length, low=1e-6, high=10.0, unit="m")


@dataclass(frozen=True, kw_only=True)
class Failure:
    """The main webbing parts in one bay of the backup, which then has to hold.

    Parameters
    ----------
    bay : number of the bay between two joints, 0 beside anchor A
    time [s] after the fall begins, or tension [N] in that bay: it parts at whichever comes first
    tears : what tears before that in the lock beside the bay, at rising tensions (models/torn_in_fall.py); only in a bay beside
        an anchor, and not in a lock that slips
    """

    bay: int = 0
    time: float | None = None
    tension: float | None = None
    tears: tuple[Tear, ...] = ()

    def __post_init__(self) -> None:
        bay = number("bay", self.bay, low=0, high=1000)
        if bay != int(bay):
            raise refuse("bay", self.bay, "a whole number, 0 for the bay beside anchor A")
        object.__setattr__(self, "bay", int(bay))
        if self.time is None and self.tension is None:
            raise refuse("time", None, "a time or a tension at which the main webbing parts")
        if self.time is not None:
            number("time", self.time, low=0.0, high=20.0, unit="s")
        if self.tension is not None:
            number("tension", self.tension, low=1.0, high=1e6, unit="N")
        self._check_tears()

    def _check_tears(self) -> None:
        if isinstance(self.tears, str | Tear) or not hasattr(self.tears, "__iter__"):
            raise refuse("tears", self.tears, "a tuple of Tears")
        tears = tuple(self.tears)
        for i, tear in enumerate(tears):
            instance(f"tears[{i}]", tear, Tear)
        object.__setattr__(self, "tears", tears)
        tensions = [tear.tension for tear in tears] + ([] if self.tension is None else [self.tension])
        if any(b <= a for a, b in pairwise(tensions)):
            raise refuse("tears", tears, "tensions that rise, all below the one at which it parts")


@dataclass(frozen=True, kw_only=True)
class Setup:
    """A rig, a leash, a walker, and the air: `air_density` [kg/m3], `drag_coefficient` [-] on the webbing's width.

    `failure` : Failure of the main line during the fall; None: it holds.
    """

    rig: Rig
    leash: Leash
    walker: Walker
    air_density: float = 1.2
    drag_coefficient: float = 1.5
    failure: Failure | None = None

    def __post_init__(self) -> None:
        instance("rig", self.rig, Rig)
        instance("leash", self.leash, Leash)
        instance("walker", self.walker, Walker)
        number("air_density", self.air_density, low=0.0, high=2.0, unit="kg/m3")
        number("drag_coefficient", self.drag_coefficient, low=0.0, high=3.0)
        if self.walker.standing_height > self.leash.length:
            raise refuse(
                "standing_height",
                self.walker.standing_height,
                f"from 0 to the leash's length, {self.leash.length:g} m: a tie-in higher than that hangs in the leash",
            )
        if self.failure is not None:
            instance("failure", self.failure, Failure)
            if self.rig.backup is None:
                raise refuse("failure", self.failure, "None without a backup: nothing would hold")
            bays = len(self.rig.backup.joints) + 1
            if self.failure.bay >= bays:
                raise refuse("bay", self.failure.bay, f"0 to {bays - 1}, the bays of this backup")
            if self.failure.tears:
                self._check_torn_lock(self.rig, self.failure, bays)

    def _check_torn_lock(self, rig: Rig, failure: Failure, bays: int) -> None:
        beside = [load for bay, load in ((0, rig.slip_load_a), (bays - 1, rig.slip_load_b)) if bay == failure.bay]
        if not beside:
            raise refuse("tears", failure.tears, "none in a bay that has no lock beside it")
        if any(load is not None for load in beside):
            raise refuse("tears", failure.tears, "none beside a lock that slips: what slips first is not known")
