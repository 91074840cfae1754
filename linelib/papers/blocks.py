"""What a paper is made of: headings, texts, points, tables, pictures, places to write; checked; nothing of how they look."""

from __future__ import annotations

import io
from dataclasses import dataclass

from PIL import Image

from linelib.checks import number, one_of, refuse
from linelib.papers.wording import printable, says, texts

MOST_ROOM = 200.0  # mm
MOST_COLUMNS, LONGEST_HEAD, LEAST_SHARE = 10, 60, 0.05


@dataclass(frozen=True)
class Heading:
    """A heading of `level` 1 or 2; it never stands alone at the foot of a page."""

    words: str
    level: int = 1

    def __post_init__(self) -> None:
        says("words", self.words)
        if isinstance(self.level, bool) or self.level not in (1, 2):
            raise refuse("level", self.level, "1 or 2")


@dataclass(frozen=True)
class Text:
    """A paragraph; `kind`: 'plain', 'strong', 'lead' that stays with what follows; 'figures' and 'file' have even letters."""

    words: str
    kind: str = "plain"

    def __post_init__(self) -> None:
        says("words", self.words)
        one_of("kind", self.kind, ("plain", "strong", "lead", "figures", "file"))


@dataclass(frozen=True)
class Points:
    """Short sentences, one under the other, each with its dot; with `boxes`, a box to tick instead."""

    words: tuple[str, ...]
    boxes: bool = False

    def __post_init__(self) -> None:
        object.__setattr__(self, "words", texts("words", self.words, empty=False))


@dataclass(frozen=True)
class Table:
    """Rows of texts under a `head`.

    `room` [mm] : least height of a row, for tables to write in; such a table has lines between its columns
    `shares` : widths of the columns [-], in any measure; (): by what stands in them
    """

    rows: tuple[tuple[str, ...], ...]
    head: tuple[str, ...]
    room: float = 0.0
    shares: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        head = texts("head", self.head, empty=False)
        if len(head) > MOST_COLUMNS or max(map(len, head)) > LONGEST_HEAD:
            raise refuse("head", head, f"at most {MOST_COLUMNS} texts of at most {LONGEST_HEAD} letters")
        number("room", self.room, low=0.0, high=MOST_ROOM, unit="mm")
        rows = []
        for i, row in enumerate(self.rows):
            if isinstance(row, str) or len(row) != len(head):
                raise refuse(f"rows[{i}]", row, f"{len(head)} texts, one for each column of the head")
            rows.append(tuple(printable(f"rows[{i}][{j}]", cell) for j, cell in enumerate(row)))
        if not rows:
            raise refuse("rows", self.rows, "at least one row")
        shares = tuple(number(f"shares[{i}]", share, low=0.01, high=1e3) for i, share in enumerate(self.shares))
        if shares and len(shares) != len(head):
            raise refuse("shares", shares, f"{len(head)} numbers, one for each column of the head, or none")
        if shares and min(shares) < LEAST_SHARE * sum(shares):
            raise refuse("shares", shares, f"numbers that are each at least {LEAST_SHARE:g} of their sum")
        for name, value in (("head", head), ("rows", tuple(rows)), ("shares", shares)):
            object.__setattr__(self, name, value)


@dataclass(frozen=True)
class Picture:
    """A picture from the bytes of a PNG file, and the words under it, which also tell those who cannot see it."""

    png: bytes
    words: str

    def __post_init__(self) -> None:
        says("words", self.words)
        size_of(self.png)


@dataclass(frozen=True)
class Form:
    """A question or a name with room to write: `boxes` to tick, then `lines` empty lines."""

    words: str
    lines: int = 1
    boxes: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        says("words", self.words)
        if isinstance(self.lines, bool) or not isinstance(self.lines, int) or not 0 <= self.lines <= 30:
            raise refuse("lines", self.lines, "a whole number from 0 to 30")
        object.__setattr__(self, "boxes", texts("boxes", self.boxes))


Block = Heading | Text | Points | Table | Picture | Form


@dataclass(frozen=True)
class Content:
    """A title and what stands under it.

    `one_page` : it is refused when it does not fit one page; `invented` : every page says that the case is invented
    """

    title: str
    blocks: tuple[Block, ...]
    one_page: bool = False
    invented: bool = False

    def __post_init__(self) -> None:
        says("title", self.title)
        if "\n" in self.title:
            raise refuse("title", self.title, "a text of one line")
        if isinstance(self.blocks, Block) or not hasattr(self.blocks, "__iter__"):
            raise refuse("blocks", self.blocks, "a tuple of Heading, Text, Points, Table, Picture, Form")
        blocks = tuple(self.blocks)
        for i, block in enumerate(blocks):
            if not isinstance(block, Block):
                raise refuse(f"blocks[{i}]", block, "a Heading, Text, Points, Table, Picture or Form")
        object.__setattr__(self, "blocks", blocks)


def size_of(png: object, name: str = "png") -> tuple[int, int]:
    """Width and height of a PNG picture in its own dots.

    Raises: ValueError when the bytes are no whole PNG file.
    """
    allowed = "the bytes of a whole PNG file"
    if not isinstance(png, bytes) or not png.startswith(b"\x89PNG\r\n\x1a\n"):
        raise refuse(name, png[:12] if isinstance(png, bytes) else png, allowed)
    try:
        with Image.open(io.BytesIO(png)) as image:
            image.load()
            return image.size
    except (OSError, SyntaxError, ValueError) as error:
        raise refuse(name, png[:12], allowed) from error
