"""A vernier plan."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from engine.answer import Answer, Cell, Column, Figure, Note, Table
from engine.indexing.rotary import dial_text
from engine.indexing.vernier import Vernier, vernier_scale
from engine.inputs import count, flag, travel
from engine.operation import Operation
from engine.shop.model import Shop

_SOURCE = "US Army OD1642, vernier scales: n parts over n - 1 divisions, least count = division ÷ n"
_EXTENDED = "n parts over 2n - 1 divisions, least count the same (from memory, unconfirmed)"


@dataclass(frozen=True, slots=True, kw_only=True)
class VernierInputs:
    """What `vernier` is told."""

    division: Fraction = travel(
        "One division of the main scale",
        low=0.0001,
        high=1000,
        example="1",
        required=True,
        help="Line to line.",
    )
    parts: int = count("Parts of the vernier", low=2, high=200, example="10", help="10 reads to a tenth.")
    extended: bool = flag(
        "Extended", default=False, help="Yes: over 2n - 1 divisions, so that the lines stand further apart."
    )
    lines: int | None = count(
        "Lines on the drum it runs against", low=2, high=3600, example="60", empty="a straight scale",
        help="Then each vernier line is given as an angle as well.",
    )  # fmt: skip


def _vernier(inputs: VernierInputs, shop: Shop) -> Answer:
    scale = vernier_scale(inputs.division, inputs.parts, extended=inputs.extended)
    source = _EXTENDED if inputs.extended else _SOURCE
    one, n = float(inputs.division), inputs.parts
    figures = [
        Figure("reads_to", "Reads to", float(scale.reads_to), "length", source, f"{one:g} ÷ {n}", decimals=4),
        Figure("vernier_length", "Length of the vernier", float(scale.length), "length", source,
               f"{scale.covers} x {one:g}"),
        Figure("part", "One part of it", float(scale.part), "length", source,
               f"{float(scale.length):g} ÷ {n}", decimals=4),
        Figure("covers", "Main divisions it covers", scale.covers, "count", source,
               f"2 x {n} - 1" if inputs.extended else f"{n} - 1"),
    ]  # fmt: skip
    step = None
    if inputs.lines is not None:
        step = Fraction(360, inputs.lines) * scale.covers / n
        figures.append(
            Figure("part_angle", "One part as an angle", float(step), "angle", source,
                   f"360° ÷ {inputs.lines} x {scale.covers} ÷ {n} = {dial_text(step)}", decimals=4)
        )  # fmt: skip
    notes = [
        Note("info", "Read the vernier where its line meets a main line: that many times what it reads to.")
    ]
    if inputs.lines is not None and scale.covers > inputs.lines:
        notes.append(Note("warning", "The vernier is longer than the drum is round: take fewer parts."))
    return Answer(tuple(figures), (_table(scale, step),), notes=tuple(notes))


def _table(scale: Vernier, step: Fraction | None) -> Table:
    columns = [
        Column("number", "No.", "count"),
        Column("at", "From its zero", "length", 4),
        Column("reads", "Reads", "length", 4),
    ]
    if step is not None:
        columns += [Column("angle", "Angle", "angle", 4), Column("dial", "Angle")]
    rows: list[tuple[Cell, ...]] = []
    for k in range(scale.parts + 1):
        row: tuple[Cell, ...] = (k + 1, float(k * scale.part), float(k * scale.reads_to))
        rows.append(row if step is None else (*row, float(k * step), dial_text(k * step)))
    setting = ("dial",) if step is not None else ("at",)
    return Table("lines", "Lines of the vernier", tuple(columns), tuple(rows), "line", setting, _SOURCE)


OPERATIONS = {
    "vernier": Operation(
        id="vernier",
        inputs=VernierInputs,
        work=_vernier,
        hazards=("graduating",),
        example={"division": "1", "parts": "10"},
        help="Length, parts and least count of a vernier, with the place of each line.",
    )
}
