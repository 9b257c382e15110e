"""What stands behind the card of a job: workings, sources and every caution, on request. Data only."""

from __future__ import annotations

from collections.abc import Mapping

from engine.base.answer import Caution, Figure, Table
from engine.base.records import dataclass
from engine.base.words import Text
from engine.jobs.card import grouped
from engine.jobs.run import Worked, WorkedStep
from engine.safety import general_rules


@dataclass(frozen=True, slots=True)
class Working:
    """How one step of the card was worked out, and its cautions in full."""

    number: int
    title: str
    figures: tuple[Figure, ...]
    tables: tuple[Table, ...]
    notes: tuple[Text, ...]
    cautions: tuple[Caution, ...]


@dataclass(frozen=True, slots=True)
class Behind:
    """The general rules, the workings in the order of the card, and every source with the number it is named by."""

    rules: tuple[Caution, ...]
    workings: tuple[Working, ...]
    sources: Mapping[str, int]


def behind(worked: Worked) -> Behind:
    """What stands behind the card of a recipe worked out for a shop.

    >>> from pathlib import Path
    >>> from engine.jobs.library import new_text
    >>> from engine.jobs.recipe import read
    >>> from engine.jobs.run import resolve
    >>> from engine.shop.file import sample
    >>> behind(resolve(read(new_text("Shim", "mm"), Path("shim.toml")), sample("metric"))).workings[0].title
    'Read the drawing'
    """
    workings = tuple(_working(number, group[0]) for number, group in enumerate(grouped(worked.steps), 1))
    sources: dict[str, int] = {}
    for working in workings:
        named = [one.source for one in working.figures] + [one.source for one in working.tables]
        for source in filter(None, [*named, *(one.source for one in working.cautions)]):
            sources.setdefault(source, len(sources) + 1)
    return Behind(general_rules(), workings, sources)


def _working(number: int, step: WorkedStep) -> Working:
    answer = step.answer
    if answer is None:
        return Working(number, step.step.title, (), (), (), step.cautions)
    tables = tuple(table for table in answer.tables if table is step.table or not table.aside)
    notes = tuple(note.text for note in answer.notes)
    return Working(number, step.step.title, answer.figures, tables, notes, step.cautions)
