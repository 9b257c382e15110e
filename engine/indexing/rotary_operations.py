"""Positions on the rotary table."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from engine.answer import Answer, Column, Figure, Note, Picture, Table
from engine.indexing.pictures import MOST_DOTS, circle_picture
from engine.indexing.rotary import dial_text, division_angle, exact_angle, table_setting
from engine.indexing.way import counted
from engine.inputs import angle as ask_angle
from engine.inputs import count
from engine.operation import Operation
from engine.shop.model import Shop

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


def _rotary(inputs: RotaryTableInputs, shop: Shop) -> Answer:
    step = division_angle(inputs.divisions, inputs.angle)
    line, start = exact_angle(inputs.dial_reads), exact_angle(inputs.start_angle)
    per_turn = Fraction(360, inputs.ratio)
    count = inputs.divisions or min(ceil(360 / step), 360)
    angles = [start + k * step for k in range(count)]
    places = [table_setting(angle, ratio=inputs.ratio, line=line) for angle in angles]
    rows = tuple(
        (k, _table_text(p.set_turns, p.set_dial), float(angle), p.turns, dial_text(p.exact_dial), p.error)
        for k, (angle, p) in enumerate(zip(angles, places, strict=True), 1)
    )
    worst = max(abs(p.error) for p in places)
    table = Table(
        "positions",
        "Positions",
        (
            Column("number", "No.", "count"),
            Column("setting", f"Set (dial to {dial_text(line)})"),
            Column("angle", "Angle", "angle", 4),
            Column("turns", "Turns from zero", "count"),
            Column("dial", "Exact dial"),
            Column("error", "Error", "seconds_of_arc", 1),
        ),
        rows,
        "position",
        ("setting",),
        "each angle from zero by its own exact fraction, rounded once",
    )
    turns, rest = divmod(step, per_turn)
    source = "angle ÷ (360° ÷ ratio); absolute angles, each rounded once (common practice, no source)"
    working = f"{dial_text(step)} ÷ {dial_text(per_turn)} a turn = {turns} turns and {dial_text(rest)}"
    figures = (
        Figure("setting", "Each division", None, "text", source, working, text=_table_text(int(turns), rest)),
        Figure("turns", "Whole turns", int(turns), "count", source, working),
        Figure("dial", "then on the dial", None, "text", source, working, text=dial_text(rest)),
        Figure("angle", "Angle of a division", float(step), "angle", source,
               f"360° ÷ {inputs.divisions}" if inputs.divisions else "as given", decimals=4),
        Figure("degrees_per_turn", "One turn", float(per_turn), "angle", source, f"360° ÷ {inputs.ratio}"),
        Figure("error_seconds", "Worst error", worst, "seconds_of_arc", source,
               f"the worst of {count} positions, each set to the nearest {dial_text(line)}"),
    )  # fmt: skip
    notes = [
        Note(
            "info",
            "Set from the table, each from zero, arriving the same way; a repeated step adds its error up.",
        )
    ]
    if per_turn % line:
        lines = float(per_turn / line)
        notes.append(
            Note("warning", f"A turn is {lines:.4g} lines of the dial, not a whole number: check its ratio.")
        )
    pictures: tuple[Picture, ...] = ()
    if count <= MOST_DOTS:
        pictures = (
            circle_picture(
                [float(angle) for angle in angles],
                title=f"{count} positions",
                table="positions",
                noun="position",
            ),
        )
    return Answer(figures, (table,), pictures, tuple(notes))


def _table_text(turns: int, dial: Fraction) -> str:
    return f"{counted(turns, 'turn')} + {dial_text(dial)}" if turns else dial_text(dial)


OPERATIONS = {
    "rotary-table": Operation(
        id="rotary-table",
        inputs=RotaryTableInputs,
        work=_rotary,
        hazards=("dividing", "clamping"),
        example={"divisions": "7", "ratio": "90"},
        help="Turns and dial for every position on a rotary table, each from its own exact angle.",
    ),
}
