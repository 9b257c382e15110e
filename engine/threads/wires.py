"""The measurement over three wires, and the pitch diameter that a reading tells of."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import atan, cos, degrees, pi, radians, sin, sqrt, tan

from engine.accuracy.budget import KNOWN, Share, micrometer, warmth
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.words import say, shown
from engine.threads.contact import Contact, contact
from engine.threads.thread import Thread
from engine.threads.told import Form
from engine.threads.wire_force import flattening

STEEP = 7.0  # deg of lead angle: from here the published wire ranges no longer hold, and are solved with the helix
_WIRE = 0.002  # mm that the wires of a set may be out, all alike: common practice, no source
_FEEL = 0.006  # mm that two people's readings over wires differ by: common practice, no source
_USUAL_FORCE = 10.0  # N, the most a micrometer presses with: DIN 863-1
_WARM = 10.0  # °C that work in the hand is warmer than the gauge: common practice, no source
STEEPEST = 45.0  # deg of lead angle: beyond it a thread is a worm, not measured with three wires


@dataclass(frozen=True, slots=True, kw_only=True)
class Groove:
    """What three wires rest in. `pitch_basic` is the basic pitch diameter; it decides how the wires are chosen.

    Lengths in mm; `half_angle` in degrees; `taper` on the diameter.
    """

    half_angle: float
    pitch: float
    lead: float
    pitch_basic: float
    taper: float = 0.0

    @property
    def lead_angle(self) -> float:
        """Lead angle at the basic pitch diameter. [deg]"""
        return degrees(atan(self.lead / (pi * self.pitch_basic)))

    @property
    def steep(self) -> bool:
        """Whether best, smallest and largest wire are solved with the helix."""
        return self.lead_angle > STEEP and not self.taper

    @property
    def slant(self) -> float:
        """Secant of half the taper's angle: 1 for a straight thread."""
        return sqrt(1 + (self.taper / 2) ** 2)


def groove_of(size: Thread, shape: Form, basic: float) -> Groove:
    """The groove of a thread, by its form and its basic pitch diameter."""
    pitch, lead, taper = float(size.pitch), float(size.lead), float(size.taper)
    return Groove(half_angle=shape.half_angle, pitch=pitch, lead=lead, pitch_basic=basic, taper=taper)


@dataclass(frozen=True, slots=True, kw_only=True)
class WireRange:
    """Best wire (touches at the pitch diameter), smallest and largest that will serve. [mm]"""

    best: float
    smallest: float
    largest: float


def _flank(groove: Groove) -> tuple[float, float, float]:
    """Cosecant, cotangent and cosine of the flank angle."""
    a = radians(groove.half_angle)
    return 1 / sin(a), 1 / tan(a), cos(a)


def without_lead(groove: Groove, *, pitch_diameter: float, wire: float) -> float:
    """Measurement over wires as if the groove ran straight round.

    groove: The thread's form.
    pitch_diameter, wire: Pitch diameter and diameter of the wires, above 0. [mm]
    Returns: Measurement over the three wires. [mm]
    Source: Machinery's Handbook, 31st edition, pp. 2130-2135; taper: the pipe thread formula E = 1.00049 M - 3.00049 w
        + 0.86603 p of a gauge maker's catalogue, with the secant written out.

    >>> groove = Groove(half_angle=30, pitch=1.5, lead=1.5, pitch_basic=9.026)
    >>> without_lead(groove, pitch_diameter=8.994, wire=0.895)
    10.38
    """
    cosec, cot, _ = _flank(groove)
    return (pitch_diameter - groove.pitch / 2 * cot + wire * (cosec + groove.slant)) / groove.slant


def lead_term(groove: Groove, *, pitch_diameter: float, wire: float) -> float:
    """The published lead term: half the wire times tan² of the lead angle times cos a cot a.

    It errs on the large side: by 0.1 µm on M10, 1 µm on Tr12x3, 5 µm on Tr40x14(P7). It serves taper threads, whose
    leads are small and for which no exact contact is derived here.

    groove: The thread's form.
    pitch_diameter, wire: Pitch diameter and diameter of the wires, above 0. [mm]
    Returns: To be added to the measurement without lead. [mm]
    Source: Machinery's Handbook, 31st edition, pp. 2130-2136.

    5 in Acme, pitch 1/2 in, two starts, wire 0.258 in: the term is 0.0022 in (5.0561 less 5.0540).

    >>> groove = Groove(half_angle=14.5, pitch=0.5, lead=1.0, pitch_basic=4.75)
    >>> lead_term(groove, pitch_diameter=4.75, wire=0.258)
    0.0022
    """
    _, cot, cosine = _flank(groove)
    climb = groove.lead / (pi * pitch_diameter)
    return 0.5 * wire * climb**2 * cosine * cot


def lead_correction(groove: Groove, *, pitch_diameter: float, wire: float) -> float:
    """What the lead adds to the measurement over wires: the exact contact less the measurement without lead.

    groove: The thread's form.
    pitch_diameter, wire: Pitch diameter and diameter of the wires, above 0. [mm]
    Returns: To be added to the measurement without lead; a taper thread's is the published term. [mm]
    Raises: BadInput if the wire does not come to rest on the flanks.
    Source: engine.threads.contact, derived; it agrees with the handbook's term on fine threads (see `lead_term`).

    >>> groove = Groove(half_angle=14.5, pitch=0.5, lead=1.0, pitch_basic=4.75)
    >>> lead_correction(groove, pitch_diameter=4.75, wire=0.258)
    0.0022
    """
    if groove.taper:
        return lead_term(groove, pitch_diameter=pitch_diameter, wire=wire)
    exact = 2 * _rests(groove, pitch_diameter, wire).height + wire
    return exact - without_lead(groove, pitch_diameter=pitch_diameter, wire=wire)


def _rests(groove: Groove, pitch_diameter: float, wire: float) -> Contact:
    space, lead, half_angle = groove.pitch / 2, groove.lead, groove.half_angle
    return contact(pitch_diameter=pitch_diameter, space=space, lead=lead, half_angle=half_angle, wire=wire)


def over_wires(groove: Groove, *, pitch_diameter: float, wire: float) -> float:
    """Measurement over three wires, the lead counted.

    groove: The thread's form.
    pitch_diameter, wire: Pitch diameter and diameter of the wires, above 0. [mm]
    Returns: Measurement at no measuring force. [mm]
    Raises: BadInput if the wire does not come to rest on the flanks.
    Source: See `without_lead` and `lead_correction`.

    Machinery's Handbook, 31st edition, p. 2135: 5.056 in for a thread 0.2454 in thick at 4.75 in, whose space of
    0.2546 in is half the pitch at a pitch diameter less by 0.0046 cot a.

    >>> groove = Groove(half_angle=14.5, pitch=0.5, lead=1.0, pitch_basic=4.75)
    >>> over_wires(groove, pitch_diameter=4.75 - 0.0046 / tan(radians(14.5)), wire=0.258)
    5.056
    """
    lead = lead_correction(groove, pitch_diameter=pitch_diameter, wire=wire)
    return without_lead(groove, pitch_diameter=pitch_diameter, wire=wire) + lead


def pitch_diameter(groove: Groove, *, over: float, wire: float) -> float:
    """Pitch diameter that a measurement over wires tells of: the inverse of `over_wires`, by repetition, in mm. BadInput if
    no thread near this one measures so.

    >>> groove = Groove(half_angle=30, pitch=1.5, lead=1.5, pitch_basic=9.026)
    >>> pitch_diameter(groove, over=10.38, wire=0.895)
    8.993
    """
    found = groove.pitch_basic
    for _ in range(60):
        short = (over - over_wires(groove, pitch_diameter=found, wire=wire)) * groove.slant
        found += short
        if not groove.pitch_basic / 4 < found < 4 * groove.pitch_basic:
            break
        if abs(short) < 1e-12:
            return found
    low = without_lead(groove, pitch_diameter=groove.pitch_basic / 2, wire=wire)
    high = without_lead(groove, pitch_diameter=groove.pitch_basic * 2, wire=wire)
    text, least, most = (
        "a measurement over these wires, {low} to {high}",
        shown(low, decimals=2),
        shown(high, decimals=2),
    )
    raise BadInput("reading", say("{over}", over=shown(over)), say(text, low=least, high=most))


def wire_range(groove: Groove, *, major: float, crest_radius: float = 0.0) -> WireRange:
    """Best wire, and the smallest and largest that will serve.

    The smallest lies level with the crest, the largest touches the flank where the crest's flat (or rounding) begins.

    groove: The thread's form.
    major: Basic major diameter, above the pitch diameter. [mm]
    crest_radius: Radius of a rounded crest, 0 for a flat one. [mm]
    Returns: The three diameters. [mm]
    Raises: BadInput if the thread's lead angle is above 45 degrees.
    Source: Definitions after the published ranges for 60, 55 and 29 degrees (a gauge maker's catalogue; Machinery's
        Handbook, 31st edition, p. 2135); above 7 degrees of lead angle solved with the exact contact.

    >>> groove = Groove(half_angle=30, pitch=1.0, lead=1.0, pitch_basic=9.350481)
    >>> found = wire_range(groove, major=10.0)
    >>> found.best, found.smallest, found.largest
    (0.57735, 0.50518, 1.01036)
    """
    if groove.lead_angle > STEEPEST:
        steepest = say("a lead angle up to {most}", most=shown(STEEPEST, "angle", decimals=0))
        given = say("lead angle {angle}", angle=shown(groove.lead_angle, "angle", decimals=0))
        raise BadInput("size", given, steepest)
    cosec, cot, cosine = _flank(groove)
    sharp = groove.pitch / 2 * cot  # from the pitch diameter down to the sharp root of the groove, twice
    crest = major - 2 * crest_radius * (1 - 1 / cosec)  # diameter at which the straight flank ends
    best = groove.pitch / (2 * cosine)
    smallest = (major - groove.pitch_basic + sharp) / (1 + cosec)
    largest = (crest - groove.pitch_basic + sharp) / (cosine * cot)
    if not groove.steep:
        return WireRange(best=best, smallest=smallest, largest=largest)

    def touches_at(wire: float) -> float:
        return 2 * _rests(groove, groove.pitch_basic, wire).radius

    def stands_at(wire: float) -> float:
        return over_wires(groove, pitch_diameter=groove.pitch_basic, wire=wire)

    best, smallest = _solve(touches_at, groove.pitch_basic, best), _solve(stands_at, major, smallest)
    return WireRange(best=best, smallest=smallest, largest=_solve(touches_at, crest, largest))


def _solve(rising: Callable[[float], float], wanted: float, start: float) -> float:
    """The wire at which a rising function has the wanted value, by halving between 0.3 and 1.2 of the start."""
    low, high = 0.3 * start, 1.2 * start
    for _ in range(45):
        middle = (low + high) / 2
        low, high = (middle, high) if rising(middle) < wanted else (low, middle)
    return (low + high) / 2


def owned_wire(owned: Sequence[float], wires: WireRange) -> float | None:
    """The owned wire nearest the best one, or None if none will serve: the nearer, the less a flank's error counts.

    >>> owned_wire((0.53, 0.895, 1.1), WireRange(best=0.866, smallest=0.758, largest=1.516))
    0.895
    """
    serving = [wire for wire in owned if wires.smallest <= wire <= wires.largest]
    return min(serving, key=lambda wire: abs(wire - wires.best), default=None)


def flattened(groove: Groove, *, wire: float, force: float) -> float:
    """What a measuring force [N] takes off a reading. [mm]"""
    basic, half_angle = groove.pitch_basic, groove.half_angle
    return flattening(force=force, wire=wire, pitch_diameter=basic, half_angle=half_angle)


def reading_shares(groove: Groove, *, wire: float, reading: float, counted: bool) -> list[Share]:
    """What may be wrong with a pitch diameter that is read over three wires.

    groove: The thread's form.
    wire: Diameter of the wires, above 0. [mm]
    reading: What the micrometer shows. [mm]
    counted: Whether the measuring force is known and taken off.
    Returns: Each cause's part in the pitch diameter. [mm]
    Source: DIN 863-1 for the micrometer; dE/dw = 1 + 1/sin a (geometry): 3 for 60 degrees; the rest common practice, no
        source.

    >>> groove = Groove(half_angle=30, pitch=1.5, lead=1.5, pitch_basic=9.026)
    >>> [share.most for share in reading_shares(groove, wire=0.866, reading=10.3, counted=True)]
    [0.004, 0.006, 0.006, 0.0012]
    """
    cosec, _, _ = _flank(groove)
    each, alike = say("wires, {each} each and all alike", each=shown(_WIRE)), "common practice, times 1 + 1/sin a"
    found = [
        *(micrometer(reading), Share(each, _WIRE * (1 + cosec), alike, KNOWN)),
        *(Share("feel, wires not quite square", _FEEL, "common practice", KNOWN), warmth(reading, _WARM)),
    ]
    if not counted:
        most = flattened(groove, wire=wire, force=_USUAL_FORCE)
        force = shown(_USUAL_FORCE, "force")
        found.append(Share(say("force up to {force}, not counted", force=force), most, "contact of crossed cylinders"))
    return found
