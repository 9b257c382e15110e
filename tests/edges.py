"""Questions at which an operation begins to answer otherwise: `python -m tests.edges ID ...` looks for them anew.

The grid of tests/pins.py changes one input of the example at a time. Here several are changed at once, by chance; a question
is kept when it makes the engine do what none before it did (another step of the code, note, caution, figure, shape). From
each, every number is moved until the kind of answer changes, and the change is halved down to five figures: the last question
before a limit and the first at it are kept. Each is written down with eight letters that stand for the whole answer, so that
a limit which moves, or a sum that nothing else asks, does not go unseen. `python -m tests.pins` writes the letters anew.
"""

import json
import random
import re
import sys
from decimal import Decimal
from functools import cache
from itertools import pairwise
from pathlib import Path

from engine.base.declare import asks
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.register import CATALOG, load
from engine.base.words import Said
from engine.threads.series import entries, named
from engine.threads.thread import FAMILIES
from engine.trouble import trouble_for
from tests import pins

FOLDER = Path(__file__).parent / "data" / "edges"
TRIES, KEPT, PLAIN, EDGES = 500, 40, 8, 50  # by chance; of them kept, those among them that answer nothing new; limits
FOLDERS = tuple(f"{Path(__file__).parents[1] / 'engine' / name}/" for name in (
    "accuracy", "cutting", "drilling", "indexing", "joining", "knurling", "safety", "slotting", "threads", "trouble", "turning",
))  # fmt: skip
_THREADS = (
    *pins._THREADS, "M3", "M5x0.5", "M16", "M24x2", "M64", "M200x4", "M1.6", "M12x1.75 LH", "1/2-13", "#4-40", "3/4-16 UNF",
    "#10-32", "1-8", "2.5-4", "0 BA", "6 BA", "10 BA", "3/8-16 BSW", "1/4 BSF", "1/4-20 W", "G 1/8", "G 2", "1/2 NPT",
    "1/8-27 NPT", "Rc 3/4", "Rp 1/4", "R 2", "Tr10x2", "Tr40x14(P7)", "Tr36x6 LH", "3/4-6 ACME", "1-5 ACME", "Sq20x4",
    "#2-56", "5/16-24 UNF", "M39x4", "M8x0.75", "1/4", "3/8", "M10x2", "1-12 UN",
)  # fmt: skip
_DIALS = ("mill x", "mill y", "mill z", "2/100", "0.1in/100", "1.25/125")
_WORDS = {
    "tolerance": ("6H", "6g", "6h", "4h", "5H", "7H", "8g", "6e", "4g6g", "2A", "2B", "3A",
        "3B", "1A", "close", "medium", "free", "normal", "H7", "H8", "F8", "H11", "K7", "2G"),
    "fit": ("H7/g6", "H7/p6", "H7/h6", "H8/f7", "H7/k6", "H7/n6", "H9/d9", "H11/c11", "K7/h6", "P7/h6",
        "H7/s6", "H7/h6/x", "h7", "g6", "f7", "k6", "p6", "h9", "H7", "H8", "K7", "P7", "js6"),
    "part": ("ball", "bearing", "brass", "silver steel", "high-speed steel", "magnet", "glued joint", "soft steel"),
    "alloy": ("63/37", "60/40", "97/3", "52/48", "BAg-7", "BAg-3", "CuP 284", "Ag 345", "95/5", "silver solder"),
    "angle": ("0", "7.5", "24d 30m", "51 3/7", "1d 2m 3s", "90", "359", "1 in 20", "1 in 4", "5 5/8", "8d", "118", "30"),
    "standard": ("Morse 0", "Morse 2", "Morse 5", "metric 4", "metric 80", "1:50", "taper pin"),
    "jaws": ("three", "four", "3", "4"),
    "number": ("404", "204", "606", "1212", "9", "810", "25"),
    "wheels": ("20,25,30,127", "20,20,25,30,35,40,45,50,55,60,65", "24,36,48,63,80", "16-24,100", "40,40"),
    "gears": ("24,24,28,32,40,44,48,56,64,72,86,100", "24,48", "30-60", ""),
    "plates": ("15,16,17,18,19,20;21,23,27,29,31,33", "24", "49,37;62", "15-20;21,23,27"),
    "moves": ("3, 4.5, -2", "1,1,1,1,1,1,1", "-0.5", "10", "2.5, 0.25in"),
    "bar": ("10 x 40", "6", "12 x 80", "25 x 30", "8 x 200"),
    **dict.fromkeys(("feed_dial", "move_dial", "depth_dial", "handwheel"), _DIALS),
}  # fmt: skip
_MATERIALS = ("mild steel", "free-cutting brass", "aluminium 6082", "cast iron", "silver steel", "acetal", "tool steel")
_NUMBER = re.compile(r"(-?\d+(?:\.\d+)?)( ?mm| ?in| ?tpi| N| °C)?")
_NEVER = object()


def _value(ask, name, given, example, drawn):
    """What an input is given by chance: its own words, a number about its example, or another input's over again."""
    if ask.choices:
        return drawn.choice(ask.choices)
    typed = given.get(name, example or ask.example)
    number = _NUMBER.fullmatch(typed or "")
    words = _WORDS.get(name, {"thread": _THREADS, "material": _MATERIALS}.get(ask.kind))
    if ask.kind == "diameter" and not number:
        words = ("#7", "F", "13/64", "5.2", "0.35", "#80", "Z", "1in", "25.4", "10.05", "8.33mm", "A", "#1", "3/4")
    if words:
        return drawn.choice(words)
    if not number:
        return typed or ask.example
    others = [one for one in given.values() if _NUMBER.fullmatch(one)]
    if others and drawn.random() < 0.25:
        number = _NUMBER.fullmatch(drawn.choice(others))
        share = drawn.choice((0.5, 0.95, 1, 1.05, 2))
    else:
        share = 10 ** drawn.uniform(-1, 1) if drawn.random() < 0.6 else drawn.uniform(0.8, 1.25)
    value = float(number[1]) * share
    return (f"{value:.0f}" if ask.kind == "count" else f"{Decimal(f'{value:.3g}'):f}") + (number[2] or "")


def _by_chance(operation, bases, drawn):
    """A question made of one that is kept, some of its inputs changed."""
    given = dict(drawn.choice(bases))
    inputs = asks(operation.inputs)
    for name in drawn.sample(sorted(inputs), min(len(inputs), drawn.choice((1, 1, 2, 3, 5)))):
        value = None if drawn.random() < 0.2 else _value(inputs[name], name, given, operation.example.get(name), drawn)
        if value:
            given[name] = value
        else:
            given.pop(name, None)
    return given


def _steps(work):
    """What work() answers, and every step from line to line that the engine's folders took."""
    steps = set()

    def inside(frame, event, arg):
        code = frame.f_code
        last = frame.f_lineno

        def step(frame, event, arg):
            nonlocal last
            if event == "line":
                steps.add((code.co_filename, last, frame.f_lineno))
                last = frame.f_lineno
            return step

        return step if code.co_filename.startswith(FOLDERS) else None

    sys.settrace(inside)
    try:
        return work(), steps
    finally:
        sys.settrace(None)


def _kind(operation, given):
    """What kind of answer a question has: the names and templates in it, without its numbers."""
    try:
        done = run(operation.id, given, pins._shop("metric"))
    except BadInput as refusal:
        return frozenset({("refused", refusal.field, _template(refusal.accepted_text), _template(refusal.said))})
    answer = done.answer
    found = {("figure", f.name, f.low is None, f.high is None, _template(f.working)) for f in answer.figures}
    found |= {("note", _template(note.text)) for note in answer.notes}
    found |= {("caution", c.id, c.word, c.question is None) for c in answer.cautions}
    found |= {("table", t.name, bool(t.rows)) for t in answer.tables}
    for trouble in trouble_for(operation.id, answer, done.inputs, pins._shop("metric")):
        found.add(("trouble", trouble.id, _template(trouble.number)))
    for picture in answer.pictures:
        found |= {("shape", picture.name, type(shape).__name__) for shape in picture.shapes}
        found.add(("alt", picture.name, _template(picture.alt)))
    return frozenset(found)


def _template(text):
    if isinstance(text, Said):
        return (text.template, *(_template(part) for part in text.parts.values()))
    return re.sub(r"[\d./]+", "#", text) if isinstance(text, str) else type(text).__name__


def _edge(operation, given, name, low, high):
    """The two neighbours, to five figures, between which the kind of answer changes."""
    suffix = _NUMBER.fullmatch(given[name])[2] or ""
    whole = asks(operation.inputs)[name].kind == "count"
    step = Decimal(1) if whole else Decimal(10) ** (Decimal(str(max(abs(low), abs(high)))).adjusted() - 4)
    first, last = round(Decimal(str(low)) / step), round(Decimal(str(high)) / step)

    def asked(i):
        return given | {name: f"{(i * step).normalize():f}{suffix}"}

    before, after = _kind(operation, asked(first)), _NEVER
    while abs(last - first) > 1:
        middle = (first + last) // 2
        kind = _kind(operation, asked(middle))
        if kind == before:
            first = middle
        else:
            last, after = middle, kind
    if after is _NEVER:
        after = _kind(operation, asked(last))
    return _change(name, before, after), [asked(first), asked(last)]


def _change(name, before, after):
    """What comes and goes when an input grows past a limit; of a refusal that alone."""
    refused = {one for one in before | after if one[0] == "refused"}
    return {(name, one, one in after) for one in before ^ after if not refused or one in refused}


def _edges(operation, given, seen):
    """The questions on both sides of each limit that was not met before."""
    for name in sorted(given):
        number, ask = _NUMBER.fullmatch(given[name]), asks(operation.inputs)[name]
        if not number or ask.choices or ask.kind in ("thread", "text", "material", "counts"):
            continue
        at = [float(number[1]) * share for share in (0, 0.2, 0.5, 0.8, 1, 1.25, 2, 4)]
        ends = [end * share for end in (ask.low, ask.high) if end is not None for share in (0.9, 1.1)]
        at = sorted(at if number[2] and number[2].strip() in ("in", "tpi") else at + ends)
        kinds = [_kind(operation, given | {name: f"{Decimal(f'{value:.12g}'):f}{number[2] or ''}"}) for value in at]
        for i, (before, after) in enumerate(pairwise(kinds)):
            if _change(name, before, after) - seen:
                change, both = _edge(operation, given, name, at[i], at[i + 1])
                if change - seen:
                    seen |= change | _change(name, before, after)
                    yield from both


# Beside the published pairs: specials, several starts, hands, sides, families that list no pairs.
ODD = (
    *("M10x1.4 special", "M0.5x0.1 special", "M60x9 special", "M16xPh3P1.5", "M10-6H", "M10-LH", "M2x0.25"),
    *("1/4-24 UNS", "4.000-36 UNS", "3/4-16-0.1875L (3 STARTS) UNS-2A", "1/2-20 Whit.S", "Rp 1/2", "Rc 1/2"),
    *("Tr60x11 special", "Tr400x6 special", "Tr40x14(P7)LH-9c", "3/4-6-0.3333L (2 STARTS) ACME-3G"),
    *("1-8 ACME special", "1-8 STUB ACME special", "Sq20x4", "Sq20x8(P4) LH", "1-4 SQUARE (2 STARTS)"),
)


def threads(operation):
    """The smallest, a middle and the largest thread of every family, and odd ones, where an operation takes a thread."""
    sizes = [str(named(known[i])) for known in map(entries, FAMILIES) if known for i in (0, len(known) // 2, -1)]
    for name in (name for name, ask in asks(operation.inputs).items() if ask.kind == "thread"):
        given = {one: text for one, text in operation.example.items() if one not in ("tolerance", "reading", "wire")}
        yield from ({**given, name: size} for size in dict.fromkeys((*sizes, *ODD)))


def questions(operation_id):
    """Questions that between them take the engine through what it can do, and both sides of its limits."""
    operation, drawn = load(operation_id), random.Random(operation_id)
    known = set()
    for given in pins.grid(operation_id):
        kind, steps = _steps(lambda given=given: _kind(operation, given))
        known |= kind | steps
    bases, plain = [dict(operation.example)], 0
    for _ in range(TRIES):
        given = _by_chance(operation, bases, drawn)
        kind, steps = _steps(lambda given=given: _kind(operation, given))
        answers = len(kind) > 1
        if len(bases) < KEPT and ((kind | steps) - known or (answers and plain < PLAIN)):
            plain += answers and not (kind | steps) - known
            known |= kind | steps
            bases.append(given)
    edges, seen = [], set()
    alone = [{**operation.example, name: ask.example} for name, ask in asks(operation.inputs).items() if ask.example]
    for given in (*alone, *bases):
        edges += _edges(operation, given, seen)
    asked = [json.dumps(one) for one in (*bases[1:], *edges[: 2 * EDGES], *threads(operation))]
    return [json.loads(one) for one in dict.fromkeys(asked)]


def letters(operation_id, given):
    """Eight letters for all that is answered."""
    return pins._digest(
        json.dumps(pins._line(operation_id, given, "metric", "mm", heads=True), ensure_ascii=False), "mm"
    )


def path(operation_id):
    """Where an operation's edges are kept."""
    return FOLDER / f"{operation_id}.jsonl"


@cache
def kept(operation_id):
    """The questions that are written down, with their letters."""
    return [json.loads(line) for line in path(operation_id).read_text(encoding="utf-8").splitlines()]


def write_down(operation_id, asked):
    """Write these questions with what is answered now."""
    lines = [json.dumps([letters(operation_id, given), given], ensure_ascii=False) for given in asked]
    path(operation_id).write_text("".join(f"{line}\n" for line in lines), encoding="utf-8")


if __name__ == "__main__":
    for one in sys.argv[1:] or [entry.id for entry in CATALOG]:
        write_down(one, questions(one))
