"""Pictures of threads: a relief groove, a screw in its nut, what is engaged, and a thread to be known again."""

from __future__ import annotations

from math import radians, tan

from engine.base.answer import Line, Picture, Pointer, Polygon, Shape, Size
from engine.base.outlines import both_sides, cut_ring, dia, enlarged
from engine.base.words import Text, plain, say, shown
from engine.threads.form import form
from engine.threads.groove_pictures import Profile, profile_of, section
from engine.threads.relief import Relief
from engine.threads.thread import Thread

_TURNS = 7  # pitches of thread that are drawn beside a groove


def _teeth(start: float, turns: int, pitch: float, outer: float, inner: float) -> list[tuple[float, float]]:
    """Crests and roots from a place along the axis, so many pitches long: points, sharp."""
    points = [(start, inner)]
    for k in range(turns):
        points += [(start + (k + 0.5) * pitch, outer), (start + (k + 1) * pitch, inner)]
    return points


def relief_picture(*, thread: Thread, relief: Relief, minor: float, side: str) -> Picture:
    """The groove beside its shoulder, the thread after it and the bevel at its end; of a nut in section. [mm]"""
    screw, chamfer = side == "screw", relief.chamfer
    pitch, major, groove = float(thread.pitch), thread.diameter / 2, relief.diameter / 2
    root = minor / 2 if screw else major
    crest = major if screw else minor / 2
    wide, floor = relief.width, min(relief.floor, relief.width)
    length = wide + _TURNS * pitch
    bevel = abs(chamfer / 2 - crest) / (tan(radians(60)) if not screw else 1.0)
    shoulder = 1.5 * major if screw else 0.7 * minor / 2
    teeth = _teeth(wide, _TURNS, pitch, crest, root)
    profile = [(0.0, shoulder), (0.0, groove), (floor, groove), (wide, crest), (length, crest)]
    shapes: list[Shape] = [Line(-2 * pitch, 0, length + pitch, 0, 2)]
    far, edge, half = length + bevel, crest if screw else 1.35 * major, crest if screw else root
    if screw:
        shapes += both_sides([(-1.5 * pitch, shoulder), *profile, (far, chamfer / 2), (far, 0.0)])
    else:
        shapes += cut_ring([(0, edge), (0, shoulder), (0, groove), *profile[2:], (far, chamfer / 2), (far, edge)])
    shapes += both_sides([(wide, root), (length, root)], weight=0)
    shapes += both_sides([p for p in teeth if p[0] >= wide], weight=3)
    bevelled = say("bevel to {size}", size=dia(chamfer))
    shapes += [
        Size(0, edge, wide, edge, say("groove {wide}", wide=shown(wide, decimals=2, side="down")), "above"),
        Size(0, -edge, floor, -edge, say("floor {floor}", floor=shown(floor, decimals=2, side="up")), "below"),
        Size(0, groove, 0, -groove, dia(relief.diameter), "left"),
        Size(length, half, length, -half, str(thread), "right"),
        Size(far, chamfer / 2, far, -chamfer / 2, bevelled, "right"),
        Pointer(wide + 4 * pitch, -root, say("thread of {pitch}", pitch=shown(pitch, decimals=2)), "below"),
    ]
    text = "{thread} with a groove of {size}, {wide} wide, between thread and shoulder; the end bevelled to {bevel}."
    room = shown(wide, decimals=2, side="down")
    alt = say(text, thread=str(thread), size=dia(relief.diameter), wide=room, bevel=dia(chamfer))
    return Picture("relief", f"The groove, {'shoulder' if screw else 'bottom'} to the left", tuple(shapes), alt)


def mated_picture(*, thread: Thread, screw: float, nut: float, state: str) -> Picture:
    """A screw in its nut at the flanks, cut open, one touching nothing where there is room; that room is enlarged and
    said so. Pitch diameters. [mm]"""
    shape = form(thread)
    profile = profile_of(shape, pitch=float(thread.pitch))
    room = (nut - screw) / 2
    times = enlarged(abs(room), 0.25 * shape.depth)
    gap = room * times
    flank = section(profile, grooves=3)
    left, right = flank[0][0], flank[-1][0]
    low, high = -profile.below - 0.5 * shape.depth, profile.above + gap + 0.6 * shape.depth
    # the nut's flank line is the screw's, so far out; its own flats are as deep, so crest and root clear alike
    hollow = [(x, y + gap) for x, y in flank]
    shapes: list[Shape] = [
        Polygon((*flank, (right, low), (left, low)), cut=True),
        Polygon((*reversed(hollow), (left, high), (right, high)), filled=False),
        Line(left - 0.1 * profile.pitch, 0, right + 0.1 * profile.pitch, 0, 2),
        Size(right, 0, right, gap, say("{room} on the radius", room=shown(room)), "right"),
        Pointer(left, 0, say("screw {size}", size=dia(screw, 3)), "left"),
        Pointer(left, gap, say("nut {size}", size=dia(nut, 3)), "left"),
        Size(-profile.pitch / 2, low, profile.pitch / 2, low, shown(profile.pitch, decimals=3), "below"),
    ]
    text = "Flanks of {thread}, pitch diameters {screw} in {nut}: {state}."
    text += " The room between them is drawn {times} times as large as it is." if times > 1 else ""
    alt = say(text, thread=str(thread), screw=dia(screw, 3), nut=dia(nut, 3), state=state, times=times)
    return Picture("mated", f"{thread}: screw (hatched) in its nut", tuple(shapes), alt)


def engaged_picture(*, thread: Thread, engaged: float, needed: float | None) -> Picture:
    """A screw in a threaded block, cut open, engaged so far; what it would need is marked. [mm]"""
    major, pitch = thread.diameter / 2, float(thread.pitch)
    root = major - form(thread).depth
    deep = max(engaged, needed or 0.0) + 2 * pitch
    block, head = 2.2 * major, 1.7 * major
    turns = int(engaged / pitch)
    shapes: list[Shape] = [
        *cut_ring([(0, block), (0, major), (deep, major), (deep, block)]),
        *both_sides([(-1.4 * major, 0), (-1.4 * major, head), (0, head)]),
        *both_sides([(0, major), (engaged, major), (engaged, 0)]),
        *both_sides([(0, root), (engaged, root)], weight=0),
        *both_sides(_teeth(0, turns, pitch, major, root), weight=3),
        Line(-1.6 * major, 0, deep + 0.3 * major, 0, 2),
        Size(0, block, engaged, block, say("engaged {long}", long=shown(engaged, decimals=1)), "above"),
        Size(-1.4 * major, major, -1.4 * major, -major, str(thread), "left"),
    ]
    if needed is not None:
        text = say("needed {long}", long=shown(needed, decimals=1, side="up"))
        shapes += [Line(needed, -block, needed, -major, 1), Size(0, -block, needed, -block, text, "below")]
    words = "{thread} engaged by {long}"
    parts: dict[str, Text] = {"thread": str(thread), "long": shown(engaged, decimals=1)}
    if needed is not None:
        words += "; with {needed} the screw breaks before the thread strips"
        parts["needed"] = shown(needed, decimals=1, side="up")
    alt = say(f"{words}.", **parts)
    return Picture("engaged", "The screw in its thread, in section", tuple(shapes), alt)


def known_picture(thread: Thread) -> Picture:
    """What a thread looks like that was looked for: some turns from the side, its sizes to measure against. [mm]"""
    shape = form(thread)
    profile: Profile = profile_of(shape, pitch=float(thread.pitch))
    pitch, radius = profile.pitch, thread.diameter / 2
    upper = [(x, radius - profile.above + y) for x, y in section(profile, grooves=6)]
    lower = [(x, -y) for x, y in upper]
    edge, across, angle = upper[-1][0], dia(thread.diameter, 3), plain(shape.included_angle, "angle")
    shapes: list[Shape] = [
        Polygon((*upper, *reversed(lower))),
        Line(-1.1 * edge, 0, 1.1 * edge, 0, 2),
        Size(edge, radius, edge, -radius, across, "right"),
        Size(-pitch, radius, 0, radius, say("pitch {pitch}", pitch=shown(pitch, decimals=3)), "above"),
        Pointer(-edge + pitch / 2, -radius + shape.depth / 2, say("{angle} between the flanks", angle=angle), "below"),
    ]
    text = "{thread}: {size} over the crests, a pitch of {pitch}, {angle} between its flanks."
    alt = say(text, thread=str(thread), size=across, pitch=shown(pitch, decimals=3), angle=angle)
    return Picture("known", f"{thread}, likeliest", tuple(shapes), alt)
