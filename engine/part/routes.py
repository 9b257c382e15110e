"""Routes: from which end, held how, what in which visit. Each fixes the tasks; their order within a visit comes later.

A route is refused for truth (what must run true to each other is made at one setting, or the run-outs between add
up to no more than asked), for its grips, or because a hard rule would be broken by the order of its visits; the
reason is kept.
"""

from __future__ import annotations

from collections.abc import Iterator

from engine.base.records import replace
from engine.part import tasks_ends
from engine.part.checks import is_fitted
from engine.part.part import AsBought, Diameter, Dome, Groove, Outside, OutsideThread
from engine.part.routes_centres import between_centres
from engine.part.routes_checked import nothing_to_hold
from engine.part.routes_closing import move_to, put_closing
from engine.part.routes_holding import Hold, Side, by_hand_hold, first_hold, parting_room, second_holds
from engine.part.routes_making import CLOSE_NECKS, Draft, Making, Reasons, held_in
from engine.part.routes_milled import can_be_milled, milled
from engine.part.routes_off_axis import late_reaming, off_axis_work, place_off_axis
from engine.part.routes_spigot import put_spigot, spigot_hold, spigot_length
from engine.part.routes_turning import put_turning, support_second, thin_out
from engine.part.routes_visits import visits_of
from engine.part.rules import vocabulary
from engine.part.tasks import Bench, Task
from engine.part.tasks_outside import by_die
from engine.part.words import where

LIGHT = (
    "face2", "chamfer2", "chamfer", "countersink", "seat", "set_true", "stub", "polish", "ridge", "lines", "figures",
    "centre2",
)  # fmt: skip

CENTRED, CENTRED_CLOSE = (4.0, 2.0)  # diameters long: where centres are worth their while, and for close sizes apart
FILED = 0.1  # mm of tolerance on the length: closer ends are faced in the lathe
SCREWED = ("threaded stub", "threaded bush", "arbor")
TWISTING = frozenset(("knurl", "drill", "tap", "bore", "part_off"))  # too much for a stub, a bush or an arbor


def drafts(bench: Bench, reasons: Reasons) -> Iterator[Draft]:
    """Every route there is, not yet checked against truth and hard rules."""
    if bench.shop.lathe is None:
        reasons.add(9, "part", "there is no lathe in the shop; say in the shop what it is.")
        return
    for first in ("front", "back"):
        side = Side(bench.part, first)
        for free in _ways(bench, side):
            if free == "centres":
                yield from between_centres(bench, side, reasons)
            elif free == "milled":
                yield from milled(bench, side, reasons)
            else:
                for split in _splits(bench, side, free):
                    yield from _chucked(bench, side, free, split, reasons)


def drafts_on_spigots(bench: Bench, reasons: Reasons) -> Iterator[Draft]:
    """The routes of the last resort: sawn longer, and the second end made while a spigot on the first is gripped."""
    if bench.shop.lathe is None:
        return
    for first in ("front", "back"):
        side = Side(bench.part, first)
        spigot = spigot_hold(bench, side)
        if spigot is not None:
            for split in (*_splits(bench, side, "sawn"), 0):
                yield from _chucked(bench, side, "sawn", split, reasons, spigot)


def _ways(bench: Bench, side: Side) -> tuple[str, ...]:
    part = bench.part
    ratio = part.overall / max(part.bar.corners, 0.1)
    close = sum(isinstance(one, Diameter) and is_fitted(one.size) for one in part.outside) > 1
    least = CENTRED_CLOSE if close else CENTRED
    centres = (
        not part.inside
        and part.overall >= least * part.largest
        and not any(one.off_axis or _not_on_centres(bench, one) for one in part.outside)
    )
    ends = (part.front.centre, part.back.centre)
    ways = ["centres"] if centres and "none" not in ends else []
    ways += ["milled"] if can_be_milled(bench) else []
    if part.bar.blank is not None:
        return ("piece", *ways)
    return ("bar", *(["sawn"] if ratio >= 1.5 else []), *ways)


def _not_on_centres(bench: Bench, one: Outside) -> bool:
    """A dome where the carrier or the centre stands, and a thread whose die would stand in the tailstock."""
    return isinstance(one, Dome) or (isinstance(one, OutsideThread) and by_die(bench, one))


def _splits(bench: Bench, side: Side, free: str) -> tuple[int, ...]:
    """How many outside features are made at the first setting."""
    order = side.order
    count = len(order)
    widest = [i for i, one in enumerate(order) if one.largest >= bench.part.largest - 1e-6]
    raw = [i for i, one in enumerate(order) if isinstance(one, AsBought)]
    places = {widest[0], widest[0] + 1, widest[-1], widest[-1] + 1, *raw, *(i + 1 for i in raw)} if widest else set()
    if free == "bar":
        places.add(count)
        return tuple(sorted((p for p in places if 0 < p <= count), reverse=True))
    return tuple(sorted((p for p in places if 0 <= p < count), reverse=True))


def _chucked(
    bench: Bench, side: Side, free: str, split: int, reasons: Reasons, spigot: Hold | None = None
) -> Iterator[Draft]:
    base = Making(bench, side, free, split, [])
    necks = _necks(base, reasons)
    if necks is None:
        return
    base.necks = necks
    hold = first_hold(bench, side, free, base.reach)
    if hold is None:
        room = bench.shown(max(bench.part.bar.corners, 8.0))
        name = side.order[min(split, len(side.order) - 1)].name
        reasons.add(
            2, name, f"nothing is left to grip while the {side.first} end is made; {room} of bar more would do."
        )
        return
    out = bench.part.overall + parting_room(bench.shop) if free == "bar" else base.reach + 1.0 + 4.0
    out += spigot_length(spigot) if spigot else 0.0
    for bore_in in _bore_visits(base):
        plan = Making(bench, side, free, split, [], necks)
        if not put_turning(plan, bore_in, hold, out, reasons):
            continue
        if spigot is not None:
            put_spigot(plan, spigot, out)
            yield from _each_stage(plan, hold, spigot, out, reasons)
            continue
        made = (
            frozenset(name for visit, task in plan.tasks if visit in ("a", "o") for name in task.makes)
            | frozenset(one.name for one in side.order[:split] if isinstance(one, AsBought))
            | frozenset(one.name for one in side.order if isinstance(one, AsBought) and free == "bar")
        )
        uncut = [side.near(one) for one in side.order[split:] if not isinstance(one, AsBought)]
        limit = min(uncut, default=bench.part.overall)
        held = list(second_holds(bench, side, made, limit))
        if split == 0 and not all(isinstance(one, AsBought) for one in side.order):
            held = [one for one in held if one.held_by in ("arbor", "threaded stub")]
        if free != "piece" or split:
            held.append(by_hand_hold())
        if not held:
            reasons.add(3, side.order[0].name, _no_second(bench, side))
        for second in held:
            yield from _each_stage(plan, hold, second, out, reasons)


def _each_stage(plan: Making, hold: Hold, second: Hold, out: float, reasons: Reasons) -> Iterator[Draft]:
    """With what lies off the axis done at the first end, at the second, or apart."""
    for stage in ("first", "second", "apart") if off_axis_work(plan.bench) else ("first",):
        yield from _finished(plan, hold, second, stage, out, reasons)


def _no_second(bench: Bench, side: Side) -> str:
    return (
        f"nothing owned can hold it while the {side.second} end is made: no plain diameter of its own length, "
        "no through thread or bore; soft jaws, a collet of its size or a longer plain length would do."
    )


def _necks(plan: Making, reasons: Reasons) -> int | None:
    """How many features of the first setting lie behind a larger one; None where a thread would."""
    found, widest = 0, 0.0
    for index, one in enumerate(plan.first_set):
        if isinstance(one, Dome) and one.closes == plan.side.second:
            reasons.add(1, one.name, f"from the {plan.side.first} end it lies at the blade.")
            return None
        small = one.largest < widest - 1e-6
        if small and not isinstance(one, Groove | AsBought):
            later = max((o.largest for o in plan.side.order[index + 1 :]), default=0.0)
            if isinstance(one, OutsideThread) and later <= one.largest + 1e-6:
                reasons.add(1, one.name, f"from the {plan.side.first} end it would have to be cut behind a shoulder.")
                return None
            close = isinstance(one, Diameter) and is_fitted(one.size) and later <= one.largest + 1e-6
            found += CLOSE_NECKS if close else 1
        widest = max(widest, one.largest)
    behind = plan.side.order[plan.split :]
    widest = 0.0
    for one in behind[::-1]:
        if one.largest < widest - 1e-6 and not isinstance(one, Groove | AsBought):
            found += 1
        widest = max(widest, one.largest)
    return found


def _bore_visits(plan: Making) -> tuple[str, ...]:
    later = {one.name for one in plan.side.order[plan.split :]}
    linked = any(
        not t.face and (t.feature in later or t.to in later) and ("inside" in t.feature + t.to)
        for t in plan.bench.part.truths
    )
    return ("a", "b") if linked and any(one.through for one in plan.bench.part.inside) else ("a",)


def _by_hand(plan: Making, reasons: Reasons) -> bool:
    """Finish the second end with a file where there is no more to it than a face and its edges; False where there is."""
    later = [task for visit, task in plan.tasks if visit == "b"]
    length = plan.bench.part.length
    close = length is not None and length.tolerance is not None and length.tolerance < FILED
    if close or any(task.kind not in ("face2", "chamfer2") for task in later):
        reasons.add(3, plan.side.order[0].name, _no_second(plan.bench, plan.side))
        return False
    plan.tasks[:] = [(visit, _filed(task) if visit == "b" else task) for visit, task in plan.tasks]
    return True


def _filed(task: Task) -> Task:
    words = ("In soft jaws: file it flat and square to the mark, or rub it down on fine cloth on a flat plate.",)
    edge = ("With a fine file, the same all round.",)
    return replace(
        task, operation=None, inputs=(), count="", tool="file", hazards=("hand-work", "deburring"),
        do=words if task.kind == "face2" else edge,
    )  # fmt: skip


def _finished(plan: Making, hold: Hold, second: Hold, stage: str, out: float, reasons: Reasons) -> Iterator[Draft]:
    """Put the work off the axis, the parting and the bench to it, and check the whole."""
    whole = Making(plan.bench, plan.side, plan.free, plan.split, list(plan.tasks), plan.necks)
    placed = place_off_axis(whole, second, stage, reasons)
    if placed is None:
        return
    used = {visit for visit, _ in whole.tasks}
    if plan.free == "bar":
        parting = "ab" if "ah" in used else "o" if "o" in used else "a"
        move_to(whole, ("chamfer_back", "part_groove"), parting)
        whole.put(parting, tasks_ends.parted(plan.bench, plan.side.second))
    elif "ah" in used and not any(v == "ab" for v in used):
        pass
    if second.held_by == "hand" and not _by_hand(whole, reasons):
        return
    heavy = next((t for v, t in whole.tasks if v in ("b", "bh") and t.kind not in LIGHT), None)
    twisting = next((t for v, t in whole.tasks if v == "b" and t.kind in TWISTING), None)
    if second.held_by in SCREWED and twisting is not None:
        reasons.add(
            1, twisting.about, f"{held_in(second)} does not hold it against {vocabulary()[twisting.kind].words}."
        )
        return
    if second.light and heavy is not None:
        little = f"{plan.bench.shown(second.grip_length)} of {where(plan.bench.part, second.grips)}"
        work = f"{heavy.title[0].lower()}{heavy.title[1:]}"
        said = f"{little} is too short a grip for {work}; a longer plain length would do."
        reasons.add(2, heavy.about, said)
        return
    slim = heavy is not None and thin_out(plan, second)
    if slim and not support_second(whole, second, reasons):
        return
    late_reaming(whole)
    put_closing(whole, second)
    visits = visits_of(whole, hold, second, out, slim)
    if visits:
        yield Draft(whole, visits)
    else:
        nothing_to_hold(whole, reasons)
