"""What a crew could notice after strips tore at the lock: change of sag, tension and pluck over what people can tell apart."""

from __future__ import annotations

from dataclasses import replace

from linelib.checks import instance, number, refuse
from linelib.models.pluck import pluck
from linelib.models.sag import State, hang
from linelib.models.signs import Noticeable, Sign, TearSigns
from linelib.rigging import Rig, Segment
from linelib.webbing import Webbing


def tear_signs(
    *,
    rig: Rig,
    length_given_up: float,
    load: float,
    position: float = 0.5,
    noticeable: Noticeable | None = None,
    weakened_length: float = 0.0,
    whole_share: float = 1.0,
) -> TearSigns:
    """Changes of a line that became longer at its lock at B, each over the least change that can be noticed.

        natural length after = natural length before + length given up;  times = |after - before| / threshold
        taut, straight, light: change of tension alone = -EA * given up / length

    Parameters
    ----------
    rig : before the tear; with a pretension its lengths are solved first, then they stay
    length_given_up [m] : at the lock, 0 to 5; `length_given_up` of models/tearing.py `remainder` includes softer webbing there
    load [N] : weight of who stands on the line
    position : of the load, x / span
    noticeable : Noticeable; None: its default numbers
    weakened_length [m], whole_share [-] : on so much webbing at the lock only this share of the width carries from now on; to
        be used when the length given up does not include that

    Returns: TearSigns, lengths in [m], tensions in [N], times in [s].
    Valid: a line at rest; the tear is over. Raises: ValueError naming the argument, its value and what is allowed.
    Example: 100 m, EA 1 MN, taut and light, 10 mm given up: tension alone falls by 1 MN * 0.01 / 100 = 100 N; with a threshold
        of 300 N that is 0.33 times what can be noticed.
    Leaves out: noise, creep, warmth, wind, a lock that slips as well, what is hidden under covers.
    Source: models/sag.py and models/pluck.py, used twice; thresholds: typical, no source.
    """
    instance("rig", rig, Rig)
    given = number("length_given_up", length_given_up, low=0.0, high=5.0, unit="m")
    number("load", load, low=1.0, high=1e5, unit="N")
    share = number("whole_share", whole_share, low=0.01, high=1.0)
    least = Noticeable() if noticeable is None else noticeable
    instance("noticeable", least, Noticeable)
    before = with_lengths(rig=rig)
    last = before.segments[-1].length or 0.0
    soft = number("weakened_length", weakened_length, low=0.0, high=0.5 * last, unit="m, half of the last segment")
    if 0.0 < soft < 1e-3:
        raise refuse("weakened_length", soft, "0, or a number from 0.001 m")
    after = _torn(before, given, soft, share)
    on = [hang(rig=one, load=load, position=position) for one in (before, after)]
    free = [pluck(rig=one) for one in (before, after)]
    parts = (
        ("length at the lock", (0.0, given), least.length),
        ("sag under the walker", (on[0].sag, on[1].sag), least.sag),
        ("tension, walker on", (_pull(on[0]), _pull(on[1])), least.tension),
        ("tension, nobody on", (free[0].tension, free[1].tension), least.tension),
        ("pluck, nobody on", (free[0].round_trip, free[1].round_trip), least.round_trip),
    )
    return TearSigns(each=tuple(Sign(name=n, before=v[0], after=v[1], threshold=t) for n, v, t in parts))


def with_lengths(*, rig: Rig) -> Rig:
    """The same rig with the natural length [m] of every segment given, and no pretension.

    Returns: Rig, lengths in [m]. Raises: ValueError as `hang`. Source: models/sag.py.
    """
    lengths = hang(rig=rig).natural_lengths
    parts = tuple(replace(s, length=float(n)) for s, n in zip(rig.segments, lengths, strict=True))
    return replace(rig, segments=parts, pretension=None)


def _torn(rig: Rig, given: float, soft: float, share: float) -> Rig:
    """The line after the tear: longer at B, and with a part of it that carries on a share of the width."""
    *others, last = rig.segments
    parts = [*others, replace(last, length=(last.length or 0.0) - soft + given)]
    if soft > 0.0:
        parts.append(Segment(webbing=_weaker(last.webbing, share), length=soft))
    return replace(rig, segments=tuple(parts))


def _weaker(webbing: Webbing, share: float) -> Webbing:
    """Webbing of which only a share of the width carries."""
    if webbing.stiffness is not None:
        return replace(webbing, stiffness=share * webbing.stiffness)
    return replace(webbing, tension=tuple(share * t for t in webbing.tension or ()))


def _pull(state: State) -> float:
    return max(state.tension_a, state.tension_b)
