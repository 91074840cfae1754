"""Stories drawn event by event from a known truth: plain steps, nothing of the likelihood in them."""

from __future__ import annotations

import numpy as np

from linelib.studies.events import NOISE, PARTED, QUIET, Event, Hearing, Inspection, Story


def drawn(rng, *, thresholds, torn, means, give, hearing, found_within=None):
    """One story and the state that was last whole, for thresholds [N] and torn shares [-] of its states in a row.

    The loads are drawn about the `means` [N]; a story ends when the line parts. The inspection, where there is one, is made of
    the state that was last whole, and its reading is drawn until it lies between nothing and all.
    """
    state, events = 0, []
    for mean in means:
        load, before = rng.normal(mean, give), state
        while state < len(thresholds) and load >= thresholds[state]:
            state += 1
        if state == len(thresholds):
            events.append(Event(load=mean, uncertainty=give, seen=PARTED))
            state = before
            break
        heard = rng.random() < (hearing.heard if state > before else hearing.stray)
        events.append(Event(load=mean, uncertainty=give, seen=NOISE if heard else QUIET))
    inspection = None
    if found_within is not None:
        after = len(events) - (events[-1].seen == PARTED)
        inspection = Inspection(torn=_read(rng, torn[state], found_within), uncertainty=found_within, after=after)
    return Story(events=tuple(events), inspection=inspection, hearing=hearing), state


def _read(rng, torn: float, within: float) -> float:
    while True:
        reading = rng.normal(torn, within)
        if 0.0 <= reading <= 1.0:
            return float(reading)


def drawn_from(rng, one, *, strength, means, give, hearing=None, found_within=None):
    """A story drawn from the prior of an Explanation: a cell, a strength, then the events; and the share that carried."""
    stages, cell = one.stages, rng.integers(len(one.stages.load))
    newtons = strength.median * np.exp(strength.tolerance * rng.normal())
    loads = list(stages.load[cell] * newtons)
    shares, carries = list(stages.torn[cell]), list(stages.carries[cell])
    while len(loads) > 1 and loads[-1] == loads[-2]:  # repeated stages are none
        loads.pop()
    story, state = drawn(
        rng, thresholds=loads, torn=shares, means=means, give=give, hearing=hearing or Hearing(), found_within=found_within
    )
    return story, carries[state]
