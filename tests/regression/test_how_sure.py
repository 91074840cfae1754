"""Numbers of the panel of how sure we are as it starts, kept so that a change is seen. No validation."""

from __future__ import annotations

import pytest

from linelib.panels.how_sure_panel import HowSurePanel


def test_as_it_starts():
    panel = HowSurePanel()
    now = panel.readings(limit_of="anchor", limit=12.0)
    spreads = [now.found.spread(name) for name in ("anchor", "person", "lowest")]
    assert [s.median for s in spreads] == pytest.approx([11273.0, 3021.0, 5.20], rel=5e-3)
    assert [s.low for s in spreads] == pytest.approx([10626.0, 2816.0, 4.90], rel=5e-3)
    assert [s.high for s in spreads] == pytest.approx([11960.0, 3259.0, 5.47], rel=5e-3)
    assert now.share.share == pytest.approx(0.035, abs=0.01)
    assert now.one == pytest.approx(11313.0, rel=5e-3)


def test_its_ranking():
    found = {one.name: one.total for one in HowSurePanel().rank().ranking("anchor")}
    assert found["leash_length"] == pytest.approx(0.283, abs=0.02)
    assert found["pretension"] == pytest.approx(0.152, abs=0.02)
