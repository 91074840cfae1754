"""The sliders of the lesson on slip, and what they mean: screen values to a Setup, a series of falls to readings and words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from linelib.cautions import HELD, SLIP
from linelib.models.fall_results import Fall
from linelib.models.lines import GRAVITY
from linelib.models.sag import hang
from linelib.panels.controls import Choice, Control, Slider, Value
from linelib.panels.frame import Reading
from linelib.rigging import Setup
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.outings import Outings
from linelib.webbing import Webbing

VISIBLE = 5
OURS = ("falls", "tail", "fold")  # sliders that change no fall, only what is counted


def slip_controls(table: Mapping[str, Webbing]) -> tuple[Control, ...]:
    """Slip load, number of falls, fold, tail, extra length of the backup; then the folded ones.

    16 kN: what a second-stage lock holds, common practice, no source.
    """
    names = {f"{i} · {webbing.name}": key for i, (key, webbing) in enumerate(table.items(), 1)}
    return (
        Slider(name="slip_load", words="lock B slips at", unit="kN", low=3, high=16, step=0.1, start=6.5, si=1e3),
        Slider(name="falls", words="falls, one by one", unit="", low=1, high=5, step=1, start=4, digits=0),
        Slider(name="fold", words="fold to lock", unit="m", low=0.1, high=1.4, step=0.05, start=0.6, digits=2),
        Slider(name="tail", words="tail", unit="m", low=1.5, high=6, step=0.1, start=1.5),
        Slider(name="extra_length", words="extra length", unit="m", low=0.4, high=3, step=0.05, start=1.0, digits=2),
        Slider(name="pretension", words="pretension", unit="kN", low=1, high=6, step=0.1, start=3, si=1e3),
        Slider(name="length", words="line length", unit="m", low=50, high=200, step=1, start=100, digits=0),
        Slider(name="mass", words="walker's mass", unit="kg", low=50, high=120, step=1, start=80, digits=0),
        Slider(name="leash_length", words="leash length", unit="m", low=1, high=3, step=0.1, start=1.5),
        Choice(name="material", words="material", options=names, start="hmpe_25mm"),
    )


def setup_of(values: Mapping[str, Value], controls: Sequence[Control], table: Mapping[str, Webbing]) -> Setup:
    """The lesson rig before the first fall, with the slip load at B and the backup's extra length.

    Raises: ValueError naming what is not possible.
    """
    si = {c.name: float(values[c.name]) * c.si for c in controls if isinstance(c, Slider) and c.name not in OURS}
    slip_load, extra = si.pop("slip_load"), si.pop("extra_length")
    setup = lesson_setup(material=str(values["material"]), table=table, **si)
    if setup.rig.backup is None:
        raise ValueError("backup = None is not possible; allowed: a line with its backup")
    return replace(setup, rig=replace(setup.rig, slip_load_b=slip_load, backup=replace(setup.rig.backup, extra_length=extra)))


@dataclass(frozen=True, kw_only=True)
class SlipReadings:
    """What the strip says, first and last fall: highest at the anchor, on the person [N], lowest tie-in [m]; paid out in
    these falls [m], left so and re-tensioned; and the sentence under the picture."""

    anchor: tuple[float, float]
    person: tuple[float, float]
    lowest: tuple[float, float]
    paid_out: float
    paid_out_again: float
    falls: int
    sentence: str

    @property
    def strip(self) -> tuple[Reading, ...]:
        """The four readings of the strip."""
        digits = 2 if self.paid_out_again < 9.995 else 1
        first = f"fall 1→{self.falls}" if self.falls > 1 else "fall 1"
        return (
            Reading(f"anchor, {first}", f"{_both(self.anchor, 1e-3, self.falls)} kN"),
            Reading(f"person, {first}", f"{_both(self.person, 1e-3, self.falls)} kN"),
            Reading(f"lowest, {first}", f"{_both(self.lowest, 1.0, self.falls)} m"),
            Reading("paid out: left | re-tens.", f"{self.paid_out:.{digits}f} | {self.paid_out_again:.{digits}f} m"),
        )


def readings_of(left: Outings, again: Outings, holding: Fall, slip_load: float) -> SlipReadings:
    """Numbers and words of the series left as it is, and re-tensioned; `holding` : the fall with a lock that holds."""
    return SlipReadings(
        anchor=(float(left.anchor[0]), float(left.anchor[-1])),
        person=(float(left.person[0]), float(left.person[-1])),
        lowest=(float(left.lowest[0]), float(left.lowest[-1])),
        paid_out=float(left.paid_out.sum()),
        paid_out_again=float(again.paid_out[: len(left.series)].sum()),
        falls=len(left.series),
        sentence=_sentence(left, holding, slip_load),
    )


def _sentence(left: Outings, holding: Fall, slip_load: float) -> str:
    if left.paid_out.sum() <= 0.0:
        peak = max(holding.peak_tension_a, holding.peak_tension_b)
        return f"The peak, {peak / 1e3:.1f} kN, stays under {slip_load / 1e3:.1f} kN: no slip in this model. {HELD}"
    spent = f"{left.line_longer[-1]:.2f} m paid out: tail {left.tail_left[-1]:.2f} m, "
    spent += f"backup's extra {left.backup_left[-1]:.2f} m left"
    if left.ended:
        why = "the tail would run out" if left.ended == "tail" else "the backup would pull first"
        spent += f"; in fall {left.ended_in} {why}, so the series ends"
    elif left.fold_in:
        spent += f"; the fold is in the lock since fall {left.fold_in}"
    else:
        spent += f"; the fold is {left.fold_to_lock[-1]:.2f} m from the lock"
    return f"{spent}. Re-tensioned, the lock slips anew in every fall. {SLIP}"


def _both(values: tuple[float, float], factor: float, count: int) -> str:
    first, last = (f"{v * factor:.1f}" for v in values)
    return f"{first}→{last}" if count > 1 else first


def slips_standing(setup: Setup) -> str:
    """Why no fall is computed: the lock slips while the walker only stands."""
    weight = (setup.walker.mass + setup.leash.ring_mass) * GRAVITY
    pull = hang(rig=setup.rig, load=weight, position=setup.walker.position).tension_b
    load = setup.rig.slip_load_b or 0.0
    return (
        f"The lock at B slips at {load / 1e3:.1f} kN, and the line pulls there with {pull / 1e3:.1f} kN\n"
        f"while somebody only stands on it: webbing runs through before anybody falls.\n{SLIP}"
    )
