"""The files speak of lines, falls and lessons, not of how the work on them is organised."""

from __future__ import annotations

import re

from tests.house.repository import files, text

# Kept in pieces, so that this file does not find itself.
PIECES = (("seed", "document"), ("sub", "agent"), ("this", "session"))
WORDS = re.compile("|".join(r"[\s_-]*".join(pieces) for pieces in PIECES), re.IGNORECASE)


def test_no_word_about_the_work() -> None:
    read = {name: text(name) for name in files()}
    assert sum(content is not None for content in read.values()) > 20
    found = {name: match[0] for name, content in read.items() if content and (match := WORDS.search(content))}
    assert found == {}


def test_the_words_are_found() -> None:
    for pieces in PIECES:
        assert WORDS.search(f"a {' '.join(pieces).upper()} b")
    assert not WORDS.search("seeds, documents and sessions")
