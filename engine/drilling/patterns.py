"""Holes on a circle: where each lies, rounded each by itself."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, cos, pi, radians, sin

from engine.base.records import dataclass, replace
from engine.base.refusals import check_range
from engine.indexing.dials import DialSetting, slide_setting
from engine.shop.model import Slide

MOST_HOLES = 360
_PER_MM = 10**6  # a place is taken to the nanometre: a cosine has no exact fraction, and short ones are quick


@dataclass(frozen=True, slots=True)
class Place:
    """One hole: its number from 1, its angle in degrees from the x axis, and where it lies, in mm."""

    number: int
    angle: float
    x: float
    y: float


def on_circle(
    *,
    holes: int,
    diameter: float,
    start_angle: float = 0.0,
    centre_x: float = 0.0,
    centre_y: float = 0.0,
    clockwise: bool = False,
) -> tuple[Place, ...]:
    """Centres of holes spaced evenly on a circle.

    holes: How many, 1 to 360.
    diameter: Diameter of the circle, above 0. [mm]
    start_angle: Angle of hole 1, anticlockwise from the x axis. [deg]
    centre_x, centre_y: Centre of the circle from the datum, to the right and away from you. [mm]
    clockwise: Whether the holes are numbered clockwise.
    Returns: Hole 1 first. [mm]
    Raises: OutOfRange if the count or the diameter lies outside its bounds.
    Source: x = R cos a, y = R sin a with the angle of every hole from the exact fraction of the turn.

    12 holes straddling the centre line of an 8 in circle: the first at 4 sin 15 and 4 cos 15 from the centre.

    >>> first = on_circle(holes=12, diameter=8, start_angle=75)[0]
    >>> round(first.x, 4), round(first.y, 4)
    (1.0353, 3.8637)
    """
    check_range("holes", holes, low=1, high=MOST_HOLES)
    check_range("diameter", diameter, low=1e-6, unit="mm")
    way = -1 if clockwise else 1
    places = []
    for index in range(holes):
        angle = (start_angle + way * float(Fraction(360 * index, holes))) % 360
        x = centre_x + diameter / 2 * cos(radians(angle))
        y = centre_y + diameter / 2 * sin(radians(angle))
        places.append(Place(index + 1, angle, _tidy(x), _tidy(y)))
    return tuple(places)


def _tidy(value: float) -> float:
    """Nought for the noise that a cosine of 90 degrees leaves."""
    return 0.0 if abs(value) < 1e-9 else value


def chord(*, holes: int, diameter: float) -> float:
    """Distance from one hole to the next, D sin(180 / n); there are 2 holes or more. [mm]

    >>> round(chord(holes=5, diameter=1), 5)
    0.58779
    """
    check_range("holes", holes, low=2)
    return diameter * sin(pi / holes)


def axis_setting(slide: Slide, distance: float) -> DialSetting:
    """Handwheel setting for a place on one axis, on either side of the dial's zero.

    The dial is come up to in one direction only, so that the reading always counts upwards: below zero the turns are
    negative (go back past them, then come up to the reading).

    25 mm back at 2 mm a turn: 13 turns back, then up to 1.00.

    >>> found = axis_setting(Slide(travel_per_turn=Fraction(2), divisions=100), -25.0)
    >>> found.turns, found.reading
    (-13, 1.0)
    """
    check_range("distance", distance, low=-1e7, high=1e7, unit="mm")
    exact = Fraction(round(distance * _PER_MM), _PER_MM)
    if exact >= 0:
        return slide_setting(slide, exact)
    back = ceil(-exact / slide.travel_per_turn)
    setting = slide_setting(slide, exact + back * slide.travel_per_turn)
    return replace(setting, turns=setting.turns - back)
