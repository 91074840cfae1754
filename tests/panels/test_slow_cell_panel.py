"""The panel of what a slow cell misses: every corner of its sliders, readings against the models, words by hand."""

from __future__ import annotations

import functools
import math
from dataclasses import replace

import numpy as np
import pytest
from matplotlib.font_manager import FontProperties, findfont
from PIL import ImageFont

import linelib.panels.slow_cell_settings as under_test
from linelib.figures.word import Word
from linelib.models.fall_in_time import fall
from linelib.panels.controls import Slider, corners, starts
from linelib.panels.slow_cell_panel import SlowCellPanel
from linelib.panels.slow_cell_settings import ANCHOR, LEASH, MEANT, SAY, fall_of, recorded_of, slow_cell_controls
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.slow_cell import SlowCell, slow_cells
from linelib.tables import webbings
from tests.word_places import place_of

TABLE = webbings()
CONTROLS = slow_cell_controls(TABLE)
START = starts(CONTROLS)
CORNERS = corners(CONTROLS)
QUARTER = 197.0  # pixels of the strip, as in panels/frame.py
SMALL, LARGE = (
    ImageFont.truetype(findfont(FontProperties(family="DejaVu Sans", weight=weight)), size=size)
    for size, weight in ((14.7, "normal"), (27.0, "semibold"))
)
OF_FALL = ("leash_length", "material", "length")


@functools.cache
def fallen(*chosen):
    return fall_of({**START, **dict(zip(OF_FALL, chosen, strict=True))}, CONTROLS, TABLE)


@functools.cache
def over_rates(place, window, chosen):
    one = fallen(*chosen)
    force = one.tension_a if place == ANCHOR else one.leash_force
    return slow_cells(time=one.time, force=force, rates=under_test.OVER, averagings=[window])


def made(values):
    return recorded_of(values, CONTROLS, fallen(*(values[name] for name in OF_FALL)))


@pytest.fixture(scope="module")
def panel():
    return SlowCellPanel()


def test_corners_are_all_there() -> None:
    sliders = [c for c in CONTROLS if isinstance(c, Slider)]
    assert len(CORNERS) == 2 ** len(sliders) * 2 * len(TABLE)


@pytest.mark.parametrize("material", list(TABLE))
def test_every_corner_has_readings_that_hang_together(material, monkeypatch) -> None:
    seen = 0
    for values in CORNERS:
        if values["material"] != material:
            continue
        chosen = tuple(values[name] for name in OF_FALL)
        known = functools.partial(over_rates, values["place"], values["window"] * 1e-3, chosen)
        monkeypatch.setattr(under_test, "slow_cells", lambda known=known, **_: known())
        one = made(values)
        seen += 1
        true, low, high = one.cell.true, one.cell.lowest, one.cell.highest
        assert all(math.isfinite(v) for v in (*one.read, *one.meant, true, low, high))
        assert 0.0 < low <= one.cell.mean <= high <= true * (1.0 + 1e-9)
        most = 4.5 * values["noise"]  # of some hundred samples at most one in 100 000 is that far off
        assert low - 1e-6 - most <= one.peak <= high + 1e-6 + most
        assert one.over[-1].missed[1] <= one.over[0].missed[1] + 1e-9
        assert len(one.strip) == 4
        assert all(SMALL.getlength(words) <= QUARTER and LARGE.getlength(said) <= QUARTER for words, said in one.strip), (
            one.strip
        )
        assert "nan" not in " ".join(map(str, one.strip)) + one.sentence
        assert len(one.sentence) <= 250
        assert SAY in one.sentence
        assert (MEANT in one.sentence) == (values["place"] == LEASH)
    assert seen == len(CORNERS) // len(TABLE)


def test_readings_are_those_of_the_models() -> None:
    values = {**START, "rate": 20.0, "window": 100.0, "phase": 25.0, "leash_length": 2.0, "length": 60.0}
    one = made(values)
    found = fall(setup=lesson_setup(length=60.0, leash_length=2.0))
    assert one.cell.true == pytest.approx(found.peak_tension_a)
    assert one.at == pytest.approx((np.arange(len(one.at)) + 0.25) / 20.0)
    fine = np.linspace(one.at[9] - 0.1, one.at[9], 20001)
    assert one.read[9] == pytest.approx(np.trapezoid(np.interp(fine, found.time, found.tension_a), fine) / 0.1, rel=1e-6)
    leash = made({**values, "place": LEASH})
    assert leash.cell.true == pytest.approx(found.peak_leash_force)
    assert leash.cell.missed[1] > one.cell.missed[1]  # the person's force has the sharper peak


def test_start_tells_the_lesson() -> None:
    """A slow cell misses some of an anchor's round peak, more of the person's; a long window hides it from any rate."""
    anchor, leash = made(START), made({**START, "place": LEASH})
    assert 0.01 < anchor.cell.missed[1] < 0.03
    assert 0.05 < leash.cell.missed[1] < 0.2
    slow = made({**START, "window": 300.0, "rate": 500.0})
    assert slow.cell.missed[0] > 0.02
    assert "Faster sampling does not help: the window alone takes 2.9 %." in slow.sentence
    assert "The peak falls between samples." in anchor.sentence
    assert "This cell is fast enough for this fall." in made({**START, "rate": 500.0}).sentence


def test_sentence_and_strip_by_hand() -> None:
    cell = SlowCell(rate=10.0, averaging=0.05, true=9500.0, lowest=9310.0, mean=9400.0, highest=9462.0)
    fast = replace(cell, rate=500.0, lowest=9462.0)
    one = replace(made(START), cell=cell, over=(cell, fast), read=np.array([9000.0, 9405.0]), noise=30.0)
    assert one.sentence == (
        "The cell shows 95 N less than the true peak; by the moment it begins it misses 0.4 to 2.0 %. "
        "The peak falls between samples. State a peak with its sampling and averaging."
    )
    assert [reading.words for reading in one.strip][:2] == ["true peak, anchor A", "recorded, 10 Hz, 50 ms"]
    assert [reading.number for reading in one.strip] == ["9.50 kN", "9.40 kN", "1.0 %", "0.4–2.0 %"]
    loud = replace(one, read=np.array([9547.5]))
    assert loud.sentence.startswith("Noise lifts the highest reading 48 N above the true peak: a record can be too high.")
    assert loud.strip[2].number == "−0.5 %"
    assert replace(one, read=np.array([9500.5])).strip[2].number == "0.0 %"
    window = replace(one, over=(cell, replace(fast, lowest=9310.0)))
    assert "Faster sampling does not help: the window alone takes 2.0 %." in window.sentence


def test_every_slider_moves_readings_and_picture(panel) -> None:
    for control in CONTROLS:
        ends = (control.low, control.high) if isinstance(control, Slider) else list(control.options.values())[:2]
        seen = []
        for end in ends:
            panel.set(**{**START, control.name: end})
            seen.append((bytes(panel.static().png), panel.words))
        assert seen[0][0] != seen[1][0], control.name
        assert seen[0][1] != seen[1][1], control.name


@pytest.mark.parametrize("place", [ANCHOR, LEASH])
def test_corners_can_be_drawn_and_no_word_is_cut(panel, place) -> None:
    """The stiffest and the softest webbing; noise with the late first sample."""
    drawn = 0
    for values in CORNERS:
        late = values["phase"] > 0.0
        if values["place"] != place or late != (values["noise"] > 0.0):
            continue
        if values["material"] not in ("hmpe_25mm", "polyamide_tubular_25mm"):
            continue
        panel.set(**values)
        drawn += 1
        assert not panel.figure.reason.get_visible(), panel.words
        words = [a for a in panel.figure.canvas._moving if isinstance(a, Word) and a.text and a.get_visible()]
        assert len(words) >= 3
        boxes = [place_of(word) for word in words]
        for word, (left, right, bottom, top) in zip(words, boxes, strict=True):
            assert left >= -1.0, (word.text, values)
            assert right <= 801.0, (word.text, values)
            assert bottom >= -1.0, (word.text, values)
            assert top <= 401.0, (word.text, values)
        (_, _, low_a, high_a), (_, _, low_b, high_b) = boxes[:2]
        assert high_a <= low_b + 1.0 or high_b <= low_a + 1.0, (panel.words, values)  # true and recorded side by side
    assert drawn == 64


def test_dots_and_lines_are_where_the_numbers_are(panel) -> None:
    panel.set(**{**START, "window": 50.0})
    figure, one = panel.figure, panel.recorded
    assert figure.samples.get_ydata() == pytest.approx(1e-3 * one.read)
    assert figure.true.get_ydata() == pytest.approx(1e-3 * one.force)
    assert figure.meant.get_ydata() == pytest.approx(1e-3 * one.meant)
    assert figure.mark.get_ydata()[0] == pytest.approx(1e-3 * one.peak)
    assert figure.dot.get_xdata()[0] == 10.0
    assert figure.dot.get_ydata()[0] == pytest.approx(100.0 * one.missed)
    assert figure.worst.get_ydata() == pytest.approx([100.0 * c.missed[1] for c in one.over])
    assert figure.best.get_ydata() == pytest.approx([100.0 * c.missed[0] for c in one.over])


def test_same_fall_is_not_computed_again(panel, monkeypatch) -> None:
    panel.set(**START)
    calls = []
    monkeypatch.setattr("linelib.panels.slow_cell_panel.fall_of", lambda *_: calls.append(1) or fallen(1.5, "hmpe_25mm", 100))
    panel.set(rate=50).set(window=100).set(place=LEASH)
    assert calls == []
    panel.set(length=99)
    assert calls == [1]


def test_guess_refusals_and_recovery() -> None:
    panel = SlowCellPanel()
    plain = bytes(panel.static().png)
    assert bytes(panel.predict(4.0).static().png) != plain
    assert panel.figure.guess.get_xdata()[0] == 10.0
    assert panel.figure.guess.get_ydata()[0] == 4.0
    panel.guess = None
    with pytest.raises(ValueError, match=r"percent = -1.0"):
        panel.predict(-1.0)
    with pytest.raises(ValueError, match=r"rate = 999.0 .* 5 to 500 Hz"):
        panel.set(rate=999)
    with pytest.raises(ValueError, match="in the air"):
        panel.set(place="in the air")
    panel.values["rate"] = 0.5  # as if the slider went that far
    panel.update()
    assert panel.words.startswith("Nothing can be recorded here. rate = 0.5 is not possible; allowed: at least")
    assert panel.figure.reason.get_visible()
    assert bytes(panel.set(**START).static().png) == plain
    assert not panel.figure.reason.get_visible()


def test_readings_for_other_values_change_nothing(panel) -> None:
    panel.set(**START)
    before = panel.words
    assert panel.readings(rate=500.0).cell.rate == 500.0
    assert panel.words == before
