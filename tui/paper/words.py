"""Words of the card that every kind of paper has."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from engine.base.answer import Caution
from engine.base.words import Text, write
from engine.jobs.card import Card, LaidOut, Row
from engine.jobs.ticks import Ticks
from engine.safety import deferral, general_line

ROUGHED = "Roughed to"  # what is measured of a surface that a later step finishes
Say = Callable[[Text], str]  # a text in the unit and the words of the shop


def says_title(card: Card) -> bool:
    """Whether what is made begins with the card's title, and so stands in its place."""
    return card.part.startswith(card.title)


def title_of(card: Card) -> str:
    """What stands at the head of the card."""
    return card.part if says_title(card) else card.title


def head_words(card: Card, say: Say, unit: str) -> Iterator[str]:
    """Under the title: what is made, of what, in which unit; where a job stands, and the person's own words to it."""
    if not says_title(card):
        yield say(card.part)
    yield f"{_stock(card, say)} {_units(card, unit)}".strip()
    if card.also:
        yield " ".join(say(line) for line in card.also)
    if card.stands:
        yield say(card.stands)
    yield from (note for note in card.notes)
    if card.about and not card.parts:
        yield say(card.about)


def _stock(card: Card, say: Say) -> str:
    return " ".join(f"Stock: {say(stock)}." for stock in card.stock)


def _units(card: Card, unit: str) -> str:
    named = {"mm": "mm", "inch": "inches"}
    if card.words_in in ("", unit):
        return f"Lengths in {named[unit]}; a dial in its own unit."
    drawn = f"The drawing, the stock and the words of the steps in {named[card.words_in]}"
    behind = ", mm behind them" if card.words_in == "inch" else ""
    return f"{drawn}{behind}; limits, readings and what is set in {named[unit]}; a dial in its own unit."


def laid_out_words(one: LaidOut, say: Say) -> str:
    """What to lay out, and where it is not owned what could stand in."""
    return say(one.what) + ("" if one.owned else f" (NOT OWNED{': ' if one.instead else ''}{one.instead})")


def measured_words(row: Row, say: Say) -> str:
    """What is measured in a row; nothing where its title says it: that size, or that it is roughed to."""
    what = row.measured.what if row.measured else ""
    named = what.removeprefix("Ø").replace("±", "+-")
    return "" if named in row.title or (what == ROUGHED and row.title.startswith("Rough")) else say(what)


def cautions(row: Row, say: Say) -> Iterator[str]:
    """The cautions of a row, each with its word, and the number that raised it where its words have none."""
    for one in row.cautions:
        said, because = say(one.brief or one.text), say(one.because)
        number = f" ({because})" if re.search(r"\d", because) and not re.search(r"\d", said) else ""
        yield f"{one.word}: {said}{number}"


def caution_words(one: Caution, unit: str) -> str:
    """A caution in full: word, hazard, the number that raised it, a question to answer by hand."""
    because = f" ({write(one.because, unit)})" if one.because else ""
    question = f" {write(one.question, unit)} yes / no" if one.question else ""
    return f"{one.word}: {write(one.text, unit)}{because}{question}"


def before_words(say: Say) -> str:
    """The cautions of all work, what the dials are zeroed on, and what outranks the card."""
    first = general_line().removesuffix(" --json lists the general rules.")
    dials = "Dials are zeroed at the touch, the saddle on the face named, unless a row says otherwise."
    return say(f"{first} {dials} A row has its one caution, --full all. {deferral()}")


def tick_words(ticks: Ticks, say: Say) -> tuple[str, Iterator[tuple[int, tuple[bool, ...], str]]]:
    """What holds for all the ticks, and each with what changes at it."""
    always = "; ".join(say(text) for text in ticks.always)
    columns = " · ".join(say(text) for text in ticks.columns)
    head = ". ".join(filter(None, (always, columns)))
    each = ((tick.number, tick.done, " · ".join(say(text) for text in tick.words)) for tick in ticks.rows)
    many = f"{ticks.noun}{'es' if ticks.noun.endswith(('s', 'ch', 'x')) else 's'}".capitalize()
    return f"{many}{': ' if head else ''}{head}", each
