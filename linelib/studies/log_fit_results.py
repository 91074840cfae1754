"""Results of a fit to a log: settings with their uncertainties, and what they were read from."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linelib.rigging import Setup
from linelib.studies.log_part import Part

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Estimate:
    """One fitted setting: name in SETTINGS, value in its unit, relative standard uncertainty [-], 90 % interval, whether the
    fit stopped at the end of its reach."""

    name: str
    value: float
    error: float
    low: float
    high: float
    at_end: bool


@dataclass(frozen=True, kw_only=True)
class Fit:
    """A fall model fitted to a log.

    estimates; start, start_error [s] : stepping off; setup : Setup with the fitted values; peak, peak_error [N] : true peak
    at the anchor in the fitted fall; correlation (n, n) and condition [-] of the settings and, last, the start
    noise, scatter [N] : of one sample at rest, of the residuals; together [-] : see log_fit.py; misfit [-] : sum of squares
    part : what of the log was used; modelled [N], (samples,) : the fitted fall through the cell
    """

    estimates: tuple[Estimate, ...]
    start: float
    start_error: float
    setup: Setup
    peak: float
    peak_error: float
    correlation: Array
    condition: float
    noise: float
    scatter: float
    together: float
    misfit: float
    part: Part
    modelled: Array
    anchor: str
