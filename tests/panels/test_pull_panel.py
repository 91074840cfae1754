"""The panel of the lesson on pull: every corner of its sliders, the triangle at the ring, and the readings against `hang`."""

from __future__ import annotations

import math
from dataclasses import astuple

import numpy as np
import pytest

from linelib.figures.pull_figure import VIEWS
from linelib.models.sag import hang
from linelib.models.weightless_v import weightless_v
from linelib.panels.controls import Choice, Slider, corners, starts
from linelib.panels.pull_panel import PullPanel
from linelib.panels.pull_settings import load_of, pull_controls, pulls_of, readings_of, setup_of, v_pull
from linelib.tables import webbings
from tests.setups import GRAVITY

TABLE = webbings()
CONTROLS = pull_controls(TABLE)
CORNERS = corners(CONTROLS)
MATERIALS = next(c for c in CONTROLS if isinstance(c, Choice)).options.values()
SLIDERS = [c for c in CONTROLS if isinstance(c, Slider)]


def made(values):
    return setup_of(values, CONTROLS, TABLE)


def at_corners(material):
    return [made(values) for values in CORNERS if values["material"] == material]


@pytest.fixture(scope="module")
def panel():
    return PullPanel()


def test_corners_are_all_there() -> None:
    assert len(CORNERS) == 2 ** len(SLIDERS) * len(TABLE)
    assert list(MATERIALS) == list(TABLE)


@pytest.mark.parametrize("material", MATERIALS)
def test_every_corner_has_readings_and_forces_that_add_up(material) -> None:
    for setup in at_corners(material):
        pulls = pulls_of([setup])
        readings = readings_of(setup, pulls)
        numbers = astuple(readings)[:-1]
        assert all(math.isfinite(n) for n in numbers)
        assert readings.sag > 0.0
        assert len(readings.strip) == 4
        assert "nan" not in " ".join(str(part) for part in readings.strip) + readings.sentence
        rig, weight = setup.rig, (setup.walker.mass + setup.leash.ring_mass) * GRAVITY
        # the two sides carry what hangs on the ring, and the anchors carry that and the line's own weight
        assert pulls.lift_a[0] + pulls.lift_b[0] == pytest.approx(weight, rel=1e-9)
        state = hang(rig=rig, load=weight, position=setup.walker.position)
        own = sum(s.webbing.mass_per_length * n for s, n in zip(rig.segments, state.natural_lengths, strict=True))
        line = (own + rig.hung_mass * rig.span) * GRAVITY
        down = readings.anchor_a * math.sin(readings.angle_a) + readings.anchor_b * math.sin(readings.angle_b)
        assert down == pytest.approx(weight + line, rel=5e-5)  # the hung weight is spread in two rounds
        level_a = readings.anchor_a * math.cos(readings.angle_a)
        assert level_a == pytest.approx(readings.anchor_b * math.cos(readings.angle_b), rel=1e-9)


@pytest.mark.parametrize("material", ["hmpe_25mm", "polyamide_tubular_25mm"])
def test_readings_are_those_of_hang(material) -> None:
    for setup in at_corners(material):
        state = hang(rig=setup.rig, load=load_of(setup), position=setup.walker.position)
        found = readings_of(setup, pulls_of([setup]))
        wanted = (state.tension_a, state.tension_b, state.angle_a, state.angle_b, load_of(setup), state.sag)
        assert astuple(found)[:-1] == pytest.approx(wanted, rel=1e-7, abs=1e-9)


@pytest.mark.parametrize("material", ["hmpe_25mm", "polyamide_tubular_25mm"])
def test_pulls_at_the_ring_point_along_the_sides(material) -> None:
    for setup in at_corners(material):
        pulls, height = pulls_of([setup]), setup.rig.height_difference
        x, z = pulls.line.x, pulls.line.z
        ring = int(np.argmin(np.abs(x - pulls.ring_x[0])))
        assert height * x[ring] / setup.rig.span - z[ring] == pytest.approx(pulls.sag[0], abs=1e-6)
        # over a short piece the line is a parabola: its slope at the end from the last three points
        for lift, way in ((pulls.lift_a[0], -1), (pulls.lift_b[0], 1)):
            dx, dz = (np.array([v[ring + way] - v[ring], v[ring + 2 * way] - v[ring]]) for v in (x, z))
            first, second = dz / np.abs(dx)
            slope = first + (first - second) * dx[0] / (dx[1] - dx[0])
            assert slope == pytest.approx(lift / pulls.horizontal[0], abs=2e-3 * abs(first) + 1e-5)


def test_mirrored_rig_gives_mirrored_readings() -> None:
    plain = {**starts(CONTROLS), "position": 30.0, "height_difference": 4.0}
    one = made(plain)
    two = made({**plain, "position": 70.0, "height_difference": -4.0})
    a, b = pulls_of([one]), pulls_of([two])
    for left, right in (("tension_a", "tension_b"), ("angle_a", "angle_b"), ("lift_a", "lift_b")):
        assert getattr(a, left) == pytest.approx(getattr(b, right), rel=1e-9)
        assert getattr(a, right) == pytest.approx(getattr(b, left), rel=1e-9)
    assert a.sag == pytest.approx(b.sag, rel=1e-9)
    assert a.tension_a != pytest.approx(a.tension_b, rel=1e-3)
    assert a.line.z[::-1] - 4.0 == pytest.approx(b.line.z, abs=1e-7)


def test_v_is_the_blackboard_one_and_less_than_the_exact_line() -> None:
    setup = made(starts(CONTROLS))
    pulls = pulls_of([setup])
    sag = float(pulls.sag[0])
    by_hand = 80.4 * GRAVITY * 100.0 / (4.0 * sag)  # W S / (4 sag)
    v = v_pull(setup, sag=sag, ring_x=50.0)
    assert v == pytest.approx(by_hand / math.cos(math.atan2(sag, 50.0)), rel=1e-12)
    assert v == pytest.approx(weightless_v(load=load_of(setup), span=100.0, sag=sag).tension_a, rel=1e-12)
    assert 0.9 * pulls.tension_a[0] < v < pulls.tension_a[0]


def test_v_on_anchors_of_different_height_is_a_line_without_weight() -> None:
    values = {**starts(CONTROLS), "height_difference": 10.0, "position": 25.0}
    setup = made(values)
    sag = 2.0
    pull = v_pull(setup, sag=sag, ring_x=25.0)
    ring = np.array([25.0, 10.0 * 0.25 - sag])
    to_a, to_b = -ring, np.array([100.0, 10.0]) - ring
    to_a, to_b = to_a / np.hypot(*to_a), to_b / np.hypot(*to_b)
    forces = np.linalg.solve(np.column_stack([to_a, to_b]), [0.0, load_of(setup)])
    assert pull == pytest.approx(forces[0], rel=1e-12)
    nearer = v_pull(setup, sag=sag, ring_x=20.0)  # a ring that hangs elsewhere than the walker's share of the span
    level = load_of(setup) * 100.0 * 0.2 * 0.8 / sag
    assert nearer == pytest.approx(level * math.hypot(1.0, sag / 20.0 - 0.1), rel=1e-12)


def test_nobody_on_it_hangs_as_hang_says_and_words_in_the_middle() -> None:
    setup = made({**starts(CONTROLS), "height_difference": 6.0})
    alone = pulls_of([setup]).alone
    below = 6.0 * alone.x / 100.0 - alone.z
    assert below.max() == pytest.approx(hang(rig=setup.rig).sag, rel=2e-3)
    level = made(starts(CONTROLS))
    pulls = pulls_of([level])
    times = float(pulls.tension_a[0]) / load_of(level)
    assert f"kN, {times:.1f} times as much" in readings_of(level, pulls).sentence


def test_words_close_to_an_anchor_are_those_of_the_steeper_side() -> None:
    """Pulls of both sides in kN, their slopes at the ring, and the larger pull over the load."""
    setup = made({**starts(CONTROLS), "position": 5.0, "pretension": 1.0})
    pulls = pulls_of([setup])
    pull_a, pull_b = float(pulls.tension_a[0]), float(pulls.tension_b[0])
    assert pull_a > 1.05 * pull_b
    rise = [math.degrees(math.atan(float(lift[0] / pulls.horizontal[0]))) for lift in (pulls.lift_a, pulls.lift_b)]
    words = readings_of(setup, pulls).sentence
    assert words.startswith(f"A rises {rise[0]:.1f}°, B {'rises' if rise[1] > 0.0 else 'falls'} {abs(rise[1]):.1f}°: to lift ")
    assert f"they pull {pull_a / 1e3:.1f} and {pull_b / 1e3:.1f} kN, up to {pull_a / load_of(setup):.1f} times as much" in words


def test_sweep_falls_with_sag(panel) -> None:
    panel.look_at(VIEWS[1]).set(**starts(CONTROLS))
    order = np.argsort(panel.pulls.sag[1:]) + 1
    assert np.all(np.diff(panel.pulls.tension_a[order]) < 0.0)
    for pretension, pull in ((1.0, panel.pulls.tension_a[1]), (10.0, panel.pulls.tension_a[-1])):
        assert panel.readings(pretension=pretension).anchor_a == pytest.approx(pull, rel=1e-9)


@pytest.mark.parametrize("view", VIEWS)
def test_every_slider_moves_readings_and_picture(panel, view) -> None:
    panel.look_at(view)
    for control in CONTROLS:
        ends = (control.low, control.high) if isinstance(control, Slider) else list(control.options.values())[:2]
        seen = []
        for end in ends:
            panel.set(**{**starts(CONTROLS), control.name: end})
            seen.append((panel.frame.readings.value, panel.frame.sentence.value, bytes(panel.static().png)))
        for one, other in zip(*seen, strict=True):
            assert one != other, control.name


@pytest.mark.parametrize("view", VIEWS)
def test_every_corner_can_be_drawn(panel, view) -> None:
    panel.look_at(view)
    for values in CORNERS:
        if values["material"] == "polyamide_25mm":
            panel.set(**values)
            assert not panel.figure.reason.get_visible(), panel.words
            assert bytes(panel.static().png).startswith(b"\x89PNG")


def test_views_and_guess_change_the_picture(panel) -> None:
    panel.guess = None
    pictures = [bytes(panel.look_at(view).set(**starts(CONTROLS)).static().png) for view in VIEWS]
    pictures += [bytes(panel.look_at(view).predict(0.8).static().png) for view in VIEWS]
    assert len(set(pictures)) == 4


def test_triangle_closes_in_the_picture(panel) -> None:
    panel.look_at(VIEWS[0])
    for values in CORNERS[:: len(TABLE)]:
        panel.set(**values)
        shafts = [np.array(shaft.get_data()) for shaft, _ in panel.figure.triangle.arrows]  # A, B, weight
        assert sum(s[:, 1] - s[:, 0] for s in shafts) == pytest.approx(np.zeros(2), abs=1e-9)
        left, right = panel.figure.triangle.axes.get_xlim()
        low, high = panel.figure.triangle.axes.get_ylim()
        for s in shafts:
            assert left <= s[0].min()
            assert s[0].max() <= right
            assert low <= s[1].min()
            assert s[1].max() <= high


def test_refusals_say_why_and_the_next_move_recovers(panel) -> None:
    with pytest.raises(ValueError, match=r"length = 999.0 .* 40 to 200 m"):
        panel.set(length=999)
    with pytest.raises(ValueError, match="one of forces at the ring, pull against sag"):
        panel.look_at("elsewhere")
    with pytest.raises(ValueError, match="kilonewton"):
        panel.predict(-1.0)
    light = panel.values["pretension"]
    panel.values["pretension"] = 0.01  # 10 N: as if a slider went that far
    panel.update()
    assert panel.words.startswith("This cannot be rigged or walked. pretension = 10.0 is not possible; allowed: at least")
    assert panel.figure.reason.get_visible()
    panel.set(pretension=light)
    assert not panel.figure.reason.get_visible()
    assert "pull at A" in panel.words


def test_less_pull_is_never_said_without_its_cost(panel) -> None:
    for values in CORNERS[:: len(TABLE)]:
        assert "but drops deeper, and promises no softer catch" in panel.readings(**values).sentence
