"""The operation `bar-plan`: several parts from one bar."""

from __future__ import annotations

from math import ceil

from engine.base.answer import Answer, Column, Figure, Table
from engine.base.operation import Operation
from engine.base.quantity import show, worked
from engine.base.refusals import BadInput
from engine.drilling.tap_depth import blind_depth, hand_taps
from engine.indexing.dials import slide_setting
from engine.shop.model import Shop
from engine.turning.bar import BarPlan, Hole, plan_bar
from engine.turning.bar_inputs import BarPlanInputs
from engine.turning.bar_notes import notes_of
from engine.turning.bar_picture import draw

_ROOM = 5.0  # mm between the blade and the jaws: common practice
_SOLID = 2.0  # mm of solid bar left behind a drilled hole: common practice


def _hole(inputs: BarPlanInputs, last_end: float, unit: str) -> Hole | None:
    if inputs.thread is None and inputs.drill is None:
        return None
    if inputs.thread is None:
        assert inputs.drill is not None
        return Hole(
            inputs.drill,
            last_end + inputs.blade,
            None,
            f"end of the last part {worked(last_end, unit)} + blade {worked(inputs.blade, unit)}",
            "the hole goes through the last parting cut (geometry)",
        )
    pitch = float(inputs.thread.pitch)
    drill = inputs.drill if inputs.drill is not None else inputs.thread.diameter - pitch
    if not 0 < drill < inputs.thread.diameter:
        major = show(inputs.thread.diameter, "length", unit)
        raise BadInput("drill", show(drill, "length", unit), f"a drill smaller than the thread's {major}")
    beyond = blind_depth(pitch=pitch, thread_depth=last_end)
    depth = max(beyond.depth, last_end + inputs.blade)
    end, more = worked(last_end, unit), worked(depth - last_end, unit)
    return Hole(
        drill,
        depth,
        last_end,
        f"end of the last part {end} + {more} beyond it for the tap's lead",
        beyond.source,
    )


def _work(inputs: BarPlanInputs, shop: Shop) -> Answer:
    if inputs.diameter is not None and inputs.drill is not None and inputs.drill >= inputs.diameter:
        across = show(inputs.diameter, "length", shop.unit)
        raise BadInput(
            "drill", show(inputs.drill, "length", shop.unit), f"a drill smaller than the bar's {across}"
        )
    pitch = inputs.length + inputs.back + inputs.blade + inputs.facing
    last_end = inputs.parts * pitch - inputs.blade - inputs.facing
    hole = _hole(inputs, last_end, shop.unit)
    waste = inputs.end_waste if inputs.end_waste is not None else _waste(hole, last_end + inputs.blade)
    plan = plan_bar(
        parts=inputs.parts,
        length=inputs.length,
        back=inputs.back,
        blade=inputs.blade,
        facing=inputs.facing,
        end_waste=waste,
        grip=inputs.grip,
    )
    return Answer(
        figures=_figures(inputs, shop, plan, hole, waste),
        tables=(_table(shop, plan),),
        pictures=(draw(plan, hole, waste=waste, grip=inputs.grip, diameter=inputs.diameter, unit=shop.unit),),
        notes=tuple(notes_of(inputs, shop, plan, hole)),
    )


def _waste(hole: Hole | None, kerf_end: float) -> float:
    """Room before the jaws: for the blade, and so that the drill's point stays clear of them."""
    if hole is None:
        return _ROOM
    return max(_ROOM, hole.depth + hole.point - kerf_end + _SOLID)


def _figures(
    inputs: BarPlanInputs, shop: Shop, plan: BarPlan, hole: Hole | None, waste: float
) -> tuple[Figure, ...]:
    n, arithmetic = inputs.parts, "arithmetic"
    length, back, blade, facing, room, grip = (
        worked(max(size, 0.0), shop.unit)
        for size in (inputs.length, inputs.back, inputs.blade, inputs.facing, waste, inputs.grip)
    )
    one = f"{length} + back {back} + blade {blade} + facing {facing}"
    figures = [
        Figure(
            "bar_length",
            "Bar needed",
            plan.bar_length,
            "length",
            arithmetic,
            f"{n} x ({one}) + waste {room} + grip {grip}",
            decimals=2,
            side="up",
        ),
        Figure(
            "stick_out",
            "Stands out of the jaws",
            plan.stick_out,
            "length",
            arithmetic,
            f"{n} x ({one}) + waste {room}",
            decimals=2,
            side="up",
        ),
        Figure(
            "stub",
            "Stub left as a holding stud",
            plan.stub,
            "length",
            arithmetic,
            f"waste {room} + grip {grip}",
            decimals=2,
        ),
    ]
    if hole is not None:
        figures[1:1] = _hole_figures(inputs, shop, hole, plan)
    return tuple(figures)


def _hole_figures(inputs: BarPlanInputs, shop: Shop, hole: Hole, plan: BarPlan) -> list[Figure]:
    unit, travel = shop.unit, hole.depth + hole.point
    figures = [
        Figure(
            "drill_depth",
            "Drill full diameter to",
            hole.depth,
            "length",
            hole.source,
            hole.working,
            decimals=2,
            side="up",
        ),
        Figure(
            "drill_travel",
            "Drill travel from point touching",
            travel,
            "length",
            "geometry of a 118 degree point",
            f"{worked(hole.depth, unit)} + point {worked(hole.point, unit)} (0.30043 x {worked(hole.drill, unit)})",
            decimals=2,
            side="up",
        ),
    ]
    if hole.thread_depth is not None:
        figures.append(
            Figure(
                "thread_depth",
                "Full thread to at least",
                hole.thread_depth,
                "length",
                "geometry: the last part is then threaded through",
                f"end of the last part, {worked(hole.thread_depth, unit)} from the faced end",
                decimals=2,
                side="up",
            )
        )
        figures += _tap_figures(float(inputs.thread.pitch), hole.thread_depth, hole.depth, unit)
    in_stub = travel - plan.cuts[-1].kerf_end
    solid = plan.stub - in_stub
    figures.append(
        Figure(
            "stub_solid",
            "Of the stub, solid",
            max(solid, 0.0),
            "length",
            "arithmetic",
            f"stub {worked(plan.stub, unit)} - hole in it {worked(in_stub, unit)}",
            decimals=2,
            side="down",
        )
    )
    tailstock = shop.lathe.tailstock if shop.lathe else None
    if tailstock:
        setting = slide_setting(tailstock, travel, towards="past")
        turn = show(float(tailstock.travel_per_turn), "length", unit)
        words = f"{worked(travel, unit)} at {turn} a turn in {tailstock.divisions} lines, next line past it"
        figures.append(
            Figure(
                "drill_turns",
                "Tailstock: whole turns",
                setting.turns,
                "count",
                "arithmetic on the owned dial",
                words,
            )
        )
        figures.append(
            Figure(
                "drill_reading", "then to", setting.reading, "length", "arithmetic on the owned dial", words
            )
        )
    return figures


def _tap_figures(pitch: float, full_thread: float, hole_depth: float, unit: str) -> list[Figure]:
    """Which tap of a set gets full thread through the last part, and after how many turns."""
    for tap in hand_taps(pitch=pitch, hole_depth=hole_depth):
        if tap.full_thread >= full_thread - 1e-9:
            turns = ceil(full_thread / pitch + tap.lead_threads - 1e-9)
            words = f"{worked(full_thread, unit)} ÷ pitch {worked(pitch, unit)} + {tap.lead_threads} threads of lead"
            source = "leads of 8, 5 and 2 threads: common practice, no source"
            return [
                Figure(
                    "tap_turns", f"Turns of the {tap.name} tap to get there", turns, "count", source, words
                )
            ]
    return []


def _table(shop: Shop, plan: BarPlan) -> Table:
    saddle = shop.lathe.saddle if shop.lathe else None
    columns = [
        Column("part", "Part", "count"),
        Column("from", "From", "length", 2),
        Column("to", "To", "length", 2),
        Column("kerf_end", "Blade to", "length", 2),
    ]
    if saddle is None:
        rows = tuple((c.part, c.start, c.end, c.kerf_end) for c in plan.cuts)
        return Table("cuts", "Cuts from the faced end", tuple(columns), rows, "cut", ("to",), "arithmetic")
    columns += [
        Column("saddle_turns", "Saddle turns", "count"),
        Column("saddle_reading", "then to", "length", 2),
        Column("error", "Off by", "length", 3),
    ]
    settings = [slide_setting(saddle, c.end) for c in plan.cuts]
    rows_set = tuple(
        (c.part, c.start, c.end, c.kerf_end, s.turns, s.reading, s.error)
        for c, s in zip(plan.cuts, settings, strict=True)
    )
    return Table(
        "cuts",
        "Cuts from the faced end; the blade's tailstock side stands at To",
        tuple(columns),
        rows_set,
        count_noun="cut",
        setting=("saddle_turns", "saddle_reading"),
        source="arithmetic; each reading rounded once from the faced end",
    )


OPERATIONS = {
    "bar-plan": Operation(
        id="bar-plan",
        inputs=BarPlanInputs,
        work=_work,
        hazards=("turning", "chuck", "parting"),
        example={"parts": "3", "length": "12", "drill": "10.5", "thread": "M12x1.5", "diameter": "20"},
        help="Lays several parts along a bar held once: every cut, the hole through them all, the stub that is left.",
    )
}
