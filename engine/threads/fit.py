"""Whether a screw goes into its nut: clearance, what errors of lead and flank eat of it, and where it binds."""

from __future__ import annotations

from math import radians
from typing import Literal

from engine.base.records import dataclass
from engine.base.refusals import check_range
from engine.base.sums import Sum, deg, mm, num, sin, tan

BINDS = "clearance x tan a ÷ error of lead: a metrology course, whose worked example agrees"
State = Literal["fits", "binds", "will not start"]


def lead_effect(*, length: float, lead_error_ppm: float, half_angle: float) -> float:
    """How much thicker a screw seems for its error of lead over the length in the nut.

    length: Length engaged, 0 or more. [mm]
    lead_error_ppm: Error of the lead of one against the other, either way. [ppm]
    half_angle: Flank angle, above 0. [deg]
    Returns: Growth of the functional pitch diameter, never negative. [mm]
    Source: dE = cot a times the accumulated error of pitch: a metrology course, and a worked example of a textbook on
        fits (0.09 mm gives 0.155 mm at 60 degrees).

    >>> lead_effect(length=15, lead_error_ppm=500, half_angle=30)
    0.0130
    """
    return float(abs(length * lead_error_ppm * 1e-6) / tan(half_angle))


def until_it_binds(*, room: float, half_angle: float, lead_error_ppm: float, lead: float) -> tuple[Sum, Sum]:
    """The length, and the turns, after which an error of lead has eaten the room on the pitch diameter.

    room: Clearance on the pitch diameter, 0 or more. [mm]
    half_angle: Flank angle, above 0. [deg]
    lead_error_ppm: Error of the lead of one against the other, not 0. [ppm]
    lead: Lead, above 0. [mm]
    Returns: With their workings. [mm], [-]
    Source: See `lead_effect`.

    >>> [float(found) for found in until_it_binds(room=0.032, half_angle=30, lead_error_ppm=1000, lead=1.5)]
    [18.475, 12.317]
    """
    share = num(abs(lead_error_ppm)) / num(1_000_000)
    length = mm(room) * tan(deg(half_angle)) / share
    return length, length / mm(lead)


def flank_effect(*, flank_error: float, half_angle: float, height_at_crest: float, height_at_root: float) -> float:
    """How much thicker a screw seems for one flank whose angle is out.

    A flank angle that is too small touches at the screw's own crest, one too large at the nut's crest.

    flank_error: Error of the flank angle of the screw, minus when it is too small. [deg]
    half_angle: Flank angle, above 0. [deg]
    height_at_crest, height_at_root: From the pitch line to the crest of the screw, and to that of the nut. [mm]
    Returns: Growth of the functional pitch diameter for this flank alone, never negative. [mm]
    Source: dE = h da/sin 2a, h twice the height of the contact: a metrology course; for 60 degrees 0.0131 P and 0.0087
        P a degree (a textbook form, from memory, unconfirmed).

    M10x1.5: one flank 20 minutes too large, the other 30 too small, together 0.0142 mm.

    >>> h = 0.866025 * 1.5
    >>> large = flank_effect(flank_error=1/3, half_angle=30, height_at_crest=3*h/8, height_at_root=h/4)
    >>> small = flank_effect(flank_error=-0.5, half_angle=30, height_at_crest=3*h/8, height_at_root=h/4)
    >>> large + small
    0.0142
    """
    height = height_at_crest if flank_error < 0 else height_at_root
    return float(2 * height * abs(radians(flank_error)) / sin(2 * half_angle))


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """A screw in its nut. Lengths in mm.

    `turns_to_bind` is None when the errors never eat the clearance; `to_bind` is the same as a length.
    """

    clearance: float
    axial_play: float
    functional_screw: float
    functional_nut: float
    turns_to_bind: float | None
    to_bind: float | None
    state: State


def fit(
    screw: float, nut: float, lead: float, *, half_angle: float, engagement: float, lead_error_ppm: float = 0.0,
    flanks: float = 0.0,
) -> Fit:  # fmt: skip
    """How a screw of one pitch diameter fits a nut of another.

    screw, nut, lead: Pitch diameters and lead, above 0. [mm]
    half_angle: Flank angle, above 0. [deg]
    engagement: Length engaged, above 0. [mm]
    lead_error_ppm: Error of lead of the screw against the nut. [ppm]
    flanks: Growth of the screw for its flank angles, see `flank_effect`. [mm]
    Returns: Clearance, axial play, functional sizes, and where it binds.
    Source: See `lead_effect` and `flank_effect`; axial play is the clearance times tan a (geometry).

    M10 with the least clearance of 6H/6g, 0.032 mm, and a lead 0.1 % out binds after 18.5 mm.

    >>> found = fit(screw=8.994, nut=9.026, lead=1.5, half_angle=30, engagement=10, lead_error_ppm=1000)
    >>> found.state, found.axial_play, found.to_bind
    ('fits', 0.0185, 18.475)
    """
    check_range("engagement", engagement, low=1e-6, unit="mm")
    clearance = nut - screw
    room = clearance - flanks
    grown = lead_effect(length=engagement, lead_error_ppm=lead_error_ppm, half_angle=half_angle)
    per_length = grown / engagement
    to_bind = None if not per_length else max(0.0, room) / per_length
    state: State = "will not start" if room <= 0 else "fits"
    if room > 0 and to_bind is not None and to_bind < engagement:
        state = "binds"
    return Fit(
        clearance=clearance, axial_play=max(0.0, clearance) * tan(half_angle),
        functional_screw=screw + grown + flanks, functional_nut=nut,
        turns_to_bind=None if to_bind is None else to_bind / lead, to_bind=to_bind, state=state,
    )  # fmt: skip
