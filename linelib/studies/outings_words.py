"""A series of falls with a slipping lock in words: a table of gain and cost, and what is commonly said beside the model."""

from __future__ import annotations

from collections.abc import Sequence

from linelib.cautions import CAUTION, RETENSION, SLIP
from linelib.models.fall_results import Fall
from linelib.studies.outings import Outings
from linelib.studies.witness import TELLS, lines, trend

ENDS = {
    "tail": "the tail is used up: its end runs through the lock, the main line lets go and only the backup is left",
    "backup": "the extra length is used up: the backup in the bay at the lock pulls before the main line is at its length",
}
SAID = (
    "SAID: A lock that slips a little takes the peak off: it works as a shock absorber. [common practice, no source]",
    "SAID: A line that has gone slack falls harder. [common practice, no source]",
)
COLUMNS = (
    ("anchor", "anchor", 1e-3, "kN"),
    ("increase", "over", 1e-3, "kN"),
    ("person", "person", 1e-3, "kN"),
    ("lowest", "lowest", 1.0, "m"),
    ("standing_sag", "sag", 1.0, "m"),
    ("pretension", "alone", 1e-3, "kN"),
    ("paid_out", "paid out", 1.0, "m"),
    ("tail_left", "tail", 1.0, "m"),
    ("fold_to_lock", "fold", 1.0, "m"),
    ("backup_left", "backup", 1.0, "m"),
)
HEAD = (
    "anchor: peak at the higher anchor; over: its increase over the standing line; person: 20 ms mean; lowest: lowest tie-in, "
    "not clearance; sag: standing, before the fall; alone: pretension of the line alone, before the fall; tail, fold (to the "
    "lock) and backup (extra length in the bay at the lock, at the highest pull): what is left."
)


def ending(*, outings: Outings) -> str:
    """Why a series ends before its last fall, '' when it does not. Source: studies/outings.py."""
    return f"In fall {outings.ended_in} {ENDS[outings.ended]}." if outings.ended else ""


def outings_text(*, outings: Outings) -> str:
    """One line a fall, forces in [kN], lengths in [m]; gain and cost always side by side.

    Returns: text, at most 100 characters wide. Source: studies/outings.py.
    """
    title = "RE-TENSIONED AFTER EACH FALL" if outings.retensioned else "LEFT AS THE FALL BEFORE LEFT IT"
    rows = [title, "fall" + "".join(f"{short:>9}" for _, short, _, _ in COLUMNS)]
    rows.append("    " + "".join(f"{'[' + unit + ']':>9}" for *_, unit in COLUMNS))
    for i in range(len(outings.series)):
        cells = [f"{getattr(outings, name)[i] * factor:9.2f}" for name, _, factor, _ in COLUMNS]
        rows.append(f"{i + 1:4d}" + "".join(cells))
    rows.append(f"ran out through the lock, all falls together: {outings.paid_out.sum():.2f} m")
    fold = f"The fold reaches the lock in fall {outings.fold_in}: bad seating begins (lesson 8)." if outings.fold_in else ""
    return "\n".join([*rows, *(words for words in (ending(outings=outings), fold) if words)])


def table_text(*, series: Sequence[Outings]) -> str:
    """Several series one under the other, forces in [kN], lengths in [m], with heading and cautions.

    Source: studies/outings.py.
    """
    return "\n\n".join([lines(HEAD), *(outings_text(outings=one) for one in series), lines(f"{SLIP} {RETENSION} {CAUTION}")])


def said_and_shown(*, left: Outings, holding: Fall) -> str:
    """What is commonly said of slip, and what the falls of this model do, worked out from them; `holding`: a lock that holds.

    Returns: text with forces in [kN], lengths in [m]. Source: studies/outings.py, models/fall_in_time.py.
    """
    peak = max(holding.peak_tension_a, holding.peak_tension_b)
    first = (
        f"Beside a lock that holds, fall 1 has {left.anchor[0] / 1e3:.1f} in place of {peak / 1e3:.1f} kN at the anchor, "
        f"{left.person[0] / 1e3:.1f} in place of {holding.peak_leash_force / 1e3:.1f} kN on the person, a lowest tie-in of "
        f"{left.lowest[0]:.1f} in place of {holding.lowest_point:.1f} m, and has paid out {left.paid_out[0]:.2f} m."
    )
    found = {
        "peak at the anchor": left.anchor,
        "increase over standing": left.increase,
        "force on the person": left.person,
        "lowest tie-in": left.lowest,
    }
    moves = "; ".join(f"{name} {trend(values.tolist(), TELLS[name])}" for name, values in found.items())
    last = f"From the first to fall {len(left.series)}: {moves}. "
    last += (
        f"Gone by then: {left.line_longer[-1]:.2f} m of the tail and of the backup's extra length, and standing sag from "
        f"{left.standing_sag[0]:.1f} to {left.standing_sag[-1]:.1f} m."
    )
    kept = (
        "So in this model the cap on the anchor is real, and what it is paid with is not on the load cell. The force and the "
        "length of a shock absorber are known beforehand and planned for; those of a slipping lock are not. " + SLIP
    )
    return "\n".join([*(lines(one) for one in SAID), lines(f"MODEL: {first}"), lines(f"MODEL: {last}"), lines(kept)])
