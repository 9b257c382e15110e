"""The gap that a retaining compound wants, and what its joint bears."""

from __future__ import annotations

from math import pi

from engine.base.refusals import check_range

GAP_LOW, GAP_HIGH = 0.002 * 25.4, 0.005 * 25.4  # mm on the diameter
GAP_SOURCE = (
    "a bearing maker's guide to adhesive joints: 0.002 to 0.005 in between the parts, taken on the diameter"
)
LEAST_GAP = 0.0004 * 25.4  # mm on the diameter: the same guide's least gap without grooves
STRESS_ALLOWED = 5.0  # MPa: a third of 15 to 25 MPa for steel on steel; from memory, unconfirmed


def shear_stress(*, load: float, diameter: float, length: float) -> float:
    """Return the shear in a round joint.

    Parameters
    ----------
    load : float
        Along the joint. [N]
    diameter : float
        Of the joint, above 0. [mm]
    length : float
        Of the joint, above 0. [mm]

    Returns
    -------
    stress : float
        Load over area. [MPa]

    Raises
    ------
    OutOfRange
        If diameter or length is not above 0.

    Sources
    -------
    Mechanics.

    Examples
    --------
    >>> shear_stress(load=314.159, diameter=10, length=10)
    1.0000
    """
    check_range("diameter", diameter, low=1e-9, unit="mm")
    check_range("length", length, low=1e-9, unit="mm")
    return load / (pi * diameter * length)
