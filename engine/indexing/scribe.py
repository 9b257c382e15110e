"""A line scribed by a V cutter that stands still: how deep, in how many strokes, and where the dials stand."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from engine.base import declare as ask
from engine.base.answer import Answer, Cell, Column, Figure, Note, Table, figure, heads, info, to_set, warning
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.setting import Setting
from engine.base.sums import Sum, deg, mm, num, tan
from engine.base.words import Text, own, put, say, shown
from engine.cutting.forces import specific_force
from engine.cutting.materials import of_shop
from engine.indexing.dials import Towards, dial_setting, on_slide
from engine.indexing.handwheel import Handwheel, named_slide
from engine.indexing.pictures import line_picture
from engine.indexing.scribing import chip, deepest_stroke, run_out_widens, strokes_for, v_depth, v_width
from engine.shop.model import Shop, Slide
from engine.situation import Machine, Situation

_GEOMETRY = "V cutter: width = flat + 2 x depth x tan(half the angle)"
_STROKES = "equal infeeds, none deeper than the material bears (common practice, no source)"
_DIAL = "the shop's own handwheel; never past the depth until the last (common practice, no source)"
_PRACTICE = "common practice, no source"
_GROOVE = 10  # strokes: beyond it a turning cutter is quicker; judgement


@dataclass(frozen=True, slots=True, kw_only=True)
class ScribeInputs:
    """What `scribe` is told.

    line_width: At the surface of the work.
    length: One stroke's cut.
    cutter_angle: V cutter, flank to flank.
    tip_flat: Flat on the tip; 0: sharp.
    material: What is scribed.
    deepest: Most that one stroke goes in; the depth is split into equal infeeds.
    again: Without infeed, to clean the line.
    depth_dial: What brings the cutter in: a handwheel of the shop, or travel per turn / lines (`1/50`).
    feed_dial: What draws the cutter along the line.
    """

    line_width: float = ask.length("Width of the line", high=5, example="0.12", default=0.12)
    length: float = ask.length("Length of the line", high=500, default=3.0, example="3")
    cutter_angle: float = ask.angle("Angle of the cutter", low=10, high=150, default=60.0, example="60")
    tip_flat: float = ask.length("Cutter tip flat", low=-1e-9, high=5, default=0.0, example="0.05")
    material: Any = ask.material("Material", from_shop=of_shop, example="brass", empty="the shop's first")
    deepest: float | None = ask.length(
        "Deepest stroke", low=0.005, high=1, example="0.05", empty="what the material bears"
    )
    again: int = ask.count("Strokes at full depth", low=0, high=5, default=1, example="1")
    depth_dial: Handwheel | None = ask.handwheel(
        "Handwheel down", example="mill z", empty="the mill's z, or the cross slide"
    )
    feed_dial: Handwheel | None = ask.handwheel(
        "Handwheel along", example="mill x", empty="the mill's x, or the saddle or top slide"
    )


@dataclass(frozen=True, slots=True)
class _Dial:
    """A handwheel of the shop, and how a length from its zero is set on it."""

    name: str
    slide: Slide

    def to(self, distance: float, *, way: str = "", towards: Towards = "nearest") -> tuple[Setting, float]:
        """The setting, and the distance that it really makes."""
        turn, lines = self.slide.travel_per_turn, self.slide.divisions
        stands = dial_setting(distance=distance, travel_per_turn=turn, divisions=lines, towards=towards)
        return on_slide(self.name.capitalize(), self.slide, stands, way, distance), distance + stands.error


def _dial(shop: Shop, chosen: Handwheel | None, usual: Sequence[str], field: str) -> _Dial | None:
    found = named_slide(shop, chosen, usual, field)
    return None if found is None else _Dial(*found)


def _scribe(inputs: ScribeInputs, shop: Shop) -> Answer:
    flat = max(inputs.tip_flat, 0.0)
    deep = v_depth(inputs.line_width, inputs.cutter_angle, flat)
    borne = inputs.deepest if inputs.deepest is not None else deepest_stroke(inputs.material)
    cuts = strokes_for(float(deep), borne)
    depths = tuple(float(deep) * k / cuts for k in range(1, cuts + 1))
    down = _dial(shop, inputs.depth_dial, ("mill z", "cross slide"), "depth_dial")
    lathe = down is not None and down.name == "cross slide"
    along = ("saddle", "top slide", "mill x") if lathe else ("mill x", "saddle", "top slide")
    feed = _dial(shop, inputs.feed_dial, along, "feed_dial")
    figures = [*_set_figures(inputs, deep, down), *_stroke_figures(inputs, deep, depths, borne)]
    if feed is not None:
        setting, _ = feed.to(inputs.length)
        far = say("{length} from zero at the line's end", length=mm(inputs.length))
        figures.append(to_set("stroke_setting", "Each stroke, along", setting, _PRACTICE, far))
    machine: Machine = "lathe" if lathe else "mill" if down is not None else ""
    moment = Situation(
        machine=machine, material=inputs.material.name, indexed_in_lathe=False if machine == "mill" else None
    )
    floors = [(v_width(depth, inputs.cutter_angle, flat), depth) for depth in depths]
    pictures = (line_picture(inputs.line_width, flat / 2, float(deep), floors),)
    notes = _notes(inputs, down, depths)
    return Answer(tuple(figures), (_table(inputs, depths, down),), pictures, notes, moments=(moment,))


def _set_figures(inputs: ScribeInputs, deep: Sum, down: _Dial | None) -> list[Figure]:
    """The depth on the dial first, then the depth itself."""
    plain_depth = figure("line_depth", "Depth of the line", deep, _GEOMETRY, decimals=3)
    if down is None:
        return [plain_depth]
    setting, made = down.to(float(deep), way="in")
    flat = max(inputs.tip_flat, 0.0)
    width = mm(flat) + 2 * mm(made) * tan(deg(inputs.cutter_angle) / 2)
    line = mm(down.slide.travel_per_turn / down.slide.divisions)
    wider = 2 * line * tan(deg(inputs.cutter_angle) / 2)
    touch = say("{deep} from the touch, to the nearest line of {line}", deep=deep.known(), line=shown(line))
    return [
        to_set("setting", "Infeed from touch", setting, _DIAL, touch),
        plain_depth,
        figure("width_set", "Width at that line", width, _GEOMETRY),
        figure("width_a_line", "One dial line more is", wider, _GEOMETRY),
    ]


def _stroke_figures(inputs: ScribeInputs, deep: Sum, depths: tuple[float, ...], borne: float) -> list[Figure]:
    cuts, again = len(depths), inputs.again
    most: Text = "as given"
    if inputs.deepest is None:
        most = say("no deeper than {most} in {material}", most=shown(borne, decimals=2), material=inputs.material.name)
    strokes = say("{sum}: {cuts} with infeed, {again} without; {most}", sum=num(cuts) + num(again), cuts=cuts,
                  again=again, most=most)  # fmt: skip
    before = depths[-2] if cuts > 1 else 0.0
    area = chip(before, depths[-1], inputs.cutter_angle, max(inputs.tip_flat, 0.0))
    kc = specific_force(inputs.material, depths[0])
    push = say("{area} x {kc}, the last chip by the force to cut a square mm of it",
               area=own(put(area, "area"), "mm"), kc=own(shown(kc, "stress", decimals=1), "mm"))  # fmt: skip
    return [
        Figure("strokes", "Strokes", cuts + again, "count", _STROKES, strokes),
        figure("stroke_infeed", "Infeed of a stroke", deep.known() / num(cuts), _STROKES),
        Figure("stroke_force", "Push, about", area * kc, "force", "the power law of cutting force", push),
    ]


def _table(inputs: ScribeInputs, depths: tuple[float, ...], down: _Dial | None) -> Table:
    columns = [*heads(number=("Stroke", "count"), depth=("Depth", "length"), width=("Width there", "length"))]
    if down is not None:
        columns.append(Column("set", f"{down.name.capitalize()} in"))
    rows: list[tuple[Cell, ...]] = []
    for k, depth in enumerate((*depths, *[depths[-1]] * inputs.again), 1):
        width = v_width(depth, inputs.cutter_angle, max(inputs.tip_flat, 0.0))
        cells: tuple[Cell, ...] = (k, depth, width)
        if down is not None:
            cells = (*cells, down.to(depth, way="in", towards="nearest" if k >= len(depths) else "short")[0])
        rows.append(cells)
    setting = ("set",) if down is not None else ("depth",)
    return Table("strokes", "Strokes", tuple(columns), tuple(rows), "stroke", setting, _STROKES)


def _notes(inputs: ScribeInputs, down: _Dial | None, depths: tuple[float, ...]) -> tuple[Note, ...]:
    notes = [
        info("Spindle locked, drive off; the cutter's flat face square to the stroke, drawn one way only, lifted clear on "
             "the way back."),
        info("Touch each line anew only if the rim runs out: one zero keeps all lines alike."),
    ]  # fmt: skip
    if down is not None:
        _, made = down.to(depths[-1])
        off = v_width(made, inputs.cutter_angle, max(inputs.tip_flat, 0.0)) - inputs.line_width
        if abs(off) > 0.1 * inputs.line_width:
            notes.append(warning("This dial is coarse for the line: it comes out {off} too {side}. A wider cutter angle "
                "asks for less depth.", off=shown(abs(off)), side="wide" if off > 0 else "narrow"))  # fmt: skip
    if len(depths) > _GROOVE:
        notes.append(
            warning(f"{len(depths)} strokes make a groove rather than a line: mill it with the cutter turning.")
        )
    return tuple(notes)


OPERATION = Operation(
    id="scribe",
    pane="indexing",
    place=35,
    title="Scribe a line",
    words="scribe scribing line engrave graduate rule V cutter pointed tool depth width stroke strokes shaping "
    "planing still spindle mark scratch etch witness",
    machine="mill",
    inputs=ScribeInputs,
    work=_scribe,
    tool="line cutter",
    hazards=("graduating", "clamping"),
    example={"line_width": "0.12", "length": "3", "material": "brass"},
    troubles={"IN-04": run_out_widens},
    help="A line by a V cutter with the spindle still: depth for its width, strokes, and the dials for each.",
)
