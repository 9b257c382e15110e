"""Flats on round bar: sizes, the depth to take, and where the work stands for each flat."""

from __future__ import annotations

from math import cos, pi, sqrt, tan

from engine.base.answer import Answer, Cell, Figure, Note, Table, figure, heads, info, to_set, words
from engine.base.declare import choice, count, length
from engine.base.declare import diameter as ask_diameter
from engine.base.operation import Operation, tells
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import Sum, deg, mm, num, root
from engine.base.sums import cos as cos_of
from engine.base.sums import tan as tan_of
from engine.base.words import Text, put, say, shown
from engine.indexing.dials import on_slide, slide_setting, turns_and_lines
from engine.indexing.pictures import flats_picture
from engine.indexing.positions import dry_run
from engine.indexing.step_figures import all_moves, place_columns, step_figures, step_notes
from engine.indexing.stepping import DEVICES, Stepping, step_round
from engine.shop.model import Shop
from engine.situation import Situation

_GEOMETRY = "geometry of the regular polygon; handbook tables of distances across corners (1.1547 and 1.4142)"
_DIAL = "the mill's own handwheel; never past the depth (common practice, no source)"


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatsInputs:
    """What `flats` is told.

    sides: 4 for a square, 6 for a hexagon.
    across_flats: Size for the spanner.
    by: The dividing head, the rotary table, or the spindle wheel of the lathe.
    """

    sides: int = count("Flats", low=2, high=100, example="6")
    across_flats: float | None = length(
        "Across the flats", high=1000, example="13", empty="the largest that the bar gives"
    )
    diameter: float | None = ask_diameter("Diameter of the bar", high=1000, example="16",
        empty="the smallest that leaves sharp corners", help="The round bar that the flats are cut on.")  # fmt: skip
    by: str | None = choice("Divide with", DEVICES, empty="whatever of the shop suits best")


@dataclass(frozen=True, slots=True)
class Flats:
    """A regular prism on round bar. Lengths in mm.

    `across_flats` is twice the distance from the axis to a flat (what a caliper spans when the count is even);
    `across_corners` is what the bar leaves of the corners; `flat_to_corner` is the span when the count is odd;
    `cut_depth` is taken from the touched top of the bar.
    """

    sides: int
    bar: float
    across_flats: float
    across_corners: float
    sharp_corners: float
    flat_to_corner: float
    flat_width: float
    cut_depth: float


def flats_on(*, sides: int, across_flats: float | None = None, bar: float | None = None) -> Flats:
    """Sizes of flats: from the size wanted, from the bar, or from both.

    sides: How many flats, 2 or more.
    across_flats: Size across the flats; None for the largest that the bar gives with sharp corners. [mm]
    bar: Diameter of the bar; None for the smallest that leaves sharp corners. [mm]
    Returns: All sizes. [mm]
    Raises: BadInput if neither size is given, or the flats would not cut the bar.
    Source: Geometry: across corners = across flats ÷ cos(180° ÷ sides). Hexagon 1.1547 and square 1.4142: handbook
        tables of distances across corners.

    >>> f = flats_on(sides=6, across_flats=13)
    >>> f.across_corners, f.cut_depth
    (15.0111, 1.0056)
    """
    ratio = cos(pi / sides) if sides > 2 else 0.0
    if across_flats is None:
        if bar is None:
            text = "across_flats: give the size across flats, or diameter (the bar's), or both."
            raise BadInput("across_flats", "", "a size across flats, or a bar's diameter", text)
        if sides == 2:
            text = "across_flats: two flats need their size (such as across_flats=8)."
            raise BadInput("across_flats", "", "a size", text)
        across_flats = bar * ratio
    elif bar is None:
        if sides == 2:
            text = "diameter: two flats need the bar's diameter (such as diameter=10)."
            raise BadInput("diameter", "", "the bar's diameter", text)
        bar = across_flats / ratio
    if across_flats >= bar:
        size, round_ = shown(across_flats), shown(bar)
        nothing = say("across_flats: {size} leaves nothing to cut on a bar of {bar}.", size=size, bar=round_)
        raise BadInput("across_flats", size, say("less than the bar's {bar}", bar=round_), nothing)
    sharp = across_flats / ratio if ratio else float("inf")
    corners = min(sharp, bar)
    full = across_flats * tan(pi / sides) if sides > 2 else float("inf")
    width = min(full, sqrt(max(bar**2 - across_flats**2, 0.0)))
    far, depth = (across_flats + corners) / 2, (bar - across_flats) / 2
    return Flats(sides, bar, across_flats, corners, sharp, far, width, depth)


def _flats(inputs: FlatsInputs, shop: Shop) -> Answer:
    made = flats_on(sides=inputs.sides, across_flats=inputs.across_flats, bar=inputs.diameter)
    stepping = step_round(inputs.sides, shop, device=inputs.by)
    on_dial_first, depth = _depth(made, shop)
    figures = (*on_dial_first, *_sizes(made, inputs), *depth, *step_figures(stepping, f"{inputs.sides} flats"))
    tables = (_positions(stepping), *dry_run(stepping.after, "flat", counted_in=stepping.counted_in))
    moment = Situation(
        machine="mill", pass_depth=made.cut_depth, indexed_in_lathe=stepping.device == "wheel", snags=True
    )
    turns, to_corner = [stop.angle for stop in stepping.stops], made.flat_to_corner
    drawn = flats_picture(turns, bar=made.bar, across=made.across_flats, width=made.flat_width,
        corners=made.across_corners, to_corner=to_corner, deep=made.cut_depth)  # fmt: skip
    return Answer(figures, tables, (drawn,), tuple(_notes(made, stepping)), moments=(moment,))


def _sizes(made: Flats, inputs: FlatsInputs) -> list[Figure]:
    bar, size = mm(made.bar), mm(made.across_flats)
    half = deg(180) / num(made.sides)
    flat: Text = "as asked" if inputs.across_flats is not None else bar * cos_of(half)
    chord: Text = root(bar**2 - size**2)
    sharp: Sum | None = size / cos_of(half) if made.sides > 2 else None
    corners: Text = say("two flats leave the bar's {bar}", bar=put(made.bar))
    if sharp is not None:
        corners = say("{sum} = {sharp}", sum=sharp, sharp=put(made.sharp_corners))
        if _stay_round(made):
            corners = say("{corners}, but the bar is {bar}", corners=corners, bar=bar)
            chord = say("{chord}, the chord that the bar leaves", chord=chord)
        else:
            chord = size * tan_of(half)
    figures = [
        Figure("across_flats", "Across flats", made.across_flats, "length", _GEOMETRY, flat),
        Figure("across_corners", "Across corners", made.across_corners, "length", _GEOMETRY, corners),
        Figure("flat_width", "Width of a flat", made.flat_width, "length", _GEOMETRY, chord),
    ]
    if sharp is not None and (inputs.diameter is None or _stay_round(made)):
        name = "bar_diameter" if inputs.diameter is None else "sharp_corners"
        how = say("{sum} = {sharp}", sum=sharp, sharp=put(made.sharp_corners))
        figures.append(Figure(name, "Bar for sharp corners", made.sharp_corners, "length", _GEOMETRY, how, side="up"))
    if made.sides % 2:
        half_of = (size + mm(made.across_corners)) / 2
        figures.append(figure("flat_to_corner", "Flat to corner", half_of, _GEOMETRY))
    return figures


def _depth(made: Flats, shop: Shop) -> tuple[list[Figure], list[Figure]]:
    """The depth on the dial, which leads where there is a mill; and the depth itself with the dial in words."""
    depth = figure("cut_depth", "Depth from the top", (mm(made.bar) - mm(made.across_flats)) / 2, _GEOMETRY)
    if shop.mill is None:
        return [], [depth]
    slide = shop.mill.z
    stands = slide_setting(slide, made.cut_depth, towards="short")
    turn, each = shown(float(slide.travel_per_turn)), mm(slide.travel_per_turn / slide.divisions)
    short = say("{depth} on {turn} a turn in {lines} lines: {short} short", depth=mm(made.cut_depth), turn=turn,
                lines=slide.divisions, short=shown(-stands.error, decimals=4))  # fmt: skip
    setting = on_slide("Mill z", slide, stands, "down", made.cut_depth)
    reading = say("{lines} lines of {each}", lines=stands.lines, each=each)
    return [to_set("setting", "From the touched top", setting, _DIAL, short)], [
        depth,
        words("depth_dial", "Quill or knee, turns", turns_and_lines(stands), _DIAL, short),
        Figure("depth_reading", "Quill or knee, dial", stands.reading, "length", _DIAL, reading),
    ]


def _positions(stepping: Stepping) -> Table:
    rows: list[tuple[Cell, ...]] = [
        (k, s.setting, *((s.turns, s.hole) if stepping.counts_holes else ()), s.angle)
        for k, s in enumerate(stepping.stops, 1)
    ]
    at = heads(angle=("Angle", "angle", 4))
    columns = (*heads(number=("No.", "count"), setting="Setting"), *place_columns(stepping), *at)
    setting = ("setting", "hole_from_start") if stepping.counts_holes else ("setting",)
    source = "each position from its own exact fraction; the start is 0"
    return Table("positions", "Flats", columns, tuple(rows), "flat", setting, source)


def _stay_round(made: Flats) -> bool:
    """Whether the bar is too thin for the corners to meet."""
    return made.sides > 2 and made.across_corners < made.sharp_corners - 1e-9


def _notes(made: Flats, stepping: Stepping) -> list[Note]:
    round_ = [info("The corners stay round: the bar is too thin for sharp ones.")] if _stay_round(made) else []
    odd = info("An odd count has no two flats opposite: across flats is twice from the axis to a flat; measure from a "
        "flat to the corner across.")  # fmt: skip
    return [*round_, *([odd] if made.sides % 2 else []), *step_notes(stepping)]


OPERATION = Operation(
    id="flats",
    pane="indexing",
    place=60,
    title="Flats on a bar",
    words="square hexagon octagon across flats corners spanner wrench nut head prism polygon sides mill flat hex "
    "two flats AF",
    machine="mill",
    inputs=FlatsInputs,
    work=_flats,
    tool="end mill",
    hazards=("milling", "dividing", "clamping"),
    example={"sides": "6", "across_flats": "13"},
    troubles={
        "IN-01": lambda inputs, answer, shop: all_moves(inputs.sides, answer, shop),
        "IN-02": None,
        "IN-05": tells("{cut_depth} deep gives {across_flats} across"),
    },
    help="A square, a hexagon or any other count of flats on a bar: sizes, depth and settings.",
)
