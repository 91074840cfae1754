"""Every notebook has been run in one go and keeps its outputs; every lesson has the same shape."""

from __future__ import annotations

import copy
import json

import pytest

from tests.house.lesson_shape import HEADINGS, PANEL, lesson_faults, notebook_faults
from tests.house.repository import cells, notebook_files

NOTEBOOKS = notebook_files()
LESSONS = [path for path in NOTEBOOKS if not path.stem.startswith("00")]
LARGEST = 200_000  # bytes


def caution() -> str:
    from linelib.cautions import CAUTION

    return CAUTION


def test_the_first_notebooks_are_there() -> None:
    numbers = [path.stem[:2] for path in NOTEBOOKS]
    assert len(set(numbers)) == len(numbers)
    assert {"00", "01", "04"} <= set(numbers)


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_notebook(path) -> None:
    assert notebook_faults(cells(path), caution()) == []
    assert path.stat().st_size < LARGEST
    metadata = json.loads(path.read_text(encoding="utf-8"))["metadata"]
    assert metadata["kernelspec"]["name"] == "python3"
    assert "widgets" not in metadata


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_lesson(path) -> None:
    assert lesson_faults(cells(path)) == []


def words(source: str) -> dict:
    return {"cell_type": "markdown", "source": source}


def code(count: int, *, source: str = "panel", **output: object) -> dict:
    return {"cell_type": "code", "source": source, "execution_count": count, "outputs": [output]}


def lesson() -> list[dict]:
    """A made-up lesson without a fault."""
    made = [words(f"## {heading}\n") for heading in HEADINGS]
    made[0]["source"] += "An invented line. Take care."
    made[6]["source"] += "<details>Because.</details>"
    made.insert(4, code(1, output_type="display_data", data={PANEL: {}, "text/plain": ["a panel"]}))
    made.append(code(2, output_type="stream", text=["8.77\n"]))
    return made


def test_checker_accepts_a_lesson() -> None:
    assert lesson_faults(lesson()) == []
    assert notebook_faults(lesson(), "Take  care.") == []


@pytest.mark.parametrize(
    "index, source, fault",
    [
        (2, "## Predict", "headings"),
        (1, "## Predict first", "headings"),
        (0, "## Question\nOne line.", "invented"),
        (7, "## Exercises\nBecause.", "folded"),
        (7, "## Exercises\n<details>Because.", "folded"),
    ],
)
def test_lesson_checker_finds_words(index: int, source: str, fault: str) -> None:
    made = lesson()
    made[index]["source"] = source
    assert len(lesson_faults(made)) == 1
    assert fault in lesson_faults(made)[0]


def test_lesson_checker_finds_a_panel_out_of_place() -> None:
    early, late = lesson(), lesson()
    early.insert(1, copy.deepcopy(early[4]))
    late.append(late.pop(4))
    assert lesson_faults(early) == ["a panel stands before 'Predict first'"]
    assert lesson_faults(late) == ["no panel under 'Move the sliders'"]


@pytest.mark.parametrize(
    "last, fault",
    [
        (code(3, output_type="stream", text="8.77"), "not run from top to bottom"),
        (code(2, output_type="error", traceback=[]), "keeps an error"),
        (code(2, source="x\n" * 13, output_type="stream", text="8.77"), "a cell of 13 lines"),
        (code(2, output_type="stream", text=["/ho", "me/a/b"]), "one machine"),
        (code(2, output_type="display_data", data={"text/plain": "<A at 0x7f1>"}), "memory address"),
    ],
)
def test_notebook_checker_finds(last: dict, fault: str) -> None:
    faults = notebook_faults([*lesson()[:-1], last], "Take care.")
    assert len(faults) == 1
    assert fault in faults[0]


def test_notebook_checker_finds_missing_caution_and_outputs() -> None:
    made = [words("Take care."), {**code(1), "outputs": []}]
    assert notebook_faults(made, "Take care.") == ["keeps no output"]
    assert "caution" in notebook_faults(lesson(), "Another sentence.")[0]
