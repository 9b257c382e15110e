"""Scale lines on a drum, one by one."""

from __future__ import annotations

from fractions import Fraction
from math import pi
from typing import TYPE_CHECKING

from engine.base import declare as ask
from engine.base.answer import Answer, Cell, Figure, Note, Table, figure, heads, info, warning, words
from engine.base.operation import Operation, tells
from engine.base.records import dataclass, replace
from engine.base.refusals import BadInput
from engine.base.setting import setting_text
from engine.base.sums import PI, deg, mm, num
from engine.base.words import Text, general, say, shown
from engine.indexing import lines, scales
from engine.indexing.handwheel import Handwheel, named_slide
from engine.indexing.lines import Classes, punches
from engine.indexing.pictures import Mark, unrolled_pictures
from engine.indexing.positions import dry_run
from engine.indexing.scales import Closing
from engine.indexing.scribing import run_out_widens, v_depth
from engine.indexing.step_figures import NOTICED, all_moves, place_columns, step_figures, step_notes
from engine.indexing.stepping import DEVICES, Stepping, step_round
from engine.indexing.way import mixed
from engine.shop.model import Shop, Slide
from engine.situation import Situation

if TYPE_CHECKING:
    from engine.threads.thread import Thread

_MOST_LINES = 1000
_SECONDS = 1_296_000  # of arc in a circle
_READING = "0.035 in apart in good light, 0.07 in in poor, at 28 in (from memory, unconfirmed), scaled to 350 mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleInputs:
    """What `scale-lines` is told.

    size: The screw that the drum turns on.
    lead: Travel for one turn of the drum. `1.5`, or `16 tpi`.
    per_line: How far one line moves the screw.
    diameter: Where the lines are cut.
    long_every: Long lines are numbered.
    middle_every: 0 for none.
    long_length: Length of a long line.
    middle_length: Length of a middle line.
    short_length: Length of a short line.
    line_width: At the surface.
    cutter_angle: V cutter, flank to flank.
    tip_flat: Flat on the tip; 0: sharp.
    feed_dial: A handwheel of the shop, or travel per turn / lines (`2/100`).
    numbering: Forward: they rise in the order the lines are cut.
    by: The dividing head, the rotary table, or the spindle wheel of the lathe.
    reads_diameter: Yes when a line stands for twice what the screw moves.
    done: To go on from.
    figure_height: Of the punches that stamp the numbers.
    """

    size: Thread | None = ask.thread("Screw", example="M12x1.5", empty="from the lead")
    lead: Fraction | None = ask.travel("Lead of the screw", low=0.05, high=100, example="1.5", empty="from the screw")
    per_line: Fraction = ask.travel("Value of one line", low=0.0001, high=50, example="0.05", required=True)
    diameter: float = ask.diameter("Diameter of the drum", high=1000, example="24", required=True)
    long_every: int | None = ask.count(
        "A long line every", low=1, high=1000, example="10", empty="10, or what goes round evenly"
    )
    middle_every: int | None = ask.count(
        "A middle line every", low=0, high=1000, example="5", empty="half of the long ones, if whole"
    )
    long_length: float | None = ask.length(
        "Long lines", high=200, example="4", empty="3 mm or so, on turns of the feed"
    )
    middle_length: float | None = ask.length(
        "Middle lines", high=200, example="3", empty="between, on turns of the feed"
    )
    short_length: float | None = ask.length(
        "Short lines", high=200, example="2", empty="1 mm or so, on turns of the feed"
    )
    line_width: float = ask.length("Width of a line", high=5, default=0.12, example="0.12")
    cutter_angle: float = ask.angle("Angle of the cutter", low=10, high=150, default=60.0, example="60")
    tip_flat: float = ask.length("Cutter tip flat", low=-1e-9, high=5, default=0.0, example="0")
    feed_dial: Handwheel | None = ask.handwheel(
        "Handwheel of the feed", example="mill x", empty="the mill's x, or the lathe's saddle with a spindle wheel"
    )
    numbering: str = ask.choice("Numbers run", ("forward", "reverse"), default="forward")
    by: str | None = ask.choice("Divide with", DEVICES, empty="whatever of the shop suits best")
    reads_diameter: bool = ask.flag("Drum reads diameter", default=False)
    done: int | None = ask.count("Lines done", low=0, high=_MOST_LINES, example="12", empty="none")
    figure_height: float | None = ask.length(
        "Height of figures", low=0.3, high=20, example="1.5", empty="by the drum and the room"
    )
    punches: str = punches()


def _scale(inputs: ScaleInputs, shop: Shop) -> Answer:
    lead = _lead(inputs)
    per_turn = lead * 2 if inputs.reads_diameter else lead
    closing = _closing(inputs, per_turn)
    stepping = step_round(closing.lines, shop, device=inputs.by)
    name, slide = _feed(inputs, shop, stepping)
    found = lines.classes(inputs, closing.lines, name, slide)
    labels = [_label(inputs, found, closing, k) for k in range(closing.lines)]
    table = _lines(found, stepping, labels)
    numbered = sum(map(bool, labels))
    room = pi * inputs.diameter / numbered
    numbers = lines.numbers(inputs, labels, room, inputs.diameter, found.sizes["long"].length)
    figures = [
        *lines.first_figures(found, inputs.done or 0, closing.lines),
        *_line_figures(inputs, lead, per_turn, closing),
        *step_figures(stepping, f"{closing.lines} lines"),
        *lines.class_figures(inputs, found, slide),
        *lines.number_figures(numbers, inputs, inputs.diameter),
    ]
    figures += _mate_figures(inputs, lead, found.sizes["long"].length)
    if inputs.done is not None:
        figures += _progress(inputs.done, found, table)
    stamps = lines.numbers_table(numbers, labels, place_columns(stepping), lambda k: _place(stepping, k))
    table = lines.with_feet(table, numbers, labels)
    tables = (
        table,
        stamps,
        *dry_run(stepping.after, "line", counted_in=stepping.counted_in),
        lines.order_table("drum"),
    )
    marks = [Mark(found.sizes[found.kind(k)].length, label) for k, label in enumerate(labels)]
    pictures = unrolled_pictures(marks, along=pi * inputs.diameter)
    notes = (*_notes(inputs, per_turn, closing, found, stepping), *lines.number_notes(numbers))
    in_lathe = stepping.device == "wheel"
    moment = Situation(
        machine="lathe" if in_lathe else "mill", indexed_in_lathe=in_lathe, work_diameter=inputs.diameter
    )
    return Answer(tuple(figures), tables, pictures, notes, moments=(moment,))


def _lead(inputs: ScaleInputs) -> Fraction:
    if inputs.lead is not None and inputs.size is not None and inputs.size.lead != inputs.lead:
        its, given = (shown(float(lead), decimals=4) for lead in (inputs.size.lead, inputs.lead))
        text = say("lead: {size} has a lead of {its}, not {given}.", size=str(inputs.size), its=its, given=given)
        raise BadInput("lead", given, "the size or the lead, not both", text)
    if inputs.lead is not None:
        return inputs.lead
    if inputs.size is None:
        raise BadInput("lead", "", "a screw or a lead", "lead: give size=M12x1.5, or lead=1.5.")
    return inputs.size.lead


def _closing(inputs: ScaleInputs, per_turn: Fraction) -> Closing:
    closing = scales.closing(per_turn, inputs.per_line)
    if not 2 <= closing.lines <= _MOST_LINES:
        value, turn = (shown(float(size), decimals=4) for size in (inputs.per_line, per_turn))
        text = say("per_line: {value} makes {lines} lines of {turn} a turn; 2 to {most} lines can be cut.",
                   value=value, lines=general(float(closing.exact)), turn=turn, most=_MOST_LINES)  # fmt: skip
        raise BadInput("per_line", value, f"2 to {_MOST_LINES} lines a turn", text)
    return closing


def _feed(inputs: ScaleInputs, shop: Shop, stepping: Stepping) -> tuple[str, Slide]:
    """The handwheel that feeds the cutter along the drum."""
    usual = ("saddle", "top slide", "mill x") if stepping.device == "wheel" else ("mill x", "saddle", "top slide")
    found = named_slide(shop, inputs.feed_dial, usual, "feed_dial")
    if found is None:
        text = "feed_dial: the shop has no handwheel to feed with; give travel per turn / lines (such as 2/100)."
        raise BadInput("feed_dial", "", "a handwheel", text)
    name, slide = found
    return name, replace(slide, reads_diameter=False) if inputs.feed_dial is not None else slide


def _label(inputs: ScaleInputs, found: Classes, closing: Closing, line: int) -> str:
    """What is written at a line (from 0)."""
    if found.kind(line) != "long":
        return ""
    return scales.label(line, inputs.per_line, lines=closing.lines, reverse=inputs.numbering == "reverse")


def _place(stepping: Stepping, line: int) -> tuple[Cell, ...]:
    stop = stepping.stops[line]
    return (stop.turns, stop.hole) if stepping.counts_holes else ()


def _lines(found: Classes, stepping: Stepping, labels: list[str]) -> Table:
    rows: list[tuple[Cell, ...]] = [
        (k + 1, stop.setting, *lines.line_cells(found, k, label), *_place(stepping, k), stop.angle)
        for k, (stop, label) in enumerate(zip(stepping.stops, labels, strict=True))
    ]
    first = heads(number=("No.", "count"), setting="Crank setting" if stepping.device == "head" else "Setting")
    columns = (*first, *lines.LINE_COLUMNS, *place_columns(stepping), *heads(angle=("Angle", "angle", 4)))
    source = "each line from its own exact fraction; the start is 0"
    return Table("lines", "Lines", columns, tuple(rows), "line", ("feed", "class", "setting", "label"), source)


def _line_figures(inputs: ScaleInputs, lead: Fraction, per_turn: Fraction, closing: Closing) -> list[Figure]:
    n, turn, drum = num(closing.lines), mm(per_turn), mm(inputs.diameter)
    twice: Text = ""
    if inputs.reads_diameter:
        twice = say(" (twice the lead of {lead}, for the diameter)", lead=mm(lead))
    taken = "" if closing.closes else f"; taken as {closing.lines}"
    ratio = say("{sum} = {lines}", sum=turn / mm(inputs.per_line), lines=mixed(closing.exact))
    spacing = PI * drum / n
    gap = say("pi x {drum} ÷ {n} = {gap}", drum=drum, n=closing.lines, gap=spacing.known())
    legible = say("{gap}; {easy} is easy, under {close} is too close", gap=gap, easy=shown(scales.EASY, decimals=2),
                  close=shown(scales.CLOSE, decimals=2))  # fmt: skip
    depth = v_depth(inputs.line_width, inputs.cutter_angle, max(inputs.tip_flat, 0.0))
    return [
        Figure("divisions", "Lines", closing.lines, "count", "lines = lead ÷ value of a line (workshop textbooks)",
               say("{ratio}{twice}{taken}", ratio=ratio, twice=twice, taken=taken)),
        words("closes", "Closes exactly", "yes" if closing.closes else "no", "exact fractions", ratio),
        figure("value", "One line is worth", turn / n, "exact fractions", decimals=5),
        figure("angle", "Line to line, angle", deg(360) / n, "360° ÷ lines", decimals=4),
        figure("spacing", "Line to line on drum", spacing, "geometry", gap),
        words("readable", "Legible", scales.readable(float(spacing.value), inputs.line_width), _READING, legible),
        figure("least_diameter", "Smallest legible drum", n * mm(scales.CLOSE) / PI, _READING, decimals=1, side="up"),
        figure("line_depth", "Depth of cut", depth, "V cutter: width = flat + 2 d tan(half angle)"),
    ]  # fmt: skip


def _mate_figures(inputs: ScaleInputs, lead: Fraction, long: float) -> list[Figure]:
    """The zero line on the mate: how long, and what turns the drum by one line against it."""
    source = "the drum's edge goes a lead to a turn: geometry"
    whole = mm(long, "long line {}") + mm(lead, "lead {}")
    one = mm(inputs.per_line / 2 if inputs.reads_diameter else inputs.per_line)
    return [
        figure("mate_line", "Zero line on the mate, long", whole, source, decimals=1, side="up"),
        figure("mate_shim", "Washer that turns 0 by a line", one, "the lead's share of a line: geometry", decimals=3),
    ]


def _progress(done: int, found: Classes, table: Table) -> list[Figure]:
    left = len(table.rows) - done
    if left < 0:
        text = f"done: {done} lines cannot be done of {len(table.rows)}."
        raise BadInput("done", done, f"0 to {len(table.rows)}", text)
    figures = [figure("left", "Lines left", num(len(table.rows)) - num(done), "counting", dimension="count")]
    if left:
        names = [column.name for column in table.columns]
        row = dict(zip(names, table.rows[done], strict=True))
        label: Text = say("; label {label}", label=str(row["label"])) if row["label"] else ""
        feed = setting_text(found.sizes[found.kind(done)].setting, wheel=False)
        said = say("line {k} of {n}: {setting}; feed {feed}{label}", k=done + 1, n=len(table.rows),
                   setting=str(row["setting"]), feed=feed, label=label)  # fmt: skip
        figures.append(words("next", "Next", said, "the table of lines", f"row {done + 1}"))
    return figures


def _notes(inputs: ScaleInputs, per_turn: Fraction, closing: Closing, found: Classes, stepping: Stepping) -> list[Note]:
    n = closing.lines
    zero = (
        "Set the feed dial to zero at the drum's edge, coming up in the feed's direction; "
        "before every line back out half a turn past zero and come up again."
    )
    notes = [info(zero)]
    if not closing.closes:
        off = float(per_turn / n / inputs.per_line - 1) * 100
        side = "more" if off > 0 else "less"
        notes.append(warning("It does not close: {exact} lines. With {n} lines one is worth {off} % {side} than asked.",
            exact=mixed(closing.exact), n=n, off=shown(abs(off), "ratio"), side=side))  # fmt: skip
    if n % found.long_every:
        last = n % found.long_every
        uneven = f"Long lines every {found.long_every} do not go round {n}: the last space has {last}."
        notes.append(warning(uneven))
    if scales.readable(scales.spacing_on(inputs.diameter, n), inputs.line_width) == "no":
        notes.append(warning("The lines are too close to read: a larger drum, or a larger value for a line."))
    on_drum: Text = ""
    if stepping.error > NOTICED:
        on_drum = say("{size} on the drum", size=shown(stepping.error / _SECONDS * pi * inputs.diameter))
    mate = (
        "The zero line goes on the mate last: run the drum to where it is to read 0, line 0 where you look, and scribe "
        "beside it along the axis from the drum's edge."
    )
    return [*notes, *step_notes(stepping, on_drum), info(mate)]


OPERATION = Operation(
    id="scale-lines",
    pane="indexing",
    place=30,
    title="Scale lines on a drum",
    words="graduate graduating graduation collar thimble engrave dial drum scale lines numbers stamp figures ring "
    "micrometer index marks divide label",
    machine="mill",
    inputs=ScaleInputs,
    work=_scale,
    tool="line cutter",
    hazards=("graduating", "dividing"),
    example={"size": "M12x1.5", "per_line": "0.05", "diameter": "24"},
    troubles={
        "IN-01": lambda inputs, answer, shop: all_moves(int(answer.figure("divisions").value or 0), answer, shop),
        "IN-02": None,
        "IN-04": run_out_widens,
        "IN-06": tells("lines {spacing} apart on the drum"),
    },
    help="A scale on a drum that turns on a screw: lines, lengths, labels, crank and feed for every line.",
)
