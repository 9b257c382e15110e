"""The route without a lathe: a piece left as it was bought outside is squared, drilled and tapped in the vice."""

from __future__ import annotations

from collections.abc import Iterator

from engine.base.records import replace
from engine.part import tasks_ends, tasks_inside
from engine.part.part import AsBought, End, Hole, Inside, InsideThread, Mouth, Outside
from engine.part.routes_checked import nothing_to_hold
from engine.part.routes_closing import bench_work
from engine.part.routes_holding import Hold, Side
from engine.part.routes_making import VISITS, Draft, Making, Reasons, Visit, hole_key
from engine.part.routes_off_axis import place_off_axis
from engine.part.routes_turning import one_drill
from engine.part.routes_visits import BENCH_HOLD, apart_visits
from engine.part.rules import holding_fact, minutes
from engine.part.tasks import Bench, Task

_MOST = 2.5  # diameters long: a longer piece leans in the vice when it stands upright
_END_MILL = ("End mill, light cuts all over; the piece upright against a stop.",)
_TAPPED = ("Start the tap in the spindle, turned by hand, machine unplugged.",)


def can_be_milled(bench: Bench) -> bool:
    """Whether nothing of a part needs turning: bar with flats outside, plain holes and threads inside."""
    part = bench.part
    flat = all(isinstance(one, AsBought) and one.section == "square" for one in part.outside)
    plain = all(not (one.chamfer or one.chamfer_back or one.radius or one.scale) for one in part.outside)
    inner = all(isinstance(one, Hole | InsideThread) and not one.keyway for one in part.inside)
    return bool(bench.shop.mill) and flat and plain and inner and part.overall <= _MOST * part.bar.size


def milled(bench: Bench, side: Side, reasons: Reasons) -> Iterator[Draft]:
    """Sawn, both ends milled square with the holes from each, then what is left of the outside, all in the vice."""
    part = bench.part
    plan = Making(bench, side, "milled", 0, [])
    if part.bar.blank is None:
        plan.put("m", tasks_ends.sawn(bench, part.make, True, part.overall + 2.0))
    raw = tuple(one.name for one in part.outside)
    plan.put("m", _upright(replace(tasks_ends.faced(bench, side.first, "face", to_length=False), makes=raw)))
    second = tasks_ends.faced(bench, side.second, "face2", to_length=True)
    plan.put("n", tasks_ends.seat("the milled end", side.second, "vice"), _upright(second))
    for one in part.inside:
        _holes(plan, one)
    one_drill(plan)
    if place_off_axis(plan, BENCH_HOLD, "apart", reasons) is None:
        return
    plan.tasks[:] = [_stepped(side, task) if task.kind == "flats" else (visit, task) for visit, task in plan.tasks]
    bench_work(plan)
    visits = _visits(plan)
    if visits:
        yield Draft(plan, visits)
    else:
        nothing_to_hold(plan, reasons)


def _stepped(side: Side, task: Task) -> tuple[str, Task]:
    """Sides milled down to a shoulder while the piece stands upright anyway: with the end that they run out at."""
    order = [one.name for one in side.order]
    held = order.index(max(side.order, key=lambda one: one.long).name)
    words = "Still upright in the vice: both sides down to the shoulder, to one depth, without gripping it anew."
    return ("m" if order.index(task.root) < held else "n"), replace(task, do=(words, *task.do))


def _upright(task: Task) -> Task:
    """Facing with an end mill instead of a lathe tool."""
    return replace(task, operation=None, inputs=(), do=_END_MILL, tool="end mill", hazards=("milling", "clamping"),
                   title=task.title.replace("Face", "Mill", 1))  # fmt: skip


def _holes(plan: Making, one: Inside) -> None:
    bench, side = plan.bench, plan.side
    visit = "m" if one.through or one.end == side.first else "n"
    reached: End = side.first if visit == "m" else side.second
    hole = hole_key(plan, one.end)
    tasks = tasks_inside.inner(bench, one, reached, hole)
    kind = "centre" if visit == "m" else "centre2"
    if tasks and not any(v == visit and t.kind == kind for v, t in plan.tasks):
        plan.put(visit, _on_mill(tasks_ends.centred(bench, reached, kind)))
    plan.put(visit, *(_on_mill(task) for task in tasks))
    for edge in (one.mouth, one.mouth_back, one.chamfer, one.chamfer_back):
        if edge is not None and (isinstance(edge, Mouth) or edge.depth > 0):
            plan.put("m" if edge.at == side.first else "n", _on_mill(tasks_inside.mouth(bench, one, edge, hole)))


def _on_mill(task: Task) -> Task:
    """The same job under the mill's spindle."""
    given = dict(task.inputs)
    if task.operation in ("hole-plan", "ream", "countersink"):
        given["machine"] = "mill"
    words = _TAPPED if task.kind == "tap" else task.do
    hazards = (*(name for name in task.hazards if name != "chuck"), "clamping")
    return replace(task, inputs=tuple(given.items()), do=words, hazards=hazards)


def _visits(plan: Making) -> list[Visit]:
    used = {visit for visit, _ in plan.tasks}
    side = plan.side
    widest = max(side.order, key=lambda one: one.long)
    found = {
        "m": _in_vice("m", side, widest, side.first),
        "n": _in_vice("n", side, widest, side.second),
        "z": Visit(name="z", machine="bench", hold=BENCH_HOLD),
    }
    if not apart_visits(plan, used, found):
        return []
    return [found[name] for name in VISITS if name in used]


def _in_vice(name: str, side: Side, one: Outside, reached: End) -> Visit:
    fact = holding_fact("vice")
    hold = Hold(held_by="vice", grips=one.name, grip_from=one.start, grip_to=one.stop, grip_diameter=one.largest,
                run_out=fact.run_out)  # fmt: skip
    once = minutes("vice").typical if name == "m" else 0.0
    return Visit(name=name, machine="mill", hold=hold, turned_round=name == "n", reached=reached, once=once, each=1.0)
