"""The boundary of two choices where it is known: a circle, a straight line, a saddle, a corner without an answer, none."""

from __future__ import annotations

import numpy as np
import pytest

from linelib.studies.boundary import boundary

GRID = np.linspace(0.0, 4.0, 9)


def points(found):
    return np.array([point for piece in found.pieces for point in piece])


def ends(found):
    """Points in which an odd number of pieces meet: where the boundary begins or ends."""
    where, count = np.unique(np.round(points(found), 9), axis=0, return_counts=True)
    return where[count % 2 == 1]


def test_a_circle_is_closed_and_every_point_lies_on_it():
    found = boundary(outcome=lambda x, y: (x - 2.0) ** 2 + (y - 2.0) ** 2, limit=1.7**2, x=GRID, y=GRID)
    assert np.hypot(*(points(found) - 2.0).T) == pytest.approx(np.full(2 * len(found.pieces), 1.7), rel=1e-3)
    assert len(ends(found)) == 0
    around = sum(np.hypot(b[0] - a[0], b[1] - a[1]) for a, b in found.pieces)
    assert around == pytest.approx(2.0 * np.pi * 1.7, rel=0.02)
    assert around < 2.0 * np.pi * 1.7  # chords


def test_a_straight_line_runs_from_edge_to_edge():
    found = boundary(outcome=lambda x, y: x + 2.0 * y, limit=5.0, x=GRID, y=GRID)
    assert points(found) @ [1.0, 2.0] == pytest.approx(np.full(2 * len(found.pieces), 5.0), rel=2e-4)
    assert ends(found) == pytest.approx(np.array([[0.0, 2.5], [4.0, 0.5]]), abs=1e-3)
    assert found.outcome[3, 2] == pytest.approx(GRID[2] + 2.0 * GRID[3])  # rows are y


def test_a_saddle_is_joined_by_its_middle():
    """(x - 1)(y - 1) = s on one cell about (1, 1): for s > 0 one branch cuts off the lowest corner and one the highest."""
    square = np.array([0.0, 2.0])
    for shift, low_with_right in ((0.1, False), (-0.1, True)):
        found = boundary(outcome=lambda x, y, s=shift: 5.0 + s - (x - 1.0) * (y - 1.0), limit=5.0, x=square, y=square)
        assert len(found.pieces) == 2
        low = next(p for p in found.pieces if min(p[0][1], p[1][1]) == 0.0)
        assert (max(low[0][0], low[1][0]) == 2.0) == low_with_right


def test_a_corner_without_an_answer_ends_the_boundary():
    def outcome(x, y):
        return np.where(x > 2.6, np.nan, x + 2.0 * y)

    found = boundary(outcome=outcome, limit=5.0, x=GRID, y=GRID)
    assert points(found)[:, 0].max() <= 2.5
    assert np.isnan(found.outcome[:, -1]).all()


@pytest.mark.parametrize("limit", [0.5, 99.0])
def test_no_boundary(limit):
    found = boundary(outcome=lambda x, y: 1.0 + x + y, limit=limit, x=GRID, y=GRID)
    assert found.pieces == ()


def test_a_jump_is_found_where_it_is():
    found = boundary(outcome=lambda x, y: np.where(x < 1.3, 1.0, 9.0) + 0.0 * y, limit=5.0, x=GRID, y=GRID)
    assert points(found)[:, 0] == pytest.approx(np.full(2 * 8, 1.3), abs=1e-5)


@pytest.mark.parametrize(
    "changes, head",
    [({"limit": None}, "limit = None"), ({"x": [1.0, 1.0]}, "x = "), ({"y": [2.0]}, "y = "), ({"y": 3.0}, "y = ")],
)
def test_refusals(changes, head):
    with pytest.raises(ValueError, match="is not possible; allowed: ") as refusal:
        boundary(**{"outcome": lambda x, y: x + y, "limit": 2.0, "x": GRID, "y": GRID, **changes})
    assert str(refusal.value).startswith(head)
