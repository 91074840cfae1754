"""The panel on which choice drove it: every corner of its sliders answered or refused, its bars against the shares."""

from __future__ import annotations

from math import exp

import numpy as np
import pytest

from linelib.panels.controls import Slider, corners, starts
from linelib.panels.which_choice_panel import CHOICES, WhichChoicePanel
from linelib.panels.which_choice_settings import PLACES, WhichChoice, numbers_of, which_choice_controls
from linelib.studies.attribution import attribute
from linelib.studies.case_rig import LINKS, LOCK, PLANNED, RIGGED, case_choices, case_rig
from linelib.studies.outcome_words import shown
from linelib.studies.outcomes import DEMANDS

CONTROLS = which_choice_controls()
START = starts(CONTROLS)
SLIDERS = [c for c in CONTROLS if isinstance(c, Slider)]
CORNERS = [{**START, **values} for values in corners(SLIDERS)]


@pytest.fixture(scope="module")
def panel():
    return WhichChoicePanel()


def possible(values):
    """With the planned stance of 1.0 m on 1.5 m of leash, each stance has to stay under each leash of every mix."""
    return max(values["standing_height"], 1.0) <= min(values["leash_length"], 1.5)


def test_starts_as_rigged_and_lock_and_peak_differ(panel):
    panel.set(**START)
    assert numbers_of(panel.values, CONTROLS) == RIGGED
    found = attribute(reference=case_rig(numbers=PLANNED), choices=case_choices(), links=LINKS)
    for name, shares in found.shares.items():
        assert panel.found.found.of(name).each == pytest.approx(shares.each, rel=1e-9, abs=1e-9)
    assert "driven most by insert 8 m to none" in panel.words
    assert "most by seating: 55 % left (× 1.82 of" in panel.words
    assert "They differ: the peak at A alone cannot see it at all." in panel.words


def test_every_corner_is_answered_or_refused_with_a_reason(panel):
    asked = list(DEMANDS)
    answered = 0
    for n, corner in enumerate(CORNERS):
        values = {**corner, "demand": asked[n % 4], "place": PLACES[n % 5]}
        panel.set(**values)
        assert bytes(panel.static().png).startswith(b"\x89PNG")
        if not possible(values):
            assert panel.words.startswith("No shares can be given here: the mix with only")
            assert "hangs in the leash" in panel.words
            assert panel.figure.reason.get_visible()
            continue
        answered += 1
        assert not panel.figure.reason.get_visible(), panel.words
        for shares in panel.found.found.shares.values():
            assert shares.each.sum() == pytest.approx(shares.end - shares.start, rel=1e-9, abs=1e-9)
        assert len(panel.found.strip) == 4
        assert len(panel.found.sentence) < 330
        text = panel.words + " ".join(panel.found.lines)
        assert all(word not in text.lower() for word in ("nan", "safe", "enough", "blame", "-0.0 ", "fault"))
        fits(panel)
    assert answered == sum(map(possible, CORNERS)) >= 16
    panel.set(**START)


def fits(panel):
    """No bar, frame or word leaves the picture, and no word runs into the next chart."""
    figure = panel.figure
    for chart, right in ((figure.demand, 498.0), (figure.place, 800.0)):
        begin, end = chart.axes.get_xlim()
        for part, word in zip(chart.parts, chart.words, strict=True):
            assert begin - 1e-9 <= part.get_x()
            assert part.get_x() + part.get_width() <= end + 1e-9
            assert chart.axes.transData.transform(word.place)[0] + word.size(word.text)[0] <= right, word.text
    assert all(word.size(word.text)[0] <= 186 for word in figure.names)
    for line in figure.lines:
        assert line.size(line.text)[0] <= 790, line.text


@pytest.mark.parametrize("name", [c.name for c in SLIDERS])
def test_every_slider_moves_the_shares_of_its_own_choice(panel, name):
    choice = ("insert", "tension", "seating", "leash", "stance", "mass")[[c.name for c in SLIDERS].index(name)]
    planned = {c.name: getattr(PLANNED, c.name) / c.si for c in SLIDERS}
    shares = panel.readings(**{**START, name: planned[name]}).found.of("weakest place")
    i = CHOICES.index(choice)
    assert shares.each[i] == pytest.approx(0.0, abs=1e-9)  # as planned: it adds nothing
    assert abs(panel.readings(**START).found.of("weakest place").each[i]) > 1e-3


@pytest.mark.parametrize("demand", DEMANDS)
def test_bars_are_the_shares(panel, demand):
    panel.set(**{**START, "demand": demand})
    for chart, outcome in ((panel.figure.demand, demand), (panel.figure.place, LOCK)):
        shares = panel.found.found.of(outcome)
        per = shown(outcome, 1.0) if outcome in DEMANDS else 1.0
        drawn = [p.get_width() * (1.0 if p.get_x() >= 0.0 else -1.0) for p in chart.parts]
        assert drawn[:-1] == pytest.approx(shares.each * per, abs=1e-9)
        assert drawn[-1] == pytest.approx((shares.end - shares.start) * per)
        assert drawn[-1] == pytest.approx(sum(drawn[:-1]), abs=1e-9)
        assert chart.frame.get_y() == pytest.approx(chart.places[shares.driver] - 0.46)
        assert [bool(p.get_hatch()) for p in chart.parts] == [d < 0.0 for d in drawn]
    assert panel.figure.place.words[5].text == "× 1.82"
    assert panel.figure.place.words[6].text == f"× {exp(shares.end - shares.start):.2f}"
    panel.set(**START)


def test_lists_move_the_picture_but_compute_nothing_again(panel):
    panel.set(**START)
    kept, before = panel.found.found, bytes(panel.static().png)
    for place in PLACES:
        assert panel.set(place=place).found.found is kept
    assert panel.set(demand="person").found.found is kept
    assert bytes(panel.static().png) != before
    assert panel.set(mass=94).found.found is not kept
    panel.set(**START)


def test_a_minus_is_told_with_its_price_and_is_hatched(panel):
    panel.set(**{**START, "demand": "peak at A"})
    assert panel.figure.lines[1].text.startswith(
        "Less here: tension 3 to 2.2 kN -0.4 kN, paid elsewhere: person +0.0 kN, lowest"
    )
    assert panel.figure.demand.parts[1].get_hatch()


def test_above_one_the_place_is_gone_in_the_model(panel):
    said = panel.readings(**{**START, "lock_left": 40})
    assert said.found.of(LOCK).end > 0.0
    assert "Above 1 the place is gone in the model." in said.sentence
    assert "Above 1" not in panel.readings(**START).sentence


def test_strip_shows_person_and_drop_beside_every_demand(panel):
    for demand in DEMANDS:
        found = WhichChoice(found=panel.readings(**START).found, demand=demand, place=LOCK)
        words = " ".join(r.words for r in found.strip)
        assert "person" in words
        assert "lowest tie-in" in words
        assert "load/strength" in words
        assert len({r.words for r in found.strip}) == 4


def test_guess_is_a_hollow_dot_at_the_row(panel):
    panel.set(**START)
    before = bytes(panel.static().png)
    assert bytes(panel.predict("leash").static().png) != before
    assert np.asarray(panel.figure.demand.guess.get_ydata()) == pytest.approx([panel.figure.demand.places[3]])
    with pytest.raises(ValueError, match="choice = 'rain' is not possible; allowed: one of insert, tension"):
        panel.predict("rain")


def test_text_has_every_share(panel):
    panel.set(**START)
    text = panel.text()
    assert all(name in text for name in (*panel.found.found.of(LOCK).names, "sum", "as planned", "as rigged"))
    assert "names choices, not people" in text


def test_refusals_recover(panel):
    panel.set(**{**START, "standing_height": 1.6})
    assert "the mix with only 'stance 1 to 1.6 m' cannot be rigged" in panel.words
    assert not panel.set(standing_height=1.4).figure.reason.get_visible()
    with pytest.raises(ValueError, match=r"lock_left = 10.0 .* 30 to 100"):
        panel.set(lock_left=10)
