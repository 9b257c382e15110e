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
METRIC_CONE, INCH_CONE = 90.0, 82.0  # deg: heads of ISO and of ASME screws


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
    """A seat for a countersunk screw, in mm and degrees; `largest` is 0 where the standard gives one size only.

    `head_least` is the smallest head that the standard allows, its edge broken; 0 where it says none.
    """

    diameter: float
    largest: float
    hole: float
    source: str
    hole_source: str
    angle: float = METRIC_CONE
    head_least: float = 0.0


def _drill_size(name: str) -> float:
    """Diameter of a drill by the name that ASME B18.2.8 gives it."""
    size = named(name)
    return float(_inches(name) * MM_PER_INCH) if size is None else size


def _inches(name: str) -> Fraction:
    """A size in inches as it is written: 5/8, 1 1/4, 1.0."""
    return sum(map(Fraction, name.split()), Fraction(0))


@cache
def _by_diameter(table: str, family: str) -> tuple[tuple[float, dict[str, str]], ...]:
    kept = (row for row in rows(f"drilling/{table}.csv") if row["family"] == family)
    return tuple((_nominal(row), row) for row in kept)


def _nominal(row: dict[str, str]) -> float:
    """Diameter of a row's screw in mm: Unified numbers are 0.060 in and 0.013 in a number, others a fraction."""
    size = row["size"]
    if row["family"] == "metric":
        return float(size)
    inches = _inches(size) if "/" in size or "." in size else Fraction(60 + 13 * int(size), 1000)
    return float(inches * MM_PER_INCH)


def _row_of(table: str, thread: Thread) -> dict[str, str] | None:
    """The row of a screw, by its diameter: a 1 in screw is written 1-8, but is no number 1."""
    for diameter, row in _by_diameter(table, thread.family):
        if abs(diameter - thread.diameter) < _SAME_SCREW:
            return row
    return None


def clearance_hole(thread: Thread, fit: Fit = "normal", standard: str = "iso") -> Clearance:
    """Hole that a screw passes through.

    thread: The screw.
    fit: `close`, `normal` or `loose`.
    standard: `iso` or `asme`: by which a screw is served that neither of them has.
    Returns: By ISO 273 or ASME B18.2.8; for other threads the clearance of the standard's next larger size. [mm]
    Raises: BadInput if no table reaches to the screw's diameter.
    Source: ISO 273 (H12, H13, H14), ASME B18.2.8; for others common practice, no source.

    >>> from engine.threads.designation import parse
    >>> clearance_hole(parse("M6")).diameter, clearance_hole(parse("1/4-20 UNC")).drill
    (6.6, '9/32')
    """
    row = _row_of("clearance_holes", thread)
    if row is None:
        return _by_neighbour(thread, fit, standard)
    if thread.kind.bolts == "asme":
        working = f"{fit} fit: drill {row[fit]}"
        return _clearance(_drill_size(row[fit]), fit, row[fit], "ASME B18.2.8", working, "from memory")
    return _clearance(float(row[fit]), fit, "", "ISO 273", f"{_SERIES[fit]} series, M{row['size']}", "")


def _clearance(diameter: float, fit: Fit, drill: str, source: str, working: Text, mark: str) -> Clearance:
    grade = _GRADES[fit]
    said = f"H{grade} of ISO 286-1:2010" + (f", {mark}" if mark else f" (tolerance of ISO 273, {_SERIES[fit]} series)")
    return Clearance(diameter, tolerance(grade=grade, diameter=diameter), drill, source, working, said)


def _by_neighbour(thread: Thread, fit: Fit, standard: str) -> Clearance:
    """As much clearance as the next larger size of a standard has; ISO 273 where ASME B18.2.8 has ended."""
    inch = standard == "asme" and thread.diameter <= _by_diameter("clearance_holes", "unified")[-1][0]
    for size, row in sorted(_by_diameter("clearance_holes", "unified" if inch else "metric")):
        if size >= thread.diameter:
            name = f"ASME B18.2.8 gives {row['size']}" if inch else f"ISO 273 gives M{row['size']}"
            source = f"no row of its own: as much as {name} (common practice, no source)"
            wide = _drill_size(row[fit]) if inch else float(row[fit])
            working = mm(thread.diameter) + (mm(wide) - mm(size))
            hole = round(thread.diameter + wide - size, 6)
            return _clearance(hole, fit, "", source, working, "common practice for this thread, no source")
    raise BadInput("size", str(thread), "a screw up to 150 mm, where ISO 273 ends")


def counterbore(thread: Thread) -> Counterbore:
    """Counterbore for a socket head cap screw whose head is sunk flush.

    thread: The screw: ISO metric or Unified.
    Returns: Bore, depth and head. [mm]
    Raises: BadInput if the tables have no such screw.
    Source: DIN 974-1 series 1 (from memory) with heads of ISO 4762; ASME B18.3 (from memory).

    >>> from engine.threads.designation import parse
    >>> seat = counterbore(parse("M6"))
    >>> seat.bore, seat.depth
    (11.0, 6.4)
    """
    metric = thread.kind.bolts == "iso"
    row = _row_of("counterbores", thread)
    if row is None:
        accepted = "a cap screw of M1.6 to M24 or No. 0 to 1 1/2 in: the sizes of ISO 4762 and ASME B18.3 kept here"
        raise BadInput("size", str(thread), accepted)
    scale = 1.0 if metric else float(MM_PER_INCH)
    bore = float(_inches(row["bore"])) * scale
    height, addition = float(row["height"]) * scale, float(row["addition"]) * scale
    source = (
        "head ISO 4762; bore and addition DIN 974-1 series 1: from memory"
        if metric
        else "ASME B18.3: head read in a table of fasteners, counterbore from memory, unconfirmed"
    )
    return Counterbore(
        bore=bore,
        depth=round(height + addition, 6),
        head=float(row["head"]) * scale,
        height=height,
        addition=addition,
        source=source,
    )


_HEAD_SOURCES = {
    ("metric", "flat"): "ISO 15065:2005, for heads of ISO 2009 and ISO 7046 (largest from memory)",
    ("metric", "socket"): "ISO 10642, theoretical head",
    ("metric", "old"): "DIN 74-1:1980 form A medium, for heads of DIN 963 (withdrawn)",
    ("unified", "flat"): "ASME B18.6.3, largest head with a sharp edge: from memory",
    ("unified", "socket"): "ASME B18.3, theoretical head, sharp",
}


def countersink_for(thread: Thread, head: str) -> Countersink:
    """Countersink for a screw, to the theoretical head with a sharp edge, so that a real one sits a little below.

    thread: The screw: ISO metric or Unified.
    head: `flat` (ISO 2009, ISO 7046; ASME B18.6.3), `socket` (ISO 10642; ASME B18.3) or `old` (DIN 963, withdrawn).
    Returns: 90 degrees for metric heads, 82 for Unified ones. [mm, deg]
    Raises: BadInput if the table has no such screw.
    Source: ISO 15065:2005, ISO 10642, DIN 74-1:1980 form A; ASME B18.6.3, B18.3. Holes: ISO 273 medium, ASME B18.2.8
        normal.

    >>> from engine.threads.designation import parse
    >>> countersink_for(parse("M5"), "socket").diameter, countersink_for(parse("1/4-20 UNC"), "flat").angle
    (11.2, 82.0)
    """
    sizes = [row for row in rows("drilling/countersinks.csv")
             if row["head"] == head and row["family"] == thread.family]  # fmt: skip
    for row in sizes:
        if abs(_nominal(row) - thread.diameter) < _SAME_SCREW:
            return _seat(row, thread)
    metric = ", M".join(row["size"] for row in rows("drilling/countersinks.csv")
                        if row["head"] == head and row["family"] == "metric")  # fmt: skip
    inch = "" if head == "old" else " or a Unified size of its standard, from No. 0"
    raise BadInput("screw", str(thread), f"one of M{metric} for a {head} head{inch}")


def _seat(row: dict[str, str], thread: Thread) -> Countersink:
    inch = row["family"] == "unified"
    scale = float(MM_PER_INCH) if inch else 1.0
    through = clearance_hole(thread) if inch else None
    return Countersink(
        diameter=float(row["diameter"]) * scale,
        largest=float(row["largest"] or 0),
        hole=through.diameter if through else float(row["hole"]),
        source=_HEAD_SOURCES[row["family"], row["head"]],
        hole_source=f"{through.source}, normal fit" if through else "ISO 273, medium series",
        angle=float(row["angle"]),
        head_least=float(row["least"] or 0) * scale,
    )


def countersink_depth(*, hole: float, diameter: float, angle: float = 90.0) -> Sum:
    """Depth of a countersink from the face, for a hole that is there.

    hole: Diameter of the hole, 0 or more. [mm]
    diameter: Diameter at the face, above the hole's. [mm]
    angle: Included angle, 30 to 150. [deg]
    Returns: (Dc - Dh) / (2 tan(angle / 2)). [mm]
    Raises: OutOfRange if the diameter is not above the hole's or the angle lies outside its bounds.
    Source: Geometry of a true cone; a worn tip makes it a little less deep.

    >>> countersink_depth(hole=6.6, diameter=12.4)
    <(12.4 - 6.6) ÷ (2 x tan 45°) = 2.9 (length)>
    """
    check_range("hole", hole, low=0, unit="mm")
    check_range("diameter", diameter, low=hole * (1 + 1e-9), unit="mm", why="more than the hole")
    check_range("angle", angle, low=30, high=150, unit="deg")
    slope: Sum = tan(deg(angle / 2))
    return (mm(diameter) - mm(hole)) / (2 * slope)
