"""The panel on soft inserts: every corner of its sliders, both views, what is said of costs, and readings against `falls`."""

from __future__ import annotations

import math
from dataclasses import astuple

import numpy as np
import pytest

from linelib import fall, falls
from linelib.figures.insert_figure import PERIODS, VIEWS
from linelib.figures.insert_plots import apart
from linelib.figures.loop_plots import Window
from linelib.panels.controls import Choice, Slider, corners, starts
from linelib.panels.insert_panel import InsertPanel
from linelib.panels.insert_settings import insert_controls, plain_of
from linelib.studies.held_equal import HELD
from linelib.studies.insert_compare import PLACES, hold, insert_webbing, pair
from linelib.tables import webbings

TABLE = webbings()
CONTROLS = insert_controls(TABLE)
SLIDERS = [c for c in CONTROLS if isinstance(c, Slider)]
CORNERS = corners(SLIDERS)
START = starts(CONTROLS)
LONGEST_SENTENCE = 325  # letters: three lines of 800 px


@pytest.fixture(scope="module")
def panel():
    return InsertPanel()


def rig_at(values, place, held, material):
    every = {**values, "material": material}
    web = insert_webbing(table=TABLE, fast_ratio=values["fast_ratio"])
    plain = plain_of(every, CONTROLS, TABLE)
    return pair(plain=plain, webbing=web, length=values["insert_length"], place=place, held=held)


@pytest.mark.parametrize("held", HELD)
@pytest.mark.parametrize("place", PLACES)
def test_every_corner_of_the_sliders_has_a_fall(place, held):
    assert len(CORNERS) == 2 ** len(SLIDERS)
    for material in ("hmpe_25mm", "polyamide_tubular_25mm") if place == PLACES[0] else ("hmpe_25mm",):
        found = falls(setups=hold([rig_at(values, place, held, material) for values in CORNERS], held))
        for name in ("peak_tension_a", "peak_tension_b", "peak_leash_force", "lowest_point", "standing_sag"):
            numbers = getattr(found, name)
            assert np.all(np.isfinite(numbers))
            assert np.all(numbers > 0.0)
        assert np.all(found.peak_tension_a >= found.standing_tension_a)


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("held", HELD)
def test_corners_can_be_drawn_and_say_what_they_cost(panel, view, held):
    panel.look_at(view)
    for place in PLACES:
        for insert in (0.0, 0.5, 15.0):
            for ratio, pretension, length in ((1.0, 0.6, 200), (3.0, 6.0, 60), (3.0, 0.6, 60)):
                values = {"insert_length": insert, "fast_ratio": ratio, "pretension": pretension, "length": length}
                panel.set(**values, place=place, held=held)
                assert not panel.figure.reason.get_visible(), panel.words
                assert bytes(panel.static().png).startswith(b"\x89PNG")
                sentence = panel._readings.sentence
                assert "nan" not in panel.words
                assert len(sentence) <= LONGEST_SENTENCE, sentence
                if view == VIEWS[0] and insert > 0.0:
                    assert "The price: " in sentence
                    assert "anchor B" in sentence
    panel.set(**START)


@pytest.mark.parametrize("view", VIEWS)
def test_every_control_moves_readings_and_picture(panel, view):
    panel.look_at(view)
    for control in CONTROLS:
        ends = (control.low, control.high) if isinstance(control, Slider) else list(control.options.values())[:2]
        seen = []
        for end in ends:
            panel.set(**{**START, "insert_length": 8.0, "position": 40, control.name: end})
            seen.append((panel.frame.readings.value, panel.frame.sentence.value, bytes(panel.static().png)))
        for one, other in zip(*seen, strict=True):
            assert one != other or (control.name == "place" and view == VIEWS[1]), control.name
        assert seen[0][2] != seen[1][2]
    panel.set(**START)


def test_choices_are_all_there():
    assert [list(c.options.values()) for c in CONTROLS if isinstance(c, Choice)] == [list(PLACES), list(HELD), list(TABLE)]


def test_readings_are_those_of_falls(panel):
    panel.look_at(VIEWS[0]).set(**START)
    for values in ({}, {"place": "in the middle", "held": "standing sag"}, {"insert_length": 0.0}):
        found = panel.readings(**values)
        plain, rig = panel.rigs("now", **values)
        one, other = fall(setup=rig), fall(setup=plain)
        assert astuple(found)[:5] == pytest.approx(
            (one.peak_tension_a, one.peak_tension_b, one.peak_leash_force, one.lowest_point, one.standing_sag), rel=1e-9
        )
        assert found.plain[0] == pytest.approx(other.peak_tension_a, rel=1e-9)
        panel.set(**{**START, **values})
        assert panel._readings.strip == found.strip
        assert len(found.strip) == 4
        assert all(len(words) <= 26 and len(number) <= 8 for words, number in found.strip)
    panel.set(**START)


def test_without_an_insert_it_is_the_plain_rig(panel):
    found = panel.readings(insert_length=0.0)
    assert astuple(found)[:5] == pytest.approx(found.plain, rel=1e-12)
    assert "No insert" in found.sentence


def test_the_first_sight_tells_the_lesson(panel):
    """Both anchors gain, the drop pays, and five metres give neither what is said nor does any stiffness of the band."""
    panel.look_at(VIEWS[0]).set(**START)
    a, b, person, low, sag, plain, sentence = astuple(panel._readings)
    assert a < 0.85 * plain[0]
    assert b < 0.85 * plain[1]
    assert person < plain[2]
    assert low > plain[3] + 0.5
    assert sag > plain[4] + 0.5
    assert a > panel.saying.peak * (1.0 + panel.saying.within)
    assert np.interp(5.0, panel.curves.lengths, panel.curves.laws["soft"].peak_tension_a) > 4.95e3
    assert "held equal: pretension" in sentence


def test_the_curve_is_kept_while_only_the_length_moves_and_the_dot_lies_on_it(panel):
    panel.look_at(VIEWS[0]).set(**START)
    before = panel.curves
    for length in (2.0, 6.5, 11.0):
        panel.set(insert_length=length)
        assert panel.curves is before
        read = np.interp(length, before.lengths, before.laws["now"].peak_tension_a)
        assert panel.fall.peak_tension_a == pytest.approx(read, rel=0.01)
    panel.set(mass=90)
    assert panel.curves is not before
    panel.set(**START)


def test_loops_lie_between_standing_and_the_highest_pull(panel):
    panel.look_at(VIEWS[1]).set(**START)
    fast, slow = panel.loops
    assert fast.stiffness > slow.stiffness
    assert fast.lost_share > 3.0 * slow.lost_share
    assert 0.3 < panel.period < 6.0
    # the strain reached in the fall is less than a slow pull of that tension would give
    law = panel.web
    slow_strain = np.interp(panel.fall.peak_tension_a, law.tension, law.strain)
    assert fast.strain[0] < fast.strain.max() < slow_strain
    assert [len(panel.swept), PERIODS[0], PERIODS[-1]] == pytest.approx([25, 0.1, 100.0])
    assert "on the unsafe side" in panel._readings.sentence
    panel.set(fast_ratio=1.0)
    assert "gives the same peak" in panel._readings.sentence
    panel.set(**START)


def test_guess_and_refusals(panel):
    panel.look_at(VIEWS[0]).set(**START)
    panel.guess = None
    panel.redraw()
    before = bytes(panel.static().png)
    assert bytes(panel.predict(4.5).static().png) != before
    with pytest.raises(ValueError, match="kilonewton"):
        panel.predict(math.inf)
    with pytest.raises(ValueError, match="one of compared, how fast"):
        panel.look_at("elsewhere")
    with pytest.raises(ValueError, match=r"insert_length = 99.0 .* 0 to 15 m"):
        panel.set(insert_length=99)
    panel.values["pretension"] = 0.01
    panel.update()
    assert panel.words.startswith("This cannot be rigged or walked.")
    assert panel.figure.reason.get_visible()
    panel.set(pretension=1.0)
    assert not panel.figure.reason.get_visible()


def test_words_at_the_ends_keep_apart_and_windows_hold():
    places = apart([5.0, 5.1, 4.9, 2.0], 1.0)
    assert np.diff(sorted(places)).min() > 0.99
    assert places[3] == pytest.approx(2.0, abs=0.2)
    assert np.argsort(places).tolist() == [3, 2, 0, 1]
    window = Window(2.0, 8.0)
    assert not window.take(3.0, 6.0, below=0.2, above=0.2)
    assert window.take(1.0, 9.0, below=0.1, above=0.1)
    assert window.low <= 0.2
    assert window.high >= 9.8
    assert window.take(4.0, 4.5, below=0.1, above=0.1)
    assert window.high - window.low < 1.5
