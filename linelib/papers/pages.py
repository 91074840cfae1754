"""From bands to pages of A4: what stays together, and on every page the caution, the title and the number of the page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil, inf

from linelib.cautions import CAUTION, INVENTED
from linelib.papers.bands import BODY, LEADING, MM, WIDTH, Band, Placed, Rule, Words, gap, heading_bands, plain_bands
from linelib.papers.blocks import Content, Table
from linelib.papers.fonts import width, wrapped
from linelib.papers.table_bands import table_bands

PAPER = (210.0 * MM, 297.0 * MM)
LEFT = (PAPER[0] - WIDTH) / 2
TOP, FOOT = 18.0 * MM, 24.0 * MM
HEIGHT = PAPER[1] - TOP - FOOT
SMALL = 7.6


@dataclass(frozen=True)
class Page:
    """What stands where on one page, in points from its left upper corner."""

    items: tuple[Words | Rule | Placed, ...]


def pages_of(paper: Content) -> list[Page]:
    """The pages of a paper.

    Raises: ValueError when it has to fit one page and does not, saying by how much; for a letter the font does not have.
    """
    bands = [*heading_bands(paper.title, 0), gap(3.0)]
    for block in paper.blocks:
        bands += table_bands(block) if isinstance(block, Table) else plain_bands(block)
    filled = filled_pages(bands, HEIGHT)
    if paper.one_page and len(filled) > 1:
        over = _height(filled_pages(bands, inf)[0]) - HEIGHT
        lines = ceil(over / (BODY * LEADING))
        raise ValueError(
            f"'{paper.title}' is {ceil(over / MM)} mm too long for its one page, about {lines} "
            f"line{'s' if lines > 1 else ''} of text; allowed: {HEIGHT / MM:.0f} mm of A4"
        )
    return [_page(bands, i, len(filled), paper) for i, bands in enumerate(filled, 1)]


def filled_pages(bands: Sequence[Band], room: float) -> list[list[Band]]:
    """`bands` shared out to pages of `room` [points]: what is kept together goes to the next page together, if it fits one."""
    pages: list[list[Band]] = [[]]
    for group in _groups(bands):
        if pages[-1] and _height(pages[-1]) + _height(group) > room:
            pages.append(list(group[0].head))
        for band in group:
            if band.gap and not pages[-1]:
                continue
            if pages[-1] and _height(pages[-1]) + band.height > room and not band.gap:
                pages.append(list(band.head))
            pages[-1].append(band)
    while len(pages) > 1 and all(band.gap for band in pages[-1]):
        pages.pop()
    return [_trimmed(page) for page in pages]


def _trimmed(page: list[Band]) -> list[Band]:
    """Without the empty space at its end."""
    while page and page[-1].gap:
        page = page[:-1]
    return page


def _groups(bands: Sequence[Band]) -> Iterator[list[Band]]:
    group: list[Band] = []
    for band in bands:
        group.append(band)
        if not band.keep:
            yield group
            group = []
    if group:
        yield group


def _height(bands: Sequence[Band]) -> float:
    return sum(band.height for band in bands)


def _page(bands: Sequence[Band], place: int, count: int, paper: Content) -> Page:
    items: list[Words | Rule | Placed] = list(_foot(paper, place, count))
    y = TOP
    for band in bands:
        items += [_moved(item, LEFT, y) for item in band.items]
        y += band.height
    return Page(tuple(items))


def _moved(item: Words | Rule | Placed, x: float, y: float) -> Words | Rule | Placed:
    if isinstance(item, Rule):
        return replace(item, x=item.x + x, y=item.y + y, to_x=item.to_x + x, to_y=item.to_y + y)
    return replace(item, x=item.x + x, y=item.y + y)


def _foot(paper: Content, place: int, count: int) -> Iterator[Words | Rule]:
    """The caution, and under it the title, whether the case is invented, and the number of the page."""
    y = PAPER[1] - FOOT + 16.0
    yield Rule(LEFT, y, LEFT + WIDTH, y)
    for i, row in enumerate(wrapped(CAUTION, "bold", SMALL, WIDTH)):
        yield Words(LEFT, y + 11.0 + 10.0 * i, row, "bold", SMALL)
    y += 12.0 + 10.0 * len(wrapped(CAUTION, "bold", SMALL, WIDTH))
    number = f"page {place} of {count}"
    room = width(number, "plain", SMALL)
    said = f"{INVENTED} " if paper.invented else ""
    title = wrapped(said + paper.title, "plain", SMALL, WIDTH - room - 20.0)
    yield Words(LEFT, y, title[0] + (" ..." if len(title) > 1 else ""), "plain", SMALL)
    yield Words(LEFT + WIDTH - room, y, number, "plain", SMALL)
