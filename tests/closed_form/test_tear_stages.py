"""Stages of a tearing sequence: closed forms of a step and of an even spread, and the stages the models take one by one."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from linelib.models.bundle import scattered
from linelib.models.seated_strips import strips_of
from linelib.models.tearing import tear
from linelib.models.torn_in_fall import torn_in_fall
from linelib.studies.rival_explanations import BEFORE, GROUP, OVERLOAD, UNEVEN, WEAKER, rivals
from linelib.studies.tear_stages import COUNT, Stages, seated_stages
from linelib.tables import webbings
from tests.setups import straight

WEB = straight(1.2e6, breaking_strength=36e3)  # breaks at 3 %
HMPE = webbings()["hmpe_25mm"]


def test_a_tight_quarter_out_of_reach() -> None:
    """A quarter of the strength tears it, three quarters are left."""
    found = seated_stages(webbing=WEB, tight=[0.25, 0.4], slack=None, spread=0.0, sharing_length=[0.1, 0.05])
    assert found.load == pytest.approx(np.array([[0.25, 0.75], [0.4, 0.6]]))
    assert found.torn == pytest.approx(np.array([[0.0, 0.25], [0.0, 0.4]]))
    assert found.carries == pytest.approx(np.array([[0.25, 0.75], [0.4, 0.6]]))


def test_a_rest_within_reach_shares_the_load() -> None:
    """Breaking stretch 3 mm, the rest longer by 1.2: when the tight 0.3 tears the rest carries 0.6 of its strength.

    0.3 + 0.7 * 0.6 = 0.72, more than the 0.7 of the rest: it parts at once. Longer by 1.8 mm: 0.3 + 0.7 * 0.4 = 0.58, then 0.7.
    """
    found = seated_stages(webbing=WEB, tight=0.3, slack=[1.2e-3, 1.8e-3], spread=0.0, sharing_length=0.1)
    assert found.load == pytest.approx(np.array([[0.72, 0.72], [0.58, 0.70]]))
    assert found.carries == pytest.approx(np.array([[1.0, 1.0], [1.0, 0.7]]))
    assert found.torn == pytest.approx(np.array([[0.0, 0.0], [0.0, 0.3]]))


@pytest.mark.parametrize(("ratio", "left"), [(0.5, 0.75), (1.0, 0.5), (2.0, 0.25)])
def test_an_even_spread_of_the_rest(ratio, left) -> None:
    """1 - r/2 and 1/(2 r) of the rest, closed form of infinitely many strips; of 36 strips the sum, strip by strip."""
    found = seated_stages(webbing=WEB, tight=0.1, slack=None, spread=3e-3 * ratio, sharing_length=0.1)
    stretched = [1.0 - ratio * i / 35 for i in range(36)]  # over the breaking stretch, when the first of them tears
    assert found.load[0] == pytest.approx([0.1, sum(max(s, 0.0) for s in stretched) / 40], rel=1e-9)
    assert found.load[0, 1] == pytest.approx(0.9 * left, rel=0.05)
    assert found.torn[0, 1] == 0.1
    assert found.carries[0, 1] == pytest.approx(sum(s > 1e-9 for s in stretched) / 40)


def test_a_rest_weaker_than_the_tight_share_is_no_stage() -> None:
    """r = 2 leaves 0.75 * 0.25 = 0.19 of the rest, less than the tight quarter tore at: it parts at 0.25."""
    found = seated_stages(webbing=WEB, tight=0.25, slack=None, spread=6e-3, sharing_length=0.1)
    assert found.load == pytest.approx(np.array([[0.25]]))


@pytest.mark.parametrize("variation", [0.0, 0.1])
@pytest.mark.parametrize(("tight", "slack", "spread"), [(0.2, 2e-3, 0.0), (0.35, 1.2e-3, 0.0), (0.25, 6e-3, 3e-3)])
def test_stages_are_those_of_a_fall_and_of_loads_one_by_one(tight, slack, spread, variation) -> None:
    """The same strips laid out by hand: models/torn_in_fall gives the same loads, models/tearing the same torn shares."""
    first = round(tight * COUNT)
    rest = slack + spread * np.arange(COUNT - first) / (COUNT - first - 1)
    strips = strips_of(
        webbing=HMPE,
        difference=[0.0] * first + list(rest),
        sharing_length=0.1,
        stiffening=HMPE.fast_ratio,
        strengths=scattered(count=COUNT, variation=variation),
    )
    found = seated_stages(webbing=HMPE, tight=tight, slack=slack, spread=spread, sharing_length=0.1, variation=variation)
    failure = torn_in_fall(strips=strips, bay=0)
    newtons = list(dict.fromkeys(found.load[0] * HMPE.breaking_strength))
    assert newtons == pytest.approx([*(one.tension for one in failure.tears), failure.tension], rel=1e-9)
    assert len(newtons) > 1
    states = tear(strips=strips, loads=[1.000001 * load for load in newtons])
    assert [state.held for state in states] == [True] * (len(newtons) - 1) + [False]
    assert [state.torn / COUNT for state in states[:-1]] == pytest.approx(found.torn[0, 1 : len(newtons)])


def test_rows_keep_their_order_and_repeat_their_last_stage() -> None:
    rows = {"tight": [0.5, 0.25, 0.5, 0.1], "slack": [5e-3, 5e-3, 0.0, 5e-3], "sharing_length": 0.1, "spread": 0.0}
    found = seated_stages(webbing=WEB, **rows)
    assert found.load == pytest.approx(np.array([[0.5, 0.5], [0.25, 0.75], [1.0, 1.0], [0.1, 0.9]]))
    again = seated_stages(webbing=WEB, **{**rows, "tight": rows["tight"][::-1], "slack": rows["slack"][::-1]})
    assert np.array_equal(again.load, found.load[::-1])


def test_lessened_by_hand() -> None:
    """Half the strength on 0.8 of the width: 0.25 * 0.5 * 0.8 = 0.1; torn 0.2 before, 0.2 + 0.8 * 0.25 = 0.4 after."""
    plain = Stages(load=[[0.25, 0.75]], torn=[[0.0, 0.25]], carries=[[0.25, 0.75]])
    found = plain.lessened(left=0.5, gone=0.2)
    assert found.load == pytest.approx(np.array([[0.1, 0.3]]))
    assert found.torn == pytest.approx(np.array([[0.2, 0.4]]))
    assert found.carries == pytest.approx(np.array([[0.2, 0.6]]))


def test_the_five_rivals_differ_as_their_words_say() -> None:
    listed = {one.name: one for one in rivals(webbing=HMPE)}
    assert list(listed) == [GROUP, UNEVEN, WEAKER, BEFORE, OVERLOAD]
    group = listed[GROUP]
    for name, keeps in ((WEAKER, listed[WEAKER].grid["left"]), (BEFORE, 1.0 - listed[BEFORE].grid["gone"])):
        one = listed[name]
        last = len(one.ranges[-1].values)
        assert one.stages.load == pytest.approx(np.repeat(group.stages.load, last, axis=0) * keeps[:, None])
        assert [r.name for r in one.ranges[:3]] == ["tight", "slack", "sharing"]
    assert listed[WEAKER].stages.torn == pytest.approx(np.repeat(group.stages.torn, 11, axis=0))
    assert listed[BEFORE].stages.torn[:, 0] == pytest.approx(listed[BEFORE].grid["gone"])
    assert listed[OVERLOAD].stages.load[:, 0] == pytest.approx([1.0, 0.8, 1 / 1.5, 1 / 1.75, 0.5])
    assert group.stages.load[:, -1].min() > 0.49  # of a sound rest at least half is left
    assert listed[UNEVEN].stages.load[:, -1].min() < 0.2


def test_a_cell_in_words() -> None:
    one = rivals(webbing=replace(HMPE, breaking_strength=30e3))[0]
    at = int(np.flatnonzero((one.grid["tight"] == 0.25) & (one.grid["slack"] == 2e-3) & (one.grid["sharing"] == 0.2))[0])
    assert one.cell(at) == "tight share 25 %, rest longer by 2 mm, sharing length 20 cm"
    assert [r.ends for r in one.ranges] == ["tight share 10 to 50 %", "rest longer by 1 to 5 mm", "sharing length 5 to 20 cm"]
