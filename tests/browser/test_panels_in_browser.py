"""Every panel as a learner meets it: opened in JupyterLab, every control moved, readings and picture watched."""

from __future__ import annotations

import importlib.util
import os
from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

from tests.browser.lab_browser import browser_page, find_chromium, lab_server, open_notebook, run_all_cells
from tests.browser.panel_page import (
    CONTROL,
    PANEL,
    PICTURE,
    READINGS,
    SENTENCE,
    greyed,
    is_list,
    label,
    look,
    move,
    parts,
    reveal,
    space,
)
from tests.house.lesson_shape import PANEL as PANEL_OUTPUT
from tests.house.repository import NOTEBOOKS, notebook_files

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

pytestmark = pytest.mark.alone

WITH_PANEL = [path.name for path in notebook_files() if PANEL_OUTPUT in path.read_text(encoding="utf-8")]
ROUNDS = 3  # through the lists of a panel
SCREEN = {"width": 1280, "height": 720}
ERRORS = ", ".join(
    [f'[data-mime-type="application/vnd.jupyter.{kind}"]' for kind in ("error", "stderr")] + [".jupyter-widgets-error-widget"]
)


def missing() -> str:
    """What these tests need and do not find, in words; empty when all is there."""
    wanted = []
    if importlib.util.find_spec("playwright") is None:
        wanted.append("playwright (pip install playwright)")
    if find_chromium() is None:
        wanted.append("Chromium (Debian: apt-get install chromium; or set CHROMIUM to where it is)")
    return "missing: " + " and ".join(wanted) if wanted else ""


@pytest.fixture(scope="module")
def lab() -> Iterator[tuple[str, str, Page]]:
    """JupyterLab with a copy of the notebooks, and a page."""
    if missing():
        (pytest.fail if os.environ.get("CI") else pytest.skip)(missing())
    with lab_server(NOTEBOOKS) as (address, token), browser_page(**SCREEN) as page:
        yield address, token, page


@pytest.fixture(scope="module", params=WITH_PANEL)
def page(lab: tuple[str, str, Page], request: pytest.FixtureRequest) -> Page:
    """A page with one notebook, run from top to bottom."""
    address, token, opened = lab
    open_notebook(opened, address, token, request.param)
    run_all_cells(opened)
    opened.locator(PANEL).first.wait_for(timeout=20_000)
    return opened


def errors(page: Page) -> list[str]:
    """Errors in the outputs, and those that a slider's callback raised in the kernel."""
    return [found.inner_text() for found in parts(page, ERRORS)] + page.evaluate("window.kernelErrors")


def test_the_first_lessons_have_a_panel() -> None:
    assert {"01", "04"} <= {name[:2] for name in WITH_PANEL}


def test_runs_without_errors_and_shows_whole_panels(page: Page) -> None:
    assert errors(page) == []
    for panel in parts(page, PANEL):
        counts = {part: panel.locator(part).count() for part in (CONTROL, PICTURE, READINGS, SENTENCE)}
        assert all(counts.values()), counts
        assert panel.locator(SENTENCE).first.inner_text().strip()


def test_panel_fits_the_screen(page: Page) -> None:
    for panel in parts(page, PANEL):
        size = space(panel)
        assert 0 < size["width"] <= SCREEN["width"]
        assert 0 < size["height"] <= SCREEN["height"]
        assert size["scrolling"] == []
        for control in parts(panel, CONTROL):
            reveal(control)
        assert space(panel)["scrolling"] == []  # with the folds open too


def test_every_control_moves_words_and_picture_and_nothing_else(page: Page) -> None:
    """At the first move of each, and back; a control that is greyed is tried once a list has been moved on."""
    faults = []
    for panel in parts(page, PANEL):
        found, greyed_ones = tried_in_turn(panel, parts(panel, CONTROL))
        faults += found
        for choice in [control for control in parts(panel, CONTROL) if is_list(control)] * ROUNDS:
            if greyed_ones and not greyed(choice):
                move(choice)
                look(panel)  # when it has come to rest
                found, greyed_ones = tried_in_turn(panel, greyed_ones)
                faults += found
        faults += [f"{label(control)}: greyed whatever the lists say" for control in greyed_ones]
    assert errors(page) == []
    assert not faults, "\n".join(faults)


def tried_in_turn(panel: Locator, controls: list[Locator]) -> tuple[list[str], list[Locator]]:
    """What is wrong when the controls are moved one after the other, and those that could not be, since they are greyed."""
    faults, greyed_ones = [], []
    for control in controls:
        if greyed(control):
            greyed_ones.append(control)
        else:
            faults += tried(panel, control)
    return faults, greyed_ones


def tried(panel: Locator, control: Locator) -> list[str]:
    """Move one control; what is wrong with what then happens."""
    reveal(control)
    before, name, faults = look(panel), label(control), []
    back = move(control)
    after = look(panel)
    back()
    again = look(panel)
    if after.words == before.words:
        faults.append(f"{name}: readings and sentence stay at {before.words!r}")
    if after.picture == before.picture:
        faults.append(f"{name}: the picture stays as it was")
    if after.cut:
        faults.append(f"{name}: no room for the whole of {after.sentence!r}")
    if again.words != before.words:
        faults.append(f"{name}: moved back, {before.words!r} has become {again.words!r}")
    if after.moved_parts(before):
        faults.append(f"{name}: these change place or size: {after.moved_parts(before)}")
    return faults
