"""Holes for screws: clearance, countersinks and counterbores as the standards give them."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Literal

from engine.base.quantity import MM_PER_INCH
from engine.base.records import dataclass
from engine.base.refusals import BadInput, check_range
from engine.base.sums import Sum, deg, mm, tan
from engine.base.tables import rows
from engine.base.words import Text
from engine.drilling.sizes import named
from engine.joining.iso286 import tolerance
from engine.threads.thread import Thread

Fit = Literal["close", "normal", "loose"]
FITS = ("close", "normal", "loose")
HEADS = ("flat", "socket", "old")
_GRADES = {"close": 12, "normal": 13, "loose": 14}
_SERIES = {"close": "fine", "normal": "medium", "loose": "coarse"}  # as ISO 273 names them
_SAME_SCREW = 1e-3  # mm


@dataclass(frozen=True, slots=True)
class Clearance:
    """A hole for a screw to pass, in mm: its size, how much larger it may be, the drill that the standard names.

    `working` says where in the source the size stands, `tolerance_source` where the tolerance comes from.
    """

    diameter: float
    tolerance: float
    drill: str
    source: str
    working: Text
    tolerance_source: str


@dataclass(frozen=True, slots=True)
class Counterbore:
    """A seat for a cap screw, in mm."""

    bore: float
    depth: float
    head: float
    height: float
    addition: float
    source: str


@dataclass(frozen=True, slots=True)
class Countersink:
    """A seat for a countersunk screw, in mm; `largest` is 0 where the standard gives one size only."""

    diameter: float
    largest: float
    hole: float
    source: str
    hole_source: str


def _drill_size(name: str) -> float:
    """Diameter of a drill by the name that ASME B18.2.8 gives it."""
    size = named(name)
    return float(Fraction(name) * MM_PER_INCH) if size is None else size


@cache
def _by_diameter(table: str, family: str) -> tuple[tuple[float, dict[str, str]], ...]:
    kept = (row for row in rows(f"drilling/{table}.csv") if row["family"] == family)
    return tuple((_nominal(row), row) for row in kept)


def _nominal(row: dict[str, str]) -> float:
    """Diameter of a row's screw in mm: Unified numbers are 0.060 in and 0.013 in a number, others a fraction."""
    size = row["size"]
    if row["family"] == "metric":
        return float(size)
    inches = Fraction(size) if "/" in size else Fraction(60 + 13 * int(size), 1000)
    return float(inches * MM_PER_INCH)


def _row_of(table: str, thread: Thread) -> dict[str, str] | None:
    """The row of a screw, by its diameter: a 1 in screw is written 1-8, but is no number 1."""
    for diameter, row in _by_diameter(table, thread.family):
        if abs(diameter - thread.diameter) < _SAME_SCREW:
            return row
    return None


def clearance_hole(thread: Thread, fit: Fit = "normal") -> Clearance:
    """Hole that a screw passes through.

    Parameters
    ----------
    thread : Thread
        The screw.
    fit : str
        `close`, `normal` or `loose`.

    Returns
    -------
    hole : Clearance
        By ISO 273 or ASME B18.2.8; for other threads the clearance of the next larger ISO 273 size. [mm]

    Raises
    ------
    BadInput
        If no table reaches to the screw's diameter.

    Sources
    -------
    ISO 273 (H12, H13, H14), ASME B18.2.8; for others common practice, no source.

    Examples
    --------
    >>> from engine.threads.designation import parse
    >>> clearance_hole(parse("M6")).diameter, clearance_hole(parse("1/4-20 UNC")).drill
    (6.6, '9/32')
    """
    row = _row_of("clearance_holes", thread)
    if row is None:
        return _by_neighbour(thread, fit)
    if thread.family == "unified":
        working = f"{fit} fit: drill {row[fit]}"
        return _clearance(_drill_size(row[fit]), fit, row[fit], "ASME B18.2.8", working, "from memory")
    return _clearance(float(row[fit]), fit, "", "ISO 273", f"{_SERIES[fit]} series, M{row['size']}", "")


def _clearance(diameter: float, fit: Fit, drill: str, source: str, working: Text, mark: str) -> Clearance:
    grade = _GRADES[fit]
    said = f"H{grade} of ISO 286-1:2010" + (
        f", {mark}" if mark else f" (tolerance of ISO 273, {_SERIES[fit]} series)"
    )
    return Clearance(diameter, tolerance(grade=grade, diameter=diameter), drill, source, working, said)


def _by_neighbour(thread: Thread, fit: Fit) -> Clearance:
    if thread.family == "unified" and thread.diameter > _by_diameter("clearance_holes", "unified")[-1][0]:
        raise BadInput(
            "size", str(thread), "a Unified screw up to 3/4 in, where ASME B18.2.8 as kept here ends"
        )
    for size, row in _by_diameter("clearance_holes", "metric"):
        if size >= thread.diameter:
            source = (
                f"no row of its own: as much as ISO 273 gives M{row['size']} (common practice, no source)"
            )
            working = mm(thread.diameter) + (mm(float(row[fit])) - mm(size))
            hole = round(thread.diameter + float(row[fit]) - size, 6)
            return _clearance(hole, fit, "", source, working, "common practice for this thread, no source")
    raise BadInput("size", str(thread), "a screw up to 36 mm, where ISO 273 as kept here ends")


def counterbore(thread: Thread) -> Counterbore:
    """Counterbore for a socket head cap screw whose head is sunk flush.

    Parameters
    ----------
    thread : Thread
        The screw: ISO metric or Unified.

    Returns
    -------
    seat : Counterbore
        Bore, depth and head. [mm]

    Raises
    ------
    BadInput
        If the tables have no such screw.

    Sources
    -------
    DIN 974-1 series 1 (from memory) with heads of ISO 4762; ASME B18.3 (from memory).

    Examples
    --------
    >>> from engine.threads.designation import parse
    >>> seat = counterbore(parse("M6"))
    >>> seat.bore, seat.depth
    (11.0, 6.4)
    """
    metric = thread.family == "metric"
    row = _row_of("counterbores", thread)
    if row is None:
        accepted = (
            "a cap screw of M1.6 to M24 or No. 4 to 3/4 in: the sizes of ISO 4762 and ASME B18.3 kept here"
        )
        raise BadInput("size", str(thread), accepted)
    scale = 1.0 if metric else float(MM_PER_INCH)
    bore = float(sum(Fraction(part) for part in row["bore"].split())) * scale
    height, addition = float(row["height"]) * scale, float(row["addition"]) * scale
    source = (
        "head ISO 4762; bore and addition DIN 974-1 series 1: from memory"
        if metric
        else "ASME B18.3: from memory, unconfirmed"
    )
    return Counterbore(
        bore=bore,
        depth=round(height + addition, 6),
        head=float(row["head"]) * scale,
        height=height,
        addition=addition,
        source=source,
    )


def countersink_for(thread: Thread, head: str) -> Countersink:
    """Countersink for a screw.

    Parameters
    ----------
    thread : Thread
        The screw: ISO metric.
    head : str
        `flat` (ISO 2009, ISO 7046), `socket` (ISO 10642) or `old` (DIN 963).

    Returns
    -------
    seat : Countersink
        90 degrees. [mm]

    Raises
    ------
    BadInput
        If the table has no such screw.

    Sources
    -------
    ISO 15065:2005, ISO 10642, DIN 74-1:1980 form A.

    Examples
    --------
    >>> from engine.threads.designation import parse
    >>> countersink_for(parse("M5"), "socket").diameter
    11.2
    """
    sizes = [row for row in rows("drilling/countersinks.csv") if row["head"] == head]
    source = {
        "flat": "ISO 15065:2005, for heads of ISO 2009 and ISO 7046 (largest from memory)",
        "socket": "ISO 10642, theoretical head",
        "old": "DIN 74-1:1980 form A medium, for heads of DIN 963",
    }[head]
    for row in sizes:
        if thread.family == "metric" and abs(float(row["size"]) - thread.diameter) < _SAME_SCREW:
            return Countersink(
                diameter=float(row["diameter"]),
                largest=float(row["largest"] or 0),
                hole=float(row["hole"]),
                source=source,
                hole_source="ISO 273, medium series",
            )
    accepted = f"one of M{', M'.join(row['size'] for row in sizes)} for a {head} head"
    raise BadInput("screw", str(thread), accepted)


def countersink_depth(*, hole: float, diameter: float, angle: float = 90.0) -> Sum:
    """Depth of a countersink from the face, for a hole that is there.

    Parameters
    ----------
    hole : float
        Diameter of the hole, 0 or more. [mm]
    diameter : float
        Diameter at the face, above the hole's. [mm]
    angle : float
        Included angle, 30 to 150. [deg]

    Returns
    -------
    depth : Sum
        (Dc - Dh) / (2 tan(angle / 2)). [mm]

    Raises
    ------
    OutOfRange
        If the diameter is not above the hole's or the angle lies outside its bounds.

    Sources
    -------
    Geometry of a true cone; a worn tip makes it a little less deep.

    Examples
    --------
    >>> countersink_depth(hole=6.6, diameter=12.4)
    <(12.4 - 6.6) ÷ (2 x tan 45°) = 2.9 (length)>
    """
    check_range("hole", hole, low=0, unit="mm")
    check_range("diameter", diameter, low=hole * (1 + 1e-9), unit="mm", why="more than the hole")
    check_range("angle", angle, low=30, high=150, unit="deg")
    slope: Sum = tan(deg(angle / 2))
    return (mm(diameter) - mm(hole)) / (2 * slope)
