"""linelib: sag, stretch and fall models of a highline, for teaching. A teaching model: it approves no rig.

SI units; every physical argument by keyword; all descriptions are frozen dataclasses, changed with `dataclasses.replace`.
"""

from linelib.cautions import CAUTION
from linelib.models.backup_reserve import least_extra_length
from linelib.models.clearance import clearance_left
from linelib.models.fall_energy import FallEnergy, fall_energy
from linelib.models.fall_in_time import fall, falls
from linelib.models.fall_results import Fall, Falls
from linelib.models.sag import State, hang
from linelib.models.stretch import law_of
from linelib.models.weightless_v import weightless_v
from linelib.rig_file import open_rig, save_rig
from linelib.rigging import Backup, Failure, Leash, Rig, Segment, Setup, Tear, Walker
from linelib.tables import webbing, webbings
from linelib.webbing import Webbing

__all__ = [
    "CAUTION",
    "Backup",
    "Failure",
    "Fall",
    "FallEnergy",
    "Falls",
    "Leash",
    "Rig",
    "Segment",
    "Setup",
    "State",
    "Tear",
    "Walker",
    "Webbing",
    "clearance_left",
    "fall",
    "fall_energy",
    "falls",
    "hang",
    "law_of",
    "least_extra_length",
    "open_rig",
    "save_rig",
    "webbing",
    "webbings",
    "weightless_v",
]
