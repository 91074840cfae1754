"""The panel on what would have kept a limit: corners answered or refused, blank limits, rows and map against the studies."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from linelib import fall
from linelib.cautions import LIMITS
from linelib.figures.keeping_figure import VIEWS
from linelib.figures.range_bars import COLUMNS, LIST, NOTE, TRACK
from linelib.panels.controls import Slider, corners, starts
from linelib.panels.keeping_panel import KeepingPanel
from linelib.panels.keeping_settings import KNOBS, OUTCOMES, keeping_controls, now_of, row_of
from linelib.studies.case_rig import LOCK, RIGGED, case_knobs, case_rig
from linelib.studies.costs import RESERVE
from linelib.studies.crossings import Crossings
from linelib.studies.keeping import Kept
from linelib.studies.outcomes import DEMANDS

CONTROLS = keeping_controls()
START = starts(CONTROLS)
SLIDERS = [c for c in CONTROLS if isinstance(c, Slider)]
CORNERS = [{**START, **values} for values in corners(SLIDERS)]
LIMITS_TRIED = {"peak at A": 9.0, "peak at B": 9.0, "person": 3.0, "lowest tie-in": 6.5}
PAIRS = [(a, b) for a in KNOBS for b in KNOBS if a != b]
NEVER_SAID = ("nan", "safe ", "enough", "blame", "slack line", "-0.0 ")


@pytest.fixture(scope="module")
def panel():
    one = KeepingPanel()
    for outcome in OUTCOMES:
        one.set(outcome=outcome)
        one.limit(LIMITS_TRIED.get(outcome, 0.6))
    return one.set(**START)


def hangs_in_the_leash(values):
    return values["standing_height"] > values["leash_length"]


def test_starts_blank_and_says_so():
    fresh = KeepingPanel()
    assert fresh.entered.value == ""
    assert LIMITS in fresh.words
    assert "No limit is entered, so nothing is looked for." in fresh.words
    assert fresh.figure.bars.within.get_xdata().size == 0
    assert fresh.figure.bars.marks.get_xdata().size == 0
    fresh.look_at(VIEWS[1])
    assert fresh.figure.map.reason.text == "no limit entered: no line"
    assert fresh.figure.map.line.get_xdata().size == 0
    assert LIMITS in fresh.text()


def test_every_corner_is_answered_or_refused_with_a_reason(panel):
    panel.look_at(VIEWS[0])
    for n, corner in enumerate(CORNERS):
        values = {**corner, "outcome": OUTCOMES[n % len(OUTCOMES)]}
        panel.set(**values)
        assert bytes(panel.static().png).startswith(b"\x89PNG")
        if hangs_in_the_leash(values):
            assert panel.words.startswith("Nothing can be looked for here: standing height = 1.6 is not possible")
            continue
        assert not panel.figure.reason.get_visible(), panel.words
        found = panel.found
        assert found.limit is not None
        assert len(found.kept) == (6 if values["pretension"] < 3.0 else 5)
        for kept in found.kept:
            for there in kept.found:
                assert there.outcomes[found.outcome] == pytest.approx(found.limit, rel=1e-3)
                assert kept.knob.low <= there.value <= kept.knob.high
                assert set(there.outcomes) >= {"person", "lowest tie-in", RESERVE}
        assert all(word not in panel.words.lower() for word in NEVER_SAID)
        assert len(panel.words.splitlines()[1]) < 330
        fits(panel.figure.bars)
    panel.set(**START)


def fits(bars):
    """Names end before the range begins, notes and costs do not meet, labels stay in the picture."""
    for name, note, y in zip(bars.names, bars.notes, bars.places, strict=True):
        assert name.size(name.text)[0] < LIST
        if note.text:
            end = note.place[0] + note.size(note.text)[0]
            costs = [w.place[0] - 0.5 * w.size(w.text)[0] for w in bars.costs if w.text and w.place[1] == y]
            assert end < min([*costs, 792.0]), note.text
    for words, columns in ((bars.heads, COLUMNS), (bars.first, COLUMNS)):
        edges = [(x - 0.5 * w.size(w.text)[0], x + 0.5 * w.size(w.text)[0]) for w, x in zip(words, columns, strict=True)]
        assert all(a[1] < b[0] for a, b in pairwise(edges))
    assert bars.title.size(bars.title.text)[0] < NOTE
    inside = [x for line in (bars.within, bars.marks, bars.now) for x in line.get_xdata() if np.isfinite(x)]
    assert all(TRACK[0] - 1e-9 <= x <= TRACK[1] + 1e-9 for x in inside)


def test_pairs_of_two_are_answered_or_refused_with_a_reason(panel):
    panel.look_at(VIEWS[1])
    for n, corner in enumerate(CORNERS[::2]):
        first, second = PAIRS[n % len(PAIRS)]
        values = {**corner, "outcome": OUTCOMES[n % len(OUTCOMES)], "first": first, "second": second}
        panel.set(**values)
        assert bytes(panel.static().png).startswith(b"\x89PNG")
        if hangs_in_the_leash(values):
            assert "hangs in the leash" in panel.words
        elif "pretension" in (first, second) and values["pretension"] >= 3.0:
            assert "pretension is only set again to what was planned, 3.0 kN" in panel.words
        else:
            assert not panel.figure.reason.get_visible(), panel.words
            assert f"{first.capitalize()} with {second}: " in panel.words
            assert "It approves nothing." in panel.words
            assert all(word not in panel.words.lower() for word in NEVER_SAID)
            assert panel.boundary.outcome.shape == (13, 13)
    panel.set(**{**START, "first": "span", "second": "span"})
    assert "second = 'span' is not possible; allowed: another choice than the first" in panel.words
    panel.look_at(VIEWS[0]).set(**START)


def test_rows_are_what_was_found(panel):
    panel.look_at(VIEWS[0]).set(**START)
    bars = panel.figure.bars
    names = [word.text for word in bars.names]
    assert names[:6] == [
        "leash length [m]",
        "standing height [m]",
        "walker's mass [kg]",
        "span [m]",
        "insert length [m]",
        "pretension [kN]",
    ]
    kept = {one.knob.name: one for one in panel.found.kept}
    (insert,) = kept["insert length"].found
    (x,) = [v for v, y in zip(*bars.marks.get_data(), strict=True) if y == bars.places[4]]
    assert (x - TRACK[0]) / (TRACK[1] - TRACK[0]) == pytest.approx(insert.value / 15.0)
    assert bars.labels[12].text == f"{insert.value:.2f}"
    wanted = [insert.outcomes[name] for name in ("peak at A", "person", "lowest tie-in", RESERVE)]
    shown = [float(w.text) * scale for w, scale in zip(bars.costs[16:20], (1e3, 1e3, 1.0, 1.0), strict=True)]
    assert shown == pytest.approx(wanted, abs=50.0)
    assert bars.notes[5].text == "no value of this alone does"
    within = np.array(bars.within.get_data()).T
    row = within[within[:, 1] == bars.places[4]][:, 0]
    assert row == pytest.approx([x, TRACK[1]])


def test_the_value_found_meets_the_limit_in_a_fall_alone(panel):
    panel.look_at(VIEWS[0]).set(**START)
    knobs = {k.name: k for k in case_knobs(now=case_rig(numbers=RIGGED))}
    for one in panel.found.kept:
        for there in one.found:
            case = knobs[one.knob.name].on(case_rig(numbers=RIGGED), there.value)
            assert fall(setup=case.setup).peak_tension_b == pytest.approx(0.6 * 0.55 * 0.75 * 35e3, rel=1e-3)


def test_the_map_shows_each_fall_on_its_side_and_now_and_planned(panel):
    panel.look_at(VIEWS[1]).set(**{**START, "outcome": "peak at A", "first": "walker's mass", "second": "insert length"})
    plot, both = panel.figure.map, panel.boundary
    kept, beyond = (np.array(line.get_data()).T for line in (plot.kept, plot.not_kept))
    assert len(kept) + len(beyond) == 169
    assert len(kept) == int((both.outcome <= 9e3).sum()) > 0
    assert (plot.now.get_xdata()[0], plot.now.get_ydata()[0]) == (95.0, 0.0)
    assert (plot.planned.get_xdata()[0], plot.planned.get_ydata()[0]) == (75.0, 8.0)
    x, y = plot.line.get_data()
    assert np.isfinite(x).sum() == 2 * len(both.pieces) > 0
    assert np.nanmin(x) >= 40.0
    assert np.nanmax(y) <= 15.0
    curves = panel.figure.curves
    assert curves.limit.get_ydata() == [9.0, 9.0]
    assert curves.dots[0].get_ydata()[0] == pytest.approx(panel.found.now["peak at A"] / 1e3)
    panel.look_at(VIEWS[0]).set(**START)


def test_forces_are_drawn_in_kilonewtons(panel):
    panel.look_at(VIEWS[1]).set(**{**START, "first": "pretension", "second": "leash length"})
    assert panel.figure.map.now.get_xdata()[0] == pytest.approx(2.2)
    assert panel.figure.curves.name == "pretension [kN]"
    panel.look_at(VIEWS[0]).set(**START)


@pytest.mark.parametrize("name", [c.name for c in SLIDERS])
def test_every_slider_moves_the_readings(panel, name):
    slider = next(c for c in SLIDERS if c.name == name)
    ends = [max(slider.low, 1.4) if name == "leash_length" else slider.low, slider.high]
    now = [panel.set(**{**START, name: min(end, 1.6) if name == "standing_height" else end}).found.now for end in ends]
    assert now[0][LOCK] != now[1][LOCK]
    panel.set(**START)


def test_limits_are_entered_kept_for_each_outcome_and_taken_away():
    one = KeepingPanel()
    assert "your limit 0.80" in one.limit(0.8).figure.bars.title.text
    one.set(outcome="person")
    assert one.entered.value == ""
    assert one.entered.description == "your limit [kN]"
    one.limit(3.0)
    assert one.found.limit == 3000.0
    one.set(outcome=LOCK)
    assert one.entered.value == "0.8"
    assert one.found.limit == 0.8
    one.set(outcome="lowest tie-in")
    one.entered.value = "6,2"
    assert one.found.limit == 6.2
    one.entered.value = "deep"
    assert one.found.limit is None
    assert one.limit(None).found.limit is None
    with pytest.raises(ValueError, match=r"limit = 0.0 is not possible; allowed: a number from 0.001 to 1000"):
        one.limit(0)


def test_text_names_what_it_costs_and_what_is_not_offered(panel):
    panel.set(**START)
    text = panel.text()
    assert text.startswith("Load over strength, lock at B, now 0.98; your limit 0.60.")
    assert "pretension: no value of this alone does" in text
    assert "Re-tensioning can raise the number at the anchor." in text
    assert "Slip, added sag and lower tension are not offered." in text
    assert all(f"\n{name}: " in text for name in KNOBS)


@pytest.mark.parametrize(
    "changes, note",
    [
        ({"within": ()}, "no value of this alone does"),
        ({"within": ((1.4, 3.0),)}, "every value does"),
        ({"within": ((1.4, 2.0),), "unknown": ((2.0, 3.0),)}, "every value with an answer does"),
        ({"within": ((1.4, 2.0),), "jumps": (2.0,)}, "jumps across the limit"),
    ],
)
def test_a_row_without_a_value_says_why(changes, note):
    knob = next(iter(case_knobs(now=case_rig(numbers=RIGGED))))
    over = np.array([1.4, 3.0])
    crossed = Crossings(**{"limit": 1.0, "over": over, "outcome": over, "values": (), "jumps": (), "unknown": (), **changes})
    row = row_of(Kept(knob=knob, over=over, curves={}, crossings=crossed, found=()), RIGGED)
    assert row.note == note
    assert row.now == pytest.approx(0.5)
    assert [len(row.marks), len(row.costs)] == [0, 0]
    assert len(row.within) == len(changes["within"])


def test_now_is_the_rig(panel):
    assert [now_of(name, RIGGED) for name in KNOBS] == [2.2, 1.4, 95.0, 62.0, 0.0, 2200.0]
    panel.set(**START)
    strip = panel.words.splitlines()[0]
    assert strip.startswith("load over strength, now: 0.98; your limit: 0.60; person, now: 4.3 kN; lowest tie-in, now: 6.6 m")
    assert all(name in OUTCOMES for name in DEMANDS)


def test_the_choices_of_the_map_are_grey_where_there_is_no_map(panel):
    panel.look_at(VIEWS[0])
    assert panel.frame.inputs["first"].disabled
    assert panel.frame.inputs["second"].disabled
    panel.look_at(VIEWS[1])
    assert not panel.frame.inputs["first"].disabled
    panel.look_at(VIEWS[0])


def test_no_control_offers_slip_or_sag():
    words = [c.words + c.name for c in CONTROLS] + [o for c in CONTROLS if not isinstance(c, Slider) for o in c.options]
    assert all(word not in " ".join(words).lower() for word in ("slip", "sag", "slack"))
