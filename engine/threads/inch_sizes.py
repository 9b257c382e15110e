"""Inch sizes as threads write them: `1/4`, `1-1/8`, `.250`, `#10`, `No. 10 (0.190)`."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

from engine.base.rounding import short

NUMBER = r"(?:[0-9]{1,4}(?:\.[0-9]{0,5})?|\.[0-9]{1,5})"
MIXED = r"(?:[0-9]{1,2}(?:\s*-\s*|\s+)[0-9]{1,2}\s*/\s*[0-9]{1,2}|[0-9]{1,2}\s*/\s*[0-9]{1,2})"
SIZE = rf"(?:(?:[#]|no\.?|number)\s*[0-9]{{1,2}}(?:\s*\({NUMBER}\))?|{MIXED}|{NUMBER})"
INCH_MARK = r"(?:\"|''|inch|in\.?)"

_MIXED_PARTS = r"(?:([0-9]{1,2})(?:\s*-\s*|\s+))?([0-9]{1,2})\s*/\s*([0-9]{1,2})"
_NUMBERED = rf"(?i)(?:[#]|no\.?|number)\s*([0-9]{{1,2}})(?:\s*\(({NUMBER})\))?"
_exact = cache(Fraction)


def number_size(number: int | Fraction) -> Fraction:
    """The diameter of a number size in inches: 0.060 in + 0.013 in for each number (ASME B1.1).

    >>> float(number_size(10))
    0.19
    """
    return Fraction(60 + 13 * number) / 1000


def inches(size: str) -> Fraction:
    """An inch size of a table in inches: `1 1/8`, `#10`, `.056`.

    >>> inches("1 1/8"), float(inches("#10"))
    (Fraction(9, 8), 0.19)
    """
    return number_size(int(size[1:])) if size.startswith("#") else sum(map(_exact, size.split()), Fraction(0))


def read_inches(text: str) -> tuple[Fraction, str] | None:
    """A size in inches and how it was written (`number`, `fraction`, `decimal`, `whole`); None if it cannot be one.

    >>> read_inches("1-1/8"), read_inches("No. 10 (0.190)")
    ((Fraction(9, 8), 'fraction'), (Fraction(19, 100), 'number'))
    """
    text = text.strip()
    if numbered := re.fullmatch(_NUMBERED, text):
        size = number_size(int(numbered[1]))
        if numbered[2] and abs(Fraction(numbered[2]) - size) > Fraction(1, 2000):
            return None
        return size, "number"
    if mixed := re.fullmatch(_MIXED_PARTS, text):
        if int(mixed[3]) == 0:
            return None
        return int(mixed[1] or 0) + Fraction(int(mixed[2]), int(mixed[3])), "fraction"
    if re.fullmatch(NUMBER, text):
        return Fraction(text), "decimal" if "." in text else "whole"
    return None


def write_inches(size: Fraction, *, joint: str = " ") -> str:
    """Write an inch size as a fraction where it is one of 64ths, else as a decimal.

    >>> write_inches(Fraction(9, 8)), write_inches(Fraction(9, 8), joint="-"), write_inches(Fraction(7, 125))
    ('1 1/8', '1-1/8', '0.056')
    """
    if 64 % size.denominator != 0:
        return short(float(size), 5)
    whole, rest = divmod(size, 1)
    return joint.join(str(part) for part in (whole, rest) if part) or "0"
