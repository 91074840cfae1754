"""The sheet of a log: picture and words of what was found, and of a fit; every part where its numbers are."""

from __future__ import annotations

import numpy as np
import pytest

from linelib.cautions import CAUTION
from linelib.figures.log_figure import LogFigure
from linelib.figures.word import Word
from linelib.panels.log_sheet import log_sheet
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.log_falls import falls_in_log
from linelib.studies.log_file import example_log
from linelib.studies.log_fit import fit_log
from linelib.studies.log_fit_words import fit_text
from linelib.studies.log_words import falls_text

NAMES = ("one_fall", "clipped_fall", "two_falls")


@pytest.fixture(scope="module")
def found():
    return {name: falls_in_log(log=example_log(name)) for name in NAMES}


@pytest.fixture(scope="module")
def fit(found):
    one = found["clipped_fall"]
    setup = lesson_setup(length=70.0, insert_length=5.0, position=0.4)
    return fit_log(log=one.log, fall=one.falls[0], setup=setup, noise=one.rest.noise, vary=("stiffness", "pretension"))


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("paper", ["light", "dark"])
def test_sheet_of_a_log(found, name, paper) -> None:
    sheet = log_sheet(found[name], paper=paper)
    assert sheet.png.startswith(b"\x89PNG")
    assert sheet.words == falls_text(found[name])
    assert CAUTION in sheet.words
    bundle = sheet._repr_mimebundle_()
    assert bundle["text/plain"] == sheet.words


def test_sheet_of_a_fit(found, fit) -> None:
    sheet = log_sheet(found["clipped_fall"], fit)
    assert sheet.words == fit_text(fit, found["clipped_fall"].log)
    assert sheet.png != log_sheet(found["clipped_fall"]).png


def test_refuses_anything_else(found) -> None:
    with pytest.raises(ValueError, match="found = None is not possible; allowed: a LoggedFalls"):
        log_sheet(None)
    with pytest.raises(ValueError, match="fit = 3 is not possible; allowed: a Fit"):
        log_sheet(found["one_fall"], 3)


def words_inside(figure) -> list[str]:
    figure.png()
    words = [a for a in figure.canvas._moving if isinstance(a, Word) and a.text and a.axes.get_visible()]
    for word in words:
        height, width = word._images[word.text].shape[:2]
        x, y = word.axes.transData.transform(word.place)
        left, bottom = x - word.across * width, y - word.up * height
        assert left >= -1.0, word.text
        assert left + width <= 801.0, word.text
        assert bottom >= -1.0, word.text
        assert bottom + height <= 401.0, word.text
    return [word.text for word in words]


def test_log_is_drawn_where_the_numbers_are(found) -> None:
    figure, two = LogFigure(), found["two_falls"]
    figure.draw(two)
    said = words_inside(figure)
    assert {f"{f.peak / 1e3:.2f} kN" for f in two.falls} <= set(said)
    assert f"at rest {two.rest.level / 1e3:.2f}" in said
    assert figure.peaks.get_xdata() == pytest.approx([f.time for f in two.falls])
    assert figure.peaks.get_ydata() == pytest.approx([1e-3 * f.peak for f in two.falls])
    assert figure.light.get_xdata() == pytest.approx([f.release for f in two.falls])
    assert figure.rest.get_ydata() == pytest.approx([1e-3 * two.rest.level] * 2)
    assert np.isnan(figure.recorded.get_ydata()).sum() == 3  # nothing is drawn across the three gaps
    assert not figure.close.get_visible()
    assert figure.axes.get_visible()


def test_fit_is_drawn_over_the_measured_and_goes_again(found, fit) -> None:
    figure, one = LogFigure(), found["clipped_fall"]
    figure.draw(one, fit)
    said = words_inside(figure)
    assert "dots: recorded; crosses: clipped" in said
    assert f"≥ {one.falls[0].peak / 1e3:.2f} kN" in said
    held = fit.part.clipped
    assert figure.model.get_ydata() == pytest.approx(1e-3 * fit.modelled)
    assert figure.measured.get_ydata() == pytest.approx(1e-3 * fit.part.force[~held])
    assert figure.bounds.get_ydata() == pytest.approx(1e-3 * fit.part.force[held])
    assert figure.apart.get_ydata()[~held] == pytest.approx((fit.modelled - fit.part.force)[~held])
    assert figure.close.get_visible()
    figure.draw(one)
    assert not figure.close.get_visible()
    assert not figure.left.get_visible()
