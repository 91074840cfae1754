"""Which file may import what, read from the import statements: arrows point down only."""

from __future__ import annotations

import ast
import sys
from collections.abc import Mapping
from graphlib import CycleError, TopologicalSorter

LAYERS = ("ground", "models", "studies", "front door", "figures", "papers", "panels")  # a layer imports from those before it
ONLY_IN = {"ipywidgets": ("panels",), "IPython": ("panels",), "matplotlib": ("figures", "papers")}
RESULTS_ONLY = ("models", "studies", "front door")  # figures take result types from these, not what computes them


def layer(module: str) -> str:
    """The layer of a module of linelib: its package; files beside the packages are the ground."""
    parts = module.split(".")
    if len(parts) == 1:
        return "front door"
    return parts[1] if parts[1] in LAYERS else "ground"


def imports(source: str, module: str, is_package: bool = False) -> list[tuple[str, str | None]]:
    """Every import in a source, as (module, name taken from it or None), relative ones spelled out."""
    found: list[tuple[str, str | None]] = []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            found += [(alias.name, None) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            if node.level:
                up = node.level - 1 if is_package else node.level
                parts = module.split(".")
                base = ".".join([*parts[: len(parts) - up], *([base] if base else [])])
            found += [(base, alias.name) for alias in node.names]
    return found


def fault(module: str, target: str, name: str | None) -> str | None:
    """What is wrong with one import, or None."""
    here, root = layer(module), target.split(".")[0]
    if name == "*":
        return "a star import"
    if root in ONLY_IN and here not in ONLY_IN[root]:
        return f"{root} belongs in {' or '.join(ONLY_IN[root])}"
    if root != "linelib":
        return None
    there = layer(target)
    if name is not None and target == "linelib" and layer(f"linelib.{name}") != "ground":
        there = name  # from linelib import figures
    if here == there:
        return None
    if LAYERS.index(there) > LAYERS.index(here):
        return f"{there} stands above {here}"
    if here == "figures" and there in RESULTS_ONLY and not (name or "x")[0].isupper():
        return "figures compute nothing: from models and studies they take result types only"
    return None


def library_faults(sources: Mapping[str, str]) -> list[str]:
    """All faults in {module: source}: arrows that point up, stray libraries, cycles."""
    packages = {module.rpartition(".")[0] for module in sources}
    faults, graph = [], {}
    for module, source in sources.items():
        below = set()
        for target, name in imports(source, module, is_package=module in packages):
            wrong = fault(module, target, name)
            if wrong:
                faults.append(f"{module} imports {target}{' ' + name if name else ''}: {wrong}")
            below.add(f"{target}.{name}" if f"{target}.{name}" in sources else target)
        graph[module] = (below & set(sources)) - {module}
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        faults.append("imports run in a circle: " + " > ".join(error.args[1]))
    return faults


FOR_NOTEBOOKS = ("linelib", "linelib.panels", "linelib.papers", "linelib.studies", "linelib.cautions")


def notebook_faults(source: str) -> list[str]:
    """Faults in the code of a notebook: it imports Python's own modules, linelib, panels, papers, studies, words."""
    try:
        found = imports(source, "notebook")
    except SyntaxError as error:
        return [f"not plain Python: {error}"]
    faults = []
    for target, name in found:
        root = target.split(".")[0]
        inside = target in FOR_NOTEBOOKS or target.startswith(("linelib.panels.", "linelib.papers.", "linelib.studies."))
        if name == "*":
            faults.append(f"a star import from {target}")
        elif root not in sys.stdlib_module_names and not inside:
            faults.append(f"imports {target}; allowed: {', '.join(FOR_NOTEBOOKS)}, Python's own modules")
        elif target == "linelib" and name in LAYERS and f"linelib.{name}" not in FOR_NOTEBOOKS:
            faults.append(f"imports linelib.{name}; allowed: linelib's own names, panels, papers and studies")
    return faults
