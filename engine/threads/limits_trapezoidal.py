"""Limits of translating threads: ISO trapezoidal (ISO 2903) and general-purpose Acme (ASME B1.5)."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Decimal
from functools import cache
from math import sqrt
from typing import Any

from engine.base.tables import rows
from engine.threads.form import clearance
from engine.threads.iso965 import deviation, nut_minor_tolerance, screw_major_tolerance
from engine.threads.iso965_formulas import (
    Tolerance,
    diameter_range,
    nut_pitch_by_formula,
    screw_pitch_by_formula,
)
from engine.threads.limits_types import Limits
from engine.threads.thread import Thread
from engine.threads.tolerance import Classes


@cache
def _by_pitch() -> dict[float, dict[str, str]]:
    return {float(row["pitch"]): row for row in rows("threads/iso2903.csv")}


@cache
def _by_range() -> dict[tuple[float, float], dict[str, str]]:
    return {
        (float(row["upto"]), float(row["pitch"])): row for row in rows("threads/iso2903_pitch_diameter.csv")
    }


def _value(pitch: float, column: str) -> Tolerance:
    """es, Td (4h) or TD1 (4H) of a pitch; for other pitches the formulas of the ISO metric system."""
    row = _by_pitch().get(pitch)
    if row is not None:
        mark = ", from memory" if row["standing"] == "memory" or column == "td1" else ""
        return Tolerance(float(row[column]) / 1000, f"ISO 2903:1977{mark}")
    if column == "es":
        return Tolerance(-deviation(pitch, "e").value, "ISO 965-1 formulas, not in ISO 2903")
    found = screw_major_tolerance(pitch, "4") if column == "td" else nut_minor_tolerance(pitch, "4")
    return Tolerance(found.value, "ISO 965-1, grade 4, not in ISO 2903")


def _pitch_tolerance(diameter: float, pitch: float, column: str) -> Tolerance:
    row = _by_range().get((diameter_range(diameter)[1], pitch))
    if row is not None:
        mark = "" if row["standing"] == "read" and column == "td2" else ", from memory"
        return Tolerance(float(row[column]) / 1000, f"ISO 2903:1977{mark}")
    find = screw_pitch_by_formula if column == "td2" else nut_pitch_by_formula
    return Tolerance(find(diameter, pitch, "7").value, "ISO 965-1 formulas, grade 7, not in ISO 2903")


def trapezoidal_limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """Return the limits of an ISO trapezoidal thread, screw 7e and nut 7H.

    Parameters
    ----------
    thread : Thread
        The thread.
    classes : Classes
        Classes asked for; None for the usual one.
    engagement : float or None
        Not used: these tolerances do not depend on it. [mm]

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
    ISO 2903:1977, ISO 2904:1977.

    Examples
    --------
    Tr12x3 - 7e: pitch diameter 10.191 to 10.415 (a published table).

    >>> from engine.threads.designation import parse
    >>> found = trapezoidal_limits(parse("Tr12x3"), Classes(None, None), None)
    >>> found.ext_pitch_min, found.ext_pitch_max
    (10.191, 10.415)
    """
    diameter, pitch, gap = thread.diameter, float(thread.pitch), clearance(thread)
    es, td, td1 = _value(pitch, "es"), _value(pitch, "td"), _value(pitch, "td1")
    td2, td2_nut = _pitch_tolerance(diameter, pitch, "td2"), _pitch_tolerance(diameter, pitch, "td2_internal")
    effective, minor, core = diameter - pitch / 2, diameter - pitch, diameter - pitch - 2 * gap
    core_tolerance = 1.25 * td2.value + es.value
    notes = []
    if any("not in ISO 2903" in found.source for found in (es, td, td1, td2, td2_nut)):
        notes.append(
            "ISO 2903 has no tolerance for this pair: those of the ISO metric formulas, which may be one step (6 %) off"
        )
    pitch_max = effective - es.value
    sizes: dict[str, Any] = {
        "ext_major_max": diameter,
        "ext_major_min": diameter - td.value,
        "ext_pitch_max": pitch_max,
        "ext_pitch_min": pitch_max - td2.value,
        "ext_minor_max": core,
        "ext_minor_min": core - core_tolerance,
        "int_minor_min": minor,
        "int_minor_max": minor + td1.value,
        "int_pitch_min": effective,
        "int_pitch_max": effective + td2_nut.value,
        "int_major_min": diameter + 2 * gap,
        "allowance": es.value,
    }
    basic = "ISO 2904:1977"
    return Limits(
        screw_class=classes.screw or "7e",
        nut_class=classes.nut or "7H",
        major_basic=diameter,
        pitch_basic=effective,
        minor_basic=minor,
        source=basic,
        notes=tuple(notes),
        sources={
            "ext_major_min": f"{td.source}, grade 4",
            "ext_pitch_max": es.source,
            "ext_pitch_min": td2.source,
            "ext_minor_min": td2.source,
            "int_minor_max": f"{td1.source}, grade 4",
            "int_pitch_max": td2_nut.source,
            "allowance": es.source,
        },
        working={
            "pitch_basic": f"d - P ÷ 2 = {diameter:g} - {pitch:g} ÷ 2",
            "minor_basic": f"d - P = {diameter:g} - {pitch:g}",
            "ext_major_max": f"d = {diameter:g}",
            "ext_major_min": f"d - Td = {diameter:g} - {td.value:.3f}",
            "ext_pitch_max": f"d - P ÷ 2 - deviation e = {diameter:g} - {pitch:g} ÷ 2 - {es.value:.3f}",
            "ext_pitch_min": f"largest - Td2 = {pitch_max:.3f} - {td2.value:.3f}",
            "ext_minor_max": f"d - P - 2 x clearance = {diameter:g} - {pitch:g} - 2 x {gap:g}",
            "ext_minor_min": f"largest - (1.25 Td2 + deviation) = {core:g} - (1.25 x {td2.value:.3f} + {es.value:.3f})",
            "int_minor_min": f"d - P = {diameter:g} - {pitch:g}",
            "int_minor_max": f"smallest + TD1 = {minor:g} + {td1.value:.3f}",
            "int_pitch_min": f"d - P ÷ 2 = {diameter:g} - {pitch:g} ÷ 2",
            "int_pitch_max": f"smallest + TD2 = {effective:g} + {td2_nut.value:.3f}",
            "int_major_min": f"d + 2 x clearance = {diameter:g} + 2 x {gap:g}",
            "allowance": f"deviation e at a pitch of {pitch:g}",
        },
        **{name: round(value, 4) for name, value in sizes.items()},
    )


def _four(value: float) -> float:
    """Inches to four decimals, exact halves to the even digit, as the printed tables have them; in mm."""
    rounded = Decimal(repr(round(value, 9))).quantize(Decimal("0.0001"), ROUND_HALF_EVEN)
    return float(rounded * Decimal("25.4"))


def acme_limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """Return the limits of a general-purpose Acme thread, class 2G; each to four decimals of an inch.

    Parameters
    ----------
    thread : Thread
        The thread.
    classes : Classes
        Classes asked for; None for the usual one.
    engagement : float or None
        Not used: these tolerances do not depend on it. [mm]

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
    ASME B1.5-1997, class 2G formulas; nut side from memory.

    Examples
    --------
    3/4-6: pitch diameter 0.6423 to 0.6597 in (a rod maker's table).

    >>> from engine.threads.designation import parse
    >>> found = acme_limits(parse("3/4-6 ACME"), Classes(None, None), None)
    >>> round(found.ext_pitch_min / 25.4, 4), round(found.ext_pitch_max / 25.4, 4)
    (0.6423, 0.6597)
    """
    diameter, pitch = thread.diameter / 25.4, float(thread.pitch) / 25.4
    gap = round(2 * clearance(thread) / 25.4, 3)
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
    rounded: dict[str, Any] = {name: _four(value) for name, value in sizes.items()}
    screw = "ASME B1.5-1997, class 2G formulas"
    nut = f"{screw} (nut side from memory)"
    return Limits(
        screw_class="2G",
        nut_class="2G",
        major_basic=thread.diameter,
        pitch_basic=effective * 25.4,
        minor_basic=minor * 25.4,
        source=screw,
        sources={name: nut for name in sizes if name.startswith("int_")},
        working={
            "pitch_basic": f"D - P ÷ 2 = {diameter:.4f} - {pitch:.5f} ÷ 2 in",
            "minor_basic": f"D - P = {diameter:.4f} - {pitch:.5f} in",
            "ext_major_max": f"D = {diameter:.4f} in",
            "ext_major_min": f"D - 0.05 P, at least 0.005 = {diameter:.4f} - {crest:.5f} in",
            "ext_pitch_max": f"D - P ÷ 2 - 0.008 D^(1/2) = {diameter:.4f} - {pitch:.5f} ÷ 2 - {allowance:.5f} in",
            "ext_pitch_min": f"largest - tolerance = {effective - allowance:.5f} - {tolerance:.5f} in; "
            "tolerance 0.030 P^(1/2) + 0.006 D^(1/2)",
            "ext_minor_max": f"D - P - {gap:g} = {diameter:.4f} - {pitch:.5f} - {gap:g} in",
            "ext_minor_min": f"largest - 1.5 x tolerance of the pitch diameter = {core:.5f} - 1.5 x {tolerance:.5f} in",
            "int_minor_min": f"D - P = {diameter:.4f} - {pitch:.5f} in",
            "int_minor_max": f"smallest + 0.05 P, at least 0.005 = {minor:.5f} + {crest:.5f} in",
            "int_pitch_min": f"D - P ÷ 2 = {diameter:.4f} - {pitch:.5f} ÷ 2 in",
            "int_pitch_max": f"smallest + tolerance = {effective:.5f} + {tolerance:.5f} in",
            "int_major_min": f"D + {gap:g} = {diameter:.4f} + {gap:g} in",
            "allowance": f"0.008 D^(1/2) = 0.008 x {diameter:.4f}^(1/2) in",
        },
        **rounded,
    )
