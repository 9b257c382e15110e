"""What numbers are, and how they are shown in mm or inch.

Inside the engine every number is in the unit of its dimension's `metric` column; the factors here are exact. What
people type is read in engine/base/reading.py.
"""

from __future__ import annotations

from fractions import Fraction

from engine.base.records import dataclass
from engine.base.rounding import Side, rounded, short, significant

MM_PER_INCH = Fraction(127, 5)  # exact: international yard and pound agreement, 1959
INCH_MM = 25.4  # the same as a float, for tables and thresholds that were written in inches
LBF = 4.4482216152605  # N, exact: 0.45359237 kg x 9.80665 m/s2


@dataclass(frozen=True, slots=True)
class Dimension:
    """How one kind of number is shown: metric and inch unit, metric units per inch unit, usual decimals."""

    metric: str
    inch: str
    factor: float
    decimals: int
    inch_decimals: int
    offset: float = 0.0
    times: float = 1.0  # what is shown of it: a share of 0.17 as 17 %


DIMENSIONS = {
    "length": Dimension("mm", "in", 25.4, 3, 4),
    "area": Dimension("mm²", "in²", 25.4**2, 2, 4),
    "angle": Dimension("°", "°", 1.0, 3, 3),
    "speed": Dimension("rev/min", "rev/min", 1.0, 0, 0),
    "surface_speed": Dimension("m/min", "ft/min", 0.3048, 0, 0),
    "feed": Dimension("mm/rev", "in/rev", 25.4, 3, 4),
    "feed_rate": Dimension("mm/min", "in/min", 25.4, 0, 1),
    "force": Dimension("N", "lbf", LBF, 0, 0),
    "torque": Dimension("N·m", "lbf·in", LBF * 0.0254, 2, 1),
    "power": Dimension("W", "W", 1.0, 0, 0),
    "stress": Dimension("MPa", "psi", LBF / 25.4**2, 0, 0),
    "temperature": Dimension("°C", "°F", 5 / 9, 0, 0, offset=32.0),
    "warmer": Dimension("°C", "°F", 5 / 9, 0, 0),  # a difference of temperatures
    "roughness": Dimension("µm", "µin", 0.0254, 1, 0),
    "duration": Dimension("s", "s", 1.0, 1, 1),
    "seconds_of_arc": Dimension("arcsec", "arcsec", 1.0, 1, 1),
    "tpi": Dimension("tpi", "tpi", 1.0, 3, 3),
    "percent": Dimension("%", "%", 1.0, 0, 0),
    "share": Dimension("%", "%", 1.0, 0, 0, times=100.0),
    "ppm": Dimension("ppm", "ppm", 1.0, 0, 0),
    "ratio": Dimension("", "", 1.0, 3, 3),
    "count": Dimension("", "", 1.0, 0, 0),
    "text": Dimension("", "", 1.0, 0, 0),
}

JSON_UNITS = {
    "angle": "deg", "temperature": "degC", "warmer": "degC", "seconds_of_arc": "arcsec", "area": "mm2",
    "torque": "N.m", "roughness": "um", "share": "",
}  # fmt: skip


def show(value: float, dimension: str, unit: str = "mm", *, decimals: int | None = None, side: Side = "nearest") -> str:
    """Write a number with its unit, in the metric or the inch system (1 in = 25.4 mm exactly: 1959 agreement).

    A number comes in the metric unit of its dimension, here and below; `unit` is `mm` or `inch`; `decimals` counts those in
    the metric unit, inch lengths show one more (None: as the dimension usually has); `side` as in engine.base.rounding.

    >>> show(25.4, "length"), show(25.4, "length", "inch"), show(8.8629, "length", side="down")
    ('25.400 mm', '1.0000 in', '8.862 mm')
    """
    return _with_name(show_number(value, dimension, unit, decimals=decimals, side=side), dimension, unit)


def _with_name(digits: str, dimension: str, unit: str) -> str:
    name = DIMENSIONS[dimension].inch if unit == "inch" else DIMENSIONS[dimension].metric
    return digits + ("" if name in ("", "°", "%") else " ") + name


def show_number(
    value: float, dimension: str, unit: str = "mm", *, decimals: int | None = None, side: Side = "nearest"
) -> str:
    """Write a number without its unit, for a table whose head names the unit.

    >>> show_number(1.5, "length"), show_number(20, "temperature", "inch"), show(0.174, "share")
    ('1.500', '68', '17%')
    """
    kind = DIMENSIONS[dimension]
    value *= kind.times
    if unit == "inch":
        value = value / kind.factor + kind.offset
        places = kind.inch_decimals if decimals is None else decimals + (kind.inch_decimals - kind.decimals)
    else:
        places = kind.decimals if decimals is None else decimals
    return rounded(value, max(places, 0), side)


def show_plain(value: float, dimension: str, unit: str = "mm") -> str:
    """Write a number with its unit and without the noughts that say nothing; something small is never 0.

    >>> show_plain(500, "length"), show_plain(0.00004, "length")
    ('500 mm', '0.00004 mm')
    """
    digits = show_number(value, dimension, unit)
    if value and not float(digits):
        digits = show_number(value, dimension, unit, decimals=6)
    return _with_name(digits.rstrip("0").rstrip(".") if "." in digits else digits, dimension, unit)


def worked(value: float, unit: str, dimension: str = "length") -> str:
    """Write a number as it is put into a working: in the unit on the screen, without its name, six digits at most, no noughts
    at the end.

    >>> worked(17.4625, "inch"), worked(17.4625, "mm"), worked(24.384, "inch", "surface_speed")
    ('0.6875', '17.4625', '80')
    """
    kind = DIMENSIONS[dimension]
    shown = value / kind.factor + kind.offset if unit == "inch" else value
    digits = significant(round(shown, 9))
    return digits if "e" not in digits else short(shown, 9)


def bounds_text(
    low: float | None, high: float | None, unit: str, dimension: str = "length", decimals: int | None = None
) -> str:
    """Return a pair of limits, either of which may be missing: those of a size rounded inwards.

    The ends of a published range of speeds or feeds are no limits of a part: they are rounded like any number.

    >>> bounds_text(None, 5.1, "mm"), bounds_text(24.384, 30.48, "mm", "surface_speed")
    ('5.100 or less', '24 to 30')
    """

    def bound(value: float, side: Side) -> str:
        inwards: Side = side if dimension == "length" else "nearest"
        return show_number(value, dimension, unit, decimals=decimals, side=inwards)

    if low is not None and high is not None:
        return f"{bound(low, 'up')} to {bound(high, 'down')}"
    if low is not None:
        return f"{bound(low, 'up')} or more"
    return "" if high is None else f"{bound(high, 'down')} or less"
