"""How much a threaded joint holds: proof load, stripping, engagement, tightening torque."""

from __future__ import annotations

from functools import cache
from math import pi, sqrt

from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import PI, Sum, cos, deg, factor, leaf, mm, num, root
from engine.base.tables import rows
from engine.threads.form import form
from engine.threads.limits import limits
from engine.threads.stress import nut_shear_area, screw_shear_area, stress_area
from engine.threads.thread import Thread
from engine.threads.told import Area

SHEAR_SHARE = 0.5  # of the tensile strength: what FED-STD-H28/2B (14) takes for the strength of a thread in shear
YIELD_SHARE = 0.9  # of yield that tightening may use (VDI 2230)
BEARING = 1.3  # mean diameter of the friction under head or nut, in diameters (common practice, no source)


@dataclass(frozen=True, slots=True)
class ScrewClass:
    """A property class: tensile strength, proof stress and yield. [MPa]"""

    name: str
    tensile: float
    proof: float
    yield_stress: float
    source: str


@cache
def class_names() -> tuple[str, ...]:
    """The property classes that are known, such as `8.8`."""
    return tuple(row["class"] for row in rows("threads/screw_classes.csv"))


def screw_class(name: str, diameter: float) -> ScrewClass:
    """Return the strengths of a property class.

    name: Such as `8.8`.
    diameter: Nominal diameter: 8.8 is a little stronger over 16 mm. [mm]
    Returns: The class. [MPa]
    Raises: BadInput if there is no such class.
    Source: ISO 898-1:2013 Table 3, ISO 3506-1, SAE J429; from memory.

    >>> screw_class("8.8", 10).proof, screw_class("8.8", 20).proof
    (580.0, 600.0)
    """
    for row in rows("threads/screw_classes.csv"):
        if row["class"] == name:
            large = "large_" if diameter > 16 and row["large_tensile"] else ""
            tensile, proof, yield_stress = (float(row[large + key]) for key in ("tensile", "proof", "yield"))
            return ScrewClass(name, tensile, proof, yield_stress, f"{row['standard']}, from memory")
    raise BadInput("property_class", name, "one of " + ", ".join(class_names()))


def nut_tensile(material: str) -> float:
    """The usual smallest tensile strength in MPa of a nut's material (named as engine.cutting.materials has it): handbook
    values from memory, unconfirmed, engine/data/threads/nut_strength.csv.

    >>> nut_tensile("cast iron")
    200.0
    """
    for row in rows("threads/nut_strength.csv"):
        if row["material"] == material:
            return float(row["tensile"])
    known = ", ".join(row["material"] for row in rows("threads/nut_strength.csv"))
    raise BadInput("nut_material", material, f"one whose strength is known: {known}")


def strip_load(*, shear_area: float, engagement: float, tensile: float) -> Sum:
    """The load in N that shears a thread off: its area in shear [mm² for each mm] x engagement [mm] x half the tensile
    strength [MPa] of the part that is stripped (FED-STD-H28/2B).

    >>> float(strip_load(shear_area=20.0, engagement=8.0, tensile=400.0))
    32000.0
    """
    return (mm(shear_area) * mm(engagement) * SHEAR_SHARE * leaf(tensile, "stress")).as_("force")


def engagement_needed(*, stress_area: float, shear_area: float, screw_tensile: float, tensile: float) -> Sum:
    """The engagement at which the screw breaks before a thread strips.

    stress_area: Stress area of the screw. [mm²]
    shear_area: Area in shear for each mm engaged, of the part that may strip. [mm²/mm]
    screw_tensile: Tensile strength of the screw. [MPa]
    tensile: Tensile strength of the part that may strip. [MPa]
    Returns: Full thread engaged. [mm]
    Source: FED-STD-H28/2B (14) and (16): Le = 2 At / AS for equal materials, times the ratio of strengths for others.

    1/2-13 UNC, equal materials: 0.3643 in (FED-STD-H28/2B).

    >>> length = engagement_needed(stress_area=0.1419, shear_area=0.77894, screw_tensile=1.0, tensile=1.0)
    >>> round(float(length), 4)
    0.3643
    """
    pull = leaf(stress_area, "area") * leaf(screw_tensile, "stress")
    return (pull / (mm(shear_area) * SHEAR_SHARE * leaf(tensile, "stress"))).as_("length")


def preload(thread: Thread, *, yield_stress: float, friction: float) -> Sum:
    """The tension at which pull and twist together reach nine tenths of yield.

    thread: A thread with a stress area.
    yield_stress: Yield of the screw. [MPa]
    friction: Coefficient of friction in the thread. [-]
    Returns: Assembly preload. [N]
    Raises: BadInput for taper pipe threads.
    Source: VDI 2230: FM = 0.9 Rp As / square root of (1 + 3 (1.5 d2/d0 (P/(pi d2) + 1.155 mu))^2).

    M12, 8.8, friction 0.14: 41.9 kN (VDI 2230 Table A1).

    >>> from engine.threads.designation import parse
    >>> round(float(preload(parse("M12"), yield_stress=640, friction=0.14)) / 1000, 1)
    42.0
    """
    area, effective = needed_stress_area(thread).value, mm(limits(thread).pitch_basic)
    core, half = mm(sqrt(4 * area / pi)), deg(form(thread).half_angle)
    climb = mm(float(thread.lead)) / (PI * effective) + num(friction) / cos(half)
    pull = YIELD_SHARE * leaf(yield_stress, "stress") * leaf(area, "area")
    return (pull / root(1 + 3 * (1.5 * effective / core * climb) ** 2)).as_("force")


def tightening_torque(thread: Thread, *, tension: float, friction: float, bearing_diameter: float | None = None) -> Sum:
    """The torque that gives a tension.

    thread: The thread.
    tension: Tension wanted. [N]
    friction: Coefficient of friction in the thread and under the head. [-]
    bearing_diameter: Mean diameter of the friction under head or nut; None: 1.3 times the nominal diameter. [mm]
    Returns: The torque. [N·m]
    Source: VDI 2230: MA = FM (0.16 P + 0.58 d2 mu + (dw + dh)/4 mu), written for any flank angle.

    >>> from engine.threads.designation import parse
    >>> torque = tightening_torque(parse("M10"), tension=28823, friction=0.14, bearing_diameter=13.165)
    >>> round(float(torque), 1)
    54.5
    """
    under_head = BEARING * mm(thread.diameter) if bearing_diameter is None else mm(bearing_diameter)
    effective, rubs = mm(limits(thread).pitch_basic), num(friction)
    in_thread = mm(float(thread.lead)) / (2 * PI) + effective / 2 * rubs / cos(deg(form(thread).half_angle))
    torque: Sum = leaf(tension, "force") * (in_thread + under_head / 2 * rubs) / factor(1000, 1)
    return torque.as_("torque")


def needed_stress_area(thread: Thread) -> Area:
    """The stress area of a thread that is to carry a load; BadInput for taper pipe threads, which seal and do not carry.

    >>> from engine.threads.designation import parse
    >>> round(needed_stress_area(parse("M6")).value, 1)
    20.1
    """
    area = stress_area(thread)
    if area is None:
        text = f"size: {thread} is a taper pipe thread, which seals and is not for carrying a load."
        raise BadInput("size", str(thread), "a parallel thread", text)
    return area


def shear_areas(thread: Thread) -> tuple[Area, Area] | None:
    """The areas in shear of the screw's thread and of the nut's, for each mm engaged; None if the thread has no limits.

    >>> from engine.threads.designation import parse
    >>> [round(area.value, 2) for area in shear_areas(parse("M10"))]
    [15.58, 21.48]
    """
    screw, nut = screw_shear_area(thread), nut_shear_area(thread)
    return (screw, nut) if screw and nut else None
