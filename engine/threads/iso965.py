"""The tolerances of ISO 965-1: its tables by grade, its formulas for the pairs that the tables leave out."""

from __future__ import annotations

from functools import cache
from math import sqrt

from engine.base.refusals import BadInput, OutOfRange
from engine.base.tables import rows
from engine.threads.iso965_formulas import (
    BY_FORMULA,
    CREST_STEPS,
    Tolerance,
    by_formula,
    diameter_range,
    nut_pitch_by_formula,
    preferred,
    screw_pitch_by_formula,
)

_STANDING = {
    "read": "",
    "memory": ", from memory, agrees with published limits",
    "unconfirmed": ", from memory, unconfirmed",
}


def _um(text: str) -> float:
    return float(text) / 1000


@cache
def _table(name: str) -> dict[tuple[float, float], dict[str, str]]:
    """Rows by (upper end of the range, pitch); tables by pitch alone have 0 for the range."""
    return {(float(row.get("upto", 0)), float(row["pitch"])): row for row in rows(f"threads/{name}.csv")}


def _grades(row: dict[str, str]) -> list[str]:
    return [key for key, value in row.items() if key.isdigit() and value]


def _from_table(name: str, upto: float, pitch: float, grade: str, what: str) -> Tolerance | None:
    """A value of a table; None if it has no row for the pair, BadInput if the row leaves the grade out."""
    row = _table(name).get((upto, pitch))
    if row is None:
        return None
    if not row.get(grade):
        given = ", ".join(_grades(row))
        text = f"tolerance: ISO 965-1 gives no grade {grade} of {what} for a pitch of {pitch:g} mm; it gives {given}."
        raise BadInput("tolerance", grade, given, text)
    return Tolerance(_um(row[grade]), f"ISO 965-1:2013, {what}, grade {grade}{_STANDING[row['standing']]}")


def _check_pitch(pitch: float) -> None:
    if not 0.2 <= pitch <= 8:
        raise OutOfRange("size", pitch, 0.2, 8, "mm pitch", "ISO 965-1 gives no tolerances outside")


def screw_pitch_tolerance(diameter: float, pitch: float, grade: str) -> Tolerance:
    """Return Td2, the tolerance of a screw's pitch diameter.

    Parameters
    ----------
    diameter : float
        Nominal diameter. [mm]
    pitch : float
        Pitch, 0.2 to 8. [mm]
    grade : str
        `3` to `9`.

    Returns
    -------
    tolerance : Tolerance
        The table's value; for a pair that the table leaves out, the formula's. [mm]

    Raises
    ------
    BadInput
        If there is no such grade for the pair, or the pair lies outside the standard.

    Sources
    -------
    ISO 965-1:2013, Td2 table; clause 10: 90 P^0.4 d^0.1, d the geometric mean of the range, rounded to R40.

    Examples
    --------
    >>> screw_pitch_tolerance(10, 1.5, "6").value
    0.132
    """
    _check_pitch(pitch)
    found = _from_table("iso965_td2", diameter_range(diameter)[1], pitch, grade, "Td2")
    return found or screw_pitch_by_formula(diameter, pitch, grade)


def nut_pitch_tolerance(diameter: float, pitch: float, grade: str) -> Tolerance:
    """Return TD2, the tolerance of a nut's pitch diameter.

    Parameters
    ----------
    diameter : float
        Nominal diameter. [mm]
    pitch : float
        Pitch, 0.2 to 8. [mm]
    grade : str
        `4` to `8`.

    Returns
    -------
    tolerance : Tolerance
        As for `screw_pitch_tolerance`. [mm]

    Raises
    ------
    BadInput
        As for `screw_pitch_tolerance`.

    Sources
    -------
    ISO 965-1:2013, TD2 table; clause 10.

    Examples
    --------
    >>> nut_pitch_tolerance(10, 1.5, "6").value
    0.18
    """
    _check_pitch(pitch)
    found = _from_table("iso965_td2_internal", diameter_range(diameter)[1], pitch, grade, "TD2")
    return found or nut_pitch_by_formula(diameter, pitch, grade)


def screw_major_tolerance(pitch: float, grade: str) -> Tolerance:
    """Return Td, the tolerance of a screw's major diameter.

    Parameters
    ----------
    pitch : float
        Pitch, 0.2 to 8. [mm]
    grade : str
        `4`, `6` or `8`.

    Returns
    -------
    tolerance : Tolerance
        As for `screw_pitch_tolerance`. [mm]

    Raises
    ------
    BadInput
        As for `screw_pitch_tolerance`.

    Sources
    -------
    ISO 965-1:2013, Td table; clause 10: 180 P^(2/3) - 3.15 / square root of P.

    Examples
    --------
    >>> screw_major_tolerance(1.5, "6").value
    0.236
    """
    _check_pitch(pitch)
    found = _from_table("iso965_td", 0.0, pitch, grade, "Td")
    steps = {key: CREST_STEPS[key] for key in "468"}
    return found or by_formula(grade, 180 * pitch ** (2 / 3) - 3.15 / sqrt(pitch), steps, "Td")


def nut_minor_tolerance(pitch: float, grade: str) -> Tolerance:
    """Return TD1, the tolerance of a nut's minor diameter.

    Parameters
    ----------
    pitch : float
        Pitch, 0.2 to 8. [mm]
    grade : str
        `4` to `8`.

    Returns
    -------
    tolerance : Tolerance
        As for `screw_pitch_tolerance`. [mm]

    Raises
    ------
    BadInput
        As for `screw_pitch_tolerance`.

    Sources
    -------
    ISO 965-1:2013, TD1 table; clause 10: 433 P - 190 P^1.22 up to 0.8 mm, 230 P^0.7 above.

    Examples
    --------
    >>> nut_minor_tolerance(1.5, "6").value
    0.3
    """
    _check_pitch(pitch)
    found = _from_table("iso965_td1_internal", 0.0, pitch, grade, "TD1")
    grade_6 = 433 * pitch - 190 * pitch**1.22 if pitch < 0.9 else 230 * pitch**0.7
    return found or by_formula(grade, grade_6, CREST_STEPS, "TD1")


_SLOPES = {"G": (15, 11), "g": (15, 11), "f": (30, 11), "e": (50, 11)}  # micrometres: a + b P


def deviation(pitch: float, letter: str) -> Tolerance:
    """Return the fundamental deviation: EI of a nut (0 or more), es of a screw (0 or less).

    Parameters
    ----------
    pitch : float
        Pitch, 0.2 to 8. [mm]
    letter : str
        `G` or `H` for a nut, `a` to `h` for a screw.

    Returns
    -------
    deviation : Tolerance
        The deviation. [mm]

    Raises
    ------
    BadInput
        If the standard has no such deviation for the pitch.

    Sources
    -------
    ISO 965-1:2013 Table 1; for other pitches clause 10: EI(G) = 15 + 11 P, es(g), es(f), es(e) = -(15, 30, 50 + 11 P).

    Examples
    --------
    >>> deviation(1.5, "g").value, deviation(1.5, "H").value
    (-0.032, 0.0)
    """
    _check_pitch(pitch)
    if letter in "Hh":
        return Tolerance(0.0, "ISO 724 (deviation 0)")
    row = _table("iso965_deviations").get((0.0, pitch))
    if row is not None and row[letter]:
        standing = {"G": "", "g": "", "e": ", from memory", "f": ", from memory"}
        mark = standing.get(letter, ", from memory, unconfirmed")
        return Tolerance(_um(row[letter]), f"ISO 965-1:2013 Table 1, position {letter}{mark}")
    if row is None and letter in _SLOPES:
        fixed, slope = _SLOPES[letter]
        size = preferred(fixed + slope * pitch)
        return Tolerance(size if letter == "G" else -size, f"ISO 965-1, position {letter}, {BY_FORMULA}")
    letters = (
        "G, H, e, f, g, h"
        if row is None
        else ", ".join([k for k in row if k != "pitch" and row[k]] + ["H", "h"])
    )
    text = f"tolerance: ISO 965-1 gives no position {letter} for a pitch of {pitch:g} mm; it gives {letters}."
    raise BadInput("tolerance", letter, letters, text)


def normal_engagement(diameter: float, pitch: float) -> tuple[float, float] | None:
    """Return the lengths of engagement that count as normal: over the first, up to the second.

    Parameters
    ----------
    diameter : float
        Nominal diameter. [mm]
    pitch : float
        Pitch. [mm]

    Returns
    -------
    lengths : tuple of float, or None
        Shorter is group S, longer group L; None for a pair that the table leaves out. [mm]

    Raises
    ------
    OutOfRange
        If the diameter lies outside the standard.

    Sources
    -------
    ISO 965-1:2013, lengths of thread engagement.

    Examples
    --------
    >>> normal_engagement(10, 1.5)
    (5.0, 15.0)
    """
    row = _table("iso965_engagement").get((diameter_range(diameter)[1], pitch))
    return (float(row["normal_over"]), float(row["normal_upto"])) if row else None
