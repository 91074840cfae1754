"""The sliders of the lesson on what a crew can know: screen values to a torn line, its signs, and what has to be done."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from linelib.models.lines import GRAVITY
from linelib.models.sag import hang
from linelib.models.seating import STRIPS, Seating
from linelib.models.signs import Noticeable, TearSigns
from linelib.models.tear_signs import tear_signs
from linelib.models.tearing import Remainder, remainder, tear
from linelib.panels.controls import Choice, Control, Slider, Value
from linelib.panels.frame import Reading
from linelib.studies.lesson_rig import lesson_setup
from linelib.studies.seated_strength import Seated
from linelib.studies.stop_rules import NOISE, NOTHING, act_for
from linelib.webbing import Webbing

VISIBLE = 5
FORBIDDEN = "pluck (which nobody may do)"


def tear_signs_controls(table: Mapping[str, Webbing]) -> tuple[Control, ...]:
    """What tore, by how much the rest is longer, sharing length, line length, material; then the folded ones."""
    names = {f"{i} · {webbing.name}": key for i, (key, webbing) in enumerate(table.items(), 1)}
    return (
        Slider(name="torn", words="width torn", unit="%", low=0, high=45, step=5, start=30, si=0.01, digits=0),
        Slider(name="longer", words="rest longer by", unit="mm", low=3, high=40, step=0.5, start=4, si=1e-3),
        Slider(name="sharing", words="sharing length", unit="cm", low=4, high=30, step=1, start=10, si=1e-2, digits=0),
        Slider(name="length", words="line length", unit="m", low=25, high=200, step=1, start=100, digits=0),
        Choice(name="material", words="material", options=names, start="hmpe_25mm"),
        Slider(name="pretension", words="pretension", unit="kN", low=1, high=6, step=0.1, start=3, si=1e3),
        Slider(name="mass", words="walker", unit="kg", low=40, high=120, step=1, start=80, digits=0),
        Slider(name="see_length", words="seen at lock", unit="mm", low=1, high=30, step=1, start=5, si=1e-3, digits=0),
        Slider(name="see_sag", words="seen in the sag", unit="cm", low=1, high=50, step=1, start=10, si=0.01, digits=0),
        Slider(name="see_tension", words="told apart", unit="kN", low=0.05, high=1, step=0.05, start=0.3, si=1e3, digits=2),
        Slider(name="see_time", words="felt in pluck", unit="ms", low=5, high=300, step=5, start=50, si=1e-3, digits=0),
    )


@dataclass(frozen=True, kw_only=True)
class Known:
    """What happened, and what could be noticed of it: `share` torn [-], `strength` of sound webbing and `tore_at` [N]
    (None: nothing tore), what is left, and the signs."""

    share: float
    strength: float
    tore_at: float | None
    left: Remainder
    signs: TearSigns

    @property
    def strip(self) -> tuple[Reading, ...]:
        """The four readings."""
        tore = "–" if self.tore_at is None else f"{self.tore_at / 1e3:.1f} kN"
        most = max(self.signs.each, key=lambda sign: sign.times)
        return (
            Reading("width that carries", f"{100 * self.left.whole_share:.0f} %"),
            Reading("first strip tore at", tore),
            Reading("strength lost, at least", f"{100 * self.lost:.0f} %"),
            Reading("clearest sign, times", f"{most.times:.2f}"),
        )

    @property
    def lost(self) -> float:
        """Share of the sound strength that is lost [-], if the rest sits evenly; seated unevenly, more is lost."""
        return max(1.0 - self.left.strength_left / self.strength, 0.0)

    @property
    def sentence(self) -> str:
        """What the picture shows, and what has to be done."""
        gone = "Nothing is torn here" if self.tore_at is None else f"{100 * self.share:.0f} % of the width is torn"
        if self.tore_at is None and not self.signs.noticeable:
            return f"{gone}; with a third torn a crew may see no more than now. {act_for(state=NOTHING)}"
        times: dict[str, float] = {}
        for sign in self.signs.each:
            name = sign.name.split(",")[0].split(" ")[0]
            times[name] = max(times.get(name, 0.0), sign.times)
        row = ", ".join(f"{FORBIDDEN if name == 'pluck' else name} {value:.2f}" for name, value in times.items())
        told = [name for name, value in times.items() if value >= 1.0 and name != "pluck"]  # nobody plucks a suspect line
        who = " and ".join(told) or "only that"
        verdict = f"{who} could tell, if measured before" if self.signs.noticeable else "none reaches 1, which proves nothing"
        first = f"{gone}. Times what can be noticed: {row}; {verdict}."
        return f"{first} Unknown noise: {act_for(state=NOISE)}"


def known_of(values: Mapping[str, Value], controls: Sequence[Control], table: Mapping[str, Webbing]) -> Known:
    """Tear, remainder and signs for screen values.

    Raises: ValueError naming what is not possible; also when the pull that tears the first strips tears all the rest.
    """
    si = {c.name: float(values[c.name]) * c.si for c in controls if isinstance(c, Slider)}
    web, share = table[str(values["material"])], si["torn"]
    rig = lesson_setup(length=si["length"], material=str(values["material"]), table=table, pretension=si["pretension"]).rig
    seating = Seating(fold_depth=0.5 * si["longer"], folded_share=1.0 - share)
    strips = Seated(webbing=web, seating=seating, sharing_length=si["sharing"]).strips
    torn, load = round(share * STRIPS), si["mass"] * GRAVITY
    tore_at = float(strips.peak_pull[0]) if torn else None
    on = hang(rig=rig, load=load)
    standing = max(on.tension_a, on.tension_b)
    if tore_at is not None:
        _tears_in_a_fall(tore_at, standing)
        after = tear(strips=strips, loads=[tore_at * (1.0 + 1e-9)])[0]
        if not after.held or after.torn != torn:
            raise ValueError(
                f"The first strips tear at {tore_at / 1e3:.1f} kN, and what is left cannot hold that: it tears through.\n"
                "Then there is no time for any sign. The backup has to hold."
            )
    left = remainder(strips=strips, torn=torn, tension=standing)
    limits = Noticeable(length=si["see_length"], sag=si["see_sag"], tension=si["see_tension"], round_trip=si["see_time"])
    signs = tear_signs(rig=rig, length_given_up=left.length_given_up, load=load, noticeable=limits)
    return Known(share=share, strength=web.breaking_strength, tore_at=tore_at, left=left, signs=signs)


def _tears_in_a_fall(tore_at: float, standing: float) -> None:
    """Raises: ValueError when the tight part tears [N] while somebody only stands on the line, which pulls so much [N]."""
    if tore_at <= standing:
        raise ValueError(
            f"So narrow a tight part tears at {tore_at / 1e3:.1f} kN, and the line pulls with {standing / 1e3:.1f} kN\n"
            "while somebody only stands on it: torn before any fall, so nobody has measured it whole.\n"
            "Bad seating is a fault: load off, seat it square."
        )
