"""The panel on what a crew can know: corners of its sliders, bars against the model, and words that let nobody go on."""

from __future__ import annotations

import math

import pytest

from linelib.models.sag import hang
from linelib.models.seated_strips import strips_of
from linelib.models.signs import Noticeable
from linelib.models.tear_signs import tear_signs
from linelib.models.tearing import remainder
from linelib.panels.controls import Slider, corners, starts
from linelib.panels.tear_signs_panel import TearSignsPanel
from linelib.panels.tear_signs_settings import known_of, tear_signs_controls
from linelib.studies.lesson_rig import lesson_setup
from linelib.tables import webbings
from tests.setups import GRAVITY

CONTROLS = tear_signs_controls(webbings())
START = starts(CONTROLS)
RIG = [c for c in CONTROLS if not c.name.startswith("see_")]
REASONS = ("tears through", "torn before any fall")
SEEN = [c for c in CONTROLS if c.name.startswith("see_")]


@pytest.fixture(scope="module")
def panel():
    return TearSignsPanel()


def test_every_corner_has_signs_or_a_reason(panel) -> None:
    reached = 0
    for values in [{**START, **v} for v in (*corners(RIG), *corners(SEEN))]:
        try:
            found = panel.readings(**values)
        except ValueError as error:
            if not any(reason in str(error) for reason in REASONS):
                raise
            continue
        reached += 1
        assert all(math.isfinite(s.change) and math.isfinite(s.times) for s in found.signs.each), values
        assert 0.5 < found.left.whole_share <= 1.0
        assert len(found.strip) == 4
        said = found.sentence.lower()
        assert "stop" in said
        assert not any(word in said for word in ("nan", "safe", "go on", "enough", "fine"))
        assert len(found.sentence) < 300
    assert reached > 300


def test_known_is_what_the_models_say() -> None:
    """A fifth of the width tight, the rest 5 mm longer: twelve strips of sixty and the others, typed out."""
    moved = {"torn": 20, "longer": 5, "sharing": 12, "length": 80, "mass": 90, "pretension": 2.5}
    known = known_of({**START, **moved}, CONTROLS, webbings())
    web, rig, load = webbings()["hmpe_25mm"], lesson_setup(length=80.0, pretension=2500.0).rig, 90.0 * GRAVITY
    longer = [0.0] * 12 + [5e-3] * 48
    strips = strips_of(webbing=web, difference=longer, sharing_length=0.12, stiffening=web.fast_ratio)
    on = hang(rig=rig, load=load)
    left = remainder(strips=strips, torn=12, tension=max(on.tension_a, on.tension_b))
    assert known.left.length_given_up == pytest.approx(left.length_given_up, rel=1e-6)
    assert (known.left.whole_share, known.share, known.strength) == (pytest.approx(0.8), 0.2, 35e3)
    assert known.tore_at == pytest.approx(strips.peak_pull[0], rel=1e-9)
    signs = tear_signs(rig=rig, length_given_up=left.length_given_up, load=load, noticeable=Noticeable())
    assert [s.after for s in known.signs.each] == pytest.approx([s.after for s in signs.each], rel=1e-9)
    assert [s.times for s in known.signs.each] == pytest.approx([s.times for s in signs.each], rel=1e-6)
    assert known.strip[3].number == f"{max(s.times for s in signs.each):.2f}"
    assert known.strip[2].number == f"{1.0 - left.strength_left / 35e3:.0%}".replace("%", " %")


@pytest.mark.parametrize("control", CONTROLS, ids=lambda c: c.name)
def test_every_slider_moves_the_picture(panel, control) -> None:
    ends = (control.low, control.high) if isinstance(control, Slider) else list(control.options.values())[-2:]
    pictures = [bytes(panel.set(**{**START, control.name: end}).static().png) for end in ends]
    assert pictures[0] != pictures[1]
    panel.set(**START)


def test_at_first_sight_a_third_is_gone_and_nothing_can_be_noticed(panel) -> None:
    panel.set(**START)
    assert panel.known.signs.noticeable == ()
    assert "none reaches 1, which proves nothing." in panel.words
    assert [bar.get_width() for bar in panel.figure.bars] == pytest.approx([s.times for s in panel.known.signs.each])
    assert panel.figure.big.get_text() == "70 %"
    assert len(panel.figure.ends.get_xdata()) == 6


def test_bars_stay_inside_and_a_pluck_is_never_asked_for(panel) -> None:
    panel.set(**{**START, "longer": 40, "see_length": 1})
    assert max(bar.get_width() for bar in panel.figure.bars) <= panel.figure.axes.get_xlim()[1]
    assert panel.words.count("pluck") == panel.words.count("pluck (which nobody may do)") == 1
    panel.set(**{**START, "see_time": 5})
    assert "only that could tell" in panel.words
    panel.set(**START)


def test_tearing_through_says_so_and_the_next_move_recovers(panel) -> None:
    panel.set(**{**START, "material": "polyamide_25mm"})
    assert panel.figure.reason.get_visible()
    assert panel.words.startswith("No signs can be shown here. The first strips tear at")
    assert "tears through" in panel.words
    panel.set(**START)
    assert not panel.figure.reason.get_visible()


def test_guess_is_a_dot_on_the_bar_of_the_sag(panel) -> None:
    panel.set(**START).predict(5)
    (x,), (y,) = panel.figure.dot.get_data()
    assert (x, y) == (pytest.approx(0.5), panel.figure.places[1])
    with pytest.raises(ValueError, match=r"centimetre = -1.0 is not possible"):
        panel.predict(-1)


def test_strength_lost_is_what_the_torn_width_had_and_nothing_reads_like_a_reserve(panel) -> None:
    panel.set(**{**START, "torn": 45})
    assert panel.known.lost == pytest.approx(0.45)
    assert panel.known.strip[2] == ("strength lost, at least", "45 %")
    assert not any(word in panel.words for word in ("holds at most", "left over", "reserve"))
    panel.set(**{**START, "torn": 0})
    assert panel.known.strip[2].number == "0 %"
    assert [word.text for word in panel.figure.words] == [
        f"no change, noticed from {limit}" for limit in ("5", "10", "0.3", "0.3", "50")
    ]
    panel.set(**START)


@pytest.mark.parametrize(("torn", "tears"), [(5, "1.8"), (10, "3.5"), (15, "5.2")])
def test_a_narrow_tight_part_tears_before_any_fall_and_the_panel_says_so(panel, torn, tears) -> None:
    panel.set(**{**START, "torn": torn})
    assert f"tears at {tears} kN, and the line pulls with 5.7 kN" in panel.words
    assert panel.figure.reason.get_visible()
    panel.set(**START)
    assert not panel.figure.reason.get_visible()


def test_signs_carry_their_sign_and_never_a_signed_nothing(panel) -> None:
    panel.set(**START)
    assert panel.figure.words[2].text == "−0.02 kN, noticed from 0.3"
    panel.set(**{**START, "material": "polyester_25mm"})
    assert panel.figure.words[2].text == "under 0.01 kN, noticed from 0.3"
    panel.set(**START)


def test_the_stroke_at_one_can_be_seen_on_a_filled_bar(panel) -> None:
    panel.set(**{**START, "longer": 40})
    figure = panel.figure
    assert [list(part) for part in figure.edge.get_data()] == [list(part) for part in figure.line.get_data()]
    assert figure.edge.get_color() == figure.canvas.roles.paper
    assert figure.edge.get_linewidth() >= figure.line.get_linewidth() + 4.0
    panel.set(**START)
