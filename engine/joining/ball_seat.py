"""Ball seat: how deep the hole so that a ball stands out as wanted, where it touches, and what holds it."""

from __future__ import annotations

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note, Table, figure, heads, info, warning, words
from engine.base.operation import Operation, tells
from engine.base.records import dataclass
from engine.base.sums import deg, mm, root, sin, tan
from engine.base.words import Text, general, say, shown
from engine.base.words import figures as places
from engine.joining.balls import Seat, Way, press_range, seat, ways
from engine.joining.joint_pictures import ball_picture
from engine.shop.model import Shop
from engine.situation import Situation

_WAYS_SOURCE = (
    "press: 0.001 to 0.0025 of the diameter, handbook text in the public domain; retain: a bearing maker's guide to "
    "adhesive joints; stake: common practice, no source; solder: a copper tube handbook's least gap, the most from memory"
)
_NOTICED_GRIP = 0.0005  # of the ball: less interference is none that a thin wall feels; common practice


@dataclass(frozen=True, slots=True, kw_only=True)
class BallSeatInputs:
    """What `ball-seat` is told.

    ball: Measured.
    hole: Reamed, or as measured.
    stand_out: From the end face to the top of the ball.
    """

    ball: float = ask.length("Diameter of the ball", low=0.2, high=200, example="4")
    hole: float = ask.diameter("Diameter of the hole", low=0.1, high=220, example="4")
    stand_out: float = ask.length("Ball stands out", low=0.01, high=200, example="1.2")


def _work(inputs: BallSeatInputs, shop: Shop) -> Answer:
    found = seat(ball=inputs.ball, hole=inputs.hole, stand_out=inputs.stand_out)
    every = ways(ball=inputs.ball, hole=inputs.hole, found=found)
    columns = (
        *heads(way="Way", works="Works here", hole_low=("Hole from", "length"), hole_high=("to", "length")),
        *heads(asks="Needs"),
    )
    rows = tuple((w.name, "yes" if w.works else "no", w.hole_low, w.hole_high, w.asks) for w in every)
    table = Table("ways", "Ways to hold it", columns, rows, source=_WAYS_SOURCE)
    moment = Situation(machine="bench", part="ball", ball=inputs.ball, hold=" ".join(w.name for w in every if w.works),
        hollow=True if any(w.works and w.name == "solder" for w in every) else None)  # fmt: skip
    sunk = found.depth, found.equator_below, found.rim_depth
    drawn = ball_picture(inputs.ball, inputs.hole, inputs.stand_out, *sunk)
    figures, notes = _figures(inputs, found, every), tuple(_notes(inputs, found))
    return Answer(figures, (table,), (drawn,), notes, moments=(moment,))


def _figures(inputs: BallSeatInputs, found: Seat, every: tuple[Way, ...]) -> tuple[Figure, ...]:
    held = ", ".join(way.name for way in every if way.works) or "none of these: see the hole each way asks for"
    geometry = "geometry of the sphere"
    out, radius, half = mm(inputs.stand_out), mm(inputs.ball / 2), mm(inputs.hole / 2)
    on_edge = found.rim_depth is not None
    deep = mm(inputs.ball, "ball {}") - mm(inputs.stand_out, "stand-out {}")
    figures = [
        Figure("depth", "Depth, flat bottom, at least" if on_edge else "Depth, flat bottom", found.depth, "length",
               geometry, say("{sum}; deeper is free, the edge carries it", sum=deep) if on_edge else deep,
               side="up" if on_edge else "nearest"),
        *_contact(inputs, found),
        words("hold", "Hold it by", held, "see the table of ways", _hold_words(inputs, found)),
    ]  # fmt: skip
    if found.point_depth is not None:
        to_point = radius - out + radius / sin(deg(59)) - half / tan(deg(59))
        figures.append(
            figure("point_depth", "Depth, drilled bottom", to_point, "geometry of a 118 degree point, to full diameter")
        )
    if found.rim_depth is not None:
        rim = radius + root(radius**2 - half**2) - out
        figures.append(Figure("rim_depth", "Edge below the face", found.rim_depth, "length", geometry, rim))
    below = radius - out
    figures.append(figure("equator_below", "Middle below the face", below, geometry,
        say("{sum}; below zero it stands clear of the hole", sum=below)))  # fmt: skip
    return tuple(figures)


def _contact(inputs: BallSeatInputs, found: Seat) -> tuple[Figure, ...]:
    """Where the hole touches the ball; nothing for a ball that only rests on the bottom."""
    if found.contact_angle is None:
        return ()
    working: Text
    if found.contact_angle < 90:
        working = say("arc sine of ({hole} ÷ {ball}), hole by ball: the edge of the hole touches it",
            hole=mm(inputs.hole), ball=mm(inputs.ball))  # fmt: skip
    elif inputs.ball - inputs.hole > 1e-9:
        working = "90°: the wall grips it at its widest part, square to the axis"
    else:
        working = "90°: the wall just touches it at its widest part, square to the axis, without a grip"
    source = "geometry of the sphere"
    return (
        Figure("contact_angle", "Touches, from the axis", found.contact_angle, "angle", source, working, decimals=1),
    )


def _hold_words(inputs: BallSeatInputs, found: Seat) -> Text:
    difference = inputs.ball - inputs.hole
    than: Text = "the size of"
    if abs(difference) > 1e-9:
        than = say("{size} {way} than", size=shown(abs(difference)), way="larger" if difference > 0 else "smaller")
    return say("ball {than} the hole, its widest part {middle} {where} the face", than=than,
        middle=shown(abs(found.equator_below)), where="below" if found.equator_below >= 0 else "above")  # fmt: skip


def _notes(inputs: BallSeatInputs, found: Seat) -> list[Note]:
    notes = []
    grip = inputs.ball - inputs.hole
    least, most = press_range(inputs.ball)
    if found.rim_depth is not None:
        notes.append(info("The hole is too small for the ball to go in: it sits on the edge. A press fit wants {most} "
            "or more.", most=shown(inputs.ball - most)))  # fmt: skip
    elif found.equator_below <= 0:
        notes.append(warning("The ball stands out by half of it or more: the wall cannot grip it. Keep the stand-out "
            "under {half}.", half=shown(inputs.ball / 2)))  # fmt: skip
    if grip < -1e-9:
        notes.append(info("The ball is {loose} loose in the hole: it rests on the bottom, and the wall does not centre "
            "it.", loose=shown(-grip)))  # fmt: skip
    if found.rim_depth is None and found.equator_below > 0 and grip > _NOTICED_GRIP * inputs.ball:
        notes.append(info("Interference of {grip} is {share} % of the ball; a force fit is {least} to {most} %. A thin "
            "wall spreads instead.", grip=shown(grip), share=places(100 * grip / inputs.ball, 2),
            least=general(100 * least / inputs.ball), most=general(100 * most / inputs.ball)))  # fmt: skip
    return [
        *notes,
        info("A ball closes the hole like a cork: give the air a way out, and try the depth with a loose ball."),
    ]


OPERATION = Operation(
    id="ball-seat",
    pane="joining",
    place=40,
    title="Seat a ball in a screw",
    words="ball stand out seat press socket swivel end tip stake peen depth hole steel bearing proud retain solder",
    machine="bench",
    inputs=BallSeatInputs,
    work=_work,
    hazards=("pressing", "adhesive", "soldering", "drilling"),
    example={"ball": "4", "hole": "4", "stand_out": "1.2"},
    troubles={"BA-01": tells("{depth} at full diameter, from the clean face")},
    help="How deep to make the hole so that a ball stands out as wanted, where it touches, and what holds it.",
)
