"""Cutting speeds as published, and the spindle speed that the machine itself has."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from math import pi
from typing import Literal

from engine.base.records import dataclass
from engine.base.refusals import OutOfRange, check_range
from engine.base.rounding import short
from engine.base.sums import PI, Sum, factor, leaf, mm
from engine.base.tables import rows
from engine.base.words import Text, general, say
from engine.cutting.materials import Material

Cut = Literal[
    "turning", "drilling", "reaming", "tapping", "screwcutting", "parting", "knurling", "milling", "countersinking"
]
Tool = Literal["hss", "carbide"]
_M_PER_FT = 0.3048  # exact: international yard and pound agreement, 1959


@dataclass(frozen=True, slots=True)
class SpeedRange:
    """A published range of surface speeds and the one to use. All in m/min."""

    low: float
    high: float
    chosen: float
    source: str


@dataclass(frozen=True, slots=True)
class SpindleSpeed:
    """The speed wanted, the machine's speed to use, and the surface speed which that gives.

    `too_fast`: even the lowest speed of the machine is above the ideal. `held_by_ceiling`: a marked maximum, not the
    cutting speed, decided. `inside`: the step lies inside the published range, at or above its low end.
    """

    ideal: float
    chosen: float
    surface_speed: float
    too_fast: bool
    held_by_ceiling: bool
    inside: bool = False


@cache
def _row(operation: str, tool: str, material: str, group: str) -> dict[str, str] | None:
    """The row of a material by its own name, else of its group, else of any."""
    found = {r["group"]: r for r in rows("cutting/speeds.csv") if (r["operation"], r["tool"]) == (operation, tool)}
    return found.get(material) or found.get(group) or found.get("any")


def surface_speed(*, material: Material, operation: Cut, tool: Tool = "hss") -> SpeedRange:
    """Surface speed of a cut: the published range, and its low end for a light machine.

    material: What is cut.
    operation: turning, drilling, reaming, tapping, screwcutting, parting, knurling, milling or countersinking.
    tool: `hss` or `carbide`. Where a table has no carbide figure the one for high-speed steel is taken, and said so.
    Returns: Lowest and highest published speed and the chosen one. [m/min]
    Source: The `source` column of engine/data/cutting/speeds.csv; the low end for a light machine is common practice,
        no source.

    Mild steel drilled with high-speed steel: 80 to 110 ft/min in the Navy's table.

    >>> from engine.cutting.materials import find
    >>> found = surface_speed(material=find("mild steel"), operation="drilling")
    >>> found.low, found.high, found.chosen
    (24.384, 33.528, 24.384)
    """
    row = _row(operation, tool, material.name, material.group)
    if row is None:
        if tool == "hss":
            raise KeyError(operation)
        hss = surface_speed(material=material, operation=operation, tool="hss")
        return SpeedRange(hss.low, hss.high, hss.chosen, f"{hss.source} (for high-speed steel)")
    return _range(row, material)


def _range(row: dict[str, str], material: Material) -> SpeedRange:
    low, high, unit = float(row["low"]), float(row["high"]), row["unit"]
    words = f"{short(low)}" if low == high else f"{short(low)} to {short(high)}"
    if unit.startswith("of "):
        _, base_tool, base_operation = unit.split()
        base = surface_speed(material=material, operation=base_operation, tool=base_tool)  # type: ignore[arg-type]
        source = f"{row['source']} (x {words}); {base_operation}: {base.source}"
        return SpeedRange(base.low * low, base.high * high, base.low * low, source)
    factor = _M_PER_FT if unit == "ft/min" else 1.0
    return SpeedRange(low * factor, high * factor, low * factor, f"{row['source']}: {words} {unit}")


def spindle_speed(
    *, diameter: float, surface_speed: float, steps: Sequence[float], ceiling: float | None = None,
    top: float | None = None,
) -> SpindleSpeed:  # fmt: skip
    """Spindle speed for a surface speed: the machine's lowest step inside the published range, else the first slower.

    diameter: Diameter of the work (turning) or of the tool (drilling, milling), above 0. [mm]
    surface_speed: Wanted surface speed, above 0. [m/min]
    steps: The machine's speeds; empty if it can run at any speed. [rev/min]
    ceiling: A speed that must not be passed, such as the one marked on the chuck. [rev/min]
    top: High end of the published range that `surface_speed` is the low end of. None: no step above it is taken.
        [m/min]
    Returns: The ideal, the chosen step (the lowest one, flagged, if none is slow enough) and its surface speed.
    Raises: OutOfRange if diameter or surface speed is not above 0, or every step is above the ceiling.
    Source: n = 1000 v / (pi D): any shop handbook. The step nearest what is wanted, generally the first slower: US Army
        OD 1645, lathe lesson; so the lowest inside a range, and the first slower where none is.

    A 250 mm cutter at 80 m/min turns at 101.86 rev/min.

    >>> found = spindle_speed(diameter=250, surface_speed=80, steps=(65, 100, 160))
    >>> round(found.ideal, 2), found.chosen
    (101.86, 100)

    20 mm at 24.4 to 30.5 m/min: 388 to 485 rev/min, and the lathe has 400.

    >>> spindle_speed(diameter=20, surface_speed=24.384, steps=(250, 400, 630), top=30.48).chosen
    400
    """
    check_range("diameter", diameter, low=1e-6, unit="mm")
    check_range("surface speed", surface_speed, low=1e-6, unit="m/min")
    ideal = 1000 * surface_speed / (pi * diameter)
    limit = ideal if ceiling is None else min(ideal, ceiling)
    allowed = [step for step in steps if ceiling is None or step <= ceiling]
    if steps and not allowed:
        raise OutOfRange("ceiling", ceiling or 0, min(steps), None, "rev/min", "the machine's lowest speed is above it")
    slow_enough = [step for step in allowed if step <= limit]
    most = ideal if top is None else 1000 * top / (pi * diameter)
    inside = [step for step in allowed if ideal <= step <= most]
    chosen = min(inside) if inside else max(slow_enough) if slow_enough else min(allowed, default=limit)
    over = ceiling is not None and any(ceiling < step <= most for step in steps or (ideal,))
    runs_at, too_fast = pi * diameter * chosen / 1000, chosen > ideal and not inside
    return SpindleSpeed(ideal, chosen, runs_at, too_fast, held_by_ceiling=over and not inside, inside=bool(inside))


def ideal_speed(*, surface_speed: float, diameter: float) -> Sum:
    """The spindle speed in rev/min that gives a surface speed in m/min on a diameter in mm, with its sum: n = 1000 v / (pi
    D), in inches 12 v / (pi D), as any shop handbook has it.

    >>> from engine.base.sums import written
    >>> speed = ideal_speed(surface_speed=24.384, diameter=19.05)
    >>> written(speed, "inch"), round(speed.value)
    ('12 x 80 ÷ (3.14159 x 0.75)', 407)
    """
    return (factor(1000, 12) * leaf(surface_speed, "surface_speed") / (PI * mm(diameter))).as_("speed")


def chosen_step(spindle: SpindleSpeed, machine: str, *, ceiling: float | None = None) -> Text:
    """Which of a machine's speeds was taken for the ideal one, and why.

    >>> from engine.base.words import write
    >>> write(chosen_step(spindle_speed(diameter=100, surface_speed=4, steps=(65, 100)), "lathe"))
    "the lathe's lowest, above it: 65"
    """
    taken = general(spindle.chosen)
    if spindle.inside:
        return say(f"the {machine}'s lowest inside the range: {{taken}}", taken=taken)
    if spindle.too_fast:
        return say(f"the {machine}'s lowest, above it: {{taken}}", taken=taken)
    if spindle.held_by_ceiling:
        return say("held back by the chuck's mark of {mark}: {taken}", mark=general(ceiling or 0.0), taken=taken)
    if spindle.chosen == spindle.ideal:
        return "no steps are known"
    return say(f"the {machine}'s step at or below it: {{taken}}", taken=taken)
