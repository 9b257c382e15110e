"""The tolerances of ISO 965-1: its tables by grade, and its formulas for pairs that the tables leave out."""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from math import log10, sqrt

from engine.base.records import dataclass
from engine.base.refusals import BadInput, OutOfRange
from engine.base.tables import rows
from engine.base.words import plain, say

SMALLEST, LARGEST = 0.99, 355.0  # mm; the diameters ISO 965-1 covers
_RANGES = (0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0, 180.0, 355.0)
# fmt: off
_R40 = (
    100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280, 300,
    315, 335, 355, 375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950,
)
# fmt: on
# Steps of R40 from the grade 6 value to each grade (ISO 965-1 clause 10).
_SCREW_STEPS = {"3": -12, "4": -8, "5": -4, "6": 0, "7": 4, "8": 8, "9": 12}
_NUT_STEPS = {"4": -3, "5": 1, "6": 5, "7": 9, "8": 13}
_CREST_STEPS = {"4": -8, "5": -4, "6": 0, "7": 4, "8": 8}
_BY_FORMULA = "by the formulas of its clause 10: may lie one step (6 %) from a table"


@dataclass(frozen=True, slots=True)
class Tolerance:
    """A tolerance or a deviation in mm, with where it comes from."""

    value: float
    source: str


def preferred(value: float, steps: int = 0) -> float:
    """The R40 preferred number (ISO 3) nearest to a value in micrometres, so many steps on; in mm, whole micrometres.

    >>> preferred(131), preferred(131, 4)
    (0.132, 0.17)
    """
    index = round(40 * log10(value)) + steps
    decade, place = divmod(index, 40)
    return float(round(_R40[place] * 10.0 ** (decade - 2))) / 1000


def diameter_range(diameter: float) -> tuple[float, float]:
    """The range of diameters whose tolerances are one, over the first, up to the second, in mm; OutOfRange outside.

    >>> diameter_range(10)
    (5.6, 11.2)
    """
    for low, high in pairwise(_RANGES):
        if low < diameter <= high:
            return low, high
    raise OutOfRange("size", diameter, SMALLEST, LARGEST, "mm", "ISO 965-1 gives no tolerances outside")


def _by_formula(grade: str, grade_6: float, steps: dict[str, int], what: str) -> Tolerance:
    """The tolerance of a grade from the formula's value for grade 6, in micrometres: so many steps of R40 from it
    (ISO 965-1 clause 10). `what` is the tolerance's symbol, for the refusal of a grade that it has not.

    >>> _by_formula("4", 180.0, _CREST_STEPS, "Td").value
    0.112
    """
    if grade not in steps:
        given = ", ".join(steps)
        raise BadInput("tolerance", grade, given, f"tolerance: {what} has no grade {grade}; it has {given}.")
    source = f"ISO 965-1, {what}, grade {grade}, {_BY_FORMULA}"
    return Tolerance(preferred(grade_6, steps[grade]), source)


def pitch_by_formula(diameter: float, pitch: float, grade: str, *, nut: bool) -> Tolerance:
    """Return Td2 or TD2 by the formula, where no table has the pair.

    diameter: Nominal diameter. [mm]
    pitch: Pitch. [mm]
    grade: Its grade.
    nut: TD2 of the nut, not Td2 of the screw.
    Returns: Rounded to R40, so many steps from grade 6. It may lie one step (6 %) to either side of a table. [mm]
    Raises: BadInput if there is no such grade, or the diameter lies outside the standard.
    Source: ISO 965-1 clause 10: 90 P^0.4 d^0.1 for grade 6 of the screw, d the geometric mean of the range.

    >>> pitch_by_formula(10, 1.4, "6", nut=False).value, pitch_by_formula(10, 1.4, "6", nut=True).value
    (0.125, 0.17)
    """
    low, high = diameter_range(diameter)
    grade_6 = 90.0 * float(pitch**0.4) * float(sqrt(low * high) ** 0.1)
    return _by_formula(grade, grade_6, _NUT_STEPS if nut else _SCREW_STEPS, "TD2" if nut else "Td2")


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
        text = say(
            f"tolerance: ISO 965-1 gives no grade {grade} of {what} for a pitch of {{pitch}}; it gives {given}.",
            pitch=plain(pitch),
        )
        raise BadInput("tolerance", grade, given, text)
    return Tolerance(_um(row[grade]), f"ISO 965-1:2013, {what}, grade {grade}{_STANDING[row['standing']]}")


def covered(diameter: float, pitch: float) -> bool:
    """Whether ISO 965-1 has tolerances for a diameter and a pitch in mm: over 0.99 to 355, pitched 0.2 to 8.

    >>> covered(10, 1.5), covered(0.9, 0.2), covered(60, 9)
    (True, False, False)
    """
    return SMALLEST < diameter <= LARGEST and 0.2 <= pitch <= 8


def screw_pitch_tolerance(diameter: float, pitch: float, grade: str) -> Tolerance:
    """Td2, the tolerance of a screw's pitch diameter, for grades 3 to 9 (ISO 965-1:2013 Table, else clause 10).

    >>> screw_pitch_tolerance(10, 1.5, "6").value
    0.132
    """
    found = _from_table("iso965_td2", diameter_range(diameter)[1], pitch, grade, "Td2")
    return found or pitch_by_formula(diameter, pitch, grade, nut=False)


def nut_pitch_tolerance(diameter: float, pitch: float, grade: str) -> Tolerance:
    """TD2, the tolerance of a nut's pitch diameter, for grades 4 to 8 (ISO 965-1:2013 Table, else clause 10).

    >>> nut_pitch_tolerance(10, 1.5, "6").value
    0.18
    """
    found = _from_table("iso965_td2_internal", diameter_range(diameter)[1], pitch, grade, "TD2")
    return found or pitch_by_formula(diameter, pitch, grade, nut=True)


def screw_major_tolerance(pitch: float, grade: str) -> Tolerance:
    """Td, the tolerance of a screw's major diameter in mm, for grades 4, 6 and 8 (ISO 965-1:2013, Td table; else clause 10:
    180 P^(2/3) - 3.15 / square root of P, which holds, within one step, to the coarse pitches of ISO 2903 too).

    >>> screw_major_tolerance(1.5, "6").value
    0.236
    """
    found = _from_table("iso965_td", 0.0, pitch, grade, "Td")
    steps = {key: _CREST_STEPS[key] for key in "468"}
    return found or _by_formula(grade, 180 * pitch ** (2 / 3) - 3.15 / sqrt(pitch), steps, "Td")


def nut_minor_tolerance(pitch: float, grade: str) -> Tolerance:
    """TD1, the tolerance of a nut's minor diameter in mm, for grades 4 to 8 (ISO 965-1:2013, TD1 table; else clause 10: 433 P
    - 190 P^1.22 up to 0.8 mm, 230 P^0.7 above, which holds, within one step, to the coarse pitches of ISO 2903 too).

    >>> nut_minor_tolerance(1.5, "6").value
    0.3
    """
    found = _from_table("iso965_td1_internal", 0.0, pitch, grade, "TD1")
    grade_6 = 433 * pitch - 190 * pitch**1.22 if pitch < 0.9 else 230 * pitch**0.7
    return found or _by_formula(grade, grade_6, _CREST_STEPS, "TD1")


_SLOPES = {"G": (15, 11), "g": (15, 11), "f": (30, 11), "e": (50, 11)}  # micrometres: a + b P


def deviation(pitch: float, letter: str) -> Tolerance:
    """Return the fundamental deviation: EI of a nut (0 or more), es of a screw (0 or less).

    pitch: Pitch, 0.2 to 8; the formula holds, within one step, to the coarse pitches of ISO 2903 too. [mm]
    letter: `G` or `H` for a nut, `a` to `h` for a screw.
    Returns: The deviation. [mm]
    Raises: BadInput if the standard has no such deviation for the pitch.
    Source: ISO 965-1:2013 Table 1; for other pitches clause 10: EI(G) = 15 + 11 P, es(g), es(f), es(e) = -(15, 30, 50 +
        11 P).

    >>> deviation(1.5, "g").value, deviation(1.5, "H").value
    (-0.032, 0.0)
    """
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
        return Tolerance(size if letter == "G" else -size, f"ISO 965-1, position {letter}, {_BY_FORMULA}")
    letters = "G, H, e, f, g, h" if row is None else ", ".join([k for k in row if k != "pitch" and row[k]] + ["H", "h"])
    text = say(
        f"tolerance: ISO 965-1 gives no position {letter} for a pitch of {{pitch}}; it gives {letters}.",
        pitch=plain(pitch),
    )
    raise BadInput("tolerance", letter, letters, text)


def normal_engagement(diameter: float, pitch: float) -> tuple[float, float] | None:
    """The lengths of engagement that count as normal, over the first, up to the second; None where the table leaves the
    pair out. Shorter is group S, longer group L (ISO 965-1:2013, lengths of thread engagement).

    >>> normal_engagement(10, 1.5)
    (5.0, 15.0)
    """
    row = _table("iso965_engagement").get((diameter_range(diameter)[1], pitch))
    return (float(row["normal_over"]), float(row["normal_upto"])) if row else None
