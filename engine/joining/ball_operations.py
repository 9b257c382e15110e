"""The operation `ball-seat`: a ball in the end of a part."""

from __future__ import annotations

from dataclasses import dataclass

from engine import inputs as ask
from engine.answer import Answer, Circle, Column, Figure, Line, Note, Picture, Shape, Table
from engine.joining.balls import Seat, Way, press_range, seat, ways
from engine.operation import Operation
from engine.quantity import show
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
    table = Table("ways", "Ways to hold it", columns, rows)
    return Answer(
        figures=_figures(inputs, found, every),
        tables=(table,),
        pictures=(_picture(inputs, found),),
        notes=tuple(_notes(inputs, shop, found)),
    )


def _figures(inputs: BallSeatInputs, found: Seat, every: tuple[Way, ...]) -> tuple[Figure, ...]:
    geometry = "geometry of the sphere"
    figures = [
        Figure(
            "depth",
            "Hole, flat bottom, to",
            found.depth,
            "length",
            geometry,
            f"ball {inputs.ball:g} - stand-out {inputs.stand_out:g}",
        ),
        _contact(inputs, found),
        Figure(
            "hold",
            "Hold it by",
            None,
            "text",
            "see the table of ways",
            _hold_words(inputs, found),
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
                f"{found.equator_below:.3f} + {inputs.ball / 2:g} ÷ sin 59° - {inputs.hole / 2:g} ÷ tan 59°",
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
                f"{inputs.ball / 2:g} + square root of ({inputs.ball / 2:g} squared - {inputs.hole / 2:g} squared) - "
                f"{inputs.stand_out:g}",
            )
        )
    figures.append(
        Figure(
            "equator_below",
            "Widest part of the ball below the face",
            found.equator_below,
            "length",
            geometry,
            f"{inputs.ball / 2:g} - {inputs.stand_out:g}; below nought it stands clear of the hole",
        )
    )
    return tuple(figures)


def _contact(inputs: BallSeatInputs, found: Seat) -> Figure:
    if found.rim_depth is None:
        words = "the wall holds it at its widest part, square to the axis"
    else:
        words = f"arc sine of hole {inputs.hole:g} ÷ ball {inputs.ball:g}: it sits on the edge of the hole"
    return Figure(
        "contact_angle",
        "Touches the hole, from the axis, at",
        found.contact_angle,
        "angle",
        "geometry of the sphere",
        words,
        decimals=1,
    )


def _hold(every: tuple[Way, ...]) -> str:
    return ", ".join(way.name for way in every if way.works)


def _hold_words(inputs: BallSeatInputs, found: Seat) -> str:
    difference = inputs.ball - inputs.hole
    how = "larger" if difference > 0 else "smaller"
    below = f"its widest part {found.equator_below:.3f} mm below the face"
    return f"ball {abs(difference):.3f} mm {how} than the hole, {below}"


def _notes(inputs: BallSeatInputs, shop: Shop, found: Seat) -> list[Note]:
    notes = []
    unit = shop.unit
    if found.equator_below <= 0:
        text = (
            f"The ball stands out by half of it or more: the wall cannot grip it. Keep the stand-out under "
            f"{show(inputs.ball / 2, 'length', unit)}."
        )
        notes.append(Note("warning", text))
    grip = inputs.ball - inputs.hole
    if found.rim_depth is None and grip > 0.0005 * inputs.ball:
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


def _picture(inputs: BallSeatInputs, found: Seat) -> Picture:
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
    alt = (
        f"A ball of {inputs.ball:g} mm in a hole of {inputs.hole:g} mm, {found.depth:.3f} mm deep, standing out "
        f"{inputs.stand_out:g} mm."
    )
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
