"""A trial with the mate, in words: "binds after 4 turns", "0.1 along". It says what to take off, or that the part is past it.

A screw binds where the error of its lead has eaten the room on the flanks, so each turn farther costs the same cut: two
trials with the size measured before each tell how much. Play along a thread is the room on its flanks by the flank's angle.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from math import floor, radians, tan
from typing import Literal

from engine.base.kinds import Ask
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.words import Text, figures, say, shown
from engine.jobs.aims import INSIDE
from engine.threads.fit import lead_effect

_FARTHEST = 10.0  # of its diameter: no mate of a thread or a fit is so long (common practice, no source)
Kind = Literal["free", "will not start", "binds", "along", "loose"]
TAKEN = "binds after 4 turns, binds after 6 mm, will not start, 0.1 along, 0.05 loose, or free"
LEAD_PPM = 250.0  # 0.015 mm on 60 mm: what a lathe's leadscrew is tested to (ISO 1708, from memory, unconfirmed)

_NUMBER = r"(\d+(?:[.,]\d+)?|\.\d+)"
_BINDS = re.compile(rf"(?:binds?|sticks?|stops?|tight)\D*?{_NUMBER}\s*(turns?|mm|in(?:ch)?|\")?|{_NUMBER}\s*(turns?)")
_PLAY = re.compile(rf"{_NUMBER}\s*(mm|in(?:ch)?|\")?")
_FREE = re.compile(r"free|fits|runs|goes on|good")
_NOT = re.compile(r"(?:not|won'?t|n'?t|no)\b.*(?:start|enter|go)|too (?:big|tight|thick)")
_ALONG = re.compile(r"along|play|axial|end")
_LOOSE = re.compile(r"loose|shake|slack|across|rattle|wobble")


@dataclass(frozen=True, slots=True)
class Trial:
    """One trial as it was told: `amount` is turns (`in_turns`) or mm; `size` what was measured before it, if anything."""

    kind: Kind
    amount: float
    in_turns: bool
    told: str
    size: float | None = None


@dataclass(frozen=True, slots=True)
class Joint:
    """What is tried: the measure's kind; of a thread its lead and flank angle; how long it is engaged. `line` is what one
    line of the dial takes off the measure. [mm, deg]"""

    kind: str
    engaged: float
    lead: float | None = None
    half_angle: float = 30.0
    line: float = 0.0


@dataclass(frozen=True, slots=True)
class Tried:
    """What a trial means: `take` is what has still to come off the measure, `room` what lies between the two, where the
    trial says it [mm]; `says` are sentences."""

    take: float | None
    room: float | None
    says: tuple[Text, ...]


def read_trial(text: str, unit: str) -> Trial:
    """A trial as typed; a bare number is in the unit of the screen.

    >>> read_trial("binds after 4 turns", "mm")
    Trial(kind='binds', amount=4.0, in_turns=True, told='binds after 4 turns', size=None)
    >>> read_trial("0,1 mm play along", "mm").amount, read_trial("0.05 loose", "mm").kind
    (0.1, 'loose')
    >>> read_trial("perhaps", "mm")
    Traceback (most recent call last):
    engine.base.refusals.BadInput: tried: perhaps cannot be used; accepted: binds after 4 turns, binds after 6 mm, will not \
start, 0.1 along, 0.05 loose, or free.
    """
    told = " ".join(text.split())
    words = told.casefold()
    if _NOT.search(words):
        return Trial("will not start", 0.0, False, told)
    for kind, pattern in (("along", _ALONG), ("loose", _LOOSE)):
        if pattern.search(words) and (found := _PLAY.search(words)):
            return Trial(kind, _length(found[1], found[2], unit), False, told)  # type: ignore[arg-type]
    if found := _BINDS.search(words):
        number, of = found[1] or found[3], found[2] or found[4] or "turns"
        if of.startswith("turn"):
            return Trial("binds", float(number.replace(",", ".")), True, told)
        return Trial("binds", _length(number, of, unit), False, told)
    if _FREE.search(words):
        return Trial("free", 0.0, False, told)
    raise BadInput("tried", told[:40], TAKEN)


def tells_it_does_not_go(text: str) -> bool:
    """Whether what was found tells of a mate that binds or does not start: there is still something to take off.

    >>> tells_it_does_not_go("binds after 4 turns"), tells_it_does_not_go("free"), tells_it_does_not_go("37.1")
    (True, False, False)
    """
    return tells_a_trial(text) and read_trial(text, "mm").kind in ("binds", "will not start")


def tells_a_trial(text: str) -> bool:
    """Whether what was typed tells how a part goes on its mate, and is no size.

    >>> tells_a_trial("binds after 4 turns"), tells_a_trial("free"), tells_a_trial("12.3 mm"), tells_a_trial("wide")
    (True, True, False, False)
    """
    words = [word for word in re.findall(r"[a-z']{3,}", text.casefold()) if word not in ("thou", "inch", "inches")]
    try:
        return bool(words) and bool(read_trial(text, "mm"))
    except BadInput:
        return False


def _length(number: str, of: str | None, unit: str) -> float:
    ask = Ask("Tried", "length", "", "0.1", True, low=0.0, high=1e3, dimension="length")
    return float(ask.read("tried", f"{number} {of}" if of else number, unit))


def tried(trial: Trial, joint: Joint, earlier: Sequence[Trial] = ()) -> Tried:
    """What a trial means for the part that is being cut.

    trial: the newest
    joint: what is tried
    earlier: the trials before it, the oldest first

    Returns: what to take off, or the room there is.
    Source: the room that an error of lead eats, dE = cot a x the accumulated error, and play along = room x tan a: see
    engine.threads.fit. From two trials: the same cut for each turn, by that law.

    >>> screw = Joint("over wires", engaged=12.0, lead=1.5, line=0.04)
    >>> first = Trial("binds", 4, True, "binds after 4 turns", size=12.52)
    >>> tried(first, screw).take
    0.04
    >>> second = Trial("binds", 6, True, "binds after 6 turns", size=12.48)
    >>> round(tried(second, screw, (first,)).take, 6)
    0.04
    >>> round(tried(Trial("along", 0.1, False, "0.1 along"), screw).room, 4)
    0.1732
    """
    if trial.kind == "free":
        return Tried(0.0, None, ("It goes on its mate: nothing is left to come off.",))
    if trial.kind in ("along", "loose"):
        return _loose(trial, joint)
    return _tight(trial, joint, earlier)


def _loose(trial: Trial, joint: Joint) -> Tried:
    room = trial.amount
    if trial.kind == "along" and joint.lead is not None:
        room = trial.amount / tan(radians(joint.half_angle))
    elif trial.kind == "along":
        return Tried(None, None, ("Play along says nothing of a size that has no flanks: measure it across.",))
    says: tuple[Text, ...] = (
        say("It is past its mate: {room} lies between the two on the diameter. What is cut off does not come back.",
            room=shown(room)),
    )  # fmt: skip
    if trial.size is not None:
        mate = trial.size + (-room if joint.kind in INSIDE else room)
        says += (say("So its mate stands at {mate} by this measure: the next piece can aim at it.", mate=shown(mate)),)
    return Tried(0.0, room, says)


def refuse_too_far(trial: Trial, joint: Joint) -> None:
    """Refuse a trial that goes farther on its mate than any mate is long: a slip of the keys.

    >>> screw = Joint("over wires", engaged=14.0, lead=1.0)
    >>> refuse_too_far(Trial("binds", 25.0, True, "binds after 25 turns"), screw)
    >>> refuse_too_far(Trial("binds", 400.0, True, "binds after 400 turns"), screw)
    Traceback (most recent call last):
    engine.base.refusals.BadInput: tried: binds after 400 turns cannot be used; accepted: up to 140 turns.
    """
    if trial.kind != "binds" or _way(trial, joint) <= _FARTHEST * joint.engaged:
        return
    far: Text = shown(_FARTHEST * joint.engaged, decimals=0)
    if trial.in_turns and joint.lead:
        far = say("{n} turns", n=figures(floor(_FARTHEST * joint.engaged / joint.lead)))
    raise BadInput("tried", trial.told[:40], say("up to {far}", far=far))


def mate_size(trial: Trial, joint: Joint) -> float | None:
    """The mate's size in the terms of this measure, where a trial and the reading before it tell it. [mm]

    >>> screw = Joint("over wires", engaged=12.0, lead=1.5)
    >>> round(mate_size(Trial("along", 0.1, False, "0.1 along", size=12.4), screw), 4)
    12.5732
    """
    room = _loose(trial, joint).room if trial.kind in ("along", "loose") else None
    if room is None or trial.size is None:
        return None
    return trial.size + (-room if joint.kind in INSIDE else room)


def _tight(trial: Trial, joint: Joint, earlier: Sequence[Trial]) -> Tried:
    goes = _way(trial, joint)
    left = joint.engaged - goes
    if trial.kind == "binds" and left <= 0:
        return Tried(0.0, None, ("It goes on for the whole of its length: nothing is left to come off.",))
    each = _each(trial, joint, earlier)
    if each is not None:
        take = max(each * left, joint.line)
        return Tried(take, None, (say("Take off {take}: by the trials before, that is what the {left} left need.",
            take=shown(take), left=_in_words(left, joint, trial)),))  # fmt: skip
    take = joint.line or 0.01
    if joint.lead is not None and trial.kind == "binds":
        take = max(take, lead_effect(length=left, lead_error_ppm=LEAD_PPM, half_angle=joint.half_angle))
    again = (
        "Go over it once more at the same setting first; then take off {take} and try again: two trials with a reading "
    )
    return Tried(take, None, (say(again + "before each tell what is left.", take=shown(take)),))


def _way(trial: Trial, joint: Joint) -> float:
    if trial.kind == "will not start":
        return 0.0
    return trial.amount * joint.lead if trial.in_turns and joint.lead else trial.amount


def _each(trial: Trial, joint: Joint, earlier: Sequence[Trial]) -> float | None:
    """What each mm farther on the mate costs, by the newest trial before this one that was measured too. [mm/mm]"""
    for before in reversed(earlier):
        if before.kind not in ("binds", "will not start") or before.size is None or trial.size is None:
            continue
        way, cut = _way(trial, joint) - _way(before, joint), abs(before.size - trial.size)
        if way > 1e-9 and cut > 1e-9:
            return cut / way
    return None


def _in_words(length: float, joint: Joint, trial: Trial) -> Text:
    if trial.in_turns and joint.lead:
        return say("{turns} turns", turns=figures(length / joint.lead, 1))
    return shown(length, decimals=1)
