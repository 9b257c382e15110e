"""General-purpose Acme threads: 3/4-6 ACME, 1/2-10-0.2L (2 STARTS) ACME-2G, 1-8 ACME special."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction
from itertools import pairwise
from math import sqrt
from typing import Any

from engine.base.quantity import INCH_MM, MM_PER_INCH
from engine.base.rounding import rounded
from engine.base.sums import Sum, mm, num
from engine.base.words import Text
from engine.threads.form import trapezoid
from engine.threads.inch_pairs import pair_words, read_pair
from engine.threads.limits import limits, to_inch_places, worked
from engine.threads.series import inch_entries
from engine.threads.stress import between
from engine.threads.thread import Family, Grammar, Thread
from engine.threads.told import Area, Classes, Limits

_COARSE = Fraction(254, 100)  # mm; ASME B1.5 gives 10 threads per inch and coarser the larger clearance
_INCH = float(MM_PER_INCH)


def clearance(thread: Thread) -> float:
    """ASME B1.5: 0.020 in on diameter for 10 threads per inch and coarser, 0.010 in for finer."""
    return 0.254 if thread.pitch >= _COARSE else 0.127


def _four(value: float) -> float:
    """Inches to four decimals, exact halves to the even digit, as the printed tables have them; in mm."""
    rounded = Decimal(repr(round(value, 9))).quantize(Decimal("0.0001"), ROUND_HALF_EVEN)
    return float(rounded * Decimal(str(INCH_MM)))


def _in(inches: float, symbol: str) -> Sum:
    return mm(inches * _INCH, symbol=symbol)


# Class -> allowance in square roots of D, tolerance in square roots of P and of D.
_CLASSES = {"2": (0.008, 0.030, 0.006), "3": (0.006, 0.014, 0.0028), "4": (0.004, 0.010, 0.002)}
# Sixteenths of an inch; the middle of the range stands for D in the allowance and in that part of the tolerance.
_RANGES = (3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23, 25, 30, 34, 38, 42, 46, 52, 60, 68, 76)
_SOURCE = {
    "2": "ASME B1.5-1997, class 2G formulas",
    "3": "ASME B1.5-1997, class 3G formulas (coefficients from memory; they give its printed stress areas)",
    "4": "ASME B1.5-1997, class 4G formulas (allowance as printed, tolerance from memory)",
}


def middle_of_range(diameter: float) -> float:
    """The diameter that stands for a size in inches in the allowance and the tolerance of ASME B1.5: the middle of its
    range of sizes, as its printed allowances have it; itself on the border of two ranges and where none is known.

    >>> middle_of_range(1.75), middle_of_range(0.75), middle_of_range(5.0)
    (1.71875, 0.75, 5.0)
    """
    for low, high in pairwise(_RANGES):
        if low < round(16 * diameter, 6) < high:
            return (low + high) / 32
    return diameter


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """ASME B1.5-1997, nut side from memory. 3/4-6-2G: pitch diameter 0.6423 to 0.6597 in (a rod maker's table)."""
    screw, nut = (classes.screw or FAMILY.usual[0])[0], (classes.nut or FAMILY.usual[1])[0]
    sources = _SOURCE[screw], f"{_SOURCE[nut]} (nut side from memory)"
    return general_purpose(thread, screw, nut, depth=0.5, smallest_crest=0.005, root=1.5, sources=sources)


def general_purpose(
    thread: Thread, screw: str, nut: str, *, depth: float, smallest_crest: float, root: float, sources: tuple[str, str]
) -> Limits:
    """Return the limits of an Acme thread or a stub Acme thread.

    thread: The thread, in inches.
    screw, nut: Class of each: `2`, `3` or `4`.
    depth: Basic depth: 0.5, stub 0.3. [pitches]
    smallest_crest: Least tolerance of the crests. [in]
    root: Tolerance of the screw's minor diameter. [tolerances of its pitch diameter]
    sources: Of the screw's side and of the nut's.
    Returns: Each to four decimals of an inch, halves to the even digit, as the printed tables have them. [mm]
    Source: ASME B1.5-1997: allowance 0.008 D^(1/2), tolerance 0.030 P^(1/2) + 0.006 D^(1/2) for class 2G; 3G and 4G
        alike.

    >>> from engine.threads.designation import parse
    >>> from engine.threads.limits import limits
    >>> found = limits(parse("1-5 ACME"), "3G")
    >>> round(found.allowance / 25.4, 4), round((found.ext_pitch_max - found.ext_pitch_min) / 25.4, 4)
    (0.006, 0.0091)
    """
    diameter, pitch = thread.diameter / _INCH, float(thread.pitch) / _INCH
    gap = round(2 * thread.kind.clearance(thread) / _INCH, 3)
    middle = middle_of_range(diameter)
    fit, by_pitch, by_diameter = _CLASSES[screw]
    allowance = fit * sqrt(middle)
    tolerance = by_pitch * sqrt(pitch) + by_diameter * sqrt(middle)
    _, nut_pitch, nut_diameter = _CLASSES[nut]
    nut_tolerance = nut_pitch * sqrt(pitch) + nut_diameter * sqrt(middle)
    crest = max(0.05 * pitch, smallest_crest)
    d, p, ac, c = _in(diameter, "D"), _in(pitch, "P"), _in(gap, "clearance"), _in(crest, "0.05 P")
    half, whole = (p / 2, p) if depth == 0.5 else (num(depth) * p, num(2 * depth) * p)
    t, less = _in(tolerance, "tolerance"), _in(allowance, "allowance")
    effective, minor, core, largest = d - half, d - whole, d - whole - ac, d - half - less
    sums: dict[str, Sum] = {
        "pitch_basic": effective,
        "minor_basic": minor,
        "ext_major_max": d,
        "ext_major_min": d - c,
        "ext_pitch_max": largest,
        "ext_pitch_min": largest.known(symbol="largest") - t,
        "ext_minor_max": core,
        "ext_minor_min": core.known(symbol="largest") - num(root) * t,
        "int_minor_min": minor,
        "int_minor_max": minor.known(symbol="smallest") + c,
        "int_pitch_min": effective,
        "int_pitch_max": effective.known(symbol="smallest") + _in(nut_tolerance, "tolerance"),
        "int_major_min": d + ac,
        "allowance": less,
    }
    least = to_inch_places(4, f"; at least {smallest_crest} in" if smallest_crest else "")
    dm = "" if middle == diameter else f", D = {middle} the middle of its range"
    rule = to_inch_places(4, f"; tolerance {rounded(by_pitch, 3)} P^(1/2) + {by_diameter} D^(1/2) in inches{dm}")
    eight = to_inch_places(4, f"; allowance {fit} D^(1/2) in inches{dm}")
    ends: dict[str, Text] = dict.fromkeys(("ext_major_min", "int_minor_max"), least)
    ends |= {"ext_pitch_max": eight, "allowance": eight, "ext_pitch_min": rule, "pitch_basic": "", "minor_basic": ""}
    found = worked(sums, lambda size: _four(size / _INCH), to_inch_places(4), ends=ends)
    found |= {"pitch_basic": (diameter - depth * pitch) * _INCH, "minor_basic": (diameter - 2 * depth * pitch) * _INCH}
    return Limits(
        screw_class=f"{screw}G", nut_class=f"{nut}G", major_basic=thread.diameter, source=sources[0],
        sources={name: sources[1] for name in sums if name.startswith("int_")}, **found,
    )  # fmt: skip


def smallest_area(thread: Thread) -> Area:
    """The stress area by the mean of the smallest pitch and minor diameters of the screw (ASME B1.5, from memory)."""
    sizes = limits(thread)
    assert sizes.ext_pitch_min is not None and sizes.ext_minor_min is not None
    return between(sizes.ext_pitch_min, sizes.ext_minor_min, "ASME B1.5: smallest sizes; rule from memory")


def acme(
    id: str, name: str, place: int, standard: str, *, mark: str, series: str, depth: float = 0.5, **more: Any
) -> Family:
    """A family of Acme threads by its standard's form: 29 degrees, `depth` in pitches; `more` as Family takes it."""
    found: Family = Family(
        id, name, place, f"the {standard} series", standard,
        read=lambda written, mark: read_pair(written, mark, found, f"{series} special", "-"), write=pair_words,
        pairs=lambda: inch_entries(id, "acme", series),
        form=lambda thread: trapezoid(
            float(thread.pitch), angle=29.0, gap=clearance(thread), source=standard, profile="Acme", depth=depth
        ),
        marks={id: mark}, inch=True, clearance=clearance, stress_area=smallest_area, charted=False, formed=False,
        usual=("2G", "2G"), **more,
    )  # fmt: skip
    return found


FAMILY = acme(
    "acme", "Acme", 120, "ASME B1.5", mark="acme", series="ACME", limits=_limits,
    classes=Grammar("[234]G", "[234]G", "2G, 3G or 4G", "upper"),
)  # fmt: skip
