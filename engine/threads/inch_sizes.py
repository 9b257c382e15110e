"""Inch sizes as threads write them: `1/4`, `1-1/8`, `.250`, `#10`, `No. 10 (0.190)`."""

from __future__ import annotations

import re
from fractions import Fraction

NUMBER = r"(?:[0-9]{1,4}(?:\.[0-9]{0,5})?|\.[0-9]{1,5})"
MIXED = r"(?:[0-9]{1,2}(?:\s*-\s*|\s+)[0-9]{1,2}\s*/\s*[0-9]{1,2}|[0-9]{1,2}\s*/\s*[0-9]{1,2})"
SIZE = rf"(?:(?:[#]|no\.?|number)\s*[0-9]{{1,2}}(?:\s*\({NUMBER}\))?|{MIXED}|{NUMBER})"

_MIXED_PARTS = re.compile(r"(?:([0-9]{1,2})(?:\s*-\s*|\s+))?([0-9]{1,2})\s*/\s*([0-9]{1,2})")
_NUMBERED = re.compile(rf"(?i)(?:[#]|no\.?|number)\s*([0-9]{{1,2}})(?:\s*\(({NUMBER})\))?")


def read_inches(text: str) -> tuple[Fraction, str] | None:
    """Read an inch size.

    Parameters
    ----------
    text : str
        What matched SIZE.

    Returns
    -------
    size : tuple of Fraction and str, or None
        The size and how it was written: `number`, `fraction`, `decimal` or `whole`; None if it cannot be. [in]

    Raises
    ------
    ValueError
        Never.

    Sources
    -------
    Number sizes: 0.060 in + 0.013 in for each number (ASME B1.1).

    Examples
    --------
    >>> read_inches("1-1/8"), read_inches("No. 10 (0.190)")
    ((Fraction(9, 8), 'fraction'), (Fraction(19, 100), 'number'))
    """
    text = text.strip()
    if numbered := _NUMBERED.fullmatch(text):
        size = Fraction(60 + 13 * int(numbered[1]), 1000)
        if numbered[2] and abs(Fraction(numbered[2]) - size) > Fraction(1, 2000):
            return None
        return size, "number"
    if mixed := _MIXED_PARTS.fullmatch(text):
        if int(mixed[3]) == 0:
            return None
        return int(mixed[1] or 0) + Fraction(int(mixed[2]), int(mixed[3])), "fraction"
    if re.fullmatch(NUMBER, text):
        return Fraction(text), "decimal" if "." in text else "whole"
    return None


def write_inches(size: Fraction, *, joint: str = " ") -> str:
    """Write an inch size as a fraction where it is one of 64ths, else as a decimal.

    Examples
    --------
    >>> write_inches(Fraction(9, 8)), write_inches(Fraction(9, 8), joint="-"), write_inches(Fraction(7, 125))
    ('1 1/8', '1-1/8', '0.056')
    """
    if 64 % size.denominator != 0:
        return f"{float(size):.5f}".rstrip("0")
    whole, rest = divmod(size, 1)
    return joint.join(str(part) for part in (whole, rest) if part) or "0"
