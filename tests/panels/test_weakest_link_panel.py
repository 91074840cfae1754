"""The panel of the lesson on the weakest link: every corner of its sliders, its bars against the margins, and its words."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest

from linelib.figures.weakest_link_figure import VIEWS
from linelib.models.fall_in_time import fall, falls
from linelib.panels.controls import Slider, corners, starts
from linelib.panels.weakest_link_panel import WeakestLinkPanel
from linelib.panels.weakest_link_settings import FALL, KINDS, found_of, in_si, legs_of, setup_of, weakest_link_controls
from linelib.tables import webbings

TABLE = webbings()
CONTROLS = weakest_link_controls()
START = starts(CONTROLS)
OTHERS = [c for c in CONTROLS if c.name not in FALL]
OF_FALL = [c for c in CONTROLS if c.name in FALL]
CORNERS = [{**START, **values} for values in corners(OTHERS)]


@pytest.fixture(scope="module")
def panel():
    return WeakestLinkPanel()


@pytest.fixture(scope="module")
def fall_ends():
    """The falls with the lowest and the highest peak of all corners of the fall's own sliders, and one in between."""
    settings = [setup_of(in_si({**START, **values}, CONTROLS), TABLE) for values in corners(OF_FALL)]
    many = falls(setups=settings)
    assert np.all(np.isfinite(many.peak_tension_a))
    assert np.all(many.peak_leash_force > 0.0)
    order = np.argsort(many.peak_tension_a)
    return [(settings[i], fall(setup=settings[i])) for i in (order[0], order[-1])]


@pytest.mark.parametrize("kind", KINDS.values())
def test_every_corner_has_a_weakest_place_and_words(kind, fall_ends) -> None:
    seen = set()
    for (setup, one), values in itertools.product(fall_ends, CORNERS):
        if values["legs"] != kind:
            continue
        si = in_si(values, CONTROLS)
        found = found_of(kind=kind, si=si, setup=setup, fall=one, fails=False, limit=None)
        times = [margin.times for margin in found.margins.each]
        assert all(math.isfinite(t) and t > 0.0 for t in times)
        assert found.margins.times == min(times)
        assert sum(found.forces.tensions) >= one.peak_tension_a * (1.0 - 1e-9)
        assert len(found.strip) == 4
        text = " ".join(str(part) for part in found.strip) + found.sentence
        assert "nan" not in text
        assert found.margins.weakest.place.name in found.sentence
        assert len(found.sentence) < 300
        assert all(word not in text.lower() for word in ("enough", "safe", "approved"))
        seen.add(found.margins.weakest.place.name)
    assert len(seen) >= 3


@pytest.mark.parametrize("kind", KINDS.values())
def test_every_corner_can_lose_a_leg(kind, fall_ends) -> None:
    for (setup, one), values in itertools.product(fall_ends, CORNERS[::7]):
        if values["legs"] == kind:
            si = in_si(values, CONTROLS)
            found = found_of(kind=kind, si=si, setup=setup, fall=one, fails=True, limit=2.0)
            assert found.forces.tensions[found.failed] == 0.0
            assert found.lost.jolt >= max(found.forces.tensions) * 0.999
            assert found.lost.run > -1e-9
            assert "failed" in found.sentence
            assert len(found.sentence) < 330


@pytest.mark.parametrize("view", VIEWS)
def test_corners_can_be_drawn_and_stay_inside_their_box(panel, view) -> None:
    panel.look_at(view)
    for values in [*CORNERS[::61], *({**START, **v} for v in corners(OF_FALL)[::7])]:
        panel.set(**values)
        assert not panel.figure.reason.get_visible(), panel.words
        assert bytes(panel.static().png).startswith(b"\x89PNG")
        plan = panel.figure.plan
        (left, right), (low, high) = plan.axes.get_xlim(), plan.axes.get_ylim()
        for line in (plan.pull, plan.bolts, plan.dot, plan.cut, *(leg for leg in plan.legs if leg.get_visible())):
            x, y = (np.asarray(v, float) for v in line.get_data())
            assert np.all((left <= x) & (x <= right) & (low <= y) & (y <= high)), values
        assert max(bar.get_x() + bar.get_width() for parts in panel.figure.bars.parts for bar in parts) <= (
            panel.figure.bars.axes.get_xlim()[1] * 1.0001
        )
    panel.look_at(VIEWS[0])


@pytest.mark.parametrize("view", VIEWS)
def test_every_slider_moves_readings_or_picture(panel, view) -> None:
    panel.look_at(view)
    for control in CONTROLS:
        ends = (control.low, control.high) if isinstance(control, Slider) else list(control.options.values())[:2]
        pictures = [bytes(panel.set(**{**START, control.name: end}).static().png) for end in ends]
        assert pictures[0] != pictures[1], control.name
    panel.look_at(VIEWS[0]).set(**START)


def test_bars_are_the_margins(panel) -> None:
    panel.set(**START)
    for parts, margin in zip(panel.figure.bars.parts, panel.found.margins.each, strict=True):
        solid, uneven, lost, pale = parts
        assert solid.get_width() == pytest.approx(margin.times)
        whole = solid.get_width() + pale.get_width() + lost.get_width()
        assert whole == pytest.approx(margin.place.printed / margin.place.load)
        assert pale.get_x() == pytest.approx(solid.get_width())
    assert uneven.get_width() == pytest.approx(0.0)  # the lock has no legs
    legs = panel.figure.bars.parts[0]
    assert legs[1].get_x() + legs[1].get_width() == pytest.approx(22e3 / (panel.found.fall.peak_tension_a / 3.0))


def test_weakest_place_moves_with_the_sliders(panel) -> None:
    named = [
        panel.readings(**changes).margins.weakest.place.name
        for changes in ({}, {"odd_leg": -6}, {"lock_loss": 0, "end_loss": 50}, {"lock_loss": 0, "end_loss": 0})
    ]
    assert named == ["lock at B", "legs at A", "end at A", "end at A"]
    wide = panel.readings(legs="2 tied", angle=150, odd_leg=0)
    assert wide.margins.weakest.place.name == "legs at A"
    assert wide.often.all_multiplied > wide.margins.times
    assert "too high" in wide.sentence


def test_a_loss_at_the_end_does_not_touch_the_lock_but_the_weather_touches_all(panel) -> None:
    before, end, weather = (panel.readings(**{**START, **c}).margins for c in ({}, {"end_loss": 30}, {"weather": 30}))
    assert [b.times == e.times for b, e in zip(before.each, end.each, strict=True)] == [True, False, True, True]
    ratios = [w.times / b.times for b, w in zip(before.each, weather.each, strict=True)]
    assert ratios == pytest.approx([0.7 / 0.85] * 4)


def test_fall_is_that_of_the_lesson_rig_and_kept_while_nothing_of_it_moves(panel) -> None:
    panel.set(**START)
    kept = panel.found.fall
    assert kept.peak_tension_a == pytest.approx(fall(setup=setup_of(in_si(START, CONTROLS), TABLE)).peak_tension_a)
    assert panel.set(angle=100, weather=20, lock_loss=10).found.fall is kept
    assert panel.set(mass=100).found.fall is not kept
    panel.set(**START)


def test_legs_are_the_sliders() -> None:
    si = in_si({**START, "angle": 90, "odd_leg": 3}, CONTROLS)
    two, three = legs_of("2 tied", si), legs_of("3 running", si)
    assert [np.degrees(g.angle) for g in two] == pytest.approx([45.0, -45.0])
    assert [g.longer_by for g in two] == pytest.approx([0.0, 0.03])
    assert [g.longer_by for g in three] == pytest.approx([0.0, 0.0, 0.03])


def test_loop_shares_evenly_and_runs_far(panel) -> None:
    tied, loop = (panel.readings(fails=True, legs=kind, odd_leg=0) for kind in ("2 tied", "2 running"))
    assert loop.lost.run > 5.0 * tied.lost.run
    assert loop.lost.jolt > 2.0 * tied.lost.jolt
    assert len(set(np.round(panel.readings(legs="3 running").forces.tensions, 6))) == 1


def test_limit_starts_blank_and_approves_nothing(panel) -> None:
    assert panel.entered.value == ""
    assert panel.found.limit is None
    assert "limit" not in panel.words
    assert "Below your limit: end at A, lock at B." in panel.limit(3).words
    assert "No place is below your limit; that approves nothing." in panel.limit(1.5).words
    panel.entered.value = "2,5"
    assert panel.found.limit == 2.5
    panel.entered.value = "some"
    assert panel.entered.value == ""
    assert panel.found.limit is None
    with pytest.raises(ValueError, match=r"times = 0.0 is not possible; allowed: a number from 1 to 50"):
        panel.limit(0)
    assert "limit" not in panel.limit(None).words


def test_guess_is_a_dot_on_the_weakest_bar(panel) -> None:
    panel.set(**START)
    before = bytes(panel.static().png)
    assert bytes(panel.predict(3.7).static().png) != before
    (x,), (y,) = panel.figure.bars.guess.get_data()
    assert (x, y) == (3.7, panel.figure.bars.places[3])
    with pytest.raises(ValueError, match=r"times = -1.0"):
        panel.predict(-1)


def test_refusals_say_why_and_the_next_move_recovers(panel) -> None:
    with pytest.raises(ValueError, match=r"angle = 200.0 .* 10 to 150"):
        panel.set(angle=200)
    with pytest.raises(ValueError, match="one of all legs hold, one leg fails"):
        panel.look_at("elsewhere")
    panel.values["pretension"] = 0.01  # 10 N: as if a slider went that far
    panel.update()
    assert panel.words.startswith("No weakest link can be named here.")
    assert panel.figure.reason.get_visible()
    panel.set(pretension=3.0)
    assert not panel.figure.reason.get_visible()
    assert "Weakest" in panel.words


def test_a_lower_peak_is_never_shown_alone(panel) -> None:
    panel.set(**{**START, "pretension": 1.0})
    said = " ".join(word.text for word in panel.figure.fall_words)
    assert f"{panel.found.fall.peak_leash_force / 1e3:.1f} kN" in said
    assert f"{panel.found.fall.lowest_point:.1f} m" in said
    panel.set(**START)
