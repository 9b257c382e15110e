"""What the outside features come to: turning, threading, knurling, and what stands on them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import ceil
from typing import Any

from engine.part.checks import is_fitted as is_fine
from engine.part.part import (
    AsBought,
    Chamfer,
    Diameter,
    Dome,
    End,
    Groove,
    Knurl,
    Outside,
    OutsideThread,
    Part,
    Round,
    Size,
    Taper,
)
from engine.part.tasks import Bench, Task, aimed, limits_of, operation_of
from engine.threads.thread import Thread

_ROUGH_ABOVE = 1.0  # mm on the diameter: less comes off in the finishing cuts
_LEFT = ((6.0, 0.5), (18.0, 0.6), (50.0, 0.8))  # left for finishing by diameter: common practice
_TURN_OFF = 2.0  # mm on the diameter in one roughing cut
LEAST_CUT = 0.06  # mm on the diameter: less rubs and does not cut; common practice 0.02 to 0.05
_DIE_UP_TO = 12.0  # mm: larger threads are hard to turn a die on by hand


def left_for_finishing(diameter: float) -> float:
    """What roughing leaves on a diameter. [mm]

    Source: Common practice, no source; published figures of 0.4 to 0.8 mm (a US Navy manual, a handbook of about 1910).

    >>> left_for_finishing(10.0)
    0.6
    """
    return next((left for upto, left in _LEFT if diameter <= upto), 1.0)


def _span(one: Outside, reached: End) -> dict[str, object]:
    return {"about": one.name, "start": one.start, "stop": one.stop, "end": reached, "diameter": one.largest}


def turned(bench: Bench, one: Outside, reached: End) -> list[Task]:
    """The tasks that make one outside feature, its own edges and finish left out."""
    if isinstance(one, AsBought):
        return []
    makers: dict[type, Callable[[Bench, Any, End], list[Task]]] = {
        Diameter: _diameter, Taper: _taper, OutsideThread: _thread, Knurl: _knurl, Groove: _groove, Dome: _dome
    }  # fmt: skip
    return makers[type(one)](bench, one, reached)


def _ahead(bench: Bench, one: Outside, reached: End) -> tuple[Outside, ...]:
    """The features between the end that is reached and this one."""
    order = bench.part.outside if reached == "front" else bench.part.outside[::-1]
    return order[: order.index(one)]


def far_end(part: Part, one: Outside, reached: End) -> float:
    """From the face that the dial is zeroed on to the feature's far end: where the saddle stops. [mm]"""
    return one.stop if reached == "front" else part.overall - one.start


def _roughed(bench: Bench, one: Outside, reached: End, to: float) -> list[Task]:
    bar = bench.part.bar.corners
    left = left_for_finishing(to)
    if bar - to <= left + _ROUGH_ABOVE:
        return []
    leave = to + left
    operation, inputs = operation_of(
        ("turn-to-size", {"from": bench.said(bar), "to": bench.said(leave), "length": bench.said(one.long),
                          "material": bench.part.material}),
        ("turning-speed", {"diameter": bench.said(bar), "material": bench.part.material}),
    )  # fmt: skip
    behind = any(_kept(other) > leave + 1e-6 for other in _ahead(bench, one, reached))
    long = one.long if behind else far_end(bench.part, one, reached)
    cuts = max(1, ceil((bar - leave) / _TURN_OFF))
    return [
        Task(
            kind="rough",
            title=f"Rough to {bench.shown(leave)} x {bench.shown(long)}",
            operation=operation,
            inputs=inputs,
            do=(
                *((_only(bench, one, reached),) if behind else ()),
                f"Leave {bench.shown(left)} on the diameter and a little on the shoulder.",
            ),
            element="rough",
            often=min(4.0, 0.5 + 0.25 * cuts),
            counts=cuts,
            **_span(one, reached),  # type: ignore[arg-type]
        )
    ]


def _kept(one: Outside) -> float:
    """The least that roughing something behind a feature may leave of it: with what its own finishing takes. [mm]"""
    return one.largest + (0.0 if isinstance(one, AsBought | Knurl) else left_for_finishing(one.largest))


def _only(bench: Bench, one: Outside, reached: End) -> str:
    """Where along the work something is turned that stands behind what is larger: the cut must not begin at the end."""
    stop = far_end(bench.part, one, reached)
    return f"Only from {bench.shown(stop - one.long)} to {bench.shown(stop)} on: before it the work stays larger."


def _behind(bench: Bench, one: Outside, reached: End, to: float) -> tuple[str, ...]:
    larger = any(other.largest > to + 1e-6 for other in _ahead(bench, one, reached))
    return (_only(bench, one, reached),) if larger else ()


def _cut(bench: Bench, before: float, aim: dict[str, str], long: float) -> tuple[str, tuple[tuple[str, str], ...]]:
    return operation_of(
        ("turn-to-size", {"from": bench.said(before), **aim, "length": bench.said(long),
                          "material": bench.part.material}),
        ("turning-speed", {"diameter": bench.said(before), "material": bench.part.material, "cut": "0.25"}),
    )  # fmt: skip


def before_finishing(bench: Bench, to: float) -> float:
    """What the finishing cuts begin from: the roughed diameter, or the bar where nothing is roughed. [mm]"""
    left = left_for_finishing(to)
    bar = bench.part.bar.corners
    return bar if bar - to <= left + _ROUGH_ABOVE else to + left


def _fillet(one: Outside) -> tuple[str, ...]:
    return (one.fillet.name,) if one.fillet else ()


def _diameter(bench: Bench, one: Diameter, reached: End) -> list[Task]:
    before = before_finishing(bench, one.size.nominal)
    operation, inputs = _cut(bench, before, aimed(bench, one.size), one.long)
    if before - one.size.middle < LEAST_CUT:  # the bar's own size: nothing to be turned to a dial
        operation, inputs = operation_of(
            ("turning-speed", {"diameter": bench.said(before), "material": bench.part.material, "cut": "0.05"})
        )
    fine = is_fine(one.size)
    finish = Task(
        kind="finish",
        title=f"Turn {bench.size(one.size)} x {bench.size(one.length)}",
        makes=(one.name, *_fillet(one)),
        operation=operation,
        inputs=inputs,
        do=(*_behind(bench, one, reached, one.size.nominal), *_finish_words(bench, one, fine)),
        measure=(
            *limits_of(bench, "diameter", one.size),
            *(() if one.length.general else limits_of(bench, "length", one.length)),
        ),
        element="finish" if fine else "rough",
        fine=fine,
        tool="finishing tool",
        **_span(one, reached),  # type: ignore[arg-type]
    )
    return [*_roughed(bench, one, reached, one.size.nominal), finish]


def _finish_words(bench: Bench, one: Diameter, fine: bool) -> tuple[str, ...]:
    words = ["The diameter and its shoulder with one tool at one setting."]
    if one.fillet:
        words.append(f"Corner radius {bench.shown(one.fillet.radius)} on the tool.")
    if fine:
        words.append("Let it cool, measure, and make the last two cuts alike.")
    return tuple(words)


def _taper(bench: Bench, one: Taper, reached: End) -> list[Task]:
    large, small = one.largest, one.smallest
    operation, inputs = operation_of(
        (
            "taper",
            {
                "from": bench.said(large),
                "to": bench.said(small),
                "length": bench.said(one.long),
                "where": "outside",
                "material": bench.part.material,
            },
        ),
        ("turning-speed", {"diameter": bench.said(large), "material": bench.part.material}),
    )
    cone = Task(
        kind="taper",
        title=f"Turn the taper {bench.shown(one.front_diameter)} to {bench.shown(one.back_diameter)}",
        makes=(one.name, *_fillet(one)),
        operation=operation,
        inputs=inputs,
        do=("Set the top slide by the clock along a known taper or by its own readings, and lock the saddle.",),
        measure=(*limits_of(bench, "large end", one.from_size), *limits_of(bench, "small end", one.to_size)),
        element="taper",
        often=2.0,
        **_span(one, reached),  # type: ignore[arg-type]
    )
    return [*_roughed(bench, one, reached, large), cone]


def _owned_word(size: Thread, owned: tuple[str, ...]) -> bool:
    from engine.threads.designation import parse

    for word in owned:
        try:
            known = parse(word)
        except ValueError:
            continue
        if abs(known.diameter - size.diameter) < 0.01 and known.pitch == size.pitch:
            return True
    return False


def by_die(bench: Bench, one: OutsideThread) -> bool:
    """Whether a thread is cut with a die: an owned one, of a size that goes by hand, from an end that lets it on."""
    size, order = one.size, bench.part.outside
    place = order.index(one)
    open_end = any(all(o.largest <= size.diameter + 1e-6 for o in side) for side in (order[:place], order[place + 1 :]))
    return open_end and size.diameter <= _DIE_UP_TO and _owned_word(size, bench.shop.dies)


def tap_owned(bench: Bench, size: Thread) -> bool:
    """Whether the shop has the tap."""
    listed = (tap.size for tap in bench.shop.tap_kinds)
    same = any(abs(one.diameter - size.diameter) < 0.01 and one.pitch == size.pitch for one in listed)
    return same or _owned_word(size, bench.shop.taps)


def _thread(bench: Bench, one: OutsideThread, reached: End) -> list[Task]:
    size, text = one.size, str(one.size)
    limits = {"size": text, **({"tolerance": one.tolerance} if one.tolerance else {})}
    major = bench.number("thread-limits", limits, "ext_major_max") or size.diameter
    small = bench.number("thread-limits", limits, "ext_major_min") or major
    tasks = _roughed(bench, one, reached, size.diameter)
    bar = bench.part.bar
    as_it_is = small - 1e-6 <= bar.size <= major + 1e-6 or (abs(bar.size - size.diameter) < 0.05 and by_die(bench, one))
    if not (bar.section == "round" and as_it_is):
        aim = aimed(bench, Size(size.diameter, small, major)) if small < major else {"to": bench.said(major)}
        operation, inputs = _cut(bench, before_finishing(bench, size.diameter), aim, one.long)
        tasks.append(
            Task(
                kind="major",
                title=f"Turn {bench.shown((major + small) / 2)} for {text}",
                operation=operation,
                inputs=inputs,
                do=_behind(bench, one, reached, major),
                measure=(f"outside of the thread: {bench.shown(small)} to {bench.shown(major)}",),
                element="rough",
                tool="finishing tool",
                **_span(one, reached),  # type: ignore[arg-type]
            )
        )
    if one.relief:
        tasks.append(
            Task(
                kind="relief",
                title=f"Groove behind {text}",
                makes=(one.relief.name,),
                operation="thread-relief",
                inputs=(("size", text),),
                element="groove",
                **_span(one, reached),  # type: ignore[arg-type]
            )
        )
    tasks.append(_screw(bench, one, reached))
    return tasks


def _screw(bench: Bench, one: OutsideThread, reached: End) -> Task:
    text = str(one.size)
    span = _span(one, reached)
    if by_die(bench, one):
        return Task(
            kind="thread",
            title=f"Cut {text} with the die",
            makes=(one.name,),
            operation="thread-limits",
            inputs=(("size", text), *((("tolerance", one.tolerance),) if one.tolerance else ())),
            do=(
                "Die in the tailstock holder, opened; unplug the lathe and turn the chuck by hand.",
                "Half a turn back for every turn; close the die until the nut goes.",
            ),
            measure=("the nut goes on by the fingers",),
            hazards=("tapping",),
            tool=f"die {text}",
            element="die",
            **span,  # type: ignore[arg-type]
        )
    gap = _gap(bench, one)
    return Task(
        kind="thread",
        title=f"Screwcut {text}",
        makes=(one.name,),
        operation="screwcutting",
        inputs=(
            ("size", text),
            *((("tolerance", one.tolerance),) if one.tolerance else ()),
            ("material", bench.part.material),
            *((("gap", bench.said(gap)),) if gap else ()),
        ),
        do=tuple(_wheels(bench, text)),
        count="passes",
        measure=("over wires or with the nut, before anything is moved",),
        element="screwcut",
        often=max(0.6, one.long / 15),
        tool=f"threading tool {text}",
        **span,  # type: ignore[arg-type]
    )


def _wheels(bench: Bench, size: str) -> Iterator[str]:
    """The change wheels and when to close the half-nuts, as far as the shop's lathe tells them."""
    train = bench.answer("change-gears", {"size": size})
    if train:
        yield f"Change wheels {train['drivers']} driving, {train['driven']} driven; {train['thread_dial']}."


def _gap(bench: Bench, one: OutsideThread) -> float | None:
    if one.relief:
        figure = "relief_width_short" if one.relief.short else "relief_width"
        return bench.number("thread-relief", {"size": str(one.size)}, figure)
    return one.runout.nominal if one.runout else None


def knurl_inputs(bench: Bench, one: Knurl) -> dict[str, str]:
    """The inputs of knurl-blank for a knurl."""
    given = {"near": bench.said(one.near.nominal), "near_is": one.near_is, "form": one.form, "pitch": one.pitch,
             "tpi": one.tpi, "diametral_pitch": one.diametral_pitch, "material": bench.part.material}  # fmt: skip
    return {key: value for key, value in given.items() if value}


def _knurl(bench: Bench, one: Knurl, reached: End) -> list[Task]:
    given = knurl_inputs(bench, one)
    blank = bench.number("knurl-blank", given, "blank_diameter") or one.near.nominal
    span = _span(one, reached)
    passes = {"diameter": bench.said(blank), "width": bench.said(one.long), "material": bench.part.material}
    ahead = far_end(bench.part, one, reached) - one.long
    passes |= {"start": bench.said(ahead)} if ahead > 0 else {}
    passes |= {"form": one.form} if one.form else {}
    wheel = bench.number("knurl-blank", given, "wheel_pitch")
    passes |= {"pitch": bench.said(wheel)} if wheel else {}
    return [
        *_roughed(bench, one, reached, blank),
        Task(
            kind="blank",
            title=f"Turn {bench.shown(blank)} for the knurl",
            operation="knurl-blank",
            inputs=tuple(given.items()),
            do=(
                *_behind(bench, one, reached, blank),
                *bench.speed_words("turning-speed", {"diameter": bench.said(blank), "material": bench.part.material}),
            ),
            measure=("the blank at both ends, spindle stopped",),
            element="finish",
            tool="finishing tool",
            **span,  # type: ignore[arg-type]
        ),
        Task(
            kind="knurl",
            title=f"Knurl {bench.shown(one.near.nominal)} x {bench.shown(one.long)}",
            makes=(one.name,),
            operation="knurl-passes",
            inputs=tuple(passes.items()),
            count="passes",
            measure=("over the crests",),
            element="knurl",
            **span,  # type: ignore[arg-type]
        ),
    ]


def _groove(bench: Bench, one: Groove, reached: End) -> list[Task]:
    operation, inputs = operation_of(
        ("part-off", {"diameter": bench.said(bench.part.bar.corners), "material": bench.part.material})
    )
    return [
        Task(
            kind="groove",
            title=f"Groove {bench.size(one.size)} x {bench.size(one.length)}",
            makes=(one.name, *_fillet(one)),
            operation=operation,
            inputs=inputs,
            do=("Stop at the groove's diameter; side to side if the blade is narrower.",),
            measure=limits_of(bench, "bottom of the groove", one.size),
            element="groove",
            **_span(one, reached),  # type: ignore[arg-type]
        )
    ]


def _dome(bench: Bench, one: Dome, reached: End) -> list[Task]:
    return [
        *_roughed(bench, one, reached, one.base),
        Task(
            kind="dome",
            title=f"Form the dome, radius {bench.shown(one.sphere)}",
            makes=(one.name,),
            do=(
                "Rough it in steps with both slides, then file and strip to a gauge cut from card.",
                "File left-handed, sleeves rolled up, a handle on the file.",
            ),
            measure=("with the radius gauge",),
            hazards=("filing", "turning", "chuck"),
            element="dome",
            **_span(one, reached),  # type: ignore[arg-type]
        ),
    ]


def edge(bench: Bench, one: Outside, broken: Chamfer | Round, kind: str, reached: End) -> Task:
    """The task that breaks one edge of an outside feature."""
    front = not isinstance(broken, Chamfer) or broken.at == "front"
    what = (
        f"Round the edge, radius {bench.shown(broken.radius)}"
        if isinstance(broken, Round)
        else f"Chamfer {bench.written(broken)}"
    )
    diameter = one.front_diameter if front else one.back_diameter
    given = {"diameter": bench.said(max(diameter, 0.2)), "material": bench.part.material}
    if isinstance(broken, Chamfer) and broken.angle == 45 and broken.depth:
        given["in_by"] = bench.said(broken.depth)  # the tool's edge moves in by as much as it takes off the corner
    operation, inputs = operation_of(("turning-speed", given))
    place = one.start if front else one.stop
    return Task(
        kind=kind,
        about=broken.name,
        title=f"{what} on {'the front' if front else 'the back'} of {bench.shown(diameter)}",
        makes=(broken.name,),
        operation=operation,
        inputs=inputs,
        element="chamfer",
        start=place,
        stop=place,
        diameter=diameter,
        end=reached,
    )


def polish(bench: Bench, name: str, diameter: float, start: float, stop: float, reached: End) -> Task:
    """Polishing one surface on the lathe."""
    choices = [("turning-speed", {"diameter": bench.said(max(diameter, 0.2)), "material": bench.part.material})]
    operation, inputs = operation_of(
        ("finish-by-hand", {"diameter": bench.said(max(diameter, 0.2)), "material": bench.part.material}), *choices
    )
    return Task(
        kind="polish",
        about=name,
        title="Polish",
        makes=(name,),
        operation=operation,
        inputs=inputs,
        do=("Strip held by its ends, never wound round a finger; coarse to fine.",),
        hazards=("polishing", "turning", "chuck"),
        element="polish",
        start=start,
        stop=stop,
        diameter=diameter,
        end=reached,
    )


def limits_fine(size: Size | None) -> bool:
    """Whether there is a size and it is fine."""
    return size is not None and is_fine(size)
