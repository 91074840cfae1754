"""The panel of the lesson on seating: corners of its sliders, readings against the models, and words that stay careful."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest

from linelib.figures.left_chart import APART, _apart
from linelib.figures.seating_figure import VIEWS
from linelib.models.seated_strips import strips_of
from linelib.models.seating import Seating, path_differences
from linelib.models.tearing import tear
from linelib.panels.controls import Choice, Slider, corners, starts
from linelib.panels.seating_panel import SeatingPanel
from linelib.panels.seating_settings import case_of, outcomes_of, readings_of, seating_controls
from linelib.tables import webbings

TABLE = webbings()
CONTROLS = seating_controls(TABLE)
START = starts(CONTROLS)
SLIDERS = [c for c in CONTROLS if isinstance(c, Slider)]
CORNERS = corners([c for c in CONTROLS if c.name != "material"])
MATERIALS = next(c for c in CONTROLS if isinstance(c, Choice)).options.values()
LONGEST_SENTENCE, LONGEST_NUMBER = 232, 12


@pytest.fixture(scope="module")
def panel():
    return SeatingPanel()


def readings(**values):
    case = case_of({**START, **values}, CONTROLS, TABLE)
    return readings_of(case, outcomes_of(case))


@pytest.mark.parametrize("material", MATERIALS)
def test_every_corner_has_readings_in_their_bounds(material):
    """A part of the corners for each webbing, all of them over the ten webbings."""
    assert len(CORNERS) == 2 ** (len(SLIDERS) + 1)
    for values in CORNERS[list(MATERIALS).index(material) :: len(MATERIALS)]:
        found = readings(**{**values, "material": material})
        for shares in (found.left, found.carrying, found.whole):
            assert all(math.isfinite(share) and 0.0 <= share <= 1.0 + 1e-9 for share in shares)
        assert all(0.0 < first <= TABLE[material].breaking_strength * 1.0001 for first in found.first)
        assert len(found.strip) == 4
        assert all(len(number) <= LONGEST_NUMBER for _, number in found.strip)
        assert len(found.sentence) <= LONGEST_SENTENCE, found.sentence


def test_readings_are_those_of_the_models():
    values = {"skew": 6.0, "fold": 1.5, "folded": 40.0, "sharing": 8.0, "earlier": 9.0, "pull": 4.0, "factor": 1.5}
    found = readings(**values)
    webbing = TABLE["hmpe_25mm"]
    seating = Seating(skew_angle=math.radians(6.0), fold_depth=1.5e-3, folded_share=0.4)
    for i, length in enumerate((0.08 / 1.5, 0.08, 0.08 * 1.5)):
        e = path_differences(seating=seating, width=0.025, sharing_length=length)
        strips = strips_of(webbing=webbing, difference=e, sharing_length=length, stiffening=webbing.fast_ratio)
        assert found.left[i] == pytest.approx(strips.strength_left() / 35e3, rel=1e-9)
        assert found.first[i] == pytest.approx(strips.peak_pull[0], rel=1e-9)
        assert found.whole[i] == pytest.approx(tear(strips=strips, loads=[9e3, 4e3])[-1].whole_share, rel=1e-9)


@pytest.mark.parametrize("earlier, pull", [(6.0, 14.0), (14.0, 6.0)])
def test_a_fold_that_tore_in_words_by_hand(earlier, pull):
    """35 % of 35 kN are tight and tear below 14 kN; 65 % are left, whichever pull was the higher one."""
    found = readings(skew=0.0, fold=2.0, earlier=earlier, pull=pull)
    assert found.whole[1] == pytest.approx(0.65)
    assert "14.0 kN tore 35 % of the width, and 35 % of the strength is lost." in found.sentence
    assert found.strip[3].words == f"whole, {earlier:.1f} then {pull:.1f} kN"


def test_a_lucky_order_of_scattered_strips_is_no_gain():
    """On the model's strips 1.017 of the strength; the panel says all of it, and no more."""
    values = {**START, "material": "polyamide_25mm", "skew": 3.0, "scatter": 20.0, "sharing": 30.0}
    outcomes = outcomes_of(case_of(values, CONTROLS, TABLE))
    assert outcomes[0].strips.strength_left() > 1.01 * TABLE["polyamide_25mm"].breaking_strength
    assert [one.left for one in outcomes] == [1.0] * 3


def test_the_start_shows_the_lesson():
    """About a third of the width carries nothing, and far more than a third of the strength is gone."""
    found = readings()
    assert 0.30 < 1.0 - found.carrying[1] < 0.42
    assert 1.0 - found.left[1] > 0.65
    assert found.left[0] < found.left[1] < found.left[2]


def test_softer_is_better_and_fast_is_worse():
    left = [readings(material=name).left[1] for name in ("hmpe_25mm", "polyester_25mm", "polyamide_25mm")]
    assert left == sorted(left)
    for name in MATERIALS:
        assert readings(material=name, speed="fast").left[1] < readings(material=name, speed="slow").left[1]


@pytest.mark.parametrize("view", VIEWS)
def test_every_slider_moves_readings_or_picture(panel, view):
    """From a fold that has torn once: every slider then changes the picture, and most of them the readings."""
    base = {**START, "fold": 2.0, "skew": 3.0, "earlier": 14.0}
    panel.look_at(view)
    for control in CONTROLS:
        ends = (control.low, control.high) if isinstance(control, Slider) else list(control.options.values())[:2]
        seen = []
        for end in ends:
            panel.set(**{**base, control.name: end})
            seen.append((panel.words, bytes(panel.static().png)))
        assert seen[0] != seen[1], control.name
        assert seen[0][1] != seen[1][1], control.name


@pytest.mark.parametrize("view", VIEWS)
def test_every_corner_of_some_webbings_can_be_drawn(panel, view):
    panel.look_at(view)
    names = itertools.cycle(["hmpe_19mm", "polyamide_25mm", "polyester_35mm"])
    for values, material in zip(CORNERS[::7], names, strict=False):
        panel.set(**{**values, "material": material})
        assert not panel.figure.reason.get_visible(), panel.words
        assert bytes(panel.static().png).startswith(b"\x89PNG")
        low, high = panel.figure.left.axes.get_xlim()
        dot = panel.figure.left.dot.get_data()
        if view == VIEWS[0]:
            assert low <= float(dot[0][0]) <= high
            assert 0.0 <= float(dot[1][0]) <= 100.1


def test_the_dot_lies_on_the_curve(panel):
    panel.look_at(VIEWS[0])
    for values in CORNERS[::41]:
        panel.set(**{**values, "material": "polyester_tubular_25mm"})
        x, y = panel.figure.left.middle.get_data()
        at, value = (float(v[0]) for v in panel.figure.left.dot.get_data())
        assert value == pytest.approx(float(np.interp(at, x, y)), abs=1e-6)


def test_strips_in_the_drawing_are_what_the_model_says(panel):
    """A torn fold: the tight part is torn, the folded part carries, and nobody carries more than its strength."""
    panel.look_at(VIEWS[1]).set(**{**START, "skew": 0.0, "fold": 2.0, "earlier": 14.0, "pull": 6.0})
    lines = panel.figure.lock.lines
    assert [len(line.get_xdata()) > 0 for line in lines] == [False, True, True]  # carries not, carries, torn
    torn = np.unique(np.round(panel.figure.lock.ends.get_ydata(), 6))
    assert len(torn) == 7
    assert torn.max() < -12.5 + 0.36 * 25.0
    assert np.nanmax(panel.figure.lock.bars.get_xdata()) < 100.0
    assert not panel.figure.lock.fold.get_visible()
    panel.set(earlier=0.0)
    assert panel.figure.lock.fold.get_visible()
    assert [len(line.get_xdata()) > 0 for line in lines] == [True, True, False]


def test_given_up_length_is_shown_and_said(panel):
    panel.look_at(VIEWS[1]).set(**{**START, "skew": 0.0, "fold": 2.0, "earlier": 14.0, "pull": 6.0})
    one, other = panel.figure.pulls.given.get_xdata()
    assert panel.figure.pulls.length.text == f"given up {other - one:.1f} mm"
    assert 3.0 < other - one < 4.0
    panel.set(earlier=0.0)
    assert panel.figure.pulls.length.text == ""


def test_guess_and_views_change_the_picture(panel):
    panel.guess = None
    pictures = [bytes(panel.look_at(view).set(**START).static().png) for view in VIEWS]
    panel.look_at(VIEWS[0]).predict(66.0)
    pictures.append(bytes(panel.static().png))
    assert len(set(pictures)) == 3
    with pytest.raises(ValueError, match=r"percent = 101.0 .* 0 to 100 %"):
        panel.predict(101.0)
    with pytest.raises(ValueError, match="one of strength left, pull by pull"):
        panel.look_at("elsewhere")
    with pytest.raises(ValueError, match=r"skew = 21.0 .* 0 to 20"):
        panel.set(skew=21)


def test_what_cannot_be_is_said_and_the_next_move_recovers(panel):
    panel.values["rolled"] = 13.0  # as if the slider went beyond half of the width
    panel.update()
    assert "rolled width = " in panel.words
    assert panel.figure.reason.get_visible()
    panel.set(rolled=0.0)
    assert not panel.figure.reason.get_visible()
    assert "strength left" in panel.words


def test_no_setting_reads_as_permission():
    for values in CORNERS[::5]:
        for material in ("polyamide_25mm", "hmpe_25mm"):
            found = readings(**{**values, "material": material})
            if found.left[1] < 0.995:
                assert "fault in any fibre: load off, seat it square" in found.sentence
            if 0.0 < found.whole[1] < 1.0:
                assert "That it held proves nothing" in found.sentence


def test_a_history_as_a_table(panel):
    panel.set(**{**START, "skew": 0.0, "fold": 2.0})
    rows = [row.split() for row in panel.history(6.0, 14.0, 24.0).splitlines()[1:]]
    assert [row[1] for row in rows] == ["yes", "yes", "NO"]
    assert [float(row[2]) for row in rows] == [100.0, 65.0, 0.0]
    assert float(rows[1][4]) == pytest.approx(3.7, abs=0.05)


@pytest.mark.parametrize(
    "heights", [[50.0, 50.0, 50.0, 50.0], [0.0, 0.0, 1.0, 2.0], [100.0, 100.0, 99.0, 98.0], [10.0, 90.0, 40.0, 41.0]]
)
def test_names_never_touch(heights):
    moved = _apart(heights)
    assert np.diff(np.sort(moved)).min() >= APART - 1e-9
    assert min(moved) >= 0.0
    assert max(moved) <= 101.0
    assert list(np.argsort(moved, kind="stable")) == list(np.argsort(heights, kind="stable"))
