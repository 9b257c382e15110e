"""Cutting a thread with a single-point tool: the slide's travel, its dial, and the time to the shoulder."""

from __future__ import annotations

from fractions import Fraction
from itertools import accumulate, pairwise
from math import ceil, cos, floor, radians, tan

from engine.base.records import dataclass
from engine.base.refusals import BadInput, check_range
from engine.base.sums import PI, Sum, arctan, leaf, mm
from engine.base.words import plain, say, shown


@dataclass(frozen=True, slots=True, kw_only=True)
class SlideTravel:
    """What a slide moves to take a depth, and what goes sideways with it. [mm]

    `sideways`: how far the tool goes along the work, towards the chuck. `shave`: what the following flank loses
    along the work because the slide stands steeper than the flank.
    """

    travel: float
    sideways: float
    shave: float


_LESS = 0.5  # deg that a top slide is kept below the flank angle, so that the following flank is cleaned


def slide_angle(kept: float, half_angle: float) -> float:
    """The angle of a top slide for a flank: as it is kept if that suits, else half a degree below the flank.

    >>> slide_angle(29.5, 30), slide_angle(29.5, 27.5), slide_angle(29.5, 14.5)
    (29.5, 27.0, 14.0)
    """
    return kept if half_angle - 1.5 <= kept <= half_angle else max(int(2 * (half_angle - _LESS)) / 2, 0.0)


def slide_travel(*, depth: float, slide_angle: float, half_angle: float) -> SlideTravel:
    """What a slide set at an angle moves for a radial depth.

    depth: Radial depth, 0 or more. [mm]
    slide_angle: Angle of the slide from the cross slide's line, 0 (plain infeed) to the flank angle. [deg]
    half_angle: Flank angle. [deg]
    Returns: Travel, sideways shift, and what the following flank is shaved. [mm]
    Source: Travel = depth/cos g: geometry; 30 degrees in Turning and Boring, 1914, p. 143; 29 1/2 in the US Navy's
        Machinery Repairman, NAVEDTRA 14345.

    >>> slide_travel(depth=0.61343, slide_angle=29.5, half_angle=30)
    SlideTravel(travel=0.7048, sideways=0.34706, shave=0.00710)
    """
    why = "beyond half the thread's angle the following flank is left in steps"
    check_range("slide_angle", slide_angle, low=0, high=half_angle, unit="deg", why=why)
    g, shaved = radians(slide_angle), tan(radians(half_angle)) - tan(radians(slide_angle))
    return SlideTravel(travel=depth / cos(g), sideways=depth * tan(g), shave=depth * shaved)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass:
    """One pass. `depth` is radial from the blank, `cut` this pass's share of it, `lines` the dial's lines from zero
    at the touch. A spring pass has no cut of its own. Lengths in mm.
    """

    cut: float
    depth: float
    lines: int


def passes_on_dial(
    *, depths: tuple[float, ...], first_cut: float, last_cut: float, line: Fraction, slide_angle: float,
    spring_passes: int,
) -> tuple[Pass, ...]:  # fmt: skip
    """The passes in whole lines of the slide's dial, never past the depth: none above the largest cut, the last the
    lightest.

    Where a line is coarse, passes run together so that none takes less than the smallest cut.

    depths: Depth wanted after each pass, rising. [mm]
    first_cut, last_cut: Largest and smallest radial cut. [mm]
    line: Travel of the slide for one line of its dial, above 0. [mm]
    slide_angle: Angle of the slide from the cross slide's line, below 90. [deg]
    spring_passes: Passes repeated at the last setting.
    Returns: In the order they are taken; depths are those that the dial reaches.
    Raises: BadInput if one line of the dial takes more than the largest cut, or more than the whole depth.
    Source: Settings counted in whole lines from one zero: common practice, no source.

    >>> found = passes_on_dial(depths=(0.150, 0.237, 0.3), first_cut=0.15, last_cut=0.05, line=Fraction(1, 40),
    ...                        slide_angle=0, spring_passes=1)
    >>> [p.lines for p in found]
    [6, 9, 12, 12]
    """
    deep = float(line) * cos(radians(slide_angle))  # radial depth of one line
    most, whole = floor(first_cut / deep + 1e-9), floor(depths[-1] / deep + 1e-9)
    if most < 1:
        least = say("at least one line of the dial, {deep} of depth", deep=shown(deep, decimals=4))
        raise BadInput("first_cut", say("{cut}", cut=plain(first_cut)), least)
    if whole < 1:
        finer = say("one whose line is no more than the thread's depth, {deep}", deep=shown(depths[-1]))
        raise BadInput("slide", say("a line of {deep}", deep=shown(deep)), finer)
    cuts = _cuts(depths, deep=deep, most=most, least=max(1, ceil(last_cut / deep - 1e-9)), whole=whole)
    stops = list(accumulate(cuts))
    taken = [Pass(cut=cut * deep, depth=at * deep, lines=at) for cut, at in zip(cuts, stops, strict=True)]
    return (*taken, *[Pass(cut=0.0, depth=whole * deep, lines=whole)] * spring_passes)


def _cuts(depths: tuple[float, ...], *, deep: float, most: int, least: int, whole: int) -> list[int]:
    """Lines that each pass takes, none more than the one before it; fewer passes than wanted where lines are coarse."""
    fewest = -(-whole // most)
    count = max(fewest, min(len(depths), whole // least))
    stops = [floor(_along(depths, count, k) / deep + 0.5) for k in range(1, count)]
    wanted = sorted((b - a for a, b in pairwise([0, *stops, whole])), reverse=True)
    cuts, left = [], 0
    for cut in wanted:  # what one pass may not take the next one does
        cuts.append(min(cut + left, most))
        left += cut - cuts[-1]
    while cuts[-1] < min(least, whole // count):
        cuts[-1] += 1
        cuts[0] -= 1
        cuts.sort(reverse=True)
    return cuts


def _along(depths: tuple[float, ...], count: int, k: int) -> float:
    """The depth that a plan has reached when k of so many shares of its passes are done."""
    place = k * len(depths) / count
    before = (0.0, *depths)
    done = min(floor(place), len(depths) - 1)
    return before[done] + (place - done) * (before[done + 1] - before[done])


def time_to_shoulder(*, gap: float, lead: float, rpm: float) -> Sum:
    """Time left to open the half-nuts: the tool's way from the end of the thread to the shoulder. [s]

    >>> float(time_to_shoulder(gap=3, lead=1.5, rpm=100))
    1.2
    """
    return (60 * mm(gap) / (mm(lead) * leaf(rpm, "speed"))).as_("duration")


def rpm_limit(*, gap: float, lead: float, reaction: float) -> Sum:
    """Highest speed at which the tool takes a given time [s] to cross the gap. [rev/min]

    >>> float(rpm_limit(gap=3, lead=1.5, reaction=1.2))
    100.0
    """
    return (60 * mm(gap) / (mm(lead) * leaf(reaction, "duration", "{} s"))).as_("speed")


def side_relief(*, lead: float, diameter: float) -> Sum:
    """Angle in degrees by which the helix leans at a diameter: what the tool's side must be relieved beyond its own clearance
    (Turning and Boring, 1914, pp. 149-150). At the minor diameter for the leading side of the tool, at the major for the
    following; lead and diameter in mm.

    >>> float(side_relief(lead=1.5, diameter=8.16))
    3.35
    """
    found: Sum = arctan(mm(lead) / (PI * mm(diameter)))
    return found
