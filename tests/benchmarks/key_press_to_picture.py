"""How long a learner waits for the picture: a measurement to read, not a test.

    python -m tests.benchmarks.key_press_to_picture 04_*.ipynb [--view "what if"] [--steps 40] [--seconds 4]

For every slider of the first panel: time from a key press to the new picture, decoded and handed to the screen
(median and 95th percentile), new pictures per second while the handle is dragged, and how many frames of the screen
were empty while dragging: by the page's own word, and by looking at the pixels of a recording of the screen.
"""

from __future__ import annotations

import argparse
import base64
import io
import math
import time
from typing import TYPE_CHECKING, Any

import numpy as np
from PIL import Image

from tests.browser.lab_browser import browser_page, lab_server, open_notebook, run_all_cells
from tests.browser.panel_page import CONTROL, PANEL, PICTURE, inward, label, look, reveal
from tests.house.repository import NOTEBOOKS

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

HEAD = f"{'slider':26} {'pictures':>8} {'median':>6} {'95 %':>7} {'pictures/s':>10} {'empty':>12} {'seen empty':>12}"
PLAIN = 40  # shades of grey out of 255 within a recorded picture: a blank one had 12 when tried, a drawn one over 200
LIMIT = 3000  # ms without a new picture: it did not change

WATCH = """panel => {
    const shown = () => [...panel.querySelectorAll('PICTURE')].filter(one => one.checkVisibility());
    window.nextPicture = () => new Promise(done => {
        let pressed = null;
        addEventListener('keydown', () => { pressed = performance.now(); }, {capture: true, once: true});
        const seen = new MutationObserver(async changes => {
            seen.disconnect();
            await changes[0].target.decode().catch(() => null);
            requestAnimationFrame(() => done(performance.now() - pressed));
        });
        shown().forEach(image => seen.observe(image, {attributeFilter: ['src']}));
        setTimeout(() => { seen.disconnect(); done(null); }, LIMIT);
    });
    window.startDrag = () => {
        const tally = window.tally = {pictures: 0, frames: 0, empty: 0, on: true};
        const count = () => { if (tally.on) tally.pictures += 1; };
        shown().slice(0, 1).forEach(image => image.addEventListener('load', count));
        const frame = () => {
            if (!tally.on) return;
            tally.frames += 1;
            if (shown().some(image => image.naturalWidth === 0)) tally.empty += 1;
            requestAnimationFrame(frame);
        };
        requestAnimationFrame(frame);
    };
}""".replace("PICTURE", PICTURE).replace("LIMIT", str(LIMIT))


def key_presses(page: Page, handle: Locator, steps: int) -> list[float]:
    """Milliseconds from each key press to the new picture; presses that bring none are left out."""
    times, key = [], inward(handle)
    handle.focus()
    for _ in range(steps):
        at = {name: handle.get_attribute(f"aria-value{name}") for name in ("now", "min", "max")}
        key = {at["max"]: "ArrowLeft", at["min"]: "ArrowRight"}.get(at["now"], key)
        page.evaluate("() => { window.waiting = window.nextPicture(); }")
        page.keyboard.press(key)
        waited = page.evaluate("() => window.waiting")
        if waited is not None:
            times.append(float(waited))
        page.wait_for_timeout(60)  # a person lets the finger up
    return times


def drag(page: Page, control: Locator, seconds: float) -> dict[str, Any]:
    """Drag the handle to and fro along its track; what the page counted meanwhile."""
    track, handle = control.locator(".noUi-base").bounding_box(), control.locator(".noUi-handle").bounding_box()
    if track is None or handle is None:
        raise RuntimeError("the slider is not on the page")
    height, start = handle["y"] + handle["height"] / 2, handle["x"] + handle["width"] / 2
    page.mouse.move(start, height)
    page.mouse.down()
    page.evaluate("() => window.startDrag()")
    phase = math.acos(1 - 2 * min(max((start - track["x"]) / track["width"], 0.0), 1.0))
    begin = time.monotonic()
    while (now := time.monotonic() - begin) < seconds:
        share = (1 - math.cos(phase + math.pi * now / 2.0)) / 2  # end to end in two seconds
        page.mouse.move(track["x"] + share * track["width"], height)
    tally: dict[str, Any] = page.evaluate("() => { window.tally.on = false; return window.tally; }")
    page.mouse.up()
    return {**tally, "seconds": now}


def recorded_drag(page: Page, control: Locator, picture: Locator, seconds: float) -> tuple[int, int]:
    """(frames in which the picture is one plain colour, frames) of a recording of the screen during a drag."""
    shots: list[str] = []
    session = page.context.new_cdp_session(page)

    def keep(frame: dict[str, Any]) -> None:
        shots.append(frame["data"])
        session.send("Page.screencastFrameAck", {"sessionId": frame["sessionId"]})

    session.on("Page.screencastFrame", keep)
    session.send("Page.startScreencast", {"format": "jpeg", "quality": 60})
    drag(page, control, seconds)
    session.send("Page.stopScreencast")
    box = picture.bounding_box() or {"x": 0, "y": 0, "width": 0, "height": 0}
    corners = (box["x"] + 4, box["y"] + 4, box["x"] + box["width"] - 4, box["y"] + box["height"] - 4)
    spans = [np.ptp(np.asarray(Image.open(io.BytesIO(base64.b64decode(shot))).convert("L").crop(corners))) for shot in shots]
    return sum(int(span) < PLAIN for span in spans), len(spans)


def measure(page: Page, panel: Locator, control: Locator, asked: argparse.Namespace) -> str:
    """One line of the table."""
    reveal(control)
    look(panel)
    times = key_presses(page, control.locator(".noUi-handle"), asked.steps)
    middle, late = np.percentile(times, [50, 95]) if times else (math.nan, math.nan)
    look(panel)
    moved = drag(page, control, asked.seconds)
    look(panel)
    empty, frames = recorded_drag(page, control, panel.locator(PICTURE).first, asked.seconds)
    rate = moved["pictures"] / moved["seconds"]
    return (
        f"{label(control)[:26]:26} {f'{len(times)}/{asked.steps}':>8} {middle:6.0f} {late:7.0f} {rate:10.1f} "
        f"{moved['empty']:>6}/{moved['frames']:<5} {empty:>6}/{frames:<5}"
    )


def main() -> None:
    """Measure every slider of the first panel of a notebook and print a table."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("notebook", help="file name in notebooks/")
    parser.add_argument("--view", help="words on the button of the view to show first")
    parser.add_argument("--steps", type=int, default=40, help="key presses a slider")
    parser.add_argument("--seconds", type=float, default=4.0, help="length of a drag")
    asked = parser.parse_args()
    with lab_server(NOTEBOOKS) as (address, token), browser_page() as page:
        open_notebook(page, address, token, asked.notebook)
        run_all_cells(page)
        panel = page.locator(PANEL).first
        panel.wait_for()
        panel.scroll_into_view_if_needed()
        if asked.view:
            panel.get_by_role("button", name=asked.view, exact=True).click()
        panel.evaluate(WATCH)
        print(HEAD)
        for control in panel.locator(CONTROL).filter(has=page.locator(".noUi-handle")).all():
            print(measure(page, panel, control, asked), flush=True)


if __name__ == "__main__":
    main()
