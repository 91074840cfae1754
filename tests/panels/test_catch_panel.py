"""The panel about a main line that parts, without a browser: every corner, refusals, and that it says what the fall says."""

from __future__ import annotations

import numpy as np
import pytest

import linelib as ll
from linelib.figures.fall_figure import VIEWS
from linelib.panels.catch_panel import CatchPanel
from linelib.panels.catch_settings import catch_setup
from linelib.panels.controls import Slider, corners
from linelib.studies.lesson_catch import catches_text, lesson_catch

FOLDED = ("length", "pretension", "leash_length", "standing_height", "mass", "ground")


@pytest.fixture
def panel() -> CatchPanel:
    return CatchPanel()


def test_every_corner_of_every_slider_has_an_answer_or_a_reason(panel: CatchPanel) -> None:
    """A short extra length under a long line at high tension shares the load: that is refused by its name."""
    setups, refused = [], 0
    for values in corners(panel.controls):
        if values["ground"] != 10.0:
            continue  # it moves one reading only
        if float(values["standing_height"]) > float(values["leash_length"]):
            with pytest.raises(ValueError, match="standing_height"):
                catch_setup(values, panel.controls, panel.table)
            refused += 1
        else:
            setups.append(catch_setup(values, panel.controls, panel.table))
    long_enough = [s for s in setups if s.rig.backup and s.rig.backup.extra_length > 4.0]
    found = ll.falls(setups=long_enough)
    for values in (found.catch_tension_a, found.catch_tension_b, found.catch_leash_force, found.lowest_point):
        assert np.all(np.isfinite(values))
    assert np.all(found.failure_time >= 0.0)
    assert np.all(found.ledger_error <= 0.005)
    weight = 9.80665 * np.array([s.walker.mass for s in long_enough])
    assert np.all(found.catch_leash_force > weight)
    answers = 0
    for setup in [s for s in setups if s not in long_enough][::16]:
        try:
            answers += bool(np.isfinite(ll.fall(setup=setup).catch_leash_force))
        except ValueError as error:
            assert "extra_length" in str(error)  # noqa: PT017
            refused += 1
    assert answers > 0
    assert refused > 0


@pytest.mark.parametrize("view", VIEWS)
def test_each_end_of_each_slider_moves_readings_and_picture(panel: CatchPanel, view: str) -> None:
    panel.set(leash_length=2.0, extra_length=3.0).look_at(view)
    for control in panel.controls:
        ends = (control.low, control.high) if isinstance(control, Slider) else tuple(control.options.values())[:2]
        if control.name == "position":
            ends = (control.low, 40.0)  # the two ends are mirror images of each other
        seen = []
        for end in ends:
            panel.frame.inputs[control.name].value = end  # as the browser does
            seen.append((panel.frame.readings.value, panel.frame.sentence.value, panel.frame.picture.value))
        assert seen[0][0] != seen[1][0], control.name
        if control.name != "ground":
            assert seen[0][2] != seen[1][2], control.name
        start = {"leash_length": 2.0, "extra_length": 3.0}.get(control.name, control.start)
        panel.set(**{control.name: start})


def test_readings_are_those_of_the_fall(panel: CatchPanel) -> None:
    read, found = panel.readings(time=0.4, bay="a"), ll.fall(setup=lesson_catch(time=0.4, bay="a"))
    held = ll.fall(setup=lesson_catch(time=None))
    assert (read.person, read.anchor_a, read.lowest_point) == (
        found.catch_leash_force,
        found.catch_tension_a,
        found.lowest_point,
    )
    assert read.notches[2] == pytest.approx(held.peak_leash_force / 1e3)
    assert read.clearance == pytest.approx(25.0 - found.lowest_point - 1.0 - max(0.5, 0.05 * found.lowest_point))
    assert f"{found.lowest_point - held.lowest_point:.1f} m deeper" in read.sentence


def test_a_backup_that_would_share_the_load_shows_the_reason_and_the_next_move_recovers(panel: CatchPanel) -> None:
    panel.set(bays=1, extra_length=0.4, length=200, pretension=8)
    assert "extra length" in panel.words
    panel.set(extra_length=4.0)
    assert "The main line parts" in panel.words


def test_the_thin_line_is_the_main_line_that_holds(panel: CatchPanel) -> None:
    panel.look_at("what if")
    panel.compare.value = "held"
    panel.set(extra_length=2.0)
    drop = panel.figure.curves.plots[2]
    assert np.all(drop.others[0].get_ydata() < drop.lines[0].get_ydata())


def test_a_metre_of_extra_length_costs_more_than_a_metre_of_drop_and_is_not_softer() -> None:
    one, two = (ll.fall(setup=lesson_catch(extra_length=extra)) for extra in (1.0, 2.0))
    assert two.lowest_point - one.lowest_point > 2.0
    assert two.catch_leash_force > one.catch_leash_force
    table = catches_text(extra_lengths=(1.0, 2.0), times=(0.2, 1.3))
    assert len(table.splitlines()) == 4
    assert f"{ll.fall(setup=lesson_catch(time=None, extra_length=1.0)).lowest_point:.1f} m" in table
