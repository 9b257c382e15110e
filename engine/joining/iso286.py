"""Limits of holes and shafts by their ISO code: H7, g6, JS9."""

from __future__ import annotations

import re
from functools import cache

from engine.base.records import dataclass
from engine.base.refusals import BadInput, check_range
from engine.base.rounding import short
from engine.base.tables import rows

_CODE = re.compile(r"([A-Za-z]{1,2})\s*(01|\d{1,2})")
_LARGEST = 500.0  # mm: the end of the tables kept here


@dataclass(frozen=True, slots=True)
class Deviations:
    """How far the limits lie from the nominal size, in mm; `is_hole` tells a hole from a shaft."""

    upper: float
    lower: float
    is_hole: bool
    source: str


@cache
def _tolerances() -> dict[int, list[tuple[float, float, float, str]]]:
    found: dict[int, list[tuple[float, float, float, str]]] = {}
    for row in rows("joining/iso286_it.csv"):
        band = (float(row["over"]), float(row["to"]), float(row["um"]), row["mark"])
        found.setdefault(_grade(row["grade"][2:]), []).append(band)
    return found


@cache
def _deviation_rows() -> dict[str, list[dict[str, str]]]:
    found: dict[str, list[dict[str, str]]] = {}
    for row in rows("joining/iso286_deviations.csv"):
        found.setdefault(row["letter"], []).append(row)
    return found


def _grade(text: str) -> int:
    """The number of a grade; IT01 comes before IT0, so it is -1."""
    return -1 if text == "01" else int(text)


def _grade_name(grade: int) -> str:
    return "IT01" if grade == -1 else f"IT{grade}"


def tolerance(*, grade: int, diameter: float) -> float:
    """Width of a tolerance grade.

    grade: The number of the grade: 7 for IT7, -1 for IT01. -1 to 16.
    diameter: Nominal diameter, above 0, up to 500. [mm]
    Returns: The tolerance. [mm]
    Raises: OutOfRange if the diameter or the grade lies outside the table.
    Source: ISO 286-1:2010 Table 1.

    >>> tolerance(grade=7, diameter=10)
    0.015
    """
    return _tolerance(grade, diameter)[0]


def _tolerance(grade: int, diameter: float) -> tuple[float, str]:
    check_range("diameter", diameter, low=1e-6, high=_LARGEST, unit="mm", why="ISO 286-1 Table 1 as kept here")
    check_range("grade", grade, low=-1, high=16, why="ISO 286-1 Table 1 as kept here")
    for over, to, um, mark in _tolerances()[grade]:
        if over < diameter <= to:
            return um / 1000, mark
    raise AssertionError("the bands of ISO 286-1 Table 1 leave a gap")  # pragma: no cover


def limits_of(code: str, diameter: float) -> Deviations:
    """Return the limits that a code such as H7 or g6 sets.

    code: One letter (or js, JS) and a grade: capitals for holes, small letters for shafts.
    diameter: Nominal diameter, above 0, up to 500. [mm]
    Returns: Upper and lower deviation from the nominal size. [mm]
    Raises: BadInput if the code is none of the standard's, or none kept here for that diameter.
    Source: ISO 286-1:2010 Tables 1 to 5.

    >>> hole, shaft = limits_of("H7", 20), limits_of("g6", 20)
    >>> hole.upper, hole.lower, shaft.upper, shaft.lower
    (0.021, 0.0, -0.007, -0.02)
    """
    found = _CODE.fullmatch(code.strip())
    if not found:
        raise _refused(code, diameter)
    letter, grade = found[1], _grade(found[2])
    if (letter not in ("js", "JS") and letter not in _deviation_rows()) or grade > 16:
        raise _refused(code, diameter)
    width, mark = _tolerance(grade, diameter)
    if letter in ("js", "JS"):
        return Deviations(width / 2, -width / 2, letter == "JS", _source(_grade_name(grade), mark))
    row = _row(letter, grade, diameter)
    if row is None:
        raise _refused(code, diameter)
    base = float(row["um"]) / 1000
    if row["delta"] == "yes":
        base += width - (_tolerance(grade - 1, diameter)[0] if grade > -1 else 0.0)
    upper, lower = (base, base - width) if row["limit"] == "upper" else (base + width, base)
    # The tables are in tenths of a micrometre; sums of floats carry noise far below that.
    return Deviations(
        round(upper, 6), round(lower, 6), letter.isupper(), _source(_grade_name(grade), mark or row["mark"])
    )


def _row(letter: str, grade: int, diameter: float) -> dict[str, str] | None:
    for row in _deviation_rows()[letter]:
        inside = float(row["over"]) < diameter <= float(row["to"])
        if inside and int(row["first"]) <= grade <= int(row["last"]):
            return row
    return None


def _source(grade: str, mark: str) -> str:
    return f"ISO 286-1:2010 Tables 1 to 5, {grade}" + ("; from memory, unconfirmed" if mark else "")


def _refused(code: str, diameter: float) -> BadInput:
    shafts = sorted(letter for letter in _deviation_rows() if letter.islower())
    accepted = (
        f"a code such as H7 (holes) or g6 (shafts) with a letter of {', '.join(shafts)}, js and a grade to 16 "
        f"that ISO 286-1 has at {short(diameter)} mm"
    )
    shown = code if code.isprintable() else ascii(code)
    return BadInput("tolerance", shown, accepted)
