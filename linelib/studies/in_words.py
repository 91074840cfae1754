"""A setup in words, for the cell under 'What we assume'."""

from __future__ import annotations

from linelib.models.standing import standing_of
from linelib.rigging import Setup


def in_words(*, setup: Setup) -> str:
    """Everything that is rigged and who stands on it, one line a thing; standing sag and pull are computed.

    Returns: text, lengths in [m], forces in [kN], masses in [kg] or [g/m].
    Raises: ValueError when the rig cannot hang.
    Source: the setup itself; standing line by models/standing.py.
    """
    rig, walker, leash = setup.rig, setup.walker, setup.leash
    standing = standing_of([setup])
    natural = standing.lines.pieces.length[:, 0]
    height = f", B {rig.height_difference:+.1f} m" if rig.height_difference else ""
    lines = [f"span        {rig.span:.1f} m{height}; A is the static side, B the tensioning side"]
    for segment, length in zip(rig.segments, natural, strict=False):
        web = segment.webbing
        lines.append(f"webbing     {length:.2f} m of {web.name}, {1e3 * web.mass_per_length:.0f} g/m, natural length")
    if rig.pretension is not None:
        lines.append(f"pretension  {rig.pretension / 1e3:.1f} kN, nobody on the line")
    if rig.backup is not None:
        joints = f"joined at {len(rig.backup.joints)} places"
        lines.append(f"backup      {rig.backup.webbing.name}, {joints}, each bay {rig.backup.extra_length:.1f} m longer")
    lines.append(f"hung mass   {1e3 * rig.hung_mass:.0f} g per metre of span")
    lines.append(f"walker      {walker.mass:.0f} kg at {100 * walker.position:.0f} % of the span, from A")
    lines.append(f"leash       {leash.length:.1f} m; tie-in {walker.standing_height:.1f} m above the line at the step off")
    share = 100.0 * standing.sag[0] / rig.span
    lines.append(
        f"standing    {standing.sag[0]:.2f} m of sag ({share:.1f} % of the span), {standing.horizontal[0] / 1e3:.1f} kN"
    )
    return "\n".join(lines)
