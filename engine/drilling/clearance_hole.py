"""Clearance holes: the hole that a screw passes through, and the drill for it."""

from __future__ import annotations

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, figure, warning, words
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.sums import mm
from engine.base.tool import Tool
from engine.base.words import put, say
from engine.drilling.bench import by_standard
from engine.drilling.hole_pictures import clearance_picture
from engine.drilling.seats import FITS, Clearance, Fit, clearance_hole
from engine.drilling.sizes import SAME, label, unnamed
from engine.drilling.unowned import native
from engine.shop.model import Shop
from engine.threads.thread import Thread


@dataclass(frozen=True, slots=True, kw_only=True)
class ClearanceHoleInputs:
    """What `clearance-hole` is told.

    size: The screw that passes, its size alone will do: M6, 1/4, #8, 4BA.
    fit: Close, normal, loose: the fine, medium and coarse series of ISO 273.
    standard: For screws that neither has (BA, BSW): ISO 273, or ASME B18.2.8. ISO and Unified ones have their own.
    """

    size: Thread = ask.thread("Screw", example="M6", coarse=True)
    fit: str = ask.choice("Fit", FITS, default="normal", example="normal")
    standard: str = by_standard()


def _work(inputs: ClearanceHoleInputs, shop: Shop) -> Answer:
    fit: Fit = "close" if inputs.fit == "close" else "loose" if inputs.fit == "loose" else "normal"
    hole = clearance_hole(inputs.size, fit, inputs.standard)
    size, largest = mm(hole.diameter), mm(hole.diameter) + mm(hole.tolerance)
    tool, is_owned = _drill_for(hole, shop)
    drilled = "the smallest owned" if is_owned else "none is owned; the table's own, or the nearest in the series,"
    named = label(tool)
    figures = (
        Figure("diameter", f"Hole, {fit} fit", hole.diameter, "length", hole.source, hole.working),
        words("drill", "Drill", named + ("" if is_owned else " (not owned)"),
               "the shop's drills" if is_owned else hole.source,
               say("{which} from {low} to {high}", which=drilled, low=put(hole.diameter), high=put(largest.value))),
        figure("largest", "Largest hole allowed", largest, hole.tolerance_source, side="down"),
        figure("clearance", "Clearance on diameter", size - mm(inputs.size.diameter), "subtraction"),
    )  # fmt: skip
    missing = f"The shop has no {named} drill, nor one that keeps the limits."
    drawn = clearance_picture(screw=inputs.size.diameter, name=str(inputs.size), hole=hole.diameter)
    return Answer(figures=figures, pictures=(drawn,), notes=() if is_owned else (warning(missing),))


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
    return unnamed(hole.diameter), False


OPERATION = Operation(
    id="clearance-hole",
    pane="drilling",
    place=30,
    title="Clearance hole",
    words="bolt screw passing through hole close normal loose fine medium coarse free fit body drill ISO 273 clearance "
    "drill",
    inputs=ClearanceHoleInputs,
    work=_work,
    tool="drill {drill}",
    hazards=(),
    example={"size": "M6"},
    troubles={"TP-01": None, "DR-01": None, "DR-02": None},
    help="Gives the hole that a screw passes through, close, normal or loose.",
)
