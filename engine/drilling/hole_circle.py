"""Holes on a circle: every hole as coordinates and as turns and readings of the table's handwheels."""

from __future__ import annotations

from math import hypot

from engine.base import declare as ask
from engine.base.answer import Answer, Cell, Figure, Note, Table, figure, heads, info, to_set, warning
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.setting import Setting
from engine.base.sums import deg, mm, num, root, sin
from engine.base.words import Text, plain, put, say, shown
from engine.drilling.hole_pictures import circle_picture
from engine.drilling.patterns import MOST_HOLES, Place, axis_setting, chord, on_circle
from engine.drilling.troubles import spot_first
from engine.indexing.dials import DialSetting, back_off, on_dial
from engine.shop.model import Mill, Shop, Slide
from engine.situation import Situation

_GEOMETRY = "geometry"

_Setting = tuple[DialSetting, DialSetting]  # of the handwheels for x and for y


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleCircleInputs:
    """What `hole-circle` is told.

    holes: Evenly spaced, all the way round.
    diameter: Pitch circle: through the centres of the holes.
    start_angle: From the x axis (three o'clock), anticlockwise.
    centre_x: From the datum, the edge or point that you measure from, to the right.
    centre_y: From the datum, the edge or point that you measure from, away from you.
    x_from: Where turns and readings are counted from. Left of every hole, none is counted backwards.
    y_from: As for x. Nearer to you than every hole, no turn is counted backwards.
    direction: Which way round hole 2 follows hole 1, seen from above.
    hole: To see how much metal is left between the holes.
    """

    holes: int = ask.count("Number of holes", low=2, high=MOST_HOLES, example="6")
    diameter: float = ask.length("Circle diameter", high=5000, example="50")
    start_angle: float = ask.angle("Angle of hole 1", low=-360, high=360, default=0.0, example="90")
    centre_x: float = ask.length("Centre x", low=-10_000, high=10_000, default=0.0, example="0")
    centre_y: float = ask.length("Centre y", low=-10_000, high=10_000, default=0.0, example="0")
    x_from: float = ask.length("Dial zero at x", low=-10_000, high=10_000, default=0.0, example="-40")
    y_from: float = ask.length("Dial zero at y", low=-10_000, high=10_000, default=0.0, example="-40")
    direction: str = ask.choice(
        "Numbered", ("anticlockwise", "clockwise"), default="anticlockwise", example="anticlockwise"
    )
    hole: float | None = ask.diameter("Hole diameter", empty="not known", example="5.5", high=1000)


def _work(inputs: HoleCircleInputs, shop: Shop) -> Answer:
    places = on_circle(holes=inputs.holes, diameter=inputs.diameter, start_angle=inputs.start_angle,
        centre_x=inputs.centre_x, centre_y=inputs.centre_y, clockwise=inputs.direction == "clockwise")  # fmt: skip
    settings, mill = _settings(inputs, places, shop.mill), shop.mill
    figures, table = (*_first(inputs, settings, mill), *_figures(inputs, settings)), _table(places, settings, mill)
    moment, notes = Situation(machine="mill", tool_diameter=inputs.hole), tuple(_notes(inputs, places, mill))
    drawn = circle_picture(places, (inputs.centre_x, inputs.centre_y), diameter=inputs.diameter, hole=inputs.hole,
        way=inputs.direction, start=inputs.start_angle)  # fmt: skip
    return Answer(figures, (table,), (drawn,), notes, moments=(moment,))


def _first(inputs: HoleCircleInputs, settings: list[_Setting], mill: Mill | None) -> tuple[Figure, ...]:
    """What the hand sets next: both handwheels for hole 1."""
    if mill is None or not settings:
        return ()
    source = "each hole rounded by itself to a line of either dial (common practice, no source)"
    found = []
    for axis, setting, zero in zip("xy", _on_dials(settings[0], mill), (inputs.x_from, inputs.y_from), strict=True):
        working = say("hole 1 from the dial's zero at {zero}: {there}", zero=put(zero), there=put(setting.distance))
        found.append(to_set(f"first_{axis}", f"Hole 1, {axis}", setting, source, working))
    return tuple(found)


def _on_dials(settings: _Setting, mill: Mill) -> tuple[Setting, ...]:
    """Both handwheels as the hand sets them."""
    found = []
    for axis, slide, stands in zip("xy", (mill.x, mill.y), settings, strict=True):
        turn, line = float(slide.travel_per_turn), float(slide.travel_per_turn / slide.divisions)
        there = stands.turns * turn + stands.lines * line
        found.append(on_dial(f"Table {axis}", stands, slide.travel_per_turn, slide.divisions, distance=there))
    return tuple(found)


def _figures(inputs: HoleCircleInputs, settings: list[_Setting]) -> list[Figure]:
    holes = inputs.holes
    across = chord(holes=holes, diameter=inputs.diameter)
    working = mm(inputs.diameter) * sin(deg(180) / num(holes))
    figures = [
        Figure("chord", "Chord, hole to hole", across, "length", "D sin(180 ÷ n); " + _GEOMETRY, working),
        figure("angle", "Angle between holes", deg(360) / num(holes), "360 ÷ n"),
    ]
    if inputs.hole is not None:
        figures.append(figure("between", "Metal between holes", mm(across) - mm(inputs.hole), _GEOMETRY, decimals=2))
    if settings:
        worst = max(range(holes), key=lambda at: _off(settings[at]))
        x, y = (mm(abs(setting.error)) for setting in settings[worst])
        source = "each hole rounded by itself to a line of either dial (common practice, no source)"
        text = say("hole {hole}: {sum}", hole=worst + 1, sum=root(x**2 + y**2))
        off = _off(settings[worst])
        figures.append(Figure("worst_error", "Worst position error", off, "length", source, text, decimals=4))
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


def _table(places: tuple[Place, ...], settings: list[_Setting], mill: Mill | None) -> Table:
    columns = [*heads(number=("Hole", "count"), x=("x", "length"), y=("y", "length"))]
    rows: list[tuple[Cell, ...]] = [(place.number, place.x, place.y) for place in places]
    if settings and mill is not None:
        columns += [
            *heads(x_turns=("x turns", "count"), x_reading=("x dial", "length"), y_turns=("y turns", "count")),
            *heads(y_reading=("y dial", "length"), error=("Off by", "length", 4), x_set="Set x", y_set="Set y"),
        ]
        rows = [
            (*row, x.turns, x.reading, y.turns, y.reading, _off((x, y)), *_on_dials((x, y), mill))
            for row, (x, y) in zip(rows, settings, strict=True)
        ]
    title, lead = (
        "Each hole" + (" and its handwheels" if settings else ""),
        ("x_set", "y_set") if settings else ("x", "y"),
    )
    return Table("holes", title, tuple(columns), tuple(rows), "hole", lead, _GEOMETRY)


def _notes(inputs: HoleCircleInputs, places: tuple[Place, ...], mill: Mill | None) -> list[Note]:
    if mill is None:
        return [info("The shop has no mill: coordinates without handwheel settings.")]
    play = [slide.backlash for slide in (mill.x, mill.y) if slide.backlash is not None]
    has = say("the screws have up to {slack} of backlash", slack=plain(max(play))) if play else ""
    has, back = has or "how much backlash the screws have is not known", plain(max(_back(mill.x), _back(mill.y)))
    notes = [info("Come up to every reading from below: first go back past it by {back}; {has}.", back=back, has=has)]
    if any(p.x < inputs.x_from for p in places) or any(p.y < inputs.y_from for p in places):
        notes.append(_backwards(places))
    if inputs.hole is not None:
        notes += _between(chord(holes=inputs.holes, diameter=inputs.diameter) - inputs.hole, inputs.hole)
    return notes


def _back(slide: Slide) -> float:
    return float(back_off(travel_per_turn=slide.travel_per_turn, backlash=slide.backlash))


def _backwards(places: tuple[Place, ...]) -> Note:
    """How negative turns are counted, and the zero left of and before every hole that spares them."""
    left, front = (shown(min(at), decimals=0, side="down") for at in zip(*((p.x, p.y) for p in places), strict=True))
    text = "Negative turns: count back past zero, but read the dial upwards. To count forwards only, zero the dials at "
    return info(text + "x {left} and y {front}.", left=left, front=front)


_LEAST_WALL = 0.25  # of the hole's diameter: less metal than that between two holes gives way (common practice)


def _between(wall: float, hole: float) -> list[Note]:
    """Holes that meet, or nearly."""
    if wall <= 1e-9:
        return [warning("The holes run into each other by {over}.", over=shown(-wall, decimals=2))]
    if wall < hole * _LEAST_WALL - 1e-9:
        return [warning("Only {wall} of metal is left between holes.", wall=shown(wall, decimals=2))]
    return []


def _play(inputs: HoleCircleInputs, answer: Answer, shop: Shop) -> Text:
    """Play of the owned table."""
    x, y = (shop.mill.x.backlash, shop.mill.y.backlash) if shop.mill else (None, None)
    return say("x has {x}, y {y} of play", x=shown(x), y=shown(y)) if x is not None and y is not None else ""


OPERATION = Operation(
    id="hole-circle",
    pane="drilling",
    place=80,
    title="Holes on a circle",
    words="bolt circle coordinates pcd flange pitch circle diameter bcd ring of holes evenly spaced holes stud circle "
    "polar table handwheel chord",
    machine="mill",
    inputs=HoleCircleInputs,
    work=_work,
    tool="drill",
    hazards=("drilling", "clamping"),
    example={"holes": "6", "diameter": "50", "start_angle": "90"},
    troubles={"DR-01": spot_first, "DR-02": None, "DR-07": _play, "IN-03": None},
    help="Gives every hole of a circle as coordinates and as turns and readings of the table's handwheels.",
)
