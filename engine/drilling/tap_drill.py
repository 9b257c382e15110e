"""The tapping drill: among those owned, how much thread it leaves, how deep to go, and how to tap."""

from __future__ import annotations

from math import ceil, floor
from typing import Any

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Table, figure, heads, words
from engine.base.operation import Operation
from engine.base.quantity import INCH_MM
from engine.base.records import dataclass, replace
from engine.base.refusals import BadInput
from engine.base.sums import deg, leaf, mm, num, tan
from engine.base.words import Text, figures, plain, put, say, shown
from engine.cutting.materials import Material, of_shop
from engine.drilling import tap_depth as depths
from engine.drilling import tapping
from engine.drilling.reach import tap_reach
from engine.drilling.sizes import label
from engine.drilling.tap_breaks import TapBreaks, tap_breaks
from engine.drilling.tap_choice import Choice, Target, best_of, choices, target, usual_drill
from engine.drilling.tap_depth import BlindDepth, HandTap
from engine.drilling.tap_notes import notes
from engine.drilling.tap_picture import picture
from engine.drilling.tap_torque import TapTorque, lead_of, tap_torque
from engine.drilling.tapping import TapKind, minor_limits, percent_of_thread
from engine.drilling.troubles import spot_first
from engine.shop.model import Shop
from engine.situation import Situation
from engine.threads.limits import limits
from engine.threads.thread import Thread

_CP = "common practice, no source"
_FORMING_LEAD = 3  # threads: a forming tap's lead (ASME B94.9, bottoming 1 to 2.5, from memory)
_FORMING_TORQUE = 2.5  # a forming tap asks for two to three times the torque of a cutting one
_FIT_WORDS = {"inside": "yes", "too large": "no: too large", "too small": "no: too small"}
_KEEP = {"cut": "keep the limits", "form": "there are"}


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
    tap = _named_tap(inputs, shop, deep)
    torque, breaks = _torque(inputs, best, tap), tap_breaks(inputs.size)
    figures = [*_drill_figures(inputs, aim, best), *_limit_figures(inputs, best)]
    if inputs.percent is not None or abs(best.tool.diameter - aim.hole) > 0.01:
        figures.append(_aim_figure(inputs, aim))
    figures += [*_depth_figures(inputs, shop, best, deep, tap), *_torque_figures(torque, breaks)]
    drawn = picture(inputs.size, best.tool.diameter, inputs.depth, deep.depth if deep else None)
    said = tuple(notes(inputs, shop, aim, best, deep, tap, torque.value / breaks.value))
    tables = tuple(_tables(inputs, shop, found, deep))
    return Answer(tuple(figures), tables, (drawn,), said, moments=_moments(inputs, best, deep))


def _moments(inputs: TapDrillInputs, best: Choice, deep: BlindDepth | None) -> tuple[Situation, ...]:
    """The drill, then the tap."""
    full, spare = deep.depth if deep else inputs.depth, deep.beyond if deep else None
    hole: Any = "blind" if inputs.hole == "blind" else "through"
    drill = Situation(material=inputs.material.name, tool_diameter=best.tool.diameter, hole=hole, depth=full)
    return drill, replace(drill, thread=inputs.size, tool_diameter=inputs.size.diameter, spare=spare)


def _kind(inputs: TapDrillInputs) -> TapKind:
    return "form" if inputs.tap == "form" else "cut"


def _depth(inputs: TapDrillInputs) -> BlindDepth | None:
    if inputs.depth is None or inputs.hole == "through":
        return None
    return depths.blind_depth(pitch=float(inputs.size.pitch), thread_depth=inputs.depth)


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
    if tapping.iso_percent(thread, 0.0) is not None:
        return "Machinery's Handbook, 31st ed., p. 2155: of 3H/4 on either side"
    halfway = ", halfway along the hand-tight length" if thread.taper else ""
    return f"of the {thread.kind.name} basic depth on either side{halfway}"


def _percent_working(thread: Thread, size: float, kind: TapKind) -> Text:
    if kind == "form":
        return (mm(thread.diameter) - mm(size)) / (num(tapping.FORMING) * mm(float(thread.pitch)))
    share = 100 * (mm(tapping.full_diameter(thread)) - mm(size)) / mm(tapping.full_depth(thread))
    other = tapping.iso_percent(thread, size)
    if other is None:
        return share
    by_iso = "{share} (1.299038 P); by the ISO convention (1.082532 P) it is {other} %"
    return say(by_iso, share=share, other=figures(other, 1))


def _limit_figures(inputs: TapDrillInputs, best: Choice) -> list[Figure]:
    thread, found = inputs.size, minor_limits(inputs.size)
    if thread.taper:
        lowest, highest = "Minor, at the small end", "Minor, at the mouth"
        from_low: Text = mm(found.largest) - mm(tapping.hand_tight_length(thread)) / 16
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
    low, high = shown(found.smallest, side="up"), shown(found.largest, side="down")
    text = "{size} against {low} to {high}; drills cut a little large"
    against = say(text, size=shown(best.tool.diameter), low=low, high=high)
    return [*both, words("inside_limits", "Within the limits", _FIT_WORDS[best.fit], found.source, against)]


def _aim_figure(inputs: TapDrillInputs, aim: Target) -> Figure:
    thread, pitch = inputs.size, mm(float(inputs.size.pitch))
    if inputs.tap == "form":
        hole = mm(thread.diameter) - num(tapping.FORMING) * num(aim.percent) * pitch
    else:
        hole = mm(tapping.full_diameter(thread)) - num(aim.percent) / 100 * mm(tapping.full_depth(thread))
    working = say("{hole} for {percent} %", hole=hole, percent=figures(aim.percent, 1))
    return Figure("target_hole", "Hole aimed at", aim.hole, "length", aim.source, working)


def _depth_figures(
    inputs: TapDrillInputs, shop: Shop, best: Choice, deep: BlindDepth | None, tap: HandTap | None
) -> list[Figure]:
    if inputs.depth is None or tap is None:
        return []
    wanted, size = mm(inputs.depth), mm(best.tool.diameter)
    full, source = wanted, "a through hole goes right through"
    beyond: Text = say("the thickness, {depth}", depth=put(inputs.depth))
    if deep:
        full, source = wanted + mm(deep.beyond), deep.source
        beyond = say("{x} beyond the usable thread", x=full)
    tip = full.known() + size / (2 * tan(deg(59)))
    reach = tap_reach(inputs.size, best.tool.diameter, shop, tap.name)
    whose = "Your tap reaches" if reach.owned else "Usual tap reaches"
    turns = depths.tap_turns(depth=inputs.depth, thread=inputs.size, lead_threads=tap.lead_threads)
    to_depth = say("{turns}, the last for its lead, from the first bite", turns=turns)
    leads = f"depth ÷ lead and the tap's own lead, {tap.lead_threads} threads: {_CP}"
    return [
        figure("drill_depth", "Drill to full diameter", full, source, beyond, decimals=2),
        figure("tip_depth", "Depth with the point", tip, "geometry, 118° point", decimals=2),
        Figure("tap_turns", f"Turns, {tap.name} tap", ceil(float(turns) - 1e-9), "count", leads, to_depth),
        Figure("tap_reach", whose, reach.depth, "length", reach.source, f"to {reach.why}", decimals=0),
    ]


def _named_tap(inputs: TapDrillInputs, shop: Shop, deep: BlindDepth | None) -> HandTap | None:
    """The tap that gets the thread full to the depth, of those at hand: blind the first that does it."""
    if inputs.depth is None:
        return None
    if inputs.tap == "form":
        return HandTap("forming", _FORMING_LEAD, inputs.depth)
    return depths.tap_for(inputs.size, shop, depth=inputs.depth, hole_depth=deep.depth if deep else None)


def _torque(inputs: TapDrillInputs, best: Choice, tap: HandTap | None) -> TapTorque:
    """Torque of the named tap."""
    forming = inputs.tap == "form"
    # a forming tap's own hole says nothing in a law for chips: it asks for so many times a cutting tap's torque
    hole, times = (usual_drill(inputs.size).diameter, _FORMING_TORQUE) if forming else (best.tool.diameter, 1.0)
    lead = lead_of(tap.name if tap else "")
    return tap_torque(thread=inputs.size, material=inputs.material, hole=hole, lead=lead, forming=times)


def _torque_figures(found: TapTorque, breaks: TapBreaks) -> list[Figure]:
    """Torque of the named tap, and about what breaks it."""
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
    fits = dict.fromkeys(_FIT_WORDS, "made by the tap") if inputs.tap == "form" else _FIT_WORDS
    rows = tuple(
        (label(one.tool), one.tool.diameter, one.percent, fits[one.fit], "yes" if one.owned else "no") for one in found
    )
    return Table("choices", "Drills: your own first", columns, rows, source=f"the order is {_CP}")


def _taps(inputs: TapDrillInputs, shop: Shop, deep: BlindDepth) -> Table:
    """Tap by tap: the turns of each from its first bite, the named one to the depth, those before it to the bottom."""
    columns = (
        *heads(tap="Tap", lead=("Threads in its lead", "count")),
        *heads(full_thread=("Full thread as deep as", "length", 2), enough="Enough", turns=("Turns", "count")),
    )
    assert inputs.depth is not None
    taps = depths.blind_taps(inputs.size, shop, deep.depth)
    named = depths.needed_tap(taps, inputs.depth)
    rows = []
    for tap in taps:
        enough = tap.full_thread >= inputs.depth - 1e-9
        turns: int | None = None
        if not enough:
            turns = floor(deep.depth / float(inputs.size.lead) + 1e-9)
        elif tap == named:
            counted = depths.tap_turns(depth=inputs.depth, thread=inputs.size, lead_threads=tap.lead_threads)
            turns = ceil(float(counted) - 1e-9)
        rows.append((depths.TAP_NAMES[tap.name], tap.lead_threads, tap.full_thread, "yes" if enough else "no", turns))
    source = f"leads of {', '.join(str(tap.lead_threads) for tap in taps)} threads: {_CP}"
    return Table("taps", "Tap by tap, turns from the first bite", columns, tuple(rows), source=source)


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
