"""A log, its falls and a fit as a still sheet: picture and words, for a notebook or for print."""

from __future__ import annotations

from linelib.checks import instance
from linelib.figures.log_figure import LogFigure
from linelib.panels.frame import Sheet
from linelib.studies.log_falls import LoggedFalls
from linelib.studies.log_fit_results import Fit
from linelib.studies.log_fit_words import fit_text
from linelib.studies.log_words import falls_text


def log_sheet(found: LoggedFalls, fit: Fit | None = None, *, paper: str = "light") -> Sheet:
    """Picture and words of a log; with a Fit, of the fit too.

    Raises: ValueError for anything else.
    """
    instance("found", found, LoggedFalls)
    if fit is not None:
        instance("fit", fit, Fit)
    figure = LogFigure(paper=paper)
    figure.draw(found, fit)
    words = falls_text(found) if fit is None else fit_text(fit, found.log)
    return Sheet(figure.png(), words)
