"""Dividing a circle on the dividing head."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from engine.base.answer import Answer, Cell, Column, Figure, Note, Picture, Table
from engine.base.declare import angle as ask_angle
from engine.base.declare import choice, count, several
from engine.base.operation import Operation
from engine.base.refusals import BadInput
from engine.indexing.choose import Choice, choices, nearest_choices
from engine.indexing.nearest import error_seconds
from engine.indexing.pictures import MOST_DOTS, circle_picture
from engine.indexing.positions import Stop, stops
from engine.indexing.rotary import dial_text, division_angle
from engine.indexing.way import METHODS, Train, Way, counted, mixed, move_text, train_text
from engine.shop.model import DividingHead, Shop

_MOST_ROWS = 3600  # a line every six minutes of arc
_MOST_BY_ANGLE = 360
_MOST_CIRCLES = 100
_MOST_GEARS = 20  # more would make the search for trains slow; nobody fits more
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
    "gears, as US Army OD1644 does; otherwise common practice, no source"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class DivideInputs:
    """What `divide` is told."""

    divisions: int | None = count(
        "Divisions", low=2, high=_MOST_ROWS, example="30", empty="give the angle instead",
        help="Equal parts of the circle.",
    )  # fmt: skip
    angle: float | None = ask_angle(
        "Angle between positions", low=0.001, high=360, example="24d 30m", empty="from the divisions",
        help="One move by an angle, in place of a count.",
    )  # fmt: skip
    ratio: int | None = count(
        "Turns of the crank to one of the spindle", low=1, high=10_000, example="40", empty="the dividing head's",
        from_shop=lambda shop: shop.dividing_head.ratio,
        help="The worm's ratio.",
    )  # fmt: skip
    plates: tuple[tuple[int, ...], ...] | None = several(
        "groups", "Hole circles, a group for each plate", low=2, high=500, empty="the dividing head's",
        from_shop=lambda shop: shop.dividing_head.plates,
        example="15,16,17,18,19,20;21,23,27,29,31,33",
        help="Commas between circles, semicolons between plates.",
    )  # fmt: skip
    gears: tuple[int, ...] | None = several(
        "counts", "Gears for differential dividing", low=10, high=200, empty="the dividing head's, or none",
        from_shop=lambda shop: shop.dividing_head.gears,
        example="24,24,28,32,40,44,48,56,64,72,86,100",
        help="A gear is written twice if there are two.",
    )  # fmt: skip
    method: str | None = choice(
        "Method", METHODS, empty="the one least likely to go wrong", help="Insist on one of the ways."
    )


def _head(inputs: DivideInputs, shop: Shop) -> DividingHead:
    """The head that is meant: the shop's, with what was typed in place of its own."""
    owned = shop.dividing_head
    if inputs.ratio is None or inputs.plates is None:
        name = "ratio" if inputs.ratio is None else "plates"
        text = (
            f"{name}: the shop has no dividing head; give ratio and plates (such as ratio=40 plates=15,16,17,18,19,20),"
            " or use rotary-table."
        )
        raise BadInput(name, "", "a dividing head's ratio and plates", text)
    if sum(map(len, inputs.plates)) > _MOST_CIRCLES:
        raise BadInput(
            "plates", f"{sum(map(len, inputs.plates))} circles", f"at most {_MOST_CIRCLES} circles"
        )
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
    wanted = step * head.ratio / 360
    right = inputs.divisions or 1
    found = _found(inputs, wanted, head, right)
    best = found[0]
    rows = inputs.divisions or min(ceil(360 / step), _MOST_BY_ANGLE)
    places = stops(best.way, rows)
    table = _positions(best.way, places)
    tables = (table, _others(found[1:])) if len(found) > 1 else (table,)
    pictures: tuple[Picture, ...] = ()
    if rows <= MOST_DOTS:
        title = counted(rows, "position")
        pictures = (
            circle_picture([p.angle for p in places], title=title, table="positions", noun="position"),
        )
    worst = max((abs(p.error) for p in places), default=0.0)
    notes = (*_notes(found, step, inputs.divisions is None, worst), *_train_notes(best.way.train))
    return Answer(_figures(best, step, inputs.divisions), tables, pictures, notes)


def _found(inputs: DivideInputs, wanted: Fraction, head: DividingHead, right: int) -> tuple[Choice, ...]:
    """Every way, the one that is meant first."""
    found = choices(wanted=wanted, head=head, count=right)
    if inputs.divisions is None and found and found[0].way.method in ("differential", "compound"):
        found = _single_move(found, wanted, head)
    asked = "divisions" if inputs.divisions is not None else "angle"
    what = str(inputs.divisions) if inputs.divisions is not None else f"{inputs.angle:g}°"
    if inputs.method is None or not found:
        usable = [c for c in found if not _adds_up(c)]
        if not usable:
            smallest = f"one hole of these plates is {360 / head.ratio / max(map(max, head.plates)):.4g}°"
            raise BadInput(asked, what, "larger steps", f"{asked}: {what} cannot be reached: {smallest}.")
        return found
    if inputs.method == "nearest" and found[0].way.method != "nearest":
        found = nearest_choices(wanted=wanted, head=head, count=right) + found
    first = next((c for c in found if c.way.method == inputs.method and not _adds_up(c)), None)
    if first is None:
        methods = ", ".join(dict.fromkeys(c.way.method for c in found))
        text = f"method: {inputs.method} cannot give {what} on this head; {methods} can."
        raise BadInput("method", inputs.method, methods, text)
    return (first, *(c for c in found if c is not first))


def _single_move(found: tuple[Choice, ...], wanted: Fraction, head: DividingHead) -> tuple[Choice, ...]:
    """For one move by an angle, a hole that is near enough comes before gears or a second count."""
    near = tuple(c for c in nearest_choices(wanted=wanted, head=head, count=1)[:1] if c.error <= _NEAR_ENOUGH)
    return (*near, *found)


def _adds_up(choice: Choice) -> bool:
    """A nearest compound move: listed, never stepped with."""
    return choice.way.method == "nearest" and choice.way.second_circle > 0


def _figures(best: Choice, step: Fraction, divisions: int | None) -> tuple[Figure, ...]:
    way = best.way
    source = _SOURCES[way.method]
    count_text = f"{way.ratio} ÷ {divisions}" if divisions else f"{way.ratio} x {float(step):g}° ÷ 360°"
    turns = f"{count_text} = {mixed(way.wanted)} turns of the crank"
    said = move_text(way) + (", put right by the table" if way.method == "nearest" and divisions else "")
    figures = [
        Figure("setting", "Each division", None, "text", source, turns, text=said),
        Figure("method", "Method", None, "text", _ORDER, f"{turns}; {_why(way)}", text=way.method),
        Figure("turns", "Whole turns", way.turns, "count", source, f"{turns}: {way.turns} whole"),
    ]
    if way.holes:
        rest = f"{way.holes}/{way.circle} of a turn"
        which = "the largest circle that gives it" if way.method == "simple" else "the circle of this way"
        pins = f"{counted(way.holes, 'space')} and the starting hole"
        figures += [
            Figure("circle", "Circle", way.circle, "count", source, f"{rest}; {which}"),
            Figure("holes", "Holes (spaces)", way.holes, "count", source, f"{rest} past the whole turns"),
        ]
        if way.method != "direct":
            figures.append(
                Figure("sector_holes", "Between the arms", way.sector_holes, "count", source, pins)
            )
    figures += _second_figures(way, source) + _train_figures(way, source)
    figures.append(
        Figure(
            "error_seconds", "Error", best.error, "seconds_of_arc", source, _error_working(best, divisions)
        )
    )
    figures.append(
        Figure("angle", "Angle of a division", float(step), "angle", source,
               (f"360° ÷ {divisions}" if divisions else "as given") + f" = {dial_text(step)}", decimals=4)
    )  # fmt: skip
    return tuple(figures)


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
    word = "on, the way of the first move" if way.second_holes > 0 else "back, against the first move"
    return [
        Figure("second_circle", "Second circle", way.second_circle, "count", source, rest),
        Figure(
            "second_holes", "Holes, plate and crank together", abs(way.second_holes), "count", source, rest
        ),
        Figure("second_direction", "Second move", None, "text", source, rest, text=word),
        Figure(
            "same_direction",
            "Second move the same way",
            None,
            "text",
            source,
            rest,
            text="yes" if way.second_holes > 0 else "no",
        ),
    ]


def _train_figures(way: Way, source: str) -> list[Figure]:
    train = way.train
    if train is None:
        return []
    working = train_text(way)
    figures = [
        Figure("drivers", "Drivers", None, "text", source, working, text=", ".join(map(str, train.drivers))),
        Figure("driven", "Driven", None, "text", source, working, text=", ".join(map(str, train.driven))),
        Figure("gear_spindle", "Gear on the spindle", train.spindle, "count", source, working),
    ]
    if train.first:
        figures += [
            Figure("gear_stud_second", "Stud gear that it drives", train.second, "count", source, working),
            Figure(
                "gear_stud_first", "Stud gear that drives the worm's", train.first, "count", source, working
            ),
        ]
    meshes = "an even number of meshes turns the plate with the crank on the classic head"
    idlers = "idlers from the classic printed table, from memory, unconfirmed; heads differ"
    same = train.value > 0
    sign = f"g is {train.value}, {'above' if same else 'below'} 0"
    figures += [
        Figure("gear_worm", "Gear on the worm shaft", train.worm, "count", source, working),
        Figure("idlers", "Idlers", train.idlers, "count", idlers, f"{sign}; {meshes}"),
        Figure(
            "same_direction", "Plate turns with the crank", None, "text", source, working, text="yes" if same else "no"
        ),
    ]  # fmt: skip
    return figures


def _positions(way: Way, places: tuple[Stop, ...]) -> Table:
    columns = [
        Column("number", "No.", "count"),
        Column("setting", "Setting"),
        Column("whole_turns", "Turns from start", "count"),
        Column("hole_from_start", "Hole from start", "count"),
        Column("angle", "Angle", "angle", 4),
    ]
    extra: list[str] = []
    if way.second_circle:
        columns.append(Column("second_hole", "Rear pin's hole from start", "count"))
        extra.append("second_hole")
    if way.method == "nearest":
        columns.append(Column("error", "Error", "seconds_of_arc", 1))
        extra.append("error")
    rows: list[tuple[Cell, ...]] = [
        (k, p.setting, p.turns, p.hole, p.angle, *(getattr(p, name) for name in extra))
        for k, p in enumerate(places, 1)
    ]
    return Table(
        "positions", "Positions", tuple(columns), tuple(rows), "position", ("setting", "hole_from_start"),
        "each position from its own exact fraction; the starting hole is 0",
    )  # fmt: skip


def _others(found: tuple[Choice, ...]) -> Table:
    columns = (
        Column("method", "Method"),
        Column("setting", "Each division"),
        Column("gears", "Gears: drivers / driven, idlers"),
        Column("error", "Error", "seconds_of_arc", 1),
    )
    rows: list[tuple[Cell, ...]] = []
    for other in found[:12]:
        method = other.way.method + (", error adds up" if _adds_up(other) else "")
        gears = other.way.train.text if other.way.train else ""
        rows.append((method, move_text(other.way), gears, other.error))
    return Table("other_ways", "Other ways", columns, tuple(rows), source=_ORDER)


def _notes(found: tuple[Choice, ...], step: Fraction, by_angle: bool, worst: float) -> tuple[Note, ...]:
    best, way = found[0], found[0].way
    exact = next((c for c in found if c.way.exact), None)
    notes = []
    if way.method == "nearest":
        worst_of = "" if by_angle else f"{best.error:.1f} seconds of arc off at worst; "
        notes.append(Note("warning", f"Not exact: {worst_of}{_error_side(way)}."))
        if not by_angle:
            notes.append(
                Note("info", "Set every position from the table: some moves are a hole longer than others.")
            )
        if exact is not None:
            notes.append(Note("info", f"Exact, if it matters: {exact.way.method}, {move_text(exact.way)}."))
    if way.method == "direct":
        notes.append(Note("info", "Take the worm out of mesh, and lock the spindle before each cut."))
    if way.method == "compound":
        notes.append(
            Note(
                "warning",
                "Compound indexing is easy to blunder: say each move aloud, and check the pins' holes.",
            )
        )
        notes.append(
            Note(
                "info",
                "First move: plate held by its rear pin. Second: crank pin in, rear pin out, turn both.",
            )
        )
    if by_angle and 360 / step > _MOST_BY_ANGLE:
        notes.append(Note("info", f"The first {_MOST_BY_ANGLE} positions are listed."))
    if by_angle and 360 % step:
        left = 360 % step
        notes.append(
            Note("info", f"These steps do not close: {360 // step} whole steps, {dial_text(left)} left over.")
        )
        if way.method == "nearest" and worst > best.error:
            notes.append(
                Note("info", f"Repeated as in the table, the worst position is {worst:.1f} seconds off.")
            )
    return tuple(notes)


def _error_side(way: Way) -> str:
    off = error_seconds(way.made - way.wanted, way.ratio)
    return f"the first move is {abs(off):.1f} seconds of arc {'too far' if off > 0 else 'short'}"


def _train_notes(train: Train | None) -> tuple[Note, ...]:
    if train is None:
        return ()
    word = "with the crank" if train.value > 0 else "against the crank"
    return (
        Note(
            "warning",
            f"Heads differ: turn the crank once and look. The plate must creep {word}; if not, add an idler.",
        ),
        Note(
            "info",
            "Release the plate's lock, or the crank is locked. Whether these gears reach is not worked out.",
        ),
    )


OPERATIONS = {
    "divide": Operation(
        id="divide",
        inputs=DivideInputs,
        work=_divide,
        hazards=("dividing",),
        example={"divisions": "30"},
        help="Crank turns, holes and sector arms for any count or angle on a dividing head, with every position.",
    )
}
