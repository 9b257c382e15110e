"""`change-gears`: the change wheels of a set that cut a thread, and when to close the half-nuts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from operator import attrgetter
from typing import Any

from engine.base.answer import Answer, Cell, Column, Figure, Note, Table, figure, words
from engine.base.declare import choice, length, number, several, thread, travel
from engine.base.operation import Operation
from engine.base.quantity import MM_PER_INCH
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import INCH, leaf, mm
from engine.base.words import Text, figures, general, put, say, shown
from engine.shop.model import Shop, ThreadDial
from engine.situation import Situation
from engine.threads.faults import where_it_binds
from engine.threads.fit import BINDS, until_it_binds
from engine.threads.form import form
from engine.threads.gears import MOST_FOR_SIX, Search, Train, clearances, error_ppm, lead_cut, ranked_trains
from engine.threads.limits import limits
from engine.threads.thread import Thread
from engine.threads.thread_dial import DialRule, dial_rule, lines_of_starts
from engine.threads.train_picture import idler_of, train_picture

_SOURCE = "Turning and Boring, 1914, pp. 168-172; the wheels of this shop searched exactly"
_DIAL_SOURCE = "Turning and Boring, 1914, pp. 141-143; the general rule is derived"
_EXACT = "arithmetic on exact fractions"
_USUAL_FLANK = 30.0  # deg, taken when a pitch alone is given
_SLIGHT = 1000  # ppm: an error above it is worth a warning; common practice, no source


def _lathes(name: str) -> dict[str, Any]:
    """What an input that is left empty takes of the lathe."""
    return {"empty": "the lathe's", "from_shop": attrgetter(f"lathe.{name}")}


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeGearsInputs:
    """What `change-gears` is told: one of size, pitch and tpi.

    size: The thread to cut.
    pitch: Its pitch; of a thread with several starts its lead.
    tpi: Threads per inch of the thread to cut.
    leadscrew: `3` or `8 tpi`. On a lathe with a fixed gear before the wheels: what equal wheels cut.
    wheels: Teeth of every wheel; write a wheel twice if there are two.
    wheels_used: Two: a simple train with an idler. Four or six: compound.
    module: Used to see that wheels clear the studs.
    boss: Used to see that wheels clear the studs.
    nut_length: How far the screw is to go into its nut: an error of lead may bind it before.
    clearance: Of the nut's pitch diameter over the screw's. Empty: between the middles of the class's limits.
    """

    size: Thread | None = thread("Thread", example="M10", empty="give a pitch or threads per inch")
    pitch: Fraction | None = travel("Pitch", example="1.5", low=0.05, high=150, empty="the thread's")
    tpi: float | None = number("Threads per inch", example="11.5", low=0.2, high=500, empty="the thread's")
    leadscrew: Fraction = travel("Leadscrew lead", low=0.5, high=26, example="3", required=True, **_lathes("leadscrew"))
    wheels: tuple[int, ...] = several(
        *("counts", "Change wheels"), low=8, high=500, example="20,25,30,127", required=True, **_lathes("change_wheels")
    )
    wheels_used: str = choice("Wheels used at most", ("2", "4", "6"), default="4", example="4")
    module: float = length("Module of the wheels", default=1.0, low=0.3, high=5, example="1", **_lathes("wheel_module"))
    boss: float = length("Stud boss", default=14.0, low=0, high=60, example="14", **_lathes("stud_diameter"))
    nut_length: float | None = length("Length of the nut", high=5000, example="10", empty="1 diameter")
    clearance: float | None = length("Clearance in the nut", high=10, example="0.15", empty="by class")


def _wanted(inputs: ChangeGearsInputs) -> Fraction:
    """The lead to cut; exactly one of the three ways of saying it."""
    given = [name for name in ("size", "pitch", "tpi") if getattr(inputs, name) is not None]
    if not given:
        text = "size: a thread, a pitch or tpi is needed."
        raise BadInput("size", "", "a thread, or a pitch, or tpi", text)
    if len(given) > 1:
        text = f"{given[1]}: give one of size, pitch and tpi, not {' and '.join(given)}."
        raise BadInput(given[1], str(getattr(inputs, given[1])), "one of size, pitch and tpi", text)
    if inputs.size is not None:
        return inputs.size.lead
    if inputs.pitch is not None:
        return inputs.pitch
    assert inputs.tpi is not None
    as_typed = Fraction(inputs.tpi).limit_denominator(1000)  # 8/3 stays exact, 11.5 too
    return MM_PER_INCH / (as_typed if float(as_typed) == inputs.tpi else Fraction(repr(float(inputs.tpi))))


def _names(wheels: Sequence[int]) -> str:
    return ", ".join(str(teeth) for teeth in wheels)


def _path(train: Train) -> str:
    """The train as it is set up, from the spindle to the leadscrew."""
    if train.wheels == 2:
        return f"{train.drivers[0]} → idler → {train.driven[0]}"
    return " · ".join(f"{a} → {b}" for a, b in zip(train.drivers, train.driven, strict=True))


def _product(train: Train) -> str:
    return f"{' x '.join(map(str, train.drivers))} ÷ {' ÷ '.join(map(str, train.driven))}"


def _dial_words(rule: DialRule, dial: ThreadDial | None) -> str:
    if rule.kind == "anywhere":
        return "close the half-nuts anywhere"
    if rule.kind == "closed" or dial is None:
        return "leave the half-nuts closed"
    wheel = f", dial on its {rule.teeth}-tooth wheel" if len(dial.teeth) > 1 else ""
    if rule.every == 1:
        return "any line of the dial" + wheel
    if rule.every == dial.lines:
        return "the same line of the dial each time" + wheel
    return "lines " + _names(rule.lines_of(dial.lines)) + wheel


def _dial_figure(*, lead: Fraction, leadscrew: Fraction, dial: ThreadDial | None) -> Figure:
    teeth, lines = (dial.teeth, dial.lines) if dial else ((), 1)
    rule = dial_rule(lead=lead, leadscrew=leadscrew, teeth=teeth, lines=lines)
    screw, work = shown(float(leadscrew), decimals=4), shown(float(lead), decimals=4)
    why: Text = "no line of the dial comes back to a whole number of leads of both; reverse the spindle to return"
    if rule.kind == "lines" and dial is not None:
        text = (
            "one line is {teeth} teeth x {screw} ÷ {lines} lines = {line}; {whole} a whole number of leads of both "
            "the work ({work}) and the leadscrew"
        )
        line = shown(float(rule.teeth * leadscrew / dial.lines), decimals=4)
        whole = "it is" if rule.every == 1 else f"{rule.every} of them are"
        why = say(text, teeth=rule.teeth, screw=screw, lines=dial.lines, line=line, whole=whole, work=work)
    elif rule.kind == "anywhere":
        why = say("the leadscrew's lead, {screw}, is a whole number of leads of the work", screw=screw)
    return words("thread_dial", "Thread dial", _dial_words(rule, dial), _DIAL_SOURCE, why)


def _trains_table(trains: Sequence[Train], wanted: Fraction, inputs: ChangeGearsInputs) -> Table:
    rows = []
    for train in trains:
        cut = lead_cut(train=train, leadscrew=inputs.leadscrew)
        ppm = error_ppm(lead=cut, wanted=wanted)
        room = min(clearances(train=train, module=inputs.module, boss=inputs.boss), default=None)
        rows.append((_names(train.drivers), _names(train.driven), float(cut), ppm, room))
    columns = (
        *(Column("drivers", "Drivers"), Column("driven", "Driven"), Column("lead", "Lead cut", "length", 5)),
        *(Column("error_ppm", "Error", "ppm"), Column("room", "Room at the studs", "length", 1)),
    )
    return Table("trains", "Trains, best first", columns, tuple(rows), source=f"{_SOURCE}; the room is geometry")


def _starts_table(train: Train, cut: Fraction, inputs: ChangeGearsInputs, shop: Shop) -> Table | None:
    """How each start of a thread is come to: by the first driver's teeth, and by the thread dial where it serves."""
    starts = inputs.size.starts if inputs.size is not None else 1
    if starts < 2:
        return None
    by_dial = lines_of_starts(cut, starts, inputs.leadscrew, shop.lathe.thread_dial if shop.lathe else None)
    rows: list[tuple[Cell, ...]] = []
    for k in range(starts):
        teeth_on = Fraction(train.drivers[0] * k, starts)
        on = int(teeth_on) if teeth_on.denominator == 1 else None
        rows.append((k + 1, on, _names(by_dial[k]) if by_dial else "no lines serve", float(k * cut / starts)))
    columns = (
        *(Column("start", "Start", "count"), Column("teeth_on", f"Teeth of the {train.drivers[0]} on", "count")),
        *(Column("dial_lines", "Lines of the thread dial"), Column("shift", "Along by", "length", 4)),
    )
    source = "arithmetic: one start is 1 ÷ starts of a turn, or one pitch along"
    return Table("starts", "Starts, from the first", columns, tuple(rows), "start", ("teeth_on",), source)


def _clearance(inputs: ChangeGearsInputs) -> float | None:
    """Room on the pitch diameter: as given, else between the middles of the usual class's limits."""
    if inputs.clearance is not None or inputs.size is None:
        return inputs.clearance
    sizes = limits(inputs.size)
    bounds = (sizes.int_pitch_min, sizes.int_pitch_max, sizes.ext_pitch_min, sizes.ext_pitch_max)
    known = [size for size in bounds if size is not None]
    return (known[0] + known[1] - known[2] - known[3]) / 2 if len(known) == 4 else None


def _binding(inputs: ChangeGearsInputs, lead: float, ppm: float) -> tuple[list[Figure], list[Note]]:
    """Where the error of the lead would bind the screw in its nut."""
    clearance = _clearance(inputs)
    if not ppm or not clearance:
        return [], []
    half_angle = form(inputs.size).half_angle if inputs.size is not None else _USUAL_FLANK
    to_bind, turns = until_it_binds(room=clearance, half_angle=half_angle, lead_error_ppm=ppm, lead=lead)
    last = say("{sums}; the lead last", sums=turns)
    found = [
        figure("to_bind", "Binds in a nut over", to_bind, BINDS, decimals=1, side="down"),
        figure("turns_to_bind", "Turns until it binds", turns, BINDS, last, decimals=1, side="down"),
    ]
    nut = inputs.nut_length or (inputs.size.diameter if inputs.size is not None else None)
    if nut is None or float(to_bind) >= nut:
        return found, []
    text = "With this error the screw binds after {turned} turns, before the nut's {all} are filled."
    turned = shown(turns, decimals=1, side="down")
    return found, [Note("warning", say(text, turned=turned, all=figures(nut / lead, 1)))]


def _start_notes(size: Thread, trains: Sequence[Train]) -> Iterator[Note]:
    """How to come to the next start: never by a top slide that is swivelled."""
    starts, first = size.starts, trains[0].drivers[0]
    if first % starts == 0:
        text = (
            "{starts} starts: chalk a tooth of the {first} and its space, drop the mesh, turn the spindle on until "
            "{teeth} teeth have passed, mesh again. It must turn with the spindle, tooth for tooth."
        )
        yield Note("info", say(text, starts=starts, first=first, teeth=first // starts))
    else:
        other = next((train for train in trains if train.drivers[0] % starts == 0), None)
        text = "{starts} starts: the {first} has no whole number of teeth for a start; {instead}."
        instead = f"{_path(other)} has" if other else "index by the top slide or the thread dial"
        yield Note("info", say(text, starts=starts, first=first, instead=instead))
    text = (
        "Or set the top slide parallel to the bed, feed in with the cross slide, and move the top slide on by the "
        "pitch, {pitch}, for each next start: never a slide that stands at an angle."
    )
    yield Note("info", say(text, pitch=shown(float(size.pitch), decimals=4)))


def _notes(inputs: ChangeGearsInputs, wanted: Fraction, ppm: float, search: Search) -> Iterator[Note]:
    size = inputs.size
    if size is not None and size.left_hand:
        yield Note("info", "Left hand: turn the leadscrew the other way (one idler more, or the tumbler).")
    if size is not None and size.starts > 1:
        yield from _start_notes(size, search.trains)
    if abs(ppm) > _SLIGHT:
        text = "The best of these wheels is {error} % out: for short threads at most."
        yield Note("warning", say(text, error=figures(abs(ppm) / 10_000, 2)))
    if wanted > 2 * inputs.leadscrew:
        yield Note("warning", "A lead this coarse strains the wheels: drive from the leadscrew by hand.")
    if search.nearest:
        text = "So many trains lie near this lead that only the nearest {tried} were tried for room at the studs."
        yield Note("info", say(text, tried=search.tried))
    if search.fewer_wheels:
        text = "Trains of six are searched for in sets of up to {most} wheels; four were searched for here."
        yield Note("info", say(text, most=MOST_FOR_SIX))


def _change_gears(inputs: ChangeGearsInputs, shop: Shop) -> Answer:
    wanted = _wanted(inputs)
    screw, wheels, module, boss = inputs.leadscrew, inputs.wheels, inputs.module, inputs.boss
    most = int(inputs.wheels_used) // 2
    search = ranked_trains(wanted=wanted, leadscrew=screw, wheels=wheels, most_pairs=most, module=module, boss=boss)
    trains = search.trains
    if not trains:
        text = "wheels: no train of these that clears the studs comes within a tenth of {near}; give more wheels."
        refusal = say(text, near=shown(float(wanted)))
        raise BadInput("wheels", _names(wheels), "wheels that come nearer", refusal)
    cut = lead_cut(train=trains[0], leadscrew=screw)
    ppm = error_ppm(lead=cut, wanted=wanted)
    drawn = train_picture(trains[0], module=module, boss=boss, idler=idler_of(trains[0], wheels, module, boss))
    binding, warnings = _binding(inputs, float(wanted), ppm)
    starts = _starts_table(trains[0], cut, inputs, shop)
    return Answer(
        figures=(*_figures(inputs, shop, trains[0], cut, wanted), *binding),
        tables=(*([starts] if starts else []), _trains_table(trains, wanted, inputs)),
        pictures=(drawn,),
        notes=(*warnings, *_notes(inputs, wanted, ppm, search)),
        moments=(Situation(machine="lathe", thread=inputs.size),),
    )


def _figures(inputs: ChangeGearsInputs, shop: Shop, best: Train, cut: Fraction, wanted: Fraction) -> list[Figure]:
    ppm, ratio = error_ppm(lead=cut, wanted=wanted), cut / wanted
    product = say("{screw} x {wheels}", screw=put(inputs.leadscrew), wheels=_product(best))
    exactly = "(({top} ÷ {bottom}) - 1) x 1000000; the lead cut over the lead wanted, exactly"
    why = say(exactly, top=ratio.numerator, bottom=ratio.denominator)
    over = say("{over} x {ppm} ÷ 1000000", over=put(100), ppm=general(ppm))
    found = [
        words("train", "Spindle to leadscrew", _path(best), _SOURCE, _mesh_words(best, inputs)),
        Figure("lead_cut", "Lead cut", float(cut), "length", _SOURCE, product, decimals=5),
        Figure("error_ppm", "Error of the lead", ppm, "ppm", _EXACT, why),
        Figure("error_per_100", "Error in 100 mm", ppm / 10_000, "length", _EXACT, over, decimals=4),
        words("drivers", "Drivers", _names(best.drivers), _SOURCE, "first on the spindle's side"),
        words("driven", "Driven", _names(best.driven), _SOURCE, "last on the leadscrew"),
        _dial_figure(lead=cut, leadscrew=inputs.leadscrew, dial=shop.lathe.thread_dial if shop.lathe else None),
    ]
    if inputs.tpi is not None or (inputs.size is not None and inputs.size.inch):
        each = leaf(float((INCH / mm(cut)).value), "tpi")
        per_inch = say("{inch} ÷ {cut}", inch=put(MM_PER_INCH), cut=put(cut))
        found.insert(2, figure("tpi_cut", "Threads per inch cut", each, _SOURCE, per_inch))
    return found


def _mesh_words(train: Train, inputs: ChangeGearsInputs) -> Text:
    if train.wheels == 2:
        return "a simple train; an idler of any size between the two does not alter the lead"
    room = min(clearances(train=train, module=inputs.module, boss=inputs.boss))
    text = "module {module}, boss {boss}: the nearest wheel clears a boss by {room}"
    boss, near = shown(inputs.boss, decimals=1), shown(room, decimals=1)
    return say(text, module=general(inputs.module), boss=boss, room=near)


def _the_rule(inputs: ChangeGearsInputs, answer: Answer, shop: Shop) -> Text:
    return answer.figure("thread_dial").text


OPERATION = Operation(
    id="change-gears",
    pane="threads",
    place=50,
    title="Change wheels",
    words="gears train leadscrew lead screw thread dial half nuts halfnut threading wheels change gear gearbox banjo "
    "quadrant compound simple idler metric conversion 127 pitch tpi",
    inputs=ChangeGearsInputs,
    work=_change_gears,
    tool="change wheels",
    hazards=("change-wheels", "screwcutting"),
    example={"size": "M10", "wheels_used": "4"},
    troubles={"TH-01": where_it_binds, "TH-08": _the_rule},
    help="Finds the change wheels of your set that cut a thread, and when to close the half-nuts.",
)
