"""The panel about a main line that parts, without a browser: every corner, refusals, and that it says what the fall says."""

from __future__ import annotations

import numpy as np
import pytest

import linelib as ll
from linelib.figures.fall_figure import VIEWS
from linelib.models.clearance import clearance_left
from linelib.panels.catch_panel import CatchPanel
from linelib.panels.catch_settings import CAUSES, catch_ground, catch_setup, seating_of
from linelib.panels.controls import Slider, corners
from linelib.studies.lesson_catch import catches_text, lesson_catch, strips_in_lock

ON_GROUND = ("depth", "rim")  # readings only, tested below


@pytest.fixture
def panel() -> CatchPanel:
    return CatchPanel()


def described(panel: CatchPanel, when: str) -> tuple[list[ll.Setup], int]:
    """The setups of all corners of the controls that mean something when the line parts so, and how many have none."""
    moving = [c for c in panel.controls if c.name not in ON_GROUND and not (c.name == "bay" and when == "strips")]
    moving = [c for c in moving if c.name != "when" and not any(c.name in names for k, names in CAUSES.items() if k != when)]
    setups, refused = [], 0
    for values in corners(moving):
        every = {**panel.values, **values, "when": when}
        if float(every["standing_height"]) > float(every["leash_length"]):
            with pytest.raises(ValueError, match="standing_height"):
                catch_setup(every, panel.controls, panel.table)
            refused += 1
        else:
            setups.append(catch_setup(every, panel.controls, panel.table))
    return setups, refused


@pytest.mark.parametrize("when", CAUSES)
def test_every_corner_of_every_slider_has_an_answer_or_a_reason(panel: CatchPanel, when: str) -> None:
    """A short extra length under a long line at high tension shares the load, a pull or a tear below the standing tension has
    come before the walker falls: each is refused by its name."""
    setups, refused = described(panel, when)
    assert refused > 0
    setups = setups[::3] if when == "strips" else setups[::2]
    long_enough = [s for s in setups if s.rig.backup and s.rig.backup.extra_length > 4.0] if when == "time" else []
    if long_enough:
        found = ll.falls(setups=long_enough)
        for values in (found.catch_tension_a, found.catch_tension_b, found.catch_leash_force, found.lowest_point):
            assert np.all(np.isfinite(values))
        assert np.all(found.failure_time >= 0.0)
        assert np.all(found.ledger_error <= 0.005)
        assert np.all(found.catch_leash_force > 9.80665 * np.array([s.walker.mass for s in long_enough]))
    answers, reasons = 0, set()
    for setup in [s for s in setups if s not in long_enough][::16]:
        try:
            answers += bool(np.isfinite(ll.fall(setup=setup).catch_leash_force))
        except ValueError as error:
            reasons.add(str(error).split(" = ")[0])
    assert answers > 0
    assert reasons <= {"extra_length", "tension", "tears[0].tension"}


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("when", CAUSES)
def test_each_end_of_each_slider_moves_readings_and_picture(panel: CatchPanel, view: str, when: str) -> None:
    start = {"leash_length": 2.0, "extra_length": 3.0, "when": when}
    panel.set(**start).look_at(view)
    for control in panel.controls:
        widget = panel.frame.inputs[control.name]
        if widget.disabled or control.name == "when":
            continue
        ends = (control.low, control.high) if isinstance(control, Slider) else tuple(control.options.values())[:2]
        if control.name == "position":
            ends = (control.low, 40.0)  # the two ends are mirror images of each other
        seen = []
        for end in ends:
            widget.value = end  # as the browser does
            seen.append((panel.frame.readings.value, panel.frame.picture.value))
        assert seen[0][0] != seen[1][0], control.name
        assert seen[0][1] != seen[1][1], control.name
        panel.set(**{control.name: start.get(control.name, control.start)})


def test_what_means_nothing_is_greyed_and_comes_back(panel: CatchPanel) -> None:
    def greyed() -> set[str]:
        return {name for name, widget in panel.frame.inputs.items() if widget.disabled}

    assert greyed() == {"pull", "skew", "folded"}
    panel.set(when="strips")
    assert greyed() == {"time", "pull", "bay"}
    panel.set(when="pull")
    assert greyed() == {"time", "skew", "folded"}


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


def test_near_an_anchor_the_rim_leaves_less(panel: CatchPanel) -> None:
    """A rim that falls over 25 m: at 5 m from A the ground is 20 % of the way down, and 1 m on towards A it is higher still."""
    read = panel.readings(position=5.0, rim=25.0)
    assert read.clearance < panel.readings(position=5.0, rim=5.0).clearance - 10.0
    ground = catch_ground({**panel.values, "rim": 25.0})
    place = {"position": 0.05, "span": 100.0, "height_difference": 0.0}
    assert read.clearance == clearance_left(lowest_point=read.lowest_point, ground=ground, **place).clearance


def test_strips_tear_in_the_lock_then_the_line_parts(panel: CatchPanel) -> None:
    """Of the webbing folded over 70 % and skewed, the tight 30 % tears first; the rest parts below the peak of a whole line."""
    panel.set(when="strips")
    strips = strips_in_lock(seating=seating_of(panel.values), webbing=panel.setup.rig.segments[-1].webbing)
    assert panel.setup.failure is not None
    assert panel.setup.failure.tears[0].tension == pytest.approx(float(strips.peak_pull[0]))
    assert panel.fall.failure_time > 0.0
    assert "30 % of the width tears" in panel.words
    assert "The main line parts" in panel.words


def test_a_line_that_holds_says_so_and_promises_nothing(panel: CatchPanel) -> None:
    panel.set(when="pull", pull=12.0)
    held = ll.fall(setup=lesson_catch(time=None))
    assert f"person, line holds: {held.peak_leash_force / 1e3:.1f} kN" in panel.words
    assert "proves nothing about the next one" in panel.words
    assert "catch" not in panel.words


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


def test_the_curve_over_the_pull_goes_on_where_the_line_holds(panel: CatchPanel) -> None:
    """Above its peak the line holds: both curves end at the forces of that fall, not at nothing."""
    panel.look_at("what if").set(when="pull")
    panel.set(pull=9.0)
    held = ll.fall(setup=lesson_catch(time=None))
    person = panel.figure.curves.plots[1].lines[0].get_ydata()
    assert person[-1] == pytest.approx(held.peak_leash_force / 1e3, rel=1e-3)
    assert person.min() > 0.0


def test_a_metre_of_extra_length_costs_more_than_a_metre_of_drop_and_is_not_softer() -> None:
    one, two = (ll.fall(setup=lesson_catch(extra_length=extra)) for extra in (1.0, 2.0))
    assert two.lowest_point - one.lowest_point > 2.0
    assert two.catch_leash_force > one.catch_leash_force
    table = catches_text(extra_lengths=(1.0, 2.0), times=(0.2, 1.3))
    assert len(table.splitlines()) == 4
    assert f"{ll.fall(setup=lesson_catch(time=None, extra_length=1.0)).lowest_point:.1f} m" in table
