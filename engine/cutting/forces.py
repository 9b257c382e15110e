"""What a cut asks of the machine: force, torque and power by the power law of cutting force."""

from __future__ import annotations

from math import acos, degrees, pi, radians, sin

from engine.base.records import dataclass
from engine.base.refusals import check_range
from engine.cutting.materials import Material

# Share of the motor's power that reaches the cut on a light belt-driven machine: common practice, no source.
BELT_DRIVE = 0.75
_HALF_POINT = 59.0  # deg: half the point angle of a jobber drill


@dataclass(frozen=True, slots=True)
class DrillLoad:
    """What a drill asks for: torque in N·m, thrust along the spindle in N."""

    torque: float
    thrust: float


@dataclass(frozen=True, slots=True)
class MillLoad:
    """What a milling cut asks for: mean force along the cut and largest force on one tooth in N, power in W."""

    mean_force: float
    tooth_force: float
    power: float


def specific_force(material: Material, thickness: float) -> float:
    """Specific cutting force for a chip of a given thickness.

    material: What is cut.
    thickness: Uncut chip thickness, above 0. [mm]
    Returns: kc = kc1.1 h^-mc. [MPa]
    Source: The power law of cutting force; constants as in engine/data/cutting/materials.csv (tools sharp, rake about 6
        deg).

    St42 at 0.1 mm: 1780 x 0.1^-0.17.

    >>> from engine.cutting.materials import find
    >>> round(specific_force(find("mild steel"), 0.1))
    2633
    """
    check_range("chip thickness", thickness, low=1e-9, unit="mm")
    return float(material.kc11 * thickness**-material.mc)


def turning_force(*, material: Material, depth: float, feed: float, edge_angle: float = 90.0) -> float:
    """Main cutting force of a turning cut; with the blade's width as depth, of parting off.

    material: What is cut.
    depth: Depth of cut on the radius, or width of a parting blade, above 0. [mm]
    feed: Feed a turn, above 0. [mm]
    edge_angle: Angle of the cutting edge to the feed, above 0, up to 90. [deg]
    Returns: Fc = kc ap f with h = f sin(edge angle). [N]
    Source: The power law of cutting force.

    >>> from engine.cutting.materials import find
    >>> round(turning_force(material=find("mild steel"), depth=1, feed=0.1))
    263
    """
    check_range("depth", depth, low=0, unit="mm")
    check_range("edge angle", edge_angle, low=1, high=90, unit="deg")
    return specific_force(material, feed * sin(radians(edge_angle))) * depth * feed


def cutting_power(*, force: float, surface_speed: float) -> float:
    """P = F v / 60: power at the cut in W, of a force along it in N at a surface speed in m/min.

    >>> cutting_power(force=600, surface_speed=30)
    300.0
    """
    return force * surface_speed / 60


def torque_power(*, torque: float, speed: float) -> float:
    """P = 2 pi M n / 60: power in W of a torque in N·m at a spindle speed in rev/min.

    >>> round(torque_power(torque=6.8, speed=400))
    285
    """
    return 2 * pi * torque * speed / 60


def share_of_motor(*, power: float, motor: float, efficiency: float = BELT_DRIVE) -> float:
    """How much of a motor's rated power [W] a cut takes, 1 being the whole motor; `efficiency` is the share of it that
    reaches the cut, above 0, up to 1.

    >>> share_of_motor(power=300, motor=550, efficiency=0.8)
    0.6818181818181818
    """
    check_range("motor", motor, low=1e-6, unit="W")
    check_range("efficiency", efficiency, low=0.01, high=1)
    return power / efficiency / motor


def drilling_load(*, material: Material, diameter: float, feed: float, half_point: float = _HALF_POINT) -> DrillLoad:
    """Torque and thrust of a twist drill in the full.

    material: What is drilled.
    diameter: Diameter of the drill, above 0. [mm]
    feed: Feed a turn, above 0. [mm]
    half_point: Half the point angle. [deg]
    Returns: M = kc f D^2 / 8000 with h = f/2 sin(half point); thrust = 0.5 kc f D/2 sin(half point). [N·m, N]
    Source: The power law of cutting force; the 0.5 of the thrust is from memory, unconfirmed, and the chisel edge asks
        for more where there is no pilot hole.

    10 mm, 0.2 mm a turn in St42: 6.757 N·m.

    >>> from engine.cutting.materials import find
    >>> round(drilling_load(material=find("mild steel"), diameter=10, feed=0.2).torque, 3)
    6.757
    """
    check_range("diameter", diameter, low=1e-6, unit="mm")
    slope = sin(radians(half_point))
    kc = specific_force(material, feed / 2 * slope)
    return DrillLoad(torque=kc * feed * diameter**2 / 8000, thrust=0.5 * kc * feed * diameter / 2 * slope)


def tapping_torque(*, specific: float, diameter: float, pitch: float) -> float:
    """Torque of a cutting tap.

    specific: Specific cutting force, from `specific_force` at about 0.1 mm. [MPa]
    diameter, pitch: Major diameter and pitch of the thread, above 0. [mm]
    Returns: M = kc P^2 D / 8000; a forming tap asks for two to three times as much. [N·m]
    Source: A tap maker's formula; it agrees with another maker's within 0.8 N·m for M8. An estimate.

    >>> tapping_torque(specific=2600, diameter=8, pitch=1.25)
    4.0625
    """
    check_range("diameter", diameter, low=1e-6, unit="mm")
    check_range("pitch", pitch, low=1e-6, unit="mm")
    return specific * pitch**2 * diameter / 8000


def milling_load(
    *, material: Material, cutter: float, width: float, depth: float, feed: float, teeth: int, speed: float
) -> MillLoad:
    """Force and power of a cut with the side or end of a cutter.

    material: What is cut.
    cutter: Diameter of the cutter, above 0. [mm]
    width: Width of cut across the cutter, above 0, up to its diameter (a slot). [mm]
    depth: Depth of cut along the axis. [mm]
    feed: Feed a tooth, above 0. [mm]
    teeth: Teeth of the cutter, 1 or more.
    speed: Spindle speed. [rev/min]
    Returns: Mean force kc Q / v, largest force on one tooth, and power kc Q / 60000. [N, N, W]
    Source: The power law of cutting force at the mean chip thickness hm = (360 / (pi angle)) fz ae / D (common
        practice, no source).

    hm = 0.0127 mm, kc = 1780 x 0.0127^-0.17 = 3738 MPa, removing 240 mm3/min.

    >>> from engine.cutting.materials import find
    >>> load = milling_load(material=find("mild steel"), cutter=6, width=6, depth=1, feed=0.02, teeth=2, speed=1000)
    >>> round(load.mean_force, 1), round(load.power, 1)
    (47.6, 15.0)
    """
    check_range("width", width, low=1e-6, high=cutter * (1 + 1e-9), unit="mm")
    check_range("teeth", teeth, low=1)
    engaged = degrees(acos(max(-1.0, 1 - 2 * width / cutter)))
    mean_thickness = 360 / (pi * engaged) * feed * width / cutter
    kc = specific_force(material, mean_thickness)
    removal = width * depth * feed * teeth * speed
    power = kc * removal / 60_000
    surface_speed = pi * cutter * speed / 1000
    largest = feed if width >= cutter / 2 else feed * sin(radians(engaged))
    return MillLoad(
        mean_force=power * 60 / surface_speed,
        tooth_force=specific_force(material, largest) * depth * largest,
        power=power,
    )
