"""Flats on a bar: sizes, the depth to take, and where the work stands for each flat."""

from __future__ import annotations

from dataclasses import dataclass

from engine.base.answer import Answer, Cell, Column, Figure, Note, Table
from engine.base.declare import choice, count, length
from engine.base.declare import diameter as ask_diameter
from engine.base.operation import Operation
from engine.base.quantity import show, worked
from engine.indexing.dials import slide_setting, turns_and_lines
from engine.indexing.flats import Flats, flats_on
from engine.indexing.pictures import circle_picture
from engine.indexing.step_figures import place_columns, step_figures
from engine.indexing.stepping import DEVICES, Stepping, step_round
from engine.shop.model import Shop

_GEOMETRY = "geometry of the regular polygon; handbook tables of distances across corners (1.1547 and 1.4142)"


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatsInputs:
    """What `flats` is told."""

    sides: int = count("Flats", low=2, high=100, example="6", help="4 for a square, 6 for a hexagon.")
    across_flats: float | None = length(
        "Across the flats",
        high=1000,
        example="13",
        empty="the largest that the bar gives",
        help="Size for the spanner.",
    )
    diameter: float | None = ask_diameter(
        "Diameter of the bar",
        high=1000,
        example="16",
        empty="the smallest that leaves sharp corners",
        help="The round bar that the flats are cut on.",
    )
    by: str | None = choice(
        "Divide with",
        DEVICES,
        empty="whatever of the shop suits best",
        help="The dividing head, the rotary table, or the spindle wheel of the lathe.",
    )


def _flats(inputs: FlatsInputs, shop: Shop) -> Answer:
    made = flats_on(sides=inputs.sides, across_flats=inputs.across_flats, bar=inputs.diameter, unit=shop.unit)
    stepping = step_round(inputs.sides, shop, device=inputs.by)
    figures = [
        *_sizes(made, inputs, shop.unit),
        *_depth(made, shop),
        *step_figures(stepping, f"{inputs.sides} flats"),
    ]
    picture = circle_picture(
        [s.angle for s in stepping.stops], title=f"{inputs.sides} flats", table="positions", noun="flat"
    )
    return Answer(tuple(figures), (_positions(stepping),), (picture,), tuple(_notes(made, stepping)))


def _sizes(made: Flats, inputs: FlatsInputs, unit: str) -> list[Figure]:
    half = f"180° ÷ {made.sides}"
    bar, size = worked(made.bar, unit), worked(made.across_flats, unit)
    flat = "as asked" if inputs.across_flats is not None else f"{bar} x cos({half})"
    sharp = f"{size} ÷ cos({half}) = {worked(made.sharp_corners, unit)}" if made.sides > 2 else ""
    chord = f"square root of ({bar}² - {size}²)"
    if made.sides > 2:
        full = f"{size} x tan({half})"
        chord = f"{chord}, the chord that the bar leaves" if _stay_round(made) else full
    corners = f"{sharp}, but the bar is {bar}" if _stay_round(made) else sharp
    figures = [
        Figure("across_flats", "Across flats", made.across_flats, "length", _GEOMETRY, flat),
        Figure("across_corners", "Across corners", made.across_corners, "length", _GEOMETRY,
               corners or f"two flats leave the bar's {bar}"),
        Figure("flat_width", "Width of a flat", made.flat_width, "length", _GEOMETRY, chord),
    ]  # fmt: skip
    if inputs.diameter is None or _stay_round(made):
        name = "bar_diameter" if inputs.diameter is None else "sharp_corners"
        figures.append(
            Figure(name, "Bar for sharp corners", made.sharp_corners, "length", _GEOMETRY, sharp, side="up")
        )
    if made.sides % 2:
        working = f"half of ({size} + {worked(made.across_corners, unit)})"
        figures.append(
            Figure(
                "flat_to_corner", "Measured flat to corner", made.flat_to_corner, "length", _GEOMETRY, working
            )
        )
    return figures


def _depth(made: Flats, shop: Shop) -> list[Figure]:
    unit = shop.unit
    working = f"({worked(made.bar, unit)} - {worked(made.across_flats, unit)}) ÷ 2"
    depth = Figure("cut_depth", "Depth from the touched top", made.cut_depth, "length", _GEOMETRY, working)
    if shop.mill is None:
        return [depth]
    slide = shop.mill.z
    setting = slide_setting(slide, made.cut_depth, towards="short")
    source = "the mill's own handwheel; never past the depth (common practice, no source)"
    turn = show(float(slide.travel_per_turn), "length", unit)
    dial = f"{worked(made.cut_depth, unit)} on {turn} a turn in {slide.divisions} lines"
    short = f"{dial}: {show(-setting.error, 'length', unit, decimals=4)} short"
    text = turns_and_lines(setting)
    return [
        depth,
        Figure("depth_dial", "on the quill or knee", None, "text", source, short, text=text),
        Figure("depth_reading", "reading", setting.reading, "length", source,
               f"{setting.lines} lines of {worked(float(slide.travel_per_turn / slide.divisions), unit)}"),
    ]  # fmt: skip


def _positions(stepping: Stepping) -> Table:
    rows: list[tuple[Cell, ...]] = [
        (k, s.setting, *((s.turns, s.hole) if stepping.counts_holes else ()), s.angle)
        for k, s in enumerate(stepping.stops, 1)
    ]
    columns = (
        Column("number", "No.", "count"),
        Column("setting", "Setting"),
        *place_columns(stepping),
        Column("angle", "Angle", "angle", 4),
    )
    setting = ("setting", "hole_from_start") if stepping.counts_holes else ("setting",)
    source = "each position from its own exact fraction; the start is 0"
    return Table("positions", "Flats", columns, tuple(rows), "flat", setting, source)


def _stay_round(made: Flats) -> bool:
    """Whether the bar is too thin for the corners to meet."""
    return made.sides > 2 and made.across_corners < made.sharp_corners - 1e-9


def _notes(made: Flats, stepping: Stepping) -> list[Note]:
    notes = []
    if _stay_round(made):
        notes.append(Note("info", "The corners stay round: the bar is too thin for sharp ones."))
    if made.sides % 2:
        notes.append(
            Note(
                "info",
                "An odd count has no two flats opposite: across flats is twice from the axis to a flat; measure from a "
                "flat to the corner across.",
            )
        )
    if not stepping.device:
        notes.append(Note("warning", "The shop has nothing to divide with: positions are given as angles."))
    if stepping.error > 0.05:
        notes.append(Note("warning", f"Not exact: {stepping.error:.1f} seconds of arc off at worst."))
    return notes


OPERATIONS = {
    "flats": Operation(
        id="flats",
        inputs=FlatsInputs,
        work=_flats,
        hazards=("milling", "dividing"),
        example={"sides": "6", "across_flats": "13"},
        help="A square, a hexagon or any other count of flats on a bar: sizes, depth and settings.",
    )
}
