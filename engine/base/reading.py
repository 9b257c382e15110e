"""Reading one answer as people type it: a length, an angle, a count, a choice, with the bounds of its question.

A reader gets what was typed (or a number in engine units), the question, and the unit that a bare number is in. It raises
BadInput for what cannot be read and for what lies outside the bounds.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from engine.base.quantity import DIMENSIONS, MM_PER_INCH, show_plain
from engine.base.refusals import BadInput
from engine.base.tables import rows
from engine.base.units import as_text, in_metric, leading_number, parse_length, ready_number

if TYPE_CHECKING:
    from engine.base.kinds import Ask


def _within(value: float | Fraction | None, given: object, ask: Ask, unit: str) -> float:
    """A value that could be read and lies within the bounds of its question; BadInput for any other."""
    low, high = ask.low, ask.high
    number = (
        float("nan") if value is None else float(value)
    )  # as the bounds are: an exact 1/10 is less than the float 0.1
    above_low = low is None or (number >= low if low != 0 or not ask.sort.a_size else number > 0)
    finite = number == number and abs(number) != float("inf")
    if value is None or not (finite and above_low and (high is None or number <= high)):
        raise BadInput(ask.label.lower(), given, accepted(ask, unit))
    return number


def accepted(ask: Ask, unit: str = "mm") -> str:
    """Say in words what an answer may be: its bounds in the display unit and an example.

    >>> from engine.base.kinds import Ask
    >>> accepted(Ask("Depth", "length", "", "17.5", True, low=0, high=500, dimension="length"))
    'a length above 0 mm, up to 500 mm (such as 17.5)'
    """
    if ask.choices:
        return "one of " + ", ".join(ask.choices)
    what = "a length" if ask.dimension == "length" and ask.sort.what == "a number" else ask.sort.what
    if ask.low is not None:
        exclusive = ask.low == 0 and ask.sort.a_size
        what += " above " if exclusive else " from "
        what += _bound(ask.low, ask, unit)
    if ask.high is not None:
        what += ", up to " if ask.low is not None else " up to "
        what += _bound(ask.high, ask, unit)
    return what + (f" (such as {ask.example})" if ask.example else "")


def _bound(value: float, ask: Ask, unit: str) -> str:
    """A bound without the noughts that say nothing: 500 mm, not 500.000 mm; never 0 for something small. A lowest
    of a hair below nothing lets 0 itself in."""
    return show_plain(0.0 if -1e-6 < value < 0 else value, ask.dimension or "ratio", unit)


def read_length(given: object, ask: Ask, unit: str) -> float:
    """Read a length in mm as `parse_length` does.

    >>> from engine.base.kinds import Ask
    >>> read_length("40 thou", Ask("Depth", "length", "", "", True, low=0.0, dimension="length"), "mm")
    1.016
    """
    value = parse_length(given, unit)
    return _within(value, given, ask, unit)


def read_diameter(given: object, ask: Ask, unit: str) -> float:
    """Read a diameter in mm: a length, or the name of a number or letter drill (`#7`, `F`: ASME B94.11M).

    >>> from engine.base.kinds import Ask
    >>> read_diameter("13/64", Ask("Hole", "diameter", "", "", True, low=0.0, dimension="length"), "mm")
    5.159375
    """
    text = as_text(given)
    if isinstance(given, str) and re.fullmatch(r"(?i)#\s*\d{1,3}|no\.?\s*\d{1,3}|[a-z]", text):
        from engine.drilling.sizes import named

        size: float | None = named(text)
        if size is None:
            raise BadInput(ask.label.lower(), given, "a drill from #1 to #107 or A to Z, or a diameter")
        return _within(size, given, ask, unit)
    return read_length(given, ask, unit)


_DMS = r"""(?xa)([+-]?\d+(?:[.,]\d*)?)\s*(?:°|d|deg|degrees?)\s*
        (?:(\d+(?:[.,]\d*)?)\s*(?:'|′|m|min)\s*)?(?:(\d+(?:[.,]\d*)?)\s*(?:"|″|''|s|sec)?\s*)?"""
_MINUTES = r"""(?xa)([+-]?)(\d+(?:[.,]\d*)?)\s*(?:'|′|m|min)\s*(?:(\d+(?:[.,]\d*)?)\s*(?:"|″|''|s|sec)\s*)?"""


def read_angle(given: object, ask: Ask, unit: str) -> float:
    """Read an angle in degrees (`24.5`), or degrees with minutes and seconds (`24d 30m`, `24° 30' 15"`, `24'`).

    >>> from engine.base.kinds import Ask
    >>> ask = Ask("Angle", "angle", "", "", True, dimension="angle")
    >>> read_angle("24d 30m", ask, "mm"), read_angle("30'", ask, "mm")
    (24.5, 0.5)
    """
    number = ready_number(given)
    value: Fraction | float | None = number
    if number is None:
        text = as_text(given)
        found = re.fullmatch(_DMS, text)
        under_a_degree = None if found else re.fullmatch(_MINUTES, text)
        split = leading_number(text)
        if under_a_degree:
            sign, *parts = under_a_degree.groups()
            minutes, seconds = (Fraction((part or "0").replace(",", ".")) for part in parts)
            value = (minutes / 60 + seconds / 3600) * (-1 if sign == "-" else 1)
        elif found:
            degrees, minutes, seconds = (Fraction((g or "0").replace(",", ".")) for g in found.groups())
            value = abs(degrees) + minutes / 60 + seconds / 3600
            value = -value if text.startswith("-") else value
        elif split and not split[1]:
            value = split[0]
        elif split:
            value = in_metric(split[0], split[1], "angle")
    return _within(value, given, ask, unit)


def read_number(given: object, ask: Ask, unit: str) -> float:
    """Read a bare number; a percent sign after it is allowed.

    >>> from engine.base.kinds import Ask
    >>> read_number("0,5", Ask("Factor", "number", "", "", True), "mm")
    0.5
    """
    number = ready_number(given)
    if number is None:
        split = leading_number(as_text(given))
        number = split[0] if split and split[1] in ("", "%", "tpi", ":1") else None
    return _within(number, given, ask, unit)


def read_other(given: object, ask: Ask, unit: str) -> float:
    """Read a force, power, speed, feed or temperature in the metric unit of the question's dimension: with its unit (`750 W`,
    `1 hp`, `300 F`; engine/base/units.txt defines them), or without in that of the screen.

    >>> from engine.base.kinds import Ask
    >>> read_other("1 hp", Ask("Power", "quantity", "", "", True, dimension="power"), "mm")
    745.7
    """
    value: float | Fraction | None = ready_number(given)
    if value is None:
        split = leading_number(as_text(given))
        kind = DIMENSIONS[ask.dimension]
        if split is not None:
            number, rest = split
            if rest in ("", kind.inch if unit == "inch" else kind.metric):
                inch = unit == "inch" and kind.inch != kind.metric
                value = (float(number) - kind.offset) * kind.factor if inch else number
            elif rest == kind.metric:
                value = number
            else:
                value = in_metric(number, rest, ask.dimension)
    return _within(value, given, ask, unit)


def read_travel(given: object, ask: Ask, unit: str) -> Fraction:
    """Read an exact travel per turn or a lead in mm: a length, or threads per inch (`2`, `0.1in`, `8 tpi`, `1/8"`).

    >>> from engine.base.kinds import Ask
    >>> read_travel("8 tpi", Ask("Lead", "travel", "", "", True, dimension="length"), "mm")
    Fraction(127, 40)
    """
    text = as_text(given)
    per_inch = re.fullmatch(r"(?i)(\S+)\s*(?:tpi|per\s+inch)", text)
    value: Fraction | None
    if per_inch:
        split = leading_number(per_inch[1])
        value = MM_PER_INCH / split[0] if split and not split[1] and split[0] > 0 else None
    elif isinstance(given, float):
        value = Fraction(repr(given)) if given == given and abs(given) != float("inf") else None
    else:
        value = parse_length(given, unit)
    if value is None or value <= 0:
        raise BadInput(ask.label.lower(), given, accepted(ask, unit))
    _within(value, given, ask, unit)
    return value


def read_count(given: object, ask: Ask, unit: str) -> int:
    """Read a whole number.

    >>> from engine.base.kinds import Ask
    >>> read_count(" 37 ", Ask("Divisions", "count", "", "", True, low=1, high=9999, dimension="count"), "mm")
    37
    """
    number = ready_number(given)
    if isinstance(number, int | float | Fraction):
        whole = number == number and abs(number) != float("inf") and number == int(number)
        value = int(number) if whole else None
    else:
        text = as_text(given)
        value = int(text) if re.fullmatch(r"[+-]?[0-9]{1,9}", text) else None
    return int(_within(value, given, ask, unit))


@cache
def _same() -> dict[str, str]:
    """Other words of the trade for the same choice."""
    return {row["word"]: row["choice"] for row in rows("same_choice.csv")}


def read_choice(given: object, ask: Ask, unit: str) -> str:
    """Read one of a few words; an unmistakable beginning is enough.

    >>> from engine.base.kinds import Ask
    >>> read_choice("Bl", Ask("Hole", "choice", "", "", True, choices=("through", "blind")), "mm")
    'blind'
    """
    text = as_text(given).casefold()
    exact = [c for c in ask.choices if c.casefold() == text]
    near = exact or [c for c in ask.choices if text and c.casefold().startswith(text)]
    near = near or [c for c in ask.choices if c == _same().get(text)] or _american(text, ask.choices)
    if len(near) != 1:
        raise BadInput(ask.label.lower(), given, accepted(ask, unit))
    return near[0]


def _american(text: str, choices: tuple[str, ...]) -> list[str]:
    """The choices that an American screen shows by this word."""
    from engine.base.words import in_words

    words = {c: in_words(c, "american").casefold() for c in choices}
    return [c for c, word in words.items() if word == text] or [
        c for c, word in words.items() if text and word.startswith(text)
    ]


def read_flag(given: object, ask: Ask, unit: str) -> bool:
    """Read yes or no.

    >>> from engine.base.kinds import Ask
    >>> read_flag("y", Ask("Reads diameter", "flag", "", "", True, choices=("yes", "no")), "mm")
    True
    """
    text = as_text(given).casefold()
    if text in ("yes", "y", "true", "1", "on"):
        return True
    if text in ("no", "n", "false", "0", "off"):
        return False
    raise BadInput(ask.label.lower(), given, "yes or no")


def read_text(given: object, ask: Ask, unit: str) -> str:
    """Read one short line of words; control characters are refused.

    >>> from engine.base.kinds import Ask
    >>> read_text(" 6g ", Ask("Tolerance", "text", "", "", True), "mm")
    '6g'
    """
    text = as_text(given)
    if len(text) > 200 or not text.isprintable():
        raise BadInput(ask.label.lower(), ascii(text[:40]), "up to 200 printable characters")
    return text


def read_pair(given: object, ask: Ask, unit: str) -> tuple[float, float | None]:
    """Read one length or two with an x between: the second is None where it is not told.

    >>> from engine.base.kinds import Ask
    >>> read_pair("3/8in x 40", Ask("Bar", "pair", "", "10 x 40", False, dimension="length"), "mm")
    (9.525, 40.0)
    """
    if isinstance(given, tuple):
        return given[0], given[1] if len(given) > 1 else None
    sizes = [parse_length(part, unit) for part in re.split(r"[x×]", str(given), flags=re.IGNORECASE)]
    if not 1 <= len(sizes) <= 2 or any(size is None or not 0 < size <= 10_000 for size in sizes):
        raise BadInput(ask.label.lower(), given, f"{ask.sort.what} (such as {ask.example})")
    across, *rest = (float(size) for size in sizes if size is not None)
    return across, rest[0] if rest else None
