"""The route between centres: sawn to length, both ends faced and centred, then end for end."""

from __future__ import annotations

from collections.abc import Iterator

from engine.base.records import replace
from engine.part import tasks_ends, tasks_outside
from engine.part.checks import is_fitted
from engine.part.part import AsBought, Diameter, Outside
from engine.part.routes_checked import nothing_to_hold
from engine.part.routes_closing import bench_work
from engine.part.routes_holding import Hold, Side, jaws
from engine.part.routes_making import LONG, VISITS, Draft, Making, Reasons, Visit
from engine.part.routes_off_axis import place_off_axis
from engine.part.routes_visits import BENCH_HOLD, apart_visits
from engine.part.rules import holding_fact, minutes
from engine.part.tasks import Bench


def between_centres(bench: Bench, side: Side, reasons: Reasons) -> Iterator[Draft]:
    """Sawn to length, both ends faced and centred, then between centres; end for end costs nothing there."""
    part, shop = bench.part, bench.shop
    order = side.order
    plan = Making(bench, side, "centres", 0, [])
    widest = next(i for i, one in enumerate(order) if one.largest >= part.largest - 1e-6)
    if part.bar.blank is None:
        plan.put("a", tasks_ends.sawn(bench, part.make, True, part.overall + 2.0))
    raw = tuple(one.name for one in part.outside if isinstance(one, AsBought))
    plan.put("a", replace(tasks_ends.faced(bench, side.first, "face", to_length=False), makes=raw),
             tasks_ends.centred(bench, side.first))  # fmt: skip
    plan.put("b", tasks_ends.seat("the faced end", side.second),
             tasks_ends.faced(bench, side.second, "face2", to_length=True),
             tasks_ends.centred(bench, side.second, "centre2"))  # fmt: skip
    near, far = order[:widest], order[widest:]
    close = any(isinstance(o, Diameter) and is_fitted(o.size) for o in near)
    for one in near:
        for task in tasks_outside.turned(bench, one, side.first):
            plan.put("c" if task.kind == "rough" or not close else "e", task)
    for one in far:
        plan.put("d", *tasks_outside.turned(bench, one, side.second))
    for one in order:
        visit = ("e" if close else "c") if one in near else "d"
        for broken in (one.chamfer, one.chamfer_back, one.radius):
            if broken is not None:
                plan.put(visit, tasks_outside.edge(bench, one, broken, "chamfer", side.first if one in near else
                                                   side.second))  # fmt: skip
        if one.finish and "polish" in one.finish.words:
            plan.put(visit, tasks_outside.polish(bench, one.finish.name, one.largest, one.start, one.stop, side.first))
    _centres_extra(plan, near)
    if place_off_axis(plan, BENCH_HOLD, "apart", reasons) is None:
        return
    bench_work(plan)
    visits = _centre_visits(plan, near, shop)
    if visits:
        yield Draft(plan, visits)
    else:
        nothing_to_hold(plan, reasons)


def _centres_extra(plan: Making, near: tuple[Outside, ...]) -> None:
    """Proving the tailstock, and a steady for what is longer than ten diameters."""
    used = [name for name in VISITS if any(v == name for v, _ in plan.tasks)]
    turning = [name for name in used if name in ("c", "d", "e")]
    if not turning:
        return
    bench = plan.bench
    words = ("Clock along the bar, or measure a light cut at both ends; move the tailstock half the difference.",)
    plan.put(turning[0], tasks_ends.by_hand("prove", "Prove the tailstock parallel", words, "prove",
                                            hazards=("turning", "measuring")))  # fmt: skip
    part = bench.part
    if part.overall > LONG * part.bar.corners:
        where = "d" if "d" in turning else turning[0]
        words = ("On the round finished bar right behind the tool, oiled, just touching.",)
        plan.put(
            where, tasks_ends.by_hand("steady", "Set the travelling steady", words, "steady", hazards=("turning",))
        )


def _centre_visits(plan: Making, near: tuple[Outside, ...], shop: object) -> list[Visit]:
    bench, side, part = plan.bench, plan.side, plan.bench.part
    used = {visit for visit, _ in plan.tasks}
    fact = holding_fact("between centres")
    run_out, measured = (holding_fact("three-jaw").run_out, False)
    long = part.overall > LONG * part.bar.corners
    chuck = Hold(held_by="three-jaw", grips="bar", grip_diameter=part.bar.corners, run_out=run_out, measured=measured,
                 each=minutes("three-jaw").typical)  # fmt: skip
    deep = min(jaws(bench.shop), part.overall / 2)
    grips_a = side.span(part.overall - deep - 5.0, part.overall - 5.0)
    grips_b = side.span(5.0, 5.0 + deep)
    owned = any(t.diameter >= part.bar.corners - 1e-6 for t in bench.shop.carriers)
    travelling = any(s.kind == "travelling" and s.largest >= part.bar.corners for s in bench.shop.steadies)
    needs = [(f"carrier for {bench.shown(part.bar.corners)}", owned, "" if owned else "a hose clip over a bent screw")]
    if long:
        needs.append(("travelling steady", travelling, "" if travelling else "a block of hardwood in the tool post"))

    def centres(name: str, carrier: Outside, finished: bool, turned: bool) -> Visit:
        rough = part.bar.corners if not turned else tasks_outside.before_finishing(bench, carrier.largest)
        hold = Hold(
            held_by="between centres", grips=carrier.name, grip_from=carrier.start, grip_to=carrier.stop,
            grip_diameter=carrier.largest if finished else rough, between="soft sheet under the carrier" if finished else "",
            run_out=fact.run_out, each=minutes("between centres").typical, needs=tuple(needs),
        )  # fmt: skip
        return Visit(name=name, machine="lathe", hold=hold, turned_round=turned,
                     reached=side.second if turned else side.first, support="travelling steady"
                     if long and name == "d" else "centre", stick_out=part.overall, each=hold.each)  # fmt: skip

    last, first = side.order[-1], side.order[0]
    found = {
        "a": Visit(name="a", machine="lathe", hold=replace(chuck, grip_from=grips_a[0], grip_to=grips_a[1]),
                   reached=side.first, stick_out=10.0, each=chuck.each),
        "b": Visit(name="b", machine="lathe", hold=replace(chuck, grip_from=grips_b[0], grip_to=grips_b[1]),
                   reached=side.second, turned_round=True, stick_out=10.0, each=minutes("turn_round").typical),
        "c": centres("c", last, False, False),
        "d": centres("d", first, bool(near) and "e" not in used, True),
        "e": centres("e", last, True, False),
        "z": Visit(name="z", machine="bench", hold=BENCH_HOLD),
        "pz": Visit(name="pz", machine="bench", hold=BENCH_HOLD),
    }  # fmt: skip
    if not apart_visits(plan, used, found):
        return []
    return [found[name] for name in VISITS if name in used]
