"""Every figure and input by name, written from the declarations: `python -m tests.glossary` makes the list anew.

A figure shows only in some answers, so the names come from the grid of tests/pins.py.
"""

import csv
import io
from collections import defaultdict
from pathlib import Path

from engine.base.declare import asks
from engine.base.operation import run
from engine.base.quantity import DIMENSIONS
from engine.base.refusals import BadInput
from engine.base.register import CATALOG, load
from engine.shop.file import sample
from tests.engine.test_contract import CONTRACT
from tests.pins import grid

FILE = Path(__file__).parents[1] / "engine" / "data" / "glossary.csv"
HEAD = (
    "# Every input and figure by name: made by `python -m tests.glossary` from the declarations and what they answer.\n"
)


def _promised(operation_id):
    """The calls that between them show every promised figure."""
    for call in CONTRACT[operation_id][3] if operation_id in CONTRACT else ():
        yield dict(word.split("=", 1) for word in call.split())


def listing():
    """The text of engine/data/glossary.csv."""
    labels, units, where, was = defaultdict(dict), defaultdict(set), defaultdict(dict), defaultdict(set)
    shop = sample("metric")
    for entry in CATALOG:
        for name, ask in asks(load(entry.id).inputs).items():
            key = ("input", name)
            labels[key][ask.label] = None
            units[key].add(DIMENSIONS[ask.dimension or "text"].metric)
            where[key][entry.id] = None
        for given in (*grid(entry.id), *_promised(entry.id)):
            try:
                answer = run(entry.id, given, shop).answer
            except BadInput:
                continue
            for figure in answer.figures:
                key = ("figure", figure.name)
                labels[key][figure.label] = None
                units[key].add("setting" if figure.setting else DIMENSIONS[figure.dimension].metric)
                where[key][entry.id] = None
                was[key] |= {figure.was} - {""}
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(("kind", "name", "unit", "meaning", "operations", "was"))
    for key in sorted(labels):
        unit = " or ".join(sorted(units[key]))
        writer.writerow(
            (*key, unit, "; ".join(list(labels[key])[:3]), " ".join(where[key]), " ".join(sorted(was[key])))
        )
    return HEAD + out.getvalue()


if __name__ == "__main__":
    FILE.write_text(listing(), encoding="utf-8")
