"""What every public function and class of linelib says of itself, and how long it may be."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator

LONGEST_FILE, LONGEST_FUNCTION = 300, 40
UNIT = re.compile(r"(?<!\w)\[(1/|[^\]\d])[^\]]*\]")  # [m], [N per metre of span], [-], [1/N]; not an index: law[i]
PHYSICAL = {"float", "ArrayLike", "Array", "NDArray", "Rig", "Setup"}  # an argument of such a type has a unit
WITH_SOURCE = ("models", "studies")

Function = ast.FunctionDef | ast.AsyncFunctionDef


def public(tree: ast.Module | ast.ClassDef, prefix: str = "") -> Iterator[tuple[str, Function | ast.ClassDef]]:
    """Public functions, classes, and methods of public classes, each with its full name."""
    for node in tree.body:
        if isinstance(node, Function | ast.ClassDef) and not node.name.startswith("_"):
            yield prefix + node.name, node
            if isinstance(node, ast.ClassDef):
                yield from public(node, f"{prefix}{node.name}.")


def physical(function: Function) -> bool:
    """Whether an argument or the result carries a unit, by its type."""
    arguments = [*function.args.posonlyargs, *function.args.args, *function.args.kwonlyargs]
    types = [argument.annotation for argument in arguments] + [function.returns]
    names = {part for kind in types if kind for part in re.findall(r"\w+", ast.unparse(kind))}
    return bool(arguments) and bool(names & PHYSICAL)


def refuses(function: Function, checks: set[str]) -> bool:
    """Whether the function raises, or calls one of the `checks`."""
    nodes = list(ast.walk(function))
    called = {node.func.id for node in nodes if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)}
    return any(isinstance(node, ast.Raise) for node in nodes) or bool(called & checks)


def docstring_faults(source: str, folder: str) -> list[str]:
    """Faults of the file's docstrings; `folder` is the package it stands in, such as models."""
    tree = ast.parse(source)
    checks = {
        alias.asname or alias.name
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[-1] == "checks"
        for alias in node.names
    }
    faults = [] if ast.get_docstring(tree) or not tree.body else ["the file has no docstring"]
    for name, node in public(tree):
        text = ast.get_docstring(node) or ""
        if not text:
            faults.append(f"{name} has no docstring")
        elif folder in WITH_SOURCE and isinstance(node, Function):
            method = "." in name  # a method's source stands with its class
            if physical(node) and not UNIT.search(text):
                faults.append(f"{name} gives no [unit]")
            if physical(node) and not method and "Source" not in text:
                faults.append(f"{name} gives no Source")
            if refuses(node, checks) and "Raises" not in text:
                faults.append(f"{name} can refuse its arguments and has no Raises")
    return faults


def length_faults(source: str) -> list[str]:
    """Files and functions that are too long, docstring and all."""
    lines = len(source.splitlines())
    faults = [f"{lines} lines; at most {LONGEST_FILE}"] if lines > LONGEST_FILE else []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, Function):
            start, text = node.lineno, ast.get_docstring(node, clean=False)
            size = (node.end_lineno or start) - start + 1 - (len(text.splitlines()) if text else 0)
            if size > LONGEST_FUNCTION:
                faults.append(f"{node.name} has {size} lines without its docstring; at most {LONGEST_FUNCTION}")
    return faults
