"""A slot milled in a round bar, pass by pass."""

from __future__ import annotations

from typing import Any

from engine.base import declare as ask
from engine.base.answer import Answer, Cell, Column, Figure, Note, Table, figure, info, to_set, warning
from engine.base.operation import Operation, tells
from engine.base.records import dataclass, replace
from engine.base.refusals import BadInput, OutOfRange
from engine.base.setting import Setting
from engine.base.sums import Sum, leaf, mm, num, root
from engine.base.words import Text, figures, general, own, put, say, shown
from engine.cutting.feeds import feed
from engine.cutting.forces import specific_force
from engine.cutting.materials import of_shop
from engine.cutting.speeds import SpeedRange, SpindleSpeed, Tool, chosen_step, ideal_speed, spindle_speed, surface_speed
from engine.indexing.dials import Towards, on_slide, slide_setting
from engine.shop.model import Mill, Shop, Slide
from engine.situation import Situation
from engine.slotting import passes
from engine.slotting.cutters import SAME, Cutter, choose
from engine.slotting.pictures import slot_picture

_THIN = 1.0  # mm: a wall thinner than this bends or breaks out; common practice
_OVER_THE_MIDDLE = 3  # flutes with which a cutter is let straight down: common practice
_SLOW = 0.5  # of the ideal speed: a mill that gives less is told of
_BENDS = "the power law of cutting force for one tooth, beam theory on 0.8 of the diameter (common practice, no source)"
_STEP = "a college's design tables; common practice, no source"
_DIALS = "arithmetic on the owned dials"


@dataclass(frozen=True, slots=True, kw_only=True)
class SlotInputs:
    """What `slot` is told.

    width: Finished width.
    depth: From the top of the round, or from the end face.
    length: Overall length.
    diameter: Of the round bar.
    material: What is slotted.
    cutter: Diameter of the end mill, no wider than the slot.
    step: The depth is split into equal passes no deeper than this, in the middle and on the sides.
    place: Side: along the bar, like a keyway. End: across its end face, like a screwdriver's slot.
    begins: How far its near end lies from the end face, or from the side of the round across it; 0 if it runs out.
    bore: Hole along the bar; 0 if it is solid.
    made_of: High-speed steel or carbide: decides speed and bending.
    flute_length: Length of flute, or how far a slender cutter stands out.
    """

    width: float = ask.length("Width of the slot", low=0.1, high=60, example="2")
    depth: float = ask.length("Depth", low=0.02, high=300, example="2")
    length: float = ask.length("Length of the slot", low=0.1, high=2000, example="8")
    diameter: float = ask.length("Diameter of the bar", low=0.5, high=500, example="8")
    material: Any = ask.material("Material", from_shop=of_shop, example="mild steel", empty="the shop's first")
    cutter: float | None = ask.diameter(
        "Cutter", low=0.1, high=60, example="1.5", empty="the widest owned one that goes in"
    )
    step: float | None = ask.length(
        "Deepest pass", low=0.005, high=60, example="0.3", empty="what material and cutter bear"
    )
    place: str = ask.choice("Slot is in", ("side", "end"), default="side", example="side")
    begins: float | None = ask.length(
        "Begins", low=-1e-9, high=2000, example="10", empty="side: at the end face; end: in the middle"
    )
    bore: float = ask.length("Bore", default=0.0, low=-1e-9, high=500, example="3")
    made_of: str | None = ask.choice(
        "Cutter made of", ("hss", "carbide"), example="carbide", empty="as the owned one, else hss"
    )
    flute_length: float | None = ask.length(
        "Cutter bends over", low=0.2, high=200, example="4.5", empty="the owned one's flute, else three diameters"
    )


@dataclass(frozen=True, slots=True)
class _Plan:
    """Everything the answer is made of; the passes' depths down the middle and down each side."""

    cutter: Cutter
    feed_tooth: float
    feed_source: str
    pace: SpindleSpeed
    published: SpeedRange
    step_words: Text
    bend: float
    middle: tuple[float, ...]
    sides: tuple[float, ...]


def _check(inputs: SlotInputs) -> None:
    d, bore = inputs.diameter, inputs.bore
    if inputs.width >= d:
        raise OutOfRange("width", inputs.width, None, d, "mm", "narrower than the bar")
    if bore >= d:
        raise OutOfRange("bore", bore, None, d, "mm", "smaller than the bar")
    if inputs.place != "side":
        return
    through = (d - bore) / 2 if bore else d
    if inputs.depth >= (d - bore) / 2 + (d / 2 if not bore else 0):
        raise OutOfRange("depth", inputs.depth, None, through, "mm", "deeper cuts through the wall")
    drop = passes.crown(diameter=d, width=inputs.width)
    if inputs.depth <= drop:
        raise OutOfRange("depth", inputs.depth, round(drop, 3), None, "mm", "the edges lie that far below the top")


def _plan(inputs: SlotInputs, shop: Shop) -> _Plan:
    cutter = choose(width=inputs.width, depth=inputs.depth, owned=shop.end_mills, diameter=inputs.cutter,
                    made_of=inputs.made_of, flute_length=inputs.flute_length)  # fmt: skip
    tool: Tool = "carbide" if cutter.made_of == "carbide" else "hss"
    tooth = feed(kind="slotting", diameter=cutter.diameter, tool=tool)
    published = surface_speed(material=inputs.material, operation="milling", tool=tool)
    pace = spindle_speed(diameter=cutter.diameter, surface_speed=published.chosen,
                         steps=shop.mill.speeds if shop.mill else (), top=published.high)  # fmt: skip
    step, words = _step(inputs, cutter, tooth.chosen)
    middle = _depths(inputs, cutter, step)
    bend = _bend(inputs, cutter, tooth.chosen, cutter.diameter, middle[0])
    sides = _sides(inputs, cutter, tooth.chosen, step)
    return _Plan(cutter, tooth.chosen, tooth.source, pace, published, words, bend, middle, sides)


def _sides(inputs: SlotInputs, cutter: Cutter, tooth: float, step: float) -> tuple[float, ...]:
    """Depths down each side: none deeper than the middle's deepest pass, nor than the tip bears there."""
    side = max((inputs.width - cutter.diameter) / 2, 0.0)
    if not side:
        return ()
    borne = inputs.depth * min(1.0, passes.BEND_ALLOWED / _bend(inputs, cutter, tooth, side, inputs.depth))
    return _depths(inputs, cutter, min(borne, step))


def _depths(inputs: SlotInputs, cutter: Cutter, step: float) -> tuple[float, ...]:
    """Equal passes; too many of them are laid at the door of the cutter, unless the step was asked for."""
    if inputs.step is None and inputs.depth > passes.MOST_PASSES * step:
        wants = say("a stiffer cutter: this one wants more than {most} passes of {step}", most=passes.MOST_PASSES,
                    step=shown(step))  # fmt: skip
        raise BadInput("cutter", shown(cutter.diameter), wants)
    return passes.pass_depths(depth=inputs.depth, step=step)


def _bend(inputs: SlotInputs, cutter: Cutter, tooth: float, width: float, depth: float) -> float:
    return passes.tip_deflection(material=inputs.material, cutter=cutter.diameter, width=min(width, cutter.diameter),
        depth=depth, feed=tooth, teeth=cutter.flutes, flute_length=cutter.flute_length,
        made_of=cutter.made_of)  # fmt: skip


def _step(inputs: SlotInputs, cutter: Cutter, tooth: float) -> tuple[float, Text]:
    if inputs.step is not None:
        return min(inputs.step, inputs.depth), say("{step} as given", step=put(inputs.step))
    share = passes.depth_share(inputs.material)
    deepest = share * cutter.diameter
    bent = _bend(inputs, cutter, tooth, cutter.diameter, deepest)
    step = passes.step_for(share_depth=deepest, bend_at_share=bent)
    less: Text = ""
    if step < deepest:
        less = say(", less so that the tip bends no more than {most}", most=shown(passes.BEND_ALLOWED))
    why = say("{step}: {sum}{less}", step=put(step), sum=num(share) * mm(cutter.diameter, "cutter {}"), less=less)
    return min(step, inputs.depth), why


@dataclass(frozen=True, slots=True)
class _Way:
    """Where the cutter goes, from where its side touches the end face (or the side of the round): [mm]."""

    start: float
    end: float
    runs_out: bool

    @property
    def closed(self) -> bool:
        """Whether the slot begins inside the metal, so that the cutter is let down into it."""
        return self.start > 0


def _way(inputs: SlotInputs, cutter: float) -> _Way:
    """From the touch the cutter's far side is its own diameter on: it stands at `begins` after both together."""
    across = inputs.diameter if inputs.place == "end" else None
    first = inputs.begins
    if first is None:
        first = max((across - inputs.length) / 2, 0.0) if across else 0.0
    start = first + cutter if first > 0 else 0.0
    runs_out = across is not None and first + inputs.length >= across - SAME
    end = across + cutter if across is not None and runs_out else first + inputs.length
    return _Way(start, max(end, start), runs_out)


def _wall(inputs: SlotInputs) -> tuple[str, Sum]:
    """What is left beside or under the slot."""
    bar, width, depth = mm(inputs.diameter), mm(inputs.width), mm(inputs.depth)
    if inputs.place == "end":
        return "Wall left each side", (bar - width) / 2
    if inputs.bore > 0:
        return "Wall over the bore", (bar - mm(inputs.bore)) / 2 - depth
    return "Wall under the slot", bar - depth


def _work(inputs: SlotInputs, shop: Shop) -> Answer:
    _check(inputs)
    plan, (label, wall) = _plan(inputs, shop), _wall(inputs)
    left = figure("wall_left", label, wall, "geometry", decimals=2, side="down")
    first, ends = _first_pass(plan, inputs, shop.mill), _ends(plan, inputs, shop.mill)
    made = (*first, *ends, *_speed_figures(inputs, plan), *_size_figures(inputs, plan, left))
    left_over, table = float(wall), _table(plan, inputs, shop.mill)
    notes, moment = tuple(_notes(inputs, shop, plan, left_over)), _moment(inputs, plan, left_over)
    drawn = slot_picture(inputs.diameter, inputs.width, inputs.depth, inputs.bore, inputs.place)
    return Answer(made, (table,), (drawn,), notes, moments=(moment,))


def _moment(inputs: SlotInputs, plan: _Plan, wall: float) -> Situation:
    cutter = plan.cutter
    rate = plan.feed_tooth * cutter.flutes * plan.pace.chosen
    return Situation(machine="mill", material=inputs.material.name, spindle_speed=plan.pace.chosen,
        tool_diameter=cutter.diameter, cutter_flutes=cutter.flutes, feed_rate=rate, pass_depth=plan.middle[0],
        cutter_deflection=plan.bend, wall=wall, work_diameter=inputs.diameter, snags=True)  # fmt: skip


def _first_pass(plan: _Plan, inputs: SlotInputs, mill: Mill | None) -> list[Figure]:
    """How deep the first pass is set, on the mill's own dial."""
    if mill is None:
        return []
    setting = _set(mill.z, "Mill z", plan.middle[0], "down", "nearest" if len(plan.middle) == 1 else "short")
    deep = say("{depth} from the touched top", depth=mm(plan.middle[0]))
    return [to_set("setting", "First pass", setting, _DIALS, deep)]


def _ends(plan: _Plan, inputs: SlotInputs, mill: Mill | None) -> list[Figure]:
    """Between which readings of the long way every pass is fed; without a mill how far."""
    way = _way(inputs, plan.cutter.diameter)
    touch = "the side of the round" if inputs.place == "end" else "the end face"
    zero = say("from where the cutter touches {touch}", touch=touch)
    if mill is None:
        start, end = mm(way.start, "start {}"), mm(way.end, "end {}")
        return [figure("start", "Fed from", start, "geometry", zero), figure("end", "Fed to", end, "geometry", zero)]
    start_at, end_at = _set_ends(way, mill)
    return [to_set("start", "Fed from", start_at, _DIALS, zero), to_set("end", "Fed to", end_at, _DIALS, zero)]


def _set_ends(way: _Way, mill: Mill) -> tuple[Setting, Setting]:
    """Both on lines that leave the slot no longer than asked; one that runs out goes clear."""
    end = _set(mill.x, "Mill x", way.end, "", "past" if way.runs_out else "short")
    return _set(mill.x, "Mill x", way.start, "", "past"), end


def _set(slide: Slide, wheel: str, distance: float, way: str, towards: Towards) -> Setting:
    stands = slide_setting(slide, distance, towards=towards)
    return on_slide(wheel, slide, stands, way, distance)


def _speed_figures(inputs: SlotInputs, plan: _Plan) -> tuple[Figure, ...]:
    cutter, pace = plan.cutter, plan.pace
    ideal = ideal_speed(surface_speed=plan.published.chosen, diameter=cutter.diameter)
    speed = say("{sum} = {ideal}; {step}", sum=ideal, ideal=figures(pace.ideal), step=chosen_step(pace, "mill"))
    teeth, turns = num(cutter.flutes, "{} teeth"), leaf(pace.chosen, "ratio", "{} rev/min")
    rate = (mm(plan.feed_tooth, "{} a tooth") * teeth * turns).as_("feed_rate")
    if inputs.cutter is not None:
        source = "as given" if cutter.owned else "as given; not among the owned end mills"
    else:
        source = "the widest owned end mill that goes in" if cutter.owned else "no owned end mill goes in"
    stands = say("{n} flutes, {made_of}, bends over {long}", n=cutter.flutes, made_of=cutter.made_of,
                 long=shown(cutter.flute_length))  # fmt: skip
    return (
        Figure("rpm", "Set the spindle to", pace.chosen, "speed", plan.published.source, speed),
        replace(figure("feed_rate", "Feed", rate, plan.feed_source), was="feed"),
        Figure("cutter", "Cutter", cutter.diameter, "length", source, stands),
    )


def _size_figures(inputs: SlotInputs, plan: _Plan, wall: Figure) -> tuple[Figure, ...]:
    depth, count = mm(inputs.depth), len(plan.middle)
    source = "as given" if inputs.step is not None else _STEP
    each = say("{sum}; deepest pass {words}", sum=depth / num(count), words=plan.step_words)
    made = [
        replace(figure("each_pass", "Each pass goes down", depth / num(count), source, each), was="step"),
        wall,
        Figure("cutter_deflection", "Cutter's tip bends by", plan.bend, "length", _BENDS, _bend_words(inputs, plan),
               decimals=4),
    ]  # fmt: skip
    if inputs.place == "side":
        bar, width = mm(inputs.diameter), mm(inputs.width)
        drop = (bar - root(bar**2 - width**2)) / 2
        falls = say("{sum}, as the round falls away", sum=depth - drop.known())
        made.append(figure("edge_depth", "Depth at the edges", depth - drop.known(), "geometry", falls))
        if inputs.length > plan.cutter.diameter:
            way = mm(inputs.length) - mm(plan.cutter.diameter, "cutter {}")
            made.append(figure("travel", "Travel, ends closed", way, "geometry"))
    return tuple(made)


def _bend_words(inputs: SlotInputs, plan: _Plan) -> Text:
    """The sum behind the bend of the tip, in mm and N as the constants of the power law are."""
    cutter, stuff, depth, tooth = plan.cutter, inputs.material, plan.middle[0], plan.feed_tooth
    force = specific_force(stuff, tooth) * depth * tooth
    force_sum = say("{kc} x {h}^-{mc} x {depth} x {h} = {force}", kc=general(stuff.kc11), h=own(put(tooth), "mm"),
        mc=general(stuff.mc), depth=own(put(depth), "mm"),
        force=own(shown(force, "force", decimals=3), "mm"))  # fmt: skip
    bar = say("3.14159 x ({share} x {d}) to the 4th ÷ 64", share=general(passes.EFFECTIVE),
              d=own(put(cutter.diameter), "mm"))  # fmt: skip
    bent = say("{force} x {length} cubed ÷ (3 x {modulus} x {bar})", force=own(put(force, "force"), "mm"),
               length=own(put(cutter.flute_length), "mm"), modulus=general(passes.MODULUS[cutter.made_of]),
               bar=bar)  # fmt: skip
    return say("tooth force {force_sum}; {bent} = {bend}", force_sum=force_sum, bent=bent,
               bend=own(shown(plan.bend, decimals=5), "mm"))  # fmt: skip


def _table(plan: _Plan, inputs: SlotInputs, mill: Mill | None) -> Table:
    """A row for each pass: down the middle, down one side, down the other.

    The cross dial's zero is the second side, so that every cross reading is come to from the same side. Depths stop
    short of their line, the last of each place at the nearest, so that the floor is one depth; the first side stops
    short, so that the slot does not get too wide.
    """
    offset = max((inputs.width - plan.cutter.diameter) / 2, 0.0)
    places = [("middle", plan.middle, offset), ("first side", plan.sides, 2 * offset), ("second side", plan.sides, 0.0)]
    sides = bool(plan.sides)
    columns = [Column("pass", "Pass", "count"), Column("place", "Where"), Column("depth", "Depth", "length")]
    if sides or mill is None:
        columns.append(Column("offset", "Cross", "length"))
    if mill:
        columns.append(Column("dial", "Down"))
        if sides:
            columns.append(Column("cross_dial", "Across"))
        columns += [Column("from_dial", "Mill x from"), Column("to_dial", "Mill x to")]
    ends = _set_ends(_way(inputs, plan.cutter.diameter), mill) if mill else ()
    fed = [replace(one, way=way) for one, way in zip(ends, ("from", "to"), strict=False)]
    rows: list[tuple[Cell, ...]] = []
    for place, depths, across in places:
        for k, depth in enumerate(depths, 1):
            head: list[Cell] = [len(rows) + 1, place, depth]
            rows.append((*head, *_dials(place, depth, across, k == len(depths), sides, mill), *fed))
    setting = ("dial", *(("cross_dial",) if sides else ()), "from_dial", "to_dial") if mill else ("depth",)
    return Table("passes", "Passes", tuple(columns), tuple(rows), "pass", setting, _DIALS)


def _dials(place: str, depth: float, across: float, last: bool, sides: bool, mill: Mill | None) -> tuple[Cell, ...]:
    if mill is None:
        return (across,)
    down = _set(mill.z, "Mill z", depth, "down", "nearest" if last else "short")
    if not sides:
        return (down,)
    over: Towards = "short" if place == "first side" else "nearest"
    return across, down, _set(mill.y, "Mill y", across, "", over)


def _notes(inputs: SlotInputs, shop: Shop, plan: _Plan, wall: float) -> list[Note]:
    cutter = plan.cutter
    notes = []
    if not cutter.owned:
        none = "No owned end mill goes into this slot: the plan assumes one of"
        why = none if inputs.cutter is None else "Not among your end mills: one of"
        notes.append(warning("{why} {size}.", why=why, size=shown(cutter.diameter)))
    if cutter.flutes > _OVER_THE_MIDDLE and _way(inputs, cutter.diameter).closed:
        text = "{n} flutes may not cut over the cutter's middle: drill a hole where the slot begins."
        notes.append(warning(text, n=cutter.flutes))
    if cutter.flute_length < inputs.depth:
        notes.append(warning("The cutter's flute, {long}, is shorter than the depth.", long=shown(cutter.flute_length)))
    if plan.bend > passes.BEND_ALLOWED * (1 + 1e-9):
        notes.append(warning("The tip bends {bend}: take shallower passes.", bend=shown(plan.bend, decimals=3)))
    if wall < _THIN:
        notes.append(warning("Only {wall} of wall is left.", wall=shown(max(wall, 0.0), decimals=2)))
    if plan.pace.chosen < _SLOW * plan.pace.ideal and shop.mill:
        text = "The mill's top step gives less than half the ideal {ideal} rev/min: the feed falls with it; keep to it."
        notes.append(info(text, ideal=figures(plan.pace.ideal)))
    if abs(inputs.width - cutter.diameter) <= SAME:
        notes.append(info("A cutter of the slot's own width cuts it a little wide; a narrower one is brought to size."))
    else:
        notes.append(info("Set the cross dial to the first offset with the cutter over the middle; come to every cross "
            "reading from the same side. Measure after the first side."))  # fmt: skip
        notes.append(info("Fed one way, the cutter climbs along one of the two sides: nip the table's lock there."))
    if shop.mill:
        touch = "the side of the round" if inputs.place == "end" else "the end face"
        text = "Zero the long way with the cutter touching {touch}; go back past the start and read both ends going on."
        notes.append(info(text, touch=touch))
    if inputs.place == "side" and inputs.length < cutter.diameter:
        notes.append(warning("The slot is shorter than the cutter is wide."))
    return notes


def _overshoot(inputs: SlotInputs, answer: Answer, shop: Shop) -> Text:
    """A quarter to half a turn of the table's handwheel."""
    if shop.mill is None:
        return ""
    turn = float(shop.mill.y.travel_per_turn)
    return say("{low} to {high} past, then back", low=shown(turn / 4), high=shown(turn / 2))


OPERATION = Operation(
    id="slot",
    pane="joining",
    place=10,
    title="Mill a slot",
    words="slot keyway end mill slot drill cutter deflection screwdriver groove mill milling router pocket kerf "
    "passes key seat two flute endmill narrow",
    machine="mill",
    inputs=SlotInputs,
    work=_work,
    tool="slot drill {cutter}",
    hazards=("milling", "clamping"),
    example={"width": "2", "depth": "2", "length": "8", "diameter": "8", "material": "mild steel"},
    troubles={"IN-03": _overshoot, "SL-01": tells("the tip bends {cutter_deflection}")},
    help="Mills a slot in a round bar: cutter, speed, each pass on the mill's dials, and what is left of the bar.",
)
