"""A table as bands: columns as wide as what stands in them needs, its head again on every page."""

from __future__ import annotations

from dataclasses import replace

from linelib.papers.bands import CELL, LEADING, MM, WIDTH, Band, Rule, Words, gap, together
from linelib.papers.blocks import Table
from linelib.papers.fonts import width, wrapped

PAD = 4.0  # beside the words of a cell
HIGH = CELL * LEADING
SHORT = 60.0 * MM  # a table of less than that is not cut by the end of a page
WHOLE = 30  # a row of more lines than this may be cut by the end of a page


def table_bands(table: Table) -> list[Band]:
    """The bands of a table.

    Raises: ValueError for a letter the font does not have.
    """
    wide = widths(table)
    head = tuple(replace(band, keep=True) for band in _row(table.head, wide, table, "bold"))
    rows = [replace(band, head=head) for row in table.rows for band in _row(row, wide, table, "plain")]
    if sum(band.height for band in rows) < SHORT:
        rows = together(rows)
    else:  # three rows at its head and two at its end stay together
        last = len(rows) - 1
        rows = [replace(band, keep=i in (0, 1, last - 1) and i < last) for i, band in enumerate(rows)]
    return [gap(2.0, keep=True), *head, *rows, gap(7.0)]


def widths(table: Table) -> list[float]:
    """Width of every column [points], together that of the text.

    By the shares when there are any. Else every column gets its widest word, or an even share if that is wider, and what is
    left goes to those that need more.
    """
    if table.shares:
        return [WIDTH * share / sum(table.shares) for share in table.shares]
    columns = list(zip(table.head, *table.rows, strict=True))
    words = [2 * PAD + max(_width(word, i) for i, cell in enumerate(c) for word in cell.split() or [""]) for c in columns]
    least = [min(one, WIDTH / len(columns)) for one in words]
    wish = [2 * PAD + max(_width(line, i) for i, cell in enumerate(c) for line in cell.split("\n")) for c in columns]
    if sum(wish) <= WIDTH:  # all fits: what is left goes to the last column
        return [*wish[:-1], WIDTH - sum(wish[:-1])]
    left, more = WIDTH - sum(least), [(b - a) ** 0.5 for a, b in zip(least, wish, strict=True)]
    return [a + left * m / sum(more) for a, m in zip(least, more, strict=True)]


def _width(text: str, row: int) -> float:
    return width(text, "plain" if row else "bold", CELL) + 0.1


def _row(cells: tuple[str, ...], wide: list[float], table: Table, style: str) -> list[Band]:
    """One row: one band, or one a line when it is very tall."""
    columns = [wrapped(cell, style, CELL, w - 2 * PAD) for cell, w in zip(cells, wide, strict=True)]
    count = max(map(len, columns))
    if count <= WHOLE:
        least = table.room * MM if style == "plain" else 0.0
        return [_band(columns, wide, 0, count, max(least, count * HIGH + 4.0), table, style)]
    return [_band(columns, wide, i, i + 1, HIGH, table, "" if i < count - 1 else style) for i in range(count)]


def _band(columns: list[list[str]], wide: list[float], first: int, last: int, height: float, table: Table, style: str) -> Band:
    """Lines `first` to `last` of a row; `style` '' is a row that goes on and has no line under it."""
    items: list[Words | Rule] = []
    x = 0.0
    for column, w in zip(columns, wide, strict=True):
        for i, text in enumerate(column[first:last]):
            if text:
                items.append(Words(x + PAD, 2.0 + (i + 0.76) * HIGH, text, "bold" if style == "bold" else "plain", CELL))
        if table.room and x:
            items.append(Rule(x, 0.0, x, height))
        x += w
    if table.room:
        items += [Rule(edge, 0.0, edge, height) for edge in (0.0, WIDTH)]
    if table.room and style == "bold":
        items.append(Rule(0.0, 0.0, WIDTH, 0.0))
    if style:
        items.append(Rule(0.0, height, WIDTH, height, strong=style == "bold"))
    return Band(height, tuple(items))
