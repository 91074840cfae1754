"""The style sheet of papers in HTML: plain on the screen, A4 with a caution at the foot of every page in print."""

from __future__ import annotations

from linelib.figures.roles import roles

_LOOK = roles()

STYLE = (
    """
@page { size: A4; margin: 15mm 18mm 12mm;
  @bottom-right { content: "page " counter(page) " of " counter(pages); font: 7.6pt "DejaVu Sans", Verdana, sans-serif; } }
* { box-sizing: border-box; }
body { margin: 0; background: #ececec; color: INK; font: 9.5pt/1.34 "DejaVu Sans", Verdana, sans-serif; }
table { border-collapse: collapse; width: 100%; }
td, th { text-align: left; vertical-align: top; padding: 0; overflow-wrap: anywhere; }
table.paper { max-width: 210mm; margin: 6mm auto; background: PAPER; table-layout: fixed; }
table.paper > tbody > tr > td { padding: 15mm 18mm 4mm; }
table.paper > tfoot > tr > td { padding: 0 18mm 8mm; }
h1 { font-size: 17pt; line-height: 1.25; margin: 0 0 4pt; }
h2 { font-size: 12.5pt; margin: 10pt 0 3pt; }
h3 { font-size: 10.5pt; margin: 6pt 0 3pt; }
h1, h2, h3 { break-after: avoid; }
p { margin: 0 0 4pt; orphans: 2; widows: 2; }
p.lead { break-after: avoid; }
p.strong { font-weight: bold; }
p.foot { border-top: 0.5pt solid FAINT; padding-top: 3pt; margin: 4pt 0 0; font-size: 7.6pt; }
pre { font: 7.9pt/1.34 "DejaVu Sans Mono", monospace; margin: 0 0 5pt; white-space: pre-wrap; overflow-wrap: anywhere; }
pre.file { font-size: 6.6pt; }
ul { margin: 0 0 3pt; padding-left: 13pt; }
ul.boxes { list-style: none; padding-left: 0; }
li { margin-bottom: 2pt; break-inside: avoid; }
ul.boxes li { padding-left: 14pt; text-indent: -14pt; }
table.rows, table.room { margin: 2pt 0 7pt; font-size: 8.5pt; line-height: 1.34; }
table.room { table-layout: fixed; }
.rows th, .rows td, .room th, .room td { padding: 1.5pt 4pt; border-bottom: 0.5pt solid FAINT; }
.rows td, .rows th { overflow-wrap: break-word; }
.room th, .room td { border: 0.5pt solid FAINT; }
.rows thead th, .room thead th { border-bottom: 0.8pt solid INK; }
table.short { break-inside: avoid; }
.rows tr, .room tr { break-inside: avoid; }
thead { display: table-header-group; break-after: avoid; }
figure { margin: 3pt 0 6pt; break-inside: avoid; }
img { max-width: 100%; max-height: 100mm; display: block; }
figcaption { font-size: 8.5pt; }
.rows tr:nth-child(-n+2), .room tr:nth-child(-n+2) { break-after: avoid; }
.form { break-inside: avoid-page; margin-bottom: 6pt; }
.form p { margin: 0; }
.form hr { border: 0; border-bottom: 0.5pt solid FAINT; height: 8mm; margin: 0; }
.ticks .tick { display: inline-block; margin-right: 12pt; }
.box { display: inline-block; width: 8pt; height: 8pt; border: 0.8pt solid INK; margin-right: 6pt; vertical-align: -0.5pt; }
@media print {
  body { background: none; }
  table.paper { margin: 0; max-width: none; }
  table.paper > tbody > tr > td, table.paper > tfoot > tr > td { padding: 0; }
}
""".replace("INK", _LOOK.ink)
    .replace("PAPER", _LOOK.paper)
    .replace("FAINT", _LOOK.faint)
)
