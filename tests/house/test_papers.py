"""The papers as files: HTML that stands alone, PDF whose text can be found, the caution on every page, the same bytes."""

from __future__ import annotations

import io
import re
import subprocess
import sys
from base64 import b64decode
from dataclasses import replace
from html.parser import HTMLParser
from itertools import pairwise

import pytest
from pypdf import PdfReader

from linelib.cautions import CAUTION, HELD, INVENTED, RETENSION
from linelib.papers import Evidence, Paper, Text, bulletin, evidence_form, html_of, pdf_of, report
from linelib.papers.bulletin import believed, known, unknown
from linelib.papers.case_parts import BELIEVED, KINDS
from linelib.papers.form_words import PRESERVE, QUESTIONS
from linelib.papers.rig_text import rig_of
from linelib.papers.versions import content_hash
from tests.house.repository import ROOT
from tests.invented_case import invented_case, picture

PAPERS = {
    "report": lambda: report(case=invented_case()),
    "bulletin": lambda: bulletin(case=invented_case()),
    "evidence form": evidence_form,
}
each = pytest.mark.parametrize("name", PAPERS)
VOID = {"meta", "col", "img", "hr", "br"}


def flat(text: str) -> str:
    return " ".join(text.split())


def pages(paper: Paper) -> list[str]:
    return [flat(page.extract_text()) for page in PdfReader(io.BytesIO(pdf_of(paper))).pages]


class Reader(HTMLParser):
    """Collects tags with their attributes, the text of every <pre>, and refuses tags that do not close in order."""

    def __init__(self, source: str) -> None:
        super().__init__()
        self.tags, self.open, self.files, self.words = [], [], [], []
        self.feed(source)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag, attributes) -> None:
        self.tags.append((tag, dict(attributes)))
        if tag not in VOID:
            self.open.append(tag)
        if tag == "pre":
            self.files.append("")

    def handle_endtag(self, tag) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data) -> None:
        self.words.append(data)
        if self.open[-1:] == ["pre"]:
            self.files[-1] += data


@each
def test_html_asks_nobody_for_anything(name) -> None:
    source = html_of(PAPERS[name]())
    reader = Reader(source)
    assert not re.search(r"https?:|url\(|@import|javascript", source)
    assert not {"script", "link", "iframe", "object", "a"} & {tag for tag, _ in reader.tags}
    links = [value for _, attributes in reader.tags for key, value in attributes.items() if key in ("src", "href", "srcset")]
    assert all(link.startswith("data:image/png;base64,") for link in links)
    assert [tag for tag, _ in reader.tags].count("h1") == 1
    assert flat(CAUTION) in flat(" ".join(reader.words))
    assert (INVENTED in source) == (name != "evidence form")


def test_html_holds_pictures_and_rig_files_as_they_are() -> None:
    case, reader = invented_case(), Reader(html_of(report(case=invented_case())))
    images = [attributes for tag, attributes in reader.tags if tag == "img"]
    assert [b64decode(image["src"].partition(",")[2]) for image in images] == [picture()]
    assert images[0]["alt"].startswith("Weighing")
    rigs = [rig_of(text) for text in reader.files if text.startswith("{")]
    assert rigs == [one.setup for one in case.setups]
    assert len(rigs) == 2
    assert rigs[0] != rigs[1]


def test_signs_of_html_in_words_are_words() -> None:
    odd = '<script>alert("x")</script> & 1 < 2 $x_1$ \\frac'
    reader = Reader(html_of(Paper(odd, (Text(odd), Text(odd, "file")))))
    assert "script" not in {tag for tag, _ in reader.tags}
    assert reader.files == [odd]
    assert odd in pages(Paper(odd, (Text("x"),)))[0]


@each
def test_every_page_of_the_pdf(name) -> None:
    paper = PAPERS[name]()
    assert pdf_of(paper).startswith(b"%PDF")
    found = pages(paper)
    assert len(found) == {"report": 5, "bulletin": 1, "evidence form": 6}[name]
    for i, page in enumerate(found, 1):
        assert flat(CAUTION) in page
        assert f"page {i} of {len(found)}" in page
        assert paper.title in page
        assert (INVENTED in page) == paper.invented
        assert len(page) > 250
    assert paper.invented == (name != "evidence form")
    assert not pages(replace(paper, invented=False))[0].count(INVENTED)


def test_the_report_says_everything() -> None:
    case = invented_case()
    in_pdf, in_html = " ".join(pages(report(case=case))), html_of(report(case=case))
    words = [word for one in case.evidence for word in (one.words.split()[-1], one.source.split()[-1])]
    words += [one.why for one in case.assumptions] + [one.title for one in case.computed] + [one.words for one in case.causes]
    words += [one.against for one in case.causes] + [one.cost for one in case.changes] + [one.name for one in case.setups]
    words += [*case.not_known, content_hash(), "numpy", "scipy", "python", flat(HELD)]
    assert [word for word in words if flat(word) not in in_pdf] == []
    assert [word for word in words if word not in in_html] == []
    assert flat(RETENSION) in in_pdf
    for one in case.changes:  # a change never stands without its cost
        assert in_pdf.index(one.words.split(".")[0][:20]) < in_pdf.index(one.cost)


def test_an_empty_case_says_that_it_is_empty() -> None:
    bare = invented_case(order=(), assumptions=(), computed=(), causes=(), changes=(), setups=(), seed=None)
    text = " ".join(pages(report(case=bare)))
    assert text.count("Nothing was entered here.") == 5
    assert "No rig was entered." in text
    assert "no random numbers were used" in text


def test_the_bulletin_keeps_known_believed_and_unknown_apart() -> None:
    text = pages(bulletin(case=invented_case()))[0]
    heads = ["Known", "Believed, not shown", "Not known", "Who is affected", "What to do now"]
    assert [text.index(head) for head in heads] == sorted(text.index(head) for head in heads)
    shown, thought, open_ends = (text[text.index(a) : text.index(b)] for a, b in pairwise(heads[:4]))
    assert "folded over in the lock" in shown
    assert "Found not to be so: The tail was 2 m long." in shown
    assert "Two sharp noises" in thought
    assert "Among the best supported, not told apart: Worn webbing" in thought
    assert "hard fall" not in text
    assert "Missing: The file of the load cell" in open_ends
    assert "Doubted: The line was much tighter" in open_ends
    assert flat(HELD) in text


def test_each_kind_and_belief_has_its_place() -> None:
    for kind in KINDS:
        for belief in BELIEVED:
            case = invented_case(evidence=(Evidence(kind=kind, words="A thing.", believed=belief),), causes=())
            held = [any("A thing." in sentence for sentence in part(case)) for part in (known, believed, unknown)]
            seen, open_end = kind in ("photographed", "measured"), kind == "missing" or belief == "doubted"
            place = 0 if belief == "wrong" else 2 if open_end else 0 if seen else 1
            assert held == [i == place for i in range(3)], (kind, belief)


def test_the_form_asks_and_keeps() -> None:
    text = " ".join(pages(evidence_form()))
    asked = [*QUESTIONS, *(question for several in QUESTIONS.values() for question in several), *PRESERVE]
    assert [words for words in asked if flat(words) not in text] == []
    for words in ("told", "photographed", "measured", "inferred", "missing"):
        assert words.capitalize() in text
    assert "why did you not" in text
    assert len(re.findall(r"Asked by, and when", text)) == 3


def test_same_case_same_bytes(tmp_path) -> None:
    code = "from tests.invented_case import *; from linelib.papers import *; p = report(case=invented_case()); "
    for i in (1, 2):
        save = "".join(f"p.save({str(tmp_path / f'{i}{end}')!r}); " for end in (".pdf", ".html"))
        environment = {"PYTHONHASHSEED": str(i), "PYTHONPATH": str(ROOT), "MPLBACKEND": "agg", "TZ": f"UTC{i}"}
        subprocess.run([sys.executable, "-c", code + save], check=True, cwd=ROOT, env=environment)
    for end in (".pdf", ".html"):
        assert (tmp_path / f"1{end}").read_bytes() == (tmp_path / f"2{end}").read_bytes()
    assert b"CreationDate" not in (tmp_path / "1.pdf").read_bytes()


def test_the_hash_sees_names_and_contents(tmp_path) -> None:
    (tmp_path / "a.py").write_bytes(b"x = 1\n")
    first = content_hash(tmp_path)
    (tmp_path / "a.py").write_bytes(b"x = 1\r\n")
    assert content_hash(tmp_path) == first
    (tmp_path / "a.py").write_bytes(b"x = 2\n")
    second = content_hash(tmp_path)
    (tmp_path / "a.py").rename(tmp_path / "b.py")
    assert len({first, second, content_hash(tmp_path)}) == 3
