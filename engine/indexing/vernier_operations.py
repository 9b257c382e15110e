"""A vernier plan."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from engine.base.answer import Answer, Column, Figure, Note, Table
from engine.base.declare import count, flag, travel
from engine.base.operation import Operation
from engine.base.quantity import worked
from engine.indexing.rotary import dial_text
from engine.indexing.vernier import Vernier, vernier_scale
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
        help="Line to line along the scale; on a drum, what one line is worth.",
    )
    parts: int = count("Parts of the vernier", low=2, high=200, example="10", help="10 reads to a tenth.")
    extended: bool = flag(
        "Extended", default=False, help="Yes: over 2n - 1 divisions, so that the lines stand further apart."
    )
    lines: int | None = count(
        "Lines on the drum it runs against", low=2, high=3600, example="60", empty="a straight scale",
        help="Then each vernier line is given as an angle round the drum.",
    )  # fmt: skip


def _vernier(inputs: VernierInputs, shop: Shop) -> Answer:
    scale = vernier_scale(inputs.division, inputs.parts, extended=inputs.extended)
    source = _EXTENDED if inputs.extended else _SOURCE
    one, n = worked(float(inputs.division), shop.unit), inputs.parts
    figures = [
        Figure("reads_to", "Reads to", float(scale.reads_to), "length", source, f"{one} ÷ {n}", decimals=4),
        Figure("covers", "Main divisions it covers", scale.covers, "count", source,
               f"2 x {n} - 1" if inputs.extended else f"{n} - 1"),
    ]  # fmt: skip
    notes = [
        Note("info", "Read the vernier where its line meets a main line: that many times what it reads to.")
    ]
    if inputs.lines is None:
        figures[1:1] = _lengths(scale, one, source, shop.unit)
        return Answer(tuple(figures), (_straight(scale, source),), notes=tuple(notes))
    figures[1:1] = _angles(scale, inputs.lines, source)
    if scale.covers > inputs.lines:
        notes.append(Note("warning", "The vernier is longer than the drum is round: take fewer parts."))
    return Answer(tuple(figures), (_round(scale, inputs.lines, source),), notes=tuple(notes))


def _lengths(scale: Vernier, one: str, source: str, unit: str) -> list[Figure]:
    """What a straight vernier measures along the scale."""
    long = worked(float(scale.length), unit)
    return [
        Figure("vernier_length", "Length of the vernier", float(scale.length), "length", source,
               f"{scale.covers} x {one} = {long}"),
        Figure("part", "One part of it", float(scale.part), "length", source,
               f"{long} ÷ {scale.parts}", decimals=4),
    ]  # fmt: skip


def _angles(scale: Vernier, lines: int, source: str) -> list[Figure]:
    """What a vernier measures round a drum: there a division is an angle, whatever it is worth."""
    whole = Fraction(360, lines) * scale.covers
    part = whole / scale.parts
    return [
        Figure("vernier_angle", "Angle of the vernier", float(whole), "angle", source,
               f"{scale.covers} x 360° ÷ {lines} = {dial_text(whole)}", decimals=4),
        Figure("part_angle", "One part as an angle", float(part), "angle", source,
               f"{dial_text(whole)} ÷ {scale.parts} = {dial_text(part)}", decimals=4),
    ]  # fmt: skip


def _straight(scale: Vernier, source: str) -> Table:
    columns = (
        Column("number", "No.", "count"),
        Column("at", "From its zero", "length", 4),
        Column("reads", "Reads", "length", 4),
    )
    rows = tuple((k + 1, float(k * scale.part), float(k * scale.reads_to)) for k in range(scale.parts + 1))
    return Table("lines", "Lines of the vernier", columns, rows, "line", ("at",), source)


def _round(scale: Vernier, lines: int, source: str) -> Table:
    step = Fraction(360, lines) * scale.covers / scale.parts
    columns = (
        Column("number", "No.", "count"),
        Column("dial", "From its zero"),
        Column("angle", "From its zero", "angle", 4),
        Column("reads", "Reads", "length", 4),
    )
    rows = tuple(
        (k + 1, dial_text(k * step), float(k * step), float(k * scale.reads_to))
        for k in range(scale.parts + 1)
    )
    return Table("lines", "Lines of the vernier", columns, rows, "line", ("dial",), source)


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
