"""What the machines may be out by: as their owner measured them, else as the standards let a new one be."""

from __future__ import annotations

from math import pi

from engine.accuracy.budget import Share
from engine.base.tables import rows
from engine.base.words import say
from engine.shop.model import Measured, Shop

_OWN = "as you measured it"
_ARC = pi / 648_000  # radians to a second of arc
CLOCKED = 0.02  # mm of run-out that is left when work is trued by a clock: common practice, no source
WANDER = 0.05  # mm that a drill starts off its mark after a centre drill: common practice, no source


def _published(name: str) -> tuple[float, float, str]:
    row = next(row for row in rows("accuracy/machines.csv") if row["name"] == name)
    return float(row["limit"]), float(row["over_mm"] or 1), row["source"]


def _own(shop: Shop) -> Measured:
    return shop.measured or Measured()


def leadscrew(length: float, shop: Shop) -> Share:
    """What a leadscrew may be out by over a length: the owner's own error, else what a cut thread may have.

    Valid for one length anywhere along the screw. Below 60 mm the shorter rule counts, which is the severer.

    length: The length, 0 or more. [mm]
    shop: Whose lathe it is.
    Returns: Its error, either way. [mm]
    Source: ISO 1708:1989, P3, from memory: 0.04 mm in 300 mm, 0.015 mm in any 60 mm.

    >>> from engine.shop.model import Shop
    >>> leadscrew(300, Shop()).most, leadscrew(30, Shop()).most
    (0.04, 0.0075)
    """
    own = _own(shop).leadscrew
    if own is not None:
        return Share("leadscrew", abs(own) * length / 1_000_000, _OWN)
    limit, over, source = _published("leadscrew")
    short, over_short, _ = _published("leadscrew short")
    most = short * length / over_short if length < over_short else max(short, limit * length / over)
    return Share("leadscrew, if it is as good as new", most, source)


def head(radius: float, shop: Shop) -> Share:
    """What a dividing head moves a line on a rim of this radius [mm] by.

    One minute of arc at a radius of 18 mm:

    >>> from engine.shop.model import Shop
    >>> head(18.0, Shop()).most
    0.00524
    """
    own = _own(shop).head
    if own is not None:
        return Share("dividing head", own * _ARC * radius, _OWN)
    limit, _, source = _published("head")
    return Share("dividing head, as heads are", limit * _ARC * radius, source)


def half_line(name: str, line: float, times: float = 1.0) -> Share:
    """A dial that is set to its nearest line, and the result moves so many times as far."""
    return Share(say("{dial} dial, half a line", dial=name), line / 2 * times, "geometry")


def dial(name: str, shop: Shop, times: float = 1.0) -> tuple[Share, ...]:
    """The error of a slide's screw as its owner measured it; none is known of one that was not."""
    own = _own(shop).cross_slide
    return (Share(f"{name} screw", own * times, _OWN),) if own is not None else ()


def hollow(diameter: float) -> Share:
    """What a faced end may be hollow by: half of it either way, over a diameter [mm].

    >>> hollow(150).most
    0.00625
    """
    limit, over, source = _published("flatness")
    return Share("face not flat", limit * diameter / over / 2, source)


def cylinder(length: float) -> tuple[Share, Share]:
    """What a turned cylinder may vary by along a length [mm] and round: half of it either way.

    >>> [share.most for share in cylinder(75)]
    [0.005, 0.005]
    """
    limit, over, source = _published("cylinder")
    round_, _, round_source = _published("roundness")
    return (
        Share("taper of the cut", limit * length / over / 2, source),
        Share("out of round", round_ / 2, round_source),
    )
