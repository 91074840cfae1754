"""The lesson rig with a main line that parts in one bay, and what extra length and moment do to the catch."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from linelib.checks import one_of
from linelib.models.fall_in_time import falls
from linelib.models.seated_strips import strips_of
from linelib.models.seating import Seating, path_differences
from linelib.models.strips import Strips
from linelib.models.torn_in_fall import torn_in_fall
from linelib.rigging import Backup, Failure, Setup
from linelib.studies.lesson_rig import BACKUP, lesson_setup
from linelib.tables import webbings
from linelib.webbing import Webbing

BAYS = ("own", "a", "b")
SHARING_LENGTH, FOLD_DEPTH = 0.1, 0.005  # [m]: our choice


def lesson_catch(
    *,
    extra_length: float = 1.5,
    bays: int = 3,
    bay: str = "own",
    time: float | None = 1.3,
    tension: float | None = None,
    seating: Seating | None = None,
    **lesson: Any,
) -> Setup:
    """The lesson rig with a backup of equal bays; beside one of them the main line parts.

    Parameters: extra_length [m] of each bay; bays, 1 or more; bay : 'own' (the walker's), 'a' or 'b' (at that anchor);
    time [s] after the step off, tension [N] at which it parts, None: not for that; seating : of the webbing in the lock at B,
    whose strips then tear one after the other in place of time, tension and bay; lesson : as in lesson_setup.
    Returns: Setup.
    Raises: ValueError naming what is not possible.
    Source: an invented rig; the numbers are our choice.
    """
    setup = lesson_setup(**lesson)
    table = lesson.get("table") or webbings()
    joints = tuple(i / bays for i in range(1, bays))
    backup = Backup(webbing=table[BACKUP], joints=joints, extra_length=extra_length)
    own = min(int(setup.walker.position * bays), bays - 1)
    number = {"own": own, "a": 0, "b": bays - 1}[one_of("bay", bay, BAYS)]
    failure = None
    if seating is not None:
        failure = torn_in_fall(strips=strips_in_lock(seating=seating, webbing=setup.rig.segments[-1].webbing), bay=bays - 1)
    elif time is not None or tension is not None:
        failure = Failure(bay=number, time=time, tension=tension)
    return replace(setup, rig=replace(setup.rig, backup=backup), failure=failure)


def strips_in_lock(*, seating: Seating, webbing: Webbing) -> Strips:
    """The strips of `webbing` in the lock at B under a fast pull, over a sharing length of 10 cm.

    Returns: Strips; forces in [N], lengths in [m].
    Raises: ValueError as path_differences.
    Source: models/strips.py; the sharing length is not known, ours is a choice.
    """
    difference = path_differences(seating=seating, width=webbing.width, sharing_length=SHARING_LENGTH)
    return strips_of(webbing=webbing, difference=difference, sharing_length=SHARING_LENGTH, stiffening=webbing.fast_ratio)


def catches_text(*, extra_lengths: Sequence[float], times: Sequence[float], **catch: Any) -> str:
    """A table: for each extra length [m] a bay, the hardest catch among those `times` [s], and the deepest.

    Parameters: extra_lengths, times : one or more each; catch : as in lesson_catch.
    Returns: text; forces in [kN], lengths in [m].
    Raises: ValueError as lesson_catch and falls.
    Source: models/fall_in_time.py.
    """
    setups = [lesson_catch(extra_length=extra, time=time, **catch) for extra in extra_lengths for time in times]
    held = lesson_catch(extra_length=extra_lengths[0], time=None, **catch)
    found = falls(setups=[held, *setups])
    person, deep = (values[1:].reshape(len(extra_lengths), -1) for values in (found.peak_leash_force, found.lowest_point))
    lines = ["extra length     hardest on the person, if it parts at     deepest tie-in, if it parts at"]
    lines.append(f"it holds      {found.peak_leash_force[0] / 1e3:10.1f} kN {found.lowest_point[0]:34.1f} m")
    for i, extra in enumerate(extra_lengths):
        hard, low = int(np.argmax(person[i])), int(np.argmax(deep[i]))
        hardest = f"{person[i, hard] / 1e3:10.1f} kN {times[hard]:13.2f} s"
        lines.append(f"{extra:6.1f} m      {hardest} {deep[i, low]:19.1f} m {times[low]:13.2f} s")
    return "\n".join(lines)
