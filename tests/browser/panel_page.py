"""What a learner sees of a panel, and how they move its controls: by class names, from outside, through the page."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tests.browser.lab_browser import FINISHED

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

PANEL, CONTROL, PICTURE, READINGS, SENTENCE = (
    ".line-panel",
    ".line-control",
    ".line-picture",
    ".line-readings",
    ".line-sentence",
)
SHARE = 0.33  # of its range that a slider is moved by: one step may be too small to show in a rounded reading
PATIENCE = 10.0  # seconds

LOOK = """async panel => {
    const shown = selector => [...panel.querySelectorAll(selector)].filter(one => one.checkVisibility());
    const origin = panel.getBoundingClientRect();
    const boxes = {panel: [0, 0, origin.width, origin.height]};
    for (const selector of ['CONTROL', 'PICTURE', 'READINGS', 'SENTENCE'])
        shown(selector).forEach((one, index) => {
            const box = one.getBoundingClientRect();
            boxes[selector + ' ' + index] = [box.x - origin.x, box.y - origin.y, box.width, box.height];
        });
    const picture = [];
    for (const image of shown('PICTURE')) {
        const bytes = await (await fetch(image.src)).arrayBuffer();
        const hash = new Uint8Array(await crypto.subtle.digest('SHA-1', bytes));
        picture.push([...hash].join('.'));
    }
    const readings = shown('READINGS').map(one => one.innerText).join(' | ');
    const sentence = shown('SENTENCE').map(one => one.innerText).join(' | ');
    const cut = shown('SENTENCE').some(one => one.scrollHeight > one.clientHeight + 1);
    return {readings, sentence, picture, boxes, cut};
}"""
for word, selector in {"CONTROL": CONTROL, "PICTURE": PICTURE, "READINGS": READINGS, "SENTENCE": SENTENCE}.items():
    LOOK = LOOK.replace(f"'{word}'", f"'{selector}'")

POSITION = """handle => {
    const slider = handle.closest('.noUi-target').noUiSlider, ends = slider.options.range;
    return (Number(slider.get()) - ends.min) / (ends.max - ends.min);
}"""  # what the page is told is rounded to a tenth

REVEAL = """control => {
    const section = control.closest('.jupyter-widget-Collapse');
    if (section && !control.checkVisibility()) section.querySelector('.jupyter-widget-Collapse-header').click();
}"""


@dataclass(frozen=True)
class Look:
    """One look at a panel: text of readings and sentence, fingerprint of each picture, place of each part in the panel, and
    whether the sentence is too long for its place."""

    readings: str
    sentence: str
    picture: list[str]
    boxes: dict[str, list[float]]
    cut: bool

    @property
    def words(self) -> tuple[str, str]:
        """Readings and sentence: what somebody who cannot see the picture is told."""
        return self.readings, self.sentence

    def moved_parts(self, other: Look) -> list[str]:
        """Names of the parts that are elsewhere, or of another size, by more than half a pixel."""
        names = self.boxes.keys() | other.boxes.keys()
        lost = [float("inf")] * 4
        pairs = {name: zip(self.boxes.get(name, lost), other.boxes.get(name, lost), strict=True) for name in names}
        return sorted(name for name, pair in pairs.items() if any(not abs(a - b) <= 0.5 for a, b in pair))


def look(panel: Locator) -> Look:
    """Look at a panel when nothing moves any more: the kernel is idle and two looks in a row are the same."""
    deadline, last = time.monotonic() + PATIENCE, None
    while time.monotonic() < deadline:
        panel.page.wait_for_function(FINISHED)
        now = Look(**panel.evaluate(LOOK))
        if now == last:
            return now
        last = now
        panel.page.wait_for_timeout(100)
    raise AssertionError(f"the panel does not come to rest within {PATIENCE:g} s")


def label(control: Locator) -> str:
    """The words beside a control."""
    return str(control.evaluate("one => (one.querySelector('label') || one).textContent.trim()"))


def reveal(control: Locator) -> None:
    """Open the fold a control is in, if it is in one, and bring it into view."""
    control.evaluate(REVEAL)
    control.scroll_into_view_if_needed(timeout=1000 * PATIENCE)


def inward(handle: Locator) -> str:
    """The arrow key that takes a slider away from the end it may stand at."""
    return "ArrowLeft" if position(handle) >= 1.0 else "ArrowRight"


def position(handle: Locator) -> float:
    """Where a slider's handle stands in its range, 0 to 1."""
    return float(handle.evaluate(POSITION))


def greyed(control: Locator) -> bool:
    """Whether a control is out of use as the others are set."""
    return bool(control.locator("[disabled]").count())


def is_list(control: Locator) -> bool:
    """Whether a control is a list."""
    return bool(control.locator("select").count())


def move(control: Locator) -> Callable[[], None]:
    """Move a slider by keyboard, choose the next entry of a list, press a button or a box; returns what moves it back."""
    handle, choice, buttons = (control.locator(kind) for kind in (".noUi-handle", "select", ".widget-toggle-button"))
    if handle.count():
        return slide(handle.first)
    if choice.count():
        at, count = choice.evaluate("one => [one.selectedIndex, one.options.length]")
        choice.select_option(index=(at + 1) % count)
        return lambda: choice.select_option(index=at) and None
    if buttons.count():
        active = control.locator(".widget-toggle-button.mod-active").first.inner_text()
        control.locator(".widget-toggle-button:not(.mod-active)").first.press("Enter")
        return lambda: control.locator(".widget-toggle-button", has_text=active).first.press("Enter")
    control.locator("input").first.press("Space")
    return lambda: control.locator("input").first.press("Space")


def slide(handle: Locator) -> Callable[[], None]:
    """Take a handle far enough that a rounded reading must answer, away from an end it stands near."""
    begin, page = position(handle), handle.page
    there = "PageDown" if begin > 1.0 - SHARE else "PageUp"
    handle.focus()
    while abs(position(handle) - begin) < SHARE:
        page.keyboard.press(there)

    def home() -> None:
        handle.focus()
        for _ in range(1000):
            if abs(position(handle) - begin) < 1e-6:
                return
            page.keyboard.press("ArrowLeft" if position(handle) > begin else "ArrowRight")

    return home


def parts(page: Page | Locator, selector: str) -> list[Locator]:
    """All elements of a class on the page, or in a part of it."""
    return page.locator(selector).all()


SPACE = """panel => {
    const box = panel.getBoundingClientRect(), scrolling = [];
    for (const one of [panel.closest('.jp-OutputArea-output'), panel, ...panel.querySelectorAll('.jupyter-widgets')]) {
        const style = getComputedStyle(one);
        const over = {x: one.scrollWidth - one.clientWidth, y: one.scrollHeight - one.clientHeight};
        if (['x', 'y'].some(way => ['auto', 'scroll'].includes(style['overflow-' + way]) && over[way] > 1))
            scrolling.push(`${one.className}: ${over.x} px too wide, ${over.y} px too high`);
    }
    return {width: box.width, height: box.height, scrolling};
}"""


def space(panel: Locator) -> dict[str, Any]:
    """Size of a panel [px], and the parts of it that would show scroll bars since they hold more than fits."""
    measured: dict[str, Any] = panel.evaluate(SPACE)
    return measured
