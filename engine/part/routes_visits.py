"""The visits of a route: machine, holding, what stands out, what setting up takes."""

from __future__ import annotations

from engine.base.records import replace
from engine.part.part import AsBought, Holding, Outside, OutsideThread
from engine.part.routes_holding import Hold, Side, grippable, spoilt_by_jaws
from engine.part.routes_making import VISITS, Making, Visit, is_slim
from engine.part.routes_off_axis import dividing
from engine.part.rules import holding_fact, minutes
from engine.part.tasks import Bench

_APART_GRIP = 0.7  # diameters long: what a V-block, a vice or a head holds on
BENCH_HOLD = Hold(held_by="hand")


def visits_of(plan: Making, hold: Hold, second: Hold, out: float, slim: bool) -> list[Visit]:
    """The visits of a chucked route, in the order of time; none where nothing is left to hold the piece by."""
    bench, side = plan.bench, plan.side
    used = {visit for visit, _ in plan.tasks}
    part = bench.part
    centre = any(t.kind == "support" for v, t in plan.tasks if v == "a")
    carry = minutes("carry").typical
    head = minutes("head").typical
    machine = "mill" if dividing(bench) != "spindle wheel" else "lathe"
    over = replace(hold, held_by="four-jaw" if any(c.kind == "four-jaw" for c in bench.shop.chucks) else "three-jaw",
                   run_out=holding_fact("four-jaw").run_out, between="" if any(
                       c.kind == "four-jaw" for c in bench.shop.chucks) else "packing under one jaw")  # fmt: skip
    first = over if "o" in used else hold
    out2 = max(part.overall - held_to(side, second), 1.0)
    filed = second.held_by == "hand"
    found = {
        "a": Visit(name="a", machine="lathe", hold=first, reached=side.first, stick_out=out,
                   support="centre" if centre else "none", slender=is_slim(bench, out, part.bar.corners),
                   once=first.once, each=first.each),
        "o": Visit(name="o", machine="lathe", hold=replace(over, once=0, each=10), reached=side.first, stick_out=out),
        "ah": Visit(name="ah", machine=machine, hold=_carried(first, bench), reached=side.first, stick_out=out,
                    once=head, each=carry),
        "ab": Visit(name="ab", machine="lathe", hold=_carried(first, bench, back=True), reached=side.first,
                    stick_out=out, each=carry),
        "b": Visit(name="b", machine="bench" if filed else "lathe", hold=second, reached=side.second,
                   turned_round=not filed, stick_out=None if filed else out2, slender=slim,
                   support="centre" if slim else "none", once=second.once, each=second.each),
        "bh": Visit(name="bh", machine=machine, hold=_carried(second, bench), reached=side.second, turned_round=True,
                    stick_out=out2, once=head, each=carry),
        "bb": Visit(name="bb", machine="lathe", hold=_carried(second, bench, back=True), reached=side.second,
                    turned_round=True, stick_out=out2, each=carry),
        "z": Visit(name="z", machine="bench", hold=BENCH_HOLD),
        "pz": Visit(name="pz", machine="bench", hold=BENCH_HOLD),
    }  # fmt: skip
    if not apart_visits(plan, used, found):
        return []
    return [found[name] for name in VISITS if name in used]


def held_to(side: Side, second: Hold) -> float:
    """Where the grip of the second setting ends, from the end made first. [mm]"""
    if second.held_by in ("arbor", "threaded stub"):
        return 0.0
    return second.grip_to if side.first == "front" else side.part.overall - second.grip_from


def _carried(hold: Hold, bench: Bench, back: bool = False) -> Hold:
    fact = holding_fact("carried")
    held: Holding = hold.held_by if back or dividing(bench) == "spindle wheel" else "dividing head"
    return replace(hold, held_by=held, driven_by=hold.held_by if held != hold.held_by else hold.driven_by,
                   run_out=fact.low if back else fact.run_out, measured=False, carried=True, needs=(), stub="",
                   once=0.0, each=0.0)  # fmt: skip


def _spared(plan: Making, name: str) -> frozenset[str]:
    """The features that are worked on in a visit apart: what is milled is not held by it."""
    kinds = ("flats", "lines")
    return frozenset(t.root for v, t in plan.tasks if v == name and t.kind in kinds)


def _to_hold(plan: Making, name: str) -> Outside | None:
    """The outside feature that a V-block, a vice or a head takes best: long and plain, and not worked on there."""
    spared = _spared(plan, name)
    able = [o for o in plan.side.order if o.name not in spared and grippable(o) and o.long >= _APART_GRIP * o.largest]
    able = able or [o for o in plan.side.order if o.name not in spared and grippable(o)
                    and not isinstance(o, OutsideThread) and o.largest >= 0.75 * plan.bench.part.largest]  # fmt: skip
    return max(able, key=lambda o: (not spoilt_by_jaws(o), o.long * o.largest), default=None)


def _apart_visit(plan: Making, name: str) -> Visit | None:
    """Cross holes, slots and the like in a V-block or a vice."""
    bench = plan.bench
    one = _to_hold(plan, name)
    if one is None:
        return None
    machine = "mill" if bench.shop.mill else "drill press"
    flat = isinstance(one, AsBought) and one.section != "round"
    held: Holding = "vice" if flat or spoilt_by_jaws(one) else "V-block"
    fact = holding_fact(held)
    between = "soft jaws" if spoilt_by_jaws(one) else "" if flat else "soft metal under the clamp"
    hold = Hold(held_by=held, grips=one.name, grip_from=one.start, grip_to=one.stop, grip_diameter=one.largest,
                between=between, run_out=fact.run_out)  # fmt: skip
    return Visit(name=name, machine=machine, hold=hold, once=minutes("vice").typical, each=1.0)


def _head_visit(plan: Making) -> Visit | None:
    """What is divided on the finished piece: in the head's collet, its chuck, or a split bush."""
    bench = plan.bench
    one = _to_hold(plan, "qh")
    if one is None:
        return None
    kits = [k for k in bench.shop.collets if any(
        one.largest - 0.03 <= t.diameter <= one.largest + k.closes for t in k.sizes)]  # fmt: skip
    soft = spoilt_by_jaws(one) or one.long < one.largest
    collet = bool(kits) and not spoilt_by_jaws(one) and any(one.long >= k.grip / 3 for k in kits)
    kind = "collet" if collet else "bush" if soft else "three-jaw"
    between = {"collet": "a collet in the head", "bush": "a split bush round it", "three-jaw": "soft metal strip"}[kind]
    hold = Hold(held_by="dividing head", grips=one.name, grip_from=one.start, grip_to=one.stop,
                grip_diameter=one.largest, between=between, run_out=holding_fact(kind).run_out,
                once=minutes("bush").typical if kind == "bush" else 0.0,
                driven_by="collet" if collet else "three-jaw")  # fmt: skip
    return Visit(name="qh", machine="mill", hold=hold, once=minutes("head").typical + hold.once, each=2.0)


def apart_visits(plan: Making, used: set[str], found: dict[str, Visit]) -> bool:
    """Add the visits apart; False where nothing is left to hold the piece by."""
    for name in ("p", "q", "qh"):
        if name in used:
            visit = _head_visit(plan) if name == "qh" else _apart_visit(plan, name)
            if visit is None:
                return False
            found[name] = visit
    return True
