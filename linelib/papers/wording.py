"""Words that go on paper: they say something, can be printed, and blame nobody."""

from __future__ import annotations

import re

from linelib.checks import refuse

BLAME = ("fault of", "at fault", "to blame", "negligent", "negligence", "careless", "reckless", "guilty", "should have known")
_BLAME = re.compile(r"\b(" + "|".join(words.replace(" ", r"\s+") for words in BLAME) + r")\b", re.IGNORECASE)


def says(name: str, value: object) -> str:
    """Return `value` when it is a text that says something and holds nothing that cannot be printed.

    Raises: ValueError naming the argument, its value and what is allowed.
    """
    if not isinstance(value, str) or not value.strip():
        raise refuse(name, value, "a text that is not empty")
    return printable(name, value)


def printable(name: str, value: object) -> str:
    """Return `value` when it is a text, empty or not, of letters that can be written to a file.

    Raises: ValueError naming the argument, its value and what is allowed.
    """
    if not isinstance(value, str):
        raise refuse(name, value, "a text")
    for letter in value:
        if (ord(letter) < 32 and letter not in "\n\t") or 0x7F <= ord(letter) < 0xA0 or 0xD800 <= ord(letter) < 0xE000:
            raise refuse(name, value, f"a text without the sign {letter!r}")
    return value


def texts(name: str, values: object, *, empty: bool = True) -> tuple[str, ...]:
    """Return `values` as a tuple of texts that say something; none at all only where `empty`.

    Raises: ValueError naming the argument, its value and what is allowed.
    """
    if isinstance(values, str) or not hasattr(values, "__iter__"):
        raise refuse(name, values, "a tuple of texts")
    found = tuple(says(f"{name}[{i}]", value) for i, value in enumerate(values))
    if not found and not empty:
        raise refuse(name, found, "at least one text")
    return found


def without_blame(name: str, value: str) -> str:
    """Return `value` when it holds none of the words of `BLAME`: a paper says what happened and what made it likely.

    Raises: ValueError naming the argument, its value and the word to leave out.
    """
    found = _BLAME.search(value)
    if found:
        raise refuse(name, value, f"words that blame nobody: what happened and what made it likely, not '{found[0]}'")
    return value
