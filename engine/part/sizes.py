"""Sizes as people write them on a drawing: a size with its limits, a chamfer, a bar, a cone; and back.

Every reader takes what was typed and the file's unit, and refuses in one sentence under the field "value";
the caller knows its name.
"""

from __future__ import annotations

import re
from fractions import Fraction
from math import atan, degrees, radians, tan

from engine.base.quantity import INCH_MM
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.units import as_text, parse_length
from engine.part.part import Bar, Section, Size

_SIGN = str.maketrans({"±": "+-", "−": "-", "–": "-", "⌀": "", "Ø": "", "ø": "", "×": "x", "°": "", ",": "."})
_EITHER_WAY = re.compile(r"(.+?)\s*(?:\+\s*/?\s*-)\s*(.+)")
_UPPER_LOWER = re.compile(r"(.+?)\s+([+-]\s*[^/\s]+|0)\s*/\s*([+-]\s*[^/\s]+|0)")
_CLASS = re.compile(r"(.+?)\s*(?<![A-Za-z])((?:[A-Za-z]|js|JS|z[abc]|Z[ABC]|cd|CD|ef|EF|fg|FG)(?:0?\d|1[0-8]))")
_RANGE = re.compile(r"(.+?)\s*\.\.\s*(.+)")
SIZE_WORDS = "a size, with limits if it has any: 8, 8 +0.08/+0.03, 13 +-0.1, 10 H7 or 15.95..16.05"
_LARGEST = 5000.0  # mm


def read_size(given: object, unit: str, *, nought: bool = False) -> Size:
    """Read a size with its limits, such as `8 +0.08/+0.03`, `13 +-0.1`, `10 H7`, `15.95..16.05` or `3/8`.

    >>> read_size("8 +0.08/+0.03", "mm")
    Size(nominal=8.0, low=8.03, high=8.08, fit='', written='8 +0.08/+0.03', general=False)
    >>> read_size("10 H7", "mm").high, read_size("3/8", "mm").nominal
    (10.015, 9.525)
    """
    text = " ".join(as_text(given).translate(_SIGN).split())
    found = _size(text, unit)
    if found is None or not (0 <= found.nominal <= _LARGEST) or (found.nominal == 0 and not nought):
        raise BadInput("value", given, SIZE_WORDS)
    if found.low is not None and found.high is not None and not -1e-12 <= found.low < found.high:
        accepted = "limits that leave some tolerance, the larger one above the smaller"
        raise BadInput("value", given, accepted)
    return found


def _size(text: str, unit: str) -> Size | None:
    if found := _RANGE.fullmatch(text):
        low, high = _length(found[1], unit), _length(found[2], unit)
        return None if low is None or high is None else _limits((low + high) / 2, low, high, text)
    if found := _EITHER_WAY.fullmatch(text):
        nominal, off = _length(found[1], unit), _length(found[2], unit)
        return None if nominal is None or off is None else _limits(nominal, nominal - off, nominal + off, text)
    if found := _UPPER_LOWER.fullmatch(text):
        nominal, *offs = (_length(part.replace(" ", ""), unit) for part in found.groups())
        if nominal is None or offs[0] is None or offs[1] is None:
            return None
        return _limits(nominal, nominal + min(offs[0], offs[1]), nominal + max(offs[0], offs[1]), text)
    found = _CLASS.fullmatch(text)  # before a plain length, whose reader would look for a unit called H7
    nominal = _length(found[1], unit) if found else None
    if found and nominal is not None:
        return with_fit(Size(float(nominal), written=text), found[2])
    plain = _length(text, unit)
    return None if plain is None else Size(float(plain), written=text)


def _length(text: str, unit: str) -> Fraction | None:
    return parse_length(text, unit) if len(text) <= 40 else None


def _limits(nominal: Fraction, low: Fraction, high: Fraction, text: str) -> Size:
    return Size(float(nominal), float(low), float(high), written=text)


def with_fit(size: Size, fit: str) -> Size:
    """Put the limits of a tolerance class to a size.

    >>> with_fit(Size(16.0, written="16"), "p6").low
    16.018
    """
    from engine.joining.iso286 import limits_of

    try:
        off = limits_of(fit, size.nominal)
    except BadInput as refusal:
        raise BadInput("value", f"{size.written} {fit}".strip(), refusal.accepted) from None
    low, high = round(size.nominal + off.lower, 9), round(size.nominal + off.upper, 9)
    return Size(size.nominal, low, high, fit, size.written)


def limits_text(size: Size, unit: str) -> str:
    """Write a size with its limits as a drawing does, in the unit of the drawing.

    >>> limits_text(read_size("8 +0.08/+0.03", "mm"), "mm"), limits_text(read_size("0.5 +-0.002", "inch"), "inch")
    ('8 +0.08/+0.03', '0.5 ±0.002')
    """
    nominal = number(size.nominal, unit)
    if size.fit:
        return f"{nominal} {size.fit}"
    if size.low is None or size.high is None:
        return nominal
    up, down = size.high - size.nominal, size.low - size.nominal
    if abs(up + down) < 1e-9:
        return f"{nominal} ±{number(up, unit)}"
    return f"{nominal} {_signed(up, unit)}/{_signed(down, unit)}"


def _signed(off: float, unit: str) -> str:
    shown = number(abs(off), unit)
    return "0" if float(shown) == 0 else ("-" if off < 0 else "+") + shown


def number(length: float, unit: str, decimals: int = 4) -> str:
    """Write a length with the decimals it needs, so many in mm at most and one more in inches.

    >>> number(9.525, "mm"), number(9.525, "inch"), number(25.0, "mm"), number(0.05, "inch", 3)
    ('9.525', '0.375', '25', '0.002')
    """
    shown = f"{length / INCH_MM:.{decimals + 1}f}" if unit == "inch" else f"{length:.{decimals}f}"
    shown = shown.rstrip("0").rstrip(".")
    return "0" if shown == "-0" else shown


_INCHES = re.compile(r"(?<![\w./(])(\d*\.\d+) in\b(?!\))")


def with_mm(text: str) -> str:
    """The words of a plan in inches, with the mm behind each: what a dial or a rule in mm is set to.

    >>> with_mm("Part off at 1.8868 in; stop 5 mm (0.2 in) short")
    'Part off at 1.8868 in (47.92 mm); stop 5 mm (0.2 in) short'
    """
    return _INCHES.sub(lambda found: f"{found[0]} ({number(float(found[1]) * INCH_MM, 'mm', 2)} mm)", text)


@dataclass(frozen=True, slots=True)
class Edge:
    """A chamfer as written: `long` along the axis and `angle` to the axis; or down `to` a diameter, the
    angle to the face.
    """

    written: str
    long: float = 0.0
    angle: float = 45.0
    to: float | None = None

    def on(self, diameter: float, *, hole: bool = False) -> tuple[float, float]:
        """Its length along the axis and its depth on the radius, at the edge of a diameter."""
        if self.to is None:
            return self.long, self.long * tan(radians(self.angle))
        depth = (self.to - diameter if hole else diameter - self.to) / 2
        return depth * tan(radians(self.angle)), depth


_TO = re.compile(r"to\s+(.+?)(?:\s*x\s*([\d.]+))?")
_LEG = re.compile(r"(.+?)(?:\s*x\s*([\d.]+))?")
EDGE_WORDS = (
    "a chamfer as 0.5, as 1.5 x 15 (length and angle to the axis) or as to 16.2 x 30 (diameter and angle to the face)"
)


def read_edge(given: object, unit: str) -> Edge:
    """Read a chamfer: `0.5`, `1.5 x 15` or `to 16.2 x 30`.

    >>> read_edge("to 16.2 x 30", "mm").to, read_edge("1.5 x 15", "mm").angle
    (16.2, 15.0)
    """
    text = " ".join(as_text(given).translate(_SIGN).split())
    found = _TO.fullmatch(text) or _LEG.fullmatch(text)
    size = _length(found[1], unit) if found else None
    angle = float(found[2]) if found and found[2] and found[2].count(".") < 2 and found[2] != "." else 45.0
    if size is None or not 0 < size <= 200 or not 1 <= angle <= 89:
        raise BadInput("value", given, EDGE_WORDS)
    if text.startswith("to "):
        return Edge(text, to=float(size), angle=angle)
    return Edge(text, long=float(size), angle=angle)


_SECTIONS: dict[str, Section] = {
    "hex": "hex", "hexagon": "hex", "square": "square", "sq": "square", "round": "round", "": "round"
}  # fmt: skip
BAR_WORDS = "a bar as 28, hex 17, square 20 or tube 28 x 20"


def read_bar(given: object, unit: str) -> Bar:
    """Read a bar: `28`, `hex 17`, `square 20`, `tube 28 x 20`.

    >>> read_bar("hex 17", "mm").section, read_bar("tube 28 x 20", "mm").bore
    ('hex', 20.0)
    """
    text = " ".join(as_text(given).translate(_SIGN).split())
    words = text.lower()
    if words.startswith("tube ") and " x " in words:
        outer, inner = (_length(part, unit) for part in words.removeprefix("tube ").split(" x ", 1))
        if outer is None or inner is None or not 0 < inner < outer <= 1000:
            raise BadInput("value", given, BAR_WORDS)
        return Bar(size=float(outer), bore=float(inner), written=text)
    found = re.fullmatch(r"(?:([a-z]+)\s+)?(.+?)", words)
    section = _SECTIONS.get((found[1] or "") if found else "?")
    size = _length(found[2], unit) if found else None
    if section is None or size is None or not 0 < size <= 1000:
        raise BadInput("value", given, BAR_WORDS)
    return Bar(size=float(size), section=section, written=text)


@dataclass(frozen=True, slots=True)
class Blank:
    """A piece of bar: its length, and its bar where that was written with it."""

    long: float
    sawn: bool
    bar: Bar | None
    written: str


BLANK_WORDS = "the length of the piece as 62, 62 sawn, or 75 x 14 sawn (its bar and its length)"


def read_blank(given: object, unit: str) -> Blank:
    """Read a blank: `15`, `62 sawn`, `75 x 14 sawn`.

    >>> read_blank("62 sawn", "mm").long, read_blank("75 x 14 sawn", "mm").bar.size
    (62.0, 75.0)
    """
    text = " ".join(as_text(given).translate(_SIGN).split())
    sawn = text.endswith(" sawn")
    piece = text.removesuffix(" sawn")
    bar_text, cross, long_text = piece.rpartition(" x ")
    long = _length(long_text, unit)
    if long is None or not 0 < long <= _LARGEST:
        raise BadInput("value", given, BLANK_WORDS)
    return Blank(float(long), sawn, read_bar(bar_text, unit) if cross else None, text)


CONE_WORDS = "the whole angle of the cone from 0.1 to 170, or a taper on the diameter as 1 in 10"


@dataclass(frozen=True, slots=True)
class Cone:
    """The included angle of a cone in degrees, and how it was written."""

    angle: float
    written: str


def read_cone(given: object) -> Cone:
    """Read a cone by its included angle, `60`, or by its taper on the diameter, `1 in 10`.

    >>> round(read_cone("1 in 10").angle, 4), read_cone("60").angle
    (5.7248, 60.0)
    """
    text = " ".join(as_text(given).translate(_SIGN).split())
    ratio = re.fullmatch(r"([\d.]+)\s*(?:in|:)\s*([\d.]+)", text)
    try:
        angle = 2 * degrees(atan(float(ratio[1]) / float(ratio[2]) / 2)) if ratio else float(text)
    except (ValueError, ZeroDivisionError):
        angle = 0.0
    if not 0.1 <= angle <= 170:
        raise BadInput("value", given, CONE_WORDS)
    return Cone(angle, text)
