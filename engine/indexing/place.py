"""Finding the place again after a miscount: "I am at hole 7 of line 12"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from engine.base.answer import Answer, Table
from engine.base.records import dataclass
from engine.base.refusals import BadInput, check_range
from engine.base.rounding import rounded
from engine.indexing.way import counted, crank_text

_REPORT = re.compile(r"(?i)(?:(hole|tooth|line|position|flat|row)\s*)?#?\b(\d{1,5})\b")


@dataclass(frozen=True, slots=True)
class Place:
    """What a reported place means.

    `turns` and `hole` are where the row truly belongs, counted from the start. `off` is how many holes the reported
    one lies past it (below 0: short of it; 0: right). `rows` are the rows that do belong at the reported hole, the
    nearest to the reported row first. `text` says what to do, in sentences.
    """

    row: int
    turns: int
    hole: int
    off: int
    rows: tuple[int, ...]
    text: str


def read_report(text: str) -> tuple[int, int]:
    """Read a reported place: the row, and the hole from the start.

    >>> read_report("I am at hole 7 of line 12"), read_report("line 12, hole 7"), read_report("7 of 12")
    ((12, 7), (12, 7), (12, 7))
    """
    found = _REPORT.findall(text[:200])
    if len(found) == 2 and all(number.isascii() for _, number in found):
        (first, a), (second, b) = ((word.lower(), int(number)) for word, number in found)
        pins = ("hole", "tooth")
        if first in pins or (not first and second not in pins):
            return (b, a) if second not in pins else _refuse(text)
        if first not in pins and (second in pins or not second):
            return a, b
    return _refuse(text)


def _refuse(text: str) -> tuple[int, int]:
    raise BadInput("place", ascii(text[:40]), "one hole and one line (such as hole 7 of line 12)")


def repair(answer: Answer, report: str) -> Place:
    """Say where a reported place truly is, from the answer whose positions are being worked through.

    >>> from engine.base.operation import run
    >>> from engine.shop.file import sample
    >>> answer = run("flats", {"sides": "6", "across_flats": "13"}, sample("metric")).answer
    >>> repair(answer, "hole 26 of flat 2").off
    0
    """
    row, hole = read_report(report)
    for table in answer.tables:
        heads = {column.name: column.label for column in table.columns}
        if "hole_from_start" in heads and answer.has("circle"):
            circle = int(answer.figure("circle").value or 0)
            noun = "tooth" if heads["hole_from_start"].startswith("Tooth") else "hole"
            return find_place(table, circle=circle, row=row, hole=hole, noun=noun)
    raise BadInput("place", report, "a count of holes", "place: these positions are not counted in holes.")


def find_place(table: Table, *, circle: int, row: int, hole: int, noun: str = "hole") -> Place:
    """Say where a row of a countable table truly belongs, and how to get there from a reported hole.

    >>> from engine.base.operation import run
    >>> from engine.shop.file import sample
    >>> answer = run("divide", {"divisions": "30"}, sample("metric")).answer
    >>> place = find_place(answer.table("positions"), circle=39, row=12, hole=20)
    >>> place.turns, place.hole, place.off
    (14, 26, -6)
    """
    check_range("place", row, low=1, high=len(table.rows), why=f"the {table.count_noun or 'row'}s of this job")
    check_range("place", hole, low=0, high=max(circle - 1, 0), why="holes counted from the starting hole as 0")
    holes = [int(cell) for cell in table.column("hole_from_start") if isinstance(cell, int)]
    turns = [int(cell) for cell in table.column("whole_turns") if isinstance(cell, int)]
    true = holes[row - 1]
    off = hole - true
    if circle:  # the shorter way round
        off -= circle * round(off / circle)
    rows = _rows_at(holes, hole, row)
    words = _words(table, circle, row, hole, turns[row - 1], true, off, rows, noun)
    return Place(row, turns[row - 1], true, off, rows, words)


def _rows_at(holes: Sequence[int], hole: int, row: int) -> tuple[int, ...]:
    at = [i for i, true in enumerate(holes, 1) if true == hole]
    return tuple(sorted(at, key=lambda i: (abs(i - row), i)))


def _words(
    table: Table, circle: int, row: int, hole: int, turns: int, true: int, off: int, rows: tuple[int, ...], noun: str
) -> str:
    what = table.count_noun or "row"
    angle = table.column("angle")[row - 1]
    setting = crank_text(turns, true, circle, noun)
    stands = rounded(angle if isinstance(angle, int | float) else 0.0, 3)
    check = f"The spindle then stands at {stands}° from the start: a whole turn too many or too few shows there."
    if off == 0:
        return f"{noun.capitalize()} {hole} is right for {what} {row} ({setting} from the start). {check}"
    way = "past it" if off > 0 else "short of it"
    said = [
        f"{what.capitalize()} {row} belongs at {noun} {true} of {circle} ({setting} from the start); "
        f"{noun} {hole} is {counted(abs(off), noun)} {way}."
    ]
    if rows:
        likely = (
            "one move was missed" if rows[0] == row - 1 else "one move was made twice" if rows[0] == row + 1 else ""
        )
        said.append(f"{noun.capitalize()} {hole} is where {what} {rows[0]} belongs{': ' + likely if likely else ''}.")
    if any(column.name == "second_hole" for column in table.columns):
        said.append(f"The rear pin belongs in hole {table.column('second_hole')[row - 1]} of its circle.")
    if off < 0:
        said.append(f"Turn on {counted(-off, noun)} in the working direction.")
    else:
        said.append(f"Turn back half a turn beyond {noun} {true}, then come up to it in the working direction.")
    return " ".join([*said, check])
