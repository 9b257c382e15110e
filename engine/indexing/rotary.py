"""The rotary table: whole turns of its handwheel and what its dial of degrees, minutes and seconds shows."""

from __future__ import annotations

from fractions import Fraction

from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.rounding import rounded
from engine.base.words import general, say


@dataclass(frozen=True, slots=True)
class TableSetting:
    """Where the table stands: whole turns of the handwheel, and its dial.

    `exact_dial` is the true angle past the whole turn; `set_turns` and `set_dial` are the nearest line that can be set;
    `error` is how far that lies beyond the true angle. [deg; error in arcsec]
    """

    turns: int
    exact_dial: Fraction
    set_turns: int
    set_dial: Fraction
    error: float


def exact_angle(angle: float) -> Fraction:
    """Return the exact angle that was typed: whole seconds (or thousandths of one) where it is such, else decimals.

    Sources: 1 degree = 60 minutes = 3600 seconds (ISO 80000-3:2019).

    >>> exact_angle(20 / 60), exact_angle(16 + 32 / 60 + 20 / 3600), exact_angle(51.428571)
    (Fraction(1, 3), Fraction(2977, 180), Fraction(51428571, 1000000))
    """
    for parts in (3600, 3_600_000):
        whole = Fraction(round(angle * parts), parts)
        if abs(float(whole) - angle) < 1e-12:  # no more than the noise of the float
            return whole
    return Fraction(repr(angle))


def division_angle(divisions: int | None, angle: float | None) -> Fraction:
    """Return the angle of one division, from the count or from the angle typed.

    >>> division_angle(7, None), division_angle(None, 24.5)
    (Fraction(360, 7), Fraction(49, 2))
    """
    if divisions is not None and angle is not None:
        typed = say("{angle}°", angle=general(angle))
        text = say("angle: give the divisions or the angle, not both (divisions={n}, angle={angle}).", n=divisions,
                   angle=typed)  # fmt: skip
        raise BadInput("angle", typed, "divisions or angle, not both", text)
    if divisions is not None:
        return Fraction(360, divisions)
    if angle is None:
        raise BadInput("divisions", "", "a count or an angle", "divisions: give divisions=30, or angle=24d30m.")
    return exact_angle(angle)


def table_setting(angle: Fraction, *, ratio: int, line: Fraction) -> TableSetting:
    """Turns and dial of a rotary table for an angle from its zero, rounded once to a line of the dial.

    angle: Angle from zero, 0 or more. [deg]
    ratio: Turns of the handwheel to one of the table.
    line: One line of the dial, or of its vernier. [deg]
    Returns: The exact dial, the line to set, and the error.
    Source: Angle ÷ (360 ÷ ratio): the whole part is turns, the rest stands on the dial. Each absolute angle rounded by
        itself: common practice, no source.

    >>> s = table_setting(Fraction(360, 7), ratio=90, line=Fraction(1, 60))
    >>> s.set_turns, s.set_dial, round(s.error, 1)
    (12, Fraction(103, 30), 17.1)
    """
    # whole numbers throughout: `unit` is how many of the smallest parts make a degree
    unit = angle.denominator * ratio * line.denominator
    whole, one = angle.numerator * ratio * line.denominator, line.numerator * angle.denominator * ratio
    turn = 360 * angle.denominator * line.denominator
    turns, rest = divmod(whole, turn)
    lines = (2 * rest + one) // (2 * one)
    set_turns, set_to = (turns, lines * one) if lines * one < turn else (turns + 1, 0)
    error = (set_turns * turn + set_to - whole) * 3600 / unit
    return TableSetting(turns, Fraction(rest, unit), set_turns, Fraction(set_to, unit), error)


def dial_text(angle: Fraction) -> str:
    """Write an exact angle in degrees, minutes and seconds, rounded once to a second or, if it is finer, to a tenth.

    >>> print(dial_text(Fraction(24, 7)), dial_text(Fraction(7199999, 3600000)), dial_text(Fraction(61, 2)))
    3° 25' 42.9" 2° 0' 30° 30'
    """
    tenths = (72_000 * angle.numerator + angle.denominator) // (2 * angle.denominator)  # one rounding, half up
    minutes, rest = divmod(tenths, 600)
    seconds, tenth = divmod(rest, 10)
    tail = f"{seconds}.{tenth}" if tenth else str(seconds)
    return f"{minutes // 60}° {minutes % 60}'" + (f' {tail}"' if rest else "")


def decimal_text(angle: Fraction) -> str:
    """Write an exact angle in decimal degrees, rounded once to four places.

    >>> decimal_text(Fraction(24, 7)), decimal_text(Fraction(3))
    ('3.4286°', '3°')
    """
    return rounded(float(angle), 4).rstrip("0").rstrip(".") + "°"
