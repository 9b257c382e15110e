"""Limits of British threads: Whitworth form (BSW, BSF, ME, brass), cycle and BA."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from math import sqrt
from typing import Any

from engine.base.quantity import MM_PER_INCH
from engine.threads.form import form
from engine.threads.limits_types import Limits
from engine.threads.thread import Thread
from engine.threads.tolerance import Classes

_BS84 = (
    "BS 84:2007 Annex B formulas (coefficients from memory; no printed limits could be read): "
    "within 0.0001 in of the printed table"
)
_BORROWED = "these are the BS 84 fit worked for this size (common practice, no source)"
_T = "T = 0.002 D^(1/3) + 0.003 L^(1/2) + 0.005 p^(1/2)"
_SCREW = {
    "close": (2 / 3, 0.013),
    "medium": (1.0, 0.02),
    "free": (1.5, 0.02),
}  # times T; times root p for the minor
_NUT = {"close": 2 / 3, "medium": 1.0, "normal": 1.5}
_ALLOWANCE_UP_TO = 0.75  # in; BS 84 gives larger Medium and Free screws no allowance


def _four(value: float | Fraction) -> Decimal:
    """Inches to four decimals, halves up, as the printed tables round."""
    exact = value if isinstance(value, Fraction) else Fraction(repr(value))
    settled = Decimal(exact.numerator) / Decimal(exact.denominator)
    return settled.quantize(Decimal("0.0001"), ROUND_HALF_UP)


def _mm(inches: Decimal | Fraction | float) -> float:
    return float(Fraction(inches) * MM_PER_INCH) if not isinstance(inches, float) else inches * 25.4


def whitworth_form_limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """Return the limits of a thread of Whitworth form.

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
    BS 84:2007: the depth is rounded to 4 decimals of an inch first, limits by the formulas of Annex B.

    Examples
    --------
    1 in BSW: minor diameter 0.8400 in (a published BSW table).

    >>> from engine.threads.designation import parse
    >>> found = whitworth_form_limits(parse("1 BSW"), Classes(None, None), None)
    >>> round(found.minor_basic / 25.4, 4)
    0.84
    """
    depth = Fraction("0.640327") * thread.pitch / MM_PER_INCH
    if thread.family == "whitworth":
        return _bs84(thread, classes, engagement, Fraction(_four(depth)), ())
    name = {"me": "Model engineer", "brass": "Brass"}[thread.family]
    note = f"{name} threads have no standard limits: {_BORROWED}"
    return _bs84(thread, classes, engagement, depth, (note,))


def cycle_limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """Return the limits of a cycle thread: basic sizes of BS 811, fit as for Whitworth.

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
    BS 811 form, depth 0.532692 p; the fit is BS 84's (common practice, no source).

    Examples
    --------
    1/4 x 26: minor diameter 0.2090 in (a published table).

    >>> from engine.threads.designation import parse
    >>> found = cycle_limits(parse("1/4 BSC"), Classes(None, None), None)
    >>> round(found.minor_basic / 25.4, 4)
    0.209
    """
    depth = Fraction("0.532692") * thread.pitch / MM_PER_INCH
    return _bs84(thread, classes, engagement, depth, (f"no limits of BS 811 could be read: {_BORROWED}",))


def _bs84(
    thread: Thread, classes: Classes, engagement: float | None, depth: Fraction, notes: tuple[str, ...]
) -> Limits:
    screw, nut = classes.screw or "medium", classes.nut or "normal"
    diameter = Fraction(round(float(thread.diameter / MM_PER_INCH), 6)).limit_denominator(100_000)
    pitch = float(thread.pitch / MM_PER_INCH)
    length = float(diameter) if engagement is None else engagement / 25.4
    tolerance = 0.002 * float(diameter) ** (1 / 3) + 0.003 * sqrt(length) + 0.005 * sqrt(pitch)
    effective, minor = diameter - depth, diameter - 2 * depth
    allowance = 0.3 * tolerance if screw != "close" and diameter <= _ALLOWANCE_UP_TO else 0.0
    factor, minor_factor = _SCREW[screw]
    screw_tolerance, nut_tolerance = factor * tolerance, _NUT[nut] * tolerance
    per_inch = 1 / pitch
    flat = 0.004 if per_inch >= 26 else 0.005 if per_inch >= 22 else 0.007
    sizes: dict[str, Any] = {
        "ext_major_max": float(diameter) - allowance,
        "ext_major_min": float(diameter) - allowance - screw_tolerance - 0.01 * sqrt(pitch),
        "ext_pitch_max": float(effective) - allowance,
        "ext_pitch_min": float(effective) - allowance - screw_tolerance,
        "ext_minor_max": float(minor) - allowance,
        "ext_minor_min": float(minor) - allowance - screw_tolerance - minor_factor * sqrt(pitch),
        "int_minor_min": float(minor),
        "int_minor_max": float(minor) + 0.2 * pitch + flat,
        "int_pitch_min": float(effective),
        "int_pitch_max": float(effective) + nut_tolerance,
        "int_major_min": float(diameter),
    }
    major, h, t, root = (f"{value:.6g}" for value in (float(diameter), float(depth), tolerance, sqrt(pitch)))
    largest = {where: f"{sizes[f'ext_{where}_max']:.6g}" for where in ("major", "pitch", "minor")}
    less = f" - {allowance:.6g} in"
    working = {
        "pitch_basic": f"D - h = {major} - {h} in",
        "minor_basic": f"D - 2 h = {major} - 2 x {h} in",
        "ext_major_max": f"D - allowance = {major}{less}",
        "ext_major_min": f"largest - ({factor:.4g} T + 0.01 p^(1/2)) = {largest['major']} - ({factor:.4g} x {t}"
        f" + 0.01 x {root}) in",
        "ext_pitch_max": f"D - h - allowance = {major} - {h}{less}",
        "ext_pitch_min": f"largest - {factor:.4g} T = {largest['pitch']} - {factor:.4g} x {t} in; {_T}, "
        f"L = {length:.6g} engaged",
        "ext_minor_max": f"D - 2 h - allowance = {major} - 2 x {h}{less}",
        "ext_minor_min": f"largest - ({factor:.4g} T + {minor_factor:g} p^(1/2)) = {largest['minor']} - "
        f"({factor:.4g} x {t} + {minor_factor:g} x {root}) in",
        "int_minor_min": f"D - 2 h = {major} - 2 x {h} in",
        "int_minor_max": f"smallest + 0.2 p + {flat:g} = {float(minor):.6g} + 0.2 x {pitch:.6g} + {flat:g} in",
        "int_pitch_min": f"D - h = {major} - {h} in",
        "int_pitch_max": f"smallest + {_NUT[nut]:.4g} T = {float(effective):.6g} + {_NUT[nut]:.4g} x {t} in",
        "int_major_min": f"D = {major} in",
        "allowance": f"0.3 T = 0.3 x {t} in" if allowance else "none in this class and size",
    }
    rounded: dict[str, Any] = {name: _mm(_four(round(value, 9))) for name, value in sizes.items()}
    printed = (
        "limits worked from formulas, within 0.0001 in of the printed table (engagement = D unless given)"
    )
    return Limits(
        screw_class=screw,
        nut_class=nut,
        major_basic=thread.diameter,
        pitch_basic=_mm(effective),
        minor_basic=_mm(minor),
        source=_BS84,
        allowance=_mm(_four(allowance)),
        notes=notes or (printed,),
        working=working,
        **rounded,
    )


def ba_limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """Return the limits of a BA thread, close or normal; 17 to 25 BA have basic sizes only.

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
    BS 93:2008 Annex B, as in Machinery's Handbook, 31st ed., p. 2115.

    Examples
    --------
    4 BA: effective diameter 3.205, minor 2.81 (BS 93:1951 table).

    >>> from engine.threads.designation import parse
    >>> found = ba_limits(parse("4 BA"), Classes(None, None), None)
    >>> found.pitch_basic, found.minor_basic
    (3.205, 2.81)
    """
    name = classes.screw or "normal"
    pitch, major, depth = float(thread.pitch), thread.diameter, form(thread).depth
    effective, minor = round(major - depth, 4), round(major - 2 * depth, 4)
    number = int(thread.size)
    source = "BS 93:2008 Annex B formulas (as in Machinery's Handbook, 31st ed., p. 2115)"
    basics = {
        "pitch_basic": f"{major:g} - depth {depth:.3f}",
        "minor_basic": f"{major:g} - 2 x depth {depth:.3f}",
    }
    if number > 16:
        note = f"{thread} lies outside BS 93, which stops at 16 BA: sizes by its formulas, no limits"
        return Limits(name, name, major, effective, minor, source, notes=(note,), working=basics)
    close = name == "close"
    tol_major = (0.15 if close else 0.2 if number <= 10 else 0.25) * pitch
    tol_pitch = 0.08 * pitch + 0.02 if close else 0.1 * pitch + 0.025
    tol_minor = 2 * tol_pitch
    rule_pitch, rule_minor = (
        ("0.08{} + 0.02", "0.16{} + 0.04") if close else ("0.10{} + 0.025", "0.20{} + 0.05")
    )
    allowance = 0.025 if not close and number <= 10 else 0.0
    less = f" - {allowance:g}" if allowance else ""
    sizes: dict[str, Any] = {
        "ext_major_max": major - allowance,
        "ext_major_min": major - allowance - tol_major,
        "ext_pitch_max": effective - allowance,
        "ext_pitch_min": effective - allowance - tol_pitch,
        "ext_minor_max": minor - allowance,
        "ext_minor_min": minor - allowance - tol_minor,
        "int_minor_min": minor,
        "int_minor_max": minor + 0.375 * pitch,
        "int_pitch_min": effective,
        "int_pitch_max": effective + 0.12 * pitch + 0.03,
        "int_major_min": major,
    }
    top = {where: f"{sizes[f'ext_{where}_max']:.6g}" for where in ("major", "pitch", "minor")}
    times = f" x {pitch:g}"
    working = {
        **basics,
        "ext_major_max": f"{major:g}{less}",
        "ext_major_min": f"largest - {tol_major / pitch:.2f} p = {top['major']} - {tol_major / pitch:.2f}{times}",
        "ext_pitch_max": f"{major:g} - depth {depth:.3f}{less}",
        "ext_pitch_min": f"largest - ({rule_pitch.format(' p')}) = {top['pitch']} - ({rule_pitch.format(times)})",
        "ext_minor_max": f"{major:g} - 2 x depth {depth:.3f}{less}",
        "ext_minor_min": f"largest - ({rule_minor.format(' p')}) = {top['minor']} - ({rule_minor.format(times)})",
        "int_minor_min": f"{major:g} - 2 x depth {depth:.3f}",
        "int_minor_max": f"smallest + 0.375 p = {minor:.6g} + 0.375 x {pitch:g}",
        "int_pitch_min": f"{major:g} - depth {depth:.3f}",
        "int_pitch_max": f"smallest + 0.12 p + 0.03 = {effective:.6g} + 0.12 x {pitch:g} + 0.03",
        "int_major_min": f"{major:g}",
        "allowance": "0.025 mm on normal screws of 0 to 10 BA"
        if allowance
        else "none in this class and size",
    }
    return Limits(
        screw_class=name,
        nut_class="normal",
        major_basic=major,
        pitch_basic=effective,
        minor_basic=minor,
        source=source,
        allowance=allowance,
        working=working,
        **{key: round(value, 5) for key, value in sizes.items()},
    )
