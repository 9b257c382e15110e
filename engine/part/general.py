"""General tolerances: what a size may be where the drawing gives it no limits of its own."""

from __future__ import annotations

from engine.base.tables import rows
from engine.part.part import Size


def general_deviation(nominal: float, grade: str) -> float | None:
    """Return how far a length or diameter may be off, either way, by its general tolerance.

    nominal: The size, above 0, up to 4000. [mm]
    grade: The class: `f` fine, `m` medium, `c` coarse, `v` very coarse.
    Returns: Half the tolerance; None where the standard has none (under 0.5 mm, or an empty place of its table). [mm]
    Source: ISO 2768-1:1989 Table 1, from memory: engine/data/part/iso2768_1.csv.

    >>> general_deviation(25, "m"), general_deviation(0.4, "m"), general_deviation(3, "f")
    (0.2, None, 0.05)
    """
    for row in rows("part/iso2768_1.csv"):
        first = float(row["over"]) == 0.5 and nominal == 0.5
        if first or float(row["over"]) < nominal <= float(row["to"]):
            return float(row[grade]) if row[grade] else None
    return None


def with_general(size: Size, grade: str) -> Size:
    """Put the general tolerance to a size that has no limits; any other, and any size without a class, stays."""
    if not grade or size.low is not None:
        return size
    off = general_deviation(size.nominal, grade)
    if off is None:
        return size
    return Size(size.nominal, size.nominal - off, size.nominal + off, "", size.written, general=True)
