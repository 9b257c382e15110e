"""The operation `ball-seat`: a ball in the end of a part."""

from __future__ import annotations

from dataclasses import dataclass

from engine.base import declare as ask
from engine.base.answer import Answer, Circle, Column, Figure, Line, Note, Picture, Shape, Table
from engine.base.operation import Operation
from engine.base.quantity import show, worked
from engine.joining.balls import Seat, Way, press_range, seat, ways
from engine.shop.model import Shop


@dataclass(frozen=True, slots=True, kw_only=True)
class BallSeatInputs:
    """What `ball-seat` is told."""

    ball: float = ask.length("Diameter of the ball", low=0.2, high=200, example="4", help="Measured.")
    hole: float = ask.diameter(
        "Diameter of the hole", low=0.1, high=220, example="4", help="Reamed, or as measured."
    )
    stand_out: float = ask.length(
        "Ball stands out", low=0.01, high=200, example="1.2", help="From the end face to the top of the ball."
    )


_WAYS_SOURCE = (
    "press: 0.001 to 0.0025 of the diameter, handbook text in the public domain; retain: a bearing maker's guide to "
    "adhesive joints; stake: common practice, no source; solder: from memory, unconfirmed"
)


def _work(inputs: BallSeatInputs, shop: Shop) -> Answer:
    found = seat(ball=inputs.ball, hole=inputs.hole, stand_out=inputs.stand_out)
    every = ways(ball=inputs.ball, hole=inputs.hole, found=found)
    columns = (
        Column("way", "Way"),
        Column("works", "Works here"),
        Column("hole_low", "Hole from", "length"),
        Column("hole_high", "to", "length"),
        Column("asks", "It asks for"),
    )
    rows = tuple((w.name, "yes" if w.works else "no", w.hole_low, w.hole_high, w.asks) for w in every)
    table = Table("ways", "Ways to hold it", columns, rows, source=_WAYS_SOURCE)
    return Answer(
        figures=_figures(inputs, found, every, shop.unit),
        tables=(table,),
        pictures=(_picture(inputs, found, shop.unit),),
        notes=tuple(_notes(inputs, shop, found)),
    )


def _figures(inputs: BallSeatInputs, found: Seat, every: tuple[Way, ...], unit: str) -> tuple[Figure, ...]:
    geometry = "geometry of the sphere"
    ball, radius = worked(inputs.ball, unit), worked(inputs.ball / 2, unit)
    half = worked(inputs.hole / 2, unit)
    out = worked(inputs.stand_out, unit)
    on_edge = found.rim_depth is not None
    figures = [
        Figure(
            "depth",
            "Hole, flat bottom, to at least" if on_edge else "Hole, flat bottom, to",
            found.depth,
            "length",
            geometry,
            f"ball {ball} - stand-out {out}" + ("; deeper is free, the edge carries it" if on_edge else ""),
            side="up" if on_edge else "nearest",
        ),
        *_contact(inputs, found, unit),
        Figure(
            "hold",
            "Hold it by",
            None,
            "text",
            "see the table of ways",
            _hold_words(inputs, found, unit),
            text=_hold(every),
        ),
    ]
    if found.point_depth is not None:
        figures.append(
            Figure(
                "point_depth",
                "Or, bottom left by a drill, full diameter to",
                found.point_depth,
                "length",
                "geometry of a 118 degree point",
                f"{radius} - {out} + {radius} ÷ sin 59° - {half} ÷ tan 59°",
            )
        )
    if found.rim_depth is not None:
        figures.append(
            Figure(
                "rim_depth",
                "Edge it sits on, below the face",
                found.rim_depth,
                "length",
                geometry,
                f"{radius} + square root of ({radius}² - {half}²) - {out}",
            )
        )
    figures.append(
        Figure(
            "equator_below",
            "Widest part of the ball below the face",
            found.equator_below,
            "length",
            geometry,
            f"{radius} - {out}; below nought it stands clear of the hole",
        )
    )
    return tuple(figures)


def _contact(inputs: BallSeatInputs, found: Seat, unit: str) -> tuple[Figure, ...]:
    """Where the hole touches the ball; nothing for a ball that only rests on the bottom."""
    if found.contact_angle is None:
        return ()
    if found.contact_angle < 90:
        hole, ball = worked(inputs.hole, unit), worked(inputs.ball, unit)
        words = f"arc sine of ({hole} ÷ {ball}), hole by ball: the edge of the hole touches it"
    elif inputs.ball - inputs.hole > 1e-9:
        words = "90°: the wall grips it at its widest part, square to the axis"
    else:
        words = "90°: the wall just touches it at its widest part, square to the axis, without a grip"
    return (
        Figure(
            "contact_angle",
            "Touches the hole, from the axis, at",
            found.contact_angle,
            "angle",
            "geometry of the sphere",
            words,
            decimals=1,
        ),
    )


def _hold(every: tuple[Way, ...]) -> str:
    return (
        ", ".join(way.name for way in every if way.works) or "none of these: see the hole each way asks for"
    )


def _hold_words(inputs: BallSeatInputs, found: Seat, unit: str) -> str:
    difference = inputs.ball - inputs.hole
    size = show(abs(difference), "length", unit)
    than = (
        f"{size} {'larger' if difference > 0 else 'smaller'} than"
        if abs(difference) > 1e-9
        else "the size of"
    )
    where = "below" if found.equator_below >= 0 else "above"
    middle = show(abs(found.equator_below), "length", unit)
    return f"ball {than} the hole, its widest part {middle} {where} the face"


def _notes(inputs: BallSeatInputs, shop: Shop, found: Seat) -> list[Note]:
    notes = []
    unit = shop.unit
    grip = inputs.ball - inputs.hole
    if found.rim_depth is not None:
        most = show(inputs.ball - press_range(inputs.ball)[1], "length", unit)
        text = f"The hole is too small for the ball to go in: it sits on the edge. A press fit wants {most} or more."
        notes.append(Note("info", text))
    elif found.equator_below <= 0:
        text = (
            f"The ball stands out by half of it or more: the wall cannot grip it. Keep the stand-out under "
            f"{show(inputs.ball / 2, 'length', unit)}."
        )
        notes.append(Note("warning", text))
    if grip < -1e-9:
        loose = show(-grip, "length", unit)
        text = (
            f"The ball is {loose} loose in the hole: it rests on the bottom, and the wall does not centre it."
        )
        notes.append(Note("info", text))
    if found.rim_depth is None and found.equator_below > 0 and grip > 0.0005 * inputs.ball:
        share = 100 * grip / inputs.ball
        notes.append(
            Note(
                "info",
                f"Interference of {show(grip, 'length', unit)} is {share:.2f} % of the ball; a force fit is "
                f"{_percent(inputs.ball)} %. A thin wall spreads instead.",
            )
        )
    notes.append(
        Note(
            "info",
            "A ball closes the hole like a cork: give the air a way out, and try the depth with a loose ball.",
        )
    )
    return notes


def _percent(ball: float) -> str:
    least, most = (100 * share / ball for share in press_range(ball))
    return f"{least:g} to {most:g}"


def _picture(inputs: BallSeatInputs, found: Seat, unit: str) -> Picture:
    """Section: the face at y = 0, the axis at x = 0."""
    radius, half = inputs.ball / 2, inputs.hole / 2
    wide = max(radius, half) * 1.8
    rim = -found.rim_depth if found.rim_depth is not None else 0.0
    outer = radius if found.rim_depth else half
    shapes: list[Shape] = [
        Circle(0, -found.equator_below, radius),
        Line(-wide, 0, -outer, 0, 1),
        Line(outer, 0, wide, 0, 1),
        Line(-half, rim, -half, -found.depth),
        Line(half, rim, half, -found.depth),
        Line(-half, -found.depth, half, -found.depth),
        Line(0, -found.depth - radius / 2, 0, inputs.stand_out + radius / 2, 2),
    ]
    if found.rim_depth:
        shapes += [Line(-outer, 0, -outer, rim), Line(outer, 0, outer, rim)]
        shapes += [Line(-outer, rim, -half, rim), Line(half, rim, outer, rim)]
    ball, hole, deep, out = (
        show(size, "length", unit) for size in (inputs.ball, inputs.hole, found.depth, inputs.stand_out)
    )
    alt = f"A ball of {ball} in a hole of {hole}, {deep} deep, standing out {out}."
    return Picture("seat", "The ball in its hole", tuple(shapes), alt)


OPERATIONS = {
    "ball-seat": Operation(
        id="ball-seat",
        inputs=BallSeatInputs,
        work=_work,
        hazards=("pressing", "drilling"),
        example={"ball": "4", "hole": "4", "stand_out": "1.2"},
        help="How deep to make the hole so that a ball stands out as wanted, where it touches, and what holds it.",
    )
}
