"""Parts that cannot be: each is refused in one sentence that names the feature and what would do. And what
is implied to run true.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import pi, sin

from engine.base.records import replace
from engine.base.refusals import BadInput
from engine.part import part as p
from engine.part.of_threads import minor, relief_size
from engine.part.shape import hollow_at, inside, outer_at, outside, point_of
from engine.part.sizes import limits_text, number

Found = Iterator[tuple[str, str]]
_NEAR = 1e-6  # mm
_GROWTH = 0.5  # mm that a knurl may stand over the bar it is rolled on; common practice, no source
_FITTED = 8  # IT8 and finer is a fitted size
_SCALE_TRUE, _FACE_TRUE, _THREAD_TRUE = 0.05, 0.02, 0.05  # mm; common practice, no source


def problems(part: p.Part) -> list[tuple[str, str]]:
    """Every reason why a part cannot be, as the feature's name and a sentence that begins with it.

    One mistake is told once: walls are only looked at when everything else is right.
    """
    found = [one for rule in _RULES for one in rule(part)]
    return found or list(_walls(part))


def check(part: p.Part) -> None:
    """Refuse a part that cannot be, by its first reason."""
    for name, sentence in problems(part):
        raise BadInput(name, "", "", sentence)


def _mm(part: p.Part, length: float) -> str:
    """A length in the words of the part's own unit."""
    return number(length, part.unit) + (" in" if part.unit == "inch" else " mm")


def _said(name: str, text: str) -> tuple[str, str]:
    return name, f"{name}: {text}"


def _some_outside(part: p.Part) -> Found:
    if not part.outside:
        yield _said("outside", 'a part has an outside: give one feature at least (is = "diameter").')


def _bar(part: p.Part) -> Found:
    bar = part.bar
    for one in part.outside:
        if isinstance(one, p.AsBought):
            continue
        over = _GROWTH if isinstance(one, p.Knurl) else 0.0
        if one.largest > bar.size + over + _NEAR:
            what = {"hex": "the hexagon", "square": "the square bar"}.get(bar.section, "the bar")
            across = " across its flats" if bar.section != "round" else ""
            yield _said(
                one.name,
                f"{_mm(part, one.largest)} cannot be turned from {what} of {_mm(part, bar.size)}{across}; "
                f"{_mm(part, bar.size)} or less would, or a larger bar.",
            )
    if bar.bore is not None and bar.bore >= bar.size:
        yield _said("stock", f"a tube of {_mm(part, bar.size)} has a bore below that, not {_mm(part, bar.bore)}.")


def _eccentric(part: p.Part) -> Found:
    on_axis = max((one.largest for one in part.outside if one.off_axis is None), default=0.0)
    for one in part.outside:
        if one.off_axis is None:
            continue
        needed = max(one.largest, on_axis, (one.largest + on_axis) / 2 + one.off_axis.nominal)
        if needed > part.bar.size + _NEAR:
            yield _said(
                one.name,
                f"{_mm(part, one.off_axis.nominal)} off the axis of {_mm(part, on_axis)} it needs a bar of "
                f"{_mm(part, needed)}, and the bar is {_mm(part, part.bar.size)}; a larger bar or a "
                "smaller throw would do.",
            )


def _lengths(part: p.Part) -> Found:
    total, length, blank = part.overall, part.length, part.bar.blank
    if length is not None and part.outside:
        low = length.nominal if length.low is None else length.low
        high = length.nominal if length.high is None else length.high
        if not low - 1e-3 <= total <= high + 1e-3:
            yield _said(
                "length",
                f"the outside features add up to {_mm(part, total)} and the length is "
                f"{limits_text(length, part.unit)}; "
                "change one of them so that they agree.",
            )
    if blank is not None and total > blank + _NEAR:
        yield _said(
            "blank",
            f"the features are {_mm(part, total)} long together and the blank is {_mm(part, blank)}; "
            f"a blank of {_mm(part, total)} or more would do.",
        )


def _beside(part: p.Part, index: int) -> tuple[float | None, float | None]:
    """The diameters of the neighbours at the ends of an outside feature; None at an end of the part."""
    before = part.outside[index - 1].back_diameter if index else None
    after = part.outside[index + 1].front_diameter if index + 1 < len(part.outside) else None
    return before, after


def _grooves(part: p.Part) -> Found:
    for index, one in enumerate(part.outside):
        if isinstance(one, p.Groove):
            least = min((d for d in _beside(part, index) if d is not None), default=part.bar.size)
            if one.size.nominal >= least - _NEAR:
                yield _said(
                    one.name,
                    f"a groove down to {_mm(part, one.size.nominal)} beside {_mm(part, least)} is no groove; "
                    f"less than {_mm(part, least)} would be.",
                )


def _edges(part: p.Part) -> Found:
    for index, one in enumerate(part.outside):
        before, after = _beside(part, index)
        yield from _edge(part, one, one.chamfer, before, one.front_diameter)
        yield from _edge(part, one, one.chamfer_back, after, one.back_diameter)
        taken = sum(edge.long for edge in (one.chamfer, one.chamfer_back) if edge)
        if taken > one.long + _NEAR:
            edge = one.chamfer or one.chamfer_back
            assert edge is not None
            yield _said(
                edge.name,
                f"the bevels take {_mm(part, taken)} of a length of {_mm(part, one.long)}; "
                f"{_mm(part, one.long)} together or less would do.",
            )
        yield from _rounds(part, one, before, after)


def _edge(part: p.Part, one: p.Outside, edge: p.Chamfer | None, beside: float | None, diameter: float) -> Found:
    if edge is None:
        return
    if beside is not None and beside > diameter + _NEAR:
        other = "chamfer_back" if edge.at == "front" else "chamfer"
        yield _said(
            edge.name,
            f"that end of {one.name} stands against the larger {_mm(part, beside)}, where there is no "
            "edge to break; "
            f"{other} is its other end, fillet a rounded corner.",
        )
    elif edge.depth >= diameter / 2 - _NEAR:
        yield _said(
            edge.name,
            f"a bevel {_mm(part, edge.depth)} deep takes all of {_mm(part, diameter)}; "
            f"less than {_mm(part, diameter / 2)} would leave a face.",
        )


def _rounds(part: p.Part, one: p.Outside, before: float | None, after: float | None) -> Found:
    larger = [d for d, own in ((before, one.front_diameter), (after, one.back_diameter)) if d is not None and d > own]
    if one.fillet is not None and not larger:
        yield _said(
            one.fillet.name, f"{one.name} has no larger neighbour, so no corner to fill; radius rounds its edge."
        )
    elif one.fillet is not None:
        room = min(one.long, (min(larger) - one.smallest) / 2)
        if one.fillet.radius > room + _NEAR:
            text = f"{_mm(part, one.fillet.radius)} does not fit in the corner; {_mm(part, room)} or less would."
            yield _said(one.fillet.name, text)
    if one.radius is not None:
        room = min(one.smallest / 2, one.long)
        if one.radius.radius > room + _NEAR:
            text = f"{_mm(part, one.radius.radius)} does not fit on {one.name}; {_mm(part, room)} or less would."
            yield _said(one.radius.name, text)


def _threads(part: p.Part) -> Found:
    for index, one in enumerate(part.outside):
        if not isinstance(one, p.OutsideThread):
            continue
        before, after = _beside(part, index)
        if one.relief is not None:
            if all(d is None or d <= minor(one.size) for d in (before, after)):
                yield _said(one.relief.name, "a relief stands against a shoulder, and there is none; leave it out.")
            width, _ = relief_size(one)
            if width >= one.long - _NEAR:
                text = (
                    f"its groove of {_mm(part, width)} leaves no thread on "
                    f"{_mm(part, one.long)}; make the thread longer"
                )
                yield _said(one.relief.name, text + ("." if one.relief.short else ' or relief = "short".'))
        if one.runout is not None and one.runout.nominal >= one.long - _NEAR:
            text = (
                f"a run-out of {_mm(part, one.runout.nominal)} leaves no thread on "
                f"{_mm(part, one.long)}; a shorter one would."
            )
            yield _said(one.name, text)
        if one.size.diameter / 2 <= one.size.diameter / 2 - minor(one.size) / 2:
            yield _said(one.name, "its thread is as deep as it is thick; a finer pitch would do.")


def _standing(part: p.Part) -> Found:
    for one in part.outside:
        if one.scale is not None and not isinstance(one, p.Diameter | p.Taper):
            yield _said(
                one.scale.name,
                f"lines are cut on a plain diameter, and {one.name} is none; give it a length of its own.",
            )
        if one.flats is not None:
            yield from _flats(part, one, one.flats)
        for cut in (one.slot, one.keyway):
            if cut is not None:
                yield from _cut(part, one, cut)
        if isinstance(one, p.Dome) and any((one.scale, one.flats, one.keyway)):
            yield _said(one.name, "nothing can stand on a dome; put it on the feature beside it.")


def _flats(part: p.Part, one: p.Outside, flats: p.Flats) -> Found:
    across, whole = flats.across_flats.nominal, one.smallest
    if isinstance(one, p.AsBought) and flats.sides == 2 and part.bar.section != "round":
        whole = part.bar.size
    if across >= whole - _NEAR:
        yield _said(
            flats.name,
            f"{_mm(part, across)} across the flats takes nothing off {_mm(part, whole)}; less than that would.",
        )
    if flats.stop > one.stop + _NEAR:
        text = f"they are {_mm(part, flats.long)} long on a length of {_mm(part, one.long)}; that or less would do."
        yield _said(flats.name, text)


def _cut(part: p.Part, one: p.Outside, cut: p.Slot | p.Keyway) -> Found:
    width, deep = cut.width.nominal, cut.depth.nominal
    if width >= one.smallest - _NEAR:
        yield _said(
            cut.name,
            f"{_mm(part, width)} is as wide as {one.name} of {_mm(part, one.smallest)}; a narrower one would do.",
        )
    limit = one.smallest / 2 if isinstance(cut, p.Keyway) else one.smallest
    if deep >= limit - _NEAR:
        text = (
            f"{_mm(part, deep)} deep leaves too little of {_mm(part, one.smallest)}; less than "
            f"{_mm(part, limit)} would do."
        )
        yield _said(cut.name, text)
    if cut.start < one.start - _NEAR or cut.stop > one.stop + _NEAR:
        text = f"it does not lie on {one.name}, which is {_mm(part, one.long)} long; make it shorter or move it."
        yield _said(cut.name, text)


def _ends(part: p.Part) -> Found:
    for face in (part.front, part.back):
        if face.slot is None or not part.outside:
            continue
        end = part.outside[0].front_diameter if face.name == "front" else part.outside[-1].back_diameter
        if face.slot.width.nominal >= end - _NEAR:
            text = (
                f"{_mm(part, face.slot.width.nominal)} is as wide as the end of "
                f"{_mm(part, end)}; a narrower one would do."
            )
            yield _said(face.slot.name, text)
        if face.slot.depth.nominal >= part.overall - _NEAR:
            text = (
                f"{_mm(part, face.slot.depth.nominal)} deep cuts the part in two; less than "
                f"{_mm(part, part.overall)} would do."
            )
            yield _said(face.slot.name, text)


def _deep(part: p.Part) -> Found:
    long = part.overall
    for one in part.inside:
        if one.through or isinstance(one, p.InsideGroove):
            if isinstance(one, p.InsideGroove) and (one.start < -_NEAR or one.stop > long + _NEAR):
                text = (
                    f"it reaches past the face; its middle from {_mm(part, one.long / 2)} to "
                    f"{_mm(part, long - one.long / 2)} would do."
                )
                yield _said(one.name, text)
            continue
        if one.long > long + _NEAR:
            text = (
                f"a depth of {_mm(part, one.long)} is more than the part's {_mm(part, long)}; "
                "less would do, or through = true."
            )
            yield _said(one.name, text)
        elif isinstance(one, p.InsideThread):
            yield from _blind_thread(part, one)
        elif isinstance(one, p.Hole):
            yield from _blind_hole(part, one)
    if part.bar.bore is not None:
        for one in part.inside:
            if one.smallest < part.bar.bore - _NEAR and not isinstance(one, p.Countersink):
                text = f"{_mm(part, one.smallest)} cannot be bored in a tube open to {_mm(part, part.bar.bore)}; "
                yield _said(one.name, text + "a larger size or a solid bar would do.")


def _blind_hole(part: p.Part, one: p.Hole) -> Found:
    point = 0.0 if one.flat else point_of(one.size.nominal)
    bound = one.hole_depth.most if one.hole_depth else None
    if bound is not None and one.long > bound + _NEAR:
        text = (
            f"its full depth of {_mm(part, one.long)} is more than the {_mm(part, bound)} the "
            f"hole may go; {_mm(part, bound)} or less would do."
        )
        yield _said(one.name, text)
    elif one.long + point >= part.overall - _NEAR and not _meets(part, one):
        room = part.overall - point
        text = f"at {_mm(part, one.long)} its point comes through; less than {_mm(part, room)} would do"
        yield _said(
            one.name, text + (", or through = true." if one.flat else ', or bottom = "flat", or through = true.')
        )


def _meets(part: p.Part, one: p.Inside) -> bool:
    """Whether a hole runs into another one from the other end."""
    others = (o for o in part.inside if o is not one and o.end != one.end and not isinstance(o, p.InsideGroove))
    return any(o.start < one.stop and o.stop > one.start for o in others)


def _blind_thread(part: p.Part, one: p.InsideThread) -> Found:
    deep, pitch = one.long, float(one.size.pitch)
    own = [
        o for o in part.inside
        if isinstance(o, p.Hole) and (o.through or o.end == one.end) and o.size.nominal < one.size.diameter
    ]  # fmt: skip
    for hole in own:
        if not hole.through and hole.long < deep - _NEAR:
            text = (
                f"{_mm(part, deep)} of thread is deeper than its hole {hole.name} of "
                f"{_mm(part, hole.long)}; {_mm(part, hole.long)} or less would do."
            )
            yield _said(one.name, text)
    if own:
        return
    if one.hole_depth is not None and one.hole_depth.most < deep - _NEAR:
        text = (
            f"{_mm(part, deep)} of thread is deeper than its hole of "
            f"{_mm(part, one.hole_depth.most)}; {_mm(part, one.hole_depth.most)} or less would "
            "do."
        )
        yield _said(one.name, text)
        return
    point = point_of(minor(one.size))
    needed = deep + pitch + point  # a plug tap's lead of one pitch at least
    if needed >= part.overall - _NEAR and not _meets(part, one):
        room = part.overall - pitch - point
        text = f"the hole for {_mm(part, deep)} of thread comes through the part of {_mm(part, part.overall)}; "
        yield _said(one.name, text + f"less than {_mm(part, max(room, 0.0))} would do, or through = true.")


def _threads_in_holes(part: p.Part) -> Found:
    for one in part.inside:
        if not isinstance(one, p.InsideThread):
            continue
        for hole in part.inside:
            same = isinstance(hole, p.Hole) and (hole.through or one.through or hole.end == one.end)
            if (
                same
                and isinstance(hole, p.Hole)
                and hole.size.nominal >= one.size.diameter
                and hole.start <= one.start
                and hole.stop >= one.stop
            ):
                text = (
                    f"in the hole {hole.name} of {_mm(part, hole.size.nominal)} there is nothing "
                    f"to cut {one.size} in; a smaller hole would do."
                )
                yield _said(one.name, text)


def _across(part: p.Part) -> Found:
    if not part.outside:
        return
    for one in part.across:
        if isinstance(one, p.CrossHole):
            yield from _cross_hole(part, one)
        elif isinstance(one, p.HoleCircle):
            yield from _hole_circle(part, one)
        sink = one.countersink
        if sink is not None and sink.diameter <= one.bore + _NEAR:
            text = f"{_mm(part, sink.diameter)} is no larger than the hole of {_mm(part, one.bore)}; make it larger."
            yield _said(sink.name, text)


def _cross_hole(part: p.Part, one: p.CrossHole) -> Found:
    half, long = one.bore / 2, part.overall
    if one.z - half < -_NEAR or one.z + half > long + _NEAR:
        yield _said(
            one.name,
            f"a hole of {_mm(part, one.bore)} at {_mm(part, one.z)} from the front breaks out of an "
            "end face; "
            f"{_mm(part, half)} to {_mm(part, long - half)} would do.",
        )
        return
    on = part.outside_at(min(max(one.z, 0.0), long))
    if on is None:
        return
    if one.bore >= on.smallest - _NEAR:
        text = (
            f"a hole of {_mm(part, one.bore)} is as wide as {on.name} of "
            f"{_mm(part, on.smallest)}; a smaller one would do."
        )
        yield _said(one.name, text)
    if one.depth is not None and one.depth.nominal >= on.smallest - _NEAR:
        text = f"{_mm(part, one.depth.nominal)} deep goes through {on.name} of {_mm(part, on.smallest)}; "
        yield _said(one.name, text + 'less would do, or walls = "both".')


def _hole_circle(part: p.Part, one: p.HoleCircle) -> Found:
    middle, half = one.diameter.nominal / 2, one.bore / 2
    if one.holes > 1:
        chord = 2 * middle * sin(pi / one.holes)
        if chord <= one.bore + _NEAR:
            text = f"{one.holes} holes of {_mm(part, one.bore)} on {_mm(part, 2 * middle)} run into each other; "
            yield _said(one.name, text + f"less than {_mm(part, chord)} would do, fewer holes or a larger circle.")
            return
    if one.start < -_NEAR or one.stop > part.overall + _NEAR:
        text = (
            f"a depth of {_mm(part, one.stop - one.start)} is more than the part has; less would do, or through = true."
        )
        yield _said(one.name, text)
        return
    outer, hollow = outside(part), inside(part)
    places = [
        one.start + 1e-6,
        one.stop - 1e-6,
        *(o.start + 1e-6 for o in part.outside if one.start < o.start < one.stop),
    ]
    rim = min(outer_at(outer, z) for z in places)
    bore = max(hollow_at(hollow, z) for z in places)
    if middle + half >= rim - _NEAR or middle - half <= bore + _NEAR:
        text = f"holes of {_mm(part, one.bore)} on {_mm(part, 2 * middle)} break out of the part; "
        low, high = 2 * (bore + half), 2 * (rim - half)
        room = (
            f"a circle between {_mm(part, low)} and {_mm(part, high)} would do."
            if low < high
            else "smaller holes would do."
        )
        yield _said(one.name, text + room)


def _truth(part: p.Part) -> Found:
    names = {one.name for one in part.features()}
    for one in part.features():
        if one.true_to and (one.true_to not in names or one.true_to == one.name):
            listed = ", ".join(o.name for o in (*part.outside, *part.inside) if o.name != one.name)
            yield _said(one.name, f"true_to: there is no other feature {one.true_to}; there are: {listed}.")


_RULES: tuple[Callable[[p.Part], Found], ...] = (
    _some_outside, _bar, _eccentric, _lengths, _grooves, _edges, _threads, _standing, _ends, _deep, _threads_in_holes,
    _across, _truth,
)  # fmt: skip


def _walls(part: p.Part) -> Found:
    """Where the hollow comes through to the outside, by the feature that makes it widest there."""
    outer, hollow = outside(part), inside(part)
    told: set[str] = set()
    for z in _places(part):
        for place, after in ((z, True), (z, False)):
            if (after and place >= part.overall - 1e-9) or (not after and place <= 1e-9):
                continue
            on = _on(part, place, after)
            rim = outer_at(outer, place, after=after) - (on.off_axis.nominal if on.off_axis else 0.0)
            if isinstance(on, p.OutsideThread):
                rim = min(rim, minor(on.size) / 2)
            if on.flats is not None and on.flats.start <= place <= on.flats.stop:
                rim = min(rim, on.flats.across_flats.nominal / 2)
            for piece in hollow:
                first, last = piece.points[0][0], piece.points[-1][0]
                there = first - 1e-9 <= place < last - 1e-9 if after else first + 1e-9 < place <= last + 1e-9
                bore = _cut_radius(part, piece.name, piece.at(place, after=after)) if there else 0.0
                if there and bore >= rim - _NEAR and piece.name not in told and bore > 0:
                    told.add(piece.name)
                    yield _wall(part, piece.name, on, bore, rim)


def _wall(part: p.Part, name: str, on: p.Outside, bore: float, rim: float) -> tuple[str, str]:
    room = f"less than {_mm(part, 2 * max(rim, 0.0))}" if rim > 0.01 else "a shorter one"
    or_none = ', or mouth = "none"' if ".mouth" in name else ""
    return _said(
        name,
        f"its {_mm(part, 2 * bore)} leaves no wall in {on.name} of {_mm(part, 2 * max(rim, 0.0))}; "
        f"{room} would do{or_none}.",
    )


def _cut_radius(part: p.Part, name: str, radius: float) -> float:
    """A thread's hole is cut on to its major diameter."""
    one = next((o for o in part.inside if o.name == name), None)
    if isinstance(one, p.InsideThread) and abs(radius - minor(one.size) / 2) < 1e-6:
        return one.size.diameter / 2
    return radius


def _on(part: p.Part, place: float, after: bool) -> p.Outside:
    for one in part.outside:
        if (one.start - 1e-9 <= place < one.stop - 1e-9) if after else (one.start + 1e-9 < place <= one.stop + 1e-9):
            return one
    return part.outside[-1] if after else part.outside[0]


def _places(part: p.Part) -> list[float]:
    from engine.part.shape import breaks

    return [z for z in breaks(outside(part), inside(part)) if -1e-9 <= z <= part.overall + 1e-9]


def with_truths(part: p.Part) -> p.Part:
    """The part with what must run true in it: as written, and as implied where nothing is written."""
    written = [
        p.Truth(feature=one.name, to=one.true_to, within=one.within, implied=False)
        for one in part.features()
        if one.true_to and one.within is not None
    ]
    said = {frozenset((truth.feature, truth.to)) for truth in written}
    implied = [one for one in _implied(part) if frozenset((one.feature, one.to)) not in said]
    return replace(part, truths=(*written, *implied))


def implied_truths(part: p.Part) -> tuple[p.Truth, ...]:
    """What is implied to run true and was not written, in the order of the rules.

    >>> from engine.part.file import read
    >>> head = 'part_version = 1\\ntitle = "Bush"\\nunit = "mm"\\nmaterial = "bronze"\\nbar = "25"\\n'
    >>> out = '[[outside]]\\nis = "diameter"\\nsize = "16 p6"\\nlength = "25"\\n'
    >>> bush = read(head + out + '[[inside]]\\nis = "hole"\\nsize = "10 H7"\\nthrough = true').part
    >>> [(t.feature, t.to, round(t.within, 3)) for t in implied_truths(bush)]
    [('outside.1', 'inside.1', 0.015)]
    """
    return tuple(truth for truth in part.truths if truth.implied)


def _implied(part: p.Part) -> Iterator[p.Truth]:
    yield from _fitted_pairs(part)
    bores = [one for one in part.inside if isinstance(one, p.Hole | p.InsideThread)]
    screws = [one for one in part.outside if isinstance(one, p.OutsideThread)]
    for one in part.outside:
        datum = next(iter((*bores, *screws)), None)
        said = datum is not None and one.true_to == datum.name  # for the diameter the lines stand on
        if one.scale is not None and datum is not None and not said:
            yield p.Truth(
                feature=one.scale.name,
                to=datum.name,
                within=_SCALE_TRUE,
                implied=True,
                why="a scale and its bore or thread",
            )
    for index, one in enumerate(part.outside):
        fitted = isinstance(one, p.Diameter) and is_fitted(one.size)
        if not fitted and not isinstance(one, p.OutsideThread):
            continue
        within, why = (
            (_FACE_TRUE, "the face of a fitted shoulder")
            if fitted
            else (_THREAD_TRUE, "a thread and the face it seats on")
        )
        before, after = _beside(part, index)
        if after is not None and after > one.back_diameter:
            yield p.Truth(
                feature=part.outside[index + 1].name, to=one.name, within=within, implied=True, why=why, face="front"
            )
        if before is not None and before > one.front_diameter:
            yield p.Truth(
                feature=part.outside[index - 1].name, to=one.name, within=within, implied=True, why=why, face="back"
            )
    for bore in part.inside:
        if isinstance(bore, p.InsideThread):
            yield p.Truth(
                feature=bore.end,
                to=bore.name,
                within=_THREAD_TRUE,
                implied=True,
                why="a thread and the face it seats on",
                face=bore.end,
            )


def _fitted_pairs(part: p.Part) -> Iterator[p.Truth]:
    """Sizes on one axis with limits of IT8 or finer: each pair within the wider of the two tolerances."""
    sized = [
        (one, one.diameter if isinstance(one, p.Counterbore) else one.size)
        for one in (*part.outside, *part.inside)
        if isinstance(one, p.Diameter | p.Hole | p.Counterbore)
    ]
    fine = [(one, size) for one, size in sized if is_fitted(size)]
    for i, (one, size) in enumerate(fine):
        for other, its in fine[i + 1 :]:
            if (one.off_axis and one.off_axis.nominal) == (other.off_axis and other.off_axis.nominal):
                within = max(size.tolerance or 0.0, its.tolerance or 0.0)
                yield p.Truth(
                    feature=one.name, to=other.name, within=within, implied=True, why="both have limits of IT8 or finer"
                )


def is_fitted(size: p.Size) -> bool:
    """Whether a size has limits of IT8 or finer of its own.

    >>> from engine.part.sizes import read_size
    >>> is_fitted(read_size("16 p6", "mm")), is_fitted(read_size("16 +-0.1", "mm"))
    (True, False)
    """
    if size.tolerance is None or size.general or not 0 < size.nominal <= 500:
        return False
    from engine.joining.iso286 import tolerance

    return size.tolerance <= tolerance(grade=_FITTED, diameter=size.nominal) + 1e-9
