"""Words for Bayes factors: Kass & Raftery (1995), Bayes Factors, J. Am. Stat. Assoc. 90:773, table in section 3.2.

Status: from memory. They give the steps twice, as the factor (1 to 3, 3 to 20, 20 to 150, over 150) and as twice its natural
logarithm (0 to 2, 2 to 6, 6 to 10, over 10); the columns agree as printed, rounded to whole numbers. Their lowest step, 'not
worth more than a bare mention', is called 'not told apart' here.
"""

from __future__ import annotations

import math

import pytest

from linelib.studies.weighed import SCALE, TOLD_APART, in_scale

STEPS = ((1.0, "not told apart"), (3.0, "positive"), (20.0, "strong"), (150.0, "very strong"))


@pytest.mark.parametrize(("start", "words"), STEPS)
def test_each_step_begins_where_they_say(start, words) -> None:
    assert in_scale(start) == words
    assert in_scale(1.01 * start) == words


@pytest.mark.parametrize(
    ("end", "words"), [(2.99, "not told apart"), (19.9, "positive"), (149.0, "strong"), (1e300, "very strong")]
)
def test_each_step_ends_where_they_say(end, words) -> None:
    assert in_scale(end) == words
    assert in_scale(math.inf) == "very strong"


def test_both_columns_of_the_table_agree() -> None:
    assert [round(2.0 * math.log(limit)) for limit, _ in SCALE[:-1]] == [2, 6, 10]
    assert TOLD_APART == 3.0
