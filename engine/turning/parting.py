"""Parting off: how far the blade has to reach, and how slender a groove it makes."""

from __future__ import annotations

from engine.base.refusals import check_range

PAST_CENTRE = 0.5  # mm beyond the centre, or into the bore, so that nothing is left: common practice
SLENDER_LIGHT = 6.0  # depth over width of the groove on a light lathe: common practice, 5 to 6
SLENDER_STEEL = 8.0  # depth over width in steel: a blade maker's table


def reach_needed(*, diameter: float, bore: float) -> float:
    """Return how deep a blade has to cut.

    Parameters
    ----------
    diameter : float
        Of the bar, above 0. [mm]
    bore : float
        Hole through it, 0 or more, below the diameter. [mm]

    Returns
    -------
    reach : float
        The wall, and half a millimetre past it. [mm]

    Raises
    ------
    OutOfRange
        If a number lies outside its range.

    Sources
    -------
    Geometry; the half millimetre is common practice, no source.

    Examples
    --------
    >>> reach_needed(diameter=20, bore=0), reach_needed(diameter=20, bore=10)
    (10.5, 5.5)
    """
    check_range("diameter", diameter, low=1e-6, unit="mm")
    check_range("bore", bore, low=0, high=diameter * (1 - 1e-9), unit="mm")
    return (diameter - bore) / 2 + PAST_CENTRE
