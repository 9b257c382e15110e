"""How much a measuring force flattens wires and flanks, so that a micrometer reads too little."""

from __future__ import annotations

from functools import lru_cache
from math import pi, radians, sin, sqrt

from engine.base.refusals import check_range

YOUNG = 206_000.0  # MPa, steel on steel: common value, no source
POISSON = 0.29  # steel: common value, no source


def _elliptic(modulus_squared: float) -> tuple[float, float]:
    """Complete elliptic integrals K and E, by the arithmetic-geometric mean."""
    a, b, power, total = 1.0, sqrt(1 - modulus_squared), 1.0, modulus_squared / 2
    while abs(a - b) > 1e-15 * a:
        a, b, c = (a + b) / 2, sqrt(a * b), (a - b) / 2
        total += power * c * c
        power *= 2
    first = pi / (2 * a)
    return first, first * (1 - total)


@lru_cache(maxsize=64)
def _contact_ellipse(wanted: float) -> tuple[float, float, float]:
    """Square of the eccentricity, and K and E, of the contact for a ratio of curvatures above 1."""
    low, high = 1e-12, 1 - 1e-12
    for _ in range(60):
        middle = (low + high) / 2
        k, e = _elliptic(middle)
        ratio = (e / (1 - middle) - k) / (k - e)
        low, high = (middle, high) if ratio < wanted else (low, middle)
    return low, *_elliptic(low)


def approach(*, force: float, small_radius: float, large_radius: float) -> float:
    """How far two steel cylinders crossed square come nearer under a force.

    force: Force between them, 0 or more. [N]
    small_radius, large_radius: Radius of the smaller, above 0, and of the larger. [mm]
    Returns: Approach of their axes. [mm]
    Source: Contact Mechanics, 1985, section 4.2 (from memory, unconfirmed); steel with 206 GPa and 0.29.

    Equal radii are as a ball on a flat: (9 F²/(16 E*² R))^(1/3).

    >>> approach(force=10, small_radius=1, large_radius=1) * 1000
    1.6446
    """
    curvature, other = 1 / (2 * large_radius), 1 / (2 * small_radius)
    stiffness = YOUNG / (2 * (1 - POISSON**2))
    if other - curvature < 1e-9 * other:
        return float((9 * force**2 / (16 * stiffness**2 * small_radius)) ** (1 / 3))
    square, k, e = _contact_ellipse(other / curvature)
    half_length = (3 * force * (k - e) / (2 * pi * stiffness * square * curvature)) ** (1 / 3)
    return float(3 * force * k / (2 * pi * half_length * stiffness)) if force else 0.0


def flattening(*, force: float, wire: float, pitch_diameter: float, half_angle: float) -> float:
    """How much too little a reading over three wires is, for the measuring force.

    The single wire bears the force on two flanks, the pair on four. Flattening at the anvils is left out.

    force: Measuring force, 0 to 100. [N]
    wire, pitch_diameter: Diameter of the wires and pitch diameter, above 0. [mm]
    half_angle: Flank angle, above 0. [deg]
    Returns: To be added to a reading to get the measurement at no force. [mm]
    Source: Contact of crossed cylinders: the wire, and the flank as a cylinder of radius r2/sin a. Derived; no
        published row to compare with.

    >>> flattening(force=10, wire=0.866, pitch_diameter=9.026, half_angle=30) * 1000
    3.81
    """
    check_range("force", force, low=0, high=100, unit="N")
    sine = sin(radians(half_angle))
    radii = sorted((wire / 2, pitch_diameter / 2 / sine))
    single = approach(force=force / (2 * sine), small_radius=radii[0], large_radius=radii[1])
    pair = approach(force=force / (4 * sine), small_radius=radii[0], large_radius=radii[1])
    return (single + pair) / sine
