"""Rounding: carries, inward limits, and no minus nought."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.base.rounding import rounded


@pytest.mark.parametrize(
    "value, decimals, side, text",
    [
        (0.9996, 3, "nearest", "1.000"),
        (-0.0001, 3, "nearest", "0.000"),
        (2.5, 0, "nearest", "3"),
        (8.8629, 3, "down", "8.862"),
        (8.8621, 3, "up", "8.863"),
        (0.1 + 0.2, 1, "up", "0.3"),
        (-1.25, 1, "down", "-1.3"),
    ],
)
def test_examples(value, decimals, side, text):
    assert rounded(value, decimals, side) == text


@given(st.floats(-1e6, 1e6), st.integers(0, 4))
def test_sides_enclose_the_value(value, decimals):
    down, up = Decimal(rounded(value, decimals, "down")), Decimal(rounded(value, decimals, "up"))
    slack = Decimal("1e-9")
    assert down - slack <= Decimal(repr(value)) <= up + slack
    assert up - down <= Decimal(1).scaleb(-decimals)
