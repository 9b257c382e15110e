"""The one place where numbers are rounded: once, when shown, and limits inwards."""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Context, Decimal
from typing import Literal

Side = Literal["nearest", "down", "up"]

_MODES = {"nearest": ROUND_HALF_UP, "down": ROUND_FLOOR, "up": ROUND_CEILING}
# A float such as 8.862 may be stored a hair above its decimal; without this step "up" would make it 8.863.
_NOISE = Decimal("1e-9")
_WIDE = Context(prec=330)  # digits: the largest float has 309 before the point


def rounded(value: float, decimals: int, side: Side = "nearest") -> str:
    """Write a number with a fixed count of decimals.

    value: The number, finite. [any]
    decimals: Decimals to write, 0 to 9.
    side: `nearest`; or `down` (largest permissible sizes) or `up` (smallest), so that a part made to the written limit
        lies inside the true one.
    Returns: The number, with a plain minus sign and never "-0".
    Source: Rounding limits towards the inside of the tolerance: common practice, no source.

    >>> rounded(8.86249, 3), rounded(8.8629, 3, "down"), rounded(8.8621, 3, "up"), rounded(8.862, 3, "up")
    ('8.862', '8.862', '8.863', '8.862')
    """
    settled = Decimal(repr(float(value))).quantize(_NOISE, ROUND_HALF_UP, _WIDE)
    written = settled.quantize(Decimal(1).scaleb(-decimals), _MODES[side], _WIDE)
    return str(abs(written) if written == 0 else written)


def short(value: float, places: int = 6) -> str:
    """A number as short as it can be written, with so many decimals at most: for names, rules and counts, where it is no
    size that a door would show in another unit.

    >>> short(29.5), short(3.0), short(0.123456789, 3), short(12.6, 0)
    ('29.5', '3', '0.123', '13')
    """
    text = f"{round(value, places):.{max(places, 0)}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def significant(value: float, digits: int = 6, *, sign: str = "") -> str:
    """A number by so many digits that tell, small or large: for bounds, angles and what was typed; `sign="+"` writes a
    plus sign too.

    >>> significant(29.5), significant(1e-9), significant(0.018, 9, sign="+")
    ('29.5', '1e-09', '+0.018')
    """
    return f"{float(value):{sign}.{digits}g}"
