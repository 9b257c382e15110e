"""What is left for a reamer, and the drill that leaves it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from engine.base.records import dataclass
from engine.base.refusals import OutOfRange, check_range
from engine.base.tables import rows
from engine.base.tool import Tool
from engine.cutting.materials import Material
from engine.drilling.sizes import every_drill, unnamed
from engine.drilling.unowned import large_drills, works_in_inches

Kind = Literal["machine", "carbide", "hand"]
KINDS = ("machine", "carbide", "hand")
_LIGHT = ("aluminium",)  # groups of the light metals, which want half as much again
_SOURCES = {
    "machine": "a trade text on under sizes for reaming",
    "carbide": "a reamer maker's table for carbide tips",
    "hand": "from memory, common practice: 0.002 to 0.005 in",
}


@dataclass(frozen=True, slots=True)
class Allowance:
    """Metal that a reamer takes off the diameter, smallest and largest, in mm."""

    low: float
    high: float
    source: str


_SMALL = 2.0  # mm: under it the trade text asks for a tenth and more of the hole
# Share of the range that is left: light cuts on a light machine (common practice).
_AIM = {"machine": 0.25, "carbide": 0.5, "hand": 0.5}

_MANUAL = Allowance(0.127, 0.254, "TM 1-420 (1940) par. 37: 0.005 to 0.010 in at any size")


@dataclass(frozen=True, slots=True)
class PreDrill:
    """The drill before a reamer, what it leaves on the diameter in mm, and the allowance that this keeps."""

    tool: Tool
    owned: bool
    left: float
    allowance: Allowance


def allowance(*, diameter: float, material: Material, kind: Kind) -> Allowance:
    """Metal to leave on the diameter for a reamer.

    diameter: Finished diameter, above 0, up to 200; carbide 2.286 to 63.5. [mm]
    material: What is reamed.
    kind: `machine`, `carbide` (machine, carbide tipped) or `hand`.
    Returns: Smallest and largest. [mm]
    Raises: OutOfRange if no table covers the diameter.
    Source: See engine/data/drilling/reaming.csv; the sources disagree.

    >>> from engine.cutting.materials import find
    >>> found = allowance(diameter=8, material=find("mild steel"), kind="machine")
    >>> found.low, found.high
    (0.2, 0.3)
    """
    bands = [row for row in rows("drilling/reaming.csv") if row["kind"] == kind]
    for row in bands:
        if float(row["over"]) < diameter <= float(row["to"]):
            more = 1.5 if kind == "machine" and material.group in _LIGHT else 1.0
            source = _SOURCES[kind] if kind != "machine" or diameter > _SMALL else "common practice, no source"
            source += "; light metal: half as much again" if more > 1 else ""
            return Allowance(float(row["low"]) * more, float(row["high"]) * more, source)
    raise OutOfRange("diameter", diameter, float(bands[0]["over"]), float(bands[-1]["to"]), "mm", f"{kind} reamers")


def flutes_of(diameter: float) -> int:
    """How many flutes a reamer of a diameter [mm] has: 4 below 5 mm, 6 from there up (common practice, no source).

    >>> flutes_of(4), flutes_of(8)
    (4, 6)
    """
    return 4 if diameter < 5 else 6


def pre_drill(
    *, diameter: float, material: Material, kind: Kind, drills: Sequence[Tool], leave: float | None = None
) -> PreDrill:
    """Drill to use before a reamer: owned and inside an allowance, else one of the published series.

    diameter: Finished diameter, above 0. [mm]
    material, kind, drills: What is reamed, the kind as for `allowance`, and the owned drills.
    leave: What is to be left on the diameter, where somebody knows better. [mm]
    Returns: The drill nearest to what should be left: a quarter into the range of a machine reamer, half into others;
        the larger of two as near, for the lighter cut. An owned one that keeps the older manual's allowance for machine
        reamers comes before one that must be bought. [mm]
    Raises: OutOfRange if no table covers the diameter.
    Source: As for `allowance`; a quarter into the range: common practice, no source.

    >>> from engine.cutting.materials import find
    >>> both = [Tool("7.7", 7.7), Tool("7.8", 7.8)]
    >>> found = pre_drill(diameter=8, material=find("mild steel"), kind="machine", drills=both)
    >>> found.tool.name, found.owned, round(found.left, 3)
    ('7.8', True, 0.2)
    """
    check_range("diameter", diameter, low=0.2, high=200, unit="mm")
    wanted = allowance(diameter=diameter, material=material, kind=kind)
    if leave is not None:
        tool = min(drills, key=lambda t: abs(diameter - leave - t.diameter), default=None)
        if tool is not None and abs(diameter - leave - tool.diameter) <= leave / 2 and tool.diameter < diameter:
            return PreDrill(tool, True, diameter - tool.diameter, wanted)
        return PreDrill(unnamed(diameter - leave), False, leave, wanted)
    for rule in (wanted, _MANUAL) if kind == "machine" and diameter > _SMALL else (wanted,):
        tool = _nearest(diameter, rule, drills, _AIM[kind])
        if tool is not None:
            return PreDrill(tool, True, diameter - tool.diameter, rule)
    aim = diameter - _left(wanted, _AIM[kind])
    inch_first = works_in_inches(drills)
    for inch in (inch_first, not inch_first):
        kept = [d for d in every_drill() if (d.series != "metric") == inch] + large_drills(aim, inch=inch)
        series = [Tool(d.name, d.diameter) for d in kept]
        tool = _nearest(diameter, wanted, series, _AIM[kind])
        if tool is not None:
            return PreDrill(tool, False, diameter - tool.diameter, wanted)
    return PreDrill(unnamed(aim), False, diameter - aim, wanted)


def _left(rule: Allowance, share: float) -> float:
    """What should be left on the diameter."""
    return rule.low + (rule.high - rule.low) * share


def _nearest(diameter: float, rule: Allowance, tools: Sequence[Tool], share: float) -> Tool | None:
    """The tool nearest to what should be left; None if none is inside the allowance."""
    aim = diameter - _left(rule, share)
    inside = [t for t in tools if rule.low - 1e-9 <= diameter - t.diameter <= rule.high + 1e-9]
    return min(inside, key=lambda t: (round(abs(t.diameter - aim), 6), -t.diameter), default=None)
