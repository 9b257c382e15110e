"""A straight scale ruled line by line: where the table stands for each line, how long it is, and what is stamped."""

from __future__ import annotations

from fractions import Fraction

from engine.base import declare as ask
from engine.base.answer import Answer, Cell, Column, Figure, Note, Table, figure, heads, info, warning, words
from engine.base.operation import Operation, tells
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.setting import Setting
from engine.base.sums import mm, num
from engine.base.words import say, shown
from engine.indexing import lines, scales
from engine.indexing.dials import dial_setting, on_slide
from engine.indexing.handwheel import Handwheel, named_slide
from engine.indexing.lines import Classes, punches
from engine.indexing.pictures import Mark, unrolled_pictures
from engine.indexing.positions import dry_run_back
from engine.indexing.scribing import run_out_widens, v_depth
from engine.shop.model import Shop, Slide
from engine.situation import Situation

_MOST_LINES = 1000
_READING = "0.035 in apart in good light, 0.07 in in poor, at 28 in (from memory, unconfirmed), scaled to 350 mm"
_PLACES = "each line from the first, rounded once, arriving the same way (common practice, no source)"


@dataclass(frozen=True, slots=True, kw_only=True)
class StraightScaleInputs:
    """What `straight-scale` is told.

    spacing: How far the lines stand apart.
    lines: The first one counted: 61 for 60 mm.
    value: What a line is worth, where the scale is not at full size.
    long_every: Long lines are numbered.
    middle_every: 0 for none.
    long_length: Length of a long line.
    middle_length: Length of a middle line.
    short_length: Length of a short line.
    line_width: At the surface.
    cutter_angle: V cutter, flank to flank.
    tip_flat: Flat on the tip; 0: sharp.
    move_dial: A handwheel of the shop, or travel per turn / lines (`2/100`).
    feed_dial: What draws the cutter along a line.
    numbering: Forward: they rise in the order the lines are cut.
    figure_height: Of the punches that stamp the numbers.
    """

    spacing: Fraction = ask.travel("Line to line", low=0.01, high=100, example="1", required=True)
    lines: int = ask.count("Lines", low=2, high=_MOST_LINES, example="61")
    value: Fraction | None = ask.travel("One line counts for", low=0.0001, high=1000, example="1", empty="the spacing")
    long_every: int | None = ask.count(
        "A long line every", low=1, high=1000, example="10", empty="10, or what comes out evenly"
    )
    middle_every: int | None = ask.count(
        "A middle line every", low=0, high=1000, example="5", empty="half of the long ones, if whole"
    )
    long_length: float | None = ask.length(
        "Long lines", high=200, example="6", empty="3 mm or so, on turns of the feed"
    )
    middle_length: float | None = ask.length(
        "Middle lines", high=200, example="4.5", empty="between, on turns of the feed"
    )
    short_length: float | None = ask.length(
        "Short lines", high=200, example="3", empty="1 mm or so, on turns of the feed"
    )
    line_width: float = ask.length("Width of a line", high=5, default=0.12, example="0.12")
    cutter_angle: float = ask.angle("Angle of the cutter", low=10, high=150, default=60.0, example="60")
    tip_flat: float = ask.length("Cutter tip flat", low=-1e-9, high=5, default=0.0, example="0")
    move_dial: Handwheel | None = ask.handwheel("Handwheel to a line", example="mill x", empty="the mill's x")
    feed_dial: Handwheel | None = ask.handwheel("Handwheel of the feed", example="mill y", empty="the mill's y")
    numbering: str = ask.choice("Numbers run", ("forward", "reverse"), default="forward")
    figure_height: float | None = ask.length(
        "Height of figures", low=0.3, high=20, example="1.5", empty="the usual, if it has room"
    )
    punches: str = punches()


def _straight(inputs: StraightScaleInputs, shop: Shop) -> Answer:
    move = _slide(shop, inputs.move_dial, "mill x", "move_dial")
    wheel, feed = _slide(shop, inputs.feed_dial, "mill y", "feed_dial")
    found = lines.classes(inputs, inputs.lines - 1, wheel, feed)
    labels = [_label(inputs, found, k) for k in range(inputs.lines)]
    places = [_place(move, k * inputs.spacing) for k in range(inputs.lines)]
    room = float(inputs.spacing) * found.long_every
    numbers = lines.numbers(inputs, labels, room, 0.0, found.sizes["long"].length)
    worst = max((error for _, error in places), key=abs)
    figures = (
        *lines.first_figures(found, 0, inputs.lines),
        *_line_figures(inputs, worst),
        *lines.class_figures(inputs, found, feed),
        *lines.number_figures(numbers, inputs, 0.0),
    )
    table = lines.with_feet(_table(inputs, found, labels, places), numbers, labels)
    stamps = lines.numbers_table(numbers, labels, (Column("set", "Table"),), lambda k: (places[k][0],))
    dry = dry_run_back([setting for setting, _ in places], "line")
    marks = [Mark(found.sizes[found.kind(k)].length, label) for k, label in enumerate(labels)]
    pictures = unrolled_pictures(marks, along=float((inputs.lines - 1) * inputs.spacing), straight=True)
    notes = (*_notes(inputs, found, worst), *lines.number_notes(numbers))
    tables, moment = (
        (table, stamps, *dry, lines.order_table("strip")),
        Situation(machine="mill", indexed_in_lathe=False),
    )
    return Answer(figures, tables, pictures, notes, moments=(moment,))


def _slide(shop: Shop, chosen: Handwheel | None, usual: str, field: str) -> tuple[str, Slide]:
    found = named_slide(shop, chosen, (usual,), field)
    if found is None:
        text = f"{field}: the shop has no {usual}; give travel per turn / lines (such as 2/100)."
        raise BadInput(field, "", "a handwheel", text)
    return found


def _place(move: tuple[str, Slide], distance: Fraction) -> tuple[Setting, float]:
    """How the table is set for a line, and how far that lies beyond it."""
    wheel, slide = move
    stands = dial_setting(distance=distance, travel_per_turn=slide.travel_per_turn, divisions=slide.divisions)
    setting = on_slide(wheel.capitalize(), slide, stands, "", distance)
    return setting, stands.error


def _label(inputs: StraightScaleInputs, found: Classes, line: int) -> str:
    """What is written at a line (from 0)."""
    if found.kind(line) != "long":
        return ""
    value = inputs.value or inputs.spacing
    counted = inputs.lines - 1 - line if inputs.numbering == "reverse" else line
    return scales.label(counted, value, lines=inputs.lines)


def _line_figures(inputs: StraightScaleInputs, worst: float) -> list[Figure]:
    gap = mm(inputs.spacing)
    legible = say("{gap}; {easy} is easy, under {close} is too close", gap=gap, easy=shown(scales.EASY, decimals=2),
                  close=shown(scales.CLOSE, decimals=2))  # fmt: skip
    depth = v_depth(inputs.line_width, inputs.cutter_angle, max(inputs.tip_flat, 0.0))
    nearest = f"the worst of {inputs.lines} lines, each to the nearest line of the dial"
    return [
        Figure("divisions", "Lines", inputs.lines, "count", "as told", "as told"),
        figure("scale_length", "First line to last", num(inputs.lines - 1) * gap, "arithmetic"),
        words("readable", "Legible", scales.readable(float(inputs.spacing), inputs.line_width), _READING, legible),
        figure("line_depth", "Depth of cut", depth, "V cutter: width = flat + 2 d tan(half angle)"),
        Figure("error", "Worst place", worst, "length", _PLACES, nearest, decimals=4),
    ]  # fmt: skip


def _table(
    inputs: StraightScaleInputs, found: Classes, labels: list[str], places: list[tuple[Setting, float]]
) -> Table:
    columns = (
        *heads(number=("No.", "count"), set="Table"),
        *lines.LINE_COLUMNS,
        *heads(at=("From line 1", "length"), error=("Off by", "length", 4)),
    )
    rows: list[tuple[Cell, ...]] = [
        (k + 1, setting, *lines.line_cells(found, k, labels[k]), float(k * inputs.spacing), error)
        for k, (setting, error) in enumerate(places)
    ]
    return Table("lines", "Lines", columns, tuple(rows), "line", ("set", "feed", "class", "label"), _PLACES)


def _notes(inputs: StraightScaleInputs, found: Classes, worst: float) -> list[Note]:
    zero = (
        "Set both dials to zero at line 1 and at the edge, coming up in the working direction; "
        "before every line back out half a turn past zero and come up again."
    )
    notes = [info(zero)]
    if (inputs.lines - 1) % found.long_every:
        ends = f"The last line is no long one: {inputs.lines - 1} spaces, long lines every {found.long_every}."
        notes.append(info(ends))
    if scales.readable(float(inputs.spacing), inputs.line_width) == "no":
        notes.append(warning("The lines are too close to read: rule fewer of them."))
    if abs(worst) > float(inputs.spacing) / 50:
        off = say("The dial cannot set these lines evenly: some are {off} out of place.", off=shown(abs(worst)))
        notes.append(warning(off))
    return notes


OPERATION = Operation(
    id="straight-scale",
    pane="indexing",
    place=32,
    title="Rule a straight scale",
    words="rule ruler ruling straight scale strip lines graduate graduation numbers stamp figures fence depth gauge "
    "linear marks steel rule",
    machine="mill",
    inputs=StraightScaleInputs,
    work=_straight,
    tool="line cutter",
    hazards=("graduating", "clamping"),
    example={"spacing": "1", "lines": "61"},
    troubles={"IN-04": run_out_widens, "IN-06": tells("last line {scale_length} from the first")},
    help="A straight scale line by line: the table's dial, each line's class and length, the numbers to stamp.",
)
