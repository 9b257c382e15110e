"""Parts from a bar: every cut from the faced end, the hole through them all, and the stub that is left."""

from __future__ import annotations

from math import ceil
from typing import Any

from engine.base import declare as ask
from engine.base.answer import Answer, Cell, Column, Figure, Note, Table, figure, heads, info, to_set, warning
from engine.base.operation import Operation, tells
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import Sum, leaf, mm, num
from engine.base.words import figures as places
from engine.base.words import put, say, shown
from engine.drilling.reach_notes import drill_notes, tap_notes
from engine.drilling.tap_depth import HandTap, blind_depth, tap_for
from engine.indexing.dials import on_slide, slide_setting
from engine.shop.model import Shop
from engine.situation import Situation
from engine.turning.bar import MOST_PARTS, BarPlan, Hole, plan_bar
from engine.turning.bar_picture import draw
from engine.turning.collets import collet_figure, through_figure
from engine.turning.part_off import blade_height, blade_width, cross_backlash, reach_needed
from engine.turning.stiffness import ratio_limit

_ROOM = 5.0  # mm between the blade and the jaws: common practice
_SOLID = 2.0  # mm of solid bar left behind a drilled hole: common practice
_NOTICED = 0.01  # mm: a cut out of place by less is lost in the facing
_DEEP = 5.0  # diameters of drill from which a hole wants care: common practice
_FACING = {"iso": 0.5, "asme": 0.508}  # mm off each end on a metric and an inch bench: common practice


@dataclass(frozen=True, slots=True, kw_only=True)
class BarPlanInputs:
    """What `bar-plan` is told.

    parts: How many are made from the bar without letting go of it.
    length: Finished length.
    blade: Each part costs one cut of it.
    facing: Taken off the end of the bar before each part.
    grip: Bar inside the chuck.
    end_waste: Room for the blade, and for the hole that runs on into the stub.
    drill: Diameter of the drill that goes through all the parts at once.
    thread: Thread that is tapped through all the parts at once.
    back: Extra on each part when its parted side is faced afterwards.
    diameter: Says whether it stands out too far, goes through the spindle, and which collet takes it.
    """

    parts: int = ask.count("Parts", low=1, high=MOST_PARTS, example="3")
    length: float = ask.length("Length of a part", high=2000, example="12")
    blade: float = blade_width()
    facing: float = ask.length("Facing", default=0.5, low=-1e-9, high=20, example="0.5",
        empty="0.5 mm, on an inch bench 0.02 in", from_shop=lambda shop: _FACING[shop.standard])  # fmt: skip
    grip: float = ask.length("Held in the jaws", low=-1e-9, high=500, example="20", empty="the length of the jaws",
        required=True, from_shop=lambda shop: shop.lathe.chuck.jaw_length)  # fmt: skip
    end_waste: float | None = ask.length(
        "Last cut to the jaws", low=-1e-9, high=500, example="5", empty="5 mm, or what the drill needs"
    )
    drill: float | None = ask.diameter("Drill", high=200, example="10.5", empty="none, or pitch below the thread")
    thread: Any = ask.thread("Thread", example="M12x1.5", empty="not tapped")
    back: float = ask.length("Left to face the back", default=0.0, low=-1e-9, high=20, example="0.3")
    diameter: float | None = ask.length("Diameter of the bar", high=500, example="20", empty="not given")


def _hole(inputs: BarPlanInputs, last_end: float) -> Hole | None:
    if inputs.thread is None and inputs.drill is None:
        return None
    end = mm(last_end, "end of the last part {}")
    if inputs.thread is None:
        assert inputs.drill is not None
        depth = end + mm(inputs.blade, "blade {}")
        return Hole(inputs.drill, depth, None, depth, "the hole goes through the last parting cut (geometry)")
    pitch = float(inputs.thread.pitch)
    drill = inputs.drill if inputs.drill is not None else inputs.thread.diameter - pitch
    if not 0 < drill < inputs.thread.diameter:
        most = say("a drill smaller than the thread's {major}", major=shown(inputs.thread.diameter))
        raise BadInput("drill", shown(drill), most)
    beyond = blind_depth(pitch=pitch, thread_depth=last_end)
    depth = mm(max(beyond.depth, last_end + inputs.blade))
    words = say("{end} + {more} beyond it for the tap's lead", end=end, more=put(float(depth) - last_end))
    return Hole(drill, depth, last_end, words, beyond.source)


def _work(inputs: BarPlanInputs, shop: Shop) -> Answer:
    if inputs.diameter is not None and inputs.drill is not None and inputs.drill >= inputs.diameter:
        most = say("a drill smaller than the bar's {across}", across=shown(inputs.diameter))
        raise BadInput("drill", shown(inputs.drill), most)
    pitch = inputs.length + inputs.back + inputs.blade + inputs.facing
    last_end = inputs.parts * pitch - inputs.blade - inputs.facing
    hole = _hole(inputs, last_end)
    waste = inputs.end_waste if inputs.end_waste is not None else _waste(hole, last_end + inputs.blade)
    plan = plan_bar(parts=inputs.parts, length=inputs.length, back=inputs.back, blade=inputs.blade,
        facing=inputs.facing, end_waste=waste, grip=inputs.grip)  # fmt: skip
    nearest = min(plan.stick_out - cut.kerf_end for cut in plan.cuts)
    moment = Situation(machine="lathe", work_diameter=inputs.diameter, stick_out=plan.stick_out, grip=inputs.grip,
        thread=inputs.thread, blade_width=inputs.blade, parted_at=nearest, tool_diameter=hole.drill if hole else None,
        depth=float(hole.depth) if hole else None, hole="blind" if hole else "",
        reach_needed=reach_needed(diameter=inputs.diameter, bore=hole.drill if hole else 0.0) if inputs.diameter
        else None)  # fmt: skip
    drawn = draw(plan, hole, waste=waste, grip=inputs.grip, diameter=inputs.diameter)
    figures, notes = _figures(inputs, shop, plan, hole, waste), tuple(_notes(inputs, shop, plan, hole))
    return Answer(figures, (_table(shop, plan),), (drawn,), notes, moments=(moment,))


def _waste(hole: Hole | None, kerf_end: float) -> float:
    """Room before the jaws: for the blade, and so that the drill's point stays clear of them."""
    return _ROOM if hole is None else max(_ROOM, float(hole.depth) + hole.point - kerf_end + _SOLID)


def _figures(inputs: BarPlanInputs, shop: Shop, plan: BarPlan, hole: Hole | None, waste: float) -> tuple[Figure, ...]:
    back, facing = mm(max(inputs.back, 0.0), "back {}"), mm(max(inputs.facing, 0.0), "facing {}")
    one = mm(inputs.length) + back + mm(inputs.blade, "blade {}") + facing
    room, grip = mm(max(waste, 0.0), "waste {}"), mm(max(inputs.grip, 0.0), "grip {}")
    parts = num(inputs.parts) * one
    out = parts + room
    figures = [
        figure("stick_out", "Stands out of the jaws", out, "arithmetic", decimals=2, side="up"),
        figure("bar_length", "Bar needed", out + grip, "arithmetic", decimals=2, side="up"),
        figure("stub", "Stub left to hold by", room + grip, "arithmetic", decimals=2),
    ]
    if hole is not None:
        figures[2:2] = _hole_figures(inputs, shop, hole, plan)
    if inputs.diameter is not None:
        figures += [through_figure(inputs.diameter, shop), collet_figure(inputs.diameter, shop)]
    return tuple(figures)


def _hole_figures(inputs: BarPlanInputs, shop: Shop, hole: Hole, plan: BarPlan) -> list[Figure]:
    travel = hole.depth.known() + leaf(hole.point, "length", "point {}")
    point = "geometry of a 118 degree point"
    working = say("{sum} (0.30043 x {drill})", sum=travel, drill=put(hole.drill))
    figures = [
        figure("drill_depth", "Full diameter to", hole.depth, hole.source, hole.working, decimals=2, side="up"),
        figure("drill_travel", "Drill-tip travel", travel, point, working, decimals=2, side="up"),
    ]
    tailstock = shop.lathe.tailstock if shop.lathe else None
    if hole.thread_depth is not None:
        thread = mm(hole.thread_depth)
        words = say("end of the last part, {end} from the faced end", end=thread)
        figures.append(figure("thread_depth", "Full thread to, least", thread,
            "geometry: the last part is then threaded through", words, decimals=2, side="up"))  # fmt: skip
        figures += _tap_figures(inputs, shop, hole)
    in_stub = mm(float(travel) - plan.cuts[-1].kerf_end, "hole in it {}")
    solid = mm(plan.stub, "stub {}") - in_stub
    working = solid if solid.value >= 0 else say("{sum}, so nothing", sum=solid)  # type: ignore[assignment]
    figures.append(Figure("stub_solid", "Solid part of the stub", max(float(solid), 0.0), "length", "arithmetic",
        working, decimals=2, side="down"))  # fmt: skip
    if tailstock:
        stands = slide_setting(tailstock, float(travel), towards="past")
        words = say("{travel} at {turn} a turn in {lines} lines, next line past it", travel=put(float(travel)),
            turn=shown(float(tailstock.travel_per_turn)), lines=tailstock.divisions)  # fmt: skip
        source = "arithmetic on the owned dial"
        setting = on_slide("Tailstock", tailstock, stands, "in", float(travel))
        figures += [
            to_set("drill_set", "Drill by the tailstock", setting, source, words),
            Figure("drill_turns", "Tailstock: whole turns", stands.turns, "count", source, words),
            Figure("drill_reading", "Tailstock dial", stands.reading, "length", source, words),
        ]
    return figures


def _last_tap(inputs: BarPlanInputs, shop: Shop, hole: Hole) -> HandTap:
    """Which tap gets full thread through the last part; the last one where none does."""
    assert hole.thread_depth is not None
    return tap_for(inputs.thread, shop, depth=hole.thread_depth, hole_depth=float(hole.depth))


def _tap_figures(inputs: BarPlanInputs, shop: Shop, hole: Hole) -> list[Figure]:
    """That tap, and after how many turns."""
    tap = _last_tap(inputs, shop, hole)
    assert hole.thread_depth is not None
    if tap.full_thread < hole.thread_depth - 1e-9:
        return []
    pitch = mm(float(inputs.thread.pitch), "pitch {}")
    threads: Sum = mm(hole.thread_depth) / pitch + num(tap.lead_threads, "{} threads of lead")
    turns = ceil(float(threads) - 1e-9)
    source = f"a lead of {tap.lead_threads} threads: common practice, no source"
    return [Figure("tap_turns", f"Turns, {tap.name} tap", turns, "count", source, threads)]


def _table(shop: Shop, plan: BarPlan) -> Table:
    saddle = shop.lathe.saddle if shop.lathe else None
    columns = [Column("part", "Part", "count"), Column("from", "From", "length", 2)]
    columns += heads(to=("To", "length", 2), kerf_end=("Blade to", "length", 2))
    if saddle is None:
        rows: tuple[tuple[Cell, ...], ...] = tuple((c.part, c.start, c.end, c.kerf_end) for c in plan.cuts)
        return Table("cuts", "Cuts from the faced end", tuple(columns), rows, "cut", ("to",), "arithmetic")
    columns += heads(saddle_turns=("Saddle turns", "count"), saddle_reading=("dial", "length", 2))
    columns += heads(error=("Off by", "length", 3), set="Saddle")
    found = []
    for cut in plan.cuts:
        stands = slide_setting(saddle, cut.end)
        to = on_slide("Saddle", saddle, stands, "", cut.end)
        found.append((cut.part, cut.start, cut.end, cut.kerf_end, stands.turns, stands.reading, stands.error, to))
    return Table("cuts", "Cuts from the faced end; the blade's tailstock side stands at To", tuple(columns),
        tuple(found), "cut", ("set", "to"), "arithmetic; each reading rounded once from the faced end")  # fmt: skip


def _notes(inputs: BarPlanInputs, shop: Shop, plan: BarPlan, hole: Hole | None) -> list[Note]:
    """How to zero the saddle first, then what is too long, too deep or too thick."""
    notes = [info("Zero the saddle with the blade's tailstock side level with the faced end; come to each "
        "reading from the tailstock side.")]  # fmt: skip
    saddle = shop.lathe.saddle if shop.lathe else None
    off = max((abs(slide_setting(saddle, cut.end).error) for cut in plan.cuts), default=0.0) if saddle else 0.0
    if off > _NOTICED:
        text = say("The saddle's lines put a cut up to {off} out of place: where that matters leave it on for facing "
            "the back, or set the blade by the top slide.", off=shown(off))  # fmt: skip
        notes.append(info(text))
    if inputs.diameter is not None:
        notes += _length_notes(plan, inputs.diameter)
    if hole is not None:
        notes += _hole_notes(inputs, shop, plan, hole)
    bore = shop.lathe.spindle_bore if shop.lathe else None
    if inputs.diameter is not None and bore is not None and inputs.diameter > bore:
        notes.append(info("The bar is thicker than the spindle's bore of {bore}.", bore=shown(bore, decimals=1)))
    return notes


def _length_notes(plan: BarPlan, diameter: float) -> list[Note]:
    limit, _ = ratio_limit("chuck")
    ratio = plan.stick_out / diameter
    if ratio <= limit:
        return []
    text = say("The bar stands out {out}, {ratio} diameters: above {limit} pull it out part by part, or support it "
        "with a centre.", out=shown(plan.stick_out, decimals=1), ratio=places(ratio, 1),
        limit=places(limit))  # fmt: skip
    return [warning(text)]


def _hole_notes(inputs: BarPlanInputs, shop: Shop, plan: BarPlan, hole: Hole) -> list[Note]:
    notes = []
    over = float(hole.depth) / hole.drill
    if over > _DEEP:
        text = say("The hole is {over} drill diameters deep: clear chips often, or drill and tap each part after the "
            "one before it is off.", over=places(over, 1))  # fmt: skip
        notes.append(warning(text))
    pull = "drill for each part as the bar is pulled out"
    notes += drill_notes(hole.drill, float(hole.depth) + hole.point, shop, otherwise=pull)
    if hole.thread_depth is not None:
        tap = _last_tap(inputs, shop, hole)
        notes += tap_notes(inputs.thread, tap, hole.thread_depth, hole.drill, shop,
                           otherwise="tap each part as the bar is pulled out")  # fmt: skip
    into_stub = float(hole.depth) + hole.point - plan.cuts[-1].kerf_end
    if into_stub > plan.stub - inputs.grip:
        text = say("The drill's point ends {deep} into the stub, past the jaws: leave more before the jaws.",
                   deep=shown(into_stub, decimals=1))  # fmt: skip
        notes.append(warning(text))
    if hole.thread_depth is not None:
        text = say("The stub is hollow for {hollow}: face that off, turn and thread the rest, and each part screws on "
            "to it to have its back finished.", hollow=shown(max(into_stub, 0.0), decimals=1))  # fmt: skip
        notes.append(info(text))
        if inputs.drill is None:
            notes.append(info("Drill taken as diameter less pitch; tap-drill chooses the one to use from your drills."))
    return notes


OPERATION = Operation(
    id="bar-plan",
    pane="turning",
    place=30,
    title="Parts from a bar",
    words="bar stock length saddle several cut list parts pieces many parting stub batch repeat cutoff kerf blade hole "
        "through",
    machine="lathe",
    inputs=BarPlanInputs,
    work=_work,
    hazards=("parting", "chuck", "stud", "turning"),
    example={"parts": "3", "length": "12", "drill": "10.5", "thread": "M12x1.5", "diameter": "20"},
    troubles={
        "PA-01": None, "PA-02": lambda inputs, answer, shop: blade_height(inputs.diameter), "PA-03": None,
        "PA-05": cross_backlash,
        "BP-01": tells("{stick_out} out of the jaws before the first cut", decimals=1, side="up"),
    },
    help="Lays several parts along a bar held once: every cut, the hole through them all, the stub that is left.",
)  # fmt: skip
