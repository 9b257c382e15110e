"""How the work is held and driven now: told once for a set-up, quantities and not yes or no, and read by every caution."""

from __future__ import annotations

import re
from collections.abc import Iterable

from engine.base.answer import Caution
from engine.base.declare import choice, flag, length, read
from engine.base.records import dataclass, fields
from engine.base.refusals import BadInput
from engine.base.words import Text, bare, say
from engine.situation import Situation

HELD_BY = (
    *("three-jaw", "four-jaw", "soft jaws", "collet", "between centres", "faceplate", "threaded stub", "arbor"),
    *("dividing head", "vice", "V-block", "clamps", "hand"),
)
SUPPORTS = ("none", "centre", "fixed steady", "travelling steady")


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUp:
    """One holding of the work. What is not told is None: nobody knows it.

    grip: How much of it the jaws hold.
    stick_out: From the jaws to the end of what is cut.
    rear: How far the bar sticks out at the rear with nothing round it. 0: not at all.
    power: Whether the machine can start while hands are in it.
    """

    machine: str | None = choice("Machine", ("lathe", "mill", "bench"), required=False, empty="the operation's own")
    held_by: str | None = choice("Held by", HELD_BY, required=False, empty="not told")
    grip: float | None = length("Gripped length", required=False, empty="not told", example="20")
    stick_out: float | None = length("Stands out", required=False, empty="not told", example="40")
    support: str | None = choice("Support", SUPPORTS, required=False, empty="not told")
    rear: float | None = length("Bar behind the headstock", low=-1e-9, required=False, empty="not told", example="0")
    power: str | None = choice("Power", ("on", "unplugged"), required=False, empty="not told")
    tap_driven_by: str | None = choice("Tap driven by", ("hand", "spindle"), required=False, empty="not told")
    reverse: bool | None = flag("Cuts in reverse", required=False, empty="not told")
    off_centre: bool | None = flag("Work off centre", required=False, empty="not told")


def situation_of(set_up: SetUp) -> Situation:
    """What a set-up says of the moment.

    >>> situation_of(SetUp(held_by="collet", stick_out=30.0)).stick_out
    30.0
    """
    return Situation(**as_kept(set_up))  # type: ignore[arg-type]


def _label(name: str) -> str:
    return "out" if name == "stick_out" else name.replace("_", " ")


def in_short(moment: Situation) -> tuple[Text, ...]:
    """What is known of how the work is held, a few words each, lengths without their unit.

    >>> from engine.base.words import write
    >>> [write(text) for text in in_short(Situation(machine="lathe", held_by="collet", stick_out=18.0, rear=0.0))]
    ['lathe', 'collet', 'out 18.0', 'no bar at the rear']
    """
    out: list[Text] = [words for words in (moment.machine, moment.held_by) if words]
    out += [
        say(f"{_label(name)} {{length}}", length=bare(length, decimals=1))
        for name, length in (("grip", moment.grip), ("stick_out", moment.stick_out), ("rear", moment.rear))
        if length is not None and (length > 0 or name != "rear")
    ]
    out += ["no bar at the rear"] if moment.rear is not None and moment.rear <= 0 else []
    out += [{"none": "no support"}.get(moment.support, moment.support)] if moment.support else []
    out += [{"on": "power on"}.get(moment.power, moment.power)] if moment.power else []
    out += [f"tap by {moment.tap_driven_by}"] if moment.tap_driven_by else []
    out += ["in reverse"] if moment.reverse else []
    return (*out, "off centre") if moment.off_centre else tuple(out)


def wanted(moment: Situation, cautions: Iterable[Caution]) -> str:
    """What of the set-up is not told and would let cautions be worked out, in short; "" where nothing is.

    >>> line = Caution("CHK-05", "WARNING", "It may lever out.", tell=("grip", "stick_out"))
    >>> wanted(Situation(), [line]), wanted(Situation(grip=20.0), [line])
    ('grip, out', 'out')
    """
    named = {name for caution in cautions for name in caution.tell}
    told = (f.name for f in fields(SetUp))
    return ", ".join(_label(name) for name in told if name in named and getattr(moment, name) in (None, ""))


def read_set_up(text: str, unit: str = "mm") -> SetUp:
    """A set-up written in one line, as at the shell. BadInput names the part that cannot be used.

    >>> read_set_up("grip=20, stick_out=1in, support=none").stick_out
    25.4
    """
    given: dict[str, str] = {}
    for piece in re.split(r"[,;]\s*(?=[A-Za-z_-]+\s*=)", text.strip().strip(",;")):
        name, equals, value = piece.partition("=")
        if not equals:
            raise BadInput("set_up", piece, "name=value with commas between, such as grip=20, support=none")
        given[name.strip().replace("-", "_")] = value.strip()
    return read(SetUp, given, unit=unit)


def as_kept(set_up: SetUp) -> dict[str, str | float | bool]:
    """A set-up as a job keeps it: what was told, lengths in mm. `read(SetUp, ...)` takes it back.

    >>> read(SetUp, as_kept(SetUp(grip=20.0, reverse=True))) == SetUp(grip=20.0, reverse=True)
    True
    """
    return {f.name: value for f in fields(SetUp) if (value := getattr(set_up, f.name)) is not None}
