"""Dividing a circle on the dividing head."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from engine.base.answer import Answer, Cell, Column, Figure, Note, Picture, Shape, Table, figure, heads, words
from engine.base.declare import angle as ask_angle
from engine.base.declare import choice, count, several
from engine.base.operation import Operation
from engine.base.records import dataclass, replace
from engine.base.refusals import BadInput
from engine.base.sums import deg, num
from engine.base.words import Said, Text, bare, general, say
from engine.indexing.choose import Choice, choices, nearest_choices
from engine.indexing.nearest import error_seconds
from engine.indexing.pictures import MOST_DOTS, circle_picture, plate_shapes
from engine.indexing.positions import Stop, dry_run, stops
from engine.indexing.rotary import dial_text, division_angle
from engine.indexing.way import METHODS, Train, Way, counted, crank, mixed, move_text, train_text
from engine.shop.model import DividingHead, Shop
from engine.situation import Situation

_MOST_ROWS = 3600  # a line every six minutes of arc
_MOST_BY_ANGLE = 360
_MOST_CIRCLES = 100
_MOST_GEARS = 20  # more would make the search for trains slow; nobody fits more
_MOST_LISTED = 12
_NEAR_ENOUGH = 60.0  # seconds of arc: US Army OD1644 takes a hole that is 31 out for one move by an angle
_PROVED = "proved by exact fractions"
_PLAIN = f"turns = ratio ÷ divisions, US Army OD1644, Milling Machine Operations, lesson 1; {_PROVED}"
_SOURCES = {
    "simple": _PLAIN,
    "direct": f"direct indexing, US Army OD1644, Milling Machine Operations; {_PROVED}",
    "compound": f"compound indexing, Machinery's Handbook, 27th edition, p. 1995; {_PROVED}",
    "differential": f"derived: m + g ÷ N = R ÷ N turns of the worm for one of N divisions; {_PROVED}",
    "nearest": "nearest hole of each absolute position; US Army OD1644 takes such a hole; the error is computed",
}
_ORDER = (
    "simple first, because nothing is taken off or fitted; then direct, differential, compound (Practical Treatise on "
    "Milling and Milling Machines, 1914, advises against it), nearest; for one move by an angle a near hole before "
    "gears, as US Army OD1644 does, and two circles before gears; otherwise common practice, no source"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class DivideInputs:
    """What `divide` is told.

    divisions: Equal parts of the circle.
    ratio: Turns of the crank to one of the spindle.
    plates: A group for each plate: commas between circles, semicolons between plates.
    gears: For differential dividing. A gear is written twice if there are two.
    method: Force one method.
    """

    divisions: int | None = count("Divisions", low=2, high=_MOST_ROWS, example="30", empty="give the angle instead")
    angle: float | None = ask_angle("Step angle", low=0.001, high=360, example="24d 30m", empty="from the divisions",
        help="One move by an angle, in place of a count.")  # fmt: skip
    ratio: int | None = count("Crank turns per rev", low=1, high=10_000, example="40", empty="the dividing head's",
        from_shop=lambda shop: shop.dividing_head.ratio)  # fmt: skip
    plates: tuple[tuple[int, ...], ...] | None = several("groups", "Hole circles", low=2, high=500,
        empty="the dividing head's", from_shop=lambda shop: shop.dividing_head.plates,
        example="15,16,17,18,19,20;21,23,27,29,31,33")  # fmt: skip
    gears: tuple[int, ...] | None = several("counts", "Gears of the head", low=10, high=200,
        empty="the dividing head's, or none", from_shop=lambda shop: shop.dividing_head.gears,
        example="24,24,28,32,40,44,48,56,64,72,86,100")  # fmt: skip
    method: str | None = choice("Method", METHODS, empty="the one least likely to go wrong")


def _head(inputs: DivideInputs, shop: Shop) -> DividingHead:
    """The head that is meant: the shop's, with what was typed in place of its own."""
    owned = shop.dividing_head
    if inputs.ratio is None or inputs.plates is None:
        name = "ratio" if inputs.ratio is None else "plates"
        such = "(such as ratio=40 plates=15,16,17,18,19,20)"
        text = f"{name}: the shop has no dividing head; give ratio and plates {such}, or use rotary-table."
        raise BadInput(name, "", "a dividing head's ratio and plates", text)
    circles = sum(map(len, inputs.plates))
    if circles > _MOST_CIRCLES:
        raise BadInput("plates", f"{circles} circles", f"at most {_MOST_CIRCLES} circles")
    gears = inputs.gears or ()
    if len(gears) > _MOST_GEARS:
        raise BadInput("gears", f"{len(gears)} gears", f"at most {_MOST_GEARS} gears")
    head = DividingHead(ratio=inputs.ratio, plates=inputs.plates, gears=gears, direct=(), extra_idler=False)
    if owned is None:
        return head
    direct = (owned.direct or ()) if owned.ratio == inputs.ratio else ()  # another ratio is another head
    return replace(head, direct=direct, extra_idler=owned.extra_idler)


def _divide(inputs: DivideInputs, shop: Shop) -> Answer:
    step = division_angle(inputs.divisions, inputs.angle)
    head = _head(inputs, shop)
    found = _found(inputs, step * head.ratio / 360, head)
    best = found[0]
    rows = inputs.divisions or min(ceil(360 / step), _MOST_BY_ANGLE)
    places = stops(best.way, rows)
    tables = [_positions(best.way, places)]
    if len(found) > 1:
        tables.append(_others(found[1:]))
    if inputs.divisions is not None:
        tables += dry_run(stops(best.way, rows + 1)[1:], "position", counted_in="hole")
    pictures = (_picture(best.way, places),) if rows <= MOST_DOTS else ()
    worst = max((abs(p.error) for p in places), default=0.0)
    notes = (*_notes(found, step, inputs.divisions is None, worst), *_train_notes(best.way.train))
    figures = _figures(best, step, inputs.divisions, worst if inputs.divisions is None and rows > 2 else None)
    return Answer(
        figures,
        tuple(tables),
        pictures,
        notes,
        moments=(Situation(machine="mill" if shop.mill else "bench", indexed_in_lathe=False),),
    )


def _picture(way: Way, places: tuple[Stop, ...]) -> Picture:
    beside: tuple[Shape, ...] = ()
    more = ""
    if way.circle and way.method != "direct":
        beside = plate_shapes(way.circle, way.holes, [p.hole for p in places])
        more = f"Beside it the plate's circle of {way.circle} with the arms {counted(way.holes, 'space')} apart."
    return circle_picture([p.angle for p in places], title=counted(len(places), "position"), table="positions",
        noun="position", beside=beside, more=more)  # fmt: skip


def _found(inputs: DivideInputs, wanted: Fraction, head: DividingHead) -> tuple[Choice, ...]:
    """Every way, the one that is meant first."""
    right = inputs.divisions or 1
    found = choices(wanted=wanted, head=head, count=right)
    if inputs.divisions is None and found and found[0].way.method in ("differential", "compound"):
        found = _single_move(found, wanted, head)
    asked = "divisions" if inputs.divisions is not None else "angle"
    what: Text = str(inputs.divisions)
    if inputs.divisions is None and inputs.angle is not None:
        what = say("{angle}°", angle=general(inputs.angle))
    if inputs.method is None or not found:
        if not any(not _adds_up(c) for c in found):
            least = general(360 / head.ratio / max(map(max, head.plates)))
            smallest = say("one hole of these plates is {angle}°", angle=least)
            text = say("{asked}: {what} cannot be reached: {smallest}.", asked=asked, what=what, smallest=smallest)
            raise BadInput(asked, what, "larger steps", text)
        return found
    if inputs.method == "nearest" and found[0].way.method != "nearest":
        found = nearest_choices(wanted=wanted, head=head, count=right) + found
    first = next((c for c in found if c.way.method == inputs.method and not _adds_up(c)), None)
    if first is None:
        methods = ", ".join(dict.fromkeys(c.way.method for c in found))
        text = say("method: {method} cannot give {what} on this head; {methods} can.",
                   method=inputs.method, what=what, methods=methods)  # fmt: skip
        raise BadInput("method", inputs.method, methods, text)
    return (first, *(c for c in found if c is not first))


def _single_move(found: tuple[Choice, ...], wanted: Fraction, head: DividingHead) -> tuple[Choice, ...]:
    """For one move by an angle a hole that is near enough comes first, then two circles, which need no gears."""
    near = tuple(c for c in nearest_choices(wanted=wanted, head=head, count=1)[:1] if c.error <= _NEAR_ENOUGH)
    return (*near, *sorted(found, key=lambda c: c.way.method != "compound"))


def _adds_up(choice: Choice) -> bool:
    """A nearest compound move: listed, never stepped with."""
    return choice.way.method == "nearest" and choice.way.second_circle > 0


def _figures(best: Choice, step: Fraction, divisions: int | None, worst: float | None) -> tuple[Figure, ...]:
    way = best.way
    source = _SOURCES[way.method]
    part = num(way.ratio) / num(divisions) if divisions else num(way.ratio) * deg(float(step)) / deg(360)
    turns = say("{part} = {turns} turns of the crank", part=part, turns=mixed(way.wanted))
    said = move_text(way) + (", put right by the table" if way.method == "nearest" and divisions else "")
    lead = words("setting", "Each division", said, source, turns)
    if not way.second_circle:
        lead = replace(lead, setting=crank(way, float(step)))
    why = say("{turns}; {why}", turns=turns, why=_why(way))
    whole = say("{turns}: {whole} whole", turns=turns, whole=way.turns)
    figures = [
        lead,
        words("method", "Method", way.method, _ORDER, why),
        Figure("turns", "Whole turns", way.turns, "count", source, whole),
        *_plate_figures(way, source),
        *_second_figures(way, source),
        *_train_figures(way, source),
        Figure("error_seconds", "Error", best.error, "seconds_of_arc", source, _error_working(best, divisions)),
    ]
    if worst is not None:
        repeated = "each position from the first, set to its own hole; the worst of those in the table"
        figures.append(Figure("worst_seconds", "Worst, if repeated", worst, "seconds_of_arc", source, repeated))
    angle = deg(360) / num(divisions) if divisions else deg(float(step))
    in_degrees = say("{how} = {angle}", how=angle if divisions else "as given", angle=dial_text(step))
    figures.append(figure("angle", "Angle of a division", angle, source, in_degrees, decimals=4))
    return tuple(figures)


def _plate_figures(way: Way, source: str) -> list[Figure]:
    if not way.holes:
        return []
    rest = f"{way.holes}/{way.circle} of a turn"
    which = "the largest circle that gives it" if way.method == "simple" else "the circle of this way"
    figures = [
        Figure("circle", "Circle", way.circle, "count", source, f"{rest}; {which}"),
        Figure("holes", "Holes (spaces)", way.holes, "count", source, f"{rest} past the whole turns"),
    ]
    if way.method != "direct":
        pins = f"{counted(way.holes, 'space')} and the starting hole, which is counted as the first"
        figures.append(Figure("sector_holes", "Sector arms span", way.sector_holes, "count", source, pins))
    return figures


def _why(way: Way) -> str:
    whole = way.wanted.denominator
    return {
        "simple": "whole turns" if whole == 1 else f"{whole} divides {way.circle}",
        "direct": f"{way.holes} of {way.circle} holes on the spindle's own plate",
        "differential": f"no circle divides by {whole}; the gears make up the difference",
        "compound": f"no circle divides by {whole}, two of one plate together do",
        "nearest": f"no circle divides by {whole}",
    }[way.method]


def _error_working(best: Choice, divisions: int | None) -> str:
    way = best.way
    if way.exact and best.error == 0:
        return f"{_made(way)} = {mixed(way.wanted)} turns: exact"
    if divisions:
        return f"the worst of {divisions} positions, each set to the nearest hole of {way.circle}"
    side = "beyond" if way.made > way.wanted else "short of"
    off = abs(way.made - way.wanted)
    return f"{mixed(way.made)} turns is {off} of a turn {side} {mixed(way.wanted)}; x 360° ÷ {way.ratio}"


def _made(way: Way) -> str:
    """The move as a sum, in turns of the crank."""
    if way.method == "direct":
        return f"{way.holes}/{way.circle} x {way.ratio}"
    if way.train is not None:
        sign = "+" if way.train.value > 0 else "-"
        return f"{mixed(way.on_plate)} {sign} {abs(way.train.value)} ÷ {way.ratio / way.wanted}"
    holes = f"{way.holes}/{way.circle}" if way.holes else ""
    first = " + ".join(part for part in (str(way.turns) if way.turns or not holes else "", holes) if part)
    if not way.second_circle:
        return first
    return f"{first} {'+' if way.second_holes > 0 else '-'} {abs(way.second_holes)}/{way.second_circle}"


def _second_figures(way: Way, source: str) -> list[Figure]:
    if not way.second_circle:
        return []
    rest = f"{mixed(way.wanted)} = {_made(way)}"
    forward = way.second_holes > 0
    direction = "on, the way of the first move" if forward else "back, against the first move"
    return [
        Figure("second_circle", "Second circle", way.second_circle, "count", source, rest),
        Figure("second_holes", "Holes, both together", abs(way.second_holes), "count", source, rest),
        words("second_direction", "Second move", direction, source, rest),
        words("same_direction", "Second the same way", "yes" if forward else "no", source, rest),
    ]


def _train_figures(way: Way, source: str) -> list[Figure]:
    train = way.train
    if train is None:
        return []
    working = train_text(way)
    meshes = "an even number of meshes turns the plate with the crank on the classic head"
    idlers = "idlers from the classic printed table, from memory, unconfirmed; heads differ"
    same = train.value > 0
    stud = [
        Figure("gear_stud_second", "Stud gear it drives", train.second, "count", source, working),
        Figure("gear_stud_first", "Stud gear to the worm", train.first, "count", source, working),
    ]
    sign = f"g is {train.value}, {'above' if same else 'below'} 0; {meshes}"
    return [
        words("drivers", "Drivers", ", ".join(map(str, train.drivers)), source, working),
        words("driven", "Driven", ", ".join(map(str, train.driven)), source, working),
        Figure("gear_spindle", "Gear on the spindle", train.spindle, "count", source, working),
        *(stud if train.first else ()),
        Figure("gear_worm", "Gear on the worm", train.worm, "count", source, working),
        Figure("idlers", "Idlers", train.idlers, "count", idlers, sign),
        words("same_direction", "Plate goes with crank", "yes" if same else "no", source, working),
    ]


def _positions(way: Way, places: tuple[Stop, ...]) -> Table:
    columns = [
        *heads(number=("No.", "count"), setting="Setting", whole_turns=("Turns from start", "count")),
        *heads(hole_from_start=("Hole from start", "count"), angle=("Angle", "angle", 4)),
    ]
    extra: list[str] = []
    if way.second_circle:
        columns.append(Column("second_hole", "Rear pin's hole from start", "count"))
        extra.append("second_hole")
    if way.method == "nearest":
        columns.append(Column("error", "Error", "seconds_of_arc", 1))
        extra.append("error")
    rows: list[tuple[Cell, ...]] = [
        (k, p.setting, p.turns, p.hole, p.angle, *(getattr(p, name) for name in extra)) for k, p in enumerate(places, 1)
    ]
    return Table("positions", "Positions", tuple(columns), tuple(rows), "position", ("setting", "hole_from_start"),
        "each position from its own exact fraction; the starting hole is 0")  # fmt: skip


def _others(found: tuple[Choice, ...]) -> Table:
    columns = (
        *heads(method="Method", setting="Each division", gears="Gears: drivers / driven, idlers"),
        *heads(error=("Error", "seconds_of_arc", 1)),
    )
    rows: list[tuple[Cell, ...]] = []
    for other in found[:_MOST_LISTED]:
        method = other.way.method + (", error adds up" if _adds_up(other) else "")
        gears = other.way.train.text if other.way.train else ""
        rows.append((method, move_text(other.way), gears, other.error))
    return Table("other_ways", "Other ways", columns, tuple(rows), source=_ORDER)


def seconds(value: float) -> Said:
    """An error in words that no inch mark can be read into: 31.3 seconds of arc."""
    return say("{s} seconds of arc", s=bare(value, "seconds_of_arc"))


def _notes(found: tuple[Choice, ...], step: Fraction, by_angle: bool, worst: float) -> tuple[Note, ...]:
    best, way = found[0], found[0].way
    exact = next((c for c in found if c.way.exact), None)
    notes = []
    if way.method == "nearest":
        worst_of = "" if by_angle else say("{off} off at worst; ", off=seconds(best.error))
        notes.append(Note("warning", say("Not exact: {worst}{side}.", worst=worst_of, side=_error_side(way))))
        if not by_angle:
            tell = "Set every position from the table: some moves are a hole longer than others."
            notes.append(Note("info", tell))
        if exact is not None:
            other = f"Exact, if it matters: {exact.way.method}, {move_text(exact.way)}."
            notes.append(Note("info", other))
    if way.method == "direct":
        notes.append(Note("info", "Take the worm out of mesh, and lock the spindle before each cut."))
    if way.method == "compound":
        blunder = "Compound indexing is easy to get wrong: say each move aloud, and check the pins' holes."
        moves = "First move: plate held by its rear pin. Second: crank pin in, rear pin out, turn both."
        notes += [Note("warning", blunder), Note("info", moves)]
    if by_angle and 360 / step > _MOST_BY_ANGLE:
        notes.append(Note("info", f"The first {_MOST_BY_ANGLE} positions are listed."))
    if by_angle and 360 % step:
        left = dial_text(360 % step)
        notes.append(Note("info", f"These steps do not close: {360 // step} whole steps, {left} left over."))
    if by_angle and way.method == "nearest" and worst > best.error:
        repeated = say("Repeated as in the table, the worst position is {off} off.", off=seconds(worst))
        notes.append(Note("info", repeated))
    return tuple(notes)


def _error_side(way: Way) -> Said:
    off = error_seconds(way.made - way.wanted, way.ratio)
    side = "too far" if off > 0 else "short"
    return say("the first move is {off} {side}", off=seconds(abs(off)), side=side)


def _train_notes(train: Train | None) -> tuple[Note, ...]:
    if train is None:
        return ()
    word = "with the crank" if train.value > 0 else "against the crank"
    look = f"Heads differ: turn the crank once and look. The plate must creep {word}; if not, add an idler."
    lock = "Release the plate's lock, or the crank is locked. Whether these gears reach is not worked out."
    return (Note("warning", look), Note("info", lock))


def _all_moves(inputs: DivideInputs, answer: Answer, shop: Shop) -> Text:
    """Every move added up against the turns of the crank for one turn of the work."""
    if inputs.divisions is None or inputs.ratio is None:
        return ""
    setting, turns = answer.figure("setting").text, answer.figure("turns").value
    if answer.figure("method").text != "simple":
        return f"{inputs.divisions} moves must add up to {inputs.ratio} turns of the crank"
    if not answer.has("circle"):
        return say("{n} moves of {move} must make {ratio} turns of the crank",
                   n=inputs.divisions, move=setting, ratio=inputs.ratio)  # fmt: skip
    holes = Fraction(int(answer.figure("holes").value or 0), int(answer.figure("circle").value or 1))
    total = inputs.divisions * (int(turns or 0) + holes)
    return say("{n} moves of {move} make {total} turns; {ratio} is one turn of the work",
               n=inputs.divisions, move=setting, total=str(total), ratio=inputs.ratio)  # fmt: skip


OPERATION = Operation(
    id="divide",
    pane="indexing",
    place=10,
    title="Divide a circle",
    words="dividing head index indexing plate crank sector arms compound differential divisions equal parts angle "
    "degrees holes circle worm spacing pitch gear teeth blank direct",
    machine="mill",
    inputs=DivideInputs,
    work=_divide,
    hazards=("dividing", "graduating"),
    example={"divisions": "30"},
    troubles={"IN-01": _all_moves, "IN-02": None},
    help="Crank turns, holes and sector arms for any count or angle on a dividing head, with every position.",
)
