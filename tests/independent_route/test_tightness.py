"""Uncertainties against many noisy readings; travel time of a pulse against quadrature and against strings in time."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.linalg import eigh_tridiagonal

from linelib.models.march import march
from linelib.models.pluck import pluck
from linelib.models.tightness import tension_from_round_trips, tension_from_sag
from linelib.rigging import Rig, Segment
from linelib.studies.lesson_rig import lesson_setup
from tests.moving_string import ALONE, nobody, string_at_rest
from tests.setups import GRAVITY, one_webbing, straight

MANY = 200_000


def noisy(rng, value, error):
    return value + error * rng.standard_normal(MANY)


@pytest.mark.parametrize("line_weight", [0.0, 1.1])
def test_sag_read_many_times(line_weight):
    """Errors of a few percent: second-order terms and the chance of 200 000 draws stay under 1 % of the uncertainty."""
    rng = np.random.default_rng(2)
    load, length, sag = noisy(rng, 785.0, 16.0), noisy(rng, 100.0, 1.0), noisy(rng, 3.7, 0.08)
    drawn = (load * length / 4.0 + line_weight * length**2 / 8.0) / sag
    errors = {"load_error": 16.0, "length_error": 1.0, "sag_error": 0.08}
    found = tension_from_sag(load=785.0, length=100.0, sag=3.7, line_weight=line_weight, **errors)
    assert found.uncertainty == pytest.approx(drawn.std(), rel=0.01)
    assert found.tension == pytest.approx(drawn.mean(), rel=2e-3)


def test_round_trips_timed_many_times():
    """Start and stop pressed wrongly on their own; a delay both share makes no difference."""
    rng = np.random.default_rng(3)
    delay = noisy(rng, 0.2, 0.1)  # common to both
    start, stop = delay + noisy(rng, 0.0, 0.05), delay + 6 * 1.223 + noisy(rng, 0.0, 0.05)
    mass, length = noisy(rng, 0.1125, 0.0034), noisy(rng, 100.0, 0.5)
    drawn = mass * (2.0 * length * 6 / (stop - start)) ** 2
    errors = {"stopwatch_error": 0.05, "mass_error": 0.0034, "length_error": 0.5}
    found = tension_from_round_trips(time=6 * 1.223, trips=6, length=100.0, mass_per_length=0.1125, **errors)
    assert found.uncertainty == pytest.approx(drawn.std(), rel=0.01)


@pytest.mark.parametrize("share", [0.005, 0.03])
def test_slopes_are_those_of_the_formula(share):
    """Each error alone moves the answer by as much as the formula does when that reading is changed: central differences."""
    plain = {"time": 7.3, "trips": 6, "length": 100.0, "mass_per_length": 0.1125}
    for name, error in (("time", "stopwatch_error"), ("mass_per_length", "mass_error"), ("length", "length_error")):
        up, down = (tension_from_round_trips(**{**plain, name: plain[name] * (1.0 + s * share)}).tension for s in (1.0, -1.0))
        presses = 2.0**0.5 if name == "time" else 1.0
        found = tension_from_round_trips(**plain, **{error: plain[name] * share / presses})
        assert found.uncertainty == pytest.approx(0.5 * abs(up - down), rel=5 * share**2)


@pytest.mark.parametrize("pull, steep", [(400.0, 0.0), (400.0, 0.3), (3000.0, 0.1)])
def test_travel_time_on_a_catenary(pull, steep):
    """Webbing that hardly stretches hangs as a catenary, z = a cosh(x / a), a = H / w, T = H cosh: the integral of ds / c is
    sqrt(mu / H) times that of sqrt(cosh(x / a)). At 400 N it sags by 3 m in 100."""
    web, rise = straight(1e9, 0.1), steep * 100.0
    a = pull / (0.1 * GRAVITY)
    middle = a * np.arcsinh(rise / (2.0 * a * np.sinh(50.0 / a)))  # where halfway lies, from the lowest point
    area = quad(lambda x: np.cosh(x / a) ** 0.5, middle - 50.0, middle + 50.0)[0]
    found = pluck(rig=one_webbing(web, pretension=pull, height_difference=rise))
    assert found.round_trip == pytest.approx(2.0 * (0.1 / pull) ** 0.5 * area, rel=1e-5)


def test_soft_insert_and_main_webbing_each_take_their_time():
    """Taut enough to be straight: each webbing's stretched length over its own wave speed, by hand."""
    soft, hard, pull = straight(7e4, 0.07), straight(1e6, 0.05), 2e4
    rig = Rig(span=100.0, segments=(Segment(webbing=soft, length=10.0), Segment(webbing=hard)), pretension=pull)
    first, strain = 10.0 * (1.0 + pull / 7e4), pull / 1e6
    by_hand = 2.0 * first * (0.07 / (1.0 + pull / 7e4) / pull) ** 0.5
    by_hand += 2.0 * (100.0 - first) * (0.05 / (1.0 + strain) / pull) ** 0.5
    assert pluck(rig=rig).round_trip == pytest.approx(by_hand, rel=1e-5)


@pytest.mark.parametrize("pull", [1500.0, 4000.0])
def test_pulse_in_time_on_a_sagging_line(pull):
    """A bump beside A is let go on linelib's chain, which stretches as it moves; after one round trip the same bump is there
    again. Looked for by comparing every later shape with the first. 1 %: a bump over a few lumps runs a little slow."""
    span, elements, web = 60.0, 160, straight(1e6, 0.114, loss_time=0.0)
    chain = string_at_rest(web, span=span, pull=pull, elements=elements)
    x = np.linspace(0.0, span, elements + 1)[:, None]
    bump = 0.002 * np.exp(-(((x - 0.2 * span) / (0.05 * span)) ** 2))
    bump[[0, -1]] = 0.0
    run = march(chain=replace(chain, z=chain.z + bump), setups=[nobody(web)], duration=ALONE)
    alike = (run.places[:, : elements + 1, 0] - chain.z[:, 0]) @ bump[:, 0]
    expected = pluck(rig=one_webbing(web, span=span, pretension=pull)).round_trip
    time = chain.step[0] * (1 + np.arange(len(alike)))
    later = (time > 0.5 * expected) & (time < 1.3 * expected)
    assert expected < ALONE / 1.3
    assert time[later][np.argmax(alike[later])] == pytest.approx(expected, rel=0.01)


def swings(rig, per_bay):
    """Frequencies [Hz] and modes of the line alone as a stretched string at rest, its backup's mass sitting at the joints,
    half a bay on each side. Small sideways motion, tension as it is: K v = omega^2 M v."""
    shape, bays = pluck(rig=rig).shape, len(rig.backup.joints) + 1
    x = np.linspace(0.0, rig.span, per_bay * bays + 1)
    run, pull = x[1], np.interp(0.5 * (x[1:] + x[:-1]), shape.x, shape.tension)
    webbing = rig.segments[0].webbing.mass_per_length * shape.length[-1] / rig.span
    mass = np.full(len(x) - 2, webbing * run)
    mass[per_bay - 1 :: per_bay] += rig.hung_mass * rig.span / bays
    diagonal, beside = (pull[1:] + pull[:-1]) / run / mass, -pull[1:-1] / run / np.sqrt(mass[1:] * mass[:-1])
    squares, modes = eigh_tridiagonal(diagonal, beside)
    return np.sqrt(squares) / (2.0 * np.pi), modes, mass, x[1:-1]


@pytest.mark.parametrize("pretension", [1000.0, 3000.0, 10000.0])
def test_backup_at_its_joints_is_as_good_as_spread_for_slow_motion(pretension):
    """The slowest swing of a taut string takes one round trip. Mass at seven joints instead of evenly spread: within 1 %."""
    rig = lesson_setup(pretension=pretension).rig
    assert 1.0 / swings(rig, 20)[0][0] == pytest.approx(pluck(rig=rig).round_trip, rel=0.01)


@pytest.mark.parametrize(
    "wide, alike_at_least, late",  # half-width in bays, likeness, how late
    [(2.0, 0.97, (0.005, 0.02)), (1.0, 0.88, (0.03, 0.05)), (0.2, 0.0, (-0.5, 0.5))],
)
@pytest.mark.parametrize("length", [40.0, 100.0, 200.0])
def test_joints_delay_and_scatter_a_sharp_pulse(length, wide, alike_at_least, late):
    """What spreading the backup's mass evenly leaves out: modes of the string with that mass at the joints, added up in time.
    Two bays to each side: back almost as it was, 1 to 2 % late. One bay: 3 to 5 % late, so that the tension reads up to
    10 % low. A fifth of a bay: scattered, nothing like it comes back."""
    rig = lesson_setup(length=length).rig
    often, modes, mass, x = swings(rig, 20)
    pulse = np.exp(-(((x / length - 0.3) / (wide / 8.0)) ** 2)) * np.sin(np.pi * x / length)
    shares, expected = (modes.T @ (np.sqrt(mass) * pulse)) ** 2, pluck(rig=rig).round_trip
    time = np.linspace(0.6, 1.3, 700) * expected
    alike = (np.cos(2.0 * np.pi * np.outer(time, often)) @ shares) / shares.sum()
    best = int(np.argmax(alike))
    assert late[0] < time[best] / expected - 1.0 < late[1]
    assert alike[best] > alike_at_least
    if wide < 0.5:
        assert alike[best] < 0.5
