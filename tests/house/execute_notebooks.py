"""Run notebooks from top to bottom and write them back so that only what has changed differs.

    python -m tests.house.execute_notebooks                        all of them
    python -m tests.house.execute_notebooks notebooks/01_*.ipynb   some

Outputs are kept. Left out: widget state, timings, versions, how a person had folded a cell. Run `nbval` after it.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

import nbformat
from nbclient import NotebookClient

from tests.house.lesson_shape import PANEL
from tests.house.repository import ROOT, notebook_files

CELL_SECONDS = 60
KERNEL = {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"}


def normalised(notebook: nbformat.NotebookNode) -> nbformat.NotebookNode:
    """The notebook without what differs from run to run; the id in a panel's output says nothing once it is stored."""
    notebook.metadata = nbformat.from_dict({"kernelspec": KERNEL, "language_info": {"name": "python"}})
    panels = 0
    for cell in notebook.cells:
        cell.metadata = nbformat.from_dict({k: cell.metadata[k] for k in ("tags",) if cell.metadata.get(k)})
        for output in cell.get("outputs", []):
            output.pop("metadata", None)
            if output.output_type in ("display_data", "execute_result"):
                output.metadata = nbformat.from_dict({})
            if PANEL in output.get("data", {}):
                panels += 1
                output.data[PANEL]["model_id"] = f"panel-{panels}"
    return notebook


def execute(path: Path) -> None:
    """Run one notebook in its own folder and write it back. A cell that fails stops it and nothing is written."""
    notebook = nbformat.read(path, as_version=4)
    client = NotebookClient(notebook, timeout=CELL_SECONDS, kernel_name="python3", store_widget_state=False)
    client.execute(cwd=str(path.parent))
    nbformat.validate(normalised(notebook))
    nbformat.write(notebook, path)  # keys sorted, one line per output line


def main(names: list[str]) -> None:
    """Run the notebooks named, or all."""
    for path in [Path(name).resolve() for name in names] or notebook_files():
        start = time.monotonic()
        execute(path)
        where = path.relative_to(ROOT) if path.is_relative_to(ROOT) else path
        print(f"{where}: {time.monotonic() - start:.1f} s, {path.stat().st_size / 1000:.0f} kB")


if __name__ == "__main__":
    main(sys.argv[1:])
