"""The ranking in the panel of how sure we are: its bars, its button, its progress, and what interrupts or refuses it."""

from __future__ import annotations

import pytest

from linelib.figures.how_sure_figure import VIEWS
from linelib.panels.controls import starts
from linelib.panels.how_sure_panel import MOVED, HowSurePanel
from linelib.panels.how_sure_settings import how_sure_controls

START = starts(how_sure_controls())


@pytest.fixture(scope="module")
def panel():
    return HowSurePanel()


@pytest.fixture
def ranked(panel):
    panel.look_at(VIEWS[0]).set(**START)
    panel._ranked = None
    yield panel.look_at(VIEWS[1])
    panel.look_at(VIEWS[0])


def widths(bars):
    return [bar.get_width() for bar in bars if bar.get_visible()]


def test_bars_are_the_ranking_the_most_important_first(ranked):
    rows = ranked.ranking("anchor")
    assert len(rows) == 4
    assert widths(ranked.figure.bars.outline) == pytest.approx([100 * r.total for r in rows])
    assert widths(ranked.figure.bars.solid) == pytest.approx([100 * max(r.first, 0.0) for r in rows])
    assert [r.total for r in rows] == sorted((r.total for r in rows), reverse=True)
    tops = [bar.get_y() for bar in ranked.figure.bars.outline[:4]]
    assert tops == sorted(tops, reverse=True)
    low, high = rows[0].total_interval
    assert list(ranked.figure.bars.whiskers[0].get_xdata()) == pytest.approx([100 * low, 100 * high])
    assert "What moves it most (higher anchor): " in ranked.words


def test_the_ranking_waits_for_its_button_and_shows_progress(ranked, monkeypatch):
    ranked.set(mass_spread=15)
    with pytest.raises(ValueError, match="ranking = None is not possible; allowed: The ranges have moved"):
        ranked.ranking("anchor")
    assert widths(ranked.figure.bars.outline) == []
    assert ranked.figure.bars.reason.get_text().replace("\n", " ") == MOVED
    seen = []
    tick = ranked._tick
    monkeypatch.setattr(ranked, "_tick", lambda d, t: (tick(d, t), seen.append((ranked.bar.value, ranked.bar.max))))
    monkeypatch.setattr(ranked.bar.layout, "visibility", "hidden")
    ranked.button.click()
    assert seen == [(256 * i, 1536) for i in range(1, 7)]
    assert ranked.bar.layout.visibility == "hidden"
    assert not ranked.button.disabled
    assert ranked.figure.bars.names[0].text.startswith("walker's mass 65 to 95 kg")
    assert len(widths(ranked.figure.bars.outline)) == 4
    ranked.set(outcome="person")  # of the same falls: nothing has to be ranked again
    assert len(widths(ranked.figure.bars.outline)) == 4


def test_an_interrupted_ranking_leaves_the_panel_as_it_was(ranked, monkeypatch):
    before = ranked._ranked
    ranked.set(mass_spread=10)

    def stop(done, total):
        assert ranked.bar.layout.visibility == "visible"
        raise KeyboardInterrupt

    with monkeypatch.context() as change:
        change.setattr(ranked, "_tick", stop)
        with pytest.raises(KeyboardInterrupt):
            ranked.rank()
    assert ranked._ranked is before
    assert ranked.bar.layout.visibility == "hidden"
    assert not ranked.button.disabled
    assert len(widths(ranked.rank().figure.bars.outline)) == 4


def test_no_ranking_where_inputs_hang_together(ranked):
    ranked.set(leash_length=1.1).rank()
    assert widths(ranked.figure.bars.outline) == []
    reason = ranked.figure.bars.reason.get_text().replace("\n", " ")
    assert reason.startswith("No ranking: inputs = 'mass, leash length, standing height, pretension' is not possible")
    assert "a tie-in higher than that hangs in the leash" in reason
    assert "There is no ranking for these ranges." in ranked.words
    with pytest.raises(ValueError, match="No ranking: inputs = "):
        ranked.ranking("anchor")
    ranked.set(**START)
    assert ranked.figure.bars.reason.get_text().replace("\n", " ") == MOVED
    ranked.rank()
