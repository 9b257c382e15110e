"""A vernier: n parts laid over one division fewer (or, extended, over 2n - 1) of the main scale."""

from __future__ import annotations

from fractions import Fraction

from engine.base.answer import Answer, Cell, Column, Figure, Table, figure, heads, info, to_set, warning
from engine.base.declare import count, flag, handwheel, travel
from engine.base.operation import Operation, tells
from engine.base.records import dataclass
from engine.base.setting import Setting
from engine.base.sums import Sum, deg, mm, num
from engine.base.words import say
from engine.indexing.dials import dial_setting, on_slide
from engine.indexing.handwheel import Handwheel, named_slide
from engine.indexing.pictures import vernier_picture
from engine.indexing.rotary import dial_text
from engine.shop.model import Shop, Slide
from engine.situation import Situation

_SOURCE = "US Army OD1642, vernier scales: n parts over n - 1 divisions, least count = division ÷ n"
_EXTENDED = "n parts over 2n - 1 divisions, least count the same (from memory, unconfirmed)"


@dataclass(frozen=True, slots=True, kw_only=True)
class VernierInputs:
    """What `vernier` is told.

    division: Line to line on the main scale. On a drum: what one line is worth.
    parts: 10 reads to a tenth.
    extended: Yes: over 2n - 1 divisions, so that the lines stand further apart.
    lines: Lines on the drum that it runs against: then each vernier line is given as an angle round it.
    move_dial: For a straight vernier: the handwheel that moves from line to line, or travel per turn / lines.
    """

    division: Fraction = travel("Main division", low=0.0001, high=1000, example="1", required=True)
    parts: int = count("Parts of the vernier", low=2, high=200, example="10")
    extended: bool = flag("Extended", default=False)
    lines: int | None = count("Against a drum of", low=2, high=3600, example="60", empty="a straight scale")
    move_dial: Handwheel | None = handwheel("Handwheel along it", example="mill x", empty="the mill's x")


@dataclass(frozen=True, slots=True)
class Vernier:
    """A vernier scale. `length` and `part` are in the unit of the division; `reads_to` is its least count."""

    division: Fraction
    parts: int
    covers: int
    length: Fraction
    part: Fraction
    reads_to: Fraction


def vernier_scale(division: Fraction, parts: int, *, extended: bool = False) -> Vernier:
    """Length and least count of a vernier.

    division: One division of the main scale. [any unit]
    parts: Parts of the vernier, 2 or more.
    extended: Over 2n - 1 divisions instead of n - 1, so that its lines stand further apart.
    Returns: In the division's unit; exact.
    Source: US Army OD1642, vernier scales: 25 parts over 24 of 0.025 in read to 0.001 in. The extended vernier: from
        memory, unconfirmed.

    >>> v = vernier_scale(Fraction("0.025"), 25)
    >>> float(v.length), float(v.reads_to)
    (0.6, 0.001)
    """
    covers = 2 * parts - 1 if extended else parts - 1
    length = covers * division
    return Vernier(division, parts, covers, length, length / parts, division / parts)


def _vernier(inputs: VernierInputs, shop: Shop) -> Answer:
    scale = vernier_scale(inputs.division, inputs.parts, extended=inputs.extended)
    source = _EXTENDED if inputs.extended else _SOURCE
    n = num(inputs.parts)
    covers: Sum = 2 * n - 1 if inputs.extended else n - 1
    reads_to = figure("reads_to", "Reads to", mm(inputs.division) / n, source, decimals=4)
    counted = Figure("covers", "Main divisions covered", scale.covers, "count", source, covers)
    notes = [info("Read the vernier where its line meets a main line: that many times what it reads to.")]
    if inputs.lines is None:
        slide = named_slide(shop, inputs.move_dial, ("mill x",), "move_dial")
        figures = (reads_to, *_lengths(scale, source), counted)
        table = _straight(scale, slide, source)
        figures = (*_second_line(table, source), *figures)
    else:
        whole, part = _angles(scale, inputs.lines, source)
        figures = (part, reads_to, whole, counted)
        table = _round(scale, inputs.lines, source)
        if scale.covers > inputs.lines:
            notes.append(warning("The vernier is longer than the drum is round: take fewer parts."))
    drawn = vernier_picture(float(scale.division), float(scale.part), float(scale.length), scale.covers, scale.parts)
    pictures = (drawn,) if inputs.lines is None else ()
    return Answer(figures, (table,), pictures, tuple(notes), moments=(Situation(),))


def _second_line(table: Table, source: str) -> tuple[Figure, ...]:
    """Where the dial stands for the second line: the first is at its zero."""
    names = [column.name for column in table.columns]
    setting = table.rows[1][names.index("set")] if "set" in names else None
    words = "one part of the vernier from the first line, on the dial"
    return (to_set("setting", "Line 2, line 1 at 0", setting, source, words),) if isinstance(setting, Setting) else ()


def _lengths(scale: Vernier, source: str) -> tuple[Figure, ...]:
    """What a straight vernier measures along the scale."""
    long = num(scale.covers) * mm(scale.division)
    in_digits = say("{sum} = {long}", sum=long, long=long.known())
    return (
        figure("vernier_length", "Length of the vernier", long, source, in_digits),
        figure("part", "One part of it", long.known() / num(scale.parts), source, decimals=4),
    )


def _angles(scale: Vernier, lines: int, source: str) -> tuple[Figure, ...]:
    """What a vernier measures round a drum: there a division is an angle, whatever it is worth."""
    whole = Fraction(360, lines) * scale.covers
    part = whole / scale.parts
    sum_of = say("{sum} = {angle}", sum=num(scale.covers) * deg(360) / num(lines), angle=dial_text(whole))
    each = say("{whole} ÷ {n} = {part}", whole=dial_text(whole), n=scale.parts, part=dial_text(part))
    return (
        Figure("vernier_angle", "Angle of the vernier", float(whole), "angle", source, sum_of, decimals=4),
        Figure("part_angle", "One part as an angle", float(part), "angle", source, each, decimals=4),
    )


def _straight(scale: Vernier, slide: tuple[str, Slide] | None, source: str) -> Table:
    columns = [*heads(number=("No.", "count"), at=("From its zero", "length", 4), reads=("Reads", "length", 4))]
    if slide is not None:
        columns.append(Column("set", f"{slide[0].capitalize()} from its zero"))
    rows: list[tuple[Cell, ...]] = []
    for k in range(scale.parts + 1):
        row: tuple[Cell, ...] = (k + 1, float(k * scale.part), float(k * scale.reads_to))
        if slide is not None:
            name, owned = slide
            turn, lines = owned.travel_per_turn, owned.divisions
            stands = dial_setting(distance=k * scale.part, travel_per_turn=turn, divisions=lines)
            at = on_slide(name.capitalize(), owned, stands, "", k * scale.part)
            row = (*row, at)
        rows.append(row)
    setting = ("set", "at") if slide is not None else ("at",)
    return Table("lines", "Lines of the vernier", tuple(columns), tuple(rows), "line", setting, source)


def _round(scale: Vernier, lines: int, source: str) -> Table:
    step = Fraction(360, lines) * scale.covers / scale.parts
    columns = (
        *heads(number=("No.", "count"), dial="From its zero", angle=("From its zero", "angle", 4)),
        *heads(reads=("Reads", "length", 4)),
    )
    rows = tuple(
        (k + 1, dial_text(k * step), float(k * step), float(k * scale.reads_to)) for k in range(scale.parts + 1)
    )
    return Table("lines", "Lines of the vernier", columns, rows, "line", ("dial",), source)


OPERATION = Operation(
    id="vernier",
    pane="indexing",
    place=40,
    title="Vernier",
    words="fine reading scale vernier least count tenth parts divisions auxiliary protractor caliper graduate "
    "graduation lines sliding read",
    machine="",
    inputs=VernierInputs,
    work=_vernier,
    hazards=("graduating", "dividing"),
    example={"division": "1", "parts": "10"},
    troubles={"IN-04": None, "IN-06": tells("last line {vernier_length} from the first")},
    help="Length, parts and least count of a vernier, with the place of each line.",
)
