"""The operation about change wheels."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from engine.base.answer import Answer, Column, Figure, Note, Table
from engine.base.declare import choice, length, number, several, thread, travel
from engine.base.operation import Operation
from engine.base.quantity import show, worked
from engine.base.refusals import BadInput
from engine.base.rounding import rounded
from engine.shop.model import Shop, ThreadDial
from engine.threads.fit import fit
from engine.threads.form import form
from engine.threads.gears import Train, clearances, error_ppm, lead_cut, ranked_trains
from engine.threads.limits import limits
from engine.threads.thread import Thread
from engine.threads.thread_dial import DialRule, dial_rule

_INCH = Fraction(127, 5)  # mm, exact: 1959 agreement
_SOURCE = "F. D. Jones, Turning and Boring, 1914, pp. 168-172; the wheels of this shop searched exactly"
_DIAL_SOURCE = "F. D. Jones, Turning and Boring, 1914, pp. 141-143; the general rule is derived"
_USUAL_FLANK = 30.0  # deg, taken when a pitch alone is given


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeGearsInputs:
    """What `change-gears` is told: one of size, pitch and tpi."""

    size: Thread | None = thread(
        "Thread", example="M10", empty="give a pitch or threads per inch", help="The thread to cut."
    )
    pitch: Fraction | None = travel(
        "Pitch",
        example="1.5",
        low=0.05,
        high=150,
        empty="the thread's",
        help="Its pitch; of a thread with several starts its lead.",
    )
    tpi: float | None = number(
        "Threads per inch",
        example="11.5",
        low=0.2,
        high=500,
        empty="the thread's",
        help="Or so many an inch.",
    )
    leadscrew: Fraction = travel(
        "Leadscrew lead",
        example="3",
        low=0.5,
        high=26,
        empty="the lathe's",
        from_shop=lambda shop: shop.lathe.leadscrew,
        help="`3` or `8 tpi`. On a lathe with a fixed gear before the wheels: what equal wheels cut.",
    )
    wheels: tuple[int, ...] = several(
        "counts",
        "Change wheels",
        example="20,25,30,127",
        low=8,
        high=500,
        empty="the lathe's",
        from_shop=lambda shop: shop.lathe.change_wheels,
        help="Teeth of every wheel; write a wheel twice if there are two.",
    )
    wheels_used: str = choice(
        "Wheels used at most",
        ("2", "4", "6"),
        default="4",
        example="4",
        help="Two: a simple train with an idler. Four or six: compound.",
    )
    module: float = length(
        "Module of the wheels",
        default=1.0,
        low=0.3,
        high=5,
        example="1",
        empty="the lathe's",
        from_shop=lambda shop: shop.lathe.wheel_module,
        help="Used to see that wheels clear the studs.",
    )
    boss: float = length(
        "Diameter of a stud's boss",
        default=14.0,
        low=0,
        high=60,
        example="14",
        empty="the lathe's",
        from_shop=lambda shop: shop.lathe.stud_diameter,
        help="Used to see that wheels clear the studs.",
    )
    nut_length: float | None = length(
        "Length of the nut",
        high=5000,
        example="10",
        empty="one diameter of the thread",
        help="How far the screw is to go into its nut: an error of lead may bind it before.",
    )
    clearance: float | None = length(
        "Clearance in the nut",
        high=10,
        example="0.15",
        empty="between the middles of the class's limits",
        help="Of the nut's pitch diameter over the screw's.",
    )


def _wanted(inputs: ChangeGearsInputs) -> Fraction:
    """The lead to cut; exactly one of the three ways of saying it."""
    given = [name for name in ("size", "pitch", "tpi") if getattr(inputs, name) is not None]
    if not given:
        raise BadInput(
            "size", "", "a thread, or a pitch, or tpi", "size: a thread, a pitch or tpi is needed."
        )
    if len(given) > 1:
        text = f"{given[1]}: give one of size, pitch and tpi, not {' and '.join(given)}."
        raise BadInput(given[1], str(getattr(inputs, given[1])), "one of size, pitch and tpi", text)
    if inputs.size is not None:
        return inputs.size.lead
    if inputs.pitch is not None:
        return inputs.pitch
    assert inputs.tpi is not None
    return _INCH / Fraction(repr(float(inputs.tpi)))


def _names(wheels: tuple[int, ...]) -> str:
    return ", ".join(str(teeth) for teeth in wheels)


def _path(train: Train) -> str:
    """The train as it is set up, from the spindle to the leadscrew."""
    if train.wheels == 2:
        return f"{train.drivers[0]} → idler → {train.driven[0]}"
    return " · ".join(f"{a} → {b}" for a, b in zip(train.drivers, train.driven, strict=True))


def _product(train: Train) -> str:
    drivers = " x ".join(map(str, train.drivers))
    return f"{drivers} ÷ {' ÷ '.join(map(str, train.driven))}"


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


def _dial_figure(*, lead: Fraction, leadscrew: Fraction, dial: ThreadDial | None, unit: str) -> Figure:
    rule = dial_rule(
        lead=lead, leadscrew=leadscrew, teeth=dial.teeth if dial else (), lines=dial.lines if dial else 1
    )
    screw, work = (show(float(length), "length", unit, decimals=4) for length in (leadscrew, lead))
    if rule.kind == "lines" and dial is not None:
        line = show(float(rule.teeth * leadscrew / dial.lines), "length", unit, decimals=4)
        whole = "it is" if rule.every == 1 else f"{rule.every} of them are"
        why = (
            f"one line is {rule.teeth} teeth x {screw} ÷ {dial.lines} lines = {line}; "
            f"{whole} a whole number of leads of both the work ({work}) and the leadscrew"
        )
    elif rule.kind == "anywhere":
        why = f"the leadscrew's lead, {screw}, is a whole number of leads of the work"
    else:
        why = (
            "no line of the dial comes back to a whole number of leads of both; reverse the spindle to return"
        )
    return Figure("thread_dial", "Thread dial", None, "text", _DIAL_SOURCE, why, text=_dial_words(rule, dial))


def _trains_table(trains: list[Train], wanted: Fraction, inputs: ChangeGearsInputs) -> Table:
    rows = []
    for train in trains:
        cut = lead_cut(train=train, leadscrew=inputs.leadscrew)
        ppm = error_ppm(lead=cut, wanted=wanted)
        room = clearances(train=train, module=inputs.module, boss=inputs.boss)
        rows.append((_names(train.drivers), _names(train.driven), float(cut), ppm, min(room, default=None)))
    return Table(
        name="trains",
        label="Trains, best first",
        columns=(
            Column("drivers", "Drivers"),
            Column("driven", "Driven"),
            Column("lead", "Lead cut", "length", 5),
            Column("error_ppm", "Error", "ppm"),
            Column("room", "Room at the studs", "length", 1),
        ),
        rows=tuple(rows),
        source=f"{_SOURCE}; the room is geometry",
    )


def _clearance(inputs: ChangeGearsInputs) -> float | None:
    """Room on the pitch diameter: as given, else between the middles of the usual class's limits."""
    if inputs.clearance is not None or inputs.size is None:
        return inputs.clearance
    sizes = limits(inputs.size)
    bounds = (sizes.int_pitch_min, sizes.int_pitch_max, sizes.ext_pitch_min, sizes.ext_pitch_max)
    known = [size for size in bounds if size is not None]
    return (known[0] + known[1] - known[2] - known[3]) / 2 if len(known) == 4 else None


def _binding(
    inputs: ChangeGearsInputs, lead: float, ppm: float, unit: str
) -> tuple[list[Figure], list[Note]]:
    """Where the error of the lead would bind the screw in its nut."""
    clearance = _clearance(inputs)
    if not ppm or not clearance:
        return [], []
    half_angle = form(inputs.size).half_angle if inputs.size is not None else _USUAL_FLANK
    nut = inputs.nut_length or (inputs.size.diameter if inputs.size is not None else None)
    found = fit(
        screw=0.0, nut=clearance, lead=lead, half_angle=half_angle, engagement=nut or 1.0, lead_error_ppm=ppm
    )
    if found.to_bind is None or found.turns_to_bind is None:
        return [], []
    source = "clearance x tan a ÷ error of lead: a metrology course, whose worked example agrees"
    working = f"{worked(clearance, unit)} x tan {half_angle:g}° ÷ ({abs(ppm):.6g} ÷ 1000000)"
    turns = f"{working} ÷ {worked(lead, unit)}; the lead last"
    figures = [
        Figure(
            "to_bind", "Binds in a nut longer than", found.to_bind, "length", source, working, decimals=1, side="down"
        ),
        Figure(
            "turns_to_bind", "Turns until it binds", found.turns_to_bind, "ratio", source, turns,
            decimals=1, side="down",
        ),
    ]  # fmt: skip
    if nut is None or found.to_bind >= nut:
        return figures, []
    turned = rounded(found.turns_to_bind, 1, "down")
    words = (
        f"With this error the screw binds after {turned} turns, before the nut's {nut / lead:.1f} are filled."
    )
    return figures, [Note("warning", words)]


def _notes(inputs: ChangeGearsInputs, wanted: Fraction, ppm: float, unit: str) -> list[Note]:
    notes = []
    if inputs.size is not None and inputs.size.left_hand:
        notes.append(
            Note("info", "Left hand: turn the leadscrew the other way (one idler more, or the tumbler).")
        )
    if inputs.size is not None and inputs.size.starts > 1:
        starts = inputs.size.starts
        pitch = show(float(inputs.size.pitch), "length", unit, decimals=4)
        notes.append(
            Note(
                "info", f"{starts} starts: move the top slide on by the pitch, {pitch}, for each next start."
            )
        )
    if abs(ppm) > 1000:
        notes.append(
            Note(
                "warning",
                f"The best of these wheels is {abs(ppm) / 10_000:.2f} % out: for short threads at most.",
            )
        )
    if wanted > 2 * inputs.leadscrew:
        notes.append(
            Note("warning", "A lead this coarse strains the wheels: drive from the leadscrew by hand.")
        )
    return notes


def _change_gears(inputs: ChangeGearsInputs, shop: Shop) -> Answer:
    wanted = _wanted(inputs)
    trains = ranked_trains(
        wanted=wanted,
        leadscrew=inputs.leadscrew,
        wheels=inputs.wheels,
        most_pairs=int(inputs.wheels_used) // 2,
        module=inputs.module,
        boss=inputs.boss,
    )
    if not trains:
        near = show(float(wanted), "length", shop.unit)
        text = f"wheels: no train of these that clears the studs comes within a tenth of {near}; give more wheels."
        raise BadInput("wheels", _names(inputs.wheels), "wheels that come nearer", text)
    best = trains[0]
    cut = lead_cut(train=best, leadscrew=inputs.leadscrew)
    ppm, ratio, unit = error_ppm(lead=cut, wanted=wanted), cut / wanted, shop.unit
    binding, warnings = _binding(inputs, float(wanted), ppm, unit)
    figures = [
        Figure(
            "train",
            "Wheels, spindle to leadscrew",
            None,
            "text",
            _SOURCE,
            _mesh_words(best, inputs, unit),
            text=_path(best),
        ),
        Figure(
            "lead_cut",
            "Lead cut",
            float(cut),
            "length",
            _SOURCE,
            f"{worked(float(inputs.leadscrew), unit)} x {_product(best)}",
            decimals=5,
        ),
        Figure(
            "error_ppm",
            "Error of the lead",
            ppm,
            "ppm",
            "arithmetic on exact fractions",
            f"(({ratio.numerator} ÷ {ratio.denominator}) - 1) x 1000000; the lead cut over the lead wanted, exactly",
        ),
        Figure(
            "error_per_100",
            f"Error in 100 mm{'' if unit == 'mm' else ' (3.937 in)'} of thread",
            ppm / 10_000,
            "length",
            "arithmetic on exact fractions",
            f"{worked(100, unit)} x {ppm:.6g} ÷ 1000000",
            decimals=4,
        ),
        Figure(
            "drivers",
            "Drivers",
            None,
            "text",
            _SOURCE,
            "first on the spindle's side",
            text=_names(best.drivers),
        ),
        Figure("driven", "Driven", None, "text", _SOURCE, "last on the leadscrew", text=_names(best.driven)),
        _dial_figure(
            lead=cut,
            leadscrew=inputs.leadscrew,
            dial=shop.lathe.thread_dial if shop.lathe else None,
            unit=unit,
        ),
    ]
    if inputs.tpi is not None or (inputs.size is not None and inputs.size.inch):
        each = _INCH / cut
        figures.insert(
            2,
            Figure(
                "tpi_cut",
                "Threads per inch cut",
                float(each),
                "tpi",
                _SOURCE,
                f"{worked(25.4, unit)} ÷ {worked(float(cut), unit)}",
            ),
        )
    return Answer(
        figures=(*figures, *binding),
        tables=(_trains_table(trains, wanted, inputs),),
        notes=(*warnings, *_notes(inputs, wanted, ppm, unit)),
    )


def _mesh_words(train: Train, inputs: ChangeGearsInputs, unit: str) -> str:
    if train.wheels == 2:
        return "a simple train; an idler of any size between the two does not alter the lead"
    room = min(clearances(train=train, module=inputs.module, boss=inputs.boss))
    return (
        f"module {inputs.module:g}, boss {show(inputs.boss, 'length', unit, decimals=1)}: "
        f"the nearest wheel clears a boss by {show(room, 'length', unit, decimals=1)}"
    )


OPERATIONS = {
    "change-gears": Operation(
        id="change-gears",
        inputs=ChangeGearsInputs,
        work=_change_gears,
        hazards=("change-wheels", "screwcutting"),
        example={"size": "M10", "wheels_used": "4"},
        help="Finds the change wheels of your set that cut a thread, and when to close the half-nuts.",
    )
}
