"""What starts a hole: centre and spotting drills."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from math import radians, tan

from engine.base.records import dataclass, replace
from engine.base.refusals import BadInput
from engine.base.tables import rows
from engine.base.units import parse_length

_CENTRE_CONE = 60.0  # deg, included
_SPOT_CONE = 90.0  # deg: a spotting drill's point (120 where it must not be flatter than the drill's)
_SPOT = 0.5  # of the hole's diameter: how wide a spot is made (a knowledge-base page on spot drills)
_WIDEST = 0.9  # of the hole: a mouth so wide is still taken away by the drill (common practice)
_NAMES = {"iso": "centre drill ISO {}", "asme": "centre drill No. {}", "spot": "spotting drill {}"}


@dataclass(frozen=True, slots=True)
class CentreDrill:
    """A centre or spotting drill and how deep it goes: to a mouth no wider than the hole. In mm.

    `standard` is `iso`, `asme` or `spot`; `owned` is None where the shop lists none at all.
    """

    standard: str
    size: str
    pilot: float
    body: float
    mouth: float
    depth: float
    owned: bool | None = None

    @property
    def name(self) -> str:
        """As it is asked for."""
        return _NAMES[self.standard].format(self.size)


@cache
def _centre_drills(standard: str) -> tuple[dict[str, str], ...]:
    return tuple(row for row in rows("drilling/centre_drills.csv") if row["standard"] == standard)


def _usual(diameter: float, standard: str) -> str:
    """Size of the centre drill that usually starts a hole; "" for a hole too small for one."""
    sizes = [row["size"] for row in rows("drilling/start_drills.csv")
             if row["standard"] == standard and diameter > float(row["over"])]  # fmt: skip
    return sizes[-1] if sizes else ""


def centre_drill(*, diameter: float, standard: str = "iso", owned: Sequence[str] = ()) -> CentreDrill | None:
    """What starts a hole: one of the owned centre and spotting drills, else the usual centre drill.

    diameter: Diameter of the finished hole, above 0. [mm]
    standard: `iso` (ISO 866 form A), `asme` (B94.11M plain type).
    owned: Centre and spotting drills as a shop lists them: `A2.5`, `No. 3`, `spot 6`.
    Returns: Of the owned ones whose mouth the drill takes away the one nearest the usual size; None for a hole that no
        centre drill starts (a punch or a spotting drill does). [mm]
    Source: Sizes by the finished hole: engine/data/drilling/start_drills.csv. ISO 866, ISO 6411 type A, ASME B94.11M:
        from memory, unconfirmed.

    >>> found = centre_drill(diameter=10)
    >>> found.size, found.mouth, round(found.depth, 2)
    ('2.5', 5.3, 6.52)
    >>> centre_drill(diameter=10, owned=("A2", "A6.3")).name, centre_drill(diameter=2)
    ('centre drill ISO 2', None)
    """
    size = _usual(diameter, standard)
    usual = _of_table(standard, size, diameter) if size else None
    mine = [drill for drill in (_parsed(words, diameter) for words in owned) if drill.mouth <= _WIDEST * diameter]
    if mine:
        aim = usual.mouth if usual else _SPOT * diameter
        return min(mine, key=lambda drill: (abs(drill.mouth - aim), drill.standard == "spot"))
    if usual is None or not owned:
        return usual
    return replace(usual, owned=False)


def _of_table(standard: str, size: str, diameter: float, owned: bool | None = None) -> CentreDrill:
    row = next(row for row in _centre_drills(standard) if row["size"] == size)
    pilot, mouth = float(row["pilot"]), _mouth(row)
    cone = (mouth - pilot) / (2 * tan(radians(_CENTRE_CONE / 2)))
    return CentreDrill(standard, size, pilot, float(row["body"]), mouth, float(row["pilot_length"]) + cone, owned)


def _mouth(row: dict[str, str]) -> float:
    """Width of the 60 degree mouth; where a standard gives none, three quarters of the body (common practice)."""
    return float(row["mouth"]) if row["mouth"] else 0.75 * float(row["body"])


def _parsed(words: str, diameter: float) -> CentreDrill:
    """A centre or spotting drill as a shop lists it."""
    text = words.strip()
    iso = re.fullmatch(r"(?i)(?:iso\s*)?a\s*(\d+(?:\.\d+)?)", text)
    number = re.fullmatch(r"(?i)(?:no\.?|#)\s*(\d+)", text)
    spot = re.fullmatch(r"(?i)spot(?:ting)?(?:\s+drill)?\s+(.+)", text)
    for standard, found in (("iso", iso), ("asme", number)):
        if found and any(row["size"] == found[1] for row in _centre_drills(standard)):
            return _of_table(standard, found[1], diameter, True)
    size = parse_length(spot[1], "mm") if spot else None
    if spot and size:
        body = float(size)
        mouth = min(body, _SPOT * diameter)
        return CentreDrill("spot", spot[1], 0.0, body, mouth, mouth / (2 * tan(radians(_SPOT_CONE / 2))), True)
    raise BadInput("centre_drills", words, "such as A2.5 (ISO), No. 3 (ASME) or spot 6")


def british_centre_drill(pilot: float) -> str | None:
    """The BS 328-2 centre drill (from memory) that does as well: its pilot [mm] within a quarter of the asked one.

    >>> british_centre_drill(2.5), british_centre_drill(0.5)
    ('BS 3', None)
    """
    nearest = min(_centre_drills("bs"), key=lambda row: abs(float(row["pilot"]) - pilot))
    return nearest["size"] if abs(float(nearest["pilot"]) - pilot) <= pilot / 4 else None
