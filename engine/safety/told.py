"""Answers to the questions that cautions ask, each belonging to the words and numbers it was asked in."""

from __future__ import annotations

from collections.abc import Mapping

from engine.base.records import dataclass
from engine.base.words import Text, write


@dataclass(frozen=True, slots=True)
class Told:
    """Yes or no to a question as it was put, in a set-up; empty `question`: whatever the question is (the shell's)."""

    yes: bool
    question: str = ""
    set_up: str = ""


def asked_in(question: Text) -> str:
    """The question as it is remembered: in one unit, so that a change of the screen's is no other question."""
    return write(question, "mm")


def answer_to(told: Mapping[str, bool | Told], caution: str, question: Text, set_up: str = "") -> bool | None:
    """What was answered to a question, None where that question was not asked: other numbers or another set-up ask anew.

    >>> answer_to({"A": Told(False, "Over 60 mm?", "chuck")}, "A", "Over 60 mm?", "chuck")
    False
    >>> answer_to({"A": Told(False, "Over 60 mm?", "chuck")}, "A", "Over 18 mm?", "chuck") is None
    True
    """
    answer = told.get(caution)
    if answer is None or isinstance(answer, bool):
        return answer
    holds = not answer.question or (answer.question, answer.set_up) == (asked_in(question), set_up)
    return answer.yes if holds else None
