"""Reading what a person types and showing a number in mm or inch.

Inside the engine every number is in the unit of its dimension's `metric` column. The factors here are exact; the
few marks that are typed all day (mm, in, ", thou, degrees and minutes) are read without Pint, which takes a tenth of
a second to load; every other unit goes to Pint with engine/units.txt. A test holds the two to the same values.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from engine.errors import BadInput
from engine.rounding import Side, rounded

if TYPE_CHECKING:
    from engine.inputs import Ask

MM_PER_INCH = Fraction(127, 5)  # exact: international yard and pound agreement, 1959
_LBF = 4.4482216152605  # N, exact: 0.45359237 kg x 9.80665 m/s2


@dataclass(frozen=True, slots=True)
class Dimension:
    """How one kind of number is shown: metric and inch unit, metric units per inch unit, usual decimals."""

    metric: str
    inch: str
    factor: float
    decimals: int
    inch_decimals: int
    offset: float = 0.0


DIMENSIONS = {
    "length": Dimension("mm", "in", 25.4, 3, 4),
    "area": Dimension("mm²", "in²", 25.4**2, 2, 4),
    "angle": Dimension("°", "°", 1.0, 3, 3),
    "speed": Dimension("rev/min", "rev/min", 1.0, 0, 0),
    "surface_speed": Dimension("m/min", "ft/min", 0.3048, 0, 0),
    "feed": Dimension("mm/rev", "in/rev", 25.4, 3, 4),
    "feed_rate": Dimension("mm/min", "in/min", 25.4, 0, 1),
    "force": Dimension("N", "lbf", _LBF, 0, 0),
    "torque": Dimension("N·m", "lbf·in", _LBF * 0.0254, 2, 1),
    "power": Dimension("W", "W", 1.0, 0, 0),
    "stress": Dimension("MPa", "psi", _LBF / 25.4**2, 0, 0),
    "temperature": Dimension("°C", "°F", 5 / 9, 0, 0, offset=32.0),
    "duration": Dimension("s", "s", 1.0, 1, 1),
    "seconds_of_arc": Dimension('"', '"', 1.0, 1, 1),
    "tpi": Dimension("tpi", "tpi", 1.0, 3, 3),
    "percent": Dimension("%", "%", 1.0, 0, 0),
    "ppm": Dimension("ppm", "ppm", 1.0, 0, 0),
    "ratio": Dimension("", "", 1.0, 3, 3),
    "count": Dimension("", "", 1.0, 0, 0),
    "text": Dimension("", "", 1.0, 0, 0),
}

JSON_UNITS = {
    "angle": "deg",
    "temperature": "degC",
    "seconds_of_arc": "arcsec",
    "area": "mm2",
    "torque": "N.m",
}


def show(
    value: float, dimension: str, unit: str = "mm", *, decimals: int | None = None, side: Side = "nearest"
) -> str:
    """Write a number with its unit, in the metric or the inch system.

    Parameters
    ----------
    value : float
        The number in the dimension's metric unit. [as dimension]
    dimension : str
        A key of DIMENSIONS.
    unit : str
        `mm` or `inch`: the system to show it in.
    decimals : int or None
        Decimals in the metric unit; inch lengths show one more. None: the dimension's usual count.
    side : str
        How to round, see engine.rounding.

    Returns
    -------
    text : str
        Such as `8.862 mm`.

    Raises
    ------
    KeyError
        If the dimension is not known.

    Sources
    -------
    1 in = 25.4 mm exactly (1959 agreement).

    Examples
    --------
    >>> show(25.4, "length"), show(25.4, "length", "inch"), show(8.8629, "length", side="down")
    ('25.400 mm', '1.0000 in', '8.862 mm')
    """
    return _with_name(show_number(value, dimension, unit, decimals=decimals, side=side), dimension, unit)


def _with_name(digits: str, dimension: str, unit: str) -> str:
    name = DIMENSIONS[dimension].inch if unit == "inch" else DIMENSIONS[dimension].metric
    return digits + ("" if name in ("", "°", "%", '"') else " ") + name


def show_number(
    value: float, dimension: str, unit: str = "mm", *, decimals: int | None = None, side: Side = "nearest"
) -> str:
    """Write a number without its unit, for a table whose head names the unit.

    Parameters
    ----------
    value : float
        The number in the dimension's metric unit. [as dimension]
    dimension : str
        A key of DIMENSIONS.
    unit : str
        `mm` or `inch`.
    decimals : int or None
        As for `show`.
    side : str
        As for `show`.

    Returns
    -------
    text : str
        The digits.

    Raises
    ------
    KeyError
        If the dimension is not known.

    Sources
    -------
    As for `show`.

    Examples
    --------
    >>> show_number(1.5, "length"), show_number(20, "temperature", "inch")
    ('1.500', '68')
    """
    kind = DIMENSIONS[dimension]
    if unit == "inch":
        value = value / kind.factor + kind.offset
        places = kind.inch_decimals if decimals is None else decimals + (kind.inch_decimals - kind.decimals)
    else:
        places = kind.decimals if decimals is None else decimals
    return rounded(value, max(places, 0), side)


def worked(value: float, unit: str, dimension: str = "length") -> str:
    """Write a number as it is put into a working: in the unit on the screen, without its name, six digits at most.

    Parameters
    ----------
    value : float
        The number in the dimension's metric unit. [as dimension]
    unit : str
        `mm` or `inch`.
    dimension : str
        A key of DIMENSIONS.

    Returns
    -------
    digits : str
        Such as `0.6875`; noughts at the end are left out.

    Raises
    ------
    KeyError
        If the dimension is not known.

    Sources
    -------
    As for `show`.

    Examples
    --------
    >>> worked(17.4625, "inch"), worked(17.4625, "mm"), worked(24.384, "inch", "surface_speed")
    ('0.6875', '17.4625', '80')
    """
    kind = DIMENSIONS[dimension]
    shown = value / kind.factor + kind.offset if unit == "inch" else value
    digits = f"{round(shown, 9):.6g}"
    return digits if "e" not in digits else f"{shown:.9f}".rstrip("0").rstrip(".")


_SIMPLE = re.compile(r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d{1,2})?", re.ASCII)
_MIXED = re.compile(r"([+-]?)(?:(\d{1,6})[\s-]+)?(\d{1,6})\s*/\s*(\d{1,6})", re.ASCII)
_LENGTHS = {
    "": None,
    "mm": Fraction(1),
    "in": MM_PER_INCH,
    "inch": MM_PER_INCH,
    '"': MM_PER_INCH,
    "''": MM_PER_INCH,
    "”": MM_PER_INCH,
    "″": MM_PER_INCH,
    "thou": MM_PER_INCH / 1000,
    "cm": Fraction(10),
    "m": Fraction(1000),
    "µm": Fraction(1, 1000),
    "um": Fraction(1, 1000),
    "ft": MM_PER_INCH * 12,
}
# What else is typed at a bench, in the dimension's metric unit: read without Pint, and held to it by a test.
_QUICK = {
    "force": {"N": 1.0, "kN": 1e3, "lbf": _LBF},
    "power": {"W": 1.0, "kW": 1e3, "hp": 745.69987158227022},
    "speed": {"rpm": 1.0, "rev/min": 1.0},
    "surface_speed": {"m/min": 1.0, "ft/min": 0.3048, "m/s": 60.0},
    "stress": {"MPa": 1.0, "psi": _LBF / 25.4**2},
    "duration": {"s": 1.0, "min": 60.0, "h": 3600.0},
}
_CELSIUS, _FAHRENHEIT = ("C", "°C", "degC", "c"), ("F", "°F", "degF", "f")


def _split(text: str) -> tuple[Fraction, str] | None:
    """The leading number of a text, exactly, and the rest; None if it does not begin with one."""
    for pattern in (_MIXED, _SIMPLE):
        found = pattern.match(text)
        if found is None:
            continue
        if pattern is _SIMPLE:
            return Fraction(found[0].replace(",", ".")), text[found.end() :].strip()
        if int(found[4]) == 0:
            return None
        amount = int(found[2] or 0) + Fraction(int(found[3]), int(found[4]))
        return (-amount if found[1] == "-" else amount), text[found.end() :].strip()
    return None


_UNITS = Path(__file__).with_name("units.txt")


@cache
def _registry() -> Any:
    import pint

    return pint.UnitRegistry(str(_UNITS), autoconvert_offset_to_baseunit=True)


@cache
def _unit_names() -> tuple[frozenset[str], tuple[str, ...]]:
    """The names of the units of units.txt, and the prefixes that may stand before them."""
    names: set[str] = set()
    prefixes = [""]
    for line in _UNITS.read_text(encoding="utf-8").splitlines():
        if "=" not in line or line.startswith(("#", " ")):
            continue
        name, _, *others = (part.strip() for part in line.partition(";")[0].split("="))
        others += [part.strip() for part in line.partition(";")[2].split("=")[1:]]
        words = {word for word in (name, *others) if word != "_"}
        if name.endswith("-"):
            prefixes += [word.removesuffix("-") for word in words]
        else:
            names |= words
    return frozenset(names), tuple(prefixes)


def _is_unit(word: str) -> bool:
    """Whether a word is a unit that Pint would know: asking that first spares a typing slip Pint's start."""
    names, prefixes = _unit_names()
    singular = (word, word.removesuffix("s"))
    return any(w.startswith(p) and w[len(p) :] in names for w in singular for p in prefixes)


def _by_pint(number: Fraction, unit_text: str, target: str) -> float | None:
    """The number in the target unit, or None if the words are no unit of that kind."""
    if not re.fullmatch(r"[A-Za-zµμ°/ ·*^0-9]{1,24}", unit_text):
        return None
    if not all(map(_is_unit, re.findall(r"[A-Za-zµμ°]+", unit_text))):
        return None
    registry = _registry()
    try:
        return float(registry.Quantity(float(number), unit_text.replace("·", "*")).to(target).magnitude)
    except Exception:  # Pint raises parser, attribute and dimension errors of many classes for bad unit words
        return None


def _as_text(given: object) -> str:
    return str(given).replace("\u2212", "-").replace("\u00a0", " ").strip()


def _clean_number(given: object) -> float | Fraction | None:
    """A number already in engine units, or None when what was given has to be read as text."""
    if isinstance(given, bool):
        return None
    return given if isinstance(given, int | float | Fraction) else None


def _bounded(value: float | Fraction, given: object, ask: Ask, unit: str = "mm") -> None:
    low, high = ask.low, ask.high
    finite = value == value and abs(value) != float("inf")
    above_low = low is None or (value >= low if low != 0 or not _is_size(ask) else value > 0)
    if not (finite and above_low and (high is None or value <= high)):
        raise BadInput(ask.label.lower(), given, accepted(ask, unit))


def _is_size(ask: Ask) -> bool:
    """A size of nought is a mistake unless the question says that nought may be meant (low below nought)."""
    return ask.kind in ("length", "diameter", "lengths", "travel")


def accepted(ask: Ask, unit: str = "mm") -> str:
    """Say in words what an answer may be: its bounds in the display unit and an example.

    Parameters
    ----------
    ask : Ask
        The question.
    unit : str
        `mm` or `inch`.

    Returns
    -------
    text : str
        Such as `a length above 0 mm, up to 500 mm (such as 17.5)`.

    Raises
    ------
    KeyError
        If the question's dimension is not known.

    Sources
    -------
    None: words.

    Examples
    --------
    >>> from engine.inputs import Ask
    >>> accepted(Ask("Depth", "length", "", "17.5", True, low=0, high=500, dimension="length"))
    'a length above 0 mm, up to 500 mm (such as 17.5)'
    """
    words = {"count": "a whole number", "angle": "an angle", "number": "a number"}
    what = words.get(ask.kind, {"length": "a length"}.get(ask.dimension, "a number"))
    if ask.choices:
        return "one of " + ", ".join(ask.choices)
    if ask.low is not None:
        exclusive = ask.low == 0 and _is_size(ask)
        what += " above " if exclusive else " from "
        what += _bound(ask.low, ask, unit)
    if ask.high is not None:
        what += ", up to " if ask.low is not None else " up to "
        what += _bound(ask.high, ask, unit)
    return what + (f" (such as {ask.example})" if ask.example else "")


def _bound(value: float, ask: Ask, unit: str) -> str:
    """A bound without the noughts that say nothing: 500 mm, not 500.000 mm; never 0 for something small."""
    dimension, bound = ask.dimension or "ratio", max(value, 0.0) if _is_size(ask) else value
    digits = show_number(bound, dimension, unit)
    if bound and not float(digits):
        digits = show_number(bound, dimension, unit, decimals=6)
    return _with_name(digits.rstrip("0").rstrip(".") if "." in digits else digits, dimension, unit)


def parse_length(given: object, unit: str) -> Fraction | None:
    """Read a length as people write it, exactly, in millimetres; None if it cannot be read.

    Parameters
    ----------
    given : object
        Text (`17`, `17,5 mm`, `3/8`, `1 1/4"`, `40 thou`), or a number already in millimetres.
    unit : str
        What a bare number is in: `mm` or `inch`. A bare fraction such as 3/8 is always an inch size.

    Returns
    -------
    length : Fraction or None
        The length. [mm]

    Raises
    ------
    ValueError
        Never for text; kept for symmetry with float conversion of exotic numbers.

    Sources
    -------
    1 in = 25.4 mm exactly (1959 agreement).

    Examples
    --------
    >>> float(parse_length("3/8in", "mm")), float(parse_length("17,5", "mm")), float(parse_length(".5", "inch"))
    (9.525, 17.5, 12.7)
    """
    number = _clean_number(given)
    if number is not None:
        return Fraction(number) if number == number and abs(number) != float("inf") else None
    text = _as_text(given)
    split = _split(text)
    if split is None:
        return None
    value, rest = split
    rest = rest.rstrip(".").strip()
    if rest in _LENGTHS or rest.lower() in _LENGTHS:
        factor = _LENGTHS.get(rest, _LENGTHS.get(rest.lower()))
        if factor is None:
            inch = unit == "inch" or "/" in text
            factor = MM_PER_INCH if inch else Fraction(1)
        return value * factor
    metres = _by_pint(value, rest, "millimeter")
    return None if metres is None else Fraction(metres).limit_denominator(10**12)


def read_length(given: object, ask: Ask, unit: str) -> float:
    """Read a length. See `parse_length`.

    Parameters
    ----------
    given : object
        What was typed, or a number in millimetres.
    ask : Ask
        The question, with its bounds.
    unit : str
        What a bare number is in.

    Returns
    -------
    length : float
        The length. [mm]

    Raises
    ------
    BadInput
        If it is no length or lies outside the bounds.

    Sources
    -------
    As for `parse_length`.

    Examples
    --------
    >>> from engine.inputs import Ask
    >>> read_length("40 thou", Ask("Depth", "length", "", "", True, low=0.0, dimension="length"), "mm")
    1.016
    """
    value = parse_length(given, unit)
    if value is None:
        raise BadInput(ask.label.lower(), given, accepted(ask, unit))
    _bounded(value, given, ask, unit)
    return float(value)


def read_diameter(given: object, ask: Ask, unit: str) -> float:
    """Read a diameter: a length, or the name of a number or letter drill.

    Parameters
    ----------
    given : object
        What was typed (`#7`, `F`, `13/64`, `5.2`), or a number in millimetres.
    ask : Ask
        The question, with its bounds.
    unit : str
        What a bare number is in.

    Returns
    -------
    diameter : float
        The diameter. [mm]

    Raises
    ------
    BadInput
        If it is neither a length nor a drill's name, or lies outside the bounds.

    Sources
    -------
    Drill names: ASME B94.11M, see engine.drilling.sizes.

    Examples
    --------
    >>> from engine.inputs import Ask
    >>> read_diameter("13/64", Ask("Hole", "diameter", "", "", True, low=0.0, dimension="length"), "mm")
    5.159375
    """
    text = _as_text(given)
    if isinstance(given, str) and re.fullmatch(r"(?i)#\s*\d{1,3}|no\.?\s*\d{1,3}|[a-z]", text):
        from engine.drilling.sizes import named

        size: float | None = named(text)
        if size is None:
            raise BadInput(ask.label.lower(), given, "a drill from #1 to #107 or A to Z, or a diameter")
        _bounded(size, given, ask, unit)
        return size
    return read_length(given, ask, unit)


_DMS = re.compile(
    r"""(?xa)([+-]?\d+(?:[.,]\d*)?)\s*(?:°|d|deg|degrees?)\s*
        (?:(\d+(?:[.,]\d*)?)\s*(?:'|′|m|min)\s*)?(?:(\d+(?:[.,]\d*)?)\s*(?:"|″|''|s|sec)?\s*)?"""
)
_MINUTES = re.compile(
    r"""(?xa)([+-]?)(\d+(?:[.,]\d*)?)\s*(?:'|′|m|min)\s*(?:(\d+(?:[.,]\d*)?)\s*(?:"|″|''|s|sec)\s*)?"""
)


def read_angle(given: object, ask: Ask, unit: str) -> float:
    """Read an angle in degrees, or degrees with minutes and seconds.

    Parameters
    ----------
    given : object
        What was typed (`24.5`, `24d 30m`, `24° 30' 15"`, `24'`), or a number of degrees.
    ask : Ask
        The question, with its bounds.
    unit : str
        Not used: degrees are degrees in both systems.

    Returns
    -------
    angle : float
        The angle. [deg]

    Raises
    ------
    BadInput
        If it is no angle or lies outside the bounds.

    Sources
    -------
    1 degree = 60 minutes = 3600 seconds (ISO 80000-3:2019).

    Examples
    --------
    >>> from engine.inputs import Ask
    >>> ask = Ask("Angle", "angle", "", "", True, dimension="angle")
    >>> read_angle("24d 30m", ask, "mm"), read_angle("30'", ask, "mm")
    (24.5, 0.5)
    """
    number = _clean_number(given)
    value: Fraction | float | None = number
    if number is None:
        text = _as_text(given)
        found = _DMS.fullmatch(text)
        under_a_degree = _MINUTES.fullmatch(text)
        split = _split(text)
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
            value = _by_pint(split[0], split[1], "degree")
    if value is None:
        raise BadInput(ask.label.lower(), given, accepted(ask, unit))
    _bounded(value, given, ask, unit)
    return float(value)


def read_number(given: object, ask: Ask, unit: str) -> float:
    """Read a bare number; a percent sign after it is allowed.

    Parameters
    ----------
    given : object
        What was typed, or a number.
    ask : Ask
        The question, with its bounds.
    unit : str
        Not used.

    Returns
    -------
    number : float
        The number. [-]

    Raises
    ------
    BadInput
        If it is no number or lies outside the bounds.

    Sources
    -------
    None: reading.

    Examples
    --------
    >>> from engine.inputs import Ask
    >>> read_number("0,5", Ask("Factor", "number", "", "", True), "mm")
    0.5
    """
    number = _clean_number(given)
    if number is None:
        split = _split(_as_text(given))
        if split is None or split[1] not in ("", "%", "tpi", ":1"):
            raise BadInput(ask.label.lower(), given, accepted(ask, unit))
        number = split[0]
    _bounded(number, given, ask, unit)
    return float(number)


_PINT_NAMES = {
    "force": "newton",
    "power": "watt",
    "speed": "rpm",
    "surface_speed": "meter / minute",
    "feed": "millimeter / turn",
    "feed_rate": "millimeter / minute",
    "stress": "megapascal",
    "temperature": "degC",
    "torque": "newton * meter",
    "duration": "second",
}


def _with_unit(number: Fraction, word: str, dimension: str) -> float | None:
    """The number in the dimension's metric unit, by the words typed after it; None if they are no such unit."""
    if dimension == "temperature" and word in _CELSIUS:
        return float(number)
    if dimension == "temperature" and word in _FAHRENHEIT:
        return float((number - 32) * Fraction(5, 9))
    factor = _QUICK.get(dimension, {}).get(word)
    if factor is not None:
        return float(number) * factor
    return _by_pint(number, word.replace("rev", "turn"), _PINT_NAMES[dimension])


def read_other(given: object, ask: Ask, unit: str) -> float:
    """Read a force, power, speed, feed or temperature, with or without its unit.

    Parameters
    ----------
    given : object
        What was typed (`750 W`, `1 hp`, `300 F`), or a number in the metric unit.
    ask : Ask
        The question: its `dimension` says what is meant.
    unit : str
        What a bare number is in: the metric or the inch unit of the dimension.

    Returns
    -------
    value : float
        The value. [the dimension's metric unit]

    Raises
    ------
    BadInput
        If it cannot be read as that dimension, or lies outside the bounds.

    Sources
    -------
    Unit definitions: engine/units.txt.

    Examples
    --------
    >>> from engine.inputs import Ask
    >>> read_other("1 hp", Ask("Power", "quantity", "", "", True, dimension="power"), "mm")
    745.7
    """
    value: float | Fraction | None = _clean_number(given)
    if value is None:
        split = _split(_as_text(given))
        kind = DIMENSIONS[ask.dimension]
        if split is not None:
            number, rest = split
            if rest in ("", kind.inch if unit == "inch" else kind.metric):
                inch = unit == "inch" and kind.inch != kind.metric
                value = (float(number) - kind.offset) * kind.factor if inch else number
            elif rest == kind.metric:
                value = number
            else:
                value = _with_unit(number, rest, ask.dimension)
    if value is None:
        raise BadInput(ask.label.lower(), given, accepted(ask, unit))
    _bounded(value, given, ask, unit)
    return float(value)


def read_travel(given: object, ask: Ask, unit: str) -> Fraction:
    """Read an exact travel per turn or a lead: a length, or threads per inch.

    Parameters
    ----------
    given : object
        What was typed (`2`, `0.1in`, `8 tpi`, `1/8"`), or a number in millimetres.
    ask : Ask
        The question, with its bounds.
    unit : str
        What a bare number is in.

    Returns
    -------
    travel : Fraction
        Millimetres, exactly. [mm]

    Raises
    ------
    BadInput
        If it cannot be read, or is not above nought.

    Sources
    -------
    1 in = 25.4 mm exactly (1959 agreement).

    Examples
    --------
    >>> from engine.inputs import Ask
    >>> read_travel("8 tpi", Ask("Lead", "travel", "", "", True, dimension="length"), "mm")
    Fraction(127, 40)
    """
    text = _as_text(given)
    per_inch = re.fullmatch(r"(?i)(\S+)\s*(?:tpi|per\s+inch)", text)
    value: Fraction | None
    if per_inch:
        split = _split(per_inch[1])
        value = MM_PER_INCH / split[0] if split and not split[1] and split[0] > 0 else None
    elif isinstance(given, float):
        value = Fraction(repr(given)) if given == given and abs(given) != float("inf") else None
    else:
        value = parse_length(given, unit)
    if value is None or value <= 0:
        raise BadInput(ask.label.lower(), given, accepted(ask, unit))
    _bounded(value, given, ask, unit)
    return value


def read_count(given: object, ask: Ask, unit: str) -> int:
    """Read a whole number.

    Parameters
    ----------
    given : object
        What was typed, or a whole number.
    ask : Ask
        The question, with its bounds.
    unit : str
        Not used.

    Returns
    -------
    count : int
        The number.

    Raises
    ------
    BadInput
        If it is not whole or lies outside the bounds.

    Sources
    -------
    None: reading.

    Examples
    --------
    >>> from engine.inputs import Ask
    >>> read_count(" 37 ", Ask("Divisions", "count", "", "", True, low=1, high=9999, dimension="count"), "mm")
    37
    """
    number = _clean_number(given)
    if isinstance(number, int | float | Fraction):
        whole = number == number and abs(number) != float("inf") and number == int(number)
        value = int(number) if whole else None
    else:
        text = _as_text(given)
        value = int(text) if re.fullmatch(r"[+-]?[0-9]{1,9}", text) else None
    if value is None:
        raise BadInput(ask.label.lower(), given, accepted(ask, unit))
    _bounded(value, given, ask, unit)
    return value


# Other words of the trade for the same choice.
_SAME = {
    "external": "screw",
    "bolt": "screw",
    "internal": "nut",
    "straight": "axial",
    "cross": "crossed",
    "center": "centre",
    "centers": "centres",
    "medium": "normal",
    "roll": "form",
    "forming": "form",
    "cutting": "cut",
    "reamer": "ream",
}


def read_choice(given: object, ask: Ask, unit: str) -> str:
    """Read one of a few words; an unmistakable beginning is enough.

    Parameters
    ----------
    given : object
        What was typed.
    ask : Ask
        The question, with its choices.
    unit : str
        Not used.

    Returns
    -------
    choice : str
        The word, as the question writes it.

    Raises
    ------
    BadInput
        If it is none of them.

    Sources
    -------
    None: reading.

    Examples
    --------
    >>> from engine.inputs import Ask
    >>> read_choice("Bl", Ask("Hole", "choice", "", "", True, choices=("through", "blind")), "mm")
    'blind'
    """
    text = _as_text(given).casefold()
    exact = [c for c in ask.choices if c.casefold() == text]
    near = exact or [c for c in ask.choices if text and c.casefold().startswith(text)]
    near = near or [c for c in ask.choices if c == _SAME.get(text)]
    if len(near) != 1:
        raise BadInput(ask.label.lower(), given, accepted(ask, unit))
    return near[0]


def read_flag(given: object, ask: Ask, unit: str) -> bool:
    """Read yes or no.

    Parameters
    ----------
    given : object
        What was typed, or a truth value.
    ask : Ask
        The question.
    unit : str
        Not used.

    Returns
    -------
    answer : bool
        True for yes.

    Raises
    ------
    BadInput
        If it is neither.

    Sources
    -------
    None: reading.

    Examples
    --------
    >>> from engine.inputs import Ask
    >>> read_flag("y", Ask("Reads diameter", "flag", "", "", True, choices=("yes", "no")), "mm")
    True
    """
    text = _as_text(given).casefold()
    if text in ("yes", "y", "true", "1", "on"):
        return True
    if text in ("no", "n", "false", "0", "off"):
        return False
    raise BadInput(ask.label.lower(), given, "yes or no")


def read_text(given: object, ask: Ask, unit: str) -> str:
    """Read one short line of words; control characters are refused.

    Parameters
    ----------
    given : object
        What was typed.
    ask : Ask
        The question.
    unit : str
        Not used.

    Returns
    -------
    text : str
        The words, without blanks at the ends.

    Raises
    ------
    BadInput
        If it is longer than 200 characters or holds control characters.

    Sources
    -------
    None: reading.

    Examples
    --------
    >>> from engine.inputs import Ask
    >>> read_text(" 6g ", Ask("Tolerance", "text", "", "", True), "mm")
    '6g'
    """
    text = _as_text(given)
    if len(text) > 200 or not text.isprintable():
        raise BadInput(ask.label.lower(), ascii(text[:40]), "up to 200 printable characters")
    return text
