"""`thread-strength`: what a threaded joint holds."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

from engine.base.answer import Answer, Figure, Note
from engine.base.declare import choice, length, material, number, thread
from engine.base.operation import Operation
from engine.base.quantity import DIMENSIONS, show, worked
from engine.base.words import write
from engine.cutting.materials import Material
from engine.shop.model import Shop
from engine.threads.form import form
from engine.threads.limits import limits
from engine.threads.strength import (
    BEARING,
    SHEAR_SHARE,
    YIELD_SHARE,
    ScrewClass,
    engagement_needed,
    needed_stress_area,
    nut_tensile,
    preload,
    screw_class,
    shear_areas,
    strip_load,
    tightening_torque,
)
from engine.threads.stress import Area
from engine.threads.thread import Thread

_FULL_NUT = 0.8  # diameters: ISO 898-2 takes a nut of this height as of full strength
_STRIP_SHARE = 0.75  # of the stripping load that tightening may use (common practice, no source)
_CLASSES = (
    *("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9"),
    *("A2-50", "A2-70", "A2-80", "SAE 2", "SAE 5", "SAE 8"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadStrengthInputs:
    """What `thread-strength` is told."""

    size: Thread = thread("Thread", example="M10", help="Any parallel thread, as it is written.")
    property_class: str = choice(
        "Class of the screw",
        _CLASSES,
        default="8.8",
        example="8.8",
        help="Marked on the head. A screw turned from mild steel bar is about 4.6.",
    )
    nut_material: Material = material(
        "Material of the nut",
        example="mild steel",
        empty="mild steel",
        help="What the thread is tapped in: mild steel, cast iron, brass, aluminium 6082.",
    )
    engagement: float = length(
        "Length of engagement",
        low=0.1,
        high=1000,
        example="8",
        empty="a full nut, 0.8 diameters",
        help="Full thread engaged, without the chamfers.",
    )
    friction: float = number(
        "Friction",
        low=0.04,
        high=0.5,
        default=0.14,
        example="0.14",
        help="0.14 as delivered and lightly oiled, 0.10 greased, 0.2 dry (VDI 2230; common practice).",
    )


def _work(inputs: ThreadStrengthInputs, shop: Shop) -> Answer:
    size = inputs.size
    area = needed_stress_area(size)
    screw = screw_class(inputs.property_class, size.diameter)
    nut_name = inputs.nut_material.name if inputs.nut_material else "mild steel"
    nut = nut_tensile(nut_name)
    engaged = inputs.engagement or _FULL_NUT * size.diameter
    shear, unit = shear_areas(size, shop.unit), shop.unit
    pull = _with_unit(area.value, "area", unit)
    figures = [
        Figure(
            "proof_load", f"Proof load of the screw, {screw.name}", screw.proof * area.value, "force",
            f"stress area x proof stress: {screw.source}", f"{pull} x {_with_unit(screw.proof, 'stress', unit)}",
            side="down",
        )
    ]  # fmt: skip
    notes = []
    tension = preload(size, yield_stress=screw.yield_stress, friction=inputs.friction)
    working = _preload_working(size, area, screw, inputs.friction, unit)
    if shear:
        sides = _sides(shear, screw, nut, nut_name)
        strips, needed = _strip(sides, engaged, unit), _needed(area, sides, screw, unit)
        figures += [strips, needed]
        most = _STRIP_SHARE * (strips.value or 0.0)
        if tension > most:
            load = _with_unit(strips.value or 0.0, "force", unit)
            tension, working = most, f"{_STRIP_SHARE:g} x {load}, the stripping load"
            notes.append(
                Note("warning", "the torque is cut down: the screw's own limit comes too near to stripping")
            )
        notes += _engagement_notes(size, engaged, needed.value or 0.0, unit)
    else:
        notes.append(Note("info", f"{size} has no published limits: stripping cannot be worked out"))
    torque = tightening_torque(size, tension=tension, friction=inputs.friction)
    figures += [
        Figure(
            "tightening_torque", "Tightening torque", torque, "torque",
            f"VDI 2230, friction diameter under the head {BEARING:g} d",
            _torque_working(size, tension, inputs.friction, unit), side="down",
        ),
        Figure("preload", "which pulls with", tension, "force", "VDI 2230", working, side="down"),
        Figure(
            "breaking_load", "Screw breaks at", screw.tensile * area.value, "force",
            f"stress area x tensile strength: {screw.source}",
            f"{pull} x {_with_unit(screw.tensile, 'stress', unit)}", side="down",
        ),
        Figure("stress_area", "Stress area", area.value, "area", area.source, area.working),
    ]  # fmt: skip
    notes.append(
        Note(
            "info",
            "calculated for new, clean, well-made threads and steady load; torque scatters by a quarter",
        )
    )
    return Answer(figures=tuple(figures), notes=tuple(notes))


def _with_unit(value: float, dimension: str, unit: str) -> str:
    """A number of a working with the name of its unit."""
    kind = DIMENSIONS[dimension]
    return f"{worked(value, unit, dimension)} {kind.inch if unit == 'inch' else kind.metric}"


def _per_length(value: float, unit: str) -> str:
    """An area for each length engaged: mm²/mm becomes in²/in as a length does."""
    return worked(value, unit) + (" in²/in" if unit == "inch" else " mm²/mm")


def _preload_working(size: Thread, area: Area, screw: ScrewClass, friction: float, unit: str) -> str:
    pitch, effective, core = (
        worked(length, unit)
        for length in (float(size.lead), limits(size).pitch_basic, sqrt(4 * area.value / pi))
    )
    climb = f"{pitch} ÷ (pi x {effective}) + {friction:g} ÷ cos {form(size).half_angle:g}°"
    return (
        f"{YIELD_SHARE:g} x {_with_unit(screw.yield_stress, 'stress', unit)} x {_with_unit(area.value, 'area', unit)} "
        f"÷ square root of (1 + 3 x (1.5 x {effective} ÷ {core} x ({climb}))²); yield of pull with twist, "
        f"{core} being the diameter of the stress area"
    )


def _torque_working(size: Thread, tension: float, friction: float, unit: str) -> str:
    lead, effective, outside = (
        worked(length, unit) for length in (float(size.lead), limits(size).pitch_basic, size.diameter)
    )
    in_thread = f"{lead} ÷ (2 x pi) + {effective} ÷ 2 x {friction:g} ÷ cos {form(size).half_angle:g}°"
    return (
        f"{_with_unit(tension, 'force', unit)} x ({in_thread} + {BEARING:g} x {outside} ÷ 2 x {friction:g})"
        + ("" if unit == "inch" else " ÷ 1000")
    )


def _engagement_notes(size: Thread, engaged: float, needed: float, unit: str) -> list[Note]:
    if engaged < needed:
        has, needs = (
            show(engaged, "length", unit, decimals=1),
            show(needed, "length", unit, decimals=1, side="up"),
        )
        return [Note("warning", f"{has} engaged is less than the {needs} at which the screw breaks first")]
    if engaged < 3 * float(size.pitch):
        return [Note("warning", "fewer than three threads are engaged (common practice asks for three)")]
    return []


@dataclass(frozen=True, slots=True)
class _Side:
    """One of the two threads that may shear off."""

    name: str
    area: Area
    tensile: float


def _sides(shear: tuple[Area, Area], screw: ScrewClass, nut: float, nut_name: str) -> tuple[_Side, _Side]:
    return _Side("screw's", shear[0], screw.tensile), _Side(f"nut's ({nut_name})", shear[1], nut)


def _strip(sides: tuple[_Side, _Side], engaged: float, unit: str) -> Figure:
    """The load at which the weaker of the two threads shears off."""
    weaker = min(sides, key=lambda side: side.area.value * side.tensile)
    load = strip_load(shear_area=weaker.area.value, engagement=engaged, tensile=weaker.tensile)
    return Figure(
        "strip_load",
        f"The {weaker.name} thread strips at",
        load,
        "force",
        f"{weaker.area.source}, shear at half the tensile strength; strengths from memory",
        f"{_per_length(weaker.area.value, unit)} x {_with_unit(engaged, 'length', unit)} x {SHEAR_SHARE:g} "
        f"x {_with_unit(weaker.tensile, 'stress', unit)}; the first is the area in shear, "
        f"{write(weaker.area.working, unit)}",
        side="down",
    )


def _needed(area: Area, sides: tuple[_Side, _Side], screw: ScrewClass, unit: str) -> Figure:
    """The engagement at which the screw breaks before the weaker thread strips."""
    weaker = min(sides, key=lambda side: side.area.value * side.tensile)
    needed = engagement_needed(
        stress_area=area.value,
        shear_area=weaker.area.value,
        screw_tensile=screw.tensile,
        tensile=weaker.tensile,
    )
    return Figure(
        "engagement_needed",
        "Engagement to break the screw first",
        needed,
        "length",
        "FED-STD-H28/2B (14) and (16); strengths from memory",
        f"{_with_unit(area.value, 'area', unit)} x {worked(screw.tensile, unit, 'stress')} ÷ "
        f"({_per_length(weaker.area.value, unit)} x {SHEAR_SHARE:g} x {worked(weaker.tensile, unit, 'stress')}); "
        f"below the line the area in shear, {write(weaker.area.working, unit)}",
        decimals=1,
        side="up",
    )


OPERATIONS = {
    "thread-strength": Operation(
        id="thread-strength",
        inputs=ThreadStrengthInputs,
        work=_work,
        hazards=("measuring",),
        example={
            "size": "M10",
            "property_class": "8.8",
            "nut_material": "aluminium 6082",
            "engagement": "15",
        },
        help="What the screw carries, at what load the thread strips, how much to engage, and the torque.",
    )
}
