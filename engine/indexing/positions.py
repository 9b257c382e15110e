"""Where the crank stands at every position, from exact fractions: each position by itself, so that no error adds up."""

from __future__ import annotations

from collections.abc import Sequence

from engine.base.answer import Cell, Table, heads
from engine.base.records import dataclass
from engine.base.setting import Setting
from engine.indexing.nearest import SECONDS
from engine.indexing.way import Way, crank_text, move_text


@dataclass(frozen=True, slots=True)
class Stop:
    """One position of the work.

    `setting` is the move that leads to it. `turns` and `hole` are counted from the start, the starting hole being 0;
    `second_hole` is where the rear pin of a compound way stands, counted the way its moves are. `error` is how far
    the position lies from where it belongs. [arcsec]
    """

    setting: str
    turns: int
    hole: int
    second_hole: int
    angle: float
    error: float


def stops(way: Way, count: int, noun: str = "hole") -> tuple[Stop, ...]:
    """Every position of a way, the start first.

    >>> from fractions import Fraction
    >>> [(s.setting, s.turns, s.hole, s.angle) for s in stops(Way("simple", 40, Fraction(8, 3), 2, 18, 12), 3)][1:]
    [('2 turns + 12 holes of 18', 2, 12, 24.0), ('2 turns + 12 holes of 18', 5, 6, 48.0)]
    """
    if way.method == "nearest":
        return _nearest_stops(way, count)
    holes = way.turns * way.circle + way.holes
    move = move_text(way, noun)
    over, under = 360 * way.wanted.numerator, way.wanted.denominator * way.ratio
    found = []
    for k in range(count):
        turns, hole = divmod(k * holes, way.circle) if way.circle else (k * way.turns, 0)
        second = k * abs(way.second_holes) % way.second_circle if way.second_circle else 0
        found.append(Stop(move if k else f"start: {noun} 0", turns, hole, second, k * over / under, 0.0))
    return tuple(found)


def _nearest_stops(way: Way, count: int) -> tuple[Stop, ...]:
    over, under = way.wanted.numerator * way.circle, way.wanted.denominator
    at = [(2 * k * over + under) // (2 * under) for k in range(count)]
    found = []
    for k, holes in enumerate(at):
        setting = crank_text(*divmod(holes - at[k - 1], way.circle), way.circle) if k else "start: hole 0"
        error = (holes * under - k * over) * SECONDS / (under * way.circle * way.ratio)
        angle = k * 360 * over / (under * way.circle * way.ratio)
        found.append(Stop(setting, *divmod(holes, way.circle), 0, angle, error))
    return tuple(found)


_MOST_DRY = 400  # moves: nobody goes round further without a cut
_LABEL, _DRY = "Dry run, nothing cut", heads(number=("Move", "count"), setting="Setting", then_at="Then at")


def dry_run(after: Sequence[Stop], noun: str, *, counted_in: str = "") -> tuple[Table, ...]:
    """Once round without cutting: where the work stands after each move. The last move leads back to number 1, and
    there the pin must drop into the hole that it started in.

    >>> from fractions import Fraction
    >>> (table,) = dry_run(stops(Way("simple", 40, Fraction(8, 3), 2, 18, 12), 16)[1:], "flat", counted_in="hole")
    >>> table.rows[0][:3], table.rows[-1][2:]
    ((1, '2 turns + 12 holes of 18', 'flat 2'), ('flat 1 again', 40, 0))
    """
    if len(after) > _MOST_DRY:
        return ()
    columns = list(_DRY)
    if counted_in:
        columns += heads(whole_turns=("Turns from start", "count"))
        columns += heads(hole_from_start=(f"{counted_in.capitalize()} from start", "count"))
    rows: list[tuple[Cell, ...]] = [
        (k, stop.setting, _then(noun, k, len(after)), *((stop.turns, stop.hole) if counted_in else ()))
        for k, stop in enumerate(after, 1)
    ]
    source = "the same moves as in the table; all of them make one turn of the work"
    return (
        Table("dry_run", _LABEL, tuple(columns), tuple(rows), "dry move", ("setting", "then_at"), source, aside=True),
    )


def _then(noun: str, move: int, moves: int) -> str:
    return f"{noun} {move + 1}" if move < moves else f"{noun} 1 again"


def dry_run_back(settings: Sequence[Setting], noun: str) -> tuple[Table, ...]:
    """Along every place without cutting and back to the first, where the dial must read as it did.

    >>> (table,) = dry_run_back([Setting("Mill x"), Setting("Mill x", 1)], "line")
    >>> [row[2] for row in table.rows]
    ['line 2', 'line 1 again']
    """
    if len(settings) > _MOST_DRY:
        return ()
    rows: list[tuple[Cell, ...]] = [
        (k, setting, _then(noun, k, len(settings))) for k, setting in enumerate((*settings[1:], settings[0]), 1)
    ]
    source = "the same places as in the table"
    return (Table("dry_run", _LABEL, _DRY, tuple(rows), "dry move", ("setting", "then_at"), source, aside=True),)
