"""A ball in the end of a part: how deep the hole, where it touches, what can hold it."""

from __future__ import annotations

from math import asin, degrees, radians, sin, sqrt, tan

from engine.base.records import dataclass
from engine.base.refusals import OutOfRange, check_range
from engine.joining.fits import allowance
from engine.joining.retain import GAP_WIDE, LEAST_GAP

STAKE_BELOW = 0.1  # of the ball's diameter that its widest part must lie below the face; common practice
STAKE_GAP = 0.02  # of the ball's diameter: the widest gap that a staked rim closes; common practice, no source
SOLDER_LEAST = 0.05  # mm on the diameter, 0.001 in each side: a copper tube handbook's table; a press fit stays dry
SOLDER_GAP = 0.25  # mm on the diameter: a wider one is not drawn full; from memory, unconfirmed
_HALF_POINT = 59.0  # degrees: half of a drill's 118


def press_range(ball: float) -> tuple[float, float]:
    """Return the interference of a ball pressed into a hole.

    ball: Diameter of the ball. [mm]
    Returns: Least and most interference. [mm]
    Source: Force fit in engine/data/joining/allowances.csv.

    >>> press_range(10)
    (0.01, 0.025)
    """
    found = allowance("force", ball)
    assert found is not None, "the table of allowances has a force fit"
    return found.low, found.high


@dataclass(frozen=True, slots=True)
class Seat:
    """Where a ball sits, in mm and degrees.

    `depth` is from the face to the underside of the ball. `contact_angle` is measured at the ball's centre from the
    axis: 90 where the wall of the hole touches it all round, less where the hole's edge does (None: neither does, it
    rests on the bottom). `rim_depth`: how far that edge
    lies below the face (None: the ball goes into the hole). `point_depth`: full-diameter depth when the bottom is a
    drill's 118 degree point (None where the ball never gets there). `equator_below`: how far the ball's widest part
    lies below the face.
    """

    depth: float
    contact_angle: float | None
    rim_depth: float | None
    point_depth: float | None
    equator_below: float


def seat(*, ball: float, hole: float, stand_out: float) -> Seat:
    """Work out the seat of a ball that is to stand out of a face.

    ball, hole: Diameters of ball and hole, above 0. [mm]
    stand_out: How far the ball stands out, above 0, below its diameter. [mm]
    Returns: Depths and contact. A ball no more than a force fit larger than the hole goes into it; a larger one sits on
        the edge.
    Raises: OutOfRange if the ball would have to stand out further than the edge of the hole lets it sink, or not at
        all.
    Source: Geometry of the sphere.

    >>> seat(ball=6, hole=6, stand_out=2).depth
    4
    >>> on_edge = seat(ball=6, hole=4.8, stand_out=4.8)
    >>> on_edge.contact_angle, on_edge.rim_depth
    (53.13, 0.0)
    """
    check_range("ball", ball, low=1e-6, unit="mm")
    check_range("hole", hole, low=1e-6, unit="mm")
    check_range("stand_out", stand_out, low=1e-9, high=ball * (1 - 1e-9), unit="mm", why="less than the ball")
    radius = ball / 2
    depth, below = ball - stand_out, radius - stand_out
    if ball - hole > press_range(ball)[1] + 1e-9:
        above_edge = radius + sqrt(radius**2 - hole**2 / 4)
        rim = above_edge - stand_out
        if rim < -1e-6:
            raise OutOfRange(
                "stand_out", stand_out, 0, round(above_edge, 4), "mm", "the ball sinks into the hole to its edge"
            )
        return Seat(depth, degrees(asin(hole / ball)), max(rim, 0.0), None, below)
    return Seat(depth, _contact(ball, hole, below), None, _point_depth(radius, hole, below), below)


def _contact(ball: float, hole: float, below: float) -> float | None:
    """Where a ball that goes into its hole touches the wall or, with its middle above the face, the edge."""
    if ball < hole - 1e-9:
        return None
    if below >= -1e-9:
        return 90.0
    touches = (ball**2 - hole**2) / 4 > below**2
    return degrees(asin(hole / ball)) if touches else None


def _point_depth(radius: float, hole: float, below: float) -> float | None:
    """Full-diameter depth of a hole whose conical bottom the ball rests on."""
    half = radians(_HALF_POINT)
    found = below + radius / sin(half) - hole / 2 / tan(half)
    return found if found > 0 else None


@dataclass(frozen=True, slots=True)
class Way:
    """A way to hold a ball: whether it works here, the smallest and largest hole for it [mm], what else it asks for."""

    name: str
    works: bool
    hole_low: float | None
    hole_high: float | None
    asks: str


def ways(*, ball: float, hole: float, found: Seat) -> tuple[Way, ...]:
    """Say which ways of holding a ball work, the surest first.

    ball, hole: Diameters of ball and hole. [mm]
    found: Where it sits.
    Returns: Press, retain, stake, solder; with the hole each asks for.
    Source: Interference: handbook text in the public domain (force fit, 0.001 to 0.0025 of the diameter). Gap: a
        bearing maker's guide to adhesive joints. Staking: common practice, no source. Least gap for solder: a copper
        tube handbook; the most from memory, unconfirmed.

    >>> [way.name for way in ways(ball=6, hole=5.99, found=seat(ball=6, hole=5.99, stand_out=2)) if way.works]
    ['press', 'stake']
    """
    inside = found.rim_depth is None and found.equator_below > 0
    grip = ball - hole
    least, most = press_range(ball)
    press = inside and least - 1e-9 <= grip <= most + 1e-9
    retain = inside and LEAST_GAP - 1e-9 <= -grip <= GAP_WIDE + 1e-9
    deep = found.rim_depth is None and found.equator_below >= STAKE_BELOW * ball - 1e-9
    stake = deep and -grip <= STAKE_GAP * ball + 1e-9
    solder = found.rim_depth is not None or SOLDER_LEAST - 1e-9 <= -grip <= SOLDER_GAP + 1e-9
    below = "the ball's middle a tenth of the ball below the face"
    vent = "a vent for the air, a solder cooler than the ball's temper: see solder"
    return (
        Way("press", press, ball - most, ball - least, "the ball's middle inside the hole"),
        Way("retain", retain, ball + LEAST_GAP, ball + GAP_WIDE, "clean, dry, the ball's middle inside the hole"),
        Way("stake", stake, ball - most, ball * (1 + STAKE_GAP), below),
        Way("solder", solder, ball + SOLDER_LEAST, ball + SOLDER_GAP, vent),
    )
