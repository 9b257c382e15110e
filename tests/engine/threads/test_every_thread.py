"""Every designation of every family, through every operation that takes a thread: an answer, or a refusal in words."""

import re

import pytest

from engine.base.declare import asks
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.register import CATALOG, load
from engine.shop.file import sample
from engine.threads.designation import parse
from engine.threads.limits import limits
from engine.threads.series import entries, named
from engine.threads.thread import FAMILIES
from tests.edges import ODD
from tests.rows import each_row

EVERY = [str(named(entry)) for family in FAMILIES for entry in entries(family)] + list(ODD)
NOT_GIVEN = ("tolerance", "reading", "wire")  # of one thread only
ASKED = [
    (entry.id, name) for entry in CATALOG for name, ask in asks(load(entry.id).inputs).items() if ask.kind == "thread"
]


def _given(operation, field, size):
    given = {name: text for name, text in load(operation).example.items() if name not in NOT_GIVEN}
    if operation == "thread-fit":
        across = f"{limits(parse(size)).pitch_basic:.4f}mm"
        given |= {"screw_pitch_diameter": across, "nut_pitch_diameter": across}
    return {**given, field: size}


@pytest.mark.parametrize(("operation", "field"), ASKED)
def test_every_thread_is_answered_or_refused_in_words(operation, field):
    shop, answered = sample("metric"), 0
    for size in EVERY:
        try:
            done = run(operation, _given(operation, field, size), shop)
        except BadInput as refusal:
            assert str(refusal).startswith(f"{refusal.field}: "), size
            assert len(str(refusal)) > 30, size
        else:
            answered += 1
            assert done.answer.figures, size
    assert answered, "it refused every thread"
    assert operation != "screwcutting" or answered == len(EVERY)


def test_they_are_as_many_as_the_tables_hold():
    assert len(EVERY) > 1100
    assert len(ASKED) >= 12


@each_row("size", ["17 BA", "25 BA", "W 21.8x1/14", "0.30 UNM", "M300x8", "6-16 UN", "5-2 ACME", "Sq20x4"])
@each_row("operation", ["thread-limits", "tap-drill"])
def test_the_smallest_and_the_largest_are_answered(operation, size):
    assert run(operation, {"size": size}, sample("metric")).answer.figures


PAIRS = [
    *("M10x1.4", "M13x1", "M310x4", "M7.5x0.9", "M60x9", "M0.9x0.2", "M15", "M10 fine", "M70", "Tr60x11", "Tr12x5"),
    *("Tr200x10", "Tr60", "Tr13x2", "1/4-24", "1/4-28 UNC", "7-8 UN", "1 UNC", "10", "12", "5", "9", "0.3-90"),
    *("1/2-20 BSW", "3/7 BSW", "7-3 BSW", "1/4 ME", "1/4-30 ME", "3/4-20 BSB", "1/4-30 BSC", "1-8 ACME", "6-2 ACME"),
    *("1-8 STUB ACME", "6 STUB ACME", "G 3/7", "R 7", "5/7 NPT", "26 BA", "S 0.75", "S 5", "W 30", "Sq20", "10x1.4"),
    *("13x1.7", "W 1/2", "W 1/14", "1/8-28 NPT"),
]


@each_row("text", PAIRS)
def test_every_writing_that_a_refusal_names_works(text):
    """What stands behind "write", "are", "is", "may be", "pair of": each is read, and has limits."""
    with pytest.raises(BadInput) as caught:
        parse(text)
    sentence = str(caught.value).split(": ", 1)[1]
    for size in _named_in(sentence, text):
        thread = parse(size)
        assert limits(thread).pitch_basic > 0, size


def _named_in(sentence, text):
    """Every designation that a refusal offers."""
    meant = re.findall(r"if it is meant, write (.+?), and it is worked", sentence)
    sentence = re.sub(r"; if it is meant.*", "", sentence).replace(text, "")
    patterns = (
        r"\bM[\d.]+(?:x[\d.]+)?",
        r"\bTr[\d.]+x[\d.]+",
        r"(?:#|\b)[\d/-]+(?: \d+/\d+)?-[\d.]+ (?:UNC|UNF|UNEF|UN|BSW|BSF|ME|BSB|BSC|ACME|STUB ACME)\b",
        r"\b\d+ BA\b",
        r"\b(?:G|R) \d[\d /]*\d?",
        r"\b\d[\d/ ]* NPT\b",
        r"\b[\d.]+ UNM\b",
        r"\bW [\d.]+x1/14",
        r"\bSq\d+x\d+",
        r"\b1/2 BSW\b",
    )
    return meant + [found.strip(" .") for pattern in patterns for found in re.findall(pattern, sentence)]
