"""Webbing: what the line is made of."""

from __future__ import annotations

from dataclasses import dataclass

from linelib.checks import number, refuse, rising


@dataclass(frozen=True, kw_only=True)
class Webbing:
    """One kind of webbing, by fibre and width.

    Either `stiffness` (straight law, tension = stiffness * strain) or a table `strain`, `tension` of a slow pull.
    A fast pull is stiffer: the standard linear solid with `fast_ratio` and `relaxation_time` (models/stretch.py).

    Parameters
    ----------
    name : words for the screen
    mass_per_length [kg/m], width [m], breaking_strength [N]
    stiffness [N] : tension per unit strain, EA
    strain [-], tension [N] : table of a slow pull, both rising; the origin is added when it is missing
    fast_ratio [-] : stiffness at once over stiffness when pulled slowly, 1 = no difference
    relaxation_time [s] : time in which the extra stiffness fades
    loss_time [s] : plain dashpot, tension = K (stretch + loss_time * stretch rate)

    Raises
    ------
    ValueError : name, value and allowed range of the first argument that is not possible.
    """

    name: str
    mass_per_length: float
    width: float
    breaking_strength: float
    stiffness: float | None = None
    strain: tuple[float, ...] | None = None
    tension: tuple[float, ...] | None = None
    fast_ratio: float = 1.0
    relaxation_time: float = 0.5
    loss_time: float = 0.002

    def __post_init__(self) -> None:
        if not isinstance(self.name, str) or not self.name:
            raise refuse("name", self.name, "some words")
        number("mass_per_length", self.mass_per_length, low=1e-9, high=100.0, unit="kg/m")
        number("width", self.width, low=1e-4, high=1.0, unit="m")
        number("breaking_strength", self.breaking_strength, low=1.0, high=1e15, unit="N")
        number("fast_ratio", self.fast_ratio, low=1.0, high=20.0)
        number("relaxation_time", self.relaxation_time, low=1e-3, high=1e9, unit="s")
        number("loss_time", self.loss_time, low=0.0, high=0.1, unit="s")
        if (self.stiffness is None) == (self.strain is None):
            raise refuse("stiffness", self.stiffness, "either a stiffness in N or a table of strain and tension, not both")
        if self.stiffness is not None:
            number("stiffness", self.stiffness, low=1.0, high=1e15, unit="N")
        self._check_table()

    def _check_table(self) -> None:
        if (self.strain is None) != (self.tension is None):
            raise refuse("tension", self.tension, "as many numbers as strain has")
        if self.strain is None or self.tension is None:
            return
        strain, tension = rising("strain", self.strain), rising("tension", self.tension, unit="N")
        if len(strain) != len(tension):
            raise refuse("tension", tension, f"as many numbers as strain has, {len(strain)}")
        if (strain[0] == 0.0) != (tension[0] == 0.0):
            raise refuse("strain", strain, "0 exactly where the tension is 0")
        object.__setattr__(self, "strain", strain)
        object.__setattr__(self, "tension", tension)
