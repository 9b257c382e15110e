"""`thread-fit`: whether a screw runs in its nut, how loose it is, and where it binds."""

from __future__ import annotations

from collections.abc import Iterator

from engine.base.answer import Answer, Figure, Note, figure, words
from engine.base.declare import angle, length, number, thread
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import deg, mm, tan
from engine.base.words import bare, figures, put, say, shown
from engine.shop.model import Shop
from engine.situation import Situation
from engine.threads.faults import most_pitch_diameter, room_at_the_end, where_it_binds
from engine.threads.fit import BINDS, Fit, fit, flank_effect, lead_effect, until_it_binds
from engine.threads.form import addendum, form
from engine.threads.limits import limits
from engine.threads.section_pictures import mated_picture
from engine.threads.sides import check_sloping
from engine.threads.thread import Thread
from engine.threads.told import Form

_LEAD = "dE = cot a x the accumulated error of lead: a metrology course, whose worked example agrees"
_FLANK = "dE = 2 y da ÷ sin 2a for each flank: a metrology course, and derived"
_GEOMETRY = "geometry"


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadFitInputs:
    """What `thread-fit` is told.

    size: The thread of both.
    screw_pitch_diameter: As measured, over wires.
    nut_pitch_diameter: As measured, or as the tap is marked.
    lead_error_ppm: Screw against nut, in parts in a million: the change wheels' error. 500 is 0.05 % of any length.
    engagement: How much of the nut is filled.
    flank_error: Of each flank of the screw, minus when the thread is too sharp.
    """

    size: Thread = thread("Thread", example="M10")
    screw_pitch_diameter: float = length("Screw pitch diameter", high=2000, example="8.92")
    nut_pitch_diameter: float = length("Nut pitch diameter", high=2000, example="9.08")
    lead_error_ppm: float = number(
        "Error of the lead", dimension="ppm", default=0.0, low=-2e5, high=2e5, example="500", empty="none"
    )
    engagement: float | None = length("Length in the nut", high=5000, example="10", empty="1 diameter")
    flank_error: float = angle("Error of the flanks", default=0.0, low=-10, high=10, example="0.5", empty="none")


def _flanks(inputs: ThreadFitInputs, shape: Form) -> float:
    above, off, half = addendum(shape), inputs.flank_error, shape.half_angle
    below = shape.basic_depth - above
    return 2 * flank_effect(flank_error=off, half_angle=half, height_at_crest=above, height_at_root=below)


def _check_sizes(inputs: ThreadFitInputs) -> None:
    """Both pitch diameters lie near the thread's own: one pitch away, another thread was measured."""
    check_sloping(inputs.size, "it binds on the pitch along its axis, not on the pitch diameter")
    basic, pitch = limits(inputs.size).pitch_basic, float(inputs.size.pitch)
    for name in ("screw_pitch_diameter", "nut_pitch_diameter"):
        told = getattr(inputs, name)
        if not basic - pitch <= told <= basic + pitch:
            text = "{low} to {high} (the basic size of {thread} is {basic})"
            low, high = bare(basic - pitch, side="up"), shown(basic + pitch, side="down")
            accepted = say(text, low=low, high=high, thread=str(inputs.size), basic=shown(basic))
            raise BadInput(name, say("{told}", told=shown(told)), accepted)


def _thread_fit(inputs: ThreadFitInputs, shop: Shop) -> Answer:
    size, shape = inputs.size, form(inputs.size)
    _check_sizes(inputs)
    engagement = inputs.engagement if inputs.engagement is not None else size.diameter
    flanks = _flanks(inputs, shape)
    screw, nut, ppm = inputs.screw_pitch_diameter, inputs.nut_pitch_diameter, inputs.lead_error_ppm
    half, lead = shape.half_angle, float(size.lead)
    found = fit(screw, nut, lead, half_angle=half, engagement=engagement, lead_error_ppm=ppm, flanks=flanks)
    figures = tuple(_figures(inputs, shape, found, engagement, flanks))
    drawn = mated_picture(thread=size, screw=screw, nut=nut, state=found.state)
    return Answer(figures, (), (drawn,), tuple(_notes(inputs, found, engagement)), moments=(Situation(thread=size),))


def _figures(inputs: ThreadFitInputs, shape: Form, found: Fit, engagement: float, flanks: float) -> list[Figure]:
    screw, nut, ppm = mm(inputs.screw_pitch_diameter), mm(inputs.nut_pitch_diameter), inputs.lead_error_ppm
    in_lead = lead_effect(length=engagement, lead_error_ppm=ppm, half_angle=shape.half_angle)
    clearance, felt = nut - screw, screw + mm(in_lead) + mm(flanks)
    why_felt = say("{sums}; the lead over the length {over}, then the flanks", sums=felt, over=put(engagement))
    text = "functional screw {screw} in functional nut {nut}"
    why_state = say(text, screw=put(found.functional_screw), nut=put(found.functional_nut))
    of_nut = found.functional_nut, "length", "as measured: the errors are counted on the screw"
    figures_ = [
        words("state", "Result", found.state, _LEAD, why_state),
        figure("diametral_clearance", "Clearance, diametral", clearance, _GEOMETRY),
        figure("functional_screw", "Screw as nut feels it", felt, f"{_LEAD}; {_FLANK}", why_felt),
        Figure("functional_nut", "Nut as screw feels it", *of_nut, say("the pitch diameter {nut}", nut=nut)),
    ]
    if found.clearance > 0:
        play = clearance.known() * tan(deg(shape.half_angle))
        figures_.insert(2, figure("axial_play", "Play along the axis", play, _GEOMETRY))
    if found.to_bind is not None:
        room = max(0.0, found.clearance - flanks)
        lead = float(inputs.size.lead)
        length, turns = until_it_binds(room=room, half_angle=shape.half_angle, lead_error_ppm=ppm, lead=lead)
        in_turns = say("{sums}; the clearance left, and the lead last", sums=turns)
        in_length = say("{sums}; the clearance left", sums=length)
        figures_ += [
            figure("turns_to_bind", "Turns until it binds", turns, BINDS, in_turns, decimals=1, side="down"),
            figure("to_bind", "Length until it binds", length, BINDS, in_length, decimals=1, side="down"),
        ]
    return figures_


def _notes(inputs: ThreadFitInputs, found: Fit, engagement: float) -> Iterator[Note]:
    sizes = limits(inputs.size)
    most, least = sizes.ext_pitch_max, sizes.int_pitch_min
    if most is not None and found.functional_screw > most + 1e-9:
        yield Note("info", f"A GO ring gauge of class {sizes.screw_class} would not pass the screw's whole length.")
    if least is not None and found.functional_nut < least - 1e-9:
        yield Note("info", f"A GO plug gauge of class {sizes.nut_class} would not enter the nut.")
    if found.state == "binds" and found.turns_to_bind is not None:
        text = "It goes on for {turns} turns of the {all}, then binds: shorten the nut, or open it, or mend the lead."
        turns = shown(found.turns_to_bind, "ratio", decimals=1, side="down")
        yield Note("warning", say(text, turns=turns, all=figures(engagement / float(inputs.size.lead), 1)))
    if found.state == "will not start":
        thick = "The screw is as thick as the nut or thicker: measure both, then the flanks."
        tilted = "The pitch diameters would pass, but the flanks take all the clearance: mend the thread's angle."
        yield Note("warning", thick if found.clearance <= 0 else tilted)


OPERATION = Operation(
    id="thread-fit",
    pane="threads",
    place=60,
    title="Screw in its nut",
    words="does the screw fit the nut binds tight loose play clearance lead error backlash functional pitch diameter "
    "sticks jams flank class go gauge",
    inputs=ThreadFitInputs,
    work=_thread_fit,
    hazards=("measuring", "deburring"),
    example={"size": "M10", "screw_pitch_diameter": "8.92", "nut_pitch_diameter": "9.08", "lead_error_ppm": "500"},
    troubles={"TH-01": where_it_binds, "TH-02": most_pitch_diameter, "TH-03": room_at_the_end},
    help="Says whether a screw runs in its nut, how loose it is, and after how many turns it binds.",
)
