"""Imports point down only: notebooks > panels > papers > figures > studies > models > the files on the ground."""

from __future__ import annotations

import pytest

from tests.house.layers import library_faults, notebook_faults
from tests.house.repository import LIBRARY, cells, library_files, notebook_files


def library_sources() -> dict[str, str]:
    """{module: source} of all of linelib."""
    sources = {}
    for path in library_files():
        parts = path.relative_to(LIBRARY.parent).with_suffix("").parts
        sources[".".join(parts).removesuffix(".__init__")] = path.read_text(encoding="utf-8")
    return sources


def test_library_imports_point_down() -> None:
    sources = library_sources()
    assert {"linelib", "linelib.webbing", "linelib.models"} <= set(sources)
    assert library_faults(sources) == []


@pytest.mark.parametrize("path", notebook_files(), ids=lambda path: path.stem)
def test_notebooks_import_only_the_library(path) -> None:
    code = [cell["source"] for cell in cells(path) if cell["cell_type"] == "code"]
    assert code
    assert [fault for source in code for fault in notebook_faults(source)] == []


ALLOWED = {
    "linelib": "from linelib.models.sag import hang\nfrom linelib.webbing import Webbing",
    "linelib.webbing": "from linelib.checks import number",
    "linelib.checks": "import math",
    "linelib.models": "",
    "linelib.models.sag": "import scipy\nfrom linelib.models.stretch import Law",
    "linelib.models.stretch": "import numpy\nfrom ..webbing import Webbing",
    "linelib.studies.sweep": "from linelib.models import sag",
    "linelib.figures.side_view": "import matplotlib\nfrom linelib.models.sag import Hanging",
    "linelib.papers.report": "import matplotlib\nfrom linelib.figures import side_view\nfrom linelib.studies import sweep",
    "linelib.panels.main": "import ipywidgets\nimport linelib as ll\nfrom linelib.figures import side_view",
}


def test_checker_accepts_arrows_that_point_down() -> None:
    assert library_faults(ALLOWED) == []


@pytest.mark.parametrize(
    "module, source, words",
    [
        ("linelib.models.sag", "from linelib.studies.sweep import sweep", "studies stands above models"),
        ("linelib.models.sag", "def f():\n    import linelib.figures.side_view", "figures stands above models"),
        ("linelib.models.sag", "from .. import panels", "panels stands above models"),
        ("linelib.studies.sweep", "import linelib as ll", "front door stands above studies"),
        ("linelib.checks", "from linelib.models.stretch import Law", "models stands above ground"),
        ("linelib.figures.side_view", "from linelib.panels.main import Panel", "panels stands above figures"),
        ("linelib.figures.side_view", "from linelib.models.sag import hang", "figures compute nothing"),
        ("linelib.figures.side_view", "import linelib.models.sag", "figures compute nothing"),
        ("linelib.figures.side_view", "import linelib as ll", "figures compute nothing"),
        ("linelib", "from linelib.figures import side_view", "figures stands above front door"),
        ("linelib", "from . import panels", "panels stands above front door"),
        ("linelib.figures.side_view", "from linelib.papers.report import report", "papers stands above figures"),
        ("linelib.papers.report", "from linelib.panels.main import Panel", "panels stands above papers"),
        ("linelib.papers.report", "import ipywidgets", "ipywidgets belongs in panels"),
        ("linelib.models.sag", "import ipywidgets.widgets", "ipywidgets belongs in panels"),
        ("linelib.panels.main", "from matplotlib import pyplot", "matplotlib belongs in figures or papers"),
        ("linelib.models.sag", "from numpy import *", "a star import"),
        ("linelib.models.stretch", "from linelib.models import sag", "imports run in a circle"),
        ("linelib.checks", "from .webbing import Webbing", "imports run in a circle"),
    ],
)
def test_checker_finds(module: str, source: str, words: str) -> None:
    faults = library_faults({**ALLOWED, module: source})
    assert any(module in fault and words in fault for fault in faults), faults
    assert all(module in fault for fault in faults), faults


@pytest.mark.parametrize(
    "source",
    [
        "import numpy as np",
        "from matplotlib import pyplot",
        "from linelib.models.sag import hang",
        "%matplotlib inline",
        "from linelib import models",
        "from linelib import *",
        "import linelib.figures.side_view",
        "import ipywidgets",
    ],
)
def test_notebook_checker_refuses(source: str) -> None:
    assert len(notebook_faults(source)) == 1


@pytest.mark.parametrize(
    "source",
    [
        "import linelib as ll",
        "from linelib import Webbing, panels",
        "from linelib.panels import main",
        "from linelib.panels.main import Panel",
        "from linelib.papers.report import report",
        "from linelib.studies.sweep import sweep",
        "from linelib.cautions import CAUTION",
        "from dataclasses import replace",
    ],
)
def test_notebook_checker_accepts(source: str) -> None:
    assert notebook_faults(source) == []
