"""The panel on what would have kept a limit of your own: every choice alone, and two together."""

from __future__ import annotations

from dataclasses import dataclass

import ipywidgets
import numpy as np

from linelib.checks import number, one_of
from linelib.figures.cost_curves import Drawn
from linelib.figures.kept_figure import HEIGHT, WIDTH
from linelib.figures.keeping_figure import VIEWS, KeepingFigure
from linelib.figures.outcome_roles import role_of
from linelib.panels import keeping_settings as settings
from linelib.panels.controls import Value
from linelib.panels.frame import Reading
from linelib.panels.panel import Panel
from linelib.panels.which_choice_settings import numbers_of
from linelib.studies.boundary import Boundary, boundary, of_two
from linelib.studies.case_rig import LINKS, Numbers, case_knobs, case_lists, case_rig
from linelib.studies.keeping import Keeping, keeping
from linelib.studies.keeping_words import keeping_text
from linelib.studies.knobs import Knob
from linelib.studies.outcome_words import number_of, shown, unit, words_of
from linelib.studies.outcomes import ANCHOR_A, DROP, PERSON
from linelib.tables import webbings
