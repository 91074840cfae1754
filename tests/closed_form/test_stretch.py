"""Stretch laws against hand values, numerical integration, and the closed solutions of the standard linear solid."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import cumulative_trapezoid, quad, solve_ivp, trapezoid

from linelib.models.stretch import arm_energy, law_of, relaxed_tension
from linelib.tables import webbings
from linelib.webbing import Webbing

PLAIN = {"name": "made up", "mass_per_length": 0.05, "width": 0.025, "breaking_strength": 30e3}
STRAIGHT = Webbing(**PLAIN, stiffness=1e6, fast_ratio=1.8, relaxation_time=0.4)
CURVED = Webbing(**PLAIN, strain=(0.04, 0.09, 0.15), tension=(1e3, 4e3, 1e4), fast_ratio=2.0, relaxation_time=0.3)
WEBBINGS = {"straight": STRAIGHT, "curved": CURVED, **webbings()}
every_webbing = pytest.mark.parametrize("webbing", WEBBINGS.values(), ids=WEBBINGS.keys())


def test_straight_law_by_hand():
    """1e6 N under 5 kN: strain 0.005, 12.5 J in every metre; the same when pulled far beyond the first kilonewton."""
    law = law_of(STRAIGHT)
    assert law.strain(5e3) == pytest.approx(0.005, rel=1e-14)
    assert law.tension(0.005) == pytest.approx(5e3, rel=1e-13)
    assert law.energy(5e3) == pytest.approx(12.5, rel=1e-13)
    assert law.compliance([0.0, 500.0, 9e3]) == pytest.approx([1e-6] * 3, rel=1e-14)


@every_webbing
def test_a_table_is_met_row_by_row(webbing):
    if webbing.strain is None:
        webbing = Webbing(**PLAIN, strain=(0.0, 0.001, 0.002), tension=(0.0, 1e3, 2e3))
    law = law_of(webbing)
    assert law.strain(webbing.tension) == pytest.approx(webbing.strain, rel=1e-13)
    assert law.tension(webbing.strain) == pytest.approx(webbing.tension, rel=1e-12)
    beyond = webbing.strain[-1] + (webbing.strain[-1] - webbing.strain[-2])
    assert law.tension(beyond) == pytest.approx(2.0 * webbing.tension[-1] - webbing.tension[-2], rel=1e-12)


@every_webbing
def test_pressed_together_it_carries_exactly_nothing(webbing):
    law = law_of(webbing)
    assert np.all(law.tension([0.0, -1e-12, -0.3]) == 0.0)
    assert law.strain(0.0) == 0.0
    assert law.energy(0.0) == 0.0


@every_webbing
@settings(max_examples=25)
@given(tension=st.floats(1e-3, 60e3))
def test_strain_and_tension_are_inverse_of_each_other(webbing, tension):
    law = law_of(webbing)
    assert law.tension(law.strain(tension)) == pytest.approx(tension, rel=1e-9)


@every_webbing
def test_energy_is_the_integral_of_tension_over_strain(webbing):
    law = law_of(webbing)
    for pull in (0.4e3, 3.3e3, 12e3, 25e3):
        end = float(law.strain(pull))
        rows = [e for e in webbing.strain or () if 0.0 < e < end]
        area, _ = quad(lambda e: float(law.tension(e)), 0.0, end, points=rows or None, limit=200)
        assert law.energy(pull) == pytest.approx(area, rel=1e-7)


@every_webbing
def test_compliance_is_the_slope_of_strain_and_never_nothing(webbing):
    law = law_of(webbing)
    pull = np.linspace(10.0, 30e3, 777)
    slope = (law.strain(pull + 0.05) - law.strain(pull - 0.05)) / 0.1
    assert law.compliance(pull) == pytest.approx(slope, rel=1e-5)
    assert np.all(law.compliance(np.append(0.0, pull)) > 0.0)


@pytest.mark.parametrize("strain", [(0.05, 0.10, 0.105), (0.001, 0.010, 0.020)], ids=["stiffens", "softens"])
def test_a_table_with_a_sharp_bend_near_its_end_still_stretches(strain):
    """A bend of 3 to 1 or more makes the usual three-point end slope of the interpolant 0: no inverse beyond it."""
    law = law_of(Webbing(**PLAIN, strain=strain, tension=(1e3, 2e3, 3e3)))
    assert law.compliance([0.0, 3e3]) == pytest.approx([strain[0] / 1e3, (strain[2] - strain[1]) / 1e3])
    assert law.tension(strain[2] + 2.0 * (strain[2] - strain[1])) == pytest.approx(5e3)


def test_a_strain_that_is_no_number_is_not_called_slack():
    assert np.isnan(law_of(STRAIGHT).tension(np.nan))


@pytest.mark.parametrize("steps", [1, 7, 400])
def test_ramp_of_the_standard_linear_solid(steps):
    """T = EA v t + (r - 1) EA v tau (1 - exp(-t/tau)), exact for any number of steps: strain is straight in time."""
    speed, time = 0.02, np.linspace(0.0, 0.5, steps + 1)
    tension, _ = relaxed_tension(webbing=STRAIGHT, strain=speed * time, time=time)
    expected = 1e6 * speed * time + 0.8 * 1e6 * speed * 0.4 * -np.expm1(-time / 0.4)
    assert tension == pytest.approx(expected, rel=1e-12)


def test_a_sudden_pull_is_fast_ratio_times_as_stiff_and_fades():
    """Strain 0.005 in a microsecond, then held: 1.8 x 5 kN, and 5 kN (1 + 0.8 exp(-t/0.4 s)) from there."""
    time = np.concatenate([[0.0], 1e-6 + np.linspace(0.0, 4.0, 50)])
    tension, _ = relaxed_tension(webbing=STRAIGHT, strain=np.minimum(time / 1e-6, 1.0) * 0.005, time=time)
    assert tension[1:] == pytest.approx(5e3 * (1.0 + 0.8 * np.exp(-(time[1:] - 1e-6) / 0.4)), rel=2e-6)


@every_webbing
def test_any_webbing_pulled_at_once_and_very_slowly(webbing):
    """At once: fast ratio times the slow tension above the start. Over a million relaxation times: the slow tension."""
    law = law_of(webbing)
    strain = law.strain(np.linspace(0.0, 6e3, 40))
    for time_scale, ratio in ((1e-9, webbing.fast_ratio), (1e6, 1.0)):
        time = np.linspace(0.0, time_scale * webbing.relaxation_time, 40)
        tension, _ = relaxed_tension(webbing=webbing, strain=strain, time=time)
        assert tension == pytest.approx(ratio * law.tension(strain), rel=1e-4, abs=0.01)


def test_against_two_springs_and_a_dashpot_solved_on_their_own():
    """k1 beside (k2 and dashpot c in a row): c d' = k2 (e - d), T = k1 e + k2 (e - d), by an adaptive solver."""
    k1, k2 = 1e6, 0.8e6
    time = np.linspace(0.0, 2.0, 4001)

    def path(t):
        return 0.005 + 0.002 * np.sin(5.0 * t) + 0.0005 * np.sin(31.0 * t)

    dashpot = solve_ivp(lambda t, d: (path(t) - d) / 0.4, (0.0, 2.0), [path(0.0)], t_eval=time, rtol=1e-10, atol=1e-14)
    expected = k1 * path(time) + k2 * (path(time) - dashpot.y[0])
    tension, used_to = relaxed_tension(webbing=STRAIGHT, strain=path(time), time=time)
    assert expected.min() > 0.0
    assert tension == pytest.approx(expected, rel=2e-6)
    assert used_to == pytest.approx(k1 * dashpot.y[0], rel=2e-6)


def test_webbing_that_hardly_ever_relaxes_gets_used_to_nothing():
    """With a relaxation time of 1e9 s two seconds move `s` by at most 2e-9 of 4 kN."""
    slow = Webbing(**PLAIN, stiffness=1e6, fast_ratio=2.0, relaxation_time=1e9)
    time = np.linspace(0.0, 2.0, 2001)
    _, used_to = relaxed_tension(webbing=slow, strain=0.005 + 0.004 * np.sin(7.0 * time), time=time)
    assert np.abs(used_to - 5e3).max() < 8e-6


def test_arm_energy_by_hand():
    """(r - 1) EA (e - a)^2 / 2 = 0.8 x 1e6 x 0.002^2 / 2 = 1.6 J/m, whichever of the two is larger."""
    assert arm_energy(webbing=STRAIGHT, tension_slow=5e3, used_to=3e3) == pytest.approx(1.6, rel=1e-10)
    assert arm_energy(webbing=STRAIGHT, tension_slow=3e3, used_to=5e3) == pytest.approx(1.6, rel=1e-10)


@every_webbing
@settings(max_examples=25)
@given(now=st.floats(0.0, 20e3), base=st.floats(0.0, 20e3))
def test_arm_energy_is_never_negative(webbing, now, base):
    assert arm_energy(webbing=webbing, tension_slow=now, used_to=base) >= -1e-10  # rounding of differences of 1 kJ/m


def _random_path(webbing, seed):
    """Times and strains of a random smooth path between 3 and 9 kN of slow tension, which keeps every row taut."""
    random = np.random.default_rng(seed)
    time = np.linspace(0.0, 2.0, 2001)
    waves = sum(random.uniform(-1, 1) * np.sin(random.uniform(1, 12) * time + random.uniform(0, 6)) for _ in range(5))
    waves = (waves - waves.min()) / np.ptp(waves)
    return time, law_of(webbing).strain(6e3 + 3e3 * waves)


@every_webbing
@pytest.mark.parametrize("seed", [1, 2])
def test_work_is_what_is_stored_and_what_is_lost(webbing, seed):
    """Work done = change of slow energy + change of arm energy + (r - 1) * integral of (e - a) ds, never a gain."""
    law = law_of(webbing)
    time, strain = _random_path(webbing, seed)
    tension, used_to = relaxed_tension(webbing=webbing, strain=strain, time=time)
    assert tension.min() > 0.0
    work = cumulative_trapezoid(tension, strain, initial=0.0)
    slow = law.tension(strain)
    stored = law.energy(slow) + arm_energy(webbing=webbing, tension_slow=slow, used_to=used_to)
    gap = strain - law.strain(used_to)
    lost = (webbing.fast_ratio - 1.0) * cumulative_trapezoid(gap, used_to, initial=0.0)
    assert np.diff(lost).min() > -1e-9 * lost[-1]  # the webbing's own sign; rounding and turning points only
    assert lost[-1] > 0.001 * np.ptp(work)
    assert work == pytest.approx(stored - stored[0] + lost, abs=1e-5 * np.ptp(work))


def test_loss_is_what_the_dashpot_takes():
    """For a straight law the loss is the integral of c d'^2 with c = (r - 1) EA tau: an independent way to count it."""
    time, strain = _random_path(STRAIGHT, 4)
    _, used_to = relaxed_tension(webbing=STRAIGHT, strain=strain, time=time)
    gap = strain - used_to / 1e6
    assert 0.8 * trapezoid(gap, used_to) == pytest.approx(trapezoid(0.8e6 * 0.4 * (gap / 0.4) ** 2, time), rel=5e-5)


def test_loss_of_one_cycle():
    """A steady sine of amplitude b loses pi (r - 1) EA b^2 w tau / (1 + (w tau)^2) a cycle."""
    frequency, amplitude = 3.0, 0.002
    cycle = 2.0 * np.pi / frequency
    time = np.linspace(0.0, 6.0 * cycle, 6001)
    strain = 0.006 + amplitude * np.sin(frequency * time)
    tension, _ = relaxed_tension(webbing=STRAIGHT, strain=strain, time=time)
    last = time >= 5.0 * cycle - 1e-9
    x = frequency * 0.4
    expected = np.pi * 0.8e6 * amplitude**2 * x / (1.0 + x * x)
    assert trapezoid(tension[last], strain[last]) == pytest.approx(expected, rel=1e-4)


@pytest.mark.parametrize("time", [[0.0, 1.0], [0.0, 1.0, 1.0], [0.0, 2.0, 1.0]])
def test_time_that_does_not_fit_or_does_not_rise_is_refused(time):
    with pytest.raises(ValueError, match=r"time = .* allowed: rising, as many numbers as strain, \(3,\)"):
        relaxed_tension(webbing=STRAIGHT, strain=[0.0, 0.001, 0.002], time=time)
