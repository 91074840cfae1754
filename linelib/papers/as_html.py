"""A paper as one HTML file that opens without a network: pictures inside, no script, no font from elsewhere; A4 in print."""

from __future__ import annotations

from base64 import b64encode
from html import escape

from linelib.cautions import CAUTION, INVENTED
from linelib.papers.blocks import Block, Content, Form, Heading, Picture, Points, Table, Text
from linelib.papers.pages import pages_of
from linelib.papers.style import STYLE

ALONE = "default-src 'none'; img-src data:; style-src 'unsafe-inline'"  # the browser itself asks nobody for anything
SHORT = 6  # rows; such a table is not cut by the end of a page


def html_of(paper: Content) -> str:
    """The text of an HTML file. In print the caution stands at the foot of every page.

    Raises: ValueError when the paper has to fit one page and does not.
    """
    if paper.one_page:
        pages_of(paper)
    title, said = escape(paper.title), f" {escape(INVENTED)}" if paper.invented else ""
    foot = f'<p class="foot"><strong>{escape(CAUTION)}</strong>{said}</p>'
    blocks = "\n".join(_block(block) for block in paper.blocks)
    return f"""<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<meta http-equiv="Content-Security-Policy" content="{ALONE}">
<title>{title}</title>
<style>{STYLE}</style>
</head>
<body>
<table class="paper" role="presentation">
<tfoot><tr><td>{foot}</td></tr></tfoot>
<tbody><tr><td>
<h1>{title}</h1>
{blocks}
</td></tr></tbody>
</table>
</body>
</html>
"""


def _block(block: Block) -> str:
    match block:
        case Heading():
            return f"<h{block.level + 1}>{_words(block.words)}</h{block.level + 1}>"
        case Text(kind="plain" | "strong" | "lead"):
            return f'<p class="{block.kind}">{_words(block.words)}</p>'
        case Text():
            return f'<pre class="{block.kind}">{escape(block.words)}</pre>'
        case Points():
            mark = '<span class="box"></span>' if block.boxes else ""
            rows = "".join(f"<li>{mark}{_words(words)}</li>" for words in block.words)
            return f'<ul class="{"boxes" if block.boxes else "points"}">{rows}</ul>'
        case Table():
            return _table(block)
        case Picture():
            source = f"data:image/png;base64,{b64encode(block.png).decode('ascii')}"
            words = escape(block.words)
            return f'<figure><img src="{source}" alt="{words}"><figcaption>{_words(block.words)}</figcaption></figure>'
        case Form():
            boxes = "".join(f'<span class="tick"><span class="box"></span>{_words(words)}</span>' for words in block.boxes)
            ticks = f'<p class="ticks">{boxes}</p>' if boxes else ""
            return f'<div class="form"><p>{_words(block.words)}</p>{ticks}{"<hr>" * block.lines}</div>'


def _table(table: Table) -> str:
    columns = "".join(f'<col style="width: {100 * share / sum(table.shares):.2f}%">' for share in table.shares)
    head = "".join(f'<th scope="col">{_words(cell)}</th>' for cell in table.head)
    high = f' style="height: {table.room:g}mm"' if table.room else ""
    rows = "\n".join(f"<tr{high}>" + "".join(f"<td>{_words(cell)}</td>" for cell in row) + "</tr>" for row in table.rows)
    kind = ("room" if table.room else "rows") + (" short" if len(table.rows) <= SHORT else "")
    head = f"<colgroup>{columns}</colgroup><thead><tr>{head}</tr></thead>"
    return f'<table class="{kind}">{head}<tbody>\n{rows}\n</tbody></table>'


def _words(words: str) -> str:
    return escape(words).replace("\n", "<br>")
