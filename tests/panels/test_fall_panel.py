"""The main panel without a browser: every corner of every slider, every view, refusal and recovery."""

from __future__ import annotations

import threading

import numpy as np
import pytest

import linelib as ll
from linelib.figures.fall_figure import VIEWS
from linelib.panels import fall_panel
from linelib.panels.controls import Slider, corners
from linelib.panels.fall_panel import COMPARE, FallPanel
from linelib.panels.fall_settings import setup_of
from linelib.studies.held_equal import HELD
from linelib.studies.lesson_rig import lesson_setup


@pytest.fixture
def panel() -> FallPanel:
    return FallPanel()


def test_every_corner_of_every_slider_has_an_answer_or_a_reason(panel: FallPanel) -> None:
    setups, refused = [], 0
    for values in corners(panel.controls):
        if float(values["standing_height"]) > float(values["leash_length"]):
            with pytest.raises(ValueError, match="standing_height"):
                setup_of(values, panel.controls, panel.table)
            refused += 1
        else:
            setups.append(setup_of(values, panel.controls, panel.table))
    assert refused > 0
    assert len(setups) + refused == 2**7 * len(panel.table)
    found = ll.falls(setups=setups)
    weight = 9.80665 * np.array([s.walker.mass for s in setups])
    for values in (found.peak_tension_a, found.peak_tension_b, found.peak_leash_force, found.lowest_point):
        assert np.all(np.isfinite(values))
    assert np.all(found.peak_tension_a >= found.standing_tension_a)
    assert np.all(found.peak_leash_force > weight)  # who is caught feels more than their weight
    assert np.all(found.lowest_point > found.standing_sag)
    assert np.all(found.ledger_error <= 0.005)


@pytest.mark.parametrize("view", VIEWS)
def test_each_end_of_each_slider_moves_readings_and_picture(panel: FallPanel, view: str) -> None:
    panel.set(leash_length=2.0).look_at(view)
    for control in panel.controls:
        ends = (control.low, control.high) if isinstance(control, Slider) else tuple(control.options.values())[:2]
        seen = []
        for end in ends:
            panel.frame.inputs[control.name].value = end  # as the browser does
            seen.append((panel.frame.readings.value, panel.frame.sentence.value, panel.frame.picture.value))
        assert seen[0][0] != seen[1][0], control.name
        assert seen[0][2] != seen[1][2], control.name
        panel.set(**{"leash_length": 2.0, control.name: 2.0 if control.name == "leash_length" else control.start})


def test_readings_are_those_of_the_fall(panel: FallPanel) -> None:
    said = panel.readings(length=140, material="polyester_25mm", mass=95, position=30, pretension=2.5)
    fall = ll.fall(setup=lesson_setup(length=140.0, material="polyester_25mm", mass=95.0, position=0.3, pretension=2500.0))
    assert said.anchor_a == pytest.approx(fall.peak_tension_a)
    assert said.anchor_b == pytest.approx(fall.peak_tension_b)
    assert said.person == pytest.approx(fall.peak_leash_force)
    assert said.lowest_point == pytest.approx(fall.lowest_point)
    assert said.strip[0].number == f"{fall.peak_tension_a / 1e3:.1f} kN"


def test_a_setting_without_an_answer_says_why_and_the_next_move_recovers(panel: FallPanel) -> None:
    panel.set(leash_length=0.5, standing_height=1.5)
    assert "standing height = 1.5" in panel.words
    assert "kN" not in panel.frame.readings.value
    blank = panel.frame.picture.value
    panel.frame.inputs["leash_length"].value = 2.0
    assert "peak at anchor A" in panel.words
    assert panel.frame.picture.value != blank


def test_the_curve_goes_through_falls_computed_alone(panel: FallPanel) -> None:
    panel.look_at("what if").set(mass=100, leash_length=2.5)
    assert panel.last_moved == "leash_length"
    found = panel._curve[1]
    alone = [ll.fall(setup=lesson_setup(mass=100.0, leash_length=float(v))).peak_tension_a for v in found.over]
    assert found.falls.peak_tension_a == pytest.approx(alone, rel=1e-9)
    assert len(found.over) >= 8
    before = found.falls
    panel.set(leash_length=3.0)
    assert panel._curve[1].falls is before  # its own slider does not change it
    panel.set(mass=60, leash_length=3.0)
    assert panel._curve[1].falls is not before
    assert np.all(panel._curve[1].falls.peak_tension_a < before.peak_tension_a)


@pytest.mark.parametrize("held", HELD)
@pytest.mark.parametrize("compare", [key for key in COMPARE if key])
def test_second_rig(panel: FallPanel, compare: str, held: str) -> None:
    panel.look_at("what if")
    plain = panel.frame.picture.value
    panel.compare.value, panel.held.value = compare, held
    found = panel._curve[1] if panel._ready else None
    assert found is not None, panel.words
    assert found.other is not None
    assert np.all(np.isfinite(found.other.peak_tension_a))
    assert panel.frame.picture.value != plain
    if held == "standing sag":
        assert found.other.standing_sag == pytest.approx(found.falls.standing_sag, rel=5e-3)


def test_scrubbing_computes_nothing_again(panel: FallPanel, monkeypatch: pytest.MonkeyPatch) -> None:
    panel.look_at("when")

    def never(**_: object) -> None:
        raise AssertionError("computed again")

    monkeypatch.setattr(fall_panel, "fall", never)
    pictures = set()
    for at in (0, 30, 60, 95):
        panel.time.value = at
        pictures.add(panel.frame.picture.value)
    assert len(pictures) == 4


def test_moves_that_arrive_at_once_do_not_mix(panel: FallPanel) -> None:
    """A kernel may hand messages of the page to several threads: each picture is that of one moment, never of two."""
    panel.look_at("when")
    alone = {}
    for at in (5, 90):
        panel.time.value = at
        alone[at] = bytes(panel.frame.picture.value)
    seen = []
    show = panel.frame.show
    panel.frame.show = lambda **found: (seen.append(found["png"]), show(**found))

    def move(at: int) -> None:
        for _ in range(15):
            panel.time.value = at
            panel.redraw()

    threads = [threading.Thread(target=move, args=(at,)) for at in alone]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(seen) >= 30
    assert set(seen) <= set(alone.values())


def test_unknown_names_and_values_are_refused(panel: FallPanel) -> None:
    with pytest.raises(ValueError, match=r"slider = 'lenght' .* length"):
        panel.set(lenght=62)
    with pytest.raises(ValueError, match=r"length = 5000.* 50 to 200"):
        panel.set(length=5000)
    with pytest.raises(ValueError, match="material"):
        panel.set(material="string")
    with pytest.raises(ValueError, match="view"):
        panel.look_at("everything")
    assert "9" in panel.words  # still there


def test_what_is_stored_in_a_notebook(panel: FallPanel) -> None:
    bundle = panel._repr_mimebundle_()
    assert set(bundle) == {"application/vnd.jupyter.widget-view+json", "image/png", "text/plain"}
    assert ll.CAUTION in bundle["text/plain"]
    assert ll.CAUTION in panel.static().words
    assert panel.static().png.startswith(b"\x89PNG")


def test_a_guess_is_drawn(panel: FallPanel) -> None:
    before = panel.frame.picture.value
    assert panel.predict(5.0).frame.picture.value != before
