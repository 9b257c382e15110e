"""The centre that leads a drill."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import radians, tan

from engine.base.tables import rows

_LED = (
    0.8  # of the hole's diameter: the mouth of its centre, so that the drill takes it away (common practice)
)


@dataclass(frozen=True, slots=True)
class CentreDrill:
    """A centre drill and how deep it goes: to a mouth no wider than the hole. In mm."""

    standard: str
    size: str
    pilot: float
    body: float
    mouth: float
    depth: float


@cache
def _centre_drills(standard: str) -> tuple[dict[str, str], ...]:
    return tuple(row for row in rows("drilling/centre_drills.csv") if row["standard"] == standard)


def centre_drill(*, diameter: float, standard: str = "iso") -> CentreDrill:
    """Centre drill that leads a drill: the largest whose mouth is at most 0.8 of the hole.

    Parameters
    ----------
    diameter : float
        Diameter of the hole, above 0. [mm]
    standard : str
        `iso` (ISO 866 form A), `asme` (B94.11M plain type).

    Returns
    -------
    drill : CentreDrill
        The centre drill; the smallest of its standard if every mouth is wider than the hole. [mm]

    Sources
    -------
    ISO 866, ISO 6411 type A, ASME B94.11M, BS 328-2: all from memory, unconfirmed. The choice: common practice.

    Examples
    --------
    >>> found = centre_drill(diameter=6)
    >>> found.size, found.mouth, round(found.depth, 2)
    ('2', 4.25, 5.25)
    """
    candidates = _centre_drills(standard)
    if not candidates or standard == "bs":  # BS 328-2 is kept without pilot lengths
        raise KeyError(standard)
    wide = [row for row in candidates if _mouth(row) <= _LED * diameter]
    row = wide[-1] if wide else candidates[0]
    mouth = min(_mouth(row), diameter) if diameter > float(row["pilot"]) else float(row["pilot"])
    cone = (mouth - float(row["pilot"])) / (2 * tan(radians(30)))
    return CentreDrill(
        standard=standard,
        size=row["size"],
        pilot=float(row["pilot"]),
        body=float(row["body"]),
        mouth=mouth,
        depth=float(row["pilot_length"]) + cone,
    )


def _mouth(row: dict[str, str]) -> float:
    """Width of the 60 degree mouth; where a standard gives none, three quarters of the body (common practice)."""
    return float(row["mouth"]) if row["mouth"] else 0.75 * float(row["body"])


def british_centre_drill(pilot: float) -> str | None:
    """The BS 328-2 centre drill (from memory) that does as well: its pilot [mm] within a quarter of the asked one.

    Examples
    --------
    >>> british_centre_drill(2.5), british_centre_drill(0.5)
    ('BS 3', None)
    """
    nearest = min(_centre_drills("bs"), key=lambda row: abs(float(row["pilot"]) - pilot))
    return nearest["size"] if abs(float(nearest["pilot"]) - pilot) <= pilot / 4 else None
