"""The loops of a backup as they are drawn: their depth by hand, their length by adding up, their joints on the line."""

from __future__ import annotations

import numpy as np
import pytest

from linelib import Backup
from linelib.models.backup_shape import POINTS, backup_shape
from tests.setups import HMPE


def test_depth_by_hand():
    """Two bays of 50 m with 1.5 m of extra length: sqrt(3 x 50 x 1.5 / 8) = 5.303 m under the straight line, in the middle."""
    backup = Backup(webbing=HMPE, joints=(0.5,), extra_length=1.5)
    x, z = backup_shape(backup=backup, line_x=np.array([0.0, 100.0]), line_z=np.zeros(2))
    assert z.min() == pytest.approx(-5.303, abs=5e-4)
    assert x[z < -5.3].tolist() == pytest.approx([25.0, 75.0])
    assert z[x == 50.0] == pytest.approx([0.0, 0.0], abs=1e-9)


def test_a_shallow_loop_is_longer_by_its_extra_length():
    """50 m and 0.1 m, level or 40 m across and 30 m up: straight down it hangs deeper there by 50 / 40, to be as long.
    A polygon of twelve parts is a little short of its parabola."""
    backup = Backup(webbing=HMPE, joints=(), extra_length=0.1)
    for across, up in ((50.0, 0.0), (40.0, 30.0)):
        x, z = backup_shape(backup=backup, line_x=np.array([0.0, across]), line_z=np.array([0.0, up]))
        assert len(x) == POINTS
        assert np.hypot(np.diff(x), np.diff(z)).sum() - 50.0 == pytest.approx(0.1, rel=0.03)
