"""The operation `tap-drill`."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, tan

from engine.base import declare as ask
from engine.base.answer import Answer, Column, Figure, Table
from engine.base.operation import Operation
from engine.base.quantity import show
from engine.base.refusals import BadInput
from engine.cutting.forces import specific_force, tapping_torque
from engine.cutting.materials import Material, of_shop
from engine.drilling.figures import said
from engine.drilling.holes import point_length
from engine.drilling.sizes import label
from engine.drilling.tap_choice import Choice, Target, best_of, choices, target
from engine.drilling.tap_depth import BlindDepth, blind_depth, hand_taps
from engine.drilling.tap_notes import tap_notes
from engine.drilling.tapping import (
    TapKind,
    full_depth,
    full_diameter,
    hand_tight_length,
    iso_percent,
    minor_limits,
    percent_of_thread,
)
from engine.shop.model import Shop
from engine.threads.limits import limits
from engine.threads.thread import FAMILY_NAMES, Thread

_CP = "common practice, no source"
_TAP_CHIP = 0.1  # mm: chip at which the tap formulas' specific force is meant
_FORMING_TORQUE = 2.5  # a forming tap asks for two to three times the torque of a cutting one
_FIT_WORDS = {"inside": "yes", "too large": "no: too large", "too small": "no: too small"}
_KEEP = {"cut": "keep the limits", "form": "there are"}


@dataclass(frozen=True, slots=True, kw_only=True)
class TapDrillInputs:
    """What `tap-drill` is told."""

    size: Thread = ask.thread("Thread", example="M6", help="Such as M6, M10x1, 1/4-20 UNC, 4BA, G1/4.")
    material: Material = ask.material(
        "Material",
        from_shop=of_shop,
        empty="the shop's first",
        example="mild steel",
        help="Decides how much thread is enough, the lubricant and the turning force.",
    )
    percent: float | None = ask.number(
        "Percent of thread",
        required=False,
        empty="by material",
        low=40,
        high=100,
        dimension="percent",
        example="70",
        help="How much of the full depth of thread is to be left; otherwise material and depth decide.",
    )
    tap: str = ask.choice(
        "Tap",
        ("cut", "form"),
        default="cut",
        example="cut",
        help="Form: rolls the thread, makes no chips, wants a larger hole.",
    )
    depth: float | None = ask.length(
        "Thread depth",
        required=False,
        empty="not known",
        example="12",
        high=500,
        help="How deep the thread is to be full; for a through hole, the thickness. Gives the depth to drill.",
    )
    hole: str = ask.choice(
        "Kind of hole",
        ("blind", "through"),
        default="blind",
        example="blind",
        help="A blind hole is drilled deeper than the thread, to make room for the tap's lead.",
    )


def _work(inputs: TapDrillInputs, shop: Shop) -> Answer:
    thread, kind, unit = inputs.size, _kind(inputs), shop.unit
    if kind == "form" and (thread.taper or thread.family in ("tr", "acme")):
        text = "tap: forming taps are not made for taper and trapezoidal threads; accepted: cut."
        raise BadInput("tap", "form", "cut", text)
    aim = target(
        thread=thread, material=inputs.material, depth=inputs.depth, percent=inputs.percent, tap=kind
    )
    found = choices(thread=thread, aim=aim, drills=shop.drills, tap=kind)
    if not found:
        raise BadInput("size", str(thread), "a thread that a drill of 0.05 to 25.4 mm can be tapped for")
    best = best_of(found)
    deep = _depth(inputs)
    figures = [*_drill_figures(inputs, aim, best, unit), *_limit_figures(inputs, best, unit)]
    if inputs.percent is not None or abs(best.tool.diameter - aim.hole) > 0.01:
        figures.append(_aim_figure(inputs, aim, unit))
    figures += _depth_figures(inputs, best, deep, unit)
    return Answer(
        figures=(*figures, _torque_figure(inputs)),
        tables=tuple(_tables(inputs, found, deep)),
        notes=tuple(tap_notes(inputs, shop, aim, best, deep)),
    )


def _kind(inputs: TapDrillInputs) -> TapKind:
    return "form" if inputs.tap == "form" else "cut"


def _depth(inputs: TapDrillInputs) -> BlindDepth | None:
    if inputs.depth is None or inputs.hole == "through":
        return None
    return blind_depth(pitch=float(inputs.size.pitch), thread_depth=inputs.depth)


def _drill_figures(inputs: TapDrillInputs, aim: Target, best: Choice, unit: str) -> list[Figure]:
    thread, kind, size = inputs.size, _kind(inputs), best.tool.diameter
    owned = "" if best.owned else " (not owned)"
    whose = "owned" if best.owned else "none owned will do"
    words = f"{whose}; nearest to {said(aim.hole, unit)} of those that {_KEEP[kind]}"
    series = "drill series: ASME B94.11M; metric as BS 328 (as ISO 235 from memory)"
    named = "the shop's drills" if best.owned else series
    return [
        Figure("drill", "Drill", None, "text", aim.source, words, text=label(best.tool) + owned),
        Figure("drill_diameter", "Drill diameter", size, "length", named, f"the {label(best.tool)} drill"),
        Figure(
            "engagement_percent",
            "Percentage of thread",
            percent_of_thread(thread, size, kind),
            "percent",
            _percent_source(thread, kind),
            _percent_working(thread, size, kind, unit),
            decimals=1,
        ),
    ]


def _percent_source(thread: Thread, kind: TapKind) -> str:
    if kind == "form":
        return "a tap maker's catalogue: (D - d) ÷ (0.0068 P)"
    if thread.family in ("metric", "unified"):
        return "Machinery's Handbook, 31st ed., p. 2155: of 3H/4 on either side"
    halfway = ", halfway along the hand-tight length" if thread.taper else ""
    return f"of the {FAMILY_NAMES[thread.family]} basic depth on either side{halfway}"


def _percent_working(thread: Thread, size: float, kind: TapKind, unit: str) -> str:
    if kind == "form":
        pitch = said(float(thread.pitch), unit)
        return f"({said(thread.diameter, unit)} - {said(size, unit)}) ÷ (0.0068 x {pitch})"
    top = f"100 x ({said(full_diameter(thread), unit)} - {said(size, unit)})"
    words = f"{top} ÷ {said(full_depth(thread), unit)}"
    other = iso_percent(thread, size)
    if other is None:
        return words
    return f"{words} (1.299038 P); by the ISO convention (1.082532 P) it is {other:.1f} %"


def _limit_figures(inputs: TapDrillInputs, best: Choice, unit: str) -> list[Figure]:
    thread = inputs.size
    found = minor_limits(thread)
    sums = limits(thread).working
    if thread.taper:
        lowest, highest = "Minor diameter at the small end", "Minor diameter at the mouth"
        from_low = f"{said(found.largest, unit)} - {said(hand_tight_length(thread), unit)} ÷ 16"
        from_high = f"basic, at the gauge plane of {thread}"
    else:
        lowest, highest = "Nut's minor diameter, smallest", "Nut's minor diameter, largest"
        from_low, from_high = sums["int_minor_min"], sums["int_minor_max"]
    figures = [
        Figure("minor_min", lowest, found.smallest, "length", found.source, from_low, side="up"),
        Figure("minor_max", highest, found.largest, "length", found.source, from_high, side="down"),
    ]
    if inputs.tap == "cut":
        size = show(best.tool.diameter, "length", unit)
        lower = show(found.smallest, "length", unit, side="up")
        upper = show(found.largest, "length", unit, side="down")
        figures.append(
            Figure(
                "inside_limits",
                "Inside the limits",
                None,
                "text",
                found.source,
                f"{size} against {lower} to {upper}; drills cut a little large",
                text=_FIT_WORDS[best.fit],
            )
        )
    return figures


def _aim_figure(inputs: TapDrillInputs, aim: Target, unit: str) -> Figure:
    thread, pitch = inputs.size, float(inputs.size.pitch)
    if inputs.tap == "form":
        words = f"{said(thread.diameter, unit)} - 0.0068 x {aim.percent:.4g} x {said(pitch, unit)}"
    else:
        depth = f"{aim.percent / 100:.4f} x {said(full_depth(thread), unit)}"
        words = f"{said(full_diameter(thread), unit)} - {depth}"
    return Figure("target_hole", f"Hole for {aim.percent:.0f} %", aim.hole, "length", aim.source, words)


def _depth_figures(inputs: TapDrillInputs, best: Choice, deep: BlindDepth | None, unit: str) -> list[Figure]:
    if inputs.depth is None:
        return []
    full = deep.depth if deep else inputs.depth
    size, depth, lead = best.tool.diameter, said(inputs.depth, unit), said(float(inputs.size.lead), unit)
    if deep:
        source, words = deep.source, f"{depth} + {said(deep.beyond, unit)} beyond the usable thread"
    else:
        source, words = "a through hole goes right through", f"the thickness, {depth}"
    return [
        Figure("drill_depth", "Drill to full diameter", full, "length", source, words, decimals=2),
        Figure(
            "tip_depth",
            "Depth with the drill's point",
            full + point_length(diameter=size),
            "length",
            "geometry, 118° point",
            f"{said(full, unit)} + {said(size, unit)} ÷ (2 x {tan(radians(59)):.4f})",
            decimals=2,
        ),
        Figure(
            "tap_turns",
            "Turns of the tap",
            inputs.depth / float(inputs.size.lead),
            "ratio",
            "depth ÷ lead; arithmetic",
            f"{depth} ÷ {lead} a turn, from the first full thread",
            decimals=1,
        ),
    ]


def _torque_figure(inputs: TapDrillInputs) -> Figure:
    thread, pitch = inputs.size, float(inputs.size.pitch)
    kc = specific_force(inputs.material, _TAP_CHIP)
    torque = tapping_torque(specific=kc, diameter=thread.diameter, pitch=pitch) * thread.starts
    words = f"kc {kc:.0f} N/mm² x ({pitch:.5g} mm)² x {thread.diameter:.5g} mm ÷ 8000"
    source = "a tap maker's formula, kc P² D ÷ 8000; an estimate for a sharp tap"
    if thread.starts > 1:
        words += f" x {thread.starts} starts"
    if inputs.tap == "form":
        torque *= _FORMING_TORQUE
        words += f" x {_FORMING_TORQUE:g} for forming (two to three times)"
    return Figure("torque", "Tapping torque, about", torque, "torque", source, f"{words} = {torque:.2f} N·m")


def _tables(inputs: TapDrillInputs, found: tuple[Choice, ...], deep: BlindDepth | None) -> list[Table]:
    tables = [_choices(inputs, found)]
    if deep and inputs.tap == "cut":
        tables.append(_taps(inputs, deep))
    return tables


def _choices(inputs: TapDrillInputs, found: tuple[Choice, ...]) -> Table:
    columns = (
        Column("drill", "Drill"),
        Column("diameter", "Diameter", "length"),
        Column("percent", "Thread", "percent", 1),
        Column("fit", "Inside the limits"),
        Column("owned", "Owned"),
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


def _taps(inputs: TapDrillInputs, deep: BlindDepth) -> Table:
    columns = (
        Column("tap", "Tap"),
        Column("lead", "Threads in its lead", "count"),
        Column("full_thread", "Full thread as deep as", "length", 2),
        Column("enough", "Enough"),
    )
    assert inputs.depth is not None
    wanted = inputs.depth
    rows = tuple(
        (tap.name, tap.lead_threads, tap.full_thread, "yes" if tap.full_thread >= wanted else "no")
        for tap in hand_taps(pitch=float(inputs.size.pitch), hole_depth=deep.depth)
    )
    return Table(
        "taps", "Each tap turned to the bottom", columns, rows, source=f"leads of 8, 5 and 2 threads: {_CP}"
    )


OPERATIONS = {
    "tap-drill": Operation(
        id="tap-drill",
        inputs=TapDrillInputs,
        work=_work,
        hazards=("tapping", "drilling"),
        example={"size": "M6", "material": "mild steel", "depth": "12", "hole": "blind"},
        help="Finds the drill for a tap among those you own, how much thread it leaves and how deep to go.",
    )
}
