"""The cautions of ordinary cases, to be read by eye: `python -m tests.cautions_table > FILE` writes one table.

For each operation its example and what an ordinary person might ask instead, twenty cases on the metric sample bench:
how many lines in all, how many questions are left, and how often which caution is among the first three.
"""

from collections import Counter
from statistics import median

from engine.base.declare import asks
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.register import CATALOG, load
from engine.base.words import write
from engine.safety.rows import every_row
from engine.shop.file import sample

CASES = 20
_THREADS = ("M5", "M8", "M10", "M12x1.5", "1/4-20 UNC", "3/8-16 UNC")
_MATERIALS = ("mild steel", "free-cutting brass", "aluminium", "stainless steel", "silver steel")
_NAMED = {
    "alloy": ("SAC305", "Sn96Ag4", "BAg-7", "BAg-24", "silver solder"),
    "fit": ("H7/h6", "H7/k6", "H7/n6", "H7/p6", "H8/f7", "H7/s6"),
    "size": ("6.8", "1/4", "F", "3.3", "#29", "10.2"),
    "part": ("brass", "mild steel", "bearing ball", "silver steel pin"),
}
_FACTORS = (0.5, 0.75, 1.25, 1.5, 2.0)


def ordinary(operation_id):
    """The example, with one input at a time changed to what is still ordinary; those that answer."""
    example = dict(load(operation_id).example)
    yield example
    for name, ask in asks(load(operation_id).inputs).items():
        for value in _named(name, ask) or _others(ask, example.get(name)):
            yield {**example, name: value}


def _named(name, ask):
    return () if ask.kind == "thread" else _NAMED.get(name, ())


def _others(ask, now):
    if ask.choices:
        return ask.choices
    if ask.kind == "thread":
        return _THREADS
    if ask.kind == "material":
        return _MATERIALS
    try:
        number = float(now or ask.example)
    except ValueError:
        return ()
    whole = ask.kind == "count"
    return tuple(f"{round(number * by) if whole else round(number * by, 2):g}" for by in _FACTORS)


def cases(operation_id):
    """Up to twenty ordinary cases, worked out."""
    found, shop = [], sample("metric")
    for given in ordinary(operation_id):
        try:
            found.append(run(operation_id, given, shop))
        except BadInput:
            continue
        if len(found) == CASES:
            break
    return found


def table():
    """The rows of the table, in words."""
    hazard = {row.id: row.hazard for row in every_row()}
    yield "| operation | cases | lines, median | questions, most | raised, median | first three (in how many cases) |"
    yield "|---|---|---|---|---|---|"
    for entry in CATALOG:
        done = cases(entry.id)
        every = [one.answer.cautions for one in done]
        first = Counter(caution.id for cautions in every for caution in cautions[:3])
        said = "; ".join(f"{name} {hazard[name]} ({count})" for name, count in first.most_common(5))
        lines = median(len(cautions) for cautions in every)
        asked = max(sum(1 for c in cautions if c.question) for cautions in every)
        by_number = median(sum(1 for c in cautions if write(c.because)) for cautions in every)
        yield f"| {entry.id} | {len(done)} | {lines:g} | {asked} | {by_number:g} | {said or 'none'} |"


if __name__ == "__main__":
    print("\n".join(table()))
