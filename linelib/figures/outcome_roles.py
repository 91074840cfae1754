"""How an outcome is drawn: at A, at B, on the person, the drop; everything else as webbing that carries."""

from __future__ import annotations

from linelib.figures.roles import Role, Roles

ROLES = {
    "peak at A": "side_a",
    "peak at B": "side_b",
    "person": "person",
    "lowest tie-in": "drop",
    "anchor A": "side_a",
    "end at A": "side_a",
    "lock at B": "side_b",
    "backup's reserve": "backup",
}


def role_of(outcome: str, roles: Roles) -> Role:
    """The role of an outcome by its name."""
    found: Role = getattr(roles, ROLES.get(outcome, "carries"))
    return found
