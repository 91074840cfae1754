"""The panel on who pays: every corner of its sliders, both views, both halves of what is said, and readings against `fall`."""

from __future__ import annotations

import math

import numpy as np
import pytest

from linelib import clearance_left, fall, falls
from linelib.figures.who_pays_figure import VIEWS
from linelib.panels.controls import Choice, Slider, corners, starts
from linelib.panels.who_pays_panel import WhoPaysPanel
from linelib.panels.who_pays_settings import ALLOWED, BACKUP, NO_CURE, ground_of, loose_of, who_pays_controls
from linelib.studies.who_pays import tensioned, tensions_of
from linelib.tables import webbings
from tests.setups import GRAVITY

TABLE = webbings()
CONTROLS = who_pays_controls(TABLE)
SLIDERS = [c for c in CONTROLS if isinstance(c, Slider)]
ON_LINE = [c for c in SLIDERS if c.name not in ("depth", "rim")]
START = starts(CONTROLS)
LONGEST_SENTENCE = 325  # letters: three lines of 800 px


@pytest.fixture(scope="module")
def panel():
    return WhoPaysPanel()


@pytest.mark.parametrize("material", ["hmpe_25mm", "polyester_25mm", "polyamide_tubular_25mm"])
def test_every_corner_of_the_sliders_has_a_fall(material):
    every = [{**values, "material": material} for values in corners(ON_LINE)]
    assert len(every) == 2 ** len(ON_LINE)
    loose = [loose_of(values, CONTROLS, TABLE) for values in every]
    setups = [tensioned(one, tensions_of(setup=one).at(v["sag"] / 100.0)) for one, v in zip(loose, every, strict=True)]
    found = falls(setups=setups)
    for name in ("peak_tension_a", "peak_tension_b", "peak_leash_force", "lowest_point"):
        assert np.all(np.isfinite(getattr(found, name)))
        assert np.all(getattr(found, name) > 0.0)
    assert np.all(found.peak_tension_a >= found.standing_tension_a)


@pytest.mark.parametrize("view", VIEWS)
def test_corners_can_be_drawn_and_say_both_halves(panel, view):
    panel.look_at(view)
    for values in corners([c for c in SLIDERS if c.name in ("sag", "position", "depth", "rim", "length")]):
        panel.set(**values)
        assert not panel.figure.reason.get_visible(), panel.words
        assert bytes(panel.static().png).startswith(b"\x89PNG")
        sentence = panel._readings.sentence
        assert "nan" not in panel.words
        assert len(sentence) <= LONGEST_SENTENCE, sentence
        if view == VIEWS[0]:
            for words in ("anchor ", "increase over standing ", "person ", "lowest tie-in "):
                assert words in sentence
            assert sentence.endswith(NO_CURE if values["sag"] < 5.0 else ALLOWED)
        else:
            assert sentence.endswith(BACKUP)
    panel.set(**START)


@pytest.mark.parametrize("view", VIEWS)
def test_every_control_moves_readings_and_picture(panel, view):
    panel.look_at(view)
    for control in CONTROLS:
        ends = (control.low, control.high) if isinstance(control, Slider) else list(control.options.values())[:2]
        if control.name == "position":
            ends = (10, 30)
        seen = []
        for end in ends:
            panel.set(**{**START, "position": 12, control.name: end})
            seen.append((panel.frame.readings.value, bytes(panel.static().png)))
        assert seen[0][0] != seen[1][0], control.name
        assert seen[0][1] != seen[1][1], control.name
    panel.set(**START)


def test_materials_are_all_there():
    assert [list(c.options.values()) for c in CONTROLS if isinstance(c, Choice)] == [list(TABLE)]


@pytest.mark.parametrize("values", [{}, {"sag": 8.0, "position": 12}, {"length": 60, "position": 90, "depth": 10}])
def test_readings_are_those_of_the_fall(panel, values):
    panel.look_at(VIEWS[0]).set(**START)
    found, setup = panel.readings(**values), panel.rig(**values)
    one, every = fall(setup=setup), {**START, **values}
    assert one.standing_sag / setup.rig.span == pytest.approx(every["sag"] / 100.0, rel=2e-3) or every["position"] != 50
    peak, standing = max(
        (one.peak_tension_a, one.standing_tension_a), (one.peak_tension_b * (1.0 - 1e-6), one.standing_tension_b)
    )
    assert (found.peak, found.standing) == pytest.approx((peak, standing), rel=1e-5)
    assert found.person == pytest.approx(one.peak_leash_force, rel=1e-9)
    assert found.weights == pytest.approx(one.peak_leash_force / (setup.walker.mass * GRAVITY), rel=1e-9)
    left = clearance_left(
        lowest_point=one.lowest_point,
        position=every["position"] / 100.0,
        span=every["length"],
        height_difference=0.0,
        ground=ground_of(every),
    )
    assert found.clearance == pytest.approx(left.clearance, rel=1e-9)
    panel.set(**{**START, **values})
    assert panel._readings.strip == found.strip
    assert all(len(words) <= 28 and len(number) <= 8 for words, number in found.strip)
    panel.set(**START)


def test_the_first_sight_tells_the_lesson(panel):
    """From here to the slack end the anchor gets less, and increase, person and drop get more."""
    panel.look_at(VIEWS[0]).set(**START)
    bills, found = panel.bills, panel.fall
    assert bills.peak[-1] < 0.9 * found.peak_tension_a
    assert bills.increase[-1] > 1.1 * (found.peak_tension_a - found.standing_tension_a)
    assert bills.peak_leash_force[-1] > 1.1 * found.peak_leash_force
    assert bills.lowest_point[-1] > 1.5 * found.lowest_point
    assert [word.text for word in panel.figure.bills.words] == ["↘ down", "↗ up", "↘↗ down, up", "↗ deeper"]


def test_curves_are_kept_while_their_own_slider_or_the_ground_moves(panel):
    for view, own, other in ((VIEWS[0], "sag", "position"), (VIEWS[1], "position", "sag")):
        panel.look_at(view).set(**START)
        before = panel.bills
        panel.set(**{own: 8})
        assert panel.bills is before
        drawn = np.interp(8.0 / 100.0, before.over, before.lowest_point)
        assert panel.fall.lowest_point == pytest.approx(drawn, rel=0.02)
        one = panel.fall
        panel.set(depth=30, rim=4)
        assert panel.bills is before
        assert panel.fall is one
        panel.set(**{other: 9})
        assert panel.bills is not before
    panel.set(**START)


def test_ground_that_rises_takes_the_room(panel):
    """The same fall: a valley 10 m deeper leaves 10 m more in the middle; near the anchor a wide rim leaves less than none."""
    shallow, deep = panel.readings(depth=20), panel.readings(depth=30)
    assert deep.clearance - shallow.clearance == pytest.approx(10.0)
    assert panel.readings(position=6, rim=30).clearance < 0.0 < panel.readings(position=6, rim=0, depth=30).clearance
    assert "short" in panel.readings(position=6, rim=30).strip[3].words


def test_guess_and_refusals(panel):
    panel.look_at(VIEWS[0]).set(**START)
    panel.guess = None
    panel.redraw()
    before = bytes(panel.static().png)
    assert bytes(panel.predict(1.0).static().png) != before
    with pytest.raises(ValueError, match="kilonewton"):
        panel.predict(math.nan)
    with pytest.raises(ValueError, match="one of over the sag, along the span"):
        panel.look_at("elsewhere")
    with pytest.raises(ValueError, match=r"sag = 99.0 .* 2.5 to 10"):
        panel.set(sag=99)
    panel.values["sag"] = 60.0
    panel.update()
    assert panel.words.startswith("This cannot be rigged or walked. standing sag = 0.6 is not possible")
    assert panel.figure.reason.get_visible()
    panel.set(sag=4.0)
    assert not panel.figure.reason.get_visible()
