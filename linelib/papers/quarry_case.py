"""The case of lesson 12 as a case file: what its cards, falls, shares and weighings say, for the report and the bulletin."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from linelib.checks import number, one_of
from linelib.papers.case import CaseFile
from linelib.papers.case_parts import BELIEVED, Assumption, Cause, Change, Computed, Evidence, NamedSetup, Step
from linelib.studies.attribution import Attribution
from linelib.studies.attribution_words import BOUNDS, change_in_words
from linelib.studies.case_cards import Card, cards, cell_text, morning_text
from linelib.studies.case_gone_on import gone_on_text
from linelib.studies.case_rig import PLANNED, case_rig
from linelib.studies.case_story import Morning
from linelib.studies.keeping import Keeping
from linelib.studies.keeping_words import costs_in_words, keeping_text
from linelib.studies.outcome_words import name_of, words_of
from linelib.studies.stop_rules import NO_CAUSE, NOISE, act_for
from linelib.studies.weighed import Account, Weighed
from linelib.studies.weighing_words import verdict, weighed_text

TITLE = "A noise in the fourth fall: torn webbing in the lock"
CONCLUSION = "conclusion"  # a belief about a card that is no evidence at all


def quarry_case(*, told: Morning, beliefs: Mapping[int, str], shares: Attribution, weighed: Weighed, kept: Keeping) -> CaseFile:
    """The case file of lesson 12, made of what was computed there.

    Parameters
    ----------
    told : of `morning`; shares, weighed, kept : of the three studies; forces in [N], lengths in [m]
    beliefs : by the number of a card from 1, 'yes', 'doubted', 'wrong', or 'conclusion' for a card that is no evidence and is
        left out; 'yes' where it is not named

    Returns: CaseFile. Raises: ValueError naming a card that is not there, or a belief that is not known.
    Source: an invented story, studies/case_story.py.
    """
    made = cards(told=told)
    for card, belief in beliefs.items():
        number("card", card, low=1, high=len(made))
        one_of(f"beliefs[{card}]", belief, (*BELIEVED, CONCLUSION))
    return CaseFile(
        title=TITLE,
        evidence=tuple(_evidence(made, beliefs)),
        order=[Step(words=f"Fall {i}, {one.role}: {_what(told, i)}") for i, one in enumerate(told.falls, 1)],
        assumptions=tuple(_assumptions(weighed)),
        computed=(
            Computed(title="The morning", words=morning_text(told=told)),
            Computed(title="The cell beside the falls computed", words=cell_text(told=told)),
            Computed(title="Which choice drove it", words="\n".join([*map(change_in_words, shares.shares.values()), BOUNDS])),
            Computed(title="Explanations weighed", words=weighed_text(weighed=weighed)),
            Computed(title="What keeps a limit entered by the reader", words=keeping_text(kept)),
            Computed(title="If they had gone on: a fall never made", words=gone_on_text(told=told)),
        ),
        causes=tuple(_causes(weighed)),
        changes=tuple(_changes(kept)),
        not_known=(
            "How the webbing lay in the closed lock before the first fall.",
            "How strong the rest still was after the tear.",
            "Whether the true cause is on the list at all.",
        ),
        affected=("Crews whose webbing was taken out of a lock on the day and put in again.", "Crews whose lock creeps."),
        do_now=(
            "Before a line is tensioned: look how the webbing lies in the lock, square and flat, and photograph it.",
            "A creeping or slipping lock is a fault: stop and re-rig.",
            f"On an unknown noise: {act_for(state=NOISE)}",
            act_for(state=NO_CAUSE),
        ),
        setups=(
            NamedSetup(name="as planned", setup=case_rig(numbers=PLANNED).setup),
            *(NamedSetup(name=f"fall {i}, {one.role}", setup=one.setup) for i, one in enumerate(told.falls, 1)),
        ),
    )


def _evidence(made: tuple[Card, ...], beliefs: Mapping[int, str]) -> Iterator[Evidence]:
    for i, card in enumerate(made, 1):
        belief = beliefs.get(i, "yes")
        if belief != CONCLUSION:
            yield Evidence(kind=card.kind, words=card.words, believed=belief, source=f"card {i}")


def _what(told: Morning, i: int) -> str:
    one, before = told.falls[i - 1], told.falls[i - 2].torn if i > 1 else 0.0
    load = f"{one.load / 1e3:.1f} kN in the lock, computed"
    return f"{load}; a noise, part of the width tore, held" if one.torn > before else f"{load}; held, nothing noticed"


def _assumptions(weighed: Weighed) -> Iterator[Assumption]:
    """The range of every parameter of the explanations, as it stands on the screen."""
    for i, account in enumerate(weighed.accounts, 1):
        for one in account.explanation.ranges:
            ends = min(one.values) * one.factor, max(one.values) * one.factor
            why = "not measured; the range is our choice"
            yield Assumption(name=f"explanation {i}: {one.words}", low=ends[0], high=ends[1], unit=one.unit, why=why)


def _causes(weighed: Weighed) -> Iterator[Cause]:
    """By the events, the best supported first; those not told apart from it share the first rank."""
    alike = [one.name for one in weighed.not_told_apart]
    rank = 1
    for i, one in enumerate(weighed.ranked):
        rank += i > 0 and one.name not in alike
        words = f"{one.name}: {one.explanation.words}"
        yield Cause(rank=rank, words=words, for_it=_chance(one), against=_against(one, weighed))


def _chance(one: Account) -> str:
    return f"{100 * one.posterior:.0f} % of the belief among those listed, {100 * one.prior:.0f} % before the events"


def _against(one: Account, weighed: Weighed) -> str:
    if not one.sufficient:
        return "Not sufficient: nowhere in its range does it account for all events."
    return f"{verdict(weighed=weighed)} 'None of these' is always possible."


def _changes(kept: Keeping) -> Iterator[Change]:
    """Every value that meets the limit, with its cost; none without a limit."""
    if kept.limit is None:
        return
    keeps = f"{name_of(kept.outcome)}: {words_of(kept.outcome, kept.limit)}, the reader's own limit, in the model"
    for one in kept.kept:
        for found in one.found:
            value = found.value / 1e3 if one.knob.unit == "N" else found.value
            words = f"{one.knob.name} {value:.2f} {'kN' if one.knob.unit == 'N' else one.knob.unit} instead of as rigged, alone"
            yield Change(words=words, keeps=keeps, cost=costs_in_words(found.outcomes, kept))
