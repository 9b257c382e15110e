"""Where the work off the axis is done: carried over in the chuck, at the second end, or apart."""

from __future__ import annotations

from engine.part import tasks_across, tasks_ends
from engine.part.part import Outside
from engine.part.routes_holding import Hold
from engine.part.routes_making import Making, Reasons
from engine.part.tasks import Bench, Task

_NO_DIVIDING = "nothing owned divides a circle; a dividing head, a rotary table or a wheel on the spindle would."


def off_axis_work(bench: Bench) -> bool:
    """Whether there is anything to do off the axis."""
    part = bench.part
    stands = any(o.scale or o.flats or o.slot or o.keyway or o.figures for o in part.outside)
    return bool(stands or part.across or part.front.slot or part.back.slot)


_CARRIES = ("three-jaw", "four-jaw", "soft jaws", "arbor", "threaded stub", "threaded bush")
_DIVIDED = ("lines", "flats", "holes", "holes_tap", "holes_ream", "holes_countersink")


def dividing(bench: Bench) -> str:
    """What divides a circle in this shop; "" for nothing."""
    shop = bench.shop
    if shop.dividing_head:
        return "dividing head"
    if shop.rotary_table:
        return "rotary table"
    return "spindle wheel" if shop.lathe and shop.lathe.spindle_wheel else ""


def _carries(bench: Bench) -> bool:
    head = bench.shop.dividing_head
    return bool(head and head.takes_chuck and bench.shop.mill) or dividing(bench) == "spindle wheel"


def place_off_axis(plan: Making, second: Hold, stage: str, reasons: Reasons) -> bool | None:
    """Give every task off the axis its visit; None where one has none in this stage."""
    bench, side = plan.bench, plan.side
    groups: list[tuple[list[Task], Outside | None]] = []
    for one in side.order:
        tasks = tasks_across.standing(bench, one)
        for root in ("scale", "flats", "slot", "keyway"):
            mine = [t for t in tasks if t.about == f"{one.name}.{root}" or (root == "scale" and t.kind == "figures")]
            if mine:
                groups.append((mine, one))
        if one.figures and not one.scale:
            plan.put("z", *(t for t in tasks if t.kind == "figures"))
            groups = [(m, o) for m, o in groups if not all(t.kind == "figures" for t in m)]
    groups += [(tasks_across.holes(bench, one), None) for one in bench.part.across]
    for face in (bench.part.front, bench.part.back):
        on = tasks_across.on_face(bench, face, tasks_ends.end_size(bench.part, face.name))  # type: ignore[arg-type]
        plan.put("z", *(t for t in on if t.kind == "figures"))
        if cut := [t for t in on if t.kind != "figures"]:
            groups.append((cut, None))
    hits = False
    early = second.held_by == "arbor" and any(o.scale for o in side.order)
    for tasks, base in groups:
        flat_bar = bench.part.bar.section == "square" and all(t.kind == "flats" for t in tasks)
        divided = any(t.kind in _DIVIDED for t in tasks) and not flat_bar
        if divided and not dividing(bench):
            reasons.add(8, tasks[0].about, _NO_DIVIDING)
            return None
        where = _where(plan, tasks, base, second, stage, early)
        hits = hits or where[0] == {"first": "a", "second": "b", "apart": "q"}[stage] or (stage == "apart")
        machine = "qh" if divided and where == "q" else where
        for task in tasks:
            at = machine
            if task.kind == "ridge":
                at = {"ah": "ab", "bh": "bb"}.get(machine, "z")
            plan.put(at, task)
    return hits or not groups or None


def _where(plan: Making, tasks: list[Task], base: Outside | None, second: Hold, stage: str, early: bool) -> str:
    order = {"first": ("ah", "bh", "q"), "second": ("bh", "q"), "apart": ("q",)}[stage]
    for visit in order:
        if visit == "ah" and _reached_first(plan, tasks, base):
            return "ah"
        if visit == "bh" and _reached_second(plan, tasks, base, second):
            return "bh"
    across = any(t.kind.startswith("cross") for t in tasks)
    home = base is None or plan.home(base) == "a"
    return "p" if early and across and home else "q"


def _open_edge(order: tuple[Outside, ...], one: Outside) -> bool:
    """Whether a cutter can run on to a feature from its free side: nothing as large stands before it."""
    index = order.index(one)
    return index == 0 or order[index - 1].largest < one.largest - 0.5


def _reached_first(plan: Making, tasks: list[Task], base: Outside | None) -> bool:
    bench, side = plan.bench, plan.side
    if not _carries(bench):
        return False
    kinds = {t.kind for t in tasks}
    if dividing(bench) == "spindle wheel" and not kinds <= {"lines", "ridge", "figures"}:
        return False
    if base is not None:
        if plan.home(base) != "a":
            return False
        return "lines" not in kinds or _open_edge(side.order, base)
    if kinds & {"holes", "end_slot"}:
        return tasks[0].end == side.first
    return all(plan.home(one) == "a" for one in side.order if one.start <= tasks[0].start < one.stop)


def _reached_second(plan: Making, tasks: list[Task], base: Outside | None, second: Hold) -> bool:
    bench, side = plan.bench, plan.side
    if not _carries(bench) or second.held_by not in _CARRIES:
        return False
    kinds = {t.kind for t in tasks}
    if dividing(bench) == "spindle wheel" and not kinds <= {"lines", "ridge", "figures"}:
        return False
    short = "bush" in second.between and second.grip_length < second.grip_diameter
    if short and not kinds <= {"lines", "ridge", "figures"}:
        return False
    inside_out = second.held_by in ("arbor", "threaded stub")
    if base is not None:
        gripped = not inside_out and second.grip_from < base.stop - 1e-6 and base.start < second.grip_to - 1e-6
        if gripped:
            return False
        return "lines" not in kinds or second.held_by == "arbor" or _open_edge(side.order[::-1], base)
    if kinds & {"holes", "end_slot"}:
        return tasks[0].end == side.second and not (inside_out and "end_slot" in kinds)
    if inside_out:
        return False
    middle = (tasks[0].start + tasks[0].stop) / 2
    return not second.grip_from <= middle <= second.grip_to


def late_reaming(plan: Making) -> None:
    """A close bore that a cross hole on the bar breaks into is finished after it, with all that must be true to it;
    not where lines or flats already stand on that, when the reamer goes through by hand instead."""
    if not any(v == "ah" and t.kind == "cross_drill" for v, t in plan.tasks):
        return
    broken = [
        t for v, t in plan.tasks if v == "a" and t.kind in ("ream", "bore_finish") and any(
            w == "ah" and c.kind == "cross_drill" and t.start <= (c.start + c.stop) / 2 <= t.stop
            for w, c in plan.tasks)
    ]  # fmt: skip
    lined = {t.root for v, t in plan.tasks if v == "ah" and not t.kind.startswith("cross")}
    fine = [t for v, t in plan.tasks if v == "a" and t.fine]
    if broken and not lined & {t.root for t in fine}:
        late = {id(t) for t in (*broken, *fine)}
        plan.tasks[:] = [("ab" if id(t) in late and v == "a" else v, t) for v, t in plan.tasks]
