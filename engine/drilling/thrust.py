"""What presses a drill back: the lips and the chisel edge."""

from __future__ import annotations

from functools import cache

from engine.base.refusals import check_range
from engine.base.tables import rows
from engine.cutting.forces import drilling_load
from engine.cutting.materials import Material

CHISEL = 0.18  # chisel edge over the diameter of a standard drill
LIPS_OF_PLASTICS = 2.0  # where no factor is known: the chisel edge doubles what the lips ask (a shop text: 40 to 60 %)


@cache
def _factors() -> dict[str, tuple[float, str]]:
    return {row["material"]: (float(row["kd"]), row["mark"]) for row in rows("drilling/drill_kd.csv")}


def chisel_factors(ratio: float) -> tuple[float, float, float]:
    """Factors A (torque), B and J (thrust) of the chisel edge.

    ratio: Chisel edge over diameter, 0.03 (split point) to 0.4. [-]
    Returns: A = (1 - x²) / (1 + x)^0.2 + 3.2 x^1.8; B = (1 - x) / (1 + x)^0.2 + 2.2 x^0.8; J = x². [-]
    Source: Closed forms of an ASME paper of 1957, from memory; they give Table 7 of Machinery's Handbook, 31st ed., p.
        1152, within 1 % save two figures that look like misprints.

    >>> [round(factor, 3) for factor in chisel_factors(0.18)]
    [1.082, 1.351, 0.032]
    """
    x = check_range("chisel edge", ratio, low=0.001, high=0.9)
    shape: float = (1 + x) ** 0.2
    return (1 - x**2) / shape + 3.2 * x**1.8, (1 - x) / shape + 2.2 * x**0.8, x**2


def handbook_thrust(*, kd: float, diameter: float, feed: float, before: float = 0.0) -> float:
    """Thrust of a sharp standard drill, in the full or opening a hole.

    kd: Work material factor, above 0. [-]
    diameter: Diameter of the drill, above 0. [mm]
    feed: Feed a turn, above 0. [mm]
    before: Hole that is there, 0 for none; one no wider than the chisel edge takes that away. [mm]
    Returns: 0.05 Kd f^0.8 d^0.8 B + 0.007 Kd d² J; with a hole of x d: 0.05 Kd f^0.8 d^0.8 (1 - x) / (1 + x)^0.2. [N]
    Source: Machinery's Handbook, 31st ed., pp. 1152-1153, without the factor of wear (a used drill asks for about a
        third more); the form with a pilot from memory. A drill maker's model lies within 30 % of it for steel.

    10 mm, 0.2 mm a turn, steel of 200 BHN: 3370 N; the drill maker's model has 3220.

    >>> round(handbook_thrust(kd=24000, diameter=10, feed=0.2), -1)
    3370.0
    """
    check_range("diameter", diameter, low=1e-6, unit="mm")
    check_range("feed", feed, low=1e-9, unit="mm")
    lips: float = 0.05 * kd * feed**0.8 * diameter**0.8
    if before:
        x = max(before / diameter, CHISEL)
        led: float = lips * (1 - x) / (1 + x) ** 0.2
        return led
    _, b, j = chisel_factors(CHISEL)
    return lips * b + 0.007 * kd * diameter**2 * j


def drill_thrust(*, material: Material, diameter: float, feed: float, half_point: float, before: float = 0.0) -> float:
    """Thrust [N] of a drill in a material: the handbook's where its factor is known, else twice that of the lips."""
    known = _factors().get(material.name)
    if known:
        return handbook_thrust(kd=known[0], diameter=diameter, feed=feed, before=before)
    lips = drilling_load(material=material, diameter=diameter, feed=feed, half_point=half_point).thrust
    return lips * (1 - before / diameter) if before else lips * LIPS_OF_PLASTICS


def factor_of(material: Material) -> tuple[float, str] | None:
    """The factor Kd of a material and how well it is known; None for plastics."""
    return _factors().get(material.name)
