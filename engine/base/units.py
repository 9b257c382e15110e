"""Numbers with their units, as people write them.

The few marks that are typed all day are read without Pint, which takes a tenth of a second to load; every other unit
goes to Pint with engine/base/units.txt. A test holds the two to the same values.
"""

from __future__ import annotations

import os.path
import re
from fractions import Fraction
from functools import cache
from typing import Any

from engine.base.quantity import LBF, MM_PER_INCH

_SIMPLE = re.compile(r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d{1,2})?", re.ASCII)
_MIXED = re.compile(r"([+-]?)(?:(\d{1,6})[\s-]+)?(\d{1,6})\s*/\s*(\d{1,6})", re.ASCII)
_LENGTHS: dict[str, Fraction | None] = {
    **dict.fromkeys(("in", "inch", '"', "''", "”", "″"), MM_PER_INCH),
    "": None, "mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "µm": Fraction(1, 1000),
    "um": Fraction(1, 1000), "thou": MM_PER_INCH / 1000, "ft": MM_PER_INCH * 12,
}  # fmt: skip
# What else is typed at a bench, in the dimension's metric unit: read without Pint, and held to it by a test.
_QUICK = {
    "force": {"N": 1.0, "kN": 1e3, "lbf": LBF},
    "power": {"W": 1.0, "kW": 1e3, "hp": 745.69987158227022},
    "speed": {"rpm": 1.0, "rev/min": 1.0},
    "surface_speed": {"m/min": 1.0, "ft/min": 0.3048, "m/s": 60.0},
    "stress": {"MPa": 1.0, "psi": LBF / 25.4**2},
    "duration": {"s": 1.0, "min": 60.0, "h": 3600.0},
}
_CELSIUS, _FAHRENHEIT = ("C", "°C", "degC", "c"), ("F", "°F", "degF", "f")
_PINT_NAMES = {
    "angle": "degree", "force": "newton", "power": "watt", "speed": "rpm", "surface_speed": "meter / minute",
    "feed": "millimeter / turn", "feed_rate": "millimeter / minute", "stress": "megapascal",
    "temperature": "degC", "torque": "newton * meter", "duration": "second", "roughness": "micron",
}  # fmt: skip
_UNITS = os.path.join(os.path.dirname(__file__), "units.txt")


@cache
def _registry() -> Any:
    import pint

    return pint.UnitRegistry(_UNITS, autoconvert_offset_to_baseunit=True)


@cache
def _unit_names() -> tuple[frozenset[str], tuple[str, ...]]:
    """The names of the units of units.txt, and the prefixes that may stand before them."""
    names: set[str] = set()
    prefixes = [""]
    with open(_UNITS, encoding="utf-8") as file:
        lines = file.read().splitlines()
    for line in lines:
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


def leading_number(text: str) -> tuple[Fraction, str] | None:
    """Return the number that a text begins with, exactly, and the words after it.

    >>> leading_number("1 1/4 in"), leading_number("wide")
    ((Fraction(5, 4), 'in'), None)
    """
    if text.isdecimal() and text.isascii():  # most are; a pattern takes longer
        return Fraction(int(text)), ""
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


def as_text(given: object) -> str:
    """Return what was given as text without blanks at its ends, its minus sign plain.

    >>> as_text(" \u22123 ")
    '-3'
    """
    return str(given).replace("\u2212", "-").replace("\u00a0", " ").strip()


def ready_number(given: object) -> float | Fraction | None:
    """Return a number that is in engine units already, or None when what was given has to be read as text.

    >>> ready_number(2.5), ready_number("2.5")
    (2.5, None)
    """
    if isinstance(given, bool):
        return None
    return given if isinstance(given, int | float | Fraction) else None


def in_metric(number: Fraction, word: str, dimension: str) -> float | None:
    """A number in its dimension's metric unit, by the unit typed after it (`hp`, `F`, `in/rev`; engine/base/units.txt
    defines them); None if the words are no unit of that dimension.

    >>> in_metric(Fraction(212), "F", "temperature"), in_metric(Fraction(3), "widgets", "force")
    (100.0, None)
    """
    if dimension == "temperature" and word in _CELSIUS:
        return float(number)
    if dimension == "temperature" and word in _FAHRENHEIT:
        return float((number - 32) * Fraction(5, 9))
    factor = _QUICK.get(dimension, {}).get(word)
    if factor is not None:
        return float(number) * factor
    return _by_pint(number, word.replace("rev", "turn"), _PINT_NAMES[dimension])


def parse_length(given: object, unit: str) -> Fraction | None:
    """Read a length as people write it, exactly, in millimetres; None if it cannot be read.

    given: Text (`17`, `17,5 mm`, `3/8`, `1 1/4"`, `40 thou`), or a number already in millimetres.
    unit: What a bare number is in: `mm` or `inch`. A bare fraction such as 3/8 is always an inch size.
    Returns: The length. [mm]
    Source: 1 in = 25.4 mm exactly (1959 agreement).

    >>> float(parse_length("3/8in", "mm")), float(parse_length("17,5", "mm")), float(parse_length(".5", "inch"))
    (9.525, 17.5, 12.7)
    """
    number = ready_number(given)
    if number is not None:
        return Fraction(number) if number == number and abs(number) != float("inf") else None
    text = as_text(given)
    split = leading_number(text)
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
