"""What a quick line means: `M10`, `3/8 unf`, `#7`, `div 37`, `three-wires size=M10 wire=0.895`, or plain words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from typing import TYPE_CHECKING

from engine.base.declare import asks
from engine.base.kinds import Ask
from engine.base.operation import Operation
from engine.base.records import dataclass, field, replace
from engine.base.refusals import BadInput
from engine.base.register import CATALOG, PANES, Entry, load
from engine.base.tables import rows
from tui.commands import COMMANDS, Command

if TYPE_CHECKING:
    from engine.safety.rows import Row
    from tui.session import Session

_DRILL = re.compile(r"(?i)\#\s?\d{1,3}|[a-z]|\d+\s\d+/\d+|\d+/\d+\"?|\d*[.,]?\d+\s?(mm|in|\"|thou)?")
_LONGEST_LINE = 200  # characters of a quick line that are read
_PLACE = re.compile(r"(?i)(?:step|line|pass|hole|cut|turn)\s+\d+(?: of line \d+)?")  # as a job asks for it
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
    aims: str = ""  # the number that was typed behind "to", or straight behind the first
    crossed: tuple[str, ...] = ()  # those behind an x, which no optional field is meant for
    setting: tuple[str, ...] = ()  # of the shop: its place in the file


def _place(entry: Entry) -> str:
    return next(pane.title for pane in PANES if pane.id == entry.pane)


def _to(entry: Entry, values: Sequence[str] = (), named: dict[str, str] | None = None) -> Destination:
    named = named or {}
    told = ", ".join([*values, *(f"{k} {v}" for k, v in named.items())])
    title = f"{entry.title}: {told}" if told else entry.title
    return Destination(title, _place(entry), entry.id, tuple(values), named)


_LITTLE = (
    "a an and are at by can cut do does for from get how i in into is it make me much my need of off on or please show"
    " the this to use want way what when where which will with x"
)
_PARTED = re.compile(r"(?i)\b(?:part|cut) off\b")
_FILL = frozenset(_LITTLE.split())
_NUMBER = re.compile(r"(?i)[+-]?(?:\d+(?:[.,]\d+)?|[.,]\d+|\d+/\d+|\d+-\d+/\d+)(?:mm|in|inch|\"|thou|deg|d|°)?")
_UNITS = frozenset(("mm", "in", "inch", "thou", "deg", "rpm"))
_CODE = re.compile(r"(?i)[a-z]{1,2}\d{1,2}(?:/[a-z]{1,2}\d{1,2})?")
_FAMILIES = (
    "x - unf unc unef un ba bsp bsw bsf bspp bspt whit whitworth npt acme tr lh rh left left-hand stub buttress me"
)
_IN_A_THREAD = frozenset(_FAMILIES.split())
# Where values alone lead.
_BY_KINDS = {
    frozenset(("number", "material")): ("turning-speed", "hole-plan"),
    frozenset(("material",)): ("turning-speed",),
    frozenset(("fit", "number")): ("fit", "ream", "turn-to-size"),
    frozenset(("fit",)): ("fit",),
    frozenset(("thread", "material")): ("tap-drill", "screwcutting"),
}
_TROUBLES = 8  # troubles that are listed at most
_CAUTIONS = 4
_LONGEST_SPAN = 3  # words of one value: 3/8 - 24 unf
_TITLE, _NEAR = 1.8, 0.6  # how much a word counts in a title, and when only its beginning fits


def _spelt(word: str) -> str:
    """A word as both spellings have it: centre and center, vice and vise, gauge and gage, colour and color.

    >>> _spelt("centre") == _spelt("center"), _spelt("vise") == _spelt("vice"), _spelt("gage") == _spelt("gauge")
    (True, True, True)
    """
    word = word.lower()
    if len(word) > 4 and word.endswith("tre"):
        word = word[:-2] + "er"
    word = word.replace("gauge", "gage").replace("our", "or").replace("alumini", "alumin").replace("grey", "gray")
    if word.endswith(("ice", "ise", "ize")):
        word = word[:-2] + "se"
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


def _words_of(text: str) -> list[str]:
    return [_spelt(w) for w in re.findall(r"[a-z0-9]+", text.lower())]


@cache
def _index() -> tuple[tuple[Entry, dict[str, float]], ...]:
    """Each operation with its words and what each counts: a word of many operations says little."""
    more = {row["operation"]: row["words"] for row in rows("looked_for.csv")}
    every = []
    for entry in CATALOG:
        found = dict.fromkeys(_words_of(f"{_place(entry)}"), 0.5)
        found |= dict.fromkeys(_words_of(entry.words), 1.0)
        for word in _words_of(more.get(entry.id, "")):
            found[word] = max(found.get(word, 0.0), 1.0) + 0.6  # said twice it counts twice
        for word in _words_of(f"{entry.id} {entry.title}"):
            found[word] = max(found.get(word, 0.0), _TITLE)
        every.append((entry, found))
    shared: dict[str, int] = {}
    for _, found in every:
        for word in found:
            shared[word] = shared.get(word, 0) + 1
    return tuple((entry, {w: c / shared[w] ** 0.5 for w, c in found.items()}) for entry, found in every)


def _worth(word: str, there: dict[str, float]) -> float:
    """What a word that was typed counts among an operation's words; nought if it is none of them."""
    if word in there:
        return there[word]
    if len(word) < 2:
        return 0.0
    return max((count * _NEAR for known, count in there.items() if known.startswith(word)), default=0.0)


@dataclass(frozen=True)
class _Phrase:
    """What was typed, taken apart: threads, numbers, fits, materials, and the words that are left."""

    words: tuple[str, ...]
    values: tuple[tuple[str, str], ...]  # (kind, as typed)
    named: dict[str, str]
    aims: str = ""
    crossed: tuple[str, ...] = ()

    def kinds(self) -> set[str]:
        return {kind for kind, _ in self.values}


def _taken_apart(text: str) -> _Phrase:
    text = _PARTED.sub("parting", text)
    tokens = text.replace("?", " ").split()
    named = dict(t.split("=", 1) for t in tokens if "=" in t[1:])
    tokens = [t for t in tokens if "=" not in t[1:]]
    words: list[str] = []
    values: list[tuple[str, str]] = []
    at, aims = 0, ""
    crossed: list[str] = []
    while at < len(tokens):
        for size in range(min(_LONGEST_SPAN, len(tokens) - at), 0, -1):
            span = " ".join(tokens[at : at + size])
            if kind := _kind(span):
                values.append((kind, span))
                before = tokens[at - 1].lower() if at else ""
                if before == "to" or (kind == "number" and [("number", before)] == values[:-1]):
                    aims = span
                crossed += [span] if before == "x" else []
                at += size
                break
        else:
            words += [w for w in re.findall(r"[a-z0-9]+", tokens[at].lower()) if w not in _FILL]
            at += 1
    if not words and not values:  # nothing but little words: they are what is looked for
        words = re.findall(r"[a-z0-9]+", text.lower())
    return _Phrase(tuple(_spelt(w) for w in words), tuple(values), named, aims, tuple(crossed))


def _kind(span: str) -> str:
    """What a span of words is: a fit, a number, a thread, a material; "" for plain words."""
    from engine.cutting.materials import is_named
    from engine.threads.designation import is_thread  # loads when something is typed, not at the first paint

    first, *rest = span.split()
    if any(c.isdigit() for c in span):
        if _NUMBER.fullmatch(span) and not ("-" in span[1:] and is_thread(span)):
            return "number"
        if len(rest) == 1 and rest[0].lower() in _UNITS and _NUMBER.fullmatch(first):
            return "number"
        if is_thread(span) and all(w.lower() in _IN_A_THREAD or _NUMBER.fullmatch(w) for w in rest):
            return "thread" if not rest or "x" in rest or not _NUMBER.fullmatch(span.replace(" ", "")) else ""
        if _FIT.fullmatch(span) or (not rest and _CODE.fullmatch(span) and not span.lower().startswith("m")):
            return "fit"
        return "number" if not rest and span.startswith("#") and _DRILL.fullmatch(span) else ""
    return "material" if is_named(span) and len(span) > 2 else ""


def _ranked(phrase: _Phrase) -> list[Entry]:
    """The operations that the words mean, the likeliest first; those that miss a word after those that miss none."""
    scored: list[tuple[float, int, Entry]] = []
    asked = phrase.words
    extra = tuple(w for kind, text in phrase.values if kind == "material" for w in _words_of(text))
    for order, (entry, there) in enumerate(_index()):
        worths = [_worth(w, there) for w in asked]
        hit = sum(1 for w in worths if w)
        if asked and hit * 2 < len(asked):
            continue
        score = sum(worths) + sum(0.3 * _worth(w, there) for w in extra) - 3.0 * (len(asked) - hit)
        scored.append((score + _suits(entry, phrase), -order, entry))
    scored.sort(key=lambda s: s[:2], reverse=True)
    return [entry for _, _, entry in scored]


def _suits(entry: Entry, phrase: _Phrase) -> float:
    """How well an operation takes the values: what it has no field for counts against it."""
    if not phrase.values:
        return 0.0
    kinds = set(entry.takes.split())
    fit = 0.0
    for kind, _ in phrase.values:
        takes = {"thread": kinds & {"thread"}, "material": kinds & {"material"}, "fit": kinds & {"fit"},
                 "number": kinds & {"number"}}[kind]  # fmt: skip
        fit += 0.5 if takes else -1.2
    if "needs-thread" in kinds and not any(k == "thread" or "/" in text for k, text in phrase.values):
        fit -= 1.0
    return fit


def _commands(words: Sequence[str]) -> list[Command]:
    found, more = [], {row["operation"]: row["words"] for row in rows("looked_for.csv")}
    for c in COMMANDS:  # not by their help, which quotes what may be typed
        there = dict.fromkeys(_words_of(f"{c.id} {c.label} {more.get(c.id, '')}"), 1.0)
        if not c.id.startswith("pane-") and words and all(_worth(w, there) for w in words):
            found.append(c)
    return found


@cache
def _troubles() -> tuple[tuple[str, str, dict[str, float]], ...]:
    """Each trouble's id and symptom, and the words of its symptom and cause."""
    return tuple(
        (row["id"], row["symptom"], dict.fromkeys(_words_of(f"{row['symptom']} {row['cause']}"), 1.0))
        for row in rows("trouble/troubles.csv")
    )


@cache
def _operation_of() -> dict[str, str]:
    """The first operation that each trouble belongs to."""
    found: dict[str, str] = {}
    for entry in CATALOG:
        for name in entry.troubles.split():
            found.setdefault(name, entry.id)
    return found


def _elsewhere(words: Sequence[str]) -> list[Destination]:
    """Troubles, settings of the shop and cautions that hold every word."""
    if not words or not any(len(w) > 3 for w in words):
        return []
    meant = [(name, symptom) for name, symptom, there in _troubles() if all(_worth(w, there) for w in words)]
    where = _operation_of() if meant else {}
    found = [
        Destination(f"Trouble: {symptom}", "trouble", where[name], command="trouble")
        for name, symptom in meant[:_TROUBLES]
        if name in where
    ]
    return [*found[:4], *_settings(words), *_cautioned(words)]


@cache
def _hazards() -> tuple[tuple[Row, dict[str, float]], ...]:
    """Each caution with the words of its hazard and of what comes of it."""
    from engine.safety.rows import every_row

    return tuple((row, dict.fromkeys(_words_of(f"{row.hazard} {row.consequence}"), 1.0)) for row in every_row())


def _cautioned(words: Sequence[str]) -> list[Destination]:
    """Cautions that hold every word: in the first operation whose work they belong to; the general ones wherever one is."""
    meant = [row for row, there in _hazards() if all(_worth(w, there) for w in words)]
    found = []
    for row in meant[:_CAUTIONS]:
        kinds = set(row.hazards)
        where = next((entry.id for entry in CATALOG if kinds & set(entry.hazards.split())), "")
        found.append(Destination(f"Caution: {row.hazard}", "caution", where, command="cautions"))
    return found


def _settings(words: Sequence[str]) -> list[Destination]:
    from engine.shop.model import Shop

    found = []
    for name, ask in asks(Shop).items():
        parts = asks(ask.part).items() if ask.part is not None else ()
        inside = (((name, inner), f"{ask.label}: {one.label}") for inner, one in parts)
        for place, label in (((name,), ask.label), *inside):
            if all(_worth(w, dict.fromkeys(_words_of(label), 1.0)) for w in words):
                found.append(Destination(f"Shop: {label}", "setting", command="shop", setting=place))
    return found[:4]


def _named_setting(words: Sequence[str]) -> list[Destination]:
    """The setting of the shop whose own name was typed, where no operation's title has those words."""
    if not words or any(set(words) <= set(_words_of(f"{one.id} {one.title}")) for one in CATALOG):
        return []
    return [one for one in _settings(words) if set(_words_of(one.title.rpartition(": ")[2])) == set(words)][:1]


def _bare(text: str, here: str) -> list[Destination]:
    """Destinations for a value with no words before it."""
    from engine.threads.designation import is_thread

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


def _by_value(text: str, here: str, phrase: _Phrase) -> list[Destination]:
    """Where values lead that no word stands by."""
    ids = _BY_KINDS.get(frozenset(phrase.kinds()), ())
    if not ids:
        return _bare(text, here)
    values = tuple(value for _, value in phrase.values)
    return [_to(entry, values) for i in ids for entry in CATALOG if entry.id == i]


def destinations(text: str, pane: str = "", here: str = "") -> list[Destination]:
    """Where a quick line may lead, the likeliest first; an empty one lists the operations, those of `pane` first.

    `here` is the open operation: a thread typed while it asks for one goes there first. Words, threads, numbers and
    materials may stand in any order.

    >>> [d.title for d in destinations("div 37")][:1], [d.operation for d in destinations("3/8 unf")][:1]
    (['Divide a circle: 37'], ['thread-limits'])
    >>> destinations("step 17")[0].command
    'jobs'
    >>> destinations("spindle bore")[0].title, destinations("collets")[0].title
    ('Shop: Lathe: Spindle bore', 'Shop: Collets')
    >>> destinations("M12x1 tap")[0].title, destinations("speed 18 brass")[0].title
    ('Tapping drill: M12x1', 'Turning speed: 18, brass')
    """
    text = " ".join(text.split())[:_LONGEST_LINE]
    if _PLACE.fullmatch(text):
        return [Destination("A place in a job: open the job, then / and the place", "command", command="jobs")]
    if not text:
        return [_to(e) for e in sorted(CATALOG, key=lambda e: e.pane != pane)]
    phrase = _taken_apart(text)
    found = [] if phrase.named or (phrase.words and len(text) > 1) else _by_value(text, here, phrase)
    first, _, behind = text.partition(" ")
    values = tuple(value for _, value in phrase.values)
    for entry in CATALOG:
        if entry.id == first.lower():
            plain = " ".join(t for t in behind.split() if "=" not in t[1:])
            found.append(_to(entry, values or ((plain,) if plain else ()), phrase.named))
    if phrase.words or (phrase.values and not found):
        ranked = (_to(entry, values, phrase.named) for entry in _ranked(phrase))
        found += [replace(one, aims=phrase.aims, crossed=phrase.crossed) for one in ranked]
    if phrase.kinds() == {"material"} and not phrase.words:  # "steel" may be a steel rule or a steel ball too
        found += [_to(entry) for entry in _ranked(_Phrase(tuple(_words_of(text)), (), {}))]
    if not phrase.values:
        found = [*_named_setting(phrase.words), *found]
    labels = (
        [Destination(c.label, "command", command=c.id) for c in _commands(_words_of(text))] if len(text) > 1 else []
    )
    unique: dict[tuple[str, str, str], Destination] = {}
    for place in [*found, *labels, *_elsewhere(_words_of(text) if not phrase.values else phrase.words)]:
        unique.setdefault(
            (place.operation, place.command, place.title if place.where in ("setting", "caution") else ""), place
        )
    return list(unique.values())


def given_for(destination: Destination, unit: str) -> dict[str, str]:
    """The values of a destination by input name: a bare one goes to the first field that can read it."""
    operation = load(destination.operation)
    given = dict(destination.named)
    values = [*destination.values]
    aimed = asks(operation.inputs).get("to")
    if destination.aims and aimed and "to" not in given and _reads(aimed, "to", destination.aims, unit):
        given["to"] = destination.aims
        values.remove(destination.aims)
    for value in values:
        value = _coarse(operation, value, unit)
        name = _reader_of(operation, value, unit, given)
        if name:
            if value not in destination.crossed or asks(operation.inputs)[name].required:
                given[name] = value
            continue
        for piece in (one for one in value.split(" ") if one.lower() != "x"):  # 3 x 20: two values, no drill x
            given[_reader_of(operation, piece, unit, given) or next(iter(asks(operation.inputs)))] = piece
    return given


def _coarse(operation: Operation, value: str, unit: str) -> str:
    """A bare fraction where a thread is asked for is its coarse Unified thread."""
    first = next((a for a in asks(operation.inputs).values() if a.required), None)
    if first is None or first.kind != "thread" or not re.fullmatch(r"\d+/\d+\"?|#\d+", value):
        return value
    return value if _reads(first, "size", value, unit) else f"{value.rstrip(chr(34))} UNC"


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
        if _reads(questions[name], name, value, unit):
            return name
    return ""


def _reads(ask: Ask, name: str, value: str, unit: str) -> bool:
    try:
        ask.read(name, value, unit)
    except BadInput:
        return False
    return True
