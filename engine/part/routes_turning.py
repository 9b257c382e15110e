"""What the lathe does at the first and the second end."""

from __future__ import annotations

from collections.abc import Sequence

from engine.base.records import replace
from engine.base.rounding import short
from engine.part import tasks_ends, tasks_inside, tasks_outside
from engine.part.part import AsBought, Chamfer, End, InsideGroove, Knurl, Outside
from engine.part.routes_holding import Hold, jaws
from engine.part.routes_making import LONG, Making, Reasons, hole_key, is_slim
from engine.part.routes_visits import held_to
from engine.part.tasks import Bench, Task, has_operation, operation_of

KNURL_OUT = 2.0  # diameters: a push-type wheel beyond this asks for the centre; common practice
WEAK_KNURL_OUT = 0.5  # the same where the tool post is weak and the centre costs nothing


def put_turning(plan: Making, bore_in: str, hold: Hold, out: float, reasons: Reasons) -> bool:
    """Put the lathe's tasks into the first and the second setting."""
    bench, side, part = plan.bench, plan.side, plan.bench.part
    piece = plan.free != "bar"
    if part.bar.blank is None:
        _sawing(plan, piece)
    face = tasks_ends.faced(bench, side.first, "face", to_length=False)
    raw = tuple(one.name for one in part.outside if isinstance(one, AsBought))
    through = not piece and not _too_thick(bench)
    pull = f"The work stands out {bench.shown(out)} from the jaws: {'pull the bar out' if through else 'grip it so'}."
    plan.put("a", replace(face, makes=raw, do=(pull,)))
    for one in side.order:
        visit = plan.home(one)
        reached = side.first if visit in ("a", "o") else side.second
        plan.put(visit, *tasks_outside.turned(bench, one, reached))
        _edges(plan, one, visit)
        if one.finish and "polish" in one.finish.words:
            plan.put(visit, tasks_outside.polish(bench, one.finish.name, one.largest, one.start, one.stop, reached))
    _inside(plan, bore_in)
    _set_over(plan)
    plan.put("b", tasks_ends.faced(bench, side.second, "face2", to_length=True, off=0.3 if not piece else 1.0))
    return _supports(plan, out, reasons)


def _sawing(plan: Making, per_part: bool) -> None:
    bench, part = plan.bench, plan.bench.part
    if per_part:
        plan.put("a", tasks_ends.sawn(bench, part.make, True, part.overall + 2.0))
    elif _too_thick(bench):
        plan.put("a", piece_sawn(bench, per_piece(bench)))


def _too_thick(bench: Bench) -> bool:
    """Whether the bar does not go into the spindle: then a piece of it is sawn off."""
    lathe = bench.shop.lathe
    assert lathe is not None
    return lathe.spindle_bore is None or bench.part.bar.corners > lathe.spindle_bore


def piece_sawn(bench: Bench, count: int) -> Task:
    """Sawing off a piece for so many parts, with what the jaws hold."""
    each = bench.part.overall + tasks_ends.kerf(bench) + 0.3
    return tasks_ends.sawn(bench, count, False, count * each + 1.0 + 4.0 + jaws(bench.shop))


def joint_piece(benches: Sequence[Bench]) -> Task | None:
    """Sawing off one piece for several different parts; None where it would stand out too far."""
    each = [one.part.make * (one.part.overall + tasks_ends.kerf(one) + 0.3) for one in benches]
    first = benches[0]
    if sum(each) > 2.5 * first.part.bar.corners:
        return None
    count = sum(one.part.make for one in benches)
    return tasks_ends.sawn(first, count, False, sum(each) + 1.0 + 4.0 + jaws(first.shop))


def per_piece(bench: Bench) -> int:
    """How many parts come from one sawn piece of bar, so that it does not stand out too far."""
    part = bench.part
    each = part.overall + tasks_ends.kerf(bench) + 0.3
    return max(1, min(part.make, int((2.5 * part.bar.corners) // each)))


def _edges(plan: Making, one: Outside, visit: str) -> None:
    side, bench = plan.side, plan.bench
    order = side.order
    index = order.index(one)
    for broken in (one.chamfer, one.chamfer_back, one.radius):
        if broken is None:
            continue
        at: End = getattr(broken, "at", "front")
        last = (at == side.second and index == len(order) - 1) or (at == side.first and index == 0)
        if at == side.first:
            kind, where = "chamfer", visit
        elif last:
            beside = plan.free == "bar" and isinstance(one, Knurl | AsBought) and visit == "a"
            kind, where = ("chamfer_back", "a") if beside else ("chamfer2", "b")
        else:
            following = order[index + 1]
            kind, where = "chamfer", plan.home(following) if visit == "a" else visit
        if where == "o":
            where = visit
        reached = side.first if where in ("a", "o") else side.second
        task = tasks_outside.edge(bench, one, broken, kind, reached)
        if kind == "chamfer_back" and isinstance(broken, Chamfer):
            task = replace(task, do=(tasks_ends.cut_longer(bench, broken),))
        plan.put(where, task)
        if kind == "chamfer_back":
            plan.put("a", tasks_ends.plunged(bench, side.second))


def _inside(plan: Making, bore_in: str) -> None:
    bench, side = plan.bench, plan.side
    starts: set[str] = set()
    for one in bench.part.inside:
        own_end = one.end if not isinstance(one, InsideGroove) else (side.first if bore_in == "a" else side.second)
        visit = bore_in if one.through or isinstance(one, InsideGroove) else "a" if own_end == side.first else "b"
        reached = side.first if visit == "a" else side.second
        hole = hole_key(plan, own_end)
        tasks = tasks_inside.inner(bench, one, reached, hole, on_bar=plan.free == "bar" and visit == "a")
        plan.put(visit, *(t for t in tasks if t.kind != "ball"))
        plan.put("z", *(t for t in tasks if t.kind == "ball"))
        if any(t.kind == "drill" for t in tasks):
            starts.add(visit)
        for edge in (one.mouth, one.mouth_back, one.chamfer, one.chamfer_back):
            if edge is not None:
                plan.put("a" if edge.at == side.first else "b", tasks_inside.mouth(bench, one, edge, hole))
        if one.finish and "polish" in one.finish.words:
            plan.put(visit, tasks_outside.polish(bench, one.finish.name, one.largest, one.start, one.stop, reached))
    one_drill(plan)
    for visit in sorted(starts):
        end = side.first if visit == "a" else side.second
        plan.put(visit, tasks_ends.centred(bench, end, "centre" if visit == "a" else "centre2"))


def one_drill(plan: Making) -> None:
    """Drills of one hole that a larger or a longer one makes needless are left out."""
    kept: list[tuple[str, Task]] = []
    drills = [(v, t) for v, t in plan.tasks if t.kind == "drill"]
    for visit, task in plan.tasks:
        if task.kind == "drill" and not task.makes:
            wider = any(
                o is not task and o.hole == task.hole and v == visit
                and o.start <= task.start + 1e-6 and o.stop >= task.stop - 1e-6
                and (abs(o.bore - task.bore) < 0.01 and (o.makes or id(o) < id(task)))
                for v, o in drills
            )  # fmt: skip
            if wider:
                continue
        kept.append((visit, task))
    plan.tasks[:] = kept


def _set_over(plan: Making) -> None:
    for one in plan.side.order:
        if one.off_axis is not None:
            throw, bench = one.off_axis.nominal, plan.bench
            given = {"throw": bench.said(throw), "diameter": bench.said(bench.part.bar.corners), "chuck": "four-jaw"}
            found = operation_of(("eccentric", given)) if has_operation("eccentric") else (None, ())
            plan.put("o", replace(
                tasks_ends.set_true(bench, "the work", None, plan.side.first),
                title=f"Set over {bench.shown(throw)}",
                operation=found[0],
                inputs=found[1],
                do=(f"Four-jaw: the clock reads {bench.shown(2 * throw)} in all when it is right.",),
            ))  # fmt: skip
            break


def _supports(plan: Making, out: float, reasons: Reasons) -> bool:
    """Bring up a centre where the work stands out far; False where none may be."""
    bench, side = plan.bench, plan.side
    part = bench.part
    width = part.bar.corners
    slim = is_slim(bench, out, width)
    face: End = side.first
    allowed = (part.front if face == "front" else part.back).centre != "none"
    if slim and (not allowed or out > LONG * width):
        name = side.order[0].name
        reasons.add(4, name, f"it would stand {short(out / width, 0)} diameters out of the chuck; "
                    'a centre that may stay (centre = "may stay") or a shorter part would do.')  # fmt: skip
        return False
    if allowed and (slim or knurl_wants_centre(plan, out)):
        if not any(v == "a" and t.kind == "centre" for v, t in plan.tasks):
            plan.put("a", tasks_ends.centred(bench, face))
        plan.put("a", *tasks_ends.supported(face))
    return True


def knurl_wants_centre(plan: Making, out: float) -> bool:
    """Whether a knurl of the first setting asks for the tailstock centre."""
    bench, side = plan.bench, plan.side
    lathe = bench.shop.lathe
    if lathe is None or lathe.pinching_knurl or bench.part.bar.bore is not None:
        return False
    holed = any(one.through or one.end == side.first for one in bench.part.inside)
    limit = WEAK_KNURL_OUT if lathe.tool_holder == "weak" and holed else KNURL_OUT
    return any(
        isinstance(one, Knurl) and (out - side.near(one) > limit * one.largest or one.largest < 10)
        for one in plan.first_set
    )


def thin_out(plan: Making, second: Hold) -> bool:
    """Whether the second end stands out too far for its grip alone."""
    out = plan.bench.part.overall - held_to(plan.side, second)
    return second.held_by != "arbor" and is_slim(plan.bench, out, second.grip_diameter)


def support_second(plan: Making, second: Hold, reasons: Reasons) -> bool:
    """Bring a centre up at the second end; False where none may be or it is too long even so."""
    bench, side = plan.bench, plan.side
    out = bench.part.overall - held_to(side, second)
    face = bench.part.front if side.second == "front" else bench.part.back
    if face.centre == "none" or out > LONG * second.grip_diameter:
        name = side.order[-1].name
        reasons.add(3, name, f"turned round it would stand {short(out / second.grip_diameter, 0)} diameters out; "
                    'a centre that may stay (centre = "may stay") would do.')  # fmt: skip
        return False
    if not any(v == "b" and t.kind == "centre2" for v, t in plan.tasks):
        plan.put("b", tasks_ends.centred(bench, side.second, "centre2"))
    plan.put("b", *tasks_ends.supported(side.second))
    return True
