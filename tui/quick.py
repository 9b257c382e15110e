"""What a quick line means: `M10`, `3/8 unf`, `#7`, `div 37`, `three-wires size=M10 wire=0.895`, or plain words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from engine.base.declare import Ask, asks
from engine.base.operation import Operation
from engine.base.refusals import BadInput
from engine.base.register import CATALOG, PANES, Entry, load
from tui.commands import COMMANDS, Command

if TYPE_CHECKING:
    from tui.session import Session

_DRILL = re.compile(r"(?i)\#\s?\d{1,3}|[a-z]|\d+\s\d+/\d+|\d+/\d+\"?|\d*[.,]?\d+\s?(mm|in|\"|thou)?")
_FIT = re.compile(r"(?i)[a-z]{1,2}\d{1,2}\s?/\s?[a-z]{1,2}\d{1,2}")

# Where a bare value usually leads, the likeliest first.
_FOR_THREAD = ("thread-limits", "tap-drill", "three-wires", "screwcutting", "change-gears", "clearance-hole")
_FOR_DRILL = ("drill-size", "turning-speed", "hole-plan", "knurl-blank", "ream")
_FOR_COUNT = ("divide", "rotary-table", "drill-size", "hole-circle")


@dataclass(frozen=True)
class Destination:
    """A place to go: an operation (with values to put in), or a command."""

    title: str
    where: str  # the pane's title, or "command"
    operation: str = ""
    values: tuple[str, ...] = ()  # unnamed, in the order typed
    named: dict[str, str] = field(default_factory=dict)
    command: str = ""


def _place(entry: Entry) -> str:
    return next(pane.title for pane in PANES if pane.id == entry.pane)


def _to(entry: Entry, values: Sequence[str] = (), named: dict[str, str] | None = None) -> Destination:
    named = named or {}
    told = ", ".join([*values, *(f"{k} {v}" for k, v in named.items())])
    title = f"{entry.title}: {told}" if told else entry.title
    return Destination(title, _place(entry), entry.id, tuple(values), named)


def _score(words: list[str], haystack: str) -> int:
    """How well search words fit: every one must begin a word of the haystack."""
    there = re.findall(r"[a-z0-9]+", haystack.lower())
    total = 0
    for word in words:
        best = max((3 if w == word else 2 if w.startswith(word) else 0 for w in there), default=0)
        if not best:
            return 0
        total += best
    return total


def _ranked(words: list[str]) -> list[Entry]:
    scored = []
    for order, entry in enumerate(CATALOG):
        title = _score(words, entry.title)
        both = _score(words, f"{entry.id} {entry.title} {entry.words}")
        if both:
            scored.append((-(2 * title + both), order, entry))
    return [entry for _, _, entry in sorted(scored, key=lambda s: s[:2])]


def _commands(words: list[str]) -> list[Command]:
    return [
        c for c in COMMANDS if not c.id.startswith("pane-") and _score(words, f"{c.id} {c.label} {c.help}")
    ]


def _bare(text: str, here: str) -> list[Destination]:
    """Destinations for a value with no words before it."""
    from engine.threads.designation import is_thread  # loads when something is typed, not at the first paint

    if _FIT.fullmatch(text):
        ids: tuple[str, ...] = ("fit",)
    elif is_thread(text):
        ids = ((here, *_FOR_THREAD) if here in _FOR_THREAD else _FOR_THREAD) if here else _FOR_THREAD
    elif re.fullmatch(r"\d{2,4}", text):
        ids = _FOR_COUNT
    elif _DRILL.fullmatch(text):
        ids = _FOR_DRILL
    else:
        return []
    found = {entry.id: entry for entry in CATALOG}
    return [_to(found[i], (text,)) for i in dict.fromkeys(ids) if i in found]


def destinations(text: str, pane: str = "", here: str = "") -> list[Destination]:
    """Where a quick line may lead, the likeliest first; an empty one lists the operations, those of `pane` first.

    `here` is the open operation: a thread typed while it asks for one goes there first.

    >>> [d.title for d in destinations("div 37")][:1], [d.operation for d in destinations("3/8 unf")][:1]
    (['Divide a circle: 37'], ['thread-limits'])
    """
    text = " ".join(text.split())
    if not text:
        return [_to(e) for e in sorted(CATALOG, key=lambda e: e.pane != pane)]
    tokens = text.split(" ")
    named = dict(t.split("=", 1) for t in tokens if "=" in t[1:])
    plain = [t for t in tokens if "=" not in t[1:]]
    found = [] if named else _bare(text, here)
    words = [w.lower() for w in plain]
    known = [entry for entry in CATALOG if plain and entry.id == words[0]]
    if known:
        found.append(_to(known[0], (" ".join(plain[1:]),) if plain[1:] else (), named))
    for used in range(len(words), 0, -1):
        values = (" ".join(plain[used:]),) if plain[used:] else ()
        if values and not re.search(r"\d", values[0]):
            continue
        searched = [w for part in words[:used] for w in re.findall(r"[a-z0-9]+", part)]
        found += [_to(entry, values, named) for entry in (_ranked(searched) if searched else [])]
    labels = (
        [Destination(c.label, "command", command=c.id) for c in _commands(words)] if len(text) > 1 else []
    )
    unique: dict[tuple[str, str], Destination] = {}
    for place in [*found, *labels]:
        unique.setdefault((place.operation, place.command), place)
    return list(unique.values())


def given_for(destination: Destination, unit: str) -> dict[str, str]:
    """The values of a destination by input name: a bare one goes to the first field that can read it."""
    operation = load(destination.operation)
    given = dict(destination.named)
    for value in destination.values:
        name = _reader_of(operation, value, unit, given)
        if name:
            given[name] = value
            continue
        for piece in value.split(" "):
            given[_reader_of(operation, piece, unit, given) or next(iter(asks(operation.inputs)))] = piece
    return given


def arrive(session: Session, destination: Destination) -> None:
    """Open a destination's operation with its values in the form and the answer up."""
    try:
        given = given_for(destination, session.unit)
    except Exception:  # an operation that cannot be loaded says so itself, once it is open
        given = {}
    session.open_by_id(destination.operation, given or None)


def _eagerness(ask: Ask) -> tuple[bool, bool, bool]:
    """Needed answers come first, then those that no shop gives; words take anything, so they come last."""
    return ask.kind == "text", ask.from_shop is not None, not ask.required


def _reader_of(operation: Operation, value: str, unit: str, taken: dict[str, str]) -> str:
    questions = asks(operation.inputs)
    by_need = sorted(questions, key=lambda n: _eagerness(questions[n]))
    for name in by_need:
        if name in taken:
            continue
        try:
            questions[name].read(name, value, unit)
        except BadInput:
            continue
        return name
    return ""
