"""Scale lines on a drum, one by one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import pi
from typing import TYPE_CHECKING

from engine.base.answer import Answer, Cell, Column, Figure, Note, Table
from engine.base.declare import angle as ask_angle
from engine.base.declare import choice, count, flag, handwheel, length, thread, travel
from engine.base.declare import diameter as ask_diameter
from engine.base.operation import Operation
from engine.base.quantity import show, worked
from engine.base.refusals import BadInput
from engine.indexing import scales
from engine.indexing.dials import DialSetting, slide_setting, turns_and_lines
from engine.indexing.handwheel import Handwheel, slide_of
from engine.indexing.pictures import Mark, unrolled_pictures
from engine.indexing.scales import Closing, Kind
from engine.indexing.step_figures import place_columns, step_figures
from engine.indexing.stepping import DEVICES, Stepping, step_round
from engine.indexing.way import mixed
from engine.shop.model import Shop, Slide

if TYPE_CHECKING:
    from engine.threads.thread import Thread

_MOST_LINES = 1000
_LENGTHS = (
    "heights 0.22, 0.16 and 0.09 in read from 28 in, a military design handbook (from memory, unconfirmed), "
    "scaled to 350 mm"
)
_READING = (
    "0.035 in apart in good light, 0.07 in in poor, at 28 in (from memory, unconfirmed), scaled to 350 mm"
)
_PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleInputs:
    """What `scale-lines` is told."""

    size: Thread | None = thread(
        "Screw", example="M12x1.5", empty="from the lead", help="The screw that the drum turns on."
    )
    lead: Fraction | None = travel(
        "Lead of the screw", low=0.05, high=100, example="1.5", empty="from the screw",
        help="Travel for one turn of the drum. `1.5`, or `16 tpi`.",
    )  # fmt: skip
    per_line: Fraction = travel(
        "Value of one line",
        low=0.0001,
        high=50,
        example="0.05",
        required=True,
        help="How far one line moves the screw.",
    )
    diameter: float = ask_diameter(
        "Diameter of the drum", high=1000, example="24", required=True, help="Where the lines are cut."
    )
    long_every: int | None = count(
        "A long line every", low=1, high=1000, example="10", empty="10, or what goes round evenly",
        help="Long lines are numbered.",
    )  # fmt: skip
    middle_every: int | None = count(
        "A middle line every", low=0, high=1000, example="5", empty="half of the long ones, if that is whole",
        help="0 for none.",
    )  # fmt: skip
    long_length: float | None = length(
        "Long lines", high=200, example="4", empty="2.8 mm (0.11 in)", help="Length of a long line."
    )
    middle_length: float | None = length(
        "Middle lines", high=200, example="3", empty="between long and short", help="Length of a middle line."
    )
    short_length: float | None = length(
        "Short lines", high=200, example="2", empty="two fifths of the long", help="Length of a short line."
    )
    line_width: float = length(
        "Width of a line", high=5, default=0.12, example="0.12", help="At the surface."
    )
    cutter_angle: float = ask_angle(
        "Angle of the cutter", low=10, high=150, default=60.0, example="60", help="V cutter, flank to flank."
    )
    tip_flat: float = length(
        "Flat on the cutter's tip", low=-1e-9, high=5, default=0.0, example="0", help="0: sharp."
    )
    feed_dial: Handwheel | None = handwheel(
        "Handwheel of the feed", example="mill x", empty="the mill's x, or the lathe's saddle with a spindle wheel",
        help="A handwheel of the shop, or travel per turn / lines (`2/100`).",
    )  # fmt: skip
    numbering: str = choice(
        "Numbers run",
        ("forward", "reverse"),
        default="forward",
        help="Forward: they rise in the order the lines are cut.",
    )
    by: str | None = choice(
        "Divide with", DEVICES, empty="whatever of the shop suits best",
        help="The dividing head, the rotary table, or the spindle wheel of the lathe.",
    )  # fmt: skip
    reads_diameter: bool = flag(
        "Lines count on the diameter",
        default=False,
        help="Yes when a line stands for twice what the screw moves.",
    )
    done: int | None = count(
        "Lines done", low=0, high=_MOST_LINES, example="12", empty="none", help="To go on from."
    )


@dataclass(frozen=True, slots=True)
class _Plan:
    """Everything that the lines of one scale have in common."""

    closing: Closing
    value: Fraction
    long_every: int
    middle_every: int
    lengths: dict[Kind, float]
    feeds: dict[Kind, DialSetting]
    reverse: bool

    def kind(self, line: int) -> Kind:
        """Whether a line (from 0) is long, middle or short."""
        return scales.kind_of(line, long_every=self.long_every, middle_every=self.middle_every)

    def label(self, line: int) -> str:
        """What is written at a line (from 0)."""
        if self.kind(line) != "long":
            return ""
        return scales.label(line, self.value, lines=self.closing.lines, reverse=self.reverse)


def _scale(inputs: ScaleInputs, shop: Shop) -> Answer:
    lead = _lead(inputs, shop.unit)
    per_turn = lead * 2 if inputs.reads_diameter else lead
    closing = scales.closing(per_turn, inputs.per_line)
    if not 2 <= closing.lines <= _MOST_LINES:
        value, turn = (
            show(float(size), "length", shop.unit, decimals=4) for size in (inputs.per_line, per_turn)
        )
        text = f"per_line: {value} makes {float(closing.exact):.6g} lines of {turn} a turn; "
        text += f"2 to {_MOST_LINES} lines can be cut."
        raise BadInput("per_line", value, f"2 to {_MOST_LINES} lines a turn", text)
    stepping = step_round(closing.lines, shop, device=inputs.by)
    name, slide = _feed(inputs, shop, stepping)
    lengths = _lengths(inputs, shop.unit)
    long_every = inputs.long_every or scales.usual_long_every(closing.lines)
    middle = inputs.middle_every
    middle_every = (
        middle if middle is not None else (long_every // 2 if long_every % 2 == 0 and long_every > 2 else 0)
    )
    plan = _Plan(
        closing=closing,
        value=inputs.per_line,
        long_every=long_every,
        middle_every=middle_every,
        lengths=lengths,
        feeds={kind: slide_setting(slide, size) for kind, size in lengths.items()},
        reverse=inputs.numbering == "reverse",
    )
    labels = [plan.label(k) for k in range(closing.lines)]
    table = _lines(plan, stepping, labels)
    figures = [
        *_line_figures(inputs, lead, per_turn, plan, shop.unit),
        *step_figures(stepping, f"{closing.lines} lines"),
        *_feed_figures(inputs, plan, name, slide, shop.unit),
    ]
    if inputs.done is not None:
        figures += _progress(inputs.done, table)
    marks = [Mark(lengths[plan.kind(k)], label) for k, label in enumerate(labels)]
    pictures = unrolled_pictures(marks, along=pi * inputs.diameter)
    notes = tuple(_notes(inputs, per_turn, plan, stepping, shop.unit))
    return Answer(tuple(figures), (table,), pictures, notes)


def _lead(inputs: ScaleInputs, unit: str) -> Fraction:
    if inputs.lead is not None and inputs.size is not None and inputs.size.lead != inputs.lead:
        its, given = (
            show(float(lead), "length", unit, decimals=4) for lead in (inputs.size.lead, inputs.lead)
        )
        text = f"lead: {inputs.size} has a lead of {its}, not {given}."
        raise BadInput("lead", given, "the size or the lead, not both", text)
    if inputs.lead is not None:
        return inputs.lead
    if inputs.size is None:
        raise BadInput("lead", "", "a screw or a lead", "lead: give size=M12x1.5, or lead=1.5.")
    return inputs.size.lead


def _lengths(inputs: ScaleInputs, unit: str) -> dict[Kind, float]:
    """Line lengths: those given, the others in the proportion of the handbook's heights."""
    given = inputs.long_length or (inputs.short_length or 0.0) / scales.SHORT * scales.LONG
    long = round(given, 4) or scales.LONG
    short = inputs.short_length or round(long * scales.SHORT / scales.LONG, 1) or long
    between = (long + short) / 2 if inputs.short_length else long * scales.MIDDLE / scales.LONG
    middle = inputs.middle_length or min(max(round(between, 1), short), long)
    if not short <= middle <= long:
        field = "middle_length" if inputs.middle_length else "short_length"
        all_three = [show(size, "length", unit, decimals=2) for size in (long, middle, short)]
        text = f"{field}: lines of {all_three[0]}, {all_three[1]} and {all_three[2]} are not long, middle and short."
        raise BadInput(field, all_three[1], "long lines longest and short lines shortest", text)
    return {"long": long, "middle": middle, "short": short}


def _length_words(inputs: ScaleInputs, lengths: dict[Kind, float], kind: Kind, unit: str) -> str:
    """How a length that was not given came about; the sums are those of _lengths."""
    long, short = worked(lengths["long"], unit), worked(lengths["short"], unit)
    usual = {"long": scales.LONG, "middle": scales.MIDDLE, "short": scales.SHORT}
    step = f"to {worked(0.1, unit)}"
    if kind == "long":
        if inputs.short_length:
            return f"{short} x {worked(scales.LONG, unit)} ÷ {worked(scales.SHORT, unit)}"
        return f"{worked(0.22 * 25.4, unit)} x 350 ÷ 710, {step}"
    if kind == "middle" and inputs.short_length:
        return f"({long} + {short}) ÷ 2, {step}"
    return f"{long} x {worked(usual[kind], unit)} ÷ {worked(scales.LONG, unit)}, {step}"


def _feed(inputs: ScaleInputs, shop: Shop, stepping: Stepping) -> tuple[str, Slide]:
    """The handwheel that feeds the cutter along the drum."""
    if inputs.feed_dial is not None:
        chosen = inputs.feed_dial
        slide = chosen.slide or slide_of(shop, chosen.name)
        if slide is None:
            text = f"feed_dial: the shop has no {chosen.name}; name another, or give travel per turn / lines (2/100)."
            raise BadInput("feed_dial", chosen.name, "a handwheel of the shop", text)
        return chosen.name, replace(slide, reads_diameter=False)
    names = (
        ("saddle", "top slide", "mill x") if stepping.device == "wheel" else ("mill x", "saddle", "top slide")
    )
    for name in names:
        owned = slide_of(shop, name)
        if owned is not None:
            return name, owned
    text = "feed_dial: the shop has no handwheel to feed with; give travel per turn / lines (such as 2/100)."
    raise BadInput("feed_dial", "", "a handwheel", text)


def _lines(plan: _Plan, stepping: Stepping, labels: Sequence[str]) -> Table:
    feed_texts = {kind: turns_and_lines(feed) for kind, feed in plan.feeds.items()}
    rows: list[tuple[Cell, ...]] = []
    for k, (stop, label) in enumerate(zip(stepping.stops, labels, strict=True)):
        kind = plan.kind(k)
        feed = plan.feeds[kind]
        place = (stop.turns, stop.hole) if stepping.counts_holes else ()
        rows.append(
            (k + 1, stop.setting, feed_texts[kind], label, plan.lengths[kind], feed.turns, feed.reading, *place,
             stop.angle)
        )  # fmt: skip
    columns = (
        Column("number", "No.", "count"),
        Column("setting", "Crank setting" if stepping.device == "head" else "Setting"),
        Column("feed", "Feed"),
        Column("label", "Label"),
        Column("length", "Length", "length", 2),
        Column("feed_turns", "Feed turns", "count"),
        Column("feed_reading", "then to", "length"),
        *place_columns(stepping),
        Column("angle", "Angle", "angle", 4),
    )
    source = "each line from its own exact fraction; the start is 0"
    return Table("lines", "Lines", columns, tuple(rows), "line", ("setting", "feed"), source)


def _line_figures(
    inputs: ScaleInputs, lead: Fraction, per_turn: Fraction, plan: _Plan, unit: str
) -> list[Figure]:
    lines, exact = plan.closing.lines, plan.closing.exact
    spacing = scales.spacing_on(inputs.diameter, lines)
    gap = f"pi x {worked(inputs.diameter, unit)} ÷ {lines} = {worked(spacing, unit)}"
    depth = scales.depth_for_width(
        width=inputs.line_width, included_angle=inputs.cutter_angle, tip_flat=max(inputs.tip_flat, 0.0)
    )
    turn = worked(float(per_turn), unit)
    ratio = f"{turn} ÷ {worked(float(inputs.per_line), unit)} = {mixed(exact)}"
    twice = (
        f" (twice the lead of {worked(float(lead), unit)}, for the diameter)" if inputs.reads_diameter else ""
    )
    easy, close = (show(size, "length", unit, decimals=2) for size in (scales.EASY, scales.CLOSE))
    width, flat = worked(inputs.line_width, unit), worked(max(inputs.tip_flat, 0.0), unit)
    return [
        Figure("divisions", "Lines", lines, "count", "lines = lead ÷ value of a line (workshop textbooks)",
               ratio + twice + ("" if plan.closing.closes else f"; taken as {lines}")),
        Figure("closes", "Closes exactly", None, "text", "exact fractions", ratio,
               text="yes" if plan.closing.closes else "no"),
        Figure("value", "One line is worth", float(per_turn / lines), "length", "exact fractions",
               f"{turn} ÷ {lines}", decimals=5),
        Figure("angle", "Angle from line to line", 360 / lines, "angle", "360° ÷ lines", f"360° ÷ {lines}", decimals=4),
        Figure("spacing", "Line to line on the drum", spacing, "length", "geometry", gap),
        Figure("readable", "Can be read", None, "text", _READING,
               f"{gap}; {easy} is easy, under {close} is too close",
               text=scales.readable(spacing, inputs.line_width)),
        Figure("least_diameter", "Least drum to read", scales.CLOSE * lines / pi, "length", _READING,
               f"{lines} x {worked(scales.CLOSE, unit)} ÷ pi", decimals=1, side="up"),
        Figure("line_depth", "Depth of cut", depth, "length", "V cutter: width = flat + 2 d tan(half angle)",
               f"({width} - {flat}) ÷ (2 x tan({inputs.cutter_angle / 2:g}°))"),
    ]  # fmt: skip


def _feed_figures(inputs: ScaleInputs, plan: _Plan, name: str, slide: Slide, unit: str) -> list[Figure]:
    source = (
        "each length from one zero at the drum's edge, arriving the same way (common practice, no source)"
    )
    dial = f"{show(float(slide.travel_per_turn), 'length', unit)} a turn in {slide.divisions} lines"
    figures = [Figure("feed_with", "Feed with", None, "text", _PRACTICE, dial, text=name)]
    for kind in ("long", "middle", "short"):
        if kind == "middle" and not plan.middle_every:
            continue
        feed, size = plan.feeds[kind], plan.lengths[kind]
        off = f"{worked(size, unit)} on {dial}: off by {show(feed.error, 'length', unit, decimals=4)}"
        given = getattr(inputs, f"{kind}_length") is not None
        origin, why = (
            ("as told", "as told") if given else (_LENGTHS, _length_words(inputs, plan.lengths, kind, unit))
        )
        figures += [
            Figure(f"{kind}_length", f"{kind.capitalize()} lines", size, "length", origin, why, decimals=2),
            Figure(f"{kind}_feed", f"Feed, {kind}", None, "text", source, off, text=turns_and_lines(feed)),
        ]
    return figures


def _progress(done: int, table: Table) -> list[Figure]:
    left = len(table.rows) - done
    if left < 0:
        text = f"done: {done} lines cannot be done of {len(table.rows)}."
        raise BadInput("done", done, f"0 to {len(table.rows)}", text)
    figures = [Figure("left", "Lines left", left, "count", "counting", f"{len(table.rows)} - {done}")]
    if left:
        _, setting, feed, label, *_rest = table.rows[done]
        words = f"line {done + 1} of {len(table.rows)}: {setting}; feed {feed}" + (
            f"; label {label}" if label else ""
        )
        figures.append(
            Figure("next", "Next", None, "text", "the table of lines", f"row {done + 1}", text=words)
        )
    return figures


def _notes(inputs: ScaleInputs, per_turn: Fraction, plan: _Plan, stepping: Stepping, unit: str) -> list[Note]:
    lines = plan.closing.lines
    notes = [
        Note(
            "info",
            "Set the feed dial to zero at the drum's edge, coming up in the feed's direction; "
            "before every line back out half a turn past zero and come up again.",
        )
    ]
    if not plan.closing.closes:
        off = float(per_turn / lines / inputs.per_line - 1) * 100
        notes.append(
            Note("warning", f"It does not close: {mixed(plan.closing.exact)} lines. With {lines} lines one is worth "
                 f"{abs(off):.3g} % {'more' if off > 0 else 'less'} than asked.")
        )  # fmt: skip
    if lines % plan.long_every:
        last = lines % plan.long_every
        notes.append(
            Note(
                "warning",
                f"Long lines every {plan.long_every} do not go round {lines}: the last space has {last}.",
            )
        )
    if scales.readable(scales.spacing_on(inputs.diameter, lines), inputs.line_width) == "no":
        notes.append(
            Note("warning", "The lines are too close to read: a larger drum, or a larger value for a line.")
        )
    if stepping.error > 0.05:
        on_drum = stepping.error / 1_296_000 * pi * inputs.diameter
        notes.append(
            Note("warning", f"Not exact: {stepping.error:.1f} seconds of arc off at worst, "
                 f"{show(on_drum, 'length', unit)} on the drum.")
        )  # fmt: skip
    if stepping.train is not None:
        notes.append(
            Note("warning", "Heads differ: turn the crank once and look which way the plate creeps.")
        )
    if stepping.method == "compound":
        notes.append(Note("warning", "Compound indexing is easy to blunder: check both pins' holes."))
    if not stepping.device:
        notes.append(Note("warning", "The shop has nothing to divide with: positions are given as angles."))
    return notes


OPERATIONS = {
    "scale-lines": Operation(
        id="scale-lines",
        inputs=ScaleInputs,
        work=_scale,
        hazards=("graduating", "dividing"),
        example={"size": "M12x1.5", "per_line": "0.05", "diameter": "24"},
        help="A scale on a drum that turns on a screw: lines, lengths, labels, crank and feed for every line.",
    )
}
