"""Each leg of an equal pair carries half the pull times the printed sling-angle factor, at the angle under load.

Source: sling angle factors as printed in common rigging tables, angle from the horizontal. Status: read, and correct within
the printing: 60 degrees 1.155, 45 degrees 1.414, 30 degrees 2.000; 0.002 is allowed. A leg at b from the horizontal under a
hanging load is a leg at 90 - b from straight behind the pull.
"""

from __future__ import annotations

import numpy as np
import pytest

from linelib.models.anchor_legs import Leg, share_pull

PRINTED = [(60.0, 1.155), (45.0, 1.414), (30.0, 2.000)]
PULL = 9000.0


def pair(degrees, stiffness):
    half = np.radians(90.0 - degrees)
    return [Leg(angle=half, stiffness=stiffness), Leg(angle=-half, stiffness=stiffness)]


@pytest.mark.parametrize("degrees, factor", PRINTED)
@pytest.mark.parametrize("running", [False, True])
def test_stiff_pair(degrees, factor, running):
    found = share_pull(legs=pair(degrees, 1e9), pull=PULL, running=running)
    assert [t / (PULL / 2.0) for t in found.tensions] == pytest.approx([factor, factor], abs=0.002)


def test_webbing_gives_and_the_angle_under_load_is_smaller_than_rigged():
    found = share_pull(legs=pair(30.0, 250e3), pull=PULL)  # 120 degrees as rigged
    assert max(found.tensions) / (PULL / 2.0) < 0.95 * 2.0
    under_load = 90.0 - np.degrees(found.angles[0])
    assert found.tensions[0] / (PULL / 2.0) == pytest.approx(1.0 / np.sin(np.radians(under_load)), rel=1e-9)
