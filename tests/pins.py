"""What every operation answered on a grid of inputs, written down before the code moves: `python -m tests.pins ID ...`
writes the files anew after a change that is meant (the diff is read before it is committed); no id: all of them.

One line a question: shop, unit, what was given; then the figures (value, limits, as shown), the cells, the notes and
the cautions in their order, or the refusal. Workings, sources, moments and the shapes of the pictures are held by a
digest each, pictures with their words beside it. A pin holds what is, not what is right: published rows judge that.
"""

import json
import re
import sys
from functools import cache
from hashlib import sha256
from pathlib import Path

from engine.base.declare import asks
from engine.base.operation import run
from engine.base.records import replace
from engine.base.refusals import BadInput
from engine.base.register import CATALOG, load
from engine.base.sums import Sum
from engine.base.words import Said, Shown, write
from engine.shop.file import sample
from engine.trouble import trouble_for
from tui.shell import as_data

FOLDER = Path(__file__).parent / "data" / "pins"
_MATERIALS = ("mild steel", "brass", "aluminium", "stainless steel", "acetal")
_THREADS = ("M6", "M12x1.5", "M10 LH", "1/4-20", "3/8-16 UNC", "2 BA", "G 1/4", "Tr20x8(P4)", "1/2-10 ACME", "R 1/2")
_NUMBERS = ("0", "-1", "0.31", "3", "8", "47", "130", "900")
_BY_KIND = {
    "thread": _THREADS,
    "material": _MATERIALS,
    "flag": ("yes", "no"),
    "count": ("0", "1", "2", "7", "24", "127", "1001"),
    "text": ("ball", "brass", "silver steel", "nonsense"),
}


def grid(operation_id):
    """The questions of one operation: its example, and one input of it changed at a time."""
    operation = load(operation_id)
    example = dict(operation.example)
    yield example
    for name, ask in asks(operation.inputs).items():
        values = ask.choices or _BY_KIND.get(ask.kind) or _NUMBERS
        more = (ask.example, "3/8in") if ask.kind in ("length", "diameter") else (ask.example,)
        for value in (*values, *more, *_near(example.get(name, ask.example)), ""):
            given = {k: v for k, v in {**example, name: value}.items() if v}
            if given != example:
                yield given


def _near(example):
    """Numbers about that of the example: what it says changes near it."""
    number = re.fullmatch(r"(\d+(?:\.\d+)?)( ?mm)?", example or "")
    return [f"{float(number[1]) * share:.4g}{number[2] or ''}" for share in (0.5, 0.9, 1.1, 2)] if number else []


@cache
def _shop(name):
    return sample(name)


def _line(operation_id, given, shop, unit, *, heads=False):
    head = [shop, unit, given]
    try:
        done = run(operation_id, given, _shop(shop), unit=unit)
    except BadInput as refusal:
        return [*head, {"refused": refusal.written(unit)}]
    data = as_data(done, given, unit)
    answer = done.answer
    troubles = trouble_for(operation_id, answer, done.inputs, _shop(shop))
    labels = [(figure.label, figure.dimension, figure.decimals) for figure in answer.figures]
    more = [replace(table, rows=()) for table in answer.tables], labels, [caution.brief for caution in answer.cautions]
    return [
        *head,
        *([_digest(more, unit)] if heads else []),
        {
            "figures": {
                f["name"]: [_short(f["value"]), _short(f["low"]), _short(f["high"]), f["text"]] for f in data["figures"]
            },
            "tables": {t["name"]: [[_short(cell) for cell in row] for row in t["rows"]] for t in data["tables"]},
            "notes": [f"{n['level']}: {n['text']}" for n in data["notes"]],
            "cautions": [
                f"{c['id']} {c['word']} {c['because']}" + (" ?" if c["question"] else "") for c in data["cautions"]
            ],
            "worked": _digest([(f.working, f.source) for f in answer.figures], unit),
            "moments": _digest(answer.moments, unit),
            "pictures": {p.name: [_digest(p.shapes, unit), write(p.alt, unit)] for p in answer.pictures},
            "trouble": [f"{t.id} {write(t.number, unit)}" for t in troubles if t.number],
        },
    ]


def _digest(value, unit):
    """Eight letters that stand for whatever is in it."""
    return sha256(json.dumps(_plain(value, unit), ensure_ascii=False).encode()).hexdigest()[:8]


def _plain(value, unit):
    """Records, texts and numbers as JSON has them; numbers to nine digits, the last may hang on the machine."""
    if isinstance(value, (str, int)) or value is None:
        return value
    if isinstance(value, float):
        return float(f"{value:.9g}")
    if isinstance(value, (tuple, list)):
        return [_plain(one, unit) for one in value]
    if isinstance(value, (Said, Shown, Sum)):
        return write(value, unit)
    names = getattr(type(value), "__dataclass_fields__", None)
    if names is None:
        return str(value)
    return [type(value).__name__, *(_plain(getattr(value, name), unit) for name in names)]


def _short(value):
    """A number to twelve digits: the last ones may differ with the library of sines."""
    return float(f"{value:.12g}") if isinstance(value, float) else value


def lines(operation_id):
    """Every answer of the grid as a line of JSON, each once."""
    found = {}
    for i, given in enumerate(grid(operation_id)):
        for shop, unit in (("metric", "mm"), ("metric", "inch"), ("inch", "inch")):
            if i == 0 or shop == "metric":
                found[json.dumps(_line(operation_id, given, shop, unit), ensure_ascii=False)] = None
    return list(found)


def path(operation_id):
    """Where an operation's pins are kept."""
    return FOLDER / f"{operation_id}.jsonl"


def main(ids):
    """Write the pins of these operations, and the letters of their edges."""
    from tests import edges

    for operation_id in ids or [entry.id for entry in CATALOG]:
        path(operation_id).write_text("\n".join(lines(operation_id)) + "\n", encoding="utf-8")
        known = edges.path(operation_id).exists()
        edges.write_down(
            operation_id, [given for _, given in edges.kept(operation_id)] if known else edges.questions(operation_id)
        )


if __name__ == "__main__":
    main(sys.argv[1:])
