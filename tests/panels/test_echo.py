"""The page's sliders repeat what they are told with a rounding error: that is no move, and it undoes nothing."""

from __future__ import annotations

import pytest

from linelib.panels.echo import Echoes
from linelib.panels.tear_signs_panel import TearSignsPanel


@pytest.fixture
def panel() -> TearSignsPanel:
    shown = TearSignsPanel()
    shown._repr_mimebundle_()  # what a notebook asks for when it shows the panel
    return shown


def test_an_echo_that_comes_late_does_not_undo_what_code_has_set(panel) -> None:
    panel.set(torn=45)
    panel.frame.inputs["torn"].value = 29.999999999999996  # of the 30 it was shown with
    assert panel.values["torn"] == 45.0
    assert panel.frame.inputs["torn"].value == 45.0
    assert "width that carries: 55 %" in panel.words


def test_an_echo_is_not_the_slider_moved_last_and_computes_nothing(panel, monkeypatch) -> None:
    panel.set(longer=6)
    monkeypatch.setattr(panel, "compute", lambda: pytest.fail("computed for an echo"))
    for echo in (10.000000000000002, 9.999999999999998):  # as many as there are views
        panel.frame.inputs["sharing"].value = echo
    assert panel.last_moved == "longer"
    assert panel.values["sharing"] == 10.0


def test_a_move_is_a_move_even_back_and_carries_no_rounding(panel) -> None:
    panel.frame.inputs["torn"].value = 35.00000000000001
    assert (panel.values["torn"], panel.last_moved) == (35.0, "torn")
    panel.frame.inputs["torn"].value = 29.999999999999996
    assert panel.values["torn"] == 30.0


def test_echoes_are_known_by_their_rounding_and_by_what_was_told() -> None:
    echoes = Echoes()
    echoes.tell("a", 0.3)
    assert echoes.heard("a", 0.1 + 0.2)
    assert not echoes.heard("a", 0.1 + 0.2)  # once: the next time somebody has moved it
    echoes.tell("a", 0.3)
    assert not echoes.heard("b", 0.1 + 0.2)
    assert not echoes.heard("a", 0.3)  # exact: somebody moved it there
    assert not echoes.heard("a", 0.1 + 0.2)  # after a move nothing is left to echo
    assert not echoes.heard("c", "hmpe_25mm")
