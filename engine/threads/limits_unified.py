"""Limits of Unified threads, by the formulas and the rounding of ASME B1.1."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from engine.base.quantity import MM_PER_INCH
from engine.threads.limits_types import Limits
from engine.threads.thread import Thread
from engine.threads.tolerance import Classes

_FACTORS = {"1A": "1.5", "2A": "1", "3A": "0.75", "1B": "1.95", "2B": "1.3", "3B": "0.975"}
_SOURCE = "ASME B1.1-2019: formulas and six-decimal rounding (worked examples, Machinery's Handbook, 31st ed., p. 2011)"
_SMALL = Decimal("0.138")  # in; from here nut minor diameters are rounded to 3 decimals
_PLACES = {n: Decimal(1).scaleb(-n) for n in (3, 4, 6, 8)}


def _round(value: float | Decimal, places: int) -> Decimal:
    number = value if isinstance(value, Decimal) else Decimal(repr(value))
    return number.quantize(_PLACES[places], ROUND_HALF_UP)


def _mm(inches: Decimal) -> float:
    return float(inches * Decimal("25.4"))


def _engagement(thread: Thread, diameter: float, pitch: float, engagement: float | None) -> tuple[float, str]:
    """Length of engagement in inches and what it is called in the working."""
    if engagement is not None:
        return engagement / 25.4, f"{engagement / 25.4:.4f}"
    base = thread.series.replace("R", "", 1)
    constant = base in ("UNEF", "UNS") or (base == "UN" and thread.threads_per_inch > 8)
    return (9 * pitch, "9 P") if constant else (diameter, "D")


def unified_limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """Return the limits of a Unified thread; each is built on limits already rounded.

    Parameters
    ----------
    thread : Thread
        The thread.
    classes : Classes
        Classes asked for; None for the usual one.
    engagement : float or None
        Length of engagement; None for the usual one. [mm]

    Returns
    -------
    limits : Limits
        The limits. [mm]

    Raises
    ------
    ValueError
        Never.

    Sources
    -------
    ASME B1.1-2019; worked examples in Machinery's Handbook, 31st ed., pp. 2011-2016.

    Examples
    --------
    #0-80 UNF-2A: pitch diameter 0.0496 to 0.0514 in (ASME B1.1 limits listing).

    >>> from engine.threads.designation import parse
    >>> found = unified_limits(parse("#0-80 UNF"), Classes(None, None), None)
    >>> round(found.ext_pitch_min / 25.4, 4), round(found.ext_pitch_max / 25.4, 4)
    (0.0496, 0.0514)
    """
    screw, nut = classes.screw or "2A", classes.nut or "2B"
    diameter = _inches(thread)
    pitch = _round(float(thread.pitch / MM_PER_INCH), 8)
    length, length_name = _engagement(thread, float(diameter), float(pitch), engagement)
    tolerance = _round(
        0.0015 * float(diameter) ** (1 / 3) + 0.0015 * length**0.5 + 0.015 * float(pitch) ** (2 / 3), 6
    )
    height = _round(Decimal("0.64951905") * pitch, 6)
    sizes: dict[str, Any] = {}
    working: dict[str, str] = {}
    _screw_side(screw, diameter, pitch, height, tolerance, length_name, sizes, working)
    _nut_side(nut, diameter, pitch, height, tolerance, sizes, working)
    notes = _notes(thread, float(diameter), float(pitch), length, engagement)
    return Limits(
        screw_class=screw,
        nut_class=nut,
        major_basic=thread.diameter,
        pitch_basic=_mm(_round(diameter - height, 4)),
        minor_basic=_mm(_round(diameter - _round(Decimal("1.08253175") * pitch, 6), 4)),
        source=_SOURCE,
        notes=notes,
        working=working,
        sources={"ext_minor_max": "ASME B1.1-2019, UNR minor diameter, a reference figure good to 0.0001 in"},
        **sizes,
    )


def _inches(thread: Thread) -> Decimal:
    """Basic major diameter to four decimals, as the worked examples take it (19/64 in is 0.2969)."""
    return _round(thread.diameter / 25.4, 4)


def _notes(
    thread: Thread, diameter: float, pitch: float, length: float, engagement: float | None
) -> tuple[str, ...]:
    notes = []
    if engagement is not None and not 5 * pitch <= length <= 15 * pitch and length > 1.5 * diameter:
        notes.append("the engagement is longer than ASME B1.1 has its tolerances for (1.5 D, or 15 P)")
    notes.append(
        "tables before 2003 round each tolerance to 4 decimals: they may differ by 0.0001 in, 2B minor by 0.001 in"
    )
    return tuple(notes)


def _screw_side(
    name: str,
    diameter: Decimal,
    pitch: Decimal,
    height: Decimal,
    tolerance: Decimal,
    length_name: str,
    sizes: dict[str, float],
    working: dict[str, str],
) -> None:
    allowance = _round(_round(Decimal("0.3") * tolerance, 6), 4) if name != "3A" else Decimal(0)
    factor = 0.09 if name == "1A" else 0.06
    major_tolerance = _round(factor * float(pitch) ** (2 / 3), 6)
    pitch_tolerance = _round(Decimal(_FACTORS[name]) * tolerance, 6)
    major_max = _round(diameter - allowance, 4)
    pitch_max = _round(major_max - height, 4)
    sizes |= {
        "ext_major_max": _mm(major_max),
        "ext_major_min": _mm(_round(major_max - major_tolerance, 4)),
        "ext_pitch_max": _mm(pitch_max),
        "ext_pitch_min": _mm(_round(pitch_max - pitch_tolerance, 4)),
        "ext_minor_max": _mm(_round(major_max - _round(Decimal("1.19078493") * pitch, 6), 4)),
        "allowance": _mm(allowance),
    }
    working |= {
        "ext_major_max": f"D - allowance = {diameter} - {allowance} in",
        "ext_major_min": f"largest - {factor:g} P^(2/3) = {major_max} - {major_tolerance} in",
        "ext_pitch_max": f"largest major - 0.64951905 P = {major_max} - {height} in",
        "ext_pitch_min": f"largest - tolerance = {pitch_max} - {pitch_tolerance} in; tolerance {_FACTORS[name]} x "
        f"(0.0015 D^(1/3) + 0.0015 LE^(1/2) + 0.015 P^(2/3)), engagement LE = {length_name}",
        "ext_minor_max": f"largest major - 1.19078493 P = {major_max} - 1.19078493 x {pitch} in (rounded root)",
        "allowance": f"0.3 x {tolerance} in" if allowance else "none in class 3A",
    }


def _minor_tolerance(name: str, diameter: float, pitch: float, per_inch: float) -> tuple[float, str]:
    """Tolerance of a nut's minor diameter and its rule."""
    coarse_rule = 0.25 * pitch - 0.4 * pitch**2, "0.25 P - 0.4 P^2"
    if name != "3B" and diameter >= 0.25:
        return coarse_rule if per_inch >= 4 else (0.15 * pitch, "0.15 P")
    small = min(0.05 * pitch ** (2 / 3) + 0.03 * pitch / diameter - 0.002, 0.394 * pitch)
    if name != "3B":
        floor = coarse_rule
    elif per_inch >= 13:
        floor = 0.23 * pitch - 1.5 * pitch**2, "0.23 P - 1.5 P^2"
    else:
        floor = 0.12 * pitch, "0.12 P"
    return floor if floor[0] > small else (small, "0.05 P^(2/3) + 0.03 P/D - 0.002, at most 0.394 P")


def _nut_side(
    name: str,
    diameter: Decimal,
    pitch: Decimal,
    height: Decimal,
    tolerance: Decimal,
    sizes: dict[str, float],
    working: dict[str, str],
) -> None:
    pitch_min = _round(diameter - height, 4)
    pitch_tolerance = _round(Decimal(_FACTORS[name]) * tolerance, 6)
    minor = _round(diameter - _round(Decimal("1.08253175") * pitch, 6), 6)
    size, rule = _minor_tolerance(name, float(diameter), float(pitch), 1 / float(pitch))
    minor_tolerance = _round(size, 6)
    low_places = 3 if diameter >= _SMALL else 4
    high_places = 3 if diameter >= _SMALL and name != "3B" else 4
    sizes |= {
        "int_minor_min": _mm(_round(minor, low_places)),
        "int_minor_max": _mm(_round(minor + minor_tolerance, high_places)),
        "int_pitch_min": _mm(pitch_min),
        "int_pitch_max": _mm(_round(pitch_min + pitch_tolerance, 4)),
        "int_major_min": _mm(_round(diameter, 4)),
    }
    working |= {
        "int_minor_min": f"D - 1.08253175 P = {diameter} - 1.08253175 x {pitch} in, to {low_places} decimals",
        "int_minor_max": f"basic + {rule} = {minor} + {minor_tolerance} in, to {high_places} decimals",
        "int_pitch_min": f"D - 0.64951905 P = {diameter} - {height} in",
        "int_pitch_max": f"smallest + {_FACTORS[name]} x {tolerance} = {pitch_min} + {pitch_tolerance} in",
        "int_major_min": f"D = {diameter} in",
        "pitch_basic": f"D - 0.64951905 P = {diameter} - {height} in, to 4 decimals",
        "minor_basic": f"D - 1.08253175 P = {diameter} - 1.08253175 x {pitch} in, to 4 decimals",
    }
