"""A paper that can be saved: one command, HTML or PDF by the end of its name."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from linelib.checks import refuse
from linelib.papers.as_html import html_of
from linelib.papers.as_pdf import pdf_of
from linelib.papers.blocks import Block, Content, Form, Heading, Picture, Points, Table, Text

__all__ = ["Block", "Form", "Heading", "Paper", "Picture", "Points", "Table", "Text", "html_of", "pdf_of"]


@dataclass(frozen=True)
class Paper(Content):
    """A title and blocks: Paper(title, blocks, one_page=False, invented=False)."""

    def save(self, path: str | Path) -> None:
        """Write the paper to `path`, which ends in .html or .pdf. Nothing is written when it is refused.

        Raises: ValueError for another ending, or a paper that does not fit its one page; OSError when the file cannot be
        written.
        """
        file = Path(path)
        if file.suffix not in (".html", ".pdf"):
            raise refuse("path", str(path), "a name that ends in .html or .pdf")
        file.write_bytes(pdf_of(self) if file.suffix == ".pdf" else html_of(self).encode())
