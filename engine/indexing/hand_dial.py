"""The hand dial: a distance as turns and a reading, the way back, and a chain of moves."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import floor
from typing import cast

from engine.base.answer import Answer, Cell, Figure, Label, Line, Note, Picture, Table, heads, info, to_set
from engine.base.declare import choice, count, flag, handwheel, length, moves, travel
from engine.base.operation import Operation
from engine.base.records import dataclass, replace
from engine.base.refusals import BadInput
from engine.base.setting import setting_text
from engine.base.sums import Sum, larger, mm, num
from engine.base.words import Text, counted, put, say, shown
from engine.indexing.dials import back_off, dial_move, on_dial, turned_distance
from engine.indexing.handwheel import Handwheel, slide_of
from engine.indexing.pictures import at, dial_shapes
from engine.shop.model import Shop

_SOURCE = "arithmetic; each position rounded once (common practice, no source)"
_BACKLASH = (
    "back off a quarter to half a turn and come up again in the working direction: Practical Treatise on "
    "Milling and Milling Machines, 1914; twice the backlash if that is more (common practice, no source)"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class HandDialInputs:
    """What `hand-dial` is told.

    distance: How far the slide is to move.
    per_turn: How far one turn of the handwheel moves the slide.
    divisions: How many lines the dial has in all.
    from_reading: What the dial shows before the move.
    direction: Whether the readings rise or fall as the move is made.
    approach: The working direction: every mark is reached turning this way, so that backlash is taken up.
    backlash: How far the handwheel turns before the slide follows.
    reads_diameter: Yes when the dial shows twice what the slide moves.
    turned: To turn a reading into a distance: whole turns made.
    to_reading: To turn a reading into a distance: what the dial shows.
    moves: Each from where the last ended, a minus for back.
    handwheel: A handwheel of the shop, in place of travel, lines and backlash.
    """

    distance: float | None = length(
        "Distance to move", example="17.35", empty="from to_reading and turned, or a chain of moves"
    )
    per_turn: Fraction = travel("Travel per turn", low=0.001, high=100, example="2", empty="the cross slide's",
        required=True, from_shop=lambda shop: shop.lathe.cross_slide.travel_per_turn)  # fmt: skip
    divisions: int = count("Lines on the dial", low=1, high=2000, example="100", empty="the cross slide's",
        required=True, from_shop=lambda shop: shop.lathe.cross_slide.divisions)  # fmt: skip
    from_reading: float = length("Dial reads now", low=-1e-9, default=0.0, example="0.5")
    direction: str = choice("Readings go", ("up", "down"), default="up", example="up")
    approach: str | None = choice("Final approach", ("up", "down"), empty="the same way as the move")
    backlash: float | None = length("Backlash", low=-1e-9, high=10, example="0.1",
        empty="the cross slide's, if it was measured", from_shop=lambda shop: shop.lathe.cross_slide.backlash)  # fmt: skip
    reads_diameter: bool | None = flag(
        "Dial reads diameter", empty="as the cross slide's dial, if it is the one asked about"
    )
    turned: int = count("Whole turns made", low=0, high=10_000, default=0, example="2")
    to_reading: float | None = length("Dial reads at the end", low=-1e-9, empty="worked out", example="0.68")
    moves: tuple[Fraction, ...] | None = moves("Chain of moves", example="3, 4.5, -2", empty="one move")
    handwheel: Handwheel | None = handwheel("Handwheel", example="mill x", empty="the cross slide's, or as told above")


def _exact(value: float) -> Fraction:
    return Fraction(repr(float(max(value, 0.0))))


def _shown_twice(inputs: HandDialInputs, shop: Shop) -> bool:
    """Whether the dial shows twice the travel: as told, or as the cross slide does when it is the one meant."""
    if inputs.reads_diameter is not None:
        return inputs.reads_diameter
    slide = shop.lathe.cross_slide if shop.lathe else None
    same = slide is not None and (slide.travel_per_turn, slide.divisions) == (inputs.per_turn, inputs.divisions)
    return bool(same and slide is not None and slide.reads_diameter)


def _with_handwheel(inputs: HandDialInputs, chosen: Handwheel, shop: Shop) -> HandDialInputs:
    """The same question about a handwheel of the shop."""
    slide = chosen.slide or slide_of(shop, chosen.name)
    if slide is None:
        text = f"handwheel: the shop has no {chosen.name}; name another, or give travel per turn / lines (2/100)."
        raise BadInput("handwheel", chosen.name, "a handwheel of the shop", text)
    turn, twice = slide.travel_per_turn, slide.reads_diameter
    return replace(inputs, per_turn=turn, divisions=slide.divisions, backlash=slide.backlash, reads_diameter=twice)


def _hand_dial(inputs: HandDialInputs, shop: Shop) -> Answer:
    if inputs.handwheel is not None:
        inputs = _with_handwheel(inputs, inputs.handwheel, shop)
    factor = 2 if _shown_twice(inputs, shop) else 1
    _check(inputs, factor)
    start = _exact(inputs.from_reading) / factor
    if inputs.moves is not None:
        return _chain(inputs, start, factor)
    if inputs.to_reading is not None:
        return _way_back(inputs, start, factor)
    return _one_move(inputs, start, factor)


def _check(inputs: HandDialInputs, factor: int) -> None:
    """One question at a time, and no reading that the dial does not have."""
    asked = [name for name in ("distance", "moves", "to_reading") if getattr(inputs, name) is not None]
    if not asked:
        text = "distance: give distance=17.35, or to_reading and turned for the way back, or moves=3,4.5,-2."
        raise BadInput("distance", "", "a length", text)
    if len(asked) > 1:
        text = f"{asked[1]}: give one of distance, moves, or to_reading with turned, not {' and '.join(asked)}."
        raise BadInput(asked[1], "", "one of distance, moves and to_reading", text)
    if inputs.turned and inputs.to_reading is None:
        raise BadInput("turned", inputs.turned, "nothing, unless to_reading is given: turns made, for the way back")
    full = inputs.per_turn * factor
    for name in ("from_reading", "to_reading"):
        reading = getattr(inputs, name)
        if reading is not None and _exact(reading) >= full:
            most = say("less than {most}, which is one turn of this dial", most=shown(float(full)))
            raise BadInput(name, shown(reading), most)


def _one_move(inputs: HandDialInputs, start: Fraction, factor: int) -> Answer:
    assert inputs.distance is not None
    falling = inputs.direction == "down"
    per_turn, lines = inputs.per_turn, inputs.divisions
    move = dial_move(
        distance=_exact(inputs.distance), start=start, travel_per_turn=per_turn, divisions=lines, falling=falling
    )
    far, turn, each = (mm(inputs.distance), mm(per_turn), mm(float(per_turn / lines)))
    wheel = inputs.handwheel.name.capitalize() if inputs.handwheel is not None else "Handwheel"
    setting = on_dial(wheel, move, per_turn, lines, reads_diameter=factor == 2, distance=far.value)
    near = ", to the nearest line" if move.remainder < 0 else ""
    turns = put(inputs.distance / float(per_turn), "ratio")
    whole = say("{sum} = {turns} turns: {whole} whole{near}", sum=far / turn, turns=turns, whole=move.turns, near=near)
    to_line = say("from {start} on the dial, {sign} {far}: line {line} of {lines}, {each} each{twice}",
        start=put(inputs.from_reading), sign="-" if falling else "+", far=far, line=move.lines, lines=lines,
        each=shown(each, decimals=3),
        twice=", shown twice because the dial reads diameter" if factor == 2 else "")  # fmt: skip
    reached = put(inputs.distance + move.error)
    made = say("the setting makes {made}, less {far}; half a line at most", made=reached, far=far)
    figures = [
        to_set("setting", "Turn to", setting, _SOURCE, to_line),
        Figure("turns", "Whole turns", move.turns, "count", _SOURCE, whole),
        Figure("reading", "Dial reads then", move.reading * factor, "length", _SOURCE, to_line),
        Figure("line", "Dial line", move.lines, "count", _SOURCE, mm(move.reading) / each.known()),
        Figure("remainder", "Beyond the whole turns", move.remainder, "length", _SOURCE, far - num(move.turns) * turn),
        Figure("error", "Rounding error", move.error, "length", _SOURCE, made, decimals=4),
        *_approach_figures(inputs, move.reading, factor),
    ]  # fmt: skip
    picture = _picture(inputs, start, [(move.lines, setting_text(setting, wheel=False))])
    return Answer(tuple(figures), pictures=(picture,), notes=_approach_notes(inputs))


def _picture(inputs: HandDialInputs, start: Fraction, places: Sequence[tuple[int, str]], table: str = "") -> Picture:
    """The dial as it is looked at: a short mark where it stands now, the line to set heavy, each row's line with it."""
    line, said = places[-1]
    lines = inputs.divisions
    face = dial_shapes(lines, line, said, middle=(0.0, 0.0), rows=[at for at, _ in places] if table else ())
    now = float(start / inputs.per_turn) * 360
    here = (Line(*at(now, 31.0), *at(now, 35.0), 1), Label(*at(now, 38.0), "now"))
    alt = f"The dial with its {lines} lines clockwise from 0: line {line} is set, {said}."
    return Picture("dial", "The dial", (*face, *here), alt, table=table)


def _play(inputs: HandDialInputs) -> float | None:
    """How far the handwheel turns before the slide follows, None while nobody has measured it. [mm]"""
    return None if inputs.backlash is None else max(inputs.backlash, 0.0)


def _backing(inputs: HandDialInputs) -> Text:
    play = _play(inputs)
    if play is None:
        return say("half a turn, {half}: the backlash is not known", half=shown(float(inputs.per_turn / 2)))
    return _larger_of(mm(inputs.per_turn) / 4, 2 * mm(play))


def _approach_figures(inputs: HandDialInputs, reading: float, factor: int) -> list[Figure]:
    """How far to back off, and what the dial then shows when the move arrives against the working direction."""
    back = back_off(travel_per_turn=inputs.per_turn, backlash=_play(inputs))
    figures = [Figure("back_off", "Back off by", float(back), "length", _BACKLASH, _backing(inputs))]
    if inputs.approach not in (None, inputs.direction):
        falling = inputs.direction == "down"
        past = (_exact(reading) + (-back if falling else back)) % inputs.per_turn
        to = mm(reading) - mm(back) if falling else mm(reading) + mm(back)
        round_ = say("{sum}, round the dial{twice}", sum=to, twice=", shown twice" if factor == 2 else "")
        figures.append(Figure("past_reading", "First go past, to", float(past * factor), "length", _BACKLASH, round_))
    return figures


def _larger_of(quarter: Sum, twice: Sum) -> Text:
    """A quarter of a turn or twice the backlash."""
    text = "{both}: a quarter of a turn is {quarter}, twice the backlash {twice}"
    return say(text, both=larger(quarter, twice), quarter=put(float(quarter)), twice=put(float(twice)))


def _approach_notes(inputs: HandDialInputs) -> tuple[Note, ...]:
    if inputs.approach in (None, inputs.direction):
        return (info(f"The start must have been reached with the readings going {inputs.direction} too; if not, back off "
            "first and come up to it."),)  # fmt: skip
    return (info(f"Go past, then come to the reading with the readings going {inputs.approach}."),)


def _way_back(inputs: HandDialInputs, start: Fraction, factor: int) -> Answer:
    assert inputs.to_reading is not None
    reading, falling = _exact(inputs.to_reading) / factor, inputs.direction == "down"
    distance = turned_distance(
        turns=inputs.turned, start=start, reading=reading, travel_per_turn=inputs.per_turn, falling=falling
    )
    part = mm(float(distance - inputs.turned * inputs.per_turn))
    working = say("{sum}; from {start} {way} to {end} on the dial{twice}",
        sum=num(inputs.turned) * mm(inputs.per_turn) + part, start=put(inputs.from_reading), way=inputs.direction,
        end=put(inputs.to_reading), twice=", which shows twice the travel" if factor == 2 else "")  # fmt: skip
    figures = (
        Figure("distance", "Distance moved", float(distance), "length", _SOURCE, working, decimals=4),
        Figure("turns", "Whole turns", inputs.turned, "count", _SOURCE, "as told"),
        Figure("reading", "Dial reads", inputs.to_reading, "length", _SOURCE, "as told"),
        Figure("remainder", "Beyond the whole turns", float(part), "length", _SOURCE, working),
    )
    return Answer(figures)


_MOST_WRITTEN = 6  # moves of a chain that its working writes out


def _chain(inputs: HandDialInputs, start: Fraction, factor: int) -> Answer:
    assert inputs.moves is not None
    approach = inputs.approach or inputs.direction
    rows = _chain_rows(inputs, inputs.moves, start, factor, approach)
    total = float(sum(inputs.moves))
    first, *others = inputs.moves[:_MOST_WRITTEN]
    chain = mm(first)
    for step in others:
        chain = chain - mm(-step) if step < 0 else chain + mm(step)
    more = " + ..." if len(inputs.moves) > _MOST_WRITTEN else ""
    written = say("{chain}{more} = {total}", chain=chain, more=more, total=put(total))
    worst = max(abs(cast(float, row[-1])) for row in rows)
    end = cast(float, rows[-1][4])
    figures = (
        Figure("reading", "Dial reads at the end", end, "length", _SOURCE,
               say("from {start}: {chain}", start=put(inputs.from_reading), chain=written)),
        Figure("total", "Moved in all", total, "length", _SOURCE, written, decimals=4),
        Figure("error", "Worst rounding error", worst, "length", _SOURCE,
               f"the worst of {len(rows)} places, each rounded once from the start, so nothing adds up", decimals=4),
    )  # fmt: skip
    columns = (
        *heads(number=("No.", "count"), setting="Setting", move=("Move", "length")),
        *heads(turns=("Whole turns", "count"), reading=("dial", "length")),
        *heads(past_reading=("first past, to", "length"), error=("Rounding error", "length", 4)),
    )
    table = Table("moves", "Moves", columns, rows, "move", ("setting", "reading"), _BACKLASH)
    note = info(f"Arrive at every reading with the readings going {approach}.")
    places = [_line_of(row) for row in rows]
    return Answer(figures, (table,), (_picture(inputs, start, places, "moves"),), (note,))


def _line_of(row: tuple[Cell, ...]) -> tuple[int, str]:
    """The line of a row of the chain, and how the row says it."""
    said = str(row[1])
    return int(said.split("to line ")[1].split(" ")[0]), said.split(" and past")[0]


def _chain_rows(
    inputs: HandDialInputs, chain: Sequence[Fraction], start: Fraction, factor: int, approach: str
) -> tuple[tuple[Cell, ...], ...]:
    """Each place from its exact total, rounded by itself; one that is reached the wrong way is passed first."""
    back = back_off(travel_per_turn=inputs.per_turn, backlash=_play(inputs))
    line = inputs.per_turn / inputs.divisions
    rows: list[tuple[Cell, ...]] = []
    target = stands = start  # where the chain leads, and the line on which the dial was really stopped
    for place, step in enumerate(chain, 1):
        target += -step if inputs.direction == "down" else step
        way = "up" if target > stands else "down"
        far, turn, lines = abs(target - stands), inputs.per_turn, inputs.divisions
        move = dial_move(distance=far, start=stands, travel_per_turn=turn, divisions=lines, falling=way == "down")
        stands = floor(target / line + Fraction(1, 2)) * line
        past = None
        turns = f"{counted(move.turns, 'turn')}, " if move.turns else ""
        words = f"{way} {turns}to line {move.lines}"
        if way != approach:
            beyond = (_exact(move.reading) + (back if way == "up" else -back)) % inputs.per_turn
            past = float(beyond * factor)
            words += f" and past, then {approach} to it"
        rows.append((place, words, float(step), move.turns, move.reading * factor, past, move.error))
    return tuple(rows)


def _overshoot(inputs: HandDialInputs, answer: Answer, shop: Shop) -> Text:
    """A quarter to half a turn of the handwheel."""
    turn = float(inputs.per_turn)
    return say("{low} to {high} past, then back", low=shown(turn / 4), high=shown(turn / 2))


OPERATION = Operation(
    id="hand-dial",
    pane="indexing",
    place=50,
    title="Hand dial",
    words="handwheel turns reading backlash move dial slide collar handle micrometer travel distance feed screw "
    "lines zero offset play leadscrew",
    inputs=HandDialInputs,
    work=_hand_dial,
    hazards=(),
    example={"distance": "17.35", "per_turn": "2", "divisions": "100"},
    troubles={"IN-03": _overshoot},
    help="Turns a distance into turns of a handwheel and the line to stop at, and back; one move or a chain.",
)
