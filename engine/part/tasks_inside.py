"""What the axis' own hole comes to: drilling, boring, reaming, tapping, and its mouths."""

from __future__ import annotations

from collections.abc import Mapping

from engine.base.answer import Note
from engine.base.records import replace
from engine.base.rounding import short
from engine.base.words import write
from engine.drilling.holes import point_length
from engine.drilling.reach_notes import drill_notes, tap_notes
from engine.drilling.tap_depth import LEADS, one_after_another, tap_for, taps_at_hand
from engine.part.checks import is_fitted as is_fine
from engine.part.part import (
    Ball,
    Chamfer,
    Counterbore,
    Countersink,
    End,
    Hole,
    Inside,
    InsideGroove,
    InsideTaper,
    InsideThread,
    Mouth,
    Size,
)
from engine.part.tasks import Bench, Task, aimed, limits_of, operation_of
from engine.part.tasks_outside import tap_owned

_DRILL_UP_TO = 13.0  # mm: the largest drill of a usual chuck; larger holes are bored
_TAP_UP_TO = 16.0  # mm: the largest tap turned by hand on a light lathe
_LEFT_TO_BORE = 1.0  # mm on the diameter
_LEFT_TO_REAM = 0.2  # mm on the diameter: published 0.13 to 0.25
_AS_DRILLED = 0.1  # mm: what a drill holds by itself; closer sizes are reamed or bored
_BEYOND = 1.0  # mm that a through hole is drilled past the part's end
_FLOOR = 1.0  # mm of metal that a blind hole's point leaves at least
_PAST = 0.5  # mm that it is bored past it: parted off 0.3 long, the end would keep a rim that stops reamer and arbor


def _depth(bench: Bench, one: Inside) -> float:
    return bench.part.overall if one.depth is None else one.depth.nominal


def _bored_depth(bench: Bench, one: Inside) -> float:
    """How deep a boring tool goes for it. [mm]"""
    return _depth(bench, one) + (_PAST if one.through else 0.0)


def _span(bench: Bench, one: Inside, reached: End, hole: str) -> dict[str, object]:
    return {
        "about": one.name, "start": one.start, "stop": one.stop, "end": reached, "hole": hole,
        "through": one.through, "bore": one.largest, "diameter": one.largest,
    }  # fmt: skip


def boring_reaches(bench: Bench, hole: float, depth: float) -> bool:
    """Whether an owned boring tool goes into a hole so deep (a shop that lists none is not held to it)."""
    owned = bench.shop.boring_tools
    return not owned or any(one.least_bore <= hole and one.reach >= depth for one in owned)


def _reamer(bench: Bench, size: float) -> bool:
    return any(abs(one.diameter - size) < 0.005 for one in bench.shop.reamers)


def _largest_drill(bench: Bench) -> float:
    return max((one.diameter for one in bench.shop.drills), default=_DRILL_UP_TO)


def inner(bench: Bench, one: Inside, reached: End, hole: str, *, on_bar: bool = False) -> list[Task]:
    """The tasks that make one inside feature, its mouths and keyway left out; `on_bar` before it is parted off."""
    span = _span(bench, one, reached, hole)
    if isinstance(one, Hole):
        return _hole(bench, one, span)
    if isinstance(one, InsideThread):
        return _thread(bench, one, span, through=one.through and not (on_bar and bench.part.bar.bore is None))
    if isinstance(one, Counterbore):
        return [_counterbore(bench, one, span)]
    if isinstance(one, Countersink):
        return [_sink(bench, one.name, one.bottom or 0.5, one.diameter.nominal, one.angle, span)]
    if isinstance(one, InsideTaper):
        return _taper(bench, one, span)
    if isinstance(one, InsideGroove):
        return [_groove(bench, one, span)]
    if isinstance(one, Ball):
        return _ball(bench, one, span)
    raise TypeError(type(one).__name__)


def _written(bench: Bench, notes: list[Note]) -> tuple[str, ...]:
    return tuple(write(note.text, bench.part.unit) for note in notes)


def drilled(
    bench: Bench,
    size: float,
    depth: float,
    span: dict[str, object],
    *,
    makes: tuple[str, ...] = (),
    flat: bool = False,
    least: float = 0.0,
) -> Task:
    """Drilling a hole on the axis with the tailstock, its full diameter no less deep than `least`. [mm]"""
    through = bool(span["through"])
    deep = max(depth + (_BEYOND if through else 0.0), least)
    given = (
        ("diameter", bench.said(size)),
        ("depth", bench.said(deep)),
        ("material", bench.part.material),
        ("hole", "through" if through else "blind"),
        ("machine", "lathe"),
    )
    words = ("Flat-bottomed: finish with a slot drill or a drill ground flat.",) if flat else ()
    tip = deep + point_length(diameter=size)
    reach = drill_notes(size, tip, bench.shop, otherwise="drill from both ends, or draw right out every half diameter")
    return Task(
        kind="drill",
        title=f"Drill {bench.shown(size)}, {bench.shown(deep)} deep",
        makes=makes,
        operation="hole-plan",
        inputs=given,
        count="steps",
        do=(*words, *_written(bench, reach)),
        tool=f"drill {bench.shown(size)}",
        element="drill",
        often=max(1.0, depth / 25),
        **(span | {"diameter": size, "bore": size}),  # type: ignore[arg-type]
    )


def _hole(bench: Bench, one: Hole, span: dict[str, object]) -> list[Task]:
    size, depth, way = one.size.nominal, _depth(bench, one), _way(bench, one)
    if way == "tube":
        return []
    if way == "drill":
        return [drilled(bench, size, depth, span, makes=(one.name,), flat=one.flat)]
    return _reamed(bench, one, span) if way == "ream" else _bored(bench, one, span)


def _way(bench: Bench, one: Hole) -> str:
    """How a hole is made: it is there in the tube, or it is drilled, reamed or bored to its size."""
    size = one.size.nominal
    if bench.part.bar.bore is not None and abs(bench.part.bar.bore - size) < 0.01:
        return "tube"
    close = one.size.tolerance is not None and not one.size.general and one.size.tolerance < _AS_DRILLED
    if not close and size <= max(_DRILL_UP_TO, _largest_drill(bench)):
        return "drill"
    if not close or not (one.size.fit.startswith("H") or _as_reamed(bench, one.size)):
        return "bore"
    reaches = boring_reaches(bench, size - _LEFT_TO_BORE, _bored_depth(bench, one))
    return "ream" if _reamer(bench, size) or not reaches else "bore"


def _as_reamed(bench: Bench, size: Size) -> bool:
    """Whether what an owned reamer of the size leaves, up to H7 of it, lies within limits that are no fit of ISO 286."""
    if size.low is None or size.high is None or size.fit or not _reamer(bench, size.nominal):
        return False
    high = bench.number("ream", {"diameter": bench.said(size.nominal), "tolerance": "H7"}, "limit_high")
    return size.low <= size.nominal + 1e-6 and high is not None and high <= size.high + 1e-6


def unreached(bench: Bench) -> tuple[str, str] | None:
    """The first bore that no owned tool reaches, and what would do; None where every one is reached."""
    for one in bench.part.inside:
        if not isinstance(one, Hole) or _way(bench, one) != "bore":
            continue
        depth = _bored_depth(bench, one)
        start = bench.part.bar.bore or min(one.size.nominal - _LEFT_TO_BORE, max(_DRILL_UP_TO, _largest_drill(bench)))
        if not boring_reaches(bench, start, depth):
            goes = f"no boring tool of the shop goes {bench.shown(depth)} deep into a hole of {bench.shown(start)}"
            would = f"a tool of that reach, a reamer of {bench.shown(one.size.nominal)} or a shallower bore would do"
            return one.name, f"{goes}, and no reamer of its size is owned; {would}."
    return None


def _reamed(bench: Bench, one: Hole, span: dict[str, object]) -> list[Task]:
    size, depth, bored = one.size.nominal, _depth(bench, one), _bored_depth(bench, one)
    given = {"diameter": bench.said(size), "material": bench.part.material}
    pre = bench.number("ream", given, "pre_drill") or size - _LEFT_TO_REAM
    guided = is_fine(one.size) and size >= 8 and boring_reaches(bench, size - _LEFT_TO_BORE, bored)
    first = size - 0.5 if guided else pre
    goes = _room_for_reamer(bench, one, given, pre)
    if goes:
        given |= {"depth": bench.said(bored), "hole": "through" if one.through else "blind"}
    tasks = [drilled(bench, first, depth, span, least=goes)]
    if guided:
        tasks.append(_boring(bench, size - 0.5, size - _LEFT_TO_REAM, bored, "bore", span))
    tolerance = (("tolerance", one.size.fit),) if one.size.fit else ()
    tasks.append(
        Task(
            kind="ream",
            title=f"Ream {bench.size(one.size)}",
            makes=(one.name,),
            operation="ream",
            inputs=(*given.items(), *tolerance),
            do=("Slow, with plenty of oil; never turn a reamer backwards.",),
            measure=limits_of(bench, "bore", one.size),
            tool=f"reamer {bench.shown(size)}",
            element="ream",
            fine=is_fine(one.size),
            **span,  # type: ignore[arg-type]
        )
    )
    return tasks


def _room_for_reamer(bench: Bench, one: Hole, given: dict[str, str], drill: float) -> float:
    """How deep a hole is drilled at full diameter so that the reamer makes all of it; 0 where there is no such room."""
    asked = {**given, "depth": bench.said(_bored_depth(bench, one)), "hole": "through" if one.through else "blind"}
    tip = bench.number("ream", asked, "drill_to")
    if tip is None or one.flat or one.hole_depth is not None:
        return 0.0
    if not one.through and tip > bench.part.overall - _FLOOR:
        return 0.0
    return tip - point_length(diameter=drill)


def _bored(bench: Bench, one: Hole, span: dict[str, object]) -> list[Task]:
    size, bored = one.size.nominal, _bored_depth(bench, one)
    drill = min(size - _LEFT_TO_BORE, max(_DRILL_UP_TO, _largest_drill(bench)))
    tasks = [] if bench.part.bar.bore else [drilled(bench, drill, _depth(bench, one), span)]
    start = bench.part.bar.bore or drill
    if size - start > 3.0:
        tasks.append(_boring(bench, start, size - 0.5, bored, "bore", span))
        start = size - 0.5
    finish = _boring(bench, start, one.size.middle, bored, "bore_finish", span, (one.name,), one.size)
    return [*tasks, finish]


def _boring(
    bench: Bench,
    start: float,
    to: float,
    depth: float,
    kind: str,
    span: dict[str, object],
    makes: tuple[str, ...] = (),
    aim: Size | None = None,
) -> Task:
    aims = aimed(bench, aim) if aim else {"to": bench.said(to)}
    operation, inputs = operation_of(
        ("bore-to-size", {"hole": bench.said(start), **aims, "depth": bench.said(depth),
                          "material": bench.part.material}),
        ("turning-speed", {"diameter": bench.said(to), "material": bench.part.material, "cut": "0.2"}),
    )  # fmt: skip
    last = kind == "bore_finish"
    return Task(
        kind=kind,
        title=f"Bore {bench.shown(round(to, 3))}, {bench.shown(depth)} deep",
        makes=makes,
        operation=operation,
        inputs=inputs,
        do=("Last cuts alike; let the tool spring itself out.",) if last else (),
        measure=("the bore, spindle stopped",) if last else (),
        element="bore_finish" if last else "bore",
        fine=last,
        **span,  # type: ignore[arg-type]
    )


def core(bench: Bench, one: InsideThread, *, through: bool | None = None) -> float:
    """The tapping drill of an inside thread: the one that its tap is then told. [mm]"""
    given = bench.tapped(one.size, _depth(bench, one), through=one.through if through is None else through)
    return bench.number("tap-drill", given, "drill_diameter") or one.size.diameter - float(one.size.pitch)


def _thread(bench: Bench, one: InsideThread, span: dict[str, object], *, through: bool) -> list[Task]:
    """Drilling and tapping; what goes through the part only, with solid bar behind it, has no far side for the tap."""
    text, depth = str(one.size), _depth(bench, one)
    given, size = bench.tapped(one.size, depth, through=through), core(bench, one, through=through)
    deep = depth if through else bench.number("tap-drill", given, "drill_depth") or depth + one.size.diameter
    if one.hole_depth is not None:
        deep = min(deep, max(depth, one.hole_depth.nominal - 0.3 * size))
    hollow = bench.part.bar.bore is not None and bench.part.bar.bore >= size - 0.3
    largest = max(_DRILL_UP_TO, _largest_drill(bench))
    tasks = [] if hollow else [drilled(bench, min(size, largest), depth, span, least=0.0 if through else deep)]
    if size > largest:
        tasks.append(_boring(bench, largest, size, deep, "bore", span))
    nut = one.tolerance or one.size.kind.usual[1]  # without it the screw of that size would be cut
    of_the_nut = (("tolerance", nut),) if nut else ()
    if tap_owned(bench, one.size) or one.size.diameter <= _TAP_UP_TO:
        return [*tasks, _tap(bench, one, tuple(given.items()), depth, None if through else deep, span)]
    return [
        *tasks,
        Task(
            kind="thread_inside",
            title=f"Screwcut {text} inside",
            makes=(one.name,),
            operation="screwcutting",
            inputs=(("size", text), *of_the_nut, ("material", bench.part.material)),
            count="passes",
            measure=("the thread: its screw goes in by the fingers",),
            element="screwcut",
            often=max(0.8, depth / 15),
            **span,  # type: ignore[arg-type]
        ),
    ]


def _tap(
    bench: Bench,
    one: InsideThread,
    given: tuple[tuple[str, str], ...],
    depth: float,
    hole_depth: float | None,
    span: dict[str, object],
) -> Task:
    text = str(one.size)
    last = tap_for(one.size, bench.shop, depth=depth, hole_depth=hole_depth)
    through = hole_depth is None
    behind = ("The bar is solid behind it: no further than to the bottom.",) if one.through and not through else ()
    ends = "tap from both ends" if one.through else "make it shallower"
    reach = tap_notes(one.size, last, depth, core(bench, one, through=through), bench.shop, otherwise=ends)
    turns = bench.number("tap-drill", dict(given), "tap_turns") or depth / float(one.size.lead)
    missing = (
        ()
        if tap_owned(bench, one.size)
        else (
            f"No {text} tap is among yours: get one before you start, or cut the thread with an inside threading tool.",
        )
    )
    return Task(
        kind="tap",
        title=f"Tap {text}",
        makes=(one.name,),
        operation="tap-drill",
        inputs=given,
        do=(
            *missing,
            "Unplug the lathe; the tailstock centre in the hollow of the tap keeps it straight.",
            f"{short(turns, 0)} turns from the first bite, half a turn back for every turn; {_taps(bench, one, through)}.",
            *behind,
            *_written(bench, reach),
        ),
        measure=("the thread: its screw goes in by the fingers",),
        hazards=("tapping", "chuck"),
        tool=f"tap {text}",
        element="tap",
        often=max(1.0, depth / 10),
        **span,  # type: ignore[arg-type]
    )


def _taps(bench: Bench, one: InsideThread, through: bool) -> str:
    """The set by its usual names, or the taps that the shop lists for the thread."""
    at_hand = taps_at_hand(one.size, bench.shop)
    if at_hand == LEADS:
        return "the taper tap alone" if through else "taper, second, then bottoming tap"
    return one_after_another([name for name, _ in at_hand])


def _counterbore(bench: Bench, one: Counterbore, span: dict[str, object]) -> Task:
    depth = _depth(bench, one)
    under = [
        o.largest for o in bench.part.inside if isinstance(o, Hole | InsideThread) and (o.through or o.end == one.end)
    ]
    start = max((size for size in under if size < one.mouth_diameter), default=one.mouth_diameter - 1)
    operation, inputs = operation_of(
        *([("counterbore", {"size": one.fitting, "material": bench.part.material})] if one.fitting else []),
        ("bore-to-size", {"hole": bench.said(start), **aimed(bench, one.diameter), "depth": bench.said(depth),
                          "material": bench.part.material}),
        ("turning-speed", {"diameter": bench.said(one.mouth_diameter), "material": bench.part.material}),
    )  # fmt: skip
    return Task(
        kind="counterbore",
        title=f"Counterbore {bench.size(one.diameter)}, {bench.shown(depth)} deep",
        makes=(one.name,),
        operation=operation,
        inputs=inputs,
        measure=limits_of(bench, "counterbore", one.diameter),
        element="bore",
        **span,  # type: ignore[arg-type]
    )


def _sink(
    bench: Bench, name: str, hole: float, rim: float, angle: float, span: dict[str, object], kind: str = "countersink"
) -> Task:
    return Task(
        kind=kind,
        title=f"Countersink {bench.shown(rim)} x {short(angle)}",
        makes=(name,),
        operation="countersink",
        inputs=(
            ("hole", bench.said(min(hole, rim - 0.05))),
            ("diameter", bench.said(rim)),
            ("angle", f"{short(angle)}"),
            ("material", bench.part.material),
            ("machine", "lathe"),
        ),
        element="chamfer",
        **(span | {"about": name}),  # type: ignore[arg-type]
    )


def mouth(bench: Bench, one: Inside, edge: Mouth | Chamfer, hole: str) -> Task:
    """Breaking one mouth of a hole or thread."""
    bore = core(bench, one) if isinstance(one, InsideThread) else one.mouth_diameter
    if isinstance(edge, Mouth):
        rim, angle = edge.diameter, edge.angle
    else:
        rim, angle = one.mouth_diameter + 2 * edge.depth, 2 * edge.angle
    place = 0.0 if edge.at == "front" else bench.part.overall
    span = _span(bench, one, edge.at, hole) | {"start": place, "stop": place}
    return _sink(bench, edge.name, bore, rim, min(max(angle, 30.0), 140.0), span)


def _taper(bench: Bench, one: InsideTaper, span: dict[str, object]) -> list[Task]:
    depth = _depth(bench, one)
    small = one.smallest
    largest = max(_DRILL_UP_TO, _largest_drill(bench))
    drill = min(small - 0.5, largest)
    operation, inputs = operation_of(
        ("taper", {"from": bench.said(one.largest), "to": bench.said(small), "length": bench.said(depth),
                   "where": "bore", "material": bench.part.material}),
        ("turning-speed", {"diameter": bench.said(one.largest), "material": bench.part.material}),
    )  # fmt: skip
    hollow = bench.part.bar.bore is not None
    return [
        *([] if hollow else [drilled(bench, drill, depth, span)]),
        Task(
            kind="taper_bore",
            title=f"Bore the taper {bench.shown(one.mouth_diameter)} to {bench.shown(one.bottom_diameter)}",
            makes=(one.name,),
            operation=operation,
            inputs=inputs,
            do=("Tool exactly on centre height. Try the plug with blue before the top slide is moved.",),
            measure=("with the plug and blue",),
            element="taper",
            often=2.0,
            **span,  # type: ignore[arg-type]
        ),
    ]


def _groove(bench: Bench, one: InsideGroove, span: dict[str, object]) -> Task:
    operation, inputs = operation_of(
        ("turning-speed", {"diameter": bench.said(one.mouth_diameter), "material": bench.part.material})
    )
    return Task(
        kind="groove_inside",
        title=f"Groove in the bore {bench.shown(one.mouth_diameter)} x {bench.size(one.width)}",
        makes=(one.name,),
        operation=operation,
        inputs=inputs,
        do=(f"Its middle {bench.size(one.at)} from {'the face' if one.at_from == 'front' else one.at_from}.",),
        element="groove",
        **span,  # type: ignore[arg-type]
    )


def _ball(bench: Bench, one: Ball, span: dict[str, object]) -> list[Task]:
    given = {"ball": bench.said(one.ball), "hole": bench.said(one.hole.nominal),
             "stand_out": bench.said(one.stand_out.nominal)}  # fmt: skip
    seat = _seat(bench, one, given, span)
    glued = one.hold.startswith("glu")
    operation, inputs = operation_of(
        *([("retain", {"diameter": bench.said(one.hole.nominal)})] if glued else []), ("ball-seat", given)
    )
    words = "Wash seat and ball, glue it in" if glued else "Press the ball home and stake the lip round it"
    return [
        seat,
        Task(
            kind="ball",
            title=f"Put the {bench.shown(one.ball)} ball in",
            makes=(one.name,),
            operation=operation,
            inputs=inputs,
            do=(f"{words}; it stands out {bench.size(one.stand_out)}.",),
            hazards=("adhesive",) if glued else ("pressing",),
            measure=limits_of(bench, "stands out", one.stand_out),
            element="ball",
            **span,  # type: ignore[arg-type]
        ),
    ]


def _seat(bench: Bench, one: Ball, given: Mapping[str, str], span: dict[str, object]) -> Task:
    """Its hole: as deep as lets the ball, on the cone that the drill leaves, stand out as far as is wanted."""
    cone = bench.number("ball-seat", given, "point_depth")
    depth = cone or bench.number("ball-seat", given, "depth") or one.ball - one.stand_out.nominal
    task = drilled(bench, one.hole.nominal, round(depth, 2), span)
    words = f"Try the ball loose on the drill's cone: it stands out {bench.size(one.stand_out)}."
    return replace(task, do=(*task.do, words)) if cone else task


def broached(bench: Bench, one: Inside, reached: End, hole: str) -> list[Task]:
    """The keyway of a bore, cut by hand with a broach."""
    if one.keyway is None:
        return []
    given = {"diameter": bench.said(one.mouth_diameter)}
    known = bool(bench.answer("key", given))  # the standard has no keys for the smallest bores
    return [
        Task(
            kind="keyway_inside",
            title=f"Broach the keyway {bench.size(one.keyway.width)} x {bench.size(one.keyway.depth)}",
            makes=(one.keyway.name,),
            operation="key" if known else None,
            inputs=tuple(given.items()) if known else (),
            do=("Broach in its guide, square to the face, oiled; shims one by one to the depth.",),
            measure=limits_of(bench, "width of the keyway", one.keyway.width),
            hazards=("hand-work", "pressing"),
            element="broach",
            **(_span(bench, one, reached, hole) | {"about": one.keyway.name}),  # type: ignore[arg-type]
        )
    ]
