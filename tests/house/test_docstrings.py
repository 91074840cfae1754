"""Every public name says what it is; what computes gives units, source and what it refuses; nothing is long."""

from __future__ import annotations

import pytest

from tests.house.docstrings import docstring_faults, length_faults
from tests.house.repository import LIBRARY, ROOT, library_files

FILES = library_files()
CODE = sorted([*FILES, *(ROOT / "tests").rglob("*.py")])


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.relative_to(LIBRARY).as_posix())
def test_docstrings(path) -> None:
    assert docstring_faults(path.read_text(encoding="utf-8"), path.parent.name) == []


@pytest.mark.parametrize("path", CODE, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_lengths(path) -> None:
    assert length_faults(path.read_text(encoding="utf-8")) == []


HEAD = '"""A file."""\nfrom linelib.checks import number\n'
FULL = '''def pull(*, strain: float) -> float:
    """Tension [N] at `strain` [-].

    Raises: ValueError when it is negative.
    Source: by definition.
    """
    number("strain", strain, low=0.0, high=1.0)
    return 1e6 * strain
'''


def test_checker_accepts_a_full_docstring() -> None:
    assert docstring_faults(HEAD + FULL, "models") == []


@pytest.mark.parametrize(
    "old, new, fault",
    [
        ('"""A file."""', "", "the file has no docstring"),
        ("Tension [N] at `strain` [-].", "Tension at `strain`, see values[0].", "pull gives no [unit]"),
        ("    Source: by definition.\n", "", "pull gives no Source"),
        ("    Raises: ValueError when it is negative.\n", "", "pull can refuse its arguments and has no Raises"),
        ("def pull(", "class Law:\n    x = 1\n\ndef pull(", "Law has no docstring"),
        ("def pull(", "class Law:\n    'A law.'\n    def f(self): ...\n\ndef pull(", "Law.f has no docstring"),
    ],
)
def test_checker_finds(old: str, new: str, fault: str) -> None:
    source = (HEAD + FULL).replace(old, new)
    assert source != HEAD + FULL
    assert docstring_faults(source, "models") == [fault]


def test_checker_finds_a_bare_raise_and_passes_over_private_names() -> None:
    raising = 'def f() -> None:\n    "Words."\n    raise ValueError\n'
    assert docstring_faults('"""A file."""\n' + raising, "studies") == ["f can refuse its arguments and has no Raises"]
    assert docstring_faults('"""A file."""\n' + raising.replace("def f", "def _f"), "studies") == []


def test_checker_finds_what_is_too_long() -> None:
    body = "def f():\n" + "    x = 1\n" * 39
    assert length_faults(body) == []
    assert length_faults(body + "    x = 1\n") == ["f has 41 lines without its docstring; at most 40"]
    assert length_faults("x = 1\n" * 300) == []
    assert length_faults("x = 1\n" * 301) == ["301 lines; at most 300"]
