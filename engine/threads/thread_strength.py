"""`thread-strength`: what a threaded joint holds."""

from __future__ import annotations

from engine.base.answer import Answer, Figure, Note, figure
from engine.base.declare import choice, length, material, number, thread
from engine.base.operation import Operation, tells
from engine.base.records import dataclass
from engine.base.rounding import short
from engine.base.sums import Sum, leaf
from engine.base.words import Text, say, shown
from engine.cutting.materials import Material
from engine.shop.model import Shop
from engine.situation import Situation
from engine.threads.section_pictures import engaged_picture
from engine.threads.strength import (
    BEARING,
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
from engine.threads.thread import Thread
from engine.threads.told import Area

_FULL_NUT = 0.8  # diameters: ISO 898-2 takes a nut of this height as of full strength
_FULL_NUT_SAID = "a full nut, 0.8 diameters"
_STRIP_SHARE = 0.75  # of the stripping load that tightening may use (common practice, no source)
_FEWEST = 3  # threads that are engaged at the least (common practice, no source)
_NEEDED = "FED-STD-H28/2B (14) and (16); strengths from memory"
_CLASSES = (
    *("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9"),
    *("A2-50", "A2-70", "A2-80", "SAE 2", "SAE 5", "SAE 8"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadStrengthInputs:
    """What `thread-strength` is told.

    size: Any parallel thread, as it is written.
    property_class: Marked on the head. A screw turned from mild steel bar is about 4.6.
    nut_material: What the thread is tapped in: mild steel, cast iron, brass, aluminium 6082.
    engagement: Full thread engaged, without the chamfers.
    friction: 0.14 as delivered and lightly oiled, 0.10 greased, 0.2 dry (VDI 2230; common practice).
    """

    size: Thread = thread("Thread", example="M10")
    property_class: str = choice("Class of the screw", _CLASSES, default="8.8", example="8.8")
    nut_material: Material = material("Material of the nut", example="mild steel", empty="mild steel")
    engagement: float = length("Length of engagement", low=0.1, high=1000, example="8", empty=_FULL_NUT_SAID)
    friction: float = number("Friction", low=0.04, high=0.5, default=0.14, example="0.14")


@dataclass(frozen=True, slots=True)
class _Side:
    """The weaker of the two threads that may shear off."""

    label: str
    metal: str
    area: Area
    tensile: float


def _weaker(size: Thread, screw: ScrewClass, nut_name: str) -> _Side | None:
    """The thread that strips first; None if the size has no limits to work it from."""
    shear = shear_areas(size)
    if shear is None:
        return None
    sides = (
        _Side("Screw thread strips at", f"the screw, {screw.name}", shear[0], screw.tensile),
        _Side("Nut thread strips at", f"the nut, {nut_name}", shear[1], nut_tensile(nut_name)),
    )
    return min(sides, key=lambda side: side.area.value * side.tensile)


def _work(inputs: ThreadStrengthInputs, shop: Shop) -> Answer:
    size, area = inputs.size, needed_stress_area(inputs.size)
    screw = screw_class(inputs.property_class, size.diameter)
    nut_name = inputs.nut_material.name if inputs.nut_material else "mild steel"
    nut_tensile(nut_name)  # refuses a metal whose strength is not known
    engaged, at = inputs.engagement or _FULL_NUT * size.diameter, leaf(area.value, "area")
    proof = (leaf(screw.proof, "stress") * at).as_("force")
    of_proof = f"stress area x proof stress: {screw.source}"
    found = [figure("proof_load", f"Proof load, {screw.name}", proof, of_proof, side="down")]
    notes: list[Note] = []
    tension = preload(size, yield_stress=screw.yield_stress, friction=inputs.friction)
    why: Text = say("{sums}; yield of pull with twist, over the diameter of the stress area", sums=tension)
    weaker, wants = _weaker(size, screw, nut_name), None
    if weaker is None:
        notes.append(Note("info", f"{size} has no published limits: stripping cannot be worked out"))
    else:
        strips, needed = _strip(weaker, engaged), _needed(weaker, area, screw)
        found += [strips, needed]
        most: Sum = _STRIP_SHARE * leaf(float(strips.value or 0.0), "force")
        if float(tension) > float(most):
            tension, why = most, say("{sums}, of the stripping load", sums=most)
            cut_down = "the torque is cut down: the screw's own limit comes too near to stripping"
            notes.append(Note("warning", cut_down))
        wants = float(needed.value or 0.0)
        notes += _engagement_notes(size, engaged, wants)
    torque = tightening_torque(size, tension=float(tension), friction=inputs.friction)
    under_head = f"VDI 2230, friction diameter under the head {short(BEARING)} d"
    of_tensile = f"stress area x tensile strength: {screw.source}"
    breaks = (leaf(screw.tensile, "stress") * at).as_("force")
    found += [
        figure("tightening_torque", "Tightening torque", torque, under_head, side="down"),
        figure("preload", "Preload at the torque", tension, "VDI 2230", why, side="down"),
        figure("breaking_load", "Screw breaks at", breaks, of_tensile, side="down"),
        Figure("stress_area", "Stress area", area.value, "area", area.source, area.working),
    ]
    scatters = "calculated for new, clean, well-made threads and steady load; torque scatters by a quarter"
    notes.append(Note("info", scatters))
    drawn = engaged_picture(thread=size, engaged=engaged, needed=wants)
    return Answer(figures=tuple(found), pictures=(drawn,), notes=tuple(notes), moments=(Situation(thread=size),))


def _strip(weaker: _Side, engaged: float) -> Figure:
    """The load at which the weaker of the two threads shears off."""
    load = strip_load(shear_area=weaker.area.value, engagement=engaged, tensile=weaker.tensile)
    source = f"{weaker.area.source}, shear at half the tensile strength; strengths from memory"
    text = "{sums}; the thread of {metal}; the first is the area in shear along the thread, {area}"
    working = say(text, sums=load, metal=weaker.metal, area=weaker.area.working)
    return figure("strip_load", weaker.label, load, source, working, side="down")


def _needed(weaker: _Side, area: Area, screw: ScrewClass) -> Figure:
    """The engagement at which the screw breaks before the weaker thread strips."""
    at, sheared, own, other = area.value, weaker.area.value, screw.tensile, weaker.tensile
    needed = engagement_needed(stress_area=at, shear_area=sheared, screw_tensile=own, tensile=other)
    text = "{sums}; below the line the area in shear, {area}; with more the screw breaks first"
    working = say(text, sums=needed, area=weaker.area.working)
    return figure("engagement_needed", "Engagement needed", needed, _NEEDED, working, decimals=1, side="up")


def _engagement_notes(size: Thread, engaged: float, needed: float) -> list[Note]:
    if engaged < needed:
        text = "{has} engaged is less than the {needs} at which the screw breaks first"
        has, needs = shown(engaged, decimals=1), shown(needed, decimals=1, side="up")
        return [Note("warning", say(text, has=has, needs=needs))]
    if engaged < _FEWEST * float(size.pitch):
        return [Note("warning", "fewer than three threads are engaged (common practice asks for three)")]
    return []


OPERATION = Operation(
    id="thread-strength",
    pane="threads",
    place=70,
    title="Strength of a thread",
    words="load torque strip engagement proof strength tighten tightening preload tension bolt screw nut tapped hole "
    "tapping length class 8.8 shear break torque wrench spanner",
    inputs=ThreadStrengthInputs,
    work=_work,
    hazards=(),
    example={"size": "M10", "property_class": "8.8", "nut_material": "aluminium 6082", "engagement": "15"},
    troubles={"TH-06": tells("needs {engagement_needed} of thread", decimals=1, side="up")},
    help="What the screw carries, at what load the thread strips, how much to engage, and the torque.",
)
