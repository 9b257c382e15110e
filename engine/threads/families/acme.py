"""General-purpose Acme threads: 3/4-6 ACME, 1/2-10-0.2L (2 STARTS) ACME-2G, 1-8 ACME special."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction
from math import sqrt
from typing import Any

from engine.base.quantity import MM_PER_INCH
from engine.base.sums import Sum, mm, num
from engine.base.words import Text
from engine.threads.family import Family, Grammar, Mark
from engine.threads.form import Form, trapezoid
from engine.threads.inch_pairs import pair_words, read_pair
from engine.threads.limits import Limits, limits, ruled, to_inch_places
from engine.threads.series import inch_entries
from engine.threads.stress import Area, between
from engine.threads.thread import Thread
from engine.threads.tolerance import Classes
from engine.threads.written import Written

_COARSE = Fraction(254, 100)  # mm; ASME B1.5 gives 10 threads per inch and coarser the larger clearance
_INCH = float(MM_PER_INCH)


def _read(written: Written, mark: Mark) -> Thread:
    return read_pair(written, mark, FAMILY, special="ACME special", joint="-")


def _clearance(thread: Thread) -> float:
    """ASME B1.5: 0.020 in on diameter for 10 threads per inch and coarser, 0.010 in for finer."""
    return 0.254 if thread.pitch >= _COARSE else 0.127


def _form(thread: Thread) -> Form:
    return trapezoid(
        float(thread.pitch), angle=29.0, gap=_clearance(thread), source="ASME B1.5", profile="Acme"
    )


def _four(value: float) -> float:
    """Inches to four decimals, exact halves to the even digit, as the printed tables have them; in mm."""
    rounded = Decimal(repr(round(value, 9))).quantize(Decimal("0.0001"), ROUND_HALF_EVEN)
    return float(rounded * Decimal("25.4"))


def _in(inches: float, symbol: str) -> Sum:
    return mm(inches * _INCH, symbol=symbol)


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """ASME B1.5-1997, class 2G formulas, nut side from memory; each to four decimals of an inch. 3/4-6: pitch diameter
    0.6423 to 0.6597 in (a rod maker's table)."""
    diameter, pitch = thread.diameter / _INCH, float(thread.pitch) / _INCH
    gap = round(2 * _clearance(thread) / _INCH, 3)
    allowance = 0.008 * sqrt(diameter)
    tolerance = 0.030 * sqrt(pitch) + 0.006 * sqrt(diameter)
    crest = max(0.05 * pitch, 0.005)
    effective, minor = diameter - pitch / 2, diameter - pitch
    core = minor - gap
    sizes: dict[str, Any] = {
        "ext_major_max": diameter,
        "ext_major_min": diameter - crest,
        "ext_pitch_max": effective - allowance,
        "ext_pitch_min": effective - allowance - tolerance,
        "ext_minor_max": core,
        "ext_minor_min": core - 1.5 * tolerance,
        "int_minor_min": minor,
        "int_minor_max": minor + crest,
        "int_pitch_min": effective,
        "int_pitch_max": effective + tolerance,
        "int_major_min": diameter + gap,
        "allowance": allowance,
    }
    d, p, ac = _in(diameter, "D"), _in(pitch, "P"), _in(gap, "clearance")
    t, less = _in(tolerance, "tolerance"), _in(allowance, "allowance")
    c = _in(crest, "0.05 P")
    to, at_least = to_inch_places(4), to_inch_places(4, "; at least 0.005 in")
    rule = to_inch_places(4, "; tolerance 0.030 P^(1/2) + 0.006 D^(1/2) in inches")
    eight = to_inch_places(4, "; allowance 0.008 D^(1/2) in inches")
    working: dict[str, Text] = {
        "pitch_basic": ruled(d - p / 2),
        "minor_basic": ruled(d - p),
        "ext_major_max": ruled(d, to),
        "ext_major_min": ruled(d - c, at_least),
        "ext_pitch_max": ruled(d - p / 2 - less, eight),
        "ext_pitch_min": ruled(_in(effective - allowance, "largest") - t, rule),
        "ext_minor_max": ruled(d - p - ac, to),
        "ext_minor_min": ruled(_in(core, "largest") - num(1.5) * t, to),
        "int_minor_min": ruled(d - p, to),
        "int_minor_max": ruled(_in(minor, "smallest") + c, at_least),
        "int_pitch_min": ruled(d - p / 2, to),
        "int_pitch_max": ruled(_in(effective, "smallest") + t, to),
        "int_major_min": ruled(d + ac, to),
        "allowance": ruled(less, eight),
    }
    screw = "ASME B1.5-1997, class 2G formulas"
    nut = f"{screw} (nut side from memory)"
    limits_in_mm: dict[str, Any] = {name: _four(value) for name, value in sizes.items()}
    return Limits(
        screw_class="2G",
        nut_class="2G",
        major_basic=thread.diameter,
        pitch_basic=effective * _INCH,
        minor_basic=minor * _INCH,
        source=screw,
        sources={name: nut for name in sizes if name.startswith("int_")},
        working=working,
        **limits_in_mm,
    )


def _stress_area(thread: Thread) -> Area:
    sizes = limits(thread)
    assert sizes.ext_pitch_min is not None and sizes.ext_minor_min is not None
    return between(sizes.ext_pitch_min, sizes.ext_minor_min, "ASME B1.5: smallest sizes; rule from memory")


FAMILY = Family(
    id="acme",
    name="Acme",
    place=120,
    standard="the ASME B1.5 series",
    sizes="ASME B1.5",
    marks={"acme": "acme"},
    read=_read,
    write=pair_words,
    pairs=lambda: inch_entries("acme", "acme", "ACME"),
    form=_form,
    limits=_limits,
    classes=Grammar("2G", "2G", "2G", "upper"),
    inch=True,
    clearance=_clearance,
    stress_area=_stress_area,
    charted=False,
    formed=False,
)
