"""Scale lines on a drum: how many, how long, how far apart, how deep, and what is written at them."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from math import pi
from typing import Literal

from engine.base.quantity import INCH_MM, MM_PER_INCH
from engine.base.records import dataclass

Kind = Literal["long", "middle", "short"]

# Heights 0.22, 0.16 and 0.09 in and a spacing of 0.035 in (good light) or 0.07 in (poor) at 28 in, a military design
# handbook's figures from memory, unconfirmed; here for a reading distance of 350 mm.
_DISTANCE = 350.0 / 710.0
LONG, MIDDLE, SHORT = (round(inches * INCH_MM * _DISTANCE, 1) for inches in (0.22, 0.16, 0.09))  # mm
CLOSE, EASY = 0.035 * INCH_MM * _DISTANCE, 0.07 * INCH_MM * _DISTANCE  # mm


@dataclass(frozen=True, slots=True)
class Closing:
    """How many lines a scale has. `exact` is lead over value; `lines` the nearest whole number."""

    exact: Fraction
    lines: int

    @property
    def closes(self) -> bool:
        """Whether the last space is as wide as the others at the value asked for."""
        return self.exact == self.lines


def closing(lead: Fraction, per_line: Fraction) -> Closing:
    """How many lines go round, for a screw's lead and the value of one line.

    >>> closing(Fraction(1, 2), Fraction(1, 100))
    Closing(exact=Fraction(50, 1), lines=50)
    """
    exact = lead / per_line
    return Closing(exact, round(exact))


def usual_long_every(lines: int) -> int:
    """How often a long, numbered line comes when nobody says: so that the numbers go round evenly.

    lines: Lines in all.
    Returns: The first of 10, 5, 8, 6, 4, 9, 7 and 3 that goes into the lines, else 10.
    Source: MIL-HDBK-759B notice 2, 5.2.2.3.1.4.1: at most nine marks between numbers, at most three sizes of mark.

    >>> [usual_long_every(n) for n in (40, 25, 36, 37)]
    [10, 5, 6, 10]
    """
    for every in (10, 5, 8, 6, 4, 9, 7, 3):
        if lines % every == 0:
            return every
    return 10


def kind_of(line: int, *, long_every: int, middle_every: int) -> Kind:
    """Whether a line is long, middle or short.

    >>> [kind_of(k, long_every=10, middle_every=5) for k in (0, 1, 5, 10)]
    ['long', 'short', 'middle', 'long']
    """
    if line % long_every == 0:
        return "long"
    return "middle" if middle_every and line % middle_every == 0 else "short"


def label_unit(per_line: Fraction) -> str:
    """The unit whose decimals write the value of a line the shorter: a line of 0.001 in is labelled in inches.

    >>> label_unit(Fraction(1, 20)), label_unit(Fraction(127, 5000))
    ('mm', 'inch')
    """
    return "inch" if len(_decimal(per_line / MM_PER_INCH)) < len(_decimal(per_line)) else "mm"


def label(line: int, per_line: Fraction, *, lines: int, reverse: bool = False) -> str:
    """What is written at a line: its value, in the unit that writes it the shorter.

    >>> label(10, Fraction(1, 20), lines=40), label(10, Fraction(1, 20), lines=40, reverse=True)
    ('0.5', '1.5')
    """
    count = (lines - line) % lines if reverse else line
    value = count * per_line
    return _decimal(value / MM_PER_INCH if label_unit(per_line) == "inch" else value)


def _decimal(value: Fraction) -> str:
    """The shortest decimal of a fraction, to six places."""
    text = format(Decimal(value.numerator) / Decimal(value.denominator), ".6f")
    return text.rstrip("0").rstrip(".")


def spacing_on(diameter: float, lines: int) -> float:
    """Distance from line to line round a drum.

    >>> spacing_on(50, 100)
    1.5708
    """
    return pi * diameter / lines


def readable(spacing: float, line_width: float) -> str:
    """Say whether lines so far apart can be read from 350 mm.

    spacing: From line to line. [mm]
    line_width: Width of a line. [mm]
    Returns: `easily`, `in good light` or `no`.
    Source: 0.035 in apart in good light and 0.07 in in poor light, read from 28 in, scaled to 350 mm: a military design
        handbook, from memory, unconfirmed. Lines no wider than the gap between them: common practice, no source.

    >>> readable(1.5, 0.12), readable(0.6, 0.12), readable(0.3, 0.12)
    ('easily', 'in good light', 'no')
    """
    if spacing < CLOSE or spacing < 2 * line_width:
        return "no"
    return "easily" if spacing >= EASY else "in good light"
