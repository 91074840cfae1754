"""The panel of the lesson on slip: every corner of its sliders, gain and cost together, ends, refusals and recovery."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import numpy as np
import pytest

import linelib as ll
from linelib.cautions import HELD, SLIP
from linelib.panels import slip_panel
from linelib.panels.controls import Choice, Slider, starts
from linelib.panels.slip_panel import SlipPanel
from linelib.panels.slip_settings import OURS, readings_of, slip_controls, slips_standing
from linelib.studies.outings import outings
from linelib.tables import webbings
from tests.lesson_slip import numbered, slipping

CONTROLS = slip_controls(webbings())
SLIDERS = {c.name: c for c in CONTROLS if isinstance(c, Slider)}
MATERIALS = tuple(next(c for c in CONTROLS if isinstance(c, Choice)).options.values())
COUNTED = list(itertools.product(*((SLIDERS[name].high, SLIDERS[name].low) for name in OURS)))
START = starts(CONTROLS)


def rigs(*slip_loads: float):
    """Every corner of the sliders that change a fall, with these slip loads [kN]."""
    names = [name for name in SLIDERS if name not in (*OURS, "slip_load")]
    for slip_load in slip_loads:
        for ends in itertools.product(*((SLIDERS[name].low, SLIDERS[name].high) for name in names)):
            yield {"slip_load": slip_load, **dict(zip(names, ends, strict=True))}


def check(readings) -> None:
    """Readings are numbers that hang together, short enough for their places, with words beside them."""
    numbers = (*readings.anchor, *readings.person, *readings.lowest, readings.paid_out, readings.paid_out_again)
    assert all(math.isfinite(n) and n >= 0.0 for n in numbers)
    assert readings.lowest[-1] >= readings.lowest[0] > 0.0
    assert readings.paid_out_again >= readings.paid_out - 1e-12
    assert len(readings.strip) == 4
    assert all(len(number) <= 13 and len(words) <= 26 for words, number in readings.strip)
    assert len(readings.sentence) <= 215
    assert "nan" not in readings.sentence
    assert readings.sentence.endswith(SLIP if readings.paid_out > 0.0 else HELD)


def outcome(panel: SlipPanel, **values) -> str:
    """What became of a setting: readings, which are checked, or the kind of reason; '' if it is none of ours."""
    try:
        readings = panel.readings(**values)
    except ValueError as error:
        return "standing" if "while somebody only stands" in str(error) else "spent" if "In fall 1 the" in str(error) else ""
    check(readings)
    return "slipped" if readings.paid_out > 0.0 else "held"


@pytest.mark.parametrize("material", MATERIALS)
def test_every_corner_has_readings_or_a_reason(material) -> None:
    panel, seen = SlipPanel(), set()
    for values in rigs(SLIDERS["slip_load"].low, SLIDERS["slip_load"].high):
        for counted in COUNTED:
            found = outcome(panel, **values, **dict(zip(OURS, counted, strict=True)), material=material)
            assert found, panel.words
            seen.add(found)
            if found == "standing":
                break  # tail, fold and number of falls change nothing
    assert {"held", "standing"} <= seen


def test_slip_loads_between_the_ends_at_every_corner_of_the_first_material() -> None:
    panel = SlipPanel()
    found = [outcome(panel, **values, falls=2) for values in rigs(6.5, 9.0)]
    assert all(found)
    assert found.count("slipped") > 10
    assert found.count("spent") > 0


@pytest.fixture(scope="module")
def panel() -> SlipPanel:
    return SlipPanel()


@pytest.mark.parametrize("slip_load", [6.5, 9.0, 16.0])
def test_corners_can_be_drawn(panel, slip_load) -> None:
    for values in itertools.islice(rigs(slip_load), 0, None, 3):
        panel.set(**{**START, **values, "falls": 3})
        drawn = not panel.figure.reason.get_visible()
        assert drawn == ("paid out" in panel.words)
        assert bytes(panel.static().png).startswith(b"\x89PNG")
        if drawn:
            for axes in (panel.figure.anchor.axes, panel.figure.person.axes, panel.figure.drop.axes, panel.figure.over.axes):
                low, high = sorted(axes.get_ylim())
                for line in axes.get_lines():
                    values_of = np.asarray(line.get_ydata(), float)
                    assert np.all((values_of >= low) & (values_of <= high))


def test_every_slider_moves_the_picture(panel) -> None:
    for control in CONTROLS:
        ends = (control.low, control.high) if isinstance(control, Slider) else list(control.options.values())[:2]
        ends = (6.0, 9.0) if control.name == "slip_load" else (1.0, 3.0) if control.name == "extra_length" else ends
        pictures, words = set(), set()
        for end in ends:
            panel.set(**{**START, control.name: end})
            pictures.add(bytes(panel.static().png))
            words.add(panel.words)
        assert len(pictures) == 2, control.name
        assert len(words) == 2, control.name


def test_readings_are_those_of_falls_typed_out_by_hand(panel) -> None:
    said = panel.readings(**{**START, "slip_load": 7.0, "falls": 2})
    setup = slipping(7000.0)
    length = float(ll.hang(rig=setup.rig).natural_lengths[0])
    one = ll.fall(setup=setup)
    segment = replace(setup.rig.segments[0], length=length + one.slip_b)
    two = ll.fall(setup=replace(setup, rig=replace(setup.rig, segments=(segment,), pretension=None)))
    assert said.lowest == pytest.approx((one.lowest_point, two.lowest_point), rel=1e-5)
    assert said.anchor == pytest.approx((one.peak_tension_a, two.peak_tension_a), rel=1e-3)
    assert said.paid_out == pytest.approx(one.slip_b + two.slip_b, rel=1e-3)
    assert said.paid_out_again == pytest.approx(2.0 * one.slip_b, rel=1e-3)


def test_readings_and_words_by_hand() -> None:
    """0.3 m, then 0.2 m paid out; 2.0 m of extra length less 0.1 m of stretch; re-tensioned 2 x 0.3 m in the falls shown."""
    row = numbered()
    left, again = outings(row=row, tail=1.5, fold=0.6), outings(row=row, tail=1.5, fold=0.6, retensioned=True)
    said = readings_of(left, again, row.falls[0], 6500.0)
    assert (said.anchor, said.person, said.lowest) == ((9e3, 6.5e3), (2.1e3, 2.4e3), (7.5, 8.5))
    assert (said.paid_out, said.paid_out_again, said.falls) == (pytest.approx(0.5), pytest.approx(0.6), 2)
    assert "0.50 m paid out: tail 1.00 m, backup's extra 1.40 m left; the fold is 0.10 m from the lock." in said.sentence
    assert [r.number for r in said.strip] == ["9.0→6.5 kN", "2.1→2.4 kN", "7.5→8.5 m", "0.50 | 0.60 m"]
    short = outings(row=row, tail=0.4, fold=0.3)
    assert readings_of(short, again, row.falls[0], 6500.0).paid_out_again == pytest.approx(0.3)
    none = replace(row, falls=tuple(replace(one, slip_b=0.0) for one in row.falls))
    assert "The peak, 9.0 kN, stays under 9.5 kN" in readings_of(outings(row=none), again, row.falls[0], 9500.0).sentence


def test_what_pulls_at_the_lock_while_somebody_stands() -> None:
    """Close to B on a loose line its side is steep: neither what A gets nor the horizontal part."""
    setup = slipping(1500.0, pretension=600.0, position=0.93)
    state = ll.hang(rig=setup.rig, load=(80.0 + setup.leash.ring_mass) * 9.80665, position=0.93)
    assert state.tension_b > state.tension_a + 100.0
    assert state.tension_b > state.horizontal + 100.0
    assert f"slips at 1.5 kN, and the line pulls there with {state.tension_b / 1e3:.1f} kN" in slips_standing(setup)


def test_default_shows_several_falls_gain_and_cost(panel) -> None:
    panel.set(**START)
    left = panel._picture.left
    assert len(left.lowest) >= 4
    anchor, _, lowest = panel._picture.holds
    assert np.all(left.anchor < anchor)  # the gain
    assert np.all(left.lowest > lowest)  # and its cost, in the same picture
    assert np.all(np.diff(left.lowest) > 0.0)
    assert panel._picture.fold_in > 1
    for word in ("tail", "backup's extra", "fold", "Re-tensioned, the lock slips anew", SLIP):
        assert word in panel.words
    assert ll.CAUTION in panel.words


def test_which_slip_loads_are_refused_while_somebody_only_stands(panel) -> None:
    """On the lesson rig: all below the standing tension, about 5.7 kN; the next move recovers."""
    standing = ll.fall(setup=slipping(None)).standing_tension_b / 1e3
    for slip_load in np.arange(3.0, 16.01, 0.5):
        panel.set(**{**START, "slip_load": round(float(slip_load), 1), "falls": 1, "extra_length": 3.0})
        assert panel.figure.reason.get_visible() == (slip_load < standing), slip_load
        assert ("only stands" in panel.words) == (slip_load < standing)
    panel.set(**{**START, "slip_load": 5.0})
    assert "slips at 5.0 kN" in panel.words
    assert "5.7 kN" in panel.words
    assert SLIP in panel.words
    panel.set(slip_load=6.5)
    assert not panel.figure.reason.get_visible()


def test_the_end_of_tail_and_backup_ends_the_series_and_is_said(panel) -> None:
    panel.set(**{**START, "extra_length": 0.6})
    assert "the backup would pull first" in panel.words
    assert panel.figure.over.end.text == "backup pulls"
    shown = len(panel._picture.left.lowest)
    assert 1 <= shown < 4
    panel.set(**{**START, "slip_load": 6.0, "falls": 5, "leash_length": 2.5, "extra_length": 3.0})
    assert "the tail would run out" in panel.words
    assert panel.figure.over.end.text == "tail used up"
    panel.set(**{**START, "extra_length": 0.4})
    assert panel.words.startswith("This cannot be rigged or walked. In fall 1 the extra length is used up")
    panel.set(**START)
    assert panel.figure.over.end.text == ""


def test_sliders_that_only_count_compute_no_fall_again(panel, monkeypatch) -> None:
    panel.set(**START)

    def never(**_: object) -> None:
        raise AssertionError("computed again")

    monkeypatch.setattr(slip_panel, "falls_in_a_row", never)
    monkeypatch.setattr(slip_panel, "fall", never)
    pictures = {bytes(panel.set(**{**START, **more}).static().png) for more in ({"fold": 0.3}, {"tail": 3}, {"falls": 2}, {})}
    assert len(pictures) == 4


def test_a_guess_is_drawn_and_bad_values_are_refused(panel) -> None:
    before = bytes(panel.set(**START).static().png)
    assert bytes(panel.predict(8.0).static().png) != before
    panel.guess = None
    with pytest.raises(ValueError, match="metre"):
        panel.predict(-1.0)
    with pytest.raises(ValueError, match=r"slip_load = 2.0 .* 3 to 16 kN"):
        panel.set(slip_load=2)
