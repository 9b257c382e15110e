"""What is made off the axis comes to: cross holes, holes on a circle, flats, slots, keyways, lines and figures."""

from __future__ import annotations

from engine.base.rounding import short
from engine.part.part import (
    Across,
    AsBought,
    CrossHole,
    EndFace,
    Figures,
    Flats,
    HoleCircle,
    Keyway,
    Outside,
    Scale,
    Slot,
)
from engine.part.tasks import Bench, Task, limits_of, operation_of
from engine.threads.thread import Thread


def holes(bench: Bench, one: Across) -> list[Task]:
    """The tasks of a hole across the axis or of a circle of holes."""
    circle = isinstance(one, HoleCircle)
    kinds = ("holes", "holes_tap", "holes_countersink") if circle else ("cross_drill", "cross_tap", "cross_countersink")
    often = float(one.holes) if isinstance(one, HoleCircle) else 1.0
    size, depth = _core(bench, one), _depth(bench, one)
    span = {
        "about": one.name, "start": one.start, "stop": one.stop, "end": one.end, "diameter": size,
        "through": one.through,
    }  # fmt: skip
    finished = not one.thread and not _reamed(one)
    first = Task(
        kind=kinds[0],
        title=_title(bench, one, size),
        makes=(one.name,) if finished else (),
        operation="hole-circle" if circle else "hole-plan",
        inputs=_drill_inputs(bench, one, size, depth),
        count="holes" if circle else "steps",
        do=_drill_words(bench, one),
        hazards=("drilling", "clamping"),
        tool=f"drill {bench.shown(size)}",
        element="hole" if circle else "cross_drill",
        often=often,
        **span,  # type: ignore[arg-type]
    )
    tasks = [first]
    if one.thread or _reamed(one):
        tasks.append(_second(bench, one, kinds[1], often, span))
    if one.countersink:
        tasks.append(_sunk(bench, one, kinds[2], size, often, span))
    return tasks


def _reamed(one: Across) -> bool:
    return one.size is not None and bool(one.size.fit)


def _core(bench: Bench, one: Across) -> float:
    if one.thread:
        drill = bench.number("tap-drill", _tapped(bench, one, one.thread), "drill_diameter")
        return drill or one.thread.diameter - float(one.thread.pitch)
    return one.bore


def _tapped(bench: Bench, one: Across, thread: Thread) -> dict[str, str]:
    return bench.tapped(thread, _depth(bench, one), through=one.through or one.depth is None)


def _depth(bench: Bench, one: Across) -> float:
    if one.depth is not None:
        return one.depth.nominal
    if isinstance(one, HoleCircle):
        return max(one.stop - one.start, 0.5)
    if not isinstance(one, CrossHole):
        return bench.part.largest / 2
    outside = bench.part.outside_at(one.z)
    across = outside.largest if outside else bench.part.largest
    return across if one.walls == "both" else (across - _bore_under(bench, one.z)) / 2


def _bore_under(bench: Bench, z: float) -> float:
    """The hole on the axis at a place from the front; 0: one wall then ends at the axis. [mm]"""
    under = [one.smallest for one in bench.part.inside if one.start <= z <= one.stop]
    return min(under, default=bench.part.bar.bore or 0.0)


def _title(bench: Bench, one: Across, size: float) -> str:
    if isinstance(one, HoleCircle):
        return f"Drill {one.holes} holes {bench.shown(size)} on a {bench.shown(one.diameter.nominal)} circle"
    walls = " through one wall" if isinstance(one, CrossHole) and one.walls == "one" else ""
    return f"Drill across {bench.shown(size)}{walls}"


def _drill_inputs(bench: Bench, one: Across, size: float, depth: float) -> tuple[tuple[str, str], ...]:
    if isinstance(one, HoleCircle):
        turned = (("start_angle", f"{short(one.turned)}"),) if one.turned else ()
        return (("holes", str(one.holes)), ("diameter", bench.said(one.diameter.nominal)), *turned)
    return (
        ("diameter", bench.said(size)),
        ("depth", bench.said(depth)),
        ("material", bench.part.material),
        ("hole", "through" if one.through or one.depth is None else "blind"),
        ("machine", "mill"),
    )


def _drill_words(bench: Bench, one: Across) -> tuple[str, ...]:
    if isinstance(one, HoleCircle):
        size, depth = _core(bench, one), _depth(bench, one)
        goes = "through" if one.through or one.depth is None else f"{bench.shown(depth)} deep"
        return (
            "Zero x and y with the spindle over the middle of the circle.",
            f"Centre every hole first, then drill {bench.shown(size)} {goes}.",
            *bench.speed_words("hole-plan", {"diameter": bench.said(size), "depth": bench.said(depth),
                                             "material": bench.part.material, "machine": "mill"}),
        )  # fmt: skip
    words = []
    if isinstance(one, CrossHole):
        words.append(f"{bench.shown(one.z)} from the front face; find the middle over the axis, and centre drill.")
    return tuple(words)


def _second(bench: Bench, one: Across, kind: str, often: float, span: dict[str, object]) -> Task:
    if one.thread:
        text = str(one.thread)
        return Task(
            kind=kind,
            title=f"Tap {text}" + (f", {short(often)} holes" if often > 1 else " across"),
            makes=(one.name,),
            operation="tap-drill",
            inputs=tuple(_tapped(bench, one, one.thread).items()),
            do=("Start the tap in the spindle, turned by hand, machine unplugged.",),
            counts=int(often),
            hazards=("tapping", "clamping"),
            tool=f"tap {text}",
            element="tap",
            often=often * 0.7,
            **span,  # type: ignore[arg-type]
        )
    assert one.size is not None
    return Task(
        kind=kind.replace("tap", "ream"),
        title=f"Ream {bench.size(one.size)}" + (f", {short(often)} holes" if often > 1 else " across"),
        makes=(one.name,),
        operation="ream",
        inputs=(("diameter", bench.said(one.size.nominal)), ("tolerance", one.size.fit or "H7"),
                ("material", bench.part.material)),
        counts=int(often),
        measure=limits_of(bench, "hole", one.size),
        tool=f"reamer {bench.shown(one.size.nominal)}",
        element="ream",
        often=often * 0.7,
        **span,  # type: ignore[arg-type]
    )  # fmt: skip


def _sunk(bench: Bench, one: Across, kind: str, size: float, often: float, span: dict[str, object]) -> Task:
    sunk = one.countersink
    assert sunk is not None
    return Task(
        kind=kind,
        title=f"Countersink {bench.shown(sunk.diameter)} x {short(sunk.angle)}"
        + (f", {short(often)} holes" if often > 1 else ""),
        makes=(sunk.name,),
        operation="countersink",
        inputs=(("hole", bench.said(min(size, sunk.diameter - 0.05))), ("diameter", bench.said(sunk.diameter)),
                ("angle", f"{short(sunk.angle)}"), ("material", bench.part.material), ("machine", "mill")),
        counts=int(often),
        element="chamfer",
        often=often * 0.5,
        **(span | {"about": sunk.name}),  # type: ignore[arg-type]
    )  # fmt: skip


def lines(bench: Bench, one: Outside, scale: Scale) -> list[Task]:
    """Cutting a scale and taking its ridge off."""
    given = dict(scale.inputs)
    given.setdefault("diameter", bench.said(one.front_diameter))
    count = scale.lines or 1
    span = {"about": scale.name, "start": scale.start, "stop": scale.stop, "diameter": one.largest}
    cut = Task(
        kind="lines",
        title=f"Cut {count} lines",
        makes=(scale.name,),
        operation="scale-lines",
        inputs=tuple(given.items()),
        count="lines",
        do=("Spindle still, motor off: the cutter scribes. Clock the drum before the first line.",),
        measure=("the last line closes on the first",),
        hazards=("graduating", "dividing"),
        element="line",
        often=count * 2.25,
        **span,  # type: ignore[arg-type]
    )
    return [cut, _ridge(bench, scale.name, one)]


def _ridge(bench: Bench, name: str, one: Outside) -> Task:
    return Task(
        kind="ridge",
        about=name,
        title="Take the ridge off the lines",
        do=(
            "Spindle still, turned on by hand: fine strip flat on a stick, a few strokes along the lines; the edge last.",
        ),
        hazards=("polishing", "chuck"),
        element="ridge",
        start=one.start,
        stop=one.stop,
        diameter=one.largest,
    )


def figures(bench: Bench, one: Figures, count: int, face: bool) -> Task:
    """Stamping figures by hand."""
    words = [f"{one.text or 'The figures'}{f', {bench.shown(one.height)} high' if one.height else ''}, in a guide."]
    if one.reads:
        words.append(f"They read {one.reads}.")
    words.append("Solid metal under the blow; try the row on a piece of bar first.")
    return Task(
        kind="figures",
        about=one.name,
        title="Stamp the figures",
        makes=(one.name,),
        do=tuple(words),
        counts=count,
        hazards=("graduating", "hand-work"),
        element="figure",
        often=float(count) + (0 if face else 20.0),  # setting up the guide
        start=one.start,
        stop=one.stop,
    )


def flats(bench: Bench, one: Outside, milled: Flats) -> Task:
    """Milling flats: what the cutter touches first is the round, or the side of a bar that has sides."""
    touched = bench.part.bar.size if isinstance(one, AsBought) else one.largest
    operation, inputs = operation_of(
        (
            "flats",
            {
                "sides": str(milled.sides),
                "across_flats": bench.said(milled.across_flats.middle),
                "diameter": bench.said(touched),
            },
        )
    )
    return Task(
        kind="flats",
        about=milled.name,
        title=f"Mill {milled.sides} flats {bench.size(milled.across_flats)} across",
        makes=(milled.name,),
        operation=operation,
        inputs=inputs,
        count="positions",
        measure=limits_of(bench, "across the flats", milled.across_flats),
        hazards=("milling", "dividing"),
        element="flat",
        often=float(milled.sides),
        start=milled.start,
        stop=milled.stop,
        diameter=one.largest,
    )


def slot(bench: Bench, cut: Slot, diameter: float, long: float, end_face: bool) -> Task:
    """Milling a slot along a feature or across an end face."""
    typed = {key: value for key, value in cut.inputs if key in ("cutter", "step", "made_of")}
    given = {
        "width": bench.said(cut.width.middle), "depth": bench.said(cut.depth.middle), "length": bench.said(long),
        "diameter": bench.said(diameter), "material": bench.part.material, **typed,
    }  # fmt: skip
    if end_face:
        given["place"] = "end"
    elif cut.start > 0:
        given["begins"] = bench.said(cut.start)
    return Task(
        kind="end_slot" if end_face else "slot",
        about=cut.name,
        title=f"Mill the slot {bench.size(cut.width)} x {bench.size(cut.depth)}",
        makes=(cut.name,),
        operation="slot",
        inputs=tuple(given.items()),
        do=() if end_face else _from_the_front(bench, cut),
        count="passes",
        measure=(*limits_of(bench, "width", cut.width), *limits_of(bench, "depth", cut.depth)),
        hazards=("milling", "clamping"),
        tool=f"slot drill for {bench.shown(cut.width.nominal)}",
        element="slot",
        start=cut.start,
        stop=cut.stop,
        diameter=diameter,
        end="back" if cut.name.startswith("back") else "front",
    )


def _from_the_front(bench: Bench, cut: Slot | Keyway) -> tuple[str, ...]:
    """Which end face a slot's beginning is counted from, where it has to be told."""
    return (f"The slot begins {bench.shown(cut.start)} from the front face.",) if cut.start > 0 else ()


def keyway(bench: Bench, one: Outside, cut: Keyway) -> Task:
    """Milling the keyway of a shaft."""
    return Task(
        kind="keyway",
        about=cut.name,
        title=f"Mill the keyway {bench.size(cut.width)} x {bench.size(cut.depth)}",
        makes=(cut.name,),
        operation="slot",
        inputs=(("width", bench.said(cut.width.middle)), ("depth", bench.said(cut.depth.middle)),
                ("length", bench.said(max(cut.stop - cut.start, 0.5))), ("diameter", bench.said(one.largest)),
                ("material", bench.part.material), *((("begins", bench.said(cut.start)),) if cut.start > 0 else ())),
        do=_from_the_front(bench, cut),
        count="passes",
        measure=limits_of(bench, "width of the keyway", cut.width),
        hazards=("milling", "clamping"),
        tool=f"slot drill for {bench.shown(cut.width.nominal)}",
        element="slot",
        start=cut.start,
        stop=cut.stop,
        diameter=one.largest,
    )  # fmt: skip


def standing(bench: Bench, one: Outside) -> list[Task]:
    """Everything divided or milled that stands on an outside feature."""
    tasks: list[Task] = []
    if one.scale:
        tasks += lines(bench, one, one.scale)
    if one.figures:
        count = max(1, one.scale.lines // 10 if one.scale else len(one.figures.text) or 1)
        tasks.append(figures(bench, one.figures, count, face=False))
    if one.flats:
        tasks.append(flats(bench, one, one.flats))
    if one.slot:
        tasks.append(slot(bench, one.slot, one.largest, max(one.slot.stop - one.slot.start, 0.5), end_face=False))
    if one.keyway:
        tasks.append(keyway(bench, one, one.keyway))
    return tasks


def on_face(bench: Bench, face: EndFace, diameter: float) -> list[Task]:
    """What stands on an end face off the axis."""
    tasks: list[Task] = []
    if face.slot:
        tasks.append(slot(bench, face.slot, diameter, diameter, end_face=True))
    if face.figures:
        tasks.append(figures(bench, face.figures, max(1, len(face.figures.text)), face=True))
    return tasks
