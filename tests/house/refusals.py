"""What refusals are looked at with: values that are no number, and the parts of the one sentence all refusals have."""

from __future__ import annotations

import math

import pytest

NO_NUMBER = [math.nan, math.inf, -math.inf, "12", True, 1j, [1.0], object]


def shown(value):
    """How a refused value appears in the sentence: as it is written in Python; plain numbers as decimal numbers."""
    return repr(float(value)) if isinstance(value, (int, float)) and not isinstance(value, bool) else repr(value)


def refused(call):
    """What stands before and after 'is not possible; allowed: ' in the one sentence with which `call` is refused."""
    with pytest.raises(ValueError, match="is not possible; allowed: ") as caught:
        call()
    head, allowed = str(caught.value).split(" is not possible; allowed: ")
    assert allowed.strip()
    return head, allowed
