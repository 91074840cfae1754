"""When to stop, and in which order to act: rules as data. No state of them lets anybody go on."""

from __future__ import annotations

from dataclasses import dataclass

from linelib.checks import one_of

NOISE, CHANGE, NOTHING, NO_CAUSE = "unknown noise", "change seen", "nothing noticed", "nothing found"
STATES = (NOISE, CHANGE, NOTHING, NO_CAUSE)
NEVER = "Nobody pulls, plucks, loads or bounces on a suspect line."


@dataclass(frozen=True, kw_only=True)
class Act:
    """One step: what is done, and why it stands at this place in the order."""

    act: str
    why: str


ACTS = (
    Act(act="stop", why="the next load may be the one that the rest does not hold"),
    Act(act="bring the walker in gently", why="a fall now is the worst load on what is left; no bounce, no hurry"),
    Act(act="clear the line of recoil", why="an end that lets go flies along the line, with all that hangs on it"),
    Act(act="take the load off with independent tackle", why="nothing is opened or held by a lock that is in doubt"),
    Act(
        act="open every tie and cover, look inside the lock", why="a tear hides where the webbing is held; only now is it free"
    ),
    Act(act="no cause found: no more outing", why="not to find the cause is not to have removed it"),
)

_FOR = {
    NOISE: "Stop; walker in gently; recoil line clear; load off with independent tackle; then open and look.",
    CHANGE: "Stop as on a noise: walker in gently, recoil line clear, load off, then open and look.",
    NOTHING: "It proves nothing. An unknown noise alone is reason to stop; nobody waits for a second sign.",
    NO_CAUSE: "No cause found, no more outing: the line comes down, qualified riggers decide.",
}


def act_for(*, state: str) -> str:
    """What to do, for one of STATES: an unknown noise, a change seen, nothing noticed, nothing found after looking.

    Returns: a sentence. None of them permits to go on.
    Raises: ValueError listing the states.
    Example: act_for(state="nothing found") begins with 'No cause found, no more outing'.
    Source: common practice, no source; the wording is ours.
    """
    return _FOR[one_of("state", state, STATES)]


def order_text() -> str:
    """The acts with their reasons, numbered, one a line.

    Returns: text. Source: common practice, no source.
    """
    return "\n".join(f"{i}. {step.act}: {step.why}" for i, step in enumerate(ACTS, 1))
