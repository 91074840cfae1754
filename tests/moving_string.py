"""A string at rest with nobody on it, as a chain ready for linelib's march: for frequencies and waves.

The ring is an ordinary node in the middle. A walker of 10 kg falls beside the string on a leash of 10 m from 3 m above it
and leaves it alone for sqrt(2 * 13 m / g) = 1.6 s.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from linelib.models.chain import Chain, chain_of
from linelib.models.law_table import table_of
from linelib.models.sides import Sides
from linelib.rigging import Setup
from linelib.webbing import Webbing
from tests.setups import GRAVITY, one_webbing, reference_setup

ALONE = 1.6  # s


def nobody(webbing: Webbing) -> Setup:
    """What the march asks for beside the chain: a walker who stays away from the string for 1.6 s."""
    aside = {"mass": 10.0, "standing_height": 3.0}
    return reference_setup(one_webbing(webbing), leash={"length": 10.0}, walker=aside, air_density=0.0)


def string_at_rest(webbing: Webbing, *, span: float, pull: float, elements: int, mass_x: float = 1e9) -> Chain:
    """`webbing` between two level anchors under the horizontal `pull` [N]: half of the `elements` on each side, no ring.

    Heights are the exact polygon of equal node weights, z = -w x (span - x) / (2 pull). The time step is 0.3 of an element
    over wave speed. The middle node does not move along the line in what is tested: so large is its mass there, `mass_x`
    [kg], that the step need not resolve it.
    """
    half, run, stiffness = elements // 2, span / elements, float(webbing.stiffness or np.nan)
    strain = pull / stiffness
    weight = webbing.mass_per_length * GRAVITY / (1.0 + strain)
    x = np.linspace(0.0, span, elements + 1)
    z = -weight * x * (span - x) / (2.0 * pull)
    side = float(np.hypot(run, np.diff(z[: half + 1])).sum())
    mass = webbing.mass_per_length * side / (1.0 + strain) / half  # of one element
    tension = pull * side / (0.5 * span)
    node = np.pad(np.full((elements - 1, 1), mass), ((1, 1), (0, 0)))  # anchors do not move
    one = np.ones((1, 2, 1))
    natural = side / (1.0 + strain) * one
    sides = Sides(
        table=table_of((webbing,)),
        length=natural,
        mass=webbing.mass_per_length * natural,
        width=webbing.width * one,
        law=np.zeros((1, 2, 1), dtype=np.intp),
        ratio=one,
        relaxation=one,
        loss=0.0 * one,
        fails=np.zeros((1, 2, 1), dtype=bool),
    )
    return replace(
        chain_of([nobody(webbing)]),
        sides=sides,
        span=np.array([span]),
        rise=np.zeros(1),
        ring=half,
        share=np.full((elements, 1), 1.0 / half),
        z=z[:, None],
        ring_x=np.array([0.5 * span]),
        mass=node,
        mass_x=np.array([mass_x]),
        drag=np.zeros((elements + 1, 1)),
        tension=np.full((2, 1), tension),
        natural=np.full((2, 1), side - side / (1.0 + strain) * tension / stiffness),
        loss=np.zeros((2, 1)),
        step=np.array([0.3 * np.sqrt(run * mass / pull)]),
    )
