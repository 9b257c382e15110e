"""Positions on the rotary table."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from engine.base.answer import Answer, Cell, Column, Figure, Note, Picture, Table
from engine.base.declare import angle as ask_angle
from engine.base.declare import choice, count
from engine.base.operation import Operation
from engine.indexing.pictures import MOST_DOTS, circle_picture
from engine.indexing.rotary import (
    TableSetting,
    decimal_text,
    dial_text,
    division_angle,
    exact_angle,
    table_setting,
)
from engine.indexing.way import counted
from engine.shop.model import Shop

_Writer = Callable[[Fraction], str]
_MOST_BY_ANGLE = 360
_MOST_ROWS = 1000  # more are never set by hand, and the answer has to follow the typing


@dataclass(frozen=True, slots=True, kw_only=True)
class RotaryTableInputs:
    """What `rotary-table` is told."""

    divisions: int | None = count(
        "Divisions", low=1, high=_MOST_ROWS, example="7", empty="give the angle instead",
        help="Equal parts of the circle.",
    )  # fmt: skip
    angle: float | None = ask_angle(
        "Angle between positions", low=0.001, high=360, example="24d 30m", empty="from the divisions",
        help="An angle to step by, in place of a count.",
    )  # fmt: skip
    ratio: int = count(
        "Turns of the handwheel to one of the table", low=1, high=10_000, example="90", required=True,
        from_shop=lambda shop: shop.rotary_table.ratio,
        empty="the rotary table's",
        help="The worm's ratio.",
    )  # fmt: skip
    start_angle: float = ask_angle(
        "Angle of the first position",
        low=0,
        high=360,
        default=0.0,
        example="0",
        help="Where the table stands first.",
    )
    dial_reads: float = ask_angle(
        "One line of the dial", low=0.0001, high=10, example="0d 1m", default=1 / 60, empty="the rotary table's, or 1'",
        from_shop=lambda shop: shop.rotary_table.dial_reads,
        help="The smallest step that can be set, with the vernier if there is one.",
    )  # fmt: skip
    dial_in: str = choice(
        "Dial is marked in",
        ("minutes", "decimals"),
        default="minutes",
        help="Degrees and minutes, or decimal degrees.",
    )


def _rotary(inputs: RotaryTableInputs, shop: Shop) -> Answer:
    step = division_angle(inputs.divisions, inputs.angle)
    line, start = exact_angle(inputs.dial_reads), exact_angle(inputs.start_angle)
    write = decimal_text if inputs.dial_in == "decimals" else dial_text
    count = inputs.divisions or min(ceil(360 / step), _MOST_BY_ANGLE)
    angles = [start + k * step for k in range(count)]
    places = [table_setting(angle, ratio=inputs.ratio, line=line) for angle in angles]
    pictures: tuple[Picture, ...] = ()
    if count <= MOST_DOTS:
        title = counted(count, "position")
        shown = [float(angle) for angle in angles]
        pictures = (circle_picture(shown, title=title, table="positions", noun="position"),)
    figures = _figures(inputs, step, line, places, write)
    return Answer(figures, (_positions(angles, places, line, write),), pictures, _notes(inputs, step, line))


def _figures(
    inputs: RotaryTableInputs, step: Fraction, line: Fraction, places: Sequence[TableSetting], write: _Writer
) -> tuple[Figure, ...]:
    per_turn = Fraction(360, inputs.ratio)
    turns, rest = divmod(step, per_turn)
    source = "angle ÷ (360° ÷ ratio); absolute angles, each rounded once (common practice, no source)"
    working = f"{write(step)} ÷ {write(per_turn)} a turn = {counted(int(turns), 'turn')} and {write(rest)}"
    worst = max(abs(place.error) for place in places)
    return (
        Figure("setting", "Each division", None, "text", source, working, text=_setting(int(turns), rest, write)),
        Figure("turns", "Whole turns", int(turns), "count", source, working),
        Figure("dial", "then on the dial", None, "text", source, working, text=write(rest)),
        Figure("angle", "Angle of a division", float(step), "angle", source,
               f"360° ÷ {inputs.divisions}" if inputs.divisions else "as given", decimals=4),
        Figure("degrees_per_turn", "One turn", float(per_turn), "angle", source, f"360° ÷ {inputs.ratio}"),
        Figure("error_seconds", "Worst error", worst, "seconds_of_arc", source,
               f"the worst of {counted(len(places), 'position')}, each set to the nearest {write(line)}"),
    )  # fmt: skip


def _positions(
    angles: Sequence[Fraction], places: Sequence[TableSetting], line: Fraction, write: _Writer
) -> Table:
    rows: tuple[tuple[Cell, ...], ...] = tuple(
        (
            number, _setting(place.set_turns, place.set_dial, write), float(angle), place.turns,
            write(place.exact_dial), float(place.exact_dial), place.error,
        )
        for number, (angle, place) in enumerate(zip(angles, places, strict=True), 1)
    )  # fmt: skip
    columns = (
        Column("number", "No.", "count"),
        Column("setting", f"Set (dial to {write(line)})"),
        Column("angle", "Angle", "angle", 4),
        Column("turns", "Turns from zero", "count"),
        Column("dial", "Exact dial"),
        Column("dial_degrees", "Exact dial", "angle", 4),
        Column("error", "Error", "seconds_of_arc", 1),
    )
    source = "each angle from zero by its own exact fraction, rounded once"
    return Table("positions", "Positions", columns, rows, "position", ("setting",), source)


def _notes(inputs: RotaryTableInputs, step: Fraction, line: Fraction) -> tuple[Note, ...]:
    per_turn = Fraction(360, inputs.ratio)
    notes = [
        Note("info", "Set from the table, each from zero, arriving the same way; a repeated step adds its error up.")
    ]  # fmt: skip
    if per_turn % line:
        lines = float(per_turn / line)
        notes.append(
            Note("warning", f"A turn is {lines:.7g} lines of the dial, not a whole number: check its ratio.")
        )
    if inputs.divisions is None and 360 % step:
        left = dial_text(360 % step)
        notes.append(Note("info", f"These steps do not close: {360 // step} whole steps, {left} left over."))
    if inputs.divisions is None and 360 / step > _MOST_BY_ANGLE:
        notes.append(Note("info", f"The first {_MOST_BY_ANGLE} positions are listed."))
    return tuple(notes)


def _setting(turns: int, dial: Fraction, write: _Writer) -> str:
    return f"{counted(turns, 'turn')} + {write(dial)}" if turns else write(dial)


OPERATIONS = {
    "rotary-table": Operation(
        id="rotary-table",
        inputs=RotaryTableInputs,
        work=_rotary,
        hazards=("dividing", "clamping"),
        example={"divisions": "7", "ratio": "90"},
        help="Turns and dial for every position on a rotary table, each from its own exact angle.",
    )
}
