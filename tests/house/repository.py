"""What the house tests look at: the files of this repository, and the notebooks read as data."""

from __future__ import annotations

import json
import re
import subprocess
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
LIBRARY = ROOT / "linelib"
NOTEBOOKS = ROOT / "notebooks"

# Folders that exist on one person's machine only. Written so that this line does not match itself.
MACHINE_PATH = re.compile(r"/(tmp|work|root|home|Users)/|[A-Z]:\\Users|site-packages")


def files() -> list[str]:
    """Every file that is tracked, or would be: names from the root, with forward slashes."""
    command = ["git", "ls-files", "--cached", "--others", "--exclude-standard", "-z"]
    names = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout.split("\0")
    return sorted({name for name in names if name and (ROOT / name).is_file()})


def text(name: str) -> str | None:
    """The text of a file, or None when it is not text."""
    try:
        return (ROOT / name).read_text(encoding="utf-8")
    except UnicodeDecodeError:
        return None


def library_files() -> list[Path]:
    """Every Python file of linelib."""
    return sorted(LIBRARY.rglob("*.py"))


def notebook_files() -> list[Path]:
    """Every notebook, in the order of teaching."""
    return sorted(NOTEBOOKS.glob("*.ipynb"))


def cells(path: Path) -> list[dict[str, Any]]:
    """The cells of a notebook, with each source and each output text joined to one string."""
    found: list[dict[str, Any]] = json.loads(path.read_text(encoding="utf-8"))["cells"]
    for cell in found:
        cell["source"] = "".join(cell["source"])
    return found


def output_text(cell: dict[str, Any]) -> str:
    """All text that a cell has put out."""
    parts = []
    for output in cell.get("outputs", []):
        parts.append("".join(output.get("text", "")))
        parts.extend("".join(value) for kind, value in output.get("data", {}).items() if kind.startswith("text/"))
    return "\n".join(parts)
