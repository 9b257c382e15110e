"""Pictures of a thread in section: with measuring wires in it, and as the passes leave it."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import cos, radians, sin, tan

from engine.base.answer import Circle, Line, Picture, Pointer, Polygon, Shape, Size
from engine.base.records import dataclass
from engine.base.words import counted, plain, say, shown, write  # noqa: F401 (examples use write)
from engine.threads.form import addendum
from engine.threads.infeed import Tool
from engine.threads.passes import Pass
from engine.threads.told import Form

_ARC = 6  # straight pieces for a rounded crest or root


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """One pitch of a screw's flank line. Heights are from the pitch line; a radius of 0 leaves a flat. [mm, deg]"""

    half_angle: float
    pitch: float
    above: float
    below: float
    crest_radius: float = 0.0
    root_radius: float = 0.0


def profile_of(form: Form, *, pitch: float) -> Profile:
    """The profile of a screw's form.

    >>> from engine.threads.designation import parse
    >>> from engine.threads.form import form
    >>> profile_of(form(parse("M10")), pitch=1.5).below
    0.4330
    """
    above = addendum(form)
    half, crest, root = form.half_angle, form.crest_radius, form.root_radius
    return Profile(
        half_angle=half, pitch=pitch, above=above, below=form.depth - above, crest_radius=crest, root_radius=root
    )


Points = list[tuple[float, float]]


def _top(profile: Profile, *, height: float, radius: float) -> Points:
    """A crest about x = 0, from the left flank to the right, heights from the pitch line."""
    slope = tan(radians(profile.half_angle))
    if not radius:
        half = profile.pitch / 4 - height * slope
        return [(-half, height), (half, height)]
    widest = radians(90 - profile.half_angle)
    turns = [widest * (2 * step / _ARC - 1) for step in range(_ARC + 1)]
    return [(radius * sin(turn), height - radius + radius * cos(turn)) for turn in turns]


def section(profile: Profile, *, grooves: int) -> Points:
    """Flank line of a screw over so many grooves about x = 0, from the middle of one crest to that of another: along
    the axis and from the pitch line.

    >>> iso = Profile(half_angle=30, pitch=1, above=0.32476, below=0.21651)
    >>> [x for x, _ in section(iso, grooves=1)]
    [-0.5, -0.4375, -0.125, 0.125, 0.4375, 0.5]
    """
    crest = _top(profile, height=profile.above, radius=profile.crest_radius)
    root = [(x, -y) for x, y in _top(profile, height=profile.below, radius=profile.root_radius)]
    left = -grooves * profile.pitch / 2
    points: Points = []
    for step in range(grooves + 1):
        middle = left + step * profile.pitch
        points += [(middle + x, y) for x, y in crest if abs(middle + x) <= -left + 1e-12]
        if step < grooves:
            points += [(middle + profile.pitch / 2 + x, y) for x, y in root]
    return [(left, profile.above), *points, (-left, profile.above)]


def _clipped(points: Points, *, edge: float) -> Points:
    """A line cut off at -edge and +edge, both ends on the line."""

    def at(cut: float) -> tuple[float, float]:
        for (x1, y1), (x2, y2) in pairwise(points):
            if x1 <= cut <= x2 and x2 > x1:
                return cut, y1 + (y2 - y1) * (cut - x1) / (x2 - x1)
        return points[-1]

    return [at(-edge), *[(x, y) for x, y in points if -edge < x < edge], at(edge)]


def wires_picture(
    profile: Profile, *, pitch_diameter: float, lead: float, wire: float, over_wires: float, name: str
) -> Picture:
    """A screw in section with its three wires, to scale: x along the axis, y from it.

    >>> iso = Profile(half_angle=30, pitch=1.5, above=0.487, below=0.433)
    >>> write(wires_picture(iso, pitch_diameter=9.026, lead=1.5, wire=0.895, over_wires=10.412, name="M10").alt)
    'M10 in section: three wires of 0.895 mm in its grooves, 10.412 mm over them.'
    """
    pitch, radius = profile.pitch, pitch_diameter / 2
    upper = [(x, radius + y) for x, y in section(profile, grooves=4)]
    # Half a turn on, the thread has moved along by half its lead.
    shift = (lead / 2) % pitch
    below = [(x - pitch + shift, -radius - y) for x, y in section(profile, grooves=6)]
    lower = _clipped(below, edge=2 * pitch)
    height, edge = (over_wires - wire) / 2, 2 * pitch
    top = over_wires / 2
    shapes: list[Shape] = [
        Polygon((*upper, *reversed(lower))),
        Line(-1.15 * edge, 0, 1.15 * edge, 0, 2),
        Circle(-pitch / 2, height, wire / 2, filled=True),
        Circle(pitch / 2, height, wire / 2, filled=True),
        Circle(shift - pitch / 2, -height, wire / 2, filled=True),
        Line(-edge, top, edge, top),
        Line(-edge, -top, edge, -top),
        Size(edge, top, edge, -top, say("{over} over wires", over=shown(over_wires)), "right"),
        Size(-edge, radius, -edge, -radius, say("pitch diameter {size}", size=shown(pitch_diameter)), "left"),
        Pointer(pitch / 2, height + wire / 2, say("wires {wire}", wire=shown(wire)), "above"),
    ]
    alt = "{name} in section: three wires of {wire} in its grooves, {over} over them."
    words = say(alt, name=name, wire=shown(wire), over=shown(over_wires))
    return Picture(name="wires", title=f"{name} over wires", shapes=tuple(shapes), alt=words)


def infeed_picture(passes: Sequence[Pass], *, tool: Tool, slide_angle: float, inside: bool = False) -> Picture:
    """The groove as every pass leaves it, each pass tied to its row of the table; x along the axis with the chuck to
    the left, y from the surface of the blank.

    >>> one = Pass(cut=0.5, depth=0.5, lines=20)
    >>> write(infeed_picture([one], tool=Tool(half_angle=30, flat=0.1), slide_angle=29.5).alt)
    'The groove in 1 pass to a depth of 0.500 mm, the slide at 29.5°.'
    """
    slope, lean = tan(radians(tool.half_angle)), tan(radians(slide_angle))
    way = 1 if inside else -1
    whole = passes[-1].depth
    side = 1.4 * (tool.flat / 2 + whole * slope)
    shapes: list[Shape] = [Line(-side, 0, side, 0, 1)]
    for row, step in enumerate(passes, 1):
        if not step.cut:
            continue
        middle = (whole - step.depth) * lean
        bottom, half = way * step.depth, tool.flat / 2
        wide = half + step.depth * slope
        weight = 1 if step.depth == whole else 0
        shapes += [
            Line(middle - wide, 0, middle - half, bottom, weight, row),
            Line(middle - half, bottom, middle + half, bottom, weight, row),
            Line(middle + half, bottom, middle + wide, 0, weight, row),
        ]
        text = say("pass {row}: {deep}", row=row, deep=shown(step.depth))
        shapes.append(Size(middle - wide, 0, middle - half, bottom, text, "left", row, if_marked=True))
    floor, angle = way * 1.25 * whole, plain(slide_angle, "angle")
    half, wide = tool.flat / 2, tool.flat / 2 + whole * slope
    shapes += [
        Size(wide, 0, half, way * whole, shown(whole), "right"),
        Size(-wide, 0, wide, 0, shown(2 * wide, decimals=2), "below" if inside else "above"),
        Pointer(-wide / 2 - half / 2, way * whole / 2, say("slide at {angle}", angle=angle), "left"),
        Line(-side, floor, side, floor),
    ]
    cuts = counted(sum(1 for step in passes if step.cut), "pass", "passes")
    words = "The groove in {cuts} to a depth of {deep}, the slide at {angle}."
    alt = say(words, cuts=cuts, deep=shown(whole), angle=angle)
    return Picture("infeed", "Infeed, pass by pass", tuple(shapes), alt, table="passes")
