"""Lesson 6, a fast pull: the standard linear solid, a spring beside a spring and dashpot in a row.

Source: textbook results of the Zener solid: Zener (1948), Elasticity and Anelasticity of Metals; Nowick & Berry (1972),
Anelastic Relaxation in Crystalline Solids, chapter 3; Lakes (2009), Viscoelastic Materials. Status: from memory; the complex
modulus of the two springs and the dashpot, written again below, reproduces each.
With stiffness Er when slow, Eu at once, D = (Eu - Er) / Er, time t at constant strain: the loss factor is at most
D / (2 sqrt(1 + D)), at omega t = 1 / sqrt(1 + D) (D = 1: 0.35355 at 0.70711), where the storage modulus is the harmonic mean
of Er and Eu; at constant load the time is longer, t Eu / Er.
Not said: that webbing is such a solid, or which t it has. Relaxation takes many times at once in any textile.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import minimize_scalar

from linelib.models.loss_loop import loss_loop, storage_and_loss, strain_of_pull
from linelib.models.stretch import relaxed_tension
from tests.setups import straight

SLOW, TIME = 80e3, 0.5  # N, s
RATIOS = [(1.8, 0.298142), (2.0, 0.353553), (2.6, 0.496139), (5.0, 0.894427)]  # Eu / Er, greatest loss factor
every_ratio = pytest.mark.parametrize("ratio, published", RATIOS)


def webbing(ratio):
    return straight(SLOW, fast_ratio=ratio, relaxation_time=TIME)


def modulus(ratio, omega):
    """Spring beside a Maxwell arm: strain rates of spring and dashpot in the arm add up, tensions of both branches do."""
    spring, dashpot = (ratio - 1.0) * SLOW, 1j * omega * TIME * (ratio - 1.0) * SLOW
    return SLOW + 1.0 / (1.0 / spring + 1.0 / dashpot)


def factor_of_loop(ratio, omega):
    """Loss factor read off the ellipse as in a laboratory: its half height at mean strain, over half of its whole height."""
    loop = loss_loop(webbing=webbing(ratio), low=0.05, high=0.06, period=2.0 * np.pi / omega)
    quarter = (len(loop.tension) - 1) // 4
    return np.tan(np.arcsin((loop.tension[quarter] - loop.tension[3 * quarter]) / np.ptp(refined(loop.tension))))


def refined(tension):
    """The same ellipse at 16 times as many points: its top lies between two samples."""
    bins = np.fft.rfft(tension[:-1])
    return np.fft.irfft(np.pad(bins, (0, 15 * (len(tension) - 1) // 2)), 16 * (len(tension) - 1)) * 16.0


@every_ratio
def test_greatest_loss_factor(ratio, published):
    """Found by search over the pace, from the loop, from the closed form and from the two springs; 1e-5 is the reading."""
    calls = {
        "loop": lambda x: factor_of_loop(ratio, np.exp(x)),
        "closed": lambda x: np.divide(*closed(ratio, np.exp(x))[::-1]),
        "springs": lambda x: modulus(ratio, np.exp(x)).imag / modulus(ratio, np.exp(x)).real,
    }
    for name, factor in calls.items():
        found = minimize_scalar(lambda x, of=factor: -of(x), bounds=(-3.0, 3.0), method="bounded", options={"xatol": 1e-6})
        assert -found.fun == pytest.approx(published, abs=1e-5), name
        assert np.exp(found.x) * TIME == pytest.approx(1.0 / np.sqrt(ratio), rel=1e-2), name  # a flat top: 1 % of pace


def closed(ratio, omega):
    return storage_and_loss(stiffness=SLOW, fast_ratio=ratio, relaxation_time=TIME, period=2.0 * np.pi / omega)


@every_ratio
def test_storage_modulus_at_the_greatest_loss(ratio, published):
    """The harmonic mean, 2 Er Eu / (Er + Eu); and loss over storage there is the published factor. Exact but for printing."""
    omega = 1.0 / np.sqrt(ratio) / TIME
    storage, loss = closed(ratio, omega)
    assert storage == pytest.approx(2.0 * SLOW * ratio / (1.0 + ratio), rel=1e-12)
    assert loss / storage == pytest.approx(published, abs=1e-6)
    assert complex(storage, loss) == pytest.approx(modulus(ratio, omega), rel=1e-12)


@every_ratio
def test_creep_is_slower_than_relaxation_by_the_ratio(ratio, published):
    """Under a load put on at once strain goes from 1 / Eu to 1 / Er with t Eu / Er; held there, tension fades with t. Both
    times from a line through the logarithm; the step takes a nanosecond, 1e-6 is rounding."""
    time = np.append([0.0, 1e-9], np.linspace(0.01, 2.0, 200))
    step, late = np.where(time > 0.0, 1.0, 0.0), slice(1, None)
    creep = strain_of_pull(webbing=webbing(ratio), tension=1e3 + 1e3 * step, time=time)[late] - 1e3 / SLOW
    tension = relaxed_tension(webbing=webbing(ratio), strain=0.05 + 0.01 * step, time=time)[0][late] - 0.05 * SLOW
    assert (creep[0], tension[0]) == pytest.approx((1e3 / SLOW / ratio, 0.01 * SLOW * ratio), rel=1e-6)
    slopes = [np.polyfit(time[late], np.log(gap), 1)[0] for gap in (1e3 / SLOW - creep, tension - 0.01 * SLOW)]
    assert [-1.0 / slope for slope in slopes] == pytest.approx([TIME * ratio, TIME], rel=1e-6)
