"""Positions on the rotary table."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from math import ceil

from engine.base.answer import Answer, Cell, Figure, Note, Picture, Table, figure, heads, info, warning, words
from engine.base.declare import angle as ask_angle
from engine.base.declare import choice, count
from engine.base.operation import Operation
from engine.base.records import dataclass, replace
from engine.base.setting import Setting
from engine.base.sums import deg, num
from engine.base.words import Text, general, say
from engine.indexing.pictures import MOST_DOTS, circle_picture, dial_shapes
from engine.indexing.positions import Stop, dry_run
from engine.indexing.rotary import TableSetting, decimal_text, dial_text, division_angle, exact_angle, table_setting
from engine.indexing.way import counted
from engine.shop.model import Shop
from engine.situation import Situation

_Writer = Callable[[Fraction], str]
_MOST_BY_ANGLE = 360
_MOST_ROWS = 1000  # more are never set by hand, and the answer has to follow the typing


@dataclass(frozen=True, slots=True, kw_only=True)
class RotaryTableInputs:
    """What `rotary-table` is told.

    divisions: Equal parts of the circle.
    ratio: Turns of the handwheel to one of the table.
    dial_in: Degrees and minutes, or decimal degrees.
    """

    divisions: int | None = count("Divisions", low=1, high=_MOST_ROWS, example="7", empty="give the angle instead")
    angle: float | None = ask_angle("Step angle", low=0.001, high=360, example="24d 30m", empty="from the divisions",
        help="An angle to step by, in place of a count.")  # fmt: skip
    ratio: int = count("Handwheel turns a rev", low=1, high=10_000, example="90", required=True,
        empty="the rotary table's", from_shop=lambda shop: shop.rotary_table.ratio)  # fmt: skip
    start_angle: float = ask_angle(
        "First angle", low=0, high=360, default=0.0, example="0", help="Where the table stands first."
    )
    dial_reads: float = ask_angle("One line of the dial", low=0.0001, high=10, example="0d 1m", default=1 / 60,
        empty="the rotary table's, or 1'", from_shop=lambda shop: shop.rotary_table.dial_reads,
        help="The smallest step that can be set, with the vernier if there is one.")  # fmt: skip
    dial_in: str = choice("Dial is marked in", ("minutes", "decimals"), default="minutes")


def _rotary(inputs: RotaryTableInputs, shop: Shop) -> Answer:
    step = division_angle(inputs.divisions, inputs.angle)
    line, start = exact_angle(inputs.dial_reads), exact_angle(inputs.start_angle)
    write = decimal_text if inputs.dial_in == "decimals" else dial_text
    rows = inputs.divisions or min(ceil(360 / step), _MOST_BY_ANGLE)
    angles = [start + k * step for k in range(rows)]
    places = [table_setting(angle, ratio=inputs.ratio, line=line) for angle in angles]
    tables = [_positions(angles, places, line, write)]
    if inputs.divisions is not None and rows > 1:
        tables += dry_run(_round(inputs, start, places, line, write), "position")
    pictures = (_picture(inputs, angles, places),) if rows <= MOST_DOTS else ()
    figures = _figures(inputs, step, line, places, write)
    moment = Situation(machine="mill" if shop.mill else "bench", indexed_in_lathe=False)
    return Answer(figures, tuple(tables), pictures, _notes(inputs, step, line), moments=(moment,))


def _set(inputs: RotaryTableInputs, place: TableSetting, angle: Fraction) -> Setting:
    """Turns of the handwheel from zero, and its dial."""
    on_dial, around = float(place.set_dial), float(angle)
    setting = Setting("Table", place.set_turns, on_dial=on_dial, unit="minutes", distance=around, dimension="angle")
    return replace(setting, unit="degrees", decimals=4) if inputs.dial_in == "decimals" else setting


def _round(
    inputs: RotaryTableInputs, first: Fraction, places: Sequence[TableSetting], line: Fraction, write: _Writer
) -> list[Stop]:
    """Where the table stands after each move of a dry run: a whole turn on from the first place at the end."""
    last = table_setting(first + 360, ratio=inputs.ratio, line=line)
    return [Stop(_setting(p.set_turns, p.set_dial, write), p.set_turns, 0, 0, 0.0, p.error)
            for p in (*places[1:], last)]  # fmt: skip


def _figures(
    inputs: RotaryTableInputs, step: Fraction, line: Fraction, places: Sequence[TableSetting], write: _Writer
) -> tuple[Figure, ...]:
    per_turn = Fraction(360, inputs.ratio)
    turns, rest = divmod(step, per_turn)
    source = "angle ÷ (360° ÷ ratio); absolute angles, each rounded once (common practice, no source)"
    working = f"{write(step)} ÷ {write(per_turn)} a turn = {counted(int(turns), 'turn')} and {write(rest)}"
    worst = max(abs(place.error) for place in places)
    nearest = f"the worst of {counted(len(places), 'position')}, each set to the nearest {write(line)}"
    first = table_setting(step, ratio=inputs.ratio, line=line)
    lead = words("setting", "Each division", _setting(int(turns), rest, write), source, working)
    angle = deg(360) / num(inputs.divisions) if inputs.divisions else deg(float(step))
    how: Text = angle if inputs.divisions else "as given"
    return (
        replace(lead, setting=_set(inputs, first, step)),
        Figure("turns", "Whole turns", int(turns), "count", source, working),
        replace(words("dial_exact", "Dial, exact", write(rest), source, working), was="dial"),
        figure("angle", "Angle of a division", angle, source, how, decimals=4),
        figure("degrees_per_turn", "One turn", deg(360) / num(inputs.ratio), source),
        Figure("error_seconds", "Worst error", worst, "seconds_of_arc", source, nearest),
    )


def _positions(angles: Sequence[Fraction], places: Sequence[TableSetting], line: Fraction, write: _Writer) -> Table:
    rows: list[tuple[Cell, ...]] = [
        (k, _setting(p.set_turns, p.set_dial, write), float(angle), p.turns, write(p.exact_dial),
         float(p.exact_dial), p.error)
        for k, (angle, p) in enumerate(zip(angles, places, strict=True), 1)
    ]  # fmt: skip
    columns = (
        *heads(number=("No.", "count"), setting=f"Set (dial to {write(line)})", angle=("Angle", "angle", 4)),
        *heads(turns=("Turns from zero", "count"), dial="Exact dial", dial_degrees=("Exact dial", "angle", 4)),
        *heads(error=("Error", "seconds_of_arc", 1)),
    )
    source = "each angle from zero by its own exact fraction, rounded once"
    return Table("positions", "Positions", columns, tuple(rows), "position", ("setting",), source)


def _picture(inputs: RotaryTableInputs, angles: Sequence[Fraction], places: Sequence[TableSetting]) -> Picture:
    """The table from above, and its handwheel's dial with the lines to set."""
    per_turn = 360 / inputs.ratio
    lines = max(round(per_turn / inputs.dial_reads), 1)
    at = [float(p.set_dial) / per_turn * lines for p in places]
    second = 1 if len(places) > 1 else 0
    name = _set(inputs, places[second], angles[second])
    dial = dial_shapes(lines, at[second], say("{turns} + here", turns=counted(name.turns, "turn")), rows=at)
    return circle_picture([float(angle) for angle in angles], title=counted(len(angles), "position"), table="positions",
        noun="position", beside=dial,
        more=f"Beside it the handwheel's dial with the line of position {second + 1}.")  # fmt: skip


def _notes(inputs: RotaryTableInputs, step: Fraction, line: Fraction) -> tuple[Note, ...]:
    per_turn = Fraction(360, inputs.ratio)
    tell = "Set from the table, each from zero, arriving the same way; a repeated step adds its error up."
    notes = [info(tell)]
    if per_turn % line:
        notes.append(warning("A turn is {lines} lines of the dial, not a whole number: check its ratio.",
            lines=general(float(per_turn / line))))  # fmt: skip
    if inputs.divisions is None and 360 % step:
        left = dial_text(360 % step)
        notes.append(info(f"These steps do not close: {360 // step} whole steps, {left} left over."))
    if inputs.divisions is None and 360 / step > _MOST_BY_ANGLE:
        notes.append(info(f"The first {_MOST_BY_ANGLE} positions are listed."))
    return tuple(notes)


def _setting(turns: int, dial: Fraction, write: _Writer) -> str:
    return f"{counted(turns, 'turn')} + {write(dial)}" if turns else write(dial)


def _all_moves(inputs: RotaryTableInputs, answer: Answer, shop: Shop) -> Text:
    """Every step added up against the turns of the handwheel for one turn of the table."""
    if inputs.divisions is None:
        return ""
    return f"{inputs.divisions} moves must add up to {inputs.ratio} turns of the handwheel"


OPERATION = Operation(
    id="rotary-table",
    pane="indexing",
    place=20,
    title="Rotary table",
    words="degrees minutes seconds dial rotary table turntable circular divide divisions angle vernier worm "
    "handwheel turns bolt circle radius arc",
    machine="mill",
    inputs=RotaryTableInputs,
    work=_rotary,
    hazards=("dividing", "clamping"),
    example={"divisions": "7", "ratio": "90"},
    troubles={"IN-01": _all_moves, "IN-02": None},
    help="Turns and dial for every position on a rotary table, each from its own exact angle.",
)
