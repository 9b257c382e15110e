"""Everything a plan needs, in the order it is laid out: what is owned, and the nearest that could stand in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from engine.base.quantity import INCH_MM
from engine.base.records import dataclass
from engine.drilling.holes import point_length
from engine.drilling.reach import drill_for, drills_at_hand
from engine.drilling.tap_depth import LEADS, taps_at_hand
from engine.part.meets import mm_of
from engine.part.part import Part
from engine.part.plan import Plan
from engine.part.routes_holding import jaws
from engine.part.routes_spigot import spigot_length
from engine.part.routes_turning import joint_piece, per_piece
from engine.part.steps import Step
from engine.part.tasks import Bench
from engine.part.tasks_ends import kerf
from engine.part.tasks_inside import boring_reaches
from engine.part.tasks_outside import tap_owned
from engine.shop.model import Shop

_NEAR = 0.055  # mm: the nearest drill of a 0.1 mm set
_FACING = 0.3


@dataclass(frozen=True, slots=True)
class Need:
    """One thing to lay out; `instead` is the nearest that could stand in, in words."""

    what: str
    owned: bool
    instead: str = ""


def needs(plan: Plan) -> tuple[Need, ...]:
    """What a plan needs: stock, then tools and holdings in the order of their steps, then what measures.

    >>> from engine.part.file import read
    >>> from engine.part.plan import plan
    >>> from engine.shop.file import sample
    >>> head = 'part_version = 1\\ntitle = "Pin"\\nunit = "mm"\\nmaterial = "mild steel"\\nbar = "16"\\n'
    >>> pin = read(head + '[[outside]]\\nis = "diameter"\\nsize = "12"\\nlength = "20"').part
    >>> needs(plan(pin, sample("metric")))[0].what
    'mild steel, 16 round, 52 long (what the jaws hold counted)'
    """
    found: dict[str, Need] = {}
    for need in (stock_need(plan, stock_length(plan)), *_tools(plan), *_measuring(plan)):
        found.setdefault(need.what, need)
    return tuple(found.values())


def stock_length(plan: Plan) -> float:
    """How much bar the whole lot takes, with what the jaws hold of it. [mm]"""
    part, bench = plan.part, plan.bench
    if part.bar.blank is not None:
        return part.bar.blank
    if plan.route.free != "bar":
        spigot = max(spigot_length(visit.hold) for visit in plan.route.visits)
        return part.make * (part.overall + spigot + 2.0 + 2.0)
    each = part.overall + kerf(bench) + _FACING
    whole = part.bar.corners <= ((bench.shop.lathe.spindle_bore if bench.shop.lathe else None) or 0)
    pieces = 1 if whole else -(-part.make // per_piece(bench))
    return part.make * each + pieces * (1.0 + 4.0 + jaws(bench.shop))


def stock_together(plans: Sequence[Plan]) -> float:
    """How much of one bar several different parts take; what the jaws hold is counted once where they can. [mm]"""
    benches = [plan.bench for plan in plans]
    first = benches[0]
    whole = first.part.bar.corners <= ((first.shop.lathe.spindle_bore if first.shop.lathe else None) or 0)
    long = sum(stock_length(plan) for plan in plans)
    return long - (len(plans) - 1) * (1.0 + 4.0 + jaws(first.shop)) if whole or joint_piece(benches) else long


def stock_need(plan: Plan, long: float) -> Need:
    """The stock of a plan as a thing to lay out; `long` is how much of it. [mm]"""
    part, bench = plan.part, plan.bench
    section = {"round": "round", "hex": "hexagon", "square": "square"}[part.bar.section]
    bored = f", {bench.shown(part.bar.bore)} bore" if part.bar.bore else ""
    held = " (what the jaws hold counted)" if plan.route.free == "bar" and part.bar.blank is None else ""
    count = f"{part.make} pieces, each " if part.bar.blank is not None and part.make > 1 else ""
    size = f"{bench.shown(part.bar.size)} {section}{bored}"
    what = f"{part.material}, {count}{size}, {bench.shown(round(long + 0.49))} long"
    there = part.bar.stock_length is None or part.bar.stock_length >= long
    material = not bench.shop.materials or any(
        part.material.lower() in m.lower() or m.lower() in part.material.lower() for m in bench.shop.materials
    )
    short = f"the bar is {bench.shown(part.bar.stock_length or 0)}: make fewer" if not there else ""
    return Need(what + held, there and material, short or ("" if material else "another material the part allows"))


def _tools(plan: Plan) -> Iterator[Need]:
    seen = -1
    for step in plan.steps:
        if step.set_up != seen:
            seen = step.set_up
            visit = plan.route.visits[seen]
            hold = visit.hold
            if visit.machine == "mill" and plan.bench.shop.mill is None:
                yield Need("a mill", False, "the use of somebody's, or a milling slide on the lathe")
            for what, owned, instead in hold.needs:
                yield Need(what, owned, instead)
            if hold.between and not hold.needs and not hold.carried:
                for what in hold.between.split("; "):
                    yield Need(what, True)
        if step.round == 1 or step.each == "bar":
            clamped = plan.set_ups[step.set_up].held_by in ("vice", "V-block")
            for need in _of_step(plan.bench, step):
                if not (clamped and need.what.startswith(("dividing head", "rotary table"))):
                    yield need


def _of_step(bench: Bench, step: Step) -> Iterator[Need]:
    shop, given = bench.shop, dict(step.inputs)
    makers = {
        "centre": _centre, "centre2": _centre, "drill": _drill, "cross_drill": _drill, "holes": _holes, "ream": _ream,
        "cross_ream": _ream, "holes_ream": _ream, "cross_tap": _tap, "holes_tap": _tap, "tap": _tap,
        "thread": _thread, "thread_inside": _thread, "knurl": _knurl, "slot": _slot, "keyway": _slot,
        "end_slot": _slot, "flats": _flats, "lines": _lines, "bore": _boring, "bore_finish": _boring,
        "taper_bore": _boring, "part_off": _blade, "keyway_inside": _broach, "stub": _stub, "hand_ream": _hand_ream,
        "figures": _punches, "countersink": _sink,
    }  # fmt: skip
    if step.kind in makers:
        yield from makers[step.kind](bench, shop, step, given)


def _centre(bench: Bench, shop: Shop, step: Step, given: dict[str, str]) -> Iterator[Need]:
    yield Need("centre drill", True)


def _drill(bench: Bench, shop: Shop, step: Step, given: dict[str, str]) -> Iterator[Need]:
    size = step.diameter
    nearest = min(shop.drills, key=lambda d: abs(d.diameter - size), default=None)
    owned = nearest is not None and abs(nearest.diameter - size) <= 0.005
    close = nearest is not None and abs(nearest.diameter - size) <= max(_NEAR, 0.02 * size)
    instead = "" if owned else f"the {nearest.name} drill" if nearest and close else "bore it, or buy the drill"
    yield Need(f"drill {bench.shown(size)}", owned, instead)
    if step.operation == "hole-plan" and "depth" in given:
        yield from _long_drill(bench, shop, size, given)


def _long_drill(bench: Bench, shop: Shop, size: float, given: dict[str, str]) -> Iterator[Need]:
    """A drill longer than the usual one, where the hole asks for it."""
    tip = float(given["depth"].removesuffix(" in")) * (INCH_MM if given["depth"].endswith("in") else 1)
    at_hand, found = drills_at_hand(size, shop), drill_for(size, tip + point_length(diameter=size), shop)
    if at_hand and found != at_hand[0]:
        what = f"a long drill {bench.shown(size)}"
        flute = f"{what}, flute {bench.shown(found.flute)}" if found else f"{what}, longer than the standard ones"
        yield Need(flute, found is not None and found.owned, "drill from both ends, or clear it every half diameter")


def _holes(bench: Bench, shop: Shop, step: Step, given: dict[str, str]) -> Iterator[Need]:
    yield from _drill(bench, shop, step, given)
    answer = bench.answer("divide", {"divisions": given.get("holes", "1")})
    circle = answer.get("circle")
    yield Need(f"dividing head, plate with {circle} holes" if circle else "dividing head", bool(answer))


def _ream(bench: Bench, shop: Shop, step: Step, given: dict[str, str]) -> Iterator[Need]:
    owned = any(abs(r.diameter - step.diameter) < 0.005 for r in shop.reamers)
    bored = boring_reaches(bench, step.diameter - 1.0, step.stop - step.start)
    other = "bore it to size" if bored else "buy it: no boring tool of the shop reaches so deep"
    yield Need(f"reamer {bench.shown(step.diameter)}", owned, "" if owned else other)


def _hand_ream(bench: Bench, shop: Shop, step: Step, given: dict[str, str]) -> Iterator[Need]:
    if "reamer" not in step.title:
        yield Need("scraper", True)


def _tap(bench: Bench, shop: Shop, step: Step, given: dict[str, str]) -> Iterator[Need]:
    from engine.threads.designation import parse

    size = parse(given["size"])
    owned, at_hand = tap_owned(bench, size), taps_at_hand(size, shop)
    names = "taper, second, bottoming" if at_hand == LEADS else ", ".join(name for name, _ in at_hand)
    yield Need(f"taps {given['size']}: {names}", owned, "" if owned else "screwcut it inside, or buy the set")


def _thread(bench: Bench, shop: Shop, step: Step, given: dict[str, str]) -> Iterator[Need]:
    if step.tool.startswith("die"):
        yield Need(f"die {given['size']} in a tailstock holder", True)
        return
    inside = "inside " if step.kind == "thread_inside" else ""
    yield from _threading(bench, given["size"], inside)
    if not inside:
        wire = bench.number("three-wires", {"size": given["size"]}, "wire")
        owned = wire is not None and any(abs(w - wire) < 0.001 for w in shop.wires)
        if wire is not None:
            yield Need(f"three wires {bench.shown(wire)}", owned, "" if owned else "the nut itself")


def _threading(bench: Bench, size: str, inside: str = "") -> Iterator[Need]:
    """The tool that cuts a thread, and the wheels for its lead."""
    yield Need(f"{inside}threading tool for {size}", True)
    wheels = bench.answer("change-gears", {"size": size})
    if wheels:
        train = f"{wheels.get('drivers', '')} driving, {wheels.get('driven', '')} driven"
        yield Need(f"change wheels for {size}: {train}", True)
    else:
        yield Need(f"change wheels for {size}", False, "a die, or more wheels")


def _knurl(bench: Bench, shop: Shop, step: Step, given: dict[str, str]) -> Iterator[Need]:
    form = given.get("form", "axial")
    words = {"axial": ("straight",), "diagonal": ("left", "right"), "diamond": ("left", "right", "diamond"),
             "crossed": ("diamond", "straight")}.get(form, ("straight",))  # fmt: skip
    owned = any(w.form in words for w in shop.knurls)
    other = shop.knurls[0].form if shop.knurls else ""
    yield Need(f"knurl wheel, {form}", owned, "" if owned else f"a {other} knurl" if other else "file the grip by hand")


def _slot(bench: Bench, shop: Shop, step: Step, given: dict[str, str]) -> Iterator[Need]:
    width = float(given["width"].removesuffix(" in")) * (INCH_MM if given["width"].endswith("in") else 1)
    fits = [m.diameter for m in shop.end_mills if m.diameter <= width + 0.005]
    nearest = max(fits, default=None)
    owned = nearest is not None
    exact = nearest is not None and abs(nearest - width) < 0.105
    narrow = f", its sides brought out with the {bench.shown(nearest)}" if nearest is not None and not exact else ""
    yield Need(f"slot drill for a slot {bench.shown(width)} wide{narrow}", owned, "" if owned else "a slitting saw")


def _flats(bench: Bench, shop: Shop, step: Step, given: dict[str, str]) -> Iterator[Need]:
    largest = max((m.diameter for m in shop.end_mills), default=0.0)
    yield Need("end mill for the flats, the largest", largest > 0, "" if largest else "file them against a guide")
    yield from _dividing(bench, step, given)


def _lines(bench: Bench, shop: Shop, step: Step, given: dict[str, str]) -> Iterator[Need]:
    yield Need("V cutter, 60 degrees, for the lines", True)
    yield from _dividing(bench, step, given)


def _dividing(bench: Bench, step: Step, given: dict[str, str]) -> Iterator[Need]:
    answer = bench.answer(step.operation or "divide", given)
    circle = answer.get("circle")
    way = answer.get("divide_with") or "dividing head"
    yield Need(f"{way}, plate with {circle} holes" if circle else f"{way}", True)


def _boring(bench: Bench, shop: Shop, step: Step, given: dict[str, str]) -> Iterator[Need]:
    deep = mm_of(given["depth"]) if "depth" in given else step.stop - step.start
    fits = [t for t in shop.boring_tools if t.least_bore <= step.diameter and t.reach >= deep]
    best = max(fits, key=lambda t: t.diameter, default=None)
    what = f"boring tool {bench.shown(best.diameter)}" if best else f"boring tool to reach {bench.shown(deep)}"
    yield Need(what, best is not None, "" if best else "a reamer of that size, or a tool ground for it")


def _blade(bench: Bench, shop: Shop, step: Step, given: dict[str, str]) -> Iterator[Need]:
    blade = shop.lathe.blade if shop.lathe else None
    bore = float(given.get("bore", "0").removesuffix(" in")) * (INCH_MM if bench.part.unit == "inch" else 1)
    deep = (step.diameter - bore) / 2
    reaches = blade is not None and blade.reach is not None and blade.reach >= deep
    yield Need(f"parting blade reaching {bench.shown(deep)}", reaches, "" if reaches else "a hacksaw, lathe stopped")


def _broach(bench: Bench, shop: Shop, step: Step, given: dict[str, str]) -> Iterator[Need]:
    inner = bench.part.feature(step.about.rsplit(".", 1)[0])
    width = inner.keyway.width.nominal if getattr(inner, "keyway", None) else 0.0  # type: ignore[attr-defined]
    owned = any(abs(b.diameter - width) < 0.01 for b in shop.broaches)
    yield Need(
        f"broach {bench.shown(width)} with its guide", owned, "" if owned else "plane it in the lathe by the saddle"
    )


def _stub(bench: Bench, shop: Shop, step: Step, given: dict[str, str]) -> Iterator[Need]:
    yield Need(f"a piece of mild steel for it: {step.title[0].lower()}{step.title[1:]}", True)
    if step.operation == "screwcutting":
        yield from _threading(bench, given["size"])


def _punches(bench: Bench, shop: Shop, step: Step, given: dict[str, str]) -> Iterator[Need]:
    yield Need("figure punches and a guide for them", True)


def _sink(bench: Bench, shop: Shop, step: Step, given: dict[str, str]) -> Iterator[Need]:
    angle = given.get("angle", "90")
    owned = [sink.replace("°", " ").split()[0] for sink in shop.countersinks if sink.strip()]
    instead = f"yours are {', '.join(shop.countersinks)}" if shop.countersinks else ""
    yield Need(f"countersink {angle} degrees", not owned or angle.rstrip("°") in owned, instead if owned else "")


def _measuring(plan: Plan) -> Iterator[Need]:
    part, bench = plan.part, plan.bench
    fine = any(step.measure and step.kind in ("finish", "blank", "major") for step in plan.steps)
    if fine:
        yield _gauge(bench.shop, f"micrometer to {bench.shown(_upto(part, bench))}", "micrometer")
    if any(step.kind in ("ream", "bore_finish") for step in plan.steps):
        yield _gauge(bench.shop, "plug or bore gauge for the bore", "plug", "bore")
    if any(step.kind in ("set_true", "prove", "lines") for step in plan.steps):
        yield _gauge(bench.shop, "clock on a stand", "clock", "dial indicator", "dial test")
    yield _gauge(bench.shop, "caliper", "calliper", "caliper", "vernier")


def _gauge(shop: Shop, what: str, *called: str) -> Need:
    """Something to measure with: owned where the shop names one so, or names none at all."""
    told = [tool.lower() for tool in shop.measuring_tools]
    return Need(what, not told or any(word in tool for tool in told for word in called))


def _upto(part: Part, bench: Bench) -> float:
    step = INCH_MM if part.unit == "inch" else 25.0
    return step * -(-part.largest // step)
