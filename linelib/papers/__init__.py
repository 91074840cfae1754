"""The papers of an incident: a blank evidence form, a report that can be computed again, a bulletin of one page."""

from linelib.papers.bulletin import bulletin
from linelib.papers.case import CaseFile
from linelib.papers.case_file import open_case, save_case
from linelib.papers.case_parts import Assumption, Cause, Change, Computed, Evidence, NamedSetup, Step
from linelib.papers.evidence_form import evidence_form
from linelib.papers.paper import Form, Heading, Paper, Picture, Points, Table, Text, html_of, pdf_of
from linelib.papers.report import report

__all__ = [
    "Assumption",
    "CaseFile",
    "Cause",
    "Change",
    "Computed",
    "Evidence",
    "Form",
    "Heading",
    "NamedSetup",
    "Paper",
    "Picture",
    "Points",
    "Step",
    "Table",
    "Text",
    "bulletin",
    "evidence_form",
    "html_of",
    "open_case",
    "pdf_of",
    "report",
    "save_case",
]
