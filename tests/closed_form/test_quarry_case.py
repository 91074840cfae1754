"""The case file of lesson 12 says what was computed, and its papers can be written by one command."""

from __future__ import annotations

import pytest

from linelib.panels.keeping_panel import KeepingPanel
from linelib.panels.weighing_panel import WeighingPanel
from linelib.panels.which_choice_panel import WhichChoicePanel
from linelib.papers import bulletin, open_case, report, save_case
from linelib.papers.__main__ import main
from linelib.papers.quarry_case import quarry_case
from linelib.studies.case_cards import cards
from linelib.studies.case_story import morning


@pytest.fixture(scope="module")
def computed():
    """What the lesson computes, with a limit of 0.6 entered."""
    told = morning()
    weighing = WeighingPanel(loads=told.loads, fifth="never", torn=45, strength=33, tolerance=15)
    weighed = weighing.set(last=round(told.loads[-1] / 1e3, 1)).weighing.found
    shares = WhichChoicePanel().readings().found
    return {"told": told, "shares": shares, "weighed": weighed, "kept": KeepingPanel().limit(0.6).found}


@pytest.fixture(scope="module")
def case(computed):
    return quarry_case(beliefs={1: "conclusion", 3: "wrong", 9: "doubted"}, **computed)


def test_cards_become_evidence_but_for_the_conclusion(case, computed):
    made = cards(told=computed["told"])
    assert [one.words for one in case.evidence] == [card.words for card in made[1:]]
    believed = {one.source: one.believed for one in case.evidence if one.believed != "yes"}
    assert believed == {"card 3": "wrong", "card 9": "doubted"}


def test_order_and_rigs_are_those_of_the_morning(case, computed):
    falls = computed["told"].falls
    assert len(case.order) == len(falls) == 4
    for i, (step, one) in enumerate(zip(case.order, falls, strict=True), 1):
        assert step.words.startswith(f"Fall {i}, {one.role}: {one.load / 1e3:.1f} kN in the lock")
        assert ("noise" in step.words) == (i == 4)
    assert [one.setup for one in case.setups[1:]] == [one.setup for one in falls]


def test_those_not_told_apart_share_the_first_rank(case, computed):
    weighed = computed["weighed"]
    alike = [one.name for one in weighed.not_told_apart]
    first = [cause.words.split(":")[0] for cause in case.causes if cause.rank == 1]
    assert first == alike
    assert [cause.rank for cause in case.causes] == sorted(cause.rank for cause in case.causes)
    assert len(case.causes) == len(weighed.accounts)
    told = {one.name: one for one in weighed.accounts}
    for cause in case.causes:
        name = next(n for n in told if cause.words.startswith(f"{n}: "))
        assert cause.against.startswith("Not sufficient: nowhere") != told[name].sufficient


def test_every_change_has_the_value_found_and_its_cost(case, computed):
    found = [(one.knob, value) for one in computed["kept"].kept for value in one.found]
    assert len(case.changes) == len(found) >= 1
    for change, (knob, value) in zip(case.changes, found, strict=True):
        assert change.words.startswith(f"{knob.name} {value.value:.2f}")
        assert f"person {value.outcomes['person'] / 1e3:.1f} kN" in change.cost
        assert "0.60, the reader's own limit" in change.keeps


def test_without_a_limit_there_are_no_changes(computed):
    blank = {**computed, "kept": KeepingPanel().found}
    assert quarry_case(beliefs={}, **blank).changes == ()


def test_ranges_stand_as_on_the_screen(case):
    known = {(one.name, one.low, one.high, one.unit) for one in case.assumptions}
    assert ("explanation 1: sharing length", 5.0, 20.0, "cm") in known


WRONG = [({14: "wrong"}, "card = 14"), ({0: "wrong"}, "card = 0"), ({2: "no"}, r"beliefs\[2\] = 'no'")]


@pytest.mark.parametrize(("beliefs", "named"), WRONG)
def test_a_card_that_is_not_there_and_a_belief_that_is_none_are_refused(computed, beliefs, named):
    with pytest.raises(ValueError, match=named):
        quarry_case(beliefs=beliefs, **computed)


def test_one_command_a_paper(case, tmp_path):
    file = tmp_path / "case.json"
    save_case(case=case, path=file)
    assert open_case(path=file) == case
    for words in (["report", str(file)], ["bulletin", str(file)], ["form"]):
        for ending in (".html", ".pdf"):
            out = tmp_path / f"{words[0]}{ending}"
            assert main([*words, str(out)]) == f"written: {out}"
            assert out.stat().st_size > 4000
    report(case=case).save(tmp_path / "again.html")
    assert (tmp_path / "again.html").read_bytes() == (tmp_path / "report.html").read_bytes()
    bulletin(case=case).save(tmp_path / "again.pdf")
    assert (tmp_path / "again.pdf").read_bytes() == (tmp_path / "bulletin.pdf").read_bytes()


@pytest.mark.parametrize("words", [[], ["letter", "a", "b"], ["report", "a"], ["form"]])
def test_what_is_no_command_is_answered_with_the_commands(words):
    with pytest.raises(ValueError, match=r"python -m linelib.papers form out.pdf"):
        main(words)
