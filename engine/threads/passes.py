"""Cutting a thread with a single-point tool: the slide's travel, its dial, and the time to the shoulder."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import atan, ceil, cos, degrees, floor, pi, radians, tan

from engine.base.refusals import BadInput, check_range


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

    Examples
    --------
    >>> slide_angle(29.5, 30), slide_angle(29.5, 27.5), slide_angle(29.5, 14.5)
    (29.5, 27.0, 14.0)
    """
    return kept if half_angle - 1.5 <= kept <= half_angle else int(2 * (half_angle - _LESS)) / 2


def slide_travel(*, depth: float, slide_angle: float, half_angle: float) -> SlideTravel:
    """What a slide set at an angle moves for a radial depth.

    Parameters
    ----------
    depth : float
        Radial depth, 0 or more. [mm]
    slide_angle : float
        Angle of the slide from the cross slide's line, 0 (plain infeed) to the flank angle. [deg]
    half_angle : float
        Flank angle. [deg]

    Returns
    -------
    travel : SlideTravel
        Travel, sideways shift, and what the following flank is shaved. [mm]

    Raises
    ------
    OutOfRange
        If the slide's angle is negative or above the flank angle, which would leave the following flank in steps.

    Sources
    -------
    Travel = depth/cos g: geometry; 30 degrees in F. D. Jones, Turning and Boring, 1914, p. 143; 29 1/2 in the US
    Navy's Machinery Repairman, NAVEDTRA 14345.

    Examples
    --------
    >>> slide_travel(depth=0.61343, slide_angle=29.5, half_angle=30)
    SlideTravel(travel=0.7048, sideways=0.34706, shave=0.00710)
    """
    check_range(
        "slide_angle",
        slide_angle,
        low=0,
        high=half_angle,
        unit="deg",
        why="beyond half the thread's angle the following flank is left in steps",
    )
    g = radians(slide_angle)
    return SlideTravel(
        travel=depth / cos(g), sideways=depth * tan(g), shave=depth * (tan(radians(half_angle)) - tan(g))
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass:
    """One pass. `depth` is radial from the blank, `cut` this pass's share of it, `lines` the dial's lines from zero
    at the touch. A spring pass has no cut of its own. Lengths in mm.
    """

    cut: float
    depth: float
    lines: int


def passes_on_dial(
    *,
    depths: tuple[float, ...],
    first_cut: float,
    last_cut: float,
    line: Fraction,
    slide_angle: float,
    spring_passes: int,
) -> tuple[Pass, ...]:
    """The passes in whole lines of the slide's dial, never past the depth, no cut above the largest.

    Every pass but the last goes to a line; the last goes to the depth itself, and its setting to the line short of it.
    Where a line is coarse, passes run together so that none takes less than the smallest cut.

    Parameters
    ----------
    depths : tuple of float
        Depth wanted after each pass, rising. [mm]
    first_cut : float
        Largest radial cut. [mm]
    last_cut : float
        Smallest radial cut, not above the largest. [mm]
    line : Fraction
        Travel of the slide for one line of its dial, above 0. [mm]
    slide_angle : float
        Angle of the slide from the cross slide's line, below 90. [deg]
    spring_passes : int
        Passes repeated at the last setting.

    Returns
    -------
    passes : tuple of Pass
        In the order they are taken.

    Raises
    ------
    BadInput
        If one line of the dial takes more than the largest cut.

    Sources
    -------
    Settings counted in whole lines from one zero: common practice, no source.

    Examples
    --------
    >>> found = passes_on_dial(depths=(0.150, 0.237, 0.3), first_cut=0.15, last_cut=0.05, line=Fraction(1, 40),
    ...                        slide_angle=0, spring_passes=1)
    >>> [p.lines for p in found]
    [6, 9, 12, 12]
    """
    deep = float(line) * cos(radians(slide_angle))  # radial depth of one line
    most = floor(first_cut / deep + 1e-9)
    if most < 1:
        raise BadInput(
            "first_cut", f"{first_cut:g} mm", f"at least one line of the dial, {deep:.4f} mm of depth"
        )
    whole = depths[-1]
    stops = _stops(depths, deep=deep, first_cut=first_cut, last_cut=last_cut)
    passes = [
        Pass(cut=(lines - before) * deep, depth=lines * deep, lines=lines)
        for before, lines in zip([0, *stops], stops, strict=False)
    ]
    last, before = floor(whole / deep + 1e-9), (stops[-1] if stops else 0) * deep
    passes.append(Pass(cut=whole - before, depth=whole, lines=last))
    return (*passes, *[Pass(cut=0.0, depth=whole, lines=last)] * spring_passes)


def _stops(depths: tuple[float, ...], *, deep: float, first_cut: float, last_cut: float) -> list[int]:
    """Lines at which the passes before the last stop, found from the last one backwards.

    So the finishing cuts keep their size and what the lines leave over falls to the first cut.
    """
    stops: list[int] = []
    at = depths[-1]
    for wanted in reversed(depths[:-1]):
        shallowest = ceil((at - first_cut) / deep - 1e-9)
        deepest = floor((at - last_cut) / deep + 1e-9)
        lines = max(shallowest, min(deepest, floor(wanted / deep + 0.5)))
        if lines < 1 or (lines * deep < last_cut - 1e-9 and at <= first_cut + 1e-9):
            break
        stops.append(lines)
        at = lines * deep
    while at > first_cut + 1e-9:
        left = ceil(at / first_cut - 1e-9)  # cuts that the rest still takes, shared evenly
        evenly = floor(at * (left - 1) / left / deep)
        stops.append(max(1, evenly, ceil((at - first_cut) / deep - 1e-9)))
        at = stops[-1] * deep
    return stops[::-1]


def time_to_shoulder(*, gap: float, lead: float, rpm: float) -> float:
    """Time in which the tool crosses the gap between the end of the thread and the shoulder.

    Parameters
    ----------
    gap : float
        Width of the gap, 0 or more. [mm]
    lead : float
        Lead, above 0. [mm]
    rpm : float
        Speed of the spindle, above 0. [rev/min]

    Returns
    -------
    time : float
        Time left to open the half-nuts. [s]

    Raises
    ------
    ZeroDivisionError
        If lead or speed is nought.

    Sources
    -------
    Arithmetic.

    Examples
    --------
    >>> time_to_shoulder(gap=3, lead=1.5, rpm=100)
    1.2
    """
    return 60 * gap / (lead * rpm)


def rpm_limit(*, gap: float, lead: float, reaction: float) -> float:
    """Highest speed at which the tool takes a given time to cross the gap.

    Parameters
    ----------
    gap : float
        Width of the gap, 0 or more. [mm]
    lead : float
        Lead, above 0. [mm]
    reaction : float
        Time that a person needs, above 0. [s]

    Returns
    -------
    rpm : float
        Speed of the spindle. [rev/min]

    Raises
    ------
    ZeroDivisionError
        If lead or time is nought.

    Sources
    -------
    Arithmetic.

    Examples
    --------
    >>> rpm_limit(gap=3, lead=1.5, reaction=1.2)
    100.0
    """
    return 60 * gap / (lead * reaction)


def side_relief(*, lead: float, diameter: float) -> float:
    """Angle by which the helix leans at a diameter: what the tool's side must be relieved beyond its own clearance.

    Parameters
    ----------
    lead : float
        Lead, 0 or more. [mm]
    diameter : float
        Diameter, above 0: the minor for the leading side of the tool, the major for the following. [mm]

    Returns
    -------
    angle : float
        Lead angle there. [deg]

    Raises
    ------
    ZeroDivisionError
        If the diameter is nought.

    Sources
    -------
    F. D. Jones, Turning and Boring, 1914, pp. 149-150.

    Examples
    --------
    >>> side_relief(lead=1.5, diameter=8.16)
    3.35
    """
    return degrees(atan(lead / (pi * diameter)))
