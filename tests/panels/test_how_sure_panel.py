"""The panel of how sure we are: every corner of its sliders, both views, its dots against the cases, and its ranking."""

from __future__ import annotations

import numpy as np
import pytest

import linelib.panels.how_sure_panel as under_test
from linelib import fall, falls, webbings
from linelib.figures.how_sure_figure import VIEWS
from linelib.figures.quantile_dots import BAND, DOT, Window, stacked
from linelib.figures.word import Word
from linelib.panels.controls import Slider, corners, starts
from linelib.panels.how_sure_panel import HowSurePanel
from linelib.panels.how_sure_settings import CENTRES, EVEN, how_sure_controls, inputs_of, middles_of
from linelib.studies.how_sure import how_sure
from linelib.studies.lesson_unsure import unsure_setup
from linelib.studies.ranges import Range, Triangular, Uniform

TABLE = webbings()
CONTROLS = how_sure_controls()
START = starts(CONTROLS)
SAID_ONLY = ("outcome", "limit_of", "limit")  # they choose what is said of the cases; the falls are the same
CORNERS = [{**START, **values} for values in corners([c for c in CONTROLS if c.name not in SAID_ONLY])]


@pytest.fixture(scope="module")
def panel():
    return HowSurePanel()


@pytest.fixture
def few(monkeypatch):
    """Sixteen cases in place of 256: what is looked at is whether there is an answer."""
    monkeypatch.setattr(under_test, "how_sure", lambda **asked: how_sure(**{**asked, "count": 16, "scrambles": 2}))


def test_corners_are_all_there():
    assert len(CORNERS) == 2**8 * 2 * 2


@pytest.mark.parametrize("rest", ["known", "unknown"])
def test_every_corner_is_answered_or_refused_with_a_reason(panel, few, rest):
    """Answered with finite numbers, or one of two reasons: nothing is a range, or no tie-in is as low as the leash is long."""
    answered, reasons = 0, {"standing_height = ": 0, "at least one range": 0}
    for values in (v for v in CORNERS if v["rest"] == rest):
        try:
            now = panel.readings(**values)
        except ValueError as error:
            (reason,) = [words for words in reasons if words in str(error)]
            reasons[reason] += 1
            continue
        answered += 1
        assert all(np.all(np.isfinite(v)) and len(v) == now.found.computed for v in now.found.values.values())
        assert now.found.computed + sum(one.count for one in now.found.refused) == now.found.asked
        assert len(now.strip) == 4
        assert len(now.sentence) < 330
    assert answered > 150
    assert reasons["standing_height = "] > 0
    assert (reasons["at least one range"] > 0) == (rest == "known")


@pytest.mark.parametrize("outcome", ["anchor", "person", "lowest"])
@pytest.mark.parametrize("limit_of", ["none", "anchor", "person", "lowest"])
@pytest.mark.parametrize("limit", [1.0, 30.0])
def test_every_choice_of_what_is_said(panel, outcome, limit_of, limit):
    panel.look_at(VIEWS[0]).set(**{**START, "outcome": outcome, "limit_of": limit_of, "limit": limit})
    assert not panel.figure.reason.get_visible()
    assert "nan" not in panel.words
    assert ("No limit is entered" in panel.words) == (limit_of == "none")
    assert panel.frame.inputs["limit"].disabled == (limit_of == "none")
    assert bool(panel.figure.dots.limit_word.text) == (limit_of == outcome)
    assert bytes(panel.static().png).startswith(b"\x89PNG")


def test_every_slider_moves_readings_or_picture(panel):
    panel.look_at(VIEWS[0])
    start = {**START, "limit_of": "anchor"}
    for control in CONTROLS:
        ends = (control.low, control.high) if isinstance(control, Slider) else list(control.options.values())[:2]
        seen = [bytes(panel.set(**{**start, control.name: end}).static().png) for end in ends]
        assert seen[0] != seen[1], control.name


def test_words_stay_inside_the_picture(panel):
    """At corners that make long words, each word lies within its axes' box or the column beside it."""
    panel.look_at(VIEWS[0])
    for values in CORNERS[::37]:
        panel.set(**{**values, "limit_of": "anchor", "limit": 12.0})
        if panel.figure.reason.get_visible():
            continue
        for word in (w for w in vars(panel.figure.dots).values() if isinstance(w, Word) and w.text):
            left = word.axes.transData.transform(word.place)[0] - word.across * word.size(word.text)[0]
            assert left >= -0.5, word.text
            assert left + word.size(word.text)[0] <= 552.0, word.text
        for word in panel.figure.words:
            assert 552 + word.size(word.text)[0] <= panel.figure.canvas.width, word.text


def test_dots_are_the_cases(panel):
    panel.look_at(VIEWS[0]).set(**{**START, "limit_of": "anchor", "limit": 11.6})
    found, dots = panel._cases[1], panel.figure.dots
    above, under = dots.above.get_xdata(), dots.under.get_xdata()
    assert len(above) + len(under) == 100
    assert len(above) / 100 == pytest.approx(found.share("anchor", 11.6e3).share, abs=0.011)
    both = np.sort(np.concatenate([above, under]))
    wide = (dots.window.high - dots.window.low) / dots.box[2]
    assert both == pytest.approx(np.quantile(found.values["anchor"], (np.arange(100) + 0.5) / 100) / 1e3, abs=0.51 * DOT * wide)
    height = max(float(part.get_ydata().max()) for part in (dots.above, dots.under))
    assert height <= dots.box[3] - BAND
    assert dots.limit.get_xdata() == [11.6, 11.6]


def test_dots_in_one_column_are_stacked_one_on_the_other():
    x, y = stacked(np.array([3.0, 5.0, 12.0, 15.0]), 200.0)
    assert x.tolist() == [7.0, 7.0, 7.0, 21.0]
    assert y.tolist() == [7.0, 21.0, 35.0, 7.0]
    _, tight = stacked(np.zeros(100), 200.0)
    assert tight.max() <= 200.0


def test_the_axis_stands_still_until_it_has_to_move():
    window = Window()
    assert window.take(10.4, 12.2)
    held = (window.low, window.high)
    assert window.low <= 10.4
    assert window.high >= 12.2
    assert not window.take(10.6, 12.4)
    assert (window.low, window.high) == held
    assert window.take(10.6, 13.9)
    assert window.take(11.0, 11.05)
    assert window.low <= 11.0 < 11.05 <= window.high


def test_a_limit_outside_the_picture_is_said_not_drawn(panel):
    panel.look_at(VIEWS[0]).set(**{**START, "limit_of": "anchor", "limit": 30.0})
    assert not panel.figure.dots.limit.get_visible()
    assert panel.figure.dots.limit_word.text == "your limit 30 kN, right of all that is drawn: 0 % (0 to 1 %) above"
    panel.set(limit=2.0)
    assert "left of all that is drawn: 100 % (99 to 100 %) above" in panel.figure.dots.limit_word.text
    panel.set(limit=11.6)
    assert panel.figure.dots.limit.get_visible()


def test_cases_are_those_of_the_sliders(panel):
    values = {**START, "filled": "middle", "rest": "unknown", "mass_spread": 0.0}
    inputs = inputs_of(values, CONTROLS)
    assert inputs["mass"] == 80.0
    assert inputs["leash_length"] == Triangular(low=1.3, mode=1.5, high=1.7)
    assert inputs["pretension"] == Triangular(low=2500.0, mode=3000.0, high=3500.0)
    assert len(inputs) == 8
    assert inputs_of({**START, "filled": EVEN}, CONTROLS)["standing_height"] == Uniform(low=0.8, high=1.2)
    assert list(inputs_of(START, CONTROLS)) == list(CENTRES)
    assert middles_of(inputs)["leash_length"] == pytest.approx(1.5)
    assert not any(isinstance(v, Range) for v in middles_of(inputs).values())


def test_one_fall_is_that_of_the_middles(panel):
    now = panel.readings(**START)
    one = fall(setup=unsure_setup(middles_of(inputs_of(START, CONTROLS)), table=TABLE))
    assert now.one == pytest.approx(max(one.peak_tension_a, one.peak_tension_b))
    assert panel.readings(**{**START, "outcome": "lowest"}).one == pytest.approx(one.lowest_point)


def test_moves_that_change_no_range_compute_no_fall(panel, monkeypatch):
    panel.look_at(VIEWS[0]).set(**START)
    monkeypatch.setattr(under_test, "how_sure", lambda **_: pytest.fail("computed again"))
    panel.set(outcome="person", limit_of="person", limit=3.0)
    panel.set(outcome="lowest")


def test_a_middle_that_cannot_be_computed_is_left_out_and_cases_are_counted(panel):
    panel.look_at(VIEWS[0]).set(**{**START, "leash_length": 1.0, "standing_height": 1.05})
    now = panel.readings()
    assert now.one is None
    assert 0 < now.found.computed < 256
    assert f"of 256 cases cannot be computed ({256 - now.found.computed} for standing height)" in panel.words
    assert panel.figure.dots.one_word.text == ""
    panel.set(**START)


def test_refusals_say_why_and_the_next_move_recovers(panel):
    panel.look_at(VIEWS[0]).set(**{**START, **{f"{name}_spread": 0.0 for name in CENTRES}})
    assert panel.words.startswith("Nothing can be said of this fall.")
    assert "at least one range" in panel.words
    assert panel.figure.reason.get_visible()
    panel.set(mass_spread=5)
    assert not panel.figure.reason.get_visible()
    with pytest.raises(ValueError, match=r"mass_spread = 40.0 .* 0 to 15"):
        panel.set(mass_spread=40)
    with pytest.raises(ValueError, match="one of how high, what matters most"):
        panel.look_at("elsewhere")
    panel.set(**START)


def test_limit_starts_blank_and_belongs_to_its_outcome():
    fresh = HowSurePanel()
    assert fresh.values["limit_of"] == "none"
    assert "over a limit: no limit" in fresh.words
    fresh.set(limit_of="anchor", limit=11.6)
    share = fresh.words.split("anchor over 11.6 kN: ")[1].split(" %")[0]
    assert f"anchor over 11.6 kN: {share} %" in fresh.set(outcome="person").words  # still the anchor's, and not drawn
    assert fresh.figure.dots.limit_word.text == ""


def test_a_limit_is_in_the_unit_of_its_own_outcome(panel):
    assert panel.readings(**{**START, "outcome": "lowest", "limit_of": "anchor", "limit": 12.0}).limit == 12e3
    assert panel.readings(**{**START, "outcome": "anchor", "limit_of": "lowest", "limit": 5.0}).limit == 5.0


def test_guess_is_a_hollow_dot_of_the_anchor(panel):
    panel.look_at(VIEWS[0]).set(**START)
    assert list(panel.predict(10.5).figure.dots.guess.get_xdata()) == [10.5]
    assert list(panel.set(outcome="person").figure.dots.guess.get_xdata()) == []
    with pytest.raises(ValueError, match=r"kilonewton = -1.0"):
        panel.predict(-1)
    panel.guess = None
    panel.set(**START)


def test_a_fall_of_the_panel_is_a_fall(panel):
    """The peaks behind the dots are those of falls described one by one."""
    panel.look_at(VIEWS[0]).set(**START)
    found = panel._cases[1]
    assert sorted(found.values) == ["anchor", "lowest", "person"]
    many = falls(setups=[unsure_setup(middles_of(found.inputs), table=TABLE)])
    assert found.values["anchor"].min() < many.peak_tension_a[0] < found.values["anchor"].max()
