"""The hole plan: from the centre drill to the last peck, with this machine's speeds and handwheel settings."""

from __future__ import annotations

from functools import reduce
from math import radians, sin
from operator import add

from engine.base import declare as ask
from engine.base.answer import Answer, Cell, Figure, Table, figure, heads, words
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import Sum, deg, larger, leaf, mm, num, tan
from engine.base.words import Shown, Text, figures, general, joined, own, plain, put, say
from engine.cutting.forces import BELT_DRIVE, specific_force
from engine.cutting.materials import Material, of_shop
from engine.drilling import bench, holes
from engine.drilling.bench import Machine
from engine.drilling.hole_notes import notes
from engine.drilling.hole_picture import picture
from engine.drilling.plan import STARTS, HolePlan, ToolCut, plan_hole
from engine.drilling.reach import drill_for, drills_at_hand
from engine.drilling.reaming import pre_drill
from engine.drilling.sizes import label
from engine.drilling.thrust import CHISEL, LIPS_OF_PLASTICS, chisel_factors, factor_of
from engine.drilling.troubles import spot_first
from engine.indexing.dials import Towards
from engine.shop.model import Shop

_CP = "common practice, no source"
_PECK_SOURCE = f"first 2 diameters: a drill dealer's technical tips; then 1 and from 6 diameters half a diameter: {_CP}"
_KINDS = {"centre": "", "pilot": "pilot, ", "step": "step, ", "drill": "drill, ", "reamer": "reamer, "}


@dataclass(frozen=True, slots=True, kw_only=True)
class HolePlanInputs:
    """What `hole-plan` is told.

    diameter: A length or a drill's name: 8.5, 3/8in, #7, F.
    depth: At full diameter, without the drill's point; for a through hole, the thickness.
    material: Decides speed, pecks and torque.
    hole: A blind hole's depth is never passed; through, the drill runs out at the far side.
    start: Solid metal, a hole already centred, or one drilled all the way, whose diameter is told below.
    existing: Diameter of a hole as deep as the new one, which the drill opens.
    pilot: A first drill about as wide as the web of the last, to clear the way for its chisel edge.
    machine: Whose speeds, motor and handwheel are used.
    finish: Ream: to H7, see `ream`.
    point: Included angle of the drill's point: 118° for a jobber drill, 135° for a split point.
    flute: Of the last drill: beyond it the flutes are buried and the chips jam.
    centre: iso: ISO 866 form A, in mm. asme: ASME B94.11M plain type, usual on an inch bench.
    outside: Diameter of the part outside, to see what wall is left.
    stock: To see what is left under the point of a blind hole.
    """

    diameter: float = ask.diameter("Hole diameter", example="8.5", high=100)
    depth: float = ask.length("Depth", example="25", high=2000)
    material: Material = ask.material("Material", from_shop=of_shop, empty="the shop's first", example="mild steel")
    hole: str = ask.choice("Kind of hole", ("blind", "through"), default="blind", example="blind")
    start: str = ask.choice("Starts from", STARTS, default="solid", example="solid")
    existing: float | None = ask.diameter("Hole already there", empty="none", example="6", high=100)
    pilot: float | None = ask.diameter("Pilot drill", empty="as needed", example="2", high=100)
    machine: str | None = ask.choice("On the", bench.MACHINES, empty="lathe, else mill", example="lathe")
    finish: str = ask.choice("Finish by", ("drill", "ream"), default="drill", example="drill")
    point: float = ask.angle("Point angle", low=60, high=160, default=118.0, example="118")
    flute: float | None = ask.length("Flute length", empty="jobber drill's", example="75", high=2000)
    centre: str = bench.by_standard("Centre drills")
    outside: float | None = ask.length("Outside of part", empty="not known", example="20", high=1000)
    stock: float | None = ask.length("Metal thickness", empty="not known", example="40", high=5000)


def _work(inputs: HolePlanInputs, shop: Shop) -> Answer:
    machine = bench.machine_of(shop, inputs.machine)
    reamer, is_owned, drilled = None, False, inputs.diameter
    if inputs.finish == "ream":
        reamer, is_owned = holes.finish_tool(inputs.diameter, shop.reamers)
        first = pre_drill(diameter=inputs.diameter, material=inputs.material, kind="machine", drills=shop.drills)
        drilled = first.tool.diameter
    _check(inputs, drilled)
    plan = plan_hole(diameter=drilled, depth=inputs.depth, material=inputs.material, machine=machine,
        drills=shop.drills, pilot=inputs.pilot, reamer=reamer, reamer_owned=is_owned, point_angle=inputs.point,
        standard=inputs.centre, starters=shop.centre_drills, existing=inputs.existing or 0.0,
        start="drilled" if inputs.existing else "centred" if inputs.start == "centred" else "solid")  # fmt: skip
    drawn = picture(plan, depth=inputs.depth, blind=inputs.hole == "blind", outside=inputs.outside)
    figures, tables = tuple(_figures(inputs, machine, plan, shop)), tuple(_tables(inputs, machine, plan))
    about = {"outside": inputs.outside, "hole": "through" if inputs.hole == "through" else "blind"}
    stuff, through = inputs.material, [(cut, {"feed": cut.feed, **about}) for cut in plan.cuts]
    moments = tuple(bench.at_work(machine, stuff, c.tool.diameter, c.speed, c.depth, **more) for c, more in through)
    return Answer(figures, tables, (drawn,), tuple(notes(inputs, machine, plan, shop)), moments=moments)


def _check(inputs: HolePlanInputs, drilled: float) -> None:
    """What is there, and a pilot, are smaller than the drill."""
    if inputs.start == "drilled" and inputs.existing is None:
        text = "Hole already there: its diameter is needed (existing=6) where the hole starts from a drilled one."
        raise BadInput("existing", "", "a diameter", text)
    for field, size in (("pilot", inputs.pilot), ("existing", inputs.existing)):
        if size is not None and size >= drilled:
            accepted = say("less than the drill's {drill}", drill=plain(drilled))
            raise BadInput(field, plain(size), accepted)
    if inputs.pilot and inputs.existing and inputs.pilot <= inputs.existing:
        accepted = say("more than the {existing} that is there", existing=plain(inputs.existing))
        raise BadInput("pilot", plain(inputs.pilot), accepted)


def _name(cut: ToolCut) -> str:
    if cut.kind == "centre":
        return cut.tool.name
    return f"{_KINDS[cut.kind]}{label(cut.tool)}{'' if cut.owned else ' (not owned)'}"


def _point(diameter: float, angle: float) -> Sum:
    """Length of the drill's point."""
    slope: Sum = tan(deg(angle / 2))
    return mm(diameter) / (2 * slope)


def _figures(inputs: HolePlanInputs, machine: Machine, plan: HolePlan, shop: Shop) -> list[Figure]:
    last, size = plan.last_drill, mm(plan.last_drill.tool.diameter)
    blind = inputs.hole == "blind"
    travel = mm(inputs.depth) + mm(plan.point, "point {}")
    past = figure("run_past", "Run past the far side", larger(mm(0.5), 0.1 * size), _CP, decimals=1)
    seconds = reduce(add, (leaf(cut.seconds, "duration") for cut in plan.cuts))
    clearing = "depth ÷ (feed x speed), every tool; clearing chips comes on top"
    return [
        *bench.dial_figures(machine, plan.travel, reading="reading", label="Last drill to", never_deeper=blind),
        figure("travel", "Drill-tip travel", travel, "the full depth and the point; geometry", decimals=2),
        Figure("drill_point", "Length of the point", plan.point, "length", "L = D ÷ (2 tan(angle ÷ 2)); geometry",
               _point(float(size), inputs.point), decimals=2),
        *([] if blind else [past]),
        bench.speed_figure(machine, last.published, last.speed, diameter=float(size), share=last.reduced.speed,
                     why="slower for the motor" if last.slowed else ""),
        _feed(last),
        _pecks(last),
        *_load(last, machine, inputs),
        figure("cutting_time", "Cutting time", seconds, clearing, decimals=0),
        *_walls(inputs, plan),
        *_reach_figure(inputs, plan, shop),
    ]  # fmt: skip


def _feed(cut: ToolCut) -> Figure:
    published = cut.published_feed
    share = say(" x {share} for the depth", share=put(cut.reduced.feed, "ratio"))
    rate, less = put(published.chosen), share if cut.reduced.feed < 1 else ""
    text = "{rate}{less} a turn, in proportion between the low ends of the bands; this one has {low} to {high}"
    working = say(text, rate=rate, less=less, low=put(published.low), high=put(published.high))
    return Figure("feed", "Feed", cut.feed, "feed", published.source, working)


def _pecks(cut: ToolCut) -> Figure:
    deep = figures(cut.depth / cut.tool.diameter, 1)
    working: Text = say("the tip goes in {deep} diameters: shallow enough for one go", deep=deep)
    if len(cut.pecks) > 1:
        more = " and so on: see the table" if len(cut.pecks) > 3 else ""
        working = say("drawn out at {depths}{more}", depths=joined(put(d) for d in cut.pecks[:3]), more=more)
    return Figure("pecks", "Pecks to full depth", len(cut.pecks), "count", _PECK_SOURCE, working)


def _load(cut: ToolCut, machine: Machine, inputs: HolePlanInputs) -> list[Figure]:
    """Torque and thrust, said in the units of their laws, and what share of the motor they take."""
    size, load = cut.tool.diameter, cut.load
    kc = specific_force(inputs.material, cut.feed / 2 * sin(radians(inputs.point / 2)))
    share = put(1 - (cut.before / size) ** 2, "ratio")
    left = say(" x {share} left after {d} mm", share=share, d=_metric(cut.before))
    torque = say("kc {kc} N/mm² x {f} mm a turn x ({d} mm)² ÷ 8000{left} = {m} N·m", kc=_metric(kc, "stress"),
        f=_metric(cut.feed), d=_metric(size), left=left if cut.before else "",
        m=_metric(load.torque, "torque"))  # fmt: skip
    source = f"the power law of cutting force, an estimate for a sharp drill; {inputs.material.source}"
    found = [Figure("torque", "Torque about", load.torque, "torque", source, torque), _thrust(cut, inputs)]
    if machine.motor is not None:
        found.append(_motor(cut, machine.motor))
    return found


def _metric(value: float, dimension: str = "length") -> Shown:
    """Digits of a law that is always said in metric units."""
    return own(put(value, dimension), "mm")


def _thrust(cut: ToolCut, inputs: HolePlanInputs) -> Figure:
    """The handbook's thrust with the chisel edge, or without it where a hole took it away."""
    known, size = factor_of(inputs.material), cut.tool.diameter
    parts = {"f": _metric(cut.feed), "d": _metric(size), "t": _metric(cut.load.thrust, "force")}
    if known is None:
        half = inputs.point / 2
        kc = specific_force(inputs.material, cut.feed / 2 * sin(radians(half)))
        lips = general(1 - cut.before / size) if cut.before else general(LIPS_OF_PLASTICS)
        law = "{lips} x 0.5 x kc {kc} N/mm² x {f} mm a turn x {d} mm ÷ 2 x sin {half}° = {t} N"
        parts |= {"lips": lips, "kc": _metric(kc, "stress"), "half": general(half)}
        source = f"the power law of cutting force for the lips, doubled for the chisel edge; {inputs.material.source}"
    else:
        kd, mark = known
        law = "0.05 x factor {kd} x {f}^0.8 x {d}^0.8 x {b} + 0.007 x factor {kd} x {d}² x {j} = {t} N"
        _, b, j = chisel_factors(CHISEL)
        if cut.before:
            law = "0.05 x factor {kd} x {f}^0.8 x {d}^0.8 x (1 - {x}) ÷ (1 + {x})^0.2 = {t} N; a hole leads it"
        more = {"b": b, "j": j, "x": max(cut.before / size, CHISEL), "kd": kd}
        parts |= {name: general(value) for name, value in more.items()}
        source = f"Machinery's Handbook, 31st ed., pp. 1152-1153, a sharp drill, within a third; factor {mark}"
    return Figure("thrust", "Thrust about", cut.load.thrust, "force", source, say(law, **parts))


def _motor(cut: ToolCut, motor: float) -> Figure:
    share = leaf(cut.power, "power") / num(BELT_DRIVE) / leaf(motor, "power")
    m, n, w = _metric(cut.load.torque, "torque"), put(cut.speed.chosen, "speed"), put(cut.power, "power")
    working = say("2 x 3.1416 x {m} N·m x {n} ÷ 60 = {w} W; {share}", m=m, n=n, w=w, share=share)
    source = f"the power law of cutting force; three quarters of the motor reach the cut ({_CP})"
    return figure("share_of_motor", "Motor load", share, source, working, dimension="share")


def _walls(inputs: HolePlanInputs, plan: HolePlan) -> list[Figure]:
    found = []
    if plan.bore_to:
        widest = "the widest drill that the motor turns leaves it to be bored"
        found.append(Figure("bore_to", "Then bore to", plan.bore_to, "length", _CP, widest, decimals=2))
    if inputs.outside is not None:
        wall = (mm(inputs.outside) - mm(inputs.diameter)) / 2
        found.append(figure("wall_left", "Wall left", wall, "subtraction", decimals=2))
    if inputs.stock is not None and inputs.hole == "blind" and inputs.stock > plan.travel:
        floor = mm(inputs.stock) - mm(plan.travel)
        found.append(figure("floor_left", "Left under the point", floor, "subtraction", decimals=2))
    return found


def _reach_figure(inputs: HolePlanInputs, plan: HolePlan, shop: Shop) -> list[Figure]:
    """Which drill's flutes still clear chips at this depth: one at hand, else a standard one."""
    size = plan.last_drill.tool.diameter
    if inputs.flute is not None or not drills_at_hand(size, shop):
        return []
    found = drill_for(size, plan.travel, shop)
    source = "flute less 1.5 diameters clears chips (common practice, no source)"
    if found is None:
        text: Text = "none standard"
        working: Text = say("the tip goes in {travel}", travel=put(plan.travel))
    else:
        text = f"your {found.name}" if found.owned else found.name
        working = say("{flute} of flute - 1.5 x {d}", flute=put(found.flute), d=put(size))
    return [words("reach", "Drill that reaches", text, source, working)]


def _tables(inputs: HolePlanInputs, machine: Machine, plan: HolePlan) -> list[Table]:
    columns = (
        *heads(step=("No.", "count"), tool="Tool", rpm=("Speed", "speed"), feed=("Feed", "feed")),
        *heads(depth=("Depth", "length", 2), pecks=("Pecks", "count")),
        *bench.wheel_columns(machine),
    )
    rows = []
    for number, cut in enumerate(plan.cuts, 1):
        through = inputs.hole == "through" and cut.kind in ("drill", "reamer")
        towards: Towards = "nearest" if through else "short"
        wheel = _on_wheel(machine, cut.depth, towards)
        rows.append((number, _name(cut), cut.speed.chosen, cut.feed, cut.depth, len(cut.pecks), *wheel))
    title, source = f"Tools in order; {machine.wheel.lower()} 0 at the face", f"engine tables; the order is {_CP}"
    steps = Table("steps", title, columns, tuple(rows), "tool", _lead(machine), source)
    pecking = _peck_table(machine, plan)
    return [steps, pecking] if pecking else [steps]


def _lead(machine: Machine) -> tuple[str, ...]:
    return ("set", "rpm", "tool") if machine.slide else ("depth", "rpm", "tool")


def _on_wheel(machine: Machine, depth: float, towards: Towards = "short") -> tuple[Cell, ...]:
    """What stands under the columns of the handwheel."""
    stands = bench.stands_at(machine, depth, towards=towards)
    if stands is None:
        return (None, None, None)
    return (stands.turns, stands.reading, bench.setting_on(machine, depth, towards=towards))


def _peck_table(machine: Machine, plan: HolePlan) -> Table | None:
    rows: list[tuple[Cell, ...]] = []
    for cut in plan.cuts:
        for number, depth in enumerate(cut.pecks, 1):
            rows.append((len(rows) + 1, _name(cut), cut.speed.chosen, number, depth, *_on_wheel(machine, depth)))
    if len(rows) == len(plan.cuts):  # every tool goes down in one
        return None
    columns = (
        *heads(number=("No.", "count"), tool="Tool", rpm=("Speed", "speed"), peck=("Peck", "count")),
        *heads(depth=("Depth", "length", 2)),
        *bench.wheel_columns(machine),
    )
    title = "Draw out and clear the chips at each"
    return Table("peck_depths", title, columns, tuple(rows), "peck", _lead(machine), _PECK_SOURCE)


OPERATION = Operation(
    id="hole-plan",
    pane="drilling",
    place=40,
    title="Plan a hole",
    words="how deep peck pilot centre center drill feed speed rpm deep hole drilling spot spotting step drill "
    "tailstock quill depth of hole blind through",
    machine="lathe",
    inputs=HolePlanInputs,
    work=_work,
    hazards=("drilling", "swarf"),
    example={"diameter": "8.5", "depth": "25", "material": "mild steel"},
    troubles={
        "DR-01": spot_first,
        "DR-02": None,
        "DR-03": lambda inputs, answer, shop: say("{n} diameters deep", n=figures(inputs.depth / inputs.diameter, 1)),
    },
    help="Plans a hole from the centre drill to the last peck, with this machine's speeds and handwheel settings.",
)
