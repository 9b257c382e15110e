"""Parallel keys and their keyways."""

from __future__ import annotations

from dataclasses import dataclass

from engine.base.refusals import OutOfRange
from engine.base.tables import rows

_TABLE = "slotting/din6885_1.csv"


@dataclass(frozen=True, slots=True)
class Key:
    """A parallel key for a shaft, in mm. Depths of the keyways have `depth_plus` as tolerance, nothing below."""

    width: float
    height: float
    shaft_depth: float
    hub_depth: float
    depth_plus: float
    over: float
    to: float


def key_for(diameter: float) -> Key:
    """Return the key that the standard gives a shaft.

    Parameters
    ----------
    diameter : float
        Of the shaft, above 6, up to 110. [mm]

    Returns
    -------
    key : Key
        Sizes of the key and depths of its keyways.

    Raises
    ------
    OutOfRange
        If the standard's table, as kept here, has no key for that shaft.

    Sources
    -------
    DIN 6885-1:1968, high form.

    Examples
    --------
    >>> key = key_for(20)
    >>> key.width, key.height, key.shaft_depth, key.hub_depth
    (6.0, 6.0, 3.5, 2.8)
    """
    table = rows(_TABLE)
    for row in table:
        if float(row["over"]) < diameter <= float(row["to"]):
            return Key(*(float(row[name]) for name in _COLUMNS))
    low, high = table[0]["over"], table[-1]["to"]
    raise OutOfRange("diameter", diameter, float(low), float(high), "mm", f"over {low} mm: DIN 6885-1")


_COLUMNS = ("width", "height", "shaft_depth", "hub_depth", "depth_plus", "over", "to")
