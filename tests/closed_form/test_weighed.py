"""What is read off a weighing: a range from classes, ranks by the events alone, the scale of Bayes factors, and its words."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from linelib.cautions import CAUTION, HELD
from linelib.studies.events import NOISE, PARTED, QUIET, Event, Hearing, Inspection, Story
from linelib.studies.rival_explanations import rivals
from linelib.studies.weighed import Account, Weighed, bayes_factor
from linelib.studies.weighing_words import not_sufficient, rest_should_hold, said, verdict, weighed_text
from linelib.tables import webbings

LISTED = rivals(webbing=webbings()["hmpe_25mm"])
LOADS = (6.5e3, 8e3, 9e3)
TOLD = Story(
    events=tuple(Event(load=n, uncertainty=300.0, seen=s) for n, s in zip(LOADS, (QUIET, NOISE, PARTED), strict=True)),
    inspection=Inspection(torn=0.25, uncertainty=0.08, after=2, trust=0.9),
    hearing=Hearing(heard=0.6, stray=0.1),
)
SHARES = np.linspace(0.0, 1.0, 11)


def made(evidences, fits, posteriors=None, story=TOLD) -> Weighed:
    """A weighing with numbers of our own; all of the width carried in the first explanation, about half in the others."""
    total, count = sum(evidences), len(evidences)
    accounts = []
    for i, (one, evidence, fit) in enumerate(zip(LISTED, evidences, fits, strict=False)):
        share = np.zeros(11)
        share[5:] = (0.0,) * 5 + (1.0,) if i == 0 else (0.9, 0.1, 0.0, 0.0, 0.0, 0.0)
        after = evidence / total if posteriors is None else posteriors[i]
        accounts.append(
            Account(explanation=one, prior=1 / count, posterior=after, evidence=evidence, fit=fit, cell=0, share=share)
        )
    return Weighed(story=story, median=32e3, tolerance=0.1, accounts=tuple(accounts), shares=SHARES)


def test_range_from_classes_by_hand() -> None:
    """0.04, 0.06, 0.8, 0.07, 0.03 in the classes 0.2 to 0.6: 5 % end 1/6 into 0.25 to 0.35, 95 % end 5/7 into 0.45 to 0.55."""
    share = np.zeros(11)
    share[2:7] = [0.04, 0.06, 0.8, 0.07, 0.03]
    one = made([1.0], [0.5])
    found = replace(one, accounts=(replace(one.accounts[0], share=share),))
    assert found.between(0.9) == pytest.approx((0.25 + 0.1 / 6, 0.45 + 0.5 / 7))
    assert found.between(0.5) == pytest.approx((0.35 + 0.1 * 0.15 / 0.8, 0.35 + 0.1 * 0.65 / 0.8))


def test_all_shares_together() -> None:
    """A quarter all of the width, three quarters about half: 5 % end 0.05/0.675 into 0.45 to 0.55, 95 % 4/5 into 0.95 to 1."""
    found = made([1.0, 3.0], [0.5, 0.5])
    assert (found.carried[10], found.carried[5], found.carried[6]) == pytest.approx((0.25, 0.675, 0.075))
    assert found.between(0.9) == pytest.approx((0.45 + 0.1 * 0.05 / 0.675, 0.99))


def test_ranks_follow_the_events_and_not_the_prior() -> None:
    found = made([0.1, 0.2, 0.05], [0.5, 0.5, 0.01], posteriors=[0.8, 0.1, 0.1])
    assert [one.name for one in found.ranked] == [LISTED[i].name for i in (1, 0, 2)]
    assert [one.name for one in found.not_told_apart] == [LISTED[i].name for i in (1, 0)]
    behind = made([0.1, 1.0, 0.04, 0.03], [0.5, 0.001, 0.5, 0.5])
    assert [one.name for one in behind.sufficient] == [LISTED[i].name for i in (0, 2, 3)]
    assert [one.name for one in behind.not_told_apart] == [LISTED[i].name for i in (0, 2)]
    assert made([1.0, 0.5], [0.001, 0.001]).not_told_apart == ()
    assert bayes_factor(found.accounts[1], found.accounts[2]) == pytest.approx(4.0)
    assert bayes_factor(found.accounts[0], replace(found.accounts[1], evidence=0.0)) == float("inf")


@pytest.mark.parametrize(("evidence", "apart"), [(0.334, False), (0.333, True)])
def test_three_times_is_the_line(evidence, apart) -> None:
    """1 over 0.334 is 2.99, over 0.333 is 3.003."""
    found = made([1.0, evidence], [0.5, 0.5])
    assert (len(found.not_told_apart) == 1) is apart


@pytest.mark.parametrize(("fit", "sufficient"), [(0.0101, True), (0.01, True), (0.0099, False)])
def test_a_hundredth_is_the_line(fit, sufficient) -> None:
    assert made([1.0], [fit]).accounts[0].sufficient is sufficient


def test_the_rest_should_hold_what_is_left() -> None:
    """A quarter tears at 8 kN of 32: the rest holds 24; no noise, no break or too high a noise: nothing is said."""
    assert rest_should_hold(story=TOLD, median=32e3) == pytest.approx(24e3)
    assert rest_should_hold(story=replace(TOLD, events=TOLD.events[:2]), median=32e3) is None
    quiet = replace(TOLD, events=(TOLD.events[0], replace(TOLD.events[1], seen=QUIET), TOLD.events[2]))
    assert rest_should_hold(story=quiet, median=32e3) is None
    assert rest_should_hold(story=TOLD, median=7.9e3) is None
    twice = replace(TOLD, events=(replace(TOLD.events[0], seen=NOISE), *TOLD.events[1:]))
    assert rest_should_hold(story=twice, median=32e3) == pytest.approx(24e3)  # the last noise


def test_verdicts_by_hand() -> None:
    near = made([0.0, 0.2, 0.1, 0.01], [0.0, 0.5, 0.4, 0.005])
    assert verdict(weighed=near) == "Not told apart: 2 and 3 (Bayes factors under 3)."
    more = "A sound rest should hold about 24 kN; it parted near 9.0: something more was at work."
    assert not_sufficient(weighed=near) == f"Not sufficient: 1 and 4. {more}"
    far = made([0.01, 0.2, 0.05], [0.1, 0.5, 0.4])
    assert verdict(weighed=far) == "Best supported: 2; Bayes factor over the next 4, 'positive'."
    assert not_sufficient(weighed=far) == "All of them could account for it somewhere in their range."
    huge = made([1.0, 1e-9], [0.5, 0.001])
    assert verdict(weighed=huge) == "Best supported: 1; Bayes factor over the next over 1000, 'very strong'."
    assert not_sufficient(weighed=huge) == "Not sufficient: 2."
    alone = made([1.0, 0.5], [0.5, 0.001])
    assert verdict(weighed=alone) == "1 alone is sufficient, but its Bayes factor over 2 is 2.0: look again."
    behind = made([0.5, 1.0, 0.01], [0.5, 0.001, 0.5])
    assert verdict(weighed=behind) == "1 alone is sufficient, but its Bayes factor over 2 is 0.5: look again."
    assert said(weighed=behind).count("Not sufficient: 2.") == 1
    nobody = made([1.0, 0.5], [0.001, 0.001])
    assert verdict(weighed=nobody).startswith("None of the list is sufficient: look for 'none of these'")
    assert verdict(weighed=made([1.0], [0.5])) == "One explanation alone has no rival: nothing is weighed."
    over = replace(TOLD, events=(*TOLD.events[:2], replace(TOLD.events[2], load=25e3)))
    assert not_sufficient(weighed=made([0.0, 1.0], [0.0, 0.5], story=over)) == "Not sufficient: 1."


def test_the_sentence_never_goes_without_its_cautions() -> None:
    always = "'None of these' is always possible. After the event only: a held fall proves nothing about the next."
    parted = said(weighed=made([1.0, 0.5], [0.5, 0.5]))
    assert parted.endswith(always)
    assert "Not sufficient" not in said(weighed=made([1.0, 0.5], [0.001, 0.001]))
    stopped = said(weighed=made([1.0, 0.5], [0.5, 0.5], story=replace(TOLD, events=TOLD.events[:2])))
    assert stopped.endswith(f"{always} Nothing here is a reason for another fall: stop, load off, look.")


def test_the_table_says_what_went_in_and_what_came_out() -> None:
    text = weighed_text(weighed=made([0.0, 0.2, 0.1, 0.01, 0.0], [0.0, 0.5, 0.4, 0.006, 0.0]))
    plain = " ".join(text.split())
    for words in (
        "fall 2: 8.0 kN, give or take 0.3; held, noise",
        "torn after fall 2: 25 % of the width, give or take 8 %",
        "chance that this card is right: 90 %",
        "heard with a chance of 60 %; a load that tears nothing makes such a noise with 10 % (typical, no source)",
        "Sound webbing: 32.0 kN, give or take 10 %",
        "2 rest seated unevenly 20.0 % 64.5 % 1/1.0 0.500",
        "4 damaged before the day 20.0 % 3.2 % 1/20 0.006 not sufficient",
        "1 one group tore, rest sound 20.0 % 0.0 % under 1/9999 0.000 not sufficient",
        "none of these - - always possible, no number",
        "5 ranges: loads above those computed, times 1 to 2",
        "when last whole: 46 to 60 % with a chance of 90 %",
        "Kass and Raftery 1995, from memory",
        "The first story that fits is not the cause. The list is not complete",
        HELD,
        CAUTION,
    ):
        assert words in plain, words
    assert max(len(line) for line in text.splitlines()) <= 100
