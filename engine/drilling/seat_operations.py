"""The operations about sizes and seats: `drill-size`, `clearance-hole`, `countersink`, `counterbore`, `ream`."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, tan

from engine import inputs as ask
from engine.answer import Answer, Column, Figure, Note, Table
from engine.cutting.materials import Material, of_shop
from engine.cutting.speeds import Cut, surface_speed
from engine.drilling.bench import MACHINES, Machine, machine_of, setting_on, speed_notes, speed_on
from engine.drilling.seats import (
    FITS,
    HEADS,
    Clearance,
    Fit,
    clearance_hole,
    counterbore,
    countersink_depth,
    countersink_for,
)
from engine.drilling.sizes import SAME, SERIES, label, nearest, owned
from engine.errors import BadInput
from engine.lists import Tool
from engine.operation import Operation
from engine.quantity import show
from engine.shop.model import Shop
from engine.threads.thread import Thread

_SERIES_WORDS = {"number": "number", "letter": "letter", "fraction": "fraction, inch", "metric": "metric"}
_SERIES_SOURCE = "ASME B94.11M; metric steps BS 328 (as ISO 235 from memory)"


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillSizeInputs:
    """What `drill-size` is told."""

    size: float = ask.diameter("Drill or diameter", high=500, example="#7", help="Such as #7, F, 13/64, 5.2.")


def _drill_size(inputs: DrillSizeInputs, shop: Shop) -> Answer:
    size = inputs.size
    mine = owned(size, shop.drills)
    near = min(shop.drills, key=lambda tool: abs(tool.diameter - size), default=None)
    figures = [
        Figure(
            "diameter", "Diameter", size, "length", _SERIES_SOURCE, f"{size / 25.4:.4f} in x 25.4", decimals=4
        ),
        Figure(
            "inch",
            "In inches",
            size / 25.4,
            "ratio",
            "1 in = 25.4 mm exactly",
            f"{size:.4f} ÷ 25.4",
            decimals=4,
        ),
    ]
    same = [d for d in (nearest(size, of=name) for name in SERIES) if abs(d.diameter - size) <= SAME]
    if same:
        names = ", ".join(label(drill) for drill in same)
        figures.append(
            Figure("drill", "Is the drill", None, "text", _SERIES_SOURCE, "the same size", text=names)
        )
    words = label(mine) if mine else "no" + (f", the nearest is {label(near)}" if near else "")
    figures.append(Figure("owned", "Owned", None, "text", "the shop's drills", "looked up", text=words))
    return Answer(
        figures=tuple(figures), tables=(_nearest_table(size, shop),), notes=tuple(_size_notes(size))
    )


def _size_notes(size: float) -> list[Note]:
    drill = nearest(size, of="number")
    if drill.memory and abs(drill.diameter - size) <= SAME:
        return [Note("info", f"The size of {drill.name} is from memory, unconfirmed.")]
    return []


def _nearest_table(size: float, shop: Shop) -> Table:
    columns = (
        Column("series", "Series"),
        Column("drill", "Nearest"),
        Column("diameter", "Diameter", "length", 4),
        Column("difference", "Differs by", "length", 4),
        Column("owned", "Owned"),
    )
    rows = []
    for name in SERIES:
        drill = nearest(size, of=name)
        has = "yes" if owned(drill.diameter, shop.drills) else "no"
        rows.append((_SERIES_WORDS[name], label(drill), drill.diameter, drill.diameter - size, has))
    return Table("nearest", "Nearest in each series", columns, tuple(rows), source=_SERIES_SOURCE)


@dataclass(frozen=True, slots=True, kw_only=True)
class ClearanceHoleInputs:
    """What `clearance-hole` is told."""

    size: Thread = ask.thread("Screw", example="M6", help="The screw that passes: M6, 1/4-20 UNC, #8-32.")
    fit: str = ask.choice(
        "Fit",
        FITS,
        default="normal",
        example="normal",
        help="Close, normal, loose: the fine, medium and coarse series of ISO 273.",
    )


def _clearance(inputs: ClearanceHoleInputs, shop: Shop) -> Answer:
    fit: Fit = "close" if inputs.fit == "close" else "loose" if inputs.fit == "loose" else "normal"
    hole = clearance_hole(inputs.size, fit)
    grade = {"close": "H12", "normal": "H13", "loose": "H14"}[fit]
    tool, is_owned = _drill_for(hole, shop)
    play = hole.diameter - inputs.size.diameter
    figures = (
        Figure(
            "diameter",
            f"Hole, {fit} fit",
            hole.diameter,
            "length",
            hole.source,
            f"table of {hole.source}, column {fit}",
        ),
        Figure(
            "drill",
            "Drill",
            None,
            "text",
            hole.source,
            f"owned and inside {hole.diameter:.3f} to {hole.diameter + hole.tolerance:.3f}, else the table's own",
            text=label(tool) + ("" if is_owned else " (not owned)"),
        ),
        Figure(
            "largest",
            "may be as large as",
            hole.diameter + hole.tolerance,
            "length",
            f"{grade} of ISO 286-1" + ("" if hole.source == "ISO 273" else " (for this thread from memory)"),
            f"{hole.diameter:.3f} + {hole.tolerance:.3f}",
            side="down",
        ),
        Figure(
            "clearance",
            "Play on diameter",
            play,
            "length",
            "subtraction",
            f"{hole.diameter:.3f} - {inputs.size.diameter:.3f}",
        ),
    )
    notes = (
        ()
        if is_owned
        else (Note("warning", f"The shop has no {label(tool)} drill, nor one that keeps the limits."),)
    )
    return Answer(figures=figures, notes=notes)


def _drill_for(hole: Clearance, shop: Shop) -> tuple[Tool, bool]:
    """The smallest owned drill inside the limits, else the standard's own or the nearest metric one."""
    top = hole.diameter + hole.tolerance
    inside = [t for t in shop.drills if hole.diameter - SAME <= t.diameter <= top + SAME]
    if inside:
        return min(inside, key=lambda t: t.diameter), True
    if hole.drill:
        return Tool(hole.drill, hole.diameter), False
    published = nearest(hole.diameter + hole.tolerance / 2, of="metric")
    if hole.diameter - SAME <= published.diameter <= top:
        return Tool(published.name, published.diameter), False
    return Tool(f"{hole.diameter:.4g}", hole.diameter), False


@dataclass(frozen=True, slots=True, kw_only=True)
class CountersinkInputs:
    """What `countersink` is told."""

    hole: float | None = ask.diameter(
        "Hole",
        required=False,
        empty="the screw's",
        example="6.6",
        high=500,
        help="Diameter of the hole that is there already.",
    )
    diameter: float | None = ask.diameter(
        "Diameter at the face",
        required=False,
        empty="the screw's",
        example="12.6",
        high=500,
        help="How wide the countersink is to be where it breaks the face.",
    )
    angle: float | None = ask.angle(
        "Included angle",
        low=30,
        high=150,
        required=False,
        empty="90°, on an inch bench 82°",
        example="90",
        help="Of the countersink, from side to side: 90° for metric heads, 82° for Unified ones.",
    )
    screw: Thread | None = ask.thread(
        "For the screw",
        required=False,
        empty="none: hole and diameter are needed",
        example="M6",
        help="Gives hole, diameter and angle.",
    )
    head: str = ask.choice(
        "Head",
        HEADS,
        default="flat",
        example="flat",
        help="Flat: ISO 2009, 7046. Socket: ISO 10642. Old: DIN 963.",
    )
    material: Material = ask.material(
        "Material",
        from_shop=of_shop,
        empty="the shop's first",
        example="mild steel",
        help="Decides the speed of the countersink.",
    )
    machine: str | None = ask.choice(
        "On the",
        MACHINES,
        required=False,
        empty="mill if there is one",
        example="mill",
        help="Whose speeds and handwheel are used.",
    )


def _countersink(inputs: CountersinkInputs, shop: Shop) -> Answer:
    hole, wide, angle, source = _countersink_sizes(inputs, shop)
    depth = countersink_depth(hole=hole, diameter=wide, angle=angle)
    machine = _mill_first(inputs.machine, shop)
    figures = [
        Figure(
            "depth",
            "Depth from the hole's edge",
            depth,
            "length",
            "(D - d) ÷ (2 tan(angle ÷ 2)); geometry",
            f"({wide:.4g} - {hole:.4g}) ÷ (2 x {tan(radians(angle) / 2):.4f})",
        ),
        *_dial(machine, depth),
        Figure("diameter", "Diameter at the face", wide, "length", source, f"{wide:.4g}", decimals=2),
        Figure("hole", "Hole", hole, "length", source, f"{hole:.4g}", decimals=2),
        Figure("angle", "Included angle", angle, "angle", source, f"{angle:g}°", decimals=0),
    ]
    rpm, notes = _rpm(machine, inputs.material, "countersinking", wide, "countersink")
    note = Note("info", "Zero the dial where the countersink first touches the edge of the hole all round.")
    return Answer(figures=(*figures, rpm), notes=(*notes, note))


def _countersink_sizes(inputs: CountersinkInputs, shop: Shop) -> tuple[float, float, float, str]:
    angle = inputs.angle if inputs.angle is not None else (82.0 if shop.unit == "inch" else 90.0)
    if inputs.screw is not None:
        seat = countersink_for(inputs.screw, inputs.head)
        hole = seat.hole if inputs.hole is None else inputs.hole
        wide = seat.diameter if inputs.diameter is None else inputs.diameter
        return _ordered(hole, wide), wide, 90.0 if inputs.angle is None else inputs.angle, seat.source
    if inputs.hole is None:
        raise BadInput(
            "hole", "", "a diameter or a screw", "hole: the hole's diameter is needed (or screw=M6)."
        )
    if inputs.diameter is None:
        text = "diameter: the diameter at the face is needed (or screw=M6)."
        raise BadInput("diameter", "", "a diameter or a screw", text)
    return _ordered(inputs.hole, inputs.diameter), inputs.diameter, angle, "as given"


def _ordered(hole: float, wide: float) -> float:
    if wide <= hole:
        raise BadInput("diameter", f"{wide:.4g} mm", f"more than the hole's {hole:.4g} mm")
    return hole


def _mill_first(wanted: str | None, shop: Shop) -> Machine:
    return machine_of(shop, wanted or ("mill" if shop.mill else None))


def _dial(machine: Machine, depth: float) -> list[Figure]:
    setting = setting_on(machine, depth)
    if setting is None or machine.slide is None:
        return []
    source = f"the {machine.name}'s own dial; rounded once, never too deep"
    words = f"{depth:.3f} ÷ {float(machine.slide.travel_per_turn):g} a turn, {setting.lines} lines"
    return [
        Figure("turns", f"{machine.wheel} turns", setting.turns, "count", source, words),
        Figure("dial", "and dial", setting.reading, "length", source, words),
    ]


def _rpm(
    machine: Machine, stuff: Material, cut: Cut, diameter: float, tool: str
) -> tuple[Figure, list[Note]]:
    published = surface_speed(material=stuff, operation=cut)
    speed = speed_on(machine, diameter=diameter, surface_speed=published.chosen)
    figure = Figure(
        "rpm",
        "Spindle speed",
        speed.chosen,
        "speed",
        published.source,
        f"1000 x {published.chosen:.1f} ÷ (3.1416 x {diameter:.4g}) = {speed.ideal:.0f}; the machine's step below",
    )
    return figure, speed_notes(machine, speed, tool)


@dataclass(frozen=True, slots=True, kw_only=True)
class CounterboreInputs:
    """What `counterbore` is told."""

    size: Thread = ask.thread(
        "Cap screw", example="M6", help="A socket head cap screw: M1.6 to M24, No. 4 to 3/4 in."
    )
    material: Material = ask.material(
        "Material",
        from_shop=of_shop,
        empty="the shop's first",
        example="mild steel",
        help="Decides the speed of the counterbore.",
    )
    machine: str | None = ask.choice(
        "On the",
        MACHINES,
        required=False,
        empty="mill if there is one",
        example="mill",
        help="Whose speeds and handwheel are used.",
    )


def _counterbore(inputs: CounterboreInputs, shop: Shop) -> Answer:
    seat = counterbore(inputs.size)
    through = clearance_hole(inputs.size, "normal")
    machine = _mill_first(inputs.machine, shop)
    rpm, notes = _rpm(machine, inputs.material, "countersinking", seat.bore, "counterbore")
    figures = (
        Figure("bore", "Counterbore", seat.bore, "length", seat.source, f"table, {inputs.size}", decimals=2),
        Figure(
            "depth",
            "Depth",
            seat.depth,
            "length",
            seat.source,
            f"head {seat.height:.3f} + {seat.addition:g}",
            decimals=2,
        ),
        *_dial(machine, seat.depth),
        Figure(
            "head_diameter",
            "Head of the screw",
            seat.head,
            "length",
            seat.source,
            f"table, {inputs.size}",
            decimals=2,
        ),
        Figure(
            "head_height",
            "Height of the head",
            seat.height,
            "length",
            seat.source,
            f"table, {inputs.size}",
            decimals=2,
        ),
        Figure(
            "hole", "Hole for the screw", through.diameter, "length", through.source, "normal fit", decimals=2
        ),
        rpm,
    )
    note = Note(
        "info", f"Clearance round the head {show(seat.bore - seat.head, 'length', shop.unit, decimals=2)}."
    )
    return Answer(figures=figures, notes=(*notes, note))


OPERATIONS = {
    "drill-size": Operation(
        id="drill-size",
        inputs=DrillSizeInputs,
        work=_drill_size,
        hazards=("drilling",),
        example={"size": "#7"},
        help="Says what size a drill is, what else comes near, and whether you own it.",
    ),
    "clearance-hole": Operation(
        id="clearance-hole",
        inputs=ClearanceHoleInputs,
        work=_clearance,
        hazards=("drilling",),
        example={"size": "M6"},
        help="Gives the hole that a screw passes through, close, normal or loose.",
    ),
    "countersink": Operation(
        id="countersink",
        inputs=CountersinkInputs,
        work=_countersink,
        hazards=("drilling",),
        example={"hole": "6.6", "diameter": "12.6"},
        help="Turns a countersink's diameter into its depth and the dial, for a hole or for a screw's head.",
    ),
    "counterbore": Operation(
        id="counterbore",
        inputs=CounterboreInputs,
        work=_counterbore,
        hazards=("drilling", "clamping"),
        example={"size": "M6"},
        help="Gives the counterbore that sinks a cap screw's head flush.",
    ),
}
