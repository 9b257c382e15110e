"""The formulas behind ISO 965-1, for the pairs that its tables leave out."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import log10, sqrt

from engine.base.refusals import BadInput, OutOfRange

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
CREST_STEPS = {"4": -8, "5": -4, "6": 0, "7": 4, "8": 8}
BY_FORMULA = "by the formulas of its clause 10: may lie one step (6 %) from a table"


@dataclass(frozen=True, slots=True)
class Tolerance:
    """A tolerance or a deviation in mm, with where it comes from."""

    value: float
    source: str


def preferred(value: float, steps: int = 0) -> float:
    """Return the R40 preferred number nearest to a value, so many steps on.

    Parameters
    ----------
    value : float
        Micrometres, above 0. [um]
    steps : int
        Steps of R40 to go on from it.

    Returns
    -------
    size : float
        A whole number of micrometres. [mm]

    Raises
    ------
    ValueError
        If the value is not above 0.

    Sources
    -------
    R40 series (ISO 3:1973); its use in ISO 965-1 clause 10.

    Examples
    --------
    >>> preferred(131), preferred(131, 4)
    (0.132, 0.17)
    """
    index = round(40 * log10(value)) + steps
    decade, place = divmod(index, 40)
    return float(round(_R40[place] * 10.0 ** (decade - 2))) / 1000


def diameter_range(diameter: float) -> tuple[float, float]:
    """Return the range of diameters whose tolerances are one: over the first, up to the second.

    Parameters
    ----------
    diameter : float
        Nominal diameter, over 0.99 to 355. [mm]

    Returns
    -------
    range : tuple of float
        Its bounds. [mm]

    Raises
    ------
    OutOfRange
        Outside ISO 965-1.

    Sources
    -------
    ISO 965-1, the ranges of its tables.

    Examples
    --------
    >>> diameter_range(10)
    (5.6, 11.2)
    """
    for low, high in pairwise(_RANGES):
        if low < diameter <= high:
            return low, high
    raise OutOfRange("size", diameter, SMALLEST, LARGEST, "mm", "ISO 965-1 gives no tolerances outside")


def by_formula(grade: str, grade_6: float, steps: dict[str, int], what: str) -> Tolerance:
    """Return the tolerance of a grade from that of grade 6.

    Parameters
    ----------
    grade : str
        The grade wanted.
    grade_6 : float
        The formula's value for grade 6. [um]
    steps : dict
        Steps of R40 from grade 6 to each grade.
    what : str
        The tolerance's symbol, for a refusal.

    Returns
    -------
    tolerance : Tolerance
        Rounded to R40. [mm]

    Raises
    ------
    BadInput
        If there is no such grade.

    Sources
    -------
    ISO 965-1 clause 10.

    Examples
    --------
    >>> by_formula("4", 180.0, CREST_STEPS, "Td").value
    0.112
    """
    if grade not in steps:
        given = ", ".join(steps)
        raise BadInput("tolerance", grade, given, f"tolerance: {what} has no grade {grade}; it has {given}.")
    source = f"ISO 965-1, {what}, grade {grade}, {BY_FORMULA}"
    return Tolerance(preferred(grade_6, steps[grade]), source)


def _td2_6(diameter: float, pitch: float) -> float:
    low, high = diameter_range(diameter)
    return 90.0 * float(pitch**0.4) * float(sqrt(low * high) ** 0.1)


def screw_pitch_by_formula(diameter: float, pitch: float, grade: str) -> Tolerance:
    """Return Td2 by the formula, where no table has the pair.

    Parameters
    ----------
    diameter : float
        Nominal diameter. [mm]
    pitch : float
        Pitch. [mm]
    grade : str
        Its grade.

    Returns
    -------
    tolerance : Tolerance
        Rounded to R40, so many steps from grade 6. [mm]

    Raises
    ------
    BadInput
        If there is no such grade, or the diameter lies outside the standard.

    Sources
    -------
    ISO 965-1 clause 10: 90 P^0.4 d^0.1 for grade 6 of the screw, d the geometric mean of the range.

    Examples
    --------
    >>> screw_pitch_by_formula(10, 1.4, "6").value
    0.125
    """
    return by_formula(grade, _td2_6(diameter, pitch), _SCREW_STEPS, "Td2")


def nut_pitch_by_formula(diameter: float, pitch: float, grade: str) -> Tolerance:
    """Return TD2 by the formula, where no table has the pair.

    Parameters
    ----------
    diameter : float
        Nominal diameter. [mm]
    pitch : float
        Pitch. [mm]
    grade : str
        Its grade.

    Returns
    -------
    tolerance : Tolerance
        Rounded to R40, so many steps from grade 6. [mm]

    Raises
    ------
    BadInput
        If there is no such grade, or the diameter lies outside the standard.

    Sources
    -------
    ISO 965-1 clause 10: 90 P^0.4 d^0.1 for grade 6 of the screw, d the geometric mean of the range.

    Examples
    --------
    >>> nut_pitch_by_formula(10, 1.4, "6").value
    0.17
    """
    return by_formula(grade, _td2_6(diameter, pitch), _NUT_STEPS, "TD2")
