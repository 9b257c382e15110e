"""The hole plan: from the centre drill to the last peck, with this machine's speeds and handwheel settings."""

from __future__ import annotations

from functools import reduce
from math import radians, sin
from operator import add

from engine.base import declare as ask
from engine.base.answer import Answer, Cell, Figure, Note, Table, figure, heads, info, warning, words
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.setting import setting_text
from engine.base.sums import Sum, deg, larger, leaf, mm, num, tan
from engine.base.words import Shown, Text, figures, general, joined, own, plain, put, say, shown
from engine.cutting.forces import BELT_DRIVE, share_of_motor, specific_force
from engine.cutting.materials import Material, of_shop
from engine.drilling import holes
from engine.drilling.bench import (
    MACHINES,
    Machine,
    dial_figures,
    machine_of,
    setting_on,
    speed_figure,
    speed_notes,
    stands_at,
    wheel_columns,
)
from engine.drilling.centres import british_centre_drill
from engine.drilling.hole_picture import picture
from engine.drilling.holes import LED
from engine.drilling.plan import MOTOR_SHARE, STARTS, HolePlan, ToolCut, plan_hole
from engine.drilling.reach import drill_for, drills_at_hand, reamer_length
from engine.drilling.reach_notes import drill_notes
from engine.drilling.reaming import pre_drill
from engine.drilling.sizes import label
from engine.drilling.thrust import CHISEL, LIPS_OF_PLASTICS, chisel_factors, factor_of
from engine.drilling.troubles import spot_first
from engine.indexing.dials import Towards
from engine.shop.model import Shop
from engine.situation import Situation

_CP = "common practice, no source"
_PECK_SOURCE = f"first 2 diameters: a drill dealer's technical tips; then 1 and from 6 diameters half a diameter: {_CP}"
_LEAST_WALL, _LEAST_WALL_SHARE = (0.5, 0.1)  # mm and of the hole: a thinner wall bulges (common practice, no source)
_NOISE = 1e-9  # mm: of floats
_TOO_DEEP = (
    "drill from both ends, or draw right out every half diameter with an extended drill, or make the part of two"
)
_GRABS = ("brass", "bronze")  # groups that pull a drill in
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
    machine: str | None = ask.choice("On the", MACHINES, empty="lathe, else mill", example="lathe")
    finish: str = ask.choice("Finish by", ("drill", "ream"), default="drill", example="drill")
    point: float = ask.angle("Point angle", low=60, high=160, default=118.0, example="118")
    flute: float | None = ask.length("Flute length", empty="jobber drill's", example="75", high=2000)
    centre: str = ask.choice(
        "Centre drills",
        ("iso", "asme"),
        from_shop=lambda shop: shop.standard,
        empty="iso on a metric bench, asme on an inch one",
        example="iso",
    )
    outside: float | None = ask.length("Outside of part", empty="not known", example="20", high=1000)
    stock: float | None = ask.length("Metal thickness", empty="not known", example="40", high=5000)


def _work(inputs: HolePlanInputs, shop: Shop) -> Answer:
    machine = machine_of(shop, inputs.machine)
    reamer, is_owned = None, False
    drilled = inputs.diameter
    if inputs.finish == "ream":
        reamer, is_owned = holes.finish_tool(inputs.diameter, shop.reamers)
        drilled = pre_drill(
            diameter=inputs.diameter, material=inputs.material, kind="machine", drills=shop.drills
        ).tool.diameter
    _check(inputs, drilled)
    plan = plan_hole(
        diameter=drilled,
        depth=inputs.depth,
        material=inputs.material,
        machine=machine,
        drills=shop.drills,
        pilot=inputs.pilot,
        reamer=reamer,
        reamer_owned=is_owned,
        point_angle=inputs.point,
        standard=inputs.centre,
        starters=shop.centre_drills,
        start="drilled" if inputs.existing else "centred" if inputs.start == "centred" else "solid",
        existing=inputs.existing or 0.0,
    )
    return Answer(
        figures=tuple(_figures(inputs, machine, plan, shop)),
        tables=tuple(_tables(inputs, machine, plan)),
        pictures=(picture(plan, depth=inputs.depth, blind=inputs.hole == "blind", outside=inputs.outside),),
        notes=tuple(_notes(inputs, machine, plan, shop)),
        moments=tuple(_moment(inputs, machine, cut) for cut in plan.cuts),
    )


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


def _moment(inputs: HolePlanInputs, machine: Machine, cut: ToolCut) -> Situation:
    """One tool at work."""
    return Situation(
        machine=machine.name,
        material=inputs.material.name,
        spindle_speed=cut.speed.chosen,
        feed=cut.feed,
        tool_diameter=cut.tool.diameter,
        outside=inputs.outside,
        hole="through" if inputs.hole == "through" else "blind",
        depth=cut.depth,
    )


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
        *dial_figures(machine, plan.travel, reading="reading", label="Last drill to", never_deeper=blind),
        figure("travel", "Drill-tip travel", travel, "the full depth and the point; geometry", decimals=2),
        Figure("drill_point", "Length of the point", plan.point, "length", "L = D ÷ (2 tan(angle ÷ 2)); geometry",
               _point(float(size), inputs.point), decimals=2),
        *([] if blind else [past]),
        speed_figure(machine, last.published, last.speed, diameter=float(size), share=last.reduced.speed,
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
    working = say(
        "{rate}{less} a turn, in proportion between the low ends of the bands; this one has {low} to {high}",
        rate=put(published.chosen),
        less=share if cut.reduced.feed < 1 else "",
        low=put(published.low),
        high=put(published.high),
    )
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
    working = say(
        "2 x 3.1416 x {m} N·m x {n} ÷ 60 = {w} W; {share}",
        m=own(put(cut.load.torque, "torque"), "mm"),
        n=put(cut.speed.chosen, "speed"),
        w=put(cut.power, "power"),
        share=share,
    )
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
        *wheel_columns(machine),
    )
    rows = []
    for number, cut in enumerate(plan.cuts, 1):
        through = inputs.hole == "through" and cut.kind in ("drill", "reamer")
        towards: Towards = "nearest" if through else "short"
        stands, to_set = (
            stands_at(machine, cut.depth, towards=towards),
            setting_on(machine, cut.depth, towards=towards),
        )
        wheel: tuple[Cell, ...] = (None, None, None) if stands is None else (stands.turns, stands.reading, to_set)
        rows.append((number, _name(cut), cut.speed.chosen, cut.feed, cut.depth, len(cut.pecks), *wheel))
    steps = Table(
        "steps",
        f"Tools in order; {machine.wheel.lower()} 0 at the face",
        columns,
        tuple(rows),
        count_noun="tool",
        setting=("set", "rpm", "tool") if machine.slide else ("depth", "rpm", "tool"),
        source=f"engine tables; the order is {_CP}",
    )
    pecking = _peck_table(machine, plan)
    return [steps, pecking] if pecking else [steps]


def _peck_table(machine: Machine, plan: HolePlan) -> Table | None:
    rows: list[tuple[Cell, ...]] = []
    for cut in plan.cuts:
        for number, depth in enumerate(cut.pecks, 1):
            stands = stands_at(machine, depth)
            to_set = setting_on(machine, depth)
            wheel: tuple[Cell, ...] = (None,) * 3 if stands is None else (stands.turns, stands.reading, to_set)
            rows.append((len(rows) + 1, _name(cut), cut.speed.chosen, number, depth, *wheel))
    if len(rows) == len(plan.cuts):  # every tool goes down in one
        return None
    columns = (
        *heads(number=("No.", "count"), tool="Tool", rpm=("Speed", "speed"), peck=("Peck", "count")),
        *heads(depth=("Depth", "length", 2)),
        *wheel_columns(machine),
    )
    return Table(
        "peck_depths",
        "Draw out and clear the chips at each",
        columns,
        tuple(rows),
        count_noun="peck",
        setting=("set", "rpm", "tool") if machine.slide else ("depth", "rpm", "tool"),
        source=_PECK_SOURCE,
    )


def _notes(inputs: HolePlanInputs, machine: Machine, plan: HolePlan, shop: Shop) -> list[Note]:
    """Warnings and remarks in the order of the work: common practice, no source, save where one is named."""
    drills = [cut for cut in plan.cuts if cut.kind != "centre"]
    notes = [note for cut in drills for note in speed_notes(machine, cut.speed, _called(cut))]
    notes += [*_reach_notes(inputs, plan, shop), *_wall_notes(inputs, plan), *_pilot_notes(inputs, plan)]
    notes += _motor_notes(machine, plan)
    notes += [warning(f"The shop has no {_called(cut)}.") for cut in plan.cuts if not cut.owned]
    notes += _zero_notes(inputs, machine, plan)
    if plan.centre is not None and plan.centre.standard == "iso" and plan.centre.owned is None:
        spare = british_centre_drill(plan.centre.pilot)
        text = f"A {spare} centre drill does as well; sizes of centre drills are from memory, unconfirmed."
        notes += [info(text)] if spare else []
    if plan.cuts[-1].kind == "reamer":
        notes += _ream_notes(inputs, plan)
    if inputs.hole == "through":
        ease = say("Ease the feed over the last {point} while the point breaks through.", point=_near(plan.point))
        notes.append(info(ease))
    if inputs.material.group in _GRABS:
        text = f"{inputs.material.label} pulls a sharp drill in: stone a small flat on its lips."
        notes.append(info(text))
    return notes


def _motor_notes(machine: Machine, plan: HolePlan) -> list[Note]:
    """What the motor cannot turn."""
    last = plan.last_drill
    if plan.bore_to:
        template = "No drill above {widest} is within this motor: drill to that, then bore to {size}, see bore-to-size."
        return [warning(template, widest=label(last.tool), size=plain(plan.bore_to))]
    if machine.motor is not None and share_of_motor(power=last.power, motor=machine.motor) > MOTOR_SHARE:
        return [warning("The last drill asks for most of the motor: feed more gently, or bore the hole.")]
    if last.slowed:
        eased = say("{speed} is slower than the {drill} could run: a faster step would ask more than the motor gives.",
            speed=shown(last.speed.chosen, "speed"), drill=_called(last))  # fmt: skip
        return [info(eased)]
    return []


def _ream_notes(inputs: HolePlanInputs, plan: HolePlan) -> list[Note]:
    reamer = plan.cuts[-1]
    flute = reamer_length(reamer.tool, "machine")
    notes = []
    if inputs.hole == "blind":
        text = "A reamer is full size only behind its lead: drill deeper by that where the whole depth must be reamed."
        notes.append(info(text))
    if flute is not None and reamer.depth > flute:
        buried = "The reamer's flutes, {flute} (DIN 212 or ASME B94.2, from memory), end in the hole: clear it often."
        notes.append(info(buried, flute=_near(flute)))
    return notes


def _near(length: float, decimals: int = 1) -> Text:
    return shown(length, decimals=decimals)


def _called(cut: ToolCut) -> str:
    """A tool as a sentence names it: `8.5 mm drill`."""
    what = {"pilot": "pilot drill", "step": "step drill", "reamer": "reamer"}.get(cut.kind, "drill")
    return f"{label(cut.tool)} {what}"


def _zero_notes(inputs: HolePlanInputs, machine: Machine, plan: HolePlan) -> list[Note]:
    """How to set the dial, since the tip of a drill that stands in its centre does not touch the face."""
    if plan.centre is None and inputs.start == "solid" and not inputs.existing:
        by_feel = "No centre drill is as small as this hole: mark it with a fine punch, or spot it, and start by feel."
        return [info(by_feel)]
    setting = setting_on(machine, plan.point)
    if setting is None:
        return []
    text = say(
        "To zero: bring the corners of the {drill} level with the face and set the dial to {where}, the length of its "
        "point; the tip is hidden in the {there}.",
        drill=_called(plan.last_drill),
        where=setting_text(setting, wheel=False),
        there="hole" if inputs.existing else "centre",
    )
    return [info(text)]


def _reach_notes(inputs: HolePlanInputs, plan: HolePlan, shop: Shop) -> list[Note]:
    """What to do when the drill's flutes do not clear its chips."""
    if inputs.flute is None:
        return drill_notes(plan.last_drill.tool.diameter, plan.travel, shop, otherwise=_TOO_DEEP)
    if plan.travel <= inputs.flute:
        return []
    text = "The tip goes in {travel}, more than the {flute} flute: chips cannot get out. Use a long drill and "
    return [warning(text + "clear it often.", flute=_near(inputs.flute), travel=_near(plan.travel))]


def _wall_notes(inputs: HolePlanInputs, plan: HolePlan) -> list[Note]:
    notes = []
    if inputs.outside is not None:
        wall = (inputs.outside - inputs.diameter) / 2
        if wall <= 0:
            notes.append(warning("The hole is as large as the part: no wall is left."))
        elif wall < max(_LEAST_WALL, _LEAST_WALL_SHARE * inputs.diameter) - _NOISE:
            text = "Only {wall} of wall is left: it may bulge. Drill before turning the outside."
            notes.append(warning(text, wall=_near(wall, 2)))
    if inputs.stock is not None and inputs.hole == "blind" and plan.travel >= inputs.stock:
        over = _near(plan.travel - inputs.stock, 2)
        notes.append(warning("The point comes out {over} on the far side: it is no blind hole.", over=over))
    return notes


def _pilot_notes(inputs: HolePlanInputs, plan: HolePlan) -> list[Note]:
    """One rule for a pilot that was asked for and for the plan's own drills."""
    notes = []
    least = CHISEL * plan.last_drill.tool.diameter
    if inputs.pilot is not None and inputs.pilot < least:
        text = "The pilot is smaller than the chisel edge, about {edge}: it relieves it little."
        notes.append(info(text, edge=_near(least)))
    for cut in plan.cuts:
        if cut.kind == "pilot" and cut.depth < plan.travel - 1e-9:
            text = "The {tool} goes only {depth} deep, to start the hole true: further in, so slender a drill wanders."
            notes.append(info(text, tool=_called(cut), depth=_near(cut.depth)))
    opens = [
        cut for cut in plan.cuts if cut.kind in ("pilot", "step", "drill") and cut.before > LED * cut.tool.diameter
    ]
    if opens:
        text = (
            f"The {_called(opens[0])} opens a hole of more than half its size: only its corners cut, nothing leads it. "
            "Lock what can be locked and feed it evenly."
        )
        notes.append(Note("warning" if inputs.material.group in _GRABS else "info", text))
    return notes


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
