"""The operation `hole-plan`."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, sin, tan

from engine.base import declare as ask
from engine.base.answer import Answer, Cell, Column, Figure, Table
from engine.base.operation import Operation
from engine.base.refusals import BadInput
from engine.cutting.feeds import feed_words
from engine.cutting.forces import BELT_DRIVE, share_of_motor, specific_force
from engine.cutting.materials import Material, of_shop
from engine.drilling import holes
from engine.drilling.bench import MACHINES, Machine, machine_of, setting_on
from engine.drilling.figures import dial_figures, said, speed_figure
from engine.drilling.plan import HolePlan, ToolCut, plan_hole
from engine.drilling.plan_notes import plan_notes
from engine.drilling.reaming import pre_drill
from engine.drilling.sizes import label
from engine.shop.model import Shop

_CP = "common practice, no source"
_PECK_SOURCE = (
    f"first 2 diameters: a drill dealer's technical tips; then 1 and from 6 diameters half a diameter: {_CP}"
)
_KINDS = {"centre": "", "pilot": "pilot, ", "step": "step, ", "drill": "drill, ", "reamer": "reamer, "}


@dataclass(frozen=True, slots=True, kw_only=True)
class HolePlanInputs:
    """What `hole-plan` is told."""

    diameter: float = ask.diameter(
        "Hole diameter", example="8.5", high=100, help="A length or a drill's name: 8.5, 3/8in, #7, F."
    )
    depth: float = ask.length(
        "Depth",
        example="25",
        high=2000,
        help="At full diameter, without the drill's point; for a through hole, the thickness.",
    )
    material: Material = ask.material(
        "Material",
        from_shop=of_shop,
        empty="the shop's first",
        example="mild steel",
        help="Decides speed, pecks and torque.",
    )
    hole: str = ask.choice(
        "Kind of hole",
        ("blind", "through"),
        default="blind",
        example="blind",
        help="A blind hole's depth is never passed; through, the drill runs out at the far side.",
    )
    pilot: float | None = ask.diameter(
        "Pilot drill",
        required=False,
        empty="as needed",
        example="2",
        high=100,
        help="A first drill about as wide as the web of the last, to clear the way for its chisel edge.",
    )
    machine: str | None = ask.choice(
        "On the",
        MACHINES,
        required=False,
        empty="lathe, else mill",
        example="lathe",
        help="Whose speeds, motor and handwheel are used.",
    )
    finish: str = ask.choice(
        "Finish by", ("drill", "ream"), default="drill", example="drill", help="Ream: to H7, see `ream`."
    )
    point: float = ask.angle(
        "Point angle",
        low=60,
        high=160,
        default=118.0,
        example="118",
        help="Included angle of the drill's point: 118° for a jobber drill, 135° for a split point.",
    )
    flute: float | None = ask.length(
        "Flute length",
        required=False,
        empty="jobber drill's",
        example="75",
        high=2000,
        help="Of the last drill: beyond it the flutes are buried and the chips jam.",
    )
    centre: str = ask.choice(
        "Centre drills",
        ("iso", "asme"),
        from_shop=lambda shop: "asme" if shop.unit == "inch" else "iso",
        empty="by the bench",
        example="iso",
        help="iso: ISO 866 form A, in mm. asme: ASME B94.11M plain type, usual on an inch bench.",
    )
    outside: float | None = ask.length(
        "Outside of part",
        required=False,
        empty="not known",
        example="20",
        high=1000,
        help="Diameter of the part outside, to see what wall is left.",
    )
    stock: float | None = ask.length(
        "Metal thickness",
        required=False,
        empty="not known",
        example="40",
        high=5000,
        help="To see what is left under the point of a blind hole.",
    )


def _work(inputs: HolePlanInputs, shop: Shop) -> Answer:
    machine = machine_of(shop, inputs.machine)
    reamer, is_owned = None, False
    drilled = inputs.diameter
    if inputs.finish == "ream":
        reamer, is_owned = holes.finish_tool(inputs.diameter, shop.reamers)
        drilled = pre_drill(
            diameter=inputs.diameter, material=inputs.material, kind="machine", drills=shop.drills
        ).tool.diameter
    if inputs.pilot is not None and inputs.pilot >= drilled:
        given, accepted = said(inputs.pilot, shop.unit), f"less than the drill's {said(drilled, shop.unit)}"
        raise BadInput("pilot", given, accepted)
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
    )
    return Answer(
        figures=tuple(_figures(inputs, machine, plan, shop.unit)),
        tables=tuple(_tables(inputs, machine, plan)),
        notes=tuple(plan_notes(inputs, machine, plan, shop.unit)),
    )


def _name(cut: ToolCut) -> str:
    if cut.kind == "centre":
        return cut.tool.name
    return f"{_KINDS[cut.kind]}{label(cut.tool)}{'' if cut.owned else ' (not owned)'}"


def _figures(inputs: HolePlanInputs, machine: Machine, plan: HolePlan, unit: str) -> list[Figure]:
    last = plan.last_drill
    size = last.tool.diameter
    past = max(0.5, 0.1 * size)
    run_past = Figure(
        "run_past",
        "Run past the far side",
        past,
        "length",
        _CP,
        f"a tenth of {said(size, unit)}, or {said(0.5, unit)} if that is more",
        decimals=1,
    )
    return [
        Figure(
            "travel",
            "Tip goes in",
            plan.travel,
            "length",
            "the full depth and the point; geometry",
            f"{said(inputs.depth, unit)} + point {said(plan.point, unit)}",
            decimals=2,
        ),
        Figure(
            "drill_point",
            "Length of the point",
            plan.point,
            "length",
            "L = D ÷ (2 tan(angle ÷ 2)); geometry",
            f"{said(size, unit)} ÷ (2 x {tan(radians(inputs.point) / 2):.4f})",
            decimals=2,
        ),
        *([run_past] if inputs.hole == "through" else []),
        *dial_figures(
            machine, plan.travel, unit=unit, reading="reading", never_deeper=inputs.hole == "blind"
        ),
        speed_figure(machine, last.published, last.speed, diameter=size, unit=unit, share=last.reduced.speed),
        _feed(last, unit),
        _pecks(last, unit),
        *_load(last, machine, inputs, unit),
        Figure(
            "cutting_time",
            "In the cut",
            sum(cut.seconds for cut in plan.cuts),
            "duration",
            "depth ÷ (feed x speed), every tool; clearing chips comes on top",
            " + ".join(f"{cut.seconds:.2f} s" for cut in plan.cuts),
            decimals=0,
        ),
        *_walls(inputs, plan, unit),
    ]


def _feed(cut: ToolCut, unit: str) -> Figure:
    published = cut.published_feed
    working = feed_words(published.low, published.high, unit)
    if cut.reduced.feed < 1:
        working = f"{said(published.low, unit)} a turn x {cut.reduced.feed:g} for the depth; {working}"
    return Figure("feed", "Feed", cut.feed, "feed", published.source, working)


def _pecks(cut: ToolCut, unit: str) -> Figure:
    size = cut.tool.diameter
    if len(cut.pecks) == 1:
        working = f"the tip goes in {cut.depth / size:.1f} diameters: shallow enough for one go"
    else:
        depths = ", ".join(said(depth, unit) for depth in cut.pecks[:3])
        working = f"drawn out at {depths}" + (" and so on: see the table" if len(cut.pecks) > 3 else "")
    return Figure(
        "pecks", "Pecks, the last to the full depth", len(cut.pecks), "count", _PECK_SOURCE, working
    )


def _load(cut: ToolCut, machine: Machine, inputs: HolePlanInputs, unit: str) -> list[Figure]:
    half = inputs.point / 2
    size, load = cut.tool.diameter, cut.load
    kc = specific_force(inputs.material, cut.feed / 2 * sin(radians(half)))
    after = f" left after {cut.before:.5g} mm"
    left = f" x {1 - (cut.before / size) ** 2:.4f}{after}" if cut.before else ""
    lip = f" x {1 - cut.before / size:.4f}{after}" if cut.before else ""
    source = f"Kienzle's law, an estimate for a sharp drill; {inputs.material.source}"
    figures = [
        Figure(
            "torque",
            "Torque about",
            load.torque,
            "torque",
            source,
            f"kc {kc:.0f} N/mm² x {cut.feed:.5g} mm a turn x ({size:.5g} mm)² ÷ 8000{left} = {load.torque:.2f} N·m",
        ),
        Figure(
            "thrust",
            "Thrust about",
            load.thrust,
            "force",
            f"{source}; the chisel edge asks for more where there is no pilot",
            f"0.5 x kc {kc:.0f} N/mm² x {cut.feed:.5g} mm a turn x {size:.5g} mm ÷ 2 x sin {half:g}°{lip} = "
            f"{load.thrust:.0f} N",
        ),
    ]
    if machine.motor is not None:
        share = share_of_motor(power=cut.power, motor=machine.motor)
        figures.append(
            Figure(
                "share_of_motor",
                "Share of the motor",
                share,
                "ratio",
                f"Kienzle's law; three quarters of the motor reach the cut ({_CP})",
                f"2 x 3.1416 x {load.torque:.4f} N·m x {cut.speed.chosen:g} ÷ 60 = {cut.power:.2f} W; "
                f"{cut.power:.2f} W ÷ {BELT_DRIVE:g} ÷ {machine.motor:g} W",
                decimals=2,
            )
        )
    return figures


def _walls(inputs: HolePlanInputs, plan: HolePlan, unit: str) -> list[Figure]:
    figures = []
    if inputs.outside is not None:
        figures.append(
            Figure(
                "wall_left",
                "Wall left",
                (inputs.outside - inputs.diameter) / 2,
                "length",
                "subtraction",
                f"({said(inputs.outside, unit)} - {said(inputs.diameter, unit)}) ÷ 2",
                decimals=2,
            )
        )
    if inputs.stock is not None and inputs.hole == "blind" and inputs.stock > plan.travel:
        figures.append(
            Figure(
                "floor_left",
                "Left under the point",
                inputs.stock - plan.travel,
                "length",
                "subtraction",
                f"{said(inputs.stock, unit)} - {said(plan.travel, unit)}",
                decimals=2,
            )
        )
    return figures


def _tables(inputs: HolePlanInputs, machine: Machine, plan: HolePlan) -> list[Table]:
    columns = (
        Column("step", "No.", "count"),
        Column("tool", "Tool"),
        Column("rpm", "Speed", "speed"),
        Column("feed", "Feed", "feed"),
        Column("depth", "Depth", "length", 2),
        Column("pecks", "Pecks", "count"),
        Column("turns", "Turns", "count"),
        Column("reading", "Dial", "length"),
    )
    rows = []
    for number, cut in enumerate(plan.cuts, 1):
        last_through = inputs.hole == "through" and cut.kind in ("drill", "reamer")
        setting = setting_on(machine, cut.depth, towards="nearest" if last_through else "short")
        wheel: tuple[Cell, Cell] = (None, None) if setting is None else (setting.turns, setting.reading)
        rows.append((number, _name(cut), cut.speed.chosen, cut.feed, cut.depth, len(cut.pecks), *wheel))
    steps = Table(
        "steps",
        f"Tools in order; {machine.wheel.lower()} 0 at the face",
        columns,
        tuple(rows),
        count_noun="tool",
        setting=("turns", "reading", "rpm", "tool") if machine.slide else ("depth", "rpm", "tool"),
        source=f"engine tables; the order is {_CP}",
    )
    pecking = _peck_table(machine, plan)
    return [steps, pecking] if pecking else [steps]


def _peck_table(machine: Machine, plan: HolePlan) -> Table | None:
    rows: list[tuple[Cell, ...]] = []
    for cut in plan.cuts:
        if len(cut.pecks) == 1:
            continue
        for number, depth in enumerate(cut.pecks, 1):
            setting = setting_on(machine, depth)
            wheel: tuple[Cell, Cell] = (None, None) if setting is None else (setting.turns, setting.reading)
            rows.append((label(cut.tool), number, depth, *wheel))
    if not rows:
        return None
    columns = (
        Column("tool", "Drill"),
        Column("peck", "Peck", "count"),
        Column("depth", "Depth", "length", 2),
        Column("turns", "Turns", "count"),
        Column("reading", "Dial", "length"),
    )
    return Table(
        "peck_depths", "Draw out and clear the chips at each", columns, tuple(rows), source=_PECK_SOURCE
    )


OPERATIONS = {
    "hole-plan": Operation(
        id="hole-plan",
        inputs=HolePlanInputs,
        work=_work,
        hazards=("drilling",),
        example={"diameter": "8.5", "depth": "25", "material": "mild steel"},
        help="Plans a hole from the centre drill to the last peck, with this machine's speeds and handwheel settings.",
    )
}
