"""The settled load cycle by another route: the rate-dependent law marched in time over many cycles, the area by trapezoids."""

from __future__ import annotations

import numpy as np
import pytest

from linelib.models.loss_loop import loss_loop, strain_of_pull
from linelib.models.stretch import arm_energy, law_of, relaxed_tension
from linelib.tables import webbings

TABLE = webbings()


@pytest.mark.parametrize("name", ["polyamide_25mm", "polyamide_tubular_25mm", "polyester_25mm", "hmpe_25mm"])
@pytest.mark.parametrize("period", [0.3, 1.2, 20.0])
def test_many_cycles_in_time_settle_to_the_loop(name, period):
    web, steps = TABLE[name], 1024
    low, high = (float(v) for v in law_of(web).strain([4e3, 6.5e3]))
    cycles = 2 + int(np.ceil(12.0 * web.relaxation_time / period))
    time = np.linspace(0.0, cycles * period, cycles * steps + 1)
    strain = 0.5 * (low + high) - 0.5 * (high - low) * np.cos(2.0 * np.pi * time / period)
    tension, used_to = relaxed_tension(webbing=web, strain=strain, time=time)
    last = slice(-steps - 1, None)
    loop = loss_loop(webbing=web, low=low, high=high, period=period)
    assert tension.min() > 0.0
    assert loop.tension == pytest.approx(tension[last][:: steps // 256], rel=1e-4)
    assert loop.lost == pytest.approx(np.trapezoid(tension[last], strain[last]), rel=2e-3)
    # what is lost is what flows through the dashpot: (r - 1) * integral of (e - a) ds, Ts(a) = s
    gap = strain[last] - law_of(web).strain(used_to[last])
    assert loop.lost == pytest.approx((web.fast_ratio - 1.0) * np.trapezoid(gap, used_to[last]), rel=2e-3)
    slow = law_of(web).tension(strain)
    held = arm_energy(webbing=web, tension_slow=slow[last][[0, -1]], used_to=used_to[last][[0, -1]])
    assert held[0] == pytest.approx(held[1], rel=1e-3, abs=1e-9)


@pytest.mark.parametrize("name", ["polyamide_25mm", "hmpe_25mm"])
def test_the_strain_of_a_pull_gives_that_pull_back(name):
    """There and back: strain from tension, then tension from strain by models/stretch.py."""
    web, time = TABLE[name], np.linspace(0.0, 2.0, 4001)
    pull = 4e3 - 3e3 * np.sin(np.pi * time) ** 2 + 3e3 * np.maximum(np.sin(2.0 * np.pi * (time - 0.5)), 0.0)
    strain = strain_of_pull(webbing=web, tension=pull, time=time)
    assert strain[0] == pytest.approx(float(law_of(web).strain(4e3)))
    back, _ = relaxed_tension(webbing=web, strain=strain, time=time)
    assert back == pytest.approx(pull, rel=1e-4)
    assert strain.max() < float(law_of(web).strain(pull.max()))  # pulled fast it gives less


def test_a_pull_that_is_no_path_is_refused():
    for time in ([0.0, 1.0], [0.0, 2.0, 1.0]):
        with pytest.raises(ValueError, match=r"time = .* is not possible; allowed: rising"):
            strain_of_pull(webbing=TABLE["hmpe_25mm"], tension=[1e3, 2e3, 3e3], time=time)
