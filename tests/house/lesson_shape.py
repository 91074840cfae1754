"""The shape every lesson has, and what every notebook keeps to, read from the file without running it."""

from __future__ import annotations

import re
from typing import Any

from tests.house.repository import MACHINE_PATH, output_text

HEADINGS = (
    "Question",
    "What we assume",
    "Predict first",
    "Move the sliders",
    "Check one value by hand",
    "What this leaves out",
    "Exercises",
)
LONGEST_CELL = 12
PANEL = "application/vnd.jupyter.widget-view+json"

Cell = dict[str, Any]


def headings(cells: list[Cell]) -> list[tuple[int, str]]:
    """(index of the cell, words) of every heading."""
    found = []
    for index, cell in enumerate(cells):
        if cell["cell_type"] == "markdown":
            found += [(index, words.strip()) for words in re.findall(r"^#+ +(.+)$", cell["source"], re.MULTILINE)]
    return found


def panels(cells: list[Cell]) -> list[int]:
    """Index of every cell that shows a panel."""
    return [i for i, cell in enumerate(cells) if any(PANEL in out.get("data", {}) for out in cell.get("outputs", []))]


def lesson_faults(cells: list[Cell]) -> list[str]:
    """Faults in the order of a lesson: headings, a panel only after the prediction, answers folded."""
    order = [words for _, words in headings(cells) if words in HEADINGS]
    if order != list(HEADINGS):
        return [f"headings {order}; wanted once each, in this order: {', '.join(HEADINGS)}"]
    place = {words: index for index, words in headings(cells)}
    faults, shown = [], panels(cells)
    if any(index < place["Predict first"] for index in shown):
        faults.append("a panel stands before 'Predict first'")
    if not any(place["Move the sliders"] < index < place["Check one value by hand"] for index in shown):
        faults.append("no panel under 'Move the sliders'")
    exercises = "\n".join(cell["source"] for cell in cells[place["Exercises"] :])
    folds = exercises.count("<details>")
    if folds == 0 or folds != exercises.count("</details>"):
        faults.append("the answers to the exercises are not folded in <details> ... </details>")
    if not any("invented" in (cell["source"] + output_text(cell)).lower() for cell in cells):
        faults.append("does not say that its scenario is invented")
    return faults


def notebook_faults(cells: list[Cell], caution: str) -> list[str]:
    """Faults any notebook can have: not run in one go, errors kept, long cells, machine paths, no caution."""
    code = [cell for cell in cells if cell["cell_type"] == "code"]
    faults = []
    counts = [cell["execution_count"] for cell in code]
    if not counts or counts != list(range(1, len(counts) + 1)):
        faults.append(f"not run from top to bottom in one go: {counts}")
    if any(out["output_type"] == "error" for cell in code for out in cell["outputs"]):
        faults.append("keeps an error")
    if code and not any(cell["outputs"] for cell in code):
        faults.append("keeps no output")
    longest = max((len(cell["source"].splitlines()) for cell in code), default=0)
    if longest > LONGEST_CELL:
        faults.append(f"a cell of {longest} lines; at most {LONGEST_CELL}")
    everything = "\n".join(cell["source"] + "\n" + output_text(cell) for cell in cells)
    if MACHINE_PATH.search(everything):
        faults.append("names a place on one machine")
    if re.search(r"\bat 0x[0-9a-f]+", everything):
        faults.append("keeps a memory address, which is another one in the next run")
    if " ".join(caution.split()) not in " ".join(everything.split()):
        faults.append("does not carry the caution of linelib/cautions.py")
    return faults
