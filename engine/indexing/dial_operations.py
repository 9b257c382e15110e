"""The hand dial: a distance as turns and a reading, the way back, and a chain of moves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import floor

from engine.base.answer import Answer, Cell, Column, Figure, Note, Table
from engine.base.declare import choice, count, flag, handwheel, length, moves, travel
from engine.base.operation import Operation
from engine.base.quantity import show, worked
from engine.base.refusals import BadInput
from engine.indexing.dials import back_off, dial_move, turned_distance
from engine.indexing.handwheel import Handwheel, slide_of
from engine.indexing.way import counted
from engine.shop.model import Shop

_SOURCE = "arithmetic; each position rounded once (common practice, no source)"
_BACKLASH = (
    "back off a quarter to half a turn and come up again in the working direction: Practical Treatise on "
    "Milling and Milling Machines, 1914; twice the backlash if that is more (common practice, no source)"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class HandDialInputs:
    """What `hand-dial` is told."""

    distance: float | None = length(
        "Distance to move",
        example="17.35",
        empty="from to_reading and turned, or a chain of moves",
        help="How far the slide is to move.",
    )
    per_turn: Fraction = travel(
        "Travel per turn",
        low=0.001,
        high=100,
        example="2",
        empty="the cross slide's",
        required=True,
        from_shop=lambda shop: shop.lathe.cross_slide.travel_per_turn,
        help="How far one turn of the handwheel moves the slide.",
    )
    divisions: int = count(
        "Lines on the dial",
        low=1,
        high=2000,
        example="100",
        empty="the cross slide's",
        required=True,
        from_shop=lambda shop: shop.lathe.cross_slide.divisions,
        help="How many lines the dial has in all.",
    )
    from_reading: float = length(
        "Dial reads now", low=-1e-9, default=0.0, example="0.5", help="What the dial shows before the move."
    )
    direction: str = choice(
        "Readings go",
        ("up", "down"),
        default="up",
        example="up",
        help="Whether the readings rise or fall as the move is made.",
    )
    approach: str | None = choice(
        "Arrive with readings going",
        ("up", "down"),
        empty="the same way as the move",
        help="The working direction: every mark is reached turning this way, so that backlash is taken up.",
    )
    backlash: float = length(
        "Backlash",
        low=-1e-9,
        high=10,
        default=0.1,
        example="0.1",
        empty="the cross slide's",
        from_shop=lambda shop: shop.lathe.cross_slide.backlash,
        help="How far the handwheel turns before the slide follows.",
    )
    reads_diameter: bool | None = flag(
        "Dial reads diameter",
        empty="as the cross slide's dial, if it is the one asked about",
        help="Yes when the dial shows twice what the slide moves.",
    )
    turned: int = count(
        "Whole turns made",
        low=0,
        high=10_000,
        default=0,
        example="2",
        help="For the way back: turns to a distance.",
    )
    to_reading: float | None = length(
        "Dial reads at the end",
        low=-1e-9,
        empty="worked out",
        example="0.68",
        help="For the way back: with the turns made it gives the distance.",
    )
    moves: tuple[Fraction, ...] | None = moves(
        "Chain of moves",
        example="3, 4.5, -2",
        empty="one move",
        help="Each from where the last ended, a minus for back.",
    )
    handwheel: Handwheel | None = handwheel(
        "Handwheel",
        example="mill x",
        empty="the cross slide's, or as told above",
        help="A handwheel of the shop, in place of travel, lines and backlash.",
    )


def _exact(value: float) -> Fraction:
    return Fraction(repr(float(max(value, 0.0))))


def _shown_twice(inputs: HandDialInputs, shop: Shop) -> bool:
    """Whether the dial shows twice the travel: as told, or as the cross slide does when it is the one meant."""
    if inputs.reads_diameter is not None:
        return inputs.reads_diameter
    slide = shop.lathe.cross_slide if shop.lathe else None
    same = slide is not None and (slide.travel_per_turn, slide.divisions) == (
        inputs.per_turn,
        inputs.divisions,
    )
    return bool(same and slide is not None and slide.reads_diameter)


def _with_handwheel(inputs: HandDialInputs, chosen: Handwheel, shop: Shop) -> HandDialInputs:
    """The same question about a handwheel of the shop."""
    slide = chosen.slide or slide_of(shop, chosen.name)
    if slide is None:
        text = f"handwheel: the shop has no {chosen.name}; name another, or give travel per turn / lines (2/100)."
        raise BadInput("handwheel", chosen.name, "a handwheel of the shop", text)
    return replace(
        inputs,
        per_turn=slide.travel_per_turn,
        divisions=slide.divisions,
        backlash=slide.backlash,
        reads_diameter=slide.reads_diameter,
    )


def _hand_dial(inputs: HandDialInputs, shop: Shop) -> Answer:
    if inputs.handwheel is not None:
        inputs = _with_handwheel(inputs, inputs.handwheel, shop)
    factor = 2 if _shown_twice(inputs, shop) else 1
    _check(inputs, factor, shop.unit)
    start = _exact(inputs.from_reading) / factor
    if inputs.moves is not None:
        return _chain(inputs, start, factor, shop.unit)
    if inputs.to_reading is not None:
        return _way_back(inputs, start, factor, shop.unit)
    return _one_move(inputs, start, factor, shop.unit)


def _check(inputs: HandDialInputs, factor: int, unit: str) -> None:
    """One question at a time, and no reading that the dial does not have."""
    asked = [name for name in ("distance", "moves", "to_reading") if getattr(inputs, name) is not None]
    if not asked:
        text = "distance: give distance=17.35, or to_reading and turned for the way back, or moves=3,4.5,-2."
        raise BadInput("distance", "", "a length", text)
    if len(asked) > 1:
        text = (
            f"{asked[1]}: give one of distance, moves, or to_reading with turned, not {' and '.join(asked)}."
        )
        raise BadInput(asked[1], "", "one of distance, moves and to_reading", text)
    if inputs.turned and inputs.to_reading is None:
        raise BadInput(
            "turned", inputs.turned, "nothing, unless to_reading is given: turns made, for the way back"
        )
    full = inputs.per_turn * factor
    for name in ("from_reading", "to_reading"):
        reading = getattr(inputs, name)
        if reading is not None and _exact(reading) >= full:
            whole, most = show(reading, "length", unit), show(float(full), "length", unit)
            raise BadInput(name, whole, f"less than {most}, which is one turn of this dial")


def _one_move(inputs: HandDialInputs, start: Fraction, factor: int, unit: str) -> Answer:
    assert inputs.distance is not None
    distance = _exact(inputs.distance)
    falling = inputs.direction == "down"
    move = dial_move(
        distance=distance,
        start=start,
        travel_per_turn=inputs.per_turn,
        divisions=inputs.divisions,
        falling=falling,
    )
    line, turn = float(inputs.per_turn / inputs.divisions), float(inputs.per_turn)
    far, round_, each = (worked(length, unit) for length in (inputs.distance, turn, line))
    division = f"{far} ÷ {round_} = {inputs.distance / turn:.6g} turns"
    at = f"from {worked(inputs.from_reading, unit)} on the dial, {'-' if falling else '+'} {far}"
    each_line = f"{each} {'in' if unit == 'inch' else 'mm'} each"
    twice = ", shown twice because the dial reads diameter" if factor == 2 else ""
    made = worked(inputs.distance + move.error, unit)
    figures = [
        Figure("turns", "Whole turns", move.turns, "count", _SOURCE,
               f"{division}: {move.turns} whole{', to the nearest line' if move.remainder < 0 else ''}"),
        Figure("reading", "then to", move.reading * factor, "length", _SOURCE,
               f"{at}: line {move.lines} of {inputs.divisions}, {each_line}{twice}"),
        Figure("line", "which is line", move.lines, "count", _SOURCE, f"{worked(move.reading, unit)} ÷ {each}"),
        Figure("remainder", "Past the whole turns", move.remainder, "length", _SOURCE,
               f"{far} - {move.turns} x {round_}"),
        Figure("error", "Left over", move.error, "length", _SOURCE,
               f"the setting makes {made}, less {far}; half a line at most", decimals=4),
        *_approach_figures(inputs, move.reading, factor, unit),
    ]  # fmt: skip
    return Answer(tuple(figures), notes=_approach_notes(inputs))


def _approach_figures(inputs: HandDialInputs, reading: float, factor: int, unit: str) -> list[Figure]:
    """How far to back off, and what the dial then shows when the move arrives against the working direction."""
    turn, backlash = float(inputs.per_turn), max(inputs.backlash, 0.0)
    back = back_off(travel_per_turn=inputs.per_turn, backlash=backlash)
    quarter = f"a quarter of {worked(turn, unit)} is {worked(turn / 4, unit)}"
    working = f"{quarter}; twice the backlash of {worked(backlash, unit)} is {worked(2 * backlash, unit)}; the larger"
    figures = [Figure("back_off", "Back off by", float(back), "length", _BACKLASH, working)]
    if inputs.approach not in (None, inputs.direction):
        way = -back if inputs.direction == "down" else back
        past = (_exact(reading) + way) % inputs.per_turn
        sign = "-" if inputs.direction == "down" else "+"
        twice = ", shown twice" if factor == 2 else ""
        figures.append(
            Figure(
                "past_reading", "First go past, to", float(past * factor), "length", _BACKLASH,
                f"{worked(reading, unit)} {sign} {worked(float(back), unit)}, round the dial{twice}",
            )
        )  # fmt: skip
    return figures


def _approach_notes(inputs: HandDialInputs) -> tuple[Note, ...]:
    if inputs.approach in (None, inputs.direction):
        return (
            Note(
                "info",
                f"The start must have been reached with the readings going {inputs.direction} too; "
                "if not, back off first and come up to it.",
            ),
        )
    return (Note("info", f"Go past, then come to the reading with the readings going {inputs.approach}."),)


def _way_back(inputs: HandDialInputs, start: Fraction, factor: int, unit: str) -> Answer:
    assert inputs.to_reading is not None
    end = _exact(inputs.to_reading) / factor
    falling = inputs.direction == "down"
    distance = turned_distance(
        turns=inputs.turned, start=start, reading=end, travel_per_turn=inputs.per_turn, falling=falling
    )
    part = float(distance - inputs.turned * inputs.per_turn)
    readings = (
        f"from {worked(inputs.from_reading, unit)} {inputs.direction} to {worked(inputs.to_reading, unit)}"
    )
    working = f"{inputs.turned} x {worked(float(inputs.per_turn), unit)} + {worked(part, unit)}; {readings} on the dial"
    working += ", which shows twice the travel" if factor == 2 else ""
    figures = (
        Figure("distance", "Distance moved", float(distance), "length", _SOURCE, working, decimals=4),
        Figure("turns", "Whole turns", inputs.turned, "count", _SOURCE, "as told"),
        Figure("reading", "Dial reads", inputs.to_reading, "length", _SOURCE, "as told"),
        Figure("remainder", "Past the whole turns", part, "length", _SOURCE, working),
    )
    return Answer(figures)


def _chain(inputs: HandDialInputs, start: Fraction, factor: int, unit: str) -> Answer:
    assert inputs.moves is not None
    approach = inputs.approach or inputs.direction
    rows = _chain_rows(inputs, inputs.moves, start, factor, approach)
    total = float(sum(inputs.moves))
    first, *others = inputs.moves[:6]
    chain = worked(float(first), unit)
    chain += "".join(f" {'-' if m < 0 else '+'} {worked(abs(float(m)), unit)}" for m in others)
    chain += f"{' + ...' if len(inputs.moves) > 6 else ''} = {worked(total, unit)}"
    worst = max(abs(float(row[-1] or 0.0)) for row in rows)
    figures = (
        Figure("reading", "Dial reads at the end", float(rows[-1][4] or 0.0), "length", _SOURCE,
               f"from {worked(inputs.from_reading, unit)}: {chain}"),
        Figure("total", "Moved in all", total, "length", _SOURCE, chain, decimals=4),
        Figure("error", "Worst left over", worst, "length", _SOURCE,
               f"the worst of {len(rows)} places, each rounded once from the start, so nothing adds up", decimals=4),
    )  # fmt: skip
    table = Table(
        "moves",
        "Moves",
        (
            Column("number", "No.", "count"),
            Column("setting", "Setting"),
            Column("move", "Move", "length"),
            Column("turns", "Whole turns", "count"),
            Column("reading", "then to", "length"),
            Column("past_reading", "first past, to", "length"),
            Column("error", "Left over", "length", 4),
        ),
        rows,
        "move",
        ("setting", "reading"),
        _BACKLASH,
    )
    note = Note("info", f"Arrive at every reading with the readings going {approach}.")
    return Answer(figures, (table,), notes=(note,))


def _chain_rows(
    inputs: HandDialInputs, chain: Sequence[Fraction], start: Fraction, factor: int, approach: str
) -> tuple[tuple[Cell, ...], ...]:
    """Each place from its exact total, rounded by itself; one that is reached the wrong way is passed first."""
    back = back_off(travel_per_turn=inputs.per_turn, backlash=max(inputs.backlash, 0.0))
    line = inputs.per_turn / inputs.divisions
    rows: list[tuple[Cell, ...]] = []
    target = stands = start  # where the chain leads, and the line on which the dial was really stopped
    for number, step in enumerate(chain, 1):
        target += -step if inputs.direction == "down" else step
        way = "up" if target > stands else "down"
        move = dial_move(
            distance=abs(target - stands),
            start=stands,
            travel_per_turn=inputs.per_turn,
            divisions=inputs.divisions,
            falling=way == "down",
        )
        stands = floor(target / line + Fraction(1, 2)) * line
        past = None
        turns = f"{counted(move.turns, 'turn')}, " if move.turns else ""
        words = f"{way} {turns}to line {move.lines}"
        if way != approach:
            beyond = (_exact(move.reading) + (back if way == "up" else -back)) % inputs.per_turn
            past = float(beyond * factor)
            words += f" and past, then {approach} to it"
        rows.append((number, words, float(step), move.turns, move.reading * factor, past, move.error))
    return tuple(rows)


OPERATIONS = {
    "hand-dial": Operation(
        id="hand-dial",
        inputs=HandDialInputs,
        work=_hand_dial,
        hazards=("measuring",),
        example={"distance": "17.35", "per_turn": "2", "divisions": "100"},
        help="Turns a distance into turns of a handwheel and the line to stop at, and back; one move or a chain.",
    )
}
