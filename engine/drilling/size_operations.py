"""The operations about sizes: `drill-size` and `clearance-hole`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from engine.base import declare as ask
from engine.base.answer import Answer, Column, Figure, Note, Table
from engine.base.lists import Tool
from engine.base.operation import Operation
from engine.drilling.figures import said
from engine.drilling.seats import FITS, Clearance, Fit, clearance_hole
from engine.drilling.sizes import SAME, SERIES, Drill, label, nearest, owned
from engine.drilling.unowned import native
from engine.shop.model import Shop
from engine.threads.thread import Thread

_SERIES_WORDS = {"number": "number", "letter": "letter", "fraction": "fraction, inch", "metric": "metric"}
_SERIES_SOURCES = {
    "number": "ASME B94.11M",
    "letter": "ASME B94.11M",
    "fraction": "ASME B94.11M",
    "metric": "metric steps BS 328 (as ISO 235 from memory)",
}
_SERIES_SOURCE = "ASME B94.11M; " + _SERIES_SOURCES["metric"]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillSizeInputs:
    """What `drill-size` is told."""

    size: float = ask.diameter("Drill or diameter", high=500, example="#7", help="Such as #7, F, 13/64, 5.2.")


def _drill_size(inputs: DrillSizeInputs, shop: Shop) -> Answer:
    size = inputs.size
    mine = owned(size, shop.drills)
    near = min(shop.drills, key=lambda tool: abs(tool.diameter - size), default=None)
    same = [d for d in (nearest(size, of=name) for name in SERIES) if abs(d.diameter - size) <= SAME]
    source, working = _diameter_from(size, same)
    inch_working = f"{said(size, 'mm')} ÷ 25.4"
    figures = [
        Figure("diameter", "Diameter", size, "length", source, working, decimals=4),
        Figure("inch", "In inches", size / 25.4, "ratio", "1 in = 25.4 mm exactly", inch_working, decimals=4),
    ]
    if same:
        names = ", ".join(label(drill) for drill in same)
        sources = "; ".join(dict.fromkeys(_SERIES_SOURCES[drill.series] for drill in same))
        figures.append(Figure("drill", "Is the drill", None, "text", sources, "the same size", text=names))
    words = label(mine) if mine else "no" + (f", the nearest is {label(near)}" if near else "")
    figures.append(Figure("owned", "Owned", None, "text", "the shop's drills", "looked up", text=words))
    return Answer(
        figures=tuple(figures), tables=(_nearest_table(size, shop),), notes=tuple(_size_notes(size))
    )


def _diameter_from(size: float, same: Sequence[Drill]) -> tuple[str, str]:
    """Source and working of a diameter: an inch drill's own decimal size, or what was asked."""
    for drill in same:
        if drill.series == "metric":
            return _SERIES_SOURCES["metric"], f"the {label(drill)} drill"
        inches = drill.name if drill.series == "fraction" else f"{drill.diameter / 25.4:.4f}"
        return _SERIES_SOURCES[drill.series], f"{label(drill)}: {inches} in x 25.4"
    return "as asked; no drill of these series has it", f"{said(size, 'mm')}, {said(size, 'inch')}"


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
    hole, unit = clearance_hole(inputs.size, fit), shop.unit
    largest = hole.diameter + hole.tolerance
    tool, is_owned = _drill_for(hole, shop)
    drilled = (
        "the smallest owned" if is_owned else "none is owned; the table's own, or the nearest in the series,"
    )
    figures = (
        Figure("diameter", f"Hole, {fit} fit", hole.diameter, "length", hole.source, hole.working),
        Figure(
            "drill",
            "Drill",
            None,
            "text",
            "the shop's drills" if is_owned else hole.source,
            f"{drilled} from {said(hole.diameter, unit)} to {said(largest, unit)}",
            text=label(tool) + ("" if is_owned else " (not owned)"),
        ),
        Figure(
            "largest",
            "Largest hole allowed",
            largest,
            "length",
            hole.tolerance_source,
            f"{said(hole.diameter, unit)} + {said(hole.tolerance, unit)}",
            side="down",
        ),
        Figure(
            "clearance",
            "Clearance on diameter",
            hole.diameter - inputs.size.diameter,
            "length",
            "subtraction",
            f"{said(hole.diameter, unit)} - {said(inputs.size.diameter, unit)}",
        ),
    )
    missing = f"The shop has no {label(tool)} drill, nor one that keeps the limits."
    return Answer(figures=figures, notes=() if is_owned else (Note("warning", missing),))


def _drill_for(hole: Clearance, shop: Shop) -> tuple[Tool, bool]:
    """The smallest owned drill inside the limits, else the standard's own or the smallest of a series."""
    bottom, top = hole.diameter - SAME, hole.diameter + hole.tolerance + SAME
    inside = [tool for tool in shop.drills if bottom <= tool.diameter <= top]
    if inside:
        return min(inside, key=lambda tool: tool.diameter), True
    if hole.drill:
        return Tool(hole.drill, hole.diameter), False
    published = [drill for drill in native(shop.drills) if bottom <= drill.diameter <= top]
    if published:
        return Tool(published[0].name, published[0].diameter), False
    return Tool(f"{hole.diameter:.4g}", hole.diameter), False


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
}
