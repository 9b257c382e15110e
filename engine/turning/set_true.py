"""Set true: what to move for a reading of the clock, what run-out is left, and what it costs to turn it off."""

from __future__ import annotations

from fractions import Fraction

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note, figure, info, words
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import Sum, mm, num
from engine.base.words import Text, say, shown
from engine.base.words import figures as places
from engine.shop.model import Shop
from engine.situation import Situation
from engine.turning.holding_pictures import true_picture

_CENTRE = "the work is off by half the whole reading: Turning and Boring, 1914"
_LEAST_CUT = 0.02  # mm on the radius that a sharp edge takes: common practice, 0.01 to 0.025
_FEED_MARKS = 0.002  # mm on the radius, feed 0.08 and nose 0.4: f squared / 8 r, geometry
# Whole reading that is usually left, and who says so. [mm]
_CLOCKED = "0.0005 in by the clock: an article on lathe chucks; 0.025 to 0.05 for a beginner: an art school's page"
_GRIPPED = "0.05 to 0.15 mm of a three-jaw chuck in use: four sources, the middle taken"
_LEFT = {"four": (0.0127, _CLOCKED), "three": (0.1, _GRIPPED)}
_WORDS = {"four": ("four", "4", "four-jaw", "independent"), "three": ("three", "3", "three-jaw", "self-centring")}


@dataclass(frozen=True, slots=True, kw_only=True)
class SetTrueInputs:
    """What `set-true` is told.

    reading: The whole reading, from its least to its most.
    jaws: Four independent ones, or a self-centring three-jaw.
    asked: The whole reading that will do.
    screw: Travel of one jaw for a turn of its screw: the key's turns are told then.
    finish: On the radius: the least that cuts.
    """

    reading: float = ask.length("Clock moves in a turn", high=50, example="0.3")
    jaws: str = ask.text("Jaws", default="four", example="four")
    asked: float = ask.length("Run-out allowed", default=0.02, high=5, example="0.02")
    screw: Fraction | None = ask.travel("Jaw moves per turn", low=0.1, high=20, example="1.25", empty="not known")
    finish: float = ask.length("Least last cut", default=_LEAST_CUT, low=0.001, high=1, example="0.02")


def _jaws(text: str) -> str:
    plain = text.strip().lower().removesuffix(" jaws").replace(" jaw", "-jaw")
    for name, said in _WORDS.items():
        if plain in said:
            return name
    raise BadInput("jaws", text, "four or three")


def _work(inputs: SetTrueInputs, shop: Shop) -> Answer:
    jaws = _jaws(inputs.jaws)
    true = inputs.reading <= inputs.asked
    off = mm(inputs.reading) / 2
    lead = _four(inputs, off) if jaws == "four" else _three(off)
    figures = (
        *lead,
        words("state", "It is", "true enough" if true else "not yet true", "the reading beside what is allowed",
              say("{reading} read, {asked} allowed", reading=shown(inputs.reading), asked=shown(inputs.asked))),
        *_allowances(inputs, jaws),
    )  # fmt: skip
    moment = Situation(machine="lathe", held_by=f"{jaws}-jaw", power="off")
    shim = 1.5 * float(off) if jaws == "three" else None
    drawn = true_picture(reading=inputs.reading, move=float(off), jaws=4 if jaws == "four" else 3, shim=shim)
    return Answer(figures, pictures=(drawn,), notes=_notes(inputs, jaws, true), moments=(moment,))


def _four(inputs: SetTrueInputs, off: Sum) -> list[Figure]:
    figures = [figure("move", "Move it across by", off, _CENTRE)]
    if inputs.screw is not None:
        turns = off.known() / mm(inputs.screw)
        figures.append(figure("key_turns", "Turns of the key", turns, "geometry of the jaw's screw", decimals=2))
    return figures


def _three(off: Sum) -> list[Figure]:
    return [
        figure("shim", "Shim under the jaw", num(1.5) * off, "geometry: 1.5 times what the work is off, under the jaw at "
            "the highest reading", decimals=2),
        figure("move", "Which moves it by", off.known(), _CENTRE, "half the reading"),
    ]  # fmt: skip


def _allowances(inputs: SetTrueInputs, jaws: str) -> list[Figure]:
    left, source = _LEFT[jaws]
    need = mm(inputs.reading) + 2 * (mm(_FEED_MARKS) + mm(inputs.finish))
    after = mm(min(left, inputs.reading)) + 2 * (mm(_FEED_MARKS) + mm(inputs.finish))
    why = "run-out + twice (feed marks + least cut), on the diameter: geometry"
    usual, told = min(left, inputs.reading), "a table of holding"
    run_out = Figure("run_out_left", "Run-out usually left", usual, "length", source, told, decimals=3, was="left")
    return [
        run_out,
        figure("allowance", "To turn it true as it is", need, why, decimals=2, side="up"),
        figure("allowance_after", "To turn it true when set", after, why, decimals=2, side="up"),
    ]


def _notes(inputs: SetTrueInputs, jaws: str, true: bool) -> tuple[Note, ...]:
    if true:
        return (info("Tighten all jaws evenly and read once more: the last tightening moves it."),)
    if jaws == "three":
        return (
            info("Mark the jaw at the highest reading. Turn the work in the jaws first: another place may be "
                "nearer true."),
            info("For work that has to be truer: a four-jaw, a collet, jaws bored in place, or turn all of it at "
                "one setting."),
        )  # fmt: skip
    text = say("Bring the highest reading opposite a pair of jaws: slacken the far jaw, tighten the near one until the "
        "clock shows half of {reading} less. Then the other pair. Below {last} only tighten.",
        reading=shown(inputs.reading), last=shown(0.05, decimals=2))  # fmt: skip
    return (info(text),)


def _out(inputs: SetTrueInputs, answer: Answer, shop: Shop) -> Text:
    return say("the clock moves {times} times what is allowed", times=places(inputs.reading / inputs.asked, 1))


OPERATION = Operation(
    id="set-true",
    pane="turning",
    place=70,
    title="Set work true",
    words="true centre clock dial indicator run-out runout four-jaw three-jaw chuck concentric shim adjust reading TIR "
    "allowance",
    machine="lathe",
    inputs=SetTrueInputs,
    work=_work,
    tool="clock",
    hazards=("measuring", "chuck"),
    example={"reading": "0.3"},
    troubles={"TU-01": _out},
    help="Says what to move for a clock's reading, what run-out is usually left, and the allowance that turns it true.",
)
