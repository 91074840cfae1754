"""The panel of the lesson on tightness: every corner of its sliders, readings against the models, words inside the picture."""

from __future__ import annotations

import functools
import math

import numpy as np
import pytest

import linelib.panels.tightness_settings as under_test
from linelib.figures.round_trips import TOP
from linelib.figures.tightness_figure import MOST_TRIPS
from linelib.figures.word import Word
from linelib.models.pluck import pluck
from linelib.models.sag import hang
from linelib.models.weightless_v import weightless_v
from linelib.panels.controls import Choice, Slider, corners, starts
from linelib.panels.tightness_panel import TightnessPanel
from linelib.panels.tightness_settings import COUNTED, FORGOTTEN, NEVER, readings_of, tightness_controls
from linelib.tables import webbings
from tests.setups import GRAVITY
from tests.word_places import place_of

TABLE = webbings()
CONTROLS = tightness_controls(TABLE)
CORNERS = corners(CONTROLS)
MATERIALS = list(TABLE)
ERRORS = ("watch", "sag_error", "mass_error")


@pytest.fixture(scope="module")
def panel():
    return TightnessPanel()


@pytest.fixture
def solved_once(monkeypatch):
    """Corners share their lines: each is hung and plucked once."""
    monkeypatch.setattr(under_test, "hang", functools.cache(hang))
    monkeypatch.setattr(under_test, "pluck", functools.cache(pluck))


def made(values):
    return readings_of(values, CONTROLS, TABLE, most_trips=MOST_TRIPS)


def numbers(readings):
    answers = readings.answers
    said = (answers.sag, answers.counted, answers.forgotten)
    found = [answers.true_on, answers.true_alone, readings.alone.round_trip, readings.alone.webbing_only, readings.state.sag]
    return [*found, *readings.relative, *(m.tension for m in said), *(m.uncertainty for m in said)]


def test_corners_are_all_there() -> None:
    sliders = [c for c in CONTROLS if isinstance(c, Slider)]
    assert len(CORNERS) == 2 ** len(sliders) * 2 * len(TABLE)


@pytest.mark.parametrize("material", MATERIALS)
def test_every_corner_has_readings_that_hang_together(material, solved_once) -> None:
    for values in CORNERS:
        if values["material"] != material:
            continue
        readings = made(values)
        answers = readings.answers
        assert all(math.isfinite(n) and n > 0.0 for n in numbers(readings))
        assert len(readings.strip) == 4
        assert "nan" not in " ".join(str(part) for part in readings.strip) + readings.sentence
        assert len(readings.sentence) < 240
        assert readings.sentence.endswith(NEVER)
        assert answers.true_on > answers.true_alone
        assert answers.sag.tension < answers.true_on  # blind to the line's own weight
        share = answers.forgotten.tension / answers.counted.tension
        webbing = TABLE[material].mass_per_length
        assert share == pytest.approx(webbing / (webbing + readings.rig.hung_mass), rel=1e-9)
        assert readings.pluck is (answers.forgotten if values["mass"] == FORGOTTEN else answers.counted)
        # what is counted is the tag's grams per metre: stretched webbing weighs less, so the answer is high by part of that
        stretch = float(readings.state.natural_lengths[0])
        assert (
            0.995 * answers.true_alone
            < answers.counted.tension
            < 1.01 * answers.true_alone * max(1.0, readings.rig.span / stretch)
        )


def test_readings_are_those_of_the_models() -> None:
    values = {**starts(CONTROLS), "mass": COUNTED, "weight": 65.0, "trips": 4.0}
    readings = made(values)
    state, alone = hang(rig=readings.rig, load=65.0 * GRAVITY), pluck(rig=readings.rig)
    assert readings.answers.true_on == pytest.approx(state.horizontal, rel=1e-9)
    assert readings.answers.true_alone == pytest.approx(3000.0, rel=1e-9)
    blackboard = weightless_v(load=65.0 * GRAVITY, span=100.0, sag=state.sag).horizontal
    assert readings.answers.sag.tension == pytest.approx(blackboard, rel=1e-9)
    mass = 0.048 + readings.rig.hung_mass
    by_hand = mass * (2.0 * 100.0 * 4.0 / (4.0 * alone.round_trip)) ** 2
    assert readings.answers.counted.tension == pytest.approx(by_hand, rel=1e-9)
    # the sag to 10 cm of its own, the weight to 1 %, the distance to 0.5 %: our choice
    assert readings.answers.sag.relative == pytest.approx(math.hypot(0.1 / state.sag, 0.01, 0.005), rel=1e-9)
    watch, rest = 2.0 * math.sqrt(2.0) * 0.1 / (4.0 * alone.round_trip), math.hypot(0.03, 0.01)
    assert readings.pluck.relative == pytest.approx(math.hypot(watch, rest), rel=1e-9)
    assert readings.relative[3] == pytest.approx(readings.pluck.relative, rel=1e-12)


def test_start_tells_the_lesson() -> None:
    """Forgotten, the pluck says less than half of what is true, with a band far from it; counted, truth lies in the band."""
    answers = made(starts(CONTROLS)).answers
    assert answers.forgets
    assert answers.forgotten.tension < 0.5 * answers.true_alone
    assert answers.forgotten.tension + 5.0 * answers.forgotten.uncertainty < answers.true_alone
    assert abs(answers.counted.tension - answers.true_alone) < answers.counted.uncertainty
    # 48 g/m of webbing, 62 g/m of backup over 100 m and eight times half a metre: 64.5 of 112.5 g/m swing unseen
    said = made(starts(CONTROLS)).sentence
    assert said.startswith(f"{100.0 * 62.0 * 1.04 / (48.0 + 62.0 * 1.04):.0f} % of what swings is the backup: forgotten")


def test_trips_for_five_percent_are_where_the_curve_passes() -> None:
    for changes in ({}, {"length": 200.0}, {"watch": 0.05}):
        readings = made({**starts(CONTROLS), **changes})
        needed = readings.trips_for_wanted
        assert 1 < needed <= MOST_TRIPS
        assert readings.relative[needed - 1] <= 0.05 < readings.relative[needed - 2]
    assert made({**starts(CONTROLS), "mass_error": 5.0}).trips_for_wanted is None


def test_every_slider_moves_readings_or_picture(panel) -> None:
    for control in CONTROLS:
        ends = (control.low, control.high) if isinstance(control, Slider) else list(control.options.values())[:2]
        seen = []
        for end in ends:
            panel.set(**{**starts(CONTROLS), control.name: end})
            seen.append((bytes(panel.static().png), panel.words))
        assert seen[0][0] != seen[1][0], control.name
        assert seen[0][1] != seen[1][1], control.name


def test_corners_can_be_drawn_and_no_word_is_cut(panel) -> None:
    """Errors all small or all large; HMPE where it is tight, the softest webbing where it is not."""
    drawn = 0
    for values in CORNERS:
        low = [values[name] == next(c for c in CONTROLS if c.name == name).low for name in ERRORS]
        material = "hmpe_25mm" if values["pretension"] > 5.0 else "polyamide_tubular_25mm"
        if len(set(low)) > 1 or values["material"] != material:
            continue
        if values["mass"] == (COUNTED if low[0] else FORGOTTEN):
            continue
        panel.set(**values)
        drawn += 1
        assert not panel.figure.reason.get_visible(), panel.words
        words = [a for a in panel.figure.canvas._moving if isinstance(a, Word) and a.text and a.get_visible()]
        assert len(words) >= 14
        for word in words:
            left, right, bottom, top = place_of(word)
            assert left >= -1.0, (word.text, values)
            assert right <= 801.0, (word.text, values)
            assert bottom >= -1.0, (word.text, values)
            assert top <= 401.0, (word.text, values)
    assert drawn == 32


def test_bands_and_dots_are_where_the_numbers_are(panel) -> None:
    panel.set(**starts(CONTROLS))
    rows, answers = panel.figure.rows, panel.readings().answers
    band, mark = rows.taken
    assert mark.get_xdata()[0] == pytest.approx(1e-3 * answers.forgotten.tension)
    assert np.diff(band.get_xdata())[0] == pytest.approx(2e-3 * answers.forgotten.uncertainty)
    assert rows.other[1].get_xdata()[0] == pytest.approx(1e-3 * answers.counted.tension)
    assert [dot.get_xdata()[0] for dot in rows.dots] == pytest.approx([1e-3 * answers.true_on, 1e-3 * answers.true_alone])
    path = panel.figure.trips.path
    assert path.get_xdata()[-1] == pytest.approx(3.0 * panel.readings().alone.round_trip)
    assert list(path.get_ydata()) == [0.0, 1.0] * 3 + [0.0]


def test_uncertainty_beyond_the_chart_is_said_in_words(panel) -> None:
    panel.set(**{**starts(CONTROLS), "length": 40.0, "pretension": 10.0, "trips": 1.0, "watch": 0.2})
    assert panel.figure.chart.dot.get_ydata()[0] == TOP
    assert panel.figure.chart.word.text == "208 %"
    assert "no measurement" in panel.words
    assert "pluck, nobody on it: ? ± 208 %" in panel.words


def test_guess_refusals_and_recovery(panel) -> None:
    panel.guess = None
    plain = bytes(panel.set(**starts(CONTROLS)).static().png)
    assert bytes(panel.predict(3.0).static().png) != plain
    assert panel.figure.rows.guess.get_xdata()[0] == 3.0
    panel.guess = None
    with pytest.raises(ValueError, match=r"kilonewton = -1.0"):
        panel.predict(-1.0)
    with pytest.raises(ValueError, match=r"length = 999.0 .* 40 to 200 m"):
        panel.set(length=999)
    with pytest.raises(ValueError, match="counted"):
        panel.set(mass="guessed")
    panel.values["pretension"] = 0.01  # 10 N: as if a slider went that far
    panel.update()
    assert panel.words.startswith("Nothing can be measured here. pretension = 10.0 is not possible; allowed: at least")
    assert panel.figure.reason.get_visible()
    assert bytes(panel.set(**starts(CONTROLS)).static().png) == plain
    assert not panel.figure.reason.get_visible()


def test_choices_are_the_two_masses() -> None:
    choice = next(c for c in CONTROLS if c.name == "mass")
    assert isinstance(choice, Choice)
    assert set(choice.options.values()) == {COUNTED, FORGOTTEN}
