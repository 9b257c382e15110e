"""Where a wire really touches a helical groove.

Three wires are free to settle between parallel anvils, so each lies square to the line through its two points of
contact. A wire that does so stands exactly as high as a ball of its own diameter lying in the same groove: at the
contact the ball and the wire have the same normal. The height of the ball is found here.

The flank is the helicoid z = S/2 + (r - r2) tan a + L t/(2 pi), with r the radius, t the angle round the axis from
the anvils' direction, S the width of the space at the pitch radius r2, a the flank angle and L the lead. With the
ball's centre at height X over the axis, its distance to the flank is least and equal to its radius where

    X sin t r + z L/(2 pi) = 0,   X cos t = r + z tan a,   (z / cos a)^2 + (X sin t)^2 = (w/2)^2.
"""

from __future__ import annotations

from math import cos, pi, radians, sin, tan

from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.words import plain, say

_STEPS = 40
_CLOSE = 1e-13


@dataclass(frozen=True, slots=True)
class Contact:
    """A wire in its groove: height of its axis over the thread's axis, and radius at which it touches. [mm]"""

    height: float
    radius: float


def contact(*, pitch_diameter: float, space: float, lead: float, half_angle: float, wire: float) -> Contact:
    """Height and contact of a wire in a symmetrical helical groove, exactly.

    pitch_diameter: Pitch diameter of the screw, above 0. [mm]
    space: Width of the groove at the pitch diameter, half the pitch by definition. [mm]
    lead: Lead, 0 or more. [mm]
    half_angle: Angle of each flank, above 0 and below 90. [deg]
    wire: Diameter of the wire, above 0. [mm]
    Returns: Height of the wire's axis and radius of the contact. [mm]
    Raises: BadInput if the wire does not come to rest on the flanks (far too large or too small a wire, too steep a
        lead).
    Source: Derived, see the head of this module; agrees with the large-lead Acme constants of Machinery's Handbook,
        31st edition, p. 2136.

    Acme, two starts, pitch 1 in, lead angle 5 degrees, wire 0.51443 in: 0.64290 in over the pitch diameter.

    >>> r2 = 2 / (2 * pi * tan(radians(5)))
    >>> found = contact(pitch_diameter=2 * r2, space=0.5, lead=2, half_angle=14.5, wire=0.51443)
    >>> 2 * (found.height - r2) + 0.51443
    0.6429
    """
    slope = tan(radians(half_angle))
    climb = lead / (2 * pi)
    r2 = pitch_diameter / 2
    # Start from the contact in a groove without lead.
    r = r2 + (wire / 2 * cos(radians(half_angle)) - space / 2) / slope
    t = 0.0
    for _ in range(_STEPS):
        z = space / 2 + (r - r2) * slope + climb * t
        lift = r + z * slope
        c, s = cos(t), sin(t)
        if r <= 0 or c < 0.2:
            break
        turn = r * s * lift + climb * z * c
        fit = (z * z * (1 + slope * slope) - wire * wire / 4) * c * c + (lift * s) ** 2
        scale = wire * wire
        if abs(turn) < _CLOSE * scale and abs(fit) < _CLOSE * scale:
            return Contact(lift / c, r)
        lift_r, lift_t = 1 + slope * slope, slope * climb
        turn_r = s * lift + r * s * lift_r + climb * slope * c
        turn_t = r * c * lift + r * s * lift_t + climb * climb * c - climb * z * s
        square = z * z * lift_r - wire * wire / 4
        fit_r = 2 * z * slope * lift_r * c * c + 2 * lift * lift_r * s * s
        fit_t = (
            2 * z * climb * lift_r * c * c - 2 * square * c * s + 2 * lift * lift_t * s * s + 2 * lift * lift * s * c
        )
        bottom = turn_r * fit_t - turn_t * fit_r
        if bottom == 0:
            break
        r -= (turn * fit_t - turn_t * fit) / bottom
        t -= (turn_r * fit - turn * fit_r) / bottom
    raise BadInput("wire", say("{wire}", wire=plain(wire)), "a wire that rests on both flanks of this thread")
