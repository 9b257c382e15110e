"""The tapping drill: among those owned, how much thread it leaves, how deep to go, and how to tap."""

from __future__ import annotations

from math import ceil, floor

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note, Table, figure, heads, info, warning, words
from engine.base.operation import Operation
from engine.base.quantity import INCH_MM
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import deg, leaf, mm, num, tan
from engine.base.words import Text, figures, general, plain, put, say, shown
from engine.cutting.materials import Material, of_shop
from engine.drilling.holes import point_length
from engine.drilling.reach import tap_reach
from engine.drilling.reach_notes import drill_notes, tap_notes
from engine.drilling.sizes import SAME, label
from engine.drilling.tap_breaks import tap_breaks
from engine.drilling.tap_choice import Choice, Target, best_of, choices, target, usual_drill
from engine.drilling.tap_depth import (
    LEADS,
    TAP_NAMES,
    BlindDepth,
    HandTap,
    blind_depth,
    blind_taps,
    needed_tap,
    one_after_another,
    tap_for,
    tap_turns,
    taps_at_hand,
    through_tap,
)
from engine.drilling.tap_picture import picture
from engine.drilling.tap_torque import TapTorque, lead_of, tap_torque
from engine.drilling.tapping import (
    FORMING,
    TapKind,
    full_depth,
    full_diameter,
    hand_tight_length,
    iso_percent,
    minor_limits,
    percent_of_thread,
)
from engine.drilling.troubles import spot_first
from engine.shop.model import Shop
from engine.situation import Situation
from engine.threads.limits import limits
from engine.threads.owned import cut_by, taps_cut
from engine.threads.thread import Thread

_CP = "common practice, no source"
_FORMING_LEAD = 3  # threads: a forming tap's lead (ASME B94.9, bottoming 1 to 2.5, from memory)
_DEEP = 2.0  # diameters: a deep blind thread, where the set shares the work (common practice, no source)
_FORMING_TORQUE = 2.5  # a forming tap asks for two to three times the torque of a cutting one
_FIT_WORDS = {"inside": "yes", "too large": "no: too large", "too small": "no: too small"}
_KEEP = {"cut": "keep the limits", "form": "there are"}
_MUCH = 0.5  # of about what breaks the tap (common practice, no source)
_NEAR = 5.0  # points of percentage of thread: so near is as good
_LUBRICANTS = {
    "cast_iron": "dry",
    "brass": "dry or a little light oil",
    "aluminium": "paraffin or light oil",
    "copper": "soluble oil",
    "acetal": "dry",
    "nylon": "dry",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class TapDrillInputs:
    """What `tap-drill` is told.

    size: Such as M6, M10x1, 1/4-20 UNC, 4BA, G1/4.
    material: Decides how much thread is enough, the lubricant and the turning force.
    percent: How much of the full depth of thread is to be left; otherwise material and depth decide.
    tap: Form: rolls the thread, makes no chips, wants a larger hole.
    depth: How deep the thread is to be full; for a through hole, the thickness. Gives the depth to drill.
    hole: A blind hole is drilled deeper than the thread, to make room for the tap's lead.
    """

    size: Thread = ask.thread("Thread", example="M6")
    material: Material = ask.material("Material", from_shop=of_shop, empty="the shop's first", example="mild steel")
    percent: float | None = ask.number(
        "Thread engagement", empty="by material", low=40, high=100, dimension="percent", example="70"
    )
    tap: str = ask.choice("Tap", ("cut", "form"), default="cut", example="cut")
    depth: float | None = ask.length("Thread depth", empty="not known", example="12", high=500)
    hole: str = ask.choice("Kind of hole", ("blind", "through"), default="blind", example="blind")


def _work(inputs: TapDrillInputs, shop: Shop) -> Answer:
    thread, kind = inputs.size, _kind(inputs)
    if kind == "form" and (thread.taper or not thread.kind.formed):
        text = "tap: forming taps are not made for taper and trapezoidal threads; accepted: cut."
        raise BadInput("tap", "form", "cut", text)
    aim = target(thread=thread, material=inputs.material, depth=inputs.depth, percent=inputs.percent, tap=kind)
    found = choices(thread=thread, aim=aim, drills=shop.drills, tap=kind)
    if not found:
        sizes = say("{low} to {high}", low=plain(0.05), high=plain(INCH_MM))
        raise BadInput("size", str(thread), say("a thread that a drill of {sizes} can be tapped for", sizes=sizes))
    best, deep = best_of(found), _depth(inputs)
    figures = [*_drill_figures(inputs, aim, best), *_limit_figures(inputs, best)]
    if inputs.percent is not None or abs(best.tool.diameter - aim.hole) > 0.01:
        figures.append(_aim_figure(inputs, aim))
    figures += _depth_figures(inputs, shop, best, deep)
    return Answer(
        figures=(*figures, *_torque_figures(inputs, shop, best, deep)),
        tables=tuple(_tables(inputs, shop, found, deep)),
        pictures=(picture(inputs.size, best.tool.diameter, inputs.depth, deep.depth if deep else None),),
        notes=(*_drill_notes(inputs, aim, best), *_tap_notes(inputs, shop, best, deep), *_how(inputs)),
        moments=_moments(inputs, best, deep),
    )


def _moments(inputs: TapDrillInputs, best: Choice, deep: BlindDepth | None) -> tuple[Situation, ...]:
    """The drill, then the tap."""
    blind, stuff = inputs.hole == "blind", inputs.material.name
    full = deep.depth if deep else inputs.depth
    drill = Situation(
        material=stuff, tool_diameter=best.tool.diameter, hole="blind" if blind else "through", depth=full
    )
    spare = deep.beyond if deep else None
    tap = Situation(
        material=stuff, thread=inputs.size, tool_diameter=inputs.size.diameter, hole=drill.hole, depth=full, spare=spare
    )
    return drill, tap


def _kind(inputs: TapDrillInputs) -> TapKind:
    return "form" if inputs.tap == "form" else "cut"


def _depth(inputs: TapDrillInputs) -> BlindDepth | None:
    if inputs.depth is None or inputs.hole == "through":
        return None
    return blind_depth(pitch=float(inputs.size.pitch), thread_depth=inputs.depth)


def _drill_figures(inputs: TapDrillInputs, aim: Target, best: Choice) -> list[Figure]:
    thread, kind, size = inputs.size, _kind(inputs), best.tool.diameter
    name, whose = label(best.tool), "owned" if best.owned else "none owned will do"
    near = say("{whose}; nearest to {hole} of those that {keep}", whose=whose, hole=put(aim.hole), keep=_KEEP[kind])
    series = "drill series: ASME B94.11M; metric as BS 328 (as ISO 235 from memory)"
    return [
        words("drill", "Drill", name + ("" if best.owned else " (not owned)"), aim.source, near),
        Figure("drill_diameter", "Drill diameter", size, "length", "the shop's drills" if best.owned else series,
               f"the {name} drill"),
        Figure("engagement_percent", "Thread engagement", percent_of_thread(thread, size, kind), "percent",
               _percent_source(thread, kind), _percent_working(thread, size, kind), decimals=1),
    ]  # fmt: skip


def _percent_source(thread: Thread, kind: TapKind) -> str:
    if kind == "form":
        return "a tap maker's catalogue: (D - d) ÷ (0.0068 P)"
    if iso_percent(thread, 0.0) is not None:
        return "Machinery's Handbook, 31st ed., p. 2155: of 3H/4 on either side"
    halfway = ", halfway along the hand-tight length" if thread.taper else ""
    return f"of the {thread.kind.name} basic depth on either side{halfway}"


def _percent_working(thread: Thread, size: float, kind: TapKind) -> Text:
    if kind == "form":
        return (mm(thread.diameter) - mm(size)) / (num(FORMING) * mm(float(thread.pitch)))
    share = 100 * (mm(full_diameter(thread)) - mm(size)) / mm(full_depth(thread))
    other = iso_percent(thread, size)
    if other is None:
        return share
    by_iso = "{share} (1.299038 P); by the ISO convention (1.082532 P) it is {other} %"
    return say(by_iso, share=share, other=figures(other, 1))


def _limit_figures(inputs: TapDrillInputs, best: Choice) -> list[Figure]:
    thread, found = inputs.size, minor_limits(inputs.size)
    if thread.taper:
        lowest, highest = "Minor, at the small end", "Minor, at the mouth"
        from_low: Text = mm(found.largest) - mm(hand_tight_length(thread)) / 16
        from_high: Text = f"basic, at the gauge plane of {thread}"
    else:
        lowest, highest = "Nut's minor, smallest", "Nut's minor, largest"
        from_low, from_high = (
            limits(thread).working.get(name, "no limits published for this size")
            for name in ("int_minor_min", "int_minor_max")
        )
    both = [
        Figure("minor_min", lowest, found.smallest, "length", found.source, from_low, side="up"),
        Figure("minor_max", highest, found.largest, "length", found.source, from_high, side="down"),
    ]
    if inputs.tap != "cut":
        return both
    against = say(
        "{size} against {low} to {high}; drills cut a little large",
        size=shown(best.tool.diameter),
        low=shown(found.smallest, side="up"),
        high=shown(found.largest, side="down"),
    )
    return [*both, words("inside_limits", "Within the limits", _FIT_WORDS[best.fit], found.source, against)]


def _aim_figure(inputs: TapDrillInputs, aim: Target) -> Figure:
    thread, pitch = inputs.size, mm(float(inputs.size.pitch))
    if inputs.tap == "form":
        hole = mm(thread.diameter) - num(FORMING) * num(aim.percent) * pitch
    else:
        hole = mm(full_diameter(thread)) - num(aim.percent) / 100 * mm(full_depth(thread))
    working = say("{hole} for {percent} %", hole=hole, percent=figures(aim.percent, 1))
    return Figure("target_hole", "Hole aimed at", aim.hole, "length", aim.source, working)


def _depth_figures(inputs: TapDrillInputs, shop: Shop, best: Choice, deep: BlindDepth | None) -> list[Figure]:
    if inputs.depth is None:
        return []
    wanted, size = mm(inputs.depth), mm(best.tool.diameter)
    full, source = wanted, "a through hole goes right through"
    beyond: Text = say("the thickness, {depth}", depth=put(inputs.depth))
    if deep:
        full, source = wanted + mm(deep.beyond), deep.source
        beyond = say("{x} beyond the usable thread", x=full)
    tip = full.known() + size / (2 * tan(deg(59)))
    reach = tap_reach(inputs.size, best.tool.diameter, shop, _named_tap(inputs, shop, deep).name)
    return [
        figure("drill_depth", "Drill to full diameter", full, source, beyond, decimals=2),
        figure("tip_depth", "Depth with the point", tip, "geometry, 118° point", decimals=2),
        _turns(inputs, shop, deep),
        Figure(
            "tap_reach",
            "Your tap reaches" if reach.owned else "Usual tap reaches",
            reach.depth,
            "length",
            reach.source,
            f"to {reach.why}",
            decimals=0,
        ),
    ]


def _named_tap(inputs: TapDrillInputs, shop: Shop, deep: BlindDepth | None) -> HandTap:
    """The tap that gets the thread full to the depth, of those at hand: blind the first that does it."""
    assert inputs.depth is not None
    if inputs.tap == "form":
        return HandTap("forming", _FORMING_LEAD, inputs.depth)
    return tap_for(inputs.size, shop, depth=inputs.depth, hole_depth=deep.depth if deep else None)


def _turns(inputs: TapDrillInputs, shop: Shop, deep: BlindDepth | None) -> Figure:
    """Turns of that tap from its first bite, its lead counted."""
    assert inputs.depth is not None
    tap = _named_tap(inputs, shop, deep)
    turns = tap_turns(depth=inputs.depth, thread=inputs.size, lead_threads=tap.lead_threads)
    working = say("{turns}, the last for its lead, from the first bite", turns=turns)
    source = f"depth ÷ lead and the tap's own lead, {tap.lead_threads} threads: {_CP}"
    return Figure("tap_turns", f"Turns, {tap.name} tap", ceil(float(turns) - 1e-9), "count", source, working)


def _torque(inputs: TapDrillInputs, shop: Shop, best: Choice, deep: BlindDepth | None) -> TapTorque:
    """Torque of the named tap."""
    forming = inputs.tap == "form"
    name = _named_tap(inputs, shop, deep).name if inputs.depth is not None else ""
    return tap_torque(
        thread=inputs.size,
        material=inputs.material,
        # a forming tap's own hole says nothing in a law for chips: it asks for so many times a cutting tap's torque
        hole=usual_drill(inputs.size).diameter if forming else best.tool.diameter,
        lead=lead_of(name),
        forming=_FORMING_TORQUE if forming else 1.0,
    )


def _torque_figures(inputs: TapDrillInputs, shop: Shop, best: Choice, deep: BlindDepth | None) -> list[Figure]:
    """Torque of the named tap, and about what breaks it."""
    found, breaks = _torque(inputs, shop, best, deep), tap_breaks(inputs.size)
    share = leaf(found.value, "torque") / leaf(breaks.value, "torque")
    return [
        Figure("torque", "Tapping torque, about", found.value, "torque", found.source, found.working),
        Figure("tap_breaks", "Tap breaks at, about", breaks.value, "torque", breaks.source, breaks.working),
        figure("share_of_break", "Torque over that", share, breaks.source, decimals=2),
    ]


def _tables(inputs: TapDrillInputs, shop: Shop, found: tuple[Choice, ...], deep: BlindDepth | None) -> list[Table]:
    tables = [_choices(inputs, found)]
    if deep and inputs.tap == "cut":
        tables.append(_taps(inputs, shop, deep))
    return tables


def _choices(inputs: TapDrillInputs, found: tuple[Choice, ...]) -> Table:
    columns = (
        *heads(drill="Drill", diameter=("Diameter", "length"), percent=("Thread", "percent", 1)),
        *heads(fit="Within the limits", owned="Owned"),
    )
    rows = tuple(
        (
            label(choice.tool),
            choice.tool.diameter,
            choice.percent,
            "made by the tap" if inputs.tap == "form" else _FIT_WORDS[choice.fit],
            "yes" if choice.owned else "no",
        )
        for choice in found
    )
    return Table("choices", "Drills: your own first", columns, rows, source=f"the order is {_CP}")


def _taps(inputs: TapDrillInputs, shop: Shop, deep: BlindDepth) -> Table:
    """Tap by tap: the turns of each from its first bite, the named one to the depth, those before it to the bottom."""
    columns = (
        *heads(tap="Tap", lead=("Threads in its lead", "count")),
        *heads(full_thread=("Full thread as deep as", "length", 2), enough="Enough", turns=("Turns", "count")),
    )
    assert inputs.depth is not None
    taps = blind_taps(inputs.size, shop, deep.depth)
    named = needed_tap(taps, inputs.depth)
    rows = []
    for tap in taps:
        enough = tap.full_thread >= inputs.depth - 1e-9
        turns: int | None = None
        if not enough:
            turns = floor(deep.depth / float(inputs.size.lead) + 1e-9)
        elif tap == named:
            counted = tap_turns(depth=inputs.depth, thread=inputs.size, lead_threads=tap.lead_threads)
            turns = ceil(float(counted) - 1e-9)
        rows.append((TAP_NAMES[tap.name], tap.lead_threads, tap.full_thread, "yes" if enough else "no", turns))
    source = f"leads of {', '.join(str(tap.lead_threads) for tap in taps)} threads: {_CP}"
    return Table("taps", "Tap by tap, turns from the first bite", columns, tuple(rows), source=source)


def _drill_notes(inputs: TapDrillInputs, aim: Target, best: Choice) -> list[Note]:
    name, notes = label(best.tool), []
    if not best.owned:
        notes.append(warning(f"The shop has no {name} drill, nor one that keeps the limits."))
    if inputs.tap == "form":
        text = "A forming tap makes the minor diameter itself: its limits are the finished thread's, not the drill's."
        return [*notes, info(text)]
    if best.fit == "too large":
        text = f"The {name} drill is above the largest minor diameter: thin crests in the nut."
        notes.append(warning(text))
    if best.fit == "too small":
        text = f"The {name} drill is below the smallest minor diameter: the tap may bind or break."
        notes.append(warning(text))
    if inputs.percent is not None:
        return notes + _asked_notes(inputs, aim, best)
    if inputs.size.taper:
        text = "For tapping without a taper reamer. Tap by the gauge: stop often and try the fit."
        return [*notes, info(text)]
    if not inputs.size.kind.charted:
        return notes
    return [*notes, info(_usual(inputs, aim, best))]


def _asked_notes(inputs: TapDrillInputs, aim: Target, best: Choice) -> list[Note]:
    """What stands between the percentage asked for and the drill shown."""
    limits_, thread = minor_limits(inputs.size), inputs.size
    if aim.hole > limits_.largest or aim.hole < limits_.smallest:
        edge = limits_.largest if aim.hole > limits_.largest else limits_.smallest
        text = say(
            "{percent} % cannot be had inside class {nut}: its {which} hole, {edge}, leaves {share} %.",
            percent=general(aim.percent),
            nut=limits(thread).nut_class,
            which="largest" if aim.hole > limits_.largest else "smallest",
            edge=shown(edge),
            share=figures(percent_of_thread(thread, edge), 1),
        )
        return [warning(text)]
    if abs(best.percent - aim.percent) <= _NEAR:
        return []
    template = "{percent} % asks for a hole of {hole}; the drill shown is the nearest owned that keeps the limits."
    return [info(template, percent=general(aim.percent), hole=shown(aim.hole))]


def _usual(inputs: TapDrillInputs, aim: Target, best: Choice) -> Text:
    """How the drill shown stands to the usual one and to the catalogue's percentage."""
    usual = usual_drill(inputs.size)
    name, leaves = label(usual), figures(percent_of_thread(inputs.size, usual.diameter))
    low, high = figures(aim.low), figures(aim.high)
    if aim.by_chart:
        other = say("The usual drill is {name}, {leaves} % of thread.", name=name, leaves=leaves)
        return say(
            "{first} A tap maker's catalogue finds {low} to {high} % of thread enough in {material}; above 60 % a "
            "thread grows little stronger but much harder to tap.",
            first="The usual drill." if abs(usual.diameter - best.tool.diameter) <= SAME else other,
            low=low,
            high=high,
            material=inputs.material.label.lower(),
        )
    kept = say("The drill shown leaves {percent} %, to keep the limits. ", percent=figures(best.percent))
    near = aim.low - _NEAR <= best.percent <= aim.high + _NEAR
    return say("For this ({case}) a tap maker's catalogue aims at {low} to {high} % of thread. {kept}The usual drill "
        "is {name}, {leaves} % of thread.", case=aim.case, low=low, high=high, kept="" if near else kept, name=name,
        leaves=leaves)  # fmt: skip


def _tap_notes(inputs: TapDrillInputs, shop: Shop, best: Choice, deep: BlindDepth | None) -> list[Note]:
    notes = []
    if (shop.taps or shop.tap_kinds) and cut_by(inputs.size) not in taps_cut(shop):
        notes.append(warning(f"The shop has no {inputs.size} tap."))
    notes += _kind_notes(inputs, shop)
    notes += _break_notes(inputs, shop, best, deep)
    notes += _reach_notes(inputs, shop, best, deep)
    if inputs.tap == "form":
        return notes
    if inputs.hole == "through":
        return [*notes, info(_through(inputs, shop))]
    if deep is None or inputs.depth is None:
        every = [one for one, _ in taps_at_hand(inputs.size, shop) if one != "spiral point"]
        text = f"A blind hole: {one_after_another(every)}, chips cleared before each. "
        return [*notes, info(text + "Give the depth to see how far.")]
    return [*notes, info(_order(inputs, shop, deep))]


def _kind_notes(inputs: TapDrillInputs, shop: Shop) -> list[Note]:
    """Where the taps that are listed for a thread do not suit the work."""
    kinds = {tap.kind for tap in shop.tap_kinds if cut_by(tap.size) == cut_by(inputs.size)}
    if not kinds:
        return []
    if inputs.tap == "form" and "forming" not in kinds:
        return [warning(f"The shop lists no forming tap for {inputs.size}.")]
    if inputs.tap == "cut" and kinds == {"forming"}:
        return [warning(f"The shop lists only a forming tap for {inputs.size}: ask for that.")]
    if inputs.tap == "cut" and inputs.hole == "blind" and kinds <= {"forming", "spiral point"}:
        text = "A spiral point pushes its chips to the bottom: drill deeper to make room for them, or take another tap."
        return [warning(text)]
    return []


def _break_notes(inputs: TapDrillInputs, shop: Shop, best: Choice, deep: BlindDepth | None) -> list[Note]:
    """A tap near what twists it off."""
    share = _torque(inputs, shop, best, deep).value / tap_breaks(inputs.size).value
    if share < _MUCH:
        return []
    text = (
        "This asks for {share} of about what breaks the tap: feel for every turn, keep it oiled, take the largest hole."
    )
    return [warning(text, share=figures(share, 2))]


def _through(inputs: TapDrillInputs, shop: Shop) -> str:
    tap = through_tap(inputs.size, shop, 0.0)
    pushed = " It pushes its chips ahead." if tap.name == "spiral point" else ""
    return (
        f"A through hole: the {tap.name} tap alone, turned on until its lead of some {tap.lead_threads} threads is out at "
        f"the far side.{pushed}"
    )


def _order(inputs: TapDrillInputs, shop: Shop, deep: BlindDepth) -> str:
    """The taps of a blind hole, one after another."""
    assert inputs.depth is not None
    taps = blind_taps(inputs.size, shop, deep.depth)
    last, hand = needed_tap(taps, inputs.depth), dict(LEADS)
    used = [last.name]
    if last.name in hand:
        used = [tap.name for tap in taps if tap.name in hand and tap.lead_threads >= last.lead_threads]
    words = one_after_another(used)
    text = f"{words[0].upper()}{words[1:]} to reach that depth of full thread. Clear the chips before each tap."
    if inputs.depth > _DEEP * inputs.size.diameter:
        text += " So deep, use every tap of the set, back right out each diameter to clear, and keep it oiled."
    return text


def _reach_notes(inputs: TapDrillInputs, shop: Shop, best: Choice, deep: BlindDepth | None) -> list[Note]:
    """What the tap and the drill do not reach, and what to do then."""
    if inputs.depth is None:
        return []
    size, tap = best.tool.diameter, _named_tap(inputs, shop, deep)
    ends = "make it shallower" if deep else "tap from both ends"
    notes = tap_notes(inputs.size, tap, inputs.depth, size, shop, otherwise=ends)
    tip = (deep.depth if deep else inputs.depth) + point_length(diameter=size)
    return [*notes, *drill_notes(size, tip, shop, otherwise="drill from both ends or make it shallower")]


def _how(inputs: TapDrillInputs) -> list[Note]:
    turns = _turns_back(inputs.material)
    oil = _LUBRICANTS.get(inputs.material.group, "cutting oil")
    notes = []
    if inputs.tap == "form":
        notes.append(info("Form the thread in one go with plenty of oil; there are no chips to break."))
    else:
        notes.append(info(f"By hand: {turns} to break the chip. {oil[0].upper()}{oil[1:]}."))
    if inputs.size.left_hand:
        notes.append(info("Left-hand: turn the tap anticlockwise to go in."))
    return notes


def _turns_back(material: Material) -> str:
    if material.machining == "tough":
        return "a quarter turn on, half a turn back"
    if material.group in ("cast_iron", "brass"):
        return "one turn on, half a turn back"
    return "half a turn on, a quarter turn back"


def _share(inputs: TapDrillInputs, answer: Answer, shop: Shop) -> Text:
    """Share of full thread that the drill leaves."""
    share = answer.figure("engagement_percent").value or 0.0
    return say("drill {drill} leaves {share} % of full thread", drill=answer.figure("drill").text, share=figures(share))


def _spare(inputs: TapDrillInputs, answer: Answer, shop: Shop) -> Text:
    """Turns of the tap left below the thread."""
    if inputs.depth is None or inputs.hole == "through":
        return ""
    spare = (answer.figure("drill_depth").value or 0.0) - inputs.depth
    turns = figures(spare / float(inputs.size.pitch), 1)
    return say("{spare} below the thread, {turns} turns", spare=shown(spare, decimals=1, side="down"), turns=turns)


OPERATION = Operation(
    id="tap-drill",
    pane="drilling",
    place=10,
    title="Tapping drill",
    words="tapping size hole for a tap percent engagement tap drill chart core hole tapped hole blind thread in a hole "
    "bottoming plug taper tap pilot for thread torque",
    machine="bench",
    inputs=TapDrillInputs,
    work=_work,
    tool="drill {drill}, taps",
    hazards=("tapping", "drilling"),
    example={"size": "M6", "material": "mild steel", "depth": "12", "hole": "blind"},
    troubles={"TP-01": _share, "TP-02": _spare, "TP-03": None, "TP-04": None, "DR-01": spot_first, "DR-02": None},
    help="Finds the drill for a tap among those you own, how much thread it leaves and how deep to go.",
)
