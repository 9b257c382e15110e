"""The operation `hole-circle`."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, hypot

from engine.base import declare as ask
from engine.base.answer import Answer, Cell, Circle, Column, Figure, Label, Line, Note, Picture, Shape, Table
from engine.base.operation import Operation
from engine.base.quantity import show
from engine.drilling.figures import said
from engine.drilling.patterns import MOST_HOLES, Place, axis_setting, chord, on_circle
from engine.indexing.dials import DialSetting, back_off
from engine.shop.model import Mill, Shop

_GEOMETRY = "geometry"
_MOST_LABELS = 36  # holes; with more the numbers in the picture run into each other

_Setting = tuple[DialSetting, DialSetting]  # of the handwheels for x and for y


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleCircleInputs:
    """What `hole-circle` is told."""

    holes: int = ask.count(
        "Number of holes", low=2, high=MOST_HOLES, example="6", help="Evenly spaced, all the way round."
    )
    diameter: float = ask.length(
        "Circle diameter", high=5000, example="50", help="Pitch circle: through the centres of the holes."
    )
    start_angle: float = ask.angle(
        "Angle of hole 1",
        low=-360,
        high=360,
        default=0.0,
        example="90",
        help="From the x axis (three o'clock), anticlockwise.",
    )
    centre_x: float = ask.length(
        "Centre x",
        low=-10_000,
        high=10_000,
        default=0.0,
        example="0",
        help="From the datum, the edge or point that you measure from, to the right.",
    )
    centre_y: float = ask.length(
        "Centre y",
        low=-10_000,
        high=10_000,
        default=0.0,
        example="0",
        help="From the datum, the edge or point that you measure from, away from you.",
    )
    x_from: float = ask.length(
        "Dial zero at x",
        low=-10_000,
        high=10_000,
        default=0.0,
        example="-40",
        help="Where turns and readings are counted from. Left of every hole, none is counted backwards.",
    )
    y_from: float = ask.length(
        "Dial zero at y",
        low=-10_000,
        high=10_000,
        default=0.0,
        example="-40",
        help="As for x. Nearer to you than every hole, no turn is counted backwards.",
    )
    direction: str = ask.choice(
        "Numbered",
        ("anticlockwise", "clockwise"),
        default="anticlockwise",
        example="anticlockwise",
        help="Which way round hole 2 follows hole 1, seen from above.",
    )
    hole: float | None = ask.diameter(
        "Hole diameter",
        required=False,
        empty="not known",
        example="5.5",
        high=1000,
        help="To see how much metal is left between the holes.",
    )


def _work(inputs: HoleCircleInputs, shop: Shop) -> Answer:
    places = on_circle(
        holes=inputs.holes,
        diameter=inputs.diameter,
        start_angle=inputs.start_angle,
        centre_x=inputs.centre_x,
        centre_y=inputs.centre_y,
        clockwise=inputs.direction == "clockwise",
    )
    settings = _settings(inputs, places, shop.mill)
    return Answer(
        figures=tuple(_figures(inputs, settings, shop.unit)),
        tables=(_table(places, settings),),
        pictures=(_picture(inputs, places, shop.unit),),
        notes=tuple(_notes(inputs, places, shop)),
    )


def _figures(inputs: HoleCircleInputs, settings: list[_Setting], unit: str) -> list[Figure]:
    across = chord(holes=inputs.holes, diameter=inputs.diameter)
    wide, holes = said(inputs.diameter, unit), inputs.holes
    source = "D sin(180 ÷ n); " + _GEOMETRY
    figures = [
        Figure("chord", "Chord, hole to hole", across, "length", source, f"{wide} x sin(180° ÷ {holes})"),
        Figure("angle", "Angle between holes", 360 / holes, "angle", "360 ÷ n", f"360° ÷ {holes}"),
    ]
    if inputs.hole is not None:
        figures.append(
            Figure(
                "between",
                "Metal between holes",
                across - inputs.hole,
                "length",
                _GEOMETRY,
                f"{said(across, unit)} - {said(inputs.hole, unit)}",
                decimals=2,
            )
        )
    if settings:
        worst = max(range(holes), key=lambda at: _off(settings[at]))
        x, y = (said(abs(setting.error), unit) for setting in settings[worst])
        figures.append(
            Figure(
                "worst_error",
                "Furthest off by the dials",
                _off(settings[worst]),
                "length",
                "each hole rounded by itself to a line of either dial (common practice, no source)",
                f"hole {worst + 1}: square root of ({x} squared + {y} squared)",
                decimals=4,
            )
        )
    return figures


def _settings(inputs: HoleCircleInputs, places: tuple[Place, ...], mill: Mill | None) -> list[_Setting]:
    """Both handwheels for every hole; none without a mill."""
    if mill is None:
        return []
    return [
        (axis_setting(mill.x, place.x - inputs.x_from), axis_setting(mill.y, place.y - inputs.y_from))
        for place in places
    ]


def _off(setting: _Setting) -> float:
    return hypot(setting[0].error, setting[1].error)


def _table(places: tuple[Place, ...], settings: list[_Setting]) -> Table:
    columns = [Column("number", "Hole", "count"), Column("x", "x", "length"), Column("y", "y", "length")]
    rows: list[tuple[Cell, ...]] = [(place.number, place.x, place.y) for place in places]
    if settings:
        columns += [
            Column("x_turns", "x turns", "count"),
            Column("x_reading", "x dial", "length"),
            Column("y_turns", "y turns", "count"),
            Column("y_reading", "y dial", "length"),
            Column("error", "Off by", "length", 4),
        ]
        rows = [
            (*row, x.turns, x.reading, y.turns, y.reading, _off((x, y)))
            for row, (x, y) in zip(rows, settings, strict=True)
        ]
    return Table(
        "holes",
        "Each hole" + (" and its handwheels" if settings else ""),
        tuple(columns),
        tuple(rows),
        count_noun="hole",
        setting=("x_turns", "x_reading", "y_turns", "y_reading") if settings else ("x", "y"),
        source=_GEOMETRY,
    )


def _picture(inputs: HoleCircleInputs, places: tuple[Place, ...], unit: str) -> Picture:
    radius = inputs.diameter / 2
    across = chord(holes=inputs.holes, diameter=inputs.diameter)
    size = inputs.hole / 2 if inputs.hole is not None else min(radius / 8, across / 3)
    x, y = inputs.centre_x, inputs.centre_y
    shapes: list[Shape] = [
        Line(x - 1.15 * radius, y, x + 1.15 * radius, y, weight=2),
        Line(x, y - 1.15 * radius, x, y + 1.15 * radius, weight=2),
        Circle(x, y, radius),
    ]
    for place in places:
        shapes.append(Circle(place.x, place.y, size, row=place.number))
        if len(places) <= _MOST_LABELS:
            away = 1 + (size + radius / 10) / radius
            shapes.append(
                Label(x + (place.x - x) * away, y + (place.y - y) * away, str(place.number), row=place.number)
            )
    way = "clockwise" if inputs.direction == "clockwise" else "anticlockwise"
    alt = (
        f"{inputs.holes} holes numbered {way} on a circle of {said(inputs.diameter, unit)}, hole 1 at "
        f"{inputs.start_angle:g} degrees from the x axis."
    )
    return Picture("holes", "The circle from above", tuple(shapes), alt, table="holes")


def _notes(inputs: HoleCircleInputs, places: tuple[Place, ...], shop: Shop) -> list[Note]:
    mill, unit = shop.mill, shop.unit
    if mill is None:
        return [Note("info", "The shop has no mill: coordinates without handwheel settings.")]
    slack = max(mill.x.backlash, mill.y.backlash)
    steps = (back_off(travel_per_turn=s.travel_per_turn, backlash=s.backlash) for s in (mill.x, mill.y))
    text = (
        f"Come up to every reading from below: first go back past it by {said(float(max(steps)), unit)}; the screws "
        f"have up to {said(slack, unit)} of backlash."
    )
    notes = [Note("info", text)]
    behind = any(p.x < inputs.x_from for p in places) or any(p.y < inputs.y_from for p in places)
    if behind:
        left, front = _zero_before(places, unit)
        notes.append(
            Note(
                "info",
                "A turn with a minus is counted back from zero, the reading still counts upwards. To count forwards "
                f"only, zero the dials at x {left:g} and y {front:g} (x_from, y_from).",
            )
        )
    if inputs.hole is not None:
        wall = chord(holes=inputs.holes, diameter=inputs.diameter) - inputs.hole
        if wall <= 0:
            notes.append(
                Note(
                    "warning", f"The holes run into each other by {show(-wall, 'length', unit, decimals=2)}."
                )
            )
        elif wall < inputs.hole / 4:
            notes.append(
                Note(
                    "warning",
                    f"Only {show(wall, 'length', unit, decimals=2)} of metal is left between holes.",
                )
            )
    return notes


def _zero_before(places: tuple[Place, ...], unit: str) -> tuple[int, int]:
    """A whole number of the shop's unit left of and before every hole."""
    scale = 25.4 if unit == "inch" else 1.0
    return floor(min(p.x for p in places) / scale), floor(min(p.y for p in places) / scale)


OPERATIONS = {
    "hole-circle": Operation(
        id="hole-circle",
        inputs=HoleCircleInputs,
        work=_work,
        hazards=("drilling", "clamping"),
        example={"holes": "6", "diameter": "50", "start_angle": "90"},
        help="Gives every hole of a circle as coordinates and as turns and readings of the table's handwheels.",
    )
}
