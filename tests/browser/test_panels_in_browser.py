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
    from playwright.sync_api import Page

pytestmark = pytest.mark.alone

WITH_PANEL = [path.name for path in notebook_files() if PANEL_OUTPUT in path.read_text(encoding="utf-8")]
SCREEN = {"width": 1280, "height": 720}
TRIES = 3  # one move may change nothing: another bay that is the same one, a lock that holds anyway
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


def test_every_control_moves_readings_and_picture_and_nothing_else(page: Page) -> None:
    faults = []
    for panel in parts(page, PANEL):
        for control in parts(panel, CONTROL):
            reveal(control)
            before, name = look(panel), label(control)
            for _ in range(TRIES):
                move(control)
                after = look(panel)
                if (after.readings, after.sentence, after.picture) != (before.readings, before.sentence, before.picture):
                    break
            else:
                faults.append(f"{name}: nothing answers, {before.readings!r} stays")
            if after.moved_parts(before):
                faults.append(f"{name}: these change place or size: {after.moved_parts(before)}")
    assert errors(page) == []
    assert faults == []
