"""A paper as PDF: every page drawn from its words, lines and pictures; the same paper gives the same bytes."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
from matplotlib import rc_context
from matplotlib.backends.backend_pdf import PdfPages
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from PIL import Image

from linelib.figures.roles import roles
from linelib.papers.bands import Placed, Rule, Words
from linelib.papers.blocks import Content
from linelib.papers.fonts import face
from linelib.papers.pages import PAPER, Page, pages_of

LETTERS_AS_TEXT: dict[Any, Any] = {
    "pdf.fonttype": 42,
    "pdf.compression": 6,
    "pdf.use14corefonts": False,
    "image.composite_image": False,
}


def pdf_of(paper: Content) -> bytes:
    """The bytes of a PDF file of A4 pages: letters are text that can be searched and copied, and no date stands in it.

    Raises: ValueError when the paper does not fit the one page it has to fit; for a letter the font does not have.
    """
    about = {"Title": paper.title, "Creator": "linelib", "CreationDate": None}
    pages, out = pages_of(paper), io.BytesIO()
    with rc_context(LETTERS_AS_TEXT), PdfPages(out, metadata=about) as file:
        for page in pages:
            file.savefig(_drawn(page))
    return out.getvalue()


def _drawn(page: Page) -> Figure:
    across, up = PAPER
    look = roles()
    figure = Figure(figsize=(across / 72.0, up / 72.0), dpi=72, facecolor=look.paper)
    for item in page.items:
        if isinstance(item, Words):
            place = (item.x / across, 1.0 - item.y / up)
            figure.text(*place, item.text, font=face(item.style), fontsize=item.size, color=look.ink, parse_math=False)
        elif isinstance(item, Rule):
            x, y = [item.x / across, item.to_x / across], [1.0 - item.y / up, 1.0 - item.to_y / up]
            colour, width = (look.ink, 0.8) if item.strong else (look.faint, 0.5)
            figure.add_artist(Line2D(x, y, color=colour, linewidth=width))
        else:
            _put(figure, item)
    return figure


def _put(figure: Figure, item: Placed) -> None:
    across, up = PAPER
    box = (item.x / across, 1.0 - (item.y + item.height) / up, item.width / across, item.height / up)
    with Image.open(io.BytesIO(item.png)) as image:
        pixels = np.asarray(image.convert("RGBA"))
    axes = figure.add_axes(box)
    axes.set_axis_off()
    axes.imshow(pixels, aspect="auto", interpolation="none")
