"""Numbers that tell one cause of trouble with a thread from another, where several operations share them."""

from __future__ import annotations

from typing import Any

from engine.base.answer import Answer
from engine.base.quantity import MM_PER_INCH
from engine.base.words import Text, figures, say, shown
from engine.shop.model import Shop


def _number(answer: Answer, name: str) -> float | None:
    return answer.figure(name).value if answer.has(name) else None


def _pitch(inputs: Any) -> float | None:
    size, pitch, tpi = (getattr(inputs, name, None) for name in ("size", "pitch", "tpi"))
    if size is not None:
        return float(size.pitch)
    return float(pitch) if pitch is not None else float(MM_PER_INCH) / float(tpi) if tpi else None


def where_it_binds(inputs: Any, answer: Answer, shop: Shop) -> Text:
    """Where the lead error has eaten the play, else what ten threads should measure."""
    turns = _number(answer, "turns_to_bind")
    if turns is not None:
        return say("binds after about {turns} turns", turns=figures(turns, 1))
    lead, ppm = _number(answer, "lead_cut"), _number(answer, "error_ppm")
    if lead and ppm is not None:
        text = "these wheels cut ten leads in {ten}, {off} millionths off"
        return say(text, ten=shown(10 * lead), off=figures(abs(ppm)))
    pitch = _pitch(inputs)
    return say("ten threads measure {ten}", ten=shown(10 * pitch)) if pitch else ""


def most_pitch_diameter(inputs: Any, answer: Answer, shop: Shop) -> Text:
    """What the screw may measure at most, or the play that it has."""
    over, left = _number(answer, "over_wires_max"), _number(answer, "to_max")
    if over is not None and left is not None and left > 0:
        text = "over wires at most {over}; {left} to go on the diameter"
        return say(text, over=shown(over), left=shown(left))
    if over is not None:
        return say("over wires at most {over}", over=shown(over))
    most, play = _number(answer, "ext_pitch_max"), _number(answer, "diametral_clearance")
    if most is not None:
        return say("pitch diameter at most {most}", most=shown(most))
    return say("play on the pitch diameter: {play}", play=shown(play)) if play is not None else ""


def room_at_the_end(inputs: Any, answer: Answer, shop: Shop) -> Text:
    """Room that the end of the thread needs."""
    width, run_out, pitch = _number(answer, "relief_width"), _number(answer, "run_out"), _pitch(inputs)
    if width is not None:
        return say("relief {width} wide", width=shown(width, decimals=1, side="up"))
    if run_out is not None:
        return say("run-out {long} long", long=shown(run_out, decimals=1, side="up"))
    text = "two incomplete threads take {room}"
    return say(text, room=shown(2 * pitch, decimals=1, side="up")) if pitch else ""
