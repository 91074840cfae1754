"""How well rival explanations account for all events of a story, in order: likelihood, posterior, and whether one suffices."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr

from linelib.checks import instance, number, refuse
from linelib.studies.events import Story
from linelib.studies.explanations import Explanation
from linelib.studies.sound_strength import Strength
from linelib.studies.tear_stages import Stages
from linelib.studies.weighed import Account, Weighed

Array = NDArray[np.float64]
SHARES = np.linspace(0.0, 1.0, 41)  # middles of the classes in which the share that carried is counted


def state_chances(*, story: Story, stages: Stages, strength: Strength) -> Array:
    """Chance of the whole story together with the state it leaves, for every cell and strength, shape (states, cells, nodes).

    From state j a load L ~ N(mean, uncertainty) leaves state j when L < t_j, state k when t_(k-1) <= L < t_k, and parts the
    line when L >= t_last; each times the chance of what was seen. Loads are integrated exactly: differences of normal
    distributions. The last state is 'parted'; after a story that ends so, the chances stand at the state before it.

    Parameters: story; stages, loads over the strength [-]; strength [N], [-].
    Returns: chances [-], times a density [1/share] where there is an inspection.
    Raises: ValueError when `story` is none.
    Valid: independent errors of the loads; one strength for all of them.
    Example: one stage at 8 kN, 'held' at 7 +- 1 kN: chance 0.841, the normal distribution at 1.
    Source: total probability over a chain of states; tests/independent_route draws the events instead.
    """
    instance("story", story, Story)
    newtons, _ = strength.nodes
    at = stages.load.T[:, :, None] * newtons  # (stages, cells, nodes)
    now = np.zeros((len(at) + 1, *at.shape[1:]))
    now[0] = 1.0
    now = _inspected(now, story, stages, 0)
    for done, event in enumerate(story.events, 1):
        stay, tear, part = story.hearing.chances(event.seen)
        z = (at - event.load) / event.uncertainty
        if part and not stay:
            now[:-1] *= ndtr(-z[-1])
            now[-1] = 0.0
            continue
        below = ndtr(z)
        after = np.empty_like(now)
        reached = np.cumsum(now[:-1], axis=0)
        after[:-1] = stay * now[:-1] * below
        after[1:-1] += tear * reached[:-1] * (below[1:] - below[:-1])
        after[-1] = part * reached[-1] * ndtr(-z[-1]) if part else 0.0
        now = _inspected(after, story, stages, done)
    return now


def _inspected(now: Array, story: Story, stages: Stages, done: int) -> Array:
    """The chances times the density of what was found after so many events."""
    if story.inspection is None or story.inspection.after != done:
        return now
    torn = np.vstack([stages.torn.T, np.ones(len(stages.torn))])
    return np.asarray(now * story.inspection.density(torn)[:, :, None])


def attainable(*, story: Story) -> float:
    """What an explanation would reach that foresaw every event as surely as anything can: the scale of a fit.

    Product of the largest chances of what was seen [-], times the largest density of what was found [1/share].
    Example: three quiet falls and a noise, heard 0.7, stray 0.05: 0.95^3 * 0.7 = 0.600.
    Source: by definition.
    """
    best = float(np.prod([max(story.hearing.chances(event.seen)) for event in story.events]))
    found = story.inspection
    return best if found is None else best * float(found.density(np.linspace(0.0, 1.0, 401)).max())


def weigh(
    *, story: Story, explanations: Sequence[Explanation], strength: Strength, prior: Sequence[float] | None = None
) -> Weighed:
    """Posterior over explanations and over the share of the width that carried; and which explanation does not suffice.

    evidence = mean over the cells of the sum over strengths of weight * chance; posterior ~ prior * evidence;
    fit = largest chance * exp(-z^2 / 2) over all cells and strengths / `attainable`; z: strength off its median, in tolerances.

    Parameters
    ----------
    story : events in order, inspection, hearing; after the event only
    explanations : rivals with names of their own
    strength [N], [-] : of the sound webbing
    prior [-] : one weight an explanation, made to add up to 1; None: all equal

    Returns: Weighed; chances [-].
    Raises: ValueError naming the argument, its value and what is allowed; also when no explanation gives the story any chance.
    Example: evidences 0.2 and 0.1, equal priors: posteriors 2/3 and 1/3, a Bayes factor of 2: not told apart.
    Source: Bayes; ranges and grids are those of the explanations. Leaves out: every explanation that is not on the list.
    """
    weights = _prior(explanations, prior)
    found = [_account(story, one, strength) for one in explanations]
    joint = np.array([w * account.evidence for w, account in zip(weights, found, strict=True)])
    total = float(joint.sum())
    if total < 1e-290:
        raise refuse("explanations", [one.name for one in explanations], "at least one that gives the story a chance above 0")
    scale = attainable(story=story)
    accounts = tuple(
        replace(account, prior=float(w), posterior=float(p / total), fit=account.fit / scale)
        for account, w, p in zip(found, weights, joint, strict=True)
    )
    return Weighed(story=story, median=strength.median, tolerance=strength.tolerance, accounts=accounts, shares=SHARES)


def _account(story: Story, one: Explanation, strength: Strength) -> Account:
    """The explanation by itself: prior and posterior not yet set, its fit not yet over what is attainable."""
    stages = one.stages
    chances = state_chances(story=story, stages=stages, strength=strength)
    weights = strength.nodes[1]
    likeliest = chances.sum(axis=0) * (weights / weights.max())  # an odd strength has its price
    by_state = chances @ weights  # (states, cells)
    evidence = float(by_state.sum()) / len(stages.load)
    carries = np.vstack([stages.carries.T, np.zeros(len(stages.load))])
    bins = np.rint(carries * (len(SHARES) - 1)).astype(int)
    share = np.asarray(np.bincount(bins.ravel(), by_state.ravel(), len(SHARES)), float)
    total = share.sum()
    at = likeliest.max(axis=1)
    share = share / total if total > 0.0 else share
    best, cell = float(at.max()), int(at.argmax())
    return Account(explanation=one, prior=0.0, posterior=0.0, evidence=evidence, fit=best, cell=cell, share=share)


def _prior(explanations: Sequence[Explanation], prior: Sequence[float] | None) -> Array:
    names = [one.name for one in explanations]
    if not names or len(set(names)) < len(names):
        raise refuse("explanations", names, "at least one, each with a name of its own")
    weights = [1.0] * len(names) if prior is None else list(prior)
    for i, weight in enumerate(weights):
        number(f"prior[{i}]", weight, low=0.0, high=1e6)
    if len(weights) != len(names) or sum(weights) <= 0.0:
        raise refuse("prior", prior, f"{len(names)} weights from 0 up, not all 0")
    return np.array(weights, float) / sum(weights)
